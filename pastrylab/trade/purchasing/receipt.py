"""A shopping receipt typed line by line: what was bought, at what price, and what a formula uses of it."""

import re
from dataclasses import replace

from pastrylab.ground.money import common_currency
from pastrylab.ground.units import StudentError
from pastrylab.trade.purchasing.packs import Pack, amount_of, tabled_density
from pastrylab.trade.purchasing.typed_pack import (
    EACH,
    is_price,
    pack_size,
    priced_in_one,
    size_and_price,
    weighed_each,
    without_item,
)

_LINE = "lemons; 1 kg; 4.00; 120 g; 40 %"
_FORM = "item; pack; price; used; usable share"
_MISSING = ("the item", "what the pack holds", "its price", "what you used of it")
_RUNNING = re.compile(r"([^\d$€£¥;]*[^\W\d_])[\s,:]+(\S.*?)[\s,]+(?:used|of which|use)\s+(\d.*)", re.I)
_HEADS = re.compile(
    r"(?:items?|ingredients?|names?|what|products?|packs?|sizes?|holds|prices?|costs?|paid|used?|amounts?|quantity|qty"
    r"|usable|share|yield|unit|weight|density)\b",
    re.I,
)


def read_receipt(text):
    """(formula, packs) from a shopping receipt, a line an item: "lemons; 1 kg; 4.00; 120 g; 40 %".

    In each line: the item, what the pack holds ("12 x 1 L", "a quart") and its price, in one cell or in two ("1 kg for
    4.00"), what the formula uses of it (without trim), and the usable share where it is not all. What is bought by volume
    and weighed needs a density: that of ingredients.csv for an ingredient it knows, else one more cell, "1.01 g/mL"; what
    is bought by the piece and weighed needs one as well, "20 g each". A first line of headings is passed over.
    Returns {item: amount used} and {item: Pack}, as `costing.formula_cost` takes them. Raises StudentError naming the
    line.

    >>> formula, packs = read_receipt("lemons; 1 kg; 4.00; 120 g; 40 %")
    >>> formula, str(packs["lemons"].price)
    ({'lemons': '120 g'}, '4.00')
    """
    used, packs = {}, {}
    for number, line in enumerate(text.splitlines(), 1):
        cells = [cell.strip() for cell in re.split(r"[;\t|]", line)]
        if not any(cells) or (number == 1 and _is_heading(cells)):
            continue
        cells = _parted(cells)
        if not 4 <= len(cells) <= 6 or not all(cells[:4]):
            raise StudentError(f"line {number}, '{line.strip()[:40]}'", _FORM + _missing(cells), _LINE)
        if cells[0] in packs:
            raise StudentError(f"line {number}, '{cells[0]}' again", "each item once", _LINE)
        try:
            packs[cells[0]], used[cells[0]] = _bought(*cells[:4], [cell for cell in cells[4:] if cell])
        except StudentError as error:
            raise StudentError(f"{error.given} (line {number})", error.needed, error.example) from None
    if not packs:
        raise StudentError("an empty receipt", "a line an item", _LINE)
    common_currency(*(pack.price for pack in packs.values()))
    return used, packs


def _is_heading(cells):
    return not re.search(r"[\d½⅓⅔¼¾]", "".join(cells)) and len([cell for cell in cells if _HEADS.match(cell)]) > 1


def _parted(cells):
    """The cells of a line, pack and price in two of them: "1 kg for 4.00" is one of each.

    A line without semicolons is read where it says what was used: "lemons 1 kg $4.00 used 120 g".
    """
    if len(cells) == 1:
        cells = _running(cells[0])
    if len(cells) > 2 and priced_in_one(cells[1]):
        size, price = size_and_price(cells[1], cells[0])
        return [cells[0], size, price, *cells[2:]]
    if len(cells) > 3 and is_price(cells[1], cells[2]):
        cells[1], cells[2] = cells[2], cells[1]
    return cells


def _running(line):
    """The cells of a line without semicolons; the line alone where they are not clear."""
    if found := _RUNNING.fullmatch(line):
        return list(found.groups())
    cells = re.split(r",\s+", line)
    figures = [re.search(r"[\d½⅓⅔¼¾]", cell) for cell in cells]
    return cells if len(cells) > 3 and not figures[0] and all(figures[1:4]) else [line]


def _missing(cells):
    """What a line lacks, in words; "" where it has too much."""
    if len(cells) == 1:
        return ". No semicolon parts this line"
    lacks = [what for k, what in enumerate(_MISSING) if k >= len(cells) or not cells[k]]
    return f". Missing here: {' and '.join(lacks)}" if lacks else ""


def _bought(item, size, price, amount, more):
    """(Pack, amount used) of one line of a receipt."""
    each = next((found[1] for cell in more if (found := EACH.fullmatch(cell))), None)
    density = next((cell for cell in more if "/" in cell and not cell[0] == "/" and cell[-1].isalpha()), None)
    kept = [cell for cell in more if cell != density and not EACH.fullmatch(cell)]
    if len(kept) > 1:
        raise StudentError(f"{' and '.join(kept)} for {item}", "one usable share, and a density if need be", "40 %")
    amount = without_item(amount, item)
    pack = Pack.of(pack_size(size, item), price, kept[0] if kept else 1, item, density=density)
    kinds = {pack.kind, amount_of(amount, f"the amount of {item}")[1]}
    if density is None and kinds == {"mass", "volume"}:
        pack = replace(pack, density=tabled_density(item))
    if kinds == {"mass", "count"} and pack.kind == "count":
        if not each:
            needed = "a number of pieces, or one more cell with what one weighs"
            raise StudentError(f"{amount} of {item}, which is sold by the piece", needed, f"{item}; ...; 20 g each")
        pack = weighed_each(pack, each, f"{item}; {size}")
    pack.holds(amount)
    return pack, amount
