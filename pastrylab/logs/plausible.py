"""What a job allows a log to be: how long it runs, how often it is read, and how fast its vessel cools."""

import numpy as np

LEAST_FALL = 5.0  # degC, a fall whose speed says something


def plausible(minutes, degrees, job, shortest=None):
    """Whether a log of the job can run like this: its length, its usual step, and how fast its vessel cools.

    shortest: minutes a log runs at least, those of the job where it is None.

    >>> from pastrylab.logs.jobs import CHOCOLATE
    >>> minutes, degrees = np.array([0.0, 10, 20, 30]), np.array([45.0, 39, 35, 32])
    >>> plausible(minutes, degrees, CHOCOLATE), plausible(minutes / 60, degrees, CHOCOLATE)
    (True, False)
    """
    order = np.argsort(minutes, kind="stable")
    minutes, degrees = minutes[order], degrees[order]
    length = minutes[-1] - minutes[0]
    if not (job.shortest if shortest is None else shortest) <= length <= job.longest:
        return False
    if np.median(np.diff(minutes)) > job.longest_step:
        return False
    found = halving(minutes, degrees, job)
    return found is None or job.halving[0] <= found <= job.halving[1]


def halving(minutes, degrees, job):
    """Minutes in which the excess over job.around halves in the greater part of the log's fall; None without a fall.

    From the last reading within 2 degC of the warmest to the first that has done 60 % of the fall. The minutes rise.

    >>> from pastrylab.logs.jobs import CHOCOLATE
    >>> f"{halving(np.array([0.0, 10, 20, 30]), np.array([46.0, 38, 32, 28]), CHOCOLATE):.0f} min"
    '20 min'
    """
    degrees = without_spikes(degrees)
    start = int(np.flatnonzero(degrees >= degrees.max() - 2)[-1])
    top, after = degrees[start], degrees[start:]
    end = start + int(np.flatnonzero(after <= top - 0.6 * (top - after.min()))[0])
    if end == start or top - degrees[end] < LEAST_FALL:
        return None
    high, low = (max(degree - job.around, 1.0) for degree in (top, degrees[end]))
    return None if high <= low else float((minutes[end] - minutes[start]) / np.log2(high / low))


def without_spikes(degrees):
    """The middle one of each three readings: a single one that leaps away and back is gone. The ends stay.

    >>> without_spikes(np.array([31.5, 99.0, 31.6, 31.4])).tolist()
    [31.5, 31.6, 31.6, 31.4]
    """
    if len(degrees) < 3:
        return degrees
    before, here, after = degrees[:-2], degrees[1:-1], degrees[2:]
    middle = np.maximum(np.minimum(before, here), np.minimum(np.maximum(before, here), after))
    return np.concatenate([degrees[:1], middle, degrees[-1:]])
