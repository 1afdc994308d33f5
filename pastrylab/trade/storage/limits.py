"""Where chocolate stands in a store: how humid the air at its surface may be, and the other bands, each with its source."""

import math
from dataclasses import dataclass

from pastrylab.ground.errors import StudentError
from pastrylab.ground.storage_limits import STORAGE_LIMITS, storage_limits
from pastrylab.trade.chocolate import kind_named

_KNOWN = next(column.choices for column in STORAGE_LIMITS.columns if column.name == "what")


@dataclass(frozen=True)
class Limit:
    """A band from `low` to `high`: shares of humidity, or degC. high is inf where no source says how far it goes.

    >>> surface_limit("milk").low
    0.78
    """

    low: float
    high: float
    source: str


def surface_limit(kind):
    """From which humidity on the air at its surface brings sugar bloom: a Limit, in shares.

    kind: dark, milk, white, or one's own couverture. Below `low` no source sees bloom, above `high` all do. Sources:
    datasets/storage_limits.csv; none was found for white. Raises StudentError for another kind.

    >>> limit = surface_limit("dark")
    >>> f"{limit.low:.0%} to {limit.high:.0%}"
    '82% to 85%'
    """
    found = _row(kind_named(kind), "humidity at the surface")
    return Limit(found.low / 100, found.high / 100, found.source)


def store_band(what):
    """A band of the store itself: a Limit, in degC or, for "store drier than", shares.

    what: "store at", "store at for long", "store drier than", "fat bloom from". Sources: datasets/storage_limits.csv.
    Raises KeyError for something else.

    >>> store_band("store at").low, store_band("store drier than").high
    (18.0, 0.5)
    """
    found = _row("any", what)
    return Limit(found.low / 100, found.high / 100, found.source) if found.unit == "%" else found


@dataclass(frozen=True)
class _Row(Limit):
    unit: str


def _row(kind, what):
    table = storage_limits().by("kind", "what")
    if (kind, what) not in table and what in _KNOWN:
        raise StudentError(f"storage_limits.csv without a row {kind}, {what}", "that row", f"{kind},{what},...")
    row = table[kind, what]
    high = row["high"]
    return _Row(row["low"], math.inf if math.isnan(high) else high, row["source"], row["unit"])
