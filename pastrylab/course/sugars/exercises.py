"""Exercises of lesson 04: honey for invert, the water that inversion takes, the polarimeter, boiling in the mountains."""

from pastrylab.course.sugars.judgements import WHICH_HONEY, WHICH_SYRUP
from pastrylab.ground.units import Q
from pastrylab.school.engine import Exercise, Slip
from pastrylab.trade import sugars


def _share(value):
    return value.m_as("dimensionless")


# --- honey in place of invert syrup -----------------------------------------------------------------------------------


def _syrup_of(solids):
    return {"water": 1 - solids, "glucose": solids / 2, "fructose": solids / 2}


def _swapped(g, old, new):
    return sugars.swap(g.syrup, _syrup_of(_share(old)), _syrup_of(_share(new))).mass


def _drier(g):
    return g.honey_solids > g.syrup_solids


HONEY_FOR_INVERT = Exercise(
    id="04.honey-for-invert",
    title="Honey for invert syrup",
    prompt="""The recipe asks for {syrup} of invert syrup at {syrup_solids} solids. The tin is empty. You have honey at
        {honey_solids} solids. How much honey brings the same solids?""",
    answer=lambda g: _swapped(g, g.syrup_solids, g.honey_solids),
    unit="g",
    resolution=1,
    because="a kitchen scale shows whole grams",
    sane=(50, 3000),
    hint="Work out the dry sugars in {syrup} of syrup. Then ask how much honey holds as much.",
    lets={
        "dry": lambda g: (g.syrup * _share(g.syrup_solids)).to("g"),
        "points": lambda g: round(100 * (_share(g.honey_solids) - _share(g.syrup_solids)), 1),
    },
    supposes={"the honey holds more solids than the syrup": _drier},
    slips=(
        Slip(
            "one to one",
            lambda g: g.syrup,
            "That is gram for gram. Honey is the drier of the two, so the filling would get more sugar and less water.",
            fits=_drier,
        ),
        Slip(
            "ratio inverted",
            lambda g: _swapped(g, g.honey_solids, g.syrup_solids),
            "The ratio stands on its head. Honey holds more solids in each gram, so you need less of it, not more.",
            fits=_drier,
        ),
        Slip(
            "syrup counted as dry",
            lambda g: g.syrup / _share(g.honey_solids),
            "You counted the invert syrup as dry sugar. Only {syrup_solids} of it is solids, the rest is water.",
        ),
        Slip(
            "same water",
            lambda g: g.syrup * (1 - _share(g.syrup_solids)) / (1 - _share(g.honey_solids)),
            "That keeps the water the same. Asked are the same solids: far less honey.",
            fits=_drier,
        ),
        Slip(
            "points taken off",
            lambda g: g.syrup * (1 - g.points / 100),
            "You took the {points} points of difference off as a percentage of the syrup. Divide the two shares "
            "instead.",
            fits=_drier,
        ),
    ),
    steps=(
        "Dry sugars in the syrup: {syrup:g} × {syrup_solids:1} = {dry:g}.",
        "Each gram of honey holds {honey_solids:1} grams of them: {dry:g} ÷ {honey_solids:1} = {answer:g}.",
    ),
)

# --- water for an invert syrup ----------------------------------------------------------------------------------------


def _plan(g, share):
    return sugars.invert_plan(g.syrup, _share(g.solids), share=share)


def _water_under_a_lid(g, share=None):
    plan = _plan(g, _share(g.inverted) if share is None else share)
    return (plan.syrup - plan.sucrose).to("g")


WATER_FOR_INVERT = Exercise(
    id="04.water-for-invert",
    title="Water for an invert syrup",
    prompt="""You want {syrup} of invert syrup at {solids} solids, with {inverted} of the sugar inverted. The lid stays on,
        nothing boils off. Each gram of sugar that inverts takes up {uptake} of water.
        How much water do you weigh in?""",
    answer=_water_under_a_lid,
    unit="g",
    resolution=1,
    because="a kitchen scale shows whole grams",
    sane=(50, 5000),
    hint="Part of the water turns into sugar. Find first how much sugar to weigh in; what is missing to {syrup} is water.",
    lets={
        "uptake": lambda g: sugars.water_taken_up("1 g").to("mg"),
        "sugars": lambda g: (g.syrup * _share(g.solids)).to("g"),
        "left": lambda g: (g.syrup * (1 - _share(g.solids))).to("g"),
        "sucrose": lambda g: _plan(g, _share(g.inverted)).sucrose,
        "taken": lambda g: sugars.water_taken_up(g.sucrose, _share(g.inverted)),
    },
    slips=(
        Slip(
            "gain forgotten",
            lambda g: g.left,
            "That is the water in the finished syrup. Inversion swallows some on the way: it has to go in as well.",
        ),
        Slip(
            "gain applied to the water",
            lambda g: g.left * (g.sucrose / g.sugars),
            "You divided the water by the gain as well. The sugars gain; the water loses, and exactly what they gain.",
        ),
        Slip(
            "gain the wrong way",
            lambda g: g.left - g.taken,
            "You took the water off where it must be added: inversion uses it up, so more goes in.",
        ),
        Slip(
            "uptake of the finished sugars",
            lambda g: g.left + sugars.water_taken_up(g.sugars, _share(g.inverted)),
            "You took the uptake on the {sugars} of finished sugars. It goes with the sugar you weigh in, which is less.",
        ),
        Slip(
            "as if all inverted",
            lambda g: _water_under_a_lid(g, share=1),
            "That is the water for full inversion. Here {inverted} of the sugar inverts.",
        ),
    ),
    steps=(
        "The finished syrup holds {syrup:g} × {solids:1} = {sugars:g} of sugars and {syrup:g} − {sugars:g} = "
        "{left:g} of water.",
        "Each gram of sugar grows by the water that its inverted part takes up: {sugars:g} ÷ (1 + "
        "{inverted:1} × {uptake:g bare}) = {sucrose:g} of sugar to weigh in.",
        "That takes up {sucrose:g} × {inverted:1} × {uptake:g bare} = {taken:g} of water on the way.",
        "Weigh in what the syrup keeps and what inversion takes: {left:g} + {taken:g} = {answer:g}.",
    ),
)

# --- the polarimeter --------------------------------------------------------------------------------------------------


def _degree(g, end):
    return (g.before - g.now) / (g.before * (1 - end))


DEGREE = Exercise(
    id="04.degree-from-rotation",
    title="How far is it?",
    prompt="""A sample of the syrup, diluted, turned the light of the polarimeter by +{before} before the acid went in. Cooled,
        diluted the same way and in the same tube, it now turns by {now}. Handbooks give +{sucrose} for sucrose, +{glucose} for
        glucose and {fructose} for fructose. Each gram of sucrose gives {gain} grams of invert sugar.
        What share of the sucrose is inverted?""",
    answer=lambda g: sugars.inversion_from_rotation(g.before, g.now),
    kind="share",
    resolution=0.005,
    because="two degrees of room temperature shift the result by as much",
    sane=(0.2, 1),
    hint="Where does the reading end when all is inverted? Half of the new sugar is glucose, half is fructose.",
    lets={
        "sucrose": lambda g: sugars.specific_rotation("sucrose"),
        "glucose": lambda g: sugars.specific_rotation("glucose"),
        "fructose": lambda g: sugars.specific_rotation("fructose"),
        "invert": lambda g: round(sugars.specific_rotation("invert sugar"), 1),
        "total": lambda g: round(g.glucose + g.fructose, 1),
        "gain": lambda g: round(sugars.invert_yield("1 g").m_as("g"), 4),
        "end": lambda g: round(sugars.rotation_after(g.before, 1.0), 2),
        "way": lambda g: round(g.before - sugars.rotation_after(g.before, 1.0), 2),
        "gone": lambda g: round(g.before - g.now, 2),
    },
    slips=(
        Slip(
            "sum of the rotations",
            lambda g: _degree(g, g.total * g.gain / g.sucrose),
            "You took {total} for invert sugar. That is the sum of its halves; a gram of invert turns by the mean, {invert}.",
        ),
        Slip(
            "end taken as zero",
            lambda g: _degree(g, 0),
            "You let the reading end at zero. Invert sugar turns the other way: it ends at {end}.",
        ),
        Slip(
            "gain forgotten",
            lambda g: _degree(g, g.invert / g.sucrose),
            "Very near, but a gram of sucrose gives {gain} grams of invert sugar, so the end lies a little lower.",
        ),
        Slip(
            "sign dropped",
            lambda g: (g.before - abs(g.now)) / (g.before - g.end),
            "You dropped the sign. {now} lies on the other side of zero, so the way is longer by twice that.",
            fits=lambda g: g.now < 0,
        ),
        Slip(
            "share left",
            lambda g: 1 - sugars.inversion_from_rotation(g.before, g.now),
            "That is the sucrose still there. Asked is the share that is inverted.",
        ),
    ),
    steps=(
        "Invert sugar is half glucose, half fructose: ({glucose:n} + {fructose:n bare}) ÷ 2 = {invert:n}.",
        "With the gain in weight, the reading ends at {before:n} × {gain:n} × {invert:n bare} ÷ {sucrose:n} "
        "= {end:n} when all is inverted.",
        "It has come {before:n} − {now:n bare} = {gone:n} of a whole way of {before:n} − {end:n bare} = {way:n}.",
        "Gone divided by the whole way: {gone:n} ÷ {way:n} = {answer:% 4}.",
    ),
)

# --- boiling in the mountains -----------------------------------------------------------------------------------------


def _fall(g):
    """How much lower water boils than at the sea, as a difference."""
    return Q(sugars.water_boiling_point().m_as("degC") - g.water_at.m_as("degC"), "delta_degC")


def _less(g, kelvin):
    return Q(g.recipe_at.m_as("degC") - kelvin, "degC")


def _mountains(g):
    return g.water_at < g.coast


BOIL = Exercise(
    id="04.boil-in-the-mountains",
    title="Boiling in the mountains",
    prompt="""A recipe from the coast cooks a syrup to {recipe_at}. You cook in the mountains. In a pan of plain boiling water
        your probe, which you trust, shows {water_at}; at the coast it would show {coast}.
        To which reading do you cook for the same solids?""",
    answer=lambda g: sugars.syrup_boiling_point(_share(g.solids), pressure=sugars.saturation_pressure(g.water_at)),
    kind="reading",
    unit="degC",
    resolution=1,
    because="a sugar thermometer in a boiling pan is no closer than this",
    sane=(80, 180),
    hint="Syrup boils lower in the mountains by nearly as much as water does. How many steps of Celsius are that?",
    lets={
        "coast": lambda g: Q(round(sugars.water_boiling_point().m_as("degF")), "degF"),
        "fahrenheit": lambda g: Q(g.coast.m_as("degF") - g.water_at.m_as("degF"), "delta_degF"),
        "celsius": lambda g: g.fahrenheit.to("delta_degC"),
        "step": lambda g: Q(1, "delta_degC").to("delta_degF").magnitude,
        "about": lambda g: _less(g, g.celsius.m_as("delta_degC")),
        "solids": lambda g: Q(100 * sugars.solids_from_boiling(g.recipe_at), "percent"),
    },
    supposes={"water boils lower than at the coast": _mountains},
    slips=(
        Slip(
            "recipe followed",
            lambda g: g.recipe_at,
            "That is the recipe's reading. Up here the pan would have to lose far more water to get there: the syrup "
            "comes out hard.",
            fits=_mountains,
        ),
        Slip(
            "wrong way",
            lambda g: _less(g, -_fall(g).m_as("delta_degC")),
            "You went up. Everything boils lower in the mountains, water and syrup.",
            fits=_mountains,
        ),
        Slip(
            "Fahrenheit steps as Celsius",
            lambda g: _less(g, 1.8 * _fall(g).m_as("delta_degC")),
            "You took the difference off as it stood, in steps of Fahrenheit. The recipe counts steps of Celsius, which are larger.",
        ),
        Slip(
            "difference read as a reading",
            lambda g: _less(g, abs((1.8 * _fall(g).m_as("delta_degC") - 32) / 1.8)),
            "You turned the difference into Celsius like a reading, with the offset of the freezing point. A difference has none.",
        ),
    ),
    steps=(
        "Water boils lower than at the coast by {coast:degF bare} − {water_at:degF bare} = "
        "{fahrenheit:delta_degF}. In steps of Celsius, which are {step:n} times as large: {fahrenheit:delta_degF bare} ÷ {step:n} = {celsius:delta_degC 3}.",
        "Syrup of the same solids, {solids:% 3}, boils lower by as much: {recipe_at:degC bare} − "
        "{celsius:delta_degC bare 3} = {about:degC 4}.",
        "Thick syrup falls a trifle more than water: the tables say {answer:degC 4}. Your thermometer cannot "
        "tell the two apart.",
    ),
)

EXERCISES = (HONEY_FOR_INVERT, WHICH_HONEY, WATER_FOR_INVERT, DEGREE, BOIL, WHICH_SYRUP)
