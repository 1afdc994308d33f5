"""The judgement of lesson 02: what to do with a bowl that ran warm."""

from pastrylab.course.tempering.lets import CHOCOLATE, HEAT_CAPACITY, LATENT
from pastrylab.ground.units import Q, StudentError, show
from pastrylab.school.draws import fill
from pastrylab.school.engine import Exercise, Option
from pastrylab.trade import chocolate, holding, tempering

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
    return holding.next_step("dark", g.bowl_at, g.error)


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
    return tempering.seed_mass(g.batch, g.bowl_at, g.seed_at, g.target, CHOCOLATE, melted_share=share).to("g")


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
        **HEAT_CAPACITY,
        **LATENT,
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
        "If it has to be seeded: {batch:kg bare} × {heat_capacity:n} × ({bowl_at:degC bare} − {target:degC "
        "bare}) ÷ ({heat_capacity:n} × ({target:degC bare} − {seed_at:degC bare}) + {melted_share:1} × {latent:n}) = {seed:kg}, or {seed:g 4}.",
        "Smear again before you work: the log and the sum cannot prove temper.",
    ),
)
