"""A ganache's phases by hand: what is dissolved, what is a particle, and how much room each takes."""

import pytest

from pastrylab.ground import datasets
from pastrylab.trade import emulsion
from pastrylab.trade.formula import Formula
from pastrylab.trade.phases import phases
from pastrylab.trade.sugars.solubility import sucrose_per_water


def test_other_sugars_keep_sucrose_out_of_solution():
    """100 g water, 60 g dextrose, 300 g sugar: the solubility beside 60 g of glucose in 100 g of water at 40 degC."""
    made = phases(Formula({"water": "100 g", "dextrose anhydrous": "60 g", "granulated sugar": "300 g"}))
    dextrose, sugar = (datasets.ingredients()[name] for name in ("dextrose anhydrous", "granulated sugar"))
    water = 100 * datasets.ingredients()["water"]["water"] + 60 * dextrose["water"] + 300 * sugar["water"]
    glucose = 60 * dextrose["glucose"] / water * 100
    holds = sucrose_per_water("40 degC", {"glucose": glucose})
    assert made.undissolved_g == pytest.approx(300 * sugar["sucrose"] - holds * water / 100, abs=0.05)


def test_a_humectant_is_dissolved_and_no_particle():
    # 99.5 g of polyols and 100.5 g of water (ingredients.csv): 100.5 / 0.992 + 99.5 x 0.62 = 163.0 mL, and nothing solid.
    found = phases(Formula({"water": "100 g", "sorbitol powder": "100 g"}))
    assert found.solids_ml == 0
    assert found.watery_ml == pytest.approx(163.0, abs=0.05)


def test_volume_of_alcohol(outside):
    found = phases(Formula({"rum": "100 g"}))
    outside(
        quantity="volume of the 33.4 g of alcohol in 100 g of rum, mL",
        expected=42.3,
        got=found.watery_ml - 66.6 / 0.992,
        tolerance=0.4,
        source="CRC Handbook, density of ethanol 0.789 g/mL (from memory): 33.4 / 0.789",
    )


def test_longer_chains_are_dissolved_and_no_particles():
    # Syrup of DE 42 by its row: 20 % of water, 27.1 % of sugars, 52.6 % of longer chains, 0.3 % of ash. Beside 100 g of water
    # 120 / 0.992 + 79.7 x 0.62 = 170.38 mL of watery phase, 0.3 / 1.45 = 0.207 mL of particles, 52.9 g of other dry matter.
    found = phases(Formula({"water": "100 g", "glucose syrup DE 42": "100 g"}))
    assert found.watery_ml == pytest.approx(170.38, abs=0.01) and found.solids_ml == pytest.approx(0.207, abs=0.001)
    assert found.other_solids_g == pytest.approx(52.9)


def test_sugar_the_water_holds_leaves_nothing_solid_and_crystals_have_their_own_density():
    # 100 g of water hold 236 g of sucrose at 40 degC (70.2 %, Charles 1960, from memory). Ash and other: 0.19 g at 1.45.
    held = phases(Formula({"water": "100 g", "granulated sugar": "100 g"}))
    assert held.undissolved_g == 0 and held.solids_ml == pytest.approx(0.19 / 1.45)
    over = phases(Formula({"water": "100 g", "granulated sugar": "300 g"}))
    assert over.undissolved_g == pytest.approx(299.4 - 236, abs=4)
    assert over.solids_ml == pytest.approx(over.undissolved_g / 1.58 + 3 * 0.19 / 1.45)


def test_a_spoonful_has_the_phases_of_a_batch():
    batch = Formula({"water": "100 g", "dextrose anhydrous": "60 g", "granulated sugar": "300 g"})
    whole, spoonful = phases(batch), phases(batch.scaled(factor=0.005))
    assert spoonful.volume_shares == pytest.approx(whole.volume_shares, rel=1e-9)
    assert emulsion.kind_in(Formula({"milk couverture 38 %": "0.5 g", "whole milk": "2 g"})) == "milk"
    assert emulsion.boil_off("0.9 g", "0.8 g").lost.m_as("g") == pytest.approx(0.1)
