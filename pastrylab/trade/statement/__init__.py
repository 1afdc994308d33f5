"""What goes on a label: the list of ingredients, allergens, net weight, energy, and names that a law reserves."""

from pastrylab.trade.statement.allergens import allergens_of
from pastrylab.trade.statement.energy import Energy, energy
from pastrylab.trade.statement.inside import inside
from pastrylab.trade.statement.label import Label, grams_of_piece, label
from pastrylab.trade.statement.listing import IngredientList, Listed, ingredient_list
from pastrylab.trade.statement.net_weight import NetWeight, net_weight, stated
from pastrylab.trade.statement.packs import EU, US, Entry, entry
from pastrylab.trade.statement.reserved import Name, filled_chocolate, reserved_names

__all__ = [
    "EU",
    "US",
    "Energy",
    "Entry",
    "IngredientList",
    "Label",
    "Listed",
    "Name",
    "NetWeight",
    "allergens_of",
    "energy",
    "entry",
    "filled_chocolate",
    "grams_of_piece",
    "ingredient_list",
    "inside",
    "label",
    "net_weight",
    "reserved_names",
    "stated",
]
