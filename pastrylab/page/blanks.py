"""Boxes of a card to fill in: a count, a time, a percentage or money, read with the unit the box asks for."""

import re
from dataclasses import dataclass

from pastrylab.ground.grammar import dimension
from pastrylab.ground.money import Money, money
from pastrylab.ground.units import Quantity, StudentError, read_text

# Units that may stand in a box of the card, the first where none is typed; a wage may say what it is by.
_FITS = {"piece": ("piece", "dozen"), "%": ("percent",), "min": ("min", "h", "s")}
_AN_HOUR = re.compile(r"\s*(/|\ban?\b|\bper\b)\s*(h|hr|hour)\.?\s*$", re.IGNORECASE)


@dataclass(frozen=True)
class Blank:
    """A box of the card to type a number into: what it asks for, what stands in it, and in what it is counted.

    unit: "piece", "min", "%", or "" for money.
    """

    label: str
    value: str
    unit: str
    example: str

    def read(self, text):
        """What is typed: a float in `unit`, a percentage as a quantity, or Money. Raises StudentError naming the box."""
        if not self.unit:
            return money(_AN_HOUR.sub("", text), self.name)
        try:
            unit, number = self._read(text)
        except StudentError as error:
            needed = error.needed if "two ways" in error.given else self.needed
            raise StudentError(f"{error.given} for {self.name}", needed, self.example) from None
        if unit not in _FITS[self.unit] or number < 0:
            least = ", at least 0" if number < 0 else ""
            raise StudentError(f"'{text.strip()[:40]}' for {self.name}", f"{self.needed}{least}", self.example)
        if self.unit == "%":
            return Quantity(number, "percent")
        return float(Quantity(number, unit).m_as("min" if self.unit == "min" else "dimensionless"))

    def _read(self, text):
        """(unit, number), the unit that of the box where none was typed."""
        counted = self.unit == "piece" and text.strip()[-1:].isdigit()
        typed = read_text(f"{text} pieces" if counted else text, dimension(self.unit))
        if self.unit == "%" and not typed.unit and 0 < typed.number < 1:
            bare = f"{typed.number:g}"
            raise StudentError(
                f"{bare}, which can be read two ways", f"{100 * typed.number:g} % or {bare} %", self.example
            )
        return typed.unit or _FITS[self.unit][0], typed.number

    @property
    def name(self):
        return f"'{self.label}'"

    @property
    def needed(self):
        return {"piece": "a number of pieces", "%": "a percentage", "min": "a time"}[self.unit]


def in_currency(amount, code, name):
    """An amount of money in the currency of the others, which one that names none is taken to be in.

    amount: Money; code: the others' currency; name: of the box, for the refusal. Raises StudentError for another one.

    >>> from pastrylab.ground.money import money
    >>> str(in_currency(money("18.50"), "USD", "the wage"))
    '$18.50'
    """
    if amount.currency not in ("", code):
        raise StudentError(f"{amount} for {name}, and the other prices are in {code}", f"an amount in {code}", "18.50")
    return Money(amount.amount, code)
