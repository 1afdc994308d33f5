"""Is every exercise fit to be set with the values in the file? For the class values and for drawn students alike."""

from pastrylab.ground.units import StudentError
from pastrylab.school import exercise_values
from pastrylab.school.draws import draw, fill
from pastrylab.school.engine import case

_SAME_SLIP_OFTEN = 0.05
# Whose texts are written out in full: a missing name shows in any of them, and writing a thousand takes minutes.
_READ_ALOUD = ("", "student 0", "student 1")


def problems(exercise, values=None, students=1000):
    """Sentences saying why this exercise cannot be set with these values; empty where all is well.

    Looked at: class values and `students` drawn ones. Refused: an answer that is absurd or cannot be computed, a slip
    that falls on the right answer (or on another slip) more often than one time in twenty.

    >>> from pastrylab import exercises
    >>> problems(exercises.exercise("02.seed-for-a-bowl"), students=20)
    []
    """
    values, met = exercise_values.values(values), {}
    for student in ["", *(f"student {i}" for i in range(students))]:
        who = f"for {student}" if student else "for the class values"
        try:
            worked = case(exercise, student, values)
            if student in _READ_ALOUD:
                _read_aloud(exercise, worked.g)
        except StudentError as error:
            return [f"{exercise.id}: no answer {who} ({_values_of(exercise, student, values)}). {error}"]
        except (AttributeError, KeyError) as error:
            return [f"{exercise.id}: a given is missing in the values file: {error}"]
        absurd = exercise.how.absurd(worked.expected)
        if absurd:
            return [f"{exercise.id}: the answer {absurd} {who}; {_values_of(exercise, student, values)}."]
        _count_meetings(worked, met)
    return _coincidences(exercise, met, values) if exercise.slips else []


def _read_aloud(exercise, g):
    for text in (exercise.prompt, exercise.hint, *exercise.steps, *(slip.says for slip in exercise.slips)):
        fill(text, g)
    for option in exercise.options:
        fill(option.text + option.says, g)


def _count_meetings(worked, met):
    """How often each slip leads to a number, and how often that number is the right answer's or another slip's."""
    spread = worked.exercise.how.tolerance(worked.expected) if worked.wrong else 0
    numbers = [("the right answer", worked.expected)] + [(slip.name, wrong) for slip, wrong in worked.wrong]
    for i, (name, number) in enumerate(numbers):
        met[name] = met.get(name, 0) + 1
        for other, value in numbers[:i]:
            if abs(number - value) <= spread:
                met[name, other] = met.get((name, other), 0) + 1


def _coincidences(exercise, met, values):
    found = [
        f"{exercise.id}: the slip '{slip.name}' never leads to a number."
        for slip in exercise.slips
        if not met.get(slip.name)
    ]
    for pair, times in met.items():
        if isinstance(pair, tuple) and times > _SAME_SLIP_OFTEN * met[pair[0]]:
            share = 100 * times / met[pair[0]]
            found.append(
                f"{exercise.id}: the slip '{pair[0]}' gives the same as {pair[1]} for {share:.0f} % of students; "
                "narrow the range."
            )
    class_values = {}
    _count_meetings(case(exercise, "", values), class_values)
    found += [
        f"{exercise.id}: with the class values the slip '{pair[0]}' gives the same as {pair[1]}."
        for pair in class_values
        if isinstance(pair, tuple)
    ]
    return found


def _values_of(exercise, student, values):
    rows = values.of(exercise.id).items()
    return ", ".join(f"{n} = {draw(exercise.id, n, row, student, values.word):g} {row.unit}".strip() for n, row in rows)
