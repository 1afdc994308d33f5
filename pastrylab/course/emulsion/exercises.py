"""Exercises of lesson 03: the ratio, water as a share; the list of all, in the order of the lesson."""

import numpy as np

from pastrylab.course.emulsion.cream import BOILED, COOL, WARM
from pastrylab.course.emulsion.infusion import INFUSED
from pastrylab.course.emulsion.judgements import RESCUE
from pastrylab.course.emulsion.lets import BUTTER, CREAM, DARK, PUREE, SYRUP, percent_of
from pastrylab.school.engine import Exercise, Slip
from pastrylab.trade.formula import Formula


def _berry(g):
    return Formula({DARK: g.chocolate, CREAM: g.cream, PUREE: g.puree, SYRUP: g.syrup, BUTTER: g.butter})


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
        "cream_water": lambda g: (percent_of(CREAM, "water").m_as("dimensionless") * g.cream).to("g"),
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
            fits=lambda g: percent_of(PUREE, "water") > percent_of(CREAM, "water"),
        ),
        Slip(
            "water of the cream",
            lambda g: g.made.ratio("chocolate", CREAM, counts="water"),
            "You counted only the water in the cream, {cream_water}. The ratio goes by the mass of all liquid.",
        ),
        Slip(
            "upside down",
            lambda g: 1 / g.made.ratio("chocolate", "liquid"),
            "That is liquid to chocolate. Chocolate is named first, so it goes on top.",
        ),
    ),
    steps=(
        "Liquid, cream and puree: {cream:g} + {puree:g} = {liquid:g}.",
        "Syrup and butter, {soft} together, are left out.",
        "Chocolate over liquid: {chocolate:g} ÷ {liquid:g} = {answer:n 4}.",
    ),
)


def _plain(g):
    return Formula({DARK: g.chocolate, CREAM: g.cream, BUTTER: g.butter}).composition()


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
        "in_chocolate": lambda g: percent_of(DARK, "water"),
        "in_cream": lambda g: percent_of(CREAM, "water"),
        "in_butter": lambda g: percent_of(BUTTER, "water"),
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
            fits=lambda g: g.in_chocolate < g.in_butter,
        ),
        Slip(
            "mean of the percentages",
            lambda g: float(np.mean([x.m_as("dimensionless") for x in (g.in_chocolate, g.in_cream, g.in_butter)])),
            "That is the plain mean of three percentages. There is not the same amount of each in the bowl.",
            fits=lambda g: not g.chocolate == g.cream == g.butter,
        ),
    ),
    steps=(
        "Water in grams: {chocolate:g bare} × {in_chocolate:1} + {cream:g bare} × {in_cream:1} + {butter:g "
        "bare} × {in_butter:1} = {water:g 4}.",
        "Everything in the bowl: {chocolate:g} + {cream:g} + {butter:g} = {total:g}.",
        "Water divided by the whole: {water:g 4} ÷ {total:g} = {answer:% 3}.",
    ),
)


EXERCISES = (RATIO, WATER, BOILED, INFUSED, WARM, COOL, RESCUE)
