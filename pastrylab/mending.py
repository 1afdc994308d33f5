"""Mend a formula: the smallest change of the ingredients allowed to move that brings it into its target bands.

A band on a share of mass is linear in the masses, so the smallest change in the sense of least squares is a
least-distance problem: min |x| with G x >= h. Lawson and Hanson, Solving Least Squares Problems, 1974, chapter 23, turn
it into one non-negative least squares problem. Where the bands cannot all hold, the same solution names those that clash.
A bound on water activity is not linear; it is set on the tangent and solved again until it stands still.
"""

from dataclasses import dataclass

import numpy as np

from pastrylab.formula import SUGARS, Formula, compositions
from pastrylab.pantry import ingredient_names
from pastrylab.units import Quantity, StudentError, show
from pastrylab.water_activity import estimate

COMPONENTS = ("water", "fat", "sugars")
_ACTIVITY = "water activity"
_ROUNDS = 40
_MARGIN = 1e-7  # a hair inside the band, so that rounding does not push it out
_EXAMPLE = 'mend(formula, {"water": (0.18, 0.25)}, move=["heavy cream"])'


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
    """The smallest change that brings a formula into its bands: a Mended.

    targets: {"water", "fat", "sugars" or "water activity": (low, high)}, shares of mass 0 to 1 and a plain water
    activity, None for an open end; emulsion.targets(use) makes some. move: names of the ingredients that may change; new
    ones start at nothing. keep_total: whether the batch must weigh the same. Smallest: least sum of squared grams moved.
    The water activity is an estimate, good to 0.03 or so, and decides nothing about keeping. Raises StudentError for bands
    the wrong way round, unknown names, nothing to move, and where the water activity cannot be estimated.
    """
    bands, movers = _bands(targets), _movers(formula, move)
    grams = {**dict.fromkeys(movers, 0.0), **formula.grams}
    names = list(grams)
    start = np.array([grams[name] for name in names]) / formula.total_grams
    at = [names.index(name) for name in movers]
    rows, words = _linear(names, bands, keep_total, start)
    rows += [(one, 0.0) for one in np.eye(len(names))[at]]
    words += [f"no less than 0 g of {name}" for name in movers]
    masses, clashes = _solve(start, at, rows, words)
    if masses is not None and _ACTIVITY in bands:
        masses, clashes = _with_activity(names, start, at, rows, words, bands[_ACTIVITY], masses)
    if masses is None:
        return Mended(None, {}, clashes, _clash_sentence(clashes, movers))
    return _mended(formula, names, start, masses, movers)


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
        raise StudentError(f"{str(formula)[:40]!r} to mend", "a Formula", _EXAMPLE)
    names = ingredient_names([move] if isinstance(move, str) else move)
    if not names:
        raise StudentError("nothing that may move", "the ingredients you allow to change", _EXAMPLE)
    return list(dict.fromkeys(names))


def _shares_of(names):
    """{component: its share in each ingredient} for water, fat and sugars."""
    made = compositions(names, np.eye(len(names)))
    return {"water": made["water"], "fat": made["fat"], "sugars": sum(made[sugar] for sugar in SUGARS)}


def _linear(names, bands, keep_total, start):
    """Rows (a, b) meaning a . masses >= b, and each in words. share >= low is sum of m (share - low) >= 0."""
    shares, rows, words = _shares_of(names), [], []
    for component, share in shares.items():
        low, high = bands.get(component, (None, None))
        if low is not None:
            rows.append((share - low, _MARGIN))
            words.append(f"{component} at least {100 * low:.3g} %")
        if high is not None:
            rows.append((high - share, _MARGIN))
            words.append(f"{component} at most {100 * high:.3g} %")
    if keep_total:
        ones = np.ones(len(names))
        rows += [(ones, start.sum()), (-ones, -start.sum())]
        words += ["the batch as heavy as before"] * 2
    return rows, words


def _solve(start, at, rows, words):
    """(masses, ()) nearest to start, moving only `at`; or (None, clashes). The rows are scaled to length 1."""
    a, b = np.array([row for row, _ in rows]), np.array([bound for _, bound in rows])
    length = np.linalg.norm(a[:, at], axis=1)
    length[length == 0] = 1.0
    x, multipliers = least_distance(a[:, at] / length[:, None], (b - a @ start) / length)
    if x is None:
        biting = multipliers > 1e-6 * multipliers.max()
        return None, tuple(dict.fromkeys(word for word, bites in zip(words, biting, strict=True) if bites))
    masses = start.copy()
    masses[at] = np.maximum(start[at] + x, 0.0)
    return masses, ()


def least_distance(g, h):
    """(x, multipliers): the shortest x with g x >= h, or (None, multipliers) where there is none.

    g: array (rows, n); h: array (rows). Rows with a multiplier above 0 are those that bite or, without a solution, clash.
    Source: Lawson and Hanson 1974, algorithm LDP.
    """
    e = np.vstack([g.T, h])
    f = np.zeros(len(e))
    f[-1] = 1.0
    multipliers = nonnegative_least_squares(e, f)
    residual = e @ multipliers - f
    if -residual[-1] < 1e-10:
        return None, multipliers
    return -residual[:-1] / residual[-1], multipliers


def nonnegative_least_squares(e, f):
    """u >= 0 with the least |e u - f|. Source: Lawson and Hanson 1974, algorithm NNLS."""
    columns = e.shape[1]
    held, u = np.zeros(columns, dtype=bool), np.zeros(columns)
    for _ in range(30 * columns + 30):
        gain = np.where(held, -np.inf, e.T @ (f - e @ u))
        if not np.any(gain > 1e-12):
            break
        held[np.argmax(gain)] = True
        while True:
            trial = np.zeros(columns)
            trial[held] = np.linalg.lstsq(e[:, held], f, rcond=None)[0]
            negative = held & (trial <= 0)
            if not np.any(negative):
                break
            step = np.min(u[negative] / np.maximum(u[negative] - trial[negative], 1e-300))
            u = u + step * (trial - u)
            held &= u > 1e-15
            u[~held] = 0.0
        u = trial
    return u


# --- water activity -----------------------------------------------------------------------------------------------

_POLYOLS = {"sorbitol powder": "sorbitol", "sorbitol syrup 70 %": "sorbitol", "glycerol": "glycerol"}


def activity(formula):
    """The estimated water activity of a formula, a plain float; all sugars dissolved as far as they can.

    Raises StudentError where the estimate does not reach, and for sorbitol and glycerol together.
    """
    polyols = {_POLYOLS[name] for name, mass in formula.grams.items() if name in _POLYOLS and mass > 0}
    if len(polyols) > 1:
        raise StudentError("sorbitol and glycerol together", "one of them", "sorbitol syrup")
    return estimate(formula.composition(), polyol=next(iter(polyols), None)).value


def _activity(names, masses):
    return activity(Formula.of_grams({name: 1000 * mass for name, mass in zip(names, masses, strict=True) if mass > 0}))


def _with_activity(names, start, at, rows, words, band, masses):
    """Solve with the water activity on its tangent, round after round from the last solution."""
    nudge = 1e-4 * start.sum()
    low, high = band
    for turn in range(_ROUNDS):
        value = _activity(names, masses)
        slope = np.zeros(len(names))
        for i in at:
            more = masses.copy()
            more[i] += nudge
            slope[i] = (_activity(names, more) - value) / nudge
        extra, said = [], []
        if low is not None:
            extra.append((slope, low + 1e-5 - value + slope @ masses))
            said.append(f"water activity at least {low:.3g}")
        if high is not None:
            extra.append((-slope, value + 1e-5 - high - slope @ masses))
            said.append(f"water activity at most {high:.3g}")
        new, clashes = _solve(start, at, rows + extra, words + said)
        if new is None:
            return None, clashes
        if np.max(np.abs(new - masses)) < 1e-6 * start.sum():
            return new, ()
        masses = 0.5 * (masses + new) if turn >= _ROUNDS // 2 else new
    raise StudentError(
        "a band on water activity that the search did not settle on",
        "another ingredient to move, or a wider band",
        'move=["invert syrup", "heavy cream"]',
    )


# --- words --------------------------------------------------------------------------------------------------------


def _mended(formula, names, start, masses, movers):
    total = formula.total_grams
    more = dict(zip(names, ((masses - start) * total).tolist(), strict=True))
    changes = {name: Quantity(more[name], "g") for name in names if name in movers and abs(more[name]) >= 0.05}
    after = Formula.of_grams({n: float(m * total) for n, m in zip(names, masses, strict=True) if m * total > 1e-9})
    if not changes:
        return Mended(formula, {}, (), "Nothing to mend: the formula lies in its bands.")
    said = [
        f"{'add' if more[name] > 0 else 'take away'} {show(abs(change), 3)} of {name}"
        for name, change in changes.items()
    ]
    sentence = f"{', '.join(said)}."
    return Mended(after, changes, (), sentence[0].upper() + sentence[1:])


def _clash_sentence(clashes, movers):
    moved = " and ".join(movers)
    return f"By moving {moved} alone these cannot all hold: {'; '.join(clashes)}. Let another ingredient move, or widen a band."
