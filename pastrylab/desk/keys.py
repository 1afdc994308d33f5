"""``pastrylab key``: the answers of a class, or of one student, on pages to print, as a table, and in the terminal."""

import shutil
import textwrap
from decimal import Decimal, InvalidOperation
from pathlib import Path

from pastrylab.course import catalogue
from pastrylab.desk.spreadsheet import has_semicolons, write_csv
from pastrylab.ground.files import one_look
from pastrylab.ground.units import StudentError
from pastrylab.page import key_pages
from pastrylab.school import exercise_values, term, whose
from pastrylab.school.class_list import Student, class_list
from pastrylab.school.keys import FEWER_DIGITS, NOBODY, key_of
from pastrylab.school.named import members, section_named

HEADS = (
    "number",
    "name",
    "section",
    "lesson",
    "exercise",
    "title",
    "answer",
    "unit",
    "lowest",
    "highest",
    "as shown",
    "slips",
)
_NARROWEST, _WIDEST = 60, 100  # of a terminal's lines


@one_look()
def make_keys(out, roll=None, lessons=(), section="", students=(), values=None, sheets=False, progress=None):
    """Write the keys of a class into a folder, made if need be: for each lesson NN of `lessons` (all, if empty) the pages
    lesson-NN-key.html and lesson-NN-grid.html, the table lesson-NN-key.csv, and with `sheets` lesson-NN-exercises.html.

    roll: path of the class list, None for none; section: of it alone, "" for all; students: numbers or names, those alone,
    "17 and 23" for a group; groups that the list names have theirs behind their section. Without either: the class values. values: path of exercise values, None for those in force.
    progress: called with a sentence. The table has semicolons and decimal commas where the class list has semicolons.

    Returns what to tell the person, a list of sentences. Raises StudentError for a list, a lesson, a section, a
    number or values that are not there, and where `out` cannot be written to.
    """
    people, said = _people(roll, section, students)
    drawn, out = _values(people, values), Path(out)
    comma = roll is not None and has_semicolons(_bytes(roll))
    for lesson in _lessons(lessons):
        (progress or (lambda _said: None))(f"Lesson {lesson}: {_how_many(people)}")
        asked = [one for one in people if lesson not in one.excused]
        if len(asked) < len(people):
            said.append(f"Lesson {lesson}: {len(people) - len(asked)} of the list excused, no pages for them.")
        keys = [key_of(catalogue.of_lesson(lesson), one, drawn[one.section]) for one in asked]
        said += _missing(lesson, keys)
        try:
            out.mkdir(parents=True, exist_ok=True)
            said.append(_written(out, lesson, keys, sheets, comma))
        except OSError as error:
            raise StudentError(
                f"{out}, which cannot be written to ({error.strerror or error})",
                "a folder you may write in, its files not open elsewhere",
                "keys",
            ) from None
    names = "" if roll is None else " They hold names: keep them on your own machine."
    return [*said, f"Written to {out}, for {_how_many(people)}.{names}"]


def _written(out, lesson, keys, sheets, comma):
    """Write one lesson's files; the sentence that names them. Sheets of an earlier time do not stay beside a new key."""
    title, start = f"Lesson {lesson}", f"lesson-{lesson}"
    pages = {
        f"{start}-key.html": key_pages.keys_html,
        f"{start}-grid.html": key_pages.grid_html,
        f"{start}-exercises.html": key_pages.sheets_html,
    }
    if not sheets:
        pages.popitem()
        (out / f"{start}-exercises.html").unlink(missing_ok=True)
    for name, make in pages.items():
        (out / name).write_text(make(title, keys), encoding="utf-8")
    write_csv(out / f"{start}-key.csv", [HEADS, *table(keys)], comma)
    return f"{title}: {', '.join(pages)} to print, {start}-key.csv for a spreadsheet."


def table(keys):
    """Rows under HEADS, an exercise of a student each: number and unit apart, a judgement's answer its letter."""
    for key in keys:
        student = key.student
        for row in key.rows:
            right = row.accepted
            numbers = [_number(text) for text in (right.number, right.lowest, right.highest)]
            yield (
                *(student.written or student.number, student.name, student.section),
                *(f"lesson {row.exercise.partition('.')[0]}", row.exercise, row.title),
                *(numbers[0], right.unit, *numbers[1:], row.answer, _slips(row)),
            )


def _slips(row):
    return "; ".join(f"{wrong}, {name}" for name, wrong in row.slips)


def _number(text):
    """Text that is a number as one, so that no sign before it is taken for a formula's; a letter as it is."""
    try:
        return Decimal(text)
    except InvalidOperation:
        return text


def key_text(lessons=(), section="", students=(), values=None):
    """The keys as text for a terminal, a list of lines: whose, then lesson by lesson question, answer, what counts as right.

    Arguments as make_keys, section that of the students; raises StudentError likewise.
    """
    people, _said = _people(None, section, students)
    drawn, lessons = _values(people, values), _lessons(lessons)
    return [line for one in people for line in _of_student(one, lessons, drawn[one.section])]


@one_look()
def _of_student(student, lessons, values):
    term = f", term {values.word}" if values.word and student.number else ""
    lines = [f"Key for {student.number or 'the class values'}{term}; exercise values {values.id}.", FEWER_DIGITS]
    for lesson in lessons:
        key = key_of(catalogue.of_lesson(lesson), student, values)
        lines += ["", f"LESSON {lesson}"]
        for row in key.rows:
            lines += ["", f"{row.exercise}  {row.title}", f"  Question: {row.question}"]
            lines += [f"    {'  '.join(cells)}" for cells in (row.heads, *row.table) if cells]
            lines += [f"    {letter}  {text}" for letter, text in row.options]
            lines += [f"  Answer: {row.answer}", f"  {row.accepted.words}"]
            lines += [f"  Slips: {_slips(row)}."] * bool(row.slips)
        lines += [f"\n{title}\n  Missing. {why}" for title, why in key.missing]
    width = min(_WIDEST, max(_NARROWEST, shutil.get_terminal_size((_WIDEST, 24)).columns))
    return [wrapped for line in [*lines, ""] for one in line.split("\n") for wrapped in _wrapped(one, width)]


def _wrapped(line, width):
    indent = " " * (len(line) - len(line.lstrip()) + 2)
    return textwrap.wrap(line, width, subsequent_indent=indent, drop_whitespace=True) or [""]


# --- who and what -----------------------------------------------------------------------------------------


def _people(roll, section, students):
    """([Student] section by section, [what to tell of the list])."""
    if roll is None:
        named = list(dict.fromkeys(whose.checked(one) for one in students))
        if section and not named:
            raise StudentError(
                f"the section '{section[:40]}' without a class list", "the list, for who is in it", "--class list.csv"
            )
        section = term.words().checked(section) if named else section
        return [Student(one, section=section) for one in named] or [NOBODY], []
    listed = class_list(_bytes(roll), Path(roll).name)
    people = [one for one in listed.students if not section or section_named(one.section) == section_named(section)]
    if not people:
        sections = sorted({one.section for one in listed.students if one.section})
        needed = f"one of {', '.join(sections)[:200]}" if sections else "a list with a column called section"
        raise StudentError(
            f"the section '{section[:40]}', which nobody of the list is in", needed, (sections or ["A"])[0]
        )
    if students:
        people = list(dict.fromkeys(_of_list(listed, people, one) for one in students))
    else:
        asked = {one.section for one in people}
        people += [one for one in map(listed.group, listed.together) if one.section in asked]
    return sorted(people, key=lambda one: section_named(one.section)), [*listed.left_out, *_without_a_word(people)]


def _of_list(listed, people, named):
    """One of the people, or a group of them as one Student. Raises StudentError for whoever is not among them."""
    found = [listed.of(one) for one in listed.whose(named)]
    if not found or not all(one in people for one in found):
        raise StudentError(f"'{named[:40]}', who is not in the list", "a number of the class list", people[0].number)
    return found[0] if len(found) == 1 else listed.group([one.number for one in found])


def _without_a_word(people):
    """A sentence for each section whose students cannot be asked: term.csv has words, and none for it."""
    words = term.words()
    for section in sorted({one.section for one in people}):
        try:
            words.checked(section)
        except StudentError as error:
            yield f"term.csv has no word for the section '{section}' of the list. {error}"


def _values(people, file):
    """{section: the Values that its students draw from}; file: a path, None for those in force."""
    given = exercise_values.survey(file) if file else None
    return {one.section: exercise_values.for_section(one.section, given) for one in people}


def _lessons(lessons):
    """Numbers of lessons in order, each once; all of them for none. Raises StudentError for one there is not."""
    named = [str(one).casefold().removeprefix("lesson").strip() for one in lessons]
    found = sorted({one.zfill(2) for one in named}) or sorted({one.lesson for one in catalogue.EXERCISES.values()})
    for one in found:
        catalogue.of_lesson(one)
    return found


def _missing(lesson, keys):
    """A sentence for each exercise that is missing, with how many students it is missing for."""
    lacking = {}
    for key in keys:
        for title, why in key.missing:
            lacking.setdefault(title, []).append(why)
    said = [
        f"Lesson {lesson}, '{title}' is missing for {len(why)} of {len(keys)}: {why[0]}"
        for title, why in lacking.items()
    ]
    added = [fault for which, fault in catalogue.own_exercises().faults if which.startswith(f"{lesson}.")]
    return [*said, *(f"Lesson {lesson}, an exercise of your own is missing: {fault}" for fault in added)]


def _how_many(people):
    if people == [NOBODY]:
        return "the class values"
    groups = sum(len(members(one.number)) > 1 for one in people)
    alone = len(people) - groups
    told = ["one student" if alone == 1 else f"{alone} students"] * bool(alone)
    return " and ".join(told + ["one group" if groups == 1 else f"{groups} groups"] * bool(groups))


def _bytes(path):
    try:
        return Path(path).read_bytes()
    except OSError as error:
        raise StudentError(f"{path} ({error.strerror or error})", "the class list, a CSV file", "class.csv") from None
