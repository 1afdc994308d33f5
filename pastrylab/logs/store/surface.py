"""How humid the air was at the coldest surface of a store, reading by reading, at both ends of every error."""

from dataclasses import dataclass

import numpy as np

from pastrylab.ground.units import StudentError
from pastrylab.logs.store.humidity import at_surface

_DIGITS = 9  # a sum of shares such as 0.79 + 0.03 ends here


@dataclass(frozen=True)
class Surface:
    """Humidity at the surface: minutes of the readings there are, and for each the least, as read, and most, as shares (1
    and above: water settles). `where`: whose surface it is, in words.
    """

    minutes: np.ndarray
    low: np.ndarray
    read: np.ndarray
    high: np.ndarray
    where: str


def at_the_surface(log, colder, humidity_error, probe_error):
    """Surface of a log from read_store. colder: degC by which the coldest shelf lies below the air; None: the log's own
    surface where it has one, else the air itself.

    What is warmer than the air counts as the air: it will be so. StudentError: a colder shelf and no temperature.

    >>> from pastrylab.logs.store.reader import read_store
    >>> log = read_store("time;room °C;RH %\\n9:00;22;55\\n10:00;22;56")
    >>> found = at_the_surface(log, 7.0, 0.0, 0.0)
    >>> found.read.round(2).tolist()
    [0.85, 0.87]
    """
    minutes, air, shares = (log[name] for name in ("minutes", "degC", "humidity"))
    measured = colder is None and "surface" in log
    if colder and not np.isfinite(air).any():
        given = f"a shelf {colder:g} °C colder than the air, for a log without a temperature"
        raise StudentError(given, "the air's temperature beside its humidity", "time; room °C; humidity %")
    if not measured and not colder:
        there = np.isfinite(shares)
        ends = [np.clip(shares[there] + sign * humidity_error, 0.0, 1.0) for sign in (-1, 0, 1)]
        return Surface(minutes[there], *np.round(ends, _DIGITS), "in the air")
    cold = log["surface"] if measured else air - colder
    there = np.isfinite(shares) & np.isfinite(air) & np.isfinite(cold)
    air, cold, shares = air[there], cold[there], shares[there]
    room_error = probe_error if measured else 0.0  # a difference told by the reader has one error, not two
    ends = []
    for sign in (-1, 0, 1):
        room = air + sign * room_error
        surface = np.minimum(cold - sign * probe_error, room)
        ends.append(at_surface(room, surface, np.clip(shares + sign * humidity_error, 0.0, 1.0)))
    where = "at the measured surface" if measured else "at the coldest shelf"
    return Surface(minutes[there], *np.round(ends, _DIGITS), where)
