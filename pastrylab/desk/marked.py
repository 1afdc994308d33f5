"""``pastrylab mark``: what a class handed in becomes a gradebook, a page on the class, and a list of what to look at."""

import shutil
import sys
import time
from collections import Counter, defaultdict
from pathlib import Path

from markupsafe import Markup

from pastrylab.course import catalogue
from pastrylab.desk import cores
from pastrylab.desk.spreadsheet import write_csv
from pastrylab.ground.files import one_look
from pastrylab.ground.units import StudentError
from pastrylab.page.parts import part
from pastrylab.school import marking, marking_rules, term
from pastrylab.school.class_list import class_list
from pastrylab.school.handed_in import carried, handed_in

_OF_A_LESSON = ("right", "tried", "of", "tries", "first right", "late", "worked solution first", "points")
_MOST_SLIPS = 5  # an exercise


@one_look()
def mark_folder(folder, roll, out, values=(), rules=None, term_start="", progress=None):
    """Mark everything handed in below a folder and write gradebook.csv, lessons.csv, flags.csv and class.html into `out`.

    roll: path of the class list; values: paths of files or folders of exercise values given out earlier, beside those in
    force; rules: path of a marking.csv of one's own; term_start: a date, nothing before counts. progress: called with a
    sentence. Returns what to tell the person, a list of sentences. Raises StudentError for a list, a table, values or a
    date that cannot be read, and where `out` cannot be written to.
    """
    progress = progress or (lambda _said: None)
    people = class_list(_bytes(roll, "the class list"), Path(roll).name)
    begins = marking_rules.day_named(term_start, "the first day of the term") if term_start else None
    known, worth = cores.given_out(values), marking_rules.rules(rules)
    hand_ins, troubles = handed_in(folder, lambda count: progress(f"Reading: {count} hand-ins"))
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
    flags = [*marks.flags, *(marking.Flag("", where, says) for where, says in troubles)]
    flags += [marking.Flag("", "", says) for says in people.left_out]
    lessons = {which.partition(".")[0] for one in marks.students for which in one.marks}
    flags += [
        marking.Flag("", f"lesson {one}", "no row for it in marking.csv: right, but no points")
        for one in sorted(lessons - worth.keys())
    ]
    foreign = _foreign(hand_ins, known)
    _write_all(Path(out), marks, flags, foreign)
    return _said(marks, flags, hand_ins, foreign, Path(out))


def _write_all(out, marks, flags, foreign):
    try:
        out.mkdir(parents=True, exist_ok=True)
        write_csv(out / "gradebook.csv", _gradebook(marks, flags))
        write_csv(out / "lessons.csv", _lessons(marks))
        write_csv(
            out / "flags.csv", [("number", "where", "what to look at"), *((f.who, f.where, f.says) for f in flags)]
        )
        (out / "class.html").write_text(_page(marks, flags), encoding="utf-8")
        for one in foreign:
            (out / "values").mkdir(exist_ok=True)
            (out / "values" / f"{one}.csv").write_text(foreign[one][0].to_csv(), encoding="utf-8")
    except OSError as error:
        raise StudentError(
            f"{out}, which cannot be written to ({error.strerror or error})", "a folder you may write in", "marks"
        ) from None


def _said(marks, flags, hand_ins, foreign, out):
    listed = [one for one in marks.students if one.listed]
    there = sum(bool(one.places) for one in listed)
    said = [
        f"{len(hand_ins)} hand-ins of {there} students marked; {len(listed) - there} of the list handed in nothing.",
        f"{len(flags)} things to look at: flags.csv.",
    ]
    for one, (_values, who) in foreign.items():
        said.append(
            f"Values {one} came with {len(who)} hand-ins and are not among those given out, so nothing to them counts. "
            f"If you did give them out, mark again with --values {out / 'values' / (one + '.csv')}"
        )
    return [*said, f"Written to {out}: gradebook.csv, lessons.csv, flags.csv, and class.html to read."]


def _foreign(hand_ins, known):
    """{id: (Values, [where])} of what came along and was not given out, those of most hand-ins first."""
    ours, found = {values.id for values in known}, {}
    for hand_in in hand_ins:
        if hand_in.values.keys() - ours:
            for one, values in carried(hand_in).items():
                if one not in ours:
                    found.setdefault(one, (values, []))[1].append(hand_in.where)
    return dict(sorted(found.items(), key=lambda item: -len(item[1][1])))


def _by_lesson():
    lessons = defaultdict(list)
    for which in catalogue.EXERCISES:
        lessons[which.partition(".")[0]].append(which)
    return dict(sorted(lessons.items()))


def _gradebook(marks, flags):
    """Rows: a student a line; for each lesson what is right and its points."""
    lessons, of = _by_lesson(), Counter(flag.who for flag in flags)
    heads = [f"lesson {lesson} {what}" for lesson in lessons for what in ("right", "points")]
    yield ("number", "name", "section", *heads, "points", "to look at")
    for one in marks.students:
        rows = [marking.by_lesson(one, lesson, which) for lesson, which in lessons.items()]
        cells = [row[what] for row in rows for what in ("right", "points")]
        yield (*_who(one), *cells, round(one.points, 4), of[one.student.number])


def _lessons(marks):
    """Rows: a student and a lesson a line, with all that is counted."""
    lessons = _by_lesson()
    yield ("number", "name", "section", "lesson", *_OF_A_LESSON)
    for one in marks.students:
        for lesson, which in lessons.items():
            row = marking.by_lesson(one, lesson, which)
            yield (*_who(one), f"lesson {lesson}", *(row[what] for what in _OF_A_LESSON))


def _who(one):
    student = one.student
    return student.written or student.number, student.name, student.section if one.listed else "not in the list"


def _page(marks, flags):
    students = [one for one in marks.students if one.places and one.listed]
    sections = sorted({one.student.section for one in students})
    in_order = sorted(catalogue.EXERCISES, key=lambda which: which.partition(".")[0])
    exercises = [_exercise(which, students, sections) for which in in_order]
    shown_ones = [one for one in exercises if one["tried"]]
    body = part(
        "class_page",
        handed_in=len(students),
        listed=sum(one.listed for one in marks.students),
        sections=[section or "no section" for section in sections],
        exercises=shown_ones,
        missed=[one["title"] for one in shown_ones if not one["right"]],
        stuck=_stuck(students),
        flags=Counter(flag.says.partition(":")[0].partition(" (")[0] for flag in flags).most_common(),
    )
    return str(part("sheet", title="The class", body=Markup(body)))


def _exercise(which, students, sections):
    """What the page says of one exercise: how many tried, were right, right at once, by section, and their slips."""
    found = [
        (one.student.section, one.marks[which]) for one in students if which in one.marks and one.marks[which].tries
    ]
    slips = Counter(slip for _section, mark in found for slip in mark.slips)
    by = Counter((section, slip) for section, mark in found for slip in mark.slips)
    return {
        "title": f"{which.partition('.')[0]} {catalogue.exercise(which).title}",
        "tried": len(found),
        "right": sum(mark.right for _section, mark in found),
        "first": sum(mark.first for _section, mark in found),
        "slips": [(slip, count, [by[one, slip] for one in sections]) for slip, count in slips.most_common(_MOST_SLIPS)],
    }


def _stuck(students):
    """[(number, section, what they are stuck at)] of those who tried three times and more without coming through."""
    for one in students:
        at = [f"{which} ({mark.tries} tries)" for which, mark in one.marks.items() if mark.stuck]
        if at:
            yield one.student.number, one.student.section, ", ".join(at)


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
