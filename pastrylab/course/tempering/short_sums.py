"""Two short sums of lesson 02: seed as a share of the whole bowl, and a top-up that stays within the band."""

from pastrylab.course.tempering.lets import steps_of
from pastrylab.ground.units import Q
from pastrylab.school.engine import Exercise, Slip
from pastrylab.trade import chocolate, holding


def _share(g):
    return g.share.m_as("dimensionless")


SHARE = Exercise(
    id="02.share-of-the-bowl",
    title="A share of what?",
    prompt="""A card says: seed, {share} of the whole bowl. You have melted out {melt}.
        How much seed do you weigh, so that it is {share} of melt and seed together?""",
    answer=lambda g: (g.melt * _share(g) / (1 - _share(g))).to("g"),
    unit="g",
    resolution=5,
    because="a bench scale for kilograms shows steps of this size",
    sane=(50, 3000),
    hint="If the seed is {share} of the whole, what share of the whole is the melt?",
    lets={
        "melt_share": lambda g: Q(100 * (1 - _share(g)), "percent"),
        "whole": lambda g: (g.melt / (1 - _share(g))).to("g"),
    },
    slips=(
        Slip(
            "share of the melt",
            lambda g: (g.melt * _share(g)).to("g"),
            "You took {share} of the melt. The card says of the whole bowl, and the melt is only {melt_share} of that.",
        ),
        Slip(
            "the whole bowl",
            lambda g: g.whole,
            "That is the whole bowl, melt and seed together. The seed is what is more than {melt}.",
        ),
        Slip(
            "added on",
            lambda g: (g.melt * (1 + _share(g))).to("g"),
            "You put {share} of the melt on top of it. Ask first what share of the whole the melt is.",
        ),
    ),
    steps=(
        "The melt is what is left of the whole: 1 − {share:1} = {melt_share:1}.",
        "The whole bowl: {melt:g} ÷ {melt_share:1} = {whole:g}.",
        "The seed is the rest: {whole:g} − {melt:g} = {answer:g}.",
    ),
)

TOP_UP = Exercise(
    id="02.top-up",
    title="Top up, and stay in the band",
    prompt="""A tempered bowl holds {bowl} of dark chocolate at {bowl_at}. Melted-out chocolate stands ready at {hot}.
        How much of it can you pour in, so that the bowl comes to {most} and no further?
        Nothing melts and nothing sets while you stir.""",
    answer=lambda g: holding.top_up(g.bowl, g.bowl_at, g.hot, g.most).to("g"),
    unit="g",
    resolution=5,
    because="a bench scale for kilograms shows steps of this size",
    sane=(10, 2000),
    hint="What the bowl takes up on its way to {most} is what the top-up gives. Both are chocolate: only degrees and masses count.",
    lets={
        "most": lambda g: chocolate.band("dark")[2][1],
        "rise": lambda g: steps_of(g.most, g.bowl_at),
        "fall": lambda g: steps_of(g.hot, g.most),
    },
    slips=(
        Slip(
            "all the way down",
            lambda g: (g.bowl * (g.rise / steps_of(g.hot, g.bowl_at)).m_as("")).to("g"),
            "You let the top-up fall to {bowl_at}. It falls to {most} only: there both meet.",
        ),
        Slip(
            "upside down",
            lambda g: (g.bowl * (g.fall / g.rise).m_as("")).to("g"),
            "You divided the other way round. The bowl rises by {rise}, the top-up falls by {fall}: little of it is enough.",
            fits=lambda g: g.rise < g.fall,
        ),
        Slip(
            "the whole bowl",
            lambda g: (g.bowl * (1 + (g.rise / g.fall).m_as(""))).to("g"),
            "That is what the bowl holds afterwards. You were asked what you pour in.",
        ),
    ),
    steps=(
        "The bowl may rise by {most:degC bare} − {bowl_at:degC bare} = {rise:delta_degC}.",
        "The top-up falls by {hot:degC bare} − {most:degC bare} = {fall:delta_degC}.",
        "{bowl:g} × {rise:delta_degC bare} ÷ {fall:delta_degC bare} = {answer:g}.",
        "No more than that: weigh it, pour, stir, and read.",
    ),
)
