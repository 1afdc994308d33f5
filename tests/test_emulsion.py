"""Ganache: properties that must hold for any formula, and what bad input is told."""

from dataclasses import replace

import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pastrylab.course.emulsion.figures import WaterAgainstFat
from pastrylab.ground import datasets
from pastrylab.ground.units import Q, StudentError
from pastrylab.logs import cooling, cream
from pastrylab.trade import emulsion, mending, mixing
from pastrylab.trade.chocolate import KINDS
from pastrylab.trade.formula import Formula
from pastrylab.trade.mending_activity import activity
from pastrylab.trade.phases import phases

GANACHE = {"dark couverture 64 %": 300.0, "heavy cream": 200.0, "invert syrup": 30.0, "butter": 30.0}
few = settings(deadline=None, max_examples=40)
grams = st.floats(1, 2000)
formulas = st.fixed_dictionaries(
    {"heavy cream": grams},
    optional=dict.fromkeys(
        [
            "dark couverture 70 %",
            "white couverture 32 %",
            "butter",
            "honey",
            "hazelnut praline",
            "rum",
            "granulated sugar",
        ],
        grams,
    ),
).map(Formula.of_grams)


def log(*points):
    return pd.DataFrame(points, columns=["minutes", "degC"])


# --- phases -----------------------------------------------------------------------------------------------


@few
@given(formulas)
def test_parts_add_up_and_shares_are_shares(formula):
    made = phases(formula)
    total = sum(made[name] for name in ("water", "fat", "sugars", "other_solids", "alcohol"))
    assert total == pytest.approx(1, abs=0.011)
    assert 0 <= made.fat_share_of_fluid <= 1 and 0 <= made.dispersed_share <= 1
    assert sum(made.volume_shares) == pytest.approx(1)
    assert made.level in ("room", "crowded", "packed") and made.warning
    assert 0 <= made.undissolved_g <= made.sugars_g


@few
@given(formulas, st.floats(0.1, 50))
def test_the_size_of_a_batch_changes_no_share(formula, factor):
    one, many = phases(formula), phases(formula.scaled(factor=factor))
    assert many.fat_share_of_fluid == pytest.approx(one.fat_share_of_fluid, rel=1e-9)
    assert many["water"] == pytest.approx(one["water"], rel=1e-9)


@few
@given(formulas, st.floats(5, 500))
def test_water_makes_room_and_butter_takes_it(formula, more):
    before = phases(formula)
    wetter = phases(Formula.of_grams({**formula.grams, "water": more}))
    fatter = phases(Formula.of_grams({**formula.grams, "cocoa butter": more}))
    assert wetter.fat_share_of_fluid < before.fat_share_of_fluid < fatter.fat_share_of_fluid
    assert wetter.dispersed_share < before.dispersed_share < fatter.dispersed_share


def test_answers_by_name_and_as_masses():
    made = phases(Formula.of_grams(GANACHE))
    assert made.water.m_as("g") == pytest.approx(made["water"] * 560)
    assert made["Other solids"] == made.other_solids.m_as("g") / made.total_g
    assert made["fat_share_of_fluid"] == made.fat_share_of_fluid
    with pytest.raises(StudentError, match="one of water, fat"):
        made["crumbs"]


def test_sugar_beyond_what_the_water_holds_is_a_particle():
    dry = phases(Formula({"heavy cream": "100 g", "granulated sugar": "400 g"}))
    assert dry.undissolved_g == pytest.approx(400 - 57.81 * 2.36, abs=12)
    assert dry.solids_ml > dry.undissolved_g / 1.6


@pytest.mark.parametrize("level", ["room", "crowded", "packed"])
def test_each_warning_is_reached_and_none_is_a_law(level):
    fat = {"room": 0, "crowded": 80, "packed": 400}[level]
    made = phases(Formula.of_grams({"dark chocolate 70-85 %": 300, "heavy cream": 250, "cocoa butter": fat + 1}))
    assert made.level == level
    assert ("law" in made.warning) == (level != "room")


@pytest.mark.parametrize(
    ("formula", "said"),
    [
        ({"heavy cream": "200 g"}, "a formula"),
        (None, "a formula"),
        (Formula({"cocoa butter": "50 g"}), "without water"),
    ],
)
def test_phases_refuse(formula, said):
    with pytest.raises(StudentError, match=said):
        phases(formula)


def test_an_empty_formula_is_refused_before_it_reaches_the_phases():
    with pytest.raises(StudentError, match="empty formula"):
        phases(Formula({}))


# --- ratios, targets, fillings --------------------------------------------------------------------------------


def test_every_kind_and_use_has_a_band_that_firms_up_in_order():
    for kind in KINDS:
        bands = [emulsion.ratio_band(kind, use) for use in emulsion.USES]
        assert all(low < high for low, high in bands)
        assert [sum(band) for band in bands] == sorted(sum(band) for band in bands)
    for use in emulsion.USES:
        assert set(emulsion.targets(use)) == {"water", "fat", "sugars"}
        assert all(0 < low < high < 1 for low, high in emulsion.targets(use).values())


@pytest.mark.parametrize(("chocolate", "word"), [(120, "softer"), (300, "inside"), (600, "firmer")])
def test_ratio_finding(chocolate, word):
    found = emulsion.ratio_finding(Formula.of_grams({"dark couverture 64 %": chocolate, "heavy cream": 200}), "fill")
    assert found.word == word and word in found.sentence and found.ratio == chocolate / 200


def test_kind_of_the_chocolate_that_weighs_most():
    mixed = Formula.of_grams({"dark couverture 64 %": 100, "milk couverture 38 %": 150, "whole milk": 500})
    assert emulsion.kind_in(mixed) == "milk"
    with pytest.raises(StudentError, match="without chocolate"):
        emulsion.kind_in(Formula({"whole milk": "100 g"}))


@pytest.mark.parametrize(("kind", "use"), [("ruby", "pour"), ("dark", "spread"), ("", "")])
def test_unknown_kinds_and_uses(kind, use):
    with pytest.raises(StudentError, match="one of"):
        emulsion.ratio_band(kind, use)


def test_the_invented_fillings_are_plausible():
    """Six kinds and more: each inside the teaching bands of its use, with room between its droplets."""
    rows = datasets.fillings()
    made, uses = emulsion.fillings(), dict(zip(rows["filling"], rows["use"], strict=True))
    assert {"dark", "milk and honey", "white and vanilla", "raspberry", "rum", "hazelnut"} <= set(made)
    assert set(rows["source"]) == {"invented, Larkmoor Teaching Kitchen"}
    for name, formula in made.items():
        held = phases(formula)
        for component, (low, high) in emulsion.targets(uses[name]).items():
            assert low <= held[component] <= high, (name, component, held[component])
        assert held.level == "room", name
        assert 0.8 <= activity(formula) <= 0.96, name


@pytest.mark.parametrize(("fat_ml", "level"), [(63.9, "room"), (64, "crowded"), (73.9, "crowded"), (74, "packed")])
def test_a_ganache_on_the_line_is_warned_of(fat_ml, level):
    """Spheres heaped at random fill 0.64 (from memory), lying closest 0.74: pi / sqrt(18)."""
    bare = phases(Formula.of_grams(GANACHE))
    assert replace(bare, fat_ml=fat_ml, watery_ml=100 - fat_ml, solids_ml=0.0).level == level


# --- boiling away -------------------------------------------------------------------------------------------


def test_boiled_cream_in_words():
    """By hand: fat of heavy cream 36.08 % (USDA SR28), 36.08 x 500 / 460 = 39.2 %; 40 g are 1.41 oz."""
    said = emulsion.boil_off("500 g", "460 g").sentence
    assert said == "Lost 40 g (1.41 oz) of water. Its fat rose from 36.1 to 39.2 %. Top up with 40 g of water."


@few
@given(st.floats(100, 5000), st.floats(0.001, 0.4))
def test_boiling_takes_water_alone(before, share):
    made = emulsion.boil_off(Q(before, "g"), Q(before * (1 - share), "g"))
    fat = made.fat_before * before
    assert made.fat_now * before * (1 - share) == pytest.approx(fat)
    assert made.fat_now >= made.fat_creamed >= made.fat_before - 1e-12
    topped = made.fat_now * (before - made.lost.m_as("g")) / before
    assert topped == pytest.approx(made.fat_before)


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [("500 g", "520 g", "lighter"), ("500 g", "150 g", "at most its water"), ("500", "400 g", "unit")],
)
def test_boil_off_refuses(before, after, said):
    with pytest.raises(StudentError, match=said):
        emulsion.boil_off(before, after)


# --- mixing -------------------------------------------------------------------------------------------------


@few
@given(st.floats(0.2, 5), st.floats(0.1, 5), st.floats(28, 34), st.floats(29, 34))
def test_tempered_route_there_and_back(chocolate, liquid, at, target):
    try:
        warm = mixing.liquid_temperature(Q(chocolate, "kg"), Q(at, "degC"), Q(liquid, "kg"), Q(target, "degC"))
    except StudentError:
        return
    back = mixing.mixed(Q(chocolate, "kg"), Q(at, "degC"), Q(liquid, "kg"), warm, state="tempered")
    assert back.temperature.m_as("degC") == pytest.approx(target, abs=0.25)


@few
@given(st.floats(0.2, 3), st.floats(0.2, 3), st.floats(0, 100))
def test_hotter_cream_leaves_the_bowl_no_colder(chocolate, liquid, hot):
    cooler, hotter = (
        mixing.mixed(Q(chocolate, "kg"), "20 degC", Q(liquid, "kg"), Q(t, "degC")) for t in (hot, hot + 5)
    )
    assert hotter.temperature.m_as("degC") >= cooler.temperature.m_as("degC") - 1e-9
    assert 0 <= cooler.melted_share <= hotter.melted_share <= 1


def test_one_temperature_stays_one_temperature():
    end = mixing.mixed("300 g", "31 degC", "200 g", "31 degC", state="tempered")
    assert end.temperature.m_as("degC") == pytest.approx(31)


def test_heat_capacity_of_a_formula_lies_between_those_of_its_parts():
    syrupy = mixing.specific_heat(Formula({"heavy cream": "100 g", "honey": "100 g"}), "40 degC")
    ends = [mixing.specific_heat(name, "40 degC") for name in ("honey", "heavy cream")]
    assert ends[0] < syrupy < ends[1]


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("600 g", "20 degC", "200 g", "40 degC", "heavy cream", "drops"), "boiling"),
        (("600 g", "34 degC", "10 g", "30 degC"), "frozen"),
        (("600 g", "60 degC", "100 g", "31 degC"), "no longer in temper"),
        (("600 g", "20 degC", "400 g", "32 degC", "heavy cream", "drops"), "34 °C or warmer"),
        (("600 g", "32 degC", "400 g", "38 degC", "heavy cream", "drops"), "30 °C or colder"),
        (("600 g", "32 degC", "400 g", "31 degC", "heavy cream", "solid"), "tempered or drops"),
        (("600 g", "32 delta_degC", "400 g", "31 degC"), "a reading"),
        (("600 g", "32 degC", "400 g", "31 degC", "gravel"), "not among the ingredients"),
    ],
)
def test_liquid_temperature_refuses(arguments, said):
    with pytest.raises(StudentError, match=said):
        mixing.liquid_temperature(*arguments)


# --- mending --------------------------------------------------------------------------------------------------


@few
@given(
    st.floats(200, 700),
    st.floats(100, 500),
    st.floats(0, 150),
    st.sampled_from(emulsion.USES),
    st.booleans(),
)
def test_a_mended_formula_lies_in_its_bands_or_says_which_clash(chocolate, cream, butter, use, keep):
    before = Formula.of_grams({"dark couverture 64 %": chocolate, "heavy cream": cream, "butter": butter})
    bands = emulsion.targets(use)
    after = mending.mend(before, bands, ["heavy cream", "invert syrup", "butter"], keep_total=keep)
    if not after:
        assert after.clashes and after.formula is None and after.clashes[0] in after.sentence
        return
    held = phases(after.formula)
    for component, (low, high) in bands.items():
        assert low - 1e-6 <= held[component] <= high + 1e-6
    assert after.formula.grams["dark couverture 64 %"] == pytest.approx(chocolate)
    if keep:
        assert after.formula.total_grams == pytest.approx(before.total_grams, rel=1e-6)


# --- cooling --------------------------------------------------------------------------------------------------


@few
@given(st.floats(5, 200))
def test_a_pan_that_halves_faster_never_does_worse(halving):
    order = {cream.INSIDE: 0, cream.OPEN: 1, cream.MISSED: 2}
    faster, slower = (
        cream.check_cooling(log(*((t, 2 + 83 * 2 ** (-t / h)) for t in range(0, 600, 10))))
        for h in (halving, halving * 1.1)
    )
    assert order[faster.verdict] <= order[slower.verdict]
    assert faster.caution and "local food code" in faster.caution


@pytest.mark.parametrize(
    ("points", "verdict", "said"),
    [
        ([(0, 85), (20, 57.6), (60, 30)], cream.OPEN, "1 h 20 min left"),
        ([(0, 85), (20, 56), (200, 30)], cream.MISSED, "first limit"),
        ([(0, 58), (10, 56), (60, 20), (400, 6)], cream.MISSED, "second limit"),
        ([(0, 48), (30, 20), (60, 4)], cream.OPEN, "still hot"),
        ([(0, 58), (119, 21), (300, 4)], cream.OPEN, "Only more readings"),
        ([(0, 90), (300, 80)], cream.OPEN, "2 h 00 min left"),
        ([(0, 90), (20, 55), (50, 20), (60, 30), (70, 20), (90, 4)], cream.INSIDE, "dated"),
    ],
)
def test_cooling_logs(points, verdict, said):
    found = cream.check_cooling(log(*points))
    assert found.verdict == verdict and said in found.advice
    assert "safe" not in (found.sentence + found.advice + found.caution).lower()


@pytest.mark.parametrize(
    "made", [log((0, 57)), log((0, 57), (0, 20)), log((10, 57), (5, 20)), pd.DataFrame({"a": [1]}), None]
)
def test_logs_without_order_are_refused(made):
    with pytest.raises(StudentError, match="log|readings"):
        cream.check_cooling(made)


@few
@given(st.floats(40, 90), st.floats(6, 39), st.floats(-5, 5), st.floats(1, 200))
def test_the_excess_halves_with_each_halving_time_that_passes(start, end, around, halving):
    took = cooling.time_to_cool(Q(start, "degC"), Q(end, "degC"), Q(around, "degC"), Q(halving, "min"))
    assert (start - around) * 0.5 ** (took.m_as("min") / halving) == pytest.approx(end - around)
    half = cooling.time_to_cool(Q(around + 40, "degC"), Q(around + 20, "degC"), Q(around, "degC"), Q(halving, "min"))
    assert half.m_as("min") == pytest.approx(halving)


@pytest.mark.parametrize(
    ("start", "end", "around"), [("20 degC", "30 degC", "4 degC"), ("57 degC", "21 degC", "21 degC")]
)
def test_time_to_cool_refuses(start, end, around):
    with pytest.raises(StudentError, match="between the start"):
        cooling.time_to_cool(start, end, around, "20 min")


# --- the card, the ratio and the picture agree -------------------------------------------------------------


@pytest.mark.parametrize(
    ("kind", "chocolate", "use", "out", "fits"),
    [
        # 200 g cream, 35 g invert syrup, 25 g butter beside the chocolate; bands of ganache_targets.csv, by hand
        ("dark couverture 64 %", 330, "fill", (), "fill"),
        ("dark couverture 64 %", 320, "pour", (), "fill"),
        ("dark couverture 64 %", 450, "pipe", (), "roll"),
        ("dark chocolate 70-85 %", 330, "pipe", ("sugars",), "pour"),
        ("white couverture 32 %", 520, "pipe", (), "pipe"),
        ("white couverture 32 %", 700, "roll", ("water", "sugars"), ""),
    ],
)
def test_where_a_ganache_lies_and_what_it_fits_best(kind, chocolate, use, out, fits):
    formula = Formula.of_grams({kind: chocolate, "heavy cream": 200, "invert syrup": 35, "butter": 25})
    found = emulsion.card_finding(formula, use)
    assert set(found.out) == set(out) and found.fits == fits
    assert all(f"{name} " in found.sentence for name in out) and (fits in found.sentence or not fits)


def test_the_picture_shows_what_puts_a_ganache_outside_its_card():
    """Very dark: water and fat inside, sugars below 22 %. The ring of the sugars stands under its box."""
    picture = WaterAgainstFat()
    said = picture.update(
        chocolate=600, cream=200, butter=5, skim_milk=85, couverture="dark chocolate 70-85 %", use="pipe"
    )
    box, ring = picture._sweet_card, picture._sweet.get_ydata()[0]
    assert "Outside the card to pipe: sugars" in said and box.get_y() == 22 and ring < box.get_y()
    x, y = picture._point.get_xdata()[0], picture._point.get_ydata()[0]
    assert 16 <= x <= 23 and 28 <= y <= 40


@pytest.mark.parametrize(
    ("chocolate", "use", "leads"),
    [(330, "fill", False), (320, "pour", False), (500, "roll", False), (245, "fill", True)],
)
def test_the_bench_says_which_leads_where_card_and_ratio_disagree(chocolate, use, leads):
    said = WaterAgainstFat().update(chocolate=chocolate, cream=200, butter=25, syrup=35, use=use)
    assert ("the card leads" in said) == leads


def test_a_bench_without_liquid_says_so_in_a_cooks_words():
    with pytest.raises(StudentError, match="some|cream, milk, fruit") as caught:
        WaterAgainstFat().update(chocolate=300, cream=0, butter=20, syrup=30)
    assert "(" not in str(caught.value)


# --- one line each: figures that a wrong constant or sign would move ---------------------------------------


def test_outside_its_card_in_numbers():
    """ganache_targets.csv, to fill: water 17 to 25, fat 28 to 40, sugars 22 to 38 %; the table's sugar is 99.8 % sucrose."""
    found = emulsion.card_finding(Formula({"water": "90 g", "granulated sugar": "10 g"}), "fill")
    assert found.sentence == (
        "Outside the card to fill: water 90.0 % against 17 to 25 %, fat 0.0 % against 28 to 40 %, "
        "sugars 10.0 % against 22 to 38 %."
    )


@pytest.mark.parametrize(("ratio", "off"), [(1.45, 0), (1.7, 1), (1.2, 1), (1.6, 0.6), (2.2, 3)])
def test_how_far_a_ratio_lies_from_its_habit_by_hand(ratio, off):
    # 1.2 to 1.7: the middle is 1.45, half the width 0.25.
    found = emulsion.RatioFinding(ratio, 1.2, 1.7, "", "")
    assert emulsion._off(found) == pytest.approx(off)


def test_what_boiled_off_is_said_to_three_digits():
    # Heavy cream holds 57.81 % of water: 289 g of 500.
    assert emulsion.boil_off("500 g", "376.54 g").sentence.endswith("Top up with 123 g of water.")
    assert emulsion.boil_off("500 g", "499.5 g").lost.m_as("g") == pytest.approx(0.5)
    with pytest.raises(StudentError, match="350 g lost from 500 g of heavy cream.*at most its water, 289 g"):
        emulsion.boil_off("500 g", "150 g")
