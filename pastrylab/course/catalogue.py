"""All exercises by id, and the calls that need no page: grade, prompt, solution, key, check."""

import difflib
import functools
import importlib

from pastrylab.ground.files import one_look
from pastrylab.ground.units import StudentError
from pastrylab.school import draws, engine, exercise_values
from pastrylab.school.typed import rows as own_rows

# The number that a lesson's ids begin with, and its folder. A lesson is imported when one of its exercises is asked for.
FOLDERS = {
    "01": "scaling",
    "02": "tempering",
    "03": "emulsion",
    "04": "sugars",
    "05": "keeping",
    "06": "moulds",
    "07": "storage",
    "08": "costing",
    "09": "labday",
}


@functools.cache
def _of_lesson(number):
    lesson = importlib.import_module(f"pastrylab.course.{FOLDERS[number]}.exercises")
    return {e.id: e for e in lesson.EXERCISES}


def __getattr__(name):
    """EXERCISES: every exercise by its id, in the order of the key: those of the lessons, then the class's own."""
    if name != "EXERCISES":
        raise AttributeError(f"module '{__name__}' has no attribute '{name}'")
    return _all()


def _all():
    return _of_lessons() | own_exercises().exercises


@functools.cache
def _of_lessons():
    return {key: e for number in FOLDERS for key, e in _of_lesson(number).items()}


def own_exercises():
    """The Sheet of exercises that an instructor has added as rows of own_exercises.csv in force.

    A row that takes the id of a lesson's exercise makes none: it is among the faults.

    >>> own_exercises().faults
    ()
    """
    found = own_rows.survey()
    taken = [which for which in found.exercises if which in _of_lesson_of(which)]
    if not taken:
        return found
    faults = [
        (which, StudentError(f"{own_rows.SHEET}: {which}, an exercise there is already", "another id", f"{which}-2"))
        for which in taken
    ]
    left = {which: e for which, e in found.exercises.items() if which not in taken}
    return own_rows.Sheet(left, (*found.faults, *faults))


def _of_lesson_of(which):
    number = str(which).partition(".")[0]
    return _of_lesson(number) if number in FOLDERS else {}


def of_lesson(number):
    """The exercises of a lesson such as "02", in the order of its pages, the class's own last. Raises StudentError, which lists the numbers.

    >>> of_lesson("05")[0].lesson
    '05'
    """
    added = [e for e in own_exercises().exercises.values() if e.lesson == number]
    if number not in FOLDERS and not added:
        raise StudentError(f"'{number}' as a lesson", "one of " + ", ".join(sorted(FOLDERS)), "02")
    return [*(_of_lesson(number).values() if number in FOLDERS else ()), *added]


def paper_keys(number):
    """{question: Key} of the sheet on paper of a lesson such as "02b"; {} for a lesson that has none.

    >>> sorted(paper_keys("02b"))
    [1, 2, 3, 4, 5]
    """
    folder = FOLDERS.get(number[:2])
    return importlib.import_module(f"pastrylab.course.{folder}.paper").KEYS.get(number, {}) if folder else {}


def exercise(which):
    """The Exercise of an id; an Exercise itself comes back as it is. Raises StudentError, which lists the ids.

    >>> exercise("08.break-even").title
    'Boxes that pay for the day'
    """
    if isinstance(which, engine.Exercise):
        return which
    found = _of_lesson_of(which).get(which)
    if found is None:
        added = own_exercises()
        found = added.exercises.get(which)
        for owner, fault in added.faults:
            if found is None and owner in (which, ""):
                raise fault
    if found is None:
        raise StudentError(f"'{which}' as an exercise", "one of " + ", ".join(_all()), next(iter(_all())))
    return found


def grade(exercise_id, answer, student="", values=None):
    """Verdict(status, message, slip) on a typed answer; status is "right", "wrong", "unit" or "unreadable".

    exercise_id: an id or an Exercise; student: name or class number ("" for the class values); values: None for the
    values in force, or Values, a path, CSV text. Pure: reads the values file, writes nothing. Raises StudentError for
    an unknown exercise or an unusable values file.

    >>> verdict = grade("08.as-purchased", "360 g")
    >>> verdict.status, verdict.slip
    ('wrong', 'the loss forgotten')
    """
    return engine.grade(exercise(exercise_id), answer, student, values)


@one_look()
def key(student="", values=None):
    """The answer key: a DataFrame, one row an exercise, indexed by its id.

    Columns, all text: title, givens, answer, slips (the wrong answer of each, or the other options), values (the id of
    the values in force). An exercise that cannot be set says so in place of its answer, the others go on. student,
    values: as grade. Raises StudentError for a file that cannot be read at all.

    >>> key().loc["08.as-purchased", "answer"]
    '900 g (31.7 oz)'
    """
    import pandas as pd

    values = exercise_values.survey(values)
    rows = []
    for e in _all().values():
        try:
            rows.append({"exercise": e.id, "title": e.title, **_key_of(e, student, values)})
        except StudentError as fault:
            rows.append({"exercise": e.id, "title": e.title, "givens": "", "answer": f"not set: {fault}", "slips": ""})
    return pd.DataFrame(rows).set_index("exercise").assign(values=values.id)


def _key_of(e, student, values):
    worked = engine.case(e, student, values)
    slips = [f"{slip.name}: {e.how.show(wrong)}" for slip, wrong in worked.wrong]
    slips += [option.name for option in e.options if option.name != worked.expected]
    named = {n: v for n, v in vars(worked.g).items() if n not in e.lets}
    givens = ", ".join(f"{n} {draws.shown(v)}" for n, v in named.items())
    return {"givens": givens, "answer": worked.answer, "slips": "; ".join(slips)}


@one_look()
def check(values=None, students=1000, progress=None):
    """Sentences saying what is wrong with the values in force (or `values`), all at once; an empty list where all is well.

    values: as grade; without them the other CSVs of the workbook are looked at too. students: how many drawn students each
    exercise is tried on, beside the class. progress: called with a sentence now and then. Raises StudentError where the
    file of values cannot be read at all.

    >>> check(students=3)
    []
    """
    from pastrylab.school import sheets  # with all it looks into: no lesson waits for that

    tell = progress or (lambda _sentence: None)
    if values is None:
        tell("Reading every sheet of the workbook.")
    found = [] if values is not None else sheets.problems()
    values = exercise_values.survey(values)
    found += [str(fault) for _exercise, fault in values.faults]
    added = own_exercises()
    found += [str(fault) for _exercise, fault in added.faults]
    found += _nobody_asks_for(values, {*_all(), *(owner for owner, _fault in added.faults)})
    return found + _tried(values, students, found, tell)


def _nobody_asks_for(values, known):
    """A sentence for each row whose exercise there is not, with the id that was meant where one is near."""
    seen = set()
    for e, _given in values.givens:
        if e not in known and e not in seen:
            seen.add(e)
            near = difflib.get_close_matches(e, known, 1)
            meant = f" Did you mean {near[0]}?" if near else " Delete its rows."
            yield f"exercise_values.csv: there is no exercise '{e[:60]}'.{meant}"


def _tried(values, students, sheet_faults, tell):
    """Sentences on the exercises themselves. A sheet at fault, said at its row already, is not said again for each."""
    broken, waiting, found, lesson = {owner for owner, _fault in values.faults}, [], [], ""
    for e in _all().values():
        if e.lesson != lesson:
            lesson = e.lesson
            tell(f"Lesson {lesson}: every exercise as the class and {students} students would have it.")
        wrong = _wrong_with(e, values, students) if e.id not in broken else []
        told = [problem for problem in wrong if any(fault in problem for fault in sheet_faults)]
        waiting += [e.id] * bool(told)
        found += [problem for problem in wrong if problem not in told]
    if waiting:
        found.append(f"Until that is mended {len(waiting)} exercises cannot be tried, {waiting[0]} among them.")
    return found


def _wrong_with(e, values, students):
    from pastrylab.school import checking
    from pastrylab.school.typed import fit

    if e.id not in own_exercises().exercises:
        return checking.problems(e, values, students)
    # No test ever tries what a class has of its own: here it meets five times as many.
    return fit.problems(e, values) or checking.problems(e, values, 5 * students)
