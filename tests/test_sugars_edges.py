"""Sugar sums at the edges of what they take, and what they say with their figures: boil, plan, solubility, swap."""

import numpy as np
import pytest

from pastrylab.ground.units import Q, StudentError
from pastrylab.trade import sugars

# --- what each sum takes: both sides of each edge -----------------------------------------------------------------------

# The limits are those each function states of itself: the range of its source where it has one, else the project's own.
RANGES = [
    (lambda x: sugars.water_boiling_point(altitude=x), ["-450 m", "5000 m"], ["-451 m", "5001 m"]),
    (lambda x: sugars.water_boiling_point(pressure=x), ["5 kPa", "200 kPa"], ["4.9 kPa", "201 kPa"]),
    (sugars.saturation_pressure, ["0 degC", "300 degC"], ["-0.1 degC", "300.1 degC"]),
    (lambda x: sugars.sucrose_water_activity(0.5, x), ["-15 degC", "160 degC"], ["-15.1 degC", "160.1 degC"]),
    (lambda x: sugars.sucrose_water_activity(x, "20 degC"), [0.0, 0.98], [-0.01, 0.981]),
    (lambda x: sugars.mixed_syrup_boiling_point(x, {"sucrose": "0.5 g"}), ["0.9 g"], ["0 g", "-1 g"]),
    (sugars.syrup_density, [0.0, 0.85], [-0.01, 0.851]),
    (sugars.sucrose_solubility, Q([0.0, 100.0], "degC"), ["-0.1 degC", "100.1 degC"]),
    (lambda x: sugars.sucrose_per_water("20 degC", {"glucose": x}), [0.0, 0.5, 2000], [-0.1, 2001]),
    (lambda x: sugars.inversion_rate(x, "100 degC"), [1.0, 8.0], [0.99, 8.01]),
    (lambda x: sugars.inversion_rate(3, x), ["0 degC", "125 degC"], ["-0.1 degC", "125.1 degC"]),
    (lambda x: sugars.inversion_rate(3, "100 degC", x), [0.0, 0.92], [-0.01, 0.921]),
    (lambda x: sugars.inverted_share("0.02 1/min", x), ["0.5 min"], ["0 min"]),
    (lambda x: sugars.time_to_invert(x, "0.02 1/min"), [0.0, 0.999], [-0.01, 1.0]),
    (sugars.invert_yield, ["0.5 g"], ["0 g"]),
    (lambda x: sugars.invert_class(0.7, 0.6, x), [0.5, 10], [0, 10.1]),
    (sugars.soda_for, ["0.5 g"], ["0 g"]),
    (lambda x: sugars.soda_for("1 g", x), [4.0, 7.0], [3.99, 7.01]),
    (lambda x: sugars.invert_plan("1 kg", x, share=0.9), [0.5, 0.85], [0.499, 0.851]),
    (lambda x: sugars.invert_plan(x, share=0.9), ["0.9 g"], ["0 g"]),
    (lambda x: sugars.invert_plan("1 kg", share=x), [0.05, 1.0], [0.0, 1.01]),
    (lambda x: sugars.invert_plan("1 kg", share=0.9, cooking_solids=x), [0.3, 0.85], [0.299, 0.851]),
    (
        lambda x: sugars.invert_plan("1 kg", ph=3, temperature=x, time="60 min"),
        ["40 degC", "120 degC"],
        ["39.9 degC", "120.1 degC"],
    ),
    (lambda x: sugars.inversion_from_rotation(x, 0), [0.5, 180], [0, 180.1]),
    (lambda x: sugars.rotation_after(x, 0.5), [0.5, 180], [0, 180.1]),
    (lambda x: sugars.inversion_from_rotation(180, x), [-60, 180], [-60.5, 180.1]),
    (lambda x: sugars.swap(x, "honey", "invert syrup"), ["0.5 g"], ["0 g"]),
    # a thousandth of rounding in somebody's own shares; half a percent of what is held is as good as none
    (lambda x: sugars.swap("9 g", {"water": x, "sucrose": 0.8}, "honey"), [0.2005], [0.202]),
    (lambda x: sugars.swap("9 g", {"water": x, "sucrose": 0.8}, "honey", hold="water"), [0.0052], [0.0, 0.0049]),
]


@pytest.mark.parametrize(("asked", "within", "beyond"), RANGES)
def test_each_edge_is_taken_and_what_lies_beyond_it_refused(asked, within, beyond):
    for x in within:
        assert asked(x) is not None
    for x in beyond:
        with pytest.raises(StudentError):
            asked(x)


@pytest.mark.parametrize(
    "part", [{"ph": 3.0}, {"temperature": "100 degC"}, {"time": "60 min"}, {"ph": 3.0, "time": "60 min"}]
)
def test_a_share_and_a_part_of_the_heating_are_too_much_and_the_part_alone_too_little(part):
    for more in ({"share": 0.9}, {}):
        with pytest.raises(StudentError, match="either ph, temperature and time, or share"):
            sugars.invert_plan("1 kg", **part, **more)


# --- the boil -----------------------------------------------------------------------------------------------------------


def test_a_mix_that_would_boil_past_250_is_refused_and_one_before_it_is_not():
    # Norrish for sucrose, K = 6.47 at 25 degC: ln a = ln x - 6.47 x 298.15/T (1 - x)^2. Steam tables: 3976 kPa at 250 degC,
    # 3652 at 245.
    # x = 0.24 (5.689 g of water to 1 mol, 342.3 g): at 245 degC 0.24 e^(-6.47 x 0.57541 x 0.5776) = 0.02795, times 3652 is
    # 102.1 kPa, so it boils some 0.4 degC below. x = 0.22 (5.081 g): at 250 degC 0.22 e^-2.2433 = 0.02334, times 3976 92.8.
    assert sugars.mixed_syrup_boiling_point(Q(5.689, "g"), {"sucrose": "342.3 g"}).m_as("degC") == pytest.approx(
        244.6, abs=0.3
    )
    with pytest.raises(StudentError, match="hardly any water"):
        sugars.mixed_syrup_boiling_point(Q(5.081, "g"), {"sucrose": "342.3 g"})


def test_water_alone_boils_as_a_syrup_of_no_sugar():
    # IAPWS-IF97: 99.974 degC at 101.325 kPa
    assert sugars.syrup_boiling_point(0.0).m_as("degC") == pytest.approx(99.974, abs=5e-4)
    assert sugars.mixed_syrup_boiling_point("100 g", {"sucrose": "0 g"}).m_as("degC") == pytest.approx(99.974, abs=5e-4)
    assert sugars.solids_from_boiling("99.9745 degC") == pytest.approx(0, abs=2e-3)
    hottest = sugars.syrup_boiling_point(0.98)
    assert sugars.solids_from_boiling(hottest) == pytest.approx(0.98, abs=1e-6)


@pytest.mark.parametrize(
    ("temperatures", "named"),
    [([90.0], "90.0"), ([90.0, 114.0], "90.0"), ([114.0, 99.9], "99.9"), ([114.0, 180.0], "180.0"), ([200.0], "200.0")],
)
def test_a_boil_no_syrup_has_is_named_among_others(temperatures, named):
    with pytest.raises(StudentError, match=rf"a boil at {named} °C.*100\.0 to 1\d\d\.\d °C: outside the model"):
        sugars.solids_from_boiling(Q(np.array(temperatures), "degC"))


@pytest.mark.parametrize(
    ("text", "said"), [("30 degC", "a boil at 30.0"), ("29.9 degC", "29.9"), ("200.1 degC", "200.1")]
)
def test_a_thermometer_out_of_range_is_told_from_a_boil_out_of_range(text, said):
    with pytest.raises(StudentError) as refused:
        sugars.solids_from_boiling(text)
    assert said in str(refused.value) and ("a boil at" in str(refused.value)) is (text == "30 degC")


# --- density, rate, plan ------------------------------------------------------------------------------------------------


def test_density_by_hand():
    # Hackbarth 2011 at a half: 1 + 0.19375678 + 0.02425720 + 0.04854197 - 0.11142783 + 0.17473351 - 0.17197937
    # + 0.10642428 - 0.04035477 + 0.00856990 - 0.00078082 = 1.23174085; times 0.998203: 1.2295274. CRC Handbook: 1.2295.
    assert sugars.syrup_density(0.5).m_as("g/mL") == pytest.approx(1.2295274, abs=2e-7)
    assert sugars.syrup_density(0.0).m_as("g/mL") == pytest.approx(0.998203, abs=1e-9)


def test_the_rate_by_hand():
    # Vukov 1965 (from memory) without sugar: 16.91 + log10 0.998203 - 5670/373.15 - 3 = -1.28574; 10^-1.28574 = 0.05179
    assert sugars.inversion_rate(3.0, "100 degC").m_as("1/min") == pytest.approx(0.05179, rel=2e-4)
    # a time for a half: ln 2 / 0.05
    assert sugars.time_to_invert(0.5, "0.05 1/min").m_as("min") == pytest.approx(13.863, abs=0.001)


def test_the_steps_of_a_plan_say_its_figures():
    # As worked by hand above, of 20 g: 17.86 g to a kilogram are 0.357 g.
    small = sugars.invert_plan("20 g", 0.75, share=1.0)
    assert small.steps[3] == "Boil off 0.357 g: the syrup weighs 20 g without the pan, at 75 % solids."
    assert small.steps[1].startswith("Hold it hot; ")
    # 1 kg at 60 %, all inverted, cooked at 85 %: 600/1.05263 = 570.0 g of sugar in 570 x 15/85 = 100.6 g of water, 30.0 g of
    # it taken up; 70.6 g are left where 400 are wanted: 329.4 g to add.
    thin = sugars.invert_plan("1 kg", 0.60, share=1.0, cooking_solids=0.85)
    assert thin.steps[3].startswith("Add 329 g of boiled water: the syrup weighs 1000 g") or "1 kg" in thin.steps[3]
    assert thin.steps[3].endswith("at 60 % solids.")
    heated = sugars.invert_plan("1 kg", ph=3.2, temperature="95 degC", time="45 min")
    assert heated.steps[1].startswith("Hold it at 95 °C for 45 min, lid on, pH 3.2; ")


def test_a_rotation_outside_says_what_could_be():
    with pytest.raises(StudentError, match=r"readings of 20 before and 25 now.*between -0\.315 and 1 times"):
        sugars.inversion_from_rotation(20, 25)
    # -0.315 x 180 = -56.7, less 0.02 x 180 = 3.6: -60.3 would do; the scale asked for ends at -60.
    assert sugars.inversion_from_rotation(180, -60) == 1


# --- Herzfeld's series --------------------------------------------------------------------------------------------------

HERZFELD = {0: 64.18, 5: 64.87, 15: 66.33, 20: 67.09, 25: 67.89, 30: 68.70, 35: 69.55, 40: 70.42, 45: 71.32}
HERZFELD |= {55: 73.20, 60: 74.18, 65: 75.18, 75: 77.27, 80: 78.36, 85: 79.46, 95: 81.77, 100: 82.97}  # CRC Handbook


@pytest.mark.parametrize("t", HERZFELD)
def test_the_band_is_that_of_three_published_series(t):
    charles = 64.397 + 0.07251 * t + 0.0020569 * t**2 - 9.035e-6 * t**3
    vavrinecz = 64.447 + 0.08222 * t + 1.6169e-3 * t**2 - 1.558e-6 * t**3 - 4.63e-8 * t**4
    three = charles, vavrinecz, HERZFELD[t]
    assert sugars.sucrose_solubility_band(Q(t, "degC")) == pytest.approx((min(three), max(three)), abs=1e-9)


# --- swaps --------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("share", "noted"),
    # Glucose 70 in the middle, sucrose 100: 1 - 0.3 x 0.16 = 0.952 is not spoken of, 1 - 0.3 x 0.174 = 0.948 is.
    [(0.16, False), (0.174, True)],
)
def test_a_twentieth_less_sweet_is_said(share, noted):
    notes = sugars.swap("0.5 g", {"sucrose": 1.0}, {"sucrose": 1 - share, "glucose": share}).notes
    assert any("about 0.9 times as sweet" in note for note in notes) is noted


@pytest.mark.parametrize(
    ("grams", "said"), [("0.9 g", ""), ("1.1 g", "It browns more (+1 g"), ("1.6 g", "It browns more (+2 g")]
)
def test_browning_is_said_from_a_gram_of_reducing_sugar_on(grams, said):
    for sugar in ("glucose", "fructose", "lactose", "maltose"):
        there = " ".join(sugars.swap(grams, {"sucrose": 1.0}, {sugar: 1.0}).notes)
        assert said in there and ("browns" in there) is bool(said)
        back = " ".join(sugars.swap(grams, {sugar: 1.0}, {"sucrose": 1.0}).notes)
        assert said.replace("more (+", "less (-") in back and ("browns" in back) is bool(said)


def test_a_swap_says_its_figures_and_no_negative_nought():
    # 80 g of sugar in 99.96 g of the other: 19.96 g of water in place of 20, to a tenth none less.
    one, other = {"water": 0.2, "sucrose": 0.8}, {"water": 0.1997, "sucrose": 0.8003}
    assert sugars.swap("100 g", one, other).sentence == (
        "100 g of your own sweetener become 100 g of your own sweetener, same solids: water +0.0 g, solids +0.0 g."
    )
    one, other = {"water": 0.8, "sucrose": 0.2}, {"water": 0.8003, "sucrose": 0.1997}
    assert sugars.swap("100 g", one, other, hold="water").sentence.endswith("same water: water +0.0 g, solids +0.0 g.")


def test_a_little_water_and_no_glucose_is_not_warned_of():
    assert not any(
        "crystallise" in note for note in sugars.swap("100 g", {"sucrose": 1.0}, {"water": 0.05, "sucrose": 0.95}).notes
    )


@pytest.mark.parametrize(
    ("asked", "rows"),
    # Each figure by hand above or in test_printed_tables: density, IAPWS-IF97 (100 kPa: 372.756 K), Charles 1960;
    # Vavrinecz 1962 at 100 degC: 64.447 + 8.222 + 16.169 - 1.558 - 4.63.
    [
        (lambda: sugars.syrup_density([0.0, 0.5]).m, (0.998203, 1.229527)),
        (lambda: sugars.water_boiling_point(pressure=Q([100.0, 101.325], "kPa")).m, (99.6059, 99.974)),
        (lambda: sugars.sucrose_solubility(Q([0.0, 50.0], "degC")), (64.397, 72.0354)),
        (lambda: sugars.sucrose_solubility_band(Q([0.0, 100.0], "degC"))[0], (64.18, 82.65)),
    ],
)
def test_a_row_of_values_is_answered_with_a_row(asked, rows):
    assert list(asked()) == pytest.approx(rows, abs=5e-4)
