"""The careful side: how every verdict about safety or about temper treats what is not known exactly.

The rule. An error (of probe, meter, strip or clock, or of what is dissolved) is taken against the reader: a verdict is
given only where it holds at both ends of the error. Where the error changes it, the verdict is "cannot tell", and it
says what would decide. A limit is never moved: not by a tolerance, not by the digits somebody typed, not by rounding.

An answer to a question of this kind is True, False, or None for "cannot tell".
"""

import math

CANNOT_TELL = "cannot tell"


def at_most(value, limit, error=0.0):
    """Whether a true value, known as `value` give or take `error`, is at most `limit`: True, False or None.

    All plain floats in one unit. None where the error decides, or where value or error is not known (None, nan).
    """
    if value is None or error is None or math.isnan(value) or math.isnan(error):
        return None
    if value + error <= limit:
        return True
    return False if value - error > limit else None


def below(value, limit, error=0.0):
    """As at_most, for a limit that itself is out of bounds ("less than 0.88")."""
    found = at_least(value, limit, error)
    return None if found is None else not found


def at_least(value, limit, error=0.0):
    """Whether a true value is at least `limit`: True, False or None, as at_most."""
    if value is None or error is None or math.isnan(value) or math.isnan(error):
        return None
    if value - error >= limit:
        return True
    return False if value + error < limit else None


def above(value, limit, error=0.0):
    """As at_least, for a limit that itself is out of bounds."""
    found = at_most(value, limit, error)
    return None if found is None else not found


def every(findings):
    """Whether all of several findings hold: False where one surely does not, None where one is open, else True."""
    findings = list(findings)
    return False if False in findings else None if None in findings else True


def between(value, low, high, error=0.0):
    """Whether a true value lies from `low` to `high`, the ends included: True, False or None."""
    return every((at_least(value, low, error), at_most(value, high, error)))


def written_up(value, digits=2):
    """A figure that may be too small only, as text: 0.8655 -> "0.87" with two decimals, never "0.86".

    For what must not read lower than it is (a water activity, a time that ran).
    """
    return f"{math.ceil(round(value * 10**digits, 9)) / 10**digits:.{digits}f}"


def written_down(value, digits=2):
    """A limit as text that must not read higher than it is: 0.865 -> "0.86" with two decimals, never "0.87"."""
    return f"{math.floor(round(value * 10**digits, 9)) / 10**digits:.{digits}f}"
