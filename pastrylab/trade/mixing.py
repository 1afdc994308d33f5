"""Where a ganache ends up when chocolate and liquid meet, and how warm the liquid must be: two routes by heat balance.

Tempered route: the liquid goes into tempered chocolate, nothing melts.
    m_l c_l (T_l - T) = m_c c (T - T_c) + loss
Drops route: hot liquid goes on set drops, which melt at about 34 degC.
    m_l c_l (T_l - T) = m_c [c (T - T_c) + x L] + loss
c = 1.59 kJ/(kg K) and L as in chocolate (Beckett 2009). c_l by components: Choi & Okos 1986, in Food Engineering and
Process Applications, vol. 1 (coefficients from memory, within 3 % of the tables tried; water's first one is printed as
4.1289 and as 4.1762: the latter lies within 0.2 % of IAPWS-95 from 20 to 80 degC). Those equations take fat as liquid:
below about 35 degC the fat of cream also gives up or takes up heat of melting, which is left out here.
"""

import math
from dataclasses import dataclass

from pastrylab.ground import careful
from pastrylab.ground.units import In, Quantity, Reading, StudentError, both, takes
from pastrylab.trade.chocolate import (
    SPECIFIC_HEAT,
    TEMPER_LOST,
    crystals_stand_to,
    kind_named,
    latent_heat,
    wide_band_floats,
)
from pastrylab.trade.formula import Formula
from pastrylab.trade.pantry import ingredient_name, ingredients

STATES = ("tempered", "drops")
SET_UP_TO = 30.0  # degC: drops that stand warmer are half melted, and the sum does not hold
BOILING = 100.0
PROBE_ERROR = 0.5  # degC: a kitchen probe; common practice, no source
# kJ/(kg K) = a + b T + c T^2, T in degC. Alcohol: one figure at 25 degC, CRC Handbook (from memory).
_HEAT_CAPACITY = {
    "water": (4.1762, -9.0864e-5, 5.4731e-6),
    "protein": (2.0082, 1.2089e-3, -1.3129e-6),
    "fat": (1.9842, 1.4733e-3, -4.8008e-6),
    "carbohydrate": (1.5488, 1.9625e-3, -5.9399e-6),
    "fibre": (1.8459, 1.8306e-3, -4.6509e-6),
    "ash": (1.0926, 1.8896e-3, -3.6817e-6),
    "alcohol": (2.44, 0.0, 0.0),
}
_MASS = In("kg", above=0, example="300 g")


@takes(returns="kJ/(kg*K)", temperature=Reading(at_least=0, at_most=150, example="40 degC"))
def specific_heat(of, temperature):
    """Heat capacity of an ingredient or a Formula, in kJ/(kg K): the mean of its components, weighted by mass.

    of: a name ("heavy cream") or a Formula. temperature: reading, 0-150 degC. Source: Choi & Okos 1986, see above.
    Fat counts as liquid. Raises StudentError for an unknown ingredient and outside 0-150 degC.

    >>> f"{specific_heat('water', '40 degC').m_as('kJ/(kg*K)'):.2f}"
    '4.18'
    """
    return _specific_heat(_shares(of), temperature)


def _shares(of):
    if isinstance(of, Formula):
        made = of.composition()
        return {name: made.grams[name] / made.total_grams for name in made}
    row = ingredients()[ingredient_name(of)]
    return {name: share for name, share in row.items() if name not in ("milk_fat", "cocoa_butter")}


def _specific_heat(shares, temperature):
    total = held = 0.0
    for name, share in shares.items():
        a, b, c = _HEAT_CAPACITY.get(name, _HEAT_CAPACITY["carbohydrate"])
        held = held + share * (a + b * temperature + c * temperature**2)
        total += share
    return held / total


@takes(
    returns="degC",
    chocolate=_MASS,
    chocolate_at=Reading(example="31.5 degC"),
    liquid=_MASS,
    target=Reading(example="31 degC"),
    loss=In("kJ", at_least=0, example="0 kJ"),
)
def liquid_temperature(
    chocolate, chocolate_at, liquid, target, of="heavy cream", state="tempered", kind="dark", loss="0 kJ"
):
    """How warm the liquid must be so that chocolate and liquid end at `target`: a reading.

    of: the liquid, an ingredient or a Formula (then `liquid` is its mass). state: "tempered" (liquid and in temper,
    nothing melts) or "drops" (set; all of it melts, so the target is 34 degC or warmer). kind: "dark", "milk", "white" or
    a chocolate of the list, as chocolate.latent_heat. loss: heat that bowl and room take. Heat balance above. Raises StudentError,
    also for tempered chocolate warmer or colder than it can be, and where the liquid would have to boil or freeze.

    >>> from pastrylab import show
    >>> show(liquid_temperature("300 g", "31.5 degC", "200 g", "33 degC"), 3)
    '34.1 °C'
    """
    latent = _latent(state, kind, chocolate_at)
    if latent and target < TEMPER_LOST:
        raise StudentError(
            f"{target:g} °C as the end of drops that melt",
            f"a target of {TEMPER_LOST:g} °C or warmer, where all of the chocolate is melted",
            "38 °C",
        )
    needed = chocolate * (SPECIFIC_HEAT * (target - chocolate_at) + latent) + loss
    c = _specific_heat(_shares(of), target)
    needed_at = target + needed / (liquid * c)
    if needed_at > BOILING:
        enough = 1000 * needed / (c * (BOILING - target))
        raise StudentError(
            f"{liquid * 1000:.4g} g of liquid, which would have to be above boiling",
            "more liquid, or the chocolate partly melted first",
            f"{10 * math.ceil(enough / 10)} g of liquid",
        )
    if needed_at < 0:
        raise StudentError(
            f"{liquid * 1000:.4g} g of liquid, which would have to be frozen",
            "cooler chocolate, or a warmer end",
            f"an end at {chocolate_at:.4g} °C",
        )
    return needed_at


def _latent(state, kind, chocolate_at):
    """The heat the chocolate takes to melt, kJ/kg. Raises StudentError where it cannot be in that state."""
    if state not in STATES:
        raise StudentError(f"'{state}' for the chocolate", "tempered or drops", "tempered")
    if state == "drops":
        if chocolate_at > SET_UP_TO:
            raise StudentError(f"{chocolate_at:g} °C for set drops", f"drops at {SET_UP_TO:g} °C or colder", "20 °C")
        return latent_heat(kind)
    low, high = tempered_from_to(kind)
    if not low <= chocolate_at <= high:
        raise StudentError(
            f"{chocolate_at:g} °C for tempered {kind_named(kind)} chocolate",
            f"{low:g} to {high:g} °C: colder it is no longer liquid, warmer no longer in temper",
            f"{_aim(kind):g} °C",
        )
    return 0.0


def _aim(kind):
    """The middle of the working band, to half a degree."""
    return round(sum(wide_band_floats(kind)[2])) / 2


def tempered_from_to(kind):
    """Between which temperatures chocolate can be liquid and in temper: (low, high) in degC, plain floats.

    kind: "dark", "milk", "white" or a chocolate. From a degree under the top of its cooling band (chocolate_bands.csv;
    the degree is our own judgement: thick, but it still flows) to where its crystals are lost
    (chocolate.crystals_stand_to). Raises StudentError for another kind.

    >>> tempered_from_to("dark")
    (28.0, 34.0)
    """
    return wide_band_floats(kind)[1][1] - 1, crystals_stand_to(kind)[1]


def by_mass_alone(chocolate, chocolate_at, liquid, liquid_at):
    """Where a bowl would end if a gram of liquid held the heat of a gram of chocolate and nothing melted: plain degC.

    Plain floats, masses in one unit, temperatures in degC; liquid_at may be an array. The mean by mass, to set beside
    `mixed`: it is wrong wherever the two differ in temperature.

    >>> by_mass_alone(300.0, 30.0, 100.0, 50.0)
    35.0
    """
    return (chocolate * chocolate_at + liquid * liquid_at) / (chocolate + liquid)


def liquid_by_mass_alone(chocolate, chocolate_at, liquid, target):
    """How warm the liquid would have to be by mass alone: plain degC, the inverse of by_mass_alone.

    Plain floats, masses in one unit, temperatures in degC.

    >>> liquid_by_mass_alone(300.0, 30.0, 100.0, 35.0)
    50.0
    """
    return target + chocolate / liquid * (target - chocolate_at)


def temper_kept(kind):
    """Between which ends a ganache sets in temper: (low, high) in degC, plain floats.

    Up to where the crystals of its kind stand (chocolate.crystals_stand_to); from the top of its cooling band, under which
    weaker forms grow: 29 degC for dark (Greweling, Chocolates and Confections, 2007). Raises StudentError for another
    kind.

    >>> temper_kept("dark")
    (29.0, 33.8)
    """
    return wide_band_floats(kind)[1][1], crystals_stand_to(kind)[0]


@dataclass(frozen=True)
class Bowl:
    """Where a bowl ends up: `temperature`, a reading, and the share of the drops that melts (1 for melted chocolate).

    >>> mixed("300 g", "20 degC", "200 g", "85 degC").melted_share
    1.0
    """

    temperature: Quantity
    melted_share: float


@takes(
    chocolate=_MASS,
    chocolate_at=Reading(example="20 degC"),
    liquid=_MASS,
    liquid_at=Reading(at_least=0, at_most=110, example="85 degC"),
    loss=In("kJ", at_least=0, example="0 kJ"),
)
def mixed(chocolate, chocolate_at, liquid, liquid_at, of="heavy cream", state="drops", kind="dark", loss="0 kJ"):
    """Where chocolate and liquid end up: a Bowl. The inverse of liquid_temperature, arguments as there.

    Drops that the liquid cannot melt altogether leave the bowl at 34 degC with a share melted, as if chocolate melted
    at one temperature: real chocolate does so over some degrees below. Raises StudentError as liquid_temperature does
    for the chocolate, and for a liquid outside 0-110 degC.

    >>> from pastrylab import show
    >>> show(mixed("300 g", "20 degC", "200 g", "85 degC").temperature, 3)
    '45.4 °C'
    """
    latent = _latent(state, kind, chocolate_at)
    c = _specific_heat(_shares(of), 0.5 * (liquid_at + 34.0))
    heat = liquid * c * liquid_at + chocolate * SPECIFIC_HEAT * chocolate_at - loss
    capacity = liquid * c + chocolate * SPECIFIC_HEAT
    if not latent:
        return Bowl(Quantity(heat / capacity, "degC"), 1.0)
    spare = heat - capacity * TEMPER_LOST
    if spare <= 0:
        return Bowl(Quantity(heat / capacity, "degC"), 0.0)
    melted = spare / (chocolate * latent)
    if melted < 1:
        return Bowl(Quantity(TEMPER_LOST, "degC"), melted)
    return Bowl(Quantity((heat - chocolate * latent) / capacity, "degC"), 1.0)


def advice(end_at, liquid_at, state="tempered", kind="dark", error=PROBE_ERROR):
    """What a mixing temperature means for the set, a sentence.

    end_at, liquid_at, error: plain degC; kind as liquid_temperature. The probe's error is taken against the reader: that
    the crystals survive is said only where it holds at both ends of the error. Limits: temper_kept. Raises StudentError
    for another kind.

    >>> advice(31.5, 38.0)
    'Between 29 °C (84.2 °F) and 33.8 °C (92.8 °F) the crystals of dark chocolate survive: it sets in temper.'
    """
    if state == "drops":
        return "Hot enough to melt every crystal: this ganache sets without temper, softer and slower."
    (low, stand), lost = temper_kept(kind), tempered_from_to(kind)[1]
    chocolate, aim = f"{kind_named(kind)} chocolate", f"Aim at {_said(_aim(kind))}"
    if careful.at_least(end_at, lost, error):
        return f"At {_said(lost)} and above the crystals of {chocolate} are lost: it sets slowly and may turn grainy. {aim}."
    if not careful.at_most(end_at, stand, error):
        return f"Too near to where the crystals of {chocolate} melt, {_said(stand)}: a probe cannot tell whether they survive. {aim}."
    if careful.below(end_at, low, error):
        return f"Below {_said(low)} weaker crystals form and it stiffens before it is mixed. {aim}."
    if not careful.at_least(end_at, low, error):
        return f"Near {_said(low)}, below which weaker crystals form: a probe cannot tell. {aim}."
    if liquid_at > TEMPER_LOST + 6:
        return "The end is right, but the liquid alone would melt the crystals it meets: pour it in slowly, stirring."
    return f"Between {_said(low)} and {_said(stand)} the crystals of {chocolate} survive: it sets in temper."


def _said(degrees):
    return both(Quantity(degrees, "degC"), 3)
