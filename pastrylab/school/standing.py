"""Which of a student's earlier answers stands under a question as it is asked now."""

from dataclasses import dataclass

from pastrylab.ground.units import StudentError
from pastrylab.school import answers
from pastrylab.school.draws import draw
from pastrylab.school.engine import case
from pastrylab.school.verdict import Verdict


@dataclass(frozen=True)
class Standing:
    """An earlier answer: its text, its day, and its verdict; None as verdict where it was to other numbers.

    >>> Standing("485 g", "2026-03-02", verdict=None).answer
    '485 g'
    """

    answer: str
    day: str
    verdict: Verdict | None


def standing(worked):
    """The last right answer to these numbers, else the last one to them, else the last to older ones; None without any.

    worked: the Case that is asked. Verdicts are computed again. An answer whose own
    values are no longer kept counts as one to older numbers. Returns Standing or None.

    >>> from pastrylab import exercises
    >>> from pastrylab.school.engine import case
    >>> seed = case(exercises.exercise("02.seed-for-a-bowl"), student="who has answered nothing yet")
    >>> standing(seed) is None
    True
    """
    exercise, student, values = worked.exercise, worked.student, worked.values
    given = answers.given(exercise.lesson, exercise.id, student)
    now = numbers(exercise, student, values)
    asked = {values.id: now}
    for entry in given:
        if entry["values"] not in asked:
            asked[entry["values"]] = _numbers_of(exercise, student, entry)
    same = [
        Standing(e["answer"], e["when"][:10], worked.verdict(e["answer"])) for e in given if asked[e["values"]] == now
    ]
    right = [one for one in same if one.verdict.right]
    if same:
        return (right or same)[-1]
    return Standing(given[-1]["answer"], given[-1]["when"][:10], None) if given else None


def before_a_number(worked):
    """The last right answer given to the class values, by somebody who has a number now; None without one.

    It counts when a lesson is handed in, so nobody has to give it again. worked: the Case that is asked.

    >>> from pastrylab import exercises
    >>> from pastrylab.school.engine import case
    >>> before_a_number(case(exercises.exercise("02.seed-for-a-bowl"))) is None
    True
    """
    if not worked.student:
        return None
    stands = standing(case(worked.exercise, "", worked.values))
    return stands if stands and stands.verdict and stands.verdict.right else None


def numbers(exercise, student, values):
    """What this student is asked with: (value, unit) by given. values: a Values. Raises StudentError for a row at fault.

    >>> from pastrylab import exercises
    >>> from pastrylab.school.exercise_values import values
    >>> list(numbers(exercises.exercise("03.boiled-cream"), "", values()))
    ['pan', 'cream', 'lost']
    """
    rows = values.of(exercise.id)
    return {name: (draw(exercise.id, name, row, student, values.word), row.unit) for name, row in rows.items()}


def _numbers_of(exercise, student, entry):
    try:
        return numbers(exercise, student, answers.values_of(entry))
    except StudentError:
        return None
