"""Polarimetry: how far a sucrose syrup is inverted, by the turn of polarised light."""

import numpy as np

from pastrylab.ground.roots import plain
from pastrylab.ground.units import Number, StudentError, takes
from pastrylab.trade.sugars.inversion import INVERTED, UPTAKE

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

    >>> f"{specific_rotation('invert sugar'):.1f}"
    '-19.9'
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

    >>> f"{inversion_from_rotation(20.0, 8.0):.2f}"
    '0.46'
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


@takes(before=Number(above=0, at_most=180, example="20.0"), share=INVERTED)
def rotation_after(before, share):
    """Polarimeter reading in degrees when a share is inverted: the inverse of inversion_from_rotation, a plain float.

    before: the reading of the pure sucrose, above 0 to 180. share: inverted, 0 to 1. Raises StudentError.

    >>> f"{rotation_after(20.0, 0.5):.1f}"
    '6.9'
    """
    return before * (1.0 - share * (1.0 - END_ROTATION))
