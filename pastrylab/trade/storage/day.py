"""A store room over a day: warm in the afternoon, cool before dawn, with the same water in its air all the while."""

import math
from dataclasses import dataclass

from pastrylab.ground import careful
from pastrylab.ground.units import Difference, StudentError, takes
from pastrylab.trade.storage.air import AIR, HUMIDITY, coldest_surface, surface_humidity
from pastrylab.trade.storage.limits import store_band, surface_limit
from pastrylab.trade.storage.tray import (
    HUMIDITY_ERROR,
    HYGROMETER_IS_OFF,
    PROBE_ERROR,
    PROBE_IS_OFF,
    at_the_ends,
    unwrap_at,
)

DAY, WARMEST_AT = 24.0, 16.0  # hours; common practice, no source: a room is warmest in the later afternoon


@dataclass(frozen=True)
class StoreDay:
    """What a day does to chocolate on a shelf.

    hours: (surely, perhaps) over the sugar-bloom limit, of 24: the second counts every error against the reader and holds
    the first. humidity: on the shelf at the coldest hour, (low, as read, high), shares. room_by_night: of the room's air
    then, as read. verdict: "stays below", "over" or "cannot tell"; too_warm: whether the room comes to where fat bloom is
    said to begin, True, False or None for "cannot tell"; swing: in degrees Celsius.
    """

    verdict: str
    hours: tuple[float, float]
    humidity: tuple[float, float, float]
    room_by_night: float
    too_warm: bool | None
    swing: float


def at_hour(warmest, coldest, hour):
    """The room's temperature at an hour of the day, 0 to 24: a wave from `coldest` to `warmest`, which it meets at 16 h.

    Plain floats, degC.

    >>> at_hour(22.0, 16.0, 16.0), at_hour(22.0, 16.0, 4.0), at_hour(22.0, 16.0, 10.0)
    (22.0, 16.0, 19.0)
    """
    half = (warmest - coldest) / 2
    return coldest + half + half * math.cos(2 * math.pi * (hour - WARMEST_AT) / DAY)


def hours_below(warmest, coldest, limit):
    """Of 24 hours, those in which such a room is colder than a temperature; plain floats, degC.

    >>> hours_below(22.0, 16.0, 19.0), hours_below(22.0, 16.0, 15.0), hours_below(20.0, 20.0, 21.0)
    (12.0, 0.0, 24.0)
    """
    if limit >= warmest:
        return DAY
    if limit <= coldest:
        return 0.0
    half = (warmest - coldest) / 2
    return DAY * (1 - math.acos((limit - coldest - half) / half) / math.pi)


@takes(
    warmest=AIR,
    coldest=AIR,
    humidity=HUMIDITY,
    colder_by=Difference(at_least=0, at_most=15, example="2 delta_degC"),
    probe_error=PROBE_ERROR,
    humidity_error=HUMIDITY_ERROR,
)
def day_in_store(
    warmest,
    coldest,
    humidity,
    colder_by="0 delta_degC",
    kind="dark",
    probe_error=PROBE_IS_OFF,
    humidity_error=HYGROMETER_IS_OFF,
):
    """A day of a store room: a StoreDay.

    warmest, coldest: of the room's day, readings; humidity: read at the warmest hour, a share; colder_by: how much colder
    the shelf is than the room, a difference; kind, probe_error, humidity_error: as may_come_out. The room swings like a
    wave and its air keeps its water: doors and windows shut, nothing wet inside. Sources: surface_limit, store_band. Raises
    StudentError for a night warmer than the day.

    >>> day = day_in_store("22 degC", "16 degC", "60 %", "2 delta_degC", "milk")  # milk chocolate at an outer wall
    >>> day.verdict, [round(hours) for hours in day.hours], f"{day.humidity[1]:.2f}"
    ('over', [8, 24], '0.99')
    """
    if coldest > warmest:
        raise StudentError(
            f"a coldest hour of {coldest:g} °C and a warmest of {warmest:g} °C",
            "a coldest hour that is not warmer than the warmest",
            "16 °C and 22 °C",
        )
    limit, shelf = surface_limit(kind), (warmest - colder_by, coldest - colder_by)
    surely = _surely_below(warmest, humidity, limit.high, probe_error, humidity_error)
    perhaps = unwrap_at(warmest, humidity, limit.low, probe_error, humidity_error)
    hours = hours_below(*shelf, surely), hours_below(*shelf, perhaps)
    read = at_the_ends(coldest - colder_by, warmest, humidity, probe_error, humidity_error)
    by_night = surface_humidity.floats(coldest, warmest, humidity)
    verdict = "over" if hours[0] > 0 else careful.CANNOT_TELL if hours[1] > 0 else "stays below"
    warm = careful.at_least(warmest, store_band("fat bloom from").low, probe_error)
    return StoreDay(verdict, hours, read, by_night, warm, warmest - coldest)


def _surely_below(air, humidity, limit, probe_error, humidity_error):
    """Below which reading a surface is over the limit even at the best of all errors, in degC."""
    best = max(0.01, humidity - humidity_error)
    return coldest_surface.floats(air - probe_error, best, min(limit, 1.0)) - probe_error
