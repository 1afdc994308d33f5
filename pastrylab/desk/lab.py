"""JupyterLab on a workbook: the command that starts it, and the settings it and its kernels run in."""

from __future__ import annotations

import importlib.util
import os
import signal
import subprocess
import sys
import tempfile
from pathlib import Path

from pastrylab.ground.errors import StudentError

FIRST_PAGE = "doc/tree/lessons/00-start-here.ipynb"


def lab_command(root: Path, browser: bool = True, first: str = FIRST_PAGE) -> list[str]:
    """The command that starts JupyterLab with ``root`` as the top of its file list, on the page ``first``.

    /doc shows one lesson at a time on the whole page, the list of files folded away behind its symbol; a link to another
    lesson opens it there.
    """
    page = f"/{first}" if (root / first[first.index("lessons/") :]).is_file() else "/lab"
    command = [
        sys.executable,
        "-m",
        "pastrylab.desk.served",
        "jupyterlab",
        f"--LabApp.default_url={page}",
        f"--ServerApp.root_dir={root}",
        # The panel that lists extensions on the internet has nothing for a class, and fails with some versions.
        "--LabApp.extension_manager=readonly",
    ]
    if not browser:
        command.append("--no-browser")
    if os.name == "posix" and os.geteuid() == 0:
        # JupyterLab refuses to run as root unless told; containers and classroom images often are.
        command.append("--allow-root")
    return command


def lab_environment(root: Path) -> dict[str, str]:
    """The environment JupyterLab and, through it, the kernels run in: this process's own, and four settings.

    PASTRYLAB_WORKBOOK tells the package whose files to read. JUPYTER_PREFER_ENV_PATH keeps a kernel that
    another Python registered for the whole account from being started instead of this one's. The folder put
    before JUPYTER_CONFIG_PATH stops the question whether to fetch news from the internet, takes away the bar at the right,
    which holds tools for programmers, and keeps views that die with their kernel out of every file that is saved. That put
    before JUPYTER_PATH holds the template of lessons as pages.
    """
    settings = str(Path(__file__).resolve().parent / "_lab")
    path = os.pathsep.join(filter(None, (settings, os.environ.get("JUPYTER_CONFIG_PATH"))))
    data = os.pathsep.join(filter(None, (f"{settings}/share", os.environ.get("JUPYTER_PATH"))))
    own = {"PASTRYLAB_WORKBOOK": str(root), "JUPYTER_PREFER_ENV_PATH": "1", "JUPYTER_CONFIG_PATH": path}
    own["JUPYTER_PATH"] = data
    return {**os.environ, **own}


def open_lab(root: Path, browser: bool = True, first: str = FIRST_PAGE) -> int:
    """Run JupyterLab on ``root``, opened on the page ``first``, until it is stopped; return its exit status (0 after Ctrl-C)."""
    if importlib.util.find_spec("jupyterlab") is None:
        raise StudentError(
            "a Python without JupyterLab",
            "JupyterLab in the same environment as pastrylab",
            f"{sys.executable} -m pip install jupyterlab",
        )
    if first.startswith("voila/") and importlib.util.find_spec("voila") is None:
        raise StudentError(
            "a Python without Voilà, which shows a lesson as a page",
            "Voilà in the same environment as pastrylab",
            f"{sys.executable} -m pip install voila",
        )
    how = "JupyterLab opens in your browser. If it does not, copy" if browser else "Copy"
    print(f"Workbook: {root}")
    print(f"{how} the address below that begins with http://localhost or http://127.0.0.1 into a browser.")
    print("To stop: close the browser tab, come back to this window and press Ctrl-C twice.", flush=True)
    # What a page says of its layout is saved here, not over the reader's own; see `layouts`.
    with tempfile.TemporaryDirectory(prefix="pastrylab-layout-", ignore_cleanup_errors=True) as layouts:
        environment = {**lab_environment(root), "JUPYTERLAB_WORKSPACES_DIR": layouts}
        return _run_until_stopped(lab_command(root, browser, first), root, environment)


def _run_until_stopped(command: list[str], root: Path, environment: dict[str, str]) -> int:
    """Run a command in ``root``; its exit status, or 0 where SIGTERM or Ctrl-C ended it."""
    lab = subprocess.Popen(command, cwd=root, env=environment)
    stopped = False

    def stop(*_):
        nonlocal stopped
        stopped = True
        lab.terminate()

    if hasattr(signal, "SIGTERM"):
        signal.signal(signal.SIGTERM, stop)
    while True:
        try:
            status = lab.wait()
            return 0 if stopped else status
        except KeyboardInterrupt:
            # JupyterLab gets the same Ctrl-C and asks whether to stop; waiting for its answer is all there
            # is to do.
            stopped = True
