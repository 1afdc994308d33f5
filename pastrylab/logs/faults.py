"""Faults of a probe and its log: jumps, a probe that is stuck or out of the bowl; and the rates a log shows.

All functions take arrays of minutes (rising) and degC. The limits are common practice, no source: a bowl of
chocolate does not turn round by 2 degC at more than 4 degC/min, and no probe repeats a tenth of a degree for long.
"""

from dataclasses import dataclass

import numpy as np

JUMP, JUMP_RATE = 2.0, 4.0  # degC, degC/min, out and back
EDGE_RATE = 8.0  # degC/min, for a first or last reading that stands alone
LONGEST_SPIKE = 3  # readings
HELD = 5.0  # minutes at work before a probe is said to be taken out
PROBE_HALVING = 3.0  # minutes: a bare probe in air halves its excess faster, the smallest bowl takes twice as long
CALM = 0.3  # degC/min, as a bowl cools
AIR = (8.0, 25.0)  # degC, a room or a sink
VERY_LONG = 90.0  # minutes of one exact reading
JITTER = 0.03  # degC: a reading that lives departs from a straight line by more
COARSE = 0.45  # degC: steps of whole degrees, of either kind


@dataclass(frozen=True)
class Jump:
    """A reading that leaps away: its minute, degC, and degC off the line between its neighbours."""

    at: float
    degc: float
    by: float


@dataclass(frozen=True)
class Stuck:
    """A stretch of one exact reading: its minutes, degC, and whether it surely was the probe's fault."""

    start: float
    end: float
    degc: float
    sure: bool


def rate(minutes, degc):
    """Mean rate in degC/min: the slope of the least-squares line. 0 for a single reading.

    >>> rate([0, 5, 10], [34, 33, 32])
    -0.2
    """
    minutes, degc = np.asarray(minutes, dtype=float), np.asarray(degc, dtype=float)
    off = minutes - minutes.mean()
    square = float(off @ off)
    return float(off @ (degc - degc.mean())) / square if square > 0 else 0.0


def rounding(degc):
    """Half the step of a display of whole degrees (Celsius or Fahrenheit) or of halves, in degC; 0 for finer ones.

    What such a display rounds away comes on top of the probe's own error; tenths are held to be within it.

    >>> rounding([45, 41, 32]), rounding([45.2, 41.3, 31.6])
    (0.5, 0.0)
    """
    for per_degree, offset in ((1.0, 0.0), (1.8, 32.0), (2.0, 0.0)):
        steps = np.asarray(degc, dtype=float) * per_degree + offset
        if np.all(np.abs(steps - np.round(steps)) < 0.02):
            return 0.5 / per_degree
    return 0.0


def jumps(minutes, degc):
    """Readings that leap away and back again, as Jump(at, degc, by): minutes, degC, degC off the line between.

    >>> jumps(np.arange(5.0), np.array([31.6, 31.5, 45.0, 31.6, 31.5]))
    (Jump(at=2.0, degc=45.0, by=13.45),)
    """
    return tuple(
        Jump(float(minutes[k]), float(degc[k]), float(_off_line(minutes, degc, i, j)[k - i]))
        for i, j in _leaping(minutes, degc)
        for k in range(i, j)
    )


def _leaping(minutes, degc):
    """(first, after the last) index of each leap, in order."""
    step = np.diff(degc)
    far = (np.abs(step / np.diff(minutes)) > JUMP_RATE) & (np.abs(step) > 0.5 * JUMP)
    done, found = 0, []
    for i in (0, *np.flatnonzero(far) + 1):  # where a leap can begin
        if i < done:
            continue
        width = next((w for w in range(1, LONGEST_SPIKE + 1) if _leaps(minutes, degc, i, i + w)), 0)
        if width:
            found.append((int(i), int(i + width)))
        done = i + max(width, 1)
    return found


def without_jumps(minutes, found):
    """Mask of the readings that are none of the jumps found; all of them where fewer than two would be left.

    >>> without_jumps(np.arange(5.0), [Jump(2.0, 45.0, 13.4)]).tolist()
    [True, True, False, True, True]
    """
    mask = ~np.isin(minutes, [jump.at for jump in found])
    return mask if mask.sum() >= 2 else np.ones(len(mask), dtype=bool)


def _off_line(minutes, degc, i, j):
    left, right = max(i - 1, 0), min(j, len(degc) - 1)
    if i == 0:
        return degc[i:j] - degc[right]
    if j == len(degc):
        return degc[i:j] - degc[left]
    return degc[i:j] - np.interp(minutes[i:j], [minutes[left], minutes[right]], [degc[left], degc[right]])


def _leaps(minutes, degc, i, j):
    """Whether readings i..j-1 leap away from what stands before and after them, and back."""
    n = len(degc)
    if j > n or n < 4:
        return False
    off = _off_line(minutes, degc, i, j)
    if np.abs(off).min() < JUMP or np.abs(off.sum()) < np.abs(off).sum():
        return False
    into = (degc[i] - degc[i - 1]) / (minutes[i] - minutes[i - 1]) if i else None
    back = (degc[j] - degc[j - 1]) / (minutes[j] - minutes[j - 1]) if j < n else None
    if into is None or back is None:
        edge = into if back is None else back
        return j - i == 1 and edge is not None and abs(edge) > EDGE_RATE
    stays = abs(degc[j] - degc[i - 1]) < 0.5 * np.abs(off).min()
    return bool(into * back < 0 and min(abs(into), abs(back)) > JUMP_RATE and stays)


def stuck(minutes, degc):
    """Stretches of one exact reading, as Stuck(start, end, degc, sure); sure where the reading then leaps.

    Only in a log whose other readings differ from one to the next, as tenths of a degree do, or where it is very long.

    >>> stuck(np.arange(10.0), np.array([46, 45.1, 44.3, 44.3, 44.3, 44.3, 44.3, 40.2, 39.5, 38.9]))
    (Stuck(start=2.0, end=6.0, degc=44.3, sure=True),)
    """
    steps = np.diff(degc)
    same = np.concatenate([[False], steps == 0, [False]])
    edges = np.flatnonzero(np.diff(same.astype(int)))
    found = []
    for start, end in zip(edges[::2], edges[1::2], strict=True):
        if end - start < 4 or minutes[end] - minutes[start] < 2:
            continue
        outside = np.concatenate([steps[:start], steps[end:]])
        lively = outside.size >= 4 and np.mean(outside != 0) >= 0.7
        leap = abs(steps[end]) if end < len(steps) else 0.0
        sure = leap > 1.5 and leap / (minutes[end + 1] - minutes[end]) > 1.0
        if (lively and (sure or end - start >= 9)) or minutes[end] - minutes[start] >= VERY_LONG:
            found.append(Stuck(float(minutes[start]), float(minutes[end]), float(degc[start]), bool(sure)))
    return tuple(found)


def taken_out(minutes, degc, low, high):
    """Index from which on the probe no longer stands in the bowl: where it leaves `low` to `high` (degC) for good, faster
    than a bowl can, and comes to rest in air or in water. len(degc) where it does not.

    >>> minutes, degc = np.arange(10.0), np.array([31.6, 31.5, 31.6, 31.5, 31.6, 31.5, 31.6, 24.0, 21.5, 21.3])
    >>> taken_out(minutes, degc, 30.5, 32.5)
    7
    """
    inside = np.flatnonzero((degc >= low) & (degc <= high))
    end = len(degc)
    if not inside.size or inside[-1] + 1 == end or minutes[inside[-1]] - minutes[inside[0]] < HELD:
        return end
    k = int(inside[-1])
    while k and degc[k - 1] - degc[k] > CALM * (minutes[k] - minutes[k - 1]):  # it was out already, still in the band
        k -= 1
    after = degc[k + 1 :]
    if after.min() > high:
        leap = (after[0] - degc[k]) / (minutes[k + 1] - minutes[k])
        return k + 1 if leap >= EDGE_RATE and after[0] - degc[k] >= 3 * JUMP else end
    rest = float(after.min()) - 0.5
    fall, t = degc[k:] - rest, minutes[k:]
    i = int(np.flatnonzero(fall >= 0.9 * fall[0])[-1])
    j = i + int(np.argmax(fall[i:] <= 0.5 * fall[0]))
    halving = (t[j] - t[i]) / np.log2(fall[i] / fall[j]) if j > i else np.inf
    still = len(after) < 3 or abs(after[-1] - after[-2]) <= max(0.3 * (minutes[-1] - minutes[-2]), 0.6)
    out = (
        after.max() <= degc[k]
        and after[-1] < low
        and AIR[0] <= rest + 0.5 <= AIR[1]
        and halving < PROBE_HALVING
        and still
    )
    return k + 1 if out and degc[k] - rest > 2 * JUMP else end


def stood(minutes, degc, found):
    """Those of stuck(...) that stood so long that the bowl was not measured: an hour and a half, or twenty minutes in a hold whose
    other readings move. Only in a log of fine steps: whole degrees stand still by themselves.

    >>> minutes = np.arange(121.0)
    >>> degc = np.where(minutes < 5, 33 - 0.3 * minutes, 31.5)
    >>> stood(minutes, degc, stuck(minutes, degc))
    (Stuck(start=5.0, end=120.0, degc=31.5, sure=False),)
    """
    steps = np.abs(np.diff(degc))
    moves = steps[steps > 0]
    if not moves.size or np.quantile(moves, 0.1) > COARSE:
        return ()
    return tuple(run for run in found if _stood(minutes, degc, run))


def _stood(minutes, degc, run):
    long = run.end - run.start
    beside = (np.abs(degc - run.degc) < 1) & ((minutes < run.start) | (minutes > run.end))
    others = degc[beside]
    lively = others.size >= 10 and np.mean(np.abs(np.diff(others, 2)) > JITTER) >= 0.5
    return long >= VERY_LONG or (long >= 20 and lively)
