"""Density and refractive index of sucrose syrups at 20 degC, and Brix read from either."""

import numpy as np

from pastrylab.ground.roots import bisect, plain
from pastrylab.ground.units import In, Number, Share, StudentError, takes

# Specific gravity 20/20 degC against the solids share: Hackbarth 2011, fitted to the AOAC table. Within
# 0.0001 g/mL of the CRC Handbook from 10 to 80 %.
_GRAVITY = (
    *(1.0, 0.3875135555, 0.09702881653, 0.3883357480, -1.782845295, 5.591472292),
    *(-11.00667976, 13.62230734, -10.33082001, 4.387787019, -0.7995558730),
)
_WATER_AT_20 = 0.998203  # g/mL
# Brix from the refractive index, after the ICUMSA table; highest power first.
_BRIX = (11758.74, -88885.21, 270177.93, -413145.80, 318417.95, -99127.4536)
MOST = 0.85
_INDEX_RANGE = (1.3330, 1.5041)

_SOLIDS = Share(at_most=MOST, example='0.65 or "65 %"')


def _density(share):
    return plain(_WATER_AT_20 * np.polyval(_GRAVITY[::-1], share))


def water_per_ml(share):
    """Water in a syrup, g per mL at 20 degC, for a plain solids share; beyond 0.85 the fit is
    extrapolated.
    """
    return (1.0 - np.asarray(share, dtype=float)) * _density(share)


@takes(returns="g/mL", solids_share=_SOLIDS)
def syrup_density(solids_share):
    """Density of a sucrose syrup at 20 degC in g/mL. solids_share: sucrose by mass, 0 to 0.85.

    Source: fit of Hackbarth 2011 to the AOAC table, within 0.0001 of the CRC Handbook. Other sugars: within
    0.5 % of it. Raises StudentError.
    """
    return _density(solids_share)


@takes(density=In("g/mL", at_least=0.998, at_most=1.46, example="1.32 g/mL"))
def solids_from_density(density):
    """Sucrose by mass in a syrup from its density at 20 degC, a plain float: the inverse of syrup_density.

    density: 0.998-1.46 g/mL. Raises StudentError outside 0 to 85 % solids.
    """
    wanted = np.asarray(density, dtype=float)
    if np.any(wanted > _density(MOST)):
        raise StudentError(
            f"{np.max(wanted):.4g} g/mL", "the density of a syrup up to 85 %: outside the model", "1.32 g/mL"
        )
    return bisect(lambda w: _density(w) - np.maximum(wanted, _WATER_AT_20), 0.0, MOST)


@takes(index=Number(at_least=_INDEX_RANGE[0], at_most=_INDEX_RANGE[1], example="1.4532"))
def brix_from_refraction(index):
    """Solids in percent (Brix) from the refractive index at 20 degC, sodium D line, a plain float.

    index: 1.3330-1.5041 (0 to 85 Brix). Source: polynomial after the ICUMSA table, within 0.07 Brix from 10
    to 80. Sugars other than sucrose read slightly low. Raises StudentError.
    """
    return plain(np.maximum(np.polyval(_BRIX, index), 0.0))


@takes(solids_share=_SOLIDS)
def refractive_index(solids_share):
    """Refractive index of a sucrose syrup at 20 degC, sodium D line, a plain float: the inverse of
    brix_from_refraction.

    solids_share: sucrose by mass, 0 to 0.85. Raises StudentError.
    """
    wanted = 100.0 * np.asarray(solids_share, dtype=float)
    return bisect(lambda n: np.polyval(_BRIX, n) - wanted, 1.32, 1.51)
