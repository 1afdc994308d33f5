"""How far a store room's temperature swings in a day, and how long it is warm: what brings fat bloom, in words and bands.

No source says how many swings chocolate bears. The words (steady, some, wide) are common practice, no source.
"""

from typing import NamedTuple

import numpy as np

DAY = 1440.0
ENOUGH = 0.5  # of a day: with less, its range says little
STEADY, WIDE = 2.0, 5.0  # degC of range in a day


class Day(NamedTuple):
    """One day of a log: when it begins in minutes of the log (below 0 where the log began later), its lowest and highest
    temperature in degC.
    """

    start: float
    low: float
    high: float


def days(minutes, degrees, first=0.0):
    """Each day of a log with its lowest and highest temperature; days read for less than half are left out.

    first: minutes since midnight of the first reading; 0 where the log names no time of day, and days count from there.

    >>> [(day.low, day.high) for day in days(np.arange(0.0, 1500, 60), np.array([18.0] * 12 + [21.0] * 13))]
    [(18.0, 21.0)]
    """
    known = np.isfinite(degrees)
    minutes, degrees = minutes[known], degrees[known]
    number = np.floor((minutes + first) / DAY)
    found = []
    for day in np.unique(number):
        of_day = number == day
        if np.ptp(minutes[of_day]) >= ENOUGH * DAY:
            read = degrees[of_day]
            found.append(Day(float(day * DAY - first), float(read.min()), float(read.max())))
    return tuple(found)


def word(swing):
    """What a range of so many degC in a day is called.

    >>> word(1.5), word(3.0), word(7.0)
    ('steady', 'some swing', 'wide swings')
    """
    return "steady" if swing <= STEADY else "some swing" if swing <= WIDE else "wide swings"
