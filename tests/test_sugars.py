"""Sugars and syrups: bad input, inverse functions, monotony, plans and swaps that add up."""

import re

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pastrylab.ground.reference import TABLES, measured
from pastrylab.ground.roots import bisect
from pastrylab.ground.units import Q, StudentError
from pastrylab.trade import sugars
from pastrylab.trade.solutes import glucose_syrup_solids
from pastrylab.trade.sugars.sweeteners import SWEETNESS

pytestmark = pytest.mark.usefixtures("one_look")

# A busy machine is no failure.
patient = settings(deadline=None)
shares = st.floats(0, 0.84)
boiling_shares = st.floats(0.01, 0.975)
altitudes = st.floats(0, 4000)


# --- inverse functions --------------------------------------------------------------------------------


@patient
@given(boiling_shares, altitudes)
def test_boiling_point_and_back(share, metres):
    boil = sugars.syrup_boiling_point(share, altitude=Q(metres, "m"))
    assert sugars.solids_from_boiling(boil, altitude=Q(metres, "m")) == pytest.approx(share, abs=1e-6)


@patient
@given(st.floats(5, 200))
def test_water_pressure_and_back(kilopascal):
    boil = sugars.water_boiling_point(pressure=Q(kilopascal, "kPa"))
    assert sugars.saturation_pressure(boil).m == pytest.approx(kilopascal, rel=1e-9)


@patient
@given(st.floats(0.01, 0.999), st.floats(1e-5, 1))
def test_time_and_share_inverted(share, rate):
    time = sugars.time_to_invert(share, Q(rate, "1/min"))
    assert sugars.inverted_share(Q(rate, "1/min"), time) == pytest.approx(share, abs=1e-9)


@patient
@given(st.floats(1, 150), st.floats(0, 1))
def test_rotation_and_share_inverted(before, share):
    now = sugars.rotation_after(before, share)
    assert sugars.inversion_from_rotation(before, now) == pytest.approx(share, abs=1e-9)


# --- monotony -----------------------------------------------------------------------------------------


@patient
@given(shares, shares)
def test_heavier_and_denser_with_solids(one, other):
    low, high = sorted((one, other))
    if high - low > 1e-6:
        assert sugars.syrup_density(low).m < sugars.syrup_density(high).m


@patient
@given(boiling_shares, boiling_shares, altitudes)
def test_boils_hotter_with_solids_and_lower_with_altitude(one, other, metres):
    low, high = sorted((one, other))
    here = sugars.syrup_boiling_point(low).m
    assert here <= sugars.syrup_boiling_point(high).m + 1e-9
    assert sugars.syrup_boiling_point(low, altitude=Q(metres, "m")).m <= here + 1e-9
    assert here >= sugars.water_boiling_point().m - 1e-6


@patient
@given(st.floats(0, 100), st.floats(0, 100))
def test_hot_water_holds_more_sugar(one, other):
    cold, hot = sorted((one, other))
    assert sugars.sucrose_solubility(Q(cold, "degC")) <= sugars.sucrose_solubility(Q(hot, "degC")) + 1e-12
    low, high = sugars.sucrose_solubility_band(Q(cold, "degC"))
    assert low <= sugars.sucrose_solubility(Q(cold, "degC")) <= high <= low + 0.6


@patient
@given(st.floats(0, 200), st.floats(0, 200), st.floats(0, 40))
def test_other_sugars_leave_less_room_for_sucrose_and_more_for_solids(one, other, celsius):
    little, much = sorted((one, other))
    holds = [sugars.sucrose_per_water(Q(celsius, "degC"), {"glucose": q}) for q in (little, much)]
    assert holds[1] <= holds[0] + 1e-6
    assert holds[1] + much >= holds[0] + little - 1e-6


@patient
@given(st.floats(1, 7), st.floats(20, 120), st.floats(0, 0.9))
def test_inverts_faster_hot_acid_and_thin(ph, celsius, solids):
    rate = sugars.inversion_rate.floats(ph, celsius, solids)
    assert sugars.inversion_rate.floats(ph + 0.1, celsius, solids) == pytest.approx(rate / 10**0.1)
    assert sugars.inversion_rate.floats(ph, celsius + 1, solids) > rate
    assert sugars.inversion_rate.floats(ph, celsius, solids + 0.02) < rate


def test_a_thick_syrup_inverts_two_to_five_times_slower():
    thin = sugars.inversion_rate(3.0, "100 degC").m
    for solids in (0.65, 0.85):
        assert 2 < thin / sugars.inversion_rate(3.0, "100 degC", solids).m < 5


# --- bad input ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: sugars.sucrose_solubility("-5 degC"),
        lambda: sugars.sucrose_solubility("120 degC"),
        lambda: sugars.sucrose_solubility(20),
        lambda: sugars.sucrose_solubility("5 delta_degC"),
        lambda: sugars.syrup_density(0.95),
        lambda: sugars.syrup_density(-0.1),
        lambda: sugars.syrup_density(65),
        lambda: sugars.syrup_boiling_point(0.99),
        lambda: sugars.syrup_boiling_point(1.0),
        lambda: sugars.syrup_boiling_point(0.8, altitude="9000 m"),
        lambda: sugars.syrup_boiling_point(0.8, altitude="500 m", pressure="95 kPa"),
        lambda: sugars.syrup_boiling_point(0.8, pressure="0 kPa"),
        lambda: sugars.solids_from_boiling("90 degC"),
        lambda: sugars.solids_from_boiling("160 degC"),
        lambda: sugars.solids_from_boiling("114 degC", pressure="200 kPa"),
        lambda: sugars.mixed_syrup_boiling_point("0 g", {"sucrose": "80 g"}),
        lambda: sugars.mixed_syrup_boiling_point("0.1 g", {"fructose": "99 g"}),
        lambda: sugars.stage_temperatures("soggy ball"),
        lambda: sugars.inversion_rate(0.2, "100 degC"),
        lambda: sugars.inversion_rate(9, "100 degC"),
        lambda: sugars.inversion_rate(3, "140 degC"),
        lambda: sugars.inversion_rate(3, "100 degC", 1.0),
        lambda: sugars.inverted_share("0.02 1/min", "0 min"),
        lambda: sugars.inverted_share("0 1/min", "10 min"),
        lambda: sugars.inverted_share("-0.02 1/min", "10 min"),
        lambda: sugars.time_to_invert(1.0, "0.02 1/min"),
        lambda: sugars.inversion_from_rotation(0, 0),
        lambda: sugars.inversion_from_rotation(20, 25),
        lambda: sugars.inversion_from_rotation(20, -12),
        lambda: sugars.rotation_after(20, 1.2),
        lambda: sugars.invert_yield("0 g"),
        lambda: sugars.invert_yield("100 g", share=1.5),
        lambda: sugars.specific_rotation("salt"),
        lambda: sugars.graining_risk("0 g", {"sucrose": "200 g"}, "18 degC"),
        lambda: sugars.graining_risk("100 g", {"sucrose": "200 g"}, "80 degC"),
        lambda: sugars.sucrose_per_water("20 degC", {"gelatin": 20}),
        lambda: sugars.honey_granulation(0.3, 0.05),
        lambda: sugars.invert_plan("1 kg"),
        lambda: sugars.invert_plan("1 kg", ph=3.0, temperature="100 degC"),
        lambda: sugars.invert_plan("1 kg", ph=3.0, temperature="100 degC", time="60 min", share=0.9),
        lambda: sugars.invert_plan("1 kg", 0.99, share=0.9),
        lambda: sugars.swap("100 g", "honey", "invert syrup", hold="colour"),
        lambda: sugars.swap("100 g", "granulated sugar", "honey", hold="water"),
        lambda: sugars.swap("100 g", "honey", "granulated sugar", hold="water"),
        lambda: sugars.swap("100 g", "glycerol", "honey", hold="sweetness"),
        lambda: sugars.swap("100 g", {"water": 0.5, "sucrose": 0.7}, "honey"),
        lambda: measured("sugar"),
    ],
)
def test_outside_the_model_is_an_error_and_never_a_number(wrong):
    with pytest.raises(StudentError) as said:
        wrong()
    assert re.match(r"You gave .+\. Needed: .+\.", str(said.value))


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: sugars.solids_from_boiling("160 degC"),
        lambda: sugars.inversion_from_rotation(20, -12),
        lambda: sugars.mixed_syrup_boiling_point("0.1 g", {"fructose": "99 g"}),
    ],
)
def test_it_is_said_that_it_is_outside_the_model(wrong):
    with pytest.raises(StudentError, match="outside the model"):
        wrong()


# --- plans --------------------------------------------------------------------------------------------


@patient
@given(
    solids=st.floats(0.5, 0.85),
    cooking=st.floats(0.3, 0.85),
    share=st.floats(0.05, 1),
    syrup=st.floats(50, 5000),
)
def test_a_plan_adds_up(solids, cooking, share, syrup):
    plan = sugars.invert_plan(Q(syrup, "g"), solids, share=share, cooking_solids=cooking)
    assert sum(plan.composition.values()) == pytest.approx(1)
    assert 1 - plan.composition["water"] == pytest.approx(solids)
    into_the_pan = plan.sucrose + plan.water - plan.to_evaporate
    assert into_the_pan.m_as("g") == pytest.approx(syrup)
    assert sugars.invert_yield(plan.sucrose, share).m_as("g") == pytest.approx(syrup * solids)
    inverted = plan.composition["glucose"] + plan.composition["fructose"]
    assert inverted / (inverted + plan.composition["sucrose"] * 360.3118 / 342.2965) == pytest.approx(share)


def test_a_plan_follows_the_heating_and_names_the_dangers():
    plan = sugars.invert_plan("1 kg", 0.75, ph=3.0, temperature="100 degC", time="60 min")
    rate = sugars.inversion_rate(3.0, "100 degC", 0.70)
    assert plan.share == pytest.approx(sugars.inverted_share(rate, "60 min"))
    assert plan.low < plan.share < plan.high < 1
    assert plan.eu_class == "invert sugar syrup"
    text = str(plan)
    assert "burns" in text and "foams" in text and "strip" in text
    assert sugars.invert_syrup.HOT_CAUTION in plan.cautions and sugars.invert_syrup.FOAM_CAUTION in plan.cautions
    dry = sugars.invert_plan("1 kg", 0.60, share=1.0, cooking_solids=0.85)
    assert dry.to_evaporate.m < 0 and any(step.startswith("Add") for step in dry.steps)


def test_soda_rises_with_the_ph_aimed_at_and_stays_below_full_neutralising():
    four, five, seven = (sugars.soda_for("1 g", ph).m_as("g") for ph in (4, 5.5, 7))
    assert four < five < seven < 3 * 84.0066 / 192.1235


def test_invert_classes():
    assert sugars.invert_class(0.70, 0.50) == "invert sugar solution"
    assert sugars.invert_class(0.70, 0.02) == sugars.invert_class(0.60, 0.60) == "neither"
    assert sugars.invert_class(0.70, 0.60, 1.2) == "neither"


# --- cooking ------------------------------------------------------------------------------------------


# Common practice, no source: the bands that cooks state, in degC.
STAGES = {
    "thread": (110, 112),
    "soft ball": (112, 116),
    "firm ball": (118, 120),
    "hard ball": (121, 130),
    "soft crack": (132, 143),
    "hard crack": (146, 154),
    "light caramel": (165, 175),
}


@pytest.mark.parametrize("stage", STAGES)
def test_stages_at_sea_level(stage):
    assert tuple(end.m_as("degC") for end in sugars.stage_temperatures(stage)) == STAGES[stage]


def test_stages_move_with_altitude_by_the_same_solids():
    low, high = sugars.stage_temperatures("soft ball", altitude="1609 m")
    assert sugars.solids_from_boiling(low, altitude="1609 m") == pytest.approx(sugars.solids_from_boiling("112 degC"))
    assert 5 < 116 - high.m < 7
    assert sugars.stage_temperatures("light caramel", altitude="1609 m") == sugars.stage_temperatures("light caramel")


def test_stated_solids_agree_with_the_boil_within_three_points():
    """Common practice, no source: what cooks state for each stage lies near the solids the boil gives."""
    for stage in sugars.stages.STAGES:
        if stage.stated_solids is not None:
            ends = [sugars.solids_from_boiling(Q(t, "degC")) for t in (stage.low, stage.high)]
            assert ends[0] - 0.03 < stage.stated_solids < ends[1] + 0.03, stage


def test_invert_syrup_boils_hotter_than_sucrose_of_the_same_solids():
    invert = sugars.mixed_syrup_boiling_point("25 g", {"invert sugar": "75 g"}).m
    assert invert > sugars.syrup_boiling_point(0.75).m + 2


# --- sweetness and swaps ------------------------------------------------------------------------------


def test_sweetness_is_a_band():
    assert SWEETNESS["sucrose"] == (100, 100)
    for low, high in SWEETNESS.values():
        assert 0 < low <= high


@pytest.mark.parametrize("hold", ["solids", "water", "sweetness"])
@patient
@given(amount=st.floats(1, 2000))
def test_a_swap_holds_what_it_says_and_goes_back(hold, amount):
    there = sugars.swap(Q(amount, "g"), "honey", "invert syrup", hold=hold)
    back = sugars.swap(there.mass, "invert syrup", "honey", hold=hold)
    assert back.mass.m_as("g") == pytest.approx(amount)
    held = {
        "solids": there.solids.m,
        "water": there.water.m,
        "sweetness": sum(there.sweetness[2:]) - sum(there.sweetness[:2]),
    }
    assert held[hold] == pytest.approx(0, abs=1e-6 * amount)
    total = sum(there.changes.values())
    assert total == pytest.approx(there.water.m + there.solids.m)


def test_a_swap_by_your_own_shares_says_what_changes():
    swapped = sugars.swap("100 g", "granulated sugar", {"water": 0.25, "glucose": 0.375, "fructose": 0.375})
    assert swapped.mass.m_as("g") == pytest.approx(100 * 0.998 / 0.75, rel=1e-4)
    assert "browns more" in str(swapped) and "times as sweet" in str(swapped)
    assert sugars.swap("100 g", "glycerol", "honey").sweetness is None


def test_syrups_by_de():
    assert glucose_syrup_solids(42).molar_mass == pytest.approx(18016 / 42)
    with pytest.raises(StudentError):
        glucose_syrup_solids(10)


# --- arrays, tables, names ----------------------------------------------------------------------------


def test_arrays_pass_through():
    solids = np.array([0.2, 0.5, 0.8])
    for function in (sugars.syrup_density, sugars.syrup_boiling_point):
        got = function(solids).m
        assert got == pytest.approx([function(s).m for s in solids])
    celsius = np.array([10.0, 20.0, 40.0])
    assert sugars.sucrose_solubility(Q(celsius, "degC")) == pytest.approx(
        [sugars.sucrose_solubility(Q(c, "degC")) for c in celsius]
    )
    low, high = sugars.sucrose_solubility_band(Q(celsius, "degC"))
    assert low.shape == high.shape == (3,)
    boils = sugars.syrup_boiling_point(solids)
    assert sugars.solids_from_boiling(boils) == pytest.approx(solids)
    metres = Q(np.array([0.0, 1609.0]), "m")
    assert sugars.water_boiling_point(altitude=metres).m == pytest.approx([99.974, 94.62], abs=0.02)


def test_measured_tables_are_read_and_sourced():
    for name in TABLES:
        table = measured(name)
        assert len(table) >= 3 and all(len(source) > 20 for source in table["source"])


def test_bisect_finds_rising_and_falling_roots():
    assert bisect(lambda x: x**2 - 2, 0, 2) == pytest.approx(2**0.5)
    assert bisect(lambda x: 2 - x**2, 0, 2) == pytest.approx(2**0.5)
    wanted = np.array([1.0, 4.0, 9.0])
    assert bisect(lambda x: x**2 - wanted, 0.0, 5.0) == pytest.approx([1, 2, 3])


def test_single_results_are_plain_floats():
    """numpy's own numbers print as np.float64(...) on a page."""
    for value in (
        sugars.sucrose_solubility("20 degC"),
        sugars.sucrose_solubility_band("20 degC")[0],
        sugars.inverted_share("0.02 1/min", "10 min"),
        sugars.inversion_from_rotation(20, 8),
        sugars.solids_from_boiling("110 degC"),
        sugars.sucrose_water_activity(0.6, "20 degC"),
        sugars.sucrose_per_water("20 degC", {"glucose": 30}),
        sugars.syrup_density(0.5).m,
        sugars.syrup_boiling_point(0.5).m,
        sugars.water_boiling_point().m,
        sugars.inversion_rate(3, "100 degC").m,
        sugars.time_to_invert(0.5, "0.02 1/min").m,
        sugars.invert_yield("100 g").m,
    ):
        assert type(value) is float
