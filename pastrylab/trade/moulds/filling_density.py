"""What a filling weighs to the millilitre: from what is in it, or weighed in a cup.

Ideal mixing: every part keeps its own room. Densities in g/mL at 20 degC: water 0.998; sugars 1.58 as crystals to 1.61
dissolved, glycerol 1.26, ethanol 0.79 alone and 0.86 in water (CRC Handbook), other polyols up to 1.50 (from memory);
fat 0.90 fluid to 0.975 set (Beckett, 3rd ed. 1999, read in a text that quotes it: cocoa butter 0.88-0.90 and
0.96-0.99); all else 1.35 to 1.55 (from memory). The spread of fat and of the rest is the error. Air is not reckoned
with: a filling that was beaten is lighter than this says.
"""

from dataclasses import dataclass

from pastrylab.ground.units import In, Quantity, StudentError, in_digits, takes
from pastrylab.trade.composition import Composition
from pastrylab.trade.formula import Formula
from pastrylab.trade.moulds.cavities import SCALE, WATER

# (lightest, densest) g/mL; longer chains count with the sugars.
_DENSITIES = {
    "water": (0.998, 0.998),
    "fat": (0.90, 0.975),
    "sugars": (1.58, 1.61),
    "polyols": (1.26, 1.50),
    "alcohol": (0.789, 0.86),
}
_OTHER = (1.35, 1.55)
_SUGARS = ("sucrose", "glucose", "fructose", "lactose", "maltose", "higher_saccharides")
_MASS = In("g", at_least=0, example="61 g")


@dataclass(frozen=True)
class Density:
    """Grams to the millilitre as plain floats: `value`, and from `low` to `high`; `quantity` as a quantity.

    >>> print(Density(1.15, 1.12, 1.19))
    1.15 g/mL, 1.12 to 1.19 g/mL
    """

    value: float
    low: float
    high: float

    @property
    def quantity(self):
        return Quantity(self.value, "g/mL")

    def __str__(self):
        return f"{self.value:.2f} g/mL, {self.low:.2f} to {self.high:.2f} g/mL"


def density_of(filling):
    """The density of a filling from what is in it: a Density. filling: a Formula or its composition.

    Raises StudentError for anything else.

    >>> from pastrylab import Formula
    >>> print(density_of(Formula({"dark couverture 64 %": "300 g", "heavy cream": "200 g"})))
    1.12 g/mL, 1.09 to 1.15 g/mL
    """
    made = filling.composition() if isinstance(filling, Formula) else filling
    if not isinstance(made, Composition):
        raise StudentError(
            "no formula", "a formula of ingredients and masses", "300 g of couverture and 200 g of cream"
        )
    low, high = (_mixed(made, end) for end in (0, 1))
    return Density(2 / (1 / low + 1 / high), low, high)


def _mixed(made, end):
    """Density where every part is at its lightest (end 0) or densest (1)."""
    grams = {name: made.grams[name] for name in ("water", "fat", "polyols", "alcohol")}
    grams["sugars"] = sum(made.grams[name] for name in _SUGARS)
    total = sum(made.grams[name] for name in made)
    room = sum(mass / _DENSITIES[name][end] for name, mass in grams.items())
    return total / (room + (total - sum(grams.values())) / _OTHER[end])


@takes(empty=_MASS, full=In("g", above=0, example="176 g"), water=In("g", above=0, example="161 g"), scale=SCALE)
def density_by_cup(empty, full, water, scale="1 g"):
    """The density of a filling as it is, air and all: a small cup weighed empty, `full` of filling, full of `water`.

    Both times level with the rim. Returns a Density, with the error of all three weighings against each other. Raises
    StudentError where a full cup is no heavier than the empty one can be read.

    >>> print(density_by_cup("61 g", "176 g", "161 g"))
    1.15 g/mL, 1.11 to 1.19 g/mL
    """
    if min(full, water) - empty <= 2 * scale:
        raise StudentError(
            f"{in_digits(full, 5)} g of filling and {in_digits(water, 5)} g of water in a cup "
            f"that weighs {in_digits(empty, 5)} g",
            "cups that are clearly heavier full than empty",
            "61 g empty, 176 g with filling, 161 g with water",
        )
    low = (full - empty - 2 * scale) / (water - empty + 2 * scale) * WATER
    high = (full - empty + 2 * scale) / (water - empty - 2 * scale) * WATER
    return Density((full - empty) / (water - empty) * WATER, low, high)
