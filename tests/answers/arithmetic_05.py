"""Lesson 05 again in plain arithmetic: numbers of exercise_values.csv in, a number or an option's name out.

Nothing here calls the package. `ANSWERS` holds the answers, `ON_THE_WAY` what the worked solution shows before them,
as (number, unit), `TABLES` the rows of the table. Shares come and go in percent, as the file of values has them.
"""

import math

from dissolved import GRAM_MOLE, HEXOSE, NORRISH, SUCROSE, WATER

# --- what counts --------------------------------------------------------------------------------------------------


def what_counts(batch, water, couverture, sugar_share, invert, dissolved):
    """Neither the batch nor the cocoa holds water. Per 100 g of water."""
    return (couverture * sugar_share * dissolved / 10000 + invert) / water * 100


def _what_counts_shown(batch, water, couverture, sugar_share, invert, dissolved):
    return {
        "hundred": (100, "g"),
        "from_chocolate": (couverture * sugar_share / 100, "g"),
        "in_solution": (couverture * sugar_share * dissolved / 10000 + invert, "g"),
    }


# --- a meter over salt --------------------------------------------------------------------------------------------


def _over_salt(celsius):
    """Water activity over a wet slurry of table salt: CRC Handbook, constant humidity solutions, 69.20 exp(25 / T) %."""
    return 0.6920 * math.exp(25 / (celsius + 273.15))


def meter_check(room, over_salt, shown):
    """What the meter shows too much over the salt comes off, to the ten-thousandth the worked solution carries."""
    return shown - round(over_salt - _over_salt(room), 4)


def _meter_check_shown(room, over_salt, shown):
    return {"salt": (_over_salt(room), ""), "offset": (round(over_salt - _over_salt(room), 4), "")}


# --- the Food Code ------------------------------------------------------------------------------------------------


def _line_b(ph):
    """Below this thousandth table B (food not packaged) says non-TCS: FDA Food Code 1-201.10, its rows from the top."""
    if ph < 4.2:
        return 1000
    if ph <= 4.6:
        return 920
    return 900 if ph <= 5.0 else 880


def _line_a(ph):
    """The same of table A, heat-treated and packaged, its limits in the row themselves."""
    if ph <= 4.6:
        return 1000
    return 950 if ph <= 5.6 else 920


def highest_reading(ph, error):
    return (_line_b(ph) - round(1000 * error)) / 1000


def _highest_reading_shown(ph, error):
    return {"limit": (_line_b(ph) / 1000, ""), "limit_a": (_line_a(ph) / 1000, "")}


def display_case(case_at, days, estimate, reading, error, ph):
    """A measured value at the wetter end of its error, against table B; no estimate, no mould line, no number of days.

    pH 5.2 and more: "< 0.88" is non-TCS, 0.88 itself is not; in thousandths, as a meter shows them.
    """
    worst = round(1000 * reading) + round(1000 * error)
    assert 0 < ph and ph > 5.0, "the last column"
    return "under the line, then ask" if worst < 880 else "cold, and assess"


def _display_case_shown(case_at, days, estimate, reading, error, ph):
    cool, warm = 7.91 - 8.1 * reading, 6.42 - 6.47 * reading
    logarithm = (cool * (27 - case_at) + warm * (case_at - 21)) / 6  # a straight line between the two temperatures
    return {
        "limit": (0.88, ""),
        "worst": ((round(1000 * reading) + round(1000 * error)) / 1000, ""),
        "mould": (math.floor(10**logarithm + 0.5), ""),
    }


# --- invert for sugar ---------------------------------------------------------------------------------------------


def _norrish(water, sucrose, invert):
    """Shares of all moles (water, sucrose, invert), the sum of root K times share, and Norrish's water activity (1966)."""
    moles = water / WATER, sucrose / SUCROSE, invert / HEXOSE
    x = [part / sum(moles) for part in moles]
    roots = math.sqrt(NORRISH["sucrose"]) * x[1] + math.sqrt(NORRISH["glucose"]) * x[2]
    return x, roots, x[0] / math.exp(roots * roots)


def invert_for_sugar(water, sucrose, solids, swapped):
    return _norrish(water, sucrose - swapped, swapped)[2]


def _invert_for_sugar_shown(water, sucrose, solids, swapped):
    assert GRAM_MOLE["fructose"] == GRAM_MOLE["glucose"]
    (wet, sugar, invert), roots, after = _norrish(water, sucrose - swapped, swapped)
    before = _norrish(water, sucrose, 0)[2]
    return {
        "before": (before, ""),
        "after": (after, ""),
        "fall": (round(before - after, 4), ""),
        "x_water": (wet, ""),
        "x_sucrose": (sugar, ""),
        "x_invert": (invert, ""),
        "root_sum": (roots, ""),
        "squared": (roots * roots, ""),
    }


# --- days without mould -------------------------------------------------------------------------------------------


def days_without_mould(reading, error):
    """Cauvain & Seiler at 21 degC: log10 days = 7.91 - 0.081 x ERH %, at the wetter end of the meter's error."""
    return 10 ** (7.91 - 0.081 * 100 * (reading + error))


def _days_without_mould_shown(reading, error):
    return {
        "at": (21, "degC"),
        "warmer": (27, "degC"),
        "a": (7.91, ""),
        "b": (0.081, ""),
        "worst": (reading + error, ""),
        "humidity": (100 * (reading + error), ""),
        "logarithm": (7.91 - 8.1 * (reading + error), ""),
    }


ANSWERS = {
    "05.what-counts": what_counts,
    "05.meter-check": meter_check,
    "05.highest-reading": highest_reading,
    "05.invert-for-sugar": invert_for_sugar,
    "05.days-without-mould": days_without_mould,
    "05.display-case": display_case,
}
ON_THE_WAY = {
    "05.what-counts": _what_counts_shown,
    "05.meter-check": _meter_check_shown,
    "05.highest-reading": _highest_reading_shown,
    "05.invert-for-sugar": _invert_for_sugar_shown,
    "05.days-without-mould": _days_without_mould_shown,
    "05.display-case": _display_case_shown,
}
TABLES = {
    # Molar masses of IUPAC and the roots of 6.47 and 2.25, to the digits of a table.
    "05.invert-for-sugar": lambda **_: [
        ("water", "18.02", "none"),
        ("sucrose", "342.3", "2.544"),
        ("invert sugar", "180.2", "1.500"),
    ],
}
