"""The estimated water activity of a formula, boiled down or not, and what moves it which way."""

from dataclasses import dataclass, replace

from pastrylab.ground import careful
from pastrylab.ground.units import In, Quantity, StudentError
from pastrylab.trade.composition import component_grams
from pastrylab.trade.dissolved import chocolate_sugar
from pastrylab.trade.formula import Formula
from pastrylab.trade.labels import error as label_error
from pastrylab.trade.water_activity import boiled_down, estimate

SOLID = 0.5  # of the chocolate's sugar: nobody knows how much dissolves, and half is what the lessons try
ADDED = 0.05  # of the batch
BINDERS = ("invert syrup", "glucose syrup DE 42")
_POLYOLS = {"sorbitol powder": "sorbitol", "sorbitol syrup 70 %": "sorbitol", "glycerol": "glycerol"}
_WEIGHT = In("g", above=0, example="600 g")


def estimated(formula, dissolved_share=1.0, weight=None):
    """The estimate of a formula's water activity; all sugars dissolved as far as they can.

    dissolved_share: of the chocolate's sugar, how much goes into solution, 0 to 1. weight: of the batch once it is boiled
    down, where it is: only water leaves. An ingredient of one's own is taken at both ends of what its label leaves open.
    Returns water_activity.Estimate. Raises StudentError where the estimate does not reach, and for a weight that boiling
    cannot bring.

    >>> from pastrylab import Formula
    >>> ganache = Formula({"dark couverture 64 %": "300 g", "heavy cream": "200 g"})
    >>> f"{estimated(ganache).value:.2f}, {estimated(ganache, weight='450 g').value:.2f}"
    '0.94, 0.88'
    """
    found = _estimated(formula, dissolved_share, weight, {})
    names = label_error.labelled(formula.grams)
    return _with_labels(found, names, formula, (dissolved_share, weight)) if names else found


def _with_labels(found, names, formula, settings):
    """An Estimate as wide as the labels of the formula's own ingredients make it."""
    most, least = label_error.ends(formula.grams)
    notes = [*found.notes, f"Of {', '.join(names)} only the label is known: the estimate is as wide as it leaves open."]
    free = _estimated(formula, *settings, most)
    try:
        bound = _estimated(formula, *settings, least)
    except StudentError:
        bound = found
        notes.append("By its label it may also be too dry for the estimate.")
    low, high = min(found.low, free.low, bound.low), max(found.high, free.high, bound.high)
    shown, bottom, top = (careful.written_up(end) for end in (found.value, low, high))
    sentence = f"Estimated water activity {shown}, between {bottom} and {top} (model and labels together, 25 °C)."
    return replace(found, low=low, high=high, sentence=sentence, notes=tuple(notes))


def _estimated(formula, dissolved_share, weight, added):
    """The estimate of a formula's make-up with {component: g} added, which adds up to nothing."""
    grams, polyol = _with_polyols(formula)
    if added:
        grams = dict(grams or formula.composition().grams)
        grams |= {name: max(0.0, grams[name] + mass) for name, mass in added.items()}
    chocolate = None if dissolved_share == 1 else chocolate_sugar(formula)
    if chocolate is not None and added:  # at an end of its label a chocolate may hold less
        chocolate = min(chocolate, Quantity(grams["sucrose"], "g"))
    if weight is not None:
        lost = formula.composition().grams["water"] - boiled_down(formula, weight)["water"].m_as("g")
        grams = {**(grams or formula.composition().grams)}
        grams["water"] -= lost
    made = {name: Quantity(m, "g") for name, m in grams.items()} if grams else formula.composition()
    return estimate(made, dissolved_share, chocolate, polyol)


def _with_polyols(formula):
    """({component: g}, None) with each polyol by its name where there are two; (None, name or None) where not."""
    named = {}
    for name, mass in formula.grams.items():
        if name in _POLYOLS and mass > 0:
            one = _POLYOLS[name]
            named[one] = named.get(one, 0.0) + component_grams({name: mass})["polyols"]
    if len(named) < 2:
        return None, next(iter(named), None)
    grams = dict(formula.composition().grams)
    grams["polyols"] = max(0.0, grams["polyols"] - sum(named.values()))
    return {**grams, **named}, None


@dataclass(frozen=True)
class Move:
    """One change of a formula: what, and the change of the estimate's value (a plain float).

    >>> moves(Formula({"honey": "200 g", "heavy cream": "100 g"}))[0].what
    'more heavy cream 36 %'
    """

    what: str
    change: float


def moves(formula, by=ADDED, weight=None):
    """What the estimate does when a twentieth of the batch is added of one part, or lost as water: a tuple of Move.

    formula: a Formula; by: how much is added, a share of the batch above 0; weight: of the batch once it is boiled down,
    where it is: then as much more of it is boiled off, and what is added makes it heavier by as much. From what raises
    the value most to what lowers it most; the change of the value alone, all sugar dissolved as far as it can, but for
    the chocolate's half that may stay solid. What cannot be estimated is left out. Raises StudentError where the formula
    itself cannot be.

    >>> [(one.what, one.change < 0) for one in moves(Formula({"honey": "200 g", "heavy cream": "100 g"}))][-1]
    ('boiling water off', True)
    """
    now = estimated(formula, weight=weight).value
    whole = formula.total_grams if weight is None else _WEIGHT.floats("weight", weight)
    found = []
    for name in dict.fromkeys([*formula.grams, *BINDERS]):
        more = Formula.of_grams({**formula.grams, name: formula.grams.get(name, 0.0) + by * whole})
        heavier = None if weight is None else f"{(1 + by) * whole} g"
        found.append((f"more {name}", _value_of(more, weight=heavier)))
    found.append(("boiling water off", _value_of(formula, weight=f"{(1 - by) * whole} g")))
    if chocolate_sugar(formula).m_as("g") > 0:
        solid = _value_of(formula, dissolved_share=1 - SOLID, weight=weight)
        found.append((f"{100 * SOLID:.0f} % of the chocolate's sugar left solid", solid))
    return tuple(
        sorted((Move(what, value - now) for what, value in found if value is not None), key=lambda one: -one.change)
    )


def _value_of(formula, **settings):
    """The value of the estimate; None where there is none."""
    try:
        return estimated(formula, **settings).value
    except StudentError:
        return None
