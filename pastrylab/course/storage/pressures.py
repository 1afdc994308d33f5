"""The table of lesson 07: the pressure of water vapour that saturates air, by the degree, for sums with a pencil."""

from pastrylab.trade.storage import saturation_table

LOWEST, HIGHEST = 5, 29
_IN_A_ROW = 5


def saturated(celsius):
    """hPa at a whole degree, to the tenth, as the table has it. Raises KeyError for a degree that is not in it."""
    return dict(saturation_table(LOWEST, HIGHEST))[round(celsius)]


def first_with(hectopascal):
    """The lowest degree of the table whose air can hold more than so much. Raises ValueError where none does."""
    for celsius, holds in saturation_table(LOWEST, HIGHEST):
        if holds > hectopascal:
            return celsius
    raise ValueError(f"{hectopascal:g} hPa is beyond the table")


def pressures(g=None):
    """(heads, rows) of the table, five degrees to a row: a row's own degree, and so many more. g: not looked at."""
    found = [f"{hpa:.1f}" for _, hpa in saturation_table(LOWEST, HIGHEST)]
    rows = [(f"{LOWEST + at}", *found[at : at + _IN_A_ROW]) for at in range(0, HIGHEST - LOWEST + 1, _IN_A_ROW)]
    return ("hPa at °C", *(f"+ {more}" for more in range(_IN_A_ROW))), rows
