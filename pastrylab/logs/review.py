"""Review a tempering bowl's temperature log: what it shows, what it cannot show, and the next step at the bench.

A log cannot prove temper. It shows whether the temperatures were those at which temper is made and kept; the smear
test decides. Bands: chocolate.wide_band_floats (all textbooks and common practice together); where temper is lost:
chocolate.crystals_stand_to.
"""

import re
from dataclasses import dataclass

import numpy as np

from pastrylab.ground.units import Difference, In, Q, StudentError
from pastrylab.logs import judge_making, judge_probe, judge_work
from pastrylab.logs.bowl import EDGE, MACHINE, METHODS, SEEDED, at_work, bowl, falls_by_seed, top_of_fall
from pastrylab.logs.faults import jumps, rounding, stuck, taken_out, without_jumps
from pastrylab.logs.findings import AGAINST, FOR, OPEN, Finding
from pastrylab.logs.series import checked, minutes_within
from pastrylab.logs.stages import Edges, Stage, at, stages
from pastrylab.trade.chocolate import product_named

CONSISTENT = "consistent with temper"
NOT_CONSISTENT = "not consistent with temper"
CANNOT_TELL = "cannot tell"
SMEAR = (
    "Then smear a little on paper or on a knife: in temper it sets in a few minutes at room temperature, "
    "even and glossy, and snaps. The smear decides, not the log."
)


@dataclass(frozen=True)
class Review:
    """What a log shows. `verdict` is one of CONSISTENT, NOT_CONSISTENT, CANNOT_TELL; `seeded_at` in minutes or None.

    `at_work`: minutes at which the bowl first came to its working band after the melt-out, or None. `highest` and `last`
    reading of those judged, degC; `ends`: the minute of the last of them. jumps and stuck as the module faults
    finds them (minutes, degC).
    """

    kind: str
    method: str
    stages: tuple[Stage, ...]
    verdict: str
    reasons: tuple[str, ...]
    advice: str
    excursions: tuple[str, ...]
    seeded_at: float | None
    at_work: float | None
    highest: float
    last: float
    ends: float
    minutes: tuple[tuple[str, float], ...]
    jumps: tuple
    stuck: tuple

    def minutes_in(self, band):
        """Minutes in a band with its edges (0.5 degC): "melt"; "cool" and "work" once the warming is over; and once the
        bowl has come to work "above work", "temper lost" (surely, by the probe's error), "below cool". StudentError else.

        >>> from pastrylab.logs import read_log
        >>> log = read_log("minutes, degC\\n0, 46.1\\n5, 46.0\\n10, 38.4\\n15, 33.1\\n20, 31.9\\n25, 31.6")
        >>> round(review_log(log, "dark", seeded_at="5 min").minutes_in("work"), 1)
        9.2
        """
        found = dict(self.minutes)
        if band not in found:
            raise StudentError(f"'{band}'", "one of " + ", ".join(found), 'review.minutes_in("work")')
        return found[band]


def review_log(log, kind, method=SEEDED, seeded_at=None, probe_error=0.5):
    """Review of a log from read_log. kind: "dark", "milk", "white" or a couverture of one's own; method: one of METHODS.

    seeded_at: minutes from the first reading, or text such as "12 min"; None: from a note, else estimated.
    probe_error: degC either way, or text such as "1 delta_degF"; it is taken against the bowl, together with what a display
    of whole degrees rounds away. StudentError for what it cannot use.

    >>> from pastrylab.logs import read_log
    >>> log = read_log("minutes, degC\\n0, 46.1\\n5, 46.0\\n10, 38.4\\n15, 33.1\\n20, 31.9\\n25, 31.6")
    >>> review_log(log, "dark", seeded_at="5 min").verdict
    'consistent with temper'
    """
    t, temps = checked(log)
    kind, method, error = product_named(kind), _method(method), _probe_error(probe_error) + rounding(temps)
    told = _minutes(seeded_at, t[-1])
    notes = list(log["note"]) if "note" in log else [""] * len(t)
    leaps = jumps(t, temps)
    keep = np.flatnonzero(without_jumps(t, leaps))
    out = taken_out(t[keep], temps[keep], *at_work(kind))
    kept = keep[:out]
    it = bowl(kind, method, error, t[kept], temps[kept], tuple(str(notes[i]) for i in kept), told)
    still = stuck(it.t, it.temps)
    findings = (*judge_probe.probe(it, leaps, still), *_left(t, temps, keep[out:]), *_of_bowl(it))
    return _review(it, findings, leaps, still)


def _review(it, findings, leaps, still):
    """Review of a Bowl with its findings; leaps, still: the Jumps and the Stuck of its probe."""
    verdict, reasons, advice = _said(findings)
    seeded = _seeded(it)
    return Review(
        kind=it.kind,
        method=it.method,
        stages=stages(it.t, it.temps, _edges(it), it.begin, it.arrived, seeded),
        verdict=verdict,
        reasons=reasons,
        advice=advice,
        excursions=judge_work.excursions(it),
        seeded_at=seeded,
        at_work=None if it.arrived is None else float(it.t[it.arrived]),
        highest=float(it.temps.max()),
        last=float(it.temps[-1]),
        ends=float(it.t[-1]),
        minutes=_minutes_in_bands(it),
        jumps=leaps,
        stuck=still,
    )


def _of_bowl(it):
    """All findings about the bowl itself, in the order of its day."""
    asked = (
        judge_probe.pauses,
        judge_making.route,
        judge_making.dip,
        judge_making.seeding,
        judge_work.holding,
        judge_work.end,
    )
    return [finding for question in asked for finding in question(it)]


def _said(findings):
    """(verdict, reasons, advice) of all findings: those against stand first, then the open ones."""
    sides = [[f for f in findings if f.side == side] for side in (AGAINST, OPEN, FOR)]
    against, open_, _ = sides
    verdict = NOT_CONSISTENT if against else CANNOT_TELL if open_ else CONSISTENT
    deciding = next((f.decides for f in (*against, *open_) if f.decides), "Hold the bowl where it is and stir it.")
    return verdict, tuple(f.said for side in sides for f in side), f"{deciding} {SMEAR}"


def _left(t, temps, out):
    if not len(out):
        return ()
    said = f"From {t[out[0]]:.3g} min on the probe is out of the bowl, at {at(temps[out[-1]])} in the end: not judged."
    return (Finding(FOR, said),)


def _seeded(it):
    """Minutes of the seeding: as told or noted, else where the bowl falls fastest; None where the method has none."""
    if it.method not in (SEEDED, MACHINE):
        return None
    if it.told is not None or not falls_by_seed(it):
        return it.told
    start = top_of_fall(it)
    falls = np.diff(it.temps[start : it.arrived + 1]) / np.diff(it.t[start : it.arrived + 1])
    return float(it.t[start + int(falls.argmin())])


def _edges(it):
    (melt, _), (cool_low, cool_top), _ = it.bands
    return Edges(cool_low - EDGE, cool_top + EDGE, *at_work(it.kind), it.stands[1] + it.error, melt - EDGE)


def _minutes_in_bands(it):
    (melt_low, melt_top), (cool_low, cool_top), _ = it.bands
    low, high = at_work(it.kind)
    over, judged = (slice(i, None) for i in (it.begin, len(it.t) if it.arrived is None else it.judged))
    spans = (
        ("melt", slice(None), melt_low - EDGE, melt_top + EDGE),
        ("cool", over, cool_low - EDGE, cool_top + EDGE),
        ("work", over, low, high),
        ("above work", judged, high, np.inf),
        ("temper lost", judged, it.stands[1] + it.error, np.inf),
        ("below cool", judged, -np.inf, cool_low - EDGE),
    )
    return tuple((name, minutes_within(it.t[part], it.temps[part], a, b)) for name, part, a, b in spans)


def _method(method):
    name = re.sub(r"[\s_-]+", " ", str(method)).strip().casefold()
    if name not in METHODS:
        raise StudentError(f"'{str(method)[:40]}' as the method", "one of " + ", ".join(METHODS), SEEDED)
    return name


def _probe_error(value):
    value = Q(float(value), "delta_degC") if _plain(value) else value
    return Difference(at_least=0, at_most=3, example="0.5 delta_degC").floats("probe_error", value)


def _minutes(value, last):
    if value is None:
        return None
    value = Q(float(value), "min") if _plain(value) else value
    minutes = In("min", at_least=0, example="12 min").floats("seeded_at", value)
    if minutes > last:
        raise StudentError(f"seeding at {minutes:.4g} min", f"a time within the log (0 to {last:.4g} min)", '"12 min"')
    return minutes


def _plain(value):
    return isinstance(value, int | float | np.number) and not isinstance(value, bool)
