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

    All plain floats in one unit, error at least 0. None where the error decides, or where value or error is not known
    (None, nan). Raises nothing.

    >>> at_most(31.5, 32.0, 0.2), at_most(31.9, 32.0, 0.2), at_most(32.5, 32.0, 0.2)  # a bowl in degC, its probe's error
    (True, None, False)
    """
    if value is None or error is None or math.isnan(value) or math.isnan(error):
        return None
    if value + error <= limit:
        return True
    return False if value - error > limit else None


def below(value, limit, error=0.0):
    """As at_most, for a limit that itself is out of bounds ("less than 0.88"): True, False or None.

    >>> below(0.88, 0.88), at_most(0.88, 0.88)  # a water activity
    (False, True)
    """
    found = at_least(value, limit, error)
    return None if found is None else not found


def at_least(value, limit, error=0.0):
    """Whether a true value, known as `value` give or take `error`, is at least `limit`: True, False or None, as at_most.

    >>> at_least(45.0, 45.0), at_least(45.0, 45.0, 0.5)  # melted out in degC: at the limit, and within the probe's error
    (True, None)
    """
    if value is None or error is None or math.isnan(value) or math.isnan(error):
        return None
    if value - error >= limit:
        return True
    return False if value + error < limit else None


def above(value, limit, error=0.0):
    """As at_least, for a limit that itself is out of bounds: True, False or None.

    >>> above(45.0, 45.0), at_least(45.0, 45.0)
    (False, True)
    """
    found = at_most(value, limit, error)
    return None if found is None else not found


def every(findings):
    """Whether all of several findings hold: False where one surely does not, None where one is open, else True.

    findings: an iterable of True, False and None; none at all hold.

    >>> every([True, None, False]), every([True, None]), every([True, True])
    (False, None, True)
    """
    findings = list(findings)
    return False if False in findings else None if None in findings else True


def between(value, low, high, error=0.0):
    """Whether a true value lies from `low` to `high`, the ends included: True, False or None, as at_most.

    >>> between(31.5, 31.0, 32.0, 0.2), between(31.9, 31.0, 32.0, 0.2), between(33.0, 31.0, 32.0, 0.2)
    (True, None, False)
    """
    return every((at_least(value, low, error), at_most(value, high, error)))


def written_up(value, digits=2):
    """A figure with so many decimals, as text that must not read lower than it is (a water activity, a time that ran).

    value: a finite float; less than a billionth of the last decimal is arithmetic and moves nothing.

    >>> written_up(0.8612), written_up(0.86)
    ('0.87', '0.86')
    """
    return f"{math.ceil(round(value * 10**digits, 9)) / 10**digits:.{digits}f}"


def written_down(value, digits=2):
    """A limit with so many decimals, as text that must not read higher than it is; value as in written_up.

    >>> written_down(0.8688), written_down(0.87)
    ('0.86', '0.87')
    """
    return f"{math.floor(round(value * 10**digits, 9)) / 10**digits:.{digits}f}"


def wait_in_words(minutes):
    """Whole minutes as a page writes a wait: from two hours on in hours and minutes. Nothing is rounded here.

    >>> wait_in_words(39), wait_in_words(1221)
    ('39 minutes', '20 h 21 min')
    """
    hours, rest = divmod(int(minutes), 60)
    if hours < 2:
        return f"{minutes} minute{'' if int(minutes) == 1 else 's'}"
    return f"{hours} h {rest} min" if rest else f"{hours} h"
