"""Where the workbook and its datasets lie, and one CSV of them read again only when it has changed."""

import contextlib
import contextvars
import functools
import os
import tomllib
from dataclasses import dataclass
from pathlib import Path

from pastrylab.ground.errors import StudentError

FOLDER_NAME = "pastrylab-workbook"
MANIFEST = ".pastrylab-manifest.json"
SHIPPED = ("lessons", "datasets")
_PACKAGE = Path(__file__).resolve().parent.parent
_looked = contextvars.ContextVar("what was found in this look", default=None)


@contextlib.contextmanager
def one_look():
    """Within it the disk is asked once for each thing: for work that reads tables many times and writes none.

    >>> with one_look():
    ...     data_path("prices.csv") is data_path("prices.csv")
    True
    """
    token = _looked.set({})
    try:
        yield
    finally:
        _looked.reset(token)


def looked_up(find):
    """Decorator for a function that asks the disk: within `one_look` it is called once for the same arguments.

    >>> @looked_up
    ... def asked():
    ...     return object()
    >>> with one_look():
    ...     asked() is asked()
    True
    """

    @functools.wraps(find)
    def found(*given):
        seen = _looked.get()
        if seen is None:
            return find(*given)
        key = (find, *given)
        if key not in seen:
            seen[key] = find(*given)
        return seen[key]

    return found


def is_checkout(folder):
    """Whether a folder holds this project itself: its pyproject.toml, with the lessons and datasets beside it.

    >>> is_checkout(Path("no-such-folder"))
    False
    """
    project = Path(folder) / "pyproject.toml"
    try:
        ours = _is_ours(project)
    except (OSError, ValueError):
        return False
    return ours and all((project.parent / name).is_dir() for name in SHIPPED)


def is_working_copy(folder):
    """Whether a folder is a student's copy: its manifest is there, or, where that went missing in copying, what it lists.

    >>> is_working_copy(Path("no-such-folder"))
    False
    """
    if (folder / MANIFEST).is_file():
        return True
    values = folder / "datasets" / "exercise_values.csv"
    return (folder / "lessons").is_dir() and values.is_file() and not (folder / "pyproject.toml").exists()


def locate(start):
    """The workbook that someone standing in the folder `start` means, as a Path, or None.

    The folder itself or the nearest one above it that is a checkout or a working copy; failing that, a working copy of
    the usual name inside it.

    >>> locate("no-such-folder/lessons") == locate("no-such-folder")
    True
    """
    start = Path(start).resolve()
    for folder in (start, *start.parents):
        if is_working_copy(folder) or is_checkout(folder):
            return folder
    return start / FOLDER_NAME if is_working_copy(start / FOLDER_NAME) else None


@looked_up
def workbook():
    """The workbook in force, as a Path: the one JupyterLab was opened on, else that of the current folder, or None.

    >>> from unittest import mock
    >>> with mock.patch.dict("os.environ", PASTRYLAB_WORKBOOK="my-class"):
    ...     str(workbook())
    'my-class'
    """
    named = os.environ.get("PASTRYLAB_WORKBOOK")
    return Path(named) if named else locate(Path.cwd())


def course():
    """The folder of a class on one server, whose sheets are in force for everybody, as a Path; None on a machine of one's own.

    >>> from unittest import mock
    >>> with mock.patch.dict("os.environ", PASTRYLAB_COURSE="course"):
    ...     str(course())
    'course'
    """
    named = os.environ.get("PASTRYLAB_COURSE")
    return Path(named) if named else None


def students():
    """The folder of the students' own folders on a class's server, as a Path, where this account can look into it; else None.

    >>> from unittest import mock
    >>> with mock.patch.dict("os.environ", PASTRYLAB_STUDENTS="no-such-folder"):
    ...     students() is None
    True
    """
    named = os.environ.get("PASTRYLAB_STUDENTS") if course() else None
    return Path(named) if named and os.access(named, os.R_OK | os.X_OK) else None


def account():
    """The name of one's account on a class's server, as its hub says; "" on a machine of one's own.

    >>> from unittest import mock
    >>> with mock.patch.dict("os.environ", PASTRYLAB_COURSE="course", JUPYTERHUB_USER="17"):
    ...     account()
    '17'
    """
    return os.environ.get("JUPYTERHUB_USER", "") if course() else ""


@functools.cache
def folder():
    """The datasets folder that came with the package (a checkout's own, or the one inside the wheel).

    >>> folder().name
    'datasets'
    """
    packed = _PACKAGE / "_workbook" / "datasets"
    return packed if packed.is_dir() else _PACKAGE.parent / "datasets"


@looked_up
def data_path(name):
    """Path of a dataset (a file, or a folder of them) in force: that of the class on a server, else the workbook folder's,
    else the packaged one.

    >>> data_path("ingredients.csv").name
    'ingredients.csv'
    """
    for root in (course(), workbook()):
        path = root and root / "datasets" / name
        if path and path.exists():
            return path
    return folder() / name


def read_once(read):
    """A reader `read(path, ...)` of one file that reads again only when the file has changed; what it returns is shared.

    Raises OSError where there is no such file.

    >>> @read_once
    ... def lines(path):
    ...     return path.read_text(encoding="utf-8").count("\\n")
    >>> lines(data_path("cocoa_butter.csv"))
    7
    """

    @functools.lru_cache(maxsize=64)
    def kept(path, stamp, *more):
        return read(path, *more)

    @functools.wraps(read)
    def reader(path, *more):
        status = path.stat()
        return kept(path, (status.st_mtime_ns, status.st_size), *more)

    return reader


@read_once  # asked at every look into a table
def _is_ours(project):
    with open(project, "rb") as stream:
        return tomllib.load(stream).get("project", {}).get("name") == "pastrylab"


@read_once
def _read_table(path, table):
    from pastrylab.ground.tables import read_table  # who only asks where a file lies waits for no units

    return read_table(path, table)


@looked_up
def load(name, table):
    """A dataset in force by name, read again when its file has changed. The Sheet is shared: do not write to it.

    table: the Table it must hold. Raises StudentError where there is no such file, or it holds something else.

    >>> from pastrylab.ground.datasets import COCOA_BUTTER
    >>> list(load("cocoa_butter.csv", COCOA_BUTTER)["form"])
    ['I', 'II', 'III', 'IV', 'V', 'VI']
    """
    path = data_path(name)
    if not path.is_file():
        raise StudentError(f"no file {name}", "the file in the datasets folder", f"datasets/{name}")
    return _read_table(path, table)


@dataclass(frozen=True, eq=False)
class Sound:
    """A dataset without its rows at fault: the `sheet` of the others, and `faults`, (cells by column, StudentError) of each.

    >>> from pastrylab.ground.datasets import COCOA_BUTTER
    >>> load_sound("cocoa_butter.csv", COCOA_BUTTER).faults
    ()
    """

    sheet: object
    faults: tuple[tuple[dict, StudentError], ...]


@looked_up
def load_sound(name, table):
    """As `load`, but a row at fault is left out and told in Sound.faults: for a table that is asked row by row, where who
    asks for another row need not wait. Raises StudentError where the file as a whole cannot be read.

    >>> from pastrylab.ground.datasets import COCOA_BUTTER
    >>> len(load_sound("cocoa_butter.csv", COCOA_BUTTER).sheet)
    6
    """
    path = data_path(name)
    if not path.is_file():
        raise StudentError(f"no file {name}", "the file in the datasets folder", f"datasets/{name}")
    return _read_sound(path, table)


@read_once
def _read_sound(path, table):
    from pastrylab.ground.tables import read_table

    faults = []
    sheet = read_table(path, table, None, faults)
    return Sound(sheet, tuple((cells, fault) for _row, cells, fault in faults))
