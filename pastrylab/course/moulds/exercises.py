"""Exercises of lesson 06: a cavity, its shell, its filling, moulds for an order, the bowl; the list of all."""

import math

from pastrylab.course.moulds.judgements import NINTH
from pastrylab.ground.units import Q
from pastrylab.school.engine import Exercise, Slip
from pastrylab.trade import moulds
from pastrylab.trade.moulds.shells import SET


def _ball(radius):
    """Volume of half a ball."""
    return (2 / 3 * math.pi * radius**3).to("mL")


CAVITY = Exercise(
    id="06.room-in-a-cavity",
    title="Room in a cavity",
    prompt="""The cavities of a mould are half balls, {diameter} across at the opening.
        How much does one hold?""",
    answer=lambda g: moulds.hemisphere(g.diameter).volume,
    unit="mL",
    resolution=0.1,
    because="a rule read to half a millimetre cannot tell less",
    sane=(1, 30),
    hint="A ball holds 4 ÷ 3 × {pi:n} × radius × radius × radius. Work in centimetres: a cubic centimetre is a millilitre.",
    lets={
        "pi": lambda g: math.pi,
        "radius": lambda g: g.diameter / 2,
        "ball": lambda g: 2 * _ball(g.radius),
    },
    slips=(
        Slip(
            "diameter as radius",
            lambda g: _ball(g.diameter),
            "You took {diameter} as the radius. That is the whole way across; the radius is half of it.",
        ),
        Slip("whole ball", lambda g: g.ball, "That is the whole ball. The mould has only its lower half."),
        Slip(
            "a straight hole",
            lambda g: (math.pi * g.radius**3).to("mL"),
            "That is a hole with upright walls, as deep as its radius. A half ball holds two thirds of it.",
        ),
        Slip(
            "a third power left out",
            lambda g: (2 / 3 * math.pi * g.radius**2 * Q(1, "cm")).to("mL"),
            "The radius goes in three times: wide, long and deep.",
        ),
    ),
    steps=(
        "The radius is half the opening: {diameter:cm bare} ÷ 2 = {radius:cm bare}, in centimetres.",
        "A whole ball: 4 ÷ 3 × {pi:n} × {radius:cm bare} × {radius:cm bare} × {radius:cm bare} = {ball:mL}.",
        "Half of it: {ball:mL} ÷ 2 = {answer:mL 4}.",
    ),
)

SHELL = Exercise(
    id="06.shell-by-weighing",
    title="A shell by two weighings",
    prompt="""An empty mould weighs {empty}. With the shells cast in all its {cavities} cavities, set and scraped, it weighs
        {with_shells}. When you look at them against the light, {cracked} have cracked.
        What does one shell weigh on average?""",
    answer=lambda g: (g.with_shells - g.empty) / g.cavities,
    unit="g",
    resolution=0.07,
    because="two weighings to the gram, shared by all the shells, tell no less",
    sane=(0.5, 8),
    hint="What is chocolate and what is mould? And how many shells were on the scale?",
    lets={
        "chocolate": lambda g: g.with_shells - g.empty,
        "sound": lambda g: g.cavities - g.cracked,
    },
    slips=(
        Slip(
            "mould not taken off",
            lambda g: g.with_shells / g.cavities,
            "That shares out the mould as well. Take its {empty} off first.",
        ),
        Slip(
            "sound pieces",
            lambda g: g.chocolate / g.sound,
            "You shared it among the {sound} sound shells. The cracked ones were on the scale too.",
        ),
        Slip("not shared out", lambda g: g.chocolate, "That is all the shells of the mould together."),
        Slip(
            "added",
            lambda g: (g.with_shells + g.empty) / g.cavities,
            "You added the two weighings. The chocolate is what lies between them.",
        ),
    ),
    steps=(
        "The chocolate: {with_shells:g} − {empty:g} = {chocolate:g}.",
        "It stands in all the cavities, cracked or sound: {chocolate:g} ÷ {cavities:n} = {answer:g 4}.",
    ),
)


def _each(g, shell=1, cap=1):
    """Room left for the filling of one piece."""
    return (g.cavity - (g.shell * shell + g.cap * cap) / g.set).to("mL")


FILLING = Exercise(
    id="06.filling-to-make",
    title="Filling for the moulds",
    prompt="""A cavity holds {cavity}. You weighed: a shell {shell}, a cap {cap}. Set chocolate weighs {set:n} g for each
        millilitre, your filling {filling:n} g for each millilitre.
        How much filling do {pieces} pieces take?""",
    answer=lambda g: moulds.piece_by_mass(g.cavity, g.shell, g.cap, g.filling, g.set).filling * g.pieces,
    unit="g",
    resolution=5,
    because="more than that stays in the piping bag",
    sane=(100, 3000),
    hint="Shell, filling and cap share one cavity. Turn the chocolate's grams into millilitres before you take them off.",
    lets={
        "set": lambda g: Q(SET, "g/mL"),
        "solid": lambda g: ((g.shell + g.cap) / g.set).to("mL"),
        "room": lambda g: _each(g),
        "all": lambda g: (_each(g) * g.pieces).to("mL"),
    },
    slips=(
        Slip(
            "cavity as filling",
            lambda g: g.cavity * g.filling * g.pieces,
            "That fills the bare cavity. Shell and cap already stand in {solid:mL} of its {cavity:mL}.",
        ),
        Slip(
            "cap forgotten",
            lambda g: _each(g, cap=0) * g.filling * g.pieces,
            "That fills the shell to the rim. The cap needs room too, or the filling comes out at the seam.",
        ),
        Slip(
            "millilitres as grams",
            lambda g: g.all * Q(1, "g/mL"),
            "That is the room, in millilitres. A millilitre of this filling weighs {filling:n} g, not one gram.",
        ),
        Slip(
            "shell forgotten",
            lambda g: _each(g, shell=0) * g.filling * g.pieces,
            "You took off the cap alone. The shell stands in the cavity as well.",
        ),
    ),
    steps=(
        "Shell and cap fill ({shell:g bare} + {cap:g bare}) ÷ {set:n} = {solid:mL} of the cavity.",
        "That leaves {cavity:mL} − {solid:mL} = {room:mL} for the filling.",
        "All pieces together: {pieces:n} × {room:mL} = {all:mL}.",
        "In grams: {all:mL} × {filling:n} = {answer:g 4}.",
    ),
)


def _share(g):
    return g.rejects.m_as("dimensionless")


FILLS = Exercise(
    id="06.moulds-for-an-order",
    title="Moulds for an order",
    prompt="""An order takes {good:n} good pieces. By the class's own tally {rejects} of what is cast is cracked, dull or
        leaks. A mould has {cavities:n} cavities.
        How many times do you fill a mould?""",
    answer=lambda g: float(moulds.fills(g.good, g.rejects, g.cavities).count),
    kind="number",
    resolution=0.01,
    because="a mould is filled or it is not",
    sane=(2, 60),
    hint="{rejects} of what share of the pieces you cast? Ask first how many you must cast.",
    lets={
        "kept": lambda g: Q(100 * (1 - _share(g)), "percent"),
        "cast": lambda g: g.good / (1 - _share(g)),
        "exact": lambda g: g.good / (1 - _share(g)) / g.cavities,
    },
    slips=(
        Slip(
            "rejects multiplied",
            lambda g: float(math.ceil(g.good * (1 - _share(g)) / g.cavities)),
            "You made the order smaller by its rejects. Only {kept} of what you cast is good: cast more, not fewer.",
        ),
        Slip(
            "rejects added",
            lambda g: float(math.ceil(g.good * (1 + _share(g)) / g.cavities)),
            "You put {rejects} of the order on top. But {rejects} of the pieces on top crack as well: divide by {kept:1}.",
        ),
        Slip(
            "rejects forgotten",
            lambda g: float(math.ceil(g.good / g.cavities)),
            "So many would do if every piece came out well.",
        ),
        Slip("not rounded", lambda g: g.exact, "You cannot fill part of a mould and call it filled. Round up."),
        Slip(
            "rounded down",
            lambda g: float(math.floor(g.exact)),
            "The last pieces of the order need a mould too. Round up.",
        ),
    ),
    steps=(
        "Of what is cast, {kept} is good: 1 − {rejects:1} = {kept:1}.",
        "To cast: {good:n} ÷ {kept:1} = {cast:n} pieces.",
        "In moulds: {cast:n} ÷ {cavities:n} = {exact:n}.",
        "A mould is filled whole: rounded up, that is {answer:n}.",
    ),
)


def _mould(g):
    return moulds.Mould(g.full.m_as("g"), g.shell.m_as("g") * g.cavities, g.cap.m_as("g") * g.cavities, 0.0)


def _more_than_stays(g):
    return g.full > g.shells + g.caps


BOWL = Exercise(
    id="06.what-must-be-in-the-bowl",
    title="What must be in the bowl",
    prompt="""You have one mould of {cavities:n} cavities and use it {fills:n} times over. Each time you fill it to the brim
        with {full} of chocolate and tip it; a shell keeps {shell}. Before it is cast again its pieces are capped, from the
        same bowl; a cap keeps {cap}. The last {rest} in the bowl no ladle can reach.
        How much chocolate must be in the bowl when you begin?""",
    answer=lambda g: Q(moulds.need(_mould(g), g.fills, g.rest, in_turn=True).in_bowl, "g"),
    unit="g",
    resolution=5,
    because="a bench scale for kilograms shows steps of this size",
    sane=(300, 5000),
    hint="Stand before the last mould. What has left the bowl by then, and what must still be in it to fill this one?",
    lets={
        "shells": lambda g: g.shell * g.cavities,
        "caps": lambda g: g.cap * g.cavities,
        "before": lambda g: g.fills - 1,
        "gone": lambda g: (g.fills - 1) * (g.shells + g.caps),
        "leaves": lambda g: g.fills * (g.shells + g.caps),
    },
    supposes={"a full mould holds more than its shells and caps keep": _more_than_stays},
    slips=(
        Slip(
            "shells alone",
            lambda g: g.fills * g.shells,
            "That is what the shells keep. The bowl must also fill the last mould to the brim, and make the caps.",
        ),
        Slip(
            "what leaves it",
            lambda g: g.leaves,
            "So much leaves the bowl with shells and caps. With no more in it, the last mould cannot be filled to the brim.",
            fits=_more_than_stays,
        ),
        Slip(
            "caps forgotten",
            lambda g: g.before * g.shells + g.full + g.rest,
            "The caps come out of the same bowl: {caps:g} each time, before the mould is cast again.",
        ),
        Slip(
            "rest forgotten",
            lambda g: g.gone + g.full,
            "You reckoned with the last drop. {rest} stays at the bottom of the bowl.",
        ),
        Slip(
            "a full mould each time",
            lambda g: g.fills * g.full,
            "What is tipped out goes back into the bowl. Only shells and caps leave it.",
            fits=_more_than_stays,
        ),
    ),
    steps=(
        "The shells of one mould: {cavities:n} × {shell:g} = {shells:g}. Its caps: {cavities:n} × {cap:g} = {caps:g}.",
        "Gone before the last: {before:n} × ({shells:g bare} + {caps:g bare}) = {gone:g}.",
        "To fill the last, and what no ladle reaches: {gone:g} + {full:g} + {rest:g} = {answer:g}.",
        "In the end only {fills:n} × ({shells:g bare} + {caps:g bare}) = {leaves:g} have left. The rest "
        "comes back, for the next melt.",
    ),
)


EXERCISES = (CAVITY, SHELL, FILLING, FILLS, BOWL, NINTH)
