"""Units at the door: quantities, the decorator that checks arguments, and how a page writes a quantity.

Typed text is read by the kitchen grammar (grammar.py), never by pint's own parser.
"""

import functools
import inspect
import math
from dataclasses import dataclass

import numpy as np
import pint

from pastrylab.grammar import (
    HUGE,
    LONGEST_TEXT,
    SPELLINGS,
    Quantity,
    StudentError,
    Typed,
    dimension,
    read_text,
    unit_named,
    unit_of,
)

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
    "kind_of",
    "read_text",
    "show",
    "symbol",
    "takes",
    "unit_named",
    "us_unit",
]


def Q(value, unit=None):
    """A quantity in the package's registry: `Q("45 degC")`, `Q(45, "degC")`, `Q("1 1/2 lb")`.

    Text is read by the kitchen grammar (`read_text`). Raises StudentError for text or units it does not know.
    """
    if isinstance(value, str):
        if unit is not None:
            value = f"{value} {unit}"
        return read_text(value).quantity
    if isinstance(value, pint.Quantity):
        return _adopt(value) if unit is None else _adopt(value).to(unit)
    if unit is None:
        raise StudentError(repr(value), "a number and its unit", 'Q("45 degC") or Q(45, "degC")')
    return Quantity(value, unit_of(unit if unit in _KNOWN_TO_PINT else unit_named(unit)))


_KNOWN_TO_PINT = set(SPELLINGS) | {"", "dimensionless"}


def _magnitude(quantity, unit):
    """The quantity's number in `unit`; a quantity of another registry converts there, by the unit's plain name."""
    if quantity.__class__ is not Quantity:
        return quantity.m_as(unit)
    if quantity.units is unit_of(unit) or quantity.units == unit_of(unit):
        return quantity.magnitude
    return quantity.m_as(unit_of(unit))


def _adopt(quantity):
    """The same quantity in our registry, whichever registry it came from."""
    if quantity.__class__ is Quantity:
        return quantity
    return Quantity(quantity.magnitude, str(quantity.units))


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
            raise self.refuse(name, f"{_brief(value)}, without a unit", both=True)
        self._right_sort(name, value)
        try:
            number = _magnitude(value, self.unit)
        except pint.DimensionalityError:
            raise self.refuse(name, f"{show(_adopt(value))}, which is {kind_of(str(value.units))}") from None
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
            raise self.refuse(name, f"{_number(worst)} {symbol(self.unit)}".strip(), self.range_in_words)
        return number

    @property
    def range_in_words(self):
        unit = f" {symbol(self.unit)}".rstrip()
        words = [
            f"{word} {_number(limit)}{unit}"
            for word, limit in (
                ("above", self.above),
                ("at least", self.at_least),
                ("below", self.below),
                ("at most", self.at_most),
            )
            if limit is not None
        ]
        return f"{self.needed} {' and '.join(words)}" if words else f"{self.needed} that fits a kitchen"

    def refuse(self, name, given, needed=None, both=False):
        example = self.example or f"{_number(_inside(self))} {self.unit}".strip()
        written = f'{name}="{example}"'
        if both:
            typed = read_text(example)
            written += f' or {name}=Q({_number(typed.number)}, "{typed.unit}")'
        return StudentError(f"{given} for {name}", needed or f"{self.needed}, with its unit", written)


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
                f"{show(_adopt(value))} for {name}, a difference between two temperatures",
                "a reading on the thermometer",
                f'{name}="{self.example}"',
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
                f"{show(_adopt(value))} for {name}, a thermometer reading",
                "a difference: a rise of 10 degF is 5.6 degC, whatever the reading 10 degF is",
                f'{name}=Q(10, "delta_degF")',
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
                raise self.refuse(name, f"{show(_adopt(value))}, which has a unit", self.needed) from None
        elif isinstance(value, bool) or value is None:
            raise self.refuse(name, _brief(value), self.needed)
        elif isinstance(value, list | tuple):
            value = np.asarray(value, dtype=float)
        return self.limited(name, value)

    def refuse(self, name, given, needed=None, both=False):
        example = self.example or _number(_inside(self))
        return StudentError(f"{given} for {name}", needed or self.range_in_words, f"{name}={example}")


@dataclass(frozen=True)
class Share(Number):
    """A share of a whole, 0 to 1: 0.9 or "90 %"."""

    at_least: float | None = 0.0
    at_most: float | None = 1.0
    example: str = '0.9 or "90 %"'

    @property
    def needed(self):
        return "a share, as a number from 0 to 1 or a percentage,"


def takes(returns=None, **doors):
    """Check and convert arguments at a public function's door; inside, everything is a plain float (or array).

    returns: unit of the result (wrapped as a quantity), or None to hand the result back as it is.
    doors: one In, Reading, Difference, Share or Number for each argument that is checked; others pass through.
    None passes where None is the default. The plain-float function stays reachable as `function.floats`.
    Raises StudentError.
    """

    def decorate(function):
        signature = inspect.signature(function)
        names = list(signature.parameters)
        unknown = set(doors) - set(names)
        if unknown:
            raise TypeError(f"{function.__name__} has no argument {unknown}")
        defaults = {n: p.default for n, p in signature.parameters.items() if p.default is not inspect.Parameter.empty}

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
                            doors[name].refuse(name, "nothing") if name in doors else StudentError("nothing", name)
                        )
                        raise example
                    given[name] = defaults[name]
                value = given[name]
                checked = name in doors and not (value is None and defaults.get(name, 0) is None)
                room[name] = doors[name].floats(name, value) if checked else value
            result = function(**room)
            return result if returns is None else Quantity(result, unit_of(returns))

        door.floats = function
        return door

    return decorate


def _read_named(name, text, expect):
    try:
        return read_text(text, expect)
    except StudentError as error:
        raise StudentError(f"{error.given} for {name}", error.needed, error.example) from None


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


# --- writing quantities -------------------------------------------------------------------------------------------

_KIND = {
    "[mass]": "a mass",
    "[length] ** 3": "a volume",
    "[length]": "a length",
    "[time]": "a time",
    "[temperature]": "a temperature",
    "[length] ** 2 * [mass] / [time] ** 2": "an amount of heat",
    "[mass] / [length] / [time] ** 2": "a pressure",
    "dimensionless": "a plain number",
}

_SYMBOLS = {
    "degC": "°C",
    "degF": "°F",
    "delta_degC": "°C",
    "delta_degF": "°F",
    "fl_oz": "fl oz",
    "percent": "%",
    "inch": "in",
    "day": "days",
    "piece": "pieces",
    "box": "boxes",
    "dimensionless": "",
    "pint": "pt",
    "quart": "qt",
    "gallon": "gal",
}
_US = {
    "kg": "lb",
    "g": "oz",
    "mL": "fl_oz",
    "L": "quart",
    "degC": "degF",
    "delta_degC": "delta_degF",
    "mm": "inch",
    "cm": "inch",
}


@functools.lru_cache(maxsize=512)
def _short(unit):
    """The short pint name of a unit, e.g. "degree_Celsius" -> "degC", where it is a single unit; else the name."""
    unit = unit_of(unit) if isinstance(unit, str) else unit
    for name in SPELLINGS:
        if unit_of(name) == unit:
            return name
    if unit == unit_of(""):
        return ""
    powers = [(_short(name), power) for name, power in unit._units.items()]
    above = " ".join(name + ("" if p == 1 else f"**{p:g}") for name, p in powers if p > 0) or "1"
    below = [name + ("" if p == -1 else f"**{-p:g}") for name, p in powers if p < 0]
    return f"{above}/({' '.join(sorted(below, reverse=True))})" if len(below) > 1 else "/".join([above, *below])


@functools.lru_cache(maxsize=512)
def symbol(unit):
    """The symbol of a unit on a page: symbol("degC") -> "°C"."""
    short = _short(unit)
    if short in _SYMBOLS:
        return _SYMBOLS[short]
    for name, mark in (("delta_degC", "°C"), ("delta_degF", "°F"), ("**3", "³"), ("**2", "²")):
        short = short.replace(name, mark)
    return short


def us_unit(unit):
    """The US customary unit beside a metric one: us_unit("kg") -> "lb"; the same unit where there is none."""
    return _US.get(_short(unit), _short(unit))


def _number(value, digits=4):
    """A plain number for a page: at most `digits` significant digits, no exponent, no trailing zeros."""
    value = float(value)
    if not math.isfinite(value):
        return "not a number"
    if value == 0:
        return "0"
    places = max(0, digits - 1 - math.floor(math.log10(abs(value))))
    text = f"{round(value, places):.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def show(quantity, digits=4):
    """A quantity as a page writes it: show(Q(484.6, "g"), 3) -> "485 g"; text and quantities alike."""
    quantity = Q(quantity)
    unit = symbol(quantity.units)
    return f"{_number(quantity.magnitude, digits)} {unit}".strip()


def both(quantity, digits=4):
    """Metric first, US customary beside it: both("2 kg") -> "2 kg (4.41 lb)"."""
    quantity = Q(quantity)
    other = us_unit(quantity.units)
    if other == _short(quantity.units):
        return show(quantity, digits)
    return f"{show(quantity, digits)} ({show(quantity.to(unit_of(other)), 3)})"


def kind_of(unit):
    """What a unit measures, in words: kind_of("g") -> "a mass"."""
    return _KIND.get(dimension(unit), "a quantity in " + symbol(unit))
