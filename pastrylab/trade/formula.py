"""A formula by weight: its parts, percents, scale and composition by mass balance.

Every ingredient is a row of ingredients.csv, found by its name or by one of its other names. Masses come in
with their unit and are grams inside; shares are plain numbers from 0 to 1.
"""

import math
from dataclasses import dataclass

import numpy as np

from pastrylab.ground.datasets import COMPONENTS, PARTS_OF_FAT, ingredients
from pastrylab.ground.units import In, Number, Quantity, Share, StudentError, kind_of, read_text, show, takes
from pastrylab.trade.pantry import facts, ingredient_name, ingredient_names, mass_of, plain_name, volume_of

__all__ = [
    "Composition",
    "Formula",
    "Scarcest",
    "ingredient_name",
    "mass_of",
    "purchase",
    "volume_of",
    "yield_after",
]

SUGARS = ("sucrose", "glucose", "fructose", "lactose", "maltose")
# Families of ingredients under one word. Syrups are no liquid here: name them too where a recipe counts them.
GROUPS = {"liquid": ("cream", "milk", "fruit", "drink", "spirit"), "sweetener": ("sugar", "syrup")}
COUNTS = ("all", "cream", "water")
_SLACK = 1e-9


class _Weight(In):
    """A mass whose refusal shows how a formula is written."""

    def refuse(self, name, given, needed=None, code=False):
        return StudentError(f"{given} for {name}", needed or "a mass, with its unit", f"250 g of {name}")


_WEIGHT = _Weight("g", at_least=0, example="250 g")


def _weigh(name, mass):
    """The mass of one part in g. Raises StudentError for a volume, a bare number, NaN, a negative mass."""
    unit = read_text(mass, "[mass]").unit if isinstance(mass, str) else getattr(mass, "units", "g")
    if kind_of(str(unit)) == "a volume":
        written = mass.strip()[:40] if isinstance(mass, str) else show(mass)
        raise StudentError(f"{written} of {name}, a volume", "a mass: a formula is by weight", _weighed(name, mass))
    grams = _WEIGHT.floats(name, mass)
    if np.ndim(grams):
        raise _WEIGHT.refuse(name, "several masses", "one mass for each ingredient")
    return grams


def _weighed(name, volume):
    """About what a household measure weighs, in words; any mass where nothing is tabled."""
    try:
        return f"{show(mass_of(volume, name), 3)}, about what that measure weighs"
    except StudentError:
        return f"250 g of {name}"


def _pairs(parts):
    if not hasattr(parts, "items"):
        raise StudentError(f"'{str(parts)[:60]}'", "ingredients with their masses", "40 g of honey")
    return parts.items()


@dataclass(frozen=True)
class Scarcest:
    """The ingredient that runs out first, how many times the formula it allows, and what is left of each."""

    ingredient: str
    factor: float
    left: dict


@dataclass(frozen=True, init=False, eq=False, repr=False)
class Formula:
    """Ingredients and their masses: `Formula({"dark couverture 64 %": "500 g", "heavy cream": "250 g"})`.

    Masses are text or quantities. Two names of one ingredient are added up. Raises StudentError for an
    unknown ingredient, a volume, a number without a unit, a negative mass, an empty formula or one that
    weighs nothing.
    """

    _grams: tuple[tuple[str, float], ...]

    def __init__(self, parts):
        pairs = list(_pairs(parts))
        names = ingredient_names(name for name, _ in pairs)
        self._fill((known, _weigh(*pair)) for known, pair in zip(names, pairs, strict=True))

    @classmethod
    def of_grams(cls, grams):
        """A formula from {ingredient: grams as plain numbers}, for functions that compute in floats."""
        formula = cls.__new__(cls)
        masses = [_WEIGHT.limited(name, mass) for name, mass in grams.items()]
        formula._fill(zip(ingredient_names(grams), masses, strict=True))
        return formula

    def _fill(self, pairs):
        grams = {}
        for name, mass in pairs:
            grams[name] = grams.get(name, 0.0) + mass
        if not grams:
            raise StudentError("an empty formula", "one ingredient at least", "40 g of honey")
        if not math.fsum(grams.values()) > 0:
            raise StudentError("a formula that weighs nothing", "a mass above 0 g", "40 g of honey")
        object.__setattr__(self, "_grams", tuple(grams.items()))

    def __eq__(self, other):
        return isinstance(other, Formula) and self.grams == other.grams

    def __hash__(self):
        return hash(frozenset(self._grams))

    def __repr__(self):
        return "Formula({" + ", ".join(f"{n!r}: '{show(Quantity(m, 'g'))}'" for n, m in self._grams) + "})"

    @property
    def grams(self):
        """{ingredient: mass in g as a plain number}, in the order given."""
        return dict(self._grams)

    @property
    def parts(self):
        """{ingredient: mass}, in the order given."""
        return {name: Quantity(mass, "g") for name, mass in self._grams}

    @property
    def total_grams(self):
        """The mass of the whole in g, a plain number."""
        return math.fsum(mass for _, mass in self._grams)

    @property
    def total(self):
        """The mass of the whole."""
        return Quantity(self.total_grams, "g")

    def percents(self, base=None):
        """{ingredient: share of the total, 0 to 1}; with a base, each mass over the mass of that base.

        base: a family ("chocolate", "liquid"), an ingredient, or a list of them; shares on it may pass 1.
        Raises StudentError where the formula holds nothing of the base.
        """
        members = self.grams if base is None else self._members(base)
        whole = math.fsum(self.grams[name] for name in members)
        if not whole > 0:
            raise StudentError(f"{_words(base)}, of which the formula holds nothing", "a base", self._grams[0][0])
        return {name: mass / whole for name, mass in self._grams}

    def _members(self, group):
        """The names here that a family, an ingredient or a list of both means; a family wins."""
        if not isinstance(group, str):
            return set().union(*(self._members(one) for one in group))
        family = facts()["family"]
        word = plain_name(group)
        word = word if word in GROUPS or word in set(family) else word.removesuffix("s")
        families = GROUPS.get(word, (word,))
        if set(families) & set(family):
            return {name for name, _ in self._grams if family[name] in families}
        try:
            return {ingredient_name(group)} & self.grams.keys()
        except StudentError as error:
            words = ", ".join(sorted({*GROUPS, *family}))
            raise StudentError(error.given, f"{error.needed}; or a family: {words}", "chocolate") from None

    def ratio(self, group_a, group_b, counts="all"):
        """Mass of one group over mass of another: `ratio("chocolate", "liquid")` -> 2.0 for two to one.

        Groups are families, ingredients, or lists of them. "liquid" means cream, milk, fruit puree and
        juice, coffee, water and spirits; syrups and butter count where they are named: ("liquid", "syrup",
        "butter"). counts: what of group_b is counted: "all" its mass, "cream" only its creams, "water" only
        its water. Raises StudentError where nothing of group_b counts.
        """
        if counts not in COUNTS:
            raise StudentError(f"{counts!r} for counts", "one of " + ", ".join(COUNTS), "water")
        counted = {name: self.grams[name] for name in self._members(group_b)}
        if counts == "cream":
            counted = {name: mass for name, mass in counted.items() if facts()["family"][name] == "cream"}
        below = _component_grams(counted)["water"] if counts == "water" else math.fsum(counted.values())
        if not below > 0:
            counted_as = "" if counts == "all" else f" that counts as {counts}"
            what = f"{_words(group_b)}, of which the formula holds nothing{counted_as}"
            if group_b == "liquid":
                raise StudentError(what, "cream, milk, fruit, coffee, water or spirits in it", "200 g of heavy cream")
            raise StudentError(what, "a group it holds", self._grams[0][0])
        return math.fsum(self.grams[name] for name in self._members(group_a)) / below

    @takes(
        total=In("g", above=0, example="2 kg"),
        factor=Number(above=0, example="1.5"),
        pieces=Number(at_least=1, example="60"),
        piece=In("g", above=0, example="12 g"),
    )
    def scaled(self, total=None, factor=None, pieces=None, piece=None, stock=None):
        """The same shares in another amount, by one of four ways.

        total: mass of the new batch. factor: how many times this one. pieces, piece: a count, the mass of
        one. stock: {ingredient: mass at hand}, and the batch is the largest it allows. Raises StudentError.
        """
        ways = sum(way is not None for way in (total, factor, pieces, stock))
        if ways != 1 or (pieces is None) != (piece is None):
            given = "two sizes at once" if ways > 1 else "no new size, or half of one"
            raise StudentError(given, "one of total, factor, stock, or pieces with piece", "a total of 2 kg")
        if pieces is not None:
            if pieces != int(pieces):
                raise StudentError(f"{pieces:g} pieces", "a whole number of pieces", "60 pieces")
            total = pieces * piece
        if total is not None:
            factor = total / self.total_grams
        return self._times(self.scarcest(stock).factor if stock is not None else factor)

    def _times(self, factor):
        return Formula.of_grams({name: mass * factor for name, mass in self._grams})

    def scarcest(self, stock):
        """Which ingredient runs out first. stock: {ingredient: mass at hand}; parts not named are not short.

        Returns Scarcest(ingredient, factor, left): factor times this formula can be made, left holds the
        masses of the named parts that remain. Raises StudentError where the stock names no part of the
        formula.
        """
        held = {}
        for name, mass in _pairs(stock):
            held[ingredient_name(name)] = held.get(ingredient_name(name), 0.0) + _weigh(name, mass)
        needed = {name: mass for name, mass in self._grams if mass > 0 and name in held}
        if not needed:
            raise StudentError(
                "a stock without any part of the formula", "the mass at hand of a part", self._grams[0][0]
            )
        short = min(needed, key=lambda name: held[name] / needed[name])
        factor = held[short] / needed[short]
        if not factor > 0:
            raise StudentError(f"0 g of {short} at hand", "some of every part of the formula", f"250 g of {short}")
        left = {name: Quantity(max(0.0, held[name] - factor * mass), "g") for name, mass in needed.items()}
        return Scarcest(short, factor, left)

    def composition(self):
        """Composition by mass balance: each component's mass is the sum over the parts of mass times share.

        Returns Composition: `composition()["water"]` is a share 0 to 1, `.mass("water")` a mass. The shares
        of the parts come from ingredients.csv, each with its source. Nothing boils off and nothing reacts
        here.
        """
        return Composition(_component_grams(self.grams), self.total_grams)

    @takes(scale=In("g", above=0, example="1 g"))
    def rounded(self, scale="1 g"):
        """The formula as a scale of that step can weigh it, and its total still right.

        The total is rounded to the step, and each part alone. Where these miss the total, the steps that are over or
        missing go to the largest of the parts that were rounded the other way: every part stays less than one step from
        its exact share of that total, and the small ones keep theirs. Raises StudentError where a part is too small.
        """
        shares = np.array([mass for _, mass in self._grams]) / self.total_grams
        steps = round(self.total_grams / scale)
        exact = shares * steps
        whole = np.floor(exact + 0.5 + _SLACK)
        missing = steps - int(whole.sum())
        sign = np.sign(missing)
        other_way = np.flatnonzero(sign * (exact - whole) > 0)
        whole[sorted(other_way, key=lambda i: -exact[i])[: abs(missing)]] += sign
        for (name, mass), count in zip(self._grams, whole, strict=True):
            if mass > 0 and count == 0:
                small = f"{show(Quantity(mass, 'g'))} of {name} on a scale with steps of {show(Quantity(scale, 'g'))}"
                raise StudentError(small, "a finer scale or a larger batch", "a scale with steps of 0.1 g")
        return Formula.of_grams({name: count * scale for (name, _), count in zip(self._grams, whole, strict=True)})

    @takes(by=In("g", example="1 g"))
    def sensitivity(self, ingredient, by="1 g"):
        """{ingredient: change of its share} when one part is weighed too heavy by `by` (negative: too light).

        A change of 0.001 is a tenth of a percentage point. Raises StudentError for a part it does not hold.
        """
        name = ingredient_name(ingredient)
        if name not in self.grams:
            raise StudentError(f"{name}, which the formula does not hold", "one of its parts", self._grams[0][0])
        if self.grams[name] + by < 0:
            raise StudentError(f"{by:g} g of {name}", "a slip smaller than the part itself", "1 g")
        slipped = Formula.of_grams({**self.grams, name: self.grams[name] + by}).percents()
        return {part: slipped[part] - share for part, share in self.percents().items()}


def _words(group):
    return group if isinstance(group, str) else " and ".join(map(str, group))


_COLUMNS = COMPONENTS + PARTS_OF_FAT
_ROWS = {}


def _shares_by_name():
    """{ingredient: its shares as an array in the order of _COLUMNS}, made again when the table has changed."""
    table = ingredients()
    if _ROWS.get("table") is not table:
        numbers = table.loc[:, list(_COLUMNS)].to_numpy()
        _ROWS.update(table=table, rows=dict(zip(table.index, numbers, strict=True)))
    return _ROWS["rows"]


def _component_grams(grams):
    """{component: g}, milk fat and cocoa butter included, for {ingredient: g}."""
    rows = _shares_by_name()
    made = sum(mass * rows[name] for name, mass in grams.items())
    return dict(zip(_COLUMNS, made.tolist(), strict=True))


def compositions(names, grams):
    """Shares of many formulas of the same ingredients at once, in one product.

    names: n ingredients. grams: array (formulas, n) of plain floats. Returns {component: array (formulas)}, shares
    0 to 1, milk fat and cocoa butter included. Raises StudentError for an unknown ingredient or masses that do not
    fit.
    """
    grams = np.asarray(grams, dtype=float)
    names = ingredient_names(names)
    if grams.ndim != 2 or grams.shape[1] != len(names) or not np.isfinite(grams).all() or (grams < 0).any():
        raise StudentError(
            f"masses of the shape {grams.shape}",
            f"one row a formula, {len(names)} masses of 0 g or more",
            "300 g and 150 g",
        )
    totals = grams.sum(axis=1)
    if (totals <= 0).any():
        raise StudentError("a formula that weighs nothing", "masses above 0 g", "300 g and 150 g")
    rows = _shares_by_name()
    shares = grams @ np.array([rows[name] for name in names]) / totals[:, None]
    return dict(zip(_COLUMNS, shares.T, strict=True))


_SUBTOTALS = {
    "sugars": SUGARS,
    "solids": tuple(c for c in COMPONENTS if c not in ("water", "alcohol")),
}


@dataclass(frozen=True)
class Composition:
    """What a formula is made of. `c["water"]` is a share of the whole, 0 to 1; `c.mass("water")` is a mass.

    Iterating gives the components that add up to the whole. Answered as well: "milk_fat" and "cocoa_butter"
    (parts of the fat), "sugars" (sucrose, glucose, fructose, lactose, maltose; no longer chains), "solids"
    (all but water and alcohol). `grams` holds plain numbers in g. Raises StudentError for an unknown
    component.
    """

    grams: dict
    total_grams: float

    def _of(self, component):
        if component in _SUBTOTALS:
            return math.fsum(self.grams[c] for c in _SUBTOTALS[component])
        if component not in self.grams:
            known = ", ".join([*self.grams, *_SUBTOTALS])
            raise StudentError(f"{component!r} as a component", f"one of {known}", "water")
        return self.grams[component]

    def __getitem__(self, component):
        return self._of(component) / self.total_grams

    def __iter__(self):
        return iter(COMPONENTS)

    def __len__(self):
        return len(COMPONENTS)

    def __contains__(self, component):
        return component in self.grams or component in _SUBTOTALS

    def keys(self):
        """The components that add up to the whole."""
        return COMPONENTS

    def items(self):
        """(component, share) for the components that add up to the whole."""
        return [(component, self[component]) for component in COMPONENTS]

    def values(self):
        """The shares of the components that add up to the whole."""
        return [self[component] for component in COMPONENTS]

    def mass(self, component):
        """The mass of one component in the whole formula."""
        return Quantity(self._of(component), "g")

    @property
    def total(self):
        """The mass of the whole."""
        return Quantity(self.total_grams, "g")

    @property
    def unaccounted(self):
        """The share the tables leave unexplained, at most 0.01 (below 0 where analyses overlap)."""
        return 1.0 - math.fsum(self.values())


@takes(trim=Share(), cooking=Share())
def yield_after(trim=0.0, cooking=0.0):
    """The share that is left of what was bought, 0 to 1: (1 - trim loss)(1 - cooking loss), both shares."""
    if trim == 1 or cooking == 1:
        raise StudentError("a loss of everything", "a loss below 100 %", "12 % of trim")
    return (1 - trim) * (1 - cooking)


@takes(
    returns="g",
    edible=In("g", above=0, example="500 g"),
    yield_share=Share(at_least=None, above=0, example='0.85 or "85 %"'),
)
def purchase(edible, yield_share):
    """Mass to buy for a mass to use: edible / yield_share, what trim and cooking leave (see yield_after)."""
    return edible / yield_share
