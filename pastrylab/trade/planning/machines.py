"""Machines: one step at a time in each, room between two for the cleaning they need, nuts last.

Any two steps of one machine stand as far apart as the cleaning between them; since cleaning twice takes no less than
cleaning once, that says the same as for neighbours alone, and is solved far faster. Who does the cleaning is a matter of
neighbours: `row` adds that, where a plan without it finds no free hands.
"""

from pastrylab.trade.planning.steps import Step

_MORE = 2  # machines that could be borrowed when the smallest change is looked for


def between(first: Step, then: Step, lab, night=False):
    """Minutes of cleaning when `then` follows `first` in one machine; None where it may not follow at all.

    night: whether a night lies between. What leaves nuts behind is never followed by what is without them on one day; over
    night the machine is taken apart and washed, which takes allergen_cleaning.

    >>> from pastrylab.trade.planning.steps import Lab
    >>> between(Step("a", 5, kind="dark"), Step("b", 5, kind="milk"), Lab(1, ((0, 60),), cleaning=15))
    15
    """
    left = first.allergens - then.allergens
    if left & lab.last and not night:
        return None
    if left:
        return max(lab.allergen_cleaning, lab.cleaning)
    return lab.cleaning if first.kind != then.kind else 0


def add(model, steps):
    """Every step in one machine, every two of a machine apart. Fills model.on_machine: {name: {number: literal}}.

    >>> from pastrylab.trade.planning.model import build
    >>> from pastrylab.trade.planning.steps import Lab
    >>> len(build([Step("cast", 30, machine="bowl")], (), Lab(1, ((480, 600),), {"bowl": 2})).on_machine["cast"])
    2
    """
    sorts = {}
    for step in steps:
        if step.machine:
            sorts.setdefault(step.machine, []).append(step)
    for sort, using in sorts.items():
        there, more = model.lab.machines[sort], 0 if model.strict else _MORE
        extra = model.extra("machine", sort, more)
        for step in using:
            here = {n: model.cp.new_bool_var(f"{step.name} in {sort} {n}") for n in range(there + more)}
            model.cp.add_exactly_one(here.values())
            for borrowed in range(more):
                model.cp.add(extra.variable > borrowed).only_enforce_if(here[there + borrowed])
            model.on_machine[step.name] = here
        for number in range(there + more):
            _one_at_a_time(model, using, number)
        # Says nothing new; with it the solver sees sooner how little a machine can do in a day.
        spans = [model.interval(step) for step in using]
        model.cp.add_cumulative(spans, [1] * len(spans), there + extra.variable)
        for i, first in enumerate(using):
            for then in using[:i]:
                _apart(model, first, then)
    model.sorts = sorts


def _one_at_a_time(model, using, number):
    cp = model.cp
    cp.add_no_overlap(
        cp.new_optional_interval_var(
            model.start[s.name],
            s.minutes // model.grid,
            model.end[s.name],
            model.on_machine[s.name][number],
            f"{s.name} {number}",
        )
        for s in using
    )


def _apart(model, one, other):
    """Two steps with cleaning between them, whichever comes first, if they are in one machine."""
    if {one.name, other.name} <= model.fixed.keys():
        return
    cleanings = between(one, other, model.lab), between(other, one, model.lab)
    if cleanings == (0, 0):
        return
    first = model.cp.new_bool_var(f"{one.name} before {other.name}")
    for number, literal in model.on_machine[one.name].items():
        both = (literal, model.on_machine[other.name][number])
        _in_order(model, one, other, cleanings[0], (first, *both))
        _in_order(model, other, one, cleanings[1], (~first, *both))


def _in_order(model, one, then, clean, literals):
    if clean is None:
        _not_on_one_day(model, one, then, literals)
        clean = between(one, then, model.lab, night=True)
    model.cp.add(model.start[then.name] >= model.end[one.name] + clean // model.grid).only_enforce_if(*literals)


def _not_on_one_day(model, one, then, literals):
    if model.last_rule is None and not model.strict:
        model.last_rule = model.cp.new_bool_var("nuts last")
    never = [~literal for literal in literals] + ([] if model.strict else [~model.last_rule])
    days = zip(model.on_day.get(one.name, ()), model.on_day.get(then.name, ()), strict=False)
    together = [(~here, ~there) for here, there in days]
    for same_day in together or [()]:  # what nobody attends has no day: it counts as the same
        model.cp.add_bool_or([*never, *same_day])


def add_cleaning(model):
    """Somebody to clean before each step whose machine needs it: neighbours by a circuit a machine. Slow; see above.

    >>> from pastrylab.trade.planning.model import build
    >>> from pastrylab.trade.planning.steps import Lab
    >>> two = [Step(kind, 30, machine="bowl", kind=kind) for kind in ("dark", "milk")]
    >>> sorted(build(two, (), Lab(1, ((480, 600),), {"bowl": 1}, cleaning=20), cleaners=True).cleaning)
    ['dark', 'milk']
    """
    for sort, using in model.sorts.items():
        for number in next(iter(model.on_machine[s.name] for s in using)):
            _row(model, using, number, f"{sort} {number}")
        for step in using:
            if step.name in model.followed:
                _cleaned(model, step)


def _row(model, using, number, name):
    """One machine's circuit: from nothing through its steps to nothing."""
    cp = model.cp
    arcs = [(0, 0, cp.new_bool_var(f"{name} unused"))]
    for i, first in enumerate(using, start=1):
        arcs.append((i, i, ~model.on_machine[first.name][number]))
        arcs.append((0, i, cp.new_bool_var(f"{name} begins with {first.name}")))
        arcs.append((i, 0, cp.new_bool_var(f"{name} ends with {first.name}")))
        arcs += [(i, j, _follows(model, first, s, name)) for j, s in enumerate(using, start=1) if i != j]
    cp.add_circuit(arcs)


def _follows(model, first, then, name):
    literal = model.cp.new_bool_var(f"{name}: {then.name} after {first.name}")
    model.cp.add(model.start[then.name] >= model.end[first.name]).only_enforce_if(literal)
    clean = 0 if {first.name, then.name} <= model.fixed.keys() else between(first, then, model.lab, night=True)
    if clean:
        model.followed.setdefault(then.name, []).append((literal, clean // model.grid, first.name))
    return literal


def _cleaned(model, step):
    """Somebody's time before a step whose machine is cleaned for it, within one day's hours. Fills model.cleaning."""
    cp, before, reach = model.cp, model.followed[step.name], 2 * (model.lab.end // model.grid + model.longer)
    needed = cp.new_bool_var(f"cleaned before {step.name}")
    cp.add_bool_or([literal for literal, *_ in before]).only_enforce_if(needed)
    length = cp.new_int_var(0, max(size for _, size, _ in before), f"cleaning before {step.name}")
    begin = cp.new_int_var(0, reach, f"cleaning begins before {step.name}")
    finish = cp.new_int_var(0, reach, f"cleaned before {step.name}")
    today = [cp.new_bool_var(f"cleaned before {step.name} on day {day}") for day in range(len(model.open))]
    cp.add_exactly_one(today)
    for (opens, closes), literal in zip(model.open, today, strict=True):
        cp.add(begin >= opens).only_enforce_if(needed, literal)
        cp.add(finish <= closes).only_enforce_if(needed, literal)
    for literal, size, first in before:
        cp.add_implication(literal, needed)
        cp.add(length == size).only_enforce_if(literal)
        cp.add(begin >= model.end[first]).only_enforce_if(literal)
    cp.add(finish <= model.start[step.name]).only_enforce_if(needed)
    model.busy.append((cp.new_optional_interval_var(begin, length, finish, needed, f"clean before {step.name}"), 1))
    model.cleaning[step.name] = (needed, begin, length, today)
