"""How much sugar water holds: solubility of sucrose alone and beside other sugars."""

import math

import numpy as np

from pastrylab.ground.constants import WATER_MOLAR_MASS
from pastrylab.ground.roots import bisect, plain
from pastrylab.ground.units import Number, Reading, takes
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


def _polynomial(coefficients, t):
    return sum(c * t**power for power, c in enumerate(coefficients))


@takes(arrays=True, temperature=_SOLUBILITY_READING)
def sucrose_solubility(temperature):
    """Sucrose in a saturated solution, grams per 100 g of solution (a plain float, or an array).

    temperature: reading, 0-100 degC. Source: Charles 1960, as the ICUMSA tables follow it; other series read
    up to 0.6 higher (see sucrose_solubility_band). Raises StudentError outside 0-100 degC.

    >>> f"{sucrose_solubility('20 degC'):.1f}"
    '66.6'
    """
    return _polynomial(_CHARLES, temperature)


@takes(arrays=True, temperature=_SOLUBILITY_READING)
def sucrose_solubility_band(temperature):
    """Lowest and highest published solubility of sucrose, grams per 100 g of solution: (low, high).

    temperature: reading, 0-100 degC. Sources: Charles 1960, Vavrinecz 1962, Herzfeld's series as in the CRC
    Handbook and Mohos 2010 table A2.2. Raises StudentError outside 0-100 degC.

    >>> [f"{end:.1f}" for end in sucrose_solubility_band("20 degC")]
    ['66.6', '67.1']
    """
    herzfeld = np.interp(temperature, _HERZFELD_AT, _HERZFELD)
    series = [_polynomial(_CHARLES, temperature), _polynomial(_VAVRINECZ, temperature), herzfeld]
    low, high = np.minimum.reduce(series), np.maximum.reduce(series)
    return plain(low), plain(high)


def grain_from(share, solubility):
    """Sugar that can come out of 100 g of a supersaturated syrup as grain: g, a plain float; below 0 where none can.

    share: sugar in the syrup, 0 to 1. solubility: g per 100 g of saturated syrup, from sucrose_solubility. The water
    keeps what it holds, by mass balance.

    >>> f"{grain_from(0.80, 66.7):.0f}"
    '40'
    """
    return 100.0 * share - (100.0 - 100.0 * share) * solubility / (100.0 - solubility)


def _sucrose_activity(pairs):
    """A function of the grams of sucrose in 100 g of water beside the pairs: x * gamma of sucrose, as a logarithm.

    A regular solution whose water follows Norrish's mixture rule exactly.
    """
    sugar, water = SOLUTES["sucrose"], 100.0 / WATER_MOLAR_MASS
    moles = [(s, np.asarray(m, dtype=float) / s.molar_mass) for s, m in pairs]
    beside, field = plain(sum(n for _, n in moles)), plain(sum(np.sqrt(s.k) * n for s, n in moles))
    root = math.sqrt(sugar.k)

    def activity(sucrose):
        packets = sucrose / sugar.molar_mass
        total = water + (beside + packets)
        share = packets / total
        in_logs = math.log(max(share, 1e-300)) if isinstance(share, float) else np.log(np.maximum(share, 1e-300))
        return in_logs - (root - (field + root * packets) / total) ** 2

    return activity


def _sucrose_per_water(temperature, others=()):
    pure = 100.0 * sucrose_solubility.floats(temperature) / (100.0 - sucrose_solubility.floats(temperature))
    pairs = as_pairs(others)
    if not pairs:
        return pure
    activity, saturated = _sucrose_activity(pairs), _sucrose_activity([])(pure)
    return bisect(lambda s: activity(s) - saturated, 1e-6 * pure, 2.0 * pure)


def sucrose_dissolved(temperature, sucrose, others):
    """Of `sucrose` grams to 100 g of water, those that dissolve beside others: a plain float, in g to 100 g of water.

    temperature: plain degC, 0-100; sucrose: g to 100 g of water; others: {solute: g to 100 g of water}. As
    sucrose_per_water, which is searched for only where not all of it dissolves. Raises StudentError for unknown
    solutes.

    >>> f"{sucrose_dissolved(20.0, 250.0, {'glucose': 60.0}):.0f}"
    '174'
    """
    pairs = as_pairs(others)
    pure = 100.0 * sucrose_solubility.floats(temperature) / (100.0 - sucrose_solubility.floats(temperature))
    if _sucrose_activity(pairs)(sucrose) <= _sucrose_activity([])(pure):
        return sucrose
    return min(sucrose, float(_sucrose_per_water(temperature, pairs)))


def sucrose_per_water(temperature, others=None):
    """Sucrose that 100 g of water hold beside other dissolved sugars, in grams (a plain float, or an array).

    temperature: reading, 0-100 degC. others: {solute: grams dissolved per 100 g of water}, plain numbers;
    None for sucrose alone. Model: regular solution consistent with Norrish's mixture rule (constants of 25
    degC), started from the pure solubility of Charles 1960; the older rule of sugar boilers differs by up to
    2 points of solids. Raises StudentError for unknown solutes and outside the range.

    >>> [f"{sucrose_per_water('20 degC', others):.0f}" for others in (None, {"glucose": 60})]
    ['199', '174']
    """
    room = _SOLUBILITY_READING.floats("temperature", temperature)
    dissolved = Number(at_least=0, at_most=2000, example="100")
    pairs = [(s, dissolved.floats(s.name, mass)) for s, mass in as_pairs(others or {})]
    return _sucrose_per_water(room, pairs)


sucrose_per_water.floats = lambda temperature, others=None: _sucrose_per_water(temperature, others or {})
