"""The workbook on disk: where it is, how a working copy is made and upgraded, and how JupyterLab opens on it.

A working copy is a visible folder holding ``lessons/`` and ``datasets/``. Its manifest records what was put
there, so that an upgrade replaces only what the reader left as it was. What the reader wrote is never
replaced: the newer file is placed beside it, as ``02-tempering.new-0.2.0.ipynb``.
"""

from __future__ import annotations

import hashlib
import importlib.metadata
import importlib.util
import json
import os
import signal
import subprocess
import sys
import tempfile
import time
import tomllib
from dataclasses import dataclass
from pathlib import Path

from pastrylab.desk import stale
from pastrylab.ground.units import StudentError

FIRST_LESSON = "lessons/00-start-here.ipynb"
FOLDER_NAME = "pastrylab-workbook"
MANIFEST = ".pastrylab-manifest.json"
SHIPPED = ("lessons", "datasets")
NOT_SHIPPED = {"my-answers", "__pycache__"}
UNFINISHED = ".pastrylab-unfinished-"


@dataclass(frozen=True)
class Change:
    """What an update did with one file: ``action`` is added, restored, updated, kept, beside or left.

    ``path`` is relative to the workbook, with forward slashes; ``beside`` is the new file next to a kept
    one, or "".
    """

    path: str
    action: str
    beside: str = ""

    def __str__(self) -> str:
        return {
            "added": f"New: {self.path}",
            "restored": f"Was missing, put back: {self.path}",
            "updated": f"Replaced by the newer one: {self.path}",
            "kept": f"Kept as you changed it: {self.path}",
            "beside": f"Kept as you changed it: {self.path}. The newer one is beside it: {self.beside}",
            "left": f"No longer part of the workbook, left where it is: {self.path}",
        }[self.action]


# --- where the workbook is --------------------------------------------------------------------------------


def is_checkout(folder: Path) -> bool:
    """True for a folder with this project's pyproject.toml and its lessons and datasets beside it."""
    try:
        with open(folder / "pyproject.toml", "rb") as stream:
            project = tomllib.load(stream).get("project", {})
    except (OSError, ValueError):
        return False
    return project.get("name") == "pastrylab" and all((folder / name).is_dir() for name in SHIPPED)


def is_working_copy(folder: Path) -> bool:
    return (folder / MANIFEST).is_file()


def locate(start: Path) -> Path | None:
    """The workbook that someone standing in ``start`` means, or None.

    The folder itself or the nearest one above it that is a checkout or a working copy; failing that, a
    working copy of the usual name inside it.
    """
    start = Path(start).resolve()
    for folder in (start, *start.parents):
        if is_working_copy(folder) or is_checkout(folder):
            return folder
    return start / FOLDER_NAME if is_working_copy(start / FOLDER_NAME) else None


def shipped_root() -> Path:
    """The folder whose lessons/ and datasets/ came with this installation; StudentError if none did."""
    package = Path(__file__).resolve().parents[1]
    for root in (package / "_workbook", package.parent):
        if all((root / name).is_dir() for name in SHIPPED):
            return root
    raise StudentError(
        "an installation of pastrylab without its lessons",
        "the whole package, installed again",
        "python -m pip install --force-reinstall --no-deps followed by the name of the wheel you were given",
    )


def version() -> str:
    try:
        return importlib.metadata.version("pastrylab")
    except importlib.metadata.PackageNotFoundError:
        return "0"


# --- telling an edited file from one that was only run ----------------------------------------------------


def shipped_files(root: Path) -> dict[str, Path]:
    """Every file that belongs to the workbook under ``root``: relative path with forward slashes -> path."""
    found = {}
    for name in SHIPPED:
        for path in sorted((root / name).rglob("*")):
            parts = path.relative_to(root).parts
            if path.is_file() and not any(part in NOT_SHIPPED or part.startswith(".") for part in parts):
                found["/".join(parts)] = path
    return found


def _sha256(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def fingerprint(name: str, data: bytes) -> str:
    """A hash of what a reader can have edited: of a lesson the text of its cells, of other files every byte.

    Running a lesson changes its outputs, counts, widget state and ids, and Shift-Enter on the last cell
    adds an empty one; none of that is an edit. A lesson that cannot be read as a notebook is hashed byte by
    byte.
    """
    if name.endswith(".ipynb"):
        try:
            cells = []
            for cell in json.loads(data)["cells"]:
                source = cell["source"]
                text = source if isinstance(source, str) else "".join(source)
                if text.strip():
                    cells.append([cell["cell_type"], text])
            return _sha256(json.dumps(cells).encode())
        except (ValueError, KeyError, TypeError):
            pass
    return _sha256(data)


# --- writing so that nothing is ever half there -----------------------------------------------------------


def write_whole(path: Path, data: bytes) -> None:
    """Write ``data`` in one step: after a crash the old file or the new one is there, never a part of one."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, unfinished = tempfile.mkstemp(prefix=UNFINISHED, dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        # mkstemp makes files private; a class may share a folder, so give the usual permissions back.
        if os.name == "posix":
            mask = os.umask(0)
            os.umask(mask)
            os.chmod(unfinished, 0o666 & ~mask)
        os.replace(unfinished, path)
    except BaseException:
        Path(unfinished).unlink(missing_ok=True)
        raise


def _sweep(folder: Path) -> None:
    """Remove what a killed run left; an hour's grace spares a run that is still going on."""
    for name in SHIPPED:
        for path in (folder / name).rglob(UNFINISHED + "*"):
            if time.time() - path.stat().st_mtime > 3600:
                path.unlink(missing_ok=True)


def read_manifest(folder: Path) -> dict:
    """The manifest, ``{"version": str, "files": {path: {...}}}``; empty where it is missing or torn."""
    empty = {"version": "", "files": {}}
    try:
        found = json.loads((folder / MANIFEST).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return empty
    if not isinstance(found, dict) or not isinstance(found.get("files"), dict):
        return empty
    files = {name: entry for name, entry in found["files"].items() if isinstance(entry, dict)}
    return {"version": str(found.get("version", "")), "files": files}


# --- making and upgrading a working copy ------------------------------------------------------------------


def _beside(target: Path, new_version: str, name: str, data: bytes) -> Path:
    """A free name for ``data`` next to ``target``, or the name of a copy of it that is there already."""
    for number in range(1, 1000):
        again = "" if number == 1 else f"-{number}"
        path = target.with_name(f"{target.stem}.new-{new_version}{again}{target.suffix}")
        if not path.exists() or fingerprint(name, path.read_bytes()) == fingerprint(name, data):
            return path
    raise StudentError(
        f"{target.parent}, full of newer copies of {target.name}",
        "a folder with the old copies moved away",
        f"delete the files named {target.stem}.new-...{target.suffix} that you no longer need",
    )


def _settle(target: Path, name: str, data: bytes, entry: dict, new_version: str) -> tuple[Change | None, dict]:
    """Bring one file up to date; return what was done (None: nothing) and its new entry for the manifest."""
    shipped = {"sha256": _sha256(data), "sources": fingerprint(name, data)}
    if not os.path.lexists(target):
        write_whole(target, data)
        return Change(name, "restored" if entry else "added"), shipped
    there = target.read_bytes() if target.is_file() else None
    if there is not None:
        found = fingerprint(name, there)
        if there == data:
            return None, shipped
        if entry.get("sources") == found:
            if entry.get("sha256") == shipped["sha256"]:
                return None, entry
            write_whole(target, data)
            return Change(name, "updated"), shipped
        if found == shipped["sources"]:
            return None, shipped
    if shipped["sha256"] in (entry.get("sha256"), entry.get("offered")):
        return Change(name, "kept"), entry
    beside = _beside(target, new_version, name, data)
    if not beside.exists():
        write_whole(beside, data)
    change = Change(name, "beside", beside.relative_to(target.parents[name.count("/")]).as_posix())
    return change, {**entry, "offered": shipped["sha256"]}


def update(source: Path, folder: Path, new_version: str) -> list[Change]:
    """Make ``folder`` a working copy of ``source`` (lessons/ and datasets/) or bring it up to date.

    - A file that is not there is added; one that was put there before and is gone is restored, and the
      change says so: a lesson deleted by mistake is the likelier case, and a reader who wants it gone loses
      nothing.
    - A file as it was put there, or a lesson only run since, is replaced if a different one is shipped now.
    - A file the reader changed is kept; the shipped one is placed beside it, once for each different one
      shipped.
    - Any other file is the reader's own and is not touched. Neither is a file that is no longer shipped.
    - Where the manifest is missing or torn, every file that differs from the shipped one counts as changed.

    Each file is written in one step and the manifest last, so a run cut short is finished by the next one.
    Returns the changes in order of path. Raises StudentError where the folder cannot be written.
    """
    try:
        return _update(Path(source), Path(folder), new_version)
    except OSError as error:
        raise StudentError(
            f"the folder {folder} ({error.strerror or error})",
            "a folder you may write in, with none of its files locked by another program",
            f"pastrylab open --folder {Path.home() / FOLDER_NAME}",
        ) from error


def _update(source: Path, folder: Path, new_version: str) -> list[Change]:
    folder.mkdir(parents=True, exist_ok=True)
    _sweep(folder)
    manifest = read_manifest(folder)
    before = manifest["files"]
    after, changes = dict(before), []
    for name, path in shipped_files(source).items():
        change, after[name] = _settle(folder / name, name, path.read_bytes(), before.get(name, {}), new_version)
        changes += [change] if change else []
    if manifest["version"] != new_version:
        gone = set(before) - set(shipped_files(source))
        changes += [Change(name, "left") for name in gone if (folder / name).exists()]
    text = json.dumps({"version": new_version, "files": after}, indent=1, sort_keys=True) + "\n"
    if manifest != {"version": new_version, "files": after} or not is_working_copy(folder):
        write_whole(folder / MANIFEST, text.encode())
    return sorted(changes, key=lambda change: change.path)


def wake(root: Path) -> list[str]:
    """Take out of the lessons what died with the kernel that made it; return the names of the files that changed.

    A file that cannot be read as a notebook, or not be written, is left as it is.
    """
    changed = []
    for path in sorted((root / "lessons").glob("*.ipynb")):
        try:
            notebook = json.loads(path.read_bytes())
            if stale.cleared(notebook):
                write_whole(path, (json.dumps(notebook, indent=1, ensure_ascii=False) + "\n").encode())
                changed.append(path.name)
        except (OSError, ValueError, AttributeError, TypeError):
            continue
    return changed


def prepare(start: Path, folder: Path | None = None, say=print) -> Path:
    """The workbook to open from ``start`` (or in ``folder``), made or updated; ``say`` gets each line.

    A checkout is opened as it is: there the lessons are the source itself.
    """
    if folder:
        root = Path(folder).expanduser().resolve()
    else:
        root = locate(start) or Path(start).resolve() / FOLDER_NAME
    if is_checkout(root):
        if Path(__file__).resolve().parents[2] != root:
            say(f"Note: the lessons are those of {root}, but the package is installed from elsewhere.")
        wake(root)
        return root
    is_new = not is_working_copy(root)
    changes = update(shipped_root(), root, version())
    if is_new and all(change.action == "added" for change in changes):
        say(f"Made your working copy: {root}")
    else:
        for change in changes:
            say(str(change))
    wake(root)
    return root


# --- JupyterLab -------------------------------------------------------------------------------------------


def lab_command(root: Path, browser: bool = True) -> list[str]:
    """The command that starts JupyterLab with ``root`` as the top of its file list, on the first lesson."""
    page = f"/lab/tree/{FIRST_LESSON}" if (root / FIRST_LESSON).is_file() else "/lab"
    command = [
        sys.executable,
        "-m",
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
    """The environment JupyterLab and, through it, the kernels run in: this process's own, and three settings.

    PASTRYLAB_WORKBOOK tells the package whose files to read. JUPYTER_PREFER_ENV_PATH keeps a kernel that
    another Python registered for the whole account from being started instead of this one's. The folder put
    before JUPYTER_CONFIG_PATH stops the question whether to fetch news from the internet, and keeps views that die with
    their kernel out of every file that is saved.
    """
    settings = str(Path(__file__).resolve().parent / "_lab")
    path = os.pathsep.join(filter(None, (settings, os.environ.get("JUPYTER_CONFIG_PATH"))))
    own = {"PASTRYLAB_WORKBOOK": str(root), "JUPYTER_PREFER_ENV_PATH": "1", "JUPYTER_CONFIG_PATH": path}
    return {**os.environ, **own}


def open_lab(root: Path, browser: bool = True) -> int:
    """Run JupyterLab on ``root`` until it is stopped; return its exit status (0 after Ctrl-C)."""
    if importlib.util.find_spec("jupyterlab") is None:
        raise StudentError(
            "a Python without JupyterLab",
            "JupyterLab in the same environment as pastrylab",
            f"{sys.executable} -m pip install jupyterlab",
        )
    how = "JupyterLab opens in your browser. If it does not, copy" if browser else "Copy"
    print(f"Workbook: {root}")
    print(f"{how} the address below that begins with http://localhost or http://127.0.0.1 into a browser.")
    print("To stop: close the browser tab, come back to this window and press Ctrl-C twice.", flush=True)
    lab = subprocess.Popen(lab_command(root, browser), cwd=root, env=lab_environment(root))
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
