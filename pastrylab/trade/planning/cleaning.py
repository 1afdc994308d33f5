"""Who cleans the machines of a plan whose steps stand: each cleaning in its gap, while hands are free."""

from dataclasses import replace

from ortools.sat.python import cp_model

from pastrylab.trade.planning.machines import between


def cleaned(placed, lab, grid, most_busy, within, fixed=()):
    """The placed steps with their cleanings in, or None where no hands are free for them.

    grid: minutes that divide all times; most_busy: teams at work at once, at most; within: (opens, closes) of each day;
    fixed: names of steps in whose past nothing is cleaned any more.

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
    starts = _begun(placed, gaps, grid, most_busy, within)
    if starts is None:
        return None
    sizes = {one.step.name: size for one, size, _ in gaps}
    return tuple(
        replace(one, cleaning=sizes[name], cleaned_from=starts[name]) if (name := one.step.name) in sizes else one
        for one in placed
    )


def _begun(placed, gaps, grid, most_busy, within):
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
    cp.maximize(sum(starts.values()))
    asked = cp_model.CpSolver()
    asked.parameters.max_time_in_seconds = 2.0
    asked.parameters.num_workers = 1
    if asked.solve(cp) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    return {name: asked.value(start) * grid for name, start in starts.items()}


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
