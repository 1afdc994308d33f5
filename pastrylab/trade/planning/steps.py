"""What a lab day is made of: steps with their rests, what they take up, and the lab they happen in.

Times are whole minutes; in a plan they count from midnight before the first day.
"""

import graphlib
from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from pastrylab.ground.units import StudentError

DAY = 24 * 60


@dataclass(frozen=True)
class After:
    """A step that has to be over first: from its end at `least` so many minutes of rest, and at `most` so many (None: as
    long as one likes).

    >>> After("boil the cream", least=0, most=30).most
    30
    """

    step: str
    least: int = 0
    most: int | None = None


@dataclass(frozen=True)
class Step:
    """One thing to do. minutes: how long. teams: how many stand by all the while (0: it sets or rests by itself).

    machine: the sort of machine it takes up, and kind: what is in it then ("dark couverture"); allergens: what it leaves
    there. job: the flavour or batch it belongs to.

    >>> Step("cast the shells", 30, machine="tempering machine", kind="dark").teams
    1
    """

    name: str
    minutes: int
    after: tuple[After, ...] = ()
    teams: int = 1
    machine: str = ""
    kind: str = ""
    allergens: frozenset[str] = frozenset()
    job: str = ""


@dataclass(frozen=True)
class Hold:
    """So many of a thing (moulds, places in the cold) taken when the step `first` begins, free when `last` is over.

    >>> Hold("mould", 4, "cast the shells", "turn out").count
    4
    """

    thing: str
    count: int
    first: str
    last: str


@dataclass(frozen=True)
class Lab:
    """Who and what is there: teams, machines and things by their sort, `hours` as (opens, closes) for each day.

    cleaning: minutes between two kinds in one machine; allergen_cleaning: where what was in it leaves an allergen behind
    that the next may not have; last: allergens after which nothing without them goes into that machine on the same day.
    stations: the place of team 1, 2 ... by name; none where teams have no place of their own.

    >>> Lab(teams=10, hours=((8 * 60, 12 * 60),), machines={"tempering machine": 2}).machines["tempering machine"]
    2
    """

    teams: int
    hours: tuple[tuple[int, int], ...]
    machines: Mapping[str, int] = field(default_factory=lambda: MappingProxyType({}))
    things: Mapping[str, int] = field(default_factory=lambda: MappingProxyType({}))
    cleaning: int = 0
    allergen_cleaning: int = 0
    last: frozenset[str] = frozenset({"tree nuts", "peanuts"})
    stations: tuple[str, ...] = ()

    @property
    def end(self):
        """When the last day closes."""
        return self.hours[-1][1]

    def station(self, team):
        """The place of a team by its number from 1, "" where it has none of its own.

        >>> Lab(2, ((480, 720),), stations=("window", "island")).station(2)
        'island'
        """
        return self.stations[team - 1] if team <= len(self.stations) else ""


def checked(steps, holds, lab):
    """The steps in an order in which each comes after those it waits for. Raises StudentError for what no plan can mend.

    That is: no step, a name twice or unknown, a circle, a rest longer than the lab is open for from its first hour to its
    last, more of anything at once than there is.

    >>> [one.name for one in checked([Step("fill", 10, (After("cast"),)), Step("cast", 10)], (), Lab(1, ((480, 720),)))]
    ['cast', 'fill']
    """
    _hours(lab)
    known = _by_name(steps)
    _rests(steps, known, lab)
    _counts(steps, holds, known, lab)
    return checked_order(steps)


def checked_order(steps):
    """The steps in an order in which each comes after those it waits for. Raises StudentError for none, one twice or
    unknown, and for a circle.

    >>> [one.name for one in checked_order([Step("fill", 10, (After("cast"),)), Step("cast", 10)])]
    ['cast', 'fill']
    """
    known = _by_name(steps)
    for step in steps:
        for after in step.after:
            if after.step not in known:
                raise _unknown(f"{step.name} after {after.step}", known)
    try:
        order = graphlib.TopologicalSorter({s.name: [a.step for a in s.after] for s in steps}).static_order()
        return [known[name] for name in order]
    except graphlib.CycleError as error:
        circle = " waits for ".join(reversed(error.args[1]))
        raise StudentError(
            f"a circle of steps: {circle}", "steps of which one can be the first", "cast, then fill, then cap"
        ) from None


def _hours(lab):
    if not lab.hours:
        raise StudentError("no hour in which the lab is open", "at least one day", "8:00 to 12:00")
    if lab.teams < 1:
        raise StudentError("nobody to do it", "at least one person or pair", "10 pairs")
    if lab.stations and lab.teams > len(lab.stations):
        raise StudentError(
            f"{lab.teams} pairs and {len(lab.stations)} stations",
            f"a station for each pair: {lab.teams - len(lab.stations)} would have none",
            f"{len(lab.stations)} pairs, threes among them; two sections; or one more station",
        )
    closed = 0
    for opens, closes in lab.hours:
        if opens < closed or closes <= opens:
            raise StudentError(
                f"hours from {clock(opens)} to {clock(closes)}",
                "days one after the other, each closing after it opens",
                "8:00 to 12:00",
            )
        closed = closes


def _by_name(steps):
    known = {}
    for step in steps:
        if step.name in known:
            raise StudentError(f"{step.name} twice", "a name of its own for each step", f"{step.name}, second batch")
        if step.minutes < 1:
            raise StudentError(f"{step.minutes} minutes for {step.name}", "at least one minute", "20 min")
        known[step.name] = step
    if not known:
        raise StudentError("no step", "at least one step to plan", "cast the shells, 30 min")
    return known


def _unknown(given, known):
    return StudentError(given, "a step that is in the plan", ", ".join(list(known)[:4]))


def _rests(steps, known, lab):
    whole = lab.end - lab.hours[0][0]
    for step in steps:
        for after in step.after:
            if after.step not in known:
                raise _unknown(f"{step.name} after {after.step}", known)
            if after.most is not None and after.most < after.least:
                raise StudentError(
                    f"at least {span(after.least)} and at most {span(after.most)} between {after.step} and {step.name}",
                    "a least rest no longer than the most",
                    f"at least {span(after.most)}, at most {span(after.least)}",
                )
            if known[after.step].minutes + after.least + step.minutes > whole:
                raise StudentError(
                    f"{after.step}, {span(after.least)} of rest and {step.name}",
                    f"no more than the {span(whole)} from the first hour to the last",
                    "a shorter rest, or a day more",
                )


def _counts(steps, holds, known, lab):
    longest = max(closes - opens for opens, closes in lab.hours)
    for step in steps:
        if step.teams > lab.teams:
            raise StudentError(
                f"{step.teams} at once for {step.name}", f"at most {lab.teams}", "fewer hands, or more people"
            )
        if step.machine and not lab.machines.get(step.machine):
            raise StudentError(f"{step.name}, which takes a {step.machine}", "one in the lab", f"1 {step.machine}")
        if step.teams and step.minutes > longest:
            raise StudentError(
                f"{span(step.minutes)} for {step.name}",
                f"no more than the {span(longest)} of the longest day",
                "two steps of half the length",
            )
    for hold in holds:
        for name in (hold.first, hold.last):
            if name not in known:
                raise _unknown(f"{hold.thing} held for {name}", known)
        there = lab.things.get(hold.thing, 0)
        if hold.count > there:
            raise StudentError(
                f"{hold.count} of {hold.thing} at once for {known[hold.first].name}",
                f"no more than there are: {there}",
                f"two batches of {max(there, 1)}",
            )


def clock(minutes):
    """A time of a plan as people say it: "9:05", from the second day on "day 2, 9:05".

    >>> clock(545), clock(DAY + 545)
    ('9:05', 'day 2, 9:05')
    """
    day, rest = divmod(int(minutes), DAY)
    time = f"{rest // 60}:{rest % 60:02d}"
    return time if not day else f"day {day + 1}, {time}"


def times(begins, ends):
    """From when to when, the day said once: "9:05 to 9:20", "day 2, 9:05 to 9:20".

    >>> times(DAY + 545, DAY + 560), times(545, DAY + 560)
    ('day 2, 9:05 to 9:20', '9:05 to day 2, 9:20')
    """
    return f"{clock(begins)} to {clock(ends % DAY if begins // DAY == ends // DAY else ends)}"


def span(minutes):
    """Minutes as people say them: "45 min", "2 h", "1 h 20 min".

    >>> span(45), span(120), span(80)
    ('45 min', '2 h', '1 h 20 min')
    """
    hours, rest = divmod(int(minutes), 60)
    if not hours:
        return f"{rest} min"
    return f"{hours} h" + (f" {rest} min" if rest else "")
