"""How far a formula's make-up may be off because an ingredient of one's own is known from its label alone.

Two make-ups are taken to the ends: one in which as much water is free as the label leaves room for, one in which as
little is. Water activity is judged at both.
"""

from pastrylab.ground.datasets import COMPONENTS
from pastrylab.trade.pantry import own_ingredients

_SMALL = ("glucose", "fructose")  # a gram of these binds more water than a gram of the larger sugars
_LARGE = ("sucrose", "lactose", "maltose")


def labelled(grams):
    """The ingredients of one's own, or of the class's labels, in a formula {ingredient: g}: a list of names.

    >>> labelled({"honey": 40.0})
    []
    """
    made = own_ingredients()[0]
    return [name for name, mass in grams.items() if mass > 0 and name in made]


def said(formula):
    """A sentence on how far water and fat of a formula are open because of labels; "" where every part is in the table.

    >>> from pastrylab import Formula
    >>> said(Formula({"honey": "40 g"}))
    ''
    """
    names = labelled(formula.grams)
    if not names:
        return ""
    made, whole, parts = own_ingredients()[0], formula.composition(), []
    for part in ("water", "fat"):
        off = [
            sum(formula.grams[name] * (made[name].ends[part][end] - made[name].grams[part]) / 100 for name in names)
            for end in (0, 1)
        ]
        low, high = (100 * whole[part] + 100 * grams / formula.total_grams for grams in off)
        parts.append(f"{part} {low:.1f} to {high:.1f} %")
    return f"Of {', '.join(names)} only the label is known: of the whole, {' and '.join(parts)}."


def ends(grams):
    """({component: g}, {component: g}): what to add to a formula's make-up for the most and for the least free water.

    grams: {ingredient: g}. Each adds up to nothing, since what is more of one is less of the others.

    >>> ends({"honey": 40.0})
    ({}, {})
    """
    made, added = own_ingredients()[0], ({}, {})
    for name in labelled(grams):
        for which, total in enumerate(added):
            shifted = _shifted(made[name], most=which == 0)
            for part, share in shifted.items():
                total[part] = total.get(part, 0.0) + grams[name] * (share - made[name].grams[part]) / 100
    return added


def _shifted(made, most):
    """Grams in 100 g with water at its high (or low) end, and the sugars at those ends that leave it free (or bind it)."""
    found = {name: made.grams[name] for name in COMPONENTS}
    few, many = (_SMALL, _LARGE) if most else (_LARGE, _SMALL)
    for name in few:
        _swap(found, made, name, many)
    found["water"] = made.ends["water"][1 if most else 0]
    rest = sum(mass for name, mass in found.items() if name != "water")
    factor = (100 - found["water"]) / rest if rest else 0.0
    return {name: mass if name == "water" else mass * factor for name, mass in found.items()}


def _swap(found, made, name, others):
    """Take one sugar down to its low end, and put what goes into others as far as theirs reach."""
    for other in others:
        move = min(found[name] - made.ends[name][0], made.ends[other][1] - found[other])
        if move > 0:
            found[name] -= move
            found[other] += move
