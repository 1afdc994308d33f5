"""Where the workbook and its datasets lie, and one CSV of them read again only when it has changed."""

import functools
import os
from pathlib import Path

from pastrylab.ground.tables import read_table
from pastrylab.ground.units import StudentError

_PACKAGE = Path(__file__).resolve().parent.parent


def workbook():
    """The folder the student works in (it holds lessons/ and datasets/), or None outside one."""
    named = os.environ.get("PASTRYLAB_WORKBOOK")
    if named:
        return Path(named)
    for folder in (Path.cwd(), *Path.cwd().parents):
        if (folder / "lessons").is_dir() and (folder / "datasets" / "exercise_values.csv").is_file():
            return folder
    return None


@functools.cache
def folder():
    """The datasets folder that came with the package (a checkout's own, or the one inside the wheel)."""
    packed = _PACKAGE / "_workbook" / "datasets"
    return packed if packed.is_dir() else _PACKAGE.parent / "datasets"


def data_path(name):
    """Path of a dataset (a file, or a folder of them) in force: the workbook folder's file, else the packaged one."""
    own = workbook()
    path = own and own / "datasets" / name
    return path if path and path.exists() else folder() / name


@functools.lru_cache(maxsize=64)
def _cached(path, stamp, table):
    return read_table(path, table)


def load(name, table):
    """A dataset in force by name, read again when its file has changed. The frame is shared: do not write to it."""
    path = data_path(name)
    try:
        status = path.stat()
    except OSError:
        raise StudentError(f"no file {name}", "the file in the datasets folder", f"datasets/{name}") from None
    return _cached(path, (status.st_mtime_ns, status.st_size), table)
