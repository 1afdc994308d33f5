"""The judgement of lesson 01: a slip of the hand, and what it is a share of."""

from pastrylab.ground.units import Q, show
from pastrylab.school.engine import Exercise, Option
from pastrylab.trade.weighing import error_share


def _percent(share):
    return Q(round(100 * share, 2), "percent")


_WEIGH_AGAIN = {
    (False, False): "leave both",
    (False, True): "the gelatin",
    (True, False): "the couverture",
    (True, True): "both",
}


def _over(g, part):
    """Whether the slip is more than the kitchen allows on that part; on the limit is still inside."""
    return error_share(g.slip, part) > g.allowed.m_as("dimensionless") * (1 + 1e-9)


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
    supposes={"the couverture is the larger part": lambda g: g.couverture > g.gelatin},
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
        "Couverture: {slip:g} ÷ {couverture:g} = {on_couverture:%}.",
        "Gelatin: {slip:g} ÷ {gelatin:g} = {on_gelatin:%}.",
        "Weigh again what is off by more than {allowed}.",
    ),
)
