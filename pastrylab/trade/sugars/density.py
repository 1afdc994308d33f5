"""Density of sucrose syrups at 20 degC, and the water in them."""

import numpy as np

from pastrylab.ground.roots import plain
from pastrylab.ground.units import Share, takes

# Specific gravity 20/20 degC against the solids share: Hackbarth 2011, fitted to the AOAC table. Within
# 0.0001 g/mL of the CRC Handbook from 10 to 80 %.
_GRAVITY = (
    *(1.0, 0.3875135555, 0.09702881653, 0.3883357480, -1.782845295, 5.591472292),
    *(-11.00667976, 13.62230734, -10.33082001, 4.387787019, -0.7995558730),
)
_WATER_AT_20 = 0.998203  # g/mL
MOST = 0.85
_SOLIDS = Share(at_most=MOST, example='0.65 or "65 %"')


def _density(share):
    return plain(_WATER_AT_20 * np.polyval(_GRAVITY[::-1], share))


def water_per_ml(share):
    """Water in a syrup, g per mL at 20 degC (a plain float, or an array), for a plain solids share.

    Beyond 0.85 the fit is extrapolated. Source: as syrup_density.

    >>> f"{water_per_ml(0.65):.3f}"
    '0.461'
    """
    return (1.0 - np.asarray(share, dtype=float)) * _density(share)


@takes(arrays=True, returns="g/mL", solids_share=_SOLIDS)
def syrup_density(solids_share):
    """Density of a sucrose syrup at 20 degC in g/mL. solids_share: sucrose by mass, 0 to 0.85.

    Source: fit of Hackbarth 2011 to the AOAC table, within 0.0001 of the CRC Handbook. Other sugars: within
    0.5 % of it. Raises StudentError.

    >>> f"{syrup_density(0.65).m_as('g/mL'):.3f}"
    '1.316'
    """
    return _density(solids_share)
