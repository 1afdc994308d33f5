"""A band on water activity, not linear in the masses: set on its tangent and solved again until it stands still."""

import numpy as np

from pastrylab.ground.units import StudentError
from pastrylab.trade.activity import estimated

_ROUNDS = 40


def activity(formula):
    """The estimated water activity of a formula, a plain float. Raises StudentError as estimated does.

    >>> from pastrylab import Formula
    >>> f"{activity(Formula({'dark couverture 64 %': '300 g', 'heavy cream': '200 g'})):.2f}"
    '0.94'
    """
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


def with_activity(problem, words, asked):
    """The masses near the start in all bands, the water activity on its tangent, round after round: an array.

    problem: mending_rows.Problem; words: what must hold; asked: those of its `activity` that must. None where the search
    comes to a point from which no step on the tangents lessens what lies over. Raises StudentError where there is no
    estimate, and where the search does not settle.

    >>> from pastrylab import Formula
    >>> from pastrylab.trade.mending_rows import posed
    >>> dark = Formula({"dark couverture 64 %": "300 g", "heavy cream": "200 g"})
    >>> problem = posed(dark, {"water activity": (None, 0.88)}, ["invert syrup"], False, 0.0)
    >>> activity(problem.formula(with_activity(problem, problem.words, problem.activity))) < 0.88
    True
    """
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
        masses, found, over, bends = _stepped(problem, asked, (masses, found, over), new, bends)
        if np.all(over <= 0):
            reached.append(masses)
    if reached or new is None:
        return min(reached, default=None, key=lambda one: np.linalg.norm(one - problem.start))
    raise StudentError(
        "a band on water activity that the search did not settle on",
        "another ingredient to move, or a wider band",
        "let the invert syrup and the heavy cream change",
    )


def _stepped(problem, asked, here, new, bends):
    """(masses, estimate, over, bends) after the longest part of the step to `new` that makes the cost less; where none
    does, `here` again with the tangents of the last one tried among the bends."""
    masses, _, over = here
    for part in 0.5 ** np.arange(8):
        trial, tried, left = _evaluable(problem, asked, masses, masses + part * (new - masses))
        if _cost(problem, trial, left) < _cost(problem, masses, over) - 1e-9:
            return trial, tried, left, []
    # Where sugar begins to be left over the estimate has a bend: the tangent beyond it holds as well.
    return *here, [*bends, *_tangents(problem, trial, tried, left, asked)]


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
