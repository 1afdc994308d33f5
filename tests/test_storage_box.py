"""A closed box, and the care of moulds: plain arithmetic."""

import pytest
from iapws import IAPWS97

from pastrylab import Q, StudentError, storage

R, WATER = 8.314462618, 18.0153  # J/(mol K), g/mol


def ideal(litres, celsius, share):
    """Grams of vapour in a volume, as an ideal gas, with the saturation pressure of IAPWS-IF97."""
    kelvin = celsius + 273.15
    return share * IAPWS97(T=kelvin, x=0).P * 1e6 * litres / 1000 / (R * kelvin) * WATER


@pytest.mark.parametrize(
    ("litres", "celsius", "percent"), [(20, 20, 60), (20, 20, 100), (5, 15, 50), (1000, 25, 70), (60, 4, 85)]
)
def test_water_in_the_air_of_a_box(outside, litres, celsius, percent):
    expected = ideal(litres, celsius, percent / 100)
    outside(
        quantity=f"water in {litres} L of air at {celsius} degC, {percent} %, g",
        expected=expected,
        got=storage.water_in_air(f"{litres} L", f"{celsius} degC", f"{percent} %").m_as("g"),
        tolerance=0.003 * expected,
        source="ideal gas, with the saturation pressure of IAPWS-IF97",
    )


def test_altitude_hardly_moves_it():
    """The vapour alone decides: at 1609 m the same water stands in a quarter less air."""
    low, high = (storage.water_in_air("20 L", "20 degC", "60 %", at).m_as("g") for at in ("0 m", "1609 m"))
    assert high == pytest.approx(low, rel=0.002)


def test_what_a_box_comes_to():
    assert storage.box_with("wet cloth", "20 degC").humidity == 1
    # Greenspan 1977, J. Res. NBS 81A:89: sodium chloride, 75.47 % at 20 degC, 75.29 % at 25 degC
    assert storage.box_with("Wet table salt", "20 degC").humidity == pytest.approx(0.7547, abs=0.003)
    assert storage.box_with("wet table salt", "25 degC").humidity == pytest.approx(0.7529, abs=0.003)
    assert "stands at 75 %" in storage.box_with("wet table salt", "20 degC").sentence
    gel = storage.box_with("silica gel", "20 degC")
    assert gel.humidity is None
    assert "hygrometer" in gel.sentence


def test_silica_by_hand():
    """From 60 to 40 % a fifth of what 20 L hold: 17.29 mg/L x 20 x 0.2 = 0.069 g; with 2 g from the goods, at a fifth: 10.3 g."""
    found = storage.silica_for("20 L", "20 degC", "60 %", "40 %", "20 %", "2 g")
    assert found.air.m_as("g") == pytest.approx(ideal(20, 20, 0.2), rel=0.003)
    assert found.total.m_as("g") == pytest.approx(2 + ideal(20, 20, 0.2), rel=0.001)
    assert found.gel.m_as("g") == pytest.approx((2 + ideal(20, 20, 0.2)) / 0.2, rel=0.001)
    assert "must lose 0.069 g" in found.sentence and "it is 2.1 g" in found.sentence and ": 10 g" in found.sentence
    assert storage.silica_for("20 L", "20 degC", "60 %", "40 %", "10 %").gel.m_as("g") == pytest.approx(
        ideal(20, 20, 0.2) / 0.1, rel=0.003
    )


@pytest.mark.parametrize(
    "call",
    [
        lambda: storage.silica_for("20 L", "20 degC", "40 %", "60 %", "20 %"),
        lambda: storage.silica_for("20 L", "20 degC", "40 %", "40 %", "20 %"),
        lambda: storage.silica_for("20 L", "20 degC", "60 %", "40 %", "0 %"),
        lambda: storage.silica_for("20 L", "20 degC", "60 %", "40 %", "60 %"),
        lambda: storage.silica_for("20 L", "20 degC", "60 %", "40 %", "20 %", "-1 g"),
        lambda: storage.water_in_air("0 L", "20 degC", "60 %"),
        lambda: storage.water_in_air("20 kg", "20 degC", "60 %"),
        lambda: storage.water_in_air("20 L", "20 degC", "60 %", "9000 m"),
        lambda: storage.box_with("rice", "20 degC"),
        lambda: storage.box_with("wet cloth", "60 degC"),
        lambda: storage.lime_left("hard"),
        lambda: storage.lime_left(-1),
        lambda: storage.lime_left(250, "1 g"),
        lambda: storage.hardness_in_milligrams(14, "Clark"),
        lambda: storage.hardness_in_milligrams("14 g", "dH"),
    ],
)
def test_refused(call):
    with pytest.raises(StudentError):
        call()


@pytest.mark.parametrize(
    "call",
    [
        lambda: storage.silica_for("5 gal", "68 °F", "60%", 0.4, "20 %", "0.1 oz"),
        lambda: storage.water_in_air("1 cup", "20 °C", "60 %"),
        lambda: storage.water_in_air(Q(20, "L"), Q(20, "degC"), 0.6, "5280 ft"),
        lambda: storage.box_with(" wet cloth ", "70 °F"),
        lambda: storage.lime_left("250", "0.05 mL"),
        lambda: storage.lime_left(0),
        lambda: storage.lime_left(250, "1 tsp"),
        lambda: storage.hardness_in_milligrams("14", "dH"),
        lambda: storage.hardness_in_milligrams(15, "grains"),
        lambda: storage.hardness_in_milligrams(0),
    ],
)
def test_not_refused(call):
    call()


def test_lime_by_hand():
    """250 mg in a litre are 0.25 mg in a millilitre; a drop of 0.05 mL leaves 0.0125 mg, a spoon of 5 mL 1.25 mg."""
    assert storage.lime_left(250).m_as("mg") == pytest.approx(0.0125)
    assert storage.lime_left(250, "5 mL").m_as("mg") == pytest.approx(1.25)


def test_scales_of_hardness():
    # 1 °dH is 10 mg/L of CaO (56.0774 g/mol) counted as CaCO3 (100.0869); a grain is 64.79891 mg, a US gallon 3.785412 L
    assert storage.hardness_in_milligrams(1, "dH") == pytest.approx(10 * 100.0869 / 56.0774, abs=0.005)
    assert storage.hardness_in_milligrams(1, "grains") == pytest.approx(64.79891 / 3.785412, abs=0.005)
    assert storage.hardness_in_milligrams(120) == 120


@pytest.mark.parametrize(
    ("milligrams", "name"),
    # U.S. Geological Survey, Hardness of Water: 0 to 60, 61 to 120, 121 to 180, more
    [(0, "soft"), (60, "soft"), (61, "moderately hard"), (121, "hard"), (180, "hard"), (181, "very hard")],
)
def test_classes_of_hardness(milligrams, name):
    assert storage.hardness_class(milligrams) == name
