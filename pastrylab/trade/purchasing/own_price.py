"""A price as one reads it off a receipt or a shelf, "2.5 kg for 41.50", and the row of prices it makes."""

from pastrylab.ground.grammar import dimension, read_text
from pastrylab.ground.own import PACK_UNITS
from pastrylab.ground.units import Quantity, StudentError
from pastrylab.trade.purchasing.packs import tabled_density, usable_share
from pastrylab.trade.purchasing.typed_pack import PACK, size_and_price

_UNIT_OF = {"[mass]": "g", "[length] ** 3": "mL", "dimensionless": "piece"}


def pack_and_price(text, item="the pack"):
    """(size, unit, price) of a pack: a float, one of PACK_UNITS, Money. "2.5 kg for 41.50", "4.20 a kg", "12 for $3".

    item: its name, for the refusal. Raises StudentError for a text without an amount and a price, and as
    typed_pack.size_and_price does.

    >>> size, unit, price = pack_and_price("2.5 kg for $41.50")
    >>> size, unit, str(price)
    (2.5, 'kg', '$41.50')
    """
    size, price = size_and_price(text, item)
    if not 0 < price.amount < 10**9:
        raise StudentError(f"{price} for {item}", "a price above zero and below 1000000000", PACK)
    return (*_pack(size, item), price)


def _pack(text, item):
    """(size, unit) of the text of a size."""
    typed = read_text(text, nouns=False)
    if typed.unit in PACK_UNITS:
        size, unit = typed.number, typed.unit
    else:
        unit = typed.unit and _UNIT_OF.get(dimension(typed.unit))
        if not unit or typed.unit == "percent":
            raise StudentError(f"'{text[:40]}' for {item}", "a mass, a volume or pieces", PACK)
        size = round(float(Quantity(typed.number, typed.unit).m_as("" if unit == "piece" else unit)), 6)
    if not 0.001 <= size <= 10_000 or (unit == "piece" and size != int(size)):
        raise StudentError(f"'{text[:40]}' for {item}", "the size of a pack", PACK)
    return size, unit


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
    size, unit, price = pack_and_price(text, name)
    row = {"item": name, "ingredient": ingredient, "pack_size": f"{size:.12g}", "pack_unit": unit}
    share = f"{float(usable_share(usable, 'the usable share')):.6g}" if usable.strip() else ""
    return row | {
        "price": f"{float(price.amount):.12g}",
        "currency": price.currency,
        "yield_share": share,
        "source": source,
    }


def row_of_pack(pack, ingredient, item):
    """A row of my-kitchen/prices.csv, {column: text}, of a Pack that an ingredient is weighed out of.

    A volume whose density is not that of ingredients.csv is written as the mass it holds. item: what the row is called.
    Raises StudentError for a price of nothing.

    >>> from pastrylab.trade.purchasing.typed_pack import read_pack
    >>> row = row_of_pack(read_pack("1 L for $5; 0.9 g/mL", "honey"), "honey", "honey, my pack")
    >>> row["pack_size"], row["pack_unit"], row["price"]
    ('0.9', 'kg', '5')
    """
    if not pack.price > 0:
        raise StudentError(f"{pack.price} for {pack.name}", "a price above zero", PACK)
    size, unit = pack.size, {"mass": "kg", "volume": "L"}[pack.kind]
    if pack.kind == "volume" and pack.density != tabled_density(ingredient):
        size, unit = size * pack.density, "kg"
    if size < 0.1:
        size, unit = 1000 * size, {"kg": "g", "L": "mL"}[unit]
    used = "" if pack.yield_share == 1 else f"{float(pack.yield_share):.6g}"
    row = {"item": item, "ingredient": ingredient, "pack_size": f"{float(size):.9g}", "pack_unit": unit}
    priced = {"price": f"{float(pack.price.amount):.12g}", "currency": pack.price.currency, "yield_share": used}
    return row | priced | {"source": "my own pack"}
