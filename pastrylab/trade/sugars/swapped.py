"""A sweetener of a formula in place of another: the formula that follows, what was held in it and what was not."""

from dataclasses import dataclass

from pastrylab.ground.units import In, StudentError
from pastrylab.trade.dissolved import polyol_of
from pastrylab.trade.formula import Formula
from pastrylab.trade.pantry import facts, ingredient_name
from pastrylab.trade.sugars.sweeteners import SWEETNESS, Swap, swap

HOLDS = ("solids", "water", "sweetness")
_FAMILIES = ("sugar", "syrup", "humectant")
_SAME_GRAMS, _SAME_SWEETNESS = 0.5, 0.02  # less than this no scale of a kitchen and no tongue tells
_AMOUNT = In("g", above=0, example="50 g")


@dataclass(frozen=True)
class Swapped:
    """A formula with one sweetener swapped: formula; swap, the sum behind it; sweetness as formula_sweetness gives it,
    before and after, None where it is not tabled; not_held, a sentence for each thing that has changed.

    >>> swapped(Formula({"honey": "100 g", "heavy cream": "200 g"}), "honey", "invert syrup").not_held[0]
    'Water is not held: 7.5 g more in the batch.'
    """

    formula: Formula
    swap: Swap
    sweetness: tuple | None
    not_held: tuple[str, ...]


def sweeteners(names):
    """Those of some ingredients that are sweeteners: sugars, syrups, sorbitol and glycerol; a list in their order.

    names: as ingredients.csv writes them.

    >>> sweeteners(["honey", "heavy cream 36 %", "glycerol"])
    ['honey', 'glycerol']
    """
    table = facts()
    return [name for name in names if table[name]["family"] in _FAMILIES]


def formula_sweetness(formula):
    """(low, high) of a formula in grams of table sugar that would be as sweet; None where a component is not tabled.

    The sum over its sugars of mass times relative sweetness, lowest and highest published: sweeteners.SWEETNESS. It
    knows nothing of cold, acid, salt or bitter cocoa, which all change what is tasted.

    >>> formula_sweetness(Formula({"dextrose": "100 g", "water": "100 g"}))
    (54.5..., 72.7...)
    """
    grams = formula.composition().grams
    polyols = grams.get("polyols", 0.0)
    named = {name: mass for name, mass in grams.items() if name.replace("_", " ") in SWEETNESS}
    if polyols > 0:
        named[polyol_of(formula) or ""] = polyols
    if any(name.replace("_", " ") not in SWEETNESS for name in named):
        return None
    ends = [SWEETNESS[name.replace("_", " ")] for name in named]
    low, high = (sum(m * end[i] / 100 for m, end in zip(named.values(), ends, strict=True)) for i in (0, 1))
    return low, high


def swapped(formula, old, new, hold="solids", amount=None):
    """A formula with one of its sweeteners replaced by another: a Swapped.

    old: an ingredient the formula holds; new: any of ingredients.csv; hold: "solids" (dry sugars), "water" or
    "sweetness" (middle of what is published), of the sweetener that goes; amount: mass of the old one that goes, None for
    all of it. Sums as sweeteners.swap. Raises StudentError as it does, and for an old one the formula does not hold, more
    of it than it holds, and a sweetener in place of itself.

    >>> made = swapped(Formula({"granulated sugar": "100 g", "water": "50 g"}), "granulated sugar", "honey")
    >>> made.formula
    Formula({'honey': '121.5 g', 'water': '50 g'})
    """
    goes, comes = ingredient_name(old), ingredient_name(new)
    held = formula.grams.get(goes, 0.0)
    if not held > 0:
        raise StudentError(f"{goes}, which the formula does not hold", "a sweetener of it", next(iter(formula.grams)))
    if goes == comes:
        other = "honey" if goes == "invert syrup" else "invert syrup"
        raise StudentError(f"{goes} in place of itself", "another sweetener", other)
    grams = held if amount is None else _AMOUNT.floats("amount", amount)
    if grams > held + 1e-9:
        raise StudentError(f"{grams:g} g of {goes} to swap", f"at most the {held:g} g of the formula", f"{held:g} g")
    found = swap(f"{grams} g", goes, comes, hold)
    after = _in_its_place(formula, goes, comes, held - grams, found.mass.m_as("g"))
    return Swapped(after, found, _both(formula, after), _not_held(formula, after, found, hold))


def _in_its_place(formula, goes, comes, left, mass):
    """The new one stands where the old one stood, or where it stood itself."""
    grams = {}
    for name, was in formula.grams.items():
        if name != goes:
            grams[name] = grams.get(name, 0.0) + was
            continue
        if left > 1e-9:
            grams[name] = left
        grams[comes] = grams.get(comes, 0.0) + mass
    return Formula.of_grams(grams)


def _both(before, after):
    ends = formula_sweetness(before), formula_sweetness(after)
    return None if None in ends else ends


def _not_held(before, after, found, hold):
    said = []
    for name, change in (("water", found.water.m_as("g")), ("solids", found.solids.m_as("g"))):
        if name != hold and abs(change) >= _SAME_GRAMS:
            what = "Water is" if name == "water" else "The dry sugar is"
            said.append(f"{what} not held: {abs(change):.1f} g {'more' if change > 0 else 'less'} in the batch.")
    ends = _both(before, after)
    if hold != "sweetness":
        said.append(_sweeter(ends)) if ends else said.append("How sweet it is nobody can say: no table has all of it.")
    return tuple(one for one in said if one)


def _sweeter(ends):
    was, now = (sum(pair) / 2 for pair in ends)
    if not was > 0 or abs(now / was - 1) < _SAME_SWEETNESS:
        return ""
    change = 100 * (now / was - 1)
    return (
        f"Sweetness is not held: about {abs(change):.0f} % {'more' if change > 0 else 'less'} in all, by the middle of tables "
        "that differ."
    )
