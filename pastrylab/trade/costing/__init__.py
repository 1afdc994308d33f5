"""Costing and pricing: from a pack and its yield to a batch, a piece, a box, a price and a break-even point."""

from pastrylab.trade.costing.costs import batch_cost, box_cost, edible_portion_cost, formula_cost, labour_cost
from pastrylab.trade.costing.moves import tornado, what_moves
from pastrylab.trade.costing.prices import (
    break_even,
    contribution,
    discounted,
    food_cost_allowed,
    food_cost_share,
    margin_of,
    margin_to_markup,
    markup_to_margin,
    price_by_margin,
    price_by_markup,
    price_for,
)

__all__ = [
    "batch_cost",
    "box_cost",
    "break_even",
    "contribution",
    "discounted",
    "edible_portion_cost",
    "food_cost_allowed",
    "food_cost_share",
    "formula_cost",
    "labour_cost",
    "margin_of",
    "margin_to_markup",
    "markup_to_margin",
    "price_by_margin",
    "price_by_markup",
    "price_for",
    "tornado",
    "what_moves",
]
