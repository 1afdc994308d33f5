"""Handing in: one lesson's answers, with the values they were given under, as one zip in the workbook's hand-in folder."""

import io
import json
import re
import zipfile
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from pastrylab.ground import files
from pastrylab.ground.units import StudentError
from pastrylab.school import answers, engine, term, whose
from pastrylab.school.named import members, number_named, student_named
from pastrylab.school.standing import standing

_LONGEST = 40  # characters of a number or a section


@dataclass(frozen=True)
class HandedIn:
    """A zip that was made: where it lies, its bytes, how many answers are in it, how many of these were given before
    there was a number, the numbers of the lines that could not be read and stayed behind, and the numbers or names under
    which answers stayed behind as another student's.

    >>> HandedIn(Path("lesson-05.zip"), b"", answers=12, unnamed=2).torn
    ()
    """

    path: Path
    data: bytes
    answers: int
    unnamed: int
    torn: tuple = ()
    others: tuple = ()


def class_number(text):
    """A class number as it counts: 17 for "017", "17." and "No. 17"; anything else in lower case, single spaces; of a group
    that worked together "17 and 23".

    Raises StudentError for nothing, or for what cannot be a number, a group or a name.

    >>> class_number(" 017."), class_number("No 17"), class_number("B-12"), class_number("23, 17")
    ('17', '17', 'b-12', '17 and 23')
    """
    named = whose.checked(text)
    if not named:
        raise StudentError("an empty box", "the number you have on the class list", "17")
    return named


def folder():
    """The folder that hand-ins go to: hand-in in the workbook in force, outside a workbook in the current folder.

    >>> folder().name
    'hand-in'
    """
    return (files.workbook() or Path.cwd()) / "hand-in"


def remembered():
    """(number, section) as last handed in with; without one, the name or number the exercises are drawn from.

    >>> len(remembered())
    2
    """
    number, section = (_kept(name) for name in ("number.txt", "section.txt"))
    return number or whose.student(), section


def still_open(exercises, student):
    """What a student has not got right yet: (exercise, whether it was tried) for each, in the order given.

    An answer given before there was a number, to the class values, counts. An exercise that cannot be set is open.

    >>> from pastrylab import exercises
    >>> still_open([exercises.exercise("05.highest-reading")], "who has answered nothing yet")[0][1]
    False
    """
    found = []
    for exercise in exercises:
        stands = [_stands(exercise, one) for one in dict.fromkeys((student, ""))]
        if not any(one and one.verdict and one.verdict.right for one in stands):
            found.append((exercise, any(stands)))
    return found


def hand_in(lesson, number, section="", day=None):
    """Write one lesson's answers into a zip; returns HandedIn. day: the date in its name, today's if None.

    The zip holds one folder of its own name, with what a folder my-answers holds: the lesson's lines, the values they were
    given under, number.txt and section.txt. In it go the lines of the student in force, of this number, of groups that
    it is in, and those without a name; another student's at the same machine stay. A second one on the same day replaces the first. Raises
    StudentError without a number, without answers, or where the disk does not take it.

    >>> import tempfile
    >>> from unittest import mock
    >>> with tempfile.TemporaryDirectory() as own, mock.patch.dict("os.environ", PASTRYLAB_WORKBOOK=own):
    ...     _ = answers.record("05", "05.highest-reading", "0.865", student="17")
    ...     hand_in("05", "017", "A", date(2026, 11, 27)).path.name
    'lesson-05_number-17_section-a_2026-11-27.zip'
    """
    number, section = class_number(number), _section(section)
    lines, torn, others = _lines(lesson, number_named(whose.student()), number)
    given = [entry for _raw, entry in lines if _is_answer(entry)]
    if not lines:
        raise StudentError(f"lesson {lesson} without an answer", "at least one answer to hand in", "press Check first")
    stem = f"lesson-{lesson}_number-{_plain(number)}" + (f"_section-{_plain(section)}" if section else "")
    stem += f"_{(day or date.today()).isoformat()}"
    data = _zipped(stem, lesson, lines, {"number.txt": number, "section.txt": section})
    path = folder() / f"{stem}.zip"
    try:
        _remember(number, section)
        path.parent.mkdir(exist_ok=True)
        draft = path.with_suffix(".tmp")
        draft.write_bytes(data)
        draft.replace(path)
    except OSError as error:
        raise StudentError(
            f"a folder {path.parent} that cannot be written to ({error.strerror or error})",
            "room on the disk and a folder you may write in",
            "move the workbook to a folder of your own",
        ) from None
    return HandedIn(path, data, len(given), sum(not entry["student"].strip() for entry in given), torn, others)


def _zipped(stem, lesson, lines, notes):
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr(f"{stem}/{lesson}.jsonl", b"".join(raw + b"\n" for raw, _entry in lines))
        for name, text in notes.items():
            archive.writestr(f"{stem}/{name}", text + "\n")
        for values in sorted({Path(str(entry["values"])).name for _raw, entry in lines}):
            kept = answers.folder() / "values" / f"{values}.csv"
            if kept.is_file():
                archive.writestr(f"{stem}/values/{values}.csv", kept.read_bytes())
    return packed.getvalue()


def _lines(lesson, in_force, number):
    """([(line as it stands, entry)] of these students, numbers of torn lines, others whose answers lie there too)."""
    _entries, torn = answers.read(lesson)
    found, others = [], {}
    for at, raw in enumerate(answers.raw_lines(lesson), start=1):
        if raw.strip() and at not in torn:
            entry = json.loads(raw)
            who = number_named(entry["student"])
            if who in ("", in_force, number) or number in members(who):
                found.append((raw, entry))
            elif _is_answer(entry):
                others[entry["student"]] = None
    return found, tuple(torn), tuple(others)


def _is_answer(entry):
    return "did" not in entry and ".guess." not in entry["exercise"]


def _stands(exercise, student):
    try:
        return standing(engine.case(exercise, student))
    except StudentError:
        return None


def _section(text):
    named = term.words().checked(text)
    if named and (not _plain(named) or len(named) > _LONGEST):
        raise StudentError(f"{named[:_LONGEST]} as a section", "the section's letter, number or word, or nothing", "A")
    return named


def _plain(text):
    """As it can stand in the name of a file anywhere: letters and digits, a hyphen for all else."""
    return re.sub(r"[\W_]+", "-", text).strip("-")


def _kept(name):
    path = answers.folder() / name
    try:
        return student_named(path.read_bytes().decode("utf-8", "replace")[:_LONGEST]) if path.is_file() else ""
    except OSError:
        return ""


def _remember(number, section):
    for name, text in (("number.txt", number), ("section.txt", section)):
        (answers.folder() / name).write_text(text + "\n", encoding="utf-8")
