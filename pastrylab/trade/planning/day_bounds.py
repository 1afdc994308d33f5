"""How short a day can be at the least, told to the solver: what each machine and all hands do in it, with the work that must
come before and after on the same day. Says nothing new; with it a plan for the shortest day is proved nearer to the best.
"""

from dataclasses import dataclass


@dataclass(frozen=True)
class Around:
    """Of a step on a day: minutes of work and rest that must come before it (`head`) and after it (`tail`) on that day.

    >>> Around(0, 35).tail
    35
    """

    head: int
    tail: int


def possible_days(order, lab):
    """{name: numbers of the days, from 0, on which a step can be} by its rests and the hours; of steps with hands only.

    order: steps, each after those it waits for.

    >>> from pastrylab.trade.planning.steps import After, Lab, Step
    >>> steps = [Step("fill", 30), Step("cap", 30, (After("fill", least=720),))]
    >>> possible_days(steps, Lab(1, ((480, 720), (1920, 2160))))
    {'fill': [0], 'cap': [1]}
    """
    known, early, late = {s.name: s for s in order}, {}, {s.name: lab.end for s in order}
    for step in order:
        ready = max((early[a.step] + known[a.step].minutes + a.least for a in step.after), default=0)
        fits = [max(o, ready) for o, c in lab.hours if max(o, ready) + step.minutes <= c]
        early[step.name] = min(fits, default=ready) if step.teams else max(ready, lab.hours[0][0])
    for step in reversed(order):
        fits = [min(c, late[step.name]) for o, c in lab.hours if min(c, late[step.name]) - step.minutes >= o]
        late[step.name] = max(fits, default=late[step.name]) if step.teams else late[step.name]
        for after in step.after:
            late[after.step] = min(late[after.step], late[step.name] - step.minutes - after.least)
    return {
        s.name: [
            day
            for day, (opens, closes) in enumerate(lab.hours)
            if max(opens, early[s.name]) + s.minutes <= min(closes, late[s.name])
        ]
        for s in order
        if s.teams
    }


def around(order, lab):
    """{(name, day): Around} of every step with hands on each day on which it can be.

    What waits for it counts where it cannot be on another day: by its rests at most, or because it has no other.

    >>> from pastrylab.trade.planning.steps import After, Lab, Step
    >>> steps = [Step("fill", 30), Step("cap", 20, (After("fill", 60, 120),))]
    >>> around(steps, Lab(1, ((480, 720), (1920, 2160))))["fill", 0]
    Around(head=0, tail=80)
    """
    days, known = possible_days(order, lab), {s.name: s for s in order}
    heads, tails = {}, {}
    for step in order:
        for day in days.get(step.name, ()):
            heads[step.name, day] = max(
                (
                    heads[a.step, day] + known[a.step].minutes + a.least
                    for a in step.after
                    if _together(a, a.step, day, days, lab)
                ),
                default=0,
            )
    for step in reversed(order):
        for day in days.get(step.name, ()):
            for after in step.after:
                if _together(after, step.name, day, days, lab):
                    tail = after.least + step.minutes + tails.get((step.name, day), 0)
                    key = after.step, day
                    tails[key] = max(tails.get(key, 0), tail)
    return {key: Around(head, tails.get(key, 0)) for key, head in heads.items()}


def _together(after, other, day, days, lab):
    """Whether the `other` step of a rest must be on that day, its partner being there."""
    if after.step not in days or day not in days.get(other, ()):
        return False
    before = other == after.step
    if min(days[other]) >= day if before else max(days[other]) <= day:
        return True
    if after.most is None:
        return False
    opens, closes = lab.hours[day]
    return lab.hours[day - 1][1] < opens - after.most if before else closes + after.most < lab.hours[day + 1][0]


def add(model, steps, lengths):
    """Tell a Model how long each day is at least. lengths: its variable of each day, in units of the grid.

    >>> from pastrylab.trade.planning.model import build
    >>> from pastrylab.trade.planning.steps import Lab, Step
    >>> model = build([Step("cast", 30)], (), Lab(1, ((480, 720),)))
    >>> length = model.cp.new_int_var(0, 8, "length")
    >>> before = len(model.cp.proto.constraints)
    >>> add(model, [Step("cast", 30)], [length])
    >>> len(model.cp.proto.constraints) > before
    True
    """
    if model.fixed or not model.strict:
        return
    found = around(steps, model.lab)
    by_hand = [s for s in steps if s.teams]
    groups = [([s for s in by_hand if s.machine == sort], there, False) for sort, there in model.lab.machines.items()]
    groups.append((by_hand, model.lab.teams, True))
    for day, length in enumerate(lengths):
        for group, there, hands in groups:
            here = {s: found[s.name, day] for s in group if (s.name, day) in found}
            for head, tail in {(one.head, one.tail) for one in here.values()} | {(0, 0)}:
                inside = [s for s, one in here.items() if one.head >= head and one.tail >= tail]
                if not head + tail or any(_sure(s, found) for s in inside):
                    work = sum(
                        s.minutes // model.grid * (s.teams if hands else 1) * model.on_day[s.name][day] for s in inside
                    )
                    model.cp.add(work + there * ((head + tail) // model.grid) <= there * length)


def _sure(step, found):
    """Whether there is one day only on which a step can be."""
    return sum(name == step.name for name, _ in found) == 1
