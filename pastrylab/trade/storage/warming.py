"""A tray that warms with nobody reading it: what lies on it when its film comes off after so many minutes."""

import itertools
from dataclasses import dataclass

from pastrylab.ground import careful
from pastrylab.ground.units import In, takes
from pastrylab.trade import newton
from pastrylab.trade.storage.air import AIR, HUMIDITY, SURFACE, surface_humidity
from pastrylab.trade.storage.tray import (
    HALVING,
    HUMIDITY_ERROR,
    HYGROMETER_IS_OFF,
    PROBE_ERROR,
    PROBE_IS_OFF,
    how_long_wrapped,
)


@dataclass(frozen=True)
class Opened:
    """What was on a tray when it was opened: verdict "long enough", "too soon" or "cannot tell".

    stands_at: its temperature then as read, degC; humidity: of the air on it, (low, as read, high), shares, above 1 wet;
    minutes: it should have stayed wrapped, as how_long_wrapped.
    """

    verdict: str
    stands_at: float
    humidity: tuple[float, float, float]
    minutes: tuple[float, float, float]


def after_halvings(start, air, humidity, spent, probe_error, humidity_error):
    """(low, as read, high) of the humidity of a room's air on a tray, so many halving times after it came out.

    Plain floats, degC and shares: start: of the tray; air: of the room; the ends are those of all errors, each thermometer's
    taken before the tray came out. Raises nothing inside what surface_humidity takes.

    >>> [round(one, 2) for one in after_halvings(4.0, 20.0, 0.5, 1.0, 0.5, 0.05)]  # at 12 degC after one
    [0.73, 0.83, 0.95]
    """
    found = [
        surface_humidity.floats(
            newton.after(start + a * probe_error, air + b * probe_error, spent),
            air + b * probe_error,
            min(1.0, max(0.01, humidity + c * humidity_error)),
        )
        for a, b, c in itertools.product((-1, 1), repeat=3)
    ]
    return min(found), surface_humidity.floats(newton.after(start, air, spent), air, humidity), max(found)


@takes(
    opened=In("min", at_least=0, at_most=3000, example="25 min"),
    start=SURFACE,
    air=AIR,
    humidity=HUMIDITY,
    halving=HALVING,
    probe_error=PROBE_ERROR,
    humidity_error=HUMIDITY_ERROR,
)
def film_off(
    opened,
    start,
    air,
    humidity,
    halving,
    kind="dark",
    probe_error=PROBE_IS_OFF,
    humidity_error=HYGROMETER_IS_OFF,
):
    """What lies on a tray from `start` that is opened after so many minutes in this room: an Opened.

    The arguments as how_long_wrapped. "long enough" is said where it holds at every end of the errors. Raises StudentError.

    >>> found = film_off("20 min", "4 degC", "20 degC", "50 %", "20 min", "milk")
    >>> found.verdict, f"{found.stands_at:g} degC", f"{found.humidity[1]:.2f}"
    ('cannot tell', '12 degC', '0.83')
    """
    errors = {"probe_error": probe_error, "humidity_error": humidity_error}
    minutes = how_long_wrapped.floats(start, air, humidity, halving, kind, **errors).minutes
    late, soon = opened >= minutes[2], opened < minutes[0]
    verdict = "long enough" if late else "too soon" if soon else careful.CANNOT_TELL
    spent = opened / halving
    on_it = after_halvings(start, air, humidity, spent, **errors)
    return Opened(verdict, newton.after(start, air, spent), on_it, minutes)
