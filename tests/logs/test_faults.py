"""Faults of a probe: both sides of each limit, on logs a person can check by eye."""

import numpy as np
import pytest

from pastrylab.logs.faults import jumps, rate, rounding, stuck, taken_out, without_jumps


def by_minute(*degrees):
    return np.arange(float(len(degrees))), np.array(degrees, dtype=float)


def test_rates_and_rounding():
    assert rate([3], [31.5]) == 0 and rate([0, 10], [30, 35]) == pytest.approx(0.5)
    assert rate([0, 1, 2], [0, 2, 1]) == pytest.approx(0.5)
    assert rounding([31, 32.5]) == 0.25 and rounding([31.0, 32.0]) == 0.5
    # 89, 90 and 112 °F.
    assert rounding([57 / 1.8, 58 / 1.8, 80 / 1.8]) == pytest.approx(0.5 / 1.8)
    assert rounding([31.01, 31.99]) == 0.5 and rounding([31.03, 32.04]) == 0


def test_a_leap_of_two_degrees_out_and_back():
    # 31 before and after: at 2 degC it leaps only where it moves faster than 4 degC/min.
    def leaps(height, step):
        minutes, degc = by_minute(31, 31, 31 + height, 31, 31)
        return [(jump.degc, round(jump.by, 6)) for jump in jumps(minutes * step, degc)]

    assert leaps(2.1, 0.5) == [(33.1, 2.1)] and leaps(1.9, 0.1) == []
    assert leaps(4.1, 1) == [(35.1, 4.1)] and leaps(3.9, 1) == [] and leaps(-4.1, 1) == [(26.9, -4.1)]


def test_up_to_three_readings_leap_together():
    for width in (1, 2, 3):
        assert len(jumps(*by_minute(31, 31, *[45] * width, 31, 31))) == width
    assert jumps(*by_minute(31, 31, 45, 45, 45, 45, 31, 31)) == ()
    assert jumps(*by_minute(31, 31, 45, 45, 45, 40, 40, 40)) == ()  # it does not come back
    assert jumps(*by_minute(31, 45, 31)) == ()  # three readings say too little


def test_a_first_or_last_reading_alone():
    assert len(jumps(*by_minute(39.1, 31, 31, 31))) == 1 and jumps(*by_minute(38.9, 31, 31, 31)) == ()
    assert len(jumps(*by_minute(31, 31, 31, 39.1))) == 1 and jumps(*by_minute(31, 31, 31, 38.9)) == ()


def test_two_readings_at_least_stay():
    minutes, degc = by_minute(31, 31, 45, 31, 31)
    found = jumps(minutes, degc)
    assert without_jumps(minutes, found).tolist() == [True, True, False, True, True]
    assert without_jumps(minutes[2:4], found).tolist() == [True, True]
    assert without_jumps(minutes[1:4], found).tolist() == [True, False, True]


def test_a_reading_that_stands_and_then_leaps_was_stuck():
    lively = [46, 45.1, 44.3]
    assert [s.sure for s in stuck(*by_minute(*lively, *[43] * 5, 41.4, 40, 39))] == [True]
    assert stuck(*by_minute(*lively, *[43] * 5, 41.6, 40, 39)) == ()  # 1.4 degC is no leap
    assert stuck(*by_minute(*lively, *[43] * 4, 41, 40, 39)) == ()  # four readings are too few
    assert [s.sure for s in stuck(*by_minute(*lively, *[43] * 10, 42.9, 40.1, 39))] == [False]
    assert stuck(*by_minute(*lively, *[43] * 9, 42.9, 40.1, 39)) == ()


def test_an_hour_and_a_half_is_long_in_any_log():
    minutes = np.array([0.0, 22.5, 45, 67.5, 90])
    assert len(stuck(minutes, np.full(5, 31.5))) == 1 and stuck(minutes * 0.99, np.full(5, 31.5)) == ()


def test_a_probe_laid_in_air_or_water():
    work = [31.6, 31.5, 31.6, 31.5, 31.6, 31.5, 31.6]
    assert taken_out(*by_minute(*work, 24.0, 21.5, 21.3), 30.5, 32.5) == 7
    assert taken_out(*by_minute(*work[2:], 24.0, 21.5, 21.3), 30.5, 32.5) == 8  # four minutes at work are too few
    assert taken_out(*by_minute(*work, 12, 7.6, 7.5), 30.5, 32.5) == 10  # 7.5 degC is no room's and no sink's
    assert taken_out(*by_minute(*work, 12, 8.6, 8.5), 30.5, 32.5) == 7
    assert taken_out(*by_minute(*work), 30.5, 32.5) == 7
    assert taken_out(*by_minute(*work, 40, 41, 41), 30.5, 32.5) == 7  # 8.4 degC in a minute, into hot water
    assert taken_out(*by_minute(*work, 39, 41, 41), 30.5, 32.5) == 10  # 7.4 degC a minute may be heat
    assert taken_out(*by_minute(20, 21, 22), 30.5, 32.5) == 3
