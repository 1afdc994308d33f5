"""From a model to its best plan: what is aimed at, and the solver asked.

The rules without the cleaners are solved first: no plan with cleaners can be better. Mostly their hands are free in the
gaps it leaves; where they are not, the whole model is solved.
"""

import time
from dataclasses import dataclass

from ortools.sat.python import cp_model

from pastrylab.ground.units import StudentError
from pastrylab.trade.planning import cleaning, day_bounds, model
from pastrylab.trade.planning.placed import Placed

_WORKERS = 8  # of different search strategies; more than the cores of a machine, and still faster than two
_FIRST = 0.85  # share of the time for the rules without the cleaners
_START = 0.3  # share of the time for a plan to begin the search for a short day with
_TIDY = 0.12  # share of the time that goes into putting the steps close together once the aim is met


@dataclass(frozen=True)
class Found:
    """What a solver found: the steps placed, the value reached and the bound, in minutes or teams."""

    placed: tuple
    value: int
    bound: int


def solver(seconds):
    """A CP-SAT solver with a limit of seconds; the same seed each time.

    >>> solver(5.0).parameters.max_time_in_seconds
    5.0
    """
    found = cp_model.CpSolver()
    found.parameters.max_time_in_seconds = max(seconds, 0.1)
    found.parameters.num_workers = _WORKERS
    found.parameters.random_seed = 1
    return found


def best(steps, holds, lab, aim, seconds, past):
    """The best Found for an aim, or None where there is none. past: (now, {name: start}, {name: machine}).

    Raises StudentError where the time did not suffice to tell.

    >>> from pastrylab.trade.planning.steps import Lab, Step
    >>> best([Step("cast", 30)], (), Lab(1, ((480, 720),)), "latest start", 5.0, (None, {}, {})).value  # 11:30
    690
    """
    until = time.monotonic() + seconds
    first = _asked(model.build(steps, holds, lab, *past), steps, aim, seconds * _FIRST)
    if first is None:
        return None
    rules, found = first
    placed = cleaning.cleaned(found.placed, lab, rules.grid, lab.teams, lab.hours, past[1], aim == "shortest day")
    value = reached(placed, lab, aim, past[1]) if placed else None
    if value == found.value:
        return Found(placed, value, found.bound)
    left = until - time.monotonic()
    whole = model.build(steps, holds, lab, *past, cleaners=True)
    for one in placed or found.placed:
        whole.cp.add_hint(whole.start[one.step.name], one.begins // whole.grid)
    second = _asked(whole, steps, aim, max(left, 1.0), must=placed is None)
    if placed and (second is None or _better(value, second[1].value, aim)):
        return Found(placed, value, found.bound)
    return second[1] if second else None


def _better(one, other, aim):
    return one > other if aim == "latest start" else one < other


def reached(placed, lab, aim, fixed=()):
    """What a plan reaches of an aim: minutes, or teams at work at once. placed: its steps; fixed: those begun before.

    >>> from pastrylab.trade.planning.steps import Lab, Step
    >>> row = (Placed(Step("cast", 30), 480, 510), Placed(Step("wash", 20), 530, 550))
    >>> reached(row, Lab(1, ((480, 720),)), "shortest day")
    70
    """
    free = [one for one in placed if one.step.name not in fixed] or placed
    if aim == "latest start":
        return min(one.begins for one in free)
    hands = [(one.begins, one.ends, one.step.teams) for one in free if one.step.teams]
    hands += [(one.cleaned_from, one.cleaned_from + one.cleaning, 1) for one in free if one.cleaning]
    if aim == "evenest work":
        return max((sum(n for begin, end, n in hands if begin <= at < end) for at, *_ in hands), default=0)
    days = {}
    for begin, end, _ in hands:
        day = max(opens for opens, _ in lab.hours if opens <= begin)
        first, last = days.get(day, (begin, end))
        days[day] = (min(first, begin), max(last, end))
    return sum(last - first for first, last in days.values())


def _asked(rules, steps, aim, seconds, must=True):
    """(model, Found), or None where there is no plan; must: whether to complain where the time did not suffice to tell."""
    free = [s for s in steps if s.name not in rules.fixed] or steps
    value, up, scale = _AIMS[aim](rules, free)
    hinted = bool(rules.cp.proto.solution_hint.vars)
    spent = _started(rules, free, seconds * _START) if aim == "shortest day" and not hinted else 0.0
    cp = rules.cp.clone()
    (cp.maximize if up else cp.minimize)(value)
    asked = solver(seconds * (1 - _TIDY) - spent)
    status = asked.solve(cp)
    if status == cp_model.INFEASIBLE or (status == cp_model.UNKNOWN and not must):
        return None
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        raise StudentError(
            f"{len(steps)} steps, and no plan found in {seconds:.0f} seconds",
            "more time, or fewer steps at once",
            "30 seconds",
        )
    met, bound = round(asked.objective_value), round(asked.best_objective_bound)
    asked = _tidied(rules, cp, free, (value, up, met), asked, seconds * _TIDY)
    return rules, Found(_placed(rules, steps, asked), met * scale, bound * scale)


def _started(rules, free, seconds):
    """Hint at a plan whose days all begin as late as they can: found soon, and mostly short. Returns the seconds it took."""
    began, cp, firsts = time.monotonic(), rules.cp, []
    for day, (opens, closes) in enumerate(rules.lab.hours):
        firsts.append(cp.new_int_var(opens // rules.grid, closes // rules.grid, f"day {day} begins"))
        for step in free:
            if step.teams:
                cp.add(rules.start[step.name] >= firsts[-1]).only_enforce_if(rules.on_day[step.name][day])
    late = cp.clone()
    late.maximize(sum(firsts))
    asked = solver(seconds)
    if asked.solve(late) in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        for step in free:
            cp.add_hint(rules.start[step.name], asked.value(rules.start[step.name]))
    return time.monotonic() - began


def _tidied(rules, cp, free, aim, asked, seconds):
    """The same value, with the steps close to the end they are planned from; what was found before if there is no time."""
    value, up, met = aim
    cp.clear_objective()
    cp.add(value >= met if up else value <= met)
    cp.clear_hints()
    for step in free:
        cp.add_hint(rules.start[step.name], asked.value(rules.start[step.name]))
    starts = sum(rules.start[s.name] for s in free)
    (cp.maximize if up else cp.minimize)(starts)
    again = solver(seconds)
    return again if again.solve(cp) in (cp_model.OPTIMAL, cp_model.FEASIBLE) else asked


def _latest(rules, free):
    first = rules.cp.new_int_var(0, rules.lab.end // rules.grid, "first start")
    rules.cp.add_min_equality(first, [rules.start[s.name] for s in free])
    return first, True, rules.grid


def _shortest(rules, free):
    """Minutes from the first hand to the last, summed over the days."""
    cp, most, spans = rules.cp, rules.lab.end // rules.grid, []
    for day in range(len(rules.lab.hours)):
        first = cp.new_int_var(0, most, f"first hand on day {day}")
        length = cp.new_int_var(0, most, f"length of day {day}")
        hands = [(rules.start[s.name], rules.end[s.name], [rules.on_day[s.name][day]]) for s in free if s.teams]
        hands += [(begin, begin + size, [today[day], needed]) for needed, begin, size, today in rules.cleaning.values()]
        for begin, end, literals in hands:
            cp.add(begin >= first).only_enforce_if(literals)
            cp.add(end <= first + length).only_enforce_if(literals)
        spans.append(length)
    day_bounds.add(rules, free, spans)
    return sum(spans), False, rules.grid


def _evenest(rules, free):
    return rules.peak, False, 1


_AIMS = {"latest start": _latest, "shortest day": _shortest, "evenest work": _evenest}


def _placed(rules, steps, asked):
    found = []
    for step in steps:
        begins = asked.value(rules.start[step.name]) * rules.grid
        numbers = rules.on_machine.get(step.name, {})
        machine = next((n + 1 for n, literal in numbers.items() if asked.value(literal)), 0)
        minutes, at = 0, 0
        if step.name in rules.cleaning:
            needed, begin, length, _ = rules.cleaning[step.name]
            if asked.value(needed):
                minutes, at = asked.value(length) * rules.grid, asked.value(begin) * rules.grid
        found.append(Placed(step, begins, begins + step.minutes, machine, minutes, at))
    return tuple(sorted(found, key=lambda one: (one.begins, one.ends, one.step.name)))
