"""What a pack costs, typed as people say it: "2.5 kg for 41.50", "$4.99 a quart", "12 x 1 L for 48"; and packaging."""

import re
from dataclasses import replace

from pastrylab.ground.money import Money, decimal_of, money
from pastrylab.ground.units import StudentError, unit_named
from pastrylab.trade.purchasing.packs import BARE, Pack, amount_of, tabled_density

PACK = "2.5 kg for 41.50"
PACKAGING = "9 cups; 100 for 3.50"
_CELLS = re.compile(r"\s*[;\t]\s*|,\s+")
_FOR = re.compile(r"\s*(?:=|@|:)\s*|\s+(?:for|at|costs?|is)\s+", re.IGNORECASE)
_PER = re.compile(r"\s*/\s*|\s+(?:per|an?|each|the)\s+", re.IGNORECASE)
_MARK = r"(?:[A-Z]{0,2}[$€£₹₩₺₪¢]|[A-Z]{3}\b|(?i:dollars?|euros?|cents?))"
_CASH = rf"(?:{_MARK}\s?\d[\d.,']*|\d[\d.,']*\s?{_MARK})"
_LAST = re.compile(rf"(.*[^\s/])\s+({_CASH}|\d+[.,]\d\d)")
_FIRST = re.compile(rf"({_CASH})\s+((?!/|per\b).*\S)")
_TIMES = re.compile(r"(\d+)\s*(?:x|×|\*)\s*(\d.*)", re.IGNORECASE)
_VESSELS = (
    "pack package case carton bag box bundle sleeve roll jar bottle tub tin can block bar bucket pail sack container"
)
_VESSEL = re.compile(rf"\b(?:{'|'.join(_VESSELS.split())})(?:s|es)?\b", re.IGNORECASE)
EACH = re.compile(r"(.+?)\s*(?:each|apiece|a piece|per piece|/\s*piece)", re.IGNORECASE)
_DENSITY = re.compile(r"(?:density\s*:?\s*)?(.*\S\s*/\s*(?:m?l|litres?|liters?|cups?|quarts?))", re.IGNORECASE)
_USABLE = re.compile(r"(?:usable\s*:?\s*)?([\d.,]+\s*(?:%|per\s?cent))(?:\s*usable)?", re.IGNORECASE)
_PRICED = re.compile(rf"\s(?:for|at)\s|[@=]|{_CASH}|\d[.,]\d\d\s*(?:/|per\b|an?\b)")
_PIECES = {"of", "sheet", "leaf", "leave", "stick", "pod", "bean", "yolk"}  # without the s of a plural
_COUNTED = re.compile(r"(\d+)\s*([^\W\d_][\w\s-]*)?")


def read_pack(text, item):
    """The Pack of an ingredient that a formula weighs, from what somebody types: size and price, in either order.

    text: "2.5 kg for 41.50", "$41.50 for 2.5 kg", "4,99 €/quart", "12 x 1 L for 48", "12 for 3.00; 3 g each". Behind it,
    set off by a semicolon, may stand the usable share ("80 %"), the density of what is bought by volume ("1.03 g/mL";
    that of ingredients.csv where it knows the item), the weight of a piece ("3 g each"). item: its name. Raises
    StudentError for what cannot be read, and for a pack that cannot be weighed, with what is missing.

    >>> pack = read_pack("1 quart for 4.99", "heavy cream 36 %")
    >>> str(pack.price), f"{float(pack.size):.3f} {pack.kind}"
    ('4.99', '0.946 volume')
    """
    cells = [cell for cell in _CELLS.split(text.strip()) if cell]
    usable, density, each, main = 1, None, None, []
    for cell in cells:
        if found := _USABLE.fullmatch(cell):
            usable = found[1]
        elif main and (found := EACH.fullmatch(cell)):
            each = found[1]
        elif main and (found := _DENSITY.fullmatch(cell)):
            density = found[1]
        else:
            main.append(cell)
    size, price = _parted(main, text, item)
    return _to_weigh(Pack.of(size, price, usable, item, density=density), each, text)


def size_and_price(text, item):
    """(text of the size, Money) of a pack as somebody types it, nothing else beside it; as read_pack reads them.

    Raises StudentError for what cannot be read.

    >>> size, price = size_and_price("$4.99 a quart", "cream")
    >>> size, str(price)
    ('1 quart', '$4.99')
    """
    return _parted([cell for cell in _CELLS.split(" ".join(text.split())) if cell], text, item)


def _parted(cells, text, item):
    sides = cells if len(cells) == 2 else _sides(cells[0]) if len(cells) == 1 else ()
    if len(sides) != 2 or not all(side.strip() for side in sides):
        raise StudentError(f"'{text.strip()[:50]}' for {item}", "what a pack holds and what it costs", PACK)
    first, second = (side.strip() for side in sides)
    if is_price(first, second):
        first, second = second, first
    return pack_size(first, item), money(second, f"the price of {item}")


def _sides(text):
    """A text parted where a price begins or ends; one or more than two parts where that is not clear."""
    sides = _FOR.split(text)
    if len(sides) > 1:
        return sides
    if found := _LAST.fullmatch(text) or _FIRST.fullmatch(text):
        return found.groups()
    return _PER.split(text)


def is_price(first, second):
    """Whether the first of two texts is the price: it has a currency, or no unit where the other has one.

    >>> is_price("6.40", "1 L"), is_price("1 L", "6.40"), is_price("12", "$3")
    (True, False, False)
    """
    if re.search(_MARK, first):
        return True
    if re.search(_MARK, second) or not BARE.fullmatch(first):
        return False
    cents = re.compile(r".*[.,]\d\d")
    return not BARE.fullmatch(second) or bool(cents.fullmatch(first) and not cents.fullmatch(second))


def pack_size(text, item):
    """A pack's content as amount_of takes it: without its vessel, 12 x 1 L as 12 L, a quart as 1 quart.

    >>> pack_size("carton of 12 x 1 L", "cream"), pack_size("a quart", "cream"), pack_size("2 bags", "chips")
    ('12.0 L', '1 quart', '2 bags')
    """
    if re.fullmatch(rf"(?:\d+|an?|one)?\s*{_VESSEL.pattern}", text.strip(), re.IGNORECASE):
        return text  # what a bag holds, it does not say
    text = re.sub(r"^(?:an?\s+)?half\s+(?:an?\s+)?", "1/2 ", text, flags=re.IGNORECASE)
    text = re.sub(r"^(?:an?|one)\s+", "1 ", text, flags=re.IGNORECASE)
    text = " ".join(re.sub(r"^(?:1\s+)?of\s+", "", re.sub(r"\s+", " ", _VESSEL.sub(" ", text)).strip()).split())
    if not re.match(r"[-−\d½⅓⅔¼¾.]", text):
        text = _one(text, item)
    times = _TIMES.fullmatch(text) or re.fullmatch(r"(\d+) of (\d.*)", text)
    if not times:
        return without_item(text, item)
    amount, kind = amount_of(without_item(times[2], item), f"the size of {item}", above=0)
    unit = {"mass": "kg", "volume": "L", "count": "pieces"}[kind]
    return f"{int(times[1]) * amount:f} {unit}"


def _one(text, item):
    """ "quart" as "1 quart". Raises StudentError for what is no unit."""
    try:
        unit_named(text.split()[0] if text else "")
    except StudentError:
        raise StudentError(f"'{text[:30]}' for the size of {item}", "what the pack holds", "1 kg") from None
    return f"1 {text}"


def without_item(text, item):
    """An amount without the item behind it: "12 eggs" of eggs are 12 pieces, "1 kg honey" is 1 kg.

    >>> without_item("12 eggs", "large eggs"), without_item("1 kg of honey", "honey"), without_item("2 cups", "cup cakes")
    ('12 pieces', '1 kg', '2 cups')
    """
    names = {word.rstrip("s") for word in re.findall(r"[^\W\d_]+", item.casefold())} | _PIECES
    words = text.split()
    while len(words) > 1 and words[-1].casefold().rstrip("s") in names and not _is_unit(words[-1]):
        words.pop()
    bare = " ".join(words)
    return f"{bare} pieces" if BARE.fullmatch(bare) else bare


def _is_unit(word):
    try:
        return unit_named(word) != "piece"
    except StudentError:
        return False


def priced_in_one(text):
    """Whether a text holds a pack and its price: "1 kg for 4.00", "$4.99 a quart"; "1/2 lb" and "12 x 1 L" hold none.

    >>> priced_in_one("1 kg for 4.00"), priced_in_one("4,99 €/L"), priced_in_one("1/2 lb")
    (True, True, False)
    """
    return bool(_PRICED.search(text)) and not re.fullmatch(_CASH, text.strip())


def _to_weigh(pack, each, text):
    """The pack with what is needed to weigh out of it. Raises StudentError naming what is missing."""
    said = text.strip()[:50]
    if pack.kind == "count":
        if each is None:
            given = f"{pack.name} by the piece, which the formula weighs"
            raise StudentError(given, "what one weighs as well", f"{said}; 20 g each")
        return weighed_each(pack, each, said)
    if pack.kind == "volume" and pack.density is None:
        known = tabled_density(pack.name)
        if known is None:
            given = f"{pack.name} by volume, which the formula weighs"
            raise StudentError(given, "its density as well, or the weight on the pack", f"{said}; 1.03 g/mL")
        return replace(pack, density=known)
    return pack


def weighed_each(pack, each, said):
    """A Pack of pieces as the mass they hold. each: what one weighs, as typed; said: the line, for the example.

    Raises StudentError for what is no mass.

    >>> pods = weighed_each(Pack.of(12, "$3", name="pods"), "3 g", "pods; 12")
    >>> float(pods.size), pods.kind
    (0.036, 'mass')
    """
    grams, kind = amount_of(each, f"one {pack.name}", above=0)
    if kind != "mass":
        raise StudentError(f"'{each[:30]}' for one {pack.name}", "what it weighs", f"{said}; 20 g each")
    return replace(pack, kind="mass", size=pack.size * grams)


# --- packaging ----------------------------------------------------------------------------------------------------


def read_packaging(text):
    """{what: cost} of the packaging of one box, a line each: "ribbon; 0.25", "9 cups; 100 for 3.50", "9 cups; 0.04 each".

    text: lines; a cost alone is that of all the line names. Where a pack is given, or a price "each", it is taken as often
    as the number that opens the line, once where none does. "none" is an empty dict. Costs are Money, unrounded. Raises
    StudentError naming the line, and for no line at all.

    >>> {what: f"{cost:.3f}" for what, cost in read_packaging("9 cups; 100 for 3.50").items()}
    {'9 cups': '0.315'}
    """
    found = {}
    lines = [line.strip() for line in text.splitlines() if line.strip()]
    if [line.casefold().rstrip(".") for line in lines] in (["none"], ["no packaging"], ["0"]):
        return {}
    for number, line in enumerate(lines, 1):
        what, cost = _packaging_line(line, number)
        if what in found:
            raise StudentError(f"line {number}, '{what}' again", "each once", PACKAGING)
        found[what] = cost
    if not found:
        raise StudentError("no packaging", "what one box needs, a line each, or 'none'", PACKAGING)
    return found


def _packaging_line(line, number):
    cells = [cell for cell in re.split(r"\s*[;\t]\s*", line) if cell]
    if len(cells) == 1:
        cells = _named_and_priced(line)
    if len(cells) == 3:  # what; how many; a pack of them
        cells = [f"{cells[1]} {cells[0]}", cells[2]]
    if len(cells) != 2 or not all(cells):
        raise StudentError(f"line {number}, '{line[:40]}'", "what it is; what it costs", PACKAGING)
    what, text = cells
    many = int(found[0]) if (found := re.match(r"\d+", what)) else 1
    try:
        return what, _cost_of(text, what, many)
    except StudentError as error:
        raise StudentError(f"{error.given} (line {number})", error.needed, error.example) from None


def _named_and_priced(line):
    """[what, text of its price] of a line without a semicolon: "box for 6 $0.80", "box 25 for 20.00"."""
    if (found := re.fullmatch(r"(.*[^\W\d_].*?)\s*[:,=]?\s+(\d+(?:\s[^\W\d_]+)?\s(?:for|at)\s.*)", line)) or (
        found := re.fullmatch(rf"(.*[^\W\d_].*?)\s*[:,=]?\s*(?<=[\s:,=])({_CASH}|\d+[.,]\d+)(?:\s*each)?", line)
    ):
        return [found[1], line[found.start(2) :]]
    return [line]


def _cost_of(text, what, many):
    """Money for `many` of what a text prices: a pack, one piece, or all of them."""
    if each := EACH.fullmatch(text):
        return money(each[1], what) * many
    sides = _FOR.split(text)
    if len(sides) == 1:
        return money(text, what)
    if len(sides) != 2:
        raise StudentError(f"'{text[:40]}' for {what}", "what it costs", PACKAGING)
    first, second = (side.strip() for side in sides)
    if is_price(first, second):
        first, second = second, first
    cost = money(second, what)
    return Money(cost.amount * many / decimal_of(_held(first, what), what, "100"), cost.currency)


def _held(text, what):
    """How many pieces a pack of packaging holds."""
    found = _COUNTED.fullmatch(text)
    word = found and (found[2] or "").strip()
    try:
        unit = unit_named(word) if word else "piece"
    except StudentError:  # "1000 labels"
        unit = "piece"
    if not found or int(found[1]) < 1 or unit not in ("piece", "dozen"):
        raise StudentError(f"'{text[:40]}' for {what}", "how many a pack holds, and its price", PACKAGING)
    return int(found[1]) * (12 if unit == "dozen" else 1)
