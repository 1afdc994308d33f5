"""Is every exercise fit to be set with the values in the file? For the class values and for drawn students alike."""

from pastrylab.ground.units import StudentError
from pastrylab.school import exercise_values
from pastrylab.school.draws import draw, fill
from pastrylab.school.engine import case

_SAME_SLIP_OFTEN = 0.05
_UNTRUE = "untrue"  # in place of a name: that slip's sentence says what is not so
# Whose texts are written out in full: a missing name shows in any of them, and writing a thousand takes minutes.
_READ_ALOUD = ("", "student 0", "student 1")


def problems(exercise, values=None, students=1000):
    """Sentences saying why this exercise cannot be set with these values; empty where all is well.

    Looked at: class values and `students` drawn ones. Refused: an answer that is absurd or cannot be computed, a text
    that supposes what is not so; and, with the class values or more often than one time in twenty, a slip that falls on
    the right answer (or on another slip), or whose sentence says what is not so.

    >>> from pastrylab import exercises
    >>> problems(exercises.exercise("02.seed-for-a-bowl"), students=20)
    []
    """
    values, met = exercise_values.values(values).worded(""), {}  # a range is sound whatever the word of the term
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
        for claim, holds in exercise.supposes.items():
            if not _so(holds, worked.g):
                return [
                    f"{exercise.id}: the text supposes that {claim}; not so {who}: {_values_of(exercise, student, values)}."
                ]
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


def _so(claim, g):
    """Whether a claim holds; one that cannot be worked out with these givens does not."""
    try:
        return claim(g)
    except (StudentError, ZeroDivisionError):
        return False


def _count_meetings(worked, met):
    """How often each slip leads to a number, and how often that number is the right answer's or another slip's."""
    spread = worked.exercise.how.tolerance(worked.expected) if worked.wrong else 0
    numbers = [("the right answer", worked.expected)] + [(slip.name, wrong) for slip, wrong in worked.wrong]
    for i, (name, number) in enumerate(numbers):
        met[name] = met.get(name, 0) + 1
        for other, value in numbers[:i]:
            if abs(number - value) <= spread:
                met[name, other] = met.get((name, other), 0) + 1
    for slip in worked.exercise.slips:
        if not _so(slip.fits, worked.g):
            met[_UNTRUE, slip.name] = met.get((_UNTRUE, slip.name), 0) + 1


def _coincidences(exercise, met, values):
    """Sentences on slips that fall on another answer or say what is not so. met: what _count_meetings counted."""
    tried, found = met["the right answer"], []
    if tried == 1:  # the class values alone
        return _with_class_values(exercise, values)
    for slip in exercise.slips:
        untrue = met.get((_UNTRUE, slip.name), 0)
        if untrue > _SAME_SLIP_OFTEN * tried:
            found.append(
                f"{exercise.id}: the slip '{slip.name}' says what is not so for {_percent(untrue, tried)} of students "
                f'("{_short(slip.says)}"); narrow the range.'
            )
        elif not met.get(slip.name):
            found.append(
                f"{exercise.id}: the slip '{slip.name}' never leads to a number.{_why(exercise, slip, values)}"
            )
    for (name, other), times in _pairs(met):
        if name != _UNTRUE and times > _SAME_SLIP_OFTEN * met[name]:
            found.append(
                f"{exercise.id}: the slip '{name}' gives the same as {other} for {_percent(times, met[name])} of students; "
                "narrow the range."
            )
    return found + _with_class_values(exercise, values)


def _why(exercise, slip, values):
    """What stops a slip with the class values, where a sheet does; said there already, it is not said again."""
    try:
        slip.wrong(case(exercise, "", values).g)
    except StudentError as error:
        return f" {error}"
    except ZeroDivisionError:
        pass
    return ""


def _with_class_values(exercise, values):
    met, worked = {}, case(exercise, "", values)
    _count_meetings(worked, met)
    says = {slip.name: slip.says for slip in exercise.slips}
    return [
        f"{exercise.id}: with the class values the slip '{other}' says what is not so: \"{fill(says[other], worked.g)}\""
        if name == _UNTRUE
        else f"{exercise.id}: with the class values the slip '{name}' gives the same as {other}."
        for (name, other), _times in _pairs(met)
    ]


def _pairs(met):
    return [(key, times) for key, times in met.items() if isinstance(key, tuple)]


def _percent(part, whole):
    return f"{100 * part / whole:.0f} %"


def _short(text):
    return text if len(text) <= 60 else text[:57].rsplit(" ", 1)[0] + " ..."


def _values_of(exercise, student, values):
    rows = values.of(exercise.id).items()
    return ", ".join(f"{n} = {draw(exercise.id, n, row, student, values.word):g} {row.unit}".strip() for n, row in rows)
