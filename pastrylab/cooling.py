"""Newton's law of cooling, and boiled cream that must cool in two stages, checked from a thermometer log.

Rule: FDA Food Code 3-501.14(A): cooked food that must be kept cold falls from 57 to 21 degC (135 to 70 degF) within 2 h,
and from 57 to 5 degC (41 degF) within 6 h in all. A log tells what the probe saw, where it stood. Nothing here says that
food may be eaten: the local code and licensed practice prevail.
"""

from dataclasses import dataclass

import numpy as np

from pastrylab.units import In, Quantity, Reading, StudentError, both, takes

HOT, MIDDLE, COLD = 57.0, 21.0, 5.0  # degC
FIRST_LIMIT, WHOLE_LIMIT = 120.0, 360.0  # minutes
CAUTION = (
    "A log shows what the probe saw. It says nothing about what was in the cream before. Your local food code and "
    "licensed practice prevail."
)
INSIDE, MISSED, OPEN = "within the limits", "a limit was missed", "cannot say yet"
_TYPICAL_ERROR = "0.5 delta_degC"
_NAMES = ("57 to 21 °C (135 to 70 °F)", "57 to 5 °C (135 to 41 °F)")


@dataclass(frozen=True)
class Stage:
    """One limit: name, minutes it took (None where the log does not show the end), minutes allowed, kept: True, False or
    None where the log cannot tell.
    """

    name: str
    minutes: float | None
    allowed: float
    kept: bool | None


@dataclass(frozen=True)
class Cooling:
    """What a cooling log shows: `verdict` ("within the limits", "a limit was missed" or "cannot say yet"), two stages,
    the sentence, what to do, and the caution that goes with it.
    """

    verdict: str
    stages: tuple[Stage, ...]
    started: float
    sentence: str
    advice: str
    caution: str = CAUTION


def check_cooling(log, probe_error=_TYPICAL_ERROR):
    """Whether a log shows the two limits kept: a Cooling. log: DataFrame with minutes and degC, as read_log gives.

    The clock starts when the log last falls through 57 degC; a limit is reached when it falls through 21 or 5 degC for
    the last time, in a straight line between readings. It counts as kept only where it is kept on the unsafe side too:
    probe_error against you, the clock running from the last reading above 57 degC to the first one below the limit.
    Source: FDA Food Code 3-501.14(A). Raises StudentError for a log without two readings.
    """
    error = In("delta_degC", at_least=0, at_most=5, example="0.5 delta_degC").floats("probe_error", probe_error)
    minutes, degrees = _arrays(log)
    read, unsafe = _took(minutes, degrees, 0.0), _took(minutes, degrees, error, between=False)
    seen = degrees.max() > HOT - error
    stages = tuple(
        _stage(name, allowed, r, u, seen, minutes[-1] - read[0])
        for name, allowed, r, u in zip(_NAMES, (FIRST_LIMIT, WHOLE_LIMIT), read[1:], unsafe[1:], strict=True)
    )
    kept = [stage.kept for stage in stages]
    verdict = MISSED if False in kept else INSIDE if all(kept) else OPEN
    left = [stage.allowed - (minutes[-1] - read[0]) for stage in stages]
    return Cooling(verdict, stages, read[0], _sentence(stages, seen), _advice(stages, verdict, seen, left))


def _arrays(log):
    try:
        minutes, degrees = log["minutes"].to_numpy(float), log["degC"].to_numpy(float)
    except (KeyError, TypeError, AttributeError):
        raise StudentError(
            "a log without minutes and degC", "a log as read_log gives it", "read_log('my_log.csv')"
        ) from None
    known = np.isfinite(minutes) & np.isfinite(degrees)
    minutes, degrees = minutes[known], degrees[known]
    if len(minutes) < 2 or np.any(np.diff(minutes) <= 0):
        raise StudentError(
            "a log with fewer than two readings in order", "readings whose times rise", "0, 60 C / 30, 40 C"
        )
    return minutes, degrees


def _took(minutes, degrees, error, between=True):
    """(start of the clock, minutes to 21 degC, minutes to 5 degC or None) with the probe's error on the unsafe side.

    between: whether the line between two readings is believed.
    """
    start = _falls_through(minutes, degrees, HOT + error, 0.0 if not between else None)
    if start is None:
        start = float(minutes[-1] if degrees[-1] > HOT else minutes[int(np.argmax(degrees))])
    ends = [_falls_through(minutes, degrees, limit - error, 1.0 if not between else None) for limit in (MIDDLE, COLD)]
    return start, *(None if end is None else max(0.0, end - start) for end in ends)


def _falls_through(minutes, degrees, limit, share):
    """When the log falls through limit for the last time; its start where it lies below throughout; None if it stays above.

    share: how far into the step between two readings; None for a straight line.
    """
    above = np.flatnonzero(degrees > limit)
    if not above.size:
        return None if limit >= HOT else float(minutes[0])
    i = int(above[-1])
    if i + 1 == len(minutes):
        return None
    if share is None:
        share = (degrees[i] - limit) / (degrees[i] - degrees[i + 1])
    return float(minutes[i] + share * (minutes[i + 1] - minutes[i]))


def _stage(name, allowed, read, unsafe, seen, so_far):
    if (so_far if read is None else read) > allowed:
        return Stage(name, read, allowed, False)
    sure = seen and unsafe is not None and unsafe <= allowed
    return Stage(name, read, allowed, True if sure else None)


def _clock(minutes):
    return f"{int(minutes + 0.5) // 60} h {int(minutes + 0.5) % 60:02d} min"


def _sentence(stages, seen):
    parts = []
    for stage in stages:
        allowed = f"{stage.allowed / 60:g} h allowed"
        if stage.minutes is not None:
            word = {True: "kept", False: "missed", None: "too close to tell by this probe and these readings"}[
                stage.kept
            ]
            if not seen and stage.kept is None:
                word = "and an unknown time before"
            parts.append(f"{stage.name}: {_clock(stage.minutes)} of {allowed}, {word}.")
        else:
            parts.append(
                f"{stage.name}: not reached in this log, {allowed}{', missed' if stage.kept is False else ''}."
            )
    if not seen:
        parts.append("The log begins below 57 °C: the clock was running before it.")
    return " ".join(parts)


def _advice(stages, verdict, seen, left):
    if stages[0].kept is False:
        return (
            "The first limit was missed. Do not use it on your own judgement: tell whoever is responsible, "
            "and follow your local code."
        )
    if verdict == MISSED:
        return "The second limit was missed. Throw it away, as your local code will ask."
    if verdict == INSIDE:
        return "Both limits were kept as far as this probe saw. Keep it at 5 °C (41 °F) or colder, dated."
    if not seen:
        return "Next time put the probe in while the cream is still hot: then the log can tell."
    for stage, minutes in zip(stages, left, strict=True):
        if stage.minutes is None:
            return f"Not done: {_clock(max(0.0, minutes))} left for {stage.name}. Spread it out, stir it over ice."
    return "Read more often, with a probe you have checked in ice water; until then treat it as not shown."


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
    """
    if np.any(np.asarray(start) < np.asarray(end)) or np.any(np.asarray(end) <= np.asarray(around)):
        given = f"{np.max(start):g} °C to {np.min(end):g} °C in surroundings of {np.max(around):g} °C"
        raise StudentError(given, "an end between the start and the surroundings", 'start="57 degC", end="21 degC"')
    return halving * np.log2((start - around) / (end - around))


@takes(
    returns="min",
    first=Reading(example="57 degC"),
    later=Reading(example="40 degC"),
    around=Reading(example="4 degC"),
    apart=In("min", above=0, example="10 min"),
)
def halving_time(first, later, around, apart):
    """Time in which the excess over the surroundings halves, from two readings `apart` in time. Newton's law of cooling."""
    if np.any(np.asarray(later) >= np.asarray(first)) or np.any(np.asarray(later) <= np.asarray(around)):
        given = f"{both(Quantity(np.max(first), 'degC'))}, later {both(Quantity(np.max(later), 'degC'))}"
        raise StudentError(given, "readings that fall towards the surroundings", 'first="57 degC", later="40 degC"')
    return apart / np.log2((first - around) / (later - around))


@takes(
    returns="degC",
    start=Reading(example="32 degC"),
    around=Reading(example="20 degC"),
    halving=In("min", above=0, example="40 min"),
    time=In("min", at_least=0, example="15 min"),
)
def temperature_after(start, around, halving, time):
    """What a vessel at `start` reads after `time` in surroundings at `around`: a temperature reading.

    Newton's law of cooling, the inverse of time_to_cool; it serves for warming as well.
    """
    # From the start downwards, so that no rounding lifts it above the start: after no time it is the start itself.
    return start + (start - around) * np.expm1(-np.log(2) * (time / halving))


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

    log: DataFrame with minutes and degC, as read_log gives; from its warmest reading to the coldest after it. around:
    temperature of the room. Least squares on the temperatures (Gauss-Newton, from the straight line through their
    logarithms). Raises StudentError for fewer than four readings, a fall of less than 1 K, readings not above the room,
    or a log that does not bend towards the room.
    """
    room = Reading().floats("around", around)
    minutes, degrees = _falling(*_arrays(log))
    if len(minutes) < 4 or degrees[0] - degrees[-1] < 1:
        given = f"{len(minutes)} falling readings, {degrees[0] - degrees[-1]:.1f} degrees from first to last"
        raise StudentError(given, "at least four readings that fall by a degree or more", "one every five minutes")
    if degrees.min() <= room:
        given = f"a reading of {degrees.min():g} °C in a room of {room:g} °C"
        raise StudentError(given, "readings warmer than what is around the vessel", 'around="18 degC"')
    excess, rate = _newton(minutes - minutes[0], degrees - room)
    if not rate > 0:
        raise StudentError(
            "a log that does not fall towards the room", "one left alone to cool", "no stirring over heat"
        )
    curve = excess * np.exp(-rate * (minutes - minutes[0]))
    left = degrees - room - curve
    spread = float(np.sqrt(left @ left / (len(left) - 2)))
    slopes = np.column_stack((curve / excess, -(minutes - minutes[0]) * curve))
    error = spread * float(np.sqrt(np.linalg.inv(slopes.T @ slopes)[1, 1]))
    halving = float(np.log(2) / rate)
    return Fit(
        Quantity(halving, "min"),
        Quantity(halving * error / rate, "min"),
        Quantity(1 / rate, "min"),
        len(minutes),
        Quantity(spread, "delta_degC"),
        f"Its excess over the room halves in {halving:.3g} minutes, give or take {halving * error / rate:.1g} "
        f"({len(minutes)} readings).",
    )


def _falling(minutes, degrees):
    top = int(np.argmax(degrees))
    end = top + int(np.argmin(degrees[top:])) + 1
    return minutes[top:end], degrees[top:end]


def _newton(minutes, excess):
    """(excess at the start, rate) of excess x exp(-rate t), by Gauss-Newton."""
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
