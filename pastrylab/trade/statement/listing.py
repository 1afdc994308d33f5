"""The list of ingredients of a label, the heaviest first, and what each is made of in brackets behind it.

US: 21 CFR 101.4(a)(1), descending by weight, and (b)(2), the parts of an ingredient in brackets after its name. EU:
Regulation 1169/2011, Article 18, descending by weight when they were used; Annex VII, part A: added water by what is left of it in the
finished food, and out of the list at up to 5 %.
"""

from dataclasses import dataclass

from pastrylab.ground.units import In, StudentError, takes
from pastrylab.trade.formula import Formula
from pastrylab.trade.statement.allergens import gathered, named_in, set_apart
from pastrylab.trade.statement.packs import EU, US, Entry, entry, law_named, noted

_WATER_LEFT_OUT = 0.05


@dataclass(frozen=True)
class Listed:
    """One place of the list: its Entry, the grams of it, and its share of the whole, 0 to 1.

    >>> found = ingredient_list({"butter": "60 g", "honey": "40 g"}).lines[0]
    >>> found.entry.name, found.share
    ('butter', 0.6)
    """

    entry: Entry
    grams: float
    share: float


@dataclass(frozen=True)
class IngredientList:
    """A list of ingredients: its `lines` in order, its `allergens` by the words of the law, what its packs say it
    `may_contain`, `asks`: what has to be looked up before it is printed.

    >>> print(ingredient_list({"butter": "60 g", "honey": "40 g"}, "EU").text)
    butter (MILK), honey
    """

    law: str
    lines: tuple[Listed, ...]
    allergens: tuple[str, ...]
    may_contain: tuple[str, ...]
    asks: tuple[str, ...]

    @property
    def text(self):
        """The list as it is printed, without its heading."""
        if self.law == US:
            return ", ".join(line.entry.text for line in self.lines)
        return ", ".join(set_apart(line.entry.text, line.entry.allergens) for line in self.lines)

    @property
    def contains(self):
        """The line of allergens of a US label; "" in the EU, where the list itself sets them apart, and where none is known of."""
        said = [", ".join(self.allergens)] if self.allergens else []
        said += [f"whatever the pack of {name} says" for name in self.unknown]
        return f"Contains: {', and '.join(said)}." if said and self.law == US else ""

    @property
    def unknown(self):
        """Ingredients of whose list nothing is known, allergens among it."""
        return tuple(line.entry.ingredient for line in self.lines if not line.entry.known)

    def share_of(self, ingredient):
        """Share of the whole (0 to 1) of one ingredient, by its name on the label or in the table; 0 where it is not in it."""
        name = str(ingredient).casefold()
        return sum(
            line.share for line in self.lines if name in (line.entry.name.casefold(), line.entry.ingredient.casefold())
        )


@takes(finished=In("g", above=0, example="540 g"))
def ingredient_list(formula, law=US, finished=None):
    """The IngredientList of a Formula or of {ingredient: mass}, by the law of "US" or "EU".

    The heaviest comes first, as weighed in; of two that weigh the same, the one that was named first. What a label calls
    by one name, made of the same things, is one place. finished: what the batch weighs when it is done; then water that
    was poured in counts in the EU by what is left of it. Raises StudentError for an unknown ingredient or law, or where it
    weighs more when done than went in.

    >>> print(ingredient_list({"sugar": "40 g", "cream 35 %": "35 g", "heavy cream": "30 g"}).text)
    cream, sugar
    """
    law = law_named(law)
    formula = formula if isinstance(formula, Formula) else Formula(formula)
    grams = _at_the_end(formula, finished) if law == EU and finished is not None else formula.grams
    total, places = sum(grams.values()), {}
    for name, mass in grams.items():
        if mass > 0:
            one = entry(name, law)
            first, so_far = places.get(one.text, (one, 0.0))
            places[one.text] = (_together(first, one), so_far + mass)
    # The order is by the mass weighed, not by the last digit of a sum.
    order = sorted(places.values(), key=lambda place: -round(place[1], 6))
    lines = tuple(Listed(one, mass, mass / total) for one, mass in order)
    asks = [ask for line in lines for ask in line.entry.asks]
    asks += [note for name, mass in grams.items() if mass > 0 for note in noted(name)]
    if law == EU:
        asks += [
            f"The list must name {one} where it comes to {line.entry.name}."
            for line in lines
            for one in line.entry.allergens
            if not named_in(line.entry.text, one)
        ]
    allergens = gathered([one for line in lines for one in line.entry.allergens], law)
    may = tuple(dict.fromkeys(line.entry.may_contain for line in lines if line.entry.may_contain))
    return IngredientList(law, lines, allergens, may, tuple(dict.fromkeys(asks)))


def _together(first, other):
    """Two ingredients in one place of the list: nothing that either brings is lost."""
    if first.ingredient == other.ingredient:
        return first
    return Entry(
        first.ingredient,
        first.name,
        first.contents,
        tuple(dict.fromkeys((*first.allergens, *other.allergens))),
        "; ".join(dict.fromkeys(one for one in (first.may_contain, other.may_contain) if one)),
        (*first.asks, *other.asks),
        first.known and other.known,
    )


def _at_the_end(formula, finished):
    grams = formula.grams
    if finished > formula.total_grams + 1e-9:
        raise StudentError(
            f"{finished:g} g when it is done, from {formula.total_grams:g} g",
            "at most what went in",
            "what the scale shows",
        )
    if "water" not in grams:
        return grams
    left = finished - (formula.total_grams - grams["water"])
    return {**grams, "water": left if left > _WATER_LEFT_OUT * finished else 0.0}
