"""``pastrylab mark``: what a class handed in becomes a gradebook, a page on the class, and a list of what to look at."""

import shutil
import sys
import time
from datetime import UTC, datetime
from pathlib import Path

from pastrylab.course import catalogue
from pastrylab.desk import cores, explained, gradebook
from pastrylab.desk.class_page import class_page
from pastrylab.desk.spreadsheet import has_semicolons, write_csv
from pastrylab.ground.files import one_look
from pastrylab.ground.units import StudentError
from pastrylab.school import marking, marking_rules, term
from pastrylab.school.class_list import class_list
from pastrylab.school.handed_in import carried, handed_in

_A_FEW = 20  # hand-ins between two sentences on how far it is


def _with_values(file):
    return f"mark again with --values {file}"


@one_look()
def mark_folder(folder, roll, out, values=(), rules=None, term_start="", progress=None, explain=(), again=_with_values):
    """Mark everything handed in below a folder and write gradebook, lessons, averages, flags and class.html into `out`.

    roll: path of the class list; values: paths of files or folders of exercise values given out earlier, beside those in
    force; rules: path of a marking.csv of one's own; term_start: a date, nothing before counts. progress: called with a
    sentence. explain: numbers, or "all": for each a page students/NUMBER.html says how every point came about. again: called with the file of
    values that nobody knows, returns what to do with it if they were given out.

    The tables have semicolons and decimal commas where the class list has semicolons. Returns what to tell the person, a
    list of sentences. Raises StudentError for a list, a table, values or a date that cannot be read, and where `out`
    cannot be written to.
    """
    progress = progress or (lambda _said: None)
    content = _bytes(roll, "the class list")
    people = class_list(content, Path(roll).name)
    begins = marking_rules.first_day(term_start, datetime.now(UTC)) if term_start else None
    known, worth = cores.given_out(values), marking_rules.rules(rules)
    hand_ins, troubles = handed_in(folder, lambda count: count % _A_FEW == 1 and progress(f"Reading: {count} hand-ins"))
    if not hand_ins:
        raise StudentError(
            f"{folder}, with no answers in it", "folders my-answers, or the zips that were handed in", "hand-ins"
        )
    marks = marking.mark_class(
        hand_ins,
        people,
        catalogue.EXERCISES,
        known,
        worth,
        begins=begins,
        words=term.words(),
        progress=lambda done, of: progress(_so_far("Marking", done, of, "exercises")),
        spread=lambda tasks: cores.spread(tasks, values),
    )
    flags = _flags(marks, troubles, people, worth)
    foreign = _foreign(hand_ins, known)
    texts = {"class.html": class_page(marks, flags, worth)}
    texts |= {f"students/{name}": page for name, page in explained.pages(marks, explain, known, worth, flags)}
    texts |= {f"values/{one}.csv": values.to_csv() for one, (values, _who) in foreign.items()}
    _write_all(Path(out), _tables(marks, flags, worth), texts, has_semicolons(content))
    return _said(marks, flags, hand_ins, foreign, Path(out), explain, again)


def _tables(marks, flags, worth):
    """{file name: rows}."""
    written = {one.student.number: one.student.written or one.student.number for one in marks.students}
    return {
        "gradebook.csv": gradebook.gradebook(marks, flags, worth, datetime.now(UTC)),
        "lessons.csv": gradebook.lessons(marks),
        "averages.csv": gradebook.averages(marks, worth),
        "flags.csv": [
            ("number", "where", "what to look at"),
            *((written.get(f.who, f.who), f.where, f.says) for f in flags),
        ],
    }


def _flags(marks, troubles, people, worth):
    """All there is to look at: of the students, of the files, of the class list and of marking.csv."""
    flags = [*marks.flags, *(marking.Flag("", where, says) for where, says in troubles)]
    flags += [marking.Flag("", "", says) for says in people.left_out]
    lessons = {which.partition(".")[0] for one in marks.students for which in one.marks}
    without = sorted(lessons - worth.keys())
    there = gradebook.by_lesson()
    strange = [(one.number, lesson) for one in people.students for lesson in one.excused if lesson not in there]
    flags += [marking.Flag(one, "", f"excused from lesson {lesson}, which there is not") for one, lesson in strange]
    says = "no row for it in marking.csv: right, but no points"
    return flags + [marking.Flag("", f"lesson {one}", says) for one in without]


def _write_all(out, tables, texts, comma):
    try:
        out.mkdir(parents=True, exist_ok=True)
        for name, rows in tables.items():
            write_csv(out / name, rows, comma)
        _forget(out / "students", texts)
        for name, text in texts.items():
            (out / name).parent.mkdir(exist_ok=True)
            (out / name).write_text(text, encoding="utf-8")
    except OSError as error:
        raise StudentError(
            f"{out}, which cannot be written to ({error.strerror or error})", "a folder you may write in", "marks"
        ) from None


def _forget(folder, texts):
    """Take away the pages of an earlier marking that are not written anew: beside the new gradebook they would be wrong."""
    for page in folder.glob("*.html"):
        if f"students/{page.name}" not in texts and b'<main class="class-page">' in page.read_bytes():
            page.unlink()


def _some(count):
    return "1 thing" if count == 1 else f"{count} things" if count else "Nothing else"


def _said(marks, flags, hand_ins, foreign, out, explain, again):
    listed = [one for one in marks.students if one.listed]
    there = sum(bool(one.places) for one in listed)
    said = [
        f"{len(hand_ins)} hand-ins of {there} students marked; {len(listed) - there} of the list handed in nothing.",
        f"{_some(len(flags) - sum(one.says == marking.ABSENT for one in flags))} to look at: flags.csv.",
    ]
    for one, (_values, who) in foreign.items():
        said.append(
            f"Values {one} came with {len(who)} hand-ins and are not among those given out, so nothing to them counts. "
            f"If you did give them out, {again(out / 'values' / (one + '.csv'))}"
        )
    said.append(f"Written to {out}: gradebook.csv, lessons.csv, averages.csv, flags.csv, and class.html to read.")
    if explain:
        said.append(f"How each point came about, a page a student: {out / 'students'}.")
    return said


def _foreign(hand_ins, known):
    """{id: (Values, [where])} of what came along and was not given out, those of most hand-ins first."""
    ours, found = {values.id for values in known}, {}
    for hand_in in hand_ins:
        if hand_in.values.keys() - ours:
            for one, values in carried(hand_in).items():
                if one not in ours:
                    found.setdefault(one, (values, []))[1].append(hand_in.where)
    return dict(sorted(found.items(), key=lambda item: -len(item[1][1])))


def _bytes(path, what):
    try:
        return Path(path).read_bytes()
    except OSError as error:
        raise StudentError(f"{path} ({error.strerror or error})", f"{what}, a CSV file", "class.csv") from None


def _so_far(what, done, of, things):
    tenths = 10 * done // max(of, 1)
    return f"{what}: {'#' * tenths}{'.' * (10 - tenths)} {done} of {of} {things}"


class Bar:
    """One line that says how far the work is, where somebody watches: rewritten, at most some times a second."""

    _PAUSE = 0.1  # seconds

    def __init__(self):
        self._next, self._wide = 0.0, 0

    def __call__(self, said):
        if not sys.stderr.isatty() or (time.monotonic() < self._next and said):
            return
        self._next = time.monotonic() + self._PAUSE
        line = said[: shutil.get_terminal_size((80, 24)).columns - 1]
        print(f"\r{line:<{self._wide}}\r{line}", end="", file=sys.stderr, flush=True)
        self._wide = len(line)
