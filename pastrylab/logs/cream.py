"""Boiled cream that must cool in two stages, checked from a thermometer log.

Rule: FDA Food Code 3-501.14(A): cooked food that must be kept cold falls from 57 to 21 degC (135 to 70 degF) within 2 h,
and from 57 to 5 degC (41 degF) within 6 h in all. A log tells what the probe saw, where it stood. Nothing here says that
food may be eaten: the local code and licensed practice prevail.
"""

import math
from dataclasses import dataclass

import numpy as np

from pastrylab.ground.careful import at_most
from pastrylab.ground.units import In
from pastrylab.logs.faults import rounding
from pastrylab.logs.pan import COLD, FIRST_LIMIT, HOT, MIDDLE, WHOLE_LIMIT, Error, boiled, doubts, first, out_of_cold
from pastrylab.logs.series import known

CAUTION = (
    "A log shows what the probe saw. It says nothing about what was in the cream before. Your local food code and "
    "licensed practice prevail."
)
INSIDE, MISSED, OPEN = "within the limits", "a limit was missed", "cannot say yet"
_TYPICAL_ERROR = "0.5 delta_degC"
_BLIND = 30.0  # minutes between two readings that may hide a whole stage
_NAMES = ("57 to 21 °C (135 to 70 °F)", "57 to 5 °C (135 to 41 °F)")


@dataclass(frozen=True)
class Limit:
    """One limit: name, the least and the most minutes it can have taken (`most` None where the log does not show the
    end), minutes allowed, kept: True, False or None where the log cannot tell.
    """

    name: str
    least: float
    most: float | None
    allowed: float
    kept: bool | None


@dataclass(frozen=True)
class Cooling:
    """What a cooling log shows: `verdict` ("within the limits", "a limit was missed" or "cannot say yet"), two stages,
    `started`: the earliest minute at which the clock can have begun, the sentence, what to do, and the caution that goes
    with it.
    """

    verdict: str
    stages: tuple[Limit, ...]
    started: float
    sentence: str
    advice: str
    caution: str = CAUTION


def check_cooling(log, probe_error=_TYPICAL_ERROR):
    """Whether a log shows the two limits kept: a Cooling. log: as read_log gives it.

    The clock starts when the log first falls through 57 degC (it may begin with raw cream that warms); warming it again
    starts no new clock. Between two readings anything may have happened, and each may be wrong by probe_error: a limit
    counts as kept only where the longest time that leaves is within it (what a display of whole degrees rounds away
    against it as well), as missed only where the shortest is beyond it. Source: FDA Food Code 3-501.14(A). Raises
    StudentError for a log without two readings.

    >>> from pastrylab.logs import CREAM, read_log
    >>> text = "time, degC\\n9:05, 80\\n9:20, 58\\n9:35, 42\\n9:55, 28\\n10:15, 19\\n11:05, 9\\n12:05, 4"
    >>> check_cooling(read_log(text, job=CREAM)).verdict
    'within the limits'
    """
    error = In("delta_degC", at_least=0, at_most=5, example="0.5 delta_degC").floats("probe_error", probe_error)
    minutes, degrees = known(log)
    error = Error(error, error + rounding(degrees))
    hot = boiled(degrees, error.kept)
    minutes, degrees = minutes[hot:], degrees[hot:]
    out = out_of_cold(minutes, degrees, error.kept)
    minutes, degrees = minutes[:out], degrees[:out]
    found = doubts(minutes, degrees, error)
    upto = min((d.upto for d in found if d.upto is not None), default=len(minutes))
    shown, read = minutes[:upto], degrees[:upto]
    early, late = _clock_starts(shown, read, error)
    stages = tuple(
        _stage(shown, read, (early, late), limit, error)
        for limit in zip(_NAMES, (MIDDLE, COLD), (FIRST_LIMIT, WHOLE_LIMIT), strict=True)
    )
    if found:
        stages = tuple(_unshown(stage) for stage in stages)
    kept = [stage.kept for stage in stages]
    verdict = MISSED if False in kept else INSIDE if all(kept) else OPEN
    ran = float(minutes[-1]) - early
    return Cooling(verdict, stages, early, _sentence(stages, found), _advice(stages, verdict, found, ran))


def _clock_starts(minutes, degrees, error):
    """(earliest, latest) minute at which the pan can have fallen through 57 degC for the first time."""
    maybe, surely = first(degrees - error.kept < HOT), first(degrees + error.missed < HOT)
    early = minutes[-1] if maybe is None else minutes[max(maybe - 1, 0)]
    return float(early), float(minutes[-1] if surely is None else minutes[surely])


def _stage(minutes, degrees, starts, limit, error):
    """One limit (name, degC, minutes): how long it can have taken at least and at most, and whether it was kept."""
    name, cold, allowed = limit
    maybe, warm = first(degrees - error.missed <= cold), np.flatnonzero(degrees - error.missed > cold)
    soonest = minutes[-1] if maybe is None else minutes[max(maybe - 1, 0)]
    least = max(0.0, float(soonest) - starts[1])
    since = int(warm[-1]) + 1 if warm.size else 0  # from here on it is nowhere surely above the limit
    there = first(degrees[since:] + error.kept <= cold)
    if there is None:
        return Limit(name, least, None, allowed, None if at_most(least, allowed) else False)
    after = since + there
    most = float(minutes[after]) - starts[0]
    kept = at_most((least + most) / 2, allowed, (most - least) / 2)
    read = int(np.sum((minutes >= starts[0]) & (minutes <= minutes[after])))
    if kept and read < 3 and most > (_BLIND if cold > COLD else 0.0):  # one step that shows nothing of the way
        kept = None
    return Limit(name, least, most, allowed, kept)


def _unshown(stage):
    """A stage of a log with a doubt: missed where that is sure, else not shown."""
    return Limit(stage.name, stage.least, stage.most, stage.allowed, False if stage.kept is False else None)


def _clock(minutes, up=True):
    """Time in words, never shorter than it is where it runs, never longer where it is left."""
    whole = math.ceil(round(minutes, 6)) if up else math.floor(round(minutes, 6))
    return f"{whole // 60} h {whole % 60:02d} min"


def _sentence(stages, found):
    parts = [_of_stage(stage, bool(found)) for stage in stages]
    return " ".join([*parts, *(doubt.said for doubt in found)])


def _of_stage(stage, doubted):
    allowed = f"{stage.allowed / 60:g} h allowed"
    if stage.kept:
        return f"{stage.name}: at most {_clock(stage.most)}, {allowed}: kept."
    if stage.kept is False:
        return f"{stage.name}: at least {_clock(stage.least, up=False)}, {allowed}: missed."
    if stage.most is None:
        return (
            f"{stage.name}: not reached{' as far as the log shows the pan' if doubted else ' in this log'}, {allowed}."
        )
    if doubted:
        return f"{stage.name}: {allowed}, not shown."
    spread = f"between {_clock(stage.least, up=False)} and {_clock(stage.most)}"
    return f"{stage.name}: {spread}, {allowed}: too few readings, or too close, to tell."


def _advice(stages, verdict, found, ran):
    if verdict == MISSED:
        which = "first" if stages[0].kept is False else "second"
        return (
            f"The {which} limit was missed. Do not use it: throw it away, as your local code will ask, and tell whoever "
            "is responsible."
        )
    if verdict == INSIDE:
        return "Both limits were kept as far as this probe saw. Keep it at 5 °C (41 °F) or colder, dated."
    if found:
        return f"{found[0].decides} Until then treat the limits as not kept."
    for stage in stages:
        if stage.most is None:
            left = stage.allowed - ran
            if left <= 0:
                return f"The time for {stage.name} may be over already: tell whoever is responsible, now."
            return f"Not done: {_clock(left, up=False)} left for {stage.name}. Spread it out, stir it over ice."
    return (
        "Only more readings decide, above all where it passes 57, 21 and 5 °C (135, 70 and 41 °F), by a probe you have "
        "checked in ice water. Until then treat the limits as not kept."
    )
