"""The parts of a log's review: faults of a probe, stages, and the sums behind them."""

import numpy as np
import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import linregress

from pastrylab.ground.units import Q, StudentError
from pastrylab.logs import CANNOT_TELL, CONSISTENT, faults, minutes_between, review_log
from pastrylab.logs.bowl import seedings, without_seed
from pastrylab.logs.stages import Edges, stages

MINUTES = np.arange(0, 61, 1.0)


def frame(minutes, degc):
    return pd.DataFrame({"minutes": np.asarray(minutes, dtype=float), "degC": np.asarray(degc, dtype=float)})


def curve(minutes, *points):
    """Readings on straight lines through (minute, degC) points."""
    return frame(minutes, np.interp(minutes, *zip(*points, strict=True)))


def test_faults_of_the_probe_are_found():
    t = np.arange(0, 20, 0.5)
    rng = np.random.default_rng(11)
    calm = 32 + rng.normal(0, 0.1, t.size)
    assert not faults.jumps(t, calm) and not faults.stuck(t, calm)
    leaping = calm.copy()
    leaping[[7, 20, 21]] += (9, -6, -6)
    assert [jump.at for jump in faults.jumps(t, leaping)] == [3.5, 10.0, 10.5]
    assert faults.jumps(t, leaping)[0].by == pytest.approx(9, abs=0.4)
    frozen = calm.copy()
    frozen[10:25] = frozen[10]
    frozen[25:] += 3
    (run,) = faults.stuck(t, frozen)
    assert (run.start, run.end, run.sure) == (5.0, 12.0, True)
    seeded = np.interp(t, [0, 5, 8, 20], [45, 45, 33, 32])
    assert not faults.jumps(t, seeded)


def test_whole_degrees_on_a_steady_bowl_are_not_a_stuck_probe():
    t = np.arange(0, 100, 5.0)
    assert not faults.stuck(t, np.where(t < 80, 32.2, 33.3))


# --- the sums -----------------------------------------------------------------------------------------------------


@settings(max_examples=100, deadline=None)
@given(
    st.lists(st.tuples(st.floats(0.5, 5), st.floats(20, 50)), min_size=2, max_size=25),
    st.floats(20, 50),
    st.floats(0.5, 20),
)
def test_minutes_between_against_a_fine_grid(readings, low, width):
    t = np.cumsum([step for step, _ in readings])
    log = frame(t, [degc for _, degc in readings])
    fine = np.linspace(t[0], t[-1], 200_001)
    at = np.interp(fine, t, log["degC"])
    share = np.mean((at >= low) & (at <= low + width))
    got = minutes_between.floats(log, low, low + width)
    assert got == pytest.approx(share * (t[-1] - t[0]), abs=2e-3 + 5e-5 * len(t) * (t[-1] - t[0]))


def test_minutes_between_takes_units_and_flat_stretches():
    log = frame([0, 10, 20, 30], [30, 32, 32, 34])
    assert minutes_between(log, "31 degC", "33 degC").m_as("min") == pytest.approx(20)
    assert minutes_between(log, "87.8 degF", Q(33, "degC")).m_as("min") == pytest.approx(20)
    assert minutes_between.floats(log, 32, 32) == pytest.approx(10)
    assert minutes_between.floats(log, 40, 50) == 0


@settings(max_examples=100, deadline=None)
@given(st.lists(st.tuples(st.floats(0.1, 5), st.floats(20, 50)), min_size=3, max_size=40))
def test_rates_against_linear_regression(readings):
    t = np.cumsum([step for step, _ in readings])
    degc = np.array([degc for _, degc in readings])
    assert faults.rate(t, degc) == pytest.approx(linregress(t, degc).slope, abs=1e-9)


def test_a_stage_on_a_straight_line_has_its_slope():
    log = curve(MINUTES, (0, 20), (20, 47), (25, 47), (40, 32), (60, 32))
    stages = {stage.name: stage for stage in review_log(log, "dark", seeded_at=60).stages}
    assert stages["warming"].rate == pytest.approx(27 / 20)
    inside = (log["minutes"] >= stages["cooling"].start) & (log["minutes"] <= stages["cooling"].end)
    slope, _ = np.polyfit(log["minutes"][inside], log["degC"][inside], 1)
    assert stages["cooling"].rate == pytest.approx(slope) == pytest.approx(-1.0)
    assert faults.rate([3.0], [40.0]) == 0


def test_minutes_in_a_band_are_those_between_its_widened_edges():
    log = curve(MINUTES, (0, 46), (5, 46), (21, 30), (30, 30), (32, 32), (60, 32))
    review = review_log(log, "dark", seeded_at=6)
    assert review.minutes_in("work") == pytest.approx(minutes_between.floats(log, 30.5, 32.9))
    with pytest.raises(StudentError, match="work"):
        review.minutes_in("warm")


# --- edges of the parts -------------------------------------------------------------------------------------------


BANDS = Edges(cold=27.5, cool=29.5, thick=30.5, warm=32.9, lost=34.5, melted=43.9)


def named(t, temps, arrived=0):
    return [
        (stage.name, stage.start, stage.end)
        for stage in stages(np.array(t, float), np.array(temps, float), BANDS, 0, arrived, None)
    ]


def test_a_stretch_of_a_minute_is_a_stage_and_a_shorter_one_is_not():
    assert named([0, 5, 10, 11, 20], [32, 32, 33.5, 32, 32])[1] == ("above work", 10, 11)
    assert named([0, 5, 10, 10.9, 20], [32, 32, 33.5, 32, 32]) == [("working", 0, 20)]
    assert named([0, 5, 10, 10.9, 20], [32, 32, 36.0, 32, 32])[1] == ("overheated", 10, 10.9)


@pytest.mark.parametrize(
    ("temps", "names"),
    [
        ([32, 33.5, 35, 33.5, 32], ["working", "overheated", "working"]),
        ([32, 33.5, 33.6, 33.5, 32], ["working", "above work", "working"]),
        ([32, 35, 35, 33.5, 32], ["working", "overheated", "working"]),
        ([32, 28, 28, 28, 32], ["working", "cool band", "rewarming", "working"]),
        ([32, 28, 28, 30, 32], ["working", "cool band", "rewarming", "working"]),
        ([32, 30, 30, 28, 28], ["working", "cooling", "cool band"]),
        ([32, 26, 26, 26, 26], ["working", "too cold"]),
        ([32, 30, 30, 32, 32], ["working", "cooling", "working"]),
        ([28, 30, 30, 28, 28], ["cool band", "cooling", "cool band"]),
    ],
)
def test_stages_by_their_neighbours(temps, names):
    assert [name for name, _, _ in named([0, 10, 20, 30, 40, 50], [*temps, temps[-1]])] == names


def test_falling_on_through_the_working_band_is_cooling_and_resting_there_is_work():
    through = named(range(8), [46, 44, 36, 32.5, 31.5, 30.2, 28.5, 28.4], arrived=3)
    assert [name for name, _, _ in through] == ["melt-out", "cooling", "cool band"]
    rests = named([0, 1, 5, 10, 40, 45, 50, 60], [46, 44, 36, 31.8, 31.5, 30.2, 28.5, 28.4], arrived=3)
    assert "working" in [name for name, _, _ in rests]


NOTES = {
    "seed in": True,
    "Seed in, 25 % of the melt": True,
    "97 seed": True,
    "seeded": True,
    "re-seeded; stirred": True,
    "smear wet, seeded again": True,
    "no seed left, went on without": False,
    "not seeded": False,
    "unseeded": False,
    "didn't seed": False,
    "seed all melted": False,
    "weigh the seed": False,
    "seed ready": False,
    "seeds?": False,
    "lumps of seed fished out": False,
    "smear glossy": False,
    "": False,
}


@pytest.mark.parametrize("note", NOTES)
def test_which_notes_tell_of_a_seeding(note):
    assert bool(seedings(np.array([3.0]), [note])) is NOTES[note]


def test_which_notes_say_that_there_was_none():
    assert without_seed(["smear", "no seed left, went on without"]) == "no seed left, went on without"
    assert without_seed(["forgot to seed!"]) and without_seed(["unseeded"])
    assert without_seed(["seed in", "no lumps, seed melted", "did not stir"]) is None


def test_a_pause_of_twenty_minutes_after_the_melt_out_is_let_pass_and_a_longer_one_is_not():
    points = ((0, 46), (5, 46), (17, 32), (25, 31.6), (90, 31.6))
    for last, verdict in ((60, CONSISTENT), (61, CANNOT_TELL)):
        minutes = np.array([*range(0, 41), *range(last, 91)], float)
        assert review_log(curve(minutes, *points), "dark", seeded_at=6).verdict == verdict
    soft = curve(np.array([0, *range(25, 60)], float), (0, 20), (25, 31.6), (60, 31.6))
    assert review_log(soft, "dark", "drops softened").verdict == CANNOT_TELL
    early = np.array([0, *range(40, 120)], float)
    assert (
        review_log(curve(early, (0, 22), (40, 46), (45, 46), (57, 32), (120, 31.6)), "dark", seeded_at=46).verdict
        == CONSISTENT
    )


HELD = [(0, 31.6), (10, 31.6), (20, 31.5), (30, 31.6)]


@pytest.mark.parametrize(
    ("after", "out"),
    [
        ([(31, 48), (32, 47)], True),  # 16 degC in a minute: water
        ([(33, 40), (36, 46)], False),  # 3 degC/min: a flame
        ([(31, 37), (32, 37)], False),  # 5 degC: too little to tell
        ([(31, 26), (32, 23.5), (33, 22.5), (35, 22), (40, 22)], True),  # a bare probe in a room
        ([(45, 28.5), (60, 26.4), (75, 25), (90, 24)], False),  # a bowl in a room
        ([(31, 26), (32, 20), (33, 14), (34, 8.5), (35, 4)], False),  # on the way to ice, at rest nowhere
        ([(31, 29.5), (32, 29), (33, 28.8), (40, 28.8)], False),  # a warm corner of the bowl
        ([(31, 26), (32, 23), (33, 31.4)], False),  # out and back again
    ],
)
def test_a_probe_taken_out_for_good_is_known_by_how_it_goes(after, out):
    minutes, degc = np.array([*HELD, *after], dtype=float).T
    assert faults.taken_out(minutes, degc, 30.5, 32.9) == (len(HELD) if out else len(minutes))


def test_only_a_bowl_that_was_held_can_be_left_by_its_probe():
    passing = np.array([(0, 40), (2, 32), (4, 31), (5, 26), (6, 23.5), (7, 22.5), (12, 22), (20, 22)], dtype=float).T
    assert faults.taken_out(*passing, 30.5, 32.9) == 8


@pytest.mark.parametrize(
    ("degc", "half_step"),
    [
        ([45, 32, 31], 0.5),
        ([(f - 32) / 1.8 for f in (113, 90, 89)], 0.5 / 1.8),
        ([45.5, 32, 31.5], 0.25),
        ([45.1, 32.0, 31.6], 0.0),
        ([(f - 32) / 1.8 for f in (113.2, 90, 89)], 0.0),
    ],
)
def test_what_a_display_rounds_away(degc, half_step):
    assert faults.rounding(degc) == pytest.approx(half_step)
