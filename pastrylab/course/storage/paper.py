"""The key to lesson 07's sheet on paper."""

import math

from pastrylab.ground.quantities import Quantity
from pastrylab.school.paper_key import Key
from pastrylab.trade import newton
from pastrylab.trade.storage import air


def _full(degrees):
    """What air can hold, in hPa, to a tenth as the sheet's table has it."""
    return round(air.vapour_pressure(Quantity(degrees, "degC")).m_as("hPa"), 1)


def _water(s):
    return s[1][1] / 100 * _full(s[1][0])


def _room(s):
    room, damp, _ = s[1]
    dew = air.dew_point(Quantity(room, "degC"), damp / 100).m_as("degC")
    fills = (f"{_full(room):.1f}", f"{_water(s):.1f}", f"{math.floor(dew)}", f"{math.floor(dew) + 1}")
    return fills, f"Between the two that hold {_full(math.floor(dew)):.1f} and {_full(math.floor(dew) + 1):.1f} hPa."


def _tray(s):
    at, limit = s[2]
    share = 100 * _water(s) / _full(at)
    word = "wet" if share >= 100 else "dry, but over the limit" if share > limit else "below it"
    return (f"{_water(s):.1f}", f"{_full(at):.1f}", f"{share:.0f}", word), ""


def _shelf(s):
    at, limit = s[3]
    share = 100 * _water(s) / _full(at)
    word = "not for long" if share > limit else "by its air, yes"
    return (f"{share:.0f}", word), f"{_water(s):.1f} ÷ {_full(at):.1f}; the limit is {limit:g} %."


def _warming(s):
    start, room, halving, first, second = s[4]
    there = (newton.after(start, room, minutes / halving) for minutes in (first, second))
    return tuple(f"{one:.3g}" for one in there), "Half of what is missing in each halving time."


def _bloom(_s):
    return ("S", "F", "F", "S", "S"), "Fat melts under a finger; sugar is rough, and a drop of water dissolves it."


def _buffet(_s):
    said = "safety wins: it stays cold and comes out late; its gloss may go"
    return (said,), "Sweating or not, it is served within the time your local code allows."


KEYS = {
    "07": {
        1: Key("°C % -", _room),
        2: Key("°C %", _tray, uses=(1,)),
        3: Key("°C %", _shelf, uses=(1,)),
        4: Key("°C °C minutes minutes -", _warming),
        5: Key("", _bloom),
        6: Key("", _buffet),
    }
}
