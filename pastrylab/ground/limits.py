"""What an argument may be: a mass, a reading, a difference, a number or a share, and its limits.

Typed text is read by the kitchen grammar (grammar.py), never by pint's own parser.
"""

import math
from dataclasses import dataclass

import numpy as np
import pint

from pastrylab.ground.errors import StudentError
from pastrylab.ground.grammar import LONGEST_TEXT, Quantity, dimension, read_text
from pastrylab.ground.numbers import HUGE
from pastrylab.ground.quantities import adopt, in_digits, kind_of, show, symbol


@dataclass(frozen=True)
class In:
    """An argument in `unit`, within limits given in that unit. `example` is what a student could type."""

    unit: str
    above: float | None = None
    at_least: float | None = None
    below: float | None = None
    at_most: float | None = None
    example: str = ""

    @property
    def needed(self):
        return kind_of(self.unit)

    def floats(self, name, value, arrays=False):
        """The value as a plain float in `unit`; an array where `arrays` are wanted. name: what messages call it.

        value: text or a quantity. Raises StudentError for what is no such quantity, or lies beyond the limits.

        >>> In("kg", above=0).floats("batch", "250 g")
        0.25
        """
        if isinstance(value, str):
            typed = _read_named(name, value, dimension(self.unit))
            if not typed.unit:
                raise self.refuse(name, f"'{value.strip()}', a number without a unit")
            value = self._meaning(typed)
        elif isinstance(value, list | tuple) and not arrays:
            raise self._a_row(name, len(value))
        elif not isinstance(value, pint.Quantity):
            raise self.refuse(name, f"{_brief(value)}, without a unit", code=True)
        self._right_sort(name, value)
        try:
            number = value.m_as(self.unit)
        except pint.DimensionalityError:
            raise self.refuse(name, f"{_shown(value)}, which is {kind_of(str(value.units))}") from None
        return self.limited(name, number, arrays)

    def _meaning(self, typed):
        return typed.quantity

    def _right_sort(self, name, value):
        pass

    def limited(self, name, number, arrays=False):
        """The number, in `unit`, if finite and within the limits, else StudentError.

        >>> In("kg", above=0).limited("batch", 2)
        2.0
        """
        if isinstance(number, np.ndarray | list | tuple):
            number = self._many(name, number, arrays)
        else:
            try:
                number = float(number)
            except (TypeError, ValueError):
                raise self.refuse(name, _brief(number)) from None
        low = high = number
        if number.__class__ is not float:
            if not number.size:
                return number
            low, high = float(number.min()), float(number.max())
        if not (math.isfinite(low) and math.isfinite(high)):
            raise self.refuse(name, "a value that is not a number")
        if max(abs(low), abs(high)) > HUGE:
            huge = f"{max(low, high, key=abs):.3g} {symbol(self.unit)}".strip()
            raise self.refuse(name, huge, f"{self.needed} that fits a kitchen")
        worst = self._beyond(low, high)
        if worst is not None:
            raise self.refuse(name, f"{in_digits(worst)} {symbol(self.unit)}".strip(), self.range_in_words)
        return number

    def _many(self, name, numbers, arrays):
        """Several values as an array of floats, where they are wanted; one alone, however wrapped, is a float."""
        try:
            found = np.asarray(numbers, dtype=float)
        except (TypeError, ValueError):
            raise self.refuse(name, _brief(numbers)) from None
        if found.ndim == 0:
            return float(found)
        if not arrays:
            raise self._a_row(name, found.size)
        return found

    def _a_row(self, name, many):
        return self.refuse(name, f"a row of {many} values", f"one value at a time, {self.needed.rstrip(',')}")

    def _beyond(self, low, high):
        """Which of the lowest and the highest value lies beyond a limit, or None."""
        if (self.above is not None and low <= self.above) or (self.at_least is not None and low < self.at_least):
            return low
        if (self.below is not None and high >= self.below) or (self.at_most is not None and high > self.at_most):
            return high
        return None

    @property
    def range_in_words(self):
        unit = f" {symbol(self.unit)}".rstrip()
        words = [
            f"{word} {in_digits(limit)}{unit}"
            for word, limit in (
                ("above", self.above),
                ("at least", self.at_least),
                ("below", self.below),
                ("at most", self.at_most),
            )
            if limit is not None
        ]
        return f"{self.needed} {' and '.join(words)}" if words else f"{self.needed} that fits a kitchen"

    def refuse(self, name, given, needed=None, code=False):
        """The StudentError for this argument; code: it can only have come from a line of code, so its example is one."""
        example = self.example or f"{in_digits(_inside(self))} {self.unit}".strip()
        needed = needed or f"{self.needed}, with its unit"
        if not code:
            return StudentError(f"{given} for {_in_words(name)}", needed, _as_cooks_write(example))
        typed = read_text(example)
        call = f'{name}="{example}" or {name}=Q({in_digits(typed.number)}, "{typed.unit}")'
        return StudentError(f"{given} for {_in_words(name)}", needed, call)


@dataclass(frozen=True)
class Reading(In):
    """A temperature read off a thermometer, in degC in the room."""

    unit: str = "degC"
    at_least: float | None = -60
    at_most: float | None = 300
    example: str = "31.5 degC"

    @property
    def needed(self):
        return "a temperature reading"

    def _right_sort(self, name, value):
        # A rate, "0.5 °C/min", is no difference: what it is, the door says itself.
        if [unit for unit, _ in value.unit_items()] in (["delta_degree_Celsius"], ["delta_degree_Fahrenheit"]):
            raise StudentError(
                f"{_shown(value)} for {_in_words(name)}, a difference between two temperatures",
                "a reading on the thermometer",
                _as_cooks_write(self.example),
            )


@dataclass(frozen=True)
class Difference(In):
    """A difference of two temperatures, in degC steps (K) in the room. Typed "10 degF" is read as 10 steps."""

    unit: str = "delta_degC"
    at_least: float | None = -300
    at_most: float | None = 300
    example: str = "5 delta_degC"

    @property
    def needed(self):
        return "a temperature difference"

    def _meaning(self, typed):
        return Quantity(typed.number, "delta_" + typed.unit) if typed.unit in ("degC", "degF") else typed.quantity

    def _right_sort(self, name, value):
        if any(unit in ("degree_Celsius", "degree_Fahrenheit") for unit, _ in value.unit_items()):
            raise StudentError(
                f"{_shown(value)} for {_in_words(name)}, a thermometer reading",
                "a difference: a rise of 10 °F is 5.6 °C, whatever the reading 10 °F is",
                '"10 °F" as text, or Q(10, "delta_degF")',
            )


@dataclass(frozen=True)
class Number(In):
    """A plain number without a unit (a pH, a ratio, a count)."""

    unit: str = "dimensionless"

    @property
    def needed(self):
        return "a plain number"

    def floats(self, name, value, arrays=False):
        """The value as a plain float, or an array where `arrays` are wanted; else StudentError.

        >>> Number(at_least=0).floats("parts", "2 1/2"), Share().floats("loss", "4 %")
        (2.5, 0.04)
        """
        if isinstance(value, str):
            typed = _read_named(name, value, "dimensionless")
            if typed.unit and dimension(typed.unit) != "dimensionless":
                raise self.refuse(name, f"'{value.strip()}', which has a unit", self.needed)
            value = typed.quantity.m_as("dimensionless") if typed.unit else typed.number
        elif isinstance(value, pint.Quantity):
            try:
                value = value.m_as("dimensionless")
            except pint.DimensionalityError:
                raise self.refuse(name, f"{_shown(value)}, which has a unit", self.needed) from None
        elif isinstance(value, bool) or value is None:
            raise self.refuse(name, _brief(value), self.needed)
        return self.limited(name, value, arrays)

    def refuse(self, name, given, needed=None, code=False):
        example = self.example or in_digits(_inside(self))
        return StudentError(f"{given} for {_in_words(name)}", (needed or self.range_in_words).rstrip(","), example)


@dataclass(frozen=True)
class Share(Number):
    """A share of a whole, 0 to 1: 0.9 or "90 %"."""

    at_least: float | None = 0.0
    at_most: float | None = 1.0
    example: str = "0.9 or 90 %"

    @property
    def needed(self):
        return "a share, as a number from 0 to 1 or a percentage,"


def _read_named(name, text, expect):
    try:
        return read_text(text, expect)
    except StudentError as error:
        raise StudentError(f"{error.given} for {_in_words(name)}", error.needed, error.example) from None


def _in_words(name):
    return name.replace("_", " ")


def _as_cooks_write(example):
    return example.replace("delta_", "").replace("degC", "°C").replace("degF", "°F")


def _inside(limits):
    low = limits.above if limits.above is not None else limits.at_least
    high = limits.below if limits.below is not None else limits.at_most
    if low is None and high is None:
        return 1
    if low is None or high is None:
        return (low + 1) if high is None else (high - 1)
    return (low + high) / 2


def _brief(value):
    text = repr(value)
    return text if len(text) <= LONGEST_TEXT else text[:LONGEST_TEXT] + "..."


def _shown(quantity):
    many = np.size(quantity.magnitude)
    return show(adopt(quantity)) if np.ndim(quantity.magnitude) == 0 else f"a row of {many} values"
