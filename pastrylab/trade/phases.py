"""Ganache as an emulsion: its composition, its phases by volume, and how crowded they lie.

Volumes are those of the warm ganache, 40 degC, where it is made: fat in droplets, sugars in the water. Densities: liquid
fat 0.895 g/mL (Beckett, Industrial Chocolate Manufacture and Use, 3rd ed. 1999, prints 0.88-0.90 for cocoa butter),
water 0.992 g/mL (IAPWS), dissolved sugar 0.62 mL/g (CRC Handbook, densities of sucrose solutions), alcohol 1.27 mL/g
(CRC Handbook), sugar crystal 1.58 g/mL (CRC Handbook), other dry solids 1.45 g/mL (from memory).
"""

import math
from dataclasses import dataclass

from pastrylab.ground.units import Quantity, StudentError
from pastrylab.trade.composition import SUGARS
from pastrylab.trade.formula import Formula
from pastrylab.trade.sugars.solubility import sucrose_per_water

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
    solids left out. dispersed_share: fat and undissolved solids over everything, by volume. Raises StudentError for a
    part it does not know.

    >>> f"{phases(Formula({'dark couverture 64 %': '300 g', 'heavy cream': '200 g'}))['water']:.1%}"
    '23.5%'
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

    @property
    def water(self):
        """Mass of the water.

        >>> from pastrylab import show
        >>> made = phases(Formula({"dark couverture 64 %": "300 g", "heavy cream": "200 g"}))
        >>> show(made.water, 3)
        '118 g'
        """
        return Quantity(self.water_g, "g")

    @property
    def fat(self):
        """Mass of all fat.

        >>> from pastrylab import show
        >>> made = phases(Formula({"dark couverture 64 %": "300 g", "heavy cream": "200 g"}))
        >>> show(made.fat, 3)
        '192 g'
        """
        return Quantity(self.fat_g, "g")

    @property
    def sugars(self):
        """Mass of the sugars, dissolved or not (no longer chains, no polyols).

        >>> from pastrylab import show
        >>> made = phases(Formula({"dark couverture 64 %": "300 g", "heavy cream": "200 g"}))
        >>> show(made.sugars, 3)
        '114 g'
        """
        return Quantity(self.sugars_g, "g")

    @property
    def other_solids(self):
        """Mass of everything else that is dry: cocoa, milk solids, nuts, longer chains, polyols.

        >>> from pastrylab import show
        >>> made = phases(Formula({"dark couverture 64 %": "300 g", "heavy cream": "200 g"}))
        >>> show(made.other_solids, 3)
        '76.8 g'
        """
        return Quantity(self.other_solids_g, "g")

    @property
    def alcohol(self):
        """Mass of the alcohol.

        >>> from pastrylab import show
        >>> made = phases(Formula({"dark couverture 64 %": "300 g", "heavy cream": "180 g", "rum": "20 g"}))
        >>> show(made.alcohol, 3)
        '6.68 g'
        """
        return Quantity(self.alcohol_g, "g")

    @property
    def fat_share_of_fluid(self):
        """Fat's share of the volume of fat and watery phase, 0 to 1.

        >>> made = phases(Formula({"dark couverture 64 %": "300 g", "heavy cream": "200 g"}))
        >>> f'{made.fat_share_of_fluid:.2f}'
        '0.53'
        """
        return self.fat_ml / (self.fat_ml + self.watery_ml)

    @property
    def dispersed_share(self):
        """Share of the whole volume that is droplets and particles, 0 to 1.

        >>> made = phases(Formula({"dark couverture 64 %": "300 g", "heavy cream": "200 g"}))
        >>> f'{made.dispersed_share:.2f}'
        '0.59'
        """
        return (self.fat_ml + self.solids_ml) / (self.fat_ml + self.watery_ml + self.solids_ml)

    @property
    def volume_shares(self):
        """(fat, watery phase, solids) as shares of the volume, adding up to 1.

        >>> made = phases(Formula({"dark couverture 64 %": "300 g", "heavy cream": "200 g"}))
        >>> [round(share, 2) for share in made.volume_shares]
        [0.47, 0.41, 0.12]
        """
        whole = math.fsum((self.fat_ml, self.watery_ml, self.solids_ml))
        return self.fat_ml / whole, self.watery_ml / whole, self.solids_ml / whole

    @property
    def level(self):
        """ "room", "crowded" (from random packing, 0.64) or "packed" (from the closest, 0.74).

        >>> made = phases(Formula({"dark couverture 64 %": "300 g", "heavy cream": "100 g"}))
        >>> made.level
        'room'
        """
        share = self.dispersed_share
        return "packed" if share >= CLOSEST_PACKING else "crowded" if share >= RANDOM_PACKING else "room"

    @property
    def warning(self):
        """The crowding in a sentence: a warning, never a law.

        >>> made = phases(Formula({"dark couverture 64 %": "300 g", "heavy cream": "200 g"}))
        >>> made.warning
        'There is room between droplets and particles: it should hold with ordinary care.'
        """
        return _SAID[self.level]


def phases(formula):
    """Composition and phases of a ganache: a Phases. formula: a Formula.

    Sucrose beyond what the water holds at 40 degC beside the other sugars counts as solid. Shares by mass balance on
    ingredients.csv; densities above. Raises StudentError for anything but a formula, and for one without water.

    >>> made = phases(Formula({"dark couverture 64 %": "300 g", "heavy cream": "200 g"}))
    >>> f"{made['fat']:.1%} fat, {made['water']:.1%} water, {made.level}"
    '38.4% fat, 23.5% water, room'
    """
    if not isinstance(formula, Formula):
        raise StudentError(f"{str(formula)[:60]!r} for a ganache", "a formula", _EXAMPLE)
    made = formula.composition()
    held = made.grams
    water = held["water"]
    if not water > 0:
        raise StudentError("a formula without water", "some water: without it there is no emulsion", _EXAMPLE)
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
    others = {name: min(100 * held[name] / water, 500.0) for name in SUGARS if name != "sucrose" and held[name] > 0}
    return max(0.0, sucrose - float(sucrose_per_water.floats(MADE_AT, others)) * water / 100)
