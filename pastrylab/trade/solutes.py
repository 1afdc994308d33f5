"""What dissolves in a filling's water: molar masses and Norrish constants, with their range and source.

Constants belong to ln(aw / x_water) = -(sum sqrt(K_i) x_i)^2: natural logarithm, mole fractions, 25 degC.
"""

import re
from dataclasses import dataclass

import numpy as np

from pastrylab.ground.constants import (
    CITRIC_ACID_MOLAR_MASS,
    DISACCHARIDE_MOLAR_MASS,
    HEXOSE_MOLAR_MASS,
    WATER_MOLAR_MASS,
)
from pastrylab.ground.units import Number, StudentError, takes

_ALDITOLS = (
    "K read: water activity constants of alditols at 25 degC, International Journal of Dentistry 2010, "
    "article 981072, table 3 note (d)"
)
_CHIRIFE = "K from memory: Chirife, Ferro Fontan & Benmergui 1980, Journal of Food Technology 15:59"


@dataclass(frozen=True)
class Solute:
    """A dissolved substance. molar_mass in g/mol; k the Norrish constant (25 degC), k_low..k_high its honest
    range.

    >>> SOLUTES["sucrose"].k
    6.47
    """

    name: str
    molar_mass: float
    k: float
    k_low: float
    k_high: float
    source: str


def _table(*rows):
    return {row[0]: Solute(*row) for row in rows}


SOLUTES = _table(
    (
        "sucrose",
        DISACCHARIDE_MOLAR_MASS,
        6.47,
        6.4,
        6.5,
        _CHIRIFE + "; 6.45 fits the osmotic coefficients of Robinson & Stokes 1965 best",
    ),
    (
        "glucose",
        HEXOSE_MOLAR_MASS,
        2.25,
        2.0,
        2.5,
        _CHIRIFE + "; freezing points of the CRC Handbook agree up to 30 %",
    ),
    (
        "fructose",
        HEXOSE_MOLAR_MASS,
        2.25,
        1.6,
        2.25,
        _CHIRIFE + "; 2.15 read in a general library after Ferro Fontan, Chirife & Boquet; freezing data ask for less",
    ),
    ("galactose", HEXOSE_MOLAR_MASS, 2.25, 1.6, 2.5, "no constant found: taken as the other hexoses"),
    ("invert sugar", HEXOSE_MOLAR_MASS, 2.25, 1.9, 2.25, "as its hexoses, " + _CHIRIFE),
    (
        "maltose",
        DISACCHARIDE_MOLAR_MASS,
        4.54,
        4.54,
        6.2,
        _CHIRIFE + "; doubtful, freezing points of the CRC Handbook ask for about 6",
    ),
    (
        "lactose",
        DISACCHARIDE_MOLAR_MASS,
        10.2,
        6.0,
        10.2,
        _CHIRIFE + "; unconfirmed, too little dissolves for it to matter much",
    ),
    (
        "higher saccharides",
        773.0,
        13.5,
        6.0,
        14.0,
        "computed, provisional: what is left of a 42 DE syrup (K 5.85, 429 g/mol) after 19 % glucose and 14 % maltose",
    ),
    ("glycerol", 92.0938, 1.16, 1.0, 1.2, _ALDITOLS),
    ("erythritol", 122.1198, 1.34, 1.3, 1.4, _ALDITOLS),
    ("xylitol", 152.1458, 1.66, 1.6, 1.7, _ALDITOLS),
    ("sorbitol", 182.1718, 1.65, 1.6, 1.7, _ALDITOLS),
    ("mannitol", 182.1718, 0.906, 0.9, 1.8, _ALDITOLS + "; freezing points of the CRC Handbook ask for 1.7"),
    ("citric acid", CITRIC_ACID_MOLAR_MASS, 6.2, 5.0, 6.5, _CHIRIFE + "; unconfirmed"),
)
_ALIASES = {
    "sugar": "sucrose",
    "saccharose": "sucrose",
    "dextrose": "glucose",
    "levulose": "fructose",
    "invert": "invert sugar",
    "glycerine": "glycerol",
}
_SYRUP = re.compile(r"(?:glucose|corn) syrup(?: solids)?,? (?:de ?(\d+)|(\d+) ?de)$")
_SYRUP_K = 5.85  # back-fitted to the aw 0.90 point of the corn-syrup isotherm of Sloan & Labuza 1975, DE taken as 42


def solute_named(name):
    """The Solute of a name ("sucrose", "dextrose", "glucose syrup DE 42") or of a Solute. Raises
    StudentError.

    >>> solute_named("dextrose").name
    'glucose'
    """
    if isinstance(name, Solute):
        return name
    key = re.sub(r"[\s_]+", " ", str(name)).strip().casefold()
    key = _ALIASES.get(key, key)
    if key in SOLUTES:
        return SOLUTES[key]
    syrup = _SYRUP.match(key)
    if syrup:
        return glucose_syrup_solids(float(syrup[1] or syrup[2]))
    raise StudentError(f"a solute called '{name}'", "one of " + ", ".join(SOLUTES), "sucrose, or glucose syrup DE 42")


_LEAST_DE, _MOST_DE = 20, 45


@takes(de=Number(at_least=1, at_most=100, example="42"))
def glucose_syrup_solids(de):
    """The dry solids of glucose syrup as one effective solute.

    de: dextrose equivalent, 20-45. Returns Solute with molar mass 18016 / DE (number average) and K = 5.85:
    provisional, fitted to one point, at DE 42, of the corn-syrup isotherm of Sloan & Labuza 1975; no published K by DE
    is known to us. Sweeter syrups are mostly glucose and maltose, K about 2 to 5: with 5.85 they would read too dry, so
    they are refused. Raises StudentError outside the range.

    >>> f"{glucose_syrup_solids(42).molar_mass:.0f}"
    '429'
    """
    if not _LEAST_DE <= de <= _MOST_DE:
        raise StudentError(
            f"a glucose syrup of DE {de:g}",
            f"one from DE {_LEAST_DE} to {_MOST_DE}; of others give the sugars by name, from the supplier's sheet",
            "glucose, maltose and higher saccharides",
        )
    source = "provisional: K back-fitted to Sloan & Labuza 1975 (aw 0.90); M = 18016 / DE"
    return Solute(f"glucose syrup solids DE {de:g}", 18016.0 / de, _SYRUP_K, 2.25, 8.0, source)


def as_pairs(solutes):
    """solutes as a list of (Solute, mass), from a mapping {name: mass} or from (name, mass) pairs; masses pass as they
    are.

    Raises StudentError for unknown names.

    >>> [(solute.name, mass) for solute, mass in as_pairs({"dextrose": 60.0})]
    [('glucose', 60.0)]
    """
    pairs = solutes.items() if hasattr(solutes, "items") else solutes
    return [(solute_named(name), mass) for name, mass in pairs]


def mole_fractions(water, pairs):
    """(mole fraction of water, sum of sqrt(K_i) x_i), for masses in grams (floats or arrays).

    water: grams; pairs: [(Solute, grams)], as as_pairs makes them.

    >>> in_water, _ = mole_fractions(40.0, as_pairs({"sucrose": 60.0}))
    >>> f"{in_water:.3f}"
    '0.927'
    """
    moles = [(solute, np.asarray(mass, dtype=float) / solute.molar_mass) for solute, mass in pairs]
    in_water = np.asarray(water, dtype=float) / WATER_MOLAR_MASS
    total = in_water + sum((n for _, n in moles), 0.0)
    return in_water / total, sum((np.sqrt(solute.k) * n for solute, n in moles), 0.0) / total
