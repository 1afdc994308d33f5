"""The judgement of lesson 06: a bowl that holds more than the shells keep, and ends all the same."""

from pastrylab.ground.units import Q
from pastrylab.school.engine import Exercise, Option
from pastrylab.trade import moulds


def _one(g):
    return moulds.Mould(g.full.m_as("g"), g.shells.m_as("g"), 0.0, 0.0)


def _day(g):
    return moulds.from_bowl(g.bowl, _one(g), g.fills, g.rest)


def _what_now(g):
    """The one true option: enough for all, enough only for what leaves the bowl, or not even that."""
    if _day(g).dry is None:
        return "enough"
    return "top it up" if g.bowl >= g.leaves + g.rest else "too small"


# "smaller moulds" is never the right answer, whatever the numbers: a mould filled in part makes shells without a rim.
NINTH = Exercise(
    id="06.the-ninth-mould",
    title="Will the bowl last?",
    prompt="""A bowl holds {bowl} of chocolate in temper, and {fills:n} moulds wait to be cast from it. One takes {full} to the
        brim; its shells keep {shells}, what sticks to the scraper included, and the rest is tipped back. The last {rest} no
        ladle can reach. The caps come from another bowl.
        What do you do before you begin?""",
    kind="choice",
    answer=_what_now,
    hint="Go from mould to mould: what is in the bowl before each, and what must a ladle find there?",
    lets={
        "leaves": lambda g: g.fills * g.shells,
        "before": lambda g: g.fills - 1,
        "gone": lambda g: (g.fills - 1) * g.shells,
        "need": lambda g: Q(moulds.need(_one(g), g.fills, g.rest, caps=False).in_bowl, "g"),
        "cast": lambda g: len(_day(g).casts),
        "next": lambda g: min(g.cast + 1, g.fills),
        "there": lambda g: g.bowl - (g.next - 1) * g.shells,
        "within": lambda g: g.bowl - (g.next - 1) * g.shells - g.rest,
    },
    options=(
        Option(
            "enough",
            "Begin. The bowl holds enough for every mould.",
            "Before mould {next:n} a ladle finds {within:g} in the bowl, and the mould takes {full:g} to the brim. There the "
            "casting ends.",
            "Before the last mould a ladle still finds {within:g}, and the mould takes {full:g}.",
        ),
        Option(
            "top it up",
            "Have more in temper ready, and top the bowl up before it ends. The shells would not use up what it holds, yet the "
            "last moulds could not be filled to the brim.",
            "The whole day needs {need:g} in the bowl, and its shells with the dead rest {leaves:g} + {rest:g}. Hold the "
            "bowl's {bowl:g} against both.",
            "{cast:n} moulds can be cast; before mould {next:n} a ladle finds {within:g}, and the mould takes {full:g}. "
            "{need:g} in the bowl would do.",
        ),
        Option(
            "smaller moulds",
            "Begin. Fill the last moulds only halfway and swirl the chocolate round.",
            "A cavity filled halfway gets no even wall up to the rim: those shells break as they are taken out, or leak. The "
            "mould is filled to the brim, or it waits.",
        ),
        Option(
            "too small",
            "Melt a second bowl. This one does not even hold what the shells will keep and the rest that no ladle reaches.",
            "The shells keep {leaves:g} in all, and {rest:g} stays behind: that the bowl holds.",
            "The shells keep {leaves:g} in all, and {rest:g} stays behind. The bowl holds {bowl:g}.",
        ),
    ),
    steps=(
        "All the shells: {fills:n} × {shells:g} = {leaves:g}. That is what leaves the bowl, not what must be in it.",
        "Before the last mould {before:n} × {shells:g} = {gone:g} have left; it takes {full:g} to fill it, and {rest:g} stay "
        "behind.",
        "So the bowl must hold {gone:g} + {full:g} + {rest:g} = {need:g} at the start.",
        "This bowl holds {bowl:g}. Before mould {next:n}, {there:g} − {rest:g} = {within:g} can be ladled.",
    ),
)
