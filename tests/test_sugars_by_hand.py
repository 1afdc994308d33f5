"""Sums of the sugar modules against arithmetic by hand: soda for an acid syrup, molar masses, errors of a refractometer."""

import math

import pytest

from pastrylab.ground.constants import WATER_MOLAR_MASS
from pastrylab.trade import sugars
from pastrylab.trade.solutes import SOLUTES
from pastrylab.trade.sugars.refractometer import compare_with_scale
from pastrylab.trade.sugars.sweeteners import SWEETNESS

BATES = "Bates & Pinching 1949, JACS 71:1274: pKa of citric acid 3.13, 4.76, 6.40 (read in a table that quotes them)"

# Citric acid 192.12 g/mol: 1 g is 5.205 mmol. Soda, sodium hydrogen carbonate, 84.007 g/mol. By hand, undissociated
# acid = 1, each next form by 10^(pH - pKa):
#   pH 4.0: 7.41, 1.29, 0.0051, in all 9.71; protons gone (7.41 + 2 x 1.29 + 3 x 0.0051)/9.71 = 1.031
#   pH 5.5: 234.4, 1288, 162.2, in all 1686; (234.4 + 2 x 1288 + 3 x 162.2)/1686 = 1.956
#   pH 6.4: 1862, 81283, 81283, in all 164430; (1862 + 2 x 81283 + 3 x 81283)/164430 = 2.483 (one part more changes nothing)
SODA = [(4.0, 1.031, 0.451), (5.5, 1.956, 0.855), (6.4, 2.483, 1.086)]


@pytest.mark.parametrize(("ph", "protons", "grams"), SODA)
def test_soda_for_a_gram_of_citric_acid(outside, ph, protons, grams):
    assert protons * 84.007 / 192.12 == pytest.approx(grams, abs=0.001)
    outside(
        quantity=f"soda for 1 g of citric acid to pH {ph}, g",
        expected=grams,
        got=sugars.soda_for("1 g", ph).m_as("g"),
        tolerance=0.002,
        source=BATES,
    )


def test_soda_goes_with_the_acid():
    assert sugars.soda_for("3 g", 5.5).m_as("g") == pytest.approx(3 * 0.8553, abs=0.003)
    # The plan's acid is 1 g a kilogram of sugar (common practice), so its soda is 0.855 g.
    plan = sugars.invert_plan("1 kg", 0.75, share=0.9)
    assert plan.soda.m_as("g") == pytest.approx(0.8553e-3 * plan.sucrose.m_as("g"), rel=0.003)


# Atoms: C 12.011, H 1.008, O 15.999 (IUPAC).
FORMULAS = {
    "sucrose": (12, 22, 11),
    "glucose": (6, 12, 6),
    "fructose": (6, 12, 6),
    "galactose": (6, 12, 6),
    "invert sugar": (6, 12, 6),
    "maltose": (12, 22, 11),
    "lactose": (12, 22, 11),
    "glycerol": (3, 8, 3),
    "erythritol": (4, 10, 4),
    "xylitol": (5, 12, 5),
    "sorbitol": (6, 14, 6),
    "mannitol": (6, 14, 6),
    "citric acid": (6, 8, 7),
}


@pytest.mark.parametrize("name", FORMULAS)
def test_molar_masses_by_their_atoms(name):
    carbon, hydrogen, oxygen = FORMULAS[name]
    by_hand = 12.011 * carbon + 1.008 * hydrogen + 15.999 * oxygen
    assert SOLUTES[name].molar_mass == pytest.approx(by_hand, abs=0.01)


def test_every_solute_with_a_formula_is_weighed_and_water_too():
    assert set(SOLUTES) - set(FORMULAS) == {"higher saccharides"}
    assert WATER_MOLAR_MASS == pytest.approx(2 * 1.008 + 15.999, abs=0.001)


# International Journal of Dentistry 2010, article 981072, table 3, note (d): read.
@pytest.mark.parametrize(
    ("name", "k"),
    [("glycerol", 1.16), ("erythritol", 1.34), ("xylitol", 1.66), ("sorbitol", 1.65), ("mannitol", 0.906)],
)
def test_constants_of_the_alditols(name, k):
    assert SOLUTES[name].k == k


def test_the_error_of_a_refractometer_by_hand():
    # 700 g of sugar in 1000 g of syrup, 90 +- 10 % inverted: a tenth more inverted adds 70 x 0.1 x 0.05263 = 0.3684 points
    # of solids and takes 0.020 x 70 x 0.1 x 1.05263 = 0.1474 off the reading: 0.2210. The 0.020 is known to 0.003, times
    # 70 x 0.9 x 1.05263 = 66.32 points of invert sugar: 0.1989. Both: 0.2974.
    seen = compare_with_scale("700 g", "1 kg", 72.0, inverted=0.9, inverted_error=0.1, scale_error="0 g")
    assert math.hypot(0.2210, 0.1989) == pytest.approx(0.2974, abs=1e-3)
    assert seen.expected_error == pytest.approx(0.2974, abs=5e-4)
    # The scale alone: 2 g of 1000 g of 70 % syrup is 0.14 points.
    plain = compare_with_scale("700 g", "1 kg", 70.0, inverted=0, inverted_error=0, scale_error="2 g")
    assert plain.expected_error == pytest.approx(0.14, abs=1e-6)


@pytest.mark.parametrize(
    ("new", "noted"),
    [
        (
            {"water": 0.172, "glucose": 0.313, "fructose": 0.382},
            True,
        ),  # 1.82 g of glucose to a gram of water: above 1.7
        ({"water": 0.25, "glucose": 0.375, "fructose": 0.375}, False),  # 1.5
        ({"water": 0.2, "sucrose": 0.8}, False),  # water and no glucose
        ({"glucose": 1.0}, False),  # dry: no water to crystallise from
    ],
)
def test_a_swap_warns_of_glucose_by_the_water_it_has(new, noted):
    notes = sugars.swap("100 g", {"water": 0.2, "sucrose": 0.8}, new).notes
    assert any("crystallise" in note for note in notes) is noted


# Tables differ: fructose 115 to 175, glucose 60 to 80 of 100 for sucrose (sensory work from memory, older tables read).
@pytest.mark.parametrize(
    ("sugar", "low", "high"), [("fructose", 115, 175), ("glucose", 60, 80), ("invert sugar", 100, 130)]
)
def test_sweetness_covers_what_is_published(sugar, low, high):
    assert SWEETNESS[sugar] == (low, high)
