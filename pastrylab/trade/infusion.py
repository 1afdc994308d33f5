"""An infusion: what leaves, beans and pods keep of the liquid, what the heat takes, and what to top up with.

By mass balance. What leaves as steam is water alone; what the leaves keep is the liquid as it then is, fat and all. In
truth they take up water more readily than fat, so strained cream is a little fatter than this says.
"""

from dataclasses import dataclass, replace

from pastrylab.ground import datasets
from pastrylab.ground.units import In, Number, Quantity, Share, StudentError, both, show, takes
from pastrylab.trade.formula import Formula
from pastrylab.trade.pantry import ingredient_name, ingredients, plain_name

# The least that a recipe may leave of the liquid; our own judgement: with less, it is a paste that is pressed.
_LEAST_LEFT = 0.2


def kinds():
    """The kinds of leaves, beans and pods that infusions.csv knows, as a list.

    >>> kinds()[0]
    'tea leaves'
    """
    return datasets.infusions()["kind"]


def kept_by(kind):
    """(low, high): grams of liquid that a gram of a kind keeps once it has drained, plain floats.

    kind: as infusions.csv writes it, or a part of it that only one has ("tea"). Each row there has its source; most are
    our own judgement, and a weight on your own scale wins over them. Raises StudentError for an unknown kind.

    >>> kept_by("tea")
    (2.0, 4.0)
    """
    row = datasets.infusions().by("kind")[_kind(kind)]
    return row["low"], row["high"]


def _kind(kind):
    known, wanted = {plain_name(name): name for name in kinds()}, plain_name(str(kind))
    found = [name for plain, name in known.items() if wanted and wanted in plain]
    if wanted not in known and len(found) != 1:
        near = list(found or known.values())
        raise StudentError(f"'{str(kind)[:60]}' as what is steeped", "one of " + ", ".join(near), near[0])
    return known.get(wanted) or found[0]


@dataclass(frozen=True)
class Infusion:
    """A liquid after leaves were steeped in it and strained off.

    evaporated: water gone as steam; kept: liquid that stays in the leaves; left: what came through the sieve, with
    left_low and left_high where it is an estimate (both are `left` where it was weighed). kept_per_gram: a plain float.
    water and more: what to top up with, water for the steam and fresh liquid for what the leaves kept. formula: the
    liquid topped up so, for a composition. fat_left, fat_topped: shares of fat strained and topped up; fat_alone: with
    fresh liquid alone and no water.

    >>> infused("500 g", "20 g", evaporated="20 g").formula
    Formula({'heavy cream 36 %': '500 g'})
    """

    evaporated: Quantity
    kept: Quantity
    left: Quantity
    left_low: Quantity
    left_high: Quantity
    kept_per_gram: float
    water: Quantity
    more: Quantity
    formula: Formula
    fat_left: float
    fat_topped: float
    fat_alone: float
    sentence: str


@takes(
    liquid=In("g", above=0, example="500 g"),
    leaves=In("g", above=0, example="20 g"),
    kept=Number(at_least=0, at_most=10, example="3"),
    evaporated=In("g", at_least=0, example="15 g"),
    in_the_pan=In("g", above=0, example="505 g"),
    strained=In("g", above=0, example="430 g"),
)
def infused(
    liquid,
    leaves,
    of="heavy cream",
    kind="tea leaves",
    kept=None,
    evaporated="0 g",
    in_the_pan=None,
    strained=None,
    top_up=None,
):
    """What becomes of a liquid that leaves are steeped in, and what to top it up with: an Infusion.

    liquid, leaves: masses before, dry leaves as they are weighed in; of, top_up: ingredients (None: the same).
    kept: grams a gram of leaves keeps, a plain number; None for the middle of its kind's band. evaporated: water gone,
    or in_the_pan: the pan with leaves in it before straining, without the pan's own weight. strained: what came through
    the sieve; a weight wins over the band. All masses without pan and bowl. Raises StudentError for weights that cannot
    be, for more steam than there was water, and where the leaves keep all of it.

    >>> infused("500 g", "20 g", evaporated="20 g").sentence.split(". ")[2]
    'Top up with 17.5 g of water and 62.5 g of heavy cream 36 %'
    """
    of = ingredient_name(of)
    fresh = of if top_up is None else ingredient_name(top_up)
    gone = _steam(liquid, leaves, of, evaporated, in_the_pan)
    left, low, high = _through_the_sieve(liquid - gone, leaves, kind, kept, strained)
    made = _balance(liquid, leaves, gone, (left, low, high), of, fresh)
    return replace(made, sentence=_said(made, fresh, kind, strained is not None))


def _balance(liquid, leaves, gone, through, of, fresh):
    """The Infusion but for its sentence; masses in g, through: (left, low, high)."""
    table, left, hot = ingredients(), through[0], liquid - gone
    stays = hot - left
    # A gram strained came of liquid / hot grams as bought: so much of it, with its share of the steam's water put back.
    water, more = left * gone / hot, stays * liquid / hot
    parts = Formula.of_grams({of: liquid} if fresh == of else {of: liquid - more, fresh: more})
    fat_left = table[of]["fat"] * liquid / hot
    return Infusion(
        *(Quantity(mass, "g") for mass in (gone, stays, *through)),
        stays / leaves,
        Quantity(water, "g"),
        Quantity(more, "g"),
        parts,
        fat_left,
        float(parts.composition()["fat"]),
        (fat_left * left + table[fresh]["fat"] * (liquid - left)) / liquid,
        "",
    )


def _steam(liquid, leaves, of, evaporated, in_the_pan):
    """Grams of water gone: as told, or by the pan's weight."""
    if in_the_pan is not None:
        if evaporated:
            raise StudentError("steam twice: weighed off and as the pan's weight", "one of the two", "the pan's weight")
        evaporated = liquid + leaves - in_the_pan
    if evaporated < 0:
        raise StudentError(
            f"{in_the_pan:.4g} g in the pan, from {liquid:.4g} g of liquid and {leaves:.4g} g of leaves",
            "a pan that got lighter: take the pan off all weights",
            f"{liquid + leaves - 10:.4g} g",
        )
    most = liquid * ingredients()[of]["water"]
    if evaporated > most:
        raise StudentError(
            f"{evaporated:.4g} g of steam from {liquid:.4g} g of {of}", f"at most its water, {most:.4g} g", "15 g"
        )
    return evaporated


def _through_the_sieve(hot, leaves, kind, kept, strained):
    """(left, low, high) in g: what is strained off, and between which ends the band of its kind puts it."""
    if strained is not None:
        if strained > hot:
            raise StudentError(
                f"{strained:.4g} g strained from {hot:.4g} g",
                "less than was in the pan: take the bowl off, and the leaves out",
                f"{0.9 * hot:.4g} g",
            )
        return strained, strained, strained
    band = kept_by(kind) if kept is None else (kept, kept)
    low, high = (hot - per_gram * leaves for per_gram in reversed(band))
    if low <= 0:
        raise StudentError(
            f"{leaves:.4g} g of leaves in {hot:.4g} g, which may keep all of it",
            "more liquid, or fewer leaves",
            f"{hot / 20:.2g} g of leaves",
        )
    return 0.5 * (low + high), low, high


def _said(made, fresh, kind, weighed):
    low, high = kept_by(kind)
    usual = f"{low:g} to {high:g} g a gram is usual"
    off = "" if low <= made.kept_per_gram <= high else ", which yours is not: was it pressed, or not left to drain?"
    band = f", from {show(made.left_low, 3)} to {show(made.left_high, 3)}" if made.left_low < made.left_high else ""
    known = "weighed" if weighed else "reckoned: weigh it"
    with_water = f"{show(made.water, 3)} of water and " if made.water.m > 0 else ""
    said = (
        f"Left: {both(made.left, 3)}{band} ({known}). The leaves kept {show(made.kept, 3)}, {made.kept_per_gram:.2g} g a gram; "
        f"{usual}{off or '.'} Top up with {with_water}{show(made.more, 3)} of {fresh}."
    )
    if made.fat_left > 0.005:
        said += f" Fat of the strained {100 * made.fat_left:.1f} %, topped up {100 * made.fat_topped:.1f} %"
        said += f"; with {fresh} alone {100 * made.fat_alone:.1f} %." if made.water.m > 0 else "."
    return said


@dataclass(frozen=True)
class Start:
    """What to weigh in so that an infusion leaves what the recipe asks for: liquid and leaves, masses; low, high: the
    liquid for the ends of the band; sentence.

    >>> show(start_with("400 g", "5 %").leaves, 3)
    '23.5 g'
    """

    liquid: Quantity
    leaves: Quantity
    low: Quantity
    high: Quantity
    sentence: str


@takes(
    wanted=In("g", above=0, example="400 g"),
    leaves=Share(above=0, at_least=None, example="5 %"),
    kept=Number(at_least=0, at_most=10, example="3"),
    evaporated=Share(example="3 %"),
)
def start_with(wanted, leaves, kind="tea leaves", kept=None, evaporated="0 %"):
    """What to weigh in so that `wanted` remains once the leaves are strained off: a Start.

    wanted: mass of liquid the recipe goes on with. leaves, evaporated: shares of the liquid weighed in. kept as in
    `infused`. The start is wanted / (1 - leaves x kept - evaporated): divided, since a larger start loses more as well.
    Raises StudentError where less than a fifth would be left.

    >>> start_with("400 g", "5 %", kept=3).sentence
    'Start with 471 g (16.6 oz) and 23.5 g of leaves: 85 % of it is left.'
    """
    band = kept_by(kind) if kept is None else (kept, kept)
    shares = [1 - leaves * per_gram - evaporated for per_gram in (band[0], 0.5 * sum(band), band[1])]
    if shares[-1] < _LEAST_LEFT:
        rest = max(0.0, 100 * shares[-1])
        raise StudentError(
            f"leaves of {100 * leaves:.3g} % and {100 * evaporated:.3g} % of steam, which leave {rest:.2g} % of the liquid",
            f"a start of which {100 * _LEAST_LEFT:.0f} % is left at least: fewer leaves",
            "5 % of leaves",
        )
    least, liquid, most = (Quantity(wanted / share, "g") for share in shares)
    span = f", {show(least, 3)} to {show(most, 3)} by what {_kind(kind)} keep" if kept is None else ""
    of_leaves = Quantity(leaves * wanted / shares[1], "g")
    said = (
        f"Start with {both(liquid, 3)} and {show(of_leaves, 3)} of leaves: {100 * shares[1]:.3g} % of it is left{span}."
    )
    return Start(liquid, of_leaves, least, most, said)
