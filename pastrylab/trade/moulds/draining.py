"""How thick a wall chocolate leaves when a mould is tipped: two ways to see it, an illustration and never a verdict.

A yield stress holds up a film of stress / (density x g x sine of the slope); what lies over it runs off. Setting while
it drains leaves a film that goes with sqrt(viscosity x radius / (density x g x setting time)): Lee et al. 2016, Nature
Communications; read in words, the number in front of the root left at 1. Stresses measured by 23 laboratories on one
chocolate lay sevenfold apart (Casson yield; Aeschlimann & Beckett 2000, J. Texture Studies), viscosities twofold.
"""

import math
from dataclasses import dataclass

from pastrylab.ground.units import In, Number, Quantity, takes

GRAVITY = 9.80665  # m/s2, standard
SPREAD = 7.0
EXAMPLES = {  # kind: (yield stress Pa, viscosity Pa s), Casson: a rheometer maker's published fits
    "milk": (14.28, 1.863),
    "dark": (29.02, 6.056),
}
_IN_WORDS = (
    "Tapping and shaking break the stand of the chocolate for a moment: more runs out, and the wall is thinner. A warmer "
    "bowl runs thinner, up to where its crystals melt; a bowl that stood and grew crystals leaves a thicker wall. Scrape "
    "the rim while it is soft, and weigh the shells: the weighing says what the sum cannot."
)

_DENSITY = In("g/mL", at_least=0.9, at_most=1.6, example="1.22 g/mL")
_VISCOSITY = Number(above=0, at_most=100, example="2")
_STRESS = Number(at_least=0, at_most=500, example="14")


@dataclass(frozen=True)
class Film:
    """A wall in mm as plain floats: `mm`, and from `low` to `high`, as wide as laboratories differ on one chocolate.

    >>> print(str(film_by_yield(14.28, "1.2 g/mL")).partition(". ")[0])
    1.2 mm, anywhere from 0.5 to 3.2 mm: an illustration
    """

    mm: float
    low: float
    high: float

    @property
    def thickness(self):
        return Quantity(self.mm, "mm")

    def __str__(self):
        return f"{self.mm:.1f} mm, anywhere from {self.low:.1f} to {self.high:.1f} mm: an illustration. {_IN_WORDS}"


@takes(stress=_STRESS, density=_DENSITY, slope=Number(above=0, at_most=90, example="60"))
def film_by_yield(stress, density="1.22 g/mL", slope=90):
    """The film a yield stress holds up on a wall: a Film, its band sevenfold.

    stress: yield stress in Pa; slope: of the wall against the level in degrees, 90 upright; plain numbers. Raises
    StudentError for no such stress, density or slope.

    >>> round(film_by_yield(14.28, "1.2 g/mL").mm, 3)
    1.213
    """
    mm = stress / (density * GRAVITY * math.sin(math.radians(slope)))
    return Film(mm, mm / math.sqrt(SPREAD), mm * math.sqrt(SPREAD))


@takes(
    viscosity=_VISCOSITY,
    radius=In("mm", above=0, at_most=300, example="15 mm"),
    setting=In("min", above=0, at_most=1440, example="10 min"),
    density=_DENSITY,
)
def film_by_setting(viscosity, radius, setting, density="1.22 g/mL"):
    """The film that is left when chocolate sets while it drains from a round mould: a Film.

    viscosity: in Pa s, a plain number. A scaling, not a figure: four times the setting time halves it. Its band is
    sevenfold, as for the yield stress; nobody tested it on chocolate moulds here. Raises StudentError for no such
    viscosity, radius or time.

    >>> round(film_by_setting(2, "15 mm", "10 min").mm, 3)
    0.065
    """
    mm = 1000 * math.sqrt(viscosity * radius / 1000 / (1000 * density * GRAVITY * 60 * setting))
    return Film(mm, mm / math.sqrt(SPREAD), mm * math.sqrt(SPREAD))


@takes(rate=Number(at_least=0, at_most=1000, example="5"), stress=_STRESS, viscosity=_VISCOSITY)
def casson_stress(rate, stress, viscosity):
    """The stress in Pa that shearing chocolate at a `rate` takes: sqrt(tau) = sqrt(yield stress) + sqrt(viscosity x rate).

    rate in 1/s, stress in Pa, viscosity in Pa s: plain numbers, as is the result. Casson's equation; said to hold from 5 to
    60 1/s (De Graef et al. 2011, Food Res. Int. 44:2660). Raises StudentError for a number below zero or out of reach.

    >>> f"{casson_stress(5, *EXAMPLES['milk']):.2f} Pa"
    '46.66 Pa'
    """
    return (math.sqrt(stress) + math.sqrt(viscosity * rate)) ** 2
