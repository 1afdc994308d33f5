"""What a store room's log shows, in sentences: the verdict first, then why, then what decides."""

import math
from dataclasses import dataclass

import numpy as np

from pastrylab.ground.careful import CANNOT_TELL, written_down, written_up
from pastrylab.ground.units import Quantity, both
from pastrylab.logs.findings import Finding
from pastrylab.logs.store import swings
from pastrylab.logs.store.spans import hours
from pastrylab.logs.store.surface import Surface
from pastrylab.trade.storage.limits import Limit, store_band

SHORTEST = 23.0  # hours: a day and a night, read by the hour
CANNOT_SHOW = (
    "It cannot show smells, light, the air inside a closed box, a spot that is colder than the one you read, or what "
    "happened between two readings."
)
CHECK = "Check the hygrometer over wet salt: in a closed jar it must read 75 %. Add what it lacks to each humidity."


@dataclass(frozen=True)
class Facts:
    """What a store room's log shows. `verdict`: "within the limits", "beyond a limit" or "cannot tell"; `limit` of the
    kind, in shares; `hours` of the whole log. `spans`, in minutes, by what they show: "over" (surely above the limit at the
    surface), "open" (within an error of it, or inside its band), "wet" (water surely settles), "maybe_wet", "warm" (surely
    where fat bloom begins), "maybe_warm", "stuck" (the hygrometer), "blind" and "unread" (no humidity there, no temperature). `days`: each with its lowest
    and highest degC. `correction`: the share added to each humidity. `dew_point`: the highest, degC, or None. coldest: (degC of the air, degC by which a shelf may be
    colder) at the most humid reading, or None.
    """

    kind: str
    limit: Limit
    verdict: str
    hours: float
    spans: dict
    days: tuple
    dew_point: float | None
    surface: Surface
    findings: tuple[Finding, ...]
    correction: float
    coldest: tuple | None

    @property
    def hours_over(self):
        return hours(self.spans["over"])

    @property
    def hours_open(self):
        return hours(self.spans["open"])

    @property
    def hours_wet(self):
        return hours(self.spans["wet"])

    @property
    def hours_maybe_wet(self):
        return hours(self.spans["maybe_wet"])

    @property
    def hours_warm(self):
        return hours(self.spans["warm"])

    @property
    def hours_maybe_warm(self):
        return hours(self.spans["maybe_warm"])

    @property
    def hours_blind(self):
        """Hours without a humidity of the room: not read, or by a hygrometer that was stuck."""
        return hours(self.spans["blind"]) + hours(self.spans["stuck"])


def sentences(it):
    """Sentences on all that a log shows; the verdict first.

    it: Facts. Hours that are sure are rounded down, hours that are not up.

    >>> from pastrylab.logs.store import read_store, review_store
    >>> log = read_store("time;room °C;RH %\\n9:00;18.1;60.1\\n10:00;18.3;61.2")
    >>> review_store(log).sentences[-1]
    'A log of 1.0 h shows no whole day and night.'
    """
    spoken = [_verdict(it), *_humidity(it), *_water(it), *_warmth(it), *_swings(it)]
    if it.hours_blind:
        how = "not read, or by a hygrometer that stood still" if it.spans["stuck"] else "not read for hours on end"
        spoken.append(
            f"For {_most(it.hours_blind)} of {_most(it.hours)} the humidity was {how}: nobody knows what it did."
        )
    if it.spans["unread"]:
        spoken.append(
            f"For {_most(hours(it.spans['unread']))} of {_most(it.hours)} no temperature was read: warmth cannot be judged."
        )
    if it.hours < SHORTEST:
        spoken.append(f"A log of {_most(it.hours)} shows no whole day and night.")
    return (*spoken, *(finding.said for finding in it.findings))


def advice(it):
    """What to do next. it: Facts.

    >>> from pastrylab.logs.store import read_store, review_store
    >>> log = read_store("time;room °C;RH %\\n9:00;18.1;60.1\\n10:00;18.3;61.2")
    >>> review_store(log).advice
    'Leave the logger there for a week, with a rainy day in it.'
    """
    if it.hours_wet or it.spans["wet"]:
        return "Take the chocolate away from that surface, or keep it wrapped air-tight there; find where the damp comes from."
    if it.spans["over"]:
        return "Dry the air, or move the chocolate to a warmer shelf of the same room; until then keep it wrapped air-tight."
    if it.spans["warm"]:
        return "Find a cooler place: below 24 °C (75 °F) always, 18 to 20 °C (64 to 68 °F) if you can."
    if it.findings:
        return it.findings[0].decides
    if it.hours_blind or it.spans["unread"]:
        return "Read it every hour, by night too, or hang a logger there: only that decides."
    if it.hours < SHORTEST:
        return "Leave the logger there for a week, with a rainy day in it."
    if it.verdict == CANNOT_TELL:
        return f"{CHECK} A finer one decides more hours; drier air decides them all."
    return "Leave the logger where it is coldest, and look again when the weather turns."


def _verdict(it):
    if it.verdict != CANNOT_TELL:
        return f"{it.verdict.capitalize()}, as far as these sensors saw."
    return "Cannot tell whether this store stayed within the limits."


def _most(time):
    """Hours, rounded up: "3 h", "0.4 h"."""
    return f"{written_up(time, 0 if time >= 10 else 1)} h"


def _least(time):
    return f"{written_down(time, 0 if time >= 10 else 1)} h"


def _apart(degrees):
    """A difference in both units, to a tenth."""
    return f"{degrees:.1f} °C ({1.8 * degrees:.1f} °F)"


def _percent(share, toward):
    return f"{toward(round(100 * float(share), 6)):d} %"


def _band(it):
    low, high = it.limit.low, it.limit.high
    if high in (low, math.inf):
        return f"{100 * low:.0f} %"
    return f"{100 * low:.0f} to {100 * high:.0f} %"


def _humidity(it):
    """The humidity at the surface against the limit."""
    if not it.surface.minutes.size:
        return ["No humidity was read: sugar bloom cannot be judged."]
    where, kind = it.surface.where, it.kind
    i = int(np.argmax(it.surface.read))
    ends = f"{_percent(it.surface.low[i], math.floor)} to {_percent(it.surface.high[i], math.ceil)}"
    said = [
        f"Humidity {where}: {_percent(it.surface.read[i], round)} at most, {ends} with every error. "
        f"{kind[:1].upper()}{kind[1:]} chocolate draws water from {_band(it)} on."
    ]
    if it.correction:
        said.insert(
            0, f"{'Added to' if it.correction > 0 else 'Taken from'} each humidity: {100 * abs(it.correction):.3g} %."
        )
    if it.spans["over"] and not it.hours_over:
        said.append(
            "Above that at single readings, with nothing read before and after: sugar bloom is to be expected there."
        )
    elif it.spans["over"]:
        said.append(f"Above that for {_least(it.hours_over)} at least: sugar bloom is to be expected there.")
    if it.spans["open"]:
        why = (
            "within the errors"
            if it.limit.low == it.limit.high
            else "within the errors, or where the limit is not known better"
        )
        said.append(f"For another {_most(it.hours_open)} nobody can tell: {why}.")
    if not it.spans["over"] and not it.spans["open"]:
        said.append("Below that at every reading, at the worst of all errors.")
    if it.coldest and it.coldest[1] > 0:
        air, colder = it.coldest
        degrees = math.floor(10 * colder) / 10
        said.append(
            f"That is the air's own humidity. At its most humid, at {both(Quantity(air, 'degC'), 3)}, a shelf or wall more than "
            f"{_apart(degrees)} colder would have been above it: say how much colder yours is."
        )
    return said


def _water(it):
    said = []
    times = len(it.spans["wet"])
    if times:
        how_often = "once" if times == 1 else f"{times} times"
        said.append(f"Water settled {how_often}, for {_least(it.hours_wet)} at least.")
    if it.spans["maybe_wet"]:
        more = " more" if times else ""
        said.append(f"Water may have settled for {_most(it.hours_maybe_wet)}{more}: the errors hide it.")
    if it.dew_point is not None:
        said.append(
            f"The air's dew point went up to {both(Quantity(round(it.dew_point, 1), 'degC'), 3)}: anything colder was wet then."
        )
    return said


def _warmth(it):
    limit = both(Quantity(store_band("fat bloom from").low, "degC"), 3)
    said = []
    if it.spans["warm"]:
        said.append(f"At {limit} or warmer for {_least(it.hours_warm)} at least: fat bloom follows such warmth.")
    if it.spans["maybe_warm"]:
        said.append(f"For {_most(it.hours_maybe_warm)} it may have been {limit}: within the thermometer's error.")
    return said


def _swings(it):
    if not it.days:
        return []
    widest = max(it.days, key=lambda day: day.high - day.low)
    swing = widest.high - widest.low
    ends = f"{both(Quantity(widest.low, 'degC'), 3)} to {both(Quantity(widest.high, 'degC'), 3)}"
    after = {
        "steady": "That is steady.",
        "some swing": "That is some swing; steadier is better against fat bloom.",
        "wide swings": "That is a wide swing: each one melts a little fat and sets it anew, and fat bloom comes sooner.",
    }
    days = f"{len(it.days)} days" if len(it.days) > 1 else "1 day"
    said = f"The widest day of {days} went from {ends}, {_apart(swing)} apart."
    return [f"{said} {after[swings.word(swing)]}"]
