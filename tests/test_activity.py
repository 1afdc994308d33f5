"""The estimate of a formula's water activity, boiled down or not, and what moves it, by Norrish by hand."""

import math

import pytest

from pastrylab import Formula
from pastrylab.ground import own
from pastrylab.ground.units import StudentError
from pastrylab.trade.activity import estimated, moves

SYRUP = Formula({"water": "100 g", "granulated sugar": "60 g"})
GANACHE = Formula({"dark couverture 64 %": "330 g", "heavy cream 36 %": "200 g", "invert syrup": "35 g"})


def norrish(water, sucrose):
    """Norrish 1966 for sucrose, K 6.47, molar masses 18.02 and 342.3."""
    x = sucrose / 342.3 / (sucrose / 342.3 + water / 18.02)
    return (1 - x) * math.exp(-6.47 * x**2)


def test_moves_by_hand():
    # 5 % of 160 g are 8 g. Table sugar is taken as pure sucrose, within a fifth of a percent.
    found = {one.what: one.change for one in moves(SYRUP)}
    now = norrish(100, 60)
    assert found["more granulated sugar"] == pytest.approx(norrish(100, 68) - now, abs=2e-4)
    assert found["more water"] == pytest.approx(norrish(108, 60) - now, abs=2e-4)
    assert found["boiling water off"] == pytest.approx(norrish(92, 60) - now, abs=2e-4)
    assert found["more granulated sugar"] < found["boiling water off"] < 0 < found["more water"]


def test_sorbitol_and_glycerol_together_by_hand():
    # 99.5 % of the powder and of the glycerol; K 1.65 and 1.16, molar masses 182.17 and 92.09 (Int. J. Dent. 2010).
    water, sorbitol, glycerol = (100 + 0.15) / 18.015, 19.9 / 182.17, 9.95 / 92.09
    whole = water + sorbitol + glycerol
    by_hand = water / whole * math.exp(-((math.sqrt(1.65) * sorbitol + math.sqrt(1.16) * glycerol) ** 2) / whole**2)
    mixed = Formula({"sorbitol powder": "20 g", "glycerol": "10 g", "water": "100 g"})
    assert estimated(mixed).value == pytest.approx(by_hand, abs=2e-4)


def test_boiled_down_by_hand():
    # 160 g of syrup boiled to 140 g have lost 20 g of water, and one twentieth more is 7 g.
    assert estimated(SYRUP, weight="140 g").value == pytest.approx(norrish(80, 60), abs=2e-4)
    found = {one.what: one.change for one in moves(SYRUP, weight="140 g")}
    assert found["boiling water off"] == pytest.approx(norrish(73, 60) - norrish(80, 60), abs=2e-4)
    assert found["more water"] == pytest.approx(norrish(87, 60) - norrish(80, 60), abs=2e-4)


@pytest.mark.parametrize("weight", ["200 g", "60 g", "59 g", "0 g"])
def test_a_weight_that_boiling_cannot_bring_is_refused(weight):
    with pytest.raises(StudentError):
        estimated(SYRUP, weight=weight)


def test_moves_stand_from_what_raises_to_what_lowers():
    found = moves(GANACHE)
    assert [one.change for one in found] == sorted((one.change for one in found), reverse=True)
    assert found[0].what == "50 % of the chocolate's sugar left solid"
    # Small molecules work harder, gram for gram: lesson 05's counting of molecules.
    by = {one.what: one.change for one in found}
    assert by["more invert syrup"] < by["more glucose syrup DE 42"] < 0


def test_invert_syrup_is_tried_once_where_the_formula_holds_it():
    assert [one.what for one in moves(GANACHE)].count("more invert syrup") == 1


def test_a_spoonful_moves_as_a_batch_does():
    """Only proportions count, down to less than a gram."""
    for formula in (SYRUP, GANACHE):
        spoonful = {one.what: one.change for one in moves(formula.scaled(factor=0.001))}
        assert spoonful == pytest.approx({one.what: one.change for one in moves(formula)}, abs=1e-6)
    boiled = {one.what: one.change for one in moves(SYRUP.scaled(factor=0.001), weight="0.14 g")}
    assert boiled == pytest.approx({one.what: one.change for one in moves(SYRUP, weight="140 g")}, abs=1e-6)
    both = Formula({"sorbitol powder": "200 g", "glycerol": "100 g", "water": "1000 g"})
    assert estimated(both.scaled(factor=0.001)).value == pytest.approx(estimated(both).value, abs=1e-9)


def test_only_the_chocolates_sugar_may_stay_solid():
    # 107.91 g of the couverture's, half of it solid, and 49.9 g of the bag's, in 202.08 g of water.
    formula = Formula({"dark couverture 64 %": "300 g", "water": "200 g", "granulated sugar": "50 g"})
    assert estimated(formula).value == pytest.approx(norrish(202.08, 107.91 + 49.9), abs=2e-4)
    assert estimated(formula, 0.5).value == pytest.approx(norrish(202.08, 53.96 + 49.9), abs=2e-4)


def test_a_label_leaves_it_as_wide_as_the_sugars_it_may_mean(own_workbook):
    """78 g of sugars on a pack may be any: what dextrose and what sucrose would give lies within."""
    label = {
        "ingredient": "my syrup",
        "kind": "syrup",
        "fat": "0",
        "carbohydrate": "78",
        "sugars": "78",
        "protein": "0",
    }
    own.add("ingredients", label)
    bare = {"dark couverture 64 %": "300 g", "heavy cream": "200 g"}
    found = estimated(Formula(bare | {"my syrup": "100 g"}))
    for sugar in ("granulated sugar", "dextrose anhydrous"):
        assert found.low < estimated(Formula(bare | {sugar: "78 g", "water": "22 g"})).value < found.high
    known = estimated(Formula(bare | {"invert syrup": "100 g"}))
    assert found.high - found.low > known.high - known.low and "model and labels together" in found.sentence


def test_a_chocolate_of_ones_own_may_hold_less_sugar_than_its_label_in_the_middle(own_workbook):
    dark = {"ingredient": "my dark", "kind": "dark chocolate", "cocoa": "66", "fat": "41", "carbohydrate": "37"}
    own.add("ingredients", dark | {"sugars": "33", "protein": "6.5"})
    formula = Formula({"my dark": "300 g", "heavy cream": "200 g"})
    half, whole = (estimated(formula, share) for share in (0.5, 1.0))
    assert half.value > whole.value and half.high >= whole.high
