"""What is kept of units gives what pint itself gives, to the last bit, and fails as pint fails: pint is the outside."""

import copy
import itertools
import math
import operator
import pickle
from decimal import Decimal

import numpy as np
import pint
import pytest
from depth import depth

from pastrylab.ground import registry
from pastrylab.ground.grammar import unit_named
from pastrylab.ground.registry import REGISTRY, Quantity
from pastrylab.ground.spellings import SPELLINGS

PLAIN = pint.UnitRegistry(registry._DEFINITIONS.strip().splitlines(), cache_folder=None)
UNITS = [*SPELLINGS, "", "K", "N", "Pa", "J", "cal", "W", "dimensionless"]
UNITS += [
    unit_named(text) for text in ("g/mL", "kJ/(kg K)", "°C/min", "g/min", "1/min", "W/kg", "oz/cup", "g/g", "%/h")
]
NUMBERS = (0.0, -0.0, 1.0, 0.1, 1 / 3, 31.7, -17.777777, 1e-300, 1.7e308, math.inf, math.nan)


def as_told(registry, number, unit, other, way):
    """A number's exact digits, or the words of the error."""
    quantity = registry.Quantity(number, unit)
    try:
        found = quantity.m_as(other) if way == "m_as" else quantity.to(other)
    except Exception as error:
        return type(error).__name__, str(error)
    if way == "m_as":
        return type(found).__name__, float(found).hex()
    return type(found.magnitude).__name__, float(found.magnitude).hex(), str(found.units), str(found.dimensionality)


@pytest.mark.parametrize("way", ["m_as", "to"])
def test_every_two_units_convert_as_in_pint(way):
    for unit, other in itertools.product(dict.fromkeys(UNITS), UNITS[:: depth(4, 1)]):
        for number in NUMBERS if unit[:2] in ("lb", "de", "ou") else NUMBERS[4:6]:
            assert as_told(REGISTRY, number, unit, other, way) == as_told(PLAIN, number, unit, other, way), (
                unit,
                other,
            )


def made(pints, one, sign, other):
    """What is reckoned of numbers and (number, unit), exactly, or the words of the error."""
    one, other = (pints.Quantity(*of) if isinstance(of, tuple) else of for of in (one, other))
    try:
        found = sign(one, other)
    except Exception as error:
        return type(error).__name__, str(error).replace("_Quantity", "Quantity")
    if not isinstance(found, pints.Quantity):
        return type(found).__name__, repr(found)
    number = np.asarray(found.magnitude, dtype=float)
    return (
        type(found.magnitude).__name__,
        [one.hex() for one in number.ravel().tolist()],
        str(found.units),
        found._units,
    )


SIGNS = [operator.mul, operator.truediv, operator.add, operator.sub, operator.eq, operator.lt]


@pytest.mark.parametrize("sign", SIGNS)
def test_every_two_units_are_reckoned_with_as_in_pint(sign):
    for unit, other in itertools.product(dict.fromkeys(UNITS), UNITS[:: depth(6, 1)]):
        one, two = (31.7, unit), (1 / 3, other)
        assert made(REGISTRY, one, sign, two) == made(PLAIN, one, sign, two), (unit, other)


@pytest.mark.parametrize("sign", SIGNS)
@pytest.mark.parametrize("unit", ["kg", "degC", "delta_degF", "", "g/mL", "1/degC"])
def test_a_number_of_any_kind_and_a_quantity_are_reckoned_with_as_in_pint(sign, unit):
    numbers = [0.1, 0.0, -0.0, 3, 0, True, math.nan, math.inf, np.float64(0.1), np.array([1.0, 0.5]), "3", None, [1.0]]
    numbers += [(0.0, unit), (3, unit), (np.array([1.0, 2.0]), unit), (math.nan, unit)]
    for number in numbers:
        for one, other in (((31.7, unit), number), (number, (31.7, unit)), ((3, unit), number)):
            with np.errstate(all="ignore"):
                assert made(REGISTRY, one, sign, other) == made(PLAIN, one, sign, other), (one, other)


@pytest.mark.parametrize("number", [3, np.float64(2.5), np.array([1.0, 2.0]), Decimal("1.5"), 1 + 2j])
def test_numbers_of_other_kinds_are_left_to_pint(number):
    for pints in (REGISTRY, PLAIN):
        found = [pints.Quantity(number, "kg").to("lb").magnitude, pints.Quantity(number, "kg").m_as("kg")]
        assert [type(one) for one in found] == [type(number) if type(number) is not int else float, type(number)]
    ours, theirs = (np.asarray(one.Quantity(number, "kg").m_as("lb")) for one in (REGISTRY, PLAIN))
    assert (ours == theirs).all()


@pytest.mark.parametrize("unit", ["no such thing", "kg kg kg (", 7, [], {"kilogram": "x"}])
def test_what_is_no_unit_is_refused_as_by_pint_each_time(unit):
    for _again in range(2):
        told = []
        for pints in (REGISTRY, PLAIN):
            for ask in (lambda of: of.Quantity(1.5, unit), lambda of: of.Quantity(1.5, "g").m_as(unit)):
                with pytest.raises(Exception) as refused:
                    ask(pints)
                told.append((refused.type, str(refused.value)))
        assert told[:2] == told[2:]


def test_a_unit_may_be_given_in_any_of_pints_ways():
    for unit in (
        REGISTRY.Unit("g"),
        REGISTRY.Quantity(1, "g"),
        REGISTRY.UnitsContainer({"gram": 1}),
        {"gram": 1},
        "gram",
    ):
        assert Quantity(1.5, "kg").m_as(unit) == Quantity(1.5, "kg").to(unit).magnitude == 1500.0
    assert Quantity(1.5).units == Quantity(1.5, "").units == REGISTRY.Unit("dimensionless")
    assert Quantity(Quantity(1.5, "kg")).m_as("g") == 1500.0


def test_it_is_copied_sent_and_reckoned_with_like_any_quantity():
    batch = Quantity(1.5, "kg")
    for twin in (copy.copy(batch), copy.deepcopy(batch)):
        assert twin == batch and type(twin) is type(batch) and isinstance(twin, pint.Quantity)
    assert pickle.loads(pickle.dumps(batch)).magnitude == 1.5
    assert (2 * batch / Quantity(3.0, "kg")).m_as("") == 1.0 and (batch + Quantity(500.0, "g")).m_as("g") == 2000.0
    with pytest.raises(pint.DimensionalityError):
        batch + Quantity(1.0, "mL")
