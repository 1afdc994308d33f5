"""What holds a day up: the float of steps by the critical path method, and the chain of a plan that leaves no minute.

The critical path method knows only what waits for what. In a lab the machine, the pair and the hours hold a step up as
well, so that a plan's own chain is another thing, and the one to watch on the day.
"""

from dataclasses import dataclass

from pastrylab.trade.planning.machines import between
from pastrylab.trade.planning.steps import DAY, checked_order, clock, span


@dataclass(frozen=True)
class Times:
    """Earliest and latest start of a step, minutes from the start of the whole, and its float: how late it may be without
    making the whole longer.

    >>> Times(0, 15).float
    15
    """

    earliest: int
    latest: int

    @property
    def float(self):
        return self.latest - self.earliest


def critical_path(steps):
    """{name: Times} by the critical path method: as if there were hands, machines and hours enough.

    Forwards: a step begins at the latest end, rest included, of those it waits for. Backwards: it ends when the first that
    waits for it must begin. Steps without float are critical. Source: Kelley and Walker 1959, Critical-path planning and
    scheduling, from memory. Raises StudentError for a circle.

    >>> from pastrylab.trade.planning.steps import After, Step
    >>> found = critical_path([Step("cast", 30), Step("boil", 10), Step("fill", 20, (After("cast", 15), After("boil", 20)))])
    >>> found["boil"].float, [name for name, times in found.items() if not times.float]
    (15, ['cast', 'fill'])
    """
    order, early = checked_order(steps), {}
    for step in order:
        ready = [early[a.step] + _length(order, a.step) + a.least for a in step.after]
        early[step.name] = max(ready, default=0)
    whole = max(early[s.name] + s.minutes for s in order)
    late = {step.name: whole - step.minutes for step in order}
    for step in reversed(order):
        for after in step.after:
            before = late[step.name] - after.least - _length(order, after.step)
            late[after.step] = min(late[after.step], before)
    return {step.name: Times(early[step.name], late[step.name]) for step in order}


def _length(order, name):
    return next(step.minutes for step in order if step.name == name)


@dataclass(frozen=True)
class Link:
    """One step of a plan's chain: `placed`, and in words why it could not begin before, "" for the first.

    >>> from pastrylab.trade.planning.placed import Placed
    >>> from pastrylab.trade.planning.steps import Step
    >>> str(Link(Placed(Step("fill", 20), 525, 545), "cast has to rest 15 min"))
    '8:45 to 9:05 fill: cast has to rest 15 min'
    """

    placed: object
    why: str = ""

    def __str__(self):
        return f"{self.placed}: {self.why}" if self.why else str(self.placed)


def chain(plan):
    """The chain of a Plan from its first step to its last end in which each begins as soon as what it waited for let it: a
    tuple of Link. A minute lost on it is a minute later in the end, or a rest cut short.

    Where several held a step up, the one that began last before it is told. Where nothing did, there was room: the chain
    begins there.

    >>> from pastrylab.trade.planning.plan import make_plan
    >>> from pastrylab.trade.planning.steps import After, Lab, Step
    >>> steps = [Step("cast", 30), Step("fill", 20, (After("cast", least=15),))]
    >>> [str(link) for link in chain(make_plan(steps, (), Lab(1, ((480, 720),))))]
    ['10:55 to 11:25 cast', '11:40 to 12:00 fill: cast has to rest 15 min']
    """
    return _chain_to(plan, max(plan.placed, key=_last))


def chains(plan):
    """{day: the chain of links that ends when the last hand of that day is done}, days from 1 as people count them: what holds
    each day up. A day whose chain is part of a later day's is left to that one.

    >>> from pastrylab.trade.planning.plan import make_plan
    >>> from pastrylab.trade.planning.steps import After, Lab, Step
    >>> steps = [Step("fill", 30), Step("cap", 20, (After("fill", least=720),))]
    >>> plan = make_plan(steps, (), Lab(1, ((480, 720), (1920, 2160))))
    >>> {day: [link.placed.step.name for link in links] for day, links in chains(plan).items()}
    {1: ['fill'], 2: ['cap']}
    """
    found = {}
    for opens, closes in plan.lab.hours:
        here = [p for p in plan.placed if p.step.teams and opens <= p.begins < closes]
        if here:
            found[opens // DAY + 1] = _chain_to(plan, max(here, key=_last))
    whole = {day: {link.placed.step.name for link in links} for day, links in found.items()}
    return {
        day: links
        for day, links in found.items()
        if not any(whole[day] <= whole[other] for other in found if other > day)
    }


def _last(placed):
    return placed.ends, placed.begins


def _chain_to(plan, one):
    found = []
    while True:
        held = [(before.begins, before, why) for before, why in _held_up_by(plan, one)]
        if not held:
            return (Link(one), *reversed(found))
        _, before, why = max(held, key=lambda h: h[0])
        found.append(Link(one, why))
        one = before


def _held_up_by(plan, one):
    """(placed, why) of everything that ended just when `one` could begin."""
    yield from _rests(plan, one)
    yield from _same_machine(plan, one)
    busy = [p for p in plan.placed if p.step.teams and p.begins < one.begins <= p.ends]
    if one.step.teams and sum(p.step.teams for p in busy) + one.step.teams > plan.lab.teams:
        for p in busy:
            if p.ends == one.begins:
                yield p, f"everybody is busy, with {p.step.name} among others"
    if one.step.teams and one.begins in {opens for opens, _ in plan.lab.hours}:
        for after in one.step.after:
            p = plan.of(after.step)
            if p.ends // DAY < one.begins // DAY and p.ends + after.least <= one.begins:
                yield p, f"nobody is there between {clock(p.ends)} and {clock(one.begins)}"


def _rests(plan, one):
    for after in one.step.after:
        p = plan.of(after.step)
        if p.ends + after.least == one.begins:
            yield p, f"{after.step} has to rest {span(after.least)}" if after.least else f"{after.step} has to be done"


def _same_machine(plan, one):
    for p in plan.placed:
        if not one.machine or (p.step.machine, p.machine) != (one.step.machine, one.machine) or p is one:
            continue
        clean = between(p.step, one.step, plan.lab, night=True)
        if p.ends <= one.begins == p.ends + clean:
            yield p, f"its {one.step.machine} is in use" + (f", and then cleaned for {span(clean)}" if clean else "")
