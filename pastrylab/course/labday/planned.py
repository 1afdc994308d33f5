"""An order and a lab, typed or turned by hand, become a plan: the same ones are planned once."""

from dataclasses import dataclass, replace

from pastrylab.trade.orders import Quantities, flavours, lab_of, quantities
from pastrylab.trade.orders.day import MACHINE, steps_of
from pastrylab.trade.planning import NoPlan, Plan, make_plan

# Common practice, no source: of a filling, what bowl and bag keep; at each mould; what no ladle takes up.
LEFT, LOST, REST = "5 %", "5 g", "150 g"
SECONDS = 5.0
_KEPT = 16  # plans looked at lately
_made = {}


@dataclass(frozen=True)
class Day:
    """What an order takes (`found`), the holds of its moulds, and its Plan, or the NoPlan that says why there is none."""

    found: Quantities
    holds: tuple
    plan: Plan | NoPlan

    @property
    def fits(self):
        return isinstance(self.plan, Plan)


def taken_by(order, rejects, known=None, brought=None):
    """The Quantities of {flavour: good pieces}; rejects: a share from 0 to 1; known: {name: Flavour}, None for the sheets';
    brought: as quantities."""
    return quantities(order, f"{100 * rejects:g} %", left=LEFT, lost=LOST, rest=REST, known=known, brought=brought)


def lab(pairs=None, machines=None, moulds=None, hours=None, stations=None, there=None):
    """The Lab of lab.csv, or `there`, with what is given in its place: counts, {mould: how many}, ((opens, closes), ...)."""
    found = lab_of() if there is None else there
    return replace(
        found,
        teams=found.teams if pairs is None else int(pairs),
        machines=found.machines if machines is None else {MACHINE: int(machines)},
        things=found.things if moulds is None else dict(moulds),
        hours=found.hours if hours is None else tuple(hours),
        stations=found.stations if stations is None else _places(found.stations, int(stations)),
    )


def _places(named, count):
    """So many stations: those that have a name, then others by number."""
    return named[:count] + tuple(f"station {n}" for n in range(len(named) + 1, count + 1))


def mould_counts(kitchen):
    """{mould: how many there are}: every mould that a flavour of a Kitchen is cast in, in the order of its flavours."""
    things = kitchen.lab.things
    return {name: things.get(name, 0) for name in dict.fromkeys(one.mould for one in kitchen.flavours.values())}


def planned(order, rejects, there, aim, known=None, brought=None):
    """The Day of {flavour: good pieces} in a Lab. known, brought: as taken_by. Raises StudentError as quantities and make_plan."""
    known = flavours() if known is None else known
    key = repr((order, rejects, there, aim, known, brought))
    if key not in _made:
        found = taken_by(order, rejects, known, brought)
        steps, holds = steps_of(found)
        day = Day(found, holds, make_plan(steps, holds, there, aim, SECONDS))
        while len(_made) >= _KEPT:
            _made.pop(next(iter(_made)))
        _made[key] = day
    return _made[key]
