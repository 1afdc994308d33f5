"""How much sugar a filling's water holds: solubility of sucrose alone and beside other sugars, and
graining.
"""

from dataclasses import dataclass

import numpy as np

from pastrylab.ground import careful
from pastrylab.ground.constants import WATER_MOLAR_MASS
from pastrylab.ground.roots import bisect, plain
from pastrylab.ground.units import In, Number, Reading, Share, StudentError, takes
from pastrylab.trade.saturation import holds
from pastrylab.trade.solutes import SOLUTES, as_pairs

# Grams per 100 g solution over 0-100 degC. Both fits from memory, each within 0.3 of independent tables read.
_CHARLES = (64.397, 0.07251, 0.0020569, -9.035e-6, 0.0)  # Charles 1960
_VAVRINECZ = (64.447, 0.08222, 1.6169e-3, -1.558e-6, -4.63e-8)  # Vavrinecz 1962
# Herzfeld series: CRC Handbook and Mohos 2010 (Confectionery and Chocolate Engineering) table A2.2.
_HERZFELD_AT = (0, 5, 15, 20, 25, 30, 35, 40, 45, 55, 60, 65, 75, 80, 85, 95, 100)
_HERZFELD = (
    *(64.18, 64.87, 66.33, 67.09, 67.89, 68.70, 69.55, 70.42, 71.32),
    *(73.20, 74.18, 75.18, 77.27, 78.36, 79.46, 81.77, 82.97),
)
_SOLUBILITY_READING = Reading(at_least=0, at_most=100, example="20 degC")
_STORE_READING = Reading(at_least=0, at_most=40, example="18 degC")
_MASS = In("g", at_least=0, example="60 g")
_MODEL_ERROR = 0.05  # of the supersaturation ratio: 1-2 points of solids between sources and models

# Glucose to water, g/g: White et al. 1962, USDA Technical Bulletin 1261, for honey.
HONEY_STAYS, HONEY_GRAINS = 1.7, 2.1


def _polynomial(coefficients, t):
    return sum(c * t**power for power, c in enumerate(coefficients))


@takes(temperature=_SOLUBILITY_READING)
def sucrose_solubility(temperature):
    """Sucrose in a saturated solution, grams per 100 g of solution (a plain float, or an array).

    temperature: reading, 0-100 degC. Source: Charles 1960, as the ICUMSA tables follow it; other series read
    up to 0.6 higher (see sucrose_solubility_band). Raises StudentError outside 0-100 degC.
    """
    return _polynomial(_CHARLES, temperature)


@takes(temperature=_SOLUBILITY_READING)
def sucrose_solubility_band(temperature):
    """Lowest and highest published solubility of sucrose, grams per 100 g of solution: (low, high).

    temperature: reading, 0-100 degC. Sources: Charles 1960, Vavrinecz 1962, Herzfeld's series as in the CRC
    Handbook and Mohos 2010 table A2.2. Raises StudentError outside 0-100 degC.
    """
    herzfeld = np.interp(temperature, _HERZFELD_AT, _HERZFELD)
    series = [_polynomial(_CHARLES, temperature), _polynomial(_VAVRINECZ, temperature), herzfeld]
    low, high = np.minimum.reduce(series), np.maximum.reduce(series)
    return plain(low), plain(high)


def _sucrose_activity(sucrose, pairs, water):
    """x * gamma of sucrose in a regular solution whose water follows Norrish's mixture rule exactly."""
    sugar = SOLUTES["sucrose"]
    moles = [(s, np.asarray(m, dtype=float) / s.molar_mass) for s, m in [*pairs, (sugar, sucrose)]]
    total = water / WATER_MOLAR_MASS + sum(n for _, n in moles)
    field = sum(np.sqrt(s.k) * n for s, n in moles) / total
    share = sucrose / sugar.molar_mass / total
    return np.log(np.maximum(share, 1e-300)) - (np.sqrt(sugar.k) - field) ** 2


def _sucrose_per_water(temperature, others=()):
    pure = 100.0 * sucrose_solubility.floats(temperature) / (100.0 - sucrose_solubility.floats(temperature))
    pairs = as_pairs(others)
    if not pairs:
        return pure
    saturated = _sucrose_activity(pure, [], 100.0)
    return bisect(lambda s: _sucrose_activity(s, pairs, 100.0) - saturated, 1e-6 * pure, 2.0 * pure)


def sucrose_dissolved(temperature, sucrose, others):
    """Of `sucrose` grams to 100 g of water, those that dissolve beside others {solute: grams to 100 g}: plain numbers.

    As sucrose_per_water, which is searched for only where not all of it dissolves.
    """
    pairs = as_pairs(others)
    pure = 100.0 * sucrose_solubility.floats(temperature) / (100.0 - sucrose_solubility.floats(temperature))
    if _sucrose_activity(sucrose, pairs, 100.0) <= _sucrose_activity(pure, [], 100.0):
        return sucrose
    return min(sucrose, float(_sucrose_per_water(temperature, pairs)))


def sucrose_per_water(temperature, others=None):
    """Sucrose that 100 g of water hold beside other dissolved sugars, in grams (a plain float, or an array).

    temperature: reading, 0-100 degC. others: {solute: grams dissolved per 100 g of water}, plain numbers;
    None for sucrose alone. Model: regular solution consistent with Norrish's mixture rule (constants of 25
    degC), started from the pure solubility of Charles 1960; the older rule of sugar boilers differs by up to
    2 points of solids. Raises StudentError for unknown solutes and outside the range.
    """
    room = _SOLUBILITY_READING.floats("temperature", temperature)
    dissolved = Number(at_least=0, at_most=2000, example="100")
    pairs = [(s, dissolved.floats(s.name, mass)) for s, mass in as_pairs(others or {})]
    return _sucrose_per_water(room, pairs)


sucrose_per_water.floats = lambda temperature, others=None: _sucrose_per_water(temperature, others or {})


@dataclass(frozen=True)
class Graining:
    """Whether a water phase may grain. supersaturation: sucrose held over sucrose that would saturate (0
    without sucrose); low, high: the same within the model's error; glucose_to_water: g per g; stays: whether all of it
    stays dissolved (True, False, None for "cannot tell"); sentence: what it means.
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
    ratio = 100.0 * sucrose / float(_sucrose_per_water(room, others))
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
            "The sucrose is about at saturation, within the error of the model: it may grain in the cold or with a seed"
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
    """

    glucose_to_water: float
    tendency: str
    sentence: str

    def __str__(self):
        return self.sentence


@takes(
    glucose_share=Share(at_most=0.6),
    water_share=Share(at_least=0.1, at_most=0.3, example='0.172 or "17.2 %"'),
)
def honey_granulation(glucose_share, water_share):
    """How readily a honey crystallises, from its glucose and water as shares of mass.

    Returns HoneyGranulation. Under 1.7 g glucose per g water a honey tends to stay liquid, above 2.1 it
    crystallises soon (White et al. 1962, USDA Technical Bulletin 1261); useful only between honeys that
    differ clearly. Raises StudentError for water outside 10-30 %.
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


@takes(water_share=Share(), glucose_share=Share(), fructose_share=Share(), sucrose_share=Share())
def honey_shortfalls(water_share, glucose_share, fructose_share, sucrose_share=0.0):
    """Where a blossom honey misses Directive 2001/110/EC, Annex II, as a list of sentences (empty: it meets
    these).

    Shares of mass. Limits: water at most 20 %, fructose + glucose at least 60 g/100 g, sucrose at most 5 %.
    Raises StudentError if the shares add up to more than 1.
    """
    if water_share + glucose_share + fructose_share + sucrose_share > 1.0 + 1e-9:
        raise StudentError(
            "shares that add up to more than the whole", "shares of one honey", "water 0.172, glucose 0.313"
        )
    hexoses = glucose_share + fructose_share
    checks = (
        (water_share > HONEY_WATER_MAX, f"water {water_share:.1%}, at most {HONEY_WATER_MAX:.0%}"),
        (
            hexoses < HONEY_HEXOSES_MIN,
            f"fructose and glucose {hexoses:.1%}, at least {HONEY_HEXOSES_MIN:.0%}",
        ),
        (sucrose_share > HONEY_SUCROSE_MAX, f"sucrose {sucrose_share:.1%}, at most {HONEY_SUCROSE_MAX:.0%}"),
    )
    return [sentence for missed, sentence in checks if missed]


# Directive 2001/110/EC, Annex II: honey in general, blossom honey.
HONEY_WATER_MAX, HONEY_HEXOSES_MIN, HONEY_SUCROSE_MAX = 0.20, 0.60, 0.05
