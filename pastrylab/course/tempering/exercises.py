"""Exercises of lesson 02: melting out, loads, seeding, mixing, reading a log, and what to do with a bowl that ran warm."""

import pandas as pd

from pastrylab import logs as probelog
from pastrylab.ground.units import Q, StudentError, show
from pastrylab.school.draws import fill
from pastrylab.school.engine import Exercise, Option, Slip
from pastrylab.trade import chocolate, holding, tempering

_HEAT_CAPACITY = {"heat_capacity": lambda g: Q(chocolate.SPECIFIC_HEAT, "kJ/(kg*K)")}
_CHOCOLATE = "dark couverture 64 %"
_COUVERTURE = {"couverture": lambda g: _CHOCOLATE}
_LATENT = {**_COUVERTURE, "latent": lambda g: Q(chocolate.latent_heat(_CHOCOLATE), "kJ/kg")}


def _seed(g, share=None):
    return tempering.seed_mass(
        g.batch, g.melted_at, g.seed_at, g.target, _CHOCOLATE, melted_share=g.melted_share if share is None else share
    )


def _steps_of(high, low):
    """How far apart two readings are, as a difference."""
    return Q(high.m_as("degC") - low.m_as("degC"), "delta_degC")


MELT_OUT = Exercise(
    id="02.heat-to-melt-out",
    title="Heat to melt out",
    prompt="""The class melts {batch} of {couverture}. It lies in the store at {start} and must
        reach {end}, melted out.
        Its heat capacity is {heat_capacity}; its latent heat of melting is {latent}.
        How much heat must the bain-marie put into the chocolate?""",
    answer=lambda g: tempering.heat_to_melt(g.batch, g.start, g.end, _CHOCOLATE),
    unit="kJ",
    resolution=1,
    because="a kilojoule is less than a second of a kitchen hob",
    sane=(20, 5000),
    hint="Two parts add up: warming the whole batch from {start} to {end}, and melting it.",
    lets={
        **_HEAT_CAPACITY,
        **_LATENT,
        "rise": lambda g: _steps_of(g.end, g.start),
        "warming": lambda g: tempering.heat_to_melt(g.batch, g.start, g.end, _CHOCOLATE) - g.batch * g.latent,
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
            "The rise went in as steps of Fahrenheit, but {heat_capacity} counts steps of Celsius.",
        ),
    ),
    steps=(
        "The rise: from {start} to {end} is {rise}.",
        "Warming: {batch} times {heat_capacity} times the rise is {warming}.",
        "Melting: {batch} times {latent} is {melting}.",
        "Together they are what the bain-marie must give.",
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
        "{order} divided by {bowl}, rounded up, is {loads} loads of {each}.",
        "The load is the melt and, on top of it, {share} of the melt as seed: divide by one plus that share.",
        "What is left of the load, {seed}, is the seed.",
    ),
)

SEED = Exercise(
    id="02.seed-for-a-bowl",
    title="Seed for a bowl",
    prompt="""A bowl holds {batch} of {couverture}, melted out at {melted_at}. The seed lies ready at {seed_at};
        {melted_share} of it will melt in the bowl. Use {heat_capacity} for all of it and {latent} for what melts.
        How much seed brings the bowl to {target}?""",
    answer=_seed,
    unit="g",
    resolution=5,
    because="a probe that shows tenths of a degree cannot tell less than this apart",
    sane=(50, 10_000),
    hint="What the melt gives up on its way to {target} is what the seed takes up: warming to {target}, and melting.",
    lets={
        **_HEAT_CAPACITY,
        **_LATENT,
        "fall": lambda g: _steps_of(g.melted_at, g.target),
        "climb": lambda g: _steps_of(g.target, g.seed_at),
        "given_up": lambda g: (g.batch * g.heat_capacity * _steps_of(g.melted_at, g.target)).to("kJ"),
        "taken_up": lambda g: (
            g.heat_capacity * _steps_of(g.target, g.seed_at) + g.melted_share.m_as("dimensionless") * g.latent
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
        "From {melted_at} to {target} the melt falls by {fall}: {heat_capacity} times {batch} times the fall is {given_up}.",
        "The seed climbs by {climb}, and {melted_share} of it melts: {heat_capacity} times the climb, and {melted_share} of "
        "{latent}, together {taken_up}.",
        "{given_up} divided by {taken_up} is the mass of the seed.",
    ),
)

MIXTURE = Exercise(
    id="02.mixture-temperature",
    title="Where the bowl ends up",
    prompt="""Somebody stirred {seed} of seed at {seed_at} into {batch} of {couverture}, melted out at {melted_at}, by eye.
        Assume {melted_share} of the seed melts; {heat_capacity} and {latent} as before.
        What will the thermometer read once it is stirred in?""",
    answer=lambda g: tempering.mixture_temperature(
        g.batch, g.melted_at, g.seed, g.seed_at, _CHOCOLATE, melted_share=g.melted_share
    ),
    kind="reading",
    unit="degC",
    resolution=0.2,
    because="a kitchen probe is no closer than this",
    sane=(26, 45),
    hint="Start from the average weighted by mass, then take off what the melting seed swallows.",
    lets={
        **_HEAT_CAPACITY,
        **_LATENT,
        "weighted": lambda g: tempering.mixture_temperature(
            g.batch, g.melted_at, g.seed, g.seed_at, _CHOCOLATE, melted_share=0
        ),
        "swallowed": lambda g: (g.seed * g.melted_share.m_as("dimensionless") * g.latent).to("kJ"),
        "drop": lambda g: _steps_of(g.weighted, MIXTURE.answer(g)),
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
        "Weighted by mass, without melting, the bowl would stand at {weighted}.",
        "Melting {melted_share} of {seed} swallows {swallowed}.",
        "Taken from the whole bowl, that is another {drop} down.",
    ),
)


def _log(g):
    """The bowl's log as (minutes, degC): it falls by the same step from reading to reading, past the working band."""
    start, fall, every = g.start.m_as("degC"), g.fall.m_as("delta_degC"), g.every.m_as("min")
    rows = int((start - g.low.m_as("degC")) / fall) + 3
    return [(i * every, round(start - i * fall, 1)) for i in range(rows)]


def _rows_inside(g):
    low, high = g.low.m_as("degC"), g.high.m_as("degC")
    return sum(low <= degrees <= high for _, degrees in _log(g))


READ_LOG = Exercise(
    id="02.read-a-log",
    title="Read a log",
    prompt="""A seeded bowl of dark couverture cools on the bench. Somebody wrote down its temperature every {every}.
        The working band is {low} to {high}. For how long did the bowl stand inside it?
        Read between the rows: the bowl does not jump from one reading to the next.""",
    answer=lambda g: probelog.minutes_between(pd.DataFrame(_log(g), columns=["minutes", "degC"]), g.low, g.high),
    unit="min",
    resolution=1,
    because="the clock was read to the minute",
    sane=(2, 240),
    hint="Find when it falls through {high} and when it falls through {low}; both may lie between two rows.",
    lets={
        "low": lambda g: chocolate.band("dark")[2][0],
        "high": lambda g: chocolate.band("dark")[2][1],
        "rows_inside": lambda g: _rows_inside(g),
        "enters": lambda g: Q(
            (g.start - g.high).m_as("delta_degC") / g.fall.m_as("delta_degC") * g.every.m_as("min"), "min"
        ),
        "leaves": lambda g: Q(
            (g.start - g.low).m_as("delta_degC") / g.fall.m_as("delta_degC") * g.every.m_as("min"), "min"
        ),
    },
    slips=(
        Slip(
            "rows counted",
            lambda g: g.rows_inside * g.every,
            "You counted the readings inside, {rows_inside}, and gave each {every}. Time runs between readings, not on them.",
        ),
        Slip(
            "gaps counted",
            lambda g: (g.rows_inside - 1) * g.every,
            "You counted only gaps with both ends inside. The bowl is also inside for part of the gap before and after.",
        ),
        Slip(
            "from the start",
            lambda g: g.leaves,
            "That is when it left the band, counted from the first reading. It was above the band until {enters}.",
        ),
    ),
    steps=(
        "It falls through {high} after {enters}.",
        "It falls through {low} after {leaves}.",
        "The time inside is the difference.",
    ),
    table=lambda g: (
        ("minutes", "°C", "°F"),
        [(f"{m:g}", f"{c:.1f}", f"{1.8 * c + 32:.1f}") for m, c in _log(g)],
    ),
)

_CHOICE_OF_STEP = {"work": "work on", "smear first": "smear, stir down", "seed again": "seed again"}
_AGAINST_WORKING = {
    "smear, stir down": "{bowl_at} is above the band you work in: crystals are melting, or about to. Pieces cast now may stay "
    "dull and soft.",
    "seed again": "{bowl_at} is above {lost}: the crystals go, sooner or later. Pieces cast now stay dull and soft.",
}
_AGAINST_STIRRING = {
    "work on": "{bowl_at} is where you work: there is nothing to stir down, and colder it only thickens.",
    "seed again": "Crystals melt above {lost}; this bowl stands at {bowl_at}. Stirring it down brings the temperature back, not "
    "the crystals.",
}
_AGAINST_SEEDING = {
    "work on": "At {bowl_at} the crystals stand. Seed on top of them makes the bowl thick, or sets it.",
    "smear, stir down": "{bowl_at}, give or take {error}, may still be where crystals stand. Seed on top of them makes the "
    "bowl thick, or sets it: smear first.",
}


def _step_now(g):
    return tempering.next_step("dark", g.bowl_at, g.error)


def _what_now(g):
    """The right option's name. Raises StudentError where no option is right."""
    name = _CHOICE_OF_STEP.get(_step_now(g).name)
    if name is None:
        raise StudentError(
            f"a bowl at {show(g.bowl_at)}",
            "a bowl in its working band or warmer: the options say nothing of a cold one",
            "35 °C",
        )
    return name


def _against(sentences):
    """What to say against an option, by what is right; nothing where the option itself is."""
    return lambda g: fill(sentences.get(_what_now(g), ""), g)


def _seed_back(g, share):
    return tempering.seed_mass(g.batch, g.bowl_at, g.seed_at, g.target, _CHOCOLATE, melted_share=share).to("g")


WHAT_NOW = Exercise(
    id="02.what-now",
    title="A bowl in mid-morning: what now?",
    prompt="""A bowl of {batch} of {couverture}, tempered an hour ago, stands at {bowl_at}. Your probe is good to {error}.
        Seed lies ready at {seed_at}, and you want to work at {target}. {melted_share} of the seed will melt.
        What now?""",
    kind="choice",
    answer=_what_now,
    hint="Ask first what stands at {bowl_at}: are the crystals that made the temper still there?",
    lets={
        **_LATENT,
        "error": lambda g: Q(0.5, "delta_degC"),
        "lost": lambda g: Q(chocolate.crystals_stand_to("dark")[1], "degC"),
        "finding": lambda g: _step_now(g).sentence,
        "seed": lambda g: _seed_back(g, g.melted_share),
        "without_latent": lambda g: _seed_back(g, 0),
        "against_working": _against(_AGAINST_WORKING),
        "against_stirring": _against(_AGAINST_STIRRING),
        "against_seeding": _against(_AGAINST_SEEDING),
    },
    options=(
        Option(
            "work on",
            "Work on: smear, and cast if it sets evenly and glossy.",
            "{against_working}",
            "{bowl_at} is where you work. Even {error} warmer the crystals stand, and the smear has the last word.",
        ),
        Option(
            "smear, stir down",
            "Cast nothing yet. Smear: if it sets, stir it down to {target} without seed and smear again.",
            "{against_stirring}",
            "Above the band, yet with your probe nobody can say that the crystals are gone. The smear can: if it stays wet, "
            "seed it after all, with {seed}.",
        ),
        # Never right, whatever the values: its amount forgets a term. It stands here for those who forget it.
        Option(
            "too much seed",
            "Count its temper as lost: stir in {without_latent} of seed, bring it to {target}, and smear.",
            "That amount forgets that the seed melts, which takes {latent}. The sum asks for {seed}.",
        ),
        Option(
            "seed again",
            "Count its temper as lost: stir in {seed} of seed, bring it to {target}, and smear.",
            "{against_seeding}",
            "At {bowl_at} the crystals melt, even with {error} in your favour. Seed brings them back; the smear tells "
            "whether it did.",
        ),
    ),
    steps=(
        "Above {lost} the crystals of a tempered dark chocolate melt, sooner or later. This bowl stands at {bowl_at}.",
        "{finding}",
        "If it has to be seeded: from {bowl_at} to {target} the heat balance asks for {seed} of seed at {seed_at}.",
        "Smear again before you work: the log and the sum cannot prove temper.",
    ),
)

EXERCISES = (MELT_OUT, LOADS, SEED, MIXTURE, READ_LOG, WHAT_NOW)
