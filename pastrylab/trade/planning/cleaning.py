"""Who cleans the machines of a plan whose steps stand: each cleaning in its gap, while hands are free."""

from dataclasses import replace

from ortools.sat.python import cp_model

from pastrylab.trade.planning.machines import between

_FAR = 10_000  # a minute of a day counts for more than all that cleanings could be later


def cleaned(placed, lab, grid, most_busy, within, fixed=(), close=False):
    """The placed steps with their cleanings in, or None where no hands are free for them.

    grid: minutes that divide all times; most_busy: teams at work at once, at most; within: (opens, closes) of each day;
    fixed: names of steps in whose past nothing is cleaned any more; close: whether the days are to stay as short as can be,
    else each cleaning is as late as can be.

    >>> from pastrylab.trade.planning.placed import Placed
    >>> from pastrylab.trade.planning.steps import Lab, Step
    >>> dark, milk = (Step(kind, 30, machine="bowl", kind=kind) for kind in ("dark", "milk"))
    >>> row = (Placed(dark, 480, 510, 1), Placed(milk, 540, 570, 1))
    >>> lab = Lab(1, ((480, 600),), {"bowl": 1}, cleaning=20)
    >>> [(one.step.kind, one.cleaning, one.cleaned_from) for one in cleaned(row, lab, 10, 1, lab.hours)]
    [('dark', 0, 0), ('milk', 20, 520)]
    """
    gaps = list(_gaps(placed, lab, fixed))
    if not gaps:
        return placed
    starts = _begun(placed, gaps, grid, most_busy, within, close)
    if starts is None:
        return None
    sizes = {one.step.name: size for one, size, _ in gaps}
    return tuple(
        replace(one, cleaning=sizes[name], cleaned_from=starts[name]) if (name := one.step.name) in sizes else one
        for one in placed
    )


def _begun(placed, gaps, grid, most_busy, within, close):
    """{name: when the cleaning before it begins}, or None."""
    cp, starts, busy = cp_model.CpModel(), {}, []
    for one, size, free_from in gaps:
        whens = [
            [-(-max(opens, free_from) // grid), (min(closes, one.begins) - size) // grid] for opens, closes in within
        ]
        whens = [[low, high] for low, high in whens if low <= high]
        if not whens:
            return None
        starts[one.step.name] = cp.new_int_var_from_domain(cp_model.Domain.from_intervals(whens), one.step.name)
        busy.append((cp.new_fixed_size_interval_var(starts[one.step.name], size // grid, one.step.name), 1))
    for one in placed:
        if one.step.teams:
            fixed_span = cp.new_fixed_size_interval_var(one.begins // grid, one.step.minutes // grid, one.step.name)
            busy.append((fixed_span, one.step.teams))
    cp.add_cumulative([i for i, _ in busy], [n for _, n in busy], most_busy)
    longer = _lengths(cp, starts, gaps, placed, grid, within) if close else 0
    cp.maximize(sum(starts.values()) - _FAR * longer)
    asked = cp_model.CpSolver()
    asked.parameters.max_time_in_seconds = 2.0
    asked.parameters.num_workers = 1
    if asked.solve(cp) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    return {name: asked.value(start) * grid for name, start in starts.items()}


def _lengths(cp, starts, gaps, placed, grid, within):
    """The lengths of all days together, from the first hand to the last, cleanings among them."""
    whole, on_day = 0, {name: [] for name in starts}
    for opens, closes in within:
        here = [one for one in placed if one.step.teams and opens <= one.begins < closes]
        first = cp.new_int_var(
            opens // grid, min([closes, *(one.begins for one in here)]) // grid, f"{opens} first hand"
        )
        last = cp.new_int_var(max([opens, *(one.ends for one in here)]) // grid, closes // grid, f"{closes} last hand")
        cp.add(last >= first)
        whole += last - first
        for one, size, _ in gaps:
            name = one.step.name
            today = cp.new_bool_var(f"{name} on the day of {opens}")
            on_day[name].append(today)
            cp.add(starts[name] >= first).only_enforce_if(today)
            cp.add(starts[name] + size // grid <= last).only_enforce_if(today)
    for literals in on_day.values():
        cp.add_exactly_one(literals)
    return whole


def _gaps(placed, lab, fixed):
    """(placed, minutes of cleaning before it, when its machine is free for that) of all that need any."""
    rows = {}
    for one in placed:
        if one.machine:
            rows.setdefault((one.step.machine, one.machine), []).append(one)
    for row in rows.values():
        for before, then in zip(row, row[1:], strict=False):
            size = between(before.step, then.step, lab, night=True)
            if size and then.step.name not in fixed:
                yield then, size, before.ends
