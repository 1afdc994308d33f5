"""A store room over a day: its hours over the limit by a wave drawn with a pencil, its humidity by the Magnus formula."""

import math
import random

import pytest

from pastrylab.ground.units import StudentError
from pastrylab.trade.storage.day import at_hour, day_in_store, hours_below

# Magnus, Alduchov & Eskridge 1996, J. Appl. Meteorol. 35:601; within 0.03 degC of ASHRAE 2017 in a kitchen.
NO_ERROR = {"probe_error": "0 delta_degC", "humidity_error": 0}


def full(celsius):
    return 6.1094 * math.exp(17.625 * celsius / (243.04 + celsius))


def full_where(hpa):
    ln = math.log(hpa / 6.1094)
    return 243.04 * ln / (17.625 - ln)


def by_counting(warmest, coldest, limit, steps=24_000):
    """Hours below a temperature, counted minute by minute along the wave."""
    mean, half = (warmest + coldest) / 2, (warmest - coldest) / 2
    return 24 * sum(mean + half * math.cos(2 * math.pi * k / steps) < limit for k in range(steps)) / steps


@pytest.mark.parametrize(
    ("hour", "degrees"),
    [(4, 14), (16, 22), (10, 18), (22, 18), (12, 18 + 4 * 0.5), (2, 18 - 4 * math.sqrt(3) / 2)],
)
def test_the_room_is_a_wave(hour, degrees):
    assert at_hour(22.0, 14.0, float(hour)) == pytest.approx(degrees)


# 18 +- 4: below 18 half the day; below 16, a cosine under -1/2, a third of it; below 20 two thirds.
@pytest.mark.parametrize(
    ("limit", "hours"), [(18, 12), (16, 8), (20, 16), (14, 0), (13.9, 0), (22, 24), (22.1, 24), (30, 24)]
)
def test_hours_of_a_wave(limit, hours):
    assert hours_below(22.0, 14.0, float(limit)) == pytest.approx(hours)


def test_hours_as_counted_one_by_one():
    dice = random.Random(7)
    for _ in range(20):
        coldest = dice.uniform(8, 18)
        warmest, limit = coldest + dice.uniform(0.5, 9), dice.uniform(6, 28)
        assert hours_below(warmest, coldest, limit) == pytest.approx(by_counting(warmest, coldest, limit), abs=0.01)


def test_a_room_that_does_not_swing_is_over_all_day_or_never():
    assert hours_below(18.0, 18.0, 18.1) == 24 and hours_below(18.0, 18.0, 17.9) == 0


@pytest.mark.parametrize("kind", ["dark", "milk"])
def test_a_day_by_magnus(outside, kind):
    """21 and 15 degC, 58 % by day, the shelf two degrees colder: what fills air, carried along the wave by hand."""
    low, high = {"dark": (0.82, 0.85), "milk": (0.78, 0.78)}[kind]
    day = day_in_store("21 degC", "15 degC", "58 %", "2 delta_degC", kind, **NO_ERROR)
    water = 0.58 * full(21)
    for name, got, expected, tolerance in (
        ("humidity on the shelf", day.humidity[1], water / full(13), 0.001),
        ("humidity of the room by night", day.room_by_night, water / full(15), 0.001),
        ("hours over, surely", day.hours[0], by_counting(19, 13, full_where(water / high)), 0.1),
        ("hours over, perhaps", day.hours[1], by_counting(19, 13, full_where(water / low)), 0.1),
    ):
        outside(
            quantity=f"{name}, {kind}",
            expected=expected,
            got=got,
            tolerance=tolerance,
            source="Magnus formula, Alduchov & Eskridge 1996, J. Appl. Meteorol. 35:601",
        )
    assert day.verdict == "over" and day.swing == 6 and day.too_warm is False


def test_every_error_is_taken_against_the_reader():
    """Hygrometer 3 %, both thermometers half a degree: by hand at the two ends."""
    day = day_in_store("21 degC", "15 degC", "45 %", "2 delta_degC", "milk", "0.5 delta_degC", "3 %")
    surely = full_where(0.42 * full(20.5) / 0.78) - 0.5
    perhaps = full_where(0.48 * full(21.5) / 0.78) + 0.5
    assert day.hours == pytest.approx((by_counting(19, 13, surely), by_counting(19, 13, perhaps)), abs=0.1)
    assert day.verdict == "cannot tell" and day.hours[0] == 0 and 7 < day.hours[1] < 8
    finer = day_in_store("21 degC", "15 degC", "45 %", "2 delta_degC", "milk", **NO_ERROR)
    assert finer.verdict == "stays below" and finer.hours == (0, 0)


@pytest.mark.parametrize(
    ("warmest", "error", "warm"),
    [("24 degC", 0, True), ("24 degC", 0.5, None), ("24.5 degC", 0.5, True), ("23.3 degC", 0.5, False)],
)
def test_warm_enough_for_fat_bloom(warmest, error, warm):
    """75 degF, 23.89 degC: Notter, The Art of the Chocolatier, 2011."""
    assert day_in_store(warmest, "16 degC", "40 %", probe_error=f"{error} delta_degC").too_warm is warm


def test_a_drier_room_and_a_warmer_shelf_are_never_worse():
    dice = random.Random(11)
    for _ in range(40):
        cold = dice.uniform(8, 20)
        warm, share, colder = cold + dice.uniform(0, 9), dice.uniform(0.3, 0.9), dice.uniform(0, 5)
        day = day_in_store.floats(warm, cold, share, colder, "dark", 0.5, 0.03)
        assert 0 <= day.hours[0] <= day.hours[1] <= 24 and day.humidity[0] <= day.humidity[1] <= day.humidity[2]
        for other in (
            day_in_store.floats(warm, cold, share - 0.05, colder, "dark", 0.5, 0.03),
            day_in_store.floats(warm, cold, share, colder / 2, "dark", 0.5, 0.03),
        ):
            assert other.hours[0] <= day.hours[0] and other.hours[1] <= day.hours[1]


@pytest.mark.parametrize(
    "given",
    [
        ("15 degC", "21 degC", "55 %"),
        ("21 degC", "15 degC", "0 %"),
        ("21 degC", "15 degC", "120 %"),
        ("21 degC", "15 degC", "55 %", "-2 delta_degC"),
        ("21 degC", "15 degC", "55 %", "16 delta_degC"),
        ("80 degC", "15 degC", "55 %"),
        ("21 degC", "15 degC", "55 %", "2 delta_degC", "ruby"),
        ("21 degC", "15 degC", "55 %", "2 delta_degC", "dark", "9 delta_degC"),
        ("21 degC", "15 degC", "55 %", "2 delta_degC", "dark", "0.5 delta_degC", "50 %"),
        ("21", "15 degC", "55 %"),
    ],
)
def test_what_makes_no_day_is_said(given):
    with pytest.raises(StudentError):
        day_in_store(*given)


def test_a_quarter_of_an_hour_over_the_limit_is_over():
    """The verdict asks whether, not how long: rooms a little damper each, from none of the day to some of it."""
    seen = {"stays below": [], "cannot tell": [], "over": []}
    for step in range(80):
        day = day_in_store.floats(22.0, 14.0, 0.485 + step / 2000, 0.0, "dark", 0.0, 0.0)
        seen[day.verdict].append(day.hours)
    assert all(hours == (0, 0) for hours in seen["stays below"])
    assert all(surely == 0 < perhaps for surely, perhaps in seen["cannot tell"])
    assert (
        0 < min(perhaps for _, perhaps in seen["cannot tell"]) < 1 and 0 < min(surely for surely, _ in seen["over"]) < 1
    )
