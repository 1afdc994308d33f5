"""What a job's log may be: both sides of each limit, with times and halvings worked by hand."""

from dataclasses import replace

import numpy as np
import pytest

from pastrylab.logs.jobs import CHOCOLATE, CREAM
from pastrylab.logs.plausible import halving, plausible, without_spikes

# An excess over 18 degC of 16, 8 and 4 degC: halved from each reading to the next.
FALL = np.array([34.0, 26.0, 22.0])


def test_halving_by_hand():
    # From 34 (16 above 18) to 26: 8 of 12 degC are 67 % of the fall, and half the excess is gone.
    assert halving(np.array([0.0, 20, 40]), FALL, CHOCOLATE) == pytest.approx(20)
    assert halving(np.array([5.0, 25, 45]), FALL, CHOCOLATE) == pytest.approx(20)
    # Cream cools towards 0 degC at the coldest: 80 to 20 in 60 minutes are two halvings.
    assert halving(np.array([0.0, 30, 60]), np.array([80.0, 60, 20]), CREAM) == pytest.approx(30)


def test_a_fall_begins_within_two_degrees_of_the_warmest():
    # 50, 48 (within 2, so the fall starts here), then 26: 30 above 18 halves to 8 in log2(30/8) steps of time.
    minutes = np.array([0.0, 10, 20, 30])
    assert halving(minutes, np.array([50.0, 48, 26, 26]), CHOCOLATE) == pytest.approx(10 / np.log2(30 / 8))
    # With 47.9 it starts at 50 and ends with 26.
    assert halving(minutes, np.array([50.0, 47.9, 26, 26]), CHOCOLATE) == pytest.approx(20 / np.log2(32 / 8))


def test_a_fall_ends_where_sixty_percent_of_it_are_done():
    minutes = np.array([0.0, 10, 20])
    # Of 40 degC, 24 are 60 %: at 34 degC it is done, at 34.1 not yet.
    assert halving(minutes, np.array([58.0, 34, 18]), CHOCOLATE) == pytest.approx(10 / np.log2(40 / 16))
    # Then its end is 18 degC, whose excess counts as 1 degC.
    assert halving(minutes, np.array([58.0, 34.1, 18]), CHOCOLATE) == pytest.approx(20 / np.log2(40))


def test_a_fall_of_less_than_five_degrees_says_nothing():
    minutes = np.array([0.0, 10, 20])
    assert halving(minutes, np.array([35.0, 30.0, 29.9]), CHOCOLATE) == pytest.approx(10 / np.log2(17 / 12))
    assert halving(minutes, np.array([34.9, 30.0, 29.9]), CHOCOLATE) is None
    assert halving(minutes, np.array([31.0, 31.0, 31.0]), CHOCOLATE) is None
    # Below what it could cool to, no speed is told.
    assert halving(minutes, np.array([15.0, 9.0, 8.9]), CHOCOLATE) is None


def test_both_ends_of_each_limit_are_allowed():
    job = replace(CHOCOLATE, shortest=10.0, longest=40.0, longest_step=20.0, halving=(5.0, 20.0))
    still = np.array([31.0, 31.0, 31.0])

    def log(*minutes, degrees=still, **more):
        return plausible(np.array(minutes, dtype=float), degrees, job, **more)

    assert log(0, 5, 10) and not log(0, 5, 9.9)
    assert log(0, 20, 40) and not log(0, 19, 40.1)
    assert log(0, 20, 40) and not log(0, 20.5, 40.6)
    assert not plausible(np.array([0.0, 21, 42]), still, replace(job, longest=60.0))
    assert log(0, 1, 2, shortest=2) and not log(0, 1, 2) and not log(0, 1, 2, shortest=2.1) and log(0, 1, 2, shortest=0)
    assert log(0, 5, 10, degrees=FALL) and not log(0, 4.9, 10, degrees=FALL)
    assert log(0, 20, 40, degrees=FALL)
    wide = replace(job, longest=60.0, longest_step=30.0)
    assert not plausible(np.array([0.0, 20.1, 40]), FALL, wide)


def test_the_order_of_the_rows_does_not_matter():
    assert plausible(np.array([40.0, 0, 20]), FALL[[2, 0, 1]], CHOCOLATE)
    assert not plausible(np.array([40.0, 0, 20]) / 60, FALL[[2, 0, 1]], CHOCOLATE)


def test_a_single_leap_is_gone_and_the_ends_stay():
    assert without_spikes(np.array([5.0, 1.0])).tolist() == [5, 1]
    assert without_spikes(np.array([5.0, 1.0, 4.0])).tolist() == [5, 4, 4]
    assert without_spikes(np.array([9.0, 1.0, 2.0, 0.0])).tolist() == [9, 2, 1, 0]
    assert without_spikes(np.array([1.0, 2.0, 3.0])).tolist() == [1, 2, 3]
    assert without_spikes(np.array([3.0, 2.0, 1.0])).tolist() == [3, 2, 1]


def test_the_jobs_limits_are_as_common_practice_has_them():
    """No source: written down here a second time, so that none of them moves unseen."""
    assert (CHOCOLATE.span, CHOCOLATE.warm, CHOCOLATE.never) == ((10, 70), 27, (-30, 90))
    assert (CHOCOLATE.around, CHOCOLATE.halving, CHOCOLATE.longest_step) == (18, (2, 420), 240)
    assert (CHOCOLATE.shortest, CHOCOLATE.longest) == (3, 24 * 60)
    assert (CREAM.span, CREAM.warm, CREAM.never) == ((0, 100), 30, (-3, 105))
    assert (CREAM.around, CREAM.halving, CREAM.longest_step) == (0, (5, 24 * 60), 240)
    assert (CREAM.shortest, CREAM.longest) == (3, 48 * 60)
