"""Water activity of syrups and fillings: the Norrish model, an estimate with its error, salts to check a
meter.

What a water activity means for keeping lives in keeping.py and is reachable from here.
"""

from dataclasses import dataclass

import numpy as np

from pastrylab.keeping import (  # noqa: F401  (part of this module's face)
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
from pastrylab.roots import plain
from pastrylab.solutes import SOLUTES, Solute, as_pairs, glucose_syrup_solids, mole_fractions  # noqa: F401
from pastrylab.sugars.solubility import sucrose_per_water
from pastrylab.units import In, Number, Quantity, Reading, Share, StudentError, takes

_WATER = In("g", above=0, example="40 g")
_MASS = In("g", at_least=0, example="60 g")


def norrish(water, solutes):
    """Water activity at 25 degC of water with dissolved solutes: aw = x_w exp(-(sum sqrt(K_i) x_i)^2).

    water: mass above 0. solutes: {name: mass}, or (name, mass) pairs; names as in SOLUTES, "glucose syrup DE
    42" for its dry solids, or a Solute of your own. Only what is dissolved counts. Returns a plain float (an
    array for arrays of masses). norrish.floats takes plain grams and arrays. Raises StudentError without
    water or for unknown names. Source: Norrish 1966, Journal of Food Technology 1:25, natural exponential,
    constants in SOLUTES. Runs low above 75 % sucrose or 60 % glycerol (0.01-0.03).
    """
    room = [(solute, _MASS.floats(solute.name, mass)) for solute, mass in as_pairs(solutes)]
    return _norrish(_WATER.floats("water", water), room)


def _norrish(water, solutes, k_factor=1.0):
    """Plain grams in. k_factor scales every K (298.15 / T carries the model to the boil)."""
    if np.any(np.asarray(water) <= 0):
        raise StudentError("a mix without water", "some water: without it the model says nothing", 'water="40 g"')
    in_water, root_k = mole_fractions(water, as_pairs(solutes))
    return plain(in_water * np.exp(-k_factor * root_k**2))


norrish.floats = _norrish


# --- from a composition to what is dissolved ----------------------------------------------------------

# Component of a composition -> solute. Lactose: 17.8 g per 100 g solution at 25 degC (Hudson, in Lowe,
# Experimental Cookery).
_DISSOLVE = {name.replace(" ", "_"): name for name in SOLUTES}
_LACTOSE_PER_WATER = 17.8 / 82.2
_WHOLES = {"total_sugars", "sugars"}
_PARTS_OF_FAT = {"milk_fat", "cocoa_butter"}
_LEFT_OUT = {"fat", "protein", "starch", "fibre", "cocoa", "ash", "acids", "other"} | _PARTS_OF_FAT
_BINDING = _LEFT_OUT - {"ash", "acids"}
_AT = 25.0


@dataclass(frozen=True)
class Dissolved:
    """What is in the water: water_g, solutes_g {name: grams}; undissolved_g {name: grams} of sugars that stay
    solid; left_out_g {component: grams} that is no solute; alcohol_g; notes for the reader.
    """

    water_g: float
    solutes_g: dict
    undissolved_g: dict
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
    polyol: the name of what stands under "polyols", e.g. "sorbitol". Sucrose beyond saturation beside the
    other sugars and lactose beyond 21.7 g per 100 g of water stay solid. Returns Dissolved (plain grams).
    Raises StudentError without water, and where sugars or polyols are given as a total without their split.
    """
    mass = _grams(composition, polyol)
    share = Share().floats("dissolved_share", dissolved_share)
    water = mass.get("water", 0.0)
    if water <= 0:
        raise StudentError(
            "a composition without water",
            "the water of the filling",
            '{"water": "200 g", "sucrose": "180 g"}',
        )
    _check_split(mass)
    solutes = {solute: mass[key] for key, solute in _DISSOLVE.items() if mass.get(key, 0.0) > 0}
    undissolved, notes = {}, []
    sucrose = solutes.get("sucrose", 0.0)
    loose = sucrose if chocolate_sucrose is None else _MASS.floats("chocolate_sucrose", chocolate_sucrose)
    if loose > sucrose * (1 + 1e-9) + 1e-9:
        raise StudentError(
            f"{loose:g} g of sucrose from chocolate", f"at most the {sucrose:g} g of sucrose in all", "120 g"
        )
    solid = (1.0 - share) * loose
    _keep_solid(solutes, undissolved, "lactose", solutes.get("lactose", 0.0) - _LACTOSE_PER_WATER * water)
    others = {name: 100.0 * m / water for name, m in solutes.items() if name != "sucrose"}
    holds = float(sucrose_per_water.floats(_AT, others)) * water / 100.0
    _keep_solid(solutes, undissolved, "sucrose", max(solid, sucrose - holds))
    notes += [f"{m:.0f} g of {name} stay undissolved and do not count." for name, m in undissolved.items() if m >= 0.5]
    if solutes.get("glucose", 0.0) > water:
        notes.append("There is more glucose than water: where it crystallises, the water activity rises.")
    alcohol = mass.get("alcohol", 0.0)
    doubled = _PARTS_OF_FAT if "fat" in mass else set()
    left = {key: m for key, m in mass.items() if key in _LEFT_OUT - doubled and m > 0}
    return Dissolved(water, solutes, undissolved, left, alcohol, tuple(notes))


def _keep_solid(solutes, undissolved, name, solid):
    if solid > 0:
        solutes[name] -= solid
        undissolved[name] = solid


def _check_split(mass):
    named = sum(m for key, m in mass.items() if key in _DISSOLVE and key not in _POLYOLS)
    total = max(mass.get("total_sugars", 0.0), mass.get("sugars", 0.0))
    if total > 1.05 * named + 1.0:
        raise StudentError(
            f"{total:g} g of sugars of which {named:g} g are named",
            "each sugar by name: without the split this is outside the model",
            '{"sucrose": "180 g", "glucose": "20 g"}',
        )
    polyols = sum(mass.get(key, 0.0) for key in _POLYOLS)
    if mass.get("polyols", 0.0) > 1.05 * polyols + 0.05:
        raise StudentError(
            f"{mass['polyols']:g} g of polyols without their names",
            "which polyol it is: sorbitol lowers water activity half as much as glycerol",
            'polyol="sorbitol"',
        )


_POLYOLS = {"glycerol", "erythritol", "xylitol", "sorbitol", "mannitol"}
# Stated errors by lowest water activity: clear syrup, and a filling with fat, cocoa or protein. Sereno et al.
# 2001 (mean deviation below 2 % in solutions); for fillings our own judgement.
_LEAST_WATER = 0.03  # of the whole: chocolate or dry sugar alone hold too little for a solution to set the value
_ERRORS = ((0.8, 0.01, 0.03), (0.7, 0.02, 0.04), (0.6, 0.03, 0.04), (0.5, 0.04, 0.05))


def estimate(composition, dissolved_share=1.0, chocolate_sucrose=None, polyol=None):
    """An estimate of a filling's water activity at 25 degC from its composition, with its stated error.

    Arguments as solutes_from. Returns Estimate: value, low, high (the stated error, or the spread of the
    constants K where that is wider), sentence, notes, caution. Alcohol is not counted in the value, since it
    evaporates; the low end counts it. Raises StudentError where the result would fall under 0.5 or water is
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
            '{"water": "200 g", "sucrose": "180 g"}',
        )
    value = _norrish(parts.water_g, pairs)
    if value < _ERRORS[-1][0]:
        raise StudentError(
            f"a mix whose computed water activity is {value:.2f}",
            "a filling with more water: below 0.5 this is outside the model",
            '{"water": "200 g", "sucrose": "180 g"}',
        )
    filling = sum(m for key, m in parts.left_out_g.items() if key in _BINDING) > 0.05 * parts.water_g
    error = next(dim if filling else clear for least, clear, dim in _ERRORS if value >= least)
    ends = [_norrish(parts.water_g, [(_with_k(s, k(s)), m) for s, m in pairs]) for k in (_high_k, _low_k)]
    low, high = min(value - error, ends[0]), min(1.0, max(value + error, ends[1]))
    notes = list(parts.notes)
    if parts.alcohol_g > 0:
        low = min(low, _norrish(parts.water_g, [*pairs, (_ETHANOL, parts.alcohol_g)]) - error)
        notes.append("Alcohol is volatile: it is left out of the value, and what it does fades as it evaporates.")
    kind = "a filling that is more than sugars and water" if filling else "a clear syrup"
    sentence = f"Estimated water activity {value:.2f}, between {low:.2f} and {high:.2f} (model for {kind}, 25 °C)."
    return Estimate(value, max(low, 0.0), high, sentence, tuple(notes))


_ETHANOL = Solute("ethanol", 46.0684, 0.0, 0.0, 0.0, "taken as ideal, a formal low end: no constant found, volatile")


def _with_k(solute, k):
    return Solute(solute.name, solute.molar_mass, k, solute.k_low, solute.k_high, solute.source)


def _low_k(solute):
    return solute.k_low


def _high_k(solute):
    return solute.k_high


# --- checking a meter ---------------------------------------------------------------------------------

# Relative humidity over a saturated salt slurry, percent = A exp(B / T): CRC Handbook of Chemistry and
# Physics, "Constant humidity solutions"; within 0.002 of Greenspan 1977, Journal of Research of the NBS
# 81A:89, at 20 and 25 degC.
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
    return plain(a * np.exp(b / (temperature + 273.15)) / 100.0)


def meter_offset(shown, salt, temperature):
    """By how much a meter reads too high (positive) or too low over a salt slurry: a plain float.

    shown: the reading, a plain number. salt, temperature: as salt_standard. Raises StudentError.
    """
    return Number(above=0, at_most=1, example="0.757").floats("shown", shown) - salt_standard(salt, temperature)
