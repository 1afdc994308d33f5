"""Exercises of lesson 05 about a meter's reading: checking the meter, the Food Code's line, days, a display case."""

import math

from pastrylab.ground.units import Q
from pastrylab.school.engine import Exercise, Option, Slip
from pastrylab.trade import keeping, water_activity

_SALT = "sodium chloride"


def _reads_high(g):
    return g.offset > 0


METER_CHECK = Exercise(
    id="05.meter-check",
    title="A meter that reads high",
    prompt="""Before the fillings you put a wet slurry of table salt into the meter. At {room} it settles at {over_salt},
        where such a slurry has a water activity of {salt}. A filling then shows {shown} on the same meter.
        What is the filling's water activity, corrected for the meter by that difference?""",
    answer=lambda g: g.shown - g.offset,
    kind="number",
    resolution=0.002,
    because="a kitchen meter does not repeat itself more closely than this",
    sane=(0.7, 0.95),
    hint="The salt tells by how much the meter reads too high. That much comes off every reading.",
    lets={
        "salt": lambda g: water_activity.salt_standard(_SALT, g.room),
        "offset": lambda g: round(water_activity.meter_offset(g.over_salt, _SALT, g.room), 4),
    },
    supposes={"the meter reads too high": _reads_high},
    slips=(
        Slip(
            "offset added",
            lambda g: g.shown + g.offset,
            "You added the meter's fault. It shows too much over the salt, so it shows too much over the filling.",
            fits=_reads_high,
        ),
        Slip(
            "offset forgotten",
            lambda g: g.shown,
            "That is the reading as it stands. Over the salt the meter showed {over_salt} in place of {salt}.",
        ),
        Slip(
            "percentage",
            lambda g: 100 * (g.shown - g.offset),
            "That is the humidity over the filling in percent. Water activity is a number between nought and one.",
        ),
    ),
    steps=(
        "Over the salt the meter reads too high by {over_salt:n} − {salt:n 4} = {offset:n}.",
        "That comes off: {shown:n} − {offset:n} = {answer:n}.",
    ),
)

_TABLE = "B"


def _last_column(g):
    return g.ph > 5


HIGHEST_READING = Exercise(
    id="05.highest-reading",
    title="The highest reading that will do",
    prompt="""A truffle is dipped and laid out unpackaged, so table B of the Food Code applies. Its pH is {ph}. Your meter
        is good to {error} either way. Below which reading on that meter does table B still call the truffle non-TCS,
        whatever the meter's error did?""",
    answer=lambda g: keeping.highest_reading(_TABLE, g.ph, g.error),
    kind="number",
    resolution=0.001,
    because="a meter shows thousandths",
    limit="high",
    sane=(0.8, 0.95),
    hint="Find the row that still says non-TCS at this pH. The true value may lie {error} above what the meter shows.",
    lets={
        "limit": lambda g: keeping.highest_reading(_TABLE, g.ph, 0),
        "limit_a": lambda g: keeping.highest_reading("A", g.ph, 0),
    },
    supposes={"the pH is above 5.0, in the table's last column": _last_column},
    slips=(
        Slip(
            "table A",
            lambda g: keeping.highest_reading("A", g.ph, g.error),
            "Table A, limit {limit_a}, is for food heat-treated and then packaged. This truffle lies open.",
        ),
        Slip(
            "error added",
            lambda g: g.limit + g.error,
            "You added the error. A meter that reads low would then let a wetter filling pass: take it off the limit.",
        ),
        Slip(
            "error forgotten",
            lambda g: g.limit,
            "That is the table's limit itself. The true value may lie {error} above what your meter shows.",
        ),
        Slip(
            "column of a lower pH",
            lambda g: keeping.highest_reading(_TABLE, 5, g.error),
            "You read the column to the left. At pH {ph} the last column counts, and its limit is {limit}.",
            fits=_last_column,
        ),
    ),
    steps=(
        "Table B, last column, pH {ph}: non-TCS below a water activity of {limit}.",
        "The meter may show {error} too little: {limit:n} − {error:n} = {answer:n}.",
    ),
)


def _mould_line(g, line, base=10.0, percent=100.0):
    _, a, b = keeping.MOULD_LINES[line]
    return Q(base ** (a - b * percent * g.worst), "day")


def _days(g, aw):
    return Q(keeping.mould_free_days(aw, g.at, dairy=False).days, "day")


MOULD = Exercise(
    id="05.days-without-mould",
    title="Days without mould, perhaps",
    prompt="""A fruit jelly without any dairy reads {reading} on a meter good to {error}. A line fitted to cakes at {at}
        says: logarithm (base ten) of the days without visible mould = {a} minus {b} times the humidity over the food in
        percent. Take the end of the meter's error at which mould comes sooner. How many days does the line give?
        It is an illustration, not a promise.""",
    answer=lambda g: _days(g, g.worst),
    unit="day",
    resolution=1,
    because="nobody looks for mould more than once a day",
    sane=(3, 200),
    hint="Water activity times a hundred is the humidity in percent. Mould comes sooner where there is more water.",
    lets={
        "at": lambda g: Q(keeping.MOULD_LINES[0][0], "degC"),
        "warmer": lambda g: Q(keeping.MOULD_LINES[1][0], "degC"),
        "a": lambda g: keeping.MOULD_LINES[0][1],
        "b": lambda g: keeping.MOULD_LINES[0][2],
        "worst": lambda g: round(g.reading + g.error, 9),
        "humidity": lambda g: round(100 * g.worst, 9),
        "logarithm": lambda g: g.a - g.b * g.humidity,
    },
    slips=(
        Slip(
            "error forgotten",
            lambda g: _days(g, g.reading),
            "That is for the reading as it stands. The jelly may be wetter by {error}, and mould would come sooner.",
        ),
        Slip(
            "error the wrong way",
            lambda g: _days(g, round(g.reading - g.error, 9)),
            "You took the drier end of the error. Mould comes sooner at the wetter end.",
        ),
        Slip(
            "natural exponential",
            lambda g: _mould_line(g, 0, base=math.e),
            "You raised e to that power. The line is for the logarithm with base ten: raise ten.",
        ),
        Slip(
            "water activity for percent",
            lambda g: _mould_line(g, 0, percent=1.0),
            "You put in the water activity itself. The line wants the humidity in percent, a hundred times as large.",
        ),
        Slip(
            "the warmer line",
            lambda g: _mould_line(g, 1),
            "That is what a second line gives at {warmer}. Here {a} and {b} belong to {at}.",
        ),
    ),
    steps=(
        "The wetter end: {reading:n} + {error:n} = {worst:n}, a humidity of {humidity:n} percent.",
        "The line gives {a:n} − {b:n} × {humidity:n} = {logarithm:n}.",
        "Ten to that power: 10^{logarithm:n} = {answer:day 4}. Four published cakes scatter about the "
        "line by a seventh.",
    ),
)

_BY_CLASS = {"PA": "cold, and assess", "non-TCS": "under the line, then ask"}

DISPLAY_CASE = Exercise(
    id="05.display-case",
    title="A display case in June",
    prompt="""A cream truffle, dipped and unpackaged, is to stand in a display case at {case_at} for {days} days.
        A spreadsheet estimates its water activity at {estimate}. A meter, good to {error}, shows {reading}; its pH is {ph}.
        What do you say, and what do you do?""",
    kind="choice",
    answer=lambda g: _BY_CLASS[keeping.food_code(_TABLE, g.reading, g.ph, g.error).status],
    hint="Which of the numbers may be put against table B, and at which end of its error? And what does a class not say?",
    lets={
        "limit": lambda g: keeping.highest_reading(_TABLE, g.ph, 0),
        "worst": lambda g: round(g.reading + g.error, 9),
        "mould": lambda g: round(keeping.mould_free_days(g.reading, g.case_at, dairy=False).days),
    },
    options=(
        Option(
            "by the estimate",
            "The estimate is {estimate}, well under the line. It may stand there for {days} days.",
            "An estimate picks no class. Sugar that stays solid in the chocolate alone can move it past the line.",
        ),
        Option(
            "by the reading",
            "The meter shows {reading}, under the line of {limit}. It may stand there for {days} days.",
            "Add the error first: the true value may be {worst}. And no row of the table grants {days} days, or any number of days.",
        ),
        Option(
            "by the mould line",
            "The line for mould gives {mould} days at that humidity and {case_at}. That is how long it may stand.",
            "That line was fitted to cakes. In a filling with cream, bacteria can spoil it long before mould shows.",
        ),
        Option(
            "cold, and assess",
            "With the error added it is not under the line of {limit}. It stays in the refrigerator; ask for a product "
            "assessment before anything stands in a case.",
            "Do the sum again: {reading} and {error} make {worst}, under {limit}. Keeping it cold is no mistake; the sum is.",
            "{reading} and {error} make {worst}, and that is not under {limit}. So it is cold, and somebody licensed judges.",
        ),
        Option(
            "under the line, then ask",
            "With the error added it is still under the line of {limit}. Show reading and pH to the local authority and let a "
            "laboratory find the days; until then it stays cold.",
            "Do the sum again: {reading} and {error} make {worst}, and that is no longer under {limit}.",
            "{reading} and {error} make {worst}, under {limit}. That is a class, not a number of days, so you ask.",
        ),
    ),
    steps=(
        "The estimate of {estimate} is for planning. Table B takes a measured value only.",
        "With the error on the side of more growth: {reading:n} + {error:n} = {worst:n}. The line at pH {ph} "
        "is {limit}.",
        "A class says whether time and temperature must be controlled, not how long a filling keeps, so "
        "{days} days are for a laboratory and your local authority to judge.",
        "At {case_at} the chocolate itself softens as well: a cooler case is kinder to shell and filling.",
    ),
)
