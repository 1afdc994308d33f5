"""The key to a lesson's sheet on paper, worked from the numbers that stand on the sheet.

A sheet is text: a head, and questions "1. ...", with runs of underscores to write on. Where its numbers are changed the key
follows; where a question asks something else, there is no key to it, and the key says so.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass

from pastrylab.ground.errors import StudentError

_QUESTION = re.compile(r"^(\d{1,2})\. ", re.MULTILINE)
_BLANK = re.compile(r"_{3,}")
_NUMBER = re.compile(
    r"(?P<hour>\d{1,2}):(?P<minute>\d\d)|(?P<number>\d+(?:[.,]\d+)?)\s*"
    r"(?P<unit>°C|°F|%|(?:g/mL|kg|g|mL|mm|cm|lb|oz|kJ|hPa|minutes|min|h)(?![a-z]))?"
)


@dataclass(frozen=True)
class Key:
    """How one question is answered. units: what stands behind each of its numbers, in order, "-" for nothing and "clock" for
    a time of day. answer: from {question: its numbers, 0 the head's} to (an answer for each line to write on, None where it
    is the reader's own; what to say below). uses: other questions whose numbers it needs.

    >>> Key("% %", lambda s: (("50",), "half of it")).units
    '% %'
    """

    units: str
    answer: Callable
    uses: tuple[int, ...] = ()


@dataclass(frozen=True)
class Answered:
    """One question: its text, an answer (or None) for each line to write on, and what is said below it. known: whether the
    question is the one the key was made for.

    >>> Answered(1, "Half of 4 is ___.", ("2",), "").known
    True
    """

    number: int
    text: str
    answers: tuple
    says: str
    known: bool = True


def parts(text):
    """(the head of a sheet, {number: text of that question}).

    >>> parts("Name: ___\\n\\n1. Half of 4 is ___.\\n2. And of 5?")
    ('Name: ___', {1: 'Half of 4 is ___.', 2: 'And of 5?'})
    """
    starts = list(_QUESTION.finditer(text))
    ends = [start.start() for start in starts[1:]] + [len(text)]
    head = text[: starts[0].start()] if starts else text
    found = zip(starts, ends, strict=True)
    return head.strip(), {int(start[1]): text[start.end() : end].rstrip() for start, end in found}


def numbers(text):
    """The numbers of a text and what stands behind each: (tuple of floats, "kg °C -"); a time of day is minutes, "clock".

    >>> numbers("1.5 kg at 46 °C, 3 times, by 12:30")
    ((1.5, 46.0, 3.0, 750.0), 'kg °C - clock')
    """
    found, units = [], []
    for one in _NUMBER.finditer(text):
        clock = one["hour"] is not None
        found.append(60.0 * int(one["hour"]) + int(one["minute"]) if clock else float(one["number"].replace(",", ".")))
        units.append("clock" if clock else one["unit"] or "-")
    return tuple(found), " ".join(units)


def lines(text):
    """How many lines to write on a text has.

    >>> lines("A pound is ______ g and has ______ ounces.")
    2
    """
    return len(_BLANK.findall(text))


def filled(text, answers, write):
    """A text with write(answer) in place of each line to write on; a line whose answer is None stays.

    >>> filled("It is ___ or ___.", ("2", None), str.upper)
    'It is 2 or ___.'
    """
    left = iter(answers)

    def one(found):
        answer = next(left, None)
        return found[0] if answer is None else write(answer)

    return _BLANK.sub(one, text)


def answered(text, keys):
    """The questions of a sheet with their answers, a list of Answered. keys: {number: Key}, 0 for what the head must hold.

    >>> sheet = "1. Half of 4 kg is ___ kg.\\n2. Twice 4 g is ___ g."
    >>> halved = Key("kg", lambda s: ((f"{s[1][0] / 2:g}",), "÷ 2"))
    >>> [(one.answers, one.known) for one in answered(sheet, {1: halved, 2: halved})]
    [(('2',), True), ((None,), False)]
    """
    head, questions = parts(text)
    read = {number: numbers(one) for number, one in {0: head, **questions}.items()}
    fits = {number: number in read and read[number][1] == key.units for number, key in keys.items()}
    values = {number: found for number, (found, _) in read.items()}
    return [_one(number, one, keys.get(number), fits, values) for number, one in questions.items()]


def _one(number, text, key, fits, values):
    room = lines(text)
    if key and all(fits.get(one) for one in (number, *key.uses)):
        try:
            answers, says = key.answer(values)
        except (
            ValueError,
            ArithmeticError,
            StudentError,
        ):  # numbers that make no sense together, such as a yield of nothing
            answers, says = (), ""
        if len(answers) == room:
            return Answered(number, text, tuple(answers), says)
    return Answered(number, text, (None,) * room, "", known=False)
