"""Units and household measures against legal definitions, pint's own registry and the USDA weight table."""

import pint
import pytest

from pastrylab.ground.units import Q
from pastrylab.trade import formula

DEFAULT = pint.UnitRegistry()
NIST = "NIST SP 811 (2008) App. B; NIST Handbook 44 App. C: 1 lb = 0.45359237 kg, 1 gal = 231 in3, exact"
WEIGHT = "USDA National Nutrient Database SR28, weight table, NDB "


@pytest.mark.parametrize(
    ("text", "unit", "expected", "tolerance"),
    [
        ("1 lb", "g", 453.59237, 1e-6),
        ("1 oz", "g", 28.349523125, 1e-7),
        ("5 oz", "g", 141.747615625, 1e-6),
        ("1 cup", "mL", 236.5882365, 1e-6),
        ("1 fl oz", "mL", 29.5735295625, 1e-7),
        ("1 qt", "mL", 946.352946, 1e-6),
        ("1 gal", "mL", 3785.411784, 1e-5),
        ("1 tbsp", "mL", 236.5882365 / 16, 1e-7),
        ("1 tsp", "mL", 236.5882365 / 48, 1e-7),
    ],
)
def test_customary_units_as_defined(outside, text, unit, expected, tolerance):
    outside(
        quantity=f"{text} in {unit}",
        expected=expected,
        got=Q(text).m_as(unit),
        tolerance=tolerance,
        source=NIST,
    )


@pytest.mark.parametrize(
    ("text", "unit", "expected", "tolerance"),
    [("90 degF", "degC", 32.2222, 0.0001), ("45 degC", "degF", 113, 0.0001)],
)
def test_thermometer_readings(outside, text, unit, expected, tolerance):
    outside(
        quantity=f"{text} as a reading in {unit}",
        expected=expected,
        got=Q(text).m_as(unit),
        tolerance=tolerance,
        source="NIST SP 811 (2008) App. B.8: t/degC = (t/degF - 32)/1.8, exact",
    )


def test_a_difference_is_not_a_reading(outside):
    outside(
        quantity="a rise of 10 degF in degC",
        expected=10 / 1.8,
        got=Q(10, "delta_degF").m_as("delta_degC"),
        tolerance=1e-9,
        source="NIST SP 811 (2008) App. B.8: a difference has no offset, exact",
    )


@pytest.mark.parametrize(
    ("ours", "theirs", "base"),
    [
        *((u, u, "gram") for u in ("mg", "g", "kg", "lb", "oz")),
        *((u, u, "milliliter") for u in ("mL", "cL", "dL", "L", "tsp", "tbsp", "cup", "quart", "gallon")),
        ("pint", "pint", "milliliter"),
        ("fl oz", "fluid_ounce", "milliliter"),
        *((u, u, "meter") for u in ("mm", "cm", "m", "inch")),
        *((u, u, "second") for u in ("s", "min", "h", "day")),
        *((u, u, "joule") for u in ("J", "kJ", "kcal")),
        *((u, u, "pascal") for u in ("Pa", "hPa", "kPa")),
    ],
)
def test_every_unit_as_in_the_default_registry(outside, ours, theirs, base):
    expected = DEFAULT.Quantity(1.0, theirs).m_as(base)
    outside(
        quantity=f"1 {ours} in {base}",
        expected=expected,
        got=Q(1.0, ours).m_as(base),
        tolerance=1e-12 * expected,
        source="pint, default registry",
    )


@pytest.mark.parametrize(
    ("volume", "ingredient", "expected", "tolerance", "source"),
    [
        ("1 cup", "heavy cream", 238, 0.5, "01053; whole grams"),
        ("1 tbsp", "heavy whipping cream", 15.0, 0.53, "01053; whole gram, and the cup's rounding"),
        ("1 cup", "butter", 227, 0.5, "01145 (and 01001); whole grams"),
        ("1 cup", "honey", 339, 0.5, "19296; whole grams"),
        ("1 cup", "granulated sugar", 200, 0.5, "19335; whole grams"),
        ("1 cup", "powdered sugar", 120, 0.5, "19336, unsifted; whole grams"),
        ("1 cup", "cocoa powder", 86, 0.5, "19165; whole grams"),
        ("1 cup", "sweetened condensed milk", 306, 0.5, "01095; whole grams"),
        ("1 fl oz", "sweetened condensed milk", 38.2, 0.12, "01095; tenths, and the cup's rounding"),
        ("1 cup", "light corn syrup", 341, 7.7, "19350; mean of 4, twice its standard error"),
        ("1 cup", "light whipping cream", 239, 0.5, "01052; whole grams"),
        ("1 cup", "half and half", 242, 0.5, "01049; whole grams"),
        ("1 cup", "whole milk", 244, 0.5, "01211; whole grams"),
        ("1 cup", "brown sugar", 220, 0.5, "19334, packed; whole grams"),
        ("1 cup", "molasses", 337, 0.5, "19304; whole grams"),
        ("1 cup", "butter oil", 205, 0.5, "01003; whole grams"),
        ("1 cup", "nonfat dry milk", 120, 0.5, "01091; whole grams"),
        ("1 cup", "water", 237, 0.5, "14429; whole grams"),
    ],
)
def test_household_weights(outside, volume, ingredient, expected, tolerance, source):
    mass = formula.mass_of(volume, ingredient)
    outside(
        quantity=f"{volume} of {ingredient}, g",
        expected=expected,
        got=mass.m_as("g"),
        tolerance=tolerance,
        source=WEIGHT + source,
    )


def test_purchase_of_a_trimmed_lot(outside):
    outside(
        quantity="to buy for 37.5 lb at a yield of 75 %, lb",
        expected=50,
        got=formula.purchase("37.5 lb", "75 %").m_as("lb"),
        tolerance=0.05,
        source="culinary-mathematics class slides, chapters 9-10: 50 lb bought at 75 % give 37.5 lb",
    )
