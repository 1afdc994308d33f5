"""How long one's own bowl, pan or cold tray takes to come half the way to its room, from a log of it left alone: on the
careful side.

The fit is that of `cooling`. Here the errors of the thermometers are carried, and the law itself is asked about: a bowl
that was stirred over heat, got its seed or began to set does not fall by it, however well a curve can be laid through. A
tray that warms is reckoned as its mirror image in the room, and spoken of as itself.
"""

import math
from dataclasses import dataclass

import numpy as np

from pastrylab.ground import careful
from pastrylab.ground.units import In, Quantity, Reading, StudentError, both, takes
from pastrylab.logs.cooling import newton
from pastrylab.logs.series import known

MEASURED = "measured"
LEAST_READINGS = 5
# Common practice, no source: less of a fall than this shows little, and a span as wide as that is of no use.
LEAST_COVERED, WIDEST = 1 / 3, 1.5
# The nearer to the room, the more of the excess is error: readings closer than so many errors are left out.
_ERRORS_AWAY = 3.0
# Common practice, no source: about a curve, stirring and a hand-held probe scatter by so many degC; so many readings
# show whether neighbours miss alike, where they miss by more than so many degC (2 would be pure chance).
_JUMPY, _MANY, _FINE, _ALIKE = 0.5, 8, 0.1, 0.8
_SAME = 0.004  # degC: what rounding on the way from °F leaves
# Student's t, 97.5 %, by degrees of freedom (any table of it); between them in 1 / freedom.
_FREEDOM = (1, 2, 3, 4, 5, 6, 8, 10, 15, 20, 30, 60, 1e9)
_STUDENT = (12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.306, 2.228, 2.131, 2.086, 2.042, 2.000, 1.960)


@dataclass(frozen=True)
class Halving:
    """What a log tells of a vessel's halving time: a verdict (MEASURED or CANNOT_TELL), a sentence, and what to do next.

    halving, low, high: times, None where nothing is told. used, of: readings used and all there are. begins, ends:
    minutes of the first and last one used. curves: (excess at the start in degC, rate in 1 / min, room in degC) of the
    fit, and of that at both ends of the error.
    """

    verdict: str
    sentence: str
    advice: str
    used: int
    of: int
    begins: float
    ends: float
    curves: tuple[tuple[float, float, float], ...]
    halving: Quantity | None = None
    low: Quantity | None = None
    high: Quantity | None = None


@dataclass(frozen=True)
class _Way:
    """A vessel that cools (sign 1) or a tray that warms (-1), in words."""

    sign: int
    thing: str
    moves: str
    move: str
    moved: str
    beyond: str
    room: str
    alone: str
    end: str
    disturbed: str
    good_for: str

    def real(self, degrees, around):
        """A temperature as it was, of one in the reckoning."""
        return around + self.sign * (degrees - around)


_COOLS = _Way(
    1,
    "a bowl",
    "falls",
    "fall",
    "fallen",
    "above",
    "colder",
    "to cool",
    "down",
    "Heat under it, seed, a lid, a move, a draught, or chocolate that sets would do that. Take the minutes before, or begin "
    "again: stir before each reading, and hold the probe in the middle.",
    "For this vessel, this filling and this room alone.",
)
_WARMS = _Way(
    -1,
    "a tray",
    "rises",
    "rise",
    "risen",
    "below",
    "warmer",
    "to warm",
    "up",
    "A wrapping opened, a move, a draught, a door, or water that settled on it would do that. Begin again: wrapped, in one "
    "place, the probe under a piece in the middle.",
    "For this tray, wrapped as it was, and this room alone.",
)
_AROUND, _ERROR = Reading(example="20 degC"), In("delta_degC", above=0, at_most=5, example="1 delta_degC")


@takes(around=_AROUND, error=_ERROR)
def own_warming(log, around, error="1 delta_degC", until=None):
    """The halving time of a cold tray left wrapped in its room, from a log: a Halving, with all errors or "cannot tell".

    The arguments, errors and limits are those of own_halving; the log is used from its coldest reading to the warmest
    after it. What it finds goes into storage.how_long_wrapped: `halving`, and the farther of its ends as `halving_error`.
    Raises StudentError as own_halving, here for what does not warm.

    >>> from pastrylab.logs.reader import read_log
    >>> log = read_log("min, degC\\n0, 5\\n10, 9.7\\n20, 13\\n30, 15.3\\n40, 17\\n50, 18.2")
    >>> found = own_warming(log, "21 degC", "0.5 delta_degC")
    >>> found.verdict, round(found.halving.m_as("min")), round(found.low.m_as("min")), round(found.high.m_as("min"))
    ('measured', 20, 18, 22)
    """
    minutes, degrees = known(log)
    return _halving(minutes, 2 * around - degrees, around, error, until, _WARMS)


@takes(around=_AROUND, error=_ERROR)
def own_halving(log, around, error="1 delta_degC", until=None):
    """The halving time of a vessel left alone in its room, from a log: a Halving, with all errors or "cannot tell".

    log: as read_log gives it; used from its warmest reading to the coldest after it, up to minute `until`. around: the
    room. error: how far a reading less the room's may be off, both thermometers together. Low and high hold the scatter
    of the readings (97.5 % by Student's t) at both ends of `error`. "Cannot tell": a fall of less than a third of a
    halving, a span wider than half as much again, readings that jump, and a log that falls as if towards another room.
    Raises StudentError for fewer than five readings, for what does not cool, and for a log that crosses its room.

    >>> from pastrylab.logs.reader import read_log
    >>> log = read_log("min, degC\\n0, 45\\n10, 38.9\\n20, 34.2\\n30, 30.8\\n40, 28.2\\n50, 26.2")
    >>> found = own_halving(log, "20 degC", "0.5 delta_degC")
    >>> found.verdict, round(found.halving.m_as("min")), round(found.low.m_as("min")), round(found.high.m_as("min"))
    ('measured', 25, 24, 26)
    """
    return _halving(*known(log), around, error, until, _COOLS)


def _halving(minutes, degrees, around, error, until, way):
    """The Halving of a log in which what is above the room falls."""
    of = len(minutes)
    minutes, degrees = _alone(minutes, degrees, around, error, until, way)
    since, excess, step = minutes - minutes[0], degrees - around, _step(way.real(degrees, around))
    fits = [_fit(since, excess - shift, step, way) for shift in (0.0, error, -error)]
    curves = tuple(
        (way.sign * fit.excess, fit.rate, around + way.sign * shift)
        for fit, shift in zip(fits, (0.0, error, -error), strict=True)
    )
    made = {"used": len(minutes), "of": of, "begins": float(minutes[0]), "ends": float(minutes[-1]), "curves": curves}
    low, high = min(fit.low for fit in fits), max(fit.high for fit in fits)
    open_ = _open(since, excess, fits[0], (low, high), error, step, around, way)
    if open_:
        return Halving(careful.CANNOT_TELL, f"Cannot tell: {open_[0]}", open_[1], **made)
    middle = math.log(2) / fits[0].rate
    first, last = (_c(way.real(one, around)) for one in (degrees[0], degrees[-1]))
    sentence = (
        f"It comes half the way to its room in {_span(middle, low, high)} with every error ({len(minutes)} readings, "
        f"{first} to {last})."
    )
    times = {name: Quantity(x, "min") for name, x in (("halving", middle), ("low", low), ("high", high))}
    return Halving(MEASURED, sentence, way.good_for, **made, **times)


def _alone(minutes, degrees, around, error, until, way):
    """The readings while it moved by itself, still well away from the room. StudentError where there are too few."""
    if until is not None:
        inside = minutes <= until
        minutes, degrees = minutes[inside], degrees[inside]
    if not len(minutes):
        raise StudentError(f"{way.thing} left alone for no time", "the minutes while nobody touched it", "20 min")
    top = int(np.argmax(degrees))
    end = top + int(np.argmin(degrees[top:])) + 1
    minutes, degrees = minutes[top:end], degrees[top:end]
    if degrees[-1] < around - error:
        given = f"{way.thing} at {way.real(degrees[-1], around):.4g} °C in a room of {around:.4g} °C"
        raise StudentError(given, f"a room {way.room} than the log ever is", "what a thermometer beside it showed")
    near = np.flatnonzero(degrees - around < _ERRORS_AWAY * error)
    end = int(near[0]) if len(near) else len(degrees)
    minutes, degrees = minutes[:end], degrees[:end]
    if len(minutes) < LEAST_READINGS or degrees[0] - degrees[-1] < 1:
        moved = max(degrees[0] - degrees[-1], 0) if len(degrees) else 0
        many = f"1 reading that {way.moves}" if len(minutes) == 1 else f"{len(minutes)} readings that {way.move}"
        given = f"{many} by {moved:.3g} °C, {_ERRORS_AWAY * error:.3g} °C or more {way.beyond} the room"
        raise StudentError(
            given, f"at least {LEAST_READINGS} that {way.move} by a degree or more", "one every five minutes"
        )
    return minutes, degrees


@dataclass(frozen=True)
class _Fit:
    """The curve excess x exp(-rate t), the shortest and longest halving time its scatter allows, and its misses."""

    excess: float
    rate: float
    low: float
    high: float
    misses: np.ndarray


def _fit(since, excess, step, way):
    start, rate = newton(since, excess)
    curve = start * np.exp(-rate * since)
    slopes = np.column_stack((curve / start, -since * curve))
    misses, free = excess - curve, len(since) - 2
    within = _student(free) * _scatter(misses, free, step) * math.sqrt(np.linalg.inv(slopes.T @ slopes)[1, 1])
    if not rate > 0:
        raise StudentError(f"a log that does not {way.move} to the room", f"one left alone {way.alone}", "untouched")
    slowest = rate - within
    return _Fit(start, rate, math.log(2) / (rate + within), math.log(2) / slowest if slowest > 0 else math.inf, misses)


def _open(since, excess, fit, span, error, step, around, way):
    """(why nothing can be told, what would decide), or None."""
    off = _off_the_law(since, fit, error, step, way)
    if off:
        return (
            f"it does not {way.move} as {way.thing} left alone in a room of {_c(around)} does. {off}",
            way.disturbed,
        )
    low, high = span
    much = careful.at_least(since[-1] * fit.rate / math.log(2), LEAST_COVERED)
    if much and careful.at_most(high / low, WIDEST):
        return None
    up = f"to {careful.written_up(high, 0)} minutes" if math.isfinite(high) else "minutes up"
    moved = _c(excess[0] - excess[-1], True)
    why = "its readings leave too much open." if much else f"it has {way.moved} by {moved}, too little to see the bend."
    return (
        f"anything from {careful.written_down(low, 0)} {up} would do: {why}",
        f"Leave it alone until it is {way.end} to {_c(around + way.sign * fit.excess * 2**-0.75)}, or read it and the room "
        "with one good probe.",
    )


def _off_the_law(since, fit, error, step, way):
    """What in the readings speaks against the curve, as a sentence, or ""."""
    if _scatter(fit.misses, len(since) - 2, 0.0) > _JUMPY:
        return f"Its readings lie up to {_c(np.abs(fit.misses).max(), True)} from the nearest such curve."
    decay = np.exp(-fit.rate * since)
    slopes = np.column_stack((decay, -since * fit.excess * decay, np.ones(len(since))))
    change = np.linalg.lstsq(slopes, fit.misses, rcond=None)[0]
    left, free = fit.misses - slopes @ change, len(since) - 3
    within = _student(free) * _scatter(left, free, step) * math.sqrt(np.linalg.inv(slopes.T @ slopes)[2, 2])
    if abs(change[2]) > error + within:
        return f"It {way.moves} as if the room were {'warmer' if way.sign * change[2] > 0 else 'colder'}."
    # Neighbours that miss alike: mean square of what changes from one to the next, against that of the misses.
    spread = _scatter(left, free, 0.0)
    if len(left) >= _MANY and spread > _FINE + step / 2 and np.mean(np.diff(left) ** 2) < _ALIKE * np.mean(left**2):
        return f"Its readings wind about the nearest such curve, {_c(spread, True)} to either side."
    return ""


def _step(degrees):
    """The step of the display in degC: the coarsest of the usual ones, in °C or °F, on which every reading stands."""
    for step in (1.0, 0.5, 0.2, 0.1):
        for size, zero in ((step / 1.8, 32 / 1.8), (step, 0.0)):
            counted = (degrees + zero) / size
            if np.all(np.abs(counted - np.round(counted)) * size < _SAME):
                return size
    return 0.0


def _scatter(misses, free, step):
    """The spread of readings about a curve, never less than a display of that step hides."""
    return max(math.sqrt(misses @ misses / free), step / math.sqrt(12))


def _student(free):
    return float(np.interp(-1 / free, [-1 / one for one in _FREEDOM], _STUDENT))


def _span(middle, low, high):
    """The time and its ends, to whole minutes where it is long; the ends never read narrower than they are."""
    digits = 0 if middle >= 19.5 else 1
    return f"{middle:.{digits}f} minutes: {careful.written_down(low, digits)} to {careful.written_up(high, digits)}"


def _c(degrees, difference=False):
    return both(Quantity(float(degrees), "delta_degC" if difference else "degC"), 3)
