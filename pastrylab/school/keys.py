"""A key: one student's questions with answer, working, and what counts as right, as plain text and numbers."""

import math
from dataclasses import dataclass, replace
from decimal import Decimal
from types import SimpleNamespace

from pastrylab.ground.money import Money
from pastrylab.ground.units import StudentError, symbol
from pastrylab.school import exercise_values
from pastrylab.school.class_list import Student
from pastrylab.school.engine import case

NOBODY = Student("")  # has the class values
_DIGITS = 4  # of an answer that has no tolerance of its own
_LIKE_THOUSANDS = 3  # decimals: "2.667 g" may be read as thousands, and is asked about when it is typed
_ONE_SIDED = {"high": "Nothing above: it is a limit.", "low": "Nothing below: it is a limit."}
# What holds for every number beside its own sentence.
FEWER_DIGITS = (
    "A number with fewer digits is right too where it is the answer rounded to them: half of the last digit typed counts, "
    "at most 1 % of the answer, and never beyond a limit."
)


@dataclass(frozen=True)
class Accepted:
    """What counts as right, written as it would be typed: the answer, lowest and highest, their unit ("" for none); and in words.

    A judgement has a letter as its number, and no lowest and highest.

    >>> Accepted("485", "480", "490", "g", "Right from 480 to 490 g.").unit
    'g'
    """

    number: str
    lowest: str = ""
    highest: str = ""
    unit: str = ""
    words: str = ""


@dataclass(frozen=True)
class KeyRow:
    """One exercise of one student: what is asked (text, table, options), the answer as a page shows it, what counts as
    right, the worked solution a sentence each, and ((slip, the wrong answer it leads to), ...).

    >>> from pastrylab import exercises
    >>> key_of([exercises.exercise("08.as-purchased")]).rows[0].answer
    '900 g (31.7 oz)'
    """

    exercise: str
    title: str
    question: str
    heads: tuple
    table: tuple
    options: tuple
    answer: str
    accepted: Accepted
    working: tuple
    slips: tuple


@dataclass(frozen=True)
class Key:
    """A student's key. missing: (title, why) of each exercise that the values cannot serve; the others stand. values: the
    id of those it was worked with; word: that of the term, "" for none.

    >>> Key(Student("17"), (), ()).student.number
    '17'
    """

    student: Student
    rows: tuple
    missing: tuple
    values: str = ""
    word: str = ""


def key_of(exercises, student=NOBODY, values=None):
    """The Key of one Student (without a number: the class values) to exercises, in their order.

    values: None for those in force, or Values, a path, CSV text. An exercise that the values cannot serve is missing, not
    an error. Raises StudentError for a file that cannot be read at all.

    >>> from pastrylab import exercises
    >>> key = key_of([exercises.exercise("02.seed-for-a-bowl")], Student("17"))
    >>> key.rows[0].accepted.unit, key.missing
    ('g', ())
    """
    values, rows, missing = exercise_values.survey(values), [], []
    for exercise in exercises:
        try:
            rows.append(_row(case(exercise, student.number, values)))
        except StudentError as error:
            missing.append((exercise.title, str(error)))
        except (AttributeError, KeyError) as error:
            missing.append((exercise.title, _lacks(error, exercise, values)))
    return Key(student, tuple(rows), tuple(missing), values.id, values.word)


def _lacks(error, exercise, values):
    """What to say of a given without a row; any other error is ours, and raised."""
    given = error.args[0] if isinstance(error, KeyError) else error.name
    if isinstance(error, AttributeError) and not isinstance(error.obj, SimpleNamespace):
        raise error
    return str(StudentError(f"{values.name} without the given '{given}' of {exercise.id}", "a row for it", exercise.id))


def _row(worked):
    exercise = worked.exercise
    heads, table = worked.table or ((), ())
    return KeyRow(
        exercise=exercise.id,
        title=exercise.title,
        question=" ".join(worked.prompt.split()),
        heads=tuple(heads),
        table=tuple(tuple(str(cell) for cell in row) for row in table),
        options=tuple((letter, " ".join(text.split())) for letter, text in worked.options),
        answer=worked.answer,
        accepted=accepted(exercise, worked.expected),
        working=tuple(worked.solution),
        slips=tuple((slip.name, exercise.how.show(wrong)) for slip, wrong in worked.wrong),
    )


def accepted(exercise, expected):
    """What the marker takes as right, Accepted, for a right answer as a Case holds it (`expected`).

    Lowest and highest are rounded inwards, so that each is itself taken when it is typed, and one more of its last digit
    is not.

    >>> from pastrylab import exercises
    >>> accepted(exercises.exercise("02.seed-for-a-bowl"), 433.21).words
    'Right from 428.3 to 438.2 g: a probe that shows tenths of a degree cannot tell less than this apart.'
    """
    if exercise.kind == "choice":
        letter = exercise.how.show(expected).partition(",")[0]
        return Accepted(letter, words="Right is this letter, or its words.")
    times = 100 if exercise.kind == "share" else 1
    answer, within = times * float(expected), times * float(exercise.how.tolerance(expected))
    step = _step(expected, answer, within)
    low = answer if exercise.limit == "low" else answer - within
    high = answer if exercise.limit == "high" else answer + within
    low, high = math.ceil(round(low / step, 9)), math.floor(round(high / step, 9))
    shown = float(expected.rounded()) if isinstance(expected, Money) else answer
    whole = min(max(round(shown / step), low), high) if low <= high else round(answer / step)
    texts = [_written(count, step) for count in (whole, min(low, whole), max(high, whole))]
    if not isinstance(expected, Money):
        texts = map(_bare, texts)
    found = Accepted(*texts, _unit(exercise, expected))
    return replace(found, words=_words(exercise, found, expected))


def _step(expected, answer, within):
    """The last digit that is written: of money a coin, else a tenth of the tolerance or finer."""
    if isinstance(expected, Money):
        return 10.0**-expected.places
    size = within / 10 if within else abs(answer) / 10 ** (_DIGITS - 1)
    places = -math.floor(math.log10(size)) if size else 0
    if places == _LIKE_THOUSANDS and abs(answer) >= 1:
        places += -1 if within >= 20 * 10.0**-_LIKE_THOUSANDS else 1
    return 10.0**-places


def _written(count, step):
    """So many steps as text, without zeros that say nothing; of money every coin."""
    places = max(0, -round(math.log10(step)))
    return f"{count * step:.{places}f}"


def _bare(text):
    return text.rstrip("0").rstrip(".") if "." in text else text


def _unit(exercise, expected):
    if isinstance(expected, Money):
        return expected.currency
    if exercise.kind == "share":
        return "%"
    return symbol(exercise.how.unit) if exercise.unit else ""


def _words(exercise, found, expected):
    """What counts as right, in a sentence or two."""
    money = isinstance(expected, Money)

    def written(*numbers):
        if money:
            return " to ".join(str(Money(Decimal(number), expected.currency)) for number in numbers)
        return f"{' to '.join(numbers)} {found.unit}".strip()

    why = f": {exercise.because}" if exercise.because else ""
    one = found.lowest == found.highest
    said = [f"Right {f'at {written(found.lowest)}' if one else f'from {written(found.lowest, found.highest)}'}{why}."]
    if exercise.limit:
        said.append(_ONE_SIDED[exercise.limit])
    return " ".join(said)
