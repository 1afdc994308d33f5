"""The halving time of one's own bowl: against scipy, against logs of known truth, and what it must refuse or leave open."""

import math

import numpy as np
import pandas as pd
import pytest
from scipy import optimize, stats

from pastrylab.ground.careful import CANNOT_TELL
from pastrylab.ground.units import Q, StudentError
from pastrylab.logs import halving
from pastrylab.logs.halving import MEASURED, own_halving
from pastrylab.logs.reader import read_log

pytestmark = pytest.mark.usefixtures("one_look")

NEWTON = "Newton's law of cooling: excess halved by hand"


def log_of(minutes, degrees):
    return pd.DataFrame({"minutes": np.asarray(minutes, float), "degC": np.asarray(degrees, float)})


def falling(half, room=20.0, start=45.0, last=60, every=5):
    minutes = np.arange(0, last + 1e-9, every)
    return minutes, room + (start - room) * 0.5 ** (minutes / half)


def error_of(degrees):
    return Q(degrees, "delta_degC")


def test_a_bowl_that_halves_by_hand_is_measured(outside):
    # 52 - 20 = 32 degrees above the room, then 16, 8, 4: half of it is gone every 24 minutes.
    log = log_of([0, 24, 48, 72, 36], [52, 36, 28, 24, 20 + 32 / 2**1.5]).sort_values("minutes")
    found = own_halving(log, "20 degC", error_of(0.01))
    outside(
        quantity="halving time, 32 to 4 degrees in three halvings",
        expected=24,
        got=found.halving.m_as("min"),
        tolerance=0.01,
        source=NEWTON,
    )
    assert found.verdict == MEASURED and (found.used, found.of, found.begins, found.ends) == (5, 5, 0, 72)


@pytest.mark.parametrize("shift", [0.4, 1.0])
def test_low_and_high_are_the_worst_of_the_thermometers_and_of_the_scatter(outside, shift):
    minutes, degrees = falling(30.0, last=70)
    degrees = degrees + 0.13 * np.sin(7.0 * np.arange(len(minutes)) ** 2)  # no rhythm in it, and no round figures
    found = own_halving(log_of(minutes, degrees), "20 degC", error_of(shift))
    spans = []
    for room in (20 - shift, 20, 20 + shift):
        curve = lambda t, start, rate, room=room: room + start * np.exp(-rate * t)  # noqa: E731
        (_, rate), within = optimize.curve_fit(curve, minutes, degrees, (25, 0.02))
        wide = stats.t.ppf(0.975, len(minutes) - 2) * math.sqrt(within[1, 1])
        spans.append((math.log(2) / (rate + wide), math.log(2) / rate, math.log(2) / (rate - wide)))
    wanted = min(low for low, _, _ in spans), spans[1][1], max(high for _, _, high in spans)
    for name, expected, got in zip(
        ("low", "halving", "high"), wanted, (found.low, found.halving, found.high), strict=True
    ):
        outside(
            quantity=f"halving time of a bowl, {name}, thermometers good to {shift} K",
            expected=expected,
            got=got.m_as("min"),
            tolerance=0.005 * expected,
            source="scipy: curve_fit at both ends of the room, Student's t",
        )


def test_student_s_t_is_that_of_the_tables_and_never_too_small():
    for free in (*range(1, 41), 55, 90, 300, 5000):
        right = stats.t.ppf(0.975, free)
        assert 0.9995 * right <= halving._student(free) <= 1.02 * right, free


def test_digits_hide_what_they_do_not_show():
    minutes, degrees = falling(30.0, last=60, every=10)
    fine, coarse = (own_halving(log_of(minutes, x), "20 degC", error_of(0.1)) for x in (degrees, np.round(degrees)))
    assert coarse.high - coarse.low > 3 * (fine.high - fine.low)
    fahrenheit = (np.round(1.8 * degrees + 32) - 32) / 1.8
    assert halving._step(fahrenheit) == pytest.approx(1 / 1.8) and halving._step(np.round(degrees)) == 1
    assert halving._step(np.round(degrees, 1)) == pytest.approx(0.1) and halving._step(degrees) == 0
    # A step of 1 hides up to half of it either way: its standard deviation is 1 / the square root of 12.
    assert halving._scatter(np.zeros(5), 3, 1.0) == pytest.approx(0.288675, rel=1e-5)


# --- logs of known truth ----------------------------------------------------------------------------------------------

KINDS = {
    # name: how many of 150 may be wrongly told, and how many of a sound bowl's may be left open
    "sound": (3, 5),
    "seed": (0, None),
    "heat": (2, None),
    "lid": (2, None),
}


def simulated(kind, chance, error):
    """(truth in minutes, room, log): a bowl read every few minutes with a probe that is off, scatters and rounds."""
    half, room, start = chance.uniform(10, 120), chance.uniform(15, 26), chance.uniform(40, 80)
    every = chance.choice([1, 2, 5])
    minutes = np.arange(0, max(chance.uniform(0.4, 2.5) * half, 6 * every) + 1e-9, every)
    degrees = room + (start - room) * 0.5 ** (minutes / half)
    late = minutes > 0.5 * minutes[-1]
    since, at = minutes[late] - minutes[late][0], degrees[late][0]
    if kind == "seed":
        degrees[late] -= chance.uniform(3, 8) * (1 - np.exp(-(since + every) / 3))
    if kind == "heat":
        plate = room + chance.uniform(8, 15)
        degrees[late] = plate + (at - plate) * 0.5 ** (since / half)
    if kind == "lid":
        degrees[late] = room + (at - room) * 0.5 ** (since / half / 1.8)
    step = chance.choice([0.1, 0.5, 1 / 1.8])
    seen = degrees + chance.uniform(-error, error) + chance.normal(0, chance.choice([0.05, 0.2]), len(minutes))
    return half, room, log_of(minutes, np.round(seen / step) * step)


@pytest.mark.parametrize("error", [0.3, 1.0])
@pytest.mark.parametrize("kind", KINDS)
def test_what_is_told_of_a_known_bowl_is_true_and_a_sound_one_is_not_left_open(kind, error, outside):
    chance, wrong, told = np.random.default_rng(20261127), 0, 0
    for _ in range(150):
        half, room, log = simulated(kind, chance, error)
        try:
            found = own_halving(log, Q(room, "degC"), error_of(error))
        except StudentError:
            continue
        if found.verdict == MEASURED:
            told += 1
            wrong += not found.low.m_as("min") <= half <= found.high.m_as("min")
    allowed, open_ = KINDS[kind]
    outside(
        quantity=f"{kind} bowls of 150 told wrongly, thermometers good to {error} K",
        expected=0,
        got=wrong,
        tolerance=allowed,
        source="simulated from Newton's law, truth known",
    )
    assert open_ is None or told >= 150 - open_


# --- what it cannot use, and what it leaves open ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("minutes", "degrees", "room", "said"),
    [
        ([0, 5, 10, 15], [45, 42, 39, 37], "20 degC", "4 readings"),
        ([0, 5, 10, 15, 20], [40, 40, 40, 40, 40], "20 degC", "falls by 0"),
        ([0, 5, 10, 15, 20], [30, 35, 38, 40, 42], "20 degC", "1 reading that falls"),
        ([0, 5, 10, 15, 20, 25], [45, 40, 35, 30, 25, 18], "20 degC", "in a room of 20"),
        ([0, 5, 10, 15, 20, 25], [45, 40, 36, 33, 30, 28], "40 degC", "in a room of 40"),
        ([0, 5, 10, 15, 20, 25], [22, 21.9, 21.8, 21.7, 21.6, 21.5], "20 degC", "0 readings"),
        ([0, 5, 10, 15, 20, 25], [45, 44.9, 44.8, 44.7, 44.6, 44.5], "20 degC", "by 0.5"),
        ([0, 5, 5, 15, 20, 25], [45, 40, 36, 33, 30, 28], "20 degC", "in order"),
        ([0], [45], "20 degC", "fewer than two"),
        ([0, 5, 10, 15, 20, 25], [45, 40, 36, 33, 30, 28], "20", "without a unit"),
        ([0, 5, 10, 15, 20, 25], [45, 40, 36, 33, 30, 28], "20 g", "20"),
        ([0, 5, 10, 15, 20, 25], [45, math.nan, math.nan, 33, math.nan, 28], "20 degC", "3 readings"),
    ],
)
def test_what_is_no_log_of_a_bowl_left_alone_is_refused(minutes, degrees, room, said):
    with pytest.raises(StudentError, match=said):
        own_halving(log_of(minutes, degrees), room)


@pytest.mark.parametrize("error", ["0 delta_degC", "-1 delta_degC", "6 delta_degC", "1 degC", "1", None])
def test_an_error_that_is_none_is_refused(error):
    with pytest.raises(StudentError):
        own_halving(log_of(*falling(30.0)), "20 degC", error)


def test_too_little_of_a_fall_is_left_open_and_the_reading_that_would_decide_is_named():
    # 25 degrees above the room, 20 minutes of 90: 2^(-20 / 90), 0.22 of a halving.
    found = own_halving(log_of(*falling(90.0, last=20, every=2)), "20 degC", error_of(0.1))
    assert found.verdict == CANNOT_TELL and found.halving is found.low is found.high is None
    # Three quarters of a halving below 25 degrees: 20 + 25 x 0.5946 = 34.9.
    assert "34.9 °C" in found.advice and "Cannot tell" in found.sentence
    assert own_halving(log_of(*falling(90.0, last=31, every=1)), "20 degC", error_of(0.1)).verdict == MEASURED
    assert own_halving(log_of(*falling(90.0, last=29, every=1)), "20 degC", error_of(0.1)).verdict == CANNOT_TELL


def test_a_poor_probe_leaves_open_what_a_good_one_decides():
    log = log_of(*falling(90.0, start=32, last=60))
    assert own_halving(log, "20 degC", error_of(0.3)).verdict == MEASURED
    poor = own_halving(log, "20 degC", error_of(2.0))
    assert poor.verdict == CANNOT_TELL and "too much open" in poor.sentence


def test_readings_close_to_the_room_are_left_out_and_a_night_in_the_room_is_no_fault():
    minutes, degrees = falling(20.0, last=600)
    found = own_halving(log_of(minutes, np.round(degrees, 1)), "20 degC", error_of(1.0))
    # 25 degrees above the room are 3 after 61 minutes: 20 x log2(25 / 3) = 61.2.
    assert found.verdict == MEASURED and (found.ends, found.used, found.of) == (60, 13, 121)
    assert found.low.m_as("min") <= 20 <= found.high.m_as("min")


def test_only_the_time_it_stood_alone_counts():
    minutes, degrees = falling(30.0, last=60, every=4)
    seeded = np.where(minutes > 40, degrees - 5, degrees)
    assert own_halving(log_of(minutes, seeded), "20 degC").verdict == CANNOT_TELL
    found = own_halving(log_of(minutes, seeded), "20 degC", until=40)
    assert found.verdict == MEASURED and found.ends == 40 and found.halving.m_as("min") == pytest.approx(30, rel=1e-6)
    with pytest.raises(StudentError, match="no time"):
        own_halving(log_of(minutes + 5, seeded), "20 degC", until=2)


def test_readings_that_wind_about_the_curve_are_left_open():
    minutes, degrees = falling(40.0, last=80, every=2)
    wound = degrees + 0.4 * np.sin(2 * np.pi * minutes / 40)
    found = own_halving(log_of(minutes, wound), "20 degC", error_of(0.5))
    assert found.verdict == CANNOT_TELL and "wind" in found.sentence
    jagged = degrees + 0.4 * (-1) ** np.arange(len(minutes))
    assert own_halving(log_of(minutes, jagged), "20 degC", error_of(0.5)).verdict == MEASURED, "chance, not a rhythm"


@pytest.mark.parametrize(("room", "told"), [(23.0, "colder"), (17.0, "warmer")])
def test_a_room_noted_wrongly_is_seen_where_the_log_shows_it(room, told):
    found = own_halving(log_of(*falling(15.0, start=60, last=30, every=1)), Q(room, "degC"), error_of(0.5))
    assert found.verdict == CANNOT_TELL and told in found.sentence


def test_the_same_log_in_fahrenheit_tells_the_same():
    celsius = "min, degC\n" + "".join(f"{m:g}, {x:.2f}\n" for m, x in zip(*falling(30.0), strict=True))
    fahrenheit = "min, degF\n" + "".join(f"{m:g}, {1.8 * x + 32:.2f}\n" for m, x in zip(*falling(30.0), strict=True))
    one, other = own_halving(read_log(celsius), "20 degC"), own_halving(read_log(fahrenheit), "68 degF")
    assert one.sentence == other.sentence and "30 minutes: 2" in one.sentence
