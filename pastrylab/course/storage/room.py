"""The figure of a store room over a day, in lesson 07."""

import math

import numpy as np

from pastrylab.course.storage.figures import WET, percent
from pastrylab.ground import careful
from pastrylab.page.picture import BAND, HABIT, INK, LINE, Picture
from pastrylab.trade.storage.day import at_hour, day_in_store
from pastrylab.trade.storage.limits import surface_limit
from pastrylab.trade.storage.tray import at_the_ends

_PROBE = 0.5  # degrees C: common practice, no source


class RoomDay(Picture):
    """Humidity in a room and on its coldest shelf from midnight to midnight, against the limit."""

    def __init__(self):
        super().__init__(height=4.9)
        axes = self.axes
        axes.set_title("A day in the store room", fontsize=14, loc="left")
        axes.set_xlabel("hour of the day")
        axes.set_ylabel("humidity, %")
        axes.set(xlim=(0, 24), ylim=(20, 120), xticks=range(0, 25, 4))
        hatched = {"lw": 0, "zorder": 0.5}
        axes.axhspan(100, 400, facecolor=WET, edgecolor="#5d7f91", hatch="..", label="wet", **hatched)
        self._bloom = axes.axhspan(
            78, 100, facecolor=BAND, edgecolor="#8a6a14", hatch="//", label="dry, but draws water", **hatched
        )
        at = self._at = np.linspace(0, 24, 73)
        self._errors = axes.fill_between(
            at, at, at, color=HABIT, alpha=0.7, lw=0, zorder=1, label="shelf, with every error"
        )
        (self._shelf,) = axes.plot([], [], color=LINE, lw=2.6, zorder=2, label="shelf")
        (self._indoors,) = axes.plot([], [], color=INK, lw=1.8, ls="--", zorder=2, label="room")
        axes.legend(loc="lower right", fontsize=11, ncols=2)

    def update(self, *, warmest, coldest, humidity, humidity_error, kind, colder_by, system="metric"):
        """warmest, coldest: degC; colder_by: degrees C; shares. Returns the sentence. Raises StudentError as day_in_store."""
        given = {"kind": kind, "probe_error": _PROBE, "humidity_error": humidity_error}
        day = day_in_store.floats(warmest, coldest, humidity, colder_by, **given)
        room = [at_hour(warmest, coldest, float(hour)) for hour in self._at]
        ends = [at_the_ends(each - colder_by, warmest, humidity, _PROBE, humidity_error) for each in room]
        low, read, high = 100 * np.array(ends).T
        self._errors.set_data(self._at, low, high)
        self._shelf.set_data(self._at, read)
        self._indoors.set_data(self._at, [100 * at_the_ends(each, warmest, humidity, 0.0, 0.0)[1] for each in room])
        limit = surface_limit(kind).low
        self._bloom.set(y=100 * limit, height=100 * (1 - limit))
        self.alt = " ".join(self._says(day, humidity, kind, system))
        return self.alt

    def _says(self, day, humidity, kind, system):
        """Room, shelf, hours, warmth: a sentence each."""
        yield f"By night the {percent(humidity)} of the warm hour are {percent(day.room_by_night)} in the room."
        low, read, high = day.humidity
        wet = ", so water settles there" if read > 1 else ""
        yield f"On the shelf it comes to {percent(read)} ({careful.written_down(100 * low, 0)} to {percent(high)} with every error){wet}."
        surely, perhaps = day.hours
        if day.verdict == "over":
            least, most = hours(surely, down=True), hours(perhaps)
            span = f"for at least {least}, at most {most}" if least and least != most else f"for {most}"
            yield f"It is over the limit of {kind} chocolate {span} of the day."
        elif day.verdict == "stays below":
            yield f"It stays below the limit of {kind} chocolate all day, with every error."
        else:
            yield f"Whether it is over the limit of {kind} chocolate nobody can tell: perhaps {hours(perhaps)} a day."
        if day.too_warm is not False:
            maybe = "" if day.too_warm else "perhaps "
            yield f"And it is {maybe}warm enough by day for fat bloom."
        elif day.swing >= 4:
            yield f"It swings by {self.swing(day.swing, system)} a day: each warm hour melts a little fat, each cold one sets it."

    def swing(self, degrees, system):
        """A difference of temperatures as text.

        >>> RoomDay().swing(6.0, "US")
        '11 °F'
        """
        return f"{degrees:.3g} °C" if system == "metric" else f"{1.8 * degrees:.0f} °F"


def hours(number, down=False):
    """Hours in words, to half an hour: up, or with down=True down, then "" for less than half an hour.

    >>> hours(0.2), hours(1.0), hours(4.7), hours(4.7, down=True), hours(24.0)
    ('half an hour', '1 hour', '5 hours', '4.5 hours', '24 hours')
    """
    halves = int((math.floor if down else math.ceil)(round(2 * number, 6)))
    if halves == 1:
        return "half an hour"
    return f"{halves / 2:g} hour{'' if halves == 2 else 's'}" if halves else ""
