"""Formulas, yields and measures at both sides of every edge, and whose part a refusal shows."""

import pytest

from pastrylab.ground.units import StudentError
from pastrylab.trade.composition import compositions
from pastrylab.trade.formula import Formula
from pastrylab.trade.pantry import facts, ingredient_name, mass_of
from pastrylab.trade.yields import purchase, yield_after

GANACHE = {
    "dark couverture 64 %": "500 g",
    "heavy cream": "300 g",
    "glucose syrup": "60 g",
    "butter": "100 g",
    "spirit 40 %": "40 g",
}
GOOD = """ingredient,also,family,water,fat,milk_fat,cocoa_butter,protein,sucrose,glucose,fructose,lactose,\
maltose,higher_saccharides,polyols,starch,fibre,ash,alcohol,other,closes_reason,density_g_per_ml,density_form,\
allergens_us,allergens_eu,note,source
syrup,sirop,syrup,30,0,0,0,0,70,0,0,0,0,0,0,0,0,0,0,0,,1.3,fluid,,,,from memory
cream,,cream,60,35,35,0,2,0,0,0,3,0,0,0,0,0,0.5,0,0,by difference,,,milk,milk,,from memory
"""


def test_a_yield_by_one_loss_alone():
    """1 - 0.2; 1 - 0.1; nothing lost; half of 1 g; nothing is left of what is all trimmed or all boiled away."""
    assert (yield_after(), yield_after(trim=0.2), yield_after(cooking="10 %")) == pytest.approx((1, 0.8, 0.9))
    assert purchase("0.5 g", "50 %").m_as("g") == 1 and purchase("0.5 g", 1).m_as("g") == 0.5
    for loss in ({"trim": 1}, {"cooking": "100 %"}):
        with pytest.raises(StudentError, match="below 100 %"):
            yield_after(**loss)


def test_less_than_a_gram_is_a_formula_too():
    """0.5 g of salt and 1 g of honey: 1 / 0.5 = 2 on the salt; 0.25 g at hand is half of it."""
    small = Formula({"salt": "0.5 g", "honey": "1 g"})
    assert Formula({"salt": "0.5 g"}).total_grams == 0.5
    assert small.percents("salt") == {"salt": 1, "honey": 2} and small.ratio("honey", "salt") == 2
    assert small.scarcest({"salt": "0.25 g"}).factor == 0.5
    assert small.scaled(total="0.75 g").grams == {"salt": 0.25, "honey": 0.5} == small.scaled(factor=0.5).grams
    assert small.scaled(pieces=1, piece="0.75 g").total_grams == 0.75
    assert compositions(["water"], [[0.5]])["water"] == pytest.approx([1])
    assert small != "salt" and Formula({"salt": "1 g"}).rounded("1 g").grams == {"salt": 1}


def test_nothing_of_a_part_is_neither_scarce_nor_too_little_for_a_scale():
    none = Formula({"honey": "40 g", "salt": "0 g"})
    assert none.scarcest({"honey": "20 g", "Honey": "10 g", "salt": "0 g"}).factor == 0.75  # 20 + 10 of 40 g
    assert none.rounded("1 g").grams == {"honey": 40, "salt": 0}
    spirit = Formula(GANACHE).sensitivity("spirit 40 %", by="-40 g")  # 40 of 1000 g: all of it left out
    assert spirit["spirit 40 %"] == pytest.approx(-0.04)
    with pytest.raises(StudentError):
        compositions(["water", "honey"], [[1, 1], [0, 0]])


@pytest.mark.parametrize(
    ("grams", "rounded"),
    [
        ({"honey": 10.54, "butter unsalted": 5.46}, [11, 5]),
        ({"honey": 10.46, "butter unsalted": 5.54}, [10, 6]),
        ({"honey": 10.5, "butter unsalted": 5.5}, [10, 6]),  # halves go up; the step too many is the largest part's
    ],
)
def test_each_part_is_rounded_to_its_nearest_step(grams, rounded):
    assert list(Formula.of_grams(grams).rounded("1 g").grams.values()) == rounded


@pytest.mark.parametrize(
    ("ask", "given", "example"),
    [
        (lambda made: made.percents("nut"), "nut, of which the formula holds nothing", "salt"),
        (lambda made: made.ratio("salt", "nut"), "nut, of which the formula holds nothing", "salt"),
        (
            lambda made: made.ratio("salt", "liquid"),
            "liquid, of which the formula holds nothing",
            "200 g of heavy cream",
        ),
        (
            lambda made: made.ratio("salt", "honey", "cream"),
            "honey, of which the formula holds nothing that counts as cream",
            "salt",
        ),
        (lambda made: made.sensitivity("butter"), "butter unsalted, which the formula does not hold", "salt"),
        (lambda made: made.scarcest({"butter": "1 g"}), "a stock without any part of the formula", "salt"),
        (lambda made: ingredient_name("hony"), "'hony', which is not among the ingredients", "honey"),
        (lambda made: ingredient_name("xyzzyq"), "'xyzzyq', which is not among the ingredients", "heavy cream 36 %"),
    ],
)
def test_a_refusal_shows_a_part_of_this_formula(ask, given, example):
    with pytest.raises(StudentError) as error:
        ask(Formula({"salt": "1 g", "honey": "2 g"}))
    assert (error.value.given, error.value.example) == (given, example)


def test_at_most_five_names_are_offered_and_four_of_them_hold_the_word():
    with pytest.raises(StudentError) as error:
        ingredient_name("syrup")
    offered = error.value.needed.rpartition("nearest are ")[2].split(", ")
    assert len(offered) == 5 and sum("syrup" in name for name in offered) >= 4
    with pytest.raises(StudentError) as error:
        ingredient_name("sugr")
    assert error.value.needed.rpartition("nearest are ")[2].split(", ")[0] == "granulated sugar"


def test_a_measure_that_is_lighter_than_water():
    """200 g of sugar a US cup (USDA SR28); half a millilitre of water is half a gram."""
    assert mass_of("1 cup", "granulated sugar").m_as("g") == pytest.approx(200, rel=0.002)
    assert mass_of("0.5 mL", "water").m_as("g") == pytest.approx(0.5, rel=0.002)
    assert mass_of("0 mL", "water").m_as("g") == 0


def test_a_nut_without_its_kind_does_not_pass_for_complete(own_workbook):
    (own_workbook / "datasets").mkdir()
    table = GOOD.replace(",milk,milk,", ",milk;tree nuts,milk;nuts,")
    (own_workbook / "datasets" / "ingredients.csv").write_text(table)
    assert facts()["cream"]["allergens_us"] == ("milk", "tree nuts (which kind: see the pack)")
    assert facts()["cream"]["allergens_eu"] == ("milk", "nuts (which kind: see the pack)")
