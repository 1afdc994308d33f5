"""Review a tempering bowl's temperature log: what it shows, what it cannot show, and the next step at the bench.

A log cannot prove temper. It shows whether the temperatures were those at which temper is made and kept; the smear
test decides. Bands: tempering.wide_band_floats (all textbooks and common practice together). Form V is lost above
34 degC: Greweling, Chocolates and Confections, 2007. Minutes that count as brief: common practice, no source.
"""

import re
from dataclasses import dataclass

import numpy as np
import pandas as pd

from pastrylab.probelog.faults import gaps, jumps, sample_rate, stuck, without_jumps
from pastrylab.probelog.stages import Edges, Stage, stages
from pastrylab.probelog.stages import at as _at
from pastrylab.tempering import TEMPER_LOST, kind_named, wide_band_floats
from pastrylab.units import Difference, In, Q, Reading, StudentError, takes

CONSISTENT = "consistent with temper"
NOT_CONSISTENT = "not consistent with temper"
CANNOT_TELL = "cannot tell"
SEEDED, MACHINE, SOFTENED, REWARMED = METHODS = (
    "seeded in the bowl",
    "seeded machine",
    "drops softened",
    "cooled and rewarmed",
)
SMEAR = (
    "Then smear a little on paper or on a knife: in temper it sets in a few minutes at room temperature, "
    "even and glossy, and snaps. The smear decides, not the log."
)
UNMELTED = 3.0  # K below the lowest melt-out in use: below it a bowl was only softened
BRIEF_LOSS = 2.0  # minutes above 34 degC that may leave crystals
BRIEF_WARM = {"dark": 15.0, "milk": 5.0, "white": 5.0}  # minutes between the working band and 34 degC
SEED_STANDS = 30.0  # minutes that seed may spend above 34 degC on the way down
LONG_GAP = 15.0  # minutes


@dataclass(frozen=True)
class Review:
    """What a log shows. `verdict` is one of CONSISTENT, NOT_CONSISTENT, CANNOT_TELL; `seeded_at` in minutes or None.

    `at_work`: minutes at which the bowl first came to its working band after the melt-out, or None. `sample_rate` in
    readings a minute; jumps, stuck and gaps as the module faults finds them (minutes, degC).
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
    minutes: tuple[tuple[str, float], ...]
    sample_rate: float
    jumps: tuple
    stuck: tuple
    gaps: tuple

    def minutes_in(self, band):
        """Minutes in a band widened by the probe's error: "melt"; "cool" and "work" once the warming is over; and
        once the bowl has come to work "above work", "temper lost" (above 34 degC), "below cool". StudentError else.
        """
        found = dict(self.minutes)
        if band not in found:
            raise StudentError(f"'{band}'", "one of " + ", ".join(found), 'review.minutes_in("work")')
        return found[band]


@takes(returns="min", low=Reading(example="31 degC"), high=Reading(example="32 degC"))
def minutes_between(log, low, high):
    """Time a log spends between two readings, with straight lines between its readings. StudentError if low > high."""
    if low > high:
        raise StudentError(f"{low:.4g} °C to {high:.4g} °C", "the lower reading first", 'low="31 degC", high="32 degC"')
    return _minutes_between(*_arrays(log), low, high)


def _minutes_between(t, temps, low, high):
    if len(t) < 2:
        return 0.0
    bottom, top = np.minimum(temps[:-1], temps[1:]), np.maximum(temps[:-1], temps[1:])
    inside = np.clip(np.minimum(top, high) - np.maximum(bottom, low), 0, None)
    flat = top == bottom
    share = np.where(flat, (bottom >= low) & (bottom <= high), inside / np.where(flat, 1.0, top - bottom))
    return float(np.sum(share * np.diff(t)))


def _arrays(log):
    if not isinstance(log, pd.DataFrame) or not {"minutes", "degC"} <= set(log.columns):
        raise StudentError("something that is not a log", "what read_log gives back", 'read_log("my_log.csv")')
    try:
        t, temps = (log[name].to_numpy(dtype=float) for name in ("minutes", "degC"))
    except (TypeError, ValueError):
        raise StudentError("a log with words in it", "numbers in minutes and degC", "read_log(path)") from None
    if len(t) < 2 or not (np.isfinite(t).all() and np.isfinite(temps).all()) or np.any(np.diff(t) <= 0):
        raise StudentError(
            "a log with a missing number, fewer than two readings, or times that do not rise",
            "two readings or more in the order of time",
            'read_log("my_log.csv")',
        )
    return t, temps


def review_log(log, kind, method=SEEDED, seeded_at=None, probe_error=0.5):
    """Review of a log from read_log. kind: "dark", "milk" or "white"; method: one of METHODS.

    seeded_at: minutes from the first reading, or text such as "12 min"; None: from a note, else estimated.
    probe_error: degC either way, or text such as "1 delta_degF". StudentError for what it cannot use.
    """
    t, temps = _arrays(log)
    case = _Case(kind_named(kind), _method(method), _probe_error(probe_error))
    case.look_at_probe(t, temps)
    keep = without_jumps(t, temps)
    notes = list(log["note"]) if "note" in log else [""] * len(t)
    case.load(t[keep], temps[keep], [str(note) for note, kept in zip(notes, keep, strict=True) if kept])
    case.judge_route()
    case.judge_holding()
    case.judge_end()
    case.find_seeding(_minutes(seeded_at, t[-1]))
    return case.review()


def _method(method):
    name = re.sub(r"[\s_-]+", " ", str(method)).strip().casefold()
    if name not in METHODS:
        raise StudentError(f"'{str(method)[:40]}' as the method", "one of " + ", ".join(METHODS), f'method="{SEEDED}"')
    return name


@takes(value=Difference(at_least=0, at_most=3, example="0.5 delta_degC"))
def _difference(value):
    return value


@takes(value=In("min", at_least=0, example="12 min"))
def _time(value):
    return value


def _probe_error(value):
    plain = isinstance(value, int | float | np.number) and not isinstance(value, bool)
    return _difference(value=Q(float(value), "delta_degC") if plain else value)


def _minutes(value, last):
    if value is None:
        return None
    plain = isinstance(value, int | float | np.number) and not isinstance(value, bool)
    minutes = _time(value=Q(float(value), "min") if plain else value)
    if minutes > last:
        raise StudentError(f"seeding at {minutes:.4g} min", f"a time within the log (0 to {last:.4g} min)", '"12 min"')
    return minutes


class _Case:
    """One log under review: the readings, and what speaks for temper, against it, or leaves it open."""

    def __init__(self, kind, method, error):
        self.kind, self.method, self.error = kind, method, error
        (melt, self.melt_top), (cool, cool_top), (work, work_top) = wide_band_floats(kind)
        self.melted = melt - error
        self.cold, self.cool_edge, self.cool_top = cool - error, cool_top + error, cool_top
        self.thick, self.warm, self.lost = work - error, work_top + error, TEMPER_LOST + error
        self.fine, self.against, self.open, self.excursions = [], [], [], []
        self.seeded_at = None

    def look_at_probe(self, t, temps):
        """Faults of the probe or the sheet: they leave a verdict open, they do not make one."""
        self.sample_rate = sample_rate(t)
        self.faults = spikes, frozen, pauses = jumps(t, temps), stuck(t, temps), gaps(t, temps)
        if spikes:
            first = spikes[0]
            said = f"The probe jumps {len(spikes)} times, first at {first.at:.3g} min to {_at(first.degc)}."
            many = len(spikes) > 0.1 * len(t)
            (self.open if many else self.fine).append(said + " Those readings were left out of the review.")
        for run in frozen:
            said = f"The probe shows exactly {_at(run.degc)} from {run.start:.3g} to {run.end:.3g} min"
            if run.sure:
                self.open.append(said + " and then leaps: it was stuck, and the bowl was not measured.")
            else:
                self.fine.append(said + ": move it, in case it is stuck.")
        for start, end, step in pauses:
            if end - start > LONG_GAP and (end - start > 0.3 * (t[-1] - t[0]) or step > 3):
                self.open.append(f"Nothing was read from {start:.3g} to {end:.3g} min, and much can happen in that.")
        if len(t) < 5:
            self.open.append(f"{len(t)} readings are too few to see the stages.")

    def load(self, t, temps, notes):
        self.t, self.temps, self.notes = t, temps, notes
        hot = np.flatnonzero(temps >= self.melted)
        self.peak = float(temps.max())
        self.first_hot, self.last_hot = (int(hot[0]), int(hot[-1])) if hot.size else (None, None)
        self.held_only = self.thick <= temps[0] <= self.warm and not hot.size and self.method != SOFTENED
        if self.method == SOFTENED:
            arrived = np.flatnonzero(temps >= self.thick)
        else:
            after = 0 if self.held_only else self.last_hot if hot.size else int(temps.argmax())
            arrived = after + np.flatnonzero(temps[after:] <= self.warm)
        self.arrived = int(arrived[0]) if arrived.size else None

    def find_seeding(self, given):
        """The seeding time: as told, from a note, or where the bowl falls fastest."""
        if self.method not in (SEEDED, MACHINE):
            return
        noted = [self.t[i] for i, note in enumerate(self.notes) if re.search(r"(?i)\bseed", note)]
        told = given if given is not None else float(noted[-1]) if noted else None
        self.seeded_at = told if told is not None else self.fastest_fall()
        down = np.flatnonzero((self.temps <= self.lost) & (self.t >= (0 if told is None else told)))
        down = down[down > (self.first_hot or 0)]
        if self.last_hot is not None and down.size and down[0] < self.last_hot:
            said = f"The bowl was melted out again, until {self.t[self.last_hot]:.3g} min"
            if told is not None:
                self.against.append(f"{said}, after the seeding at {told:.3g} min: that seed is gone.")
            else:
                self.open.append(f"{said}: only seed that went in later counts, and the log names none.")
        elif told is not None:
            later = self.t >= told
            stood = _minutes_between(self.t[later], self.temps[later], self.lost, np.inf)
            early = self.arrived is None or _minutes_between(*self.since(), self.lost, np.inf) == 0
            if stood > SEED_STANDS and early:
                self.open.append(f"The seed spent {stood:.0f} minutes above {_at(TEMPER_LOST)}: most of it melted.")

    def fastest_fall(self):
        start = self.last_hot if self.last_hot is not None else int(self.temps.argmax())
        if self.arrived is None or self.held_only or self.arrived <= start:
            return None
        falls = np.diff(self.temps[start : self.arrived + 1]) / np.diff(self.t[start : self.arrived + 1])
        fastest = float(self.t[start + int(falls.argmin())])
        self.fine.append(
            f"You gave no seeding time. The bowl falls fastest from {fastest:.3g} min on: an estimate of the seeding."
        )
        return fastest

    def since(self):
        """The readings from the first at work on."""
        return self.t[self.arrived :], self.temps[self.arrived :]

    def judge_route(self):
        if self.method == SOFTENED:
            over = _minutes_between(self.t, self.temps, self.lost, np.inf)
            if over <= 0 and self.peak >= self.thick:
                self.fine.append(f"The drops were never above {_at(self.peak)}: their own crystals are kept.")
            elif over <= 0:
                self.open.append(f"The drops came to {_at(self.peak)} only: not soft enough to work.")
        elif self.held_only:
            self.fine.append("The log begins with the bowl at work: it shows the keeping of temper, not the making.")
            return
        elif self.peak >= self.melted:
            self.fine.append(f"Melted out: the peak is {_at(self.peak)}.")
            if self.peak > self.melt_top + self.error:
                self.fine.append(
                    f"That is hotter than {_at(self.melt_top)}, the most any text gives: milder next time."
                )
        elif self.temps[0] >= self.peak - 1:
            self.open.append(f"The log begins at {_at(self.temps[0])} and falls: the melt-out is not on it.")
        elif self.peak < self.melted - UNMELTED:
            self.against.append(f"Never melted out: the peak is {_at(self.peak)}, so old crystals of any form remain.")
        else:
            self.open.append(f"The peak is {_at(self.peak)}, short of a melt-out: old crystals may remain.")
        if self.method == REWARMED and self.arrived is not None:
            coldest = float(self.temps[self.arrived :].min())
            if coldest > self.cool_edge:
                self.against.append(
                    f"Without seed, crystals start at {_at(self.cool_top)} or below; the bowl came to {_at(coldest)}."
                )
            else:
                self.fine.append(f"Cooled to {_at(coldest)}, where crystals start.")

    def judge_holding(self):
        """After the bowl first came to its working band: too warm, too cold, for how long."""
        if self.arrived is None:
            self.minutes_out = (0.0, 0.0, 0.0)
            if self.method != SOFTENED:
                side = self.against if self.temps[-1] > self.lost else self.open
                side.append(f"The bowl never came down to the working band; it ends at {_at(self.temps[-1])}.")
            return
        t, temps = self.since()
        peak, low = float(temps.max()), float(temps.min())
        lost = _minutes_between(t, temps, self.lost, np.inf)
        warm = _minutes_between(t, temps, self.warm, self.lost)
        cold = _minutes_between(t, temps, -np.inf, self.cold)
        self.minutes_out = (warm + lost, lost, cold)
        if lost > 0:
            said = f"{lost:.1f} minutes above {_at(TEMPER_LOST)}, up to {_at(peak)}"
            self.excursions.append(said)
            if lost >= BRIEF_LOSS:
                self.against.append(f"{said}: the crystals of form V melt there.")
            else:
                self.open.append(f"{said}: brief, and some crystals may be left.")
        if warm > 0:
            said = (
                f"{warm:.1f} minutes between the working band and {_at(TEMPER_LOST)}, up to {_at(min(peak, self.lost))}"
            )
            self.excursions.append(said)
            if warm > BRIEF_WARM[self.kind]:
                self.open.append(f"{said}: crystals melt slowly there, and how many depends on the time.")
        if cold > 0:
            self.excursions.append(f"{cold:.1f} minutes colder than the cool band, down to {_at(low)}: too cold, thick")
        if not lost and warm <= BRIEF_WARM[self.kind]:
            self.fine.append(f"Nothing that melts the crystals after it came to work: the warmest is {_at(peak)}.")

    def judge_end(self):
        end = float(np.median(self.temps[-3:]))
        if self.arrived is None and self.method != SOFTENED:
            return
        if self.thick <= end <= self.warm:
            self.fine.append(f"It ends in the working band, at {_at(end)}.")
        elif end > self.lost:
            self.against.append(f"It ends at {_at(end)}, where no temper lasts.")
        elif end > self.warm:
            self.open.append(f"It ends at {_at(end)}, above the working band.")
        elif end > self.cool_top:
            self.open.append(f"It ends at {_at(end)}, below the working band: thick, and not rewarmed.")
        else:
            self.against.append(f"It ends at {_at(end)}, cooled too far and not rewarmed: crystals of form IV stay.")

    def review(self):
        verdict = NOT_CONSISTENT if self.against else CANNOT_TELL if self.open else CONSISTENT
        begin = self.begin()
        t, temps = self.t[begin:], self.temps[begin:]
        whole = [
            ("melt", _minutes_between(self.t, self.temps, self.melted, self.melt_top + self.error)),
            ("cool", _minutes_between(t, temps, self.cold, self.cool_edge)),
            ("work", _minutes_between(t, temps, self.thick, self.warm)),
        ]
        out = zip(("above work", "temper lost", "below cool"), self.minutes_out, strict=True)
        return Review(
            kind=self.kind,
            method=self.method,
            stages=self.stages(),
            verdict=verdict,
            reasons=(*self.against, *self.open, *self.fine),
            advice=f"{self.next_step(verdict)} {SMEAR}",
            excursions=tuple(self.excursions),
            seeded_at=self.seeded_at,
            at_work=None if self.arrived is None else float(self.t[self.arrived]),
            minutes=(*whole, *out),
            sample_rate=self.sample_rate,
            jumps=self.faults[0],
            stuck=self.faults[1],
            gaps=self.faults[2],
        )

    def begin(self):
        """Index of the reading with which the warming is over."""
        if self.method == SOFTENED:
            return self.arrived if self.arrived is not None else len(self.t)
        if self.held_only:
            return 0
        return self.first_hot if self.first_hot is not None else int(self.temps.argmax())

    def stages(self):
        edges = Edges(self.cold, self.cool_edge, self.thick, self.warm, self.lost, self.melted)
        return stages(self.t, self.temps, edges, self.begin(), self.arrived, self.seeded_at)

    def next_step(self, verdict):
        end = float(np.median(self.temps[-3:]))
        if verdict == CONSISTENT:
            return "Hold the bowl where it is and stir it."
        if end > self.lost and self.arrived is None:
            return "Seed the bowl and stir it down into the working band."
        if self.against and self.peak < self.melted and self.method != SOFTENED:
            return f"Melt the bowl out to {_at(self.melted + self.error)} and temper it afresh."
        if end < self.thick:
            return (
                "Warm the bowl a degree at a time, stirring, into the working band. "
                "If the smear then stays dull, melt the bowl out and temper it afresh."
            )
        if self.against:
            return "Seed the bowl again and stir it back into the working band."
        return "Check the probe in melting ice (0 °C), and read the bowl in two places after stirring."
