"""The exercise of lesson 02 on a bowl's log: how long it stood inside the working band."""

from pastrylab import logs as probelog
from pastrylab.ground.units import Q
from pastrylab.school.engine import Exercise, Slip
from pastrylab.trade import chocolate


def _log(g):
    """The bowl's log as (minutes, degC): it falls by the same step from reading to reading, past the working band."""
    start, fall, every = g.start.m_as("degC"), g.fall.m_as("delta_degC"), g.every.m_as("min")
    rows = int((start - g.low.m_as("degC")) / fall) + 3
    return [(i * every, round(start - i * fall, 1)) for i in range(rows)]


def _table(g):
    minutes, degrees = zip(*_log(g), strict=True)
    return {"minutes": minutes, "degC": degrees}


def _rows_inside(g):
    low, high = g.low.m_as("degC"), g.high.m_as("degC")
    return sum(low <= degrees <= high for _, degrees in _log(g))


def _from_above(g):
    return g.start > g.high


READ_LOG = Exercise(
    id="02.read-a-log",
    title="Read a log",
    prompt="""A seeded bowl of dark couverture cools on the bench. Somebody wrote down its temperature every {every}.
        The working band is {low} to {high}. For how long did the bowl stand inside it?
        Read between the rows: the bowl does not jump from one reading to the next.""",
    answer=lambda g: probelog.minutes_between(_table(g), g.low, g.high),
    unit="min",
    resolution=1,
    because="the clock was read to the minute",
    sane=(2, 240),
    hint="Find when it falls through {high} and when it falls through {low}; both may lie between two rows.",
    lets={
        "low": lambda g: chocolate.band("dark")[2][0],
        "high": lambda g: chocolate.band("dark")[2][1],
        "rows_inside": lambda g: _rows_inside(g),
        "enters": lambda g: Q(
            (g.start - g.high).m_as("delta_degC") / g.fall.m_as("delta_degC") * g.every.m_as("min"), "min"
        ),
        "leaves": lambda g: Q(
            (g.start - g.low).m_as("delta_degC") / g.fall.m_as("delta_degC") * g.every.m_as("min"), "min"
        ),
    },
    supposes={"the first reading lies above the band": _from_above},
    slips=(
        Slip(
            "rows counted",
            lambda g: g.rows_inside * g.every,
            "You counted the readings inside, {rows_inside}, and gave each {every}. Time runs between readings, not on them.",
        ),
        Slip(
            "gaps counted",
            lambda g: (g.rows_inside - 1) * g.every,
            "You counted only gaps with both ends inside. The bowl is inside for a part of a gap with one end outside as well.",
        ),
        Slip(
            "from the start",
            lambda g: g.leaves,
            "That is when it left the band, counted from the first reading. It was above the band until {enters}.",
            fits=_from_above,
        ),
    ),
    steps=(
        "It falls through {high} after ({start:degC bare} − {high:degC bare}) ÷ {fall:delta_degC bare} × "
        "{every:min bare} = {enters:min}.",
        "It falls through {low} after ({start:degC bare} − {low:degC bare}) ÷ {fall:delta_degC bare} × "
        "{every:min bare} = {leaves:min}.",
        "The time inside is the difference: {leaves:min bare} − {enters:min bare} = {answer:min}.",
    ),
    table=lambda g: (
        ("minutes", "°C", "°F"),
        [(f"{m:g}", f"{c:.1f}", f"{1.8 * c + 32:.1f}") for m, c in _log(g)],
    ),
)
