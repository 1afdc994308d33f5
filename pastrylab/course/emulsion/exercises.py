"""Exercises of lesson 03: the ratio, water as a share, boiled cream, the warm liquid, cooling in time, a split bowl."""

import numpy as np

from pastrylab.ground import datasets
from pastrylab.ground.units import Q
from pastrylab.logs import cooling, pan
from pastrylab.school.engine import Exercise, Option, Slip
from pastrylab.trade import chocolate, emulsion, mixing, phases
from pastrylab.trade.formula import Formula

_DARK = "dark couverture 64 %"
_CREAM, _BUTTER, _PUREE = "heavy cream 36 %", "butter unsalted", "raspberry puree"
_SYRUP, _SKIM = "invert syrup", "skim milk"


def _percent(share):
    """A share as a percentage to the tenth, as a page shows it."""
    return Q(round(100 * float(share), 1), "percent")


def _of(ingredient, component):
    return _percent(datasets.ingredients().at[ingredient, component])


def _berry(g):
    return Formula({_DARK: g.chocolate, _CREAM: g.cream, _PUREE: g.puree, _SYRUP: g.syrup, _BUTTER: g.butter})


RATIO = Exercise(
    id="03.chocolate-to-liquid",
    title="Chocolate to liquid",
    prompt="""A raspberry ganache of the Larkmoor Teaching Kitchen: {chocolate} of dark couverture, {cream} of heavy cream,
        {puree} of raspberry puree, {syrup} of invert syrup, {butter} of butter. Liquid means cream, milk, fruit, coffee,
        water and spirits, all of their mass; syrup and butter are not liquid. What is its ratio of chocolate to liquid?
        Give one number: so many parts of chocolate to one of liquid.""",
    kind="number",
    answer=lambda g: g.made.ratio("chocolate", "liquid"),
    resolution=0.02,
    because="a hundredth or two is a few grams on the scale",
    sane=(0.7, 4),
    hint="Weigh up two heaps: the chocolate, and everything that pours in by itself at room temperature and is no syrup.",
    lets={
        "made": _berry,
        "liquid": lambda g: g.cream + g.puree,
        "soft": lambda g: g.syrup + g.butter,
        "cream_water": lambda g: (_of(_CREAM, "water").m_as("dimensionless") * g.cream).to("g"),
    },
    slips=(
        Slip(
            "everything soft counted",
            lambda g: g.made.ratio("chocolate", ("liquid", "syrup", "butter")),
            "You counted syrup and butter as liquid. They soften a ganache, but a ratio of this kind leaves them out.",
        ),
        Slip(
            "butter counted",
            lambda g: g.made.ratio("chocolate", ("liquid", "butter")),
            "You counted the butter as liquid. It is mostly fat, and it sets.",
        ),
        Slip(
            "cream alone",
            lambda g: g.made.ratio("chocolate", "liquid", counts="cream"),
            "You counted the cream alone. The puree is liquid too: gram for gram it brings more water than cream.",
        ),
        Slip(
            "water of the cream",
            lambda g: g.made.ratio("chocolate", _CREAM, counts="water"),
            "You counted only the water in the cream, {cream_water}. The ratio goes by the mass of all liquid.",
        ),
        Slip(
            "upside down",
            lambda g: 1 / g.made.ratio("chocolate", "liquid"),
            "That is liquid to chocolate. Chocolate is named first, so it goes on top.",
        ),
    ),
    steps=(
        "Liquid: {cream} of cream and {puree} of puree make {liquid}.",
        "Syrup and butter, {soft} together, are left out.",
        "Chocolate over liquid: {chocolate} divided by {liquid}.",
    ),
)


def _plain(g):
    return Formula({_DARK: g.chocolate, _CREAM: g.cream, _BUTTER: g.butter}).composition()


WATER = Exercise(
    id="03.water-of-the-whole",
    title="How much of it is water",
    prompt="""A dark ganache: {chocolate} of couverture, {cream} of heavy cream, {butter} of butter. The tables give the
        water in each: couverture {in_chocolate}, cream {in_cream}, butter {in_butter}. What share of the whole ganache is
        water? Give a percentage.""",
    kind="share",
    answer=lambda g: g.made["water"],
    resolution=0.002,
    because="a gram of water more or less in the bowl",
    sane=(0.1, 0.4),
    hint="Add up the water in grams first, from all three. Only then divide, and by the mass of everything in the bowl.",
    lets={
        "in_chocolate": lambda g: _of(_DARK, "water"),
        "in_cream": lambda g: _of(_CREAM, "water"),
        "in_butter": lambda g: _of(_BUTTER, "water"),
        "total": lambda g: g.chocolate + g.cream + g.butter,
        "made": _plain,
        "water": lambda g: g.made.mass("water"),
        "creams": lambda g: (g.in_cream.m_as("dimensionless") * g.cream).to("g"),
    },
    slips=(
        Slip(
            "of the chocolate",
            lambda g: (g.water / g.chocolate).m_as("dimensionless"),
            "You divided by the chocolate. Asked is a share of everything in the bowl, {total}.",
        ),
        Slip(
            "of the cream",
            lambda g: (g.water / g.cream).m_as("dimensionless"),
            "You divided by the cream. Asked is a share of everything in the bowl, {total}.",
        ),
        Slip(
            "cream taken for water",
            lambda g: (g.cream / g.total).m_as("dimensionless"),
            "You took the cream for water. Only {in_cream} of it is.",
        ),
        Slip(
            "water of the cream alone",
            lambda g: (g.creams / g.total).m_as("dimensionless"),
            "You counted the water of the cream alone. Butter holds {in_butter}, and the couverture a little.",
        ),
        Slip(
            "mean of the percentages",
            lambda g: float(np.mean([x.m_as("dimensionless") for x in (g.in_chocolate, g.in_cream, g.in_butter)])),
            "That is the plain mean of three percentages. There is not the same amount of each in the bowl.",
        ),
    ),
    steps=(
        "Water in grams, from couverture, cream and butter together: {water}.",
        "Everything in the bowl: {total}.",
        "Water divided by the whole is the share.",
    ),
)


def _boiled(g):
    return emulsion.boil_off(g.cream, g.cream - g.lost)


BOILED = Exercise(
    id="03.boiled-cream",
    title="Cream that boiled too long",
    prompt="""A pan weighs {pan} empty and {full} with heavy cream of {fat} fat in it. The telephone rings, the cream boils
        on, and the pan now weighs {boiled}. Nobody has topped it up yet. What is the fat share of the cream in it now? Give
        a percentage.""",
    kind="share",
    answer=lambda g: g.made.fat_now,
    resolution=0.002,
    because="two grams on a kitchen scale",
    sane=(0.3, 0.55),
    hint="Only water has left. How much fat is in there, and what does the cream weigh now, without the pan?",
    lets={
        "made": _boiled,
        "full": lambda g: g.pan + g.cream,
        "boiled": lambda g: g.pan + g.cream - g.lost,
        "fat": lambda g: _of(_CREAM, "fat"),
        "held": lambda g: (g.fat.m_as("dimensionless") * g.cream).to("g"),
        "left": lambda g: g.cream - g.lost,
    },
    slips=(
        Slip(
            "as bought",
            lambda g: g.made.fat_before,
            "That is the cream as bought. Water has left and the fat has not: the same fat is in less cream.",
        ),
        Slip(
            "pan left on",
            lambda g: g.made.fat_before * (g.full / g.boiled).m_as("dimensionless"),
            "You left the pan on both weights. Take off its {pan} first.",
        ),
        Slip(
            "topped up with cream",
            lambda g: g.made.fat_creamed,
            "That is the fat after topping up with cream instead of water. It is what to avoid, and not yet done.",
        ),
        Slip(
            "fat lost too",
            lambda g: g.made.fat_before * (g.left / g.cream).m_as("dimensionless"),
            "Your fat share fell. Water boils away, fat stays: its share must rise.",
        ),
    ),
    steps=(
        "Fat in the pan: {fat} of {cream} is {held}. It stays.",
        "What is left without the pan: {boiled} less {pan} is {left}.",
        "Fat divided by what is left is its share now.",
        "Mend it with {lost} of water, and it is the cream you bought. Top up with cream, and the fat stays too high.",
    ),
)


def _warm(g):
    return mixing.liquid_temperature(g.chocolate, g.chocolate_at, g.cream, g.target)


def _above(g, degrees):
    return Q(g.target.m_as("degC") + float(degrees), "degC")


WARM = Exercise(
    id="03.how-warm-the-cream",
    title="How warm must the cream be?",
    prompt="""{chocolate} of tempered dark couverture has cooled to {chocolate_at} on the bench. You stir in {cream} of heavy
        cream, boiled and cooled. The ganache must end at {target}, where its crystals survive. Chocolate takes
        {c_chocolate}, cream {c_cream}; nothing melts. How warm must the cream be when it goes in?""",
    kind="reading",
    answer=_warm,
    unit="degC",
    resolution=0.3,
    because="a kitchen probe is no closer than this",
    sane=(31, 40),
    hint="The chocolate must warm up to {target}; the cream pays for it. A kilogram of cream holds twice as much heat.",
    lets={
        "c_chocolate": lambda g: Q(chocolate.SPECIFIC_HEAT, "kJ/(kg*K)"),
        "c_cream": lambda g: mixing.specific_heat(_CREAM, g.target),
        "rise": lambda g: Q(g.target.m_as("degC") - g.chocolate_at.m_as("degC"), "delta_degC"),
        "needed": lambda g: (g.chocolate * g.c_chocolate * g.rise).to("kJ"),
        "fall": lambda g: Q(_warm(g).m_as("degC") - g.target.m_as("degC"), "delta_degC"),
    },
    slips=(
        Slip(
            "no heat capacities",
            lambda g: _above(g, (g.chocolate / g.cream).m_as("dimensionless") * g.rise.m_as("delta_degC")),
            "You weighed the temperatures by mass alone. A gram of cream holds twice the heat of a gram of chocolate: "
            "{c_cream} against {c_chocolate}.",
        ),
        Slip(
            "plain mean",
            lambda g: _above(g, g.rise.m_as("delta_degC")),
            "You made {target} the plain mean of the two temperatures. There is not as much cream as chocolate.",
        ),
        Slip(
            "heat capacities swapped",
            lambda g: _above(
                g,
                (g.chocolate * g.c_cream / (g.cream * g.c_chocolate)).m_as("dimensionless") * g.rise.m_as("delta_degC"),
            ),
            "The two heat capacities are swapped: {c_cream} belongs to the cream.",
        ),
        Slip(
            "Fahrenheit steps",
            lambda g: _above(g, 1.8 * g.fall.m_as("delta_degC")),
            "You added a difference in steps of Fahrenheit to a reading in Celsius.",
        ),
    ),
    steps=(
        "The chocolate rises from {chocolate_at} to {target}: {rise}, which takes {needed}.",
        "The cream gives that by falling {fall}: heat over its mass and {c_cream}.",
        "So it goes in that much warmer than {target}.",
    ),
)


COOL = Exercise(
    id="03.cooled-in-time",
    title="Will the cream be cold in time?",
    prompt="""Left-over boiled cream stands in a shallow pan in ice water at {around} and is stirred. Its log shows that the
        excess over the ice water halves every {halving}. Your food code wants it from {hot} to {middle} within {limit}. How
        long will this pan take for that?""",
    answer=lambda g: cooling.time_to_cool(g.hot, g.middle, g.around, g.halving),
    unit="min",
    resolution=1,
    because="the clock was read to the minute",
    sane=(20, 240),
    hint="Count from the ice water, not from zero: how often must the excess halve until {middle} is reached?",
    lets={
        "hot": lambda g: Q(pan.HOT, "degC"),
        "middle": lambda g: Q(pan.MIDDLE, "degC"),
        "limit": lambda g: Q(pan.FIRST_LIMIT / 60, "h"),
        "first_excess": lambda g: Q(pan.HOT - g.around.m_as("degC"), "delta_degC"),
        "last_excess": lambda g: Q(pan.MIDDLE - g.around.m_as("degC"), "delta_degC"),
        "halvings": lambda g: float(np.log2((pan.HOT - g.around.m_as("degC")) / (pan.MIDDLE - g.around.m_as("degC")))),
    },
    slips=(
        Slip(
            "straight line",
            lambda g: g.halving * (pan.HOT - pan.MIDDLE) / (g.first_excess.m_as("delta_degC") / 2),
            "You let it fall on at its first pace. The nearer it comes to the ice water, the slower it falls.",
        ),
        Slip(
            "counted from zero",
            lambda g: g.halving * np.log2(pan.HOT / pan.MIDDLE),
            "You counted from zero. What halves is the excess over the ice water at {around}.",
        ),
        Slip(
            "Fahrenheit from zero",
            lambda g: g.halving * np.log2(g.hot.m_as("degF") / g.middle.m_as("degF")),
            "You halved the readings in Fahrenheit. Take the excess over the ice water first, in either scale.",
        ),
        Slip(
            "whole halvings",
            lambda g: g.halving * np.ceil(g.halvings),
            "You counted whole halvings. It passes {middle} in the middle of the last one.",
        ),
    ),
    steps=(
        "Excess over the ice water at the start: {first_excess}; at the end: {last_excess}.",
        "From the first to the second it must halve {halvings} times (the logarithm to base 2 of their ratio).",
        "Halvings times {halving} is the time. Compare it with {limit}, and with a probe.",
    ),
)


_ADDED = {"leave it": None, "cream": _CREAM, "butter": _BUTTER, "skim milk": _SKIM}


def _outcomes(g):
    """{choice: Phases} once that addition is stirred in."""
    grams = {_DARK: g.chocolate.m_as("g"), _CREAM: g.cream.m_as("g"), _BUTTER: g.butter.m_as("g"), _SKIM: 0.0}
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
        "water_low": lambda g: _percent(g.card["water"][0]),
        "water_high": lambda g: _percent(g.card["water"][1]),
        "fat_high": lambda g: _percent(g.card["fat"][1]),
        "crowd_high": lambda g: _percent(phases.RANDOM_PACKING),
        "warm": lambda g: Q(phases.MADE_AT, "degC"),
        "now": _ends("leave it"),
        "creamed": _ends("cream"),
        "buttered": _ends("butter"),
        "milked": _ends("skim milk"),
        "right": lambda g: _ends(_what_now(g))(g),
        "cream_fat": lambda g: _of(_CREAM, "fat"),
        "butter_fat": lambda g: _of(_BUTTER, "fat"),
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
        "As it stands: {now}.",
        "With cream: {creamed}. Cream itself holds {cream_fat} of fat, so it thins the fat of a bowl hardly at all.",
        "With butter: {buttered}. Of butter {butter_fat} is fat: no bowl that splits for want of room is mended with it.",
        "With skim milk: {milked}.",
        "A formula inside its card stays; else what ends inside the card with room, or nearest to it: {right}.",
    ),
)

EXERCISES = (RATIO, WATER, BOILED, WARM, COOL, RESCUE)
