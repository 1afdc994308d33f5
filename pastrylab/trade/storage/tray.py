"""A tray out of the cold: may it be unwrapped, and how long it must stay wrapped, every error against the reader.

Wrapped means air-tight: the cold air inside brings its own little water, and none comes after it.
"""

import itertools
import math
from dataclasses import dataclass

from pastrylab.ground import careful
from pastrylab.ground.units import Difference, In, Quantity, Share, StudentError, both, takes
from pastrylab.trade.newton import halvings
from pastrylab.trade.storage.air import AIR, HUMIDITY, SURFACE, coldest_surface, surface_humidity
from pastrylab.trade.storage.limits import surface_limit

PROBE_ERROR = Difference(at_least=0, at_most=5, example="0.5 delta_degC")
HUMIDITY_ERROR = Share(at_most=0.2, example='0.05 or "5 %"')
HALVING = In("min", above=0, at_most=3000, example="20 min")
# Common practice, no source: a probe of the kitchen, and the hygrometer on its wall.
PROBE_IS_OFF, HYGROMETER_IS_OFF = "0.5 delta_degC", "5 %"
ANSWERS = {True: "yes", False: "no", None: careful.CANNOT_TELL}


@dataclass(frozen=True)
class Tray:
    """May a tray come out unwrapped: verdict "yes", "no" or "cannot tell", a sentence, and what to do.

    humidity: of the air at its surface, (low, as read, high), shares; above 1 it is wet. limit: (low, high), shares.
    """

    verdict: str
    humidity: tuple[float, float, float]
    limit: tuple[float, float]
    sentence: str
    advice: str

    def __str__(self):
        return f"{self.sentence} {self.advice}"


def at_the_ends(surface, air, humidity, probe_error, humidity_error):
    """(low, as read, high) of the humidity at a surface: both thermometers and the hygrometer at their worst.

    What is warmer than the room counts as the room: there it will be. Plain floats: degC and shares. Raises nothing inside what surface_humidity takes.

    >>> [round(one, 2) for one in at_the_ends(15.0, 22.0, 0.55, 0.5, 0.05)]
    [0.73, 0.85, 0.99]
    """
    found = []
    for sign in (-1, 0, 1):
        room = air + sign * probe_error
        coldest = min(surface - sign * probe_error, room)
        found.append(surface_humidity.floats(coldest, room, _share(humidity, sign * humidity_error)))
    return tuple(found)


def _share(humidity, error):
    return min(1.0, max(0.01, humidity + error))


@takes(surface=SURFACE, air=AIR, humidity=HUMIDITY, probe_error=PROBE_ERROR, humidity_error=HUMIDITY_ERROR)
def may_come_out(surface, air, humidity, kind="dark", probe_error=PROBE_IS_OFF, humidity_error=HYGROMETER_IS_OFF):
    """May chocolate of this surface temperature stand unwrapped in this air: a Tray.

    surface, air: readings; humidity: of the air, a share; kind: dark, milk, white or an own couverture. probe_error: of
    either thermometer; humidity_error: of the hygrometer, a share. "yes" is said where the humidity at the surface stays
    below the sugar-bloom limit at the worst of all errors, "no" where it is above at the best of them. Sources:
    surface_humidity, surface_limit. Raises StudentError.

    >>> found = may_come_out("15 degC", "22 degC", "55 %", "dark")
    >>> found.verdict, may_come_out("20 degC", "22 degC", "45 %").verdict, may_come_out("5 degC", "22 degC", "55 %").verdict
    ('cannot tell', 'yes', 'no')
    """
    limit, errors = surface_limit(kind), (probe_error, humidity_error)
    low, middle, high = at_the_ends(surface, air, humidity, *errors)
    wet = careful.above(low, min(limit.high, 1.0))
    out = True if careful.below(high, limit.low) else False if wet else None
    water = " Water settles on it." if low > 1 else ""
    sentence = (
        f"The air at its surface stands at {_percent(middle)}, {_percent(low, math.floor)} to {_percent(high)} with every "
        f"error. {_draws(kind, limit)}{water} {_SAID[out]}"
    )
    at = unwrap_at(air, humidity, limit.low, *errors)
    return Tray(
        ANSWERS[out], (low, middle, high), (limit.low, limit.high), sentence, _advice(out, at, air, middle, limit)
    )


_SAID = {True: "It may come out.", False: "It may not come out.", None: "Whether it may come out, nobody can tell."}


def unwrap_at(air, humidity, limit, probe_error, humidity_error):
    """What the coldest piece must read before it is unwrapped, in degC: below the limit even at the worst of all errors.

    Plain floats: degC and shares. Warmer than the air where the room itself may be above the limit.

    >>> round(unwrap_at(22.0, 0.55, 0.82, 0.5, 0.05), 1)
    18.0
    """
    worst = coldest_surface.floats(air + probe_error, _share(humidity, humidity_error), limit)
    return worst + probe_error


def _draws(kind, limit):
    """From where on a kind draws water, as a sentence; one that no source speaks of is judged as milk is."""
    name = str(kind).strip()
    who = name[:1].upper() + name[1:] + ("" if "chocolate" in name.casefold() else " chocolate")
    if limit.high == math.inf:
        return f"{who} is judged by milk's {_whole(limit.low)} %: no source was found for it."
    to = "" if limit.high == limit.low else f" to {_whole(limit.high)}"
    return f"{who} begins to draw water at {_whole(limit.low)}{to} %."


def _whole(share):
    return f"{100 * share:.0f}"


def _percent(share, toward=math.ceil):
    return f"{toward(round(100 * share, 6))} %"


def _c(degrees):
    return both(Quantity(math.ceil(round(10 * degrees, 6)) / 10, "degC"), 3)


def _until(at, air):
    if at < air:
        return f"Keep it wrapped, air-tight, until the coldest piece reads {_c(at)}."
    return "No wait will do in this room, as far as these instruments can tell: dry or change the air first."


def _advice(out, at, air, middle, limit):
    if out:
        return "Read the coldest piece, not the first one you reach."
    if out is None and limit.low <= middle <= limit.high:
        return f"No instrument decides that: the limit itself is not known better. {_until(at, air)}"
    if out is None:
        return f"A finer hygrometer, and one probe for both readings, would decide. {_until(at, air)}"
    return _until(at, air)


@dataclass(frozen=True)
class Wrapped:
    """How long a tray stays wrapped: verdict "so long", "not at all", "not in this room" or "cannot tell", a sentence.

    minutes: (low, as read, high) until the air at its surface is below the limit; inf where it never is. unwrap_at: what
    the coldest piece must read, with every error; the clock only says when to begin looking.
    """

    verdict: str
    minutes: tuple[float, float, float]
    unwrap_at: Quantity
    sentence: str

    def __str__(self):
        return self.sentence


@takes(
    start=SURFACE,
    air=AIR,
    humidity=HUMIDITY,
    halving=HALVING,
    halving_error=In("min", at_least=0, at_most=1000, example="3 min"),
    probe_error=PROBE_ERROR,
    humidity_error=HUMIDITY_ERROR,
)
def how_long_wrapped(
    start,
    air,
    humidity,
    halving,
    kind="dark",
    halving_error="0 min",
    probe_error=PROBE_IS_OFF,
    humidity_error=HYGROMETER_IS_OFF,
):
    """How long a tray from `start` must stay wrapped in this room: a Wrapped.

    halving: the time in which what it is colder than the room halves, from a log of one such tray, wrapped as it is;
    halving_error: how far that may be off. The others as may_come_out. Newton's law, reckoned at every end of the errors,
    until the humidity at the surface is below the sugar-bloom limit, not until the dew point and not until the room.
    Raises StudentError for a halving time not longer than its error.

    >>> found = how_long_wrapped("5 degC", "21 degC", "50 %", "20 min")
    >>> found.verdict, [round(one) for one in found.minutes]
    ('so long', [12, 21, 28])
    """
    if halving_error >= halving:
        raise StudentError(
            f"a halving time of {halving:g} min that may be off by {halving_error:g} min",
            "an error smaller than the time itself",
            "20 min, give or take 3 min",
        )
    limit = surface_limit(kind)
    low, high = _ends_of_wait(start, air, humidity, halving, limit, (halving_error, probe_error, humidity_error))
    at = unwrap_at(air, humidity, limit.low, probe_error, humidity_error)
    verdict, sentence = _said_of(low, high, at, air, _draws(kind, limit))
    read = _wait(start, air, humidity, halving, limit.low)
    return Wrapped(verdict, (low, read, high), Quantity(at, "degC"), sentence)


def _ends_of_wait(start, air, humidity, halving, limit, errors):
    """The shortest wait, to the upper end of the limit, and the longest, to its lower: at the corners of all errors."""
    clock, probe, meter = errors
    corners = [
        (start + a * probe, air + b * probe, _share(humidity, c * meter), halving + d * clock)
        for a, b, c, d in itertools.product((-1, 1), repeat=4)
    ]
    low = min(_wait(*corner, min(limit.high, 1.0)) for corner in corners)
    return low, max(_wait(*corner, limit.low) for corner in corners)


def _wait(start, air, humidity, halving, limit):
    """Minutes until the surface humidity falls to a limit; inf where it never does."""
    needed = coldest_surface.floats(air, humidity, limit)
    if needed >= air:
        return math.inf
    return 0.0 if start >= needed else halving * halvings(start, needed, air)


def _by_reading(at, air):
    if at < air:
        return f"Unwrap it once the coldest piece reads {_c(at)}, whatever the clock says."
    return "Its own reading cannot show it with these errors: read piece and room with one probe."


def _span(least, most):
    """From one wait to another: minutes by their numbers alone, hours in words."""
    if int(most) < 120:
        return f"{least} to {most}"
    return f"{careful.wait_in_words(least)} to {careful.wait_in_words(most)}"


def _said_of(low, high, at, air, draws):
    if high == 0:
        return "not at all", f"{draws} It is warm enough now, at every end of the errors: it may be unwrapped."
    if math.isfinite(high):
        least, most = (careful.written_down(low, 0), careful.written_up(high, 0))
        return "so long", (
            f"{draws} Leave it wrapped for {careful.wait_in_words(most)}, the longest of {_span(least, most)} with every error. "
            f"{_by_reading(at, air)}"
        )
    if not math.isfinite(low):
        return "not in this room", (
            f"{draws} This room's own air is above that: no wait will do. Dry it, or take the tray to another room."
        )
    return careful.CANNOT_TELL, (
        f"{draws} With these errors this room's own air may be above that. A finer hygrometer would decide, drier air would "
        "help; until then it stays wrapped."
    )
