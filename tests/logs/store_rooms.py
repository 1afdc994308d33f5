"""Store rooms made by hand, each with what is true of it. Nothing here calls the package.

A room is given by its true temperature and humidity at every hour; its truth is worked out from those every three minutes,
by the Magnus formula of Alduchov & Eskridge 1996 for the surface, and the limits of datasets/storage_limits.csv: "sound"
(below the band and below 24 °C all the time), "unsound" (above the band, or at 24 °C and warmer, at some time),
"unknowable" (the log cannot show it). What a logger writes of it is off by an error of its own, and rounded.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

BAND = {"dark": (82.0, 85.0), "milk": (78.0, 78.0)}
WARM = 24.0


def magnus(degrees):
    """Pressure at saturation over water in hPa: Alduchov & Eskridge 1996."""
    return 6.1094 * np.exp(17.625 * degrees / (243.04 + degrees))


def day(mean, swing, warmest=15):
    """A temperature over the day: a cosine round its mean, `swing` from lowest to highest."""
    return lambda h: mean + swing / 2 * np.cos((h - warmest) * np.pi / 12)


def flat(value):
    return lambda h: value + 0 * h


def bump(base, top, start, end):
    """A value that rises straight from `start` to the middle and falls back to `end`, in hours."""
    return lambda h: np.interp(h, [start, (start + end) / 2, end], [base, top, base])


@dataclass(frozen=True)
class Room:
    """A store: name, truth, why; true degC and % by the hour; how it was logged."""

    name: str
    truth: str
    why: str
    degrees: Callable
    humidity: Callable
    kind: str = "dark"
    colder: float = 0.0
    hours: float = 72
    step: float = 0.5
    off: tuple = (0.0, 0.0)  # what the thermometer (degC) and the hygrometer (%) add
    error: float = 3.0  # % of humidity that the reader is told
    lost: tuple = ()  # (from, to) hours that are missing
    places: int = 1
    stuck: tuple = ()  # (from, to) hours in which the hygrometer repeats itself

    def at_surface(self, hours):
        air, share = self.degrees(hours), self.humidity(hours)
        return share * magnus(air) / magnus(air - self.colder)

    def true(self):
        """Truth of the room itself, whatever was logged of it."""
        dense = np.arange(0, self.hours, 0.05)
        low, high = BAND[self.kind]
        surface, air = self.at_surface(dense), self.degrees(dense)
        if surface.max() > high + 0.2 or air.max() >= WARM:
            return "unsound"
        return "sound" if surface.max() < low - 0.2 else "unknowable"

    def text(self):
        """The log as its logger writes it."""
        rows = ["time (h);room °C;humidity %"]
        held = None
        for h in np.arange(0, self.hours + self.step / 2, self.step):
            if self.lost and self.lost[0] < h < self.lost[1]:
                continue
            trembles = (0, 0.2, -0.2, 0.1)[len(rows) % 4]  # no air stands still to a tenth
            share = float(np.clip(self.humidity(h) + self.off[1] + trembles, 1, 100))
            if self.stuck and self.stuck[0] <= h <= self.stuck[1]:
                held = share if held is None else held
                share = held
            rows.append(f"{h:g};{self.degrees(h) + self.off[0]:.{self.places}f};{share:.{self.places}f}")
        return "\n".join(rows) + "\n"


_VAPOUR = 0.5 * magnus(19.0)  # what a room at 19 °C and 50 % holds


def same_water(degrees):
    """Humidity of air that keeps its water while its temperature moves."""
    return lambda h: 100 * _VAPOUR / magnus(degrees(h))


ROOMS = [
    Room("steady and dry", "sound", "19 °C, 50 %", day(19, 1), flat(50.4)),
    Room("steady and dry, hygrometer 3 low", "sound", "19 °C, 50 %", day(19, 1), flat(50.4), off=(0, -3)),
    Room("a wide day, the same water in the air", "sound", "swings bring humidity along", day(19, 6), same_water(day(19, 6))),
    Room("a cool cellar, 70 %", "sound", "12 °C", day(12, 1), bump(68, 71, 10, 60)),
    Room("dark just dry enough for its errors", "sound", "78.6 + 3 is below 82", day(18, 1), bump(70, 78.4, 10, 40)),
    Room("milk, 70 %", "sound", "70 + 3 is below 78", day(18, 1), bump(60, 70, 10, 40), kind="milk"),
    Room("a shelf two degrees colder, 60 %", "sound", "68 % there", day(20, 1), bump(55, 60, 10, 40), colder=2),
    Room("a week by the hour", "sound", "50 to 60 %", day(18, 2), bump(50, 60, 24, 140), hours=168, step=1),
    Room("whole degrees and per cent", "sound", "50 to 60 %", day(18, 4), bump(50, 60, 5, 70), places=0),
    Room("three-hourly by hand", "sound", "50 to 60 %", day(18, 2), bump(50, 60, 5, 70), step=3),
    Room("23 °C, not warm yet", "sound", "never 23.5", day(22, 2), flat(45.3)),
    Room("a cupboard with a steady 40 %", "sound", "buffered, but it moves by tenths", day(19, 1), bump(39, 42, 1, 71)),
    Room("a wet night", "unsound", "92 % for hours", day(17, 2), bump(60, 92, 20, 32)),
    Room("a wet night, hygrometer 3 low", "unsound", "92 %, read as 89", day(17, 2), bump(60, 92, 20, 32), off=(0, -3)),
    Room("a touch above, hygrometer 3 low", "unsound", "86 %, read as 83", day(17, 2), bump(60, 86, 20, 32), off=(0, -3)),
    Room("milk at 80 %", "unsound", "above 78", day(18, 1), bump(60, 80, 20, 32), kind="milk"),
    Room("milk at 80 %, hygrometer 3 low", "unsound", "read as 77", day(18, 1), bump(60, 80, 20, 32), kind="milk", off=(0, -3)),
    Room("a cold outer wall", "unsound", "70 % of 20 °C on 15 °C: 96 %", day(20, 1), flat(70.2), colder=5),
    Room("a cold outer wall, low probe", "unsound", "the same", day(20, 1), flat(70.2), colder=5, off=(-0.5, -3)),
    Room("a heat wave", "unsound", "27 °C in the afternoon", day(24, 6), flat(45.3)),
    Room("a heat wave, probe half a degree low", "unsound", "24.3 read as 23.8", day(23.3, 2), flat(45.3), off=(-0.5, 0)),
    Room("a short wet door", "unsound", "95 % between two readings", day(18, 1), bump(60, 95, 30.1, 30.4)),
    Room("wet while nothing was read", "unsound", "90 % in the gap", day(18, 1), bump(60, 90, 30, 36), lost=(29, 37)),
    Room("wet while the hygrometer stood still", "unsound", "90 % hidden", day(18, 5), bump(60, 90, 30, 42), stuck=(29, 43)),
    Room("dew on the wall", "unsound", "85 % of 18 °C on 14 °C: 110 %", day(18, 1), flat(85.2), colder=4),
    Room("in the band of dark", "unknowable", "83.5 %: the limit is not known better", day(18, 1), bump(60, 83.5, 20, 32)),
]  # fmt: skip
UNSEEN = {"a short wet door": "it lies between two readings; the page says that it cannot show those"}
