"""A price as one reads it off a receipt or a shelf, "2.5 kg for 41.50", and the row of prices it makes."""

import re

from pastrylab.ground.grammar import dimension, read_text
from pastrylab.ground.money import money
from pastrylab.ground.own import PACK_UNITS
from pastrylab.ground.units import Quantity, StudentError
from pastrylab.trade.purchasing.packs import usable_share

_EXAMPLE = "2.5 kg for 41.50"
_BETWEEN = re.compile(r"\s*(?:;|\t|=|@|\bfor\b|\bat\b|\bcosts?\b|\bis\b|:)\s*|\s+/\s*|/\s+", re.I)
_EACH = re.compile(r"\s*(?:/|\bper\b|\ban?\b|\beach\b|\bthe\b)\s*", re.I)
_UNIT_OF = {"[mass]": "g", "[length] ** 3": "mL", "dimensionless": "piece"}
_HALVES = re.compile(r"(?<=[a-z])\s+(?=[$€£¥]?\s*\d)|(?<=\d)\s+(?=\d[\d.,]*\s*(?:g|kg|lb|oz|ml|l|pieces?)\b)", re.I)


def pack_and_price(text):
    """(size, unit, price) of a pack: a float, one of PACK_UNITS, Money. "2.5 kg for 41.50", "4.20 a kg", "12 for $3".

    Raises StudentError for a text without an amount and a price, and where both could be either.

    >>> size, unit, price = pack_and_price("2.5 kg for $41.50")
    >>> size, unit, str(price)
    (2.5, 'kg', '$41.50')
    """
    text = re.sub(r"^an? ", "1 ", " ".join(text.split()))
    for halves in _candidates(text):
        for amount, price in (halves, halves[::-1]):
            try:
                return (*_pack(amount, counted=amount is halves[0]), _price(price))
            except StudentError:
                continue
    raise StudentError(
        f"'{text[:60]}' as a pack and its price" if text else "no price",
        "how much is in the pack, and what it costs",
        _EXAMPLE,
    )


def _candidates(text):
    """The ways a text falls into two halves; what stands first is tried first."""
    each = _EACH.split(text)
    if len(each) == 2 and each[0] and each[1] and not re.match(r"\d", each[1]):
        yield f"1 {each[1]}", each[0]
    for pattern in (_BETWEEN, _HALVES, re.compile(r",\s+")):
        halves = [half for half in pattern.split(text) if half]
        if len(halves) == 2:
            yield tuple(halves)


def _pack(text, counted):
    """(size, unit). counted: a bare number may be pieces."""
    typed = read_text(text, nouns=False)
    if not typed.unit:
        if not counted or typed.number != int(typed.number):
            raise StudentError(text, "an amount", _EXAMPLE)
        size, unit = typed.number, "piece"
    elif typed.unit in PACK_UNITS:
        size, unit = typed.number, typed.unit
    else:
        unit = _UNIT_OF.get(dimension(typed.unit))
        if unit is None or typed.unit == "percent":
            raise StudentError(text, "a mass, a volume or pieces", _EXAMPLE)
        size = round(float(Quantity(typed.number, typed.unit).m_as("" if unit == "piece" else unit)), 6)
    if not 0.001 <= size <= 10_000 or (unit == "piece" and size != int(size)):
        raise StudentError(text, "the size of a pack", _EXAMPLE)
    return size, unit


def _price(text):
    price = money(text, "the price", at_least=0)
    if not 0 < price.amount < 10**9:
        raise StudentError(text, "a price above zero", _EXAMPLE)
    return price


def price_row(item, text, ingredient="", usable="", source=""):
    """A row of my-kitchen/prices.csv, {column: text}, of an item and its pack and price as typed.

    ingredient: its name in the list of ingredients, or ""; usable: the share of a pack that is used, "" for all of it.
    Raises StudentError as pack_and_price does, and for an item without a name.

    >>> row = price_row("lemons, net", "1 kg for 4.20", usable="40 %")
    >>> row["pack_size"], row["pack_unit"], row["price"], row["yield_share"]
    ('1', 'kg', '4.2', '0.4')
    """
    name = " ".join(item.split())
    if len(name) > 60 or not any(letter.isalpha() for letter in name):
        raise StudentError(f"'{name[:60]}' as what is bought", "its name, at most 60 letters", "cream, carton")
    size, unit, price = pack_and_price(text)
    row = {"item": name, "ingredient": ingredient, "pack_size": f"{size:.12g}", "pack_unit": unit}
    share = f"{float(usable_share(usable, 'the usable share')):.6g}" if usable.strip() else ""
    return row | {
        "price": f"{float(price.amount):.12g}",
        "currency": price.currency,
        "yield_share": share,
        "source": source,
    }
