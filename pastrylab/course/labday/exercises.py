"""Exercises of lesson 09: when to begin, what holds the day up, how much to cast and buy, the order of flavours, a machine."""

import math

from pastrylab.course.labday.buying import CARTONS, MOULDS
from pastrylab.course.labday.judgements import LATE
from pastrylab.ground.units import Q
from pastrylab.school.engine import Exercise, Slip
from pastrylab.trade.planning import After, Step, critical_path
from pastrylab.trade.planning.machines import between
from pastrylab.trade.planning.steps import Lab


def _minutes(quantity):
    return round(quantity.m_as("min"))


def _whole(steps):
    """How long a row of steps takes with hands enough: the earliest end of the last."""
    times = critical_path(steps)
    return Q(float(max(times[s.name].earliest + s.minutes for s in steps)), "min")


def _row(g):
    cast = Step("cast", _minutes(g.cast))
    fill = Step("fill", _minutes(g.fill), (After("cast", _minutes(g.sets)),))
    cap = Step("cap", _minutes(g.cap), (After("fill", _minutes(g.rest)),))
    return [cast, fill, cap, Step("box", _minutes(g.box), (After("cap", _minutes(g.shut)),))]


LATEST = Exercise(
    id="09.latest-start",
    title="The latest start",
    prompt="""Casting takes {cast}; the shells set for {sets}. Filling takes {fill}; then the ganache crystallises for {rest}
        before it is capped. Capping takes {cap}; the caps set for {shut}; turning out and boxing takes {box}.
        How many minutes before the boxes are fetched must casting begin, at the latest?""",
    answer=lambda g: _whole(_row(g)),
    unit="min",
    resolution=1,
    because="a lab day is planned to the minute and run to five",
    sane=(300, 3000),
    hint="Walk backwards from the door: what has to be over before what? A rest takes time although nobody works.",
    lets={
        "work": lambda g: g.cast + g.fill + g.cap + g.box,
        "night": lambda g: g.rest.to("min"),
        "rests": lambda g: g.sets + g.shut,
    },
    slips=(
        Slip(
            "rests forgotten",
            lambda g: g.work,
            "That is the handwork alone. Shells, filling and caps need their rests.",
        ),
        Slip(
            "the long rest forgotten",
            lambda g: g.work + g.rests,
            "Shells and caps have their rest, but the ganache has not: it crystallises for {rest} before it is capped.",
        ),
        Slip(
            "rests alone",
            lambda g: g.rests + g.night,
            "Those are the rests alone. Somebody has to cast, fill, cap and box as well.",
        ),
        Slip(
            "the small rests forgotten",
            lambda g: g.work + g.night,
            "The long rest is in. The {sets} of the shells and the {shut} of the caps are not.",
            fits=lambda g: g.rest > g.sets and g.rest > g.shut,
        ),
    ),
    steps=(
        "By hand: {cast:min bare} + {fill:min bare} + {cap:min bare} + {box:min bare} = {work:min}.",
        "The ganache: {rest:h bare} × 60 = {night:min}.",
        "Shells and caps: {sets:min bare} + {shut:min bare} = {rests:min}.",
        "One after the other: {work:min bare} + {night:min bare} + {rests:min bare} = {answer:min}.",
    ),
)


def _two_ways(g):
    shells = Step("cast", _minutes(g.cast))
    boil = Step("make", _minutes(g.make))
    ready = (After("cast", _minutes(g.sets)), After("make", _minutes(g.cools)))
    return [shells, boil, Step("fill", _minutes(g.fill), ready)]


PATH = Exercise(
    id="09.what-holds-it-up",
    title="What holds the filling up",
    prompt="""Two pairs begin at the same time. One casts shells: {cast}, and they set for {sets}. The other makes the ganache:
        {make}, and it cools for {cools} before it may be piped. Then the shells are filled, which takes {fill}.
        How many minutes after the beginning is the last shell filled, at the earliest?""",
    answer=lambda g: _whole(_two_ways(g)),
    unit="min",
    resolution=1,
    because="a lab day is planned to the minute and run to five",
    sane=(60, 400),
    hint="Shells and ganache are made at the same time. Which of the two is ready last?",
    lets={
        "shells": lambda g: g.cast + g.sets,
        "ganache": lambda g: g.make + g.cools,
        "last": lambda g: max(g.shells, g.ganache),
        "spare": lambda g: abs(g.ganache - g.shells),
    },
    slips=(
        Slip(
            "all added up",
            lambda g: g.shells + g.ganache + g.fill,
            "You put one way behind the other. Two pairs work at the same time: only the longer way counts.",
        ),
        Slip(
            "the shorter way",
            lambda g: min(g.shells, g.ganache) + g.fill,
            "That is the way that is ready first. It has to wait {spare:min} for the other.",
        ),
        Slip(
            "handwork alone",
            lambda g: max(g.cast, g.make) + g.fill,
            "The rests are missing: shells set and the ganache cools before a shell can be filled.",
        ),
    ),
    steps=(
        "Shells: {cast:min bare} + {sets:min bare} = {shells:min}.",
        "Ganache: {make:min bare} + {cools:min bare} = {ganache:min}.",
        "The longer way: {last:min}. Then {last:min bare} + {fill:min bare} = {answer:min}. The other way could be {spare:min} late.",
    ),
)


def _flavours():
    milk, nuts = frozenset({"milk"}), frozenset({"milk", "tree nuts"})
    return {
        "dark": Step("dark", 1, kind="dark"),
        "milk": Step("milk", 1, kind="milk", allergens=milk),
        "hazelnut": Step("hazelnut", 1, kind="milk", allergens=nuts),
    }


def _cleaned(g, *order):
    """Minutes of cleaning in one machine for flavours in that order, if nuts may be cleaned away at all."""
    lab = Lab(1, ((0, 1),), cleaning=_minutes(g.kind), allergen_cleaning=_minutes(g.allergen), last=frozenset())
    row = [_flavours()[name] for name in order]
    return Q(float(sum(between(a, b, lab) for a, b in zip(row, row[1:], strict=False))), "min")


ORDER = Exercise(
    id="09.nuts-last",
    title="Which flavour first",
    prompt="""One machine, three flavours: dark couverture without milk; milk couverture; and the same milk couverture over a
        hazelnut filling, some of which always gets back into the machine. Emptying and wiping it for another couverture
        takes {kind}. Where an allergen has to go that the next flavour does not have, it is taken apart and washed:
        {allergen}, and that is all, no wiping besides.
        The class wants to run hazelnut first, then milk, then dark. How many minutes of cleaning does the best order save?""",
    answer=lambda g: g.worst - _cleaned(g, "dark", "milk", "hazelnut"),
    unit="min",
    resolution=1,
    because="cleaning is planned to the minute and run to five",
    sane=(20, 300),
    hint="Begin with the flavour that brings no allergen, and let each bring one more. What is left to clean then?",
    lets={
        "worst": lambda g: _cleaned(g, "hazelnut", "milk", "dark"),
        "best": lambda g: _cleaned(g, "dark", "milk", "hazelnut"),
    },
    slips=(
        Slip(
            "the best order costs nothing",
            lambda g: g.worst,
            "That is what hazelnut first costs. Even the best order changes the couverture once, for {kind}.",
        ),
        Slip(
            "nuts alone",
            lambda g: g.allergen - g.best,
            "Milk is an allergen too: between milk and dark the machine is washed as well.",
        ),
        Slip(
            "added together",
            lambda g: g.worst + g.best,
            "You added the two orders. What is saved is what lies between them.",
        ),
    ),
    steps=(
        "Hazelnut, milk, dark: nuts have to go, then milk: {allergen:min bare} + {allergen:min bare} = {worst:min}.",
        "Dark, milk, hazelnut: each brings what the one before had, and more. One change of couverture: {best:min}.",
        "Saved: {worst:min bare} − {best:min bare} = {answer:min}. And no hazelnut gets into a milk chocolate that does not name it.",
    ),
)


def _rounds(g, machines):
    return math.ceil(g.batches / machines)


MACHINE = Exercise(
    id="09.one-more-machine",
    title="What one more machine is worth",
    prompt="""{batches:n} batches of shells have to be cast, each keeps a machine busy for {each}, and a batch is not divided.
        You have {machines:n} machines. A neighbour would lend you one more.
        How many minutes sooner is the last batch cast?""",
    answer=lambda g: (_rounds(g, g.machines) - _rounds(g, g.machines + 1)) * g.each,
    unit="min",
    resolution=1,
    because="a lab day is planned to the minute and run to five",
    sane=(0.5, 300),
    hint="How many batches does the busiest machine cast, without the loan and with it?",
    lets={
        "more": lambda g: g.machines + 1,
        "before": lambda g: _rounds(g, g.machines),
        "after": lambda g: _rounds(g, g.machines + 1),
        "first": lambda g: _rounds(g, g.machines) * g.each,
        "second": lambda g: _rounds(g, g.machines + 1) * g.each,
        "exact": lambda g: g.batches / g.machines,
        "shared": lambda g: g.batches / (g.machines + 1),
    },
    slips=(
        Slip(
            "batches divided",
            lambda g: (g.exact - g.shared) * g.each,
            "You shared the batches out to the last crumb. A batch is not divided: the busiest machine casts {before:n}, then {after:n}.",
        ),
        Slip(
            "the whole time",
            lambda g: g.second,
            "That is how long casting takes with the loan. What does it take without?",
        ),
        Slip(
            "a share of all",
            lambda g: g.batches * g.each / g.more,
            "You took the loan's share of all the work. What counts is when the busiest machine is done.",
        ),
    ),
    steps=(
        "Without: {batches:n} ÷ {machines:n} = {exact:n}, so the busiest machine casts {before:n}: {before:n} × {each:min bare} = {first:min}.",
        "With the loan: {batches:n} ÷ {more:n} = {shared:n}, so {after:n}: {after:n} × {each:min bare} = {second:min}.",
        "Sooner by {first:min bare} − {second:min bare} = {answer:min}.",
    ),
)

EXERCISES = (PATH, LATEST, MOULDS, CARTONS, ORDER, MACHINE, LATE)
