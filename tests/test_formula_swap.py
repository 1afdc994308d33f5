"""A sweetener swapped in a formula: sums by hand, what the step takes and refuses."""

import re

import pytest

from pastrylab import Formula
from pastrylab.ground.units import StudentError
from pastrylab.page.formula.swap import SwapTab
from pastrylab.trade.sugars.swapped import formula_sweetness, swapped, sweeteners

pytestmark = pytest.mark.usefixtures("undrawn")

GANACHE = {"dark couverture 64 %": "330 g", "heavy cream": "200 g", "honey": "40 g", "butter": "25 g"}


def words(html):
    return " ".join(re.sub("<[^>]+>", " ", html).split())


def tab(parts=GANACHE, **boxes):
    taken = []
    step = SwapTab(lambda name, formula: taken.append(formula))
    step.taken = taken
    step.show(Formula(parts))
    for name, value in {"comes": "invert syrup", **boxes}.items():
        getattr(step, name).value = value
    step.press.click()
    return step


# By the table of ingredients 100 g of honey hold 82.12 g of sugars (0.89 sucrose, 35.75 glucose, 40.94 fructose, 4.54
# maltose) and 17.1 g of water; 100 g of invert syrup 76.90 g (3.84, 36.53, 36.53) and 23 g of water.


@pytest.mark.parametrize(
    ("hold", "grams"),
    [
        ("solids", 40 * 82.12 / 76.90),
        ("water", 40 * 17.1 / 23),
        # middles: sucrose 100, glucose 70, fructose 145, maltose 31.5
        (
            "sweetness",
            40 * (0.89 * 100 + 35.75 * 70 + 40.94 * 145 + 4.54 * 31.5) / (3.84 * 100 + 36.53 * 70 + 36.53 * 145),
        ),
    ],
)
def test_what_is_held_by_hand(hold, grams):
    made = swapped(Formula(GANACHE), "honey", "invert syrup", hold)
    assert made.formula.grams["invert syrup"] == pytest.approx(grams, abs=0.01)
    assert list(made.formula.grams) == ["dark couverture 64 %", "heavy cream 36 %", "invert syrup", "butter unsalted"]
    assert made.formula.grams["dark couverture 64 %"] == 330


def test_what_is_not_held_by_hand():
    # 42.72 g of invert syrup bring 9.82 g of water, 40 g of honey 6.84 g.
    made = swapped(Formula(GANACHE), "honey", "invert syrup")
    assert made.not_held == ("Water is not held: 3.0 g more in the batch.",)
    # 29.74 g of invert syrup bring 22.87 g of sugars, 40 g of honey 32.85 g.
    made = swapped(Formula(GANACHE), "honey", "invert syrup", "water")
    assert made.not_held[0] == "The dry sugar is not held: 10.0 g less in the batch."
    assert made.not_held[1].startswith("Sweetness is not held: about ")


def test_sweetness_of_a_formula_by_hand():
    # 99.8 g of sucrose at 100, 2.92 g of lactose at 15 to 20.
    low, high = formula_sweetness(Formula({"granulated sugar": "100 g", "heavy cream": "100 g"}))
    assert (low, high) == pytest.approx((99.8 + 0.438, 99.8 + 0.584), abs=0.001)
    # Sorbitol 50 to 60 (99.5 % of the powder or near it); glycerol stands in no table here.
    low, high = formula_sweetness(Formula({"sorbitol powder": "100 g"}))
    assert (low, high) == pytest.approx((50, 60), rel=0.01)
    assert formula_sweetness(Formula({"glycerol": "10 g", "honey": "90 g"})) is None
    assert formula_sweetness(Formula({"glycerol": "10 g", "sorbitol powder": "90 g"})) is None


def test_there_and_back_again():
    there = swapped(Formula(GANACHE), "honey", "glucose syrup DE 42")
    back = swapped(there.formula, "glucose syrup DE 42", "honey")
    assert back.formula.grams == pytest.approx(Formula(GANACHE).grams)


def test_part_of_it_stays_and_what_is_there_already_is_added_to():
    made = swapped(Formula({**GANACHE, "invert syrup": "10 g"}), "honey", "invert syrup", amount="15 g")
    assert made.formula.grams["honey"] == 25
    assert made.formula.grams["invert syrup"] == pytest.approx(10 + 15 * 82.12 / 76.90, abs=0.01)


@pytest.mark.parametrize(
    ("old", "new", "hold", "amount"),
    [
        ("invert syrup", "honey", "solids", None),  # not in it
        ("honey", "honey", "solids", None),
        ("honey", "invert syrup", "solids", "50 g"),  # more than there is
        ("honey", "invert syrup", "solids", "0 g"),
        ("honey", "invert syrup", "colour", None),
        ("honey", "granulated sugar", "water", None),  # no water in it to hold
        ("honey", "glycerol", "sweetness", None),  # not tabled
        ("honey", "butter", "solids", None),
        ("honey", "unicorn syrup", "solids", None),
    ],
)
def test_a_swap_that_cannot_be_is_refused(old, new, hold, amount):
    with pytest.raises(StudentError):
        swapped(Formula(GANACHE), old, new, hold, amount)


def test_the_step_shows_and_gives_back():
    step = tab()
    said = words(step.found.value)
    assert said.startswith("40 g of honey become 42.7 g of invert syrup, same solids: water +3.0 g, solids +0.0 g.")
    assert "Water is not held: 3.0 g more in the batch." in said
    assert "honey 40 g none" in said
    assert "invert syrup none 42.7 g (1.51 oz)" in said
    assert re.search(r"water activity, estimated 0\.\d\d \(.+?\) 0\.\d\d \(", said)
    step.take.click()
    assert step.taken[0].grams["invert syrup"] == pytest.approx(42.715, abs=0.01)


@pytest.mark.parametrize("typed", ["20 g", "50 %", "20", "0.7055 oz", "20g", " 20 grams"])
def test_an_amount_may_be_typed(typed):
    step = tab(amount=typed)
    if typed == "20":
        assert "without a unit" in words(step.said.value)
    else:
        assert words(step.found.value).startswith("20 g of honey become 21.4 g")


@pytest.mark.parametrize("typed", ["50 g", "-5 g", "two spoons", "0 g", "1 cup", "120 %", "20 °C", "10-20 g"])
def test_an_amount_that_cannot_be_is_refused(typed):
    step = tab(amount=typed)
    assert "You gave" in words(step.said.value)
    assert step.found.value == ""
    assert step.take.layout.display == "none"


@pytest.mark.parametrize("typed", ["", "unicorn syrup", "honey", "butter", "<b>x</b>"])
def test_what_cannot_come_in_is_refused(typed):
    step = tab(comes=typed)
    assert "You gave" in words(step.said.value)
    assert "<b>" not in step.said.value


@pytest.mark.parametrize(
    "typed", ["Glucose syrup", "glucose syrup de 42", "corn syrup", "SUGAR", "molasses", "sorbitol"]
)
def test_a_sweetener_goes_by_any_of_its_names(typed):
    step = tab(comes=typed)
    assert step.said.value == ""
    assert "40 g of honey become" in words(step.found.value)


def test_a_formula_without_a_sweetener_is_told_so_and_the_next_one_is_taken():
    step = tab({"dark couverture 64 %": "300 g", "heavy cream": "200 g"})
    assert "no sweetener of its own" in words(step.said.value) or "You gave" in words(step.said.value)
    step.show(Formula(GANACHE))
    assert step.goes.options == ("honey",)
    assert step.children[0].layout.display == ""
    assert step.said.value == ""


def test_the_list_holds_sugars_and_syrups():
    assert sweeteners(["heavy cream 36 %", "granulated sugar", "invert syrup", "dark couverture 64 %"]) == [
        "granulated sugar",
        "invert syrup",
    ]


@pytest.mark.parametrize(
    ("new", "said"),
    # Grain for grain of dry sugar, sucrose 100 against the middles 70 (60 to 80) of glucose and 145 (115 to 175) of fructose.
    [("dextrose anhydrous", "about 30 % less"), ("fructose", "about 45 % more")],
)
def test_how_much_the_sweetness_changes_by_hand(new, said):
    made = swapped(Formula({"granulated sugar": "100 g", "water": "50 g"}), "granulated sugar", new)
    assert any(f"Sweetness is not held: {said} in all" in one for one in made.not_held)


def test_less_than_a_gram_may_be_swapped():
    made = swapped(Formula(GANACHE), "honey", "invert syrup", amount="0.5 g")
    assert made.formula.grams["honey"] == 39.5
    assert made.formula.grams["invert syrup"] == pytest.approx(0.5 * 82.12 / 76.90, abs=0.001)


@pytest.mark.parametrize(
    ("grams", "said"),
    # A gram of honey, 0.8212 of sugars and 0.171 of water, becomes 1.0679 g of invert syrup with 0.2456 of water: 0.0746 more.
    # Of 6.6 g that is 0.49 g, no scale of a kitchen tells it; of 6.8 g 0.51 g.
    [("6.6 g", False), ("6.8 g", True)],
)
def test_half_a_gram_of_water_is_said(grams, said):
    made = swapped(Formula(GANACHE), "honey", "invert syrup", amount=grams)
    assert ("Water is not held: 0.5 g more in the batch." in made.not_held) is said


@pytest.mark.parametrize(
    ("grams", "said"),
    # Glucose 70 in the middle of 60 to 80: of 100 g of sucrose 6 g less 30 % are 1.8 % of all, 7 g 2.1 %.
    [("6 g", False), ("7 g", True)],
)
def test_a_fiftieth_of_the_sweetness_is_said(grams, said):
    made = swapped(Formula({"granulated sugar": "100 g"}), "granulated sugar", "dextrose anhydrous", amount=grams)
    assert any("Sweetness is not held: about 2 % less" in one for one in made.not_held) is said


def test_less_than_a_gram_of_all_is_still_a_formula():
    made = swapped(Formula({"granulated sugar": "0.5 g"}), "granulated sugar", "fructose")
    assert any("about 45 % more" in one for one in made.not_held)
    # 0.5 g of sorbitol at 50 to 60 of 100
    assert formula_sweetness(Formula({"sorbitol powder": "0.5 g"})) == pytest.approx((0.25, 0.30), rel=0.01)


@pytest.mark.parametrize(("same", "other"), [("invert syrup", "honey"), ("honey", "invert syrup")])
def test_a_sweetener_in_place_of_itself_is_told_another(same, other):
    with pytest.raises(StudentError, match=f"Example: {other}"):
        swapped(Formula({same: "40 g", "heavy cream": "200 g"}), same, same)
