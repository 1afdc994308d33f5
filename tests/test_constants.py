"""Constants against plain sums: atomic weights of IUPAC (2021, abridged) added up by hand."""

import pytest

from pastrylab.ground import constants

C, H, O = 12.011, 1.008, 15.999  # noqa: E741  (the chemists' names)


@pytest.mark.parametrize(
    ("name", "by_hand"),
    [
        ("WATER_MOLAR_MASS", 2 * H + O),
        ("HEXOSE_MOLAR_MASS", 6 * C + 12 * H + 6 * O),
        ("DISACCHARIDE_MOLAR_MASS", 12 * C + 22 * H + 11 * O),
        ("CITRIC_ACID_MOLAR_MASS", 6 * C + 8 * H + 7 * O),
    ],
)
def test_molar_masses(name, by_hand):
    assert getattr(constants, name) == pytest.approx(by_hand, rel=2e-5)


def test_the_kelvin_scale():
    assert constants.ZERO_CELSIUS == 273.15  # BIPM, SI brochure, 9th edition, 2.3.1


def test_where_cocoa_butter_melts():
    """Wille & Lutton, JAOCS 43 (1966) 491-496: form V at 33.8 degC, form VI at 36.3."""
    assert (constants.FORM_V_MELTS, constants.FORM_VI_MELTS) == (33.8, 36.3)


@pytest.mark.parametrize(
    ("kind", "stand_to", "lost_above"),
    [
        ("dark", 33.8, 34.0),  # form V melts (Wille & Lutton 1966); Greweling, Chocolates and Confections, 2007
        ("milk", 31.5, 32.5),  # common practice, no source: half a degree above the 31 at which milk is still held
        ("white", 31.0, 32.5),  # common practice, no source: a degree above the 30 at which white is still held
    ],
)
def test_how_far_crystals_stand(kind, stand_to, lost_above):
    assert constants.STAND_TO[kind] == (stand_to, lost_above)
    assert len(constants.STAND_TO) == 3


@pytest.mark.parametrize("kind", ["milk", "white"])
def test_crystals_beside_milk_fat_are_lost_where_an_ideal_mixture_melts(kind):
    """Van't Hoff: R T^2 x / H lower. T 306.95 K, H 137 kJ/kg times 0.86 kg/mol (from memory): 8.314 * 94218 / 117800 = 6.65
    K for x = 1. Milk fat is some 16 to 24 % of the fat: 1.1 to 1.6 K, so it melts from 32.2 to 32.7."""
    assert 33.8 - 1.6 <= constants.STAND_TO[kind][1] <= 33.8 - 1.1
    assert constants.STAND_TO[kind][0] < constants.STAND_TO[kind][1]
