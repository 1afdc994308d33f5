"""Boiled cream against its two limits, on the careful side: each case worked out by hand from 3-501.14(A)."""

import numpy as np
import pandas as pd
import pytest

from pastrylab.course.emulsion.figures import CreamCooling
from pastrylab.ground.units import StudentError
from pastrylab.logs.cream import INSIDE, MISSED, OPEN, check_cooling
from pastrylab.logs.log import log_of

FOOD_CODE = "FDA Food Code 3-501.14(A): 57 to 21 °C in 2 h, to 5 °C in 6 h in all"


def log(*points):
    minutes, degrees = zip(*points, strict=True)
    return pd.DataFrame({"minutes": np.array(minutes, float), "degC": np.array(degrees, float)})


def falls(halving, around=2.0, start=85.0, last=600, step=10):
    return [(t, around + (start - around) * 2 ** (-t / halving)) for t in range(0, last, step)]


SOUND = falls(20)
PULLED = [(t, 82 - 25 * t / 55) for t in range(0, 56, 5)]

CASES = {
    # name: (points, verdict, what is said)
    "a shallow pan in ice water": (SOUND, INSIDE, "both limits"),
    "8 h from 85 to 25, one reading of 58, then cold": (
        [(t, 85 - t / 8) for t in range(0, 481, 30)] + [(490, 58), (520, 30), (550, 20), (700, 4)],
        MISSED,
        "first limit was missed",
    ),
    "in time, but warmed to 60 on the way": (
        [(0, 80), (20, 62), (30, 55), (50, 40), (60, 60), (80, 30), (100, 20), (150, 10), (200, 4)],
        OPEN,
        "starts no new clock",
    ),
    "57.4 and 56.8 about the line are no warming again": (
        [(0, 80), (19, 57.4), (20, 56.8), (21, 57.1), (22, 56.4), (50, 35), (80, 20), (200, 4)],
        INSIDE,
        "both limits",
    ),
    "the probe pulled out into cold air": ([*PULLED, (60, 4), (90, 4), (200, 4)], OPEN, "taken out"),
    "the probe pulled out into a warm room, then the fridge": (
        [*PULLED, (60, 28), (65, 23), (70, 22), (100, 21), (130, 6), (200, 4)],
        OPEN,
        "taken out",
    ),
    "pulled out, but the first limit was missed before": (
        [(t, 80 - t / 8) for t in range(0, 400, 10)] + [(405, 4), (420, 4)],
        MISSED,
        "first limit was missed",
    ),
    "pulled out a minute after the first limit was missed": (
        [(0, 60), (10, 56), (60, 48), (120, 42), (131, 40), (132, 4), (140, 4)],
        MISSED,
        "at least 2 h 01 min",
    ),
    "a thick probe pulled out, six times as fast as the pan": (
        [(t, 3.5 + 81.5 * 2 ** (-t / 30)) for t in range(0, 16, 5)]
        + [(15 + t, 3.5 + 81.5 * 2**-0.5 * 2 ** (-t / 5)) for t in range(5, 60, 5)],
        OPEN,
        "taken out",
    ),
    "into ice, four times as fast as on the bench": (
        [(t, 2 + 83 * 2 ** (-t / 24)) for t in range(0, 16, 5)]
        + [(15 + t, 2 + 83 * 2 ** (-15 / 24) * 2 ** (-t / 6)) for t in range(5, 60, 5)],
        INSIDE,
        "both limits",
    ),
    "from the bench into stirred ice": (
        [(t, 20 + 62 * 2 ** (-t / 60)) for t in range(0, 41, 5)]
        + [(40 + t, 59 * 2 ** (-t / 8)) for t in range(5, 90, 5)],
        INSIDE,
        "both limits",
    ),
    "begins at 56.9": ([(0, 56.9), (30, 40), (60, 30), (90, 20), (200, 4)], OPEN, "does not begin surely above"),
    "begins at 57.3, within the probe's error": ([(0, 57.3), (30, 40), (60, 30), (90, 20), (200, 4)], OPEN, "begin"),
    "begins at 57.6, beyond it": ([(0, 57.6), (30, 40), (60, 30), (90, 20), (200, 4)], INSIDE, "both limits"),
    "two readings, 400 min apart": ([(0, 90), (400, 4)], OPEN, "only more readings"),
    "two readings, 100 min apart": ([(0, 90), (100, 4)], OPEN, "only more readings"),
    "a hole of three hours across 21": (
        [(0, 80), (15, 58), (20, 54), (200, 12), (220, 9), (300, 4)],
        OPEN,
        "only more",
    ),
    "frozen at 66 while the pan cooled": (
        [(0, 85), (15, 75), *((30 + 15 * i, 66.0) for i in range(10)), (180, 22), (195, 15), (210, 10), (225, 4)],
        OPEN,
        "was stuck",
    ),
    "frozen at 62 for eighteen minutes, then a leap": (
        [(0, 80), (6, 70), (12, 62), (18, 62), (24, 62), (30, 62), (36, 52), (60, 30), (80, 20), (150, 10), (200, 4)],
        OPEN,
        "was stuck",
    ),
    "frozen at 31.4 to the end of the log": (
        [(t, 85 - t) for t in range(0, 50, 5)] + [(50 + 10 * i, 31.4) for i in range(40)],
        OPEN,
        "was stuck",
    ),
    "whole degrees near the room are no stuck probe": (
        [(t, round(20 + 62 * 2 ** (-t / 30))) for t in range(0, 400, 5)],
        MISSED,
        "first limit",
    ),
    "held on the stove at one reading, then chilled": (
        [(t, 85.0) for t in range(0, 30, 5)] + [(25 + t, 2 + 83 * 2 ** (-t / 20)) for t in range(5, 300, 5)],
        INSIDE,
        "both limits",
    ),
    "exactly two hours, read without error on the minute": (
        [(0, 57), (1, 56), (60, 35), (120, 21), (300, 5)],
        OPEN,
        "does not begin surely",
    ),
    "hourly, 4 h 41 min to 21 °C": (
        list(zip(range(0, 541, 60), (88, 60, 48, 43, 38, 34, 20, 8, 4, 4), strict=True)),
        MISSED,
        "first limit",
    ),
    "first in time, second late": (
        [(0, 80), (20, 57.6), (30, 50), (110, 20), (395, 6), (400, 4)],
        MISSED,
        "second limit",
    ),
    "back above 21 after two hours": (
        [(0, 80), (20, 57.6), (30, 50), (90, 20), (150, 24), (170, 18), (300, 4)],
        OPEN,
        "",
    ),
    "brought to the boil on the log": (
        [(0, 4), (5, 30), (10, 58), (15, 84), (18, 88), *((18 + t, 2 + 86 * 2 ** (-t / 20)) for t in range(5, 200, 5))],
        INSIDE,
        "both limits",
    ),
    "warmed again from 40 is not from raw": (
        [(0, 40), (5, 60), (10, 85), *((10 + t, 2 + 83 * 2 ** (-t / 20)) for t in range(5, 200, 5))],
        OPEN,
        "does not begin surely",
    ),
    "cooled, and the cold room's own swing about 5": (
        [(0, 80), (20, 57.6), (30, 50), (90, 18), (200, 4.4), (230, 5.3), (260, 4.2), (420, 5.2), (430, 4.4)],
        INSIDE,
        "both limits",
    ),
    "at 5 in time, but out of the cold again": (
        [(0, 80), (20, 57.6), (30, 50), (90, 18), (200, 4.4), (300, 9), (400, 4.2)],
        OPEN,
        "too few readings",
    ),
    "cold, then the probe lies on the bench": (
        [*SOUND[:20], (195, 5.6), (200, 16), (205, 20), (300, 21)],
        INSIDE,
        "both limits",
    ),
    "cold, then the probe is washed": ([*SOUND[:20], (200, 61), (205, 60), (210, 40)], INSIDE, "both limits"),
    "cold, then left out on the bench": (
        [*SOUND[:20], *((190 + t, 21 - 17 * 2 ** (-t / 60)) for t in range(10, 200, 10))],
        OPEN,
        "not reached",
    ),
    "still cooling": ([(0, 85), (20, 57.6), (40, 40), (60, 30)], OPEN, "1 h 20 min left"),
    "still cooling, and the time is over by the earliest start": (
        [(0, 57.6), (100, 56), (130, 40)],
        OPEN,
        "over already",
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_cream_on_the_careful_side(outside, name):
    points, verdict, said = CASES[name]
    found = check_cooling(log(*points))
    outside(quantity=f"cream: {name}"[:62], expected=verdict, got=found.verdict, tolerance="exact", source=FOOD_CODE)
    assert said.casefold() in (found.sentence + " " + found.advice).casefold()
    assert "safe" not in (found.sentence + found.advice).casefold()


@pytest.mark.parametrize(
    "made",
    [None, "a log", pd.DataFrame({"a": [1]}), log((0, 90)), log((5, 60), (0, 80)), log((0, 90), (10, np.nan))]
    + [pd.DataFrame({"minutes": [0, 1], "degC": ["hot", "cold"]})],
)
def test_what_is_no_log_is_refused(made):
    with pytest.raises(StudentError, match="log"):
        check_cooling(made)


@pytest.mark.parametrize("error", ["-1 delta_degC", "6 delta_degC", "0.5 degC", "half", None])
def test_an_error_that_is_none_is_refused(error):
    with pytest.raises(StudentError):
        check_cooling(log(*SOUND), error)


@pytest.mark.parametrize(("error", "verdict"), [("0 delta_degC", INSIDE), ("0.5 delta_degC", OPEN)])
def test_the_limit_itself_is_kept_only_by_a_perfect_probe(error, verdict):
    points = [(0, 58), (10, 57), (11, 56.4), (60, 35), (129, 21.4), (130, 20.9), (300, 5.4), (369, 4.9)]
    assert check_cooling(log(*points), error).verdict == verdict


@pytest.mark.parametrize(("end", "verdict"), [(130, INSIDE), (130.5, OPEN)])
def test_two_hours_are_two_hours(end, verdict):
    points = [(10, 57), (10.25, 56.9), (60, 35), (end - 0.25, 21.2), (end, 21.0), (365, 5.0)]
    assert check_cooling(log((0, 80), *points), "0 delta_degC").verdict == verdict


def test_missed_only_where_the_shortest_time_is_too_long():
    sure = [(0, 58), (10, 56), (20, 54), (140.1, 21.6), (150, 20)]
    open_ = [(0, 58), (10, 56), (20, 54), (130, 21.6), (150, 20)]
    assert check_cooling(log(*sure)).verdict == MISSED
    assert check_cooling(log(*open_)).verdict == OPEN


def test_both_missed_limits_get_the_same_hard_word():
    first = check_cooling(log(*CASES["hourly, 4 h 41 min to 21 °C"][0]))
    second = check_cooling(log(*CASES["first in time, second late"][0]))
    assert first.advice.replace("first", "second") == second.advice and "throw it away" in first.advice


def test_times_shown_are_those_of_the_verdict():
    found = check_cooling(log((0, 80), (20, 57.6), (30, 50), (110, 20), (300, 4)))
    first, second = found.stages
    assert (found.started, first.least, first.most) == (20, 0, 90) and (second.least, second.most) == (80, 280)
    assert "at most 1 h 30 min" in found.sentence and "at most 4 h 40 min" in found.sentence


def test_the_gates_of_the_picture_hang_on_the_earliest_start():
    made = log(*SOUND)
    figure, found = CreamCooling(), check_cooling(made)
    assert figure.update(log=log_of(made, ("minutes", "degC")), found=found).startswith("Within the limits")
    assert [list(gate.get_xdata()) for gate, _ in figure._gates] == [[10, 130], [10, 370]]
