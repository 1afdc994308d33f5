"""What moves a cost: one price, yield, wage, time or reject rate after the other at the ends of its range."""

from dataclasses import dataclass, replace

from pastrylab.ground.money import Money, money
from pastrylab.ground.shares import share
from pastrylab.ground.units import In, Q
from pastrylab.trade.costing.costs import batch_cost, formula_cost, labour_cost, line_of, pack_for, parts_of
from pastrylab.trade.purchasing.packs import whole_number


@dataclass(frozen=True)
class Bar:
    """One bar of a tornado: the cost when one input alone takes its low and its high value.

    >>> print(Bar("price of honey", 6, 11, Money(3), Money(5)).swing)
    2.00
    """

    name: str
    low: object
    high: object
    cost_at_low: Money
    cost_at_high: Money

    @property
    def swing(self):
        """Money between the two ends, at least 0."""
        return abs(self.cost_at_high - self.cost_at_low)


def tornado(formula, packs, densities=None):
    """Which price or yield moves a formula's cost most: each in turn at the ends of its own range.

    formula, packs, densities: as formula_cost. Returns a list of Bar, longest first (ties in alphabetical order);
    inputs without a range are left out. Raises StudentError as formula_cost.

    >>> from pastrylab.trade.purchasing.packs import Pack
    >>> packs = {"honey": Pack.of("500 g", "$8", price_range=("$6", "$11"))}
    >>> [(bar.name, str(bar.swing)) for bar in tornado({"honey": "100 g"}, packs)]
    [('price of honey', '$1.00')]
    """
    parts, bars = parts_of(formula), []
    costed = formula_cost(parts, packs, densities)
    for line in costed.lines:
        pack = pack_for(line.ingredient, packs)
        for kind, field, ends in (
            ("price", "price", pack.price_range),
            ("yield", "yield_share", pack.yield_range),
        ):
            if ends is not None:
                at = [
                    costed.total
                    - line.cost
                    + line_of(line.ingredient, parts, replace(pack, **{field: end}), densities).cost
                    for end in ends
                ]
                bars.append(Bar(f"{kind} of {line.ingredient}", *ends, *at))
    return sorted(bars, key=lambda bar: (-bar.swing.amount, bar.name))


def what_moves(formula, packs, pieces, rejects=0, wage=0, batch_time="0 min", unsure=0.2, on_costs=0, **more):
    """Which input moves the cost of one good piece most: `tornado` with labour and rejects among the bars.

    formula, packs: as formula_cost; pieces, rejects: as batch_cost; wage, batch_time, on_costs: as labour_cost. Every
    price and yield takes the ends of its own range; wage and working time go up and down by the share `unsure`, rejects
    from none to twice as many. more: packaging_each, overhead, overhead_share of batch_cost. Returns a list of Bar,
    longest first. Raises StudentError as batch_cost.

    >>> from pastrylab.trade.purchasing.packs import Pack
    >>> packs = {"honey": Pack.of("500 g", "$8", price_range=("$6", "$11"))}
    >>> [bar.name for bar in what_moves({"honey": "100 g"}, packs, 20, 1, "$24", "10 min")]
    ['minutes of work', 'hourly wage', 'price of honey', 'rejects']
    """
    part = share(unsure, "how unsure you are")
    minutes = In("min", at_least=0, example="40 min").floats("batch_time", batch_time)
    paid, lost = money(wage, "the hourly wage"), whole_number(rejects, "rejects", 0)
    parts = parts_of(formula)
    used = formula_cost(parts, packs).total

    def each(materials=used, rejects=lost, wage=paid, minutes=minutes):
        work = labour_cost(wage, Q(minutes, "min"), on_costs=on_costs)
        return batch_cost(materials, pieces, rejects, work, **more).per_piece

    bars = [
        replace(bar, cost_at_low=each(bar.cost_at_low), cost_at_high=each(bar.cost_at_high))
        for bar in tornado(parts, packs)
    ]
    less, greater = float(1 - part), float(1 + part)
    for name, key, low, high in (
        ("hourly wage", "wage", paid * less, paid * greater),
        ("minutes of work", "minutes", minutes * less, minutes * greater),
        ("rejects", "rejects", 0, 2 * lost),
    ):
        bars.append(Bar(name, low, high, each(**{key: low}), each(**{key: high})))
    return sorted(bars, key=lambda bar: (-bar.swing.amount, bar.name))
