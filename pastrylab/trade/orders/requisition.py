"""What to fetch and what to buy for one order or several: whole packs less what is in store, and when to ask for them."""

import math
from dataclasses import dataclass

from pastrylab.ground import datasets, lab_tables
from pastrylab.ground.units import Quantity, StudentError
from pastrylab.trade import pantry
from pastrylab.trade.orders.quantities import grams_up
from pastrylab.trade.purchasing.packs import Pack, packs_to_buy, price_list

_HEADS = ("ingredient", "needed g", "in store g", "to buy g", "packs", "of", "order days before")


@dataclass(frozen=True)
class Line:
    """One ingredient: grams `needed`, `on_hand`, still `short`; `packs` of `pack` to buy, None where no pack is known;
    `lead_days`, how many days before it must be ordered, None where nobody said.

    >>> Line("heavy cream 36 %", 260, 0, 260, 1, None, 1).packs
    1
    """

    ingredient: str
    needed: int
    on_hand: int
    short: int
    packs: int | None
    pack: Pack | None
    lead_days: int | None


def requisition(needs, stock=None):
    """What to buy for several needs together: a Line an ingredient, those that must be ordered first on top.

    needs: {ingredient: grams} of each order or section; they are added up before packs are rounded. stock: {ingredient:
    (grams on hand, days an order takes)}; None for stock.csv. Packs are those of the price list, after their yield.
    Raises StudentError for an unknown ingredient and for an amount below nought.

    >>> [(line.ingredient, line.short, line.packs) for line in requisition([{"heavy cream 36 %": 900}, {"heavy cream 36 %": 300}])]
    [('heavy cream 36 %', 1200, 2)]
    """
    total = {}
    for need in needs:
        for name, grams in need.items():
            if not 0 <= grams < math.inf:
                raise StudentError(f"{grams} g of {name}", "an amount of nought or more", "250 g")
            known = pantry.ingredient_name(name)
            total[known] = total.get(known, 0.0) + grams
    if stock is None:
        stock = {row["ingredient"]: (row["on_hand_g"], int(row["lead_days"])) for row in lab_tables.stock()}
    packs = price_list(datasets.prices())
    lines = [_line(name, grams, *stock.get(name, (0.0, None)), packs.get(name)) for name, grams in total.items()]
    return tuple(sorted(lines, key=lambda line: (-(line.lead_days or 0), line.ingredient)))


def _line(name, grams, on_hand, lead, pack):
    needed = grams_up(grams)
    short = max(needed - math.floor(on_hand), 0)
    count = _packs(pack, name, short) if pack and short else (0 if not short else None)
    return Line(name, needed, math.floor(on_hand), short, count, pack, lead)


def _packs(pack, name, short):
    density = None
    if pack.kind == "volume":
        density = pantry.mass_of("1 L", name) / Quantity(1, "L")
    try:
        return packs_to_buy(pack, Quantity(short, "g"), density)
    except StudentError:  # sold by the piece, and nobody said what one weighs
        return None


def table(lines):
    """The requisition as rows for a spreadsheet: the headings, then a row a Line; "ask" where nobody knows.

    >>> table(requisition([{"heavy cream 36 %": 900}], {}))[1][:5]
    ('heavy cream 36 %', 900, 0, 900, 1)
    """
    rows = [_HEADS]
    for line in lines:
        pack = line.pack.name if line.pack and line.packs else ""
        packs = "ask" if line.packs is None else line.packs
        lead = "ask" if line.lead_days is None else line.lead_days
        rows.append((line.ingredient, line.needed, line.on_hand, line.short, packs, pack, lead if line.short else ""))
    return tuple(rows)
