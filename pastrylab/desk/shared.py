"""A class on one server: one person's working copy beside the class's course folder, and the settings it runs in."""

import grp
import os
import pwd
import subprocess
import sys
import tempfile
from pathlib import Path

from pastrylab.desk import workbook
from pastrylab.desk.carried import lay_out
from pastrylab.desk.lab import lab_environment
from pastrylab.ground.errors import StudentError
from pastrylab.ground.files import FOLDER_NAME

FONTS = "fonts"  # beside the course folder


def lay_ground(home: Path, teachers: str) -> None:
    """As root: make the folders of a class on one server below ``home``, and fill the course folder from what is installed.

    course is the instructors' (the group ``teachers``), and everybody reads it but for my-desk in it, where class list and
    marks lie; students can be entered, not listed; hub is root's alone; fonts holds the list of this machine's. What an instructor has changed in the course folder stays, as in every working copy.
    """
    group = grp.getgrnam(teachers).gr_gid
    folders = (
        ("course", 0o2775, group),
        ("course/my-desk", 0o2770, group),
        ("students", 0o751, group),
        ("hub", 0o700, 0),
    )
    for name, mode, owner in folders:
        (home / name).mkdir(parents=True, exist_ok=True)
        os.chown(home / name, 0, owner)
        (home / name).chmod(mode)
    fill_course(home / "course")
    find_fonts(home / FONTS)


def find_fonts(folder: Path) -> None:
    """Have the fonts of this machine listed in a folder that everybody may read; where that fails, each kernel looks
    for itself."""
    environment = {**os.environ, "MPLCONFIGDIR": str(folder)}
    folder.mkdir(exist_ok=True)
    folder.chmod(0o755)
    subprocess.run([sys.executable, "-c", "import matplotlib.font_manager"], env=environment, check=False)


def _take_fonts(folder: Path) -> None:
    """Lay the list of this machine's fonts where this person's kernels look for it: to make it takes a kernel's first
    figure seconds, where many are installed."""
    own = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "matplotlib"
    for listed in folder.glob("fontlist-*.json"):
        try:
            if not (own / listed.name).exists():
                workbook.write_whole(own / listed.name, listed.read_bytes())
        except OSError:
            return  # the kernel makes its own list, or does without one


def fill_course(course: Path) -> None:
    """As somebody who may write in it: bring the course folder up to what is installed; its group may write as well."""
    mask = os.umask(0o002)
    try:
        workbook.update(workbook.shipped_root(), course, workbook.version())
    finally:
        os.umask(mask)


def room_for(students: Path, account: str, teachers: str) -> None:
    """As root: make the folder of an account of this machine below ``students``; an instructor's account needs none."""
    whose, group = pwd.getpwnam(account), grp.getgrnam(teachers)
    if whose.pw_name not in group.gr_mem and whose.pw_gid != group.gr_gid:
        own_folder(students / whose.pw_name, whose.pw_uid, group.gr_gid)


def own_folder(folder: Path, owner: int, teachers: int) -> None:
    """As root: make a student's folder: theirs, readable by the instructors' group, closed to everybody else.

    Raises StudentError where something else lies there, a link among it.
    """
    folder.mkdir(mode=0o700, exist_ok=True)
    if folder.is_symlink():
        raise StudentError(f"{folder}, which is a link", "a folder, or nothing", "remove the link")
    os.chown(folder, owner, teachers)
    folder.chmod(0o2750)  # what is made in it belongs to the instructors' group as well


def teaches() -> bool:
    """Whether the person whose process this is may change the class's course folder (PASTRYLAB_COURSE)."""
    return os.access(os.environ["PASTRYLAB_COURSE"], os.W_OK)


def prepare() -> Path:
    """The folder of the person whose process this is, made or brought up to date: a Path.

    Who may write in the course folder (PASTRYLAB_COURSE) works in that; everybody else in a working copy below
    PASTRYLAB_STUDENTS, taken from the course folder as a hand-out is: nothing of what an instructor ran or laid beside the
    lessons goes along, and nothing of the student's own is touched. In a container, where every person is the same
    account, PASTRYLAB_OWN names the folder that is this student's alone. Raises StudentError for a course folder without
    lessons.
    """
    course = Path(os.environ["PASTRYLAB_COURSE"])
    if teaches():
        root = course
    elif not any((course / "lessons").glob("*.ipynb")):
        raise StudentError(
            f"{course}, which holds no lessons", "the class's lessons", "let an instructor's server start first"
        )
    else:
        root = _own() / FOLDER_NAME
        with tempfile.TemporaryDirectory(prefix="pastrylab-") as given:
            lay_out(course, Path(given))
            workbook.update(Path(given), root, workbook.version())
    workbook.wake(root)
    _take_fonts(course.parent / FONTS)
    return root


def _own() -> Path:
    named = os.environ.get("PASTRYLAB_OWN")
    return Path(named) if named else Path(os.environ["PASTRYLAB_STUDENTS"]) / pwd.getpwuid(os.getuid()).pw_name


def environment(root: Path) -> dict[str, str]:
    """What a server on this folder and its kernels run in. The folder of its sockets has a short name: a socket's path
    holds about a hundred characters."""
    runtime = tempfile.mkdtemp(prefix="pl")
    return {**lab_environment(root), "JUPYTER_RUNTIME_DIR": runtime, "JUPYTERLAB_WORKSPACES_DIR": f"{runtime}/w"}
