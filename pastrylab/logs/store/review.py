"""Review a store room's log: hours above the sugar-bloom limit, hours too warm, condensation, swings, and what is open.

Every error of hygrometer and probe is taken against the reader. Limits: storage.surface_limit and storage.store_band, each
with its source. A log shows what the sensors saw, where they hung; it never says that chocolate is sound.
"""

from dataclasses import dataclass, replace

import numpy as np

from pastrylab.ground.careful import CANNOT_TELL
from pastrylab.ground.units import Difference, Share, StudentError
from pastrylab.logs.faults import rounding
from pastrylab.logs.log import log_of
from pastrylab.logs.store import said, swings
from pastrylab.logs.store.doubts import doubts, stuck_humidity, stuck_probe
from pastrylab.logs.store.spans import Span, at_least, beside, gaps
from pastrylab.logs.store.surface import at_the_surface
from pastrylab.trade.storage.air import coldest_surface, dew_point
from pastrylab.trade.storage.limits import store_band, surface_limit
from pastrylab.trade.storage.tray import HUMIDITY_ERROR, HYGROMETER_IS_OFF, PROBE_ERROR, PROBE_IS_OFF

WITHIN, BEYOND = "within the limits", "beyond a limit"
_COLDER = Difference(at_least=0, at_most=20, example="2 delta_degC")
_CORRECTION = Share(at_least=-0.2, at_most=0.2, example='"4 %"')
_COLUMNS = ("minutes", "degC", "humidity")


@dataclass(frozen=True)
class StoreReview(said.Facts):
    """What a store room's log shows: Facts, and all that in words: `sentences`, the verdict first; `advice`, what to do
    next; `cannot_show`, what no log of this kind can say.
    """

    sentences: tuple[str, ...]
    advice: str
    cannot_show: str = said.CANNOT_SHOW


def review_store(
    log, kind="dark", colder=None, humidity_error=HYGROMETER_IS_OFF, probe_error=PROBE_IS_OFF, correction="0 %"
):
    """StoreReview of a log from read_store. kind: "dark", "milk", "white" or a couverture of one's own.

    colder: by how much the coldest shelf or wall lies below the air, "2 delta_degC"; None: the surface in the log, else the
    air itself. humidity_error: of the hygrometer, a share ("3 %" of humidity either way); probe_error: of the thermometer,
    with what a display of whole degrees rounds away. Both count against the reader: an hour is "over" where it is so at the
    best of them, and "within the limits" needs all hours clear at the worst. correction: what is added to each
    humidity, "4 %" where the hygrometer showed 71 over wet salt. StudentError for what it cannot use.

    >>> from pastrylab.logs.store.reader import read_store
    >>> rows = "".join(f"{hour}, 18.{hour % 4}, {60 + hour % 3}\\n" for hour in range(25))
    >>> log = read_store("hours, room degC, humidity %\\n" + rows)
    >>> review_store(log, "dark").verdict, review_store(log, "dark", colder="9 delta_degC").verdict
    ('within the limits', 'beyond a limit')
    """
    facts = _facts(log, kind, colder, (humidity_error, probe_error), correction)
    return StoreReview(**vars(facts), sentences=said.sentences(facts), advice=said.advice(facts))


def _facts(log, kind, colder, errors, correction):
    """Facts of a log; arguments as review_store."""
    log = _checked(log_of(log, _COLUMNS, ("surface",)))
    minutes, degrees, shares = (log[name] for name in _COLUMNS)
    limit = surface_limit(kind)
    colder = None if colder is None else _COLDER.floats("colder", colder)
    damp_error, warm_error = _errors(*errors, degrees, shares)
    stuck, still = _stuck(minutes, degrees, shares)
    added = _CORRECTION.floats("correction", correction)
    usable_shares = np.clip(_without(minutes, shares, stuck) + added, 0.0, 1.0)
    usable = replace(log, columns=log.columns | {"humidity": usable_shares})
    surface = at_the_surface(usable, colder, damp_error, warm_error)
    spans = _spans(surface, limit) | _warm(minutes, degrees, warm_error)
    spans |= {"stuck": stuck, "blind": _blind(minutes, surface.minutes, stuck)}
    spans["unread"] = _blind(minutes, minutes[np.isfinite(degrees)], ())
    findings = tuple(doubts(log, stuck, still, warm_error))
    length = float(minutes[-1] - minutes[0]) / 60
    return said.Facts(
        kind=str(kind),
        limit=limit,
        verdict=_verdict(spans, findings, length),
        hours=length,
        spans=spans,
        days=swings.days(minutes, degrees, log.how.first if log.how.clock else 0.0),
        dew_point=_highest_dew_point(degrees, usable_shares),
        surface=surface,
        findings=findings,
        correction=added,
        coldest=_coldest(usable, surface, limit, damp_error),
    )


def _errors(humidity_error, probe_error, degrees, shares):
    """(error of the humidity as a share, of the temperature in degC), with what the displays round away."""
    known = degrees[np.isfinite(degrees)]
    damp, warm = HUMIDITY_ERROR.floats("humidity_error", humidity_error), PROBE_ERROR.floats("probe_error", probe_error)
    return damp + _rounded_away(shares), warm + (rounding(known) if known.size else 0.0)


def _checked(log):
    """The same Log. StudentError where its times do not rise, or its humidity is none."""
    minutes, shares = log["minutes"], log["humidity"]
    if len(minutes) < 2 or not np.isfinite(minutes).all() or np.any(np.diff(minutes) <= 0):
        given = "a log with fewer than two readings, or times that do not rise"
        raise StudentError(given, "two readings or more in the order of time", "my_store.csv")
    if np.any(shares > 1.0) or np.any(shares < 0.0):
        raise StudentError("a log with humidity outside 0 to 1", "shares, as read_store gives them", "0.48 for 48 %")
    return log


def _rounded_away(shares):
    """Half a per cent where the display shows whole ones, else nothing: tenths are held to be within the error."""
    percent = 100 * shares[np.isfinite(shares)]
    return 0.005 if percent.size and np.all(np.abs(percent - np.round(percent)) < 1e-6) else 0.0


def _stuck(minutes, degrees, shares):
    """(spans of a stuck hygrometer, spans of a thermometer that may be stuck)."""
    damp, warm = np.isfinite(shares), np.isfinite(degrees)
    stuck = stuck_humidity(minutes[damp], degrees[damp], shares[damp]) if damp.any() else ()
    return stuck, stuck_probe(minutes[warm], degrees[warm]) if warm.any() else ()


def _without(minutes, shares, spans):
    """Humidity without the readings inside spans: they are none of the room's."""
    out = shares.copy()
    for start, end in spans:
        out[(minutes >= start) & (minutes <= end)] = np.nan
    return out


def _spans(surface, limit):
    """What the surface's humidity shows, by name. A limit that is itself allowed for "over" is passed just above it."""
    above = np.nextafter(min(limit.high, 1.0), 2.0) if limit.high < 1 else 1.0
    over = at_least(surface.minutes, surface.low, above)
    maybe = at_least(surface.minutes, surface.high, limit.low)
    wet = at_least(surface.minutes, surface.low, 1.0)
    maybe_wet = beside(at_least(surface.minutes, surface.high, 1.0), wet)
    return {"over": over, "open": beside(maybe, over), "wet": wet, "maybe_wet": maybe_wet}


def _warm(minutes, degrees, error):
    """Spans at which fat bloom is near by warmth alone: surely, and within the probe's error."""
    known = np.isfinite(degrees)
    minutes, degrees, limit = minutes[known], degrees[known], store_band("fat bloom from").low
    warm = at_least(minutes, np.round(degrees - error, 9), limit)
    return {"warm": warm, "maybe_warm": beside(at_least(minutes, np.round(degrees + error, 9), limit), warm)}


def _blind(minutes, read, stuck):
    """Spans without a reading of what was asked for, those of a stuck sensor apart."""
    if not read.size:
        whole = (Span(float(minutes[0]), float(minutes[-1])),)
        return beside(whole, stuck)
    ends = np.concatenate([minutes[:1], read, minutes[-1:]])
    return tuple(left for span in gaps(ends) for left in beside((span,), stuck) if left.end > left.start)


def _highest_dew_point(degrees, shares):
    there = np.isfinite(degrees) & np.isfinite(shares) & (shares >= 0.01)
    pairs = np.unique(np.column_stack([degrees[there], shares[there]]), axis=0)
    # The most humid air at each temperature is enough, and of those the few that can hold the most water.
    best = {degree: share for degree, share in pairs}
    return max((float(dew_point.floats(*pair)) for pair in best.items()), default=None)


def _coldest(log, surface, limit, humidity_error):
    """(degC of the air, how many degC colder a shelf may be) at the log's most humid reading; None where not asked for."""
    known = np.isfinite(log["degC"]) & np.isfinite(log["humidity"])
    if surface.where != "in the air" or not known.any():
        return None
    at = int(np.argmax(np.where(known, log["humidity"], -1.0)))
    air, share = float(log["degC"][at]), min(float(log["humidity"][at]) + humidity_error, 1.0)
    return air, air - float(coldest_surface.floats(air, share, limit.low))


def _verdict(spans, findings, length):
    if spans["over"] or spans["warm"]:
        return BEYOND
    open_ones = any(spans[name] for name in ("open", "maybe_warm", "blind", "unread", "stuck")) or findings
    return CANNOT_TELL if open_ones or length < said.SHORTEST else WITHIN
