"""Exercises of lesson 07 about unwrapping: how cold a surface may be, and how long a tray stays wrapped."""

import math

from pastrylab.course.storage.pressures import first_with, held, pressures, saturated, vapour
from pastrylab.ground.units import Q, StudentError
from pastrylab.school.engine import Exercise, Slip
from pastrylab.trade.newton import halvings
from pastrylab.trade.storage import dew_point, surface_limit


def _c(reading):
    return reading.m_as("degC")


def _share(value):
    return value.m_as("dimensionless")


def _dry_enough(g):
    return g.humidity < g.limit


COLDEST_SURFACE = Exercise(
    id="07.coldest-surface",
    title="How cold may it be?",
    prompt="""You want to take milk chocolate out of its wrapping in a kitchen at {air} and {humidity:%}. The air at its surface must
        stay below {limit:%}. What is the lowest temperature of the table, a whole degree of Celsius, at which the
        chocolate may come out?""",
    kind="reading",
    answer=lambda g: Q(first_with(g.most), "degC"),
    unit="degC",
    resolution=0.4,
    because="the table goes by whole degrees",
    sane=(9, 20),
    limit="low",
    hint="How much must air be able to hold, so that the water of this kitchen fills only {limit:%} of it?",
    lets={
        "limit": lambda g: Q(100 * surface_limit("milk").low, "percent"),
        "warm": held("air"),
        "vapour": vapour("air", "humidity"),
        "most": lambda g: g.vapour / _share(g.limit),
        "below": lambda g: Q(first_with(g.most) - 1, "degC"),
        "holds_below": lambda g: saturated(first_with(g.most) - 1),
        "holds": lambda g: saturated(first_with(g.most)),
        "dew": lambda g: Q(first_with(g.vapour), "degC"),
    },
    supposes={"the kitchen is dry enough for the chocolate as warm as itself": _dry_enough},
    slips=(
        Slip(
            "the dew point",
            lambda g: g.dew,
            "That is where water settles, and it is too late: sugar draws water from {limit:%} up, long before a surface is wet.",
        ),
        Slip(
            "multiplied",
            lambda g: Q(first_with(g.vapour * _share(g.limit)), "degC"),
            "You took {limit:%} of the water. The water is all there: it must fill no more than {limit:%} of what air can "
            "hold, so divide.",
        ),
        Slip(
            "a degree too cold",
            lambda g: g.below,
            "Nearly: at {below} air can hold {holds_below:n} hPa, less than the {most:n} you need. A limit is rounded to the "
            "side that keeps it.",
        ),
        Slip(
            "the air itself",
            lambda g: g.air,
            "That is sure to be warm enough, and more than is needed. Find the coldest that will do.",
            fits=_dry_enough,
        ),
    ),
    steps=(
        "The kitchen's air holds {humidity:1} × {warm:n} = {vapour:n} hPa.",
        "That may be {limit:%} of what is held at the surface, so air there must be able to hold {vapour:n} ÷ {limit:1} = "
        "{most:n} hPa.",
        "The table has {holds_below:n} hPa at {below:degC}, too little, and {holds:n} hPa a degree above: {below:degC bare} + 1 "
        "= {answer:degC}.",
        "Water would settle only near {dew:degC}. Between the two the tray is dry to the finger and blooms all the same.",
    ),
    table=pressures,
)


def _times(g, end):
    """How often the gap to the room halves until the tray stands at `end`. Raises StudentError where it never does."""
    start, air = _c(g.start), _c(g.air)
    if not start < end < air:
        given = f"a tray at {start:g} °C that is to reach {end:g} °C in a kitchen of {air:g} °C"
        raise StudentError(given, "a temperature between tray and kitchen", "from 5 to 16 °C in 22 °C")
    return halvings(start, float(end), air)


def _until(g, end):
    return g.halving * _times(g, end)


HOW_LONG_WRAPPED = Exercise(
    id="07.how-long-wrapped",
    title="How long must it stay wrapped?",
    prompt="""A wrapped tray comes out of the refrigerator at {start} into a kitchen of {air} and {humidity:%}. You found that it may be
        unwrapped once it has reached {free}. A log of such a tray shows that how far it stands below the room halves
        every {halving}. How many minutes are there from now until then?""",
    answer=lambda g: _until(g, _c(g.free)),
    unit="min",
    resolution=1,
    because="a kitchen clock is read to the minute, and the probe on the coldest piece has the last word",
    sane=(8, 120),
    hint="Count from the room, not from zero: how far below it does the tray stand now, and how far may it still stand?",
    lets={
        "gap": lambda g: Q(_c(g.air) - _c(g.start), "delta_degC"),
        "left": lambda g: Q(_c(g.air) - _c(g.free), "delta_degC"),
        "times": lambda g: _times(g, _c(g.free)),
    },
    slips=(
        Slip(
            "until the dew point",
            lambda g: _until(g, _c(dew_point(g.air, g.humidity))),
            "You waited for the dew point. From there on no water settles, but the air at the surface is still almost full: "
            "sugar draws water until {free} is reached.",
            fits=lambda g: dew_point(g.air, g.humidity) < g.free,
        ),
        Slip(
            "straight line",
            lambda g: g.halving * 2 * (_c(g.free) - _c(g.start)) / (_c(g.air) - _c(g.start)),
            "You let it warm on at its first pace. The nearer it comes to the room, the slower it warms.",
        ),
        Slip(
            "until the room",
            lambda g: _until(g, _c(g.air) - 0.5),
            "You waited until it was as warm as the room, give or take half a degree. That does no harm, but {free} is enough.",
            fits=lambda g: _c(g.free) < _c(g.air) - 0.5,
        ),
        Slip(
            "natural logarithm",
            lambda g: g.halving * math.log(2) * g.times,
            "You took a logarithm and did not divide by that of two. It is halvings that are counted.",
        ),
    ),
    steps=(
        "Below the room it stands {air:degC bare} − {start:degC bare} = {gap:delta_degC} at the start, and "
        "{air:degC bare} − {free:degC bare} = {left:delta_degC} at the end.",
        "How often must the first be halved to come to the second? A calculator says "
        "log({gap:delta_degC bare} ÷ {left:delta_degC bare}) ÷ log(2) = {times:n} times.",
        "Each halving takes {halving}: {times:n} × {halving:min} = {answer:min}.",
        "The clock says when to begin looking; a probe on the coldest piece says when to unwrap.",
    ),
)
