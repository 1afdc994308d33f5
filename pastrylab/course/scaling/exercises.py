"""Exercises of lesson 01: pounds, degrees and cups to grams, the scarcest ingredient, pieces, and a slip of the hand."""

from fractions import Fraction

from pastrylab.ground.units import Q, Quantity, show
from pastrylab.school.draws import shown
from pastrylab.school.engine import Exercise, Option, Slip
from pastrylab.trade.formula import Formula
from pastrylab.trade.pantry import mass_of
from pastrylab.trade.weighing import error_share
from pastrylab.trade.yields import purchase, yield_after

_PART_SHORT = {"couverture": "dark couverture 64 %", "cream": "heavy cream 36 %", "butter": "butter unsalted"}


def _share(value):
    return value.m_as("dimensionless")


def _percent(share):
    return Q(round(100 * share, 2), "percent")


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
        "A pound is {pound}, so {pounds} are {pounds_in_grams}.",
        "An ounce is {ounce}, so {ounces} are {ounces_in_grams}. Together: {asked_in_grams}.",
        "Take off what the bag holds, {held}.",
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
        "One Celsius step is {steps} Fahrenheit steps. Divide the fall by {steps}, and take nothing off first: {fall_c}.",
        "Take that off {start_read}.",
    ),
)


def _cups(g):
    """Cups as a recipe writes them: 1.25 -> "1 1/4 cups"."""
    number = Fraction(g.cups.m_as("cup")).limit_denominator(8)
    whole, part = divmod(number, 1)
    text = " ".join(str(x) for x in (whole, part) if x)
    return f"{text} cup{'s' if number > 1 else ''}"


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
        ),
        Slip(
            "divided",
            lambda g: Quantity(g.volume.m_as("mL") / g.density.m_as("g/mL"), "g"),
            "You divided by {density}. Honey is heavier than water, so the grams must be more than the millilitres.",
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
        "In millilitres: {measure} of it, {volume}.",
        "Honey weighs {density}: multiply.",
    ),
)


def _stock(g):
    formula = Formula({name: getattr(g, part) for part, name in _PART_SHORT.items()})
    return formula, {name: getattr(g, f"{part}_held") for part, name in _PART_SHORT.items()}


def _ratio(g, part):
    return (getattr(g, f"{part}_held") / getattr(g, part)).m_as("dimensionless")


SCARCEST = Exercise(
    id="01.what-runs-out-first",
    title="What runs out first",
    prompt="""This is a ganache, and what lies on the shelf. No delivery today.
        How much ganache can you make, all told?""",
    answer=lambda g: _stock(g)[0].scaled(stock=_stock(g)[1]).total,
    unit="g",
    resolution=2,
    because="on a batch of this size the scale is read to a gram or two",
    sane=(200, 20_000),
    hint="For each ingredient: how many times the formula does the shelf hold? The smallest of these is the limit.",
    lets={
        "batch": lambda g: _stock(g)[0].total,
        "times_couverture": lambda g: _ratio(g, "couverture"),
        "times_cream": lambda g: _ratio(g, "cream"),
        "times_butter": lambda g: _ratio(g, "butter"),
        "least": lambda g: min(_PART_SHORT, key=lambda part: getattr(g, f"{part}_held")),
        "times_least": lambda g: _ratio(g, g.least),
        "first": lambda g: _stock(g)[0].scarcest(_stock(g)[1]).ingredient,
        "times": lambda g: _stock(g)[0].scarcest(_stock(g)[1]).factor,
    },
    slips=(
        Slip(
            "fewest grams",
            lambda g: g.batch * g.times_least,
            "You let the smallest pile decide. Little {least} lies there, but the formula asks for little: it lasts {times_least} times.",
        ),
        Slip(
            "mean of the ratios",
            lambda g: g.batch * ((g.times_couverture + g.times_cream + g.times_butter) / 3),
            "You took the average of the three. What one has too much of does not help the one that is gone.",
        ),
        Slip(
            "the whole shelf",
            lambda g: g.couverture_held + g.cream_held + g.butter_held,
            "You emptied the shelf. That is no longer this ganache: its proportions are gone. What runs out first, {first}, sets the size.",
        ),
        Slip(
            "one batch",
            lambda g: g.batch,
            "That is one batch. The shelf holds every ingredient more than once.",
        ),
    ),
    steps=(
        "Couverture: {couverture_held} over {couverture} is {times_couverture} times. Cream: {times_cream} times. Butter: {times_butter} times.",
        "The smallest is {first}, {times} times: it runs out first.",
        "One batch weighs {batch}; so many times the batch is what you can make.",
    ),
    table=lambda g: (
        ("ingredient", "formula", "on the shelf"),
        [(name, shown(getattr(g, part)), shown(getattr(g, f"{part}_held"))) for part, name in _PART_SHORT.items()],
    ),
)

PIECES = Exercise(
    id="01.percent-to-pieces",
    title="From percent to pieces",
    prompt="""A filling is {couverture} dark couverture; the rest is cream and syrup. You pipe {pieces} pieces of {piece} each,
        and {loss} of what you make stays in bowl and bag. How much couverture do you weigh?""",
    answer=lambda g: _made(g) * _share(g.couverture),
    unit="g",
    resolution=1,
    because="the scale shows whole grams",
    sane=(50, 5000),
    hint="First all the filling that leaves the bag, then all you must make for it, then the couverture's share.",
    lets={
        "piped": lambda g: g.pieces * g.piece,
        "left": lambda g: Q(100 * yield_after(trim=g.loss), "percent"),
        "made": lambda g: _made(g),
    },
    slips=(
        Slip(
            "loss forgotten",
            lambda g: g.piped * _share(g.couverture),
            "That fills the pieces only if nothing stays in bowl and bag. {loss} of what you make does.",
        ),
        Slip(
            "loss added on",
            lambda g: g.piped * (1 + _share(g.loss)) * _share(g.couverture),
            "You added {loss} of what you pipe. The loss is {loss} of what you make: divide by the {left} that are left.",
        ),
        Slip(
            "loss taken off",
            lambda g: g.piped * _share(g.left) * _share(g.couverture),
            "You made less because some is lost. Turn it round: you must make more.",
        ),
        Slip(
            "what is piped",
            lambda g: g.piped,
            "That is what the pieces hold. You must make more of it, and only {couverture} of that is couverture.",
        ),
        Slip(
            "all the filling",
            lambda g: g.made,
            "That is all the filling. The couverture is {couverture} of it.",
        ),
    ),
    steps=(
        "{pieces} pieces of {piece} are {piped}.",
        "Only {left} of what you make leaves the bag: divide by it. You make {made}.",
        "{couverture} of that is couverture.",
    ),
)


def _made(g):
    return purchase(g.pieces * g.piece, yield_after(trim=g.loss)).to("g")


_WEIGH_AGAIN = {
    (False, False): "leave both",
    (False, True): "the gelatin",
    (True, False): "the couverture",
    (True, True): "both",
}


def _over(g, part):
    """Whether the slip is more than the kitchen allows on that part; on the limit is still inside."""
    return error_share(g.slip, part) > _share(g.allowed) * (1 + 1e-9)


TWO_GRAMS = Exercise(
    id="01.a-slip-of-the-hand",
    title="A slip of the hand",
    prompt="""For a set chocolate cream you weigh {couverture} of couverture, {cream} of cream and {gelatin_g} of gelatin, each into
        its own bowl. Your hand slips twice: {slip_g} too much couverture, {slip_g} too much gelatin. Your kitchen allows a part
        to be off by {allowed} of itself. What do you weigh again?""",
    kind="choice",
    answer=lambda g: _WEIGH_AGAIN[_over(g, g.couverture), _over(g, g.gelatin)],
    hint="Divide the slip by the part it landed on, one part after the other.",
    lets={
        "slip_g": lambda g: show(g.slip),
        "gelatin_g": lambda g: show(g.gelatin),
        "batch": lambda g: g.couverture + g.cream + g.gelatin,
        "on_batch": lambda g: _percent(error_share(g.slip, g.batch)),
        "on_couverture": lambda g: _percent(error_share(g.slip, g.couverture)),
        "on_gelatin": lambda g: _percent(error_share(g.slip, g.gelatin)),
    },
    options=(
        Option(
            "leave both",
            "Nothing. In a batch of {batch} that is {on_batch}.",
            "Against the whole batch the slip is {on_batch}. Against the part it landed on it is {on_gelatin} of the gelatin.",
            "{on_couverture} of the couverture, {on_gelatin} of the gelatin: both within {allowed}. It is the part that counts, "
            "not the batch.",
        ),
        # Never right, whatever the values: one slip is the larger share of the smaller part.
        Option(
            "the couverture",
            "The couverture: there is most of it, so an error there does most harm.",
            "The larger the part, the less the same slip does: {on_couverture} of the couverture, {on_gelatin} of the gelatin.",
        ),
        Option(
            "the gelatin",
            "The gelatin. The couverture may stay.",
            "On the gelatin the slip is {on_gelatin}, on the couverture {on_couverture}. You allow {allowed} of a part.",
            "The same slip is {on_gelatin} of the gelatin and only {on_couverture} of the couverture.",
        ),
        Option(
            "both",
            "Both. A formula is a formula.",
            "The rule of your kitchen is {allowed} of a part: the couverture is off by {on_couverture}, the gelatin by {on_gelatin}.",
            "{on_couverture} of the couverture and {on_gelatin} of the gelatin: both are more than {allowed}.",
        ),
    ),
    steps=(
        "Couverture: {slip_g} of {couverture} is {on_couverture}.",
        "Gelatin: {slip_g} of {gelatin_g} is {on_gelatin}.",
        "Weigh again what is off by more than {allowed}.",
    ),
)


EXERCISES = (POUNDS, FALL, HONEY, SCARCEST, PIECES, TWO_GRAMS)
