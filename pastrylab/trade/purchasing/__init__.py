"""Buying: packs and the price list, a shopping receipt, vanilla pods singly or in bulk, a cheap tool or a dear one."""

from pastrylab.trade.purchasing.packs import Pack, cost_of_buying, cost_of_use, packs_to_buy, price_list
from pastrylab.trade.purchasing.pods import Dried, pod_cost, pods_dry, pods_until_bulk_pays
from pastrylab.trade.purchasing.receipt import read_receipt
from pastrylab.trade.purchasing.tools import Tool, compare_tools, tool_cost

__all__ = [
    "Dried",
    "Pack",
    "Tool",
    "compare_tools",
    "cost_of_buying",
    "cost_of_use",
    "packs_to_buy",
    "pod_cost",
    "pods_dry",
    "pods_until_bulk_pays",
    "price_list",
    "read_receipt",
    "tool_cost",
]
