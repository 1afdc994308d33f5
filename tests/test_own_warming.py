"""The halving time of a cold tray that warms: Newton by hand, logs of known truth, and the mirror of a bowl that cools."""

import math
import random

import numpy as np
import pandas as pd
import pytest

from pastrylab import storage, storelog
from pastrylab.ground.careful import CANNOT_TELL
from pastrylab.ground.units import Q, StudentError
from pastrylab.logs.halving import MEASURED, own_halving, own_warming


def log_of(minutes, degrees):
    return pd.DataFrame({"minutes": np.asarray(minutes, float), "degC": np.asarray(degrees, float)})


def rising(half, room=21.0, start=5.0, last=60, every=5):
    minutes = np.arange(0, last + 1e-9, every)
    return minutes, room + (start - room) * 0.5 ** (minutes / half)


def error_of(degrees):
    return Q(degrees, "delta_degC")


def test_a_tray_that_halves_by_hand_is_measured(outside):
    # 21 - 5 = 16 degrees below the room, then 8, 4, 2: half of it is gone every 20 minutes.
    log = log_of([0, 20, 30, 40, 60], [5, 13, 21 - 16 / 2**1.5, 17, 19])
    found = own_warming(log, "21 degC", error_of(0.01))
    outside(
        quantity="halving time of a tray, 16 to 2 degrees in three halvings, min",
        expected=20,
        got=found.halving.m_as("min"),
        tolerance=0.01,
        source="Newton's law: what is left halved by hand",
    )
    assert found.verdict == MEASURED
    assert "5 °C (41 °F) to 19 °C (66.2 °F)" in found.sentence
    excess, rate, room = found.curves[0]
    assert (excess, room) == (pytest.approx(-16, abs=0.02), 21)
    assert rate == pytest.approx(math.log(2) / 20, rel=1e-3)


@pytest.mark.parametrize("error", [0.3, 1.0])
def test_what_is_told_of_a_known_tray_is_true(error):
    """Rooms, trays and probes by chance: the true halving time lies between the ends in all of them but the odd one."""
    chance, told, true = random.Random(7), 0, 0
    for _ in range(60):
        half, room, start = chance.uniform(10, 60), chance.uniform(18, 25), chance.uniform(-18, 8)
        minutes, degrees = rising(half, room, start, last=1.5 * half, every=half / 12)
        off = chance.uniform(-error, error)
        read = [round(one + off / 2 + chance.gauss(0, 0.05), 1) for one in degrees]
        found = own_warming(log_of(minutes, read), Q(room - off / 2, "degC"), error_of(error))
        if found.verdict == MEASURED:
            told += 1
            true += found.low.m_as("min") <= half <= found.high.m_as("min")
    assert told >= 50
    assert true >= told - 1


def test_it_is_the_mirror_of_a_bowl_that_cools():
    minutes, degrees = rising(20)
    one, other = own_warming(log_of(minutes, degrees), "21 degC"), own_halving(log_of(minutes, 42 - degrees), "21 degC")
    assert [getattr(one, end).m_as("min") for end in ("low", "halving", "high")] == pytest.approx(
        [getattr(other, end).m_as("min") for end in ("low", "halving", "high")]
    )
    assert [curve[2] for curve in one.curves] == [21, 20, 22]


@pytest.mark.parametrize(
    ("minutes", "degrees", "room", "said"),
    [
        ([0, 5, 10, 15], [5, 8, 11, 12], "21 degC", "4 readings that rise"),
        ([0, 5, 10, 15, 20], [18, 14, 11, 8, 6], "21 degC", "1 reading that rises"),
        ([0, 5, 10, 15, 20], [5, 5, 5, 5, 5], "21 degC", "rises by 0"),
        ([0, 5, 10, 15, 20], [5, 9, 13, 17, 24], "21 degC", "warmer than the log ever is"),
        ([0, 5, 10, 15, 20], [20, 20.2, 20.4, 20.6, 20.8], "21 degC", "below the room"),
        ([0, 5, 10, 15, 20], [5, 9, 12, 14, 15], "21", "without a unit"),
    ],
)
def test_what_is_no_log_of_a_tray_left_alone_is_refused(minutes, degrees, room, said):
    with pytest.raises(StudentError, match=said):
        own_warming(log_of(minutes, degrees), room)


def test_too_little_of_a_rise_is_left_open_and_the_reading_that_would_decide_is_named():
    # 16 degrees below the room, three quarters of a halving: 21 - 16 x 0.5946 = 11.5
    found = own_warming(log_of(*rising(90.0, last=20, every=2)), "21 degC", error_of(0.1))
    assert found.verdict == CANNOT_TELL
    assert "too little" in found.sentence
    assert "up to 11.5 °C" in found.advice


@pytest.mark.parametrize(("room", "told"), [(24.0, "colder"), (19.5, "warmer")])
def test_a_room_noted_wrongly_is_seen_where_the_log_shows_it(room, told):
    found = own_warming(log_of(*rising(15.0, start=-15, last=25, every=1)), Q(room, "degC"), error_of(0.5))
    assert found.verdict == CANNOT_TELL
    assert f"rises as if the room were {told}" in found.sentence
    assert "wrapped" in found.advice


def test_from_the_log_to_the_wait():
    found = storelog.own_warming(log_of(*rising(20)), "21 degC", error_of(0.5))
    ends = found.low.m_as("min"), found.halving.m_as("min"), found.high.m_as("min")
    wait = storage.how_long_wrapped(
        "5 degC", "21 degC", "50 %", found.halving, "milk", Q(max(ends[1] - ends[0], ends[2] - ends[1]), "min")
    )
    assert wait.verdict == "so long"
    assert wait.minutes[2] > wait.minutes[1]
