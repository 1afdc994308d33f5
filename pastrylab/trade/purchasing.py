"""Buying: packs as suppliers sell them and their unit price, whole packs to buy for what a formula uses.

Also two choices: vanilla pods singly or in bulk, a cheap tool or a dear one.
"""

import re
from dataclasses import dataclass, replace
from decimal import Context, Decimal
from fractions import Fraction

from pastrylab.ground.money import Money, common_currency, decimal_of, money, share
from pastrylab.ground.units import In, Q, StudentError, unit_named, unit_of
from pastrylab.trade.pantry import mass_of

_BASE = {
    "mass": ("kg", "[mass]"),
    "volume": ("L", "[length] ** 3"),
    "count": ("piece", "dimensionless"),
}
_NEEDED = {"mass": "a mass", "volume": "a volume", "count": "a number of pieces"}
_SOLD_BY = {"mass": "weight", "volume": "volume", "count": "the piece"}
_EXAMPLE = {"mass": "500 g", "volume": "1 L", "count": "12 pieces"}
_DENSITY = In("g/mL", above=0, example="1.01 g/mL")
_TWELVE_DIGITS = Context(prec=12)
_BARE = re.compile(r"[\d.,' ½⅓⅔¼¾/]*[\d½⅓⅔¼¾]")


def usable_share(value, name="the yield"):
    """A yield as Decimal: above 0, at most 1. Raises StudentError."""
    return share(value, name, above=0, at_least=None)


def _amount(value, name, above=None):
    """(Decimal, kind) of a mass (kg), a volume (L) or a count; a bare number and "12 pieces" are counts."""
    if isinstance(value, str) and _BARE.fullmatch(value.strip()):
        value = f"{value.strip()} pieces"
    if isinstance(value, str) or hasattr(value, "dimensionality"):
        quantity = Q(value)
        kind = next((k for k, (_, dims) in _BASE.items() if str(quantity.dimensionality) == dims), None)
        uncounted = kind == "count" and str(quantity.units) not in ("piece", "dozen", "dimensionless")
        if kind is None or uncounted or getattr(quantity.magnitude, "ndim", 0):
            raise StudentError(f"{value} for {name}", "a mass, a volume or a number of pieces", "500 g, 1 L or 12")
        # To twelve digits, so that 80 oz fill a 5 lb pack exactly.
        result = _TWELVE_DIGITS.plus(decimal_of(float(quantity.m_as(unit_of(_BASE[kind][0]))), name, _EXAMPLE[kind]))
    else:
        result, kind = decimal_of(value, name, "500 g, 1 L or 12 pieces"), "count"
    if result < 0 or (above is not None and result <= above):
        raise StudentError(f"{value} for {name}", "an amount above zero", _EXAMPLE[kind])
    return result, kind


@dataclass(frozen=True)
class Pack:
    """What a supplier sells: an amount (kg, L or pieces, by `kind`) at a price, and its usable share.

    price_range and yield_range are the (low, high) it may plausibly take; None where it is certain. density (kg/L)
    weighs what is sold by volume, or the reverse; None where it is not known.
    """

    name: str
    size: Decimal
    kind: str
    price: Money
    yield_share: Decimal = Decimal(1)
    price_range: tuple[Money, Money] | None = None
    yield_range: tuple[Decimal, Decimal] | None = None
    density: Decimal | None = None

    @classmethod
    def of(cls, size, price, yield_share=1, name="the pack", price_range=None, yield_range=None, density=None):
        """Pack.of("5 kg", "$62"), Pack.of("1 L", 6.40, name="cream", density="1.01 g/mL"), Pack.of(12, "$3").

        Raises StudentError: a missing or negative price, a yield outside 0 to 1, a price outside its range.
        """
        amount, kind = _amount(size, f"the size of {name}", above=0)
        if kind == "count" and amount % 1:
            raise StudentError(f"{amount} pieces in {name}", "a whole number of pieces", "12")
        cost, kept = money(price, f"the price of {name}"), usable_share(yield_share, f"the yield of {name}")
        if price_range is not None:
            price_range = tuple(money(p, f"the price range of {name}") for p in price_range)
        if yield_range is not None:
            yield_range = tuple(usable_share(y, f"the yield range of {name}") for y in yield_range)
        for value, ends in ((cost, price_range), (kept, yield_range)):
            if ends is not None and not ends[0] <= value <= ends[1]:
                raise StudentError(
                    f"{value} for {name}, outside its range {ends[0]} to {ends[1]}",
                    "low, value, high",
                    "1, 2, 3",
                )
        return cls(name, amount, kind, cost, kept, price_range, yield_range, _kg_per_litre(density))

    def holds(self, amount, density=None):
        """An amount (mass, volume or count) in this pack's own unit, as Decimal.

        Raises StudentError for an amount of another kind.
        density: "1.01 g/mL" or a quantity, to weigh what is sold by volume (or the reverse); without it the pack's own.
        """
        number, kind = _amount(amount, f"the amount of {self.name}")
        if kind == self.kind:
            return number
        kg_per_litre = self.density if density is None else _kg_per_litre(density)
        if kg_per_litre is None or "count" in (kind, self.kind):
            remedy = "" if "count" in (kind, self.kind) else ", or its density (1.01 g/mL)"
            raise StudentError(
                f"{amount} of {self.name}, which is sold by {_SOLD_BY[self.kind]}",
                _NEEDED[self.kind] + remedy,
                _EXAMPLE[self.kind],
            )
        return round(number / kg_per_litre if kind == "mass" else number * kg_per_litre, 12)


def _kg_per_litre(density):
    """A density as Decimal, None for None. Raises StudentError."""
    return None if density is None else decimal_of(_DENSITY.floats("density", density), "density", "1.01")


def unit_price(pack, per="kg", density=None):
    """As-purchased price (Money) of `per`: "kg", "lb", "100 g", "L", "piece". Raises StudentError."""
    named = per if any(c.isdigit() for c in str(per)) else f"1 {per}"
    return pack.price * (pack.holds(named, density) / pack.size)


def _packs_used(pack, amount, density):
    return Fraction(pack.holds(amount, density)) / (Fraction(pack.size) * Fraction(pack.yield_share))


def cost_of_use(pack, amount, density=None):
    """Cost (Money) of an edible amount out of a pack: price x amount / (size x yield)."""
    exact = Fraction(pack.price.amount) * _packs_used(pack, amount, density)
    return Money(decimal_of(exact, "the cost", "1.86"), pack.price.currency)


def packs_to_buy(pack, amount, density=None):
    """Whole packs (int) that hold an edible amount after the yield. Raises StudentError."""
    return -int(-_packs_used(pack, amount, density) // 1)


def cost_of_buying(pack, amount, density=None):
    """Cost (Money) of the whole packs bought for an edible amount; never below `cost_of_use`."""
    return pack.price * packs_to_buy(pack, amount, density)


def price_list(rows):
    """Packs by ingredient and by item, from the rows of prices.csv (a DataFrame, or dicts with its columns).

    An ingredient sold in several packs costs what its first row says; every row is found by its item as well.
    Raises StudentError naming the item: a missing price, a yield outside 0 to 1, an unknown unit.
    """
    packs, seen = {}, {}
    for row in rows.to_dict("records") if hasattr(rows, "to_dict") else rows:
        item, code = row["item"], row.get("currency", "")

        def cash(column, row=row, item=item, code=code):
            if row.get(column) is None or row[column] != row[column]:
                raise StudentError(f"no {column} for {item}", "a price in every row", "12.50")
            amount = money(row[column], f"the {column} of {item}")
            return amount if amount.currency else Money(amount.amount, code)

        size = Q(row["pack_size"], row["pack_unit"])
        pack = Pack.of(
            size,
            cash("price"),
            row["yield_share"],
            item,
            (cash("price_low"), cash("price_high")),
            (row["yield_low"], row["yield_high"]),
        )
        seen.setdefault(row["ingredient"], pack)
        packs[item] = pack
    common_currency(*(pack.price for pack in packs.values()))
    return packs | {name: pack for name, pack in seen.items() if name}


_LINE = "lemons; 1 kg; 4.00; 120 g; 40 %"


def read_receipt(text):
    """(formula, packs) from a shopping receipt, a line an item: "lemons; 1 kg; 4.00; 120 g; 40 %".

    In each line: the item, what the pack holds, its price, what the formula uses of it (without trim), and the
    usable share where it is not all. What is bought by volume and weighed needs a density: that of ingredients.csv for
    an ingredient it knows, else one more cell, "1.01 g/mL". A first line of headings is passed over.
    Returns {item: amount used} and {item: Pack}, as `costing.formula_cost` takes them. Raises StudentError naming the
    line.
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
    if density is None and {pack.kind, _amount(amount, f"the amount of {item}")[1]} == {"mass", "volume"}:
        pack = replace(pack, density=_tabled_density(item))
    pack.holds(amount)
    return pack, amount


def _counted(amount, item):
    """ "12 eggs" of the item eggs is 12 pieces, "600 g dark couverture" 600 g; every other text stays as it is."""
    names = {word.rstrip("s") for word in re.findall(r"[^\W\d_]+", item.casefold())}
    words = amount.split()
    while len(words) > 1 and words[-1].casefold().rstrip("s") in names and not _is_unit(words[-1]):
        words.pop()
    if len(words) < len(amount.split()):
        return " ".join([*words, "pieces"] if _BARE.fullmatch(" ".join(words)) else words)
    return amount


def _is_unit(word):
    try:
        return unit_named(word) != "piece"
    except StudentError:
        return False


def _tabled_density(item):
    """Density (Decimal, kg/L) of an ingredient of ingredients.csv, None where it has none."""
    try:
        return decimal_of(float(mass_of("1 L", item).m_as("kg")), "density", "1.01")
    except StudentError:
        return None


# --- pods and tools -----------------------------------------------------------------------------------

POD_CAUTION = "A pod from cream is rinsed and dried fully before its second use; one that stays damp moulds: bin it."
TOOL_CAUTION = (
    "A tool that touches food is sold as food-contact safe. Hardware-shop brushes, guns and scrapers without "
    "that mark stay out of the chocolate, however cheap; local rules come first."
)


def _whole(value, name):
    number = decimal_of(value, name, "25")
    if number % 1 or number < 1:
        raise StudentError(f"{value} for {name}", "a whole number of at least 1", "25")
    return int(number)


def pod_cost(price, pods=1, usable=1, used=1, credit=0):
    """What vanilla pods add to a batch (Money): used x (price / (pods x usable) - credit).

    price: of the pack; pods: in the pack; usable: share of them good enough; used: pods in the batch (a half
    is 0.5); credit: worth of one spent pod's second use, such as the vanilla sugar it replaces (POD_CAUTION).
    Raises StudentError, also for a credit above the pod's own cost: a spent pod never is worth a fresh one.
    """
    each = money(price, "the price of the pods") / (_whole(pods, "pods") * usable_share(usable, "the usable share"))
    back = money(credit, "the credit of a spent pod")
    if back > each:
        raise StudentError(f"a credit of {back} for a pod that cost {each}", "less than a fresh pod costs", "$0.40")
    number = decimal_of(used, "the pods used", "2")
    if number < 0:
        raise StudentError(f"{used} for the pods used", "a number of at least 0", "2")
    return (each - back) * number


def pods_until_bulk_pays(single_price, bulk_price, pods, usable=1):
    """Good pods used (int) from which the bulk pack costs no more than pods bought singly.

    The whole pack is paid for. Raises StudentError where the pack is too dear even when it is used up.
    """
    single, bulk = money(single_price, "one pod", above=0), money(bulk_price, "the bulk pack")
    common_currency(single, bulk)
    good = Fraction(_whole(pods, "pods")) * Fraction(usable_share(usable, "the usable share"))
    needed = -int(-Fraction(bulk.amount) // Fraction(single.amount))
    if needed > good:
        raise StudentError(
            f"a pack of {pods} at {bulk} beside single pods at {single}, which never pays",
            "a pack that is cheaper by the good pod",
            "25 pods for $45, single pods at $4",
        )
    return needed


@dataclass(frozen=True)
class Tool:
    """A tool: price, uses in its life, upkeep for each use (such as washing), whether it may touch food."""

    name: str
    price: Money
    life: int
    upkeep: Money
    food_safe: bool

    @classmethod
    def of(cls, name, price, life, upkeep=0, food_safe=False):
        """Tool.of("brush", "$9", 60, food_safe=True). Raises StudentError."""
        cost, each = money(price, f"the price of the {name}"), money(upkeep, f"the upkeep of the {name}")
        common_currency(cost, each)
        return cls(name, cost, _whole(life, f"the uses of the {name}"), each, bool(food_safe))


def tool_cost(tool, uses):
    """Cost (Money) of `uses`: every tool worn out on the way is bought whole, upkeep is paid for each use."""
    number = _whole(uses, "the uses")
    return tool.price * -(-number // tool.life) + tool.upkeep * number


def compare_tools(tools, uses, touches_food=True):
    """(tool, cost of `uses`) for the tools that may do the job, cheapest first.

    Where it touches food, tools that are not food-contact safe are left out. Raises StudentError where none
    remains.
    """
    fit = [tool for tool in tools if tool.food_safe or not touches_food]
    if not fit:
        raise StudentError("no tool that may touch food", "one that is sold as food-contact safe", "food_safe=True")
    costed = [(tool, tool_cost(tool, uses)) for tool in fit]
    common_currency(*(cost for _, cost in costed))
    return sorted(costed, key=lambda pair: pair[1])


def uses_until_dear_pays(cheap, dear):
    """Uses (int) from which the dear tool has cost no more than cheap ones; None where it wears out first."""
    for worn in range(-(-dear.life // cheap.life)):
        first, last = worn * cheap.life + 1, min((worn + 1) * cheap.life, dear.life)
        gap = dear.price - cheap.price * (worn + 1)
        saved = cheap.upkeep - dear.upkeep
        if gap <= saved * first:
            return first
        if saved > 0 and gap <= saved * last:
            return -int(-Fraction(gap / saved) // 1)
    return None
