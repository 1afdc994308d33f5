"""The class's prices: what prices.csv holds, and which of its rows can be used."""

import functools

from pastrylab.ground import own
from pastrylab.ground.errors import StudentError
from pastrylab.ground.files import load_sound
from pastrylab.ground.names import plain_name
from pastrylab.ground.tables import Column, Table

PRICES = Table(
    columns=(
        Column("item"),
        Column("ingredient", required=False),
        Column("pack_size", "number", low=0.001, high=10_000),
        Column("pack_unit", choices=own.PACK_UNITS),
        Column("price", "number", low=0, high=1e9),
        Column("currency"),
        *(Column(name, "number", low=0.01, high=1) for name in ("yield_share", "yield_low", "yield_high")),
        *(Column(name, "number", low=0, high=1e9) for name in ("price_low", "price_high")),
        Column("source"),
    ),
    key=("item",),
)


def prices():
    """Packs and their prices, one row an item, for `purchasing.price_list`. Do not write to it.

    ingredient: its name in ingredients.csv, empty where it is none; price: of one pack, in `currency`; yield_share: what
    is left of a pack, a share from 0.01 to 1; the lows and highs are what an instructor finds plausible over a year. A
    reader's own rows (my-kitchen/prices.csv) stand first and win over the class's of the same item or ingredient. A row at
    fault is left out with the others of its ingredient; price_at_fault says it.

    >>> bag = prices().by("item")["dark couverture 64 %, bag"]
    >>> f"{bag['pack_size']:g} {bag['pack_unit']}"
    '2.5 kg'
    """
    return own.with_own_prices(_of(load_sound("prices.csv", PRICES))[0])


def price_at_fault(name):
    """The StudentError of the row of an item, or of an ingredient, that stands in prices.csv and cannot be used; else None.

    >>> price_at_fault("honey")
    """
    return _of(load_sound("prices.csv", PRICES))[1].get(plain_name(name))


@functools.lru_cache(maxsize=8)
def _of(read):
    """(the rows that can be used, {plain name: StudentError}) of a Sound. Where one pack of an ingredient is at fault, no
    other takes its place: which of them a cost goes by is the order of the rows."""
    found = [(cells.get("item", ""), cells.get("ingredient", ""), fault) for cells, fault in read.faults]
    for number, row in read.sheet.numbered():
        for column, error in own.price_faults(row):
            given = f"prices.csv, row {number}, column '{column}': {error.given}"
            found.append((row["item"], row["ingredient"], StudentError(given, error.needed, error.example)))
    at_fault = {}
    for item, ingredient, fault in found:
        for name in (item, ingredient):
            if name:
                at_fault.setdefault(plain_name(name), fault)
    if not at_fault:
        return read.sheet, at_fault
    names = ({plain_name(row["item"]), plain_name(row["ingredient"])} for row in read.sheet)
    return read.sheet.only(not called & at_fault.keys() for called in names), at_fault
