"""Where no plan fits: the rules that clash, by the solver's own conflict set, and the smallest change that would fit."""

from ortools.sat.python import cp_model

from pastrylab.ground.units import StudentError
from pastrylab.trade.planning import solving
from pastrylab.trade.planning.clashes import Change, NoPlan
from pastrylab.trade.planning.model import build
from pastrylab.trade.planning.steps import DAY, clock, span

_SORTS = ("thing", "machine", "teams", "hours")


def no_plan(steps, holds, lab, past, seconds):
    """The NoPlan of steps that do not fit. past: as solving.best; seconds: what is left to look for the clash and changes.

    >>> from pastrylab.trade.planning.steps import Lab, Step
    >>> two = [Step("cast", 90), Step("wash", 60)]
    >>> no_plan(two, (), Lab(1, ((480, 600),)), (None, {}, {}), 5.0).changes[-1].more
    {'': 1}
    """
    model = build(steps, holds, lab, *past, strict=False, cleaners=False)
    if _core(model, model.givens, seconds / 4) is None:
        model = build(steps, holds, lab, *past, strict=False, cleaners=True)
    literals = {literal.index: literal for literal in model.givens}
    core = _smallest_core(model, literals, seconds / 3)
    words = {e.given.index: _there(model, e) for e in model.extras}
    words |= {literal.index: _rest_in_words(step, after) for literal, step, after in model.rules}
    if model.last_rule is not None:
        words[model.last_rule.index] = (
            f"nothing without {' or '.join(sorted(model.lab.last))} after them in one machine on one day"
        )
    clashes = tuple(dict.fromkeys(words[index] for index in core))
    day = (steps, holds, lab, past)
    changes = [change for sort in _SORTS if (change := _change(day, sort, seconds / 6))]
    return NoPlan(clashes, tuple(sorted(changes, key=lambda change: change.size)))


def _smallest_core(model, literals, seconds):
    """Indices of rules that cannot hold together and of which none can be spared, as far as the time allows."""
    core = _core(model, list(literals.values()), seconds / 2)
    if core is None:
        return sorted(literals)
    for index in list(core):
        fewer = [literals[i] for i in core if i != index]
        found = _core(model, fewer, seconds / (2 * max(len(core), 1)))
        if found is not None:
            core = [i for i in core if i != index and i in found]
    return core


def _core(model, givens, seconds):
    """A conflict set among `givens`, or None where they fit or the time was too short."""
    cp = model.cp.clone()
    cp.clear_objective()
    cp.add_assumptions(givens)
    asked = solving.solver(seconds)
    if asked.solve(cp) != cp_model.INFEASIBLE:
        return None
    return list(asked.sufficient_assumptions_for_infeasibility())


def _there(model, extra):
    lab = model.lab
    if extra.sort == "teams":
        return f"{lab.teams} at work at once"
    if extra.sort == "machine":
        return f"{lab.machines[extra.name]} of {extra.name}" + _cleaned(lab)
    if extra.sort == "thing":
        return f"{lab.things[extra.name]} of {extra.name}"
    opens, closes = lab.hours[extra.name[0]]
    return f"the lab open from {clock(opens)} to {clock(closes)}"


def _cleaned(lab):
    return f" with {span(lab.cleaning)} of cleaning between kinds" if lab.cleaning else ""


def _rest_in_words(step, after):
    return (
        f"{step.name} at most {span(after.most)} after {after.step}"
        if after.most
        else f"{step.name} right after {after.step}"
    )


def _change(day, sort, seconds):
    """The smallest Change of one sort that makes a plan possible, or None.

    Looked for without the cleaners first, which is fast and never too much; where a plan with them then has no room,
    with them.
    """
    steps, holds, lab, past = day
    for cleaners in (False, True):
        model = build(steps, holds, lab, *past, strict=False, cleaners=cleaners)
        change = _least(model, sort, seconds / 3)
        if change is None or cleaners or _fits(day, change, seconds / 3):
            return change
    return None


def _fits(day, change, seconds):
    steps, holds, lab, past = day
    try:
        return solving.best(steps, holds, change.given(lab), "latest start", seconds, past) is not None
    except StudentError:  # too short a time to tell
        return False


def _least(model, sort, seconds):
    free = [e for e in model.extras if e.sort == sort]
    kept = [e.given for e in model.extras if e.sort != sort] + [literal for literal, *_ in model.rules]
    if model.last_rule is not None:
        kept.append(model.last_rule)
    cp = model.cp.clone()
    for literal in kept:
        cp.add(literal == 1)
    cp.minimize(sum(e.variable for e in free))
    asked = solving.solver(seconds)
    if not free or asked.solve(cp) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    more = {e.name: asked.value(e.variable) * e.unit for e in free if asked.value(e.variable)}
    words = " and ".join(_in_words(model.lab, sort, name, count) for name, count in more.items())
    return Change(sort, more, words) if more else None


def _in_words(lab, sort, name, count):
    if sort == "teams":
        short = lab.teams + count - len(lab.stations) if lab.stations else 0
        return f"{count} more at work at once" + (
            f", with {short} more station{'s' * (short > 1)}" if short > 0 else ""
        )
    if sort != "hours":
        return f"{count} more of {name}"
    day, way = name
    opens, closes = lab.hours[day]
    on = f" on day {opens // DAY + 1}" if len(lab.hours) > 1 else ""
    if way == "earlier":
        return f"a beginning {span(count)} earlier{on}, at {clock(opens - count)}"
    return f"an end {span(count)} later{on}, at {clock(closes + count)}"
