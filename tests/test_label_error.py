"""An estimate of water activity is as wide as the labels of one's own ingredients leave it."""

import pytest

from pastrylab import Formula
from pastrylab.ground import own
from pastrylab.ground.datasets import COMPONENTS
from pastrylab.page.formula.composition import CompositionTab
from pastrylab.trade import pantry
from pastrylab.trade.activity import estimated
from pastrylab.trade.labels import error as label_error

SYRUP = {"ingredient": "my syrup", "kind": "syrup", "fat": "0", "carbohydrate": "78", "sugars": "78", "protein": "0"}
GANACHE = {"dark couverture 64 %": "300 g", "heavy cream": "200 g"}


def formula(name, grams=80):
    return Formula(GANACHE | {name: f"{grams} g"})


@pytest.fixture
def syrup(own_workbook):
    own.add("ingredients", SYRUP)
    return "my syrup"


def test_a_formula_of_the_table_has_the_error_of_the_model_alone(syrup):
    assert label_error.labelled(formula("invert syrup").grams) == []
    assert "labels" not in estimated(formula("invert syrup")).sentence


def test_the_ends_of_a_label_add_up_and_lie_within_it(syrup):
    made = pantry.own_ingredients()[0][syrup]
    for added in label_error.ends({syrup: 100.0}):
        assert sum(added.values()) == pytest.approx(0, abs=1e-9)
    most, least = label_error.ends({syrup: 100.0})
    assert made.grams["water"] + most["water"] == pytest.approx(made.ends["water"][1])
    assert made.grams["water"] + least["water"] == pytest.approx(made.ends["water"][0])
    assert {name for added in (most, least) for name in added} <= set(COMPONENTS)


@pytest.mark.parametrize("truth", ["granulated sugar", "dextrose anhydrous", "fructose"])
def test_whichever_sugar_it_was_the_estimate_reaches_it(syrup, truth):
    """78 g of one sugar and 22 g of water: the pack would read the same for each."""
    found = estimated(formula(syrup, 100))
    true = estimated(Formula(GANACHE | {truth: "78 g", "water": "22 g"}))
    assert found.low <= true.value <= found.high
    assert found.high >= true.high - 0.005 or truth == "granulated sugar"


def test_it_is_wider_than_that_of_a_known_syrup_and_says_why(syrup):
    known, own_one = estimated(formula("invert syrup")), estimated(formula(syrup))
    assert own_one.high - own_one.low > known.high - known.low
    assert "my syrup" in " ".join(own_one.notes) and "labels" in own_one.sentence


def test_a_chocolate_of_ones_own_may_hold_less_sugar_than_the_middle_of_its_label(own_workbook):
    dark = {"ingredient": "my dark", "kind": "dark chocolate", "cocoa": "66", "fat": "41", "carbohydrate": "37"}
    own.add("ingredients", dark | {"sugars": "33", "protein": "6.5"})
    formula = Formula({"my dark": "300 g", "heavy cream": "200 g"})
    half, whole = (estimated(formula, share) for share in (0.5, 1.0))
    assert half.value > whole.value and half.low < half.value < half.high
    assert estimated(formula, 0.5, "460 g").value < half.value


def test_the_composition_says_how_far_it_is_open(syrup):
    """100 g of a syrup in 600 g: its water, open by so many grams in 100, opens the whole by a sixth of that."""
    low, high = pantry.own_ingredients()[0][syrup].ends["water"]
    words = label_error.said(formula(syrup, 100)).split("water ")[1].split()
    assert float(words[2]) - float(words[0]) == pytest.approx((high - low) / 6, abs=0.11)
    tab = CompositionTab()
    tab.show(formula(syrup, 100))
    assert "only the label is known" in tab.said.value
    tab.show(formula("invert syrup"))
    assert "only the label" not in tab.said.value


def test_a_careful_end_asked_for_is_judged_with_the_label(syrup):
    """What mends a formula takes `high`: it may not be lower than with any syrup the label allows."""
    worst = max(
        estimated(Formula(GANACHE | {sugar: "78 g", "water": "22 g"})).value
        for sugar in ("granulated sugar", "fructose")
    )
    assert estimated(formula(syrup, 100)).high > worst
