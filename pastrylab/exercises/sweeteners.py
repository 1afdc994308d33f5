"""The judgement of lesson 04: leave a filling as it is, or take honey, invert syrup or glucose syrup for part of its sugar."""

from dataclasses import dataclass

from pastrylab import sugars, water_activity
from pastrylab.exercises.engine import Exercise, Option
from pastrylab.sugars.solubility import Graining
from pastrylab.units import Q, Quantity, StudentError

_NAMES = {"honey": "honey", "invert": "invert syrup", "glucose": "glucose syrup DE 42"}
_CALLED = {"honey": "honey", "invert": "invert", "glucose": "glucose"}
_SUGARS = ("sucrose", "glucose", "fructose", "maltose", "higher_saccharides")


def _share(value):
    return value.m_as("dimensionless")


def _whole(mass):
    """A mass as a kitchen scale weighs it, in whole grams."""
    return Q(round(mass.m_as("g")), "g")


@dataclass(frozen=True)
class _Seen:
    """A filling with part of its sugar replaced, dry for dry. sweetness: 1 is the filling as it is."""

    mass: Quantity
    water: Quantity
    graining: Graining
    sweetness: float
    activity: float

    def cells(self):
        return (
            f"{self.graining.supersaturation:.2f}",
            f"{100 * self.sweetness:.0f} %",
            f"{self.activity:.2f}",
        )

    def __str__(self):
        return (
            f"supersaturation {self.graining.supersaturation:.2f}, {100 * self.sweetness:.0f} % as sweet as now, water "
            f"activity about {self.activity:.2f}"
        )


def _seen(which):
    def look(g):
        swap = sugars.swap(g.dry, {"sucrose": 1.0}, _NAMES[which])
        mix = {c: Q(grams, "g") for c, grams in swap.changes.items() if c in _SUGARS}
        mix["sucrose"] = g.sugar + mix["sucrose"]
        old_low, old_high, low, high = swap.sweetness
        return _Seen(
            swap.mass,
            swap.water,
            sugars.graining_risk(g.water, mix, g.store),
            1 + _share(g.replaced) * ((low + high) / (old_low + old_high) - 1),
            water_activity.norrish(g.water, mix),
        )

    return look


def _part(which, part):
    return lambda g: _whole(getattr(getattr(g, which), part))


def _held(g):
    """Water activity of the filling as it is: what the water does not hold at 25 degC does not count."""
    holds = sugars.sucrose_per_water("25 degC") / 100 * g.water.to("g")
    return water_activity.norrish(g.water, {"sucrose": min(g.sugar, holds)})


def _best(g):
    if g.as_it_is.high < 1:
        return "leave it"
    fit = [w for w in ("invert", "glucose") if _fits(getattr(g, w), g)]
    if not fit:
        raise StudentError(
            "values with which no syrup keeps the filling from graining within the sweetness allowed",
            "more of the sugar replaced, or more sweetness allowed",
            "replaced 40 %, sweetest 115 %",
        )
    return {"invert": "invert syrup", "glucose": "glucose syrup"}[min(fit, key=lambda w: getattr(g, w).activity)]


def _fits(seen, g):
    return seen.graining.high < 1 and seen.sweetness <= _share(g.sweetest)


WHICH_SYRUP = Exercise(
    id="04.which-syrup",
    title="Honey, invert or glucose syrup?",
    prompt="""A vanilla filling holds {sugar} of sugar in {water} of water and is kept at {store}. It must not grain, must taste of
        vanilla and nothing else, and may be at most {sweetest} as sweet as it is now. Among what is left, the lower the water
        activity the better. You may replace {replaced} of the sugar, dry for dry, and take the syrup's water out of the
        recipe. The table shows what the sums say (water activity is an estimate). What do you do?""",
    kind="choice",
    answer=_best,
    hint="Strike out one after the other: what grains, what tastes of itself, what is too sweet. Then compare what is left.",
    lets={
        "dry": lambda g: _whole(g.sugar * _share(g.replaced)),
        "as_it_is": lambda g: sugars.graining_risk(g.water, {"sucrose": g.sugar}, g.store),
        "before": lambda g: round(g.as_it_is.supersaturation, 2),
        **{which: _seen(which) for which in _NAMES},
        **{f"{which}_mass": _part(which, "mass") for which in _NAMES},
        **{f"{which}_water": _part(which, "water") for which in _NAMES},
        "true_dry": lambda g: _whole(g.dry / g.invert_mass * g.dry),
    },
    options=(
        Option(
            "leave it",
            "Leave it as it is. What is dissolved stays dissolved.",
            "At {store} the water holds less sugar than this: supersaturation {before}. Sooner or later it grains.",
        ),
        Option(
            "honey",
            "Take {dry} of sugar out, put {honey_mass} of honey in, leave out {honey_water} of water.",
            "It would not grain ({honey}), but it tastes of honey, and the filling must taste of vanilla alone.",
        ),
        Option(
            "invert syrup",
            "Take {dry} of sugar out, put {invert_mass} of invert syrup in, leave out {invert_water} of water.",
            "With {sweetest} allowed, look at the sweetness. Invert syrup: {invert}. Glucose syrup: {glucose}.",
        ),
        Option(
            "glucose syrup",
            "Take {dry} of sugar out, put {glucose_mass} of glucose (corn) syrup in, leave out {glucose_water} of water.",
            "With {sweetest} allowed, compare. Glucose syrup: {glucose}. Invert syrup: {invert}.",
        ),
        Option(
            "gram for gram",
            "Take {dry} of sugar out, put {dry} of invert syrup in, change nothing else.",
            "You counted the syrup as dry sugar. So much of it holds {true_dry} of sugars; the rest is water, which nobody "
            "took out.",
        ),
    ),
    steps=(
        "As it is, the supersaturation is {before}: above one, it can grain.",
        "Honey is out, it tastes of honey. A syrup weighed gram for gram is out, it brings water nobody counted.",
        "Invert syrup: {invert}.",
        "Glucose syrup: {glucose}.",
        "Allowed is {sweetest} of the sweetness now. Of those that fit, take the lowest water activity.",
    ),
    table=lambda g: (
        ("with", "super-saturation", "sweet", "water activity"),
        [
            ("no syrup", f"{g.before:.2f}", "100 %", f"{_held(g):.2f}"),
            *((_CALLED[which], *getattr(g, which).cells()) for which in _NAMES),
        ],
    ),
)
