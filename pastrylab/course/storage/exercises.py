"""Exercises of lesson 07: how humid the air is at a surface and in a store; the list of all, in the order of the lesson."""

from pastrylab.course.storage.judgements import MAY_IT_COME_OUT
from pastrylab.course.storage.pressures import held, pressures, saturated, vapour
from pastrylab.course.storage.wrapped import COLDEST_SURFACE, HOW_LONG_WRAPPED
from pastrylab.ground.units import Q
from pastrylab.school.engine import Exercise, Slip


def _c(reading):
    return reading.m_as("degC")


def _share(value):
    return value.m_as("dimensionless")


def _tray_colder(g):
    return g.surface < g.air


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
        "warm": held("air"),
        "cold": held("surface"),
        "vapour": vapour("air", "humidity"),
    },
    supposes={"the tray is colder than the kitchen": _tray_colder},
    slips=(
        Slip(
            "the room's own",
            lambda g: _share(g.humidity),
            "That is the humidity at {air}. It belongs to that temperature alone: at {surface} the same water fills more of "
            "what the air can hold.",
            fits=_tray_colder,
        ),
        Slip(
            "upside down",
            lambda g: _share(g.humidity) * g.cold / g.warm,
            "You divided the other way round. Cold air holds less, so the same water must come to more percent, not to less.",
            fits=_tray_colder,
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


def _colder_at_all(g):
    return g.steps > 0


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
        "warm": held("air"),
        "cold": held("surface"),
        "vapour": vapour("air", "humidity"),
    },
    supposes={"the tray is colder than the room": _colder_at_all},
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
            fits=_colder_at_all,
        ),
        Slip(
            "upside down",
            lambda g: _share(g.humidity) * g.cold / g.warm,
            "You divided the other way round. Cold air holds less, so the same water must come to more percent, not to less.",
            fits=_colder_at_all,
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


def _store_cooler(g):
    return g.store < g.outside


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
        "warm": held("outside"),
        "cold": held("store"),
        "vapour": vapour("outside", "humidity"),
        "within": vapour("store", "inside"),
    },
    supposes={
        "it is warmer outside than in the store": _store_cooler,
        "the air outside shows the lower humidity and ends with the higher": lambda g: (
            g.humidity < g.inside and g.vapour > g.within
        ),
    },
    slips=(
        Slip(
            "carried over",
            lambda g: _share(g.humidity),
            "That is the humidity at {outside}. Cooled to {store}, the same air can hold less, and its water fills more of it.",
            fits=_store_cooler,
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
            fits=_store_cooler,
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

EXERCISES = (AT_THE_TRAY, COLDER_BY, OPEN_WINDOW, COLDEST_SURFACE, HOW_LONG_WRAPPED, MAY_IT_COME_OUT)
