"""An order of moulded chocolates: what it takes of moulds, chocolate and filling, and what to buy for it."""

from pastrylab.trade.orders.flavours import Flavour, flavour, flavours
from pastrylab.trade.orders.quantities import Bowl, Ordered, Quantities, quantities
from pastrylab.trade.orders.reading import read_order
from pastrylab.trade.orders.requisition import Line, requisition, table

__all__ = [
    "Bowl",
    "Flavour",
    "Line",
    "Ordered",
    "Quantities",
    "flavour",
    "flavours",
    "quantities",
    "read_order",
    "requisition",
    "table",
]
