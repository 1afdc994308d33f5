"""How late each step of a plan may begin while all others stand as they are: what a bench sheet says beside it."""

from pastrylab.trade.planning.teams import by_team


def spare(plan, holds=()):
    """{name: minutes} that each step of a Plan may begin later with no other step moved.

    Counted are the rests (least and most), its machine and the cleaning after it, the hands of its pair, moulds that others
    wait for (holds: as the plan was made with), and the hours. 0: who is late there tells at once.

    >>> from pastrylab.trade.planning.plan import make_plan
    >>> from pastrylab.trade.planning.steps import After, Lab, Step
    >>> steps = [Step("cast", 30), Step("boil", 10), Step("fill", 20, (After("cast", 15), After("boil", 0)))]
    >>> plan = make_plan(steps, (), Lab(3, ((480, 720),)))
    >>> spare(plan)["fill"], spare(plan)["cast"]
    (0, 0)
    """
    ends = {one.step.name: [plan.lab.end, *_closing(one, plan.lab)] for one in plan.placed}
    _rests(plan, ends)
    _machines(plan, ends)
    _hands(plan, ends)
    _things(plan, holds, ends)
    return {one.step.name: max(min(ends[one.step.name]) - one.ends, 0) for one in plan.placed}


def _closing(one, lab):
    return [closes for opens, closes in lab.hours if one.step.teams and opens <= one.begins < closes]


def _rests(plan, ends):
    for one in plan.placed:
        for after in one.step.after:
            ends[after.step].append(one.begins - after.least)
            if after.most is not None:
                ends[one.step.name].append(plan.of(after.step).ends + after.most + one.step.minutes)


def _machines(plan, ends):
    for one in plan.placed:
        for then in plan.placed:
            alike = one.machine and (then.step.machine, then.machine) == (one.step.machine, one.machine)
            if alike and then.begins >= one.ends and then is not one:
                ends[one.step.name].append(then.cleaned_from if then.cleaning else then.begins)


def _hands(plan, ends):
    for tasks in by_team(plan).values():
        for task, then in zip(tasks, tasks[1:], strict=False):
            if not task.cleans:
                ends[task.placed.step.name].append(then.begins)


def _things(plan, holds, ends):
    for hold in holds:
        over = plan.of(hold.last).ends
        for other in holds:
            begins = plan.of(other.first).begins
            if other is hold or other.thing != hold.thing or begins < over:
                continue
            taken = sum(
                h.count
                for h in holds
                if h.thing == hold.thing and h is not hold and plan.of(h.first).begins <= begins < plan.of(h.last).ends
            )
            if taken + hold.count > plan.lab.things[hold.thing]:
                ends[hold.last].append(begins)
