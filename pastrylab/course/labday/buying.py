"""Exercises of lesson 09 on what an order takes: moulds to fill, and cartons for two sections."""

import math

from pastrylab.ground.units import Q
from pastrylab.school.engine import Exercise, Slip
from pastrylab.trade.moulds.bowl import fills


def _share(g):
    return g.rejects.m_as("dimensionless")


MOULDS = Exercise(
    id="09.moulds-for-boxes",
    title="Moulds for an order in boxes",
    prompt="""{boxes:n} boxes of {each:n} are ordered, all of one flavour. {rejects} of what the class casts is not good
        enough to sell. A mould has {cavities:n} cavities.
        How many moulds do you plan to fill?""",
    answer=lambda g: float(fills(g.boxes * g.each, g.rejects, g.cavities).count),
    kind="number",
    resolution=0.01,
    because="a mould is filled or it is not",
    sane=(3, 80),
    hint="Boxes to pieces, pieces to what must be cast, what is cast to moulds: in that order, and round once, at the end.",
    lets={
        "good": lambda g: g.boxes * g.each,
        "kept": lambda g: Q(100 * (1 - _share(g)), "percent"),
        "cast": lambda g: g.good / (1 - _share(g)),
        "exact": lambda g: g.good / (1 - _share(g)) / g.cavities,
    },
    slips=(
        Slip(
            "rejects multiplied",
            lambda g: float(math.ceil(g.good * (1 - _share(g)) / g.cavities)),
            "You planned fewer pieces than were ordered. Only {kept} of what is cast can go into a box.",
        ),
        Slip(
            "rejects forgotten",
            lambda g: float(math.ceil(g.good / g.cavities)),
            "So many would do if every piece came out well.",
        ),
        Slip(
            "boxes as pieces",
            lambda g: float(math.ceil(g.boxes / (1 - _share(g)) / g.cavities)),
            "You planned one piece a box. Each box holds {each:n}.",
        ),
        Slip("not rounded", lambda g: g.exact, "A mould is filled or not, and the last pieces want one too. Round up."),
    ),
    steps=(
        "Pieces: {boxes:n} × {each:n} = {good:n}.",
        "Of what is cast, 1 − {rejects:1} = {kept:1} is good: {good:n} ÷ {kept:1} = {cast:n} to cast.",
        "In moulds: {cast:n} ÷ {cavities:n} = {exact:n}.",
        "Rounded up to whole moulds, that is {answer:n}.",
    ),
)


def _cartons(g, grams):
    return (grams / (g.carton * g.usable)).m_as("dimensionless")


CARTONS = Exercise(
    id="09.cartons-for-two-sections",
    title="Cream for two sections",
    prompt="""The morning section needs {morning} of cream, the afternoon section {afternoon}. In the cold store stand
        {store}, of today's date and unopened. A carton holds {carton}; {usable} of it leaves the carton.
        How many cartons do you buy?""",
    answer=lambda g: float(math.ceil(_cartons(g, g.need) - 1e-9)),
    kind="number",
    resolution=0.01,
    because="a carton is bought or it is not",
    sane=(1, 12),
    hint="Add before you round: both sections pour from the same cartons. What is there already need not be bought.",
    lets={
        "both": lambda g: g.morning + g.afternoon,
        "need": lambda g: g.morning + g.afternoon - g.store,
        "gives": lambda g: g.carton * g.usable,
        "exact": lambda g: _cartons(g, g.need),
    },
    slips=(
        Slip(
            "each section by itself",
            lambda g: float(math.ceil(_cartons(g, g.morning)) + math.ceil(_cartons(g, g.afternoon))),
            "You rounded up for each section and left the store out. One carton serves both: add first, take off what is there, then round.",
        ),
        Slip("not rounded", lambda g: g.exact, "Nobody sells part of a carton. Round up."),
        Slip(
            "rounded down",
            lambda g: float(math.floor(g.exact)),
            "With so many the afternoon runs dry. Round up.",
        ),
    ),
    steps=(
        "Together: {morning:g bare} + {afternoon:g bare} = {both:g}. To buy: {both:g bare} − {store:g bare} = {need:g}.",
        "A carton gives {carton:g bare} × {usable:1} = {gives:g}.",
        "{need:g bare} ÷ {gives:g bare} = {exact:n}. Whole cartons: {answer:n}.",
    ),
)
