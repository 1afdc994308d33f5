"""A typed formula worked out with quantities: units are checked at every sign, and every refusal is a sentence."""

import math

import pint

from pastrylab.ground.currencies import CURRENCIES
from pastrylab.ground.money import Money, decimal_of
from pastrylab.ground.units import Quantity, StudentError, in_digits
from pastrylab.school.typed.choose import CHOOSING
from pastrylab.school.typed.functions import FUNCTIONS, from_the_house
from pastrylab.school.typed.kinds import (
    Rate,
    is_reading,
    is_steps,
    kind,
    no_sums_with,
    no_unit,
    plain,
    size_of,
    typed_degrees,
    unlike_kinds,
    unlike_units,
)
from pastrylab.school.typed.nodes import Bracket, Call, Joined, Minus, Name, Number, Power
from pastrylab.school.typed.tree import tree

_MOST = 1e12


def reckoned(text, g):
    """A typed formula with the givens of the namespace g: a float, a Quantity or Money. Raises StudentError.

    >>> from types import SimpleNamespace
    >>> from pastrylab import show
    >>> show(reckoned("(couverture + 400 g) / pieces", SimpleNamespace(couverture=Quantity(600, "g"), pieces=40.0)))
    '25 g'
    """
    names = vars(g)
    found = worth(tree(text, frozenset(names)), names)
    if isinstance(found, Rate):
        raise StudentError(
            f"'{text[:60]}', which comes out as {found}", "that times an amount", "price / pack × what is used"
        )
    return found


def worth(node, names):
    """What a Node of a formula comes to, names by their values: a float, a Quantity, Money or a Rate.

    Raises StudentError for an unknown name, kinds that do not go together, a division by nothing, what no kitchen holds.

    >>> worth(tree("2 × 15 g", frozenset()), {}).m_as("g")
    30.0
    """
    try:
        found = _REACHED[type(node)](node, names)
    except pint.DimensionalityError as error:
        raise unlike_units(node, error) from None
    except pint.OffsetUnitCalculusError:
        raise no_sums_with(node) from None
    size = size_of(found)
    if not math.isfinite(size) or abs(size) > _MOST:
        raise StudentError(f"'{node.text[:60]}', which comes out beyond all kitchens", "smaller numbers", "12.5")
    return found


# --- each kind of node ------------------------------------------------------------------------------------------------


def _number(node, _names):
    if node.unit in CURRENCIES:
        return Money(decimal_of(node.value, "an amount", "4.50"), node.unit)
    return Quantity(node.value, node.unit) if node.unit else node.value


def _name(node, names):
    if node.text in names:
        return names[node.text]
    alike = [name for name in names if name.casefold() == node.text.casefold()]
    if len(alike) == 1:  # a telephone's capital letter
        return names[alike[0]]
    known = [name for name in names if name.isidentifier() and not isinstance(names[name], str)]
    again = "" if node.text.isascii() else "; type it again, a letter of it is of another alphabet"
    raise StudentError(
        f"'{node.text[:30]}', which is no given of this exercise",
        f"one of {', '.join(known) or 'its rows in exercise_values.csv'}{again}",
        f"a row for {node.text[:30]} in exercise_values.csv",
    )


def _minus(node, names):
    of = worth(node.of, names)
    if is_reading(of):
        raise no_sums_with(node)
    return -of if not isinstance(of, Rate) else Rate(-of.money, of.unit)


def _power(node, names):
    of = plain(worth(node.of, names))
    if isinstance(of, Money | Rate):
        raise StudentError(f"'{node.text[:60]}', a power of money", "a length or a number there", "side^3")
    if is_reading(of):
        raise no_sums_with(node)
    return of**node.times


def _joined(node, names):
    left, right = worth(node.left, names), worth(node.right, names)
    if node.sign in "+-":
        return _added(node, left, right)
    return _times(node, left, right) if node.sign == "*" else _over(node, left, right)


def _call(node, names):
    given = [worth(one, names) for one in node.given]
    works = from_the_house(node.name)
    if works is None:
        return CHOOSING[node.name](node, given)
    listed = FUNCTIONS[node.name]
    # Of these the package's own refusals would speak as to a programmer.
    strange = (Rate, pint.Quantity) if listed.works.startswith("costing.") else (Rate, Money)
    for one in given:
        if isinstance(plain(one), strange):
            raise StudentError(f"'{node.text[:60]}', with {kind(one)} in its brackets", listed.says, listed.example)
    try:
        found = works(*given)
    except StudentError as error:
        raise StudentError(f"'{node.text[:60]}': {error.given}", error.needed, listed.example) from None
    except (TypeError, AttributeError):
        raise StudentError(f"'{node.text[:60]}'", listed.says, listed.example) from None
    return float(found) if isinstance(found, int) else found


# --- + and - ----------------------------------------------------------------------------------------------------------


def _added(node, left, right):
    if isinstance(left, Money) != isinstance(right, Money) or isinstance(left, Rate) or isinstance(right, Rate):
        raise unlike_kinds(node, left, right)
    if isinstance(left, Money):
        return left + right if node.sign == "+" else left - right
    if no_unit(left) or no_unit(right):
        if not (no_unit(left) and no_unit(right)):
            raise unlike_kinds(node, left, right)
        if not (isinstance(left, pint.Quantity) and isinstance(right, pint.Quantity) and left.units == right.units):
            left, right = plain(left), plain(right)
    else:
        left, right = _steps(node, left, right)
    return left + right if node.sign == "+" else left - right


def _steps(node, left, right):
    """Both sides, a degree typed beside a reading as a step of the thermometer where it can be nothing else."""
    if typed_degrees(node.right) and (is_reading(left) or is_steps(left)):
        if node.sign == "-" and is_reading(left):
            typed, unit = node.right.text, node.right.unit.removeprefix("deg")
            step = f"{in_digits(node.right.value)} Δ°{unit}"
            raise StudentError(
                f"'{node.text[:60]}', where {typed} can be read two ways",
                f"{step} for a step down; for a difference of two readings a given or a sum of its own",
                f"{node.left.text} - {step}",
            )
        right = Quantity(node.right.value, "delta_" + node.right.unit)
    elif typed_degrees(node.left) and node.sign == "+" and is_reading(right):
        left = Quantity(node.left.value, "delta_" + node.left.unit)
    return left, right


# --- × and ÷ ----------------------------------------------------------------------------------------------------------


def _times(node, left, right):
    left, right = plain(left), plain(right)
    if is_reading(left) or is_reading(right):
        raise no_sums_with(node)
    for one, other in ((left, right), (right, left)):
        if isinstance(one, Rate):
            return _of_rate(node, one, other)
        if isinstance(one, Money):
            if isinstance(other, float):
                return one * other
            raise unlike_kinds(node, left, right)
    return _tidy(left * right)


def _of_rate(node, rate, other):
    if isinstance(other, float):
        return Rate(rate.money * other, rate.unit)
    if isinstance(other, pint.Quantity) and other.check(Quantity(1, rate.unit).dimensionality):
        return rate.money * float(other.m_as(rate.unit))
    raise unlike_kinds(node, rate, other)


def _over(node, left, right):
    left, right = plain(left), plain(right)
    if is_reading(left) or is_reading(right):
        raise no_sums_with(node)
    if not isinstance(right, Rate) and size_of(right) == 0:
        raise StudentError(
            f"'{node.text[:60]}', a division by nothing: {node.right.text[:30]} is 0",
            "something above 0 there, for every value from low to high",
            "a higher low, or another formula",
        )
    if isinstance(left, Money | Rate) or isinstance(right, Money | Rate):
        return _money_over(node, left, right)
    return _tidy(left / right)


def _money_over(node, left, right):
    if isinstance(left, Money) and isinstance(right, Money):
        return float(left / right)
    if isinstance(left, Money) and isinstance(right, pint.Quantity):
        return Rate(left / float(right.magnitude), str(right.units))
    if isinstance(right, float):
        return Rate(left.money / right, left.unit) if isinstance(left, Rate) else left / right
    raise unlike_kinds(node, left, right)


def _tidy(value):
    """A product without two units of one kind in it: kg × g/kg is g, kg per g a plain number."""
    if not isinstance(value, pint.Quantity):
        return float(value)
    if value.dimensionless:
        return float(value.m_as(""))
    return value.to_reduced_units()


_REACHED = {
    Number: _number,
    Name: _name,
    Minus: _minus,
    Power: _power,
    Joined: _joined,
    Bracket: lambda node, names: worth(node.of, names),
    Call: _call,
}
