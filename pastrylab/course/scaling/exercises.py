"""Exercises of lesson 01: the scarcest ingredient and pieces; the list of all, in the order of the lesson."""

from pastrylab.course.scaling.judgements import TWO_GRAMS
from pastrylab.course.scaling.measures import FALL, HONEY, POUNDS
from pastrylab.ground.units import Q
from pastrylab.school.draws import shown
from pastrylab.school.engine import Exercise, Slip
from pastrylab.trade.formula import Formula, purchase, yield_after

_PART_SHORT = {"couverture": "dark couverture 64 %", "cream": "heavy cream 36 %", "butter": "butter unsalted"}


def _stock(g):
    formula = Formula({name: getattr(g, part) for part, name in _PART_SHORT.items()})
    return formula, {name: getattr(g, f"{part}_held") for part, name in _PART_SHORT.items()}


def _ratio(g, part):
    return (getattr(g, f"{part}_held") / getattr(g, part)).m_as("dimensionless")


def _asks_for_little(g):
    """Whether the formula takes no more of the smallest pile than of any other."""
    return all(getattr(g, g.least) <= getattr(g, part) for part in _PART_SHORT)


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
            fits=_asks_for_little,
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
            fits=lambda g: g.times > 1,
        ),
    ),
    steps=(
        "Couverture: {couverture_held:g} ÷ {couverture:g} = {times_couverture:n 4} times.",
        "Cream: {cream_held:g} ÷ {cream:g} = {times_cream:n 4} times. Butter: {butter_held:g} ÷ {butter:g} = "
        "{times_butter:n 4} times.",
        "The smallest is {first}, {times} times: it runs out first.",
        "One batch: {couverture:g bare} + {cream:g bare} + {butter:g bare} = {batch:g}. So many times the "
        "batch: {batch:g} × {times:n 4} = {answer:g}.",
    ),
    table=lambda g: (
        ("ingredient", "formula", "on the shelf"),
        [(name, shown(getattr(g, part)), shown(getattr(g, f"{part}_held"))) for part, name in _PART_SHORT.items()],
    ),
)


def _made(g):
    return purchase(g.pieces * g.piece, yield_after(trim=g.loss)).to("g")


PIECES = Exercise(
    id="01.percent-to-pieces",
    title="From percent to pieces",
    prompt="""A filling is {couverture} dark couverture; the rest is cream and syrup. You pipe {pieces} pieces of {piece} each,
        and {loss} of what you make stays in bowl and bag. How much couverture do you weigh?""",
    answer=lambda g: _made(g) * g.couverture.m_as("dimensionless"),
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
            lambda g: g.piped * g.couverture.m_as("dimensionless"),
            "That fills the pieces only if nothing stays in bowl and bag. {loss} of what you make does.",
        ),
        Slip(
            "loss added on",
            lambda g: g.piped * (1 + g.loss.m_as("dimensionless")) * g.couverture.m_as("dimensionless"),
            "You added {loss} of what you pipe. The loss is {loss} of what you make: divide by the {left} that are left.",
        ),
        Slip(
            "loss taken off",
            lambda g: g.piped * g.left.m_as("dimensionless") * g.couverture.m_as("dimensionless"),
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
        "Piped: {pieces:n} × {piece:g} = {piped:g}.",
        "Only {left} of what you make leaves the bag: divide by it. You make {piped:g} ÷ {left:1} = {made:g}.",
        "{couverture} of that is couverture: {made:g} × {couverture:1} = {answer:g}.",
    ),
)


EXERCISES = (POUNDS, FALL, HONEY, SCARCEST, PIECES, TWO_GRAMS)
