"""Lesson 07 again in plain arithmetic: numbers of exercise_values.csv in, a number or an option's name out.

Nothing here calls the package. `ANSWERS` holds the answers, `ON_THE_WAY` what the worked solution shows before them,
as (number, unit), `WRITTEN` what it says as text, `TABLES` the rows of the table. Shares of the givens come in percent,
as the file of values has them; an answer that is a share is one of 1.
"""

import math

DARK, DARK_HIGH, MILK = 82, 85, 78  # %, food-info.net, question fp44


def holds(celsius):
    """Saturation pressure over water in hPa, to the tenth: Hyland & Wexler 1983, ASHRAE Fundamentals 2017, eq. 6."""
    t = celsius + 273.15
    log = -5.8002206e3 / t + 1.3914993 - 4.8640239e-2 * t + 4.1764768e-5 * t**2 - 1.4452093e-8 * t**3
    return round(math.exp(log + 6.5459673 * math.log(t)) / 100, 1)


def coldest(hectopascal):
    """The first degree, from 5 up, at which air can hold more than so much."""
    return next(celsius for celsius in range(5, 30) if holds(celsius) > hectopascal)


def humidity_at_the_tray(air, humidity, surface):
    return humidity * holds(air) / holds(surface) / 100


def _humidity_at_the_tray_shown(air, humidity, surface):
    return {"warm": (holds(air), ""), "cold": (holds(surface), ""), "vapour": (humidity * holds(air) / 100, "")}


def colder_by_fahrenheit(air, humidity, colder):
    return humidity * holds(air) / holds(air - colder * 5 / 9) / 100


def _colder_by_fahrenheit_shown(air, humidity, colder):
    surface = air - colder * 5 / 9
    return {
        "fahrenheit": (colder, ""),
        "per_step": (9 / 5, ""),
        "steps": (colder * 5 / 9, ""),
        "surface": (surface, "degC"),
        "warm": (holds(air), ""),
        "cold": (holds(surface), ""),
        "vapour": (humidity * holds(air) / 100, ""),
    }


def open_window(store, inside, outside, humidity):
    return humidity * holds(outside) / holds(store) / 100


def _open_window_shown(store, inside, outside, humidity):
    return {
        "warm": (holds(outside), ""),
        "cold": (holds(store), ""),
        "vapour": (humidity * holds(outside) / 100, ""),
        "within": (inside * holds(store) / 100, ""),
    }


def coldest_surface(air, humidity):
    return coldest(humidity * holds(air) / MILK)


def _coldest_surface_shown(air, humidity):
    found = coldest_surface(air, humidity)
    return {
        "limit": (MILK, "percent"),
        "warm": (holds(air), ""),
        "vapour": (humidity * holds(air) / 100, ""),
        "most": (humidity * holds(air) / MILK, ""),
        "below": (found - 1, "degC"),
        "holds_below": (holds(found - 1), ""),
        "holds": (holds(found), ""),
        "dew": (coldest(humidity * holds(air) / 100), "degC"),
    }


def how_long_wrapped(start, air, humidity, free, halving):
    return halving * math.log((air - start) / (air - free)) / math.log(2)


def _how_long_wrapped_shown(start, air, humidity, free, halving):
    return {
        "gap": (air - start, "delta_degC"),
        "left": (air - free, "delta_degC"),
        "times": (math.log2((air - start) / (air - free)), ""),
    }


def may_it_come_out(air, surface, dry, damp, error):
    """The damp one with its error, whatever the dry one says."""
    return "unwrap" if (damp + error) * holds(air) < DARK * holds(surface) else "keep wrapped"


def _may_it_come_out_shown(air, surface, dry, damp, error):
    vapour = (damp + error) * holds(air) / 100
    return {
        "limit": (DARK, "percent"),
        "limit_high": (DARK_HIGH, "percent"),
        "warm": (holds(air), ""),
        "cold": (holds(surface), ""),
        "middle": ((dry + damp) / 200, ""),
        "at_middle": ((dry + damp) / 200 * holds(air) / holds(surface), ""),
        "worst": ((damp + error) / 100, ""),
        "at_worst": (vapour / holds(surface), ""),
        "vapour": (vapour, ""),
        "most": (vapour / DARK * 100, ""),
        "free": (coldest(vapour / DARK * 100), "degC"),
        "dew": (coldest(vapour), "degC"),
    }


def _may_it_come_out_said(air, surface, dry, damp, error):
    return {"about_out": (damp + error) * holds(air) / holds(surface)}


ANSWERS = {
    "07.humidity-at-the-tray": humidity_at_the_tray,
    "07.colder-by-fahrenheit": colder_by_fahrenheit,
    "07.open-window": open_window,
    "07.coldest-surface": coldest_surface,
    "07.how-long-wrapped": how_long_wrapped,
    "07.may-it-come-out": may_it_come_out,
}
ON_THE_WAY = {
    "07.humidity-at-the-tray": _humidity_at_the_tray_shown,
    "07.colder-by-fahrenheit": _colder_by_fahrenheit_shown,
    "07.open-window": _open_window_shown,
    "07.coldest-surface": _coldest_surface_shown,
    "07.how-long-wrapped": _how_long_wrapped_shown,
    "07.may-it-come-out": _may_it_come_out_shown,
}
WRITTEN = {"07.may-it-come-out": _may_it_come_out_said}


def _table(**_):
    return [(f"{row}", *(f"{holds(celsius):.1f}" for celsius in range(row, row + 5))) for row in range(5, 30, 5)]


TABLES = {which: _table for which in ANSWERS if which != "07.how-long-wrapped"}
