"""What a store room's sensors leave open: one that is stuck, two that are swapped, a humidity too low to be a room's.

All limits here are common practice, no source.
"""

import numpy as np

from pastrylab.logs.findings import OPEN, Finding
from pastrylab.logs.store.spans import Span, hours

STANDS, MOVED = 180.0, 2.0  # minutes of one exact humidity, degC the room moved meanwhile
DAY = 1440.0
FEWEST = 6  # readings
DRY = 0.20  # share: drier than a room with people in it
WETTEST = 0.995  # share: here a humidity may stand for long
_PROBE_TWO = "Lay a second one beside it, or check it over wet salt: in a closed jar it must read 75 %."


def _runs(minutes, values):
    """(first, last) index of each run of one exact value, of FEWEST readings or more."""
    same = np.concatenate([[False], np.diff(values) == 0, [False]])
    edges = np.flatnonzero(np.diff(same.astype(int)))
    return [(i, j) for i, j in zip(edges[::2], edges[1::2], strict=True) if j - i + 1 >= FEWEST]


def _whole(values, step):
    return bool(np.all(np.abs(values / step - np.round(values / step)) < 1e-6))


def stuck_humidity(minutes, degrees, shares):
    """Spans in which the hygrometer surely did not follow the room: one exact humidity while the room warmed or cooled by
    2 degC, or for a day; twice as much of a display of whole per cent. degrees: nan where not read.

    >>> minutes = np.arange(0.0, 600, 30)
    >>> stuck_humidity(minutes, 18 + minutes / 100, np.full(20, 0.48))
    (Span(start=0.0, end=570.0),)
    """
    times = 2 if _whole(shares, 0.01) else 1  # whole per cent stand still by themselves
    found = []
    for i, j in _runs(minutes, shares):
        lasted = minutes[j] - minutes[i]
        span = degrees[i : j + 1][np.isfinite(degrees[i : j + 1])]
        moved = float(np.ptp(span)) if span.size else 0.0
        if shares[i] < WETTEST and (lasted >= times * DAY or lasted >= times * STANDS and moved >= times * MOVED):
            found.append(Span(float(minutes[i]), float(minutes[j])))
    return tuple(found)


def stuck_probe(minutes, degrees):
    """Spans of one exact temperature for a day, or for three days of a display of whole degrees.

    >>> stuck_probe(np.arange(0.0, 1600, 60), np.array([18.3] * 26 + [18.4]))
    (Span(start=0.0, end=1500.0),)
    """
    whole = _whole(degrees, 1.0) or _whole(1.8 * degrees + 32, 1.0)
    longest = 3 * DAY if whole else DAY
    runs = _runs(minutes, degrees)
    return tuple(Span(float(minutes[i]), float(minutes[j])) for i, j in runs if minutes[j] - minutes[i] >= longest)


def doubts(log, stuck, still, probe_error):
    """Findings that leave a log open. log: as read_store gives it; stuck, still: spans of hygrometer and probe.

    >>> from pastrylab.logs.store.reader import read_store
    >>> log = read_store("time;room °C;RH %\\n9:00;21;12\\n10:00;21;12")
    >>> doubts(log, (), (), 0.5)[0].said
    'The humidity stands at 12 % by and large, drier than a room with people in it.'
    """
    found = []
    if stuck:
        said = (
            f"The hygrometer shows one exact humidity for {hours(stuck):.0f} h while a room would change: it was stuck."
        )
        found.append(Finding(OPEN, said + " Those hours were not measured.", _PROBE_TWO))
    if still:
        said = f"The thermometer shows one exact temperature for {hours(still):.0f} h: it may be stuck."
        found.append(Finding(OPEN, said, "Warm it in your hand: it must move."))
    shares = log["humidity"][np.isfinite(log["humidity"])]
    if shares.size and np.median(shares) < DRY:
        said = f"The humidity stands at {np.median(shares):.0%} by and large, drier than a room with people in it."
        decides = f"It may be a dew point, or grams of water in the air. {_PROBE_TWO}"
        found.append(Finding(OPEN, said.replace("%", " %"), decides))
    return found + _swapped(log, probe_error)


def _swapped(log, probe_error):
    if "surface" not in log:
        return []
    apart = float(np.nanmedian(log["surface"] - log["degC"])) if np.isfinite(log["surface"]).any() else 0.0
    if apart <= max(1.0, 2 * probe_error):
        return []
    said = f"The surface is {apart:.1f} °C warmer than the air, day and night: the two probes may be swapped."
    return [Finding(OPEN, said, "Hold one of the two in your hand, and see which column rises.")]
