"""From what an order takes to the steps of a lab day: filling made, shells cast, filled, capped and turned out, in batches."""

import math
from dataclasses import dataclass, replace

from pastrylab.ground import lab_tables
from pastrylab.ground.units import StudentError
from pastrylab.trade.planning.steps import DAY, After, Hold, Lab, Step

MACHINE = "tempering machine"
_NUTS = ("tree nuts", "peanuts")


@dataclass(frozen=True)
class Pace:
    """Minutes a pair takes for one mould, and rests: common practice, no source; one's own clock knows better.

    cast, fill, cap, out: for a mould; sets: a shell before it is filled, at least, and soon: at most; shut: a cap before it
    is turned out, at least. cleaning: a machine between two kinds; allergen_cleaning: after what leaves an allergen.

    >>> Pace().cast
    5
    """

    cast: int = 5
    fill: int = 5
    cap: int = 5
    out: int = 5
    sets: int = 20
    soon: int = 2 * DAY
    shut: int = 30
    cleaning: int = 15
    allergen_cleaning: int = 45


def steps_of(quantities, moulds_each=4, pace=None):
    """(steps, holds) of a lab day for some Quantities: every flavour in batches of at most `moulds_each` moulds.

    Each batch takes its moulds from its first casting until it is turned out; cast and capped in a machine. pace: a Pace.
    Raises StudentError for a batch of no mould.

    >>> from pastrylab.trade.orders.quantities import quantities
    >>> steps, holds = steps_of(quantities({"dark ganache": 96}))
    >>> [step.name for step in steps]
    ['make the filling: dark ganache', 'cast: dark ganache', 'fill: dark ganache', 'cap: dark ganache', 'turn out: dark ganache']
    """
    if moulds_each < 1 or moulds_each != int(moulds_each):
        raise StudentError(f"batches of {moulds_each} moulds", "at least one mould in a batch", "4")
    pace, steps, holds = pace or Pace(), [], []
    for one in quantities.flavours:
        made = f"make the filling: {one.name}" if one.filled else ""  # nothing to make: all of it was left over
        if made:
            steps.append(Step(made, one.flavour.make, job=one.name))
        count = math.ceil(one.fills / moulds_each)
        for number in range(count):
            moulds = one.fills // count + (number < one.fills % count)
            batch = one.name + (f", batch {number + 1} of {count}" if count > 1 else "")
            more = _batch(one, batch, moulds, made, pace)
            steps += more
            holds.append(Hold(one.mould, moulds, more[0].name, more[-1].name))
    return steps, tuple(holds)


def _batch(one, batch, moulds, made, pace):
    known, rested = one.flavour, (After(made, *one.flavour.rest),) if made else ()
    in_machine = {"machine": MACHINE, "kind": one.couverture, "allergens": left_behind(one.allergens)}
    cast, fill, cap, out = (f"{what}: {batch}" for what in ("cast", "fill", "cap", "turn out"))
    return [
        Step(cast, moulds * pace.cast, job=batch, **in_machine),
        Step(fill, moulds * pace.fill, (After(cast, pace.sets, pace.soon), *rested), job=batch),
        Step(cap, moulds * pace.cap, (After(fill, *known.crystal),), job=batch, **in_machine),
        Step(out, moulds * pace.out, (After(cap, pace.shut),), job=batch),
    ]


def left_behind(allergens):
    """What a flavour leaves in a machine, by the group's name: of "tree nuts (hazelnuts)" tree nuts.

    >>> sorted(left_behind({"milk", "tree nuts (hazelnuts)"}))
    ['milk', 'tree nuts']
    """
    return frozenset(next((nut for nut in _NUTS if one.startswith(nut)), one) for one in allergens)


def lab_of(pace=None):
    """The Lab of lab.csv. Raises StudentError naming the row whose hours cannot be read.

    >>> lab_of().machines[MACHINE]
    2
    """
    pace, rows = pace or Pace(), lab_tables.lab()
    sorts = ("pairs", "station", "machine", "thing")
    by_sort = {sort: {r["name"]: int(r["count"]) for r in rows if r["sort"] == sort} for sort in sorts}
    hours = sorted(_hours(row) for row in rows if row["sort"] == "day")
    return Lab(
        sum(by_sort["pairs"].values()),
        tuple(hours),
        by_sort["machine"],
        by_sort["thing"],
        pace.cleaning,
        pace.allergen_cleaning,
        stations=stations_of(by_sort["station"]),
    )


def stations_of(counts):
    """The places of {name: how many pairs work there} by name, numbered where several pairs share one.

    >>> stations_of({"island": 2, "window": 1})
    ('island 1', 'island 2', 'window')
    """
    return tuple(
        f"{name} {number}" if count > 1 else name for name, count in counts.items() for number in range(1, count + 1)
    )


def paired(students, lab):
    """The Lab with so many students at work in pairs, one of them a three where their number is odd.

    Raises StudentError for nobody, part of one, and for more pairs than there are stations.

    >>> paired(15, lab_of()).teams
    7
    """
    if students < 1 or students != int(students):
        raise StudentError(f"{students:g} students", "a whole number of them", "16")
    pairs, places = max(int(students) // 2, 1), len(lab.stations)
    if places and pairs > places:
        raise StudentError(
            f"{students:g} students in {pairs} pairs, and {places} stations",
            f"no more than {places} pairs: {2 * places + 1} students, or {3 * places} in threes",
            f"{2 * places} students, and the others in a section of their own",
        )
    return replace(lab, teams=pairs)


def _hours(row):
    start = (int(row["count"]) - 1) * DAY
    return tuple(start + _minutes(row[which], row["name"]) for which in ("opens", "closes"))


def _minutes(text, name):
    hour, _, minute = str(text).strip().partition(":")
    if not (hour.isdecimal() and minute.isdecimal() and len(minute) == 2 and int(hour) < 25 and int(minute) < 60):
        raise StudentError(f"'{text}' for the hours of {name}", "hours and minutes", "8:00")
    return int(hour) * 60 + int(minute)
