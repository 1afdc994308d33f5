"""A plan of a lab day: when each step begins, in which machine, and how near to the best there is."""

import time
from collections.abc import Mapping
from dataclasses import dataclass

from pastrylab.ground.units import StudentError
from pastrylab.trade.planning.placed import Placed
from pastrylab.trade.planning.steps import Lab, checked, clock, span

AIMS = {
    "latest start": "the first step begins as late as it can",
    "shortest day": "everybody is there for as short as can be",
    "evenest work": "as few as can be are busy at once",
}
SECONDS = 10.0


@dataclass(frozen=True)
class Plan:
    """Every step placed, by when it begins. aim: what was asked for; value: what was reached, minutes (or teams at once);
    bound: what no plan can better. `proof` says in words how near to the best it is.

    >>> from pastrylab.trade.planning.steps import After, Step
    >>> steps = [Step("cast", 30), Step("fill", 20, (After("cast", least=15),))]
    >>> [str(one) for one in make_plan(steps, (), Lab(1, ((480, 720),))).placed]
    ['10:55 to 11:25 cast', '11:40 to 12:00 fill']
    """

    placed: tuple[Placed, ...]
    lab: Lab
    aim: str
    value: int
    bound: int
    seconds: float

    @property
    def begins(self):
        return min(one.begins for one in self.placed)

    @property
    def ends(self):
        return max(one.ends for one in self.placed)

    @property
    def proof(self):
        if self.value == self.bound:
            return "Proved best: no plan does better."
        if self.aim == "latest start":
            return f"No plan begins more than {span(self.bound - self.value)} later."
        within = 100 * (self.value - self.bound) / max(self.value, 1)
        return f"Within {max(within, 0.1):.2g} % of the best there can be."

    def of(self, name):
        """The Placed of a step. Raises StudentError for one that is not in the plan."""
        for one in self.placed:
            if one.step.name == name:
                return one
        raise StudentError(f"{name}", "a step of this plan", self.placed[0].step.name)


def make_plan(steps, holds, lab, aim="latest start", seconds=SECONDS):
    """A Plan of all steps, or a NoPlan that says what clashes and what the smallest change would be.

    steps: Step; holds: Hold; lab: Lab; aim: one of AIMS; seconds: the longest it may take. Raises StudentError for steps
    and labs that no plan can mend (steps.checked), for an unknown aim, and where the time was too short to tell.

    >>> from pastrylab.trade.planning.steps import Step
    >>> found = make_plan([Step("cast", 90), Step("wash", 60)], (), Lab(1, ((480, 600),)))
    >>> [(change.sort, sum(change.more.values())) for change in found.changes]
    [('hours', 30), ('teams', 1)]
    """
    return _planned(checked(steps, holds, lab), holds, lab, aim, seconds, None, None)


def plan_again(plan, holds, now, begun, aim=None, seconds=SECONDS):
    """A plan of what is left at `now`, with what is done as it was: a Plan or a NoPlan.

    now: minutes from midnight before the first day; begun: {name: when it began} of all that is over or under way. What
    has begun stays in its machine. Raises StudentError for a step that is not in the plan, or that began after now.

    >>> from pastrylab.trade.planning.steps import Step
    >>> steps = [Step("cast", 30), Step("wash", 20)]
    >>> late = plan_again(make_plan(steps, (), Lab(1, ((480, 720),))), (), 660, {"cast": 650})
    >>> [str(one) for one in late.placed]
    ['10:50 to 11:20 cast', '11:40 to 12:00 wash']
    """
    for name, start in begun.items():
        plan.of(name)
        if start > now:
            raise StudentError(f"{name} begun at {clock(start)}", f"a time before now, {clock(now)}", clock(now))
    kept = {name: plan.of(name).machine for name in begun}
    steps = checked([one.step for one in plan.placed], holds, plan.lab)
    return _planned(steps, holds, plan.lab, aim or plan.aim, seconds, now, (begun, kept))


def _planned(steps, holds, lab, aim, seconds, now, begun):
    from pastrylab.trade.planning import clash, solving  # OR-Tools: only where planning happens

    if aim not in AIMS:
        raise StudentError(f"{aim} to plan for", "one of: " + ", ".join(AIMS), "latest start")
    began = time.monotonic()
    past = (now, *(begun or ({}, {})))
    found = solving.best(steps, holds, lab, aim, seconds, past)
    if found is None:
        return clash.no_plan(steps, holds, lab, past, max(seconds - (time.monotonic() - began), 1.0))
    return Plan(found.placed, lab, aim, found.value, found.bound, time.monotonic() - began)


def by_machine(plan) -> Mapping[tuple[str, int], tuple[Placed, ...]]:
    """The placed steps of each machine, by (sort, number), in order.

    >>> from pastrylab.trade.planning.steps import Step
    >>> lab = Lab(2, ((480, 600),), machines={"bowl": 1})
    >>> plan = make_plan([Step("cast", 30, machine="bowl"), Step("cap", 30, machine="bowl")], (), lab)
    >>> [str(one.begins) for one in by_machine(plan)["bowl", 1]]
    ['540', '570']
    """
    found = {}
    for one in plan.placed:
        if one.machine:
            found.setdefault((one.step.machine, one.machine), []).append(one)
    return {key: tuple(placed) for key, placed in sorted(found.items())}
