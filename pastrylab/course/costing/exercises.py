"""Exercises of lesson 08: what to buy, what a pod costs, prices by food cost and by margin, break-even."""

from pastrylab.course.costing.judgements import PROMOTION
from pastrylab.ground.units import Q, StudentError
from pastrylab.school.engine import Exercise, Slip
from pastrylab.trade import costing, purchasing, yields

_CENT = {"kind": "money", "resolution": 0.01, "because": "a cent, because some kitchens round a cost up"}
# A price goes up to the next cent: less than a cent above the sum. The nearest cent counts as well.
_PRICE = {"kind": "money", "resolution": 0.0099, "because": "what rounding a price up to the next cent may move"}


def _part(share):
    """A share as a plain number of 1."""
    return float(share.m_as("dimensionless"))


def _percent(number):
    return Q(100 * number, "percent")


AS_PURCHASED = Exercise(
    id="08.as-purchased",
    title="What weight of lemons?",
    prompt="""A ganache and a curd together need {edible} of lemon juice. The lemons you buy give {juice} of their weight
        as juice; you weighed it last week. What weight of lemons gives just that much juice? What you then put into the
        basket may be a little more; here the sum itself is asked.""",
    answer=lambda g: yields.purchase(g.edible, g.juice),
    unit="g",
    resolution=5,
    because="a scale at the market shows steps of this size",
    sane=(200, 20_000),
    hint="The juice is {juice} of the lemons. So which number, times that share, gives {edible}?",
    lets={
        "lost": lambda g: _percent(1 - _part(g.juice)),
        "multiplied": lambda g: g.edible * _part(g.juice),
        "added": lambda g: g.edible * (2 - _part(g.juice)),
        "added_gives": lambda g: g.added * _part(g.juice),
        "back": lambda g: AS_PURCHASED.answer(g) * _part(g.juice),
    },
    slips=(
        Slip(
            "multiplied by the yield",
            lambda g: g.multiplied,
            "That is less than the juice you need. The yield takes you from bought to usable; you go the other way.",
        ),
        Slip(
            "the loss added on top",
            lambda g: g.added,
            "You put {lost} on top of the juice. But the loss is {lost} of the lemons: yours give {added_gives}.",
        ),
        Slip(
            "the loss forgotten",
            lambda g: g.edible,
            "That is the juice itself. {lost} of what you buy stays behind as peel and pulp.",
        ),
    ),
    steps=(
        "Usable = bought × yield, so bought = usable ÷ yield.",
        "{edible:g} ÷ {juice:1} = {answer:g} of lemons.",
        "Check it forwards: {answer:g} × {juice:1} = {back:g} of juice. At the market round up, never down.",
    ),
)


def _each(g):
    """Cost of a pod good enough to use."""
    return purchasing.pod_cost(g.price, int(g.pods), g.usable)


def _rounded_pod(g):
    """The vanilla with a pod rounded to the cent first; StudentError where that does not show."""
    rounded = _each(g).rounded() * g.used - g.back
    right = POD.answer(g)
    if abs(rounded - right) <= 2 * POD.how.tolerance(right):
        raise StudentError("a pod of whole cents", "nothing to round", "$2.00")
    return rounded


def _pods_left(g):
    return g.used < g.good


POD = Exercise(
    id="08.pod-in-a-batch",
    title="What the vanilla costs",
    prompt="""A tin of {pods} vanilla pods costs {price}; {usable} of them are good enough to use. A batch takes {used} pods.
        Afterwards {dried} of these are rinsed, dried fully and ground into vanilla sugar, where each one saves {credit} of
        bought vanilla sugar. The others are thrown away. What does the vanilla cost this batch?""",
    answer=lambda g: (
        purchasing.pod_cost(g.price, int(g.pods), g.usable, g.used - g.dried)
        + purchasing.pod_cost(g.price, int(g.pods), g.usable, g.dried, g.credit)
    ),
    **_CENT,
    sane=(1, 60),
    hint="Three sums: what a good pod costs, what {used} of them cost, and what the {dried} dried ones bring back.",
    lets={
        "good": lambda g: g.pods * _part(g.usable),
        "each": _each,
        "fresh": lambda g: _each(g) * g.used,
        "back": lambda g: g.credit * g.dried,
    },
    supposes={
        "the tin holds more good pods than the batch takes": _pods_left,
        "not all pods of the batch are dried": lambda g: g.dried < g.used,
    },
    slips=(
        Slip(
            "the whole tin",
            lambda g: g.price,
            "That is the whole tin. The other pods stay on the shelf for other batches: buying is not using.",
            fits=_pods_left,
        ),
        Slip(
            "every pod counted as good",
            lambda g: purchasing.pod_cost(g.price, int(g.pods), used=g.used) - g.back,
            "You shared the tin among all {pods} pods. Only {good} are good, and they carry the cost of all.",
        ),
        Slip(
            "a spent pod at the price of a fresh one",
            lambda g: g.each * (g.used - g.dried),
            "You gave the dried pods their full price back. A spent pod only saves what it replaces, {credit} each.",
        ),
        Slip(
            "the second use forgotten",
            lambda g: g.fresh,
            "That is the fresh pods alone. The {dried} dried ones save {credit} each in vanilla sugar.",
        ),
        Slip(
            "a pod rounded on the way",
            _rounded_pod,
            "The way is right, but you rounded one pod to {each} and then took it {used} times, its odd part of a cent as "
            "well. Carry the unrounded number to the end, and round once.",
        ),
    ),
    steps=(
        "Good pods: {pods:n} × {usable:1} = {good:n}. So a good pod costs {price:n} ÷ {good:n} = {each:n}; "
        "carry on with the unrounded number.",
        "{used:n} × {each:n} = {fresh:n} for those of the batch.",
        "The dried ones save {dried:n} × {credit:n} = {back:n}.",
        "Take that off: {fresh:n} − {back:n} = {answer:n}.",
    ),
)

FOOD_COST_PRICE = Exercise(
    id="08.price-from-food-cost",
    title="A price from the food cost",
    prompt="""The ingredients of a box of six cost {cost}. The shop wants its food cost to be {share} of the price.
        What is the price?""",
    answer=lambda g: costing.price_for(g.cost, g.share),
    **_PRICE,
    sane=(3, 60),
    hint="{cost} is {share} of the price. What is the whole, if that is the part?",
    lets={
        "rest": lambda g: _percent(1 - _part(g.share)),
        "habit": lambda g: 3,
        "on_top": lambda g: costing.price_by_markup(g.cost, g.share),
        "on_top_share": lambda g: _percent(costing.food_cost_share(g.cost, g.on_top)),
        "as_margin": lambda g: costing.price_by_margin(g.cost, g.share),
        "habit_share": lambda g: _percent(1 / g.habit),
        "back": lambda g: costing.food_cost_allowed(costing.price_for(g.cost, g.share), g.share),
    },
    slips=(
        Slip(
            "the share put on top",
            lambda g: g.on_top,
            "You put {share} on top of the cost. At that price the ingredients are {on_top_share} of it.",
        ),
        Slip(
            "divided by the rest",
            lambda g: g.as_margin,
            "You divided by {rest}. At that price the ingredients would take {rest}, not {share}.",
        ),
        Slip(
            "the habit",
            lambda g: g.cost * g.habit,
            "That is the habit, {habit} times the cost. It means a food cost of {habit_share}, whatever the shop wants.",
        ),
        Slip(
            "a share of the cost",
            lambda g: costing.food_cost_allowed(g.cost, g.share),
            "That is {share} of the cost, a price below what the ingredients cost you.",
        ),
    ),
    steps=(
        "Food cost = price × {share}, so price = food cost ÷ {share}.",
        "{cost:n} ÷ {share:1} = {answer:n}. What does not come out even goes up to the next cent.",
        "Check: {share} of that price is {back}, the cost you began with.",
    ),
)

MARGIN_PRICE = Exercise(
    id="08.price-by-margin",
    title="A price that leaves a margin",
    prompt="""With ingredients, labour, packaging and its part of rent and power a box costs {cost}. The shop must keep {margin} of the price
        as its margin. What is the price?""",
    answer=lambda g: costing.price_by_margin(g.cost, g.margin),
    **_PRICE,
    sane=(4, 60),
    hint="The margin is {margin} of the price. Which share of the price, then, is the cost?",
    lets={
        "rest": lambda g: _percent(1 - _part(g.margin)),
        "marked_up": lambda g: costing.price_by_markup(g.cost, g.margin),
        "kept": lambda g: _percent(costing.markup_to_margin(g.margin)),
        "markup": lambda g: _percent(costing.margin_to_markup(g.margin)),
    },
    slips=(
        Slip(
            "markup for margin",
            lambda g: g.marked_up,
            "You put {margin} of the cost on top: a markup. Of that price only {kept} is left. A margin is of the price.",
        ),
        Slip(
            "divided by the margin",
            lambda g: g.cost / _part(g.margin),
            "At that price the cost would be {margin} of it and the margin {rest}: the two are the wrong way round.",
        ),
        Slip(
            "the margin alone",
            lambda g: g.cost * (costing.margin_to_markup(g.margin)),
            "That is the margin in money, what has to be added. The price is cost and margin together.",
        ),
    ),
    steps=(
        "The cost is what the margin leaves of the price: 1 − {margin:1} = {rest:1}, or {rest}.",
        "{cost:n} ÷ {rest:1} = {answer:n}. What does not come out even goes up to the next cent.",
        "The same price as a markup: {markup} of the cost on top. One price, two percentages.",
    ),
)


def _unrounded(g):
    if g.exact == int(g.exact):
        raise StudentError("a whole number of boxes", "nothing to round", "50")
    return g.exact


BREAK_EVEN = Exercise(
    id="08.break-even",
    title="Boxes that pay for the day",
    prompt="""A market day costs {fixed} whether you sell or not: stall, van, the person behind the table. A box sells at
        {price}; making one more box costs {variable}. How many boxes must you sell until all of the day is paid for?""",
    answer=lambda g: costing.break_even(g.fixed, g.price, g.variable),
    kind="number",
    resolution=0.01,
    because="boxes are counted, and sold whole",
    sane=(5, 400),
    hint="Each box first pays for itself. Only the rest pays the stall. And nobody buys a part of a box.",
    lets={
        "gives": lambda g: costing.contribution(g.price, g.variable),
        "exact": lambda g: float(g.fixed / costing.contribution(g.price, g.variable)),
        "one_short": lambda g: costing.break_even(g.fixed, g.price, g.variable) - 1,
        "missing": lambda g: g.fixed - g.gives * g.one_short,
    },
    slips=(
        Slip(
            "the boxes cost nothing",
            lambda g: costing.break_even(g.fixed, g.price, 0),
            "You let the whole price pay the stall. {variable} of each {price} is gone for the box itself.",
        ),
        Slip(
            "divided by the cost",
            lambda g: costing.break_even(g.fixed, g.variable, 0),
            "You divided by what a box costs. What pays the stall is what a box leaves: price less its own cost.",
        ),
        Slip(
            "a part of a box",
            _unrounded,
            "The sum is right, but nobody buys a part of a box. Which whole number pays for all of the day?",
        ),
        Slip(
            "one too few",
            lambda g: g.one_short,
            "After {one_short} boxes {missing} of the day is still unpaid. Round up: it takes one more.",
        ),
    ),
    steps=(
        "What a box leaves, its contribution: {price:n} − {variable:n} = {gives:n}.",
        "{fixed:n} ÷ {gives:n} = {exact:n} boxes.",
        "Boxes are sold whole, so round up. After {one_short} boxes this is still unpaid: {fixed:n} − "
        "{one_short:n} × {gives:n} = {missing:n}.",
    ),
)

EXERCISES = (AS_PURCHASED, POD, FOOD_COST_PRICE, MARGIN_PRICE, BREAK_EVEN, PROMOTION)
