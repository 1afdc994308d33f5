"""The stages of a tempering bowl's log: warming, melt-out, cooling, seeding, cool band, rewarming, working, and
what goes wrong between them.
"""

from dataclasses import dataclass

import numpy as np

from pastrylab.logs.faults import rate

SHORTEST = 1.0  # minutes; a shorter stretch joins the stage before it, unless the bowl is too hot
PASSING = 0.1  # degC/min; falling faster, a bowl passes through the working band and is not held there


@dataclass(frozen=True)
class Edges:
    """Limits in degC, the bands with their edges: below `cold` too cold, to `cool` the cool band, from
    `thick` to `warm` the working band, above `lost` the crystals melt, from `melted` on melted out.
    """

    cold: float
    cool: float
    thick: float
    warm: float
    lost: float
    melted: float


@dataclass(frozen=True)
class Stage:
    """A stretch of the log: minutes from the first reading, degC, and its mean rate in degC/min."""

    name: str
    start: float
    end: float
    low: float
    high: float
    rate: float
    sentence: str


def at(degc):
    """A reading in both units: 32.2 °C (90.0 °F).

    >>> at(32.2)
    '32.2 °C (90.0 °F)'
    """
    return f"{degc:.1f} °C ({degc * 1.8 + 32:.1f} °F)"


def stages(t, temps, edges, begin, arrived, seeded_at):
    """Tuple of Stage in order, end to end.

    t, temps: arrays (min, degC). begin: index of the first reading that is melted out, or of the warmest, before
    which the bowl was only warming; 0 where the log begins later. arrived: index of the first reading at work, or
    None. seeded_at: minutes, or None.

    >>> t, temps = np.array([0.0, 12, 15, 25, 30]), np.array([22.0, 46, 46, 33, 31.6])
    >>> edges = Edges(cold=26.5, cool=29.5, thick=30.5, warm=32.5, lost=34.5, melted=44.5)
    >>> [stage.name for stage in stages(t, temps, edges, begin=1, arrived=4, seeded_at=15)]
    ['warming', 'melt-out', 'seeding', 'working']
    """
    zones = _zones(temps, edges)
    place, last = np.arange(len(t)), len(t) if arrived is None else arrived
    names = np.where(place < begin, "warming", np.where(place < last, "cooling", zones))
    melt = np.flatnonzero((temps >= edges.melted) & (place >= begin) & (place < last))
    if melt.size:
        names[melt[0] : melt[-1] + 1] = "melt-out"
    if arrived is not None:
        _join_brief(t, names, arrived)
        if melt.size:
            _passes_through(t, temps, names, arrived)
        _between(names, arrived)
    if seeded_at is not None:
        names[(names == "cooling") & (t >= seeded_at) & (place <= last)] = "seeding"
    return tuple(_stage(name, t, temps, i, j) for name, i, j in _runs(names))


def _runs(names, first=0):
    """(name, first index, index after the last) of each stretch of one name, from `first` on."""
    starts = [first, *(np.flatnonzero(names[first + 1 :] != names[first:-1]) + first + 1)]
    return [(str(names[i]), int(i), int(j)) for i, j in zip(starts, [*starts[1:], len(names)], strict=True)]


def _join_brief(t, names, arrived):
    """A stretch shorter than SHORTEST joins the one before it, unless the bowl is too hot."""
    for name, i, j in _runs(names, arrived)[1:]:
        if t[min(j, len(t) - 1)] - t[i] < SHORTEST and name != "overheated":
            names[i:j] = names[i - 1]


def _passes_through(t, temps, names, arrived):
    """A bowl that falls on through its working band only cools."""
    runs = _runs(names, arrived)
    name, i, j = runs[0]
    falls = j - i < 2 or rate(t[i:j], temps[i:j]) < -PASSING
    if name == "working" and falls and {"cool band", "too cold"} & {later for later, _, _ in runs[1:3]}:
        names[i:j] = "cooling"


def _between(names, arrived):
    """Names for the stretches that are told by their neighbours."""
    runs = _runs(names, arrived)
    for before, (name, i, j), after in zip(
        ["", *(n for n, _, _ in runs)], runs, [*(n for n, _, _ in runs[1:]), ""], strict=False
    ):
        cold, warmer = ("cool band", "too cold"), after in ("working", "above work")
        if name == "between":
            names[i:j] = "rewarming" if before in cold and warmer else "cooling"
        elif name == "above work" and "overheated" in (before, after):
            names[i:j] = "overheated"
        elif name in cold and warmer and j - i > 1:
            names[j - 1] = "rewarming"


def _zones(temps, edges):
    zones = {
        "overheated": temps > edges.lost,
        "above work": temps > edges.warm,
        "working": temps >= edges.thick,
        "between": temps >= edges.cool,
        "cool band": temps >= edges.cold,
    }
    return np.select([*zones.values()], [*zones], "too cold").astype(object)


_SENTENCES = {
    "warming": "The bowl warms",
    "melt-out": "Melted out",
    "cooling": "The bowl cools",
    "seeding": "The bowl cools with the seed in it",
    "cool band": "In the cool band, where crystals start",
    "too cold": "Colder than the cool band, thick",
    "rewarming": "Warmed again towards the working band",
    "working": "In the working band",
    "above work": "Above the working band",
    "overheated": "Too hot: the crystals melt",
}


def _stage(name, t, temps, i, j):
    end = min(j, len(t) - 1)
    part = temps[i:j]
    low, high = float(part.min()), float(part.max())
    slope = rate(t[i : end + 1], temps[i : end + 1])
    start, stop = float(t[i]), float(t[end])
    sentence = f"{_SENTENCES[name]}, {start:.3g} to {stop:.3g} min: {at(low)} to {at(high)}, {slope:+.2f} °C/min."
    return Stage(name, start, stop, low, high, slope, sentence)
