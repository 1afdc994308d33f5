"""The sums in worked solutions, read as a student with a pocket calculator reads them: what is left of "=" comes to what is right of it.

Nothing of the package reads them: numbers, + − × ÷ ^, brackets, log and e^. Units are passed over, "%" is a hundredth.
"""

import math
import re

import pytest

from pastrylab.course.catalogue import EXERCISES
from pastrylab.school.engine import case

STUDENTS = ["", "Ana", "Bo", "Chidi", "Daria", "Emre"]
UNITS = {"g", "kg", "kJ", "mL", "°C", "°F", "min", "days"}
TOKEN = re.compile(
    r"(?P<number>[$€£]?\d+(?:\.\d+)?)(?P<hundredth> %)?|(?P<function>log(?=\()|e\^(?=\())"
    r"|(?P<sign>[-+−×÷^()])|(?P<word>°[CF]|[^\W\d_]+)|(?P<other>\S)"
)


class Sum:
    """The numbers and signs that stand before an equals sign, as far back as they are numbers and signs."""

    def __init__(self, text):
        tokens = []
        for token in reversed(list(TOKEN.finditer(text))):
            if token["other"] or (token["word"] and token["word"] not in UNITS):
                break
            if not token["word"]:
                tokens.insert(0, token)
        self.tokens = [t["function"] or t["sign"] or ("%" if t["hundredth"] else "") + t["number"] for t in tokens]

    def numbers(self):
        return [i for i, token in enumerate(self.tokens) if token[-1].isdigit()]

    def worth(self, moved=None, by=0.0):
        """What it comes to; with the number at `moved` off by `by`."""
        self.at, self.moved, self.by = 0, moved, by
        found = self._terms()
        assert self.at == len(self.tokens), self.tokens
        return found

    def _next(self, *wanted):
        if self.at < len(self.tokens) and self.tokens[self.at] in wanted:
            self.at += 1
            return self.tokens[self.at - 1]
        return None

    def _terms(self):
        found = self._factors()
        while sign := self._next("+", "−"):
            found += self._factors() * (1 if sign == "+" else -1)
        return found

    def _factors(self):
        found = self._power()
        while sign := self._next("×", "÷"):
            found = found * self._power() if sign == "×" else found / self._power()
        return found

    def _power(self):
        found = self._one()
        return found ** self._one() if self._next("^") else found

    def _one(self):
        if self._next("−"):
            return -self._one()
        if function := self._next("log", "e^"):
            return (math.log10 if function == "log" else math.exp)(self._one())
        if self._next("("):
            found = self._terms()
            assert self._next(")"), self.tokens
            return found
        token, here = self.tokens[self.at], self.at
        self.at += 1
        return read(token)[0] + (self.by if here == self.moved else 0)


def read(token):
    """(value, half of the last digit, significant digits) of a written number."""
    digits = token.lstrip("%$€£")
    times = 0.01 if token.startswith("%") else 1.0
    half = 0.5 * 10.0 ** -len(digits.partition(".")[2]) * times
    return float(digits) * times, half, len(digits.replace(".", "").lstrip("0"))


def sums(text):
    """[(Sum, right side, half of its last digit, unit)] of every "... = number" in a text."""
    found = []
    for sign in re.finditer("=", text):
        right = re.match(r" ?([-−]?)([$€£]?\d+(?:\.\d+)?)( %)?(?: ([^\W\d_]+))?", text[sign.end() :])
        left = Sum(text[: sign.start()])
        if right and left.tokens:
            value, half, _ = read(("%" if right[3] else "") + right[2])
            found.append((left, -value if right[1] else value, half, right[4] or ""))
    return found


def off(left, right, half):
    """By how much more than its printed digits allow the right side misses; 0 where it holds.

    A number of four digits or more may have been rounded by the page: it is moved by half of its last digit.
    """
    came = left.worth()
    for i in left.numbers():
        _, last, digits = read(left.tokens[i])
        if digits >= 4:
            half += abs(left.worth(i, last) - came)
    return max(0.0, abs(came - right) - half * (1 + 1e-9) - 1e-12)


@pytest.mark.parametrize(
    ("text", "holds"),
    [
        ("Heat: 3 kg × 1.59 × (46 − 31.5) = 69.165 kJ.", True),
        ("Heat: 3 kg × 1.59 × (46 + 31.5) = 69.165 kJ.", False),
        ("(52.2 + (−92)) ÷ 2 = −19.9", True),
        ("(52.2 + 92) ÷ 2 = −19.9", False),
        ("takes $270.00 − 49 × $5.50 = $0.50", True),
        ("takes $270.00 − 48 × $5.50 = $0.50", False),
        ("log(53 ÷ 17) ÷ log(2) = 1.6405 times", True),
        ("0.9102 × e^(−0.02472) = 0.888", True),
        ("0.9102 × e^(0.02472) = 0.888", False),
        ("so 361 g ÷ 870 g = 41.49 %", True),
        ("so 361 g ÷ 870 g = 41.6 %", False),
        ("10^1.349 = 22.34 days", True),
    ],
)
def test_a_sum_is_read_as_written(text, holds):
    ((left, right, half, _),) = sums(text)
    assert (off(left, right, half) == 0) == holds


@pytest.mark.parametrize("which", EXERCISES)
def test_the_sums_of_every_worked_solution_hold(which):
    exercise = EXERCISES[which]
    for student in STUDENTS:
        worked = case(exercise, student)
        steps = worked.solution[:-1]
        found = [one for step in steps for one in sums(step)]
        assert found, "words only"
        for left, right, half, _ in found:
            assert off(left, right, half) == 0, (student, left.tokens, left.worth(), right)
        if exercise.kind == "choice":
            continue
        expected, spread = float(worked.expected), max(exercise.resolution, 1e-3 * abs(float(worked.expected)))
        ends = {right * (1000 if unit == "kg" and exercise.unit == "g" else 1) for _, right, _, unit in found}
        if which == "08.break-even":  # its last step is in words: boxes are sold whole
            ends = {math.ceil(end) for end in ends}
        assert any(abs(end - expected) <= spread for end in ends), (student, ends, expected)
