"""Exercise of lesson 03 about an infusion: how much cream to start with."""

from pastrylab.ground.units import Q
from pastrylab.school.engine import Exercise, Slip
from pastrylab.trade import infusion


def _start(g):
    return infusion.start_with(g.wanted, g.leaves, kept=g.kept, evaporated=g.steam)


def _of(share):
    return share.m_as("dimensionless")


INFUSED = Exercise(
    id="03.cream-for-an-infusion",
    title="Cream for an infusion",
    prompt="""A tea ganache goes on with {wanted} of strained cream. You steep {leaves} of tea in it, by weight of the cream
        you start with. Drained, your tea keeps {kept} times its own weight of cream, and {steam} of the cream you start
        with goes off as steam. Nothing will be topped up. How much cream do you start with?""",
    answer=lambda g: _start(g).liquid,
    unit="g",
    resolution=4,
    because="pan and sieve keep as much",
    sane=(380, 800),
    hint="Ask what share of the cream you start with comes through the sieve. More cream takes more tea, which keeps more.",
    lets={
        "in_tea": lambda g: Q(round(100 * g.kept * _of(g.leaves), 2), "percent"),
        "left_share": lambda g: Q(round(100 * (1 - g.kept * _of(g.leaves) - _of(g.steam)), 2), "percent"),
        "start": _start,
        "tea": lambda g: g.start.leaves,
        "tea_keeps": lambda g: g.kept * g.start.leaves,
        "gone": lambda g: (_of(g.steam) * g.start.liquid).to("g"),
        "cream": lambda g: g.start.liquid,
    },
    slips=(
        Slip(
            "what the tea keeps left out",
            lambda g: g.wanted / (1 - _of(g.steam)),
            "You reckoned with the steam alone. The wet tea goes into the bin with cream in it: {kept} times its weight.",
        ),
        Slip(
            "added instead of divided",
            lambda g: g.wanted * (1 + g.kept * _of(g.leaves) + _of(g.steam)),
            "You put what is lost on top of {wanted}. The shares are of the cream you start with, which is more, and so is "
            "what it loses: divide {wanted} by what is left.",
        ),
        Slip(
            "the tea's own weight",
            lambda g: g.wanted / (1 - _of(g.leaves) - _of(g.steam)),
            "You took the weight of the dry tea for what it keeps. It keeps {kept} times as much.",
        ),
        Slip(
            "steam twice",
            lambda g: g.wanted / (1 - g.kept * _of(g.leaves) - 2 * _of(g.steam)),
            "You took the steam off twice. It leaves the pan once; what the tea keeps is counted by itself.",
        ),
    ),
    steps=(
        "The tea keeps {kept:n} × {leaves:%} = {in_tea:%} of the cream you start with.",
        "With the steam gone as well, this share comes through the sieve: 1 − {in_tea:1} − {steam:1} = {left_share:1}.",
        "Divide by it: {wanted:g} ÷ {left_share:1} = {answer:g} of cream.",
        "Back again: the tea keeps {kept:n} × {tea:g} = {tea_keeps:g}, {gone:g} go off as steam, and "
        "{wanted} are left.",
    ),
)
