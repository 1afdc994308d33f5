"""A make-up lab for who was absent: an order of the student's own, the same skills, and what one can do alone."""

import re
from dataclasses import dataclass, replace
from types import SimpleNamespace

from pastrylab.ground.units import StudentError
from pastrylab.school import draws, whose
from pastrylab.trade.orders import Flavour, Quantities, kitchen, quantities, steps_of
from pastrylab.trade.orders.day import MACHINE, left_behind
from pastrylab.trade.planning import Plan, make_plan

MISSED = ("day 1", "day 2", "both days", "the planning")
_ID = "09.make-up"
# What is drawn, low, high and step: pieces of the flavour that rests longest and of the one that rests least, rejects in %,
# minutes before the lab closes at which the boxes are fetched.
_DRAWN = {"long": (36, 96, 12), "short": (24, 84, 12), "rejects": (5, 25, 5), "earlier": (0, 45, 15)}
_LONGEST = 2_000  # characters of a list of who was absent
_EXAMPLE = "17: day 1; 23, 24: both days"


@dataclass(frozen=True)
class MakeUp:
    """One student's lab: what was `missed`, the `order` with its `rejects` (0 to 1) and what it takes (`found`), the two
    flavours it is of, the lab's hours up to when the boxes are `fetched`, the `plans` of each flavour by itself, what one
    mould of the first takes (`one`), and the row of flavours in one machine (`row`, "" where either will do).

    >>> make_up("17", "day 1").missed
    'day 1'
    """

    student: str
    missed: str
    order: dict
    rejects: float
    found: Quantities
    flavours: tuple[Flavour, ...]
    fetched: int
    plans: tuple[Plan, ...]
    one: Quantities
    row: str


def make_up(student, missed, there=None, word=""):
    """The MakeUp of a student. missed: one of MISSED; there: a Kitchen, None for the sheets'; word: that of the term.

    Drawn as exercises are (draws.draw). Raises StudentError for nobody, for what cannot be missed, and where a lab has no
    day on which even one flavour can be made.

    >>> make_up("17", "day 1").order == make_up(" 017", "day 1").order != make_up("23", "day 1").order
    True
    """
    student = whose.checked(student)
    if not student:
        raise StudentError("nobody", "the class number or name of who was absent", "17")
    if missed not in MISSED:
        raise StudentError(f"'{missed[:40]}' as what was missed", "one of: " + ", ".join(MISSED), MISSED[0])
    there = kitchen() if there is None else there
    drawn = {name: _drawn(name, *steps, student, word) for name, steps in _DRAWN.items()}
    both = _two(there.flavours, student, word)
    order = {one.name: int(drawn[which]) for one, which in zip(both, ("long", "short"), strict=False)}
    usual = {"left": "5 %", "lost": "5 g", "rest": "150 g", "known": there.flavours}
    share = drawn["rejects"] / 100
    opens, closes = there.lab.hours[-1]
    fetched = closes - int(drawn["earlier"]) if closes - opens > 180 else closes
    lab = replace(there.lab, hours=(*there.lab.hours[:-1], (opens, fetched)), machines={MACHINE: 1})
    plans = tuple(_planned({name: pieces}, share, usual, lab) for name, pieces in order.items())
    one = quantities({both[0].name: 1}, **usual)
    return MakeUp(
        student, missed, order, share, quantities(order, share, **usual), both, fetched, plans, one, _row(both)
    )


def _drawn(name, low, high, step, student, word):
    steps = (high - low) // step
    return draws.draw(_ID, name, SimpleNamespace(value=low, low=low, high=high, step=step, steps=steps), student, word)


def _two(known, student, word):
    """The flavour that rests longest in its shell and one that rests least; drawn where several do alike."""
    rests = {name: one.crystal[0] for name, one in known.items()}
    longest = [one for name, one in known.items() if rests[name] == max(rests.values())]
    first = longest[int(_drawn("which", 0, len(longest) - 1, 1, student, word)) if len(longest) > 1 else 0]
    others = [one for one in known.values() if one is not first]
    if not others:
        return (first,)
    least = [one for one in others if one.crystal[0] == min(other.crystal[0] for other in others)]
    return first, least[int(_drawn("other", 0, len(least) - 1, 1, student, word)) if len(least) > 1 else 0]


def _planned(order, share, usual, lab):
    plan = make_plan(*steps_of(quantities(order, share, **usual)), lab, seconds=5)
    if not isinstance(plan, Plan):
        raise StudentError(f"a lab for {', '.join(order)}", "hours in which it can be made", plan.sentence)
    return plan


def _row(both):
    """Which flavour goes into one machine first: whose allergens the other has as well; "" for either, or for one."""
    if len(both) < 2:
        return ""
    one, other = both
    first, then = left_behind(one.allergens), left_behind(other.allergens)
    if first == then:
        return ""
    if first <= then:
        return f"{one.name}, then {other.name}"
    return f"{other.name}, then {one.name}" if then <= first else "neither: wash between them, whichever comes first"


def read_absent(text):
    """((student, what was missed), ...) of "17: day 1; 23, 24: both days"; without a word behind it, both days were missed.

    An entry a semicolon or a line. Raises StudentError for a student twice and for what cannot be missed.

    >>> read_absent("17: day 1; 23, 24")
    (('17', 'day 1'), ('23', 'both days'), ('24', 'both days'))
    """
    if len(text) > _LONGEST:
        raise StudentError("a very long list of who was absent", "a few students", _EXAMPLE)
    found = {}
    for entry in filter(None, (part.strip(" .") for part in re.split(r"[;\n]", text))):
        students, _, said = entry.partition(":")
        missed = _missed(said.strip().casefold())
        for one in students.split(","):
            student = whose.checked(one)
            if not student or student in found:
                raise StudentError(
                    f"'{entry[:40]}' for who was absent",
                    "each class number or name once, then what was missed",
                    _EXAMPLE,
                )
            found[student] = missed
    if not found:
        raise StudentError("nobody absent", "who was absent, and what was missed", _EXAMPLE)
    return tuple(found.items())


def _missed(said):
    if said in ("", "both", "all", "everything"):
        return "both days"
    said = {"1": "day 1", "2": "day 2", "planning": "the planning", "first day": "day 1", "second day": "day 2"}.get(
        said, said
    )
    if said not in MISSED:
        raise StudentError(f"'{said[:40]}' as what was missed", "one of: " + ", ".join(MISSED), _EXAMPLE)
    return said
