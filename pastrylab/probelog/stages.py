"""The stages of a tempering bowl's log: warming, melt-out, cooling, seeding, cool band, rewarming, working, and
what goes wrong between them.
"""

from dataclasses import dataclass

import numpy as np

from pastrylab.probelog.faults import rate

SHORTEST = 1.0  # minutes; a shorter stretch joins the stage before it, unless the bowl is too hot
PASSING = 0.1  # degC/min; falling faster, a bowl passes through the working band and is not held there


@dataclass(frozen=True)
class Edges:
    """Limits in degC, each widened by the probe's error: below `cold` too cold, to `cool` the cool band, from
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
    """A reading in both units: 32.2 °C (90.0 °F)."""
    return f"{degc:.1f} °C ({degc * 1.8 + 32:.1f} °F)"


def stages(t, temps, edges, begin, arrived, seeded_at):
    """Tuple of Stage in order, end to end.

    t, temps: arrays (min, degC). begin: index of the first reading that is melted out, or of the warmest, before
    which the bowl was only warming; 0 where the log begins later. arrived: index of the first reading at work, or
    None. seeded_at: minutes, or None.
    """
    names = np.empty(len(t), dtype=object)
    names[:begin] = "warming"
    last = len(t) if arrived is None else arrived
    for i in range(begin, last):
        names[i] = "melt-out" if temps[i] >= edges.melted else "cooling"
    melt = np.flatnonzero(names == "melt-out")
    if melt.size:
        names[melt[0] : melt[-1]] = "melt-out"
    if arrived is not None:
        _after(t, temps, edges, names, arrived, melt.size > 0)
    if seeded_at is not None:
        names[(names == "cooling") & (t >= seeded_at) & (np.arange(len(t)) <= last)] = "seeding"
    return tuple(_stage(name, t, temps, i, j) for name, i, j in _runs(names))


def _runs(names):
    starts = [0, *(i for i in range(1, len(names)) if names[i] != names[i - 1])]
    return [(names[i], i, j) for i, j in zip(starts, [*starts[1:], len(names)], strict=True)]


def _after(t, temps, edges, names, arrived, melted):
    for i in range(arrived, len(t)):
        names[i] = _zone(temps[i], edges)
    runs = [run for run in _runs(names) if run[1] >= arrived]
    for k, (name, i, j) in enumerate(runs):
        brief = t[min(j, len(t) - 1)] - t[i] < SHORTEST
        if k and brief and name != "overheated":
            names[i:j] = names[i - 1]
        onward = [later for later, _, _ in runs[k + 1 : k + 3]]
        falls = j - i < 2 or rate(t[i:j], temps[i:j]) < -PASSING
        if k == 0 and name == "working" and melted and falls and {"cool band", "too cold"} & set(onward):
            names[i:j] = "cooling"
    runs = [run for run in _runs(names) if run[1] >= arrived]
    for k, (name, i, j) in enumerate(runs):
        before, after = (runs[k - 1][0] if k else ""), (runs[k + 1][0] if k + 1 < len(runs) else "")
        if name == "between":
            names[i:j] = (
                "rewarming" if before in ("cool band", "too cold") and after in ("working", "above work") else "cooling"
            )
        elif name == "above work" and "overheated" in (before, after):
            names[i:j] = "overheated"
        elif name in ("cool band", "too cold") and after in ("working", "above work") and j - i > 1:
            names[j - 1] = "rewarming"


def _zone(temp, edges):
    for name, limit in (("overheated", edges.lost), ("above work", edges.warm)):
        if temp > limit:
            return name
    for name, limit in (("working", edges.thick), ("between", edges.cool), ("cool band", edges.cold)):
        if temp >= limit:
            return name
    return "too cold"


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
