"""The step of the formula box on water activity: what it says of any formula, and what moves the estimate which way."""

import re

import pytest

from pastrylab import Formula
from pastrylab.page.formula.activity import ActivityTab

pytestmark = pytest.mark.usefixtures("undrawn")

SYRUP = Formula({"water": "100 g", "granulated sugar": "60 g"})
GANACHE = Formula({"dark couverture 64 %": "330 g", "heavy cream 36 %": "200 g", "invert syrup": "35 g"})


def words(html):
    return " ".join(re.sub("<[^>]+>", " ", html).split())


def tab(formula):
    step = ActivityTab()
    step.show(formula)
    return step


def test_the_share_of_the_chocolates_sugar_moves_the_estimate():
    # 300 g of this couverture hold 107.9 g of sucrose and 2.1 g of water by the table of ingredients.
    # By Norrish, test_activity: 0.9680 with all of it, 0.9849 with half.
    step = tab(Formula({"dark couverture 64 %": "300 g", "water": "200 g"}))
    assert "Estimated water activity 0.97, between 0.94 and 1.00" in words(step.bench.sentence.value)
    assert "50 % 0.99 (0.96 to 1.00)" in words(step.table.value)
    assert "chocolate&#39;s sugar left solid rises by 0.017" in words(step.table.value)
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
    step.boiled.value = "100 g"  # 60 g of it sugar: 0.895 by Norrish
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
