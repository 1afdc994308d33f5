"""Newton's law: what is warmer or colder than its surroundings comes half the way to them in every halving time."""

import math


def halvings(start, end, around):
    """How many halving times it takes from `start` to `end` in surroundings at `around`: a float.

    Plain floats in one unit, warming or cooling alike. Raises ValueError where `end` does not lie on the way.

    >>> halvings(57.0, 21.0, 5.0), halvings(4.0, 12.0, 20.0)  # a pan in ice water, a tray in a room
    (1.7004397181410922, 1.0)
    """
    gap, left = start - around, end - around
    if left == 0 or gap / left < 1:
        raise ValueError(f"{start:g} to {end:g} in surroundings of {around:g}")
    return math.log2(gap / left)


def after(start, around, spent):
    """Where something stands that began at `start`, once `spent` halving times have gone by: in the unit of both.

    >>> after(4.0, 20.0, 2.0)  # degC: a tray in a room
    16.0
    """
    return around + (start - around) * 2.0**-spent
