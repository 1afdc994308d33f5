"""Exercises of lesson 07: how humid the air is at a surface, in a store, and how long a tray stays wrapped."""

import math

from pastrylab.course.storage.judgements import MAY_IT_COME_OUT
from pastrylab.course.storage.pressures import first_with, pressures, saturated
from pastrylab.ground.units import Q
from pastrylab.school.engine import Exercise, Slip
from pastrylab.trade.newton import halvings
from pastrylab.trade.storage import dew_point, surface_limit


def _c(reading):
    return reading.m_as("degC")


def _share(value):
    return value.m_as("dimensionless")


def _held(name):
    """What air at a given's temperature can hold, as the table under the prompt has it."""
    return lambda g: saturated(_c(getattr(g, name)))


def _vapour(air, humidity):
    """What the air of two givens does hold, in hPa."""
    return lambda g: _share(getattr(g, humidity)) * saturated(_c(getattr(g, air)))


AT_THE_TRAY = Exercise(
    id="07.humidity-at-the-tray",
    title="The air at the tray",
    prompt="""The kitchen stands at {air}, its hygrometer at {humidity:%}. A tray comes out of the cellar at {surface}. The table says
        what pressure of water vapour air can hold: a row begins at its own degree and counts on by one. How humid is the air that lies on the tray? Give a
        percentage.""",
    kind="share",
    answer=lambda g: g.vapour / g.cold,
    resolution=0.01,
    because="a hygrometer shows whole percents",
    sane=(0.5, 1.0),
    hint="The water in the air stays the same. What it can hold at {surface} is less.",
    lets={
        "warm": _held("air"),
        "cold": _held("surface"),
        "vapour": _vapour("air", "humidity"),
    },
    slips=(
        Slip(
            "the room's own",
            lambda g: _share(g.humidity),
            "That is the humidity at {air}. It belongs to that temperature alone: at {surface} the same water fills more of "
            "what the air can hold.",
        ),
        Slip(
            "upside down",
            lambda g: _share(g.humidity) * g.cold / g.warm,
            "You divided the other way round. Cold air holds less, so the same water must come to more percent, not to less.",
        ),
        Slip(
            "degrees for pressures",
            lambda g: _share(g.humidity) * _c(g.air) / _c(g.surface),
            "You divided the temperatures. What air can hold grows faster than the degrees do: take it from the table.",
        ),
    ),
    steps=(
        "At {air} air can hold {warm:n} hPa. It does hold {humidity:1} × {warm:n} = {vapour:n} hPa.",
        "At {surface} it can hold {cold:n} hPa. So at the tray: {vapour:n} ÷ {cold:n} = {answer:% 3}.",
        "Below a hundred it is dry to the finger. Whether it may be unwrapped is for the sugar to say, which draws water sooner.",
    ),
    table=pressures,
)


def _colder(g, by):
    """The humidity on a surface colder by so many degrees C, from the table's nearest degree."""
    return g.vapour / saturated(_c(g.air) - by)


COLDER_BY = Exercise(
    id="07.colder-by-fahrenheit",
    title="Colder by so many °F",
    prompt="""An American infrared thermometer is pointed at a tray and then at the wall: the tray is {colder} colder than
        the room. The room stands at {air} and {humidity:%}. How humid is the air that lies on the tray? Give a
        percentage.""",
    kind="share",
    answer=lambda g: g.vapour / g.cold,
    resolution=0.01,
    because="a hygrometer shows whole percents",
    sane=(0.4, 1.0),
    hint="A difference is no reading. How many steps of Celsius are {colder}?",
    lets={
        "steps": lambda g: g.colder.m_as("delta_degC"),
        "per_step": lambda g: 1.8,
        "fahrenheit": lambda g: g.colder.m_as("delta_degF"),
        "surface": lambda g: Q(_c(g.air) - g.steps, "degC"),
        "warm": _held("air"),
        "cold": _held("surface"),
        "vapour": _vapour("air", "humidity"),
    },
    slips=(
        Slip(
            "32 subtracted",
            lambda g: _colder(g, abs(g.fahrenheit - 32) / 1.8),
            "You took 32 off. That is for a reading; a difference of {fahrenheit:n} °F is only divided by {per_step:n}.",
        ),
        Slip(
            "a step for a step",
            lambda g: _colder(g, g.fahrenheit),
            "You took {fahrenheit:n} steps of Celsius. Those of Fahrenheit are smaller: it takes {per_step:n} of them to one.",
        ),
        Slip(
            "the room's own",
            lambda g: _share(g.humidity),
            "That is the humidity at {air}. At the tray the same water fills more of what the air can hold.",
        ),
        Slip(
            "upside down",
            lambda g: _share(g.humidity) * g.cold / g.warm,
            "You divided the other way round. Cold air holds less, so the same water must come to more percent, not to less.",
        ),
    ),
    steps=(
        "A difference: {fahrenheit:n} ÷ {per_step:n} = {steps:n} steps of Celsius, and no 32. The tray stands at "
        "{air:degC bare} − {steps:n} = {surface:degC}.",
        "The room's air holds {humidity:1} × {warm:n} = {vapour:n} hPa.",
        "At {surface:degC} air can hold {cold:n} hPa: {vapour:n} ÷ {cold:n} = {answer:% 3}.",
    ),
    table=pressures,
)

OPEN_WINDOW = Exercise(
    id="07.open-window",
    title="The window in summer",
    prompt="""The store room stands at {store} and {inside:%}, and it smells stale. Outside it is {outside}, and the hygrometer
        there shows only {humidity:%}. Somebody wants to open the window and let the dry air in. Once the air from outside has
        cooled to {store}, how humid will it be? Give a percentage.""",
    kind="share",
    answer=lambda g: g.vapour / g.cold,
    resolution=0.01,
    because="a hygrometer shows whole percents",
    sane=(0.5, 1.0),
    hint="How much water does the air outside hold, and how much can it hold once it is as cool as the store?",
    lets={
        "warm": _held("outside"),
        "cold": _held("store"),
        "vapour": _vapour("outside", "humidity"),
        "within": _vapour("store", "inside"),
    },
    slips=(
        Slip(
            "carried over",
            lambda g: _share(g.humidity),
            "That is the humidity at {outside}. Cooled to {store}, the same air can hold less, and its water fills more of it.",
        ),
        Slip(
            "averaged",
            lambda g: (_share(g.humidity) + _share(g.inside)) / 2,
            "You took the middle of two percentages of two different airs. Percents of humidity can be compared, or "
            "averaged, at one temperature only.",
        ),
        Slip(
            "upside down",
            lambda g: _share(g.humidity) * g.cold / g.warm,
            "You divided the other way round. As air cools it comes nearer to being full, not farther from it.",
        ),
        Slip(
            "inside's water",
            lambda g: g.within / g.warm,
            "You carried the store's air outside. It is the air outside that comes in and cools.",
        ),
    ),
    steps=(
        "Outside the air holds {humidity:1} × {warm:n} = {vapour:n} hPa; in the store it is {inside:1} × {cold:n} = "
        "{within:n} hPa.",
        "At {store} air can hold {cold:n} hPa: {vapour:n} ÷ {cold:n} = {answer:% 3}.",
        "It looked the drier of the two, and it is the wetter. In summer a store is aired early, when it is cool outside.",
    ),
    table=pressures,
)

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
        "warm": _held("air"),
        "vapour": _vapour("air", "humidity"),
        "most": lambda g: g.vapour / _share(g.limit),
        "below": lambda g: Q(first_with(g.most) - 1, "degC"),
        "holds_below": lambda g: saturated(first_with(g.most) - 1),
        "holds": lambda g: saturated(first_with(g.most)),
        "dew": lambda g: Q(first_with(g.vapour), "degC"),
    },
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


def _until(g, end):
    return g.halving * halvings(_c(g.start), float(end), _c(g.air))


HOW_LONG_WRAPPED = Exercise(
    id="07.how-long-wrapped",
    title="How long must it stay wrapped?",
    prompt="""A wrapped tray comes out of the refrigerator at {start} into a kitchen of {air} and {humidity:%}. You found that it may be
        unwrapped once it has reached {free}. A log of such a tray shows that how far it stands below the room halves
        every {halving}. How many minutes are there from now until then?""",
    answer=lambda g: _until(g, _c(g.free)),
    unit="min",
    resolution=1,
    because="a kitchen clock is read to the minute",
    sane=(8, 120),
    hint="Count from the room, not from zero: how far below it does the tray stand now, and how far may it still stand?",
    lets={
        "gap": lambda g: Q(_c(g.air) - _c(g.start), "delta_degC"),
        "left": lambda g: Q(_c(g.air) - _c(g.free), "delta_degC"),
        "times": lambda g: halvings(_c(g.start), _c(g.free), _c(g.air)),
    },
    slips=(
        Slip(
            "until the dew point",
            lambda g: _until(g, _c(dew_point(g.air, g.humidity))),
            "You waited for the dew point. From there on no water settles, but the air at the surface is still almost full: "
            "sugar draws water until {free} is reached.",
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

EXERCISES = (AT_THE_TRAY, COLDER_BY, OPEN_WINDOW, COLDEST_SURFACE, HOW_LONG_WRAPPED, MAY_IT_COME_OUT)
