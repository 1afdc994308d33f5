"""Sums as a page writes them, read as a student with a pocket calculator reads them.

What is left of "=" must come to what is right of it. Nothing of the package reads them: numbers, + − × ÷ / ^, brackets,
√, log and e^. Units are passed over, "%" is a hundredth.
"""

import math
import re

FUNCTIONS = {"log": math.log10, "e^": math.exp, "√": math.sqrt}
UNITS = {"g", "kg", "kJ", "mL", "°C", "°F", "min", "days"}
TOKEN = re.compile(
    r"(?P<number>[$€£]?\d+(?:\.\d+)?)(?P<hundredth> %)?|(?P<function>√|log(?=\()|e\^(?=\())"
    r"|(?P<sign>[+−×÷/^()])|(?P<word>°[CF]|[^\W\d_]+)|(?P<other>\S)"
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
        while sign := self._next("×", "÷", "/"):
            found = found * self._power() if sign == "×" else found / self._power()
        return found

    def _power(self):
        found = self._one()
        return found ** self._one() if self._next("^") else found

    def _one(self):
        if self._next("−"):
            return -self._one()
        if function := self._next(*FUNCTIONS):
            return FUNCTIONS[function](self._one())
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
        right = re.match(
            r" ?([-−]?)([$€£]?\d+(?:\.\d+)?)(?!\.?\d)( %)?(?! ?[+−×÷/^])(?: ([^\W\d_]+))?", text[sign.end() :]
        )
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
