"""One tempering bowl's log laid out for review: its bands, and where it was hot, came to work, and took its seed."""

import re
from dataclasses import dataclass

import numpy as np

from pastrylab.logs.faults import rounding
from pastrylab.trade.chocolate import crystals_stand_to, wide_band_floats

SEEDED, MACHINE, SOFTENED, REWARMED, SLAB = METHODS = (
    "seeded in the bowl",
    "seeded machine",
    "drops softened",
    "cooled and rewarmed",
    "worked on a slab",
)
STIRRING = 5.0  # minutes until hot and cold chocolate are one; common practice, no source
EDGE = 0.5  # degC: the bands are printed in whole degrees, a reading so far outside is at their edge

_NO_SEEDING = re.compile(
    r"(?i)\b(no|not|never|without|none|out of|forg[eo]t\w*|lack\w*|miss\w*|skip\w*|left|melt\w*|dissolv\w*|gone|lumps?|"
    r"before|ready|weigh\w*|chop\w*|prepar\w*|fetch\w*|later|soon|next|wait\w*|will|should|cannot|remov\w*|took|fish\w*)\b"
    r"|\bunseed|n['’]t\b|\?"
)
_NEVER = re.compile(r"(?i)\b(no|not|without|never|out of|forgot)\b[^,;.]*\bseed|\bunseed")


@dataclass(frozen=True)
class Bowl:
    """A log under review: t in minutes and temps in degC, no jumps among them, and its notes; index of the first and the
    last reading melted out and of the first at work, each or None; minutes of the seeding as told or noted, or None.
    """

    kind: str
    method: str
    error: float
    t: np.ndarray
    temps: np.ndarray
    notes: tuple[str, ...]
    first_hot: int | None
    last_hot: int | None
    arrived: int | None
    told: float | None

    @property
    def bands(self):
        """((melt low, high), (cool low, high), (work low, high)) in degC, all texts and practice together."""
        return wide_band_floats(self.kind)

    @property
    def stands(self):
        """(up to here crystals stand, above this they are lost in time), degC."""
        return crystals_stand_to(self.kind)

    @property
    def held_only(self):
        """Whether the log begins with the bowl at work."""
        low, high = at_work(self.kind)
        return self.first_hot is None and self.method != SOFTENED and low <= self.temps[0] <= high

    @property
    def judged(self):
        """Index from which on warmth counts against the bowl: its coming to work, or that after a later seeding; on a slab
        once the cold part is stirred in.
        """
        if self.method == SLAB and self.arrived is not None:
            return self._stirred_in
        if self.arrived is None or self.told is None or self.told <= self.t[self.arrived]:
            return self.arrived
        later = np.flatnonzero((self.t >= self.told) & (self.temps <= at_work(self.kind)[1]))
        return int(later[0]) if later.size else len(self.t) - 1

    @property
    def _stirred_in(self):
        cold = np.flatnonzero(self.temps[self.arrived :] <= self.bands[1][1] + EDGE)
        if not cold.size:
            return self.arrived
        back = self.arrived + int(cold[-1])
        return min(int(np.searchsorted(self.t, self.t[back] + STIRRING)), len(self.t) - 1)

    @property
    def begin(self):
        """Index of the reading with which the warming is over."""
        if self.method == SOFTENED:
            return len(self.t) if self.arrived is None else self.arrived
        if self.held_only:
            return 0
        return int(self.temps.argmax()) if self.first_hot is None else self.first_hot


def at_work(kind):
    """(low, high) in degC of readings in the working band, its edges included.

    >>> at_work("dark")
    (30.5, 32.9)
    """
    low, high = wide_band_floats(kind)[2]
    return low - EDGE, high + EDGE


def bowl(kind, method, error, t, temps, notes, told):
    """The Bowl of plain arrays (minutes, degC). told: minutes of the seeding, or None: then the last note of one.

    >>> it = bowl("dark", SEEDED, 0.5, np.array([0.0, 12, 15, 25, 30]), np.array([22.0, 46, 46, 33, 31.6]), ("",) * 5, 15)
    >>> it.told, it.first_hot, it.arrived
    (15, 1, 4)
    """
    hot = np.flatnonzero(temps >= wide_band_floats(kind)[0][0] - EDGE)
    first, last = (int(hot[0]), int(hot[-1])) if hot.size else (None, None)
    if told is None and method in (SEEDED, MACHINE):
        noted = seedings(t, notes)
        told = noted[-1] if noted else None
    return Bowl(kind, method, error, t, temps, notes, first, last, _arrived(kind, method, error, temps, last), told)


def _arrived(kind, method, error, temps, last_hot):
    """Index of the first reading at work after the bowl was last melted out (rewarmed: last surely lost), or None."""
    low, high = at_work(kind)
    if method == SOFTENED:
        found = np.flatnonzero(temps >= low)
        return int(found[0]) if found.size else None
    after = last_hot
    if method == REWARMED:
        lost = np.flatnonzero(temps - error > crystals_stand_to(kind)[1])
        after = int(lost[-1]) if lost.size else after
    if after is None:
        after = 0 if low <= temps[0] <= high else int(temps.argmax())
    found = np.flatnonzero(temps[after:] <= high)
    return after + int(found[0]) if found.size else None


def seedings(t, notes):
    """Minutes at which a note says that seed went in, in order: not where it says there was none, or what became of it.

    >>> seedings([0.0, 15.0, 20.0], ["", "seed in, 10 %", "no seed left"])
    [15.0]
    """
    return [float(t[i]) for i, note in enumerate(notes) if note and any(map(_seeds, re.split(r"[,;.]", note)))]


def _seeds(clause):
    return re.search(r"(?i)\b(re-?)?seed", clause) and not _NO_SEEDING.search(clause)


def without_seed(notes):
    """The first note that says no seed went in, or None.

    >>> without_seed(["46 on the clock", "no seed today"])
    'no seed today'
    """
    return next((note for note in notes if _NEVER.search(note)), None)


def falls_by_seed(it):
    """Whether the fall to the working band is one that seed makes: quick, and coming to rest there, or straight, or
    quicker than any bowl falls by itself.

    A bowl left alone falls towards its room and takes, for the lower half of this way, 1.3 to 1.8 times what it took for
    the upper (Newton's law, room at 15 to 24 degC). Common practice for how quick, no source.

    >>> it = bowl("dark", SEEDED, 0.5, np.array([0.0, 12, 15, 25, 30]), np.array([22.0, 46, 46, 33, 31.6]), ("",) * 5, 15)
    >>> falls_by_seed(it)
    True
    """
    start = top_of_fall(it)
    if it.arrived is None or it.arrived <= start:
        return False
    # From two degrees below its top on: where it begins to fall, between two readings, is not known.
    top, bottom = float(it.temps[start]) - 2, float(at_work(it.kind)[1])
    t, temps = it.t[start : it.arrived + 1], it.temps[start : it.arrived + 1]
    falling = np.minimum.accumulate(temps)
    began, half, came = (_crossing(t, falling, level) for level in (top, (top + bottom) / 2, bottom))
    rate, shape = (top - bottom) / max(came - began, 1e-9), (came - half) / max(half - began, 1e-9)
    slowest = 0.1 if it.method == MACHINE else 0.4  # a machine brings it down at its own pace
    blur = rounding(it.temps)  # whole degrees blur the shape
    return bool(rate > 2.0 or (shape > 1.95 + blur and rate > slowest) or (shape < 1.15 - blur and rate > 0.8))


def top_of_fall(it):
    """Index from which the bowl falls to its work: the last reading within a degree of the warmest before it.

    >>> it = bowl("dark", SEEDED, 0.5, np.array([0.0, 12, 15, 25, 30]), np.array([22.0, 46, 46, 33, 31.6]), ("",) * 5, 15)
    >>> top_of_fall(it)
    2
    """
    after = 0 if it.last_hot is None else _since_cold(it)
    upto = len(it.t) if it.arrived is None else it.arrived + 1
    return after + int(np.flatnonzero(it.temps[after:upto] >= it.temps[after:upto].max() - 1)[-1])


def _since_cold(it):
    """Index after the last reading at work or colder before the last melt-out."""
    cold = np.flatnonzero(it.temps[: it.last_hot] <= at_work(it.kind)[1])
    return int(cold[-1]) + 1 if cold.size else 0


def _crossing(t, falling, level):
    """Minute at which a falling line comes down to a level."""
    j = int(np.argmax(falling <= level)) if (falling <= level).any() else len(t) - 1
    if j == 0 or falling[j - 1] == falling[j]:
        return float(t[j])
    share = (falling[j - 1] - level) / (falling[j - 1] - falling[j])
    return float(t[j - 1] + min(max(share, 0.0), 1.0) * (t[j] - t[j - 1]))
