"""Ganache in practice: its ratio and its parts beside the habits of the trade, and cream lost to boiling.

What a ganache is made of and how crowded it lies: phases.
"""

from dataclasses import dataclass

from pastrylab.ground import datasets
from pastrylab.ground.units import In, Quantity, StudentError, both, show, takes
from pastrylab.trade.chocolate import KINDS, kind_of
from pastrylab.trade.formula import Formula
from pastrylab.trade.pantry import ingredient_name, ingredients, members_of
from pastrylab.trade.phases import Phases, phases

# What a lesson asks for under this topic, the phases among it.
__all__ = [
    "BoilOff",
    "CardFinding",
    "Phases",
    "RatioFinding",
    "boil_off",
    "card_finding",
    "fillings",
    "kind_in",
    "phases",
    "ratio_band",
    "ratio_finding",
    "targets",
]

USES = ("pour", "fill", "pipe", "roll")


# --- ratios and bands from practice -------------------------------------------------------------------------------


def kind_in(formula):
    """ "dark", "milk" or "white": the kind that weighs most in a formula, of all that is of the family chocolate.

    Raises StudentError without chocolate, and as chocolate.kind_of does.

    >>> kind_in(Formula({"dark couverture 64 %": "100 g", "milk couverture 33 %": "200 g"}))
    'milk'
    """
    weights = {}
    for name in members_of("chocolate", formula.grams):
        if formula.grams[name] > 0:
            weights[kind_of(name)] = weights.get(kind_of(name), 0.0) + formula.grams[name]
    if not weights:
        raise StudentError(
            "a formula without chocolate", "one with dark, milk or white chocolate", "dark couverture 64 %"
        )
    return max(weights, key=weights.get)


def _named(word, known, what):
    name = str(word).strip().casefold()
    if name not in known:
        raise StudentError(f"'{word}' as {what}", "one of " + ", ".join(known), known[0])
    return name


def ratio_band(kind, use):
    """(low, high): chocolate to liquid by mass for a kind of chocolate and a use, plain numbers, a habit of the trade.

    kind: "dark", "milk", "white". use: "pour", "fill", "pipe", "roll". Liquid as Formula.ratio counts it. Each row of
    ganache_ratios.csv has its source. Raises StudentError for another kind or use.

    >>> ratio_band("dark", "fill")
    (1.2, 1.7)
    """
    kind, use = _named(kind, KINDS, "the kind of chocolate"), _named(use, USES, "the use of a ganache")
    row = datasets.ganache_ratios().by("kind", "use")[kind, use]
    return row["low"], row["high"]


@dataclass(frozen=True)
class RatioFinding:
    """A ganache's ratio beside the band of its use: word is "inside", "softer" or "firmer"; plain floats.

    >>> ratio_finding(Formula({"dark couverture 64 %": "300 g", "heavy cream": "200 g"}), "pour").word
    'firmer'
    """

    ratio: float
    low: float
    high: float
    word: str
    sentence: str


def ratio_finding(formula, use, kind=None):
    """How a formula's chocolate-to-liquid ratio lies to the band for its use: a RatioFinding. kind: None to read it off.

    A habit, no verdict: syrups, butter and nut paste soften as well and are not liquid here. Raises StudentError for an
    unknown use, and for a formula without chocolate or liquid.

    >>> ratio_finding(Formula({"dark couverture 64 %": "300 g", "heavy cream": "200 g"}), "fill").sentence
    'Chocolate to liquid 1.50 : 1, inside the habit of 1.2 to 1.7 for dark ganache to fill.'
    """
    kind = kind_in(formula) if kind is None else _named(kind, KINDS, "the kind of chocolate")
    ratio, (low, high) = formula.ratio("chocolate", "liquid"), ratio_band(kind, use)
    word = "softer" if ratio < low else "firmer" if ratio > high else "inside"
    lies = {"inside": "inside", "softer": "softer than", "firmer": "firmer than"}[word]
    sentence = (
        f"Chocolate to liquid {ratio:.2f} : 1, {lies} the habit of {low:g} to {high:g} for {kind} ganache to {use}."
    )
    return RatioFinding(ratio, low, high, word, sentence)


def targets(use):
    """{component: (low, high)} as shares of mass for water, fat and sugars: teaching bands, from memory, no verdict.

    Source: ganache_targets.csv, row by row. No published fat content marks where a ganache splits. Raises StudentError
    for an unknown use.

    >>> targets("fill")["water"]
    (0.17, 0.25)
    """
    rows = datasets.ganache_targets().where(use=_named(use, USES, "the use of a ganache"))
    return {row["component"]: (row["low"] / 100, row["high"] / 100) for row in rows}


@dataclass(frozen=True)
class CardFinding:
    """A ganache beside the card of a use: out holds the components outside it; inside, the uses whose card it lies in;
    fits, the use that fits it best, or ""; sentence.

    >>> card_finding(Formula({"dark couverture 64 %": "300 g", "heavy cream": "200 g"}), "fill").fits
    'fill'
    """

    out: tuple[str, ...]
    inside: tuple[str, ...]
    fits: str
    sentence: str


def card_finding(formula, use):
    """How a ganache lies to the card of a use: a CardFinding. The card leads: it counts every ingredient.

    The cards overlap. Of those it lies in, the one fits best to whose habit its ratio of chocolate to liquid lies
    nearest, since that habit knows the kind of chocolate. Raises StudentError as phases and ratio_finding do.

    >>> card_finding(Formula({"dark couverture 64 %": "300 g", "heavy cream": "200 g"}), "fill").sentence
    'Inside the card to fill, and of the cards it lies in that one fits best.'
    """
    made = phases(formula)
    outside = {one: [name for name, band in targets(one).items() if not _within(made[name], band)] for one in USES}
    out = outside[_named(use, USES, "the use of a ganache")]
    inside = tuple(one for one in USES if not outside[one])
    fits = min(inside, key=lambda one: _off(ratio_finding(formula, one)), default="")
    if out:
        told = ", ".join(
            f"{name} {100 * made[name]:.1f} % against {100 * low:g} to {100 * high:g} %"
            for name in out
            for low, high in [targets(use)[name]]
        )
        sentence = f"Outside the card to {use}: {told}."
        sentence += f" It lies in the card to {fits}." if fits else ""
    elif fits != use:
        sentence = f"Inside the card to {use}, but it fits better to {fits}."
    else:
        sentence = f"Inside the card to {use}, and of the cards it lies in that one fits best."
    return CardFinding(tuple(out), inside, fits, sentence)


def _within(share, band):
    return band[0] <= share <= band[1]


def _off(found):
    """How far a ratio lies from the middle of its habit, in half widths."""
    return abs(found.ratio - 0.5 * (found.low + found.high)) / (0.5 * (found.high - found.low))


def fillings():
    """{name: Formula}: the invented fillings of the Larkmoor Teaching Kitchen, from fillings.csv.

    >>> fillings()["dark"].grams
    {'dark couverture 64 %': 330.0, 'heavy cream 36 %': 200.0, 'invert syrup': 35.0, 'butter unsalted': 25.0}
    """
    made = {}
    for row in datasets.fillings():
        made.setdefault(row["filling"], {})[row["ingredient"]] = row["grams"]
    return {name: Formula.of_grams(parts) for name, parts in made.items()}


# --- cream lost to boiling ----------------------------------------------------------------------------------------


@dataclass(frozen=True)
class BoilOff:
    """A pan weighed before and after boiling. lost: mass of water gone, which is the water to top up with.

    fat_before, fat_now: fat shares of the liquid before and after. fat_creamed: the fat
    share if the pan is topped up with the same cream instead of water. Shares 0 to 1.

    >>> f"{boil_off('500 g', '460 g').fat_now:.3f}"
    '0.392'
    """

    lost: Quantity
    fat_before: float
    fat_now: float
    fat_creamed: float
    sentence: str


@takes(before=In("g", above=0, example="500 g"), after=In("g", above=0, example="460 g"))
def boil_off(before, after, of="heavy cream"):
    """What boiling took from a liquid: a BoilOff. before, after: masses without the pan. of: an ingredient.

    What leaves is water alone, by mass balance. Raises StudentError where it got heavier, or lost more than its water.

    >>> boil_off("500 g", "460 g").sentence
    'Lost 40 g (1.41 oz) of water. Its fat rose from 36.1 to 39.2 %. Top up with 40 g of water.'
    """
    row = ingredients()[ingredient_name(of)]
    lost = before - after
    if lost < 0:
        raise StudentError(
            f"{after:g} g after {before:g} g", "a pan that got lighter: take the pan off both weights", "460 g"
        )
    if lost > row["water"] * before:
        raise StudentError(
            f"{lost:g} g lost from {before:g} g of {of}",
            f"at most its water, {row['water'] * before:.0f} g: was the pan on both weights?",
            "460 g",
        )
    fat = row["fat"]
    sentence = (
        f"Lost {both(Quantity(lost, 'g'), 3)} of water. Its fat rose from {100 * fat:.1f} to {100 * fat * before / after:.1f} %. "
        f"Top up with {show(Quantity(lost, 'g'), 3)} of water."
    )
    return BoilOff(Quantity(lost, "g"), fat, fat * before / after, fat * (before + lost) / before, sentence)
