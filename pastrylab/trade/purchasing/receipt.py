"""A shopping receipt typed line by line: what was bought, at what price, and what a formula uses of it."""

import re
from dataclasses import replace

from pastrylab.ground.money import common_currency
from pastrylab.ground.units import StudentError, unit_named
from pastrylab.trade.purchasing.packs import BARE, Pack, amount_of, tabled_density

_LINE = "lemons; 1 kg; 4.00; 120 g; 40 %"


def read_receipt(text):
    """(formula, packs) from a shopping receipt, a line an item: "lemons; 1 kg; 4.00; 120 g; 40 %".

    In each line: the item, what the pack holds, its price, what the formula uses of it (without trim), and the
    usable share where it is not all. What is bought by volume and weighed needs a density: that of ingredients.csv for
    an ingredient it knows, else one more cell, "1.01 g/mL". A first line of headings is passed over.
    Returns {item: amount used} and {item: Pack}, as `costing.formula_cost` takes them. Raises StudentError naming the
    line.

    >>> formula, packs = read_receipt("lemons; 1 kg; 4.00; 120 g; 40 %")
    >>> formula, str(packs["lemons"].price)
    ({'lemons': '120 g'}, '4.00')
    """
    used, packs = {}, {}
    for number, line in enumerate(text.splitlines(), 1):
        cells = [cell.strip() for cell in re.split(r"[;\t]", line)]
        if not any(cells) or (number == 1 and _is_heading(cells)):
            continue
        if not 4 <= len(cells) <= 6 or not all(cells[:4]):
            raise StudentError(f"line {number}, '{line.strip()[:40]}'", "item; pack; price; used; usable share", _LINE)
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
    return len(cells) > 3 and all(cells[:4]) and not re.search(r"[\d½⅓⅔¼¾]", "".join(cells[1:]))


def _bought(item, size, price, amount, more):
    """(Pack, amount used) of one line of a receipt."""
    density = next((cell for cell in more if "/" in cell and not cell[0] == "/" and cell[-1].isalpha()), None)
    kept = [cell for cell in more if cell != density]
    if len(kept) > 1:
        raise StudentError(f"{' and '.join(kept)} for {item}", "one usable share, and a density if need be", "40 %")
    size, amount = _counted(size, item), _counted(amount, item)
    pack = Pack.of(size, price, kept[0] if kept else 1, item, density=density)
    if density is None and {pack.kind, amount_of(amount, f"the amount of {item}")[1]} == {"mass", "volume"}:
        pack = replace(pack, density=tabled_density(item))
    pack.holds(amount)
    return pack, amount


def _counted(amount, item):
    """ "12 eggs" of the item eggs is 12 pieces, "600 g dark couverture" 600 g; every other text stays as it is."""
    names = {word.rstrip("s") for word in re.findall(r"[^\W\d_]+", item.casefold())}
    words = amount.split()
    while len(words) > 1 and words[-1].casefold().rstrip("s") in names and not _is_unit(words[-1]):
        words.pop()
    if len(words) < len(amount.split()):
        return " ".join([*words, "pieces"] if BARE.fullmatch(" ".join(words)) else words)
    return amount


def _is_unit(word):
    try:
        return unit_named(word) != "piece"
    except StudentError:
        return False
