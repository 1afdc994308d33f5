"""Mend a formula: the smallest change of the ingredients allowed to move that brings it into its target bands.

The bands are posed as rows and solved (mending_rows), one on water activity by its tangent (mending_activity). Where the
bands cannot all hold, the smallest set of them that clashes is looked for. Whatever the search finds is worked out again
as a formula, and given only where that formula lies in its bands.
"""

import math
from dataclasses import dataclass
from itertools import product

from pastrylab.ground.files import one_look
from pastrylab.ground.units import Quantity, StudentError, show
from pastrylab.trade.activity import estimated
from pastrylab.trade.formula import Formula
from pastrylab.trade.mending_rows import ACTIVITY, HEAVIEST, ROUNDING, posed
from pastrylab.trade.pantry import ingredient_names

COMPONENTS = ("water", "fat", "sugars")
# A hair inside the band, so that rounding does not push it out; none where only the edge itself will do.
_MARGINS = (1e-7, 0.0)
_ROUNDED = 6  # so many movers at most: each doubles the ways to round
_EXAMPLE = "water from 18 to 25 %, the heavy cream may change"


@dataclass(frozen=True)
class Mended:
    """A mended formula, or why there is none.

    formula: the new Formula, or None. changes: {ingredient: mass to add, negative: to take away}. clashes: the bands that
    cannot hold together, in words; empty where the formula could be mended. sentence: what to do.

    >>> bool(mend(Formula({"butter": "100 g"}), {"fat": (None, 0.10)}, "water", keep_total=True))
    False
    """

    formula: Formula | None
    changes: dict
    clashes: tuple[str, ...]
    sentence: str

    def __bool__(self):
        return self.formula is not None


@one_look()
def mend(formula, targets, move, keep_total=False, to_weigh=False):
    """The smallest change that brings a formula into its bands, or the smallest set of bands that clash: a Mended.

    targets: {"water", "fat", "sugars" or "water activity": (low, high)}, shares of mass 0 to 1 and a plain water
    activity, None for an open end; emulsion.targets(use) makes some. move: names of the ingredients that may change; new
    ones start at nothing. keep_total: whether the batch must weigh the same; else it keeps half its weight at least.
    Smallest: least sum of squared grams moved; where water activity is asked for, the nearest the search finds. What is
    returned lies in its bands by Formula.composition. An estimate of water activity is "at most" a figure only where its
    high end is; "at least" goes by its value. It decides nothing about keeping. Raises StudentError for bands the wrong
    way round, unknown names, nothing to move, and where the water activity cannot be estimated.

    >>> thin = Formula({"dark couverture 64 %": "300 g", "heavy cream": "300 g"})
    >>> mend(thin, {"water": (None, 0.25)}, "dark couverture 64 %").sentence
    'Add 105 g of dark couverture 64 %.'
    """
    bands, movers = _bands(targets), _movers(formula, move)
    if meets(formula, bands):
        return Mended(formula, {}, (), "Nothing to mend: the formula lies in its bands.")
    for margin in _MARGINS:
        problem = posed(formula, bands, movers, keep_total, margin)
        masses = problem.nearest(problem.words)
        if masses is not None:
            break
    else:
        clashes = problem.clashes()
        return Mended(None, {}, clashes, _clash_sentence(clashes, movers))
    after = _after(formula, problem, masses, bands, movers)
    if to_weigh:
        after = _weighed(after, bands, movers, formula.total_grams if keep_total else None)
    return _mended(formula, after, bands, movers)


def _bands(targets):
    if not hasattr(targets, "items") or not targets:
        raise StudentError(f"{str(targets)[:40]!r} as targets", "at least one band", _EXAMPLE)
    bands = {}
    for name, band in targets.items():
        key = str(name).strip().casefold().replace("_", " ")
        if key not in (*COMPONENTS, ACTIVITY):
            raise StudentError(f"a band for '{name}'", "one of " + ", ".join((*COMPONENTS, ACTIVITY)), _EXAMPLE)
        try:
            low, high = (None if end is None else float(end) for end in band)
        except (TypeError, ValueError):
            raise StudentError(f"{str(band)[:40]} as the band of {key}", "two shares, low and high", _EXAMPLE) from None
        ends = [end for end in (low, high) if end is not None]
        if not ends or not all(0 <= end <= 1 for end in ends) or ends != sorted(ends):
            raise StudentError(f"{band} as the band of {key}", "two shares from 0 to 1, low first", _EXAMPLE)
        bands[key] = (low, high)
    return bands


def _movers(formula, move):
    if not isinstance(formula, Formula):
        raise StudentError(f"{str(formula)[:40]!r} to mend", "a formula", "300 g dark couverture, 200 g heavy cream")
    names = ingredient_names([move] if isinstance(move, str) else move)
    if not names:
        raise StudentError("nothing that may move", "the ingredients you allow to change", _EXAMPLE)
    return list(dict.fromkeys(names))


def meets(formula, bands):
    """Whether a formula lies in all its bands, by its composition and the careful end of the estimate: True or False.

    bands: as `targets` of mend. No band is widened by more than floats are unsure of, a thousand-millionth of the whole.
    Raises StudentError where the water activity cannot be estimated.

    >>> meets(Formula({"butter": "100 g"}), {"fat": (0.80, 0.85)})
    True
    """
    made = formula.composition()
    held = [(made[name] + ROUNDING, made[name] - ROUNDING, bands[name]) for name in COMPONENTS if name in bands]
    if ACTIVITY in bands:
        found = estimated(formula)
        held.append((found.value, found.high, bands[ACTIVITY]))
    return all((low is None or least >= low) and (high is None or most <= high) for least, most, (low, high) in held)


def _after(formula, problem, masses, bands, movers):
    """The formula that was found; what may not move stands to the last digit."""
    found = problem.formula(masses, formula.total_grams).grams
    kept = {name: grams for name, grams in formula.grams.items() if name not in movers}
    in_order = [name for name in {**formula.grams, **found} if name in found]
    after = Formula.of_grams({name: kept.get(name, found[name]) for name in in_order})
    if not meets(after, bands):
        raise StudentError(
            "bands that meet in too small a corner to be hit", "a wider band, or another ingredient to move", _EXAMPLE
        )
    return after


def _weighed(after, bands, movers, total):
    """The formula with its movers rounded, up or down, the nearest way first that holds; as it is where none does."""
    moved = {name: after.grams[name] for name in movers if name in after.grams}
    coarse = {name: 1.0 if grams >= 50 else 0.1 for name, grams in moved.items()}
    for steps in (coarse, dict.fromkeys(moved, 0.1)):
        for way in _ways(moved, steps) if len(moved) <= _ROUNDED else ():
            trial = {name: way.get(name, grams) for name, grams in after.grams.items() if way.get(name, grams) > 0}
            as_heavy = total is None or abs(math.fsum(trial.values()) - total) < ROUNDING * total
            if as_heavy and meets(Formula.of_grams(trial), bands):
                return Formula.of_grams(trial)
    return after


def _ways(moved, steps):
    """Each way of rounding up or down, the nearest first: {name: grams}."""
    ways = [
        {name: round(turn(moved[name] / steps[name]) * steps[name], 1) for name, turn in zip(moved, turns, strict=True)}
        for turns in product((math.floor, math.ceil), repeat=len(moved))
    ]
    return sorted(ways, key=lambda way: sum((way[name] - moved[name]) ** 2 for name in moved))


def _mended(formula, after, bands, movers):
    more = {name: after.grams.get(name, 0.0) - formula.grams.get(name, 0.0) for name in movers}
    least = 0.05 if any(abs(grams) >= 0.05 for grams in more.values()) else 0.0
    changes = {name: Quantity(grams, "g") for name, grams in more.items() if abs(grams) > 0 and abs(grams) >= least}
    said = [
        f"{'add' if change.m > 0 else 'take away'} {'' if name in after.grams else 'all '}{show(abs(change), 3)} of {name}"
        for name, change in changes.items()
    ]
    sentence = f"{', '.join(said)}."
    sentence = sentence[0].upper() + sentence[1:]
    if ACTIVITY in bands:
        sentence += " " + estimated(after).sentence
    return Mended(after, changes, (), sentence)


def _clash_sentence(clashes, movers):
    moved = " and ".join(movers)
    together = "these cannot all hold" if len(clashes) > 1 else "this cannot hold"
    far = f" (a batch {HEAVIEST:g} times as heavy was tried)" if any(ACTIVITY in word for word in clashes) else ""
    return (
        f"By moving {moved} alone {together}: {'; '.join(clashes)}{far}. Let another ingredient move, or widen a band."
    )
