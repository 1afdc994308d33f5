"""How a page writes an amount: digits, symbols and the US unit beside, by hand."""

import pytest

from pastrylab.ground.quantities import Q, both, in_digits, kind_of, show, symbol, us_unit


@pytest.mark.parametrize(
    ("value", "digits", "text"),
    [
        (0, 4, "0"),
        (484.64, 4, "484.6"),
        (484.64, 3, "485"),
        (999.96, 4, "1000"),
        (12345.6, 4, "12346"),
        (0.00012345, 3, "0.000123"),
        (1, 4, "1"),
        (1.5, 4, "1.5"),
        (100, 4, "100"),
        (-2.34567, 4, "-2.346"),
        (9.99996, 4, "10"),
        (1000, 4, "1000"),
        (float("inf"), 4, "not a number"),
        (float("nan"), 4, "not a number"),
    ],
)
def test_significant_digits(value, digits, text):
    assert in_digits(value, digits) == text


def test_three_decimals_that_could_be_thousands_are_not_written():
    assert show(Q(1.234, "g")) == "1.23 g" and show(Q(1.234, "kg")) == "1.234 kg"
    assert show(Q(0.234, "g")) == "0.234 g" and show(Q(123.456, "g"), 6) == "123.46 g"
    assert show(Q(-1.236, "g")) == "-1.24 g" and show(Q(1.2345, "g"), 5) == "1.2345 g"


@pytest.mark.parametrize(
    ("unit", "text"),
    [
        ("degC", "°C"),
        ("delta_degF", "°F"),
        ("fl_oz", "fl oz"),
        ("percent", "%"),
        ("dimensionless", ""),
        ("kJ/(kg*K)", "kJ/(kg K)"),
        ("delta_degC/min", "°C/min"),
        ("1/min", "1/min"),
        ("kg/m**3", "kg/m³"),
        ("g/cm**2", "g/cm²"),
    ],
)
def test_symbols(unit, text):
    assert symbol(unit) == text


def test_the_us_unit_beside_and_kinds():
    metric = ("kg", "g", "mL", "L", "degC", "delta_degC", "mm", "cm", "m", "min")
    us = ("lb", "oz", "fl_oz", "quart", "degF", "delta_degF", "inch", "inch", "foot", "min")
    assert tuple(map(us_unit, metric)) == us
    assert both("1 L") == "1 L (1.06 qt)" and both("30 min") == "30 min" and both(Q(2, "m")) == "2 m (6.56 ft)"
    assert kind_of("kPa") == "a pressure" and kind_of("kJ") == "an amount of heat"
    assert kind_of("percent") == "a plain number" and kind_of("h") == "a time" and kind_of("cm") == "a length"
