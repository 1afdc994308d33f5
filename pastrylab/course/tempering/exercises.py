"""Exercises of lesson 02: melting out, loads, seeding, mixing; the list of all, in the order of the lesson."""

from pastrylab.course.tempering.judgements import WHAT_NOW
from pastrylab.course.tempering.lets import CHOCOLATE, HEAT_CAPACITY, LATENT, steps_of
from pastrylab.course.tempering.logs import READ_LOG
from pastrylab.course.tempering.short_sums import SHARE, TOP_UP
from pastrylab.ground.units import Q
from pastrylab.school.engine import Exercise, Slip
from pastrylab.trade import holding, tempering


def _seed(g, share=None):
    return tempering.seed_mass(
        g.batch, g.melted_at, g.seed_at, g.target, CHOCOLATE, melted_share=g.melted_share if share is None else share
    )


def _mostly_melting(g):
    """Whether most of the seed melts, and takes more heat for that than for warming up."""
    melted = g.melted_share.m_as("dimensionless")
    return melted > 0.5 and melted * g.latent > g.heat_capacity * g.climb


MELT_OUT = Exercise(
    id="02.heat-to-melt-out",
    title="Heat to melt out",
    prompt="""The class melts {batch} of {couverture}. It lies in the store at {start} and must
        reach {end}, melted out.
        A kilogram of it takes {heat_capacity:n} kJ for every degree Celsius it is warmed, and {latent:n} kJ more to melt.
        How much heat must the bain-marie put into the chocolate?""",
    answer=lambda g: tempering.heat_to_melt(g.batch, g.start, g.end, CHOCOLATE),
    unit="kJ",
    resolution=1,
    because="a kilojoule is less than a second of a kitchen hob",
    sane=(20, 5000),
    hint="Two parts add up: warming the whole batch from {start} to {end}, and melting it.",
    lets={
        **HEAT_CAPACITY,
        **LATENT,
        "rise": lambda g: steps_of(g.end, g.start),
        "warming": lambda g: tempering.heat_to_melt(g.batch, g.start, g.end, CHOCOLATE) - g.batch * g.latent,
        "melting": lambda g: (g.batch * g.latent).to("kJ"),
    },
    slips=(
        Slip(
            "melting forgotten",
            lambda g: g.warming,
            "That is the warming alone. Set chocolate must also melt: {latent} for every kilogram on top.",
        ),
        Slip(
            "warming forgotten",
            lambda g: g.melting,
            "That is the melting alone. The batch also has to climb from {start} to {end}.",
        ),
        Slip(
            "reading for rise",
            lambda g: g.batch * g.heat_capacity * Q(g.end.m_as("degC"), "delta_degC") + g.melting,
            "You warmed it from zero: what counts is the rise from {start} to {end}, not the last reading.",
        ),
        Slip(
            "Fahrenheit steps",
            lambda g: g.batch * g.heat_capacity * Q(1.8 * g.rise.m_as("delta_degC"), "delta_degC") + g.melting,
            "The rise went in as steps of Fahrenheit, but {heat_capacity:n} kJ is for a step of Celsius.",
        ),
    ),
    steps=(
        "The rise: {end:degC bare} − {start:degC bare} = {rise:delta_degC}.",
        "Warming: {batch:kg} × {heat_capacity:n} × {rise:delta_degC bare} = {warming:kJ}.",
        "Melting: {batch:kg} × {latent:n} = {melting:kJ}.",
        "Together, what the bain-marie must give: {warming:kJ} + {melting:kJ} = {answer:kJ}.",
    ),
)


def _melt(load, share):
    """What is melted out of a load whose seed is `share` of the melt."""
    return load / (1 + share.m_as("dimensionless"))


LOADS = Exercise(
    id="02.melt-per-load",
    title="What to melt for each load",
    prompt="""An order takes {order} of tempered dark couverture. Your bowl holds {bowl} at most, seed included, so you
        temper in equal loads, as few as will do. The seed is {share} of the melt.
        How much do you melt out for each load?""",
    answer=lambda g: _melt(g.each, g.share),
    unit="g",
    resolution=5,
    because="a bench scale for kilograms shows steps of this size",
    sane=(500, 6000),
    hint="First how many loads, then how large each is. Then ask what {share} is a share of.",
    lets={
        "loads": lambda g: float(holding.loads(g.order, g.bowl).count),
        "each": lambda g: holding.loads(g.order, g.bowl).each.to("g"),
        "seed": lambda g: (g.each - _melt(g.each, g.share)).to("g"),
    },
    slips=(
        Slip(
            "share of the load",
            lambda g: g.each * (1 - g.share.m_as("dimensionless")),
            "You took {share} off the load. The seed is {share} of the melt, and melt and seed together are the load.",
        ),
        Slip(
            "seed forgotten",
            lambda g: g.each,
            "That is the whole load. Part of it is seed, which you hold back: it is not melted.",
        ),
        Slip(
            "seed on top",
            lambda g: g.each * (1 + g.share.m_as("dimensionless")),
            "You added the seed to a load that already holds it.",
        ),
        Slip(
            "full bowls",
            lambda g: _melt(g.bowl, g.share),
            "That fills the bowl to the brim and leaves a small last load. Equal loads are all {each}.",
        ),
        Slip(
            "one load too few",
            lambda g: _melt(g.order / max(1, g.loads - 1), g.share),
            "So few loads do not fit: the bowl holds {bowl} at most. Round up.",
        ),
        Slip(
            "all at once",
            lambda g: _melt(g.order, g.share),
            "That melts the whole order at once. The bowl holds {bowl}.",
        ),
    ),
    steps=(
        "{order:kg} divided by {bowl:kg}, rounded up, is {loads} loads: {order:g} ÷ {loads:n} = {each:g} each.",
        "The load is the melt and, on top of it, {share} of the melt as seed: {each:g} ÷ (1 + {share:1}) = "
        "{answer:g} to melt.",
        "What is left of the load is the seed: {each:g} − {answer:g} = {seed:g}.",
    ),
)

SEED = Exercise(
    id="02.seed-for-a-bowl",
    title="Seed for a bowl",
    prompt="""A bowl holds {batch} of {couverture}, melted out at {melted_at}. The seed lies ready at {seed_at};
        {melted_share} of it will melt in the bowl. Count
        {heat_capacity:n} kJ for every kilogram and degree Celsius, and {latent:n} kJ for every kilogram that melts.
        How much seed brings the bowl to {target}?""",
    answer=_seed,
    unit="g",
    resolution=5,
    because="a probe that shows tenths of a degree cannot tell less than this apart",
    sane=(50, 10_000),
    hint="What the melt gives up on its way to {target} is what the seed takes up: warming to {target}, and melting.",
    lets={
        **HEAT_CAPACITY,
        **LATENT,
        "fall": lambda g: steps_of(g.melted_at, g.target),
        "climb": lambda g: steps_of(g.target, g.seed_at),
        "given_up": lambda g: (g.batch * g.heat_capacity * steps_of(g.melted_at, g.target)).to("kJ"),
        "taken_up": lambda g: (
            g.heat_capacity * steps_of(g.target, g.seed_at) + g.melted_share.m_as("dimensionless") * g.latent
        ).to("kJ/kg"),
        "habit": lambda g: Q(25, "percent"),
    },
    slips=(
        Slip(
            "the habit",
            lambda g: g.batch * g.habit.m_as("dimensionless"),
            "That is the habit, {habit} of the melt, not a heat balance. It ignores how warm this bowl is.",
        ),
        Slip(
            "melting forgotten",
            lambda g: _seed(g, share=0),
            "You only warmed the seed. Most of it melts, and melting takes {latent}: far less seed does the work.",
            fits=_mostly_melting,
        ),
        Slip(
            "warming forgotten",
            lambda g: g.given_up / (g.melted_share.m_as("dimensionless") * g.latent),
            "You only melted the seed. It also has to warm from {seed_at} to {target}.",
        ),
        Slip(
            "share of the total",
            lambda g: g.batch * (_seed(g) / (g.batch + _seed(g))),
            "You took the seed's share of the whole bowl and applied it to the melt. Name what a percentage is of.",
        ),
    ),
    steps=(
        "What the melt gives up: {batch:kg} × {heat_capacity:n} × ({melted_at:degC bare} − {target:degC "
        "bare}) = {given_up:kJ}.",
        "What each kilogram of seed takes up, warming and melting {melted_share} of it: {heat_capacity:n} × "
        "({target:degC bare} − {seed_at:degC bare}) + {melted_share:1} × {latent:n} = {taken_up:n} kJ.",
        "So many kilograms of seed: {given_up:n} ÷ {taken_up:n} = {answer:kg}, or {answer:g 4}.",
    ),
)

MIXTURE = Exercise(
    id="02.mixture-temperature",
    title="Where the bowl ends up",
    prompt="""Somebody stirred {seed} of seed at {seed_at} into {batch} of {couverture}, melted out at {melted_at}, by eye.
        Assume {melted_share} of the seed melts; a kilogram takes
        {heat_capacity:n} kJ for a degree Celsius and {latent:n} kJ to melt, as before.
        What will the thermometer read once it is stirred in?""",
    answer=lambda g: tempering.mixture_temperature(
        g.batch, g.melted_at, g.seed, g.seed_at, CHOCOLATE, melted_share=g.melted_share
    ),
    kind="reading",
    unit="degC",
    resolution=0.2,
    because="a kitchen probe is no closer than this",
    sane=(26, 45),
    hint="Start from the average weighted by mass, then take off what the melting seed swallows.",
    lets={
        **HEAT_CAPACITY,
        **LATENT,
        "weighted": lambda g: tempering.mixture_temperature(
            g.batch, g.melted_at, g.seed, g.seed_at, CHOCOLATE, melted_share=0
        ),
        "swallowed": lambda g: (g.seed * g.melted_share.m_as("dimensionless") * g.latent).to("kJ"),
        "drop": lambda g: steps_of(g.weighted, MIXTURE.answer(g)),
    },
    slips=(
        Slip(
            "melting forgotten",
            lambda g: g.weighted,
            "That is the average weighted by mass. The seed also melts, and that swallows {swallowed}.",
        ),
        Slip(
            "plain mean",
            lambda g: Q((g.melted_at.m_as("degC") + g.seed_at.m_as("degC")) / 2, "degC"),
            "That is the plain mean of two temperatures. There is far more melt than seed, so the melt counts more.",
            fits=lambda g: g.batch > 2 * g.seed,
        ),
        Slip(
            "all heat from the melt",
            lambda g: Q(
                g.melted_at.m_as("degC") - (g.swallowed / (g.batch * g.heat_capacity)).m_as("delta_degC"),
                "degC",
            ),
            "You only let the seed melt. It also has to warm up from {seed_at}.",
        ),
    ),
    steps=(
        "Weighted by mass, without melting: ({batch:kg bare} × {melted_at:degC bare} + {seed:kg bare} × "
        "{seed_at:degC bare}) ÷ ({batch:kg bare} + {seed:kg bare}) = {weighted:degC}.",
        "Melting {melted_share} of the seed swallows {seed:kg} × {melted_share:1} × {latent:n} = {swallowed:kJ}.",
        "Taken from the whole bowl: {swallowed:kJ bare} ÷ (({batch:kg bare} + {seed:kg bare}) × "
        "{heat_capacity:n}) = {drop:delta_degC}.",
        "The thermometer reads {weighted:degC bare} − {drop:delta_degC bare} = {answer:degC 4}.",
    ),
)


EXERCISES = (MELT_OUT, SHARE, SEED, MIXTURE, LOADS, TOP_UP, READ_LOG, WHAT_NOW)
