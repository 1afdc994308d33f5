"""Exercises of lesson 03 about the cream: boiled too long, how warm it goes in, cooled in time."""

import numpy as np

from pastrylab.course.emulsion.lets import CREAM
from pastrylab.ground.units import Q
from pastrylab.logs import cooling, pan
from pastrylab.school.engine import Exercise, Slip
from pastrylab.trade import chocolate, emulsion, mixing
from pastrylab.trade.pantry import ingredient_name, ingredients


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
        "fat": lambda g: Q(100 * ingredients()[ingredient_name(CREAM)]["fat"], "percent"),
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
        "Fat in the pan: {cream:g} × {fat:1} = {held:g}. It stays.",
        "What is left without the pan: {boiled:g} − {pan:g} = {left:g}.",
        "Fat divided by what is left: {held:g} ÷ {left:g} = {answer:% 3}.",
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
        cream, boiled and cooled. The ganache must end at {target}, where its crystals survive. Warming takes
        {c_chocolate:n} kJ for every kilogram and degree of chocolate, {c_cream:n 4} kJ of cream; nothing melts. How warm must the cream be when it goes in?""",
    kind="reading",
    answer=_warm,
    unit="degC",
    resolution=0.3,
    because="a kitchen probe is no closer than this",
    sane=(31, 40),
    hint="The chocolate must warm up to {target}; the cream pays for it. A kilogram of cream holds twice as much heat.",
    lets={
        "c_chocolate": lambda g: Q(chocolate.SPECIFIC_HEAT, "kJ/(kg*K)"),
        "c_cream": lambda g: mixing.specific_heat(CREAM, g.target),
        "rise": lambda g: Q(g.target.m_as("degC") - g.chocolate_at.m_as("degC"), "delta_degC"),
        "needed": lambda g: (g.chocolate * g.c_chocolate * g.rise).to("kJ"),
        "fall": lambda g: Q(_warm(g).m_as("degC") - g.target.m_as("degC"), "delta_degC"),
    },
    supposes={
        "the chocolate has to become warmer": lambda g: g.target > g.chocolate_at,
        "a kilogram of cream holds about twice as much heat": lambda g: (
            1.75 < (g.c_cream / g.c_chocolate).m_as("") < 2.5
        ),
    },
    slips=(
        Slip(
            "no heat capacities",
            lambda g: _above(g, (g.chocolate / g.cream).m_as("dimensionless") * g.rise.m_as("delta_degC")),
            "You weighed the temperatures by mass alone. A gram of cream holds twice the heat of a gram of chocolate: "
            "{c_cream:n 4} kJ for a kilogram and degree against {c_chocolate:n}.",
        ),
        Slip(
            "plain mean",
            lambda g: _above(g, g.rise.m_as("delta_degC")),
            "You made {target} the plain mean of the two temperatures. There is not as much cream as chocolate.",
            fits=lambda g: g.cream < g.chocolate,
        ),
        Slip(
            "heat capacities swapped",
            lambda g: _above(
                g,
                (g.chocolate * g.c_cream / (g.cream * g.c_chocolate)).m_as("dimensionless") * g.rise.m_as("delta_degC"),
            ),
            "The two are swapped: {c_cream:n 4} kJ belong to the cream.",
        ),
        Slip(
            "Fahrenheit steps",
            lambda g: _above(g, 1.8 * g.fall.m_as("delta_degC")),
            "You added a difference in steps of Fahrenheit to a reading in Celsius.",
        ),
    ),
    steps=(
        "The chocolate rises by {target:degC bare} − {chocolate_at:degC bare} = {rise:delta_degC}.",
        "That takes {chocolate:kg} × {c_chocolate:n} × {rise:delta_degC bare} = {needed:kJ}.",
        "The cream gives it by falling {needed:kJ bare} ÷ ({cream:kg bare} × {c_cream:n}) = {fall:delta_degC}.",
        "So it goes in at {target:degC bare} + {fall:delta_degC bare} = {answer:degC 4}.",
    ),
)


COOL = Exercise(
    id="03.cooled-in-time",
    title="Will the cream be cold in time?",
    prompt="""Left-over boiled cream stands in a shallow pan in ice water at {around} and is stirred. Its log shows that
        how far it stands above the ice water halves every {halving}. Your food code wants it from {hot} to {middle} within {limit}. How
        long will this pan take for that?""",
    answer=lambda g: cooling.time_to_cool(g.hot, g.middle, g.around, g.halving),
    unit="min",
    resolution=1,
    because="the clock was read to the minute",
    sane=(20, 240),
    hint="Count from the ice water, not from zero: how often must what is above it halve until {middle} is reached?",
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
            "You counted from zero. What halves is how far it stands above the ice water at {around}.",
        ),
        Slip(
            "Fahrenheit from zero",
            lambda g: g.halving * np.log2(g.hot.m_as("degF") / g.middle.m_as("degF")),
            "You halved the readings in Fahrenheit. Take how far it stands above the ice water first, in either scale.",
        ),
        Slip(
            "whole halvings",
            lambda g: g.halving * np.ceil(g.halvings),
            "You counted whole halvings. It passes {middle} in the middle of the last one.",
        ),
    ),
    steps=(
        "Above the ice water it stands {hot:degC bare} − {around:degC bare} = {first_excess:delta_degC} at "
        "the start, and {middle:degC bare} − {around:degC bare} = {last_excess:delta_degC} at the end.",
        "How often must the first be halved to come to the second? A calculator says "
        "log({first_excess:delta_degC bare} ÷ {last_excess:delta_degC bare}) ÷ log(2) = {halvings:n} times.",
        "Each halving takes {halving}: {halvings:n} × {halving:min} = {answer:min}. Compare it with {limit}, "
        "and with a probe.",
    ),
)
