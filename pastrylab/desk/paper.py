"""``pastrylab paper``: a lesson's sheets, each alone, and what an instructor marks, ticks and signs on, as pages to print."""

import re
from pathlib import Path

from markupsafe import escape

from pastrylab.course import catalogue
from pastrylab.desk import lesson_text
from pastrylab.ground import mark_tables
from pastrylab.ground.units import StudentError
from pastrylab.page import paper
from pastrylab.school import paper_key
from pastrylab.school.class_list import class_list
from pastrylab.school.marking_rules import day_named

_MOST_BENCHES, _MOST_DAYS = 40, 120


def sheets_of(number, out, larger=False):
    """Write a lesson's sheets for paper into a folder, each a file of its own, and the key to its pre-lab. Returns what to tell the person, sentences.

    number: a lesson such as "02"; larger: each sheet in larger print as well. Raises StudentError for a lesson that is not
    there, for points that do not add up, and where the folder cannot be written to.
    """
    lesson = lesson_text.lesson(number)
    written = {}
    for sheet in lesson.sheets:
        points = _points(lesson, sheet) if _is_rubric(sheet) else None
        look = "pre-lab" if "before the lab" in sheet.heading else "sheet"
        body = lesson_text.html(sheet.text, lesson.folder)
        for size in ("", "-larger") if larger else ("",):
            page = paper.sheet_page(
                lesson.number, lesson.title, sheet.heading, body, points, look + size.replace("-", " ")
            )
            name = f"{lesson.number}-{sheet.name}{size}.html"
            written[name] = paper.document(f"{lesson.number} {sheet.heading}", [page])
        if look == "pre-lab" and (keys := catalogue.paper_keys(lesson.number)):
            written[f"{lesson.number}-key-to-the-sheet.html"] = _key(lesson, sheet, keys)
    _write(out, written)
    return [_told(out, written)] if written else [f"Lesson {lesson.number} has no sheets for paper."]


def class_sheets_of(number, out, roll=None, benches=6):
    """Write a lesson's rubric as a grid, the marking of its pieces and its lab sheets into a folder. Returns sentences.

    roll: path of the class list, None for blank rows; benches: how many lab sheets, of each section where the list has
    groups, and more where it has more groups. Raises StudentError as sheets_of does,
    and for a list or a number of benches that will not do.
    """
    lesson, people = lesson_text.lesson(number), _people(roll)
    benches = _benches(benches)
    written, of = {}, (lesson.number, lesson.title)
    for sheet in filter(_is_rubric, lesson.sheets):
        pages = paper.rubric_pages(*of, _points(lesson, sheet), people)
        written[f"{lesson.number}-rubric-grid.html"] = paper.document(f"{lesson.number} rubric", pages)
    if marks := mark_tables.piece_marks(lesson.number):
        page = paper.pieces_page(*of, marks, lesson_text.pictured(lesson))
        written[f"{lesson.number}-pieces.html"] = paper.document(f"{lesson.number} pieces", [page])
    if lesson.sheets:
        caution = lesson_text.html(lesson.caution, lesson.folder)
        pages = paper.bench_pages(*of, caution, mark_tables.lab_checks(lesson.number), benches, _groups(roll, number))
        written[f"{lesson.number}-lab-sheets.html"] = paper.document(f"{lesson.number} lab sheets", pages)
    _write(out, written)
    return [_told(out, written)] if written else []


def attendance(out, roll=None, dates=""):
    """Write attendance.html into a folder: the class, or blank rows, and a column a date. Returns sentences.

    dates: as typed, a semicolon between two. Raises StudentError for a list or a date that cannot be read.
    """
    days = [one.strip() for one in re.split(r"[;,\n]", str(dates)) if one.strip()]
    if len(days) > _MOST_DAYS:
        raise StudentError(f"{len(days)} dates", f"{_MOST_DAYS} at most", "2026-10-05; 2026-10-12")
    read = [day_named(one, "a date of the attendance sheet") for one in days]
    shown = [f"{day.day} {day:%b}" for day in read]
    pages = paper.attendance_pages(_people(roll), shown)
    _write(out, {"attendance.html": paper.document("Attendance", pages)})
    return [f"Written to {out}: attendance.html."]


def paper_of(numbers, out, roll=None, dates="", benches=6):
    """All of the above for the lessons numbered, or for every lesson where none is. Returns sentences.

    Sheets in larger print are there where the class list asks for them.
    """
    people = _roll(roll)
    said = list(people.left_out) if people else []
    larger = bool(people) and any(one.larger_print for one in people.students)
    for number in numbers or lesson_text.lesson_files():
        said += sheets_of(number, out, larger) + class_sheets_of(number, out, roll, benches)
    return said + attendance(out, roll, dates)


_ROOM_TO_DRAW = re.compile(r"\s*(?:<br>){2,}")
_CHANGED = "This question is not the one its key was made for: work it out yourself."


def _key(lesson, sheet, keys):
    """The sheet with its answers, each question with what they are worked from."""

    def write(answer):
        return f'<span class="answer">{escape(answer)}</span>'

    head, _ = paper_key.parts(sheet.text)
    pieces = ["\n".join(line for line in head.splitlines() if not line.startswith("Name "))]
    for one in paper_key.answered(sheet.text, keys):
        says = one.says if one.known else _CHANGED
        worked = f'<span class="worked">{escape(says)}</span>' if says else ""
        text = _ROOM_TO_DRAW.sub("", paper_key.filled(one.text, one.answers, write))
        pieces.append(f"{one.number}. {text}{worked}")
    body = lesson_text.html("\n\n".join(pieces), lesson.folder)
    page = paper.sheet_page(lesson.number, lesson.title, "Key to the sheet: for the instructor", body)
    return paper.document(f"{lesson.number} key to the sheet", [page])


def _is_rubric(sheet):
    return sheet.heading.casefold().startswith("rubric")


def _points(lesson, sheet):
    """The points of the rubric's rows in the order of the sheet. Raises StudentError where a row has none."""
    points = mark_tables.rubric_points(lesson.number)
    found = {}
    for what, *_ in lesson_text.table_rows(sheet.text)[1:]:
        if what not in points:
            raise StudentError(
                f"rubrics.csv: no points for '{what}' of lesson {lesson.number}",
                "a row for each row of the lesson's rubric",
                f"{lesson.number},{what},11,15",
            )
        found[what] = points[what]
    return found


def _people(roll):
    people = _roll(roll)
    return people.students if people else ()


def _groups(roll, number):
    """The groups of the list as Students, without those excused from the lesson."""
    people = _roll(roll)
    groups = map(people.group, people.together) if people else ()
    return [one for one in groups if number[:2] not in one.excused]


def _roll(roll):
    """The ClassList at a path, or None without one."""
    if not roll:
        return None
    try:
        raw = Path(roll).read_bytes()
    except OSError as error:
        raise StudentError(f"{roll} ({error.strerror})", "the class list, a CSV", "class.csv") from None
    return class_list(raw, Path(roll).name)


def _benches(given):
    text = str(given).strip()
    if not text.isascii() or not text.isdigit() or not 1 <= int(text[:9]) <= _MOST_BENCHES:
        raise StudentError(f"{text[:20]} benches", f"a whole number from 1 to {_MOST_BENCHES}", "6")
    return int(text)


def _write(out, written):
    out = Path(out)
    try:
        out.mkdir(parents=True, exist_ok=True)
        for name, page in written.items():
            (out / name).write_text(page, encoding="utf-8")
    except OSError as error:
        raise StudentError(
            f"{out}, which cannot be written to ({error.strerror or error})", "a folder you may write in", "paper"
        ) from None


def _told(out, written):
    return f"Written to {out}: {', '.join(written)}."
