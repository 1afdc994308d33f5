"""The bands of a mending as rows, linear in the masses: the nearest masses that hold them, or the fewest that clash.

A band on a share of mass is linear in the masses, so the smallest change in the sense of least squares is a
least-distance problem (nearest).
"""

from dataclasses import dataclass
from itertools import combinations

import numpy as np

from pastrylab.ground.nearest import least_distance
from pastrylab.ground.units import StudentError
from pastrylab.trade.composition import SUGARS, compositions
from pastrylab.trade.formula import Formula
from pastrylab.trade.mending_activity import with_activity

ACTIVITY = "water activity"
# Of the batch as it was. Mending is no way to make less: next to nothing would lie next to every band.
LEAST_TOTAL = 0.5
HEAVIEST = 20.0  # times the batch as it was: how far a band on water activity is searched for
ROUNDING = 1e-9  # shares closer than this floats cannot be relied on to tell apart
_SOMETHING = 1e-2  # of the batch: what a formula must weigh to be one


@dataclass(frozen=True)
class Problem:
    """What may move, and what must hold. Masses are parts of the batch as it was.

    rows: (word, a, b), meaning a . masses >= b; rows without a word always hold. activity: (word, end, limit) with end
    "low" or "high", in the order of words.

    >>> posed(Formula({"butter": "100 g"}), {"fat": (None, 0.50)}, ["water"], False, 0.0).names
    ('water', 'butter unsalted')
    """

    names: tuple[str, ...]
    start: np.ndarray
    at: tuple[int, ...]
    rows: tuple
    activity: tuple

    @property
    def words(self):
        """Everything that may be asked or left out, each once: a tuple of texts.

        >>> posed(Formula({"butter": "100 g"}), {"fat": (None, 0.50)}, ["water"], False, 0.0).words
        ('fat at most 50 %', 'the batch at least 0.5 times as heavy as before')
        """
        return tuple(dict.fromkeys([word for word, _, _ in self.rows if word] + [word for word, _, _ in self.activity]))

    def linear(self, words, extra=()):
        """The masses nearest to the start, moving only `at`, where the rows of these words hold: an array, or None.

        extra: rows (a, b) that hold as well. Source: nearest.least_distance.

        >>> problem = posed(Formula({"butter": "100 g"}), {"fat": (None, 0.50)}, ["water"], False, 0.0)
        >>> problem.linear(problem.words).round(3).tolist()
        [0.622, 1.0]
        """
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
        return masses if np.min(a @ masses - b) >= -ROUNDING / 2 else None

    def nearest(self, words):
        """As linear, with the water activity where these words hold one. Raises StudentError as with_activity.

        >>> problem = posed(Formula({"butter": "100 g"}), {"fat": (None, 0.50)}, ["water"], False, 0.0)
        >>> problem.nearest(problem.words).round(3).tolist()
        [0.622, 1.0]
        """
        asked = [one for one in self.activity if one[0] in words]
        return with_activity(self, words, asked) if asked else self.linear(words)

    def formula(self, masses, total=1000.0):
        """The Formula of some masses, for a batch that weighed `total` g.

        >>> posed(Formula({"butter": "100 g"}), {"fat": (None, 0.50)}, ["water"], False, 0.0).formula([0.622, 1.0], total=100.0)
        Formula({'water': '62.2 g', 'butter unsalted': '100 g'})
        """
        return Formula.of_grams(
            {n: float(m * total) for n, m in zip(self.names, masses, strict=True) if m * total > 1e-9}
        )

    def clashes(self):
        """The smallest set of words that cannot hold together; with a water activity, one no word can be left out of.

        >>> posed(Formula({"butter": "100 g"}), {"fat": (None, 0.50)}, ["butter unsalted"], False, 0.0).clashes()
        ('fat at most 50 %',)
        """
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


def posed(formula, bands, movers, keep_total, margin):
    """The Problem of a mending. bands: {component or "water activity": (low, high)}, None for an open end.

    movers: names as in ingredients.csv; keep_total: whether the batch must weigh the same; margin: how far inside its
    bands, in shares of the batch as it was.

    >>> posed(Formula({"butter": "100 g"}), {"fat": (None, 0.50)}, ["water"], False, 0.0).start.tolist()
    [0.0, 1.0]
    """
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
    low, high = bands.get(ACTIVITY, (None, None))
    activity = [(f"{ACTIVITY} at least {low:.3g}", "low", low)] if low is not None else []
    if high is not None:
        activity.append((f"{ACTIVITY} at most {high:.3g}", "high", high))
    if activity:
        rows.append(("", -ones, -HEAVIEST))
    return Problem(names, start, at, tuple(rows), tuple(activity))


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
