"""Newton's law of cooling: how long a vessel takes, and the law fitted to its log."""

from dataclasses import dataclass

import numpy as np

from pastrylab.ground.units import In, Quantity, Reading, StudentError, takes
from pastrylab.logs.series import known
from pastrylab.trade.newton import halvings


@takes(
    returns="min",
    start=Reading(example="57 degC"),
    end=Reading(example="21 degC"),
    around=Reading(example="4 degC"),
    halving=In("min", above=0, example="20 min"),
)
def time_to_cool(start, end, around, halving):
    """Time a stirred pan takes from `start` to `end` in surroundings at `around`: halving x log2 of the excesses.

    halving: the time in which the excess over the surroundings halves, taken from a log. Newton's law of cooling: for a
    well stirred, shallow pan in steady surroundings; a deep pot is slower, and slower still at the end. Raises
    StudentError where the temperatures do not fall towards the surroundings.

    >>> from pastrylab import show
    >>> show(time_to_cool("57 degC", "21 degC", "4 degC", "20 min"))
    '32.81 min'
    """
    if start < end or end <= around:
        given = f"{start:g} °C to {end:g} °C in surroundings of {around:g} °C"
        raise StudentError(given, "an end between the start and the surroundings", "from 57 °C to 21 °C")
    return halving * halvings(start, end, around)


@dataclass(frozen=True)
class Fit:
    """Newton's law fitted to a log: halving time and its standard error, time constant, readings used, the spread of
    the readings about the curve, and a sentence. The time constant is the halving time divided by ln 2.
    """

    halving: Quantity
    halving_error: Quantity
    time_constant: Quantity
    readings: int
    spread: Quantity
    sentence: str


def fit_halving(log, around):
    """The halving time of a vessel, from the falling part of its log: a Fit.

    log: as read_log gives it; from its warmest reading to the coldest after it. around:
    temperature of the room. Least squares on the temperatures (Gauss-Newton, from the straight line through their
    logarithms). Raises StudentError for fewer than four readings, a fall of less than 1 K, readings not above the room,
    or a log that does not bend towards the room.

    >>> from pastrylab.logs.reader import read_log
    >>> log = read_log("min, degC\\n0, 45\\n10, 38.9\\n20, 34.2\\n30, 30.8\\n40, 28.2")
    >>> fit_halving(log, "20 degC").sentence
    'What it is warmer than the room halves in 24.8 minutes, give or take 0.1 (5 readings).'
    """
    room = Reading().floats("around", around)
    minutes, degrees = _falling(*known(log))
    if len(minutes) < 4 or degrees[0] - degrees[-1] < 1:
        given = f"{len(minutes)} falling readings, {degrees[0] - degrees[-1]:.1f} degrees from first to last"
        raise StudentError(given, "at least four readings that fall by a degree or more", "one every five minutes")
    if degrees.min() <= room:
        given = f"a reading of {degrees.min():g} °C in a room of {room:g} °C"
        raise StudentError(given, "readings warmer than what is around the vessel", "18 °C around it")
    return _fitted(minutes - minutes[0], degrees - room)


def _fitted(minutes, excess):
    """Fit of excesses in degC over minutes from the first."""
    start, rate = newton(minutes, excess)
    if not rate > 0:
        raise StudentError(
            "a log that does not fall towards the room", "one left alone to cool", "no stirring over heat"
        )
    curve = start * np.exp(-rate * minutes)
    left = excess - curve
    spread = float(np.sqrt(left @ left / (len(left) - 2)))
    slopes = np.column_stack((curve / start, -minutes * curve))
    error = spread * float(np.sqrt(np.linalg.inv(slopes.T @ slopes)[1, 1]))
    halving = float(np.log(2) / rate)
    return Fit(
        Quantity(halving, "min"),
        Quantity(halving * error / rate, "min"),
        Quantity(1 / rate, "min"),
        len(minutes),
        Quantity(spread, "delta_degC"),
        f"What it is warmer than the room halves in {halving:.3g} minutes, give or take {halving * error / rate:.1g} "
        f"({len(minutes)} readings).",
    )


def _falling(minutes, degrees):
    top = int(np.argmax(degrees))
    end = top + int(np.argmin(degrees[top:])) + 1
    return minutes[top:end], degrees[top:end]


def newton(minutes, excess):
    """(excess at the start, rate) of excess x exp(-rate t), least squares on the temperatures by Gauss-Newton.

    minutes, excess: arrays, excess in degC and above 0; the rate is 1 / min. Raises nothing for two readings or more.

    >>> start, rate = newton(np.array([0.0, 10.0, 20.0]), np.array([20.0, 10.0, 5.0]))
    >>> round(start, 3), round(float(np.log(2) / rate), 3)
    (20.0, 10.0)
    """
    slope, level = np.polyfit(minutes, np.log(excess), 1)
    start, rate = float(np.exp(level)), float(-slope)
    for _ in range(50):
        decay = np.exp(-rate * minutes)
        slopes = np.column_stack((decay, -minutes * start * decay))
        step = np.linalg.lstsq(slopes, excess - start * decay, rcond=None)[0]
        start, rate = start + step[0], rate + step[1]
        if np.all(np.abs(step) <= 1e-12 * np.abs((start, rate))):
            break
    return float(start), float(rate)
