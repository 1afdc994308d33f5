"""Liquid into chocolate: what can be in temper, what survives, and what is said where nobody can tell."""

import pytest

from pastrylab.course.emulsion.figures import WarmLiquid
from pastrylab.ground import datasets
from pastrylab.ground.units import StudentError
from pastrylab.trade import mixing


@pytest.mark.parametrize(
    ("kind", "at"),
    [
        ("dark", 15),
        ("dark", 27),
        ("dark", 34.2),
        ("dark", 40),
        ("milk", 26.5),
        ("milk", 32.6),
        ("milk couverture 38 %", 34),
        ("white", 25),
        ("white", 33),
        ("white couverture 32 %", 20),
    ],
)
def test_chocolate_that_cannot_be_liquid_and_in_temper_is_refused(kind, at):
    for ask in (
        lambda: mixing.liquid_temperature.floats(0.6, at, 0.4, 31.0, "heavy cream", "tempered", kind, 0.0),
        lambda: mixing.mixed.floats(0.6, at, 0.4, 33.0, "heavy cream", "tempered", kind, 0.0),
    ):
        with pytest.raises(StudentError, match="no longer in temper") as caught:
            ask()
        assert "=" not in str(caught.value) and kind.split()[0] in caught.value.given


@pytest.mark.parametrize(
    ("kind", "at"),
    [
        ("dark", 28),
        ("dark", 30),
        ("dark", 31.5),
        ("dark couverture 64 %", 33),
        ("dark", 34),
        ("milk", 28),
        ("milk couverture 41 %", 30),
        ("milk", 32),
        ("white", 27),
        ("white couverture 32 %", 30),
    ],
)
def test_chocolate_in_temper_is_not(kind, at):
    end = mixing.mixed.floats(0.5, at, 0.3, float(at), "heavy cream", "tempered", kind, 0.0)
    assert end.temperature.m_as("degC") == pytest.approx(at)


@pytest.mark.parametrize(
    ("kind", "at", "word"),
    [
        # form V of dark melts at 33.8-34 (Wille & Lutton 1966; Greweling 2007); milk fat lowers it by 1.1-1.6 degC
        ("dark", 31.5, "survive:"),
        ("dark", 33.0, "survive:"),
        ("dark", 33.7, "cannot tell"),
        ("dark", 34.2, "cannot tell"),
        ("dark", 34.6, "are lost"),
        ("dark", 29.2, "cannot tell"),
        ("dark", 28.0, "weaker crystals form and"),
        ("milk", 30.0, "survive:"),
        ("milk", 32.0, "cannot tell"),
        ("milk", 34.0, "are lost"),
        ("white", 29.0, "survive:"),
        ("white", 31.0, "cannot tell"),
        ("white couverture 32 %", 34.0, "are lost"),
    ],
)
def test_each_kind_of_chocolate_has_its_own_limit(kind, at, word):
    said = mixing.advice(at, at, kind=kind)
    assert word in said and kind.split()[0] in said or "weaker" in said


def test_a_worse_probe_never_makes_temper_surer():
    """From the middle outwards: what is not sure with half a degree is not sure with two."""
    for at in range(270, 360):
        surer, less = ("survive:" in mixing.advice(at / 10, 33, error=error) for error in (0.5, 2))
        assert surer or not less


def test_the_liquid_that_would_boil_is_told_how_much_would_do():
    """600 g of dark drops at 20 degC to 40 degC: 600 (1.59 x 20 + 46) = 46.7 kJ, over 3.24 x 60 is 240 g of cream."""
    with pytest.raises(StudentError) as caught:
        mixing.liquid_temperature("600 g", "20 degC", "200 g", "40 degC", state="drops")
    assert caught.value.example == "240 g of liquid"


def test_drops_of_a_fat_couverture_take_more_heat():
    """64 % dark: the table's cocoa butter times 157 kJ/kg (Beckett 2009), against 46 for a lean one."""
    lean, fat = (
        mixing.liquid_temperature.floats(0.5, 20.0, 0.3, 40.0, "water", "drops", kind, 0.0)
        for kind in ("dark", "dark couverture 64 %")
    )
    cocoa_butter = float(datasets.ingredients().at["dark couverture 64 %", "cocoa_butter"])
    assert (fat - lean) * 0.3 * 4.18 / 0.5 == pytest.approx(157 * cocoa_butter - 46, abs=0.2)


def test_at_one_temperature_mass_alone_is_not_called_wrong():
    said = WarmLiquid().update(chocolate=600, chocolate_at=31.5, liquid=400, target=31.5)
    assert "wrong" not in said and "goes in at 31.5" in said.replace("go in", "goes in") and "the same" in said
    assert "wrong" in WarmLiquid().update(chocolate=600, chocolate_at=29, liquid=400, target=31.5)


@pytest.mark.parametrize(
    ("chocolate", "chocolate_at", "liquid", "liquid_at", "end"),
    # The mean by mass, by hand: 3 parts at 20 and 1 at 80 end at (60 + 80) / 4.
    [(300, 20, 100, 80, 35), (0.2, 30, 0.2, 40, 35), (400, 31, 100, 31, 31), (100, 20, 300, 0, 5)],
)
def test_by_mass_alone_by_hand_and_back(chocolate, chocolate_at, liquid, liquid_at, end):
    assert mixing.by_mass_alone(chocolate, chocolate_at, liquid, liquid_at) == pytest.approx(end)
    assert mixing.liquid_by_mass_alone(chocolate, chocolate_at, liquid, end) == pytest.approx(liquid_at, abs=1e-9)


@pytest.mark.parametrize(
    ("ask", "given", "example"),
    [
        # 2 x (1.59 x 18 + 46) = 149 kJ for the drops: 50 g of water at 4.2 J/(g K) would have to cool by 710 K.
        (
            lambda: mixing.liquid_temperature("2 kg", "20 degC", "50 g", "38 degC", state="drops", of="water"),
            "50 g of",
            None,
        ),
        (lambda: mixing.liquid_temperature("3 kg", "31 degC", "20 g", "29 degC", of="water"), "20 g of", "31 °C"),
        (lambda: mixing.liquid_temperature("1 kg", "20 degC", "200 g", "31 degC"), "20 °C for tempered", "31.5 °C"),
    ],
)
def test_what_cannot_be_mixed_is_said_with_its_amounts(ask, given, example):
    with pytest.raises(StudentError) as refused:
        ask()
    assert refused.value.given.startswith(given)
    assert example is None or example in refused.value.example


def test_specific_heat_of_salt_is_that_of_ash(outside):
    """Salt is ash but for a trace of water: 1.0926 + 1.8896e-3 x 140 - 3.6817e-6 x 19600 = 1.2850."""
    outside(
        quantity="specific heat of salt as ash at 140 degC, kJ/(kg K)",
        expected=1.2850,
        got=mixing.specific_heat.floats("salt", 140),
        tolerance=0.006,
        source="Choi & Okos 1986, coefficients from memory, the sum by hand",
    )
