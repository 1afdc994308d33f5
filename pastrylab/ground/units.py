"""Units at the door: the decorator that checks arguments and hands them on as plain floats.

Typed text is read by the kitchen grammar (grammar.py), never by pint's own parser.
"""

import functools
import inspect
import math
from dataclasses import dataclass

import numpy as np
import pint

from pastrylab.ground.grammar import (
    HUGE,
    LONGEST_TEXT,
    Quantity,
    StudentError,
    Typed,
    dimension,
    read_text,
    unit_named,
    unit_of,
)
from pastrylab.ground.quantities import Q, adopt, both, in_digits, kind_of, show, symbol, us_unit

__all__ = [
    "Difference",
    "In",
    "Number",
    "Q",
    "Quantity",
    "Reading",
    "Share",
    "StudentError",
    "Typed",
    "both",
    "dimension",
    "in_digits",
    "kind_of",
    "read_text",
    "show",
    "symbol",
    "takes",
    "unit_named",
    "us_unit",
]


def _magnitude(quantity, unit):
    """The quantity's number in `unit`; a quantity of another registry converts there, by the unit's plain name."""
    if quantity.__class__ is not Quantity:
        return quantity.m_as(unit)
    if quantity.units is unit_of(unit) or quantity.units == unit_of(unit):
        return quantity.magnitude
    return quantity.m_as(unit_of(unit))


# --- the door -----------------------------------------------------------------------------------------------------


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

    def floats(self, name, value):
        if isinstance(value, str):
            typed = _read_named(name, value, dimension(self.unit))
            if not typed.unit:
                raise self.refuse(name, f"'{value.strip()}', a number without a unit")
            value = self._meaning(typed)
        elif not isinstance(value, pint.Quantity):
            raise self.refuse(name, f"{_brief(value)}, without a unit", code=True)
        self._right_sort(name, value)
        try:
            number = _magnitude(value, self.unit)
        except pint.DimensionalityError:
            raise self.refuse(name, f"{show(adopt(value))}, which is {kind_of(str(value.units))}") from None
        return self.limited(name, number)

    def _meaning(self, typed):
        return typed.quantity

    def _right_sort(self, name, value):
        pass

    def limited(self, name, number):
        """number if finite and within the limits, else StudentError."""
        if isinstance(number, np.ndarray):
            low, high = (number.min(), number.max()) if number.size else (0.0, 0.0)
            fine = bool(np.isfinite(low) and np.isfinite(high))
        else:
            try:
                low = high = number = float(number)
            except (TypeError, ValueError):
                raise self.refuse(name, _brief(number)) from None
            fine = math.isfinite(number)
        if not fine:
            raise self.refuse(name, "a value that is not a number")
        if max(abs(low), abs(high)) > HUGE:
            raise self.refuse(name, f"{high:.3g} {symbol(self.unit)}".strip(), f"{self.needed} that fits a kitchen")
        too_low = (self.above is not None and low <= self.above) or (self.at_least is not None and low < self.at_least)
        too_high = (self.below is not None and high >= self.below) or (self.at_most is not None and high > self.at_most)
        if too_low or too_high:
            worst = low if too_low else high
            raise self.refuse(name, f"{in_digits(worst)} {symbol(self.unit)}".strip(), self.range_in_words)
        return number

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
        if any(unit.startswith("delta_") for unit, _ in value.unit_items()):
            raise StudentError(
                f"{show(adopt(value))} for {_in_words(name)}, a difference between two temperatures",
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
                f"{show(adopt(value))} for {_in_words(name)}, a thermometer reading",
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

    def floats(self, name, value):
        if isinstance(value, str):
            typed = _read_named(name, value, "dimensionless")
            if typed.unit and dimension(typed.unit) != "dimensionless":
                raise self.refuse(name, f"'{value.strip()}', which has a unit", self.needed)
            value = typed.quantity.m_as("dimensionless") if typed.unit else typed.number
        elif isinstance(value, pint.Quantity):
            try:
                value = value.m_as("dimensionless")
            except pint.DimensionalityError:
                raise self.refuse(name, f"{show(adopt(value))}, which has a unit", self.needed) from None
        elif isinstance(value, bool) or value is None:
            raise self.refuse(name, _brief(value), self.needed)
        elif isinstance(value, list | tuple):
            value = np.asarray(value, dtype=float)
        return self.limited(name, value)

    def refuse(self, name, given, needed=None, code=False):
        example = self.example or in_digits(_inside(self))
        return StudentError(f"{given} for {_in_words(name)}", needed or self.range_in_words, example)


@dataclass(frozen=True)
class Share(Number):
    """A share of a whole, 0 to 1: 0.9 or "90 %"."""

    at_least: float | None = 0.0
    at_most: float | None = 1.0
    example: str = "0.9 or 90 %"

    @property
    def needed(self):
        return "a share, as a number from 0 to 1 or a percentage,"


def takes(returns=None, **doors):
    """Check and convert arguments at a public function's door; inside, everything is a plain float (or array).

    returns: unit of the result (wrapped as a quantity), or None to hand the result back as it is.
    doors: one In, Reading, Difference, Share or Number for each argument that is checked; others pass through.
    None passes where None is the default. The plain-float function stays reachable as `function.floats`; its defaults
    are plain floats too, converted once.
    Raises StudentError.
    """

    def decorate(function):
        signature = inspect.signature(function)
        names = list(signature.parameters)
        unknown = set(doors) - set(names)
        if unknown:
            raise TypeError(f"{function.__name__} has no argument {unknown}")
        defaults = {n: p.default for n, p in signature.parameters.items() if p.default is not inspect.Parameter.empty}
        converted = {n: doors[n].floats(n, d) for n, d in defaults.items() if n in doors and d is not None}
        _plain_defaults(function, signature, converted)

        @functools.wraps(function)
        def door(*args, **kwargs):
            if len(args) > len(names) or not kwargs.keys() <= doors.keys() | set(names):
                signature.bind(*args, **kwargs)
            given = dict(zip(names, args, strict=False))
            if given.keys() & kwargs.keys():
                signature.bind(*args, **kwargs)
            given.update(kwargs)
            room = {}
            for name in names:
                if name not in given:
                    if name not in defaults:
                        example = (
                            doors[name].refuse(name, "nothing", code=True)
                            if name in doors
                            else StudentError("nothing", name)
                        )
                        raise example
                    room[name] = converted.get(name, defaults[name])
                    continue
                value = given[name]
                checked = name in doors and not (value is None and defaults.get(name, 0) is None)
                room[name] = doors[name].floats(name, value) if checked else value
            result = function(**room)
            return result if returns is None else Quantity(result, unit_of(returns))

        door.floats, door.__signature__ = function, signature
        return door

    return decorate


def _plain_defaults(function, signature, converted):
    """Give a function its converted defaults, so that it may be called with plain floats alone."""
    placed = [n for n, p in signature.parameters.items() if p.kind is not inspect.Parameter.KEYWORD_ONLY]
    behind = function.__defaults__ or ()
    function.__defaults__ = tuple(
        converted.get(n, d) for n, d in zip(placed[len(placed) - len(behind) :], behind, strict=True)
    )
    function.__kwdefaults__ = {n: converted.get(n, d) for n, d in (function.__kwdefaults__ or {}).items()}


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
