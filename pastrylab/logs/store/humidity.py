"""The humidity column of a store room's log: percent, shares, or a dew point; error codes and what can be no humidity."""

import re

import numpy as np

from pastrylab.ground.units import StudentError
from pastrylab.logs.cut import rows_named
from pastrylab.logs.store.headings import tells_percent
from pastrylab.trade.storage import air

LEAST, MOST = 1.0, 105.0  # percent; below and above a sensor is at fault, not the air
_FAULTS = 0.1  # of the readings: with more of them the column is no humidity
DRIEST = 25.0  # percent: a room drier than this all day is asked about
_NUMBER = re.compile(r"([+\-−–]?[0-9]{1,9}(?:[.,][0-9]{0,12})?)")
_EXAMPLE = "48 %"


def of_column(cells, lines, name, marked):
    """(relative humidity as shares, nan where none was read; sentences) of a column's cells.

    lines: the row of each; name: the column's; marked: whether its numbers bore "%". StudentError: what can be none.

    >>> of_column(["48", "", "49,5"], [2, 3, 4], "RH", False)[0].tolist()
    [0.48, nan, 0.495]
    """
    found = [_NUMBER.fullmatch(cell) for cell in cells]
    values = np.array([float(re.sub("[−–]", "-", m[1]).replace(",", ".")) if m else np.nan for m in found])
    odd = [line for line, cell, m in zip(lines, cells, found, strict=True) if not m and re.search("[0-9]", cell)]
    known = values[np.isfinite(values)]
    if not known.size:
        raise StudentError(f"'{name}' without a number", "the relative humidity in % in each row", _EXAMPLE)
    said = []
    if known.max() <= 1.0 and known.min() > 0.0:
        values = values * 100.0
        said.append("The humidity is written as shares: 0.48 was read as 48 %.")
    wrong = np.isfinite(values) & ((values < LEAST) | (values > MOST))
    if wrong.sum() + len(odd) > _FAULTS * (known.size + len(odd)):
        row = odd[0] if odd else lines[int(np.flatnonzero(wrong)[0])]
        raise StudentError(
            f"'{name}' with numbers that are no relative humidity, the first in row {row}",
            "% from 1 to 100; a dew point, or grams of water in the air, under a name that says so",
            "time; room °C; humidity %",
        )
    if not (marked or tells_percent(name)) and not said and np.quantile(known, 0.95) < DRIEST:
        raise StudentError(
            f"'{name}' with numbers up to {known.max():g}, which can be %, a dew point, or grams of water in the air",
            "its unit over the column",
            "humidity %, dew point °C, or g/m³",
        )
    faulty = sorted([line for line, bad in zip(lines, wrong, strict=True) if bad] + odd)
    if faulty:
        said.append(f"{rows_named(faulty)}: an error code, not a humidity. Left out as a gap.")
    over = int(np.sum(values[~wrong & np.isfinite(values)] > 100))
    if over:
        said.append(f"Readings above 100 %: {over}. Air holds no more; they were read as 100 %.")
    return np.where(wrong, np.nan, np.minimum(values, 100.0)) / 100.0, tuple(said)


def of_dew_point(degrees, dew):
    """Relative humidity as shares, from the air's temperatures and its dew points in degC; nan where one is missing.

    A dew point that lies above the air's temperature by up to 1 degC counts as 100 %. StudentError where more do.

    >>> f"{of_dew_point(np.array([20.0]), np.array([9.27]))[0]:.2f}"  # 20 degC and 50 %
    '0.50'
    """
    both = np.isfinite(degrees) & np.isfinite(dew)
    if np.any(dew[both] > degrees[both] + 1.0):
        given = "dew points that lie above the temperature of the air"
        raise StudentError(given, "the dew point and the air's temperature of the same place", "20 °C; dew point 9 °C")
    shares = np.full(len(degrees), np.nan)
    shares[both] = np.minimum(at_surface(dew[both], degrees[both], np.ones(both.sum())), 1.0)
    return shares


def at_surface(air_degrees, surface, shares):
    """Relative humidity at surfaces of another temperature than the air's, reading by reading; arrays, degC and shares.

    Each pair of temperatures is asked for once: a log repeats them.

    >>> f"{at_surface(np.array([22.0]), np.array([15.0]), np.array([0.55]))[0]:.2f}"
    '0.85'
    """
    pairs, back = np.unique(np.column_stack([air_degrees, surface]), axis=0, return_inverse=True)
    ratio = np.array([air.surface_humidity.floats(cold, warm, 1.0) for warm, cold in pairs])
    return np.asarray(shares) * ratio[np.ravel(back)]
