"""Water activity of syrups and fillings: the Norrish model, an estimate with its error, salts to check a
meter.

What a water activity means for keeping lives in keeping.py and is reachable from here.
"""

from dataclasses import dataclass

import numpy as np

from pastrylab.ground.careful import written_up
from pastrylab.ground.constants import ZERO_CELSIUS
from pastrylab.ground.roots import plain
from pastrylab.ground.units import In, Number, Quantity, Reading, Share, StudentError, takes
from pastrylab.trade.keeping import (  # noqa: F401  (part of this module's face)
    CAUTION,
    GROWTH_LIMITS,
    Estimate,
    against_meter,
    food_code,
    growth,
    highest_reading,
    low_acid,
    mould_free_days,
    spoilage_band,
)
from pastrylab.trade.saturation import HOLDS, settled
from pastrylab.trade.solutes import SOLUTES, Solute, as_pairs, glucose_syrup_solids, mole_fractions  # noqa: F401
from pastrylab.trade.sugars.solubility import sucrose_dissolved

_WATER = In("g", above=0, example="40 g")
_MASS = In("g", at_least=0, example="60 g")


def norrish(water, solutes):
    """Water activity at 25 degC of water with dissolved solutes: aw = x_w exp(-(sum sqrt(K_i) x_i)^2).

    water: mass above 0. solutes: {name: mass}, or (name, mass) pairs; names as in SOLUTES, "glucose syrup DE
    42" for its dry solids, or a Solute of your own. Only what is dissolved counts. Returns a plain float (an
    array for arrays of masses). norrish.floats takes plain grams and arrays. Raises StudentError without
    water or for unknown names. Source: Norrish 1966, Journal of Food Technology 1:25, natural exponential,
    constants in SOLUTES. It knows no saturation (estimate does), and beyond it runs low, which is the unsafe side: sucrose
    by 0.005 at 75 % solids, 0.013 at 80, 0.03 at 85, 0.07 at 90 and 0.13 at 95 (against Starzak & Peacock 1997), glycerol
    by 0.03 at 70 % and 0.05 at 80: not for more than 80 % sucrose or 60 % glycerol.
    """
    room = [(solute, _MASS.floats(solute.name, mass)) for solute, mass in as_pairs(solutes)]
    return _norrish(_WATER.floats("water", water), room)


def _norrish(water, solutes, k_factor=1.0):
    """Plain grams in. k_factor scales every K (298.15 / T carries the model to the boil)."""
    if np.any(np.asarray(water) <= 0):
        raise StudentError("a mix without water", "some water: without it the model says nothing", "40 g of water")
    in_water, root_k = mole_fractions(water, as_pairs(solutes))
    return plain(in_water * np.exp(-k_factor * root_k**2))


norrish.floats = _norrish


# --- from a composition to what is dissolved ----------------------------------------------------------

# Component of a composition -> solute.
_DISSOLVE = {name.replace(" ", "_"): name for name in SOLUTES}
_WHOLES = {"total_sugars", "sugars"}
_PARTS_OF_FAT = {"milk_fat", "cocoa_butter"}
_LEFT_OUT = {"fat", "protein", "starch", "fibre", "cocoa", "ash", "acids", "other"} | _PARTS_OF_FAT
_BINDING = _LEFT_OUT - {"ash", "acids"}
_AT, _STORE = 25.0, 20.0  # degC: of the model, and of a store room, where less stays dissolved


@dataclass(frozen=True)
class Dissolved:
    """What is in the water: water_g, solutes_g {name: grams}; undissolved_g {name: grams} of sugars that stay
    solid; left_out_g {component: grams} that is no solute; alcohol_g; notes for the reader. settled_water_g,
    settled_g: the same water and solutes once all that can crystallise at 20 degC has done so.
    """

    water_g: float
    solutes_g: dict
    undissolved_g: dict
    settled_water_g: float
    settled_g: dict
    left_out_g: dict
    alcohol_g: float
    notes: tuple[str, ...]


def _grams(composition, polyol):
    if hasattr(composition, "grams"):
        composition = {name: Quantity(float(grams), "g") for name, grams in composition.grams.items()}
    room = {}
    for name, mass in composition.items():
        key = str(name).strip().casefold().replace(" ", "_")
        room[key] = room.get(key, 0.0) + float(_MASS.floats(key, mass))
    if polyol is not None and "polyols" in room:
        room[str(polyol).strip().casefold()] = room.pop("polyols")
    for half in ("glucose", "fructose") if "invert_sugar" in room else ():
        room[half] = room.get(half, 0.0) + 0.5 * room["invert_sugar"]
    room.pop("invert_sugar", None)
    unknown = sorted(set(room) - set(_DISSOLVE) - _LEFT_OUT - _WHOLES - {"water", "alcohol", "polyols"})
    if unknown:
        known = ["water", *_DISSOLVE, "polyols", "alcohol", *sorted(_LEFT_OUT)]
        raise StudentError(f"a component called '{unknown[0]}'", "one of " + ", ".join(known), "sucrose")
    return room


def solutes_from(composition, dissolved_share=1.0, chocolate_sucrose=None, polyol=None):
    """What of a composition is dissolved in its water, at 25 degC.

    composition: {component: mass}, or the composition of a Formula, with water, sucrose, glucose, fructose,
    lactose, maltose, galactose, higher_saccharides, polyols, alcohol; other components (fat, protein, starch,
    fibre, ash, acids) are left out. dissolved_share: share of the chocolate's sucrose that goes into
    solution. chocolate_sucrose: mass of the sucrose that came with the chocolate (None: all the sucrose).
    polyol: the name of what stands under "polyols", e.g. "sorbitol". No more counts than dissolves: sucrose
    beside the other sugars, lactose, erythritol, mannitol, xylitol and galactose (which crystallise readily) always;
    glucose, fructose, maltose and sorbitol where they are more than all else that is dissolved, since beside other
    sugars they stay dissolved for weeks. Returns Dissolved (plain grams). Sources: saturation.HOLDS, sucrose_per_water.
    Raises StudentError without water, and where sugars or polyols are given as a total without their split.
    """
    mass = _grams(composition, polyol)
    share = Share().floats("dissolved_share", dissolved_share)
    water = mass.get("water", 0.0)
    if water <= 0:
        raise StudentError(
            "a composition without water",
            "the water of the filling",
            "200 g of water and 180 g of sucrose",
        )
    _check_split(mass)
    solutes = {solute: mass[key] for key, solute in _DISSOLVE.items() if mass.get(key, 0.0) > 0}
    solid = _stays_solid(solutes.get("sucrose", 0.0), share, chocolate_sucrose)
    kept_water, kept = _down_to_saturation(water, solutes, solid, _ready(solutes), _AT)
    settled_water, in_the_end = _down_to_saturation(water, solutes, solid, set(HOLDS) & set(solutes), _STORE, True)
    undissolved = {name: m - kept[name] for name, m in solutes.items() if m - kept[name] > 1e-9}
    notes = [f"{m:.0f} g of {name} stay undissolved and do not count." for name, m in undissolved.items() if m >= 0.5]
    notes += [
        f"{kept[name] - m:.0f} g of {name} may crystallise in time; the high end counts on it."
        for name, m in in_the_end.items()
        if name in HOLDS and name not in undissolved and kept[name] - m >= 0.5
    ]
    doubled = _PARTS_OF_FAT if "fat" in mass else set()
    left = {key: m for key, m in mass.items() if key in _LEFT_OUT - doubled and m > 0}
    alcohol = mass.get("alcohol", 0.0)
    return Dissolved(kept_water, kept, undissolved, settled_water, in_the_end, left, alcohol, tuple(notes))


def _stays_solid(sucrose, share, chocolate_sucrose):
    """Grams of the chocolate's sucrose that do not go into solution."""
    loose = sucrose if chocolate_sucrose is None else _MASS.floats("chocolate_sucrose", chocolate_sucrose)
    if loose > sucrose * (1 + 1e-9) + 1e-9:
        raise StudentError(
            f"{loose:g} g of sucrose from chocolate", f"at most the {sucrose:g} g of sucrose in all", "120 g"
        )
    return (1.0 - share) * loose


def _ready(solutes):
    """Names of what crystallises down to saturation by itself."""
    whole = sum(solutes.values())
    return {name for name, m in solutes.items() if name in HOLDS and (HOLDS[name].ready or m > whole - m)}


def _down_to_saturation(water, solutes, solid, names, at, careful=False):
    """(water, {solute: grams}) once `names`, and sucrose in any case, hold no more than dissolves at a temperature."""
    free, kept = settled(water, solutes, names, at, careful)
    if "sucrose" in kept:
        others = {name: 100.0 * m / free for name, m in kept.items() if name != "sucrose"}
        wet = 100.0 * (solutes["sucrose"] - solid) / free
        kept["sucrose"] = sucrose_dissolved(at, wet, others) * free / 100.0
    return free, kept


def _check_split(mass):
    named = sum(m for key, m in mass.items() if key in _DISSOLVE and key not in _POLYOLS)
    total = max(mass.get("total_sugars", 0.0), mass.get("sugars", 0.0))
    if total > 1.05 * named + 1.0:
        raise StudentError(
            f"{total:g} g of sugars of which {named:g} g are named",
            "each sugar by name: without the split this is outside the model",
            "180 g of sucrose and 20 g of glucose",
        )
    polyols = sum(mass.get(key, 0.0) for key in _POLYOLS)
    if mass.get("polyols", 0.0) > 1.05 * polyols + 0.05:
        raise StudentError(
            f"{mass['polyols']:g} g of polyols without their names",
            "which polyol it is: sorbitol lowers water activity half as much as glycerol",
            "sorbitol",
        )


_POLYOLS = {"glycerol", "erythritol", "xylitol", "sorbitol", "mannitol"}
# Stated errors by lowest water activity: clear syrup, and a filling with fat, cocoa or protein. Sereno et al.
# 2001 (mean deviation below 2 % in solutions); for fillings our own judgement.
_LEAST_WATER = 0.03  # of the whole: chocolate or dry sugar alone hold too little for a solution to set the value
_ERRORS = ((0.8, 0.01, 0.03), (0.7, 0.02, 0.04), (0.6, 0.03, 0.04), (0.5, 0.04, 0.05))


def estimate(composition, dissolved_share=1.0, chocolate_sucrose=None, polyol=None):
    """An estimate of a filling's water activity at 25 degC from its composition, with its stated error.

    Arguments as solutes_from. Returns Estimate: value, low, high (the stated error, or the spread of the
    constants K where that is wider), sentence, notes, caution. The high end, which every verdict takes, is never lower
    than that of the filling once all that can crystallise at 20 degC has done so. Alcohol is not counted in the value,
    since it evaporates; the low end counts it. Raises StudentError where the result would fall under 0.5 or water is
    less than 3 % of the whole (outside the model), and without the split of the sugars.
    """
    parts = solutes_from(composition, dissolved_share, chocolate_sucrose, polyol)
    pairs = as_pairs(parts.solutes_g)
    groups = (parts.solutes_g, parts.undissolved_g, parts.left_out_g)
    whole = parts.water_g + parts.alcohol_g + sum(sum(group.values()) for group in groups)
    if parts.water_g < _LEAST_WATER * whole:
        raise StudentError(
            f"a mix with {parts.water_g / whole:.1%} of water",
            f"a filling with at least {_LEAST_WATER:.0%}: a drier one is outside the model",
            "200 g of water and 180 g of sucrose",
        )
    value = _norrish(parts.water_g, pairs)
    if value < _ERRORS[-1][0]:
        raise StudentError(
            f"a mix whose computed water activity is {value:.2f}",
            "a filling with more water: below 0.5 this is outside the model",
            "200 g of water and 180 g of sucrose",
        )
    filling = sum(m for key, m in parts.left_out_g.items() if key in _BINDING) > 0.05 * parts.water_g
    error, (weak, strong) = _error(value, filling), (_spread(parts.water_g, pairs, k) for k in (_low_k, _high_k))
    at_rest = _norrish(parts.settled_water_g, as_pairs(parts.settled_g))
    low, high = min(value - error, strong), min(1.0, max(value + error, weak, at_rest + _error(at_rest, filling)))
    notes = list(parts.notes)
    if parts.alcohol_g > 0:
        low = min(low, _norrish(parts.water_g, [*pairs, (_ETHANOL, parts.alcohol_g)]) - error)
        notes.append("Alcohol is volatile: it is left out of the value, and what it does fades as it evaporates.")
    kind = "a filling that is more than sugars and water" if filling else "a clear syrup"
    shown, bottom, top = (written_up(max(0.0, end)) for end in (value, low, high))
    sentence = f"Estimated water activity {shown}, between {bottom} and {top} (model for {kind}, 25 °C)."
    return Estimate(value, max(low, 0.0), high, sentence, tuple(notes))


def _error(value, filling):
    return next((dim if filling else clear for least, clear, dim in _ERRORS if value >= least), _ERRORS[-1][2])


def _spread(water, pairs, k):
    return _norrish(water, [(_with_k(solute, k(solute)), m) for solute, m in pairs])


_ETHANOL = Solute("ethanol", 46.0684, 0.0, 0.0, 0.0, "taken as ideal, a formal low end: no constant found, volatile")


def _with_k(solute, k):
    return Solute(solute.name, solute.molar_mass, k, solute.k_low, solute.k_high, solute.source)


def _low_k(solute):
    return solute.k_low


def _high_k(solute):
    return solute.k_high


@takes(weight=In("g", above=0, example="600 g"))
def boiled_down(formula, weight):
    """What a formula holds once it is boiled down to a weight: only water leaves.

    formula: a Formula. weight: mass in the pan afterwards. Returns {component: mass}, as estimate takes it. Raises
    StudentError for a weight above what went in or not above the dry matter.
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


# --- checking a meter ---------------------------------------------------------------------------------

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


@takes(temperature=Reading(at_least=15, at_most=30, example="25 degC"))
def salt_standard(salt, temperature):
    """Water activity over a wet slurry of a salt, to check a meter.

    salt: "sodium chloride" (NaCl, table salt), "lithium chloride", "magnesium chloride" or "potassium
    sulfate". temperature: reading, 15-30 degC. Returns a plain float. Source: CRC Handbook, "Constant
    humidity solutions". Raises StudentError.
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
    """
    return Number(above=0, at_most=1, example="0.757").floats("shown", shown) - salt_standard(salt, temperature)
