"""Nothing counts further than it dissolves: glucose, polyols, lactose in the estimate, and what takes it from there."""

import pytest

from pastrylab.ground.units import Q, StudentError
from pastrylab.trade import keeping
from pastrylab.trade import water_activity as wa
from pastrylab.trade.dissolved import solutes_from


# No more counts than dissolves. Expected: Norrish by hand with the mass at saturation.
# glucose 103 g (50.8 %, 25 degC, Jackson & Silsbee), erythritol 57.5 g (36.5 %), mannitol 22 g (18 %), in 100 g of water.
@pytest.mark.parametrize(
    ("solute", "grams", "at_saturation"),
    [("glucose", 200, 0.889), ("erythritol", 120, 0.914), ("mannitol", 150, 0.978), ("glucose", 105, 0.887)],
)
def test_sugars_and_polyols_count_no_further_than_they_dissolve(solute, grams, at_saturation):
    found = wa.estimate({"water": "100 g", solute: Q(grams, "g")})
    assert found.value == pytest.approx(at_saturation, abs=0.003)
    assert found.high > at_saturation and any(solute in note for note in found.notes)
    # A millionth of a gram more dry matter never makes it look drier.
    assert wa.estimate({"water": "100 g", solute: Q(2 * grams, "g")}).high >= found.high - 1e-6


@pytest.mark.parametrize("solute", ["sucrose", "lactose", "xylitol", "sorbitol", "maltose", "galactose", "erythritol"])
def test_the_high_end_stands_still_beyond_saturation(solute):
    ends = [wa.estimate({"water": "100 g", solute: Q(g, "g")}).high for g in (400, 700, 1000)]
    assert ends == pytest.approx([ends[0]] * 3, abs=1e-6)


def test_glucose_takes_water_along_into_its_crystals():
    # The hydrate holds 18.02 g of water to 180.16 g of glucose. 200 g in 100 g of water, 1.033 g to a gram at saturation:
    # d = 1.033 (100 - 0.1 (200 - d)) gives d = 92.1 g, and 100 - 0.1 x 107.9 = 89.2 g of water are left.
    parts = solutes_from({"water": "100 g", "glucose": "200 g"})
    assert parts.solutes_g["glucose"] == pytest.approx(92.1, abs=0.2)
    assert parts.water_g == pytest.approx(89.2, abs=0.2)


def test_the_high_end_is_the_saturated_filling_with_its_own_error():
    # At 20 degC at least 0.9 x 47.5/52.5 = 0.815 g of glucose to a gram of water: shares 0.9247 and 0.0753, by hand
    # 0.9247 x e^(-2.25 x 0.0753^2) = 0.9129, and 0.01 for a clear syrup.
    assert wa.estimate({"water": "100 g", "glucose": "200 g"}).high == pytest.approx(0.9229, abs=0.001)


def test_glucose_beside_other_sugars_counts_in_the_value_and_not_in_the_high_end():
    # Honey of White 1962: 1.8 g of glucose to a gram of water. Set honey reads some hundredths higher than clear honey
    # (Abramovic et al. 2008).
    honey = {"water": "17.2 g", "glucose": "31.3 g", "fructose": "38.2 g", "maltose": "7.3 g", "sucrose": "1.3 g"}
    found = wa.estimate(honey)
    assert found.value == pytest.approx(0.56, abs=0.01) and found.high > 0.60
    assert any("may crystallise in time" in note for note in found.notes)


def test_growth_and_days_see_the_saturated_value():
    # 10^(7.91 - 8.1 aw) days at 21 degC: 37 at 0.78, about 5 at 0.887.
    found = wa.estimate({"water": "100 g", "glucose": "200 g"})
    assert "Staphylococcus aureus" in {limit.organism for limit in keeping.growth(found).can_grow}
    assert keeping.spoilage_band(found) == "most bacteria"
    with pytest.raises(StudentError, match="at most 0.9"):
        keeping.mould_free_days(found, "21 degC", dairy=False)


def test_invert_sugar_is_its_halves():
    whole = wa.estimate({"water": "40 g", "invert_sugar": "60 g"})
    halves = wa.estimate({"water": "40 g", "glucose": "30 g", "fructose": "30 g"})
    assert whole == halves


def test_how_much_glucose_may_crystallise(outside):
    """200 g of glucose in 100 g of water: at 25 degC the water holds about 103 g (solubility 50.8 to 51.3 % of the
    solution in sugar handbooks, from memory)."""
    note = next(note for note in wa.estimate({"water": "100 g", "glucose": "200 g"}).notes if "glucose" in note)
    outside(
        quantity="glucose left solid of 200 g in 100 g of water, g",
        expected=97,
        got=float(note.split(" g")[0]),
        tolerance=13,
        source="solubility of glucose monohydrate, 51 % at 25 degC and 47 % at 20 degC, sugar handbooks (from memory)",
    )


def test_a_drop_of_alcohol_is_named():
    # Half a gram of it fades like any other.
    notes = wa.estimate({"water": "100 g", "sucrose": "150 g", "alcohol": "0.5 g"}).notes
    assert any("Alcohol is volatile" in note for note in notes)
    assert not any("Alcohol" in note for note in wa.estimate({"water": "100 g", "sucrose": "150 g"}).notes)


def test_sucrose_that_settles_in_a_cool_store_is_told(outside):
    """206 g in 100 g of water stay dissolved at 25 degC; at 20 degC it holds 200.4 g (66.72 % of the solution), and the
    high end counts on the rest crystallising."""
    found = wa.estimate({"water": "100 g", "sucrose": "206 g"})
    (note,) = (note for note in found.notes if "sucrose" in note)
    assert "may crystallise in time" in note
    outside(
        quantity="sucrose that settles at 20 degC of 206 g in 100 g of water, g",
        expected=5.6,
        got=float(note.split(" g")[0]),
        tolerance=1.5,
        source="ICUMSA (Vavrinecz 1962): 66.72 % at 20 degC (from memory): 206 - 200.4",
    )
    assert not any("sucrose" in note for note in wa.estimate({"water": "100 g", "sucrose": "190 g"}).notes)
