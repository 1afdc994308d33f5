"""An order of moulded chocolates: what it takes of moulds, chocolate and filling, and what to buy for it."""

from pastrylab.trade.orders.day import Pace, lab_of, steps_of
from pastrylab.trade.orders.flavours import Flavour, flavour, flavours
from pastrylab.trade.orders.hours import read_hours, read_moment
from pastrylab.trade.orders.kitchens import Kitchen, kitchen, larkmoor
from pastrylab.trade.orders.quantities import Bowl, Ordered, Quantities, quantities
from pastrylab.trade.orders.reading import read_rejects
from pastrylab.trade.orders.requisition import Line, requisition, table
from pastrylab.trade.orders.sheet import Section, Sheet, read_order, read_sheet
from pastrylab.trade.orders.waiting import Wait, wait_table, waits

__all__ = [
    "Bowl",
    "Flavour",
    "Kitchen",
    "Line",
    "Ordered",
    "Pace",
    "Quantities",
    "Section",
    "Sheet",
    "Wait",
    "flavour",
    "flavours",
    "kitchen",
    "lab_of",
    "larkmoor",
    "quantities",
    "read_hours",
    "read_moment",
    "read_order",
    "read_rejects",
    "read_sheet",
    "requisition",
    "steps_of",
    "table",
    "wait_table",
    "waits",
]
