"""An order and a lab, typed or turned by hand, become a plan: the same ones are planned once."""

import functools
from dataclasses import dataclass, replace

from pastrylab.ground import lab_tables
from pastrylab.trade.orders import Quantities, quantities
from pastrylab.trade.orders.day import MACHINE, lab_of, steps_of
from pastrylab.trade.planning import NoPlan, Plan, make_plan

# Common practice, no source: of a filling, what bowl and bag keep; at each mould; what no ladle takes up.
LEFT, LOST, REST = "5 %", "5 g", "150 g"
SECONDS = 5.0


@dataclass(frozen=True)
class Day:
    """What an order takes (`found`), the holds of its moulds, and its Plan, or the NoPlan that says why there is none."""

    found: Quantities
    holds: tuple
    plan: Plan | NoPlan

    @property
    def fits(self):
        return isinstance(self.plan, Plan)


def taken_by(order, rejects):
    """The Quantities of {flavour: good pieces}; rejects: a share from 0 to 1."""
    return quantities(order, f"{100 * rejects:g} %", left=LEFT, lost=LOST, rest=REST)


def lab(pairs=None, machines=None, moulds=None, hours=None):
    """The Lab of lab.csv, with what is given in its place: counts, {mould: how many}, ((opens, closes), ...)."""
    found = lab_of()
    return replace(
        found,
        teams=found.teams if pairs is None else int(pairs),
        machines=found.machines if machines is None else {MACHINE: int(machines)},
        things=found.things if moulds is None else dict(moulds),
        hours=found.hours if hours is None else tuple(hours),
    )


def mould_counts():
    """{mould: how many there are}: every mould that a flavour is cast in, in the order of moulded.csv."""
    things = lab_of().things
    return {name: things.get(name, 0) for name in dict.fromkeys(lab_tables.moulded()["mould"])}


def planned(order, rejects, there, aim):
    """The Day of {flavour: good pieces} in a Lab. Raises StudentError as quantities and make_plan."""
    return _planned(
        tuple(order.items()),
        rejects,
        there.teams,
        tuple(there.machines.items()),
        tuple(there.things.items()),
        there.hours,
        aim,
    )


@functools.lru_cache(maxsize=16)
def _planned(order, rejects, pairs, machines, moulds, hours, aim):
    there = lab(pairs, dict(machines)[MACHINE], moulds, hours)
    found = taken_by(dict(order), rejects)
    steps, holds = steps_of(found)
    return Day(found, holds, make_plan(steps, holds, there, aim, SECONDS))
