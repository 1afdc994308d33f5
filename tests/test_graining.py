"""What can come out of a water phase: sucrose, glucose, lactose and polyols by temperature, and honey by its water."""

import pytest

from pastrylab.ground.units import Q
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
