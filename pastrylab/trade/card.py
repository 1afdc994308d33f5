"""The sums of a cost card: a formula's ingredients, its batch, a box of its pieces, and a price, to the cent.

Each table adds up, and what one table hands to the next stands in both as the same amount (`money`: the price of a
cent).
"""

from dataclasses import dataclass

from pastrylab.ground.money import Money, Price, add, common_currency
from pastrylab.ground.shares import share
from pastrylab.ground.units import Q
from pastrylab.trade.costing.costs import (
    BatchCost,
    FormulaCost,
    batch_cost,
    box_cost,
    formula_cost,
    labour_cost,
)
from pastrylab.trade.costing.prices import contribution, margin_of, price_for


@dataclass(frozen=True)
class CostCard:
    """What a cost card shows. used, batch: unrounded; ingredients, kinds, in_box: {line: Money} to the cent, whose sums
    are the totals; food: the ingredients of one box; price: before tax; tax: what is added to it at the till.

    >>> from pastrylab.trade.purchasing.packs import Pack
    >>> packs = {"honey": Pack.of("500 g", "$8")}
    >>> print(cost_card({"honey": "100 g"}, packs, 12, food_share=0.25).verdict)
    earns
    """

    used: FormulaCost
    batch: BatchCost
    ingredients: dict
    kinds: dict
    in_box: dict
    food: Money
    price: Price
    tax: Money

    @property
    def full(self):
        """Cost of a box with everything in it."""
        return add(self.in_box.values())

    @property
    def left(self):
        """What is left of the price, before tax, after the box's own cost; 0 where it sells at cost."""
        return contribution(self.price, self.full)

    @property
    def margin(self):
        """left as a share (float) of the price; None where nothing is asked."""
        return margin_of(self.full, self.price) if self.price > 0 else None

    @property
    def verdict(self):
        """ "earns", "at cost" or "below cost"."""
        return "earns" if self.left > 0 else "at cost" if self.left == 0 else "below cost"


def cost_card(
    formula,
    packs,
    pieces,
    rejects=0,
    wage=0,
    minutes=0,
    on_costs=0,
    overhead_share=0,
    box=6,
    packaging=None,
    food_share=0.30,
    tax=0,
):
    """The sums of a cost card (CostCard).

    formula: {ingredient: edible amount}; packs: {ingredient: Pack}; pieces, of which rejects cannot be sold; wage: by
    the hour; minutes of work on the batch; on_costs: what is paid on top of the wage, a share of it; overhead_share: of
    ingredients and work; box: pieces in a box; packaging: {what: cost} of one box; food_share: ingredients as a share
    of the price; tax: sales tax or VAT, a share of the price. Raises StudentError as `costing.formula_cost` and
    `costing.batch_cost` do.

    >>> from pastrylab.trade.purchasing.packs import Pack
    >>> packs = {"honey": Pack.of("500 g", "$8")}
    >>> print(cost_card({"honey": "100 g"}, packs, 12, wage="$12", minutes=6).price)
    $2.67
    """
    used = formula_cost(formula, packs)
    work = labour_cost(wage, Q(float(minutes), "min"), on_costs=on_costs)
    batch = batch_cost(used.total, pieces, rejects, work, overhead_share=overhead_share)
    in_box = box_cost({f"{box} pieces": (box, batch.per_piece)}, packaging)
    food = used.total / batch.good_pieces * box
    price = price_for(food, food_share).rounded()
    common_currency(price, *in_box.values())
    on_top = (price * share(tax, "the tax", at_most=2)).rounded()
    kinds = {kind: cost for kind, cost in batch.to_the_cent.items() if kind != "packaging"}
    return CostCard(used, batch, used.to_the_cent, kinds, in_box, food, price, on_top)
