"""A formula by weight: its parts, percents, ratios, scale, and how it is weighed.

Every ingredient is a row of ingredients.csv, found by its name or by one of its other names. Masses come in
with their unit and are grams inside; shares are plain numbers from 0 to 1.
"""

import math
from dataclasses import dataclass

import numpy as np

from pastrylab.ground.units import In, Number, Quantity, StudentError, show, takes
from pastrylab.trade.composition import Composition, component_grams
from pastrylab.trade.pantry import facts, ingredient_name, ingredient_names, mass_of, members_of
from pastrylab.trade.weighing import PART_MASS, part_grams, part_pairs
from pastrylab.trade.yields import purchase, yield_after

# What a lesson asks for under this topic, mass_of among it: measures are turned into grams before they are parts.
__all__ = ["Formula", "Scarcest", "mass_of", "purchase", "yield_after"]

COUNTS = ("all", "cream", "water")
_SLACK = 1e-9


@dataclass(frozen=True)
class Scarcest:
    """The ingredient that runs out first, how many times the formula it allows, and what is left of each.

    ingredient: its name. factor: a plain float. left: {ingredient: mass} of the parts named in the stock.

    >>> Formula({"honey": "40 g", "butter": "20 g"}).scarcest({"butter": "60 g"}).factor
    3.0
    """

    ingredient: str
    factor: float
    left: dict


@dataclass(frozen=True, init=False, eq=False, repr=False)
class Formula:
    """Ingredients and their masses: `Formula({"dark couverture 64 %": "500 g", "heavy cream": "250 g"})`.

    Masses are text or quantities. Two names of one ingredient are added up. Raises StudentError for an
    unknown ingredient, a volume, a number without a unit, a negative mass, an empty formula or one that
    weighs nothing.

    >>> Formula({"honey": "40 g", "butter": "1 oz", "Honey": "10 g"})
    Formula({'honey': '50 g', 'butter unsalted': '28.35 g'})
    """

    _grams: tuple[tuple[str, float], ...]

    def __init__(self, parts):
        pairs = list(part_pairs(parts))
        names = ingredient_names(name for name, _ in pairs)
        self._fill((known, part_grams(*pair)) for known, pair in zip(names, pairs, strict=True))

    @classmethod
    def of_grams(cls, grams):
        """A formula from {ingredient: grams as plain numbers}, for functions that compute in floats.

        Raises StudentError as Formula does.

        >>> show(Formula.of_grams({"honey": 40.0, "butter": 20.0}).total)
        '60 g'
        """
        formula = cls.__new__(cls)
        masses = [PART_MASS.limited(name, mass) for name, mass in grams.items()]
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
        """{ingredient: mass in g as a plain number}, in the order given.

        >>> Formula({"honey": "40 g", "butter": "20 g"}).grams
        {'honey': 40.0, 'butter unsalted': 20.0}
        """
        return dict(self._grams)

    @property
    def parts(self):
        """{ingredient: mass}, in the order given.

        >>> [show(mass) for mass in Formula({"honey": "40 g", "butter": "20 g"}).parts.values()]
        ['40 g', '20 g']
        """
        return {name: Quantity(mass, "g") for name, mass in self._grams}

    @property
    def total_grams(self):
        """The mass of the whole in g, a plain number.

        >>> Formula({"honey": "40 g", "butter": "20 g"}).total_grams
        60.0
        """
        return math.fsum(mass for _, mass in self._grams)

    @property
    def total(self):
        """The mass of the whole, a quantity.

        >>> show(Formula({"honey": "40 g", "butter": "20 g"}).total)
        '60 g'
        """
        return Quantity(self.total_grams, "g")

    def percents(self, base=None):
        """{ingredient: share of the total, 0 to 1}; with a base, each mass over the mass of that base.

        base: a family ("chocolate", "liquid"), an ingredient, or a list of them; shares on it may pass 1.
        Raises StudentError where the formula holds nothing of the base.

        >>> Formula({"honey": "30 g", "butter": "20 g"}).percents("butter")
        {'honey': 1.5, 'butter unsalted': 1.0}
        """
        members = self.grams if base is None else members_of(base, self.grams)
        whole = math.fsum(self.grams[name] for name in members)
        if not whole > 0:
            raise StudentError(f"{_words(base)}, of which the formula holds nothing", "a base", self._grams[0][0])
        return {name: mass / whole for name, mass in self._grams}

    def ratio(self, group_a, group_b, counts="all"):
        """Mass of one group over mass of another, a plain float: 2.0 for two to one.

        Groups are families, ingredients, or lists of them. "liquid" means cream, milk, fruit puree and
        juice, coffee, water and spirits; syrups and butter count where they are named: ("liquid", "syrup",
        "butter"). counts: what of group_b is counted: "all" its mass, "cream" only its creams, "water" only
        its water. Raises StudentError where nothing of group_b counts.

        >>> Formula({"dark couverture 64 %": "500 g", "heavy cream": "250 g"}).ratio("chocolate", "liquid")
        2.0
        """
        if counts not in COUNTS:
            raise StudentError(f"{counts!r} for counts", "one of " + ", ".join(COUNTS), "water")
        counted = {name: self.grams[name] for name in members_of(group_b, self.grams)}
        if counts == "cream":
            counted = {name: mass for name, mass in counted.items() if facts()[name]["family"] == "cream"}
        below = component_grams(counted)["water"] if counts == "water" else math.fsum(counted.values())
        if not below > 0:
            counted_as = "" if counts == "all" else f" that counts as {counts}"
            what = f"{_words(group_b)}, of which the formula holds nothing{counted_as}"
            if group_b == "liquid":
                raise StudentError(what, "cream, milk, fruit, coffee, water or spirits in it", "200 g of heavy cream")
            raise StudentError(what, "a group it holds", self._grams[0][0])
        return math.fsum(self.grams[name] for name in members_of(group_a, self.grams)) / below

    @takes(
        total=In("g", above=0, example="2 kg"),
        factor=Number(above=0, example="1.5"),
        pieces=Number(at_least=1, example="60"),
        piece=In("g", above=0, example="12 g"),
    )
    def scaled(self, total=None, factor=None, pieces=None, piece=None, stock=None):
        """The same shares in another amount, by one of four ways.

        total: mass of the new batch. factor: how many times this one. pieces, piece: a count, the mass of
        one. stock: {ingredient: mass at hand}, and the batch is the largest it allows. Returns a Formula. Raises
        StudentError for no way or two, for part of a piece, and as scarcest does.

        >>> Formula({"honey": "40 g", "butter": "20 g"}).scaled(total="1.5 kg")
        Formula({'honey': '1000 g', 'butter unsalted': '500 g'})
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
        formula, or holds nothing of one.

        >>> stock = {"honey": "100 g", "butter": "40 g"}
        >>> Formula({"honey": "40 g", "butter": "20 g"}).scarcest(stock).ingredient
        'butter unsalted'
        """
        held = {}
        for name, mass in part_pairs(stock):
            held[ingredient_name(name)] = held.get(ingredient_name(name), 0.0) + part_grams(name, mass)
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
        """Composition by mass balance on ingredients.csv: a Composition.

        `composition()["water"]` is a share 0 to 1, `.mass("water")` a mass. Nothing boils off and nothing reacts here.

        >>> f"{Formula({'butter': '50 g', 'water': '50 g'}).composition()['water']:.3f}"
        '0.590'
        """
        return Composition(component_grams(self.grams), self.total_grams)

    @takes(scale=In("g", above=0, example="1 g"))
    def rounded(self, scale="1 g"):
        """The formula as a scale of that step can weigh it, and its total still right.

        The total is rounded to the step, and each part alone. Where these miss the total, the steps that are over or
        missing go to the largest of the parts that were rounded the other way: every part stays less than one step from
        its exact share of that total, and the small ones keep theirs. Returns a Formula. Raises StudentError where a
        part is too small for the scale.

        >>> Formula({"honey": "33.4 g", "butter": "33.4 g", "water": "33.2 g"}).rounded("1 g").grams
        {'honey': 34.0, 'butter unsalted': 33.0, 'water': 33.0}
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

        A change of 0.001 is a tenth of a percentage point. Raises StudentError for a part it does not hold, or one
        lighter than the slip.

        >>> change = Formula({"honey": "50 g", "butter": "50 g"}).sensitivity("honey", "25 g")
        >>> {part: f"{share:+.1%}" for part, share in change.items()}
        {'honey': '+10.0%', 'butter unsalted': '-10.0%'}
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
