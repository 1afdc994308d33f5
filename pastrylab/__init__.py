"""pastrylab: the numbers behind the chocolate bench, checked in a workbook of lessons.

This is the front door: what a lesson's cells and an instructor's scripts call. A name is fetched from its room when it
is first asked for, so that nobody waits for what is not used. Inside the house a module is named by its own path.
"""

import importlib

_NAMES = {
    "Formula": "trade.formula",
    "Q": "ground.units",
    "StudentError": "ground.units",
    "both": "ground.units",
    "show": "ground.units",
}
_TOPICS = {
    "benches": "course.benches",
    "cooling": "logs.cooling",
    "costing": "trade.costing",
    "crystals": "trade.crystals",
    "datasets": "ground.datasets",
    "emulsion": "trade.emulsion",
    "exercises": "course.catalogue",
    "formula": "trade.formula",
    "holding": "trade.holding",
    "infusion": "trade.infusion",
    "keeping": "trade.keeping",
    "mending": "trade.mending",
    "mixing": "trade.mixing",
    "moulds": "trade.moulds",
    "orders": "trade.orders",
    "planning": "trade.planning",
    "probelog": "logs",
    "purchasing": "trade.purchasing",
    "statement": "trade.statement",
    "storage": "trade.storage",
    "storelog": "logs.store",
    "sugars": "trade.sugars",
    "tempering": "trade.tempering",
    "water_activity": "trade.water_activity",
}

__all__ = [*_NAMES, *_TOPICS]


def __getattr__(name):
    if name in _NAMES:
        found = getattr(importlib.import_module(f"pastrylab.{_NAMES[name]}"), name)
    elif name in _TOPICS:
        found = importlib.import_module(f"pastrylab.{_TOPICS[name]}")
    else:
        raise AttributeError(f"module 'pastrylab' has no attribute '{name}'")
    globals()[name] = found
    return found


def __dir__():
    return sorted([*globals(), *__all__])
