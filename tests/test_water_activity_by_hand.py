"""Constants and edges of water activity and keeping, against what is published and arithmetic by hand."""

import math

import pytest

from pastrylab.ground.datasets import ingredients
from pastrylab.ground.units import Q, StudentError
from pastrylab.trade import keeping
from pastrylab.trade import water_activity as wa
from pastrylab.trade.dissolved import chocolate_sugar, polyol_of, solutes_from
from pastrylab.trade.formula import Formula
from pastrylab.trade.saturation import HOLDS, holds
from pastrylab.trade.solutes import SOLUTES

# (K, least, most), natural logarithm. Chirife, Ferro Fontan & Benmergui 1980, Journal of Food Technology 15:59, from
# memory; the ends as other sources have them (freezing points of the CRC Handbook among them), our own judgement.
NORRISH = {
    "sucrose": (6.47, 6.4, 6.5),
    "glucose": (2.25, 2.0, 2.5),
    "fructose": (2.25, 1.6, 2.25),
    "galactose": (2.25, 1.6, 2.5),
    "invert sugar": (2.25, 1.9, 2.25),
    "maltose": (4.54, 4.54, 6.2),
    "lactose": (10.2, 6.0, 10.2),
    "glycerol": (1.16, 1.0, 1.2),
    "sorbitol": (1.65, 1.6, 1.7),
    "xylitol": (1.66, 1.6, 1.7),
    "erythritol": (1.34, 1.3, 1.4),
    "mannitol": (0.906, 0.9, 1.8),
    "citric acid": (6.2, 5.0, 6.5),
}


@pytest.mark.parametrize("name", NORRISH)
def test_constants_and_their_ranges(name):
    solute = SOLUTES[name]
    assert (solute.k, solute.k_low, solute.k_high) == NORRISH[name]


def test_higher_saccharides_are_what_is_left_of_a_syrup():
    # 100 g of a syrup of DE 42: 18016/42 = 428.95 g/mol, 0.23313 mol; less 19 g of glucose (0.10546 mol) and 14 g of maltose
    # (0.04090 mol) leaves 67 g in 0.08677 mol: 772 g/mol. sqrt(K) by moles: 0.23313 x sqrt(5.85) = 0.56387, less
    # 0.10546 x 1.5 and 0.04090 x 2.13073: 0.31853, over 0.08677 is 3.671, squared 13.5.
    rest = SOLUTES["higher saccharides"]
    assert rest.molar_mass == pytest.approx(772, abs=3) and rest.k == pytest.approx(13.5, abs=0.05)


# g in 100 g of saturated solution. Glucose: Jackson & Silsbee 1922 (50.8 at 25, between their 49.37 at 22.98 and 52.99 at
# 28.07). Lactose: Hudson (17.8 at 25). Maltose: Gillis (44.1 at 21). Citric acid: an encyclopedia (59.2 at 20). Fructose
# (3.75 g to a gram of water), sorbitol (2.35), mannitol, galactose: handbooks, from memory. Xylitol: 1.69 g to a gram of
# water; erythritol 36.5 (both read).
@pytest.mark.parametrize(
    ("name", "celsius", "percent"),
    [
        ("glucose", 25.0, 50.8),
        ("lactose", 25.0, 17.8),
        ("lactose", 15.0, 14.5),
        ("maltose", 21.0, 44.1),
        ("citric acid", 20.0, 59.2),
        ("fructose", 20.0, 78.9),
        ("sorbitol", 25.0, 70.2),
        ("mannitol", 25.0, 18.0),
        ("mannitol", 20.0, 15.5),
        ("galactose", 25.0, 35.0),
        ("xylitol", 20.0, 62.8),
        ("erythritol", 25.0, 36.5),
        ("erythritol", 20.0, 35.0),
    ],
)
def test_what_water_holds(name, celsius, percent):
    assert holds(name, celsius)[1] == pytest.approx(percent / (100 - percent), rel=0.003)


# The share that is sure to dissolve: how far the sources lie apart, our own judgement.
SURE = {"lactose": 1.0, "maltose": 1.0, "fructose": 0.95, "citric acid": 0.95}


@pytest.mark.parametrize("name", HOLDS)
def test_what_is_sure_to_dissolve(name):
    least, most = holds(name, 20.0)
    assert least / most == pytest.approx(SURE.get(name, 0.9))


def test_below_its_table_a_curve_goes_on_straight():
    # Fructose 78.9 % at 20 and 80.3 % at 25 degC: 0.28 a degree, so 76.1 % at 10 degC.
    assert holds("fructose", 10.0)[1] == pytest.approx(76.1 / 23.9)


def test_lactose_beside_other_sugars_by_hand():
    # Half as much beside 2 g of other sugars to a gram of water, in proportion below, no less beside more (from memory of
    # Nickerson & Moore 1972). 17.8 % is 0.21655 g to a gram of water.
    shares = [holds("lactose", 25.0, others)[0] / 0.21655 for others in (0.0, 1.0, 2.0, 4.0)]
    assert shares == pytest.approx([1.0, 0.75, 0.5, 0.5], rel=1e-3)


# Stated errors, our own judgement: clear syrup, filling. Glycerol, whose K is known well: 100 g in 69.36, 47.89 and 34.78 g
# of water are mole fractions of 0.22, 0.29 and 0.36, by hand 0.78 e^(-1.16 x 0.0484) = 0.737, 0.644 and 0.551.
@pytest.mark.parametrize(
    ("water", "aw", "clear", "filling"),
    [(400.0, 0.951, 0.01, 0.03), (69.36, 0.737, 0.02, 0.04), (47.89, 0.644, 0.03, 0.04), (34.78, 0.551, 0.04, 0.05)],
)
def test_the_stated_error_by_water_activity(water, aw, clear, filling):
    mix = {"water": Q(water, "g"), "glycerol": "100 g"}
    for more, error in (({}, clear), ({"fat": "60 g"}, filling)):
        found = wa.estimate({**mix, **more})
        assert found.value == pytest.approx(aw, abs=0.001)
        assert found.high - found.value == pytest.approx(error) == found.value - found.low


def test_a_filling_is_what_holds_more_than_a_twentieth_of_its_water_in_other_things():
    said = [wa.estimate({"water": "100 g", "sucrose": "60 g", "fat": Q(fat, "g")}).sentence for fat in (4.9, 5.1)]
    assert "clear syrup" in said[0] and "more than sugars and water" in said[1]
    acid = wa.estimate({"water": "100 g", "sucrose": "60 g", "ash": "4 g", "acids": "4 g"})
    assert "clear syrup" in acid.sentence


def test_three_percent_of_water_is_the_least():
    assert wa.estimate({"water": "3.01 g", "fat": "96.99 g"}).value == 1
    with pytest.raises(StudentError, match="a mix with 3.0% of water"):
        wa.estimate({"water": "2.99 g", "fat": "97.01 g"})


def test_alcohol_by_hand():
    # 10 g of ethanol (46.07 g/mol) are 0.21706 mol, 100 g of water 5.55084: 0.96237 by shares alone, and 0.01 of error.
    found = wa.estimate({"water": "100 g", "alcohol": "10 g"})
    assert found.low == pytest.approx(0.96237 - 0.01, abs=2e-5) and found.value == 1


def test_a_total_of_sugars_may_pass_what_is_named_by_a_twentieth_and_a_gram():
    named = {"water": "100 g", "sucrose": "100 g"}
    assert wa.estimate({**named, "sugars": "105.9 g"}).value == wa.estimate(named).value
    for whole in ("sugars", "total sugars"):
        with pytest.raises(StudentError, match="are named"):
            wa.estimate({**named, whole: "106.1 g"})


def test_polyols_may_pass_what_is_named_by_a_twentieth():
    named = {"water": "100 g", "sorbitol": "20 g"}
    assert wa.estimate({**named, "polyols": "21 g"}).value == wa.estimate(named).value
    with pytest.raises(StudentError, match="polyols without their names"):
        wa.estimate({**named, "polyols": "21.1 g"})


# FDA Bad Bug Book 1992, factors table, with the ends other sources give (each named in the table itself).
LIMITS = {
    "Clostridium botulinum type E": (0.965, 0.97),
    "Salmonella": (0.94, 0.95),
    "Vibrio parahaemolyticus": (0.94, 0.94),
    "Escherichia coli": (0.935, 0.95),
    "Clostridium botulinum types A and B": (0.93, 0.94),
    "Clostridium perfringens": (0.93, 0.97),
    "Bacillus cereus": (0.92, 0.95),
    "Listeria monocytogenes": (0.90, 0.93),
    "Staphylococcus aureus": (0.83, 0.86),
    # Beuchat 1981, Cereal Foods World 26:345.
    "most moulds and many yeasts": (0.80, 0.87),
    "halophilic bacteria and moulds that make toxins": (0.75, 0.80),
    "xerophilic moulds": (0.65, 0.75),
    "osmophilic yeasts and a few moulds": (0.60, 0.65),
}


def test_every_limit_of_growth():
    assert {limit.organism: (limit.low, limit.high) for limit in keeping.GROWTH_LIMITS} == LIMITS


@pytest.mark.parametrize("organism", LIMITS)
def test_it_grows_at_its_limit_and_not_a_hundredth_below(organism):
    low = LIMITS[organism][0]
    assert organism in {limit.organism for limit in keeping.growth(low).can_grow}
    assert organism not in {limit.organism for limit in keeping.growth(low - 0.011).can_grow}


def test_days_without_mould_and_their_scatter_by_hand():
    # 21 degC: 10^(7.91 - 0.081 x 80) = 10^1.43 = 26.9 days; 27 degC: 10^(6.42 - 0.0647 x 80) = 10^1.244 = 17.5; half way
    # between, 10^1.337 = 21.7. Four published cakes lie within 15 %.
    for celsius, days in ((21, 26.92), (24, 21.73), (27, 17.54)):
        found = keeping.mould_free_days(0.80, Q(celsius, "degC"), dairy=False)
        assert found.days == pytest.approx(days, abs=0.01)
        assert (found.low, found.high) == pytest.approx((days / 1.15, days * 1.15), rel=1e-3)


def test_a_pan_boiled_down_loses_water_alone():
    pan = wa.boiled_down(Formula({"water": "100 g", "granulated sugar": "200 g"}), "250 g")
    left = {name: mass.m_as("g") for name, mass in pan.items()}
    assert math.fsum(left[name] for name in ("water", "sucrose")) == pytest.approx(250, abs=0.5)
    # Granulated sugar holds next to no water: 100 g less 50 g boiled off.
    assert left["water"] == pytest.approx(50, abs=0.5)
    for weight in ("301 g", "199 g"):
        with pytest.raises(StudentError, match="a pan"):
            wa.boiled_down(Formula({"water": "100 g", "granulated sugar": "200 g"}), weight)


# Greenspan 1977, Journal of Research of the NBS 81A:89, 25 degC: 11.30, 32.78, 75.29 and 97.30 %.
@pytest.mark.parametrize(
    ("salt", "percent"),
    [("LiCl", 11.30), ("MgCl2", 32.78), ("NaCl", 75.29), ("K2SO4", 97.30)],
)
def test_salts_at_25_degrees(salt, percent):
    assert wa.salt_standard(salt, "25 degC") == pytest.approx(percent / 100, abs=0.001)


def test_the_high_end_is_reckoned_at_20_degrees():
    # Glucose at 20 degC, between 31.75 % at -5.3 and 49.37 % at 22.98: 47.513 %, nine tenths of it 0.8147 g to a gram of
    # water, a mole fraction of 0.07533: 0.92467 e^(-2.25 x 0.0056746) = 0.91294, and 0.01 of error.
    assert wa.estimate({"water": "100 g", "glucose": "200 g"}).high == pytest.approx(0.92294, abs=1e-4)


def test_other_sugars_leave_less_room_for_sucrose_in_the_water():
    # The sugar boilers' rule (from memory): 206.3 g at 25 degC by 1 - 0.088 x 0.6 is 195.4 g, 71.9 % solids with the 60 g of
    # glucose; ours lies within 2 points of it.
    kept = solutes_from({"water": "100 g", "sucrose": "300 g", "glucose": "60 g"}).solutes_g
    assert kept["glucose"] == 60 and 100 * (kept["sucrose"] + 60) / (kept["sucrose"] + 160) == pytest.approx(
        71.9, abs=2
    )
    assert kept["sucrose"] < 198


# Beuchat 1981: osmophilic yeasts grow from 0.60 on.
@pytest.mark.parametrize(("aw", "noted"), [(0.86, True), (0.60, True), (0.599, False), (0.95, False)])
def test_a_food_outside_the_table_may_still_mould(aw, noted):
    assert ("Moulds and yeasts may still grow" in keeping.food_code("B", aw, 5.5, 0.0).sentence) is noted


# --- what an estimate is told of a formula ------------------------------------------------------------------------------


def test_the_sugar_of_the_chocolate_by_hand():
    # ingredients.csv: 35.97 g of sucrose in 100 g of the dark couverture 64 %; honey's and the bag's do not count.
    dark = Formula({"dark couverture 64 %": "300 g", "granulated sugar": "50 g", "honey": "20 g"})
    assert chocolate_sugar(dark).m_as("g") == pytest.approx(3 * 35.97)
    share = ingredients()["sucrose"]["milk couverture 33 %"]
    both = Formula({"dark couverture 64 %": "100 g", "milk couverture 33 %": "200 g", "water": "50 g"})
    assert chocolate_sugar(both).m_as("g") == pytest.approx(35.97 + 200 * share)
    assert chocolate_sugar(Formula({"granulated sugar": "50 g", "water": "50 g"})).m_as("g") == 0
    assert chocolate_sugar(Formula({"dark couverture 64 %": "0 g", "water": "50 g"})).m_as("g") == 0


@pytest.mark.parametrize(
    ("parts", "polyol"),
    [
        ({"sorbitol powder": "20 g"}, "sorbitol"),
        ({"sorbitol syrup 70 %": "20 g"}, "sorbitol"),
        ({"sorbitol powder": "20 g", "sorbitol syrup 70 %": "20 g"}, "sorbitol"),
        ({"glycerol": "20 g"}, "glycerol"),
        ({"glycerol": "20 g", "sorbitol powder": "0 g"}, "glycerol"),
        ({"glycerol": "20 g", "sorbitol powder": "20 g"}, None),
        ({"honey": "20 g"}, None),
    ],
)
def test_the_polyol_of_a_formula_is_named_where_there_is_one(parts, polyol):
    assert polyol_of(Formula({"heavy cream": "200 g"} | parts)) == polyol


def test_another_share_of_water_by_hand():
    # Half sugar, half water, brought to 20 % of water: 80 g of sugar in every 100 g, whatever was weighed.
    drier = wa.at_moisture(Formula({"granulated sugar": "200 g", "water": "200 g"}), "20 %")
    assert drier["water"].m_as("g") == pytest.approx(20)
    # Sugar is 99.8 % sucrose in ingredients.csv.
    assert drier["sucrose"].m_as("g") == pytest.approx(80, rel=0.002)
    # Honey of ingredients.csv: 17.1 % of water, 40.94 % of fructose. At 20 %: 80 / 82.9 of it.
    honey = wa.at_moisture(Formula({"honey": "40 g"}), 0.2)
    assert honey["fructose"].m_as("g") == pytest.approx(40.94 * 80 / 82.9, abs=0.01)
    assert sum(mass.m_as("g") for mass in honey.values()) == pytest.approx(100, abs=0.01)
    for share in (0, 1, "120 %"):
        with pytest.raises(StudentError):
            wa.at_moisture(Formula({"honey": "40 g"}), share)
    with pytest.raises(StudentError, match="dry matter"):
        wa.at_moisture(Formula({"water": "40 g"}), 0.2)
