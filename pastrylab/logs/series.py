"""A log's readings as plain arrays, and the minutes they spend between two temperatures."""

import numpy as np

from pastrylab.ground.units import Reading, StudentError, takes
from pastrylab.logs.log import log_of

_COLUMNS = ("minutes", "degC")


def checked(log):
    """(minutes, degC) of a log in which every reading is a number. StudentError for what is no such log.

    >>> minutes, degrees = checked({"minutes": [0, 5], "degC": [45.5, 41]})
    >>> degrees.tolist()
    [45.5, 41.0]
    """
    t, temps = log_of(log, _COLUMNS).columns.values()
    if len(t) < 2 or not (np.isfinite(t).all() and np.isfinite(temps).all()) or np.any(np.diff(t) <= 0):
        raise StudentError(
            "a log with a missing number, fewer than two readings, or times that do not rise",
            "two readings or more in the order of time",
            "0, 60 C / 30, 40 C",
        )
    return t, temps


def known(log):
    """(minutes, degC) of a log, its readings without a number left out. StudentError for fewer than two in order.

    >>> minutes, degrees = known({"minutes": [0, 5, 10], "degC": [80, None, 60]})
    >>> minutes.tolist()
    [0.0, 10.0]
    """
    minutes, degrees = log_of(log, _COLUMNS).columns.values()
    known = np.isfinite(minutes) & np.isfinite(degrees)
    minutes, degrees = minutes[known], degrees[known]
    if len(minutes) < 2 or np.any(np.diff(minutes) <= 0):
        raise StudentError(
            "a log with fewer than two readings in order", "readings whose times rise", "0, 60 C / 30, 40 C"
        )
    return minutes, degrees


@takes(returns="min", low=Reading(example="31 degC"), high=Reading(example="32 degC"))
def minutes_between(log, low, high):
    """Time a log spends between two readings, with straight lines between its readings. StudentError if low > high.

    >>> from pastrylab import show
    >>> show(minutes_between({"minutes": [0, 10], "degC": [36.0, 31.0]}, "31 degC", "32 degC"))
    '2 min'
    """
    if low > high:
        raise StudentError(f"{low:.4g} °C to {high:.4g} °C", "the lower reading first", "31 °C to 32 °C")
    return minutes_within(*checked(log), low, high)


def minutes_within(t, temps, low, high):
    """Minutes between two temperatures, with straight lines between the readings; plain arrays, degC.

    >>> minutes_within(np.array([0.0, 10.0]), np.array([36.0, 31.0]), 31, 32)
    2.0
    """
    if len(t) < 2:
        return 0.0
    bottom, top = np.minimum(temps[:-1], temps[1:]), np.maximum(temps[:-1], temps[1:])
    inside = np.clip(np.minimum(top, high) - np.maximum(bottom, low), 0, None)
    flat = top == bottom
    share = np.where(flat, (bottom >= low) & (bottom <= high), inside / np.where(flat, 1.0, top - bottom))
    return float(np.sum(share * np.diff(t)))
