"""Amounts of which only sums and ratios are known: how low and how high each can be, and one set that fits them all."""

from dataclasses import dataclass
from math import inf

import numpy as np

_ROUNDS = 80  # fewer only leave the ends wider than they need be
_SLACK = 1e-6


@dataclass(frozen=True)
class Rule:
    """What is known of some amounts: low <= the sum of factor x amount <= high, as a rule near `typical` (None: anywhere).

    parts: ((name, factor), ...); says: the rule in words, for who must be told that it cannot hold.

    >>> Rule((("water", 1), ("sugar", 1)), 100, 100, 100, "water and sugar are the whole").high
    100
    """

    parts: tuple[tuple[str, float], ...]
    low: float
    high: float
    typical: float | None
    says: str


def span(name, low, high, typical=None, says=""):
    """A rule that one amount lies between two.

    >>> span("water", 0, 2).parts
    (('water', 1),)
    """
    return Rule(((name, 1),), low, high, typical, says or f"{name.replace('_', ' ')} lies from {low:g} to {high:g} g")


def ratio(parts, to, low, typical, high, says, extra=0.0):
    """Rules that the sum of some amounts is low to high times another, up to `extra` grams more.

    >>> [rule.low for rule in ratio(("lactose",), "milk_protein", 1.3, 1.45, 1.6, "lactose goes with milk protein")]
    [0, -inf, -inf]
    """
    terms = tuple((name, 1) for name in parts)

    def per(factor):
        return (*terms, *(((to, -factor),) if factor else ()))

    return (
        Rule(per(low), 0, inf, None, says),
        Rule(per(high), -inf, extra, None, says),
        Rule(per(typical), -inf, inf, extra / 3, says),
    )


def none(*names, upto=0.0):
    """Rules that there is nothing, or next to nothing, of some amounts.

    >>> [(rule.parts, rule.high) for rule in none("starch")]
    [((('starch', 1),), 0.0)]
    """
    return [span(name, 0, upto, 0, f"there is no {name.replace('_', ' ')} in it") for name in names]


class Contradiction(ValueError):
    """No amounts fit all rules; `rule` is the one at which that came out."""

    def __init__(self, rule):
        super().__init__(rule.says)
        self.rule = rule


def narrowed(rules, ends):
    """{name: (low, high)} within which each amount must lie; it may be wider than it need be, never narrower.

    ends: {name: (low, high)} to begin with. Each rule is asked in turn what it leaves to each of its amounts, until none
    has more to say. Raises Contradiction where nothing is left.

    >>> whole = Rule((("water", 1), ("sugar", 1)), 100, 100, None, "the whole")
    >>> narrowed([whole], {"water": (0, 100), "sugar": (64, 66)})["water"]
    (34.0, 36.0)
    """
    ends = dict(ends)
    for _ in range(_ROUNDS):
        moved = [_apply(rule, ends) for rule in rules]  # all of them, each on what the one before left
        if not any(moved):
            break
    return ends


def _apply(rule, ends):
    """Narrow the ends of a rule's amounts in place; whether any moved by more than can be told."""
    lows, highs = [], []
    for name, factor in rule.parts:
        pair = sorted(factor * end for end in ends[name])
        lows.append(pair[0])
        highs.append(pair[1])
    moved, low_sum, high_sum = False, sum(lows), sum(highs)
    for (name, factor), low, high in zip(rule.parts, lows, highs, strict=True):
        left = sorted(((rule.low - (high_sum - high)) / factor, (rule.high - (low_sum - low)) / factor))
        old = ends[name]
        new = max(old[0], left[0]), min(old[1], left[1])
        if new[0] > new[1] + _SLACK:
            raise Contradiction(rule)
        if new[0] > old[0] + _SLACK or new[1] < old[1] - _SLACK:
            ends[name], moved = (min(new), max(new)), True
    return moved


def middle(rules, ends):
    """{name: amount} near what is typical in each rule, within its ends; a rule whose low is its high holds as it stands.

    Least squares, each rule weighed by how narrow it is; an amount that would leave its ends is held there and the rest
    is solved again.

    >>> whole = Rule((("water", 1), ("sugar", 1)), 100, 100, 100, "the whole")
    >>> found = middle([whole], {"water": (0, 100), "sugar": (64, 66)})
    >>> round(found["sugar"]), round(found["water"])
    (65, 35)
    """
    names = list(ends)
    at = {name: i for i, name in enumerate(names)}
    rows, aims = [], []
    for rule in rules:
        if rule.typical is None:
            continue
        weight = 1e4 if rule.low == rule.high else 1 / max(_width(rule.low, rule.high), 0.02)
        row = np.zeros(len(names))
        for name, factor in rule.parts:
            row[at[name]] += factor * weight
        rows.append(row)
        aims.append(weight * rule.typical)
    for i, (low, high) in enumerate(ends.values()):  # what no rule speaks of lies in the middle of what is left to it
        row = np.zeros(len(names))
        row[i] = 0.1 / max(high - low, 0.02)
        rows.append(row)
        aims.append(row[i] * (low + high) / 2)
    return dict(
        zip(names, _within(np.array(rows), np.array(aims), np.array(list(ends.values()))).tolist(), strict=True)
    )


def _width(low, high):
    return 20.0 if inf in (high, -low) else (high - low) / 2


def _within(rows, aims, ends):
    found, held = ends.mean(axis=1), np.zeros(len(ends), dtype=bool)
    for _ in range(len(ends)):
        free = ~held
        if not free.any():
            break
        found[free] = np.linalg.lstsq(rows[:, free], aims - rows[:, held] @ found[held], rcond=None)[0]
        out = free & ((found < ends[:, 0] - 1e-9) | (found > ends[:, 1] + 1e-9))
        if not out.any():
            break
        found[out] = np.clip(found[out], ends[out, 0], ends[out, 1])
        held |= out
    return np.clip(found, ends[:, 0], ends[:, 1])
