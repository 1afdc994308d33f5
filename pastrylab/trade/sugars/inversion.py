"""Inversion of sucrose: the water it takes up, and its rate by acid and heat."""

import numpy as np

from pastrylab.ground.constants import WATER_MOLAR_MASS, ZERO_CELSIUS
from pastrylab.ground.roots import plain
from pastrylab.ground.units import In, Number, Reading, Share, takes
from pastrylab.trade.solutes import SOLUTES
from pastrylab.trade.sugars.density import water_per_ml

# C12H22O11 + H2O -> 2 C6H12O6: water taken up per gram of sucrose.
UPTAKE = WATER_MOLAR_MASS / SOLUTES["sucrose"].molar_mass

# Vukov 1965, International Sugar Journal 67:172, from memory: log10 k[1/min] = 16.91 + log10(water, g/mL) -
# 5670/T - pH. 0.99 of Guggenheim & Wiseman 1950 in 0.1 M acid, 0.82 of a textbook value for neutral water:
# about 25 %.
_VUKOV = (16.91, 5670.0)
RATE_ERROR = 0.25
_SUCROSE = In("g", above=0, example="500 g")
INVERTED = Share(example='0.95 or "95 %"')
PH = Number(at_least=1, at_most=8, example="3.2")
_HEAT = Reading(at_least=0, at_most=125, example="100 degC")
_SYRUP = Share(at_most=0.92, example='0.75 or "75 %"')
TIME = In("min", above=0, example="30 min")


@takes(returns="g", sucrose=_SUCROSE, share=INVERTED)
def invert_yield(sucrose, share=1.0):
    """Mass of total sugars from sucrose of which a share is inverted: sucrose x (1 + 0.05263 share), in g.

    sucrose: mass. share: inverted, 0 to 1. Each gram inverted takes up 0.0526 g of water. Source: molar
    masses 342.30, 18.015 and 180.16 g/mol. Raises StudentError.

    >>> f"{invert_yield('500 g').m_as('g'):.1f}"
    '526.3'
    """
    return sucrose * (1.0 + UPTAKE * share)


@takes(returns="g", sucrose=_SUCROSE, share=INVERTED)
def water_taken_up(sucrose, share=1.0):
    """Water that inversion takes from the syrup, in g: 5.26 g per 100 g of sucrose inverted.

    sucrose: mass; share: inverted, 0 to 1. Source as invert_yield. Raises StudentError.

    >>> f"{water_taken_up('500 g').m_as('g'):.1f}"
    '26.3'
    """
    return sucrose * UPTAKE * share


@takes(returns="1/min", ph=PH, temperature=_HEAT, solids_share=_SYRUP)
def inversion_rate(ph, temperature, solids_share=0.0):
    """First-order rate constant of acid inversion, per minute.

    ph: measured, 1-8. temperature: reading, 0-125 degC. solids_share: solids of that syrup by mass, 0-0.92 (a
    thick syrup holds less water and inverts two to five times slower). Source: Vukov 1965 with the water of
    the syrup in g/mL; good to about 25 % (0.1 of pH is 26 %). Raises StudentError outside the ranges.

    >>> f"{inversion_rate(3.0, '100 degC', 0.70).m_as('1/min'):.4f}"
    '0.0210'
    """
    constant, slope = _VUKOV
    water = water_per_ml(solids_share)
    return plain(10.0 ** (constant + np.log10(water) - slope / (np.asarray(temperature) + ZERO_CELSIUS) - ph))


@takes(rate=In("1/min", above=0, example="0.02 1/min"), time=TIME)
def inverted_share(rate, time):
    """Share of the sucrose inverted after a time at a constant rate: 1 - exp(-k t), a plain float.

    rate: per minute, from inversion_rate. time: above zero. Raises StudentError.

    >>> f"{inverted_share('0.03 1/min', '60 min'):.2f}"
    '0.83'
    """
    return plain(-np.expm1(-np.asarray(rate) * time))


def inverted_between(rate, time):
    """(low, high): the share inverted where the rate is off by its error, RATE_ERROR, down and up. Plain floats.

    rate: per minute, from inversion_rate.floats; time: minutes, a float or an array, which two arrays answer.

    >>> ["{:.2f}".format(share) for share in inverted_between(0.03, 60.0)]
    ['0.74', '0.89']
    """
    return tuple(inverted_share.floats(rate * off, time) for off in (1.0 - RATE_ERROR, 1.0 + RATE_ERROR))


@takes(returns="min", share=Share(below=1, example="0.9"), rate=In("1/min", above=0, example="0.02 1/min"))
def time_to_invert(share, rate):
    """Time after which a share is inverted at a constant rate, in minutes: the inverse of inverted_share.

    share: from 0 to below 1. rate: per minute, above zero, from inversion_rate. Raises StudentError.

    >>> f"{time_to_invert(0.95, '0.03 1/min').m_as('min'):.0f}"
    '100'
    """
    return plain(-np.log1p(-np.asarray(share, dtype=float)) / rate)
