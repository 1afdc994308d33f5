"""Figures of lesson 07: a tray that warms on a picture of the air, and the humidity on a tray whose film is off."""

import math

import numpy as np

from pastrylab.ground import careful
from pastrylab.page.guess import Met
from pastrylab.page.picture import BAND, HABIT, INK, LINE, LOST, Picture
from pastrylab.trade import newton, storage
from pastrylab.trade.storage.limits import surface_limit
from pastrylab.trade.storage.tray import unwrap_at
from pastrylab.trade.storage.warming import after_halvings

DEGREES = np.arange(-20.0, 40.01, 0.5)
WET = "#b9d4ef"
_POINT = {"mfc": "white", "mew": 2.2, "ls": "", "zorder": 4}
HYGROMETER = 0.03  # of the kitchen in the story
_TOPS = (16, 25, 40, 60)  # hPa: a picture grows by steps, or every move would redraw its axes


def full_at(degrees):
    """What fills air at each temperature of an array: hPa."""
    return np.array([storage.vapour_pressure.floats(float(each)) for each in degrees])


class Degrees:
    """For a picture with temperatures along an axis: writes that axis in the system in force."""

    def degrees_along_x(self, system):
        """Label the x axis, where it is not so already."""
        if self.axes.get_xlabel() != (label := f"temperature, {'°C' if system == 'metric' else '°F'}"):
            self.axes.set_xlabel(label)
            self.temperature_axis(self.axes.xaxis, system)
            if system == "metric":  # no room is kept for a third digit along this axis
                self.axes.xaxis.set_major_formatter("{x:.0f}")


class TrayOnAir(Degrees, Picture):
    """Room and tray on a picture of air: temperature across, its water upwards, full and limit as curves."""

    def __init__(self):
        super().__init__(height=4.9)
        axes = self.axes
        axes.set_title("A tray warms in the air of its room", fontsize=14, loc="left")
        axes.set_xlabel("temperature, °F or °C")
        axes.set_ylabel("water in the air, hPa")
        axes.set(xlim=(0, 36), ylim=(0, 40))
        self._full = full_at(DEGREES)
        hatched = {"lw": 0, "zorder": 0.5}
        axes.fill_between(
            DEGREES, self._full, 120, facecolor=WET, edgecolor="#5d7f91", hatch="..", label="wet: drops", **hatched
        )
        self._bloom = axes.fill_between(
            DEGREES,
            self._full,
            self._full,
            facecolor=BAND,
            edgecolor="#8a6a14",
            hatch="//",
            label="dry, but draws water",
            **hatched,
        )
        axes.plot(DEGREES, self._full, color=INK, lw=1.6, zorder=1)
        self._error = axes.axhspan(1, 2, facecolor=HABIT, alpha=0.7, lw=0, zorder=1.5, label="hygrometer's error")
        (self._way,) = axes.plot([], [], color=LINE, lw=2.4, zorder=2)
        (self._drop,) = axes.plot([], [], color=LOST, lw=1.4, ls="--", zorder=2)
        (self._tray,) = axes.plot([], [], "s", ms=10, mec=LINE, label="tray", **_POINT)
        (self._indoors,) = axes.plot([], [], "o", ms=11, mec=INK, label="room", **_POINT)
        (self._out,) = axes.plot([], [], "D", ms=9, mec=LOST, label="unwrap from here", **_POINT)
        axes.legend(loc="upper left", fontsize=11)

    def update(self, *, start, air, humidity, halving, humidity_error, kind, probe_error, system="metric"):
        """start: of the tray, air: both degC; humidity, its error: shares; halving: min; probe_error: degrees C. Returns
        the sentence."""
        water = storage.vapour_pressure.floats(air, humidity)
        low, high = (
            storage.vapour_pressure.floats(air, min(1.0, max(0.0, humidity + end)))
            for end in (-humidity_error, humidity_error)
        )
        self._bloom.set_data(DEGREES, surface_limit(kind).low * self._full, self._full)
        self._error.set(y=low, height=high - low)
        self._way.set_data([start, air], [water, water])
        self._tray.set_data([start], [water])
        self._indoors.set_data([air], [water])
        opens = unwrap_at(air, humidity, surface_limit(kind).low, probe_error, humidity_error)
        seen = start < opens < air
        self._out.set_data([opens] if seen else [], [water] if seen else [])
        self._drop.set_data([opens, opens] if seen else [], [0, water] if seen else [])
        top = max(high, storage.vapour_pressure.floats(air))
        self.axes.set(
            xlim=(-20 if start < 0 else 0, 36), ylim=(0, next((each for each in _TOPS if top < 0.98 * each), _TOPS[-1]))
        )
        self.degrees_along_x(system)
        self.alt = self._says(
            {"start": start, "air": air, "humidity": humidity, "halving": halving},
            {"kind": kind, "probe_error": probe_error, "humidity_error": humidity_error},
            system,
        )
        return self.alt

    def _says(self, tray, given, system):
        """What stands on the tray now, where dew ends, and how long it stays wrapped."""
        now = storage.may_come_out.floats(tray["start"], tray["air"], tray["humidity"], **given)
        dew = storage.dew_point.floats(tray["air"], tray["humidity"])
        on_it = f"Unwrapped now, the air on the tray would {_on_it(now.humidity[1], tray['start'])}."
        on_it += f" Dew ends at {self.write(round(dew, 1), 'degC', system)}."
        return f"{on_it} {storage.how_long_wrapped.floats(**tray, **given).sentence}"

    def result_of_guess(self, guess, *, start, air, humidity, halving, humidity_error, kind, probe_error, system):
        """A guess in minutes, on the tray's line at its time; the result is the wait with its errors."""
        given = {"kind": kind, "probe_error": probe_error, "humidity_error": humidity_error}
        low, read, high = storage.how_long_wrapped.floats(start, air, humidity, halving, **given).minutes
        stands = newton.after(start, air, guess / halving)
        on_it = storage.surface_humidity.floats(stands, air, humidity)
        then = (
            f"After your time the tray would read {self.write(stands, 'degC', system)}, and the air on it stand at {percent(on_it)}. Only "
            f"{careful.wait_in_words(careful.written_up(high, 0))} hold with every error."
        )
        water = storage.vapour_pressure.floats(air, humidity)
        return Met(read, then, ((stands, water),), (math.floor(low), math.ceil(high)))


def percent(share):
    """A humidity in whole per cent, never read lower than it is.

    >>> percent(0.8201), percent(0.78)
    ('83 %', '78 %')
    """
    return f"{careful.written_up(100 * share, 0)} %"


def _on_it(share, start):
    """What a humidity on a tray at `start` degC means to the eye."""
    if share <= 1:
        return f"stand at {percent(share)}: no drop to be seen"
    settles = "drops settle" if start >= 0 else "frost settles"
    return f"stand at {percent(share)}: {settles}" if share < 2 else f"hold {share:.0f} times what it can: {settles}"


class FilmOff(Picture):
    """The humidity of the room's air on a tray as it warms, and the minute its film comes off."""

    MINUTES = 90

    def __init__(self):
        super().__init__(height=4.9)
        axes = self.axes
        axes.set_title("How humid the air on the tray is", fontsize=14, loc="left")
        axes.set_xlabel("minutes out of the cold")
        axes.set_ylabel("humidity on the tray, %")
        axes.set(xlim=(0, self.MINUTES), ylim=(40, 160))
        hatched = {"lw": 0, "zorder": 0.5}
        axes.axhspan(100, 400, facecolor=WET, edgecolor="#5d7f91", hatch="..", label="wet: drops", **hatched)
        self._bloom = axes.axhspan(
            78, 100, facecolor=BAND, edgecolor="#8a6a14", hatch="//", label="dry, but draws water", **hatched
        )
        at = self._at = np.linspace(0, self.MINUTES, 91)
        self._errors = axes.fill_between(at, at, at, color=HABIT, alpha=0.7, lw=0, zorder=1, label="with every error")
        (self._curve,) = axes.plot([], [], color=LINE, lw=2.4, zorder=2, label="as read")
        (self._open,) = axes.plot([], [], color=INK, lw=1.6, ls="--", zorder=2)
        (self._ring,) = axes.plot([], [], "o", ms=11, mec=LOST, label="film comes off", **_POINT)
        axes.legend(loc="upper right", fontsize=11)

    def update(self, *, opened, start, air, humidity, halving, kind, probe_error, system="metric"):
        """opened, halving: min; start: of the tray, air: degC; humidity: a share; probe_error: degrees C. Returns the
        sentence."""
        given = {"probe_error": probe_error, "humidity_error": HYGROMETER}
        ends = [after_halvings(start, air, humidity, float(each) / halving, **given) for each in self._at]
        low, read, high = 100 * np.array(ends).T
        self._bloom.set(y=100 * surface_limit(kind).low, height=100 * (1 - surface_limit(kind).low))
        self._errors.set_data(self._at, low, high)
        self._curve.set_data(self._at, read)
        found = storage.film_off.floats(opened, start, air, humidity, halving, kind, **given)
        self._ring.set_data([opened], [100 * found.humidity[1]])
        self._open.set_data([opened, opened], [0, 100 * found.humidity[1]])
        self.alt = self._says(opened, found, kind, system)
        return self.alt

    def _says(self, opened, found, kind, system):
        low, read, high = found.humidity
        eye = "drops stand on it" if read > 1 else "it looks dry"
        wait = careful.written_up(found.minutes[2], 0) if math.isfinite(found.minutes[2]) else ""
        told = {
            "long enough": f"That is below the limit of {kind} chocolate, with every error.",
            "too soon": f"That is too soon for {kind} chocolate: its sugar draws water.",
            careful.CANNOT_TELL: f"Whether that is low enough for {kind} chocolate, nobody can tell.",
        }[found.verdict]
        if found.verdict != "long enough":
            told += (
                f" It should stay wrapped for {careful.wait_in_words(wait)}."
                if wait
                else " In this air no wait will surely do."
            )
        return (
            f"The film comes off after {opened:.0f} minutes, at {self.write(found.stands_at, 'degC', system)}: {eye}. The "
            f"air on it stands at {percent(read)} ({careful.written_down(100 * low, 0)} to {percent(high)} with every error). {told}"
        )
