"""The workbook on disk: how a working copy is made and upgraded.

A working copy is a visible folder holding ``lessons/`` and ``datasets/``. Its manifest records what was put
there, so that an upgrade replaces only what the reader left as it was. What the reader wrote is never
replaced: the newer file is placed beside it, as ``02-tempering.new-0.2.0.ipynb``.
"""

from __future__ import annotations

import hashlib
import importlib.metadata
import json
import os
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

from pastrylab.desk import stale
from pastrylab.ground.errors import StudentError
from pastrylab.ground.files import FOLDER_NAME, MANIFEST, SHIPPED, is_checkout, is_working_copy, locate

NOT_SHIPPED = {"my-answers", "my-kitchen", "__pycache__"}
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


# --- what came with the package ---------------------------------------------------------------------------


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
    from pastrylab.desk import news  # reads tables: no other command waits for that

    is_new, before = not is_working_copy(root), news.numbers(root)
    changes = update(shipped_root(), root, version())
    if is_new and all(change.action == "added" for change in changes):
        say(f"Made your working copy: {root}")
    else:
        for line in news.said(changes, before, news.numbers(root)):
            say(line)
    wake(root)
    return root
