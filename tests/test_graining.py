"""What can come out of a water phase: sucrose, glucose, lactose and polyols by temperature, and honey by its water."""

import pytest

from pastrylab.ground.units import Q, StudentError
from pastrylab.trade import sugars
from pastrylab.trade.sugars.solubility import sucrose_dissolved, sucrose_per_water


def test_graining_at_below_and_above_saturation():
    holds = sugars.sucrose_per_water("18 degC", {"glucose": 20})

    def risk(ratio):
        return sugars.graining_risk("100 g", {"sucrose": Q(ratio * holds, "g"), "glucose": "20 g"}, "18 degC")

    assert risk(1).supersaturation == pytest.approx(1, abs=1e-6)
    assert "will not grain" in risk(0.8).sentence
    assert "about at saturation" in risk(1.0).sentence
    assert "can grain" in str(risk(1.3))
    # Known to 5 %: between 0.95 and 1.05 nobody can tell.
    assert [risk(ratio).stays for ratio in (0.94, 0.97, 1.03, 1.06)] == [True, None, None, False]
    assert risk(0.8).glucose_to_water == pytest.approx(0.2)


def test_glucose_is_judged_by_the_water():
    mild = sugars.graining_risk("100 g", {"invert sugar": "100 g"}, "18 degC")
    strong = sugars.graining_risk("100 g", {"glucose": "120 g", "fructose": "10 g"}, "18 degC")
    edge = sugars.graining_risk("100 g", {"glucose": "80 g"}, "18 degC")
    assert mild.supersaturation == 0 and mild.glucose_to_water == pytest.approx(0.5)
    assert "crystallise" in strong.sentence and "own limit" in edge.sentence and "Glucose" not in mild.sentence
    assert (mild.stays, strong.stays, edge.stays) == (True, False, None)


@pytest.mark.parametrize(
    ("sugar", "grams", "celsius", "stays"),
    [
        # Hudson, in Lowe, Experimental Cookery: 16.9 g of lactose to 100 g of water at 15 degC, 21.6 at 25.
        ("lactose", 60, 20, False),
        ("lactose", 18, 15, False),
        ("lactose", 16, 15, True),
        ("lactose", 20, 25, True),
        # Dextrose as its hydrate: 0.82 (Combs & Bele) to 0.92 g per g of water at 20 degC, about 0.6 at 5 degC.
        ("glucose", 70, 20, True),
        ("glucose", 70, 5, False),
        ("glucose", 87, 20, None),
        ("glucose", 95, 20, False),
        ("erythritol", 70, 20, False),
        ("mannitol", 25, 20, False),
        ("sorbitol", 60, 5, True),
        # Colder than its table erythritol goes on falling: 27 % at 10 degC, 35 % at 20, so 23 % or 0.30 g per g at 5.
        ("erythritol", 33, 5, False),
        ("erythritol", 25, 5, True),
        ("glycerol", 300, 5, True),
    ],
)
def test_what_can_crystallise_beside_the_sucrose_is_counted_by_temperature(sugar, grams, celsius, stays):
    found = sugars.graining_risk("100 g", {"sucrose": "0 g", sugar: Q(grams, "g")}, Q(celsius, "degC"))
    assert found.stays is stays
    assert ("will not grain" in found.sentence) == (stays is True)


def test_lactose_dissolves_less_beside_much_sucrose():
    # About half as much in a syrup saturated with sucrose (Nickerson & Moore 1972, from memory).
    alone = sugars.graining_risk("100 g", {"lactose": "14 g"}, "20 degC")
    crowded = sugars.graining_risk("100 g", {"lactose": "14 g", "sucrose": "180 g"}, "20 degC")
    assert alone.stays is True and crowded.stays is None and "own limit" in crowded.sentence


def test_honey_grains_by_glucose_to_water_and_not_by_being_invert():
    clear, firm = sugars.honey_granulation(0.27, 0.18), sugars.honey_granulation("38 %", "17 %")
    assert clear.tendency == "stays liquid for long" and firm.tendency == "crystallises soon"
    assert sugars.honey_granulation(0.313, 0.172).tendency == "in between"


@pytest.mark.parametrize("celsius", [5, 20, 25, 35])
@pytest.mark.parametrize("others", [{}, {"glucose": 60.0, "fructose": 60.0}, {"lactose": 12.0}, {"glycerol": 80.0}])
def test_what_dissolves_is_all_of_it_or_what_the_water_holds(celsius, others):
    holds = float(sucrose_per_water.floats(celsius, others))
    for sucrose in (0.0, 1.0, 0.5 * holds, 0.999 * holds, 1.001 * holds, 2 * holds):
        found = sucrose_dissolved(celsius, sucrose, others)
        assert found == pytest.approx(min(sucrose, holds), rel=1e-6)


def test_the_figures_of_a_water_phase_by_hand():
    # Charles 1960 at 20 degC: 66.598 g in 100 g, 199.4 g to 100 g of water. Half of that: 0.50, give or take a twentieth.
    found = sugars.graining_risk("0.5 g", {"sucrose": Q(0.5 * 0.5 * 66.598 / 33.402, "g")}, "20 degC")
    assert (found.supersaturation, found.low, found.high) == pytest.approx((0.5, 0.475, 0.525), abs=1e-4)
    assert found.glucose_to_water == 0
    # Invert sugar is half fructose: 800 g to 100 g of water are 4.00 g to a gram; 78.9 / 21.1 = 3.74 are held at 20 degC.
    rich = sugars.graining_risk("100 g", {"invert sugar": "800 g"}, "20 degC")
    assert rich.stays is False and "Fructose, 4.00 g per g of water, can crystallise as well" in rich.sentence
    assert rich.glucose_to_water == pytest.approx(4)


@pytest.mark.parametrize(
    ("water", "room", "taken"),
    [("0.5 g", "0 degC", True), ("1 g", "40 degC", True), ("0 g", "20 degC", False)]
    + [("1 g", "-0.1 degC", False), ("1 g", "40.1 degC", False)],
)
def test_a_store_and_its_water_have_two_sides(water, room, taken):
    if taken:
        assert sugars.graining_risk(water, {"sucrose": "0.5 g"}, room).supersaturation > 0
    else:
        with pytest.raises(StudentError):
            sugars.graining_risk(water, {"sucrose": "0.5 g"}, room)


@pytest.mark.parametrize(
    ("glucose", "water", "taken"),
    [(0.6, 0.3, True), (0.0, 0.1, True), (0.61, 0.3, False), (0.3, 0.301, False), (0.3, 0.099, False)],
)
def test_the_shares_of_a_honey_have_two_sides(glucose, water, taken):
    if taken:
        assert sugars.honey_granulation(glucose, water).glucose_to_water == pytest.approx(glucose / water)
    else:
        with pytest.raises(StudentError):
            sugars.honey_granulation(glucose, water)


@pytest.mark.parametrize(
    ("lactose", "fructose", "stays"),
    # 17.8 g of lactose in 100 g hold at 25 degC: 0.2165 g to a gram of water; half of that at the least beside 2 g of other
    # sugar, three quarters, 0.162, beside 1 g (Nickerson & Moore 1972, from memory). The lactose itself is no other sugar.
    [(18, 200, None), (16, 100, True), (17, 100, None)],
)
def test_lactose_is_crowded_by_any_other_sugar_and_not_by_itself(lactose, fructose, stays):
    sugar = {"lactose": Q(lactose, "g"), "fructose": Q(fructose, "g")}
    assert sugars.graining_risk("100 g", sugar, "25 degC").stays is stays
