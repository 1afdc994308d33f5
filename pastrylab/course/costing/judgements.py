"""The judgement of lesson 08: run a promotion or keep the price."""

from pastrylab.school.engine import Exercise, Option
from pastrylab.trade import costing


def _promotion(g):
    """The one true option: equal sides count against the promotion, which must bring something to be run."""
    if g.gives_then <= 0:
        return "nothing left of a box"
    return "run it" if g.left_then > g.left_now else "too little left"


# "more boxes" is never the right answer, whatever the numbers: how many boxes are sold decides nothing.
PROMOTION = Exercise(
    id="08.promotion",
    title="Run the promotion?",
    prompt="""A box sells at {price}; making one costs {variable}, ingredients, labour and packaging together. You sell {now}
        boxes a week. Somebody proposes {off} off and expects {more} boxes a week. The rent is the same either way.
        Going by the money alone, what do you answer?""",
    kind="choice",
    answer=_promotion,
    hint="First one box: what is left of it at the new price? Then all boxes: how many times that, now and then?",
    lets={
        "reduced": lambda g: costing.discounted(g.price, g.off).rounded(),
        "gives_now": lambda g: costing.contribution(g.price, g.variable),
        "gives_then": lambda g: costing.contribution(g.reduced, g.variable),
        "left_now": lambda g: g.gives_now * g.now,
        "left_then": lambda g: g.gives_then * g.more,
        "gain": lambda g: g.left_then - g.left_now,
        "takings_now": lambda g: (g.price * g.now).rounded(),
        "takings_then": lambda g: (g.reduced * g.more).rounded(),
    },
    supposes={"a box sells for more than it costs": lambda g: g.price > g.variable},
    options=(
        Option(
            "more boxes",
            "Run it. {more} boxes instead of {now}: a shop lives on what it sells.",
            "Takings would go from {takings_now} to {takings_then}, but takings are not yours yet. Left after the boxes' "
            "own cost: {left_now} now, {left_then} with the promotion. Decide by that, not by the number of boxes.",
        ),
        Option(
            "run it",
            "Run it. After the cost of the boxes, more is left for the rent than now.",
            "Left after the boxes' own cost: {left_now} now, {left_then} with the promotion.",
            "Left after the boxes' own cost: {left_now} now, {left_then} with the promotion. That is {gain} more, if the "
            "{more} boxes are really sold.",
        ),
        Option(
            "too little left",
            "Keep the price. Each box would still earn something, but all of them together no more than now.",
            "One box would sell at {reduced} and costs {variable}. All of them together leave {left_now} now and "
            "{left_then} with the promotion.",
            "A box at {reduced} still leaves {gives_then}, but {more} of them leave {left_then}; the {now} of today leave "
            "{left_now}.",
        ),
        Option(
            "nothing left of a box",
            "Keep the price. A box sold at the new price would bring its own cost at most, and nothing for the rent.",
            "At {reduced} a box still brings more than the {variable} it costs. Now look at all of them together.",
            "At {reduced} a box brings no more than the {variable} it costs, so no number of boxes pays any rent. Today "
            "{now} boxes leave {left_now}.",
        ),
    ),
    steps=(
        "The new price: {price:n} × (1 − {off:1}) = {reduced:n}.",
        "A box leaves {price:n} − {variable:n} = {gives_now:n} now and {reduced:n} − {variable:n} = "
        "{gives_then:n} then.",
        "All of them leave {now:n} × {gives_now:n bare} = {left_now:n} now and {more:n} × {gives_then:n "
        "bare} = {left_then:n} then.",
        "And ask what the sum cannot: will {more} people come, can you make that many well, and who buys at "
        "full price after?",
    ),
)
