"""A closed box: how humid what lies in it makes its air, and how little water that air holds."""

from dataclasses import dataclass

from pastrylab.ground.units import In, Quantity, Reading, Share, StudentError, both, takes
from pastrylab.trade.altitude import ALTITUDE, pressure_at
from pastrylab.trade.storage.air import AIR, HUMIDITY
from pastrylab.trade.storage.moist_air import moist_air

VOLUME = In("L", above=0, at_most=10_000, example="20 L")
UPTAKE = Share(above=0, at_most=0.5, example='0.2 or "20 %"')
CLOTH, SALT, SILICA = "wet cloth", "wet table salt", "silica gel"


@dataclass(frozen=True)
class Box:
    """The air of a closed box in the end: humidity, a share, or None where nobody can promise one; and a sentence.

    >>> box_with("wet cloth", "20 degC").humidity
    1.0
    """

    humidity: float | None
    sentence: str


@takes(temperature=Reading(at_least=15, at_most=30, example="20 degC"))
def box_with(what, temperature):
    """What the air of a closed box comes to with something in it that gives water or takes it: a Box.

    what: "wet cloth", "wet table salt" (a slurry, with undissolved salt in it) or "silica gel". temperature: reading,
    15-30 degC. Sources: saturation over pure water; CRC Handbook, "Constant humidity solutions", by salt_standard. What
    an adsorbent leaves depends on what it has taken up already, so none is promised. Raises StudentError.

    >>> f"{box_with('wet table salt', '20 degC').humidity:.2f}", box_with("silica gel", "20 degC").humidity
    ('0.75', None)
    """
    name = str(what).strip().casefold()
    if name == CLOTH:
        return Box(
            1.0, "The air of the box becomes as wet as air can be, 100 %: nothing with sugar in it belongs there."
        )
    if name == SALT:
        from pastrylab.trade.water_activity import salt_standard  # solutes and formulas: not every box asks for them

        humidity = salt_standard.floats("table salt", temperature)
        return Box(
            humidity,
            f"Over wet table salt the air stands at {100 * humidity:.0f} %, whatever the weather: too damp to store in, and a "
            "check for any hygrometer left in the closed box overnight.",
        )
    if name == SILICA:
        return Box(
            None,
            "Silica gel takes water up until it is full. What humidity it leaves depends on how full it is: put a "
            "hygrometer in the box and believe that alone.",
        )
    raise StudentError(f"'{what}' in a closed box", f"{CLOTH}, {SALT} or {SILICA}", SALT)


@takes(returns="g", volume=VOLUME, air=AIR, humidity=HUMIDITY, altitude=ALTITUDE)
def water_in_air(volume, air, humidity, altitude="0 m"):
    """Water in the air of a closed box, in g. volume: of the box; air: reading; humidity: a share.

    Humidity ratio over the volume of moist air; the altitude moves both and hardly the result. Source: ASHRAE
    Fundamentals 2017, by psychrolib. Raises StudentError.

    >>> f"{water_in_air('20 L', '20 degC', '60 %').m_as('g'):.2f}"  # a box of 20 litres: a fifth of a gram
    '0.21'
    """
    library, pascal = moist_air(), 100.0 * pressure_at.floats(altitude)
    ratio = library.GetHumRatioFromRelHum(air, humidity, pascal)
    return volume * ratio / library.GetMoistAirVolume(air, ratio, pascal)


@dataclass(frozen=True)
class Silica:
    """Silica gel for a box: `air`, the water its air must lose; `total`, with what the goods and the lid bring; `gel`, so
    much of it; all masses; and a sentence.

    >>> from pastrylab import show
    >>> show(silica_for("20 L", "20 degC", "60 %", "40 %", "20 %", "2 g").gel, 3)
    '10.3 g'
    """

    air: Quantity
    total: Quantity
    gel: Quantity
    sentence: str


@takes(
    volume=VOLUME,
    air=AIR,
    humidity=HUMIDITY,
    down_to=HUMIDITY,
    uptake=UPTAKE,
    also=In("g", at_least=0, at_most=5000, example="2 g"),
)
def silica_for(volume, air, humidity, down_to, uptake, also="0 g"):
    """How much dry silica gel brings the air of a box from one humidity down to another: a Silica.

    uptake: grams of water a gram of gel takes up at the humidity aimed at, as its maker states it, a share up to 50 %.
    also: water from elsewhere, in g: goods, paper, a lid opened every day; mostly it is far more than the air's. Plain
    arithmetic on water_in_air. It promises no humidity. Raises StudentError where the air is to become damper.

    >>> from pastrylab import show
    >>> show(silica_for("20 L", "20 degC", "60 %", "40 %", "20 %").gel, 3)
    '0.346 g'
    """
    if down_to >= humidity:
        raise StudentError(
            f"air of {humidity:.0%} to be dried to {down_to:.0%}",
            "a humidity below the one there is",
            "from 60 % to 40 %",
        )
    lost = water_in_air.floats(volume, air, humidity) - water_in_air.floats(volume, air, down_to)
    total, gel = Quantity(lost + also, "g"), Quantity((lost + also) / uptake, "g")
    sentence = (
        f"The air must lose {both(Quantity(lost, 'g'), 2)} of water, next to nothing. With what else comes in it is "
        f"{both(total, 2)}: {both(gel, 2)} of dry gel at the stated uptake. Every time the lid is lifted the air comes back."
    )
    return Silica(Quantity(lost, "g"), total, gel, sentence)
