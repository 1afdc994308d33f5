"""Whose the answers on this machine are: the folder they lie in, the number or name, and the section typed here."""

import re
from pathlib import Path

from pastrylab.ground import files
from pastrylab.ground.units import StudentError
from pastrylab.school.named import number_named, section_named, student_named

LONGEST_NAME = 80
_LONGEST = 40  # of what is typed: it must go into the name of a file
_HALF_A_GROUP = re.compile(r"^and\b|\band$|\d\s+or\s+\S*\d")
_NO_NAME = re.compile(r"[<>={}|*?\\]|\.\.|^/")  # a formula, a path, a page's own language


def folder():
    """lessons/my-answers of the workbook in force; outside a workbook, my-answers in the current folder.

    >>> folder().name
    'my-answers'
    """
    workbook = files.workbook()
    return (workbook / "lessons" if workbook else Path.cwd()) / "my-answers"


def student():
    """The name or class number in force: the one typed, else on a class's server the account's own; "" for the class values.
    Raises StudentError where it may not be read.

    >>> student() == student_named(student())
    True
    """
    typed = (folder() / "student.txt").is_file()
    return student_named(_note("student.txt")) if typed else number_named(files.account())[:LONGEST_NAME]


def section():
    """The section typed on this machine, as it counts; "" for none. Raises StudentError as `student`.

    >>> section() == section_named(section())
    True
    """
    return section_named(_note("section.txt"))


def checked(text):
    """A class number, group or name as it counts, "" for none. Raises StudentError for what can be none of them.

    >>> checked(" No. 017 "), checked("23 & 17"), checked("Ana")
    ('17', '17 and 23', 'ana')
    """
    named = number_named(text)
    if re.fullmatch(r"\d+(,\d+)+", named):
        raise StudentError(
            f"{named}, which may be one number or several", "and between the numbers", named.replace(",", " and ")
        )
    if _HALF_A_GROUP.search(named):
        raise StudentError(
            f"{named[:_LONGEST]}, which may be one number or several", "and between the numbers", "17 and 23"
        )
    none = not any(sign.isalnum() for sign in named) or named.startswith(("-", "+")) or _NO_NAME.search(named)
    if named and (none or len(named) > _LONGEST):
        raise StudentError(f"{named[:_LONGEST]} as a class number", "the number you have on the class list", "17")
    return named


def set_student(name, section=None):
    """Remember a name or class number for all lessons, "" for the class values, and a section, None to leave it as it is.

    Returns the name as it counts: a number is the same with noughts before it or a full stop behind. A number handed in
    with before no longer stands on a lesson's last card. Raises OSError where the disk does not take it.

    >>> import tempfile
    >>> from unittest import mock
    >>> with tempfile.TemporaryDirectory() as own, mock.patch.dict("os.environ", PASTRYLAB_WORKBOOK=own):
    ...     set_student("  Class  7 "), set_student("017.")
    ('class 7', '17')
    """
    name = number_named(name)[:LONGEST_NAME]
    folder().mkdir(parents=True, exist_ok=True)
    (folder() / "student.txt").write_text(name + "\n", encoding="utf-8")
    if name:
        (folder() / "number.txt").unlink(missing_ok=True)
    if section is not None:
        (folder() / "section.txt").write_text(section_named(section)[:LONGEST_NAME] + "\n", encoding="utf-8")
    return name


def _note(name):
    path = folder() / name
    try:
        return path.read_bytes().decode("utf-8", "replace")[:LONGEST_NAME] if path.is_file() else ""
    except OSError as error:
        raise StudentError(
            f"{path}, which cannot be read ({error.strerror or error})",
            "a file you may read, for your own numbers to be found",
            "a workbook in a folder of your own",
        ) from None
