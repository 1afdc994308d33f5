"""The judgements of lesson 04: which honey grains first; leave a filling as it is, or take honey, invert syrup or glucose
syrup for part of its sugar.
"""

from dataclasses import dataclass

from pastrylab.ground.careful import written_up
from pastrylab.ground.units import Q, Quantity, StudentError, in_digits
from pastrylab.school.engine import Exercise, Option
from pastrylab.trade import sugars, water_activity
from pastrylab.trade.sugars.graining import Graining


def _share(value):
    return value.m_as("dimensionless")


# --- which honey grains first -----------------------------------------------------------------------------------------

_HONEYS = ("first", "second", "third")
_SAMPLES = ("one", "two", "three")


def _honey(g, name):
    """Glucose, fructose and water of a jar; `shelf` says how far the three samples are moved along the shelf."""
    sample = _SAMPLES[(_HONEYS.index(name) + round(g.shelf)) % 3]
    return tuple(_share(getattr(g, f"{sample}_{part}")) for part in ("glucose", "fructose", "water"))


_INDICES = {
    "glucose to water": lambda glucose, fructose, water: (
        sugars.honey_granulation.floats(glucose, water).glucose_to_water
    ),
    "glucose to total sugars": lambda glucose, fructose, water: glucose / (glucose + fructose),
    "fructose plus glucose to water": lambda glucose, fructose, water: (glucose + fructose) / water,
}
_WRONG_WAYS = {
    "glucose to total sugars": "Among its sugars it has the most glucose, but glucose crystallises out of water: "
    "what counts is how much water there is to hold it.",
    "fructose plus glucose to water": "It is the thickest, but fructose stays dissolved for long. Only glucose "
    "crystallises.",
}


def _first_by(g, index):
    return max(_HONEYS, key=lambda name: _INDICES[index](*_honey(g, name)))


def _ratio(name):
    return lambda g: round(_INDICES["glucose to water"](*_honey(g, name)), 2)


def _ratio_sum(name):
    def say(g):
        glucose, _fructose, water = (in_digits(100 * part) for part in _honey(g, name))
        return f"{glucose} ÷ {water} = {_ratio(name)(g):.2f}"

    return say


def _about(name):
    def say(g):
        ways = [text for index, text in _WRONG_WAYS.items() if _first_by(g, index) == name]
        return f"It holds {_ratio(name)(g):.2f} g of glucose for each gram of water. {' '.join(ways)}".strip()

    return say


WHICH_HONEY = Exercise(
    id="04.which-honey-grains",
    title="Which honey grains first?",
    prompt="""Three jars of honey stand on the shelf, all clear today. The table shows what a laboratory found in them.
        Which will be full of crystals first?""",
    kind="choice",
    answer=lambda g: _first_by(g, "glucose to water"),
    hint="Which sugar crystallises in honey, and what keeps it dissolved?",
    lets={
        **{f"ratio_{name}": _ratio(name) for name in _HONEYS},
        **{f"sum_{name}": _ratio_sum(name) for name in _HONEYS},
        **{f"about_{name}": _about(name) for name in _HONEYS},
        "stays": lambda g: sugars.HONEY_STAYS,
        "grains": lambda g: sugars.HONEY_GRAINS,
    },
    options=tuple(
        Option(
            name,
            f"The {name} jar.",
            f"{{about_{name}}}",
            f"It holds {{ratio_{name}}} g of glucose for each gram of water, the most of the three.",
        )
        for name in _HONEYS
    ),
    steps=(
        "What crystallises in honey is glucose; water keeps it dissolved. So divide glucose by water.",
        "First jar: {sum_first}. Second: {sum_second}. Third: {sum_third}.",
        "Below {stays} a honey tends to stay liquid, above {grains} it crystallises soon. The highest goes first.",
    ),
    table=lambda g: (
        ("jar", "glucose, %", "fructose, %", "water, %"),
        [(name, *(f"{100 * x:.1f}" for x in _honey(g, name))) for name in _HONEYS],
    ),
)

# --- which syrup for a filling ------------------------------------------------------------------------------------------

_NAMES = {"honey": "honey", "invert": "invert syrup", "glucose": "glucose syrup DE 42"}
_CALLED = {"honey": "honey", "invert": "invert", "glucose": "glucose"}
_SUGARS = ("sucrose", "glucose", "fructose", "maltose", "higher_saccharides")


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
            written_up(self.activity),
        )

    def __str__(self):
        return (
            f"supersaturation {self.graining.supersaturation:.2f}, {100 * self.sweetness:.0f} % as sweet as now, water "
            f"activity about {written_up(self.activity)}"
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


def _as_it_is(g):
    """The filling without a syrup. What the water does not hold at 25 degC does not count for its water activity."""
    holds = sugars.sucrose_per_water("25 degC") / 100 * g.water.to("g")
    return _Seen(
        Q(0, "g"),
        Q(0, "g"),
        sugars.graining_risk(g.water, {"sucrose": g.sugar}, g.store),
        1.0,
        water_activity.norrish(g.water, {"sucrose": min(g.sugar, holds)}),
    )


def _part(which, part):
    return lambda g: _whole(getattr(getattr(g, which), part))


def _held_sum(g):
    """Sugar against what the water holds at the store's temperature, as on paper."""
    sugar, water, holds = g.sugar.m_as("g"), g.water.m_as("g"), sugars.sucrose_per_water(g.store) / 100
    return f"{in_digits(sugar)} ÷ ({in_digits(water)} × {in_digits(holds)}) = {sugar / (water * holds):.2f}"


# Option -> what it does to the filling. Honey is never among them: the filling must taste of vanilla alone.
_WAYS = {"leave it": "as_it_is", "invert syrup": "invert", "glucose syrup": "glucose"}


def _best(g):
    fit = [option for option, which in _WAYS.items() if not _trouble(getattr(g, which), g)]
    if not fit:
        raise StudentError(
            "values with which nothing keeps the filling from graining within the sweetness allowed",
            "more of the sugar replaced, or more sweetness allowed",
            "replaced 40 %, sweetest 115 %",
        )
    return min(fit, key=lambda option: getattr(g, _WAYS[option]).activity)


def _trouble(seen, g):
    """Why a filling will not do, as a sentence; "" where it will."""
    if seen.graining.stays is not True:
        over = f"{seen.graining.supersaturation:.2f}"
        if seen.graining.supersaturation >= 1:
            return f"The water holds less sugar than this: supersaturation {over}. Sooner or later it grains."
        if seen.graining.high >= 1:
            return f"Supersaturation {over} is so near to one that the sum cannot tell; it must not grain."
        return seen.graining.sentence
    if seen.sweetness > _share(g.sweetest):
        return f"It would be {100 * seen.sweetness:.0f} % as sweet as now; allowed is {100 * _share(g.sweetest):.0f} %."
    return ""


def _verdict(option):
    """What is said of an option: why it is the one, or why another is better."""

    def say(g):
        seen, best = getattr(g, _WAYS[option]), _best(g)
        if trouble := _trouble(seen, g):
            return trouble
        if option == best:
            return f"It does not grain and is not too sweet: {seen}, the lowest of what is left."
        lowest = getattr(g, _WAYS[best]).activity
        return f"It would do, but {_SAID[best]} has the lower water activity: {written_up(lowest)} against {written_up(seen.activity)}."

    return say


_SAID = {"leave it": "the filling as it is", "invert syrup": "invert syrup", "glucose syrup": "glucose syrup"}


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
        "as_it_is": _as_it_is,
        "held": _held_sum,
        "before": lambda g: round(g.as_it_is.graining.supersaturation, 2),
        **{which: _seen(which) for which in _NAMES},
        **{f"{which}_mass": _part(which, "mass") for which in _NAMES},
        **{f"{which}_water": _part(which, "water") for which in _NAMES},
        **{f"about_{which}": _verdict(option) for option, which in _WAYS.items()},
        "true_dry": lambda g: _whole(g.dry / g.invert_mass * g.dry),
    },
    options=(
        Option(
            "leave it",
            "Leave it as it is. What is dissolved stays dissolved.",
            "{about_as_it_is}",
            "{about_as_it_is}",
        ),
        Option(
            "honey",
            "Take {dry} of sugar out, put {honey_mass} of honey in, leave out {honey_water} of water.",
            "The sums say {honey}, but it tastes of honey, and the filling must taste of vanilla alone.",
        ),
        Option(
            "invert syrup",
            "Take {dry} of sugar out, put {invert_mass} of invert syrup in, leave out {invert_water} of water.",
            "{about_invert}",
            "{about_invert}",
        ),
        Option(
            "glucose syrup",
            "Take {dry} of sugar out, put {glucose_mass} of glucose (corn) syrup in, leave out {glucose_water} of water.",
            "{about_glucose}",
            "{about_glucose}",
        ),
        Option(
            "gram for gram",
            "Take {dry} of sugar out, put {dry} of invert syrup in, change nothing else.",
            "You counted the syrup as dry sugar. So much of it holds {true_dry} of sugars; the rest is water, which nobody "
            "took out.",
        ),
    ),
    steps=(
        "As it is, sugar over what the water can hold: {held}. That is the supersaturation, {before}. It must be under one by more than the error of the sum.",
        "Honey is out, it tastes of honey. A syrup weighed gram for gram is out, it brings water nobody counted.",
        "Invert syrup: {invert}.",
        "Glucose syrup: {glucose}.",
        "Allowed is {sweetest} of the sweetness now. Of those that fit, take the lowest water activity.",
    ),
    table=lambda g: (
        ("with", "super-saturation", "sweet", "water activity"),
        [
            ("no syrup", *g.as_it_is.cells()),
            *((_CALLED[which], *getattr(g, which).cells()) for which in _NAMES),
        ],
    ),
)
