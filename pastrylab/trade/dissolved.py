"""What of a filling is dissolved in its water: from a composition to solutes, down to saturation."""

from dataclasses import dataclass

from pastrylab.ground.units import In, Quantity, Share, StudentError
from pastrylab.trade.composition import component_grams
from pastrylab.trade.pantry import members_of
from pastrylab.trade.saturation import HOLDS, settled
from pastrylab.trade.solutes import SOLUTES
from pastrylab.trade.sugars.solubility import sucrose_dissolved

_MASS = In("g", at_least=0, example="60 g")

# Component of a composition -> solute.
_DISSOLVE = {name.replace(" ", "_"): name for name in SOLUTES}
_WHOLES = {"total_sugars", "sugars"}
_PARTS_OF_FAT = {"milk_fat", "cocoa_butter"}
LEFT_OUT = {"fat", "protein", "starch", "fibre", "cocoa", "ash", "acids", "other"} | _PARTS_OF_FAT
_POLYOLS = {"glycerol", "erythritol", "xylitol", "sorbitol", "mannitol"}
_AT, _STORE = 25.0, 20.0  # degC: of the model, and of a store room, where less stays dissolved


@dataclass(frozen=True)
class Dissolved:
    """What is in the water: water_g, solutes_g {name: grams}; undissolved_g {name: grams} of sugars that stay
    solid; left_out_g {component: grams} that is no solute; alcohol_g; notes for the reader. settled_water_g,
    settled_g: the same water and solutes once all that can crystallise at 20 degC has done so.

    >>> solutes_from({"water": "100 g", "sucrose": "250 g"}).notes
    ('44 g of sucrose stay undissolved and do not count.',)
    """

    water_g: float
    solutes_g: dict
    undissolved_g: dict
    settled_water_g: float
    settled_g: dict
    left_out_g: dict
    alcohol_g: float
    notes: tuple[str, ...]


def _key(name):
    return str(name).strip().casefold().replace(" ", "_")


def _grams(composition, polyol):
    """{component: grams} of a composition: each named once, polyols by their own name, invert sugar as its hexoses."""
    if hasattr(composition, "grams"):
        named = composition.grams.items()
    else:
        named = [(name, _MASS.floats(_key(name), mass)) for name, mass in composition.items()]
    room = {}
    for name, grams in named:
        room[_key(name)] = room.get(_key(name), 0.0) + float(grams)
    if polyol is not None and "polyols" in room:
        room[str(polyol).strip().casefold()] = room.pop("polyols")
    halves = 0.5 * room.pop("invert_sugar", 0.0)
    if halves:
        room |= {half: room.get(half, 0.0) + halves for half in ("glucose", "fructose")}
    unknown = sorted(set(room) - set(_DISSOLVE) - LEFT_OUT - _WHOLES - {"water", "alcohol", "polyols"})
    if unknown:
        known = ["water", *_DISSOLVE, "polyols", "alcohol", *sorted(LEFT_OUT)]
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

    >>> parts = solutes_from({"water": "100 g", "sucrose": "250 g", "fat": "90 g"})
    >>> f"{parts.solutes_g['sucrose']:.0f} g of sucrose dissolved, {parts.left_out_g['fat']:.0f} g of fat left out"
    '206 g of sucrose dissolved, 90 g of fat left out'
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
    doubled = _PARTS_OF_FAT if "fat" in mass else set()
    left = {key: m for key, m in mass.items() if key in LEFT_OUT - doubled and m > 0}
    alcohol = mass.get("alcohol", 0.0)
    return Dissolved(
        kept_water, kept, undissolved, settled_water, in_the_end, left, alcohol, _notes(undissolved, kept, in_the_end)
    )


def chocolate_sugar(formula):
    """The sucrose that came with the chocolate of a Formula, a mass: what solutes_from takes as chocolate_sucrose.

    Chocolate is what is of that family, whatever it is called; its sucrose by mass balance on ingredients.csv. 0 g
    without chocolate.

    >>> from pastrylab import Formula, show
    >>> show(chocolate_sugar(Formula({"dark couverture 64 %": "200 g", "granulated sugar": "50 g"})), 3)
    '71.9 g'
    """
    of_it = members_of("chocolate", formula.grams)
    chocolate = {name: mass for name, mass in formula.grams.items() if name in of_it}
    return Quantity(component_grams(chocolate)["sucrose"] if chocolate else 0.0, "g")


def polyol_of(formula):
    """The polyol of a Formula by the names of its ingredients: "sorbitol", "glycerol", or None.

    None without one, and with both: an estimate needs their split. It goes to solutes_from as polyol.

    >>> from pastrylab import Formula
    >>> polyol_of(Formula({"heavy cream": "200 g", "sorbitol powder": "20 g"}))
    'sorbitol'
    """
    found = {p for p in ("sorbitol", "glycerol") for name, mass in formula.grams.items() if p in name and mass > 0}
    return found.pop() if len(found) == 1 else None


def _notes(undissolved, kept, in_the_end):
    said = [f"{m:.0f} g of {name} stay undissolved and do not count." for name, m in undissolved.items() if m >= 0.5]
    said += [
        f"{kept[name] - m:.0f} g of {name} may crystallise in time; the high end counts on it."
        for name, m in in_the_end.items()
        if name not in undissolved and kept[name] - m >= 0.5
    ]
    return tuple(said)


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
