"""What the values of a typed formula are: their kinds in words, and what is said where two do not go together."""

from dataclasses import dataclass

import pint

from pastrylab.ground.money import Money
from pastrylab.ground.units import Quantity, StudentError, kind_of, show, symbol
from pastrylab.school.typed.nodes import Number

_DEGREES = ("degC", "degF")
_SAID = {"+": "+", "-": "−", "*": "×", "/": "÷"}


@dataclass(frozen=True)
class Rate:
    """Money for one of a unit: $4.50 per kg. It lasts until it is multiplied by an amount."""

    money: Money
    unit: str

    def __str__(self):
        return f"{self.money.in_full()} per {show(Quantity(1, self.unit)).removeprefix('1 ')}"


def size_of(value):
    """The number of a value in its own unit, a float.

    >>> size_of(Quantity(2, "kg")), size_of(Money(3, "USD"))
    (2.0, 3.0)
    """
    return float(value.magnitude if isinstance(value, pint.Quantity) else getattr(value, "money", value))


def kind(value):
    """What a value measures, in words: "a mass", "money", "a share", "a plain number".

    >>> kind(Quantity(2, "kg")), kind(Quantity(3, "delta_degC")), kind(0.5)
    ('a mass', 'a difference of temperatures', 'a plain number')
    """
    if isinstance(value, Rate):
        return f"money per {symbol(value.unit)}"
    if isinstance(value, Money):
        return "money"
    if not isinstance(value, pint.Quantity):
        return "a plain number"
    unit = str(value.units)
    if unit == "percent":
        return "a share"
    return "a difference of temperatures" if unit.startswith("delta_") else kind_of(value.units)


def plain(value):
    """A share or a count as a plain float, every other value as it is.

    >>> plain(Quantity(25, "percent")), plain(0.5)
    (0.25, 0.5)
    """
    if isinstance(value, pint.Quantity) and value.dimensionless:
        return float(value.m_as(""))
    return value


def no_unit(value):
    """Whether a value is a plain number, a share or a count.

    >>> no_unit(Quantity(25, "percent")), no_unit(Quantity(2, "kg"))
    (True, False)
    """
    return not isinstance(plain(value), pint.Quantity)


def typed_degrees(node):
    """Whether a piece of a formula is a number typed with °C or °F: a reading, or a step of a thermometer.

    >>> typed_degrees(Number("3 °C", 3.0, "degC"))
    True
    """
    return isinstance(node, Number) and node.unit in _DEGREES


def is_reading(value):
    """Whether a value is a reading of a thermometer.

    >>> is_reading(Quantity(31.5, "degC")), is_reading(Quantity(3, "delta_degC"))
    (True, False)
    """
    return isinstance(value, pint.Quantity) and not value._is_multiplicative


def is_steps(value):
    """Whether a value is a difference of two readings.

    >>> is_steps(Quantity(3, "delta_degC"))
    True
    """
    return isinstance(value, pint.Quantity) and str(value.units).startswith("delta_")


# --- refusals ---------------------------------------------------------------------------------------------------------


def unlike_kinds(node, left, right):
    """The StudentError for two values that do not go together in a piece of a formula.

    >>> print(unlike_kinds(Number("cream + 5", 0.0), Quantity(2, "kg"), 5.0))
    You gave 'cream + 5', which is a mass beside a plain number. Needed: two amounts of one kind, each number with its unit. Example: cream + 5 g.
    """
    sign = _SAID.get(getattr(node, "sign", ""), "")
    what = f"{kind(left)} {sign} {kind(right)}" if sign else f"{kind(left)} beside {kind(right)}"
    needed, example = "two amounts of one kind, each number with its unit", "cream + 5 g"
    if "money" in (kind(left), kind(right)):
        example = "price + $5"
    if "a share" in (kind(left), kind(right)) and sign in ("+", "−"):
        needed, example = "what the share is a share of", f"cream × (1 {sign} 25 %)"
    elif sign in ("×", "÷"):
        needed, example = "money by a number, or by an amount and times one", "price / pack × cream"
    return StudentError(f"'{node.text[:60]}', which is {what}", needed, example)


def unlike_units(node, error):
    """The StudentError for pint's DimensionalityError in a piece of a formula.

    >>> unlike_units(Number("cream + fall", 0.0), pint.DimensionalityError("kg", "min")).given
    "'cream + fall', which is a mass beside a time"
    """
    left, right = (Quantity(1, unit) for unit in (error.units1, error.units2))
    return unlike_kinds(node, left, right)


def no_sums_with(node):
    """The StudentError for a reading where only a difference of two can be reckoned with.

    >>> no_sums_with(Number("hot × 2", 0.0)).example
    'heat × (target − start)'
    """
    return StudentError(
        f"'{node.text[:60]}', a thermometer's reading where none can be reckoned with",
        "a difference of two readings in brackets, or a step such as 5 Δ°C",
        "heat × (target − start)",
    )
