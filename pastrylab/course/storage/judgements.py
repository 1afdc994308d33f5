"""The judgement of lesson 07: two hygrometers, two thermometers' word, and a tray that wants to come out."""

from pastrylab.course.storage.pressures import first_with, pressures, saturated
from pastrylab.ground import careful
from pastrylab.ground.units import Q, StudentError
from pastrylab.school.engine import Exercise, Option
from pastrylab.trade.storage import surface_limit

_OUT, _WRAPPED = "unwrap", "keep wrapped"


def _share(value):
    return value.m_as("dimensionless")


def _percent(share):
    return Q(100 * share, "percent")


def _at_the_tray(humidity):
    """The humidity at the tray with so much in the room: a share."""
    return lambda g: humidity(g) * g.warm / g.cold


def _worst(g):
    return _share(g.damp) + _share(g.error)


def _best(g):
    limit = _share(g.limit)
    if careful.below(g.at_worst, limit):
        return _OUT
    if first_with(_worst(g) * g.warm / limit) > g.air.m_as("degC"):
        raise StudentError(
            "a room so humid that no tray may ever be unwrapped in it",
            "one in which a tray as warm as the room may come out",
            "damp 55 %, error 3 %",
        )
    return _WRAPPED


def _about_out(g):
    return (
        f"With the damper one and its error the surface may stand at {100 * g.at_worst:.0f} %. That is not below the limit, "
        "and nobody knows which of the two is right."
    )


MAY_IT_COME_OUT = Exercise(
    id="07.may-it-come-out",
    title="May it come out?",
    prompt="""A tray of dark chocolates stands wrapped in a kitchen of {air}; its coldest piece reads {surface}. Both thermometers were
        checked in crushed ice. Two hygrometers hang on the wall, each good to {error:%} either way: one shows {dry:%}, the other {damp:%}.
        Dark chocolate draws water somewhere from {limit:%} to {limit_high:%} up. The guests are waiting. What do you do?""",
    kind="choice",
    answer=_best,
    hint="Work out how humid the air at the tray is at the worst the two can mean. Then ask: below the limit, or not?",
    lets={
        "limit": lambda g: _percent(surface_limit("dark").low),
        "limit_high": lambda g: _percent(surface_limit("dark").high),
        "warm": lambda g: saturated(g.air.m_as("degC")),
        "cold": lambda g: saturated(g.surface.m_as("degC")),
        "middle": lambda g: (_share(g.dry) + _share(g.damp)) / 2,
        "worst": _worst,
        "at_middle": _at_the_tray(lambda g: g.middle),
        "at_worst": _at_the_tray(_worst),
        "vapour": lambda g: _worst(g) * g.warm,
        "most": lambda g: _worst(g) * g.warm / _share(g.limit),
        "free": lambda g: Q(first_with(_worst(g) * g.warm / _share(g.limit)), "degC"),
        "dew": lambda g: Q(first_with(_worst(g) * g.warm), "degC"),
        "about_out": _about_out,
    },
    supposes={
        "one hygrometer shows less than the other": lambda g: g.dry < g.damp,
        "no water settles on the tray": lambda g: g.at_worst < 1,
    },
    options=(
        Option(
            "unwrap",
            "Unwrap it now. Even at the worst of the damper hygrometer the air at the tray stays below {limit:%}.",
            "{about_out}",
            "At the worst, {worst:%} in the room, the tray stands at {at_worst:% 3}: below the limit, whichever of the two is right.",
        ),
        Option(
            "keep wrapped",
            "Leave it wrapped. At the worst of the damper hygrometer the air at the tray is not below {limit:%}.",
            "At the worst, {worst:%} in the room, the tray stands at {at_worst:% 3}: below {limit:%} even so. The guests need not wait.",
            "At the worst the tray stands at {at_worst:% 3}, and nobody knows which of the two is right. Unwrap it when it reads "
            "{free}, or hang a better hygrometer.",
        ),
        # Never right, whatever the values: what they rest on is not what decides.
        Option(
            "take the middle",
            "Take the middle of the two, {middle:%}, and go by that: {at_middle:% 3} at the tray.",
            "Two readings that disagree do not make a better one between them. One of them is wrong, and it may be the dry one: "
            "reckon with the damp one and its error.",
        ),
        Option(
            "no dew",
            "Unwrap it now. Water settles only below {dew}, and the tray is warmer.",
            "No water settles, that is true. But sugar draws water from {limit:%} up, well before the dew point: that is the wrong limit.",
        ),
        Option(
            "back into the cold",
            "Put it back into the refrigerator unwrapped until the kitchen is cooler.",
            "It comes out colder still, and has taken up the refrigerator's damp and smells meanwhile. Wrapped, it can stand here and "
            "warm.",
        ),
    ),
    steps=(
        "At the worst the room stands at {damp:%} + {error:%} = {worst:%}.",
        "So its air may hold {worst:1} × {warm:n} = {vapour:n} hPa; at {surface:degC} air can hold {cold:n} hPa: "
        "{vapour:n} ÷ {cold:n} = {at_worst:% 3}.",
        "The limit is {limit:%}, and no tolerance moves it.",
        "It is sure from {vapour:n} ÷ {limit:1} = {most:n} hPa on: {free:degC} by the table.",
    ),
    table=pressures,
)
