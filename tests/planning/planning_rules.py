"""The rules of a lab day, once more and alone: told whether a list of starts keeps them. Knows nothing of a solver."""


def day_of(step, start, lab):
    """The day whose hours a step lies in; None for what nobody attends."""
    days = [day for day, (opens, closes) in enumerate(lab.hours) if opens <= start < closes]
    return days[0] if step.teams and days else None


def one_day(first, then, times, lab):
    days = {day_of(step, times[step.name], lab) for step in (first, then)}
    return len(days) == 1 or None in days


def cleaning_between(first, then, lab, same_day=False):
    if same_day and (first.allergens - then.allergens) & lab.last:
        return None
    if first.allergens - then.allergens:
        return max(lab.allergen_cleaning, lab.cleaning)
    return lab.cleaning if first.kind != then.kind else 0


def broken(times, machine, cleanings, steps, holds, lab):
    """Words for every rule broken. times: {name: start}; machine: {name: number}; cleanings: [(begin, end)]."""
    by_name = {step.name: step for step in steps}
    end = {name: start + by_name[name].minutes for name, start in times.items()}
    found = [f"{name} is not placed" for name in by_name if name not in times]
    for step in steps:
        for after in step.after:
            gap = times[step.name] - end[after.step]
            if gap < after.least or (after.most is not None and gap > after.most):
                found.append(f"{step.name} {gap} min after {after.step}")
        hours = lab.hours if step.teams else ((lab.hours[0][0], lab.hours[-1][1]),)
        if not any(opens <= times[step.name] and end[step.name] <= closes for opens, closes in hours):
            found.append(f"{step.name} outside the hours")
    hands = [(times[s.name], end[s.name], s.teams) for s in steps] + [(begin, stop, 1) for begin, stop in cleanings]
    found += _too_many("teams", hands, lab.teams)
    found += [f"{h.thing} free before it is taken" for h in holds if end[h.last] < times[h.first]]
    for thing, count in lab.things.items():
        held = [(times[h.first], end[h.last], h.count) for h in holds if h.thing == thing]
        found += _too_many(thing, held, count)
    return found + _machines(times, end, machine, steps, lab)


def _too_many(what, spans, there):
    found = []
    for at, _, _ in spans:
        busy = sum(count for begin, stop, count in spans if begin <= at < stop)
        if busy > there:
            found.append(f"{busy} {what} at {at}")
    return found


def _machines(times, end, machine, steps, lab):
    found = []
    using = sorted((s for s in steps if s.machine), key=lambda s: times[s.name])
    for i, first in enumerate(using):
        if not 1 <= machine[first.name] <= lab.machines[first.machine]:
            found.append(f"{first.name} in machine {machine[first.name]}")
        for then in using[i + 1 :]:
            if first.machine == then.machine and machine[first.name] == machine[then.name]:
                clean = cleaning_between(first, then, lab, one_day(first, then, times, lab))
                if clean is None or times[then.name] < end[first.name] + clean:
                    found.append(f"{then.name} after {first.name} in one machine")
    return found


def broken_by(plan, steps, holds, lab):
    """Words for every rule a Plan breaks, its cleanings among them."""
    times = {one.step.name: one.begins for one in plan.placed}
    machine = {one.step.name: one.machine for one in plan.placed}
    cleanings = [(one.cleaned_from, one.cleaned_from + one.cleaning) for one in plan.placed if one.cleaning]
    found = broken(times, machine, cleanings, steps, holds, lab)
    for begin, stop in cleanings:
        if not any(opens <= begin and stop <= closes for opens, closes in lab.hours):
            found.append(f"cleaning at {begin} outside the hours")
    rows = {}
    for one in sorted(plan.placed, key=lambda one: one.begins):
        if one.machine:
            rows.setdefault((one.step.machine, one.machine), []).append(one)
    for row in rows.values():
        for before, one in zip(row, row[1:], strict=False):
            needed = cleaning_between(before.step, one.step, lab)
            inside = before.ends <= one.cleaned_from and one.cleaned_from + one.cleaning <= one.begins
            if needed and (one.cleaning != needed or not inside):
                found.append(f"{one.step.name} without its cleaning")
    return found
