"""Water activity of syrups and fillings: the Norrish model, an estimate with its error, salts to check a meter."""

from dataclasses import replace

import numpy as np

from pastrylab.ground.careful import written_up
from pastrylab.ground.constants import ZERO_CELSIUS
from pastrylab.ground.roots import plain
from pastrylab.ground.units import In, Number, Quantity, Reading, Share, StudentError, takes
from pastrylab.trade.dissolved import LEFT_OUT, solutes_from
from pastrylab.trade.keeping.estimates import Estimate
from pastrylab.trade.solutes import Solute, as_pairs, mole_fractions

_WATER = In("g", above=0, example="40 g")
_MASS = In("g", at_least=0, example="60 g")


def norrish(water, solutes):
    """Water activity at 25 degC of water with dissolved solutes: aw = x_w exp(-(sum sqrt(K_i) x_i)^2).

    water: mass above 0. solutes: {name: mass}, or (name, mass) pairs; names as in SOLUTES, "glucose syrup DE 42" for
    its dry solids, or a Solute of your own. Only what is dissolved counts. Returns a plain float (an array for arrays
    of masses). norrish.floats takes plain grams and arrays. Raises StudentError without water or for unknown names.
    Source: Norrish 1966, Journal of Food Technology 1:25, natural exponential, constants in SOLUTES. It knows no
    saturation (estimate does), and beyond it runs low, which is the unsafe side: sucrose by 0.005 at 75 % solids, 0.013
    at 80, 0.03 at 85, 0.07 at 90 and 0.13 at 95 (against Starzak & Peacock 1997), glycerol by 0.03 at 70 % and 0.05 at
    80: not for more than 80 % sucrose or 60 % glycerol.

    >>> f"{norrish('40 g', {'sucrose': '60 g'}):.3f}"
    '0.895'
    """
    room = [(solute, _MASS.floats(solute.name, mass, arrays=True)) for solute, mass in as_pairs(solutes)]
    return _norrish(_WATER.floats("water", water, arrays=True), room)


def _norrish(water, solutes):
    """Plain grams in."""
    if np.any(np.asarray(water) <= 0):
        raise StudentError("a mix without water", "some water: without it the model says nothing", "40 g of water")
    in_water, root_k = mole_fractions(water, as_pairs(solutes))
    return plain(in_water * np.exp(-(root_k**2)))


norrish.floats = _norrish


_BINDING = LEFT_OUT - {"ash", "acids"}  # where these are much, it is a filling and no clear syrup

_LEAST_WATER = 0.03  # of the whole: chocolate or dry sugar alone hold too little for a solution to set the value
# Stated errors by lowest water activity: clear syrup, and a filling with fat, cocoa or protein. Sereno et al.
# 2001 (mean deviation below 2 % in solutions); for fillings our own judgement.
_ERRORS = ((0.8, 0.01, 0.03), (0.7, 0.02, 0.04), (0.6, 0.03, 0.04), (0.5, 0.04, 0.05))
_ETHANOL = Solute("ethanol", 46.0684, 0.0, 0.0, 0.0, "taken as ideal, a formal low end: no constant found, volatile")


def estimate(composition, dissolved_share=1.0, chocolate_sucrose=None, polyol=None):
    """An estimate of a filling's water activity at 25 degC from its composition, with its stated error.

    composition, dissolved_share, chocolate_sucrose, polyol: as dissolved.solutes_from. Returns Estimate: value, low,
    high (the stated error, or the spread of the constants K where that is wider), sentence, notes, caution. The high
    end, which every verdict takes, is never lower than that of the filling once all that can crystallise at 20 degC has
    done so. Alcohol is not counted in the value, since it evaporates; the low end counts it. Raises StudentError where
    the result would fall under 0.5 or water is less than 3 % of the whole (outside the model), and without the split of
    the sugars.

    >>> print(estimate({"water": "100 g", "sucrose": "100 g", "glucose": "60 g", "fat": "120 g"}).sentence)
    Estimated water activity 0.87, between 0.84 and 0.90 (a sum for a filling that is more than sugars and water, 25
    °C).
    """
    parts = solutes_from(composition, dissolved_share, chocolate_sucrose, polyol)
    value = _inside_the_model(parts)
    filling = sum(m for key, m in parts.left_out_g.items() if key in _BINDING) > 0.05 * parts.water_g
    low, high = _ends(parts, value, filling)
    notes = list(parts.notes)
    if parts.alcohol_g > 0:
        notes.append("Alcohol is volatile: it is left out of the value, and what it does fades as it evaporates.")
    kind = "a filling that is more than sugars and water" if filling else "a clear syrup"
    shown, bottom, top = (written_up(max(0.0, end)) for end in (value, low, high))
    sentence = f"Estimated water activity {shown}, between {bottom} and {top} (a sum for {kind}, 25 °C)."
    return Estimate(value, max(low, 0.0), high, sentence, tuple(notes))


def _inside_the_model(parts):
    """The water activity of what is dissolved. Raises StudentError where the mix is too dry for the model."""
    groups = (parts.solutes_g, parts.undissolved_g, parts.left_out_g)
    whole = parts.water_g + parts.alcohol_g + sum(sum(group.values()) for group in groups)
    if parts.water_g < _LEAST_WATER * whole:
        raise StudentError(
            f"a mix with {parts.water_g / whole:.1%} of water",
            f"a filling with at least {_LEAST_WATER:.0%}: a drier one is outside the model",
            "200 g of water and 180 g of sucrose",
        )
    value = _norrish(parts.water_g, as_pairs(parts.solutes_g))
    if value < _ERRORS[-1][0]:
        raise StudentError(
            f"a mix whose computed water activity is {value:.2f}",
            "a filling with more water: below 0.5 this is outside the model",
            "200 g of water and 180 g of sucrose",
        )
    return value


def _ends(parts, value, filling):
    """(low, high): the stated error, or the spread of the constants K where that is wider; see estimate."""
    pairs, error = as_pairs(parts.solutes_g), _error(value, filling)
    least = [(replace(solute, k=solute.k_low), m) for solute, m in pairs]
    most = [(replace(solute, k=solute.k_high), m) for solute, m in pairs]
    at_rest = _norrish(parts.settled_water_g, as_pairs(parts.settled_g))
    low = min(value - error, _norrish(parts.water_g, most))
    if parts.alcohol_g > 0:
        low = min(low, _norrish(parts.water_g, [*pairs, (_ETHANOL, parts.alcohol_g)]) - error)
    highest = max(value + error, _norrish(parts.water_g, least), at_rest + _error(at_rest, filling))
    return low, min(1.0, highest)


def _error(value, filling):
    return next((dim if filling else clear for least, clear, dim in _ERRORS if value >= least), _ERRORS[-1][2])


@takes(weight=In("g", above=0, example="600 g"))
def boiled_down(formula, weight):
    """What a formula holds once it is boiled down to a weight: only water leaves.

    formula: a Formula. weight: mass in the pan afterwards. Returns {component: mass}, as estimate takes it. Raises
    StudentError for a weight above what went in or not above the dry matter.

    >>> from pastrylab.trade.formula import Formula
    >>> f"{boiled_down(Formula({'honey': '100 g', 'water': '100 g'}), '150 g')['water'].m_as('g'):.0f}"
    '67'
    """
    grams = dict(formula.composition().grams)
    lost = formula.total_grams - weight
    if lost < 0:
        raise StudentError(
            f"a pan that weighs {weight:.0f} g after boiling",
            f"at most the {formula.total_grams:.0f} g that went in",
            f"{0.8 * formula.total_grams:.0f} g",
        )
    if lost >= grams["water"]:
        raise StudentError(
            f"a pan boiled down to {weight:.0f} g",
            f"more than its {formula.total_grams - grams['water']:.0f} g of dry matter",
            f"{formula.total_grams - 0.8 * grams['water']:.0f} g",
        )
    grams["water"] -= lost
    return {name: Quantity(float(mass), "g") for name, mass in grams.items()}


@takes(water_share=Share(above=0, below=1, example="17 %"))
def at_moisture(formula, water_share):
    """What 100 g of a formula hold at another share of water, its dry matter in the proportions it had.

    formula: a Formula. water_share: water of the whole, between 0 and 1. Returns {component: mass}, as estimate takes
    it; plain mass balance. Raises StudentError for a formula without dry matter.

    >>> from pastrylab.trade.formula import Formula
    >>> drier = at_moisture(Formula({"honey": "100 g"}), "16 %")
    >>> f"{drier['water'].m_as('g'):.1f} g, {drier['fructose'].m_as('g'):.1f} g"
    '16.0 g, 41.5 g'
    """
    grams = dict(formula.composition().grams)
    dry = formula.total_grams - grams.pop("water")
    if not dry > 0:
        raise StudentError("a formula without dry matter", "something beside water in it", "100 g of honey")
    factor = 100.0 * (1.0 - water_share) / dry
    made = {"water": 100.0 * water_share, **{name: mass * factor for name, mass in grams.items()}}
    return {name: Quantity(float(mass), "g") for name, mass in made.items()}


# Relative humidity over a saturated salt slurry, percent = A exp(B / T): CRC Handbook of Chemistry and
# Physics, "Constant humidity solutions"; within 0.0025 of Greenspan 1977, Journal of Research of the NBS 81A:89, at 20
# and 25 degC (farthest off: magnesium chloride at 20 degC, 0.0021), and within his uncertainty.
_SALTS = {
    "lithium chloride": (14.53, -75.0),
    "magnesium chloride": (29.26, 34.0),
    "sodium chloride": (69.20, 25.0),
    "potassium sulfate": (86.75, 34.0),
}
_SALT_NAMES = {
    "licl": "lithium chloride",
    "mgcl2": "magnesium chloride",
    "nacl": "sodium chloride",
    "salt": "sodium chloride",
    "table salt": "sodium chloride",
    "k2so4": "potassium sulfate",
}
_SHOWN = Number(above=0, at_most=1, example="0.757")


@takes(temperature=Reading(at_least=15, at_most=30, example="25 degC"))
def salt_standard(salt, temperature):
    """Water activity over a wet slurry of a salt, to check a meter.

    salt: "sodium chloride" (NaCl, table salt), "lithium chloride", "magnesium chloride" or "potassium
    sulfate". temperature: reading, 15-30 degC. Returns a plain float. Source: CRC Handbook, "Constant
    humidity solutions". Raises StudentError.

    >>> f"{salt_standard('table salt', '25 degC'):.3f}"
    '0.753'
    """
    key = str(salt).strip().casefold()
    key = _SALT_NAMES.get(key, key)
    if key not in _SALTS:
        raise StudentError(f"a salt called '{salt}'", "one of " + ", ".join(_SALTS), "sodium chloride")
    a, b = _SALTS[key]
    return plain(a * np.exp(b / (temperature + ZERO_CELSIUS)) / 100.0)


def meter_offset(shown, salt, temperature):
    """By how much a meter reads too high (positive) or too low over a salt slurry: a plain float.

    shown: the reading, a plain number. salt, temperature: as salt_standard. Raises StudentError.

    >>> f"{meter_offset(0.765, 'sodium chloride', '25 degC'):+.3f}"
    '+0.012'
    """
    return _SHOWN.floats("shown", shown) - salt_standard(salt, temperature)
