"""The rules of a lab day as a model for OR-Tools' CP-SAT: starts to be found, and what each rule forbids.

Every rule that could be the one that clashes hangs on a literal of its own (`given`): with it true, the lab is as it is.
What the lab might be given more of is an `extra`: nothing while its literal holds.
"""

import math
from dataclasses import dataclass, field

from ortools.sat.python import cp_model

from pastrylab.trade.planning import machines
from pastrylab.trade.planning.steps import Lab

MOST_LONGER = 240  # minutes a day may open earlier or close later when the smallest change is looked for
MORE_TEAMS = 20


@dataclass
class Extra:
    """What there could be more of: its variable, the literal under which it is 0, and what one of it is called.

    sort: "teams", "machine", "thing" or "hours"; name: of what, for hours (day, "earlier" or "later"); unit: minutes or things to one of the variable.
    """

    sort: str
    name: str
    variable: cp_model.IntVar
    given: cp_model.IntVar
    unit: int = 1


@dataclass
class Model:
    """A CP-SAT model and the variables by step name. Times are in units of `grid` minutes."""

    lab: Lab
    grid: int
    cp: cp_model.CpModel = field(default_factory=cp_model.CpModel)
    start: dict = field(default_factory=dict)
    end: dict = field(default_factory=dict)
    on_day: dict = field(default_factory=dict)
    extras: list = field(default_factory=list)
    rules: list = field(default_factory=list)  # (literal, step waiting, After): a rest that may be the clash
    last_rule: object = None
    peak: object = None
    busy: list = field(default_factory=list)  # (interval of hands, how many teams it takes)
    sorts: dict = field(default_factory=dict)  # machines: {sort: steps that use it}
    on_machine: dict = field(default_factory=dict)
    open: list = field(default_factory=list)  # (opens, closes) of each day, with what it might be longer
    followed: dict = field(default_factory=dict)  # name: [(literal, units of cleaning, step before it)]
    cleaning: dict = field(default_factory=dict)  # name: (literal, its begin, its length, literals of its day)
    now: int | None = None
    strict: bool = True
    fixed: dict = field(default_factory=dict)

    @property
    def longer(self):
        """Units of the grid that a day may be longer."""
        return 0 if self.strict else MOST_LONGER // self.grid

    def extra(self, sort, name, most, unit=1):
        """A new Extra of at most `most`; of nothing in a strict model, which is asked first and solved faster."""
        if self.strict:
            return Extra(sort, name, 0, None, unit)
        label = f"{sort} {name}"
        found = Extra(sort, name, self.cp.new_int_var(0, most, label), self.cp.new_bool_var(f"no more {label}"), unit)
        self.cp.add(found.variable == 0).only_enforce_if(found.given)
        self.extras.append(found)
        return found

    def interval(self, step):
        """The time a step takes, as an interval."""
        return self.cp.new_interval_var(
            self.start[step.name], step.minutes // self.grid, self.end[step.name], step.name
        )

    @property
    def givens(self):
        """The literals of all that could clash."""
        rules = [literal for literal, *_ in self.rules]
        return [e.given for e in self.extras] + rules + ([self.last_rule] if self.last_rule is not None else [])


def grid_of(steps, lab, fixed=()):
    """The largest number of minutes that divides every length, rest and hour: the grid on which nothing is rounded.

    >>> from pastrylab.trade.planning.steps import Step
    >>> grid_of([Step("cast", 30), Step("cap", 25)], Lab(1, ((480, 720),)))
    5
    """
    times = [s.minutes for s in steps] + [t for day in lab.hours for t in day] + [lab.cleaning, lab.allergen_cleaning]
    times += [a.least for s in steps for a in s.after] + [a.most for s in steps for a in s.after if a.most is not None]
    return math.gcd(*times, *fixed) or 1


def build(steps, holds, lab, now=None, fixed=None, kept=None, *, strict=True, cleaners=False):
    """The Model of a day. steps: in order, as steps.checked gives them; now: nothing begins before; fixed: {name: start}
    of what has begun already; kept: {name: number of its machine}; strict: nothing more than there is, no rule on a literal.
    cleaners: whether somebody must be free to clean the machines.

    >>> from pastrylab.trade.planning.steps import Step
    >>> build([Step("cast", 30)], (), Lab(1, ((480, 720),))).grid
    30
    """
    fixed = fixed or {}
    times = [*fixed.values(), *([now] if now is not None else [])]
    model = Model(lab, grid_of(steps, lab, times), now=now, strict=strict, fixed=fixed)
    for step in steps:
        _place(model, step)
    for step in steps:
        for after in step.after:
            _rest(model, step, after)
    _hours(model, steps)
    _teams(model, steps)
    _things(model, holds)
    machines.add(model, steps)
    if cleaners:
        machines.add_cleaning(model)
    model.cp.add_cumulative([i for i, _ in model.busy], [n for _, n in model.busy], model.peak)
    for name, number in (kept or {}).items():
        if number:
            model.cp.add(model.on_machine[name][number - 1] == 1)
    return model


def _place(model, step):
    grid, lab = model.grid, model.lab
    length = step.minutes // grid
    low = max(lab.hours[0][0] // grid - model.longer, (model.now or 0) // grid, 0)
    high = lab.end // grid + model.longer
    if step.name in model.fixed:
        low = high = model.fixed[step.name] // grid
    model.start[step.name] = model.cp.new_int_var(low, high, f"start of {step.name}")
    model.end[step.name] = model.start[step.name] + length


def _rest(model, step, after):
    if step.name in model.fixed and after.step in model.fixed:
        return
    gap = model.start[step.name] - model.end[after.step]
    model.cp.add(gap >= after.least // model.grid)
    if after.most is not None:
        soon = model.cp.add(gap <= after.most // model.grid)
        if not model.strict:
            literal = model.cp.new_bool_var(f"{step.name} soon after {after.step}")
            soon.only_enforce_if(literal)
            model.rules.append((literal, step, after))


def _hours(model, steps):
    """Hands work within one day's hours; nothing, attended or not, ends after the last hour."""
    cp, grid = model.cp, model.grid
    days = range(len(model.lab.hours))
    gap = [model.extra("hours", (day, "earlier"), MOST_LONGER // grid, grid) for day in days]
    late = [model.extra("hours", (day, "later"), MOST_LONGER // grid, grid) for day in days]
    for step in steps:
        if step.name in model.fixed:
            continue
        cp.add(model.end[step.name] <= model.lab.end // grid + late[-1].variable)
        cp.add(model.start[step.name] >= model.lab.hours[0][0] // grid - gap[0].variable)
        if not step.teams:
            continue
        here = [cp.new_bool_var(f"{step.name} on day {day}") for day in days]
        cp.add_exactly_one(here)
        for day, literal in zip(days, here, strict=True):
            opens, closes = (time // grid for time in model.lab.hours[day])
            cp.add(model.start[step.name] >= opens - gap[day].variable).only_enforce_if(literal)
            cp.add(model.end[step.name] <= closes + late[day].variable).only_enforce_if(literal)
        model.on_day[step.name] = here
    model.open = [
        (h[0] // grid - e.variable, h[1] // grid + more.variable)
        for h, e, more in zip(model.lab.hours, gap, late, strict=True)
    ]


def _teams(model, steps):
    extra = model.extra("teams", "", MORE_TEAMS)
    model.peak = model.cp.new_int_var(0, model.lab.teams + MORE_TEAMS, "most teams busy at once")
    by_hand = [s for s in steps if s.teams and not _over(model, s)]
    model.busy = [(model.interval(s), s.teams) for s in by_hand]
    model.cp.add(model.peak <= model.lab.teams + extra.variable)


def _over(model, step):
    """Whether a step ended before now: then nobody stands at it any more."""
    return step.name in model.fixed and model.fixed[step.name] + step.minutes <= (model.now or 0)


def _things(model, holds):
    by_thing = {}
    for hold in holds:
        by_thing.setdefault(hold.thing, []).append(hold)
    reach = (model.lab.end + MOST_LONGER) // model.grid
    for thing, held in by_thing.items():
        extra = model.extra("thing", thing, sum(h.count for h in held))
        spans = []
        for number, hold in enumerate(held):
            length = model.cp.new_int_var(0, 2 * reach, f"{thing} {number}")
            first, last = model.start[hold.first], model.end[hold.last]
            spans.append(model.cp.new_interval_var(first, length, last, f"{thing} {number}"))
        model.cp.add_cumulative(spans, [h.count for h in held], model.lab.things[thing] + extra.variable)
