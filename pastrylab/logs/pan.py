"""What a log of cooling cream shows of its pan, and what it cannot: begun late, warmed again, a probe stuck or out."""

import math
from dataclasses import dataclass

import numpy as np

from pastrylab.ground.careful import at_most

# FDA Food Code 3-501.14(A): degC, and minutes from the first of them to the second and to the third
HOT, MIDDLE, COLD = 57.0, 21.0, 5.0
FIRST_LIMIT, WHOLE_LIMIT = 120.0, 360.0
# Common practice, no source: cream stirred over ice halves its excess in five minutes at best, a bare probe in air in
# one to four. A probe taken out of the pan is known by that.
NO_PAN, TOO_SUDDEN, HOW_MUCH_FASTER = 3.0, 6.0, 5.0  # minutes, minutes, times as fast as the pan before
_LOOK_AHEAD, _FALL = 20.0, 8.0  # minutes in which a probe comes to rest; degC that are a fall
_REPEATS, _STANDS, _LEAP = 4, 15.0, 3.0  # readings, minutes, degC: a probe that froze while the pan went on cooling
_STANDS_LONG, _WARM_ROOM = 40.0, 26.0  # minutes, degC: no pan stands still so long while it is warmer than a room
_LEAP_OUT = 5.0  # degC, at a degree a minute or more: a probe that leaves a cold pan
_RAW = 25.0  # degC: cream not yet warmed


@dataclass(frozen=True)
class Error:
    """degC by which a reading may be wrong, where it is to show a limit missed, and where it is to show it kept."""

    missed: float
    kept: float


@dataclass(frozen=True)
class Doubt:
    """Why a log cannot show the limits kept, whatever it reads; `upto`: readings before it still show the pan."""

    said: str
    decides: str
    upto: int | None = None


def first(where):
    """Index of the first True, or None.

    >>> first(np.array([80, 56, 40]) < HOT)
    1
    """
    found = np.flatnonzero(where)
    return int(found[0]) if found.size else None


def boiled(degrees, error):
    """Index of the first reading surely hot in a log that begins with raw cream and only warms; else 0.

    >>> boiled(np.array([8.0, 40, 90, 80, 60]), 0.5)
    2
    """
    hot = first(degrees - error >= HOT)
    warms = hot and degrees[0] <= _RAW and np.all(np.diff(degrees[: hot + 1]) > -1)
    return hot if warms else 0


def out_of_cold(minutes, degrees, error):
    """Number of readings until the probe was taken out of cold cream for good: it leaps, as no cold pan warms.

    >>> out_of_cold(np.array([0.0, 60, 120, 122]), np.array([60.0, 20, 4, 18]), 0.5)
    3
    """
    cold = np.flatnonzero(degrees + error <= COLD)
    after = int(cold[-1]) + 1 if cold.size else len(degrees)
    for i in range(after - 1, min(after + 1, len(degrees) - 1)):
        leap = degrees[i + 1] - degrees[i]
        if leap >= _LEAP_OUT and leap >= minutes[i + 1] - minutes[i]:
            return after
    return len(degrees)


def doubts(minutes, degrees, error):
    """Tuple of Doubt of a log (plain arrays, minutes and degC). error: an Error.

    >>> doubts(np.array([0.0, 20, 40]), np.array([48.0, 30, 18]), Error(missed=0.5, kept=0.5))[0].said
    'The log does not begin surely above 57 °C (135 °F): the clock may have been running before it.'
    """
    found = (
        _begins_late(degrees, error.kept),
        _warmed_again(minutes, degrees, error.missed),
        _frozen(minutes, degrees),
        _pulled_out(minutes, degrees),
    )
    return tuple(doubt for doubt in found if doubt)


def _begins_late(degrees, error):
    if at_most(HOT, degrees[0], error):
        return None
    return Doubt(
        "The log does not begin surely above 57 °C (135 °F): the clock may have been running before it.",
        "Next time put the probe in while the cream is still hot: then the log can tell.",
    )


def _warmed_again(minutes, degrees, error):
    below = first(degrees + error < HOT)
    again = None if below is None else first(degrees[below:] > HOT)
    if again is None:
        return None
    return Doubt(
        f"At {minutes[below + again]:.0f} min it was above 57 °C again: that starts no new clock.",
        "Say what was done to it, and let whoever is responsible decide by your local code.",
    )


def _halving(excess, later, apart):
    """Minutes in which an excess halves; infinite where it does not fall."""
    return apart / math.log2(excess / later) if excess > later > 0 else math.inf


def _pulled_out(minutes, degrees):
    """A fall no pan can make: faster than any in ice, or far faster than this one before."""
    for i in np.flatnonzero((np.diff(degrees) < 0) & (degrees[:-1] > COLD + _FALL)):
        j = first(degrees[i + 1 :] <= degrees[i] - _FALL)
        j = None if j is None else j + i + 1
        if j is not None and _too_fast(minutes, degrees, i, j):
            k = i + int(np.argmin(np.diff(degrees[i : j + 1]) / np.diff(minutes[i : j + 1])))
            return Doubt(
                f"From {minutes[k]:.0f} to {minutes[k + 1]:.0f} min it falls from {degrees[k]:.0f} to "
                f"{degrees[k + 1]:.0f} °C, faster than a pan can: as if the probe had been taken out.",
                "Keep the probe in the middle of the pan, and stir before you read.",
                k + 1,
            )
    return None


def _too_fast(minutes, degrees, i, j):
    """Whether the fall from reading i to j is none of a pan's, by where it comes to rest (in ice, if the log ends)."""
    upto = int(np.searchsorted(minutes, minutes[j] + _LOOK_AHEAD)) + 1
    rest = float(degrees[i + 1 : upto].min()) - 0.5 if upto <= len(minutes) else min(0.0, float(degrees.min()) - 0.5)
    fall = _halving(degrees[i] - rest, degrees[j] - rest, minutes[j] - minutes[i])
    before = _halving(degrees[0] - rest, degrees[i] - rest, minutes[i] - minutes[0]) if i else 0.0
    return fall < NO_PAN or (fall < TOO_SUDDEN and before > HOW_MUCH_FASTER * fall)


def _frozen(minutes, degrees):
    """One exact reading for long, while a pan would go on cooling."""
    edges = np.flatnonzero(np.diff(degrees) != 0)
    for first, last in zip((0, *(edges + 1)), (*edges, len(degrees) - 1), strict=True):
        at, count, stood = degrees[first], last - first + 1, minutes[last] - minutes[first]
        on_the_stove = first == 0 and at > HOT + 2 * _FALL
        if on_the_stove or at <= MIDDLE or count < _REPEATS or stood < _STANDS:
            continue
        leaps = last + 1 < len(degrees) and at - degrees[last + 1] > _LEAP
        if leaps or (count > 2 * _REPEATS and stood >= _STANDS_LONG and at > _WARM_ROOM):
            return Doubt(
                f"The probe shows exactly {at:.1f} °C from {minutes[first]:.0f} to {minutes[last]:.0f} min"
                f"{' and then leaps' if leaps else ''}: it was stuck, and the pan was not measured.",
                "Stir, move the probe, and read by a second one: this log cannot be mended.",
                int(first) + 1,
            )
    return None
