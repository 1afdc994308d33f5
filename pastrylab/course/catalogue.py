"""All exercises by id, and the calls that need no page: grade, prompt, solution, key, check."""

import pandas as pd

from pastrylab.course.costing import exercises as costing
from pastrylab.course.emulsion import exercises as emulsion
from pastrylab.course.keeping import exercises as keeping
from pastrylab.course.scaling import exercises as scaling
from pastrylab.course.sugars import exercises as sugars
from pastrylab.course.tempering import exercises as tempering
from pastrylab.ground.units import StudentError
from pastrylab.school import checking, draws, engine, exercise_values, sheets
from pastrylab.school.verdict import Verdict

__all__ = ["EXERCISES", "Verdict", "check", "exercise", "grade", "key"]

EXERCISES = {e.id: e for lesson in (scaling, tempering, emulsion, costing, keeping, sugars) for e in lesson.EXERCISES}


def exercise(which):
    """The exercise of an id such as "02.seed-for-a-bowl". Raises StudentError listing the ids."""
    if isinstance(which, engine.Exercise):
        return which
    if which not in EXERCISES:
        raise StudentError(f"'{which}' as an exercise", "one of " + ", ".join(EXERCISES), next(iter(EXERCISES)))
    return EXERCISES[which]


def grade(exercise_id, answer, student="", values=None):
    """Verdict(status, message, slip) on a typed answer; status is "right", "wrong", "unit" or "unreadable".

    exercise_id: an id or an Exercise; student: name or class number ("" for the class values); values: None for the
    values in force, or Values, a path, CSV text. Pure: reads the values file, writes nothing. Raises StudentError for
    an unknown exercise or an unusable values file.
    """
    return engine.grade(exercise(exercise_id), answer, student, values)


def key(student="", values=None):
    """The answer key: a DataFrame, one row an exercise, indexed by its id; every slip's wrong answer in one column."""
    values = exercise_values.values(values)
    rows = []
    for e in EXERCISES.values():
        worked = engine.case(e, student, values)
        g = worked.g
        slips = [f"{slip.name}: {e.how.show(wrong)}" for slip, wrong in worked.wrong]
        slips += [option.name for option in e.options if option.name != worked.expected]
        named = {n: v for n, v in vars(g).items() if n not in e.lets}
        rows.append(
            {
                "exercise": e.id,
                "title": e.title,
                "givens": ", ".join(f"{n} {draws.shown(v)}" for n, v in named.items()),
                "answer": worked.answer,
                "slips": "; ".join(slips),
            }
        )
    return pd.DataFrame(rows).set_index("exercise").assign(values=values.id)


def check(values=None, students=1000):
    """Sentences saying what is wrong with the values in force (or `values`), all at once; an empty list where all is well.

    Without `values` the other CSVs of the workbook are looked at too. Raises StudentError where the file of values cannot
    be read at all.
    """
    found = [] if values is not None else sheets.problems()
    values = exercise_values.survey(values)
    found += [str(fault) for _exercise, fault in values.faults]
    broken = {owner for owner, _fault in values.faults}
    found += [
        f"exercise_values.csv: there is no exercise '{e}' (given '{g}')."
        for e, g in values.givens
        if e not in EXERCISES
    ]
    for e in EXERCISES.values():
        if e.id not in broken:
            found += checking.problems(e, values, students)
    return found
