"""Where no plan fits: the rules that clash, by the solver's own conflict set, and the smallest change that would fit."""

from dataclasses import dataclass

from ortools.sat.python import cp_model

from pastrylab.trade.planning import solving
from pastrylab.trade.planning.model import build
from pastrylab.trade.planning.steps import clock, span

_SORTS = ("thing", "machine", "teams", "hours")


@dataclass(frozen=True)
class NoPlan:
    """Why nothing fits. clashes: in words, what cannot hold together; changes: in words, the smallest of each sort that
    would fit, the smallest first. `sentence` says so in short.

    >>> print(NoPlan(("2 bowls",), ("one bowl more",)))
    It does not fit. These cannot hold together: 2 bowls. It would fit with one bowl more.
    """

    clashes: tuple[str, ...]
    changes: tuple[str, ...]

    @property
    def sentence(self):
        return "It does not fit."

    def __str__(self):
        said = [self.sentence]
        if self.clashes:
            said.append(f"These cannot hold together: {'; '.join(self.clashes)}.")
        if self.changes:
            said.append(f"It would fit with {', or with '.join(self.changes)}.")
        else:
            said.append(
                "No change of one sort that was tried would make it fit: take steps out, or make some on another day."
            )
        return " ".join(said)


def no_plan(steps, holds, lab, past, seconds):
    """The NoPlan of steps that do not fit. past: as solving.best; seconds: what is left to look for the clash and changes."""
    model = build(steps, holds, lab, *past, strict=False, cleaners=False)
    if _core(model, model.givens, seconds / 4) is None:
        model = build(steps, holds, lab, *past, strict=False, cleaners=True)
    literals = {literal.index: literal for literal in model.givens}
    core = _smallest_core(model, literals, seconds / 3)
    words = {e.given.index: _there(model, e) for e in model.extras}
    words |= {literal.index: _rest_in_words(step, after) for literal, step, after in model.rules}
    if model.last_rule is not None:
        words[model.last_rule.index] = (
            f"nothing without {' or '.join(sorted(model.lab.last))} after them in one machine"
        )
    clashes = tuple(dict.fromkeys(words[index] for index in core))
    changes = [_change(model, sort, seconds / 6) for sort in _SORTS]
    found = sorted((c for c in changes if c), key=lambda c: c[0])
    return NoPlan(clashes, tuple(text for _, text in found))


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
        return f"{lab.machines[extra.name]} {extra.name}" + _cleaned(lab)
    if extra.sort == "thing":
        return f"{lab.things[extra.name]} {extra.name}"
    opens, closes = lab.hours[int(extra.name.split()[0])]
    return f"the lab open from {clock(opens)} to {clock(closes)}"


def _cleaned(lab):
    return f" with {span(lab.cleaning)} of cleaning between kinds" if lab.cleaning else ""


def _rest_in_words(step, after):
    return (
        f"{step.name} at most {span(after.most)} after {after.step}"
        if after.most
        else f"{step.name} right after {after.step}"
    )


def _change(model, sort, seconds):
    """(size, words) of the smallest change of one sort that makes a plan possible, or None."""
    free = [e for e in model.extras if e.sort == sort]
    kept = [e.given for e in model.extras if e.sort != sort] + [literal for literal, *_ in model.rules]
    if model.last_rule is not None:
        kept.append(model.last_rule)
    cp = model.cp.clone()
    cp.clear_objective()
    cp.add_assumptions(kept)
    cp.minimize(sum(e.variable for e in free))
    asked = solving.solver(seconds)
    if not free or asked.solve(cp) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    more = [(e, asked.value(e.variable) * e.unit) for e in free if asked.value(e.variable)]
    size = sum(n / 15 if e.sort == "hours" else n for e, n in more) * {"machine": 5, "teams": 3}.get(sort, 1)
    return (size, " and ".join(_more(model, e, n) for e, n in more)) if more else None


def _more(model, extra, count):
    if extra.sort == "teams":
        return f"{count} more at work at once"
    if extra.sort in ("machine", "thing"):
        return f"{count} more {extra.name}"
    day, way = extra.name.split()
    which = model.lab.hours[int(day)]
    on = f" on day {int(day) + 1}" if len(model.lab.hours) > 1 else ""
    if way == "earlier":
        return f"a beginning {span(count)} earlier{on}, at {clock(max(which[0] - count, 0))}"
    return f"an end {span(count)} later{on}, at {clock(which[1] + count)}"
