"""A class on one server: one person's working copy beside the class's course folder, and the settings it runs in."""

import os
import pwd
import tempfile
from pathlib import Path

from pastrylab.desk import handout, workbook
from pastrylab.desk.lab import lab_environment
from pastrylab.ground.files import FOLDER_NAME


def teaches() -> bool:
    """Whether the person whose process this is may change the class's course folder (PASTRYLAB_COURSE)."""
    return os.access(os.environ["PASTRYLAB_COURSE"], os.W_OK)


def prepare() -> Path:
    """The folder of the person whose process this is, made or brought up to date: a Path.

    Who may write in the course folder (PASTRYLAB_COURSE) works in that; everybody else in a working copy below
    PASTRYLAB_STUDENTS, taken from the course folder as a hand-out is: nothing of what an instructor ran or laid beside the
    lessons goes along, and nothing of the student's own is touched.
    """
    course = Path(os.environ["PASTRYLAB_COURSE"])
    if teaches():
        workbook.update(workbook.shipped_root(), course, workbook.version())
        root = course
    else:
        root = Path(os.environ["PASTRYLAB_STUDENTS"]) / pwd.getpwuid(os.getuid()).pw_name / FOLDER_NAME
        with tempfile.TemporaryDirectory(prefix="pastrylab-") as given:
            handout.lay_out(course, Path(given))
            workbook.update(Path(given), root, workbook.version())
    workbook.wake(root)
    return root


def environment(root: Path) -> dict[str, str]:
    """What a server on this folder and its kernels run in. The folder of its sockets has a short name: a socket's path
    holds about a hundred characters."""
    runtime = tempfile.mkdtemp(prefix="pl")
    return {**lab_environment(root), "JUPYTER_RUNTIME_DIR": runtime, "JUPYTERLAB_WORKSPACES_DIR": f"{runtime}/w"}

