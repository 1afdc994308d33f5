"""Care of moulds: what a drop of hard water leaves when it dries in a cavity."""

from pastrylab.ground.units import In, Number, StudentError, takes

MILLIGRAMS_PER_DEGREE = 17.85  # mg/L of CaCO3 to 1 °dH: 10 mg/L of CaO, 56.077 g/mol, as CaCO3, 100.086 g/mol
MILLIGRAMS_PER_GRAIN = 17.12  # mg/L to a grain of CaCO3 in a US gallon: 64.799 mg in 3.7854 L
DROP = "0.05 mL"  # common practice, no source: twenty drops to a millilitre
HARDNESS = Number(at_least=0, at_most=2000, example="250")
# USGS, Hardness of Water: up to mg/L of CaCO3
_CLASSES = ((60, "soft"), (120, "moderately hard"), (180, "hard"))
_PER = {"mg/L": 1.0, "dH": MILLIGRAMS_PER_DEGREE, "grains": MILLIGRAMS_PER_GRAIN}


def hardness_in_milligrams(number, scale="mg/L"):
    """Hardness of water in mg of CaCO3 in a litre, a plain float. scale: "mg/L" (the same as ppm), "dH" or "grains".

    Plain arithmetic from the molar masses, the grain and the gallon. Raises StudentError.

    >>> round(hardness_in_milligrams(14, "dH"))
    250
    """
    if scale not in _PER:
        raise StudentError(f"hardness in '{scale}'", "one of " + ", ".join(_PER), "mg/L")
    return HARDNESS.floats("hardness", number) * _PER[scale]


def hardness_class(milligrams):
    """ "soft", "moderately hard", "hard" or "very hard" water, by mg of CaCO3 in a litre. Source: USGS, Hardness of Water.

    >>> hardness_class(250)
    'very hard'
    """
    return next((name for limit, name in _CLASSES if milligrams <= limit), "very hard")


@takes(returns="mg", hardness=HARDNESS, water=In("mL", at_least=0, at_most=10_000, example="0.05 mL"))
def lime_left(hardness, water=DROP):
    """Lime left behind where water dries, in mg. hardness: mg of CaCO3 in a litre, a plain number; water: a drop, or more.

    All the hardness is taken to stay as CaCO3; other salts come on top. Plain arithmetic. Raises StudentError.

    >>> f"{lime_left(250).m_as('mg'):.4f}"
    '0.0125'
    """
    return hardness * water / 1000.0
