"""The stretches of a store room's log in which something holds: straight lines between readings, nothing across a gap."""

from typing import NamedTuple

import numpy as np

LONG_STEP = 180.0  # minutes without a reading after which nobody knows what the room did; common practice, no source
_HOUR = 60.0


class Span(NamedTuple):
    """A stretch of a log, from its start to its end in minutes."""

    start: float
    end: float


def gaps(minutes):
    """Spans between readings that lie too far apart to draw a line. minutes: of the readings there are, rising.

    >>> gaps(np.array([0.0, 60, 400, 460]))
    (Span(start=60.0, end=400.0),)
    """
    far = np.flatnonzero(np.diff(minutes) > LONG_STEP)
    return tuple(Span(float(minutes[i]), float(minutes[i + 1])) for i in far)


def at_least(minutes, values, limit):
    """Spans in which a quantity is at or above a limit; a reading alone between two gaps is a span without length.

    >>> at_least(np.array([0.0, 60, 120]), np.array([0.70, 0.80, 0.70]), 0.75)
    (Span(start=30.0, end=90.0),)
    """
    found = []
    for i in np.flatnonzero(values >= limit):
        before, after = _crossing(minutes, values, i, -1, limit), _crossing(minutes, values, i, 1, limit)
        if found and found[-1].end >= before:
            found[-1] = Span(found[-1].start, after)
        else:
            found.append(Span(before, after))
    return tuple(found)


def _crossing(minutes, values, i, side, limit):
    """Where the line from reading i to its neighbour falls below the limit; the reading itself at a gap or an end."""
    k = i + side
    if not 0 <= k < len(minutes) or abs(minutes[k] - minutes[i]) > LONG_STEP:
        return float(minutes[i])
    if values[k] >= limit:
        return float(minutes[k])
    share = (values[i] - limit) / (values[i] - values[k])
    return float(minutes[i] + share * (minutes[k] - minutes[i]))


def beside(wide, narrow):
    """What is left of spans where narrower ones, which lie within them, are cut out.

    >>> beside((Span(0, 100),), (Span(20, 30),))
    (Span(start=0, end=20), Span(start=30, end=100))
    """
    left = []
    for span in wide:
        start = span.start
        for cut in (one for one in narrow if span.start <= one.start and one.end <= span.end):
            left.append(Span(start, cut.start))
            start = cut.end
        left.append(Span(start, span.end))
    return tuple(span for span in left if span.end > span.start or span in wide)


def hours(spans):
    """Hours of all spans together.

    >>> hours((Span(0, 30), Span(60, 150)))
    2.0
    """
    return float(sum(end - start for start, end in spans)) / _HOUR
