"""Quantities: made from what is typed, and as a page writes them."""

import functools
import math
import re

import pint

from pastrylab.ground.grammar import StudentError, dimension, read_text, unit_named, unit_of
from pastrylab.ground.spellings import SMALL, SPELLINGS, Quantity


def Q(value, unit=None):
    """A quantity in the package's registry: `Q("45 degC")`, `Q(45, "degC")`, `Q("1 1/2 lb")`.

    Text is read by the kitchen grammar (`read_text`). Raises StudentError for text or units it does not know.
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
    """The same quantity in our registry, whichever registry it came from."""
    if quantity.__class__ is Quantity:
        return quantity
    return Quantity(quantity.magnitude, str(quantity.units))


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


def in_digits(value, digits=4):
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
    unit, text = symbol(quantity.units), in_digits(quantity.magnitude, digits)
    if unit in SMALL and re.fullmatch(
        r"-?[1-9][0-9]{0,2}[.][0-9]{3}", text
    ):  # what a page writes must read as one amount only
        text = in_digits(round(quantity.magnitude, 2), digits)
    return f"{text} {unit}".strip()


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
