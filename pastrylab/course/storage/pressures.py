"""The table of lesson 07: the pressure of water vapour that saturates air, by the degree, for sums with a pencil."""

from pastrylab.ground.units import StudentError
from pastrylab.trade.storage import saturation_table

LOWEST, HIGHEST = 5, 29
_IN_A_ROW = 5


def saturated(celsius):
    """hPa at a whole degree, to the tenth, as the table has it. Raises StudentError for a degree that is not in it."""
    at = round(celsius)
    if not LOWEST <= at <= HIGHEST:
        raise _beyond(f"air or a surface at {celsius:g} °C")
    return dict(saturation_table(LOWEST, HIGHEST))[at]


def first_with(hectopascal):
    """The lowest degree of the table whose air can hold more than so much. Raises StudentError where none does."""
    for celsius, holds in saturation_table(LOWEST, HIGHEST):
        if holds > hectopascal:
            return celsius
    raise _beyond(f"air that has to hold {hectopascal:g} hPa")


def _beyond(given):
    return StudentError(given, f"temperatures of the table under the question, {LOWEST} to {HIGHEST} °C", "22 °C")


def held(name):
    """What air at a given's temperature can hold, as the table under the prompt has it: a function of the givens."""
    return lambda g: saturated(getattr(g, name).m_as("degC"))


def vapour(air, humidity):
    """What the air of two givens does hold, in hPa: a function of the givens."""
    return lambda g: getattr(g, humidity).m_as("dimensionless") * saturated(getattr(g, air).m_as("degC"))


def pressures(g=None):
    """(heads, rows) of the table, five degrees to a row: a row's own degree, and so many more. g: not looked at."""
    found = [f"{hpa:.1f}" for _, hpa in saturation_table(LOWEST, HIGHEST)]
    rows = [(f"{LOWEST + at}", *found[at : at + _IN_A_ROW]) for at in range(0, HIGHEST - LOWEST + 1, _IN_A_ROW)]
    return ("hPa at °C", *(f"+ {more}" for more in range(_IN_A_ROW))), rows
