"""What moves the estimated water activity of a formula, and which way: more of each part, water lost, sugar left solid."""

from dataclasses import dataclass

from pastrylab.ground.units import StudentError
from pastrylab.trade.dissolved import chocolate_sugar, polyol_of
from pastrylab.trade.formula import Formula
from pastrylab.trade.mending_activity import estimated
from pastrylab.trade.water_activity import boiled_down, estimate

SOLID = 0.5  # of the chocolate's sugar: nobody knows how much dissolves, and half is what the lessons try
ADDED = 0.05  # of the batch
BINDERS = ("invert syrup", "glucose syrup DE 42")


@dataclass(frozen=True)
class Move:
    """One change of a formula: what, and the change of the estimate's value (a plain float).

    >>> moves(Formula({"honey": "200 g", "heavy cream": "100 g"}))[0].what
    'more heavy cream 36 %'
    """

    what: str
    change: float


def moves(formula, by=ADDED):
    """What the estimate does when a twentieth of the batch is added of one part, or lost as water: a tuple of Move.

    formula: a Formula; by: how much is added, a share of the batch above 0. From what raises the value most to what
    lowers it most; the change of the value alone, all sugar dissolved as far as it can, but for the chocolate's half
    that may stay solid. What cannot be estimated is left out. Raises StudentError where the formula itself cannot be.

    >>> [(one.what, one.change < 0) for one in moves(Formula({"honey": "200 g", "heavy cream": "100 g"}))][-1]
    ('boiling water off', True)
    """
    now, more = estimated(formula).value, by * formula.total_grams
    found = [Move(f"more {name}", change) for name, change in _with_more(formula, more, now)]
    lost = _value_of(
        lambda: estimate(boiled_down.floats(formula, formula.total_grams - more), polyol=polyol_of(formula))
    )
    if lost is not None:
        found.append(Move("boiling water off", lost - now))
    if chocolate_sugar(formula).m_as("g") > 0:
        solid = estimated(formula, 1 - SOLID).value - now
        found.append(Move(f"{100 * SOLID:.0f} % of the chocolate's sugar left solid", solid))
    return tuple(sorted(found, key=lambda one: -one.change))


def _with_more(formula, more, now):
    for name in dict.fromkeys([*formula.grams, *BINDERS]):
        grams = {**formula.grams, name: formula.grams.get(name, 0.0) + more}
        value = _value_of(lambda grams=grams: estimated(Formula.of_grams(grams)))
        if value is not None:
            yield name, value - now


def _value_of(made):
    """The value of the estimate that is made; None where there is none."""
    try:
        return made().value
    except StudentError:
        return None
