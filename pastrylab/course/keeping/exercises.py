"""Exercises of lesson 05 about what is dissolved: what counts, and invert sugar for sugar."""

import math

from pastrylab.course.keeping.readings import DISPLAY_CASE, HIGHEST_READING, METER_CHECK, MOULD
from pastrylab.ground.constants import WATER_MOLAR_MASS
from pastrylab.ground.units import Q, in_digits
from pastrylab.school.engine import Exercise, Slip
from pastrylab.trade import water_activity
from pastrylab.trade.solutes import SOLUTES


def _plain(share):
    return share.m_as("dimensionless")


def _chocolate_sugar(g):
    return g.couverture * _plain(g.sugar_share)


def _per_water(g, sugar):
    return (sugar / g.water * g.hundred).to("g")


WHAT_COUNTS = Exercise(
    id="05.what-counts",
    title="What counts",
    prompt="""A ganache of {batch} holds {water} of water. Into it went {couverture} of dark couverture, {sugar_share} of
        it sugar, and {invert} of invert sugar, weighed dry. Say that {dissolved} of the chocolate's sugar has gone into
        solution, and all of the invert sugar. How much sugar is in solution for every {hundred} of water?""",
    answer=lambda g: _per_water(g, _chocolate_sugar(g) * _plain(g.dissolved) + g.invert),
    unit="g",
    resolution=1,
    because="nobody knows to the gram how much of the chocolate's sugar dissolves",
    sane=(20, 200),
    hint="Two sugars are in solution: {dissolved} of the chocolate's own, and the invert sugar. Divide by the water alone.",
    lets={
        "hundred": lambda g: Q(100, "g"),
        "from_chocolate": _chocolate_sugar,
        "in_solution": lambda g: _chocolate_sugar(g) * _plain(g.dissolved) + g.invert,
    },
    slips=(
        Slip(
            "all the sugar",
            lambda g: _per_water(g, _chocolate_sugar(g) + g.invert),
            "You counted all the sugar of the chocolate. What stays solid in the cocoa does not hold any water.",
        ),
        Slip(
            "the solid part",
            lambda g: _per_water(g, _chocolate_sugar(g) * (1 - _plain(g.dissolved)) + g.invert),
            "You counted the part of the chocolate's sugar that stays solid. It is the other part, {dissolved}, that works.",
        ),
        Slip(
            "all dry matter",
            lambda g: _per_water(g, g.couverture + g.invert),
            "You counted the whole couverture. Cocoa and fat do not dissolve: only {sugar_share} of it is sugar.",
        ),
        Slip(
            "per whole batch",
            lambda g: _per_water(g, (_chocolate_sugar(g) * _plain(g.dissolved) + g.invert) * (g.water / g.batch)),
            "You divided by the whole batch. The sugar sits in {water} of water, not in {batch} of ganache.",
        ),
        Slip(
            "share taken of the invert too",
            lambda g: _per_water(g, (_chocolate_sugar(g) + g.invert) * _plain(g.dissolved)),
            "You let only {dissolved} of the invert sugar dissolve. It came as a syrup: all of it is in solution.",
        ),
    ),
    steps=(
        "The chocolate brings {couverture:g} × {sugar_share:1} = {from_chocolate:g} of sugar.",
        "In solution, with the invert sugar: {from_chocolate:g} × {dissolved:1} + {invert:g} = {in_solution:g}.",
        "For every {hundred} of water: {in_solution:g} ÷ {water:g} × {hundred:g} = {answer:g}.",
    ),
)


def _mixture(g, water=None, extra=0.0):
    """Water activity with `extra` g of sucrose more than stays, in `water` g."""
    grams = [x.m_as("g") for x in (g.water, g.sucrose - g.swapped, g.swapped)]
    return water_activity.norrish.floats(water or grams[0], {"sucrose": grams[1] + extra, "invert sugar": grams[2]})


def _fractions(g, by_mass=False):
    """(water, sucrose, invert sugar) as shares of all moles, or of all grams."""
    grams = [x.m_as("g") for x in (g.water, g.sucrose - g.swapped, g.swapped)]
    molar = (1, 1, 1) if by_mass else (WATER_MOLAR_MASS, *(SOLUTES[n].molar_mass for n in ("sucrose", "invert sugar")))
    parts = [mass / one for mass, one in zip(grams, molar, strict=True)]
    return [part / sum(parts) for part in parts]


# As the table under the prompt prints them.
_MOLAR = (f"{WATER_MOLAR_MASS:.2f}", *(f"{SOLUTES[name].molar_mass:.1f}" for name in ("sucrose", "invert sugar")))


def _roots():
    return [math.sqrt(SOLUTES[name].k) for name in ("sucrose", "invert sugar")]


def _root_sum(x):
    return sum(root * part for root, part in zip(_roots(), x[1:], strict=True))


_NAMES = ("water", "sucrose", "invert sugar")


def _packets(g):
    """Moles of each, with the molar masses as the table prints them."""
    grams = [x.m_as("g") for x in (g.water, g.sucrose - g.swapped, g.swapped)]
    return [(in_digits(m), molar, m / float(molar)) for m, molar in zip(grams, _MOLAR, strict=True)]


def _packets_sum(g):
    parts = zip(_NAMES, _packets(g), strict=True)
    return "; ".join(f"{name} {m} ÷ {molar} = {moles:#.4g}" for name, (m, molar, moles) in parts)


def _shares_of_packets(g):
    moles = [moles for _, _, moles in _packets(g)]
    return [one / sum(moles) for one in moles]


def _shares_sum(g):
    moles = [f"{moles:#.4g}" for _, _, moles in _packets(g)]
    parts = zip(_NAMES, moles, _shares_of_packets(g), strict=True)
    return "; ".join(f"{name} {one} ÷ ({' + '.join(moles)}) = {x:#.4g}" for name, one, x in parts)


def _activity_sum(g):
    """From the shares to the water activity, three sums."""
    water, *shares = _shares_of_packets(g)
    held = _root_sum((water, *shares))
    terms = " + ".join(f"{root:.3f} × {x:#.4g}" for root, x in zip(_roots(), shares, strict=True))
    return (
        f"{terms} = {held:#.4g}",
        f"{held:#.4g} × {held:#.4g} = {held**2:#.4g}",
        f"{water:#.4g} × e^(−{held**2:#.4g}) = {water * math.exp(-(held**2)):.3f}",
    )


INVERT_FOR_SUGAR = Exercise(
    id="05.invert-for-sugar",
    title="Invert sugar for sugar",
    prompt="""A nut filling has {water} of water, {sucrose} of sucrose, all of it dissolved, and {solids} of nut that does
        not dissolve. Its computed water activity is {before}. You replace {swapped} of the sucrose with as much invert
        sugar, weighed dry. What is the computed water activity now? The table holds what the rule needs.""",
    answer=_mixture,
    kind="number",
    resolution=0.002,
    because="the rule itself is no closer than this to what a meter shows",
    sane=(0.6, 0.97),
    hint="Moles first: mass divided by molar mass. Then each share of all moles, then root K times share, added up, squared.",
    lets={
        "before": lambda g: water_activity.norrish.floats(g.water.m_as("g"), {"sucrose": g.sucrose.m_as("g")}),
        "after": _mixture,
        "fall": lambda g: round(g.before - g.after, 4),
        "x_water": lambda g: _fractions(g)[0],
        "x_sucrose": lambda g: _fractions(g)[1],
        "x_invert": lambda g: _fractions(g)[2],
        "root_sum": lambda g: _root_sum(_fractions(g)),
        "squared": lambda g: g.root_sum**2,
        "packets": _packets_sum,
        "shares": _shares_sum,
        "roots": lambda g: _activity_sum(g)[0],
        "square": lambda g: _activity_sum(g)[1],
        "end": lambda g: _activity_sum(g)[2],
    },
    slips=(
        Slip(
            "nothing changes",
            lambda g: g.before,
            "You took invert sugar for sucrose. Its molecules are half the size, so the same grams make twice as many.",
        ),
        Slip(
            "added, not replaced",
            lambda g: _mixture(g, extra=g.swapped.m_as("g")),
            "You put the invert sugar in and left all the sucrose where it was. {swapped} of it goes out.",
        ),
        Slip(
            "water's share alone",
            lambda g: g.x_water,
            "That is the water's share of the molecules. Sugars also hold on to water: the power of e takes a little more off.",
        ),
        Slip(
            "per total mass",
            lambda g: _mixture(g, (g.water + g.sucrose + g.solids).m_as("g")),
            "You spread the sugar over the whole filling. It is dissolved in {water} of water and in nothing else.",
        ),
        Slip(
            "all dry matter as sugar",
            lambda g: _mixture(g, extra=g.solids.m_as("g")),
            "You counted {solids} of nut as sugar. What does not dissolve does not lower the water activity.",
        ),
        Slip(
            "grams for moles",
            lambda g: _fractions(g, by_mass=True)[0] * math.exp(-(_root_sum(_fractions(g, by_mass=True)) ** 2)),
            "You worked with shares of the grams. Water activity counts molecules: divide by the molar mass first.",
        ),
        Slip(
            "squared one by one",
            lambda g: (
                g.x_water
                * math.exp(-sum((r * x) ** 2 for r, x in zip(_roots(), (g.x_sucrose, g.x_invert), strict=True)))
            ),
            "You squared each sugar by itself and then added. Add first, then square: one sugar feels the other.",
        ),
    ),
    steps=(
        "Grams by the grams of one mole: {packets}. The nut is left out.",
        "Each as a share of all three: {shares}.",
        "The sugars hold on to water. Root K times share, added up: {roots}. Times itself: {square}.",
        "Water's share times e to the power of minus that: {end}. It was {before}: the swap takes it down by {fall}.",
    ),
    table=lambda g: (
        ("", "g for one mole", "root of K"),
        [("water", _MOLAR[0], "none")]
        + [(n, m, f"{r:.3f}") for n, m, r in zip(("sucrose", "invert sugar"), _MOLAR[1:], _roots(), strict=True)],
    ),
)


EXERCISES = (WHAT_COUNTS, METER_CHECK, HIGHEST_READING, INVERT_FOR_SUGAR, MOULD, DISPLAY_CASE)
