"""Mend a formula: the smallest change of the ingredients allowed to move that brings it into its target bands.

A band on a share of mass is linear in the masses, so the smallest change in the sense of least squares is a
least-distance problem (nearest). Where the bands cannot all hold, the smallest set of them that clashes is looked for.
A band on water activity is not linear; it is set on its tangent and solved again until it stands still. Whatever the
search finds is worked out again as a formula, and given only where that formula lies in its bands.
"""

from dataclasses import dataclass
from itertools import combinations

import numpy as np

from pastrylab.ground.nearest import least_distance
from pastrylab.ground.units import Quantity, StudentError, show
from pastrylab.trade.composition import SUGARS, compositions
from pastrylab.trade.formula import Formula
from pastrylab.trade.pantry import ingredient_names
from pastrylab.trade.water_activity import estimate

COMPONENTS = ("water", "fat", "sugars")
# Of the batch as it was. Mending is no way to make less: next to nothing would lie next to every band.
LEAST_TOTAL = 0.5
_HEAVIEST = 20.0  # times the batch as it was: how far a band on water activity is searched for
_ACTIVITY = "water activity"
_ROUNDS = 40
# A hair inside the band, so that rounding does not push it out; none where only the edge itself will do.
_MARGINS = (1e-7, 0.0)
_ROUNDING = 1e-9  # shares closer than this floats cannot be relied on to tell apart
_SOMETHING = 1e-2  # of the batch: what a formula must weigh to be one
_EXAMPLE = "water from 18 to 25 %, the heavy cream may change"


@dataclass(frozen=True)
class Mended:
    """A mended formula, or why there is none.

    formula: the new Formula, or None. changes: {ingredient: mass to add, negative: to take away}. clashes: the bands that
    cannot hold together, in words; empty where the formula could be mended. sentence: what to do.
    """

    formula: Formula | None
    changes: dict
    clashes: tuple[str, ...]
    sentence: str

    def __bool__(self):
        return self.formula is not None


def mend(formula, targets, move, keep_total=False):
    """The smallest change that brings a formula into its bands, or the smallest set of bands that clash: a Mended.

    targets: {"water", "fat", "sugars" or "water activity": (low, high)}, shares of mass 0 to 1 and a plain water
    activity, None for an open end; emulsion.targets(use) makes some. move: names of the ingredients that may change; new
    ones start at nothing. keep_total: whether the batch must weigh the same; else it keeps half its weight at least.
    Smallest: least sum of squared grams moved; where water activity is asked for, the nearest the search finds. What is
    returned lies in its bands by Formula.composition. An estimate of water activity is "at most" a figure only where its
    high end is; "at least" goes by its value. It decides nothing about keeping. Raises StudentError for bands the wrong
    way round, unknown names, nothing to move, and where the water activity cannot be estimated.
    """
    bands, movers = _bands(targets), _movers(formula, move)
    if meets(formula, bands):
        return Mended(formula, {}, (), "Nothing to mend: the formula lies in its bands.")
    for margin in _MARGINS:
        problem = _posed(formula, bands, movers, keep_total, margin)
        masses = problem.nearest(problem.words)
        if masses is not None:
            break
    else:
        clashes = problem.clashes()
        return Mended(None, {}, clashes, _clash_sentence(clashes, movers))
    return _mended(formula, problem, masses, bands, movers)


def _bands(targets):
    if not hasattr(targets, "items") or not targets:
        raise StudentError(f"{str(targets)[:40]!r} as targets", "at least one band", _EXAMPLE)
    bands = {}
    for name, band in targets.items():
        key = str(name).strip().casefold().replace("_", " ")
        if key not in (*COMPONENTS, _ACTIVITY):
            raise StudentError(f"a band for '{name}'", "one of " + ", ".join((*COMPONENTS, _ACTIVITY)), _EXAMPLE)
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
    """
    made = formula.composition()
    held = [(made[name] + _ROUNDING, made[name] - _ROUNDING, bands[name]) for name in COMPONENTS if name in bands]
    if _ACTIVITY in bands:
        found = estimated(formula)
        held.append((found.value, found.high, bands[_ACTIVITY]))
    return all((low is None or least >= low) and (high is None or most <= high) for least, most, (low, high) in held)


# --- the problem as rows ------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class _Problem:
    """What may move, and what must hold. Masses are parts of the batch as it was.

    rows: (word, a, b), meaning a . masses >= b; rows without a word always hold. activity: (word, end, limit) with end
    "low" or "high", in the order of words.
    """

    names: tuple[str, ...]
    start: np.ndarray
    at: tuple[int, ...]
    rows: tuple
    activity: tuple

    @property
    def words(self):
        """Everything that may be asked or left out, each once."""
        return tuple(dict.fromkeys([word for word, _, _ in self.rows if word] + [word for word, _, _ in self.activity]))

    def linear(self, words, extra=()):
        """The masses nearest to the start, moving only `at`, where the rows of these words hold; or None."""
        rows = [(a, b) for word, a, b in self.rows if not word or word in words] + list(extra)
        a, b = np.array([row for row, _ in rows]), np.array([bound for _, bound in rows])
        at = list(self.at)
        length = np.linalg.norm(a[:, at], axis=1)
        length[length == 0] = 1.0
        x, _ = least_distance(a[:, at] / length[:, None], (b - a @ self.start) / length)
        if x is None:
            return None
        masses = self.start.copy()
        masses[at] = np.maximum(self.start[at] + x, 0.0)
        return masses if np.min(a @ masses - b) >= -_ROUNDING / 2 else None

    def nearest(self, words):
        """As linear, with the water activity where these words hold one."""
        asked = [one for one in self.activity if one[0] in words]
        return _with_activity(self, words, asked) if asked else self.linear(words)

    def formula(self, masses, total=1000.0):
        """The formula of some masses, for a batch that weighed `total` g."""
        return Formula.of_grams(
            {n: float(m * total) for n, m in zip(self.names, masses, strict=True) if m * total > 1e-9}
        )

    def clashes(self):
        """The smallest set of words that cannot hold together; with a water activity, one no word can be left out of."""
        named = [word for word in self.words if word not in {word for word, _, _ in self.activity}]
        for size in range(1, len(named) + 1):
            for some in combinations(named, size):
                if self.linear(some) is None:
                    return some
        kept = list(self.words)
        for word in self.words:
            fewer = [one for one in kept if one != word]
            try:
                kept = fewer if self.nearest(fewer) is None else kept
            except StudentError:  # not known to clash without this word
                continue
        return tuple(kept)


def _posed(formula, bands, movers, keep_total, margin):
    grams = {**dict.fromkeys(movers, 0.0), **formula.grams}
    names = tuple(grams)
    start = np.array([grams[name] for name in names]) / formula.total_grams
    at = tuple(names.index(name) for name in movers)
    rows = [("", one, 0.0) for one in np.eye(len(names))[list(at)]] + _band_rows(names, bands, margin)
    ones = np.ones(len(names))
    rows.append(("", ones, _SOMETHING))
    if keep_total:
        rows += [("the batch as heavy as before", sign * ones, sign * start.sum()) for sign in (1, -1)]
    else:
        rows.append((f"the batch at least {LEAST_TOTAL:g} times as heavy as before", ones, LEAST_TOTAL))
    low, high = bands.get(_ACTIVITY, (None, None))
    activity = [(f"{_ACTIVITY} at least {low:.3g}", "low", low)] if low is not None else []
    if high is not None:
        activity.append((f"{_ACTIVITY} at most {high:.3g}", "high", high))
    if activity:
        rows.append(("", -ones, -_HEAVIEST))
    return _Problem(names, start, at, tuple(rows), tuple(activity))


def _band_rows(names, bands, margin):
    """share >= low is sum of m (share - low) >= 0, with the margin inside."""
    made, rows = compositions(names, np.eye(len(names))), []
    shares = {"water": made["water"], "fat": made["fat"], "sugars": sum(made[sugar] for sugar in SUGARS)}
    for component, share in shares.items():
        low, high = bands.get(component, (None, None))
        if low is not None:
            rows.append((f"{component} at least {100 * low:.3g} %", share - low, margin))
        if high is not None:
            rows.append((f"{component} at most {100 * high:.3g} %", high - share, margin))
    return rows


# --- water activity -----------------------------------------------------------------------------------------------

_POLYOLS = {"sorbitol powder": "sorbitol", "sorbitol syrup 70 %": "sorbitol", "glycerol": "glycerol"}


def estimated(formula):
    """The estimate of a formula's water activity; all sugars dissolved as far as they can.

    Raises StudentError where the estimate does not reach, and for sorbitol and glycerol together.
    """
    polyols = {_POLYOLS[name] for name, mass in formula.grams.items() if name in _POLYOLS and mass > 0}
    if len(polyols) > 1:
        raise StudentError("sorbitol and glycerol together", "one of them", "sorbitol syrup")
    return estimate(formula.composition(), polyol=next(iter(polyols), None))


def activity(formula):
    """The estimated water activity of a formula, a plain float. Raises StudentError as estimated does."""
    return estimated(formula).value


def _over(problem, masses, asked):
    """(estimate, how far each end asked for lies on the wrong side); (None, None) where there is no estimate."""
    try:
        found = estimated(problem.formula(masses))
    except StudentError:
        return None, None
    return found, np.array([limit - found.value if end == "low" else found.high - limit for _, end, limit in asked])


def _tangents(problem, masses, found, over, asked, ease=1.0):
    """Rows that take the share `ease` of what lies over the limits away, on the tangent of the estimate's value."""
    nudge = 1e-4 * masses.sum()
    slope = np.zeros(len(masses))
    for i in problem.at:
        more = masses.copy()
        more[i] += nudge
        slope[i] = (activity(problem.formula(more)) - found.value) / nudge
    rows = []
    for (_, end, _), miss in zip(asked, over, strict=True):
        up = slope if end == "low" else -slope
        rows.append((up, ease * miss + 1e-6 + up @ masses))
    return rows


def _with_activity(problem, words, asked):
    """The masses near the start in all bands, the water activity on its tangent, round after round; None where the
    search comes to a point from which no step on the tangents lessens what lies over. Raises StudentError."""
    masses = problem.linear(words)
    if masses is None:
        return None
    found, over = _over(problem, masses, asked)
    if found is None:
        estimated(problem.formula(masses))  # says why there is none
    reached, bends = [], []
    for _ in range(_ROUNDS):
        new = _aimed(problem, words, _tangents(problem, masses, found, over, asked), bends)
        if new is None or len(bends) > 6 * len(asked):
            new, bends = None if reached else _eased(problem, words, asked, masses, found, over), []
        if new is None:
            break
        if np.max(np.abs(new - masses)) < 1e-6 and np.all(over <= 0):
            return masses
        for part in 0.5 ** np.arange(8):
            trial, tried, left = _evaluable(problem, asked, masses, masses + part * (new - masses))
            if _cost(problem, trial, left) < _cost(problem, masses, over) - 1e-9:
                masses, found, over, bends = trial, tried, left, []
                break
        else:
            # Where sugar begins to be left over the estimate has a bend: the tangent beyond it holds as well.
            bends = [*bends, *_tangents(problem, trial, tried, left, asked)]
        if np.all(over <= 0):
            reached.append(masses)
    if reached or new is None:
        return min(reached, default=None, key=lambda one: np.linalg.norm(one - problem.start))
    raise StudentError(
        "a band on water activity that the search did not settle on",
        "another ingredient to move, or a wider band",
        "let the invert syrup and the heavy cream change",
    )


def _aimed(problem, words, tangents, bends):
    both = problem.linear(words, tangents + bends) if bends else None
    return problem.linear(words, tangents) if both is None else both


def _cost(problem, masses, over):
    """What a search makes small: how far it has moved, and a hundredfold what still lies over."""
    return float(np.linalg.norm(masses - problem.start) + 100 * max(0.0, np.max(over)))


def _evaluable(problem, asked, masses, new):
    """(new, estimate, over), the step halved until there is an estimate at its end: the rows hold all along it."""
    for _ in range(30):
        found, over = _over(problem, new, asked)
        if found is not None:
            return new, found, over
        new = 0.5 * (masses + new)
    return masses, *_over(problem, masses, asked)


def _eased(problem, words, asked, masses, found, over):
    """A step that takes away part of what lies over, where the tangents cannot take away all; None where none does."""
    for ease in 0.5 ** np.arange(1, 6):
        new = problem.linear(words, _tangents(problem, masses, found, over, asked, ease))
        if new is not None:
            new, _, after = _evaluable(problem, asked, masses, new)
            if np.max(after) < 0.99 * np.max(over):
                return new
    return None


# --- words --------------------------------------------------------------------------------------------------------


def _mended(formula, problem, masses, bands, movers):
    total = formula.total_grams
    found = problem.formula(masses, total).grams
    kept = {name: grams for name, grams in formula.grams.items() if name not in movers}
    after = Formula.of_grams({name: kept.get(name, grams) for name, grams in found.items()})
    if not meets(after, bands):
        raise StudentError(
            "bands that meet in too small a corner to be hit", "a wider band, or another ingredient to move", _EXAMPLE
        )
    more = {name: after.grams.get(name, 0.0) - formula.grams.get(name, 0.0) for name in movers}
    least = 0.05 if any(abs(grams) >= 0.05 for grams in more.values()) else 0.0
    changes = {name: Quantity(grams, "g") for name, grams in more.items() if abs(grams) > 0 and abs(grams) >= least}
    said = [
        f"{'add' if change.m > 0 else 'take away'} {'' if name in after.grams else 'all '}{show(abs(change), 3)} of {name}"
        for name, change in changes.items()
    ]
    sentence = f"{', '.join(said)}."
    sentence = sentence[0].upper() + sentence[1:]
    if _ACTIVITY in bands:
        sentence += " " + estimated(after).sentence
    return Mended(after, changes, (), sentence)


def _clash_sentence(clashes, movers):
    moved = " and ".join(movers)
    together = "these cannot all hold" if len(clashes) > 1 else "this cannot hold"
    far = f" (a batch {_HEAVIEST:g} times as heavy was tried)" if any(_ACTIVITY in word for word in clashes) else ""
    return (
        f"By moving {moved} alone {together}: {'; '.join(clashes)}{far}. Let another ingredient move, or widen a band."
    )
