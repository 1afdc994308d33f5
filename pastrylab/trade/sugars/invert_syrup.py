"""A home-made invert syrup: its class, the soda that stops the acid, and the plan of it."""

from dataclasses import dataclass

import numpy as np

from pastrylab.ground.constants import CITRIC_ACID_MOLAR_MASS
from pastrylab.ground.roots import plain
from pastrylab.ground.units import In, Number, Quantity, Reading, Share, StudentError, show, takes
from pastrylab.trade.sugars.inversion import PH, RATE_ERROR, TIME, UPTAKE, inversion_rate, inverted_share

HOT_CAUTION = (
    "Boiling syrup burns deeply and sticks: use long sleeves and gloves, keep cold water beside you, never "
    "leave the pan, and follow the rules of your kitchen."
)
FOAM_CAUTION = (
    "Soda in hot, acid syrup foams up at once: take the pan off the heat, let it fall below 80 °C, use a "
    "pan three times as tall as the syrup, and add the soda in pinches."
)
EU_SOLIDS_MIN = 0.62


@takes(
    dry_matter=Share(example="0.70"),
    invert_of_dry_matter=Share(example="0.60"),
    fructose_to_glucose=Number(above=0, at_most=10, example="1.0"),
)
def invert_class(dry_matter, invert_of_dry_matter, fructose_to_glucose=1.0):
    """The class of an invert syrup in Directive 2001/111/EC: "invert sugar syrup", "invert sugar solution" or
    "neither".

    dry_matter: share of mass, at least 0.62. invert_of_dry_matter: above 0.50 a syrup, 0.03-0.50 a solution.
    fructose_to_glucose: 1.0 within 0.1. Returns text. Raises StudentError.

    >>> invert_class(0.70, 0.60)
    'invert sugar syrup'
    """
    if dry_matter < EU_SOLIDS_MIN or abs(fructose_to_glucose - 1.0) > 0.1 + 1e-9 or invert_of_dry_matter < 0.03:
        return "neither"
    return "invert sugar syrup" if invert_of_dry_matter > 0.50 else "invert sugar solution"


# Citric acid: pKa of Bates & Pinching 1949, JACS 71:1274 (read in a table that quotes them); molar mass of sodium
# hydrogen carbonate in g/mol.
_CITRIC_PKA, _SODA = (3.13, 4.76, 6.40), 84.0066
_ACID_PER_SUGAR = 0.001  # common practice: about 1 g of citric acid per kg of sugar


@takes(returns="g", acid=In("g", above=0, example="1 g"), ph=Number(at_least=4, at_most=7, example="5.5"))
def soda_for(acid, ph=5.5):
    """Baking soda (sodium hydrogen carbonate) that brings citric acid to a pH, in g, if nothing else buffers.

    acid: mass of anhydrous citric acid. ph: aimed at, 4-7. From the dissociation constants 3.13, 4.76, 6.40
    (Bates & Pinching 1949): a start, the strip decides. Raises StudentError.

    >>> f"{soda_for('1 g').m_as('g'):.2f}"
    '0.86'
    """
    h = 10.0 ** -np.asarray(ph, dtype=float)
    k1, k2, k3 = (10.0**-p for p in _CITRIC_PKA)
    first, second, third = h**2 * k1, h * k1 * k2, k1 * k2 * k3
    charge = (first + 2 * second + 3 * third) / (h**3 + first + second + third)
    return plain(acid * charge * _SODA / CITRIC_ACID_MOLAR_MASS)


@dataclass(frozen=True)
class InvertPlan:
    """A home-made invert syrup. Masses are quantities in g: sucrose, water (at the start), acid, soda,
    taken_up (by the reaction), to_evaporate (below zero: water to add at the end), syrup (what the pan weighs
    at the end, without the pan). share with its low..high; composition {component: share of the finished
    syrup}; eu_class; steps; cautions.

    >>> plan = invert_plan("1 kg", share=0.95)
    >>> print(plan.steps[0])
    Dissolve 714 g of sugar in 306 g of water and about 0.714 g of citric acid; measure the pH with a strip.
    """

    sucrose: Quantity
    water: Quantity
    acid: Quantity
    soda: Quantity
    taken_up: Quantity
    to_evaporate: Quantity
    syrup: Quantity
    share: float
    low: float
    high: float
    composition: dict
    eu_class: str
    steps: tuple[str, ...]
    cautions: tuple[str, ...]

    def __str__(self):
        return "\n".join([*self.steps, *self.cautions])


@takes(
    syrup=In("g", above=0, example="1 kg"),
    solids_share=Share(at_least=0.5, at_most=0.85, example="0.75"),
    ph=PH,
    temperature=Reading(at_least=40, at_most=120, example="100 degC"),
    time=TIME,
    share=Share(above=0, example="0.95"),
    cooking_solids=Share(at_least=0.3, at_most=0.85, example="0.70"),
)
def invert_plan(syrup, solids_share=0.75, ph=None, temperature=None, time=None, share=None, cooking_solids=0.70):
    """Plan a home-made invert syrup: sucrose, water, acid, heating, neutralising, and the solids at the end.

    syrup: mass wanted. solids_share: sugars in the finished syrup, 0.5-0.85. Either ph (measured in the pan),
    temperature and time of the heating, from which the inverted share follows within 25 % of its rate, or
    share as a given. cooking_solids: solids while it is heated, 0.3-0.85. Acid and soda are left out of the
    balance (about 0.1 %). Returns InvertPlan. Sources: stoichiometry; Vukov 1965 for the rate; acid 1 g per
    kg of sugar: common practice. Raises StudentError.

    >>> plan = invert_plan("1 kg", ph=3.0, temperature="100 degC", time="60 min")
    >>> f"{plan.low:.2f} to {plan.high:.2f}, {plan.eu_class}"
    '0.61 to 0.79, invert sugar syrup'
    """
    low, middle, high = _share_inverted(ph, temperature, time, share, cooking_solids)
    sugars = syrup * solids_share
    sucrose = sugars / (1.0 + UPTAKE * middle)
    start = sucrose * (1.0 - cooking_solids) / cooking_solids
    taken = UPTAKE * middle * sucrose
    end = syrup - sugars
    composition = _composition(sucrose, middle, taken, end, syrup)
    acid = _ACID_PER_SUGAR * sucrose
    masses = (sucrose, start, acid, soda_for.floats(acid), taken, start - taken - end, syrup)
    grams = [Quantity(float(mass), "g") for mass in masses]
    eu = invert_class.floats(solids_share, 2 * composition["glucose"] / solids_share)
    steps = _steps(grams, (ph, temperature, time), solids_share)
    return InvertPlan(*grams, middle, low, high, composition, eu, steps, (HOT_CAUTION, FOAM_CAUTION))


def _composition(sucrose, inverted, taken_up, water, syrup):
    """{component: share} of a finished syrup."""
    hexose = 0.5 * (sucrose * inverted + taken_up) / syrup
    left = sucrose * (1.0 - inverted) / syrup
    return {"water": water / syrup, "sucrose": left, "glucose": hexose, "fructose": hexose}


def _share_inverted(ph, temperature, time, share, cooking_solids):
    """(low, middle, high) of the share inverted: as given, or by the heating within the error of its rate."""
    heating = (ph, temperature, time)
    if share is None and any(x is None for x in heating) or share is not None and any(x is not None for x in heating):
        raise StudentError(
            "part of the heating, or the heating and a share",
            "either ph, temperature and time, or share",
            "60 min at 100 °C and pH 3.0",
        )
    if share is not None:
        return share, share, share
    rate = inversion_rate.floats(ph, temperature, cooking_solids)
    return tuple(float(inverted_share.floats(f * rate, time)) for f in (1 - RATE_ERROR, 1.0, 1 + RATE_ERROR))


def _steps(grams, heating, solids_share):
    sucrose, water, acid, soda, _, off, syrup = (show(g, 3) for g in grams)
    ph, temperature, time = heating
    held = "Hold it hot" if ph is None else f"Hold it at {temperature:.0f} °C for {time:.0f} min, lid on, pH {ph:.1f}"
    last = f"Boil off {off}" if grams[5].m > 0 else f"Add {show(-grams[5], 3)} of boiled water"
    return (
        f"Dissolve {sucrose} of sugar in {water} of water and about {acid} of citric acid; measure the pH "
        "with a strip.",
        f"{held}; the share inverted follows from pH, temperature and time.",
        f"Off the heat, below 80 °C, add soda in pinches, about {soda} in all, until the strip reads 5 to 6.",
        f"{last}: the syrup weighs {syrup} without the pan, at {100 * solids_share:.0f} % solids.",
    )
