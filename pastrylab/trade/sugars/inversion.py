"""Inversion of sucrose: stoichiometry, rate, polarimetry, and the plan of a home-made invert syrup."""

from dataclasses import dataclass

import numpy as np

from pastrylab.ground.constants import CITRIC_ACID_MOLAR_MASS, WATER_MOLAR_MASS, ZERO_CELSIUS
from pastrylab.ground.roots import plain
from pastrylab.ground.units import In, Number, Quantity, Reading, Share, StudentError, show, takes
from pastrylab.trade.solutes import SOLUTES
from pastrylab.trade.sugars.density import water_per_ml

# C12H22O11 + H2O -> 2 C6H12O6: water taken up per gram of sucrose.
UPTAKE = WATER_MOLAR_MASS / SOLUTES["sucrose"].molar_mass

# Vukov 1965, International Sugar Journal 67:172, from memory: log10 k[1/min] = 16.91 + log10(water, g/mL) -
# 5670/T - pH. 0.99 of Guggenheim & Wiseman 1950 in 0.1 M acid, 0.82 of a textbook value for neutral water:
# about 25 %.
_VUKOV = (16.91, 5670.0)
RATE_ERROR = 0.25

_SUCROSE = In("g", above=0, example="500 g")
_INVERTED = Share(example='0.95 or "95 %"')
_PH = Number(at_least=1, at_most=8, example="3.2")
_HEAT = Reading(at_least=0, at_most=125, example="100 degC")
_SYRUP = Share(at_most=0.92, example='0.75 or "75 %"')
_TIME = In("min", above=0, example="30 min")

HOT_CAUTION = (
    "Boiling syrup burns deeply and sticks: use long sleeves and gloves, keep cold water beside you, never "
    "leave the pan, and follow the rules of your kitchen."
)
FOAM_CAUTION = (
    "Soda in hot, acid syrup foams up at once: take the pan off the heat, let it fall below 80 °C, use a "
    "pan three times as tall as the syrup, and add the soda in pinches."
)


@takes(returns="g", sucrose=_SUCROSE, share=_INVERTED)
def invert_yield(sucrose, share=1.0):
    """Mass of total sugars from sucrose of which a share is inverted: sucrose x (1 + 0.05263 share), in g.

    sucrose: mass. share: inverted, 0 to 1. Each gram inverted takes up 0.0526 g of water. Source: molar
    masses 342.30, 18.015 and 180.16 g/mol. Raises StudentError.
    """
    return sucrose * (1.0 + UPTAKE * share)


@takes(returns="g", sucrose=_SUCROSE, share=_INVERTED)
def water_taken_up(sucrose, share=1.0):
    """Water that inversion takes from the syrup, in g: 5.26 g per 100 g of sucrose inverted. Arguments as
    invert_yield.
    """
    return sucrose * UPTAKE * share


@takes(returns="1/min", ph=_PH, temperature=_HEAT, solids_share=_SYRUP)
def inversion_rate(ph, temperature, solids_share=0.0):
    """First-order rate constant of acid inversion, per minute.

    ph: measured, 1-8. temperature: reading, 0-125 degC. solids_share: solids of that syrup by mass, 0-0.92 (a
    thick syrup holds less water and inverts two to five times slower). Source: Vukov 1965 with the water of
    the syrup in g/mL; good to about 25 % (0.1 of pH is 26 %). Raises StudentError outside the ranges.
    """
    constant, slope = _VUKOV
    water = water_per_ml(solids_share)
    return plain(10.0 ** (constant + np.log10(water) - slope / (np.asarray(temperature) + ZERO_CELSIUS) - ph))


@takes(rate=In("1/min", above=0, example="0.02 1/min"), time=_TIME)
def inverted_share(rate, time):
    """Share of the sucrose inverted after a time at a constant rate: 1 - exp(-k t), a plain float.

    rate: per minute, from inversion_rate. time: above zero. Raises StudentError.
    """
    return plain(-np.expm1(-np.asarray(rate) * time))


@takes(returns="min", share=Share(below=1, example="0.9"), rate=In("1/min", above=0, example="0.02 1/min"))
def time_to_invert(share, rate):
    """Time after which a share (below 1) is inverted at a constant rate, in minutes: the inverse of
    inverted_share.
    """
    return plain(-np.log1p(-np.asarray(share, dtype=float)) / rate)


_STEPS = 20  # pieces between two readings: the rate grows 10 % a degree, so chords would read high


def _along(times, temperatures, ph, solids_share):
    moments, readings = np.asarray(times, dtype=float), np.asarray(temperatures, dtype=float)
    if moments.ndim != 1 or moments.shape != readings.shape or moments.size < 2 or np.any(np.diff(moments) <= 0):
        raise StudentError(
            f"{moments.size} times and {readings.size} temperatures",
            "as many temperatures as times, at least two, the times rising",
            'times=Q([0, 10, 30], "min"), temperatures=Q([60, 100, 100], "degC")',
        )
    fine = np.linspace(0.0, moments.size - 1.0, (moments.size - 1) * _STEPS + 1)
    index = np.arange(moments.size)
    t, heat = np.interp(fine, index, moments), np.interp(fine, index, readings)
    solids = np.interp(fine, index, np.broadcast_to(np.asarray(solids_share, dtype=float), moments.shape))
    rate = inversion_rate.floats(ph, heat, solids)
    gained = np.concatenate([[0.0], np.cumsum(np.diff(t) * 0.5 * (rate[1:] + rate[:-1]))])
    return -np.expm1(-gained[::_STEPS])


@takes(times=In("min", at_least=0, example="30 min"), temperatures=_HEAT, ph=_PH, solids_share=_SYRUP)
def inverted_along(times, temperatures, ph, solids_share=0.0):
    """Share of the sucrose inverted along a record of times and temperatures: a plain array, one share a
    reading.

    times: array, rising. temperatures: array of readings, 0-125 degC, taken as straight lines between. ph:
    measured. solids_share: one share, or an array (a syrup that boils down). Model as inversion_rate. Raises
    StudentError.
    """
    return _along(times, temperatures, ph, solids_share)


# --- polarimetry --------------------------------------------------------------------------------------

# Specific rotations at 20 degC, sodium D line, at equilibrium, deg mL/(g dm): common handbook values. Invert
# sugar: half the SUM of glucose and fructose (Zerban 1925, Journal of the American Chemical Society 47:1104).
SPECIFIC_ROTATION = {"sucrose": 66.5, "glucose": 52.2, "fructose": -92.0, "maltose": 136.0, "lactose": 55.3}
SPECIFIC_ROTATION["invert sugar"] = 0.5 * (SPECIFIC_ROTATION["glucose"] + SPECIFIC_ROTATION["fructose"])
# Rotation when all is inverted over rotation at the start: -0.315 (range -0.314 to -0.318 by concentration).
END_ROTATION = SPECIFIC_ROTATION["invert sugar"] * (1.0 + UPTAKE) / SPECIFIC_ROTATION["sucrose"]
_END_SLACK = 0.02  # of the reading before: what the concentration and 2 degC move the end point


def specific_rotation(sugar):
    """Specific rotation at 20 degC, sodium D line, in deg mL/(g dm), a plain float: -19.9 for invert sugar
    (not -39.8).

    sugar: sucrose, glucose, fructose, maltose, lactose or invert sugar. Source: handbook values; half-sum
    rule of Zerban 1925. Raises StudentError.
    """
    key = str(sugar).strip().casefold()
    if key not in SPECIFIC_ROTATION:
        raise StudentError(f"a sugar called '{sugar}'", "one of " + ", ".join(SPECIFIC_ROTATION), "sucrose")
    return SPECIFIC_ROTATION[key]


@takes(before=Number(above=0, at_most=180, example="20.0"), now=Number(at_least=-60, at_most=180, example="8.0"))
def inversion_from_rotation(before, now):
    """Share of the sucrose inverted, from polarimeter readings in degrees: (a0 - at) / (a0 - ainf), a plain
    float.

    before: pure sucrose, above 0. now: the same syrup later, same dilution, tube and 20 degC. ainf = -0.315
    a0. The degrees are plain numbers. Good to 0.005 at 20 degC; fructose loses 0.6 degrees per degC. Raises
    StudentError where `now` is not between the reading before and that of full inversion.
    """
    least, most = END_ROTATION - _END_SLACK, 1.0 + _END_SLACK
    if np.any(now < least * before) or np.any(now > most * before):
        raise StudentError(
            f"readings of {before:g} before and {now:g} now",
            f"a reading between {END_ROTATION:.3f} and 1 times the first, same tube and dilution: outside the model",
            "20.0 before, 8.0 now",
        )
    share = np.clip((before - np.asarray(now)) / (before * (1.0 - END_ROTATION)), 0.0, 1.0)
    return plain(share)


@takes(before=Number(above=0, at_most=180, example="20.0"), share=_INVERTED)
def rotation_after(before, share):
    """Polarimeter reading in degrees when a share is inverted, from the reading before: the inverse of
    inversion_from_rotation.
    """
    return before * (1.0 - share * (1.0 - END_ROTATION))


# --- invert syrups ------------------------------------------------------------------------------------

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
    ph=_PH,
    temperature=Reading(at_least=40, at_most=120, example="100 degC"),
    time=_TIME,
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
    """
    heating = (ph, temperature, time)
    if share is None and any(x is None for x in heating) or share is not None and any(x is not None for x in heating):
        raise StudentError(
            "part of the heating, or the heating and a share",
            "either ph, temperature and time, or share",
            "60 min at 100 °C and pH 3.0",
        )
    low = middle = high = share
    if share is None:
        rate = inversion_rate.floats(ph, temperature, cooking_solids)
        low, middle, high = (float(-np.expm1(-f * rate * time)) for f in (1 - RATE_ERROR, 1.0, 1 + RATE_ERROR))
    sugars = syrup * solids_share
    sucrose = sugars / (1.0 + UPTAKE * middle)
    start = sucrose * (1.0 - cooking_solids) / cooking_solids
    taken = UPTAKE * middle * sucrose
    end = syrup - sugars
    off = start - taken - end
    hexose = 0.5 * (sucrose * middle + taken) / syrup
    composition = {
        "water": end / syrup,
        "sucrose": sucrose * (1.0 - middle) / syrup,
        "glucose": hexose,
        "fructose": hexose,
    }
    acid = _ACID_PER_SUGAR * sucrose
    soda = soda_for.floats(acid)
    grams = [Quantity(float(x), "g") for x in (sucrose, start, acid, soda, taken, off, syrup)]
    eu = invert_class.floats(solids_share, 2 * hexose / solids_share)
    return InvertPlan(
        *grams,
        middle,
        low,
        high,
        composition,
        eu,
        _steps(grams, heating, solids_share),
        (HOT_CAUTION, FOAM_CAUTION),
    )


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
