"""The step of the formula box on water activity: what it says of any formula, and what moves the estimate which way."""

import math
import re

import pytest

from pastrylab import Formula
from pastrylab.ground.units import StudentError
from pastrylab.page.formula.activity import ActivityTab
from pastrylab.trade.activity import estimated, moves

SYRUP = Formula({"water": "100 g", "granulated sugar": "60 g"})
GANACHE = Formula({"dark couverture 64 %": "330 g", "heavy cream 36 %": "200 g", "invert syrup": "35 g"})


def words(html):
    return " ".join(re.sub("<[^>]+>", " ", html).split())


def tab(formula):
    step = ActivityTab()
    step.show(formula)
    return step


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


def test_the_share_of_the_chocolates_sugar_moves_the_estimate():
    # 300 g of this couverture hold 107.9 g of sucrose and 2.1 g of water by the table of ingredients.
    whole, half = norrish(202.07, 107.91), norrish(202.07, 53.96)
    assert (whole, half) == pytest.approx((0.9680, 0.9849), abs=1e-4)
    step = tab(Formula({"dark couverture 64 %": "300 g", "water": "200 g"}))
    assert "Estimated water activity 0.97, between 0.94 and 1.00" in words(step.bench.sentence.value)
    assert "50 % 0.99 (0.96 to 1.00)" in words(step.table.value)
    assert f"chocolate&#39;s sugar left solid rises by {half - whole:.3f}" in words(step.table.value)
    step.bench.numbers["dissolved_share"].put(50)
    assert "Estimated water activity 0.99" in words(step.bench.sentence.value)


def test_without_chocolate_nothing_is_asked_of_its_sugar():
    step = tab(GANACHE)
    step.bench.numbers["dissolved_share"].put(50)
    step.show(SYRUP)
    assert step.bench.numbers["dissolved_share"].layout.display == "none"
    assert "chocolate" not in words(step.table.value)
    assert "Estimated water activity 0.97" in words(step.bench.sentence.value)  # 0.966, written up


@pytest.mark.parametrize(
    ("parts", "said"),
    [
        ({"granulated sugar": "100 g"}, "at least 3%"),
        ({"butter oil": "100 g", "granulated sugar": "100 g"}, "at least 3%"),
    ],
)
def test_where_the_model_does_not_reach_it_says_so(parts, said):
    step = tab(GANACHE)
    step.show(Formula(parts))
    assert said in words(step.bench.sentence.value)
    assert step.table.value == step.bench.picture.value == ""


def test_no_class_no_days_and_the_caution():
    step = tab(GANACHE)
    said = words(step.bench.sentence.value + step.table.value + step.bench.children[-1].value)
    assert "picks no class" in said
    assert "this does not show that a food may be kept or sold" in said
    assert not re.search(r"\bsafe\b|\bTCS\b|\d+ days", said)


def test_what_was_boiled_is_typed_as_the_weight_in_the_pan():
    step = tab(SYRUP)
    assert "Estimated water activity 0.97" in words(step.bench.sentence.value)
    step.boiled.value = "100 g"  # 60 g of it sugar: norrish(40, 60), 0.895
    assert "Estimated water activity 0.90" in words(step.bench.sentence.value)
    step.boiled.value = "3.5274 oz"
    assert "Estimated water activity 0.90" in words(step.bench.sentence.value)
    step.boiled.value = ""
    assert "Estimated water activity 0.97" in words(step.bench.sentence.value)


@pytest.mark.parametrize("typed", ["100", "1 kg", "50 g", "-100 g", "half", "100 mL", "90 %", "20 °C", "5-6 g", "0 g"])
def test_a_weight_that_cannot_be_is_refused_and_nothing_shown(typed):
    step = tab(SYRUP)
    step.boiled.value = typed
    assert "You gave" in words(step.said.value + step.bench.sentence.value)
    assert "Something broke" not in step.said.value + step.bench.sentence.value
    assert step.bench.picture.value == step.table.value == ""
