"""Care of moulds: what a drop of hard water leaves, and how a cavity stays bright."""

from dataclasses import dataclass

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


@dataclass(frozen=True)
class Step:
    """One thing to do, why, and where it comes from."""

    do: str
    why: str
    source: str = "common practice, no source"


MOULD_CARE = (
    Step(
        "Wash seldom. Scrape flat what stands on the mould; polish the cavities after each use.",
        "The trace of cocoa butter that stays in a clean cavity does no harm; every washing is a chance to scratch it.",
    ),
    Step(
        "Wash before another filling, another allergen, or where filling has leaked.",
        "A mould is used again unwashed only without a trace of filling and within one allergen.",
    ),
    Step(
        "Lukewarm water, a little mild soap, a soft cloth or the hand. No brush, no scourer, no knife.",
        "What scratches the cavity is cast on every piece after it.",
    ),
    Step(
        "Rinse until no soap is left.",
        "A film of soap dries on the wall and shows as a dull veil; it also tastes.",
    ),
    Step(
        "Last rinse with soft or distilled water where the tap is hard.",
        "What the drop held stays behind when it dries: lime, as a ring that casts a spot.",
    ),
    Step(
        "Dry at once with a soft cloth, upside down, and let the mould stand until it is as warm as the room.",
        "A drop left in a cavity is a water spot twice: it leaves lime, and it dissolves sugar where chocolate meets it.",
    ),
    Step(
        "Polish each cavity with cotton before casting, with a fresh piece when it greys.",
        "A bright piece is the print of a bright wall.",
    ),
    Step(
        "Cast into moulds a little below the chocolate, at room temperature, never cold from a refrigerator.",
        "A cold mould draws water from the air like any cold tray, and sets the first film too fast.",
    ),
)
