"""Reviewing a probe's log: verdicts and stages of the demo logs, of never-seen sheets, and the sums behind them."""

import dataclasses
import datetime

import numpy as np
import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import linregress

from pastrylab.datasets import folder
from pastrylab.probelog import (
    CANNOT_TELL,
    CONSISTENT,
    METHODS,
    NOT_CONSISTENT,
    faults,
    minutes_between,
    read_log,
    review_log,
)
from pastrylab.tempering import KINDS
from pastrylab.units import Q, StudentError

SEEDED, MACHINE, SOFTENED, REWARMED = METHODS
LOGS = {
    "seeded_in_bowl_sound": ("dark", SEEDED, CONSISTENT, "warming, melt-out, seeding, working"),
    "seeded_machine_sound": ("dark", MACHINE, CONSISTENT, "warming, melt-out, seeding, working"),
    "drops_softened_sound": ("white", SOFTENED, CONSISTENT, "warming, working"),
    "handwritten_fahrenheit": ("dark", SEEDED, CONSISTENT, "warming, melt-out, seeding, working"),
    "jumping_probe": ("dark", REWARMED, CONSISTENT, "melt-out, cooling, cool band, rewarming, working"),
    "never_melted_out": ("dark", SEEDED, NOT_CONSISTENT, "warming, seeding, working"),
    "overheated_while_holding": ("dark", MACHINE, NOT_CONSISTENT, "melt-out, seeding, working, overheated, working"),
    "cooled_too_far": ("milk", SEEDED, NOT_CONSISTENT, "warming, melt-out, seeding, cooling, cool band, too cold"),
    "stuck_probe": ("dark", SEEDED, CANNOT_TELL, "melt-out, seeding, working"),
}
SAID_BECAUSE = {
    "never_melted_out": "Never melted out",
    "overheated_while_holding": "crystals of form V melt",
    "cooled_too_far": "cooled too far and not rewarmed",
    "stuck_probe": "it was stuck",
    "jumping_probe": "The probe jumps 4 times",
}


def log_named(name):
    return read_log(folder() / "probe_logs" / f"{name}.csv")


def frame(minutes, degc, notes=None):
    columns = {"minutes": np.asarray(minutes, dtype=float), "degC": np.asarray(degc, dtype=float)}
    return pd.DataFrame(columns if notes is None else {**columns, "note": notes})


def curve(minutes, *points):
    """Readings on straight lines through (minute, degC) points."""
    return frame(minutes, np.interp(minutes, *zip(*points, strict=True)))


MINUTES = np.arange(0, 61, 1.0)
SOUND = ((0, 46), (5, 46), (17, 32), (25, 31.6), (60, 31.6))


@pytest.mark.parametrize("name", LOGS)
def test_every_log_gets_its_verdict_and_stages(name):
    kind, method, verdict, stages = LOGS[name]
    log = log_named(name)
    review = review_log(log, kind, method)
    assert review.verdict == verdict
    assert ", ".join(stage.name for stage in review.stages) == stages
    assert SAID_BECAUSE.get(name, "It ends in the working band") in " ".join(review.reasons)
    assert 15 <= len(log) <= 60
    starts, ends = [s.start for s in review.stages], [s.end for s in review.stages]
    assert starts[0] == 0 and ends[-1] == log["minutes"].iloc[-1] and starts[1:] == ends[:-1]


def test_the_folder_holds_these_logs_and_no_others():
    assert {path.stem for path in (folder() / "probe_logs").glob("*.csv")} == set(LOGS)


@pytest.mark.parametrize("name", LOGS)
def test_the_same_log_in_fahrenheit_is_judged_alike(name):
    kind, method, verdict, stages = LOGS[name]
    log = log_named(name)
    rows = [f"{m},{x * 1.8 + 32:.3f}" for m, x in zip(log["minutes"], log["degC"], strict=True)]
    twin = read_log("\n".join(["minutes,degF", *rows]) + "\n")
    told = review_log(log, kind, method).seeded_at
    review = review_log(twin, kind, method, seeded_at=told)
    assert review.verdict == verdict and ", ".join(s.name for s in review.stages) == stages


@pytest.mark.parametrize("name", LOGS)
def test_advice_ends_in_the_smear_and_no_word_says_tempered(name):
    kind, method, _, _ = LOGS[name]
    review = review_log(log_named(name), kind, method)
    words = " ".join([review.verdict, review.advice, *review.reasons, *(s.sentence for s in review.stages)])
    assert "tempered" not in words
    assert "in a few minutes at room temperature, even and glossy, and snaps" in review.advice
    assert review.advice.endswith("The smear decides, not the log.")


def test_seeding_time_from_argument_note_and_fall():
    log = log_named("seeded_in_bowl_sound")
    assert review_log(log, "dark", seeded_at="18 min").seeded_at == 18
    assert review_log(log, "dark", seeded_at=19).seeded_at == 19
    assert review_log(log, "dark", seeded_at=Q(0.3, "h")).seeded_at == pytest.approx(18)
    assert review_log(log, "dark").seeded_at == 17
    review = review_log(log.drop(columns="note"), "dark")
    assert abs(review.seeded_at - 17) <= 1 and any("an estimate" in reason for reason in review.reasons)
    assert review_log(log_named("jumping_probe"), "dark", REWARMED).seeded_at is None


def test_when_the_bowl_came_to_work():
    log = curve(MINUTES, *SOUND)
    assert review_log(log, "dark", seeded_at=6).at_work == 17
    never = curve(MINUTES, (0, 22), (20, 46), (60, 46))
    review = review_log(never, "dark", seeded_at=21)
    assert review.at_work is None and review.verdict == NOT_CONSISTENT
    assert "Seed the bowl" in review.advice


HELD = [
    # top of the excursion degC, minutes there, kind, verdict
    (32.3, 30, "dark", CONSISTENT),
    (32.7, 30, "dark", CONSISTENT),
    (33.5, 5, "dark", CONSISTENT),
    (33.5, 25, "dark", CANNOT_TELL),
    (34.3, 30, "dark", CANNOT_TELL),
    (36.0, 0.2, "dark", CANNOT_TELL),
    (35.0, 20, "dark", NOT_CONSISTENT),
    (38.0, 10, "dark", NOT_CONSISTENT),
    (31.3, 30, "milk", CONSISTENT),
    (32.5, 15, "milk", CANNOT_TELL),
    (35.0, 20, "milk", NOT_CONSISTENT),
    (30.3, 30, "white", CONSISTENT),
    (32.0, 15, "white", CANNOT_TELL),
    (35.0, 20, "white", NOT_CONSISTENT),
]


@pytest.mark.parametrize(("top", "minutes", "kind", "verdict"), HELD)
def test_holding_too_warm(top, minutes, kind, verdict):
    work = {"dark": 31.6, "milk": 30.5, "white": 28.5}[kind]
    times = np.arange(0, 100, 0.5)
    points = (
        (0, 46),
        (5, 46),
        (20, work),
        (30, work),
        (31.5, top),
        (31.5 + minutes, top),
        (33 + minutes, work),
        (99, work),
    )
    review = review_log(curve(times, *points), kind, MACHINE, seeded_at=8)
    assert review.verdict == verdict
    assert bool(review.excursions) == (review.minutes_in("above work") > 0)


ENDS = [(31.6, CONSISTENT), (30.6, CONSISTENT), (30.0, CANNOT_TELL), (28.5, NOT_CONSISTENT), (26, NOT_CONSISTENT)]


@pytest.mark.parametrize(("end", "verdict"), [*ENDS, (33.5, CANNOT_TELL), (36, NOT_CONSISTENT), (46, NOT_CONSISTENT)])
def test_where_it_ends(end, verdict):
    log = curve(MINUTES, (0, 46), (5, 46), (20, 31.6), (50, 31.6), (53, end), (60, end))
    assert review_log(log, "dark", seeded_at="6 min").verdict == verdict


PEAKS = [(46, CONSISTENT), (44.0, CONSISTENT), (42.5, CANNOT_TELL), (40, NOT_CONSISTENT), (36, NOT_CONSISTENT)]


@pytest.mark.parametrize(("peak", "verdict"), PEAKS)
def test_how_far_it_was_melted(peak, verdict):
    log = curve(MINUTES, (0, 22), (10, peak), (13, peak), (28, 31.6), (60, 31.6))
    assert review_log(log, "dark", seeded_at=14).verdict == verdict


def test_without_seed_a_bowl_needs_the_cool_band():
    dipped = curve(MINUTES, (0, 46), (5, 46), (20, 28.5), (25, 28.5), (32, 31.6), (60, 31.6))
    straight = curve(MINUTES, *SOUND)
    assert review_log(dipped, "dark", REWARMED).verdict == CONSISTENT
    assert review_log(straight, "dark", REWARMED).verdict == NOT_CONSISTENT
    assert review_log(straight, "dark", MACHINE).verdict == CONSISTENT
    never_rewarmed = curve(MINUTES, (0, 46), (5, 46), (20, 28.5), (60, 28.5))
    assert review_log(never_rewarmed, "dark", REWARMED).verdict == NOT_CONSISTENT


def test_softened_drops_must_not_melt():
    soft = curve(MINUTES, (0, 20), (20, 32.2), (60, 31.6))
    melted = curve(MINUTES, (0, 20), (20, 45), (35, 31.6), (60, 31.6))
    hard = curve(MINUTES, (0, 20), (20, 26), (60, 26))
    assert review_log(soft, "dark", SOFTENED).verdict == CONSISTENT
    assert review_log(melted, "dark", SOFTENED).verdict == NOT_CONSISTENT
    assert review_log(hard, "dark", SOFTENED).verdict == NOT_CONSISTENT
    assert review_log(soft, "dark", SEEDED).verdict == NOT_CONSISTENT


def test_a_second_melt_out_takes_the_seed_with_it():
    points = ((0, 46), (4, 46), (14, 31.6), (24, 31.6), (34, 46), (36, 46), (48, 31.6), (60, 31.6))
    log = curve(MINUTES, *points)
    assert review_log(log, "dark", seeded_at=5).verdict == NOT_CONSISTENT
    assert review_log(log, "dark").verdict == CANNOT_TELL
    assert review_log(log, "dark", seeded_at=37).verdict == CONSISTENT


def test_a_log_that_begins_late_shows_less():
    assert review_log(curve(MINUTES, (0, 32), (60, 32)), "dark", MACHINE).verdict == CONSISTENT
    assert review_log(curve(MINUTES, (0, 38), (10, 32), (60, 32)), "dark", MACHINE).verdict == CANNOT_TELL


def test_the_probe_error_widens_the_edges():
    log = curve(MINUTES, (0, 46), (5, 46), (17, 33.2), (60, 33.2))
    assert review_log(log, "dark", seeded_at=6, probe_error=1.0).verdict == CONSISTENT
    assert review_log(log, "dark", seeded_at=6, probe_error="2 delta_degF").verdict == CONSISTENT
    assert review_log(log, "dark", seeded_at=6, probe_error=0.1).verdict == CANNOT_TELL


def test_gaps_and_too_few_readings_leave_it_open():
    log = curve(MINUTES, *SOUND)
    holed = log[(log["minutes"] < 20) | (log["minutes"] > 50)].reset_index(drop=True)
    review = review_log(holed, "dark", seeded_at=6)
    assert review.verdict == CANNOT_TELL and len(review.gaps) == 1 and review.gaps[0][:2] == (19, 51)
    assert review_log(log.iloc[[0, 5, 17, 40]], "dark", seeded_at=6).verdict == CANNOT_TELL


def test_faults_of_the_probe_are_found():
    t = np.arange(0, 20, 0.5)
    rng = np.random.default_rng(11)
    calm = 32 + rng.normal(0, 0.1, t.size)
    assert not faults.jumps(t, calm) and not faults.stuck(t, calm) and not faults.gaps(t, calm)
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
    assert faults.sample_rate(t) == 2


def test_whole_degrees_on_a_steady_bowl_are_not_a_stuck_probe():
    t = np.arange(0, 100, 5.0)
    assert not faults.stuck(t, np.where(t < 80, 32.2, 33.3))


# --- never-seen sheets --------------------------------------------------------------------------------------------

ROUTES = {
    "sound": CONSISTENT,
    "unmelted": NOT_CONSISTENT,
    "overheated": NOT_CONSISTENT,
    "cold": NOT_CONSISTENT,
}


@st.composite
def handwritten(draw):
    """A sheet with clock times and whole or tenth degrees F, of a dark bowl seeded by hand, and its right verdict."""
    route = draw(st.sampled_from(sorted(ROUTES)))
    peak = draw(st.floats(34.5, 39.5)) if route == "unmelted" else draw(st.floats(45, 49.5))
    work, tau = draw(st.floats(31.2, 32.2)), draw(st.floats(3, 9))
    step, hold = draw(st.sampled_from([1, 2, 3])), draw(st.integers(20, 90))
    warm_up, melt = draw(st.integers(10, 25)), draw(st.integers(3, 8))
    minutes = np.arange(0, warm_up + melt + 6 * tau + hold, step)
    rest = np.clip(minutes - warm_up - melt, 0, None)
    degc = np.where(
        minutes <= warm_up + melt,
        np.interp(minutes, [0, warm_up], [22, peak]),
        work + (peak - work) * np.exp(-rest / tau),
    )
    late = minutes[-1] - hold
    if route == "overheated":
        degc = degc + np.interp(minutes, [late, late + 6, late + 12, late + 18], [0, 6, 6, 0])
    if route == "cold":
        degc = degc + np.interp(minutes, [late, late + 12], [0, work * -1 + draw(st.floats(22, 27.5))])
    noise = np.random.default_rng(draw(st.integers(0, 2**32 - 1))).normal(0, 0.08, minutes.size)
    digits, style = draw(st.sampled_from([0, 1])), draw(st.sampled_from(["%H:%M", "%I:%M %p", "%I:%M"]))
    zero = draw(st.sampled_from(["", "0"])) if style != "%H:%M" else ""
    start = datetime.datetime(2025, 3, 4, draw(st.integers(6, 23)), draw(st.integers(0, 59)))
    gap, suffix = draw(st.sampled_from([",", ";", "\t", "  "])), draw(st.sampled_from(["", " F", "°F"]))
    rows = []
    for minute, reading in zip(minutes, degc + noise, strict=True):
        clock = (start + datetime.timedelta(minutes=float(minute))).strftime(style).lstrip(zero)
        rows.append(f"{clock}{gap}{reading * 1.8 + 32:.{digits}f}{suffix}")
    return "\n".join(rows) + "\n", float(minutes[-1]), warm_up + melt, route


@settings(max_examples=300, deadline=None)
@given(handwritten(), st.booleans())
def test_never_seen_sheets_get_the_right_verdict(sheet, told):
    text, last, seeded_at, route = sheet
    log = read_log(text)
    assert log["minutes"].iloc[-1] == pytest.approx(last)
    review = review_log(log, "dark", seeded_at=seeded_at if told else None)
    assert review.verdict == ROUTES[route]


@settings(max_examples=400, deadline=None)
@given(
    st.lists(st.tuples(st.floats(0.01, 30), st.floats(-30, 150)), min_size=2, max_size=30),
    st.sampled_from(KINDS),
    st.sampled_from(METHODS),
    st.floats(0, 3),
    st.none() | st.floats(0, 1),
)
def test_any_log_gets_a_verdict(readings, kind, method, error, seeded_share):
    t = np.cumsum([step for step, _ in readings]) - readings[0][0]
    log = frame(t, [degc for _, degc in readings])
    review = review_log(log, kind, method, None if seeded_share is None else float(t[-1]) * seeded_share, error)
    assert review.verdict in (CONSISTENT, NOT_CONSISTENT, CANNOT_TELL) and review.reasons
    assert sum(s.end - s.start for s in review.stages) <= t[-1] + 1e-9
    assert all(0 <= review.minutes_in(band) <= t[-1] + 1e-9 for band, _ in review.minutes)


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


# --- what is refused ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "given_log",
    [
        None,
        "0,45\n",
        pd.DataFrame({"minutes": [0, 1]}),
        frame([0], [45]),
        frame([0, 1], [45, np.nan]),
        frame([0, np.inf], [45, 40]),
        frame([1, 0], [45, 40]),
        pd.DataFrame({"minutes": ["a", "b"], "degC": [45, 40]}),
    ],
)
def test_what_is_no_log_is_refused(given_log):
    with pytest.raises(StudentError):
        review_log(given_log, "dark")
    with pytest.raises(StudentError):
        minutes_between(given_log, "31 degC", "32 degC")


@pytest.mark.parametrize(
    "arguments",
    [
        {"kind": "ruby"},
        {"kind": None},
        {"method": "by hand"},
        {"method": None},
        {"seeded_at": "12"},
        {"seeded_at": "12 degC"},
        {"seeded_at": -1},
        {"seeded_at": 61},
        {"seeded_at": float("nan")},
        {"seeded_at": True},
        {"probe_error": -0.5},
        {"probe_error": 4},
        {"probe_error": "half"},
        {"probe_error": None},
    ],
)
def test_odd_arguments_are_refused(arguments):
    with pytest.raises(StudentError) as caught:
        review_log(curve(MINUTES, *SOUND), **{"kind": "dark", **arguments})
    assert "Needed:" in str(caught.value)


def test_limits_the_wrong_way_round_are_refused():
    with pytest.raises(StudentError, match="lower reading first"):
        minutes_between(curve(MINUTES, *SOUND), "32 degC", "31 degC")


def test_a_review_cannot_be_changed():
    review = review_log(curve(MINUTES, *SOUND), "dark")
    with pytest.raises(dataclasses.FrozenInstanceError):
        review.verdict = CONSISTENT
    with pytest.raises(dataclasses.FrozenInstanceError):
        review.stages[0].name = "working"
