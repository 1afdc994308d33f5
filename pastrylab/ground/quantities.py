"""Quantities: made from what is typed, and as a page writes them."""

import functools
import math
import re

import pint

from pastrylab.ground.errors import StudentError
from pastrylab.ground.grammar import read_text, unit_named, unit_of
from pastrylab.ground.registry import Quantity
from pastrylab.ground.spellings import SMALL, SPELLINGS


def Q(value, unit=None):
    """A quantity in the package's registry: `Q("45 degC")`, `Q(45, "degC")`, `Q("1 1/2 lb")`.

    value: text, read by the kitchen grammar (`read_text`); a number or an array, with its unit as text; or a quantity,
    which a unit converts. Raises StudentError for text or units it does not know and for a number without a unit.

    >>> f"{Q('1 1/2 lb').m_as('g'):.1f}"
    '680.4'
    """
    if isinstance(value, str):
        if unit is not None:
            value = f"{value} {unit}"
        return read_text(value).quantity
    if isinstance(value, pint.Quantity):
        return adopt(value) if unit is None else adopt(value).to(unit)
    if unit is None:
        raise StudentError(repr(value), "a number and its unit", 'Q("45 degC") or Q(45, "degC")')
    return Quantity(value, unit_of(unit if unit in _KNOWN_TO_PINT else unit_named(unit)))


_KNOWN_TO_PINT = set(SPELLINGS) | {"", "dimensionless"}


def adopt(quantity):
    """The same quantity in our registry, whichever registry it came from. Raises pint's error for a unit ours lacks.

    >>> show(adopt(pint.UnitRegistry().Quantity(500, "g")))
    '500 g'
    """
    if quantity.__class__ is Quantity:
        return quantity
    return Quantity(quantity.magnitude, str(quantity.units))


@functools.lru_cache(maxsize=512)
def _times(unit, other):
    """What a number in one unit is multiplied by in another; None where a thermometer's scales begin at other points."""
    unit, other = unit_of(unit), unit_of(other)
    return None if Quantity(0.0, unit).m_as(other) else Quantity(1.0, unit).m_as(other)


def in_other_unit(number, unit, other):
    """A plain number in one unit as a float in another, both by the names that `unit_named` gives.

    Raises pint's error where the two measure different things.

    >>> in_other_unit(2, "kg", "g"), round(in_other_unit(32.0, "degF", "degC"), 9)
    (2000.0, 0.0)
    """
    times = _times(unit, other)
    return float(Quantity(number, unit_of(unit)).m_as(unit_of(other)) if times is None else number * times)


_MEASURES = {
    "g": "a mass",
    "mL": "a volume",
    "m": "a length",
    "s": "a time",
    "degC": "a temperature",
    "J": "an amount of heat",
    "Pa": "a pressure",
    "delta_degC/min": "a rate of warming or cooling",
    "g/min": "a rate (so much in a minute)",
    "mL/min": "a rate (so much in a minute)",
    "1/min": "a rate (a share in a minute)",
    "": "a plain number",
}
# By the dimension itself: its text names the parts in an order that is pint's own affair.
_KIND = {unit_of(unit).dimensionality: words for unit, words in _MEASURES.items()}

_SYMBOLS = {
    "degC": "°C",
    "degF": "°F",
    "delta_degC": "°C",
    "delta_degF": "°F",
    "fl_oz": "fl oz",
    "percent": "%",
    "inch": "in",
    "foot": "ft",
    "week": "weeks",
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
    "m": "foot",
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
    if list(unit._units.values()) == [1]:  # known to the registry but to no cook: a newton
        return str(unit)
    powers = [(_short(name), power) for name, power in unit._units.items()]
    above = " ".join(name + ("" if p == 1 else f"**{p:g}") for name, p in powers if p > 0) or "1"
    below = [name + ("" if p == -1 else f"**{-p:g}") for name, p in powers if p < 0]
    return f"{above}/({' '.join(sorted(below, reverse=True))})" if len(below) > 1 else "/".join([above, *below])


@functools.lru_cache(maxsize=512)
def symbol(unit):
    """The symbol of a unit on a page, "" for a plain number. Raises StudentError for a unit not known.

    >>> symbol("degC"), symbol("J/(kg K)")
    ('°C', 'J/(kg K)')
    """
    short = _short(unit)
    if short in _SYMBOLS:
        return _SYMBOLS[short]
    for name, mark in (("delta_degC", "°C"), ("delta_degF", "°F"), ("**3", "³"), ("**2", "²")):
        short = short.replace(name, mark)
    return short


def us_unit(unit):
    """The short name of the US customary unit beside a metric one; of the same unit where there is none.

    Raises StudentError for a unit not known.

    >>> us_unit("kg"), us_unit("s")
    ('lb', 's')
    """
    return _US.get(_short(unit), _short(unit))


def in_digits(value, digits=4):
    """A plain number for a page: at most `digits` significant digits, no exponent, no trailing zeros.

    What stands before the point is written in full; nan and infinities are "not a number".

    >>> in_digits(0.123456), in_digits(31.0, 3), in_digits(1250000)
    ('0.1235', '31', '1250000')
    """
    value = float(value)
    if not math.isfinite(value):
        return "not a number"
    if value == 0:
        return "0"
    places = max(0, digits - 1 - math.floor(math.log10(abs(value))))
    text = f"{round(value, places):.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def show(quantity, digits=4):
    """A quantity, or text that Q reads, as a page writes it: at most `digits` significant digits, and its symbol.

    What would read as thousands (1.250 kg) loses its third decimal. Raises StudentError as Q does.

    >>> show(Q(484.6, "g"), 3), show("31.5 degC")
    ('485 g', '31.5 °C')
    """
    quantity = Q(quantity)
    unit, text = symbol(quantity.units), in_digits(quantity.magnitude, digits)
    if unit in SMALL and re.fullmatch(
        r"-?[1-9][0-9]{0,2}[.][0-9]{3}", text
    ):  # what a page writes must read as one amount only
        text = in_digits(round(quantity.magnitude, 2), digits)
    return f"{text} {unit}".strip()


def both(quantity, digits=4):
    """A quantity, or text that Q reads: as given, with US customary beside it in three digits where there is such a unit.

    Raises StudentError as Q does.

    >>> both("2 kg")
    '2 kg (4.41 lb)'
    """
    quantity = Q(quantity)
    other = us_unit(quantity.units)
    if other == _short(quantity.units):
        return show(quantity, digits)
    return f"{show(quantity, digits)} ({show(quantity.to(unit_of(other)), 3)})"


def kind_of(unit):
    """What a unit measures, in words. Raises StudentError for a unit not known.

    >>> kind_of("g"), kind_of("kJ"), kind_of("g/mL")
    ('a mass', 'an amount of heat', 'a quantity in g/mL')
    """
    return _KIND.get(unit_of(unit).dimensionality, "a quantity in " + symbol(unit))
