"""The judgement of lesson 03: a split bowl, and whether its formula is to blame."""

from pastrylab.course.emulsion.lets import BUTTER, CREAM, DARK, SKIM, percent, percent_of
from pastrylab.ground.units import Q, in_digits
from pastrylab.school.engine import Exercise, Option
from pastrylab.trade import emulsion, phases
from pastrylab.trade.formula import Formula

_ADDED = {"leave it": None, "cream": CREAM, "butter": BUTTER, "skim milk": SKIM}


def _outcomes(g):
    """{choice: Phases} once that addition is stirred in."""
    grams = {DARK: g.chocolate.m_as("g"), CREAM: g.cream.m_as("g"), BUTTER: g.butter.m_as("g"), SKIM: 0.0}
    more = g.more.m_as("g")
    return {
        choice: phases.phases(Formula.of_grams({name: m + more * (name == added) for name, m in grams.items()}))
        for choice, added in _ADDED.items()
    }


def _miss(g, choice):
    """How far outside the card and how crowded a choice ends, in shares."""
    made, (low, high) = g.made[choice], g.card["water"]
    return (
        max(0.0, low - made["water"], made["water"] - high)
        + max(0.0, made["fat"] - g.card["fat"][1])
        + max(0.0, made.dispersed_share - phases.RANDOM_PACKING)
    )


def _what_now(g):
    """A formula that lies in its card with room is not to blame; else the addition that ends nearest to both."""
    if _miss(g, "leave it") == 0:
        return "leave it"
    return min([choice for choice in _ADDED if choice != "leave it"], key=lambda choice: _miss(g, choice))


def _ends(choice):
    """A let: water, fat and crowding once that choice is stirred in, in words."""

    def said(g):
        made = g.made[choice]
        water, fat, crowd = (100 * x for x in (made["water"], made["fat"], made.dispersed_share))
        return f"water {water:.1f} %, fat {fat:.1f} %, droplets and particles {crowd:.1f} % of the volume"

    return said


def _share_sum(part):
    """A let: the sum for a part's share of the bowl as it stands, as on paper."""

    def said(g):
        bowl = {DARK: g.chocolate.m_as("g"), CREAM: g.cream.m_as("g"), BUTTER: g.butter.m_as("g")}
        terms = " + ".join(f"{in_digits(m)} × {in_digits(percent_of(name, part).m_as(''))}" for name, m in bowl.items())
        total, whole = 100 * g.made["leave it"][part], " + ".join(map(in_digits, bowl.values()))
        return f"({terms}) ÷ ({whole}) = {total:.1f} %"

    return said


def _why_not(choice):
    """A let: why that choice is wrong, which depends on whether the formula is to blame."""
    faults = {
        "leave it": "Warm and stirred it would come together and split again: there is no room for its droplets.",
        "cream": "Cream brings water, and its fat along with it: that does not bring the bowl into its card with room.",
        "butter": "Butter is nearly all fat, and fat is what the bowl has too much of.",
        "skim milk": "That is not the addition which brings the bowl nearest to its card.",
    }

    def said(g):
        if _what_now(g) != "leave it":
            return f"{faults[choice]} It would be {_ends(choice)(g)}."
        return (
            f"The formula is not to blame: it has {_ends('leave it')(g)}, inside its card. Whatever you add makes another "
            "ganache of it. Look at the temperature."
        )

    return said


RESCUE = Exercise(
    id="03.a-split-bowl",
    title="A split bowl: what now?",
    prompt="""A ganache of {chocolate} of dark couverture, {cream} of heavy cream and {butter} of butter has split: oil stands
        on a grainy mass. It was stirred until it stood at {at}. It is to be piped. The card asks for {water_low} to
        {water_high} of water and at most {fat_high} of fat, and for room: droplets and particles below {crowd_high} of the
        volume. You will bring it to {warm} in any case, so that all of its fat is liquid. A formula that lies inside its
        card with room stays as it is. What now?""",
    kind="choice",
    answer=_what_now,
    hint="Work out water and fat as it stands, and look at the column of the bench: {now}. Is the formula to blame?",
    lets={
        "card": lambda g: emulsion.targets("pipe"),
        "made": _outcomes,
        "water_low": lambda g: percent(g.card["water"][0]),
        "water_high": lambda g: percent(g.card["water"][1]),
        "fat_high": lambda g: percent(g.card["fat"][1]),
        "crowd_high": lambda g: percent(phases.RANDOM_PACKING),
        "warm": lambda g: Q(phases.MADE_AT, "degC"),
        "now": _ends("leave it"),
        "water_sum": _share_sum("water"),
        "fat_sum": _share_sum("fat"),
        "creamed": _ends("cream"),
        "buttered": _ends("butter"),
        "milked": _ends("skim milk"),
        "right": lambda g: _ends(_what_now(g))(g),
        "cream_fat": lambda g: percent_of(CREAM, "fat"),
        "butter_fat": lambda g: percent_of(BUTTER, "fat"),
        "not_left": _why_not("leave it"),
        "not_cream": _why_not("cream"),
        "not_butter": _why_not("butter"),
        "not_milk": _why_not("skim milk"),
    },
    options=(
        Option(
            "leave it",
            "Leave the formula. Warm it, and stir it together again from the middle.",
            "{not_left}",
            "As it stands it has {now}: inside its card, with room. It was worked too cold, at {at}, where its fat was "
            "setting. Warm, it has room to come together.",
        ),
        Option(
            "cream",
            "Warm it, and stir in {more} of warm heavy cream, a little at a time.",
            "{not_cream}",
            "With the cream it has {creamed}: nearest to its card.",
        ),
        Option(
            "butter",
            "Warm it, and stir in {more} of soft butter to make it smooth.",
            "{not_butter}",
            "With the butter it has {buttered}: nearest to its card.",
        ),
        Option(
            "skim milk",
            "Warm it, and stir in {more} of warm skim milk, a little at a time.",
            "{not_milk}",
            "With the milk it has {milked}: fat is down, water is up, and there is room again. More water also keeps less "
            "long: use this batch first.",
        ),
    ),
    steps=(
        "Water as it stands: {water_sum}. Fat: {fat_sum}. With the column of the bench: {now}.",
        "With cream: {creamed}. Cream itself holds {cream_fat} of fat, so it thins the fat of a bowl hardly at all.",
        "With butter: {buttered}. Of butter {butter_fat} is fat: no bowl that splits for want of room is mended with it.",
        "With skim milk: {milked}.",
        "A formula inside its card stays; else what ends inside the card with room, or nearest to it: {right}.",
    ),
)
