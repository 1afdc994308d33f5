"""What is a reader's own, kept on disk: lessons/my-kitchen of the workbook, a folder a shelf, a plain file a thing.

Each lesson finds there what another has kept, and so does the next day. Whoever wants to can open the files in a
spreadsheet, or carry them to another machine.
"""

import os
import re
from datetime import date
from pathlib import Path

from pastrylab.ground import files
from pastrylab.ground.units import StudentError

FOLDER_NAME = "my-kitchen"
LONGEST_NAME = 60
BEGINS_A_SUM = ("=", "+", "-", "@")  # to a spreadsheet
_FIRST = (".", *BEGINS_A_SUM)
_LARGEST = 2_000_000
# What a file may not be called on one system or another, so that a folder can be carried.
_NOT_IN_A_NAME = re.compile(r'[<>:"/\\|?*\x00-\x1f\x7f]')
_TAKEN = re.compile(r"(con|prn|aux|nul|com\d|lpt\d)(\..*)?", re.IGNORECASE)


def folder():
    """lessons/my-kitchen of the workbook in force; outside a workbook, my-kitchen in the current folder.

    >>> folder().name
    'my-kitchen'
    """
    workbook = files.workbook()
    return (workbook / "lessons" if workbook else Path.cwd()) / FOLDER_NAME


def thing_named(name):
    """A name as a thing is kept under: one space between words. Raises StudentError for one no file can bear.

    >>> thing_named("  dark   truffle ")
    'dark truffle'
    """
    known = " ".join(str(name).split())
    odd = sorted(set(_NOT_IN_A_NAME.findall(known)))
    if (
        not known
        or len(known) > LONGEST_NAME
        or odd
        or known[0] in _FIRST
        or known[-1] == "."
        or _TAKEN.fullmatch(known)
    ):
        given = f"'{known[:LONGEST_NAME]}' as a name" if known else "no name"
        wanted = f"a name of letters, digits and spaces, at most {LONGEST_NAME}"
        raise StudentError(given, wanted, "dark truffle")
    return known


def kept(shelf, ending="csv"):
    """{name: day it was last written} of what stands on a shelf ("formulas", "logs" ...), by name.

    >>> kept("a shelf nobody has used")
    {}
    """
    try:
        found = [path for path in (folder() / shelf).iterdir() if path.suffix == f".{ending}" and path.is_file()]
    except OSError:
        return {}
    found.sort(key=lambda path: path.stem.casefold())
    return {path.stem: date.fromtimestamp(path.stat().st_mtime) for path in found if path.stem[:1] != "."}


def put(shelf, name, text, ending="csv"):
    """Keep a text under a name on a shelf, in place of what stood there; returns its Path.

    Written beside and then put in place, so that no power cut leaves half a file. Raises StudentError for a name no file
    can bear, for more than could be read again, and where the disk does not take it.

    >>> import tempfile
    >>> from unittest import mock
    >>> with tempfile.TemporaryDirectory() as own, mock.patch.dict("os.environ", PASTRYLAB_WORKBOOK=own):
    ...     put("formulas", "dark truffle", "honey,40,g").name, get("formulas", "Dark truffle")
    ('dark truffle.csv', 'honey,40,g')
    """
    path = _place(shelf, name, ending)
    if len(text.encode()) > _LARGEST:
        raise StudentError(f"a text of {len(text):,} letters", f"one of at most {_LARGEST:,}", "the hours that matter")
    beside = path.with_name(f".{path.name}-{os.getpid()}")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        beside.write_text(text, encoding="utf-8", newline="")
        os.replace(beside, path)
    except OSError as error:
        if path.parent.is_dir():
            beside.unlink(missing_ok=True)
        raise StudentError(
            f"a folder that cannot be written to ({path.parent}: {error.strerror or error})",
            "room on the disk and a folder you may write in",
            "move the workbook to a folder of your own",
        ) from None
    return path


def get(shelf, name, ending="csv"):
    """The text kept under a name. Raises StudentError where nothing of that name stands on the shelf, or no text.

    >>> try:
    ...     get("formulas", "never kept")
    ... except StudentError as error:
    ...     print(error)
    You gave 'never kept', which is not kept. Needed...
    """
    path = _place(shelf, name, ending)
    try:
        if path.stat().st_size > _LARGEST:
            raise ValueError("too large")
        return path.read_bytes().removeprefix(b"\xef\xbb\xbf").decode("utf-8")
    except FileNotFoundError:
        held = ", ".join(kept(shelf, ending)) or "nothing yet"
        raise StudentError(f"'{path.stem}', which is not kept", f"one of {held}", "the name in the list") from None
    except (OSError, ValueError):
        given = f"{path.name}, a file that cannot be read as text"
        raise StudentError(given, "a text as a spreadsheet saves it in UTF-8", "CSV UTF-8") from None


def remove(shelf, name, ending="csv"):
    """Take a thing off its shelf, where it stands there. Raises StudentError where the disk does not allow it.

    >>> remove("formulas", "never kept")
    """
    path = _place(shelf, name, ending)
    try:
        path.unlink(missing_ok=True)
    except OSError as error:
        given = f"a file that cannot be removed ({path}: {error.strerror or error})"
        raise StudentError(given, "a folder you may write in", "close the file elsewhere and try again") from None


def _place(shelf, name, ending):
    """Where a thing lies: a name that differs by capitals alone is the same thing, as on Windows and macOS."""
    known = thing_named(name)
    same = next((one for one in kept(shelf, ending) if one.casefold() == known.casefold()), known)
    return folder() / shelf / f"{same}.{ending}"
