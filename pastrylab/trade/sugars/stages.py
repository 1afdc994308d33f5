"""The cook's stages of boiled sugar, at sea level and at altitude."""

from dataclasses import dataclass

from pastrylab.ground.units import Quantity, StudentError, takes
from pastrylab.trade.sugars.boiling import ALTITUDE, MOST_SOLIDS, PRESSURE, solids_from_boiling, syrup_boiling_point


@dataclass(frozen=True)
class Stage:
    """A cooking stage at sea level: low..high in degC as cooks state it, and the solids cooks state (None: no
    water left).

    >>> [stage.name for stage in STAGES if stage.low <= 114 <= stage.high]
    ['soft ball']
    """

    name: str
    low: float
    high: float
    stated_solids: float | None


# Common practice; tables differ by 2-3 K. McGee 2004 (On Food and Cooking) gives bands of the same names.
STAGES = (
    Stage("thread", 110, 112, 0.80),
    Stage("soft ball", 112, 116, 0.85),
    Stage("firm ball", 118, 120, 0.87),
    Stage("hard ball", 121, 130, 0.90),
    Stage("soft crack", 132, 143, 0.95),
    Stage("hard crack", 146, 154, 0.99),
    Stage("light caramel", 165, 175, None),
)


def _at_altitude(temperature, altitude, pressure):
    """The temperature at which the syrup that boils at `temperature` at sea level boils there."""
    hottest = syrup_boiling_point.floats(MOST_SOLIDS)
    solids = solids_from_boiling.floats(min(temperature, hottest))
    return float(syrup_boiling_point.floats(solids, altitude, pressure))


@takes(altitude=ALTITUDE, pressure=PRESSURE)
def stage_temperatures(stage, altitude=None, pressure=None):
    """The band of a cooking stage where you cook: (low, high) quantities in degC, same solids as at sea
    level.

    stage: "thread", "soft ball", "firm ball", "hard ball", "soft crack", "hard crack" or "light caramel" (set
    by heat, not by water: the same at any altitude). altitude or pressure as syrup_boiling_point. Bands at
    sea level: common practice, no source. Raises StudentError.

    >>> [f"{end.m_as('degC'):.0f}" for end in stage_temperatures("soft ball", altitude="1609 m")]
    ['106', '110']
    """
    wanted = next((s for s in STAGES if s.name == str(stage).strip().casefold().replace("-", " ")), None)
    if wanted is None:
        raise StudentError(f"a stage called '{stage}'", "one of " + ", ".join(s.name for s in STAGES), "soft ball")
    band = (wanted.low, wanted.high)
    if wanted.stated_solids is not None and (altitude is not None or pressure is not None):
        band = tuple(_at_altitude(t, altitude, pressure) for t in band)
    return Quantity(float(band[0]), "degC"), Quantity(float(band[1]), "degC")
