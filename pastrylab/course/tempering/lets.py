"""What several exercises of lesson 02 give besides their values: the couverture, its constants, a difference of readings."""

from pastrylab.ground.units import Q
from pastrylab.trade import chocolate

HEAT_CAPACITY = {"heat_capacity": lambda g: Q(chocolate.SPECIFIC_HEAT, "kJ/(kg*K)")}
CHOCOLATE = "dark couverture 64 %"
LATENT = {
    "couverture": lambda g: CHOCOLATE,
    "latent": lambda g: Q(chocolate.latent_heat(CHOCOLATE), "kJ/kg"),
}


def steps_of(high, low):
    """How far apart two readings (quantities) are, as a difference in Celsius steps.

    >>> f"{steps_of(Q(46, 'degC'), Q(31.5, 'degC')).magnitude:g} steps"
    '14.5 steps'
    """
    return Q(high.m_as("degC") - low.m_as("degC"), "delta_degC")
