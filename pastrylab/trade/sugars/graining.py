"""Whether a filling or a honey grains: sucrose and glucose against what the water holds."""

from dataclasses import dataclass

from pastrylab.ground import careful
from pastrylab.ground.units import In, Reading, Share, takes
from pastrylab.trade.saturation import holds
from pastrylab.trade.solutes import as_pairs
from pastrylab.trade.sugars.solubility import sucrose_per_water

_STORE_READING = Reading(at_least=0, at_most=40, example="18 degC")
_MASS = In("g", at_least=0, example="60 g")
_MODEL_ERROR = 0.05  # of the supersaturation ratio: 1-2 points of solids between sources and models

# Glucose to water, g/g: White et al. 1962, USDA Technical Bulletin 1261, for honey.
HONEY_STAYS, HONEY_GRAINS = 1.7, 2.1


@dataclass(frozen=True)
class Graining:
    """Whether a water phase may grain. supersaturation: sucrose held over sucrose that would saturate (0
    without sucrose); low, high: the same within the model's error; glucose_to_water: g per g; stays: whether all of it
    stays dissolved (True, False, None for "cannot tell"); sentence: what it means.

    >>> graining_risk("100 g", {"sucrose": "220 g"}, "18 degC").stays
    False
    """

    supersaturation: float
    low: float
    high: float
    glucose_to_water: float
    stays: bool | None
    sentence: str

    def __str__(self):
        return self.sentence


def graining_risk(water, sugars, temperature):
    """Whether the water phase of a filling may grain at its storage temperature.

    water: mass. sugars: {sugar: mass}. temperature: reading, 0-40 degC. Returns Graining. Sucrose is compared
    with what the water holds beside the other sugars (sucrose_per_water); glucose, lactose and all else with a known
    limit with what water holds of it at that temperature (saturation.HOLDS). Graining also needs time, seeds and
    movement, which this does not see. Raises StudentError, also without water.

    >>> print(graining_risk("200 g", {"sucrose": "250 g", "glucose": "100 g"}, "18 degC"))
    The water can hold all of it: it will not grain by itself (supersaturation of sucrose 0.71).
    """
    water_g = In("g", above=0, example="200 g").floats("water", water)
    room = _STORE_READING.floats("temperature", temperature)
    pairs = [(s, _MASS.floats(s.name, m)) for s, m in as_pairs(sugars)]
    held = {s.name: 0.0 for s, _ in pairs}
    for s, m in pairs:
        for name, part in ((s.name, 1.0),) if s.name != "invert sugar" else (("glucose", 0.5), ("fructose", 0.5)):
            held[name] = held.get(name, 0.0) + part * m / water_g
    sucrose = held.pop("sucrose", 0.0)
    others = [(s, 100.0 * m / water_g) for s, m in pairs if s.name != "sucrose"]
    ratio = 100.0 * sucrose / float(sucrose_per_water.floats(room, others))
    low, high = ratio * (1 - _MODEL_ERROR), ratio * (1 + _MODEL_ERROR)
    found = [] if sucrose == 0 else [(careful.below(ratio, 1.0, ratio * _MODEL_ERROR), _of_sucrose(ratio, low, high))]
    found += [_of_another(name, m, room, sucrose + sum(held.values()) - m) for name, m in held.items() if m > 0]
    stays = careful.every(finding for finding, _ in found)
    if stays:
        said = "The water can hold all of it: it will not grain by itself"
        said += f" (supersaturation of sucrose {ratio:.2f})." if sucrose else "."
    else:
        said = " ".join(sentence for finding, sentence in found if finding is not True)
    return Graining(ratio, low, high, held.get("glucose", 0.0), stays, said)


def _of_sucrose(ratio, low, high):
    if low > 1:
        said = "The water holds more sucrose than saturation: it can grain, sooner with a seed, stirring or cold"
    else:
        said = (
            "The sucrose is about at saturation, within the error of the sum: it may grain in the cold or with a seed"
        )
    return f"{said} (supersaturation {ratio:.2f})."


def _of_another(name, per_water, room, others):
    """(whether it stays dissolved, a sentence) for grams of a solute other than sucrose to a gram of water."""
    least, most = holds(name, room, others)
    if least is None:
        return True, ""
    middle = 0.5 * (least + most)
    stays = careful.below(per_water, middle, middle - least)
    given = f"{name.capitalize()}, {per_water:.2f} g per g of water,"
    if stays is False:
        return stays, f"{given} can crystallise as well: at that temperature water holds about {middle:.2f}."
    return stays, f"{given} is about at its own limit, {least:.2f} to {most:.2f} at that temperature."


@dataclass(frozen=True)
class HoneyGranulation:
    """glucose_to_water (g per g); tendency: "stays liquid for long", "in between" or "crystallises soon";
    sentence.

    >>> f"{honey_granulation(0.313, 0.172).glucose_to_water:.2f}"
    '1.82'
    """

    glucose_to_water: float
    tendency: str
    sentence: str

    def __str__(self):
        return self.sentence


@takes(
    glucose_share=Share(at_most=0.6, example='0.31 or "31 %"'),
    water_share=Share(at_least=0.1, at_most=0.3, example='0.172 or "17.2 %"'),
)
def honey_granulation(glucose_share, water_share):
    """How readily a honey crystallises, from its glucose and its water. Returns HoneyGranulation.

    glucose_share, water_share: shares of mass, 0 to 0.6 and 0.1 to 0.3. Under 1.7 g glucose per g water a honey tends
    to stay liquid, above 2.1 it crystallises soon (White et al. 1962, USDA Technical Bulletin 1261); useful only
    between honeys that differ clearly. Raises StudentError outside the ranges.

    >>> print(honey_granulation("38 %", "17 %"))
    2.24 g of glucose per g of water: crystallises soon (1.7 and 2.1 are the marks).
    """
    ratio = glucose_share / water_share
    tendency = "in between"
    if ratio < HONEY_STAYS:
        tendency = "stays liquid for long"
    elif ratio > HONEY_GRAINS:
        tendency = "crystallises soon"
    marks = f"{HONEY_STAYS} and {HONEY_GRAINS} are the marks"
    sentence = f"{ratio:.2f} g of glucose per g of water: {tendency} ({marks})."
    return HoneyGranulation(ratio, tendency, sentence)
