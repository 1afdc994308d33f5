"""Ganache as an emulsion: composition, the phases by volume, ratios from practice, set fat, cream lost to boiling.

Volumes are those of the warm ganache, 40 degC, where it is made: fat in droplets, sugars in the water. Densities: liquid
fat 0.895 g/mL (Beckett, Industrial Chocolate Manufacture and Use, 3rd ed. 1999, prints 0.88-0.90 for cocoa butter),
water 0.992 g/mL (IAPWS), dissolved sugar 0.62 mL/g (CRC Handbook, densities of sucrose solutions), alcohol 1.27 mL/g
(CRC Handbook), sugar crystal 1.58 g/mL (CRC Handbook), other dry solids 1.45 g/mL (from memory).
"""

import math
from dataclasses import dataclass

import numpy as np

from pastrylab.ground import datasets
from pastrylab.ground.units import In, Quantity, Reading, StudentError, both, show, takes
from pastrylab.trade.crystals import solid_cocoa_butter
from pastrylab.trade.formula import Formula
from pastrylab.trade.pantry import ingredient_name
from pastrylab.trade.sugars.solubility import sucrose_per_water

KINDS = ("dark", "milk", "white")
USES = ("pour", "fill", "pipe", "roll")
MADE_AT = 40.0  # degC
FAT_DENSITY = 0.895  # g/mL
WATER_DENSITY = 0.992  # g/mL
DISSOLVED_VOLUME = 0.62  # mL/g, sugars and polyols in solution
ALCOHOL_VOLUME = 1.27  # mL/g
CRYSTAL_DENSITY = 1.58  # g/mL
SOLIDS_DENSITY = 1.45  # g/mL, from memory
# Equal spheres fill at most 0.74 of a volume, heaped at random about 0.64 (the latter from memory). Droplets are of
# mixed size, so real ganache may pass both: lines to warn at, not limits.
RANDOM_PACKING, CLOSEST_PACKING = 0.64, 0.74
_EXAMPLE = "300 g of dark couverture 64 %, 200 g of heavy cream"
_SAID = {
    "room": "There is room between droplets and particles: it should hold with ordinary care.",
    "crowded": "Droplets and particles are as crowded as spheres heaped at random: it may split. Take care with heat and "
    "stirring, or bring in water. A warning, not a law.",
    "packed": "Droplets and particles are more crowded than equal spheres can lie: expect it to split. A warning, not a "
    "law: droplets of mixed size can lie closer.",
}


@dataclass(frozen=True)
class Phases:
    """What a ganache is made of, in plain g and mL; `.water`, `.fat`, `.sugars`, `.other_solids`, `.alcohol` are masses.

    `phases["water"]` is a share of the whole mass, 0 to 1. fat_share_of_fluid: fat over fat and watery phase by volume,
    solids left out. dispersed_share: fat and undissolved solids over everything, by volume.
    """

    water_g: float
    fat_g: float
    sugars_g: float
    other_solids_g: float
    alcohol_g: float
    undissolved_g: float
    total_g: float
    fat_ml: float
    watery_ml: float
    solids_ml: float

    _PARTS = ("water", "fat", "sugars", "other_solids", "alcohol")
    _SHARES = ("fat_share_of_fluid", "dispersed_share")

    def __getitem__(self, name):
        key = str(name).strip().casefold().replace(" ", "_")
        if key in self._PARTS:
            return getattr(self, key + "_g") / self.total_g
        if key in self._SHARES:
            return getattr(self, key)
        raise StudentError(f"'{name}' of a ganache", "one of " + ", ".join((*self._PARTS, *self._SHARES)), "water")

    def keys(self):
        """The parts that add up to the whole."""
        return self._PARTS

    @property
    def water(self):
        """Mass of the water."""
        return Quantity(self.water_g, "g")

    @property
    def fat(self):
        """Mass of all fat."""
        return Quantity(self.fat_g, "g")

    @property
    def sugars(self):
        """Mass of the sugars, dissolved or not (no longer chains, no polyols)."""
        return Quantity(self.sugars_g, "g")

    @property
    def other_solids(self):
        """Mass of everything else that is dry: cocoa, milk solids, nuts, longer chains, polyols."""
        return Quantity(self.other_solids_g, "g")

    @property
    def alcohol(self):
        """Mass of the alcohol."""
        return Quantity(self.alcohol_g, "g")

    @property
    def fat_share_of_fluid(self):
        """Fat's share of the volume of fat and watery phase, 0 to 1."""
        return self.fat_ml / (self.fat_ml + self.watery_ml)

    @property
    def dispersed_share(self):
        """Share of the whole volume that is droplets and particles, 0 to 1."""
        return (self.fat_ml + self.solids_ml) / (self.fat_ml + self.watery_ml + self.solids_ml)

    @property
    def level(self):
        """ "room", "crowded" (from random packing, 0.64) or "packed" (from the closest, 0.74)."""
        share = self.dispersed_share
        return "packed" if share >= CLOSEST_PACKING else "crowded" if share >= RANDOM_PACKING else "room"

    @property
    def warning(self):
        """The crowding in a sentence: a warning, never a law."""
        return _SAID[self.level]


def phases(formula):
    """Composition and phases of a ganache: a Phases. formula: a Formula.

    Sucrose beyond what the water holds at 40 degC beside the other sugars counts as solid. Shares by mass balance on
    ingredients.csv; densities above. Raises StudentError for anything but a formula, and for one without water.
    """
    if not isinstance(formula, Formula):
        raise StudentError(f"{str(formula)[:60]!r} for a ganache", "a formula", _EXAMPLE)
    made = formula.composition()
    held = made.grams
    water = held["water"]
    if not water > 0:
        raise StudentError(
            "a formula without water",
            "some water: without it there is no emulsion",
            _EXAMPLE,
        )
    sugars, total = _of(made, "sugars"), made.total_grams
    loose = _undissolved(held)
    dissolved = sugars + held["higher_saccharides"] + held["polyols"] - loose
    other = _of(made, "solids") - held["fat"] - sugars
    particles = other - held["higher_saccharides"] - held["polyols"]
    return Phases(
        water_g=water,
        fat_g=held["fat"],
        sugars_g=sugars,
        other_solids_g=other,
        alcohol_g=held["alcohol"],
        undissolved_g=loose,
        total_g=total,
        fat_ml=held["fat"] / FAT_DENSITY,
        watery_ml=water / WATER_DENSITY + dissolved * DISSOLVED_VOLUME + held["alcohol"] * ALCOHOL_VOLUME,
        solids_ml=particles / SOLIDS_DENSITY + loose / CRYSTAL_DENSITY,
    )


def _of(made, component):
    return made[component] * made.total_grams


def _undissolved(held):
    """Grams of sucrose the water cannot hold at 40 degC."""
    water, sucrose = held["water"], held["sucrose"]
    if sucrose <= 0.5 * water:
        return 0.0
    others = {
        name: min(100 * held[key] / water, 500.0)
        for name, key in (
            ("glucose", "glucose"),
            ("fructose", "fructose"),
            ("lactose", "lactose"),
            ("maltose", "maltose"),
        )
        if held[key] > 0
    }
    return max(0.0, sucrose - float(sucrose_per_water.floats(MADE_AT, others)) * water / 100)


# --- ratios and bands from practice -------------------------------------------------------------------------------


def kind_in(formula):
    """ "dark", "milk" or "white": the kind that weighs most in a formula. Raises StudentError without chocolate."""
    weights = {}
    for name, mass in formula.grams.items():
        kind = name.split()[0]
        if kind in KINDS and ("chocolate" in name or "couverture" in name):
            weights[kind] = weights.get(kind, 0.0) + mass
    if not any(weights.values()):
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
    ganache_ratios.csv has its source. Raises StudentError.
    """
    kind, use = _named(kind, KINDS, "the kind of chocolate"), _named(use, USES, "the use of a ganache")
    rows = datasets.ganache_ratios()
    row = rows[(rows["kind"] == kind) & (rows["use"] == use)].iloc[0]
    return float(row["low"]), float(row["high"])


@dataclass(frozen=True)
class RatioFinding:
    """A ganache's ratio beside the band of its use: word is "inside", "softer" or "firmer"."""

    ratio: float
    low: float
    high: float
    word: str
    sentence: str


def ratio_finding(formula, use, kind=None):
    """How a formula's chocolate-to-liquid ratio lies to the band for its use: a RatioFinding. kind: None to read it off.

    A habit, no verdict: syrups, butter and nut paste soften as well and are not liquid here. Raises StudentError.
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

    Source: ganache_targets.csv, row by row. No published fat content marks where a ganache splits. Raises StudentError.
    """
    rows = datasets.ganache_targets()
    rows = rows[rows["use"] == _named(use, USES, "the use of a ganache")]
    return {row.component: (row.low / 100, row.high / 100) for row in rows.itertuples(index=False)}


@dataclass(frozen=True)
class CardFinding:
    """A ganache beside the card of a use: out holds the components outside it; inside, the uses whose card it lies in;
    fits, the use that fits it best, or ""; sentence.
    """

    out: tuple[str, ...]
    inside: tuple[str, ...]
    fits: str
    sentence: str


def card_finding(formula, use):
    """How a ganache lies to the card of a use: a CardFinding. The card leads: it counts every ingredient.

    The cards overlap. Of those it lies in, the one fits best to whose habit its ratio of chocolate to liquid lies
    nearest, since that habit knows the kind of chocolate. Raises StudentError.
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
    """{name: Formula}: the invented fillings of the Larkmoor Teaching Kitchen, from fillings.csv."""
    made = {}
    for row in datasets.fillings().itertuples(index=False):
        made.setdefault(row.filling, {})[row.ingredient] = row.grams
    return {name: Formula.of_grams(parts) for name, parts in made.items()}


def filling_uses():
    """{name: use} of the invented fillings."""
    return {row.filling: row.use for row in datasets.fillings().itertuples(index=False)}


# --- how much of the fat is set -----------------------------------------------------------------------------------

# Percent solid milk fat by pulsed NMR, (degC, low, middle, high): 20 degC from Versteeg, Logan & Mueller 2016, Journal
# of Dairy Science 99:2571, 14.6-29.6 over nineteen sites and two years; the rest from memory.
SOLID_MILK_FAT = (
    (10, 45, 50, 55),
    (15, 32, 36, 40),
    (20, 14.6, 22.1, 29.6),
    (25, 10, 12, 14),
    (30, 4, 6, 8),
    (35, 0, 0.5, 1),
)
_SOFTENING = (5.5, 0.33)  # from memory: 3 to 8 points under the mixing line where a third of the fat is milk fat


@dataclass(frozen=True)
class SolidFat:
    """How much of the fat is set: value, low, high as shares of the fat; of_whole: share of the ganache; sentence."""

    value: float
    low: float
    high: float
    of_whole: float
    milk_fat_share: float
    sentence: str


@takes(temperature=Reading(at_least=10, at_most=35, example="20 degC"))
def solid_fat(formula, temperature="20 degC"):
    """How much of a ganache's fat is solid at a serving temperature: a SolidFat. From memory, for comparing only.

    Mixing line of cocoa butter and milk fat, less a softening that is largest at a third of milk fat. Other fats (nut
    oil, lecithin) count as liquid; coconut and palm kernel fat are outside this rule. Raises StudentError outside
    10-35 degC and for a formula without fat.
    """
    held = formula.composition().grams
    fat = held["fat"]
    if not fat > 0:
        raise StudentError("a formula without fat", "one with chocolate, cream or butter", "heavy cream")
    milk, cocoa = held["milk_fat"] / fat, held["cocoa_butter"] / fat
    milk_of_both = milk / (milk + cocoa) if milk + cocoa > 0 else 0.0
    gap = np.interp(milk_of_both, (0, _SOFTENING[1], 1), (0, _SOFTENING[0], 0)) * (milk + cocoa)
    low, value, high = (
        max(
            0.0,
            100 * cocoa * solid_cocoa - gap + milk * np.interp(temperature, *np.transpose(SOLID_MILK_FAT)[[0, i]]),
        )
        for i, solid_cocoa in enumerate(solid_cocoa_butter.floats(temperature), start=1)
    )
    sentence = (
        f"About {value:.0f} % of the fat is set at {both(Quantity(temperature, 'degC'), 3)}, between {low:.0f} and {high:.0f} % "
        f"(from memory); {100 * milk:.0f} % of the fat is milk fat."
    )
    return SolidFat(value / 100, low / 100, high / 100, value / 100 * fat / formula.total_grams, milk, sentence)


# --- cream lost to boiling ----------------------------------------------------------------------------------------


@dataclass(frozen=True)
class BoilOff:
    """A pan weighed before and after boiling. lost: mass of water gone, which is the water to top up with.

    lost_share: of the liquid as it went in. fat_before, fat_now: fat shares of the liquid before and after. fat_creamed:
    the fat share if the pan is topped up with the same cream instead of water. Shares 0 to 1.
    """

    lost: Quantity
    lost_share: float
    fat_before: float
    fat_now: float
    fat_creamed: float
    sentence: str


@takes(before=In("g", above=0, example="500 g"), after=In("g", above=0, example="460 g"))
def boil_off(before, after, of="heavy cream"):
    """What boiling took from a liquid: a BoilOff. before, after: masses without the pan. of: an ingredient.

    What leaves is water alone, by mass balance. Raises StudentError where it got heavier, or lost more than its water.
    """
    row = datasets.ingredients().loc[ingredient_name(of)]
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
    fat = float(row["fat"])
    sentence = (
        f"Lost {both(Quantity(lost, 'g'), 3)} of water. Its fat rose from {100 * fat:.1f} to {100 * fat * before / after:.1f} %. "
        f"Top up with {show(Quantity(lost, 'g'), 3)} of water."
    )
    return BoilOff(
        Quantity(lost, "g"), lost / before, fat, fat * before / after, fat * (before + lost) / before, sentence
    )


def parts_by_volume(formula):
    """(fat, watery phase, solids) as shares of the volume, adding up to 1."""
    made = phases(formula)
    whole = math.fsum((made.fat_ml, made.watery_ml, made.solids_ml))
    return made.fat_ml / whole, made.watery_ml / whole, made.solids_ml / whole
