"""Exercises of lesson 01 that turn one measure into another: pounds and ounces, a fall in degrees, a cup of honey."""

from fractions import Fraction

from pastrylab.ground.units import Q, Quantity, show
from pastrylab.school.engine import Exercise, Slip
from pastrylab.trade.formula import mass_of


def _missing(parts):
    """What is missing where somebody gives the pound that many ounces."""
    return lambda g: (g.pounds + Q(g.ounces.m_as("oz") / parts, "lb")).to("g") - g.held


POUNDS = Exercise(
    id="01.pounds-and-ounces",
    title="Pounds and ounces",
    prompt="""A sheet from an old kitchen asks for {pounds} {ounces} of dark couverture. An open bag holds {held}, by your scale.
        How much more do you need?""",
    answer=_missing(16),
    unit="g",
    resolution=3,
    because="in a batch of this size a few grams of couverture are below what anybody can taste or see",
    sane=(50, 5000),
    hint="Turn the pounds into grams, then the ounces, and add; then take off the bag. A pound is {pound}, an ounce {ounce}.",
    lets={
        "pound": lambda g: show(Q(1, "lb").to("g")),
        "ounce": lambda g: show(Q(1, "oz").to("g")),
        "metric_pound": lambda g: Q(500, "g"),
        "decimal": lambda g: show(g.pounds + Q(g.ounces.m_as("oz") / 10, "lb")),
        "from_pounds": lambda g: g.pounds.to("g"),
        "from_ounces": lambda g: g.ounces.to("g"),
        "asked": lambda g: g.from_pounds + g.from_ounces,
        "pounds_in_grams": lambda g: show(g.from_pounds),
        "ounces_in_grams": lambda g: show(g.from_ounces),
        "asked_in_grams": lambda g: show(g.asked),
    },
    slips=(
        Slip(
            "decimal pounds",
            _missing(10),
            "That comes out with {decimal}, the ounces behind a decimal point. A pound has sixteen ounces, not ten.",
        ),
        Slip(
            "twelve ounces",
            _missing(12),
            "You gave the pound twelve ounces, as gold is weighed. In a kitchen it has sixteen.",
        ),
        Slip(
            "metric pound",
            lambda g: g.metric_pound * (g.pounds + g.ounces).m_as("lb") - g.held,
            "You took the pound as {metric_pound}, the half kilogram that markets in Europe call a pound. Here it is {pound}.",
        ),
        Slip(
            "ounces forgotten",
            lambda g: g.from_pounds - g.held,
            "You left out the {ounces}. They go on top of the {pounds}.",
        ),
        Slip(
            "bag forgotten",
            lambda g: g.asked,
            "That is all the sheet asks for. The open bag holds {held} of it.",
        ),
    ),
    steps=(
        "A pound is {pound}: {pounds:lb bare} × {pound} = {pounds_in_grams}.",
        "An ounce is {ounce}: {ounces:oz bare} × {ounce} = {ounces_in_grams}.",
        "Together {pounds_in_grams} + {ounces_in_grams} = {asked:g}.",
        "Take off what the bag holds: {asked:g} − {held:g} = {answer:g}.",
    ),
)


def _at(fall):
    """The reading after a fall of that many Celsius steps."""
    return lambda g: Q(g.start.m_as("degC") - fall(g), "degC")


FALL = Exercise(
    id="01.a-fall-in-degrees",
    title="A fall in degrees",
    prompt="""Your thermometer shows °C, and the bowl stands at {start_read}. The sheet is American: let it fall by {fall}.
        What must your thermometer read then?""",
    answer=_at(lambda g: g.fall.m_as("delta_degC")),
    kind="reading",
    unit="degC",
    resolution=0.1,
    because="a kitchen probe shows tenths of a degree",
    sane=(25, 60),
    hint="A fall is a number of steps on the thermometer. How many of the small Fahrenheit steps make one Celsius step?",
    lets={
        "start_read": lambda g: show(g.start),
        "steps": lambda g: Q(1, "delta_degC").to("delta_degF").magnitude,
        "offset": lambda g: show(Q(0, "degC").to("degF")),
        "as_reading": lambda g: Q(g.fall.m_as("delta_degF"), "degF").to("degC"),
        "seen": lambda g: show(g.as_reading, 3),
        "fall_c": lambda g: show(g.fall.to("delta_degC"), 3),
    },
    slips=(
        Slip(
            "read off, then lowered",
            _at(lambda g: abs(g.as_reading.m_as("degC"))),
            "You turned the fall into a reading, {seen}, and lowered the bowl by as many degrees. A fall has no zero: only "
            "divide by {steps}.",
        ),
        Slip(
            "fall as reading",
            _at(lambda g: g.as_reading.m_as("degC")),
            "You took off {offset} first. That is for readings, whose scales start at different zeros. A fall has no zero.",
        ),
        Slip(
            "wrong way round",
            _at(lambda g: g.fall.m_as("delta_degF") * g.steps),
            "You multiplied by {steps}. A Celsius step is the larger one, so the same fall has fewer of them: divide.",
        ),
        Slip(
            "same number",
            _at(lambda g: g.fall.m_as("delta_degF")),
            "You took {fall} for as many Celsius steps. One Celsius step is {steps} Fahrenheit steps.",
        ),
        Slip(
            "halved",
            _at(lambda g: g.fall.m_as("delta_degF") / 2),
            "You halved the fall: a good check in your head, and a tenth too little. Divide by {steps}.",
        ),
        Slip(
            "the fall alone",
            lambda g: Q(g.fall.m_as("delta_degC"), "degC"),
            "That is how far it falls. Asked is where it ends: take it off {start_read}.",
        ),
    ),
    steps=(
        "One Celsius step is {steps} Fahrenheit steps. Divide the fall by {steps}, and take nothing off "
        "first: {fall:delta_degF bare} ÷ {steps:n} = {fall_c}.",
        "Take that off the first reading: {start:degC bare} − {fall:delta_degC bare 3} = {answer:degC 4}.",
    ),
)


def _cups(g):
    """Cups as a recipe writes them: 1.25 -> "1 1/4 cups"."""
    number = Fraction(g.cups.m_as("cup")).limit_denominator(8)
    whole, part = divmod(number, 1)
    text = " ".join(str(x) for x in (whole, part) if x)
    return f"{text} cup{'s' if number > 1 else ''}"


def _heavier(g):
    return g.density.m_as("g/mL") > 1


HONEY = Exercise(
    id="01.a-cup-of-honey",
    title="A cup of honey",
    prompt="""A recipe asks for {measure} of honey. A US cup holds {cup}, and honey weighs {density}.
        How many grams do you weigh?""",
    answer=lambda g: mass_of(g.cups, "honey"),
    unit="g",
    resolution=3,
    because="this much honey clings to the cup it is poured from",
    sane=(30, 2000),
    hint="Two steps: the cups as millilitres, then millilitres times what one of them weighs.",
    lets={
        "measure": _cups,
        "cup": lambda g: Q(1, "cup").to("mL"),
        "density": lambda g: Quantity(mass_of("1 mL", "honey").m_as("g"), "g/mL"),
        "volume": lambda g: g.cups.to("mL"),
        "metric_cup": lambda g: Q(250, "mL"),
    },
    slips=(
        Slip(
            "as water",
            lambda g: mass_of(g.cups, "water"),
            "That is the weight of so much water. Honey is heavier: {density}.",
            fits=_heavier,
        ),
        Slip(
            "divided",
            lambda g: Quantity(g.volume.m_as("mL") / g.density.m_as("g/mL"), "g"),
            "You divided by {density}. Honey is heavier than water, so the grams must be more than the millilitres.",
            fits=_heavier,
        ),
        Slip(
            "metric cup",
            lambda g: mass_of(g.metric_cup * g.cups.m_as("cup"), "honey"),
            "You took a cup of {metric_cup}, as in some countries. The recipe's cup holds {cup}.",
        ),
        Slip(
            "fluid ounces",
            lambda g: Q(g.cups.m_as("fl_oz"), "oz").to("g"),
            "You took fluid ounces for ounces. A fluid ounce is a space, an ounce a weight; they agree for water, about.",
        ),
    ),
    steps=(
        "In millilitres: {cups:cup bare} × {cup:mL} = {volume:mL}.",
        "Each millilitre of honey weighs {density:g/mL bare} grams: {volume:mL bare} × {density:g/mL bare} = "
        "{answer:g}.",
    ),
)
