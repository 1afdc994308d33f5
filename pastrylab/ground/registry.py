"""pint's registry with the units of a kitchen; what it works out of a unit's name, or of two units, is kept."""

import functools
import operator

import pint
from pint.util import UnitsContainer, to_units_container

from pastrylab.ground.constants import ZERO_CELSIUS

# NIST SP 811 (2008) appendix B: pound 453.592 37 g and gallon 231 cubic inches, both exact.
_DEFINITIONS = f"""
milli- = 1e-3 = m-
centi- = 1e-2 = c-
deci- = 1e-1 = d-
deca- = 1e1 = da-
hecto- = 1e2 = h-
kilo- = 1e3 = k-
meter = [length] = m
gram = [mass] = g
second = [time] = s
kelvin = [temperature]; offset: 0 = K
degree_Celsius = kelvin; offset: {ZERO_CELSIUS} = °C = degC
degree_Fahrenheit = 5 / 9 * kelvin; offset: 233.15 + 200 / 9 = °F = degF
percent = 0.01 = %
piece = []
dozen = 12 * piece
box = []
minute = 60 * second = min
hour = 60 * minute = h
day = 24 * hour = day
week = 7 * day = week
inch = 2.54 * centimeter = inch
foot = 12 * inch = foot
pound = 453.59237 * gram = lb
ounce = pound / 16 = oz
liter = decimeter ** 3 = L
gallon = 231 * inch ** 3 = gallon
quart = gallon / 4 = quart
pint = quart / 2 = pint
cup = pint / 2 = cup
fluid_ounce = cup / 8 = fl_oz
tablespoon = fluid_ounce / 2 = tbsp
teaspoon = tablespoon / 3 = tsp
newton = kilogram * meter / second ** 2 = N
pascal = newton / meter ** 2 = Pa
joule = newton * meter = J
calorie = 4.184 * joule = cal
watt = joule / second = W
"""


class _Quantity(pint.UnitRegistry.Quantity):
    """A quantity as pint has it. For plain numbers, the factor between two units and the unit of a product are asked for once
    and kept; thermometers' scales, rows of numbers and all else are left to pint."""

    def __new__(cls, value, units=None):
        inside = _inside(units)
        if value.__class__ is not float or inside is None:
            return super().__new__(cls, value, units)
        made = object.__new__(cls)
        made._magnitude, made._units = value, inside
        return made

    def to(self, other=None, *contexts, **more):
        inside = _inside(other)
        if self._magnitude.__class__ is float and inside is not None and not (contexts or more):
            times = _times(self._units, inside)
            if times is not None:
                return self.__class__(self._magnitude * times, inside)
        return super().to(other, *contexts, **more)

    def m_as(self, units):
        inside = _inside(units)
        if self._magnitude.__class__ is float and inside is not None:
            times = _times(self._units, inside)
            if times is not None:
                return self._magnitude * times
        return super().m_as(units)

    def __mul__(self, other):
        made = self._joined(other, operator.mul)
        return super().__mul__(other) if made is None else made

    __rmul__ = __mul__

    def __truediv__(self, other):
        made = self._joined(other, operator.truediv)
        return super().__truediv__(other) if made is None else made

    def __add__(self, other):
        made = self._put_together(other, operator.add)
        return super().__add__(other) if made is None else made

    def __sub__(self, other):
        made = self._put_together(other, operator.sub)
        return super().__sub__(other) if made is None else made

    def _joined(self, other, sign):
        """A product or a quotient of plain numbers; None where it is pint's affair: a thermometer's scale, a row."""
        kind = other.__class__
        if self._magnitude.__class__ is not float:
            return None
        if kind is float or kind is int:
            units, number = _product(self._units, _NO_UNIT, sign), other
        elif kind is self.__class__ and other._magnitude.__class__ is float:
            units, number = _product(self._units, other._units, sign), other._magnitude
        else:
            return None
        return None if units is None else self.__class__(sign(self._magnitude, number), units)

    def _put_together(self, other, sign):
        """A sum or a difference of plain numbers in one unit; None where it is pint's affair."""
        if (
            other.__class__ is not self.__class__
            or not self._magnitude.__class__ is other._magnitude.__class__ is float
        ):
            return None
        if self._units is not other._units and self._units != other._units:
            return None
        if _product(self._units, _NO_UNIT, operator.mul) is None:
            return None
        return self.__class__(sign(self._magnitude, other._magnitude), self._units)


class _Registry(pint.UnitRegistry):
    Quantity = _Quantity


REGISTRY = _Registry(_DEFINITIONS.strip().splitlines(), cache_folder=None)
Quantity = REGISTRY.Quantity
_NO_UNIT = UnitsContainer()


def _inside(units):
    """What pint keeps of a unit, by its name or from an object that has one; None where that is not so simple."""
    if units.__class__ is str:
        return _named(units)
    inside = getattr(units, "_units", units) if units.__class__ is not Quantity else None
    return inside if inside.__class__ is UnitsContainer else None


@functools.lru_cache(maxsize=1024)
def _named(unit):
    return to_units_container(unit, REGISTRY)


@functools.lru_cache(maxsize=4096)
def _product(units, other, sign):
    """The unit of a product or a quotient; None where one of them is a thermometer's scale."""
    plain = all(REGISTRY.Quantity(1, one)._is_multiplicative for one in (units, other))
    return sign(units, other) if plain else None


@functools.lru_cache(maxsize=4096)
def _times(units, other):
    """What a number in one unit is multiplied by in another; None where a thermometer's scales begin at other points.

    Raises pint's error where the two measure different things.
    """
    return None if REGISTRY.convert(0.0, units, other) else REGISTRY.convert(1.0, units, other)
