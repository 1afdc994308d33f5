"""Where a ganache ends up when chocolate and liquid meet, and how warm the liquid must be: two routes by heat balance.

Tempered route: the liquid goes into tempered chocolate, nothing melts.   m_l c_l (T_l - T) = m_c c (T - T_c) + loss
Drops route: hot liquid goes on set drops, which melt at about 34 degC.  m_l c_l (T_l - T) = m_c [c (T - T_c) + x L] + loss
c = 1.59 kJ/(kg K) and L as in tempering.py (Beckett 2009). c_l by components: Choi & Okos 1986, in Food Engineering and
Process Applications, vol. 1 (coefficients from memory, within 3 % of the tables tried). Those equations take fat as
liquid: below about 35 degC the fat of cream also gives up or takes up heat of melting, which is left out here.
"""

from dataclasses import dataclass

import numpy as np

from pastrylab.datasets import ingredients
from pastrylab.formula import Formula
from pastrylab.pantry import ingredient_name
from pastrylab.tempering import LATENT_HEAT, SPECIFIC_HEAT, TEMPER_LOST, kind_named
from pastrylab.units import In, Quantity, Reading, StudentError, takes

STATES = ("tempered", "drops")
WEAK_BELOW = 29.0  # degC; Greweling, Chocolates and Confections, 2007: below it weaker crystal forms stand
BOILING = 100.0
# kJ/(kg K) = a + b T + c T^2, T in degC. Alcohol: one figure at 25 degC, CRC Handbook (from memory).
_HEAT_CAPACITY = {
    "water": (4.1289, -9.0864e-5, 5.4731e-6),
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
    Fat counts as liquid. Raises StudentError.
    """
    return _specific_heat(_shares(of), temperature)


def _shares(of):
    if isinstance(of, Formula):
        made = of.composition()
        return {name: made.grams[name] / made.total_grams for name in made}
    row = ingredients().loc[ingredient_name(of)]
    return {name: float(share) for name, share in row.items() if name not in ("milk_fat", "cocoa_butter")}


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

    of: the liquid, an ingredient or a Formula (then `liquid` is its mass). state: "tempered" (melted, in temper, nothing
    melts) or "drops" (set; all of it melts, so the target is 34 degC or warmer). loss: heat that bowl and room take.
    Heat balance above. Raises StudentError, also where the liquid would have to boil or freeze.
    """
    latent = _latent(state, kind)
    if latent and np.any(np.asarray(target) < TEMPER_LOST):
        raise StudentError(
            f"{np.min(target):g} °C as the end of drops that melt",
            f"a target of {TEMPER_LOST:g} °C or warmer, where all of the chocolate is melted",
            'target="38 degC"',
        )
    if latent and np.any(np.asarray(chocolate_at) > 30):
        raise StudentError(
            f"{np.max(chocolate_at):g} °C for set drops", "drops at 30 °C or colder", 'chocolate_at="20 degC"'
        )
    needed = chocolate * (SPECIFIC_HEAT * (target - chocolate_at) + latent) + loss
    c = _specific_heat(_shares(of), target)
    needed_at = target + needed / (liquid * c)
    if np.any(np.asarray(needed_at) > BOILING) or np.any(np.asarray(needed_at) < 0):
        too = "above boiling" if np.any(np.asarray(needed_at) > BOILING) else "frozen"
        raise StudentError(
            f"a mix whose liquid would have to be {too}",
            "more liquid, or the chocolate partly melted first" if too == "above boiling" else "cooler chocolate",
            'liquid="200 g"',
        )
    return needed_at


def _latent(state, kind):
    if state not in STATES:
        raise StudentError(f"'{state}' for the chocolate", "tempered or drops", 'state="tempered"')
    return LATENT_HEAT[kind_named(kind)] if state == "drops" else 0.0


@dataclass(frozen=True)
class Bowl:
    """Where a bowl ends up: `temperature`, a reading, and the share of the drops that melts (1 for melted chocolate)."""

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
    at one temperature: real chocolate does so over some degrees below. Raises StudentError.
    """
    latent = _latent(state, kind)
    c = _specific_heat(_shares(of), 0.5 * (liquid_at + 34.0))
    heat = liquid * c * liquid_at + chocolate * SPECIFIC_HEAT * chocolate_at - loss
    capacity = liquid * c + chocolate * SPECIFIC_HEAT
    if not latent:
        return Bowl(Quantity(heat / capacity, "degC"), 1.0)
    if chocolate_at > 30:
        raise StudentError(f"{chocolate_at:g} °C for set drops", "drops at 30 °C or colder", 'chocolate_at="20 degC"')
    spare = heat - capacity * TEMPER_LOST
    if spare <= 0:
        return Bowl(Quantity(heat / capacity, "degC"), 0.0)
    melted = spare / (chocolate * latent)
    if melted < 1:
        return Bowl(Quantity(TEMPER_LOST, "degC"), melted)
    return Bowl(Quantity((heat - chocolate * latent) / capacity, "degC"), 1.0)


def advice(end_at, liquid_at, state="tempered"):
    """What a mixing temperature means for the set, a sentence. end_at, liquid_at: plain degC. Source: Greweling 2007."""
    if state == "drops":
        return "Hot enough to melt every crystal: this ganache sets without temper, softer and slower."
    if end_at > TEMPER_LOST:
        return "Above 34 °C (93 °F) the crystals are lost: it sets slowly and may turn grainy."
    if end_at < WEAK_BELOW:
        return "Below 29 °C (84 °F) weaker crystals form and it stiffens before it is mixed."
    if liquid_at > TEMPER_LOST + 6:
        return "The end is right, but the liquid alone would melt the crystals it meets: pour it in slowly, stirring."
    return "Between 29 and 34 °C (84 and 93 °F): the crystals survive and the ganache sets in temper."
