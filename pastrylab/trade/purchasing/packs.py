"""Packs as suppliers sell them: what a use costs, whole packs to buy for it, and the price list."""

import functools
import re
from dataclasses import dataclass
from decimal import Context, Decimal
from fractions import Fraction

from pastrylab.ground.money import Money, common_currency, decimal_of, money
from pastrylab.ground.shares import share
from pastrylab.ground.units import In, Q, StudentError, unit_of
from pastrylab.trade.pantry import mass_of, names_known

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
BARE = re.compile(r"[\d.,' ½⅓⅔¼¾/]*[\d½⅓⅔¼¾]")


def usable_share(value, name="the yield"):
    """A yield as Decimal. value: above 0 to 1, or "75 %"; name: what it is called when refused. Raises StudentError.

    >>> usable_share("75 %")
    Decimal('0.75')
    """
    return share(value, name, above=0, at_least=None)


def whole_number(value, name, at_least=1, example="60"):
    """A count as int. value: a number, called `name` where it is refused, with `example` beside it.

    Raises StudentError for part of one and for fewer than at_least.

    >>> whole_number(48, "pieces")
    48
    """
    number = decimal_of(value, name, example)
    if number % 1 or number < at_least:
        raise StudentError(f"{value} for {name}", f"a whole number of at least {at_least}", example)
    return int(number)


def amount_of(value, name, above=None):
    """(Decimal, kind) of an amount: a mass (kg), a volume (L) or a count, by kind.

    value: text, quantity or number; a bare number and "12 pieces" are counts. name: what it is called where it is
    refused. above: what it must be more than; None for at least 0. Raises StudentError for any other unit.

    >>> amount, kind = amount_of("500 g", "the honey")
    >>> float(amount), kind
    (0.5, 'mass')
    """
    if isinstance(value, str) and BARE.fullmatch(value.strip()):
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

    >>> print(Pack.of("5 kg", "$62", 0.9, name="couverture").price)
    $62.00
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
        amount, kind = amount_of(size, f"the size of {name}", above=0)
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
        number, kind = amount_of(amount, f"the amount of {self.name}")
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
    if density is None or isinstance(density, Decimal):
        return density
    return decimal_of(_DENSITY.floats("density", density), "density", "1.01")


def _packs_used(pack, amount, density):
    return Fraction(pack.holds(amount, density)) / (Fraction(pack.size) * Fraction(pack.yield_share))


def cost_of_use(pack, amount, density=None):
    """Cost (Money, unrounded) of an edible amount out of a pack: price x amount / (size x yield).

    amount: text or quantity, or a number of pieces; density: as Pack.holds. Raises StudentError for another kind of
    unit.

    >>> print(cost_of_use(Pack.of("500 g", "$8"), "40 g"))
    $0.64
    """
    exact = Fraction(pack.price.amount) * _packs_used(pack, amount, density)
    return Money(decimal_of(exact, "the cost", "1.86"), pack.price.currency)


def packs_to_buy(pack, amount, density=None):
    """Whole packs (int) that hold an edible amount after the yield.

    pack, amount, density: as cost_of_use. Raises StudentError as it does.

    >>> packs_to_buy(Pack.of("1 kg", "$4", "40 %"), "500 g")
    2
    """
    return -int(-_packs_used(pack, amount, density) // 1)


def cost_of_buying(pack, amount, density=None):
    """Cost (Money) of the whole packs bought for an edible amount; never below cost_of_use.

    pack, amount, density: as cost_of_use. Raises StudentError as it does.

    >>> print(cost_of_buying(Pack.of("1 kg", "$4", "40 %"), "500 g"))
    $8.00
    """
    return pack.price * packs_to_buy(pack, amount, density)


def price_list(rows):
    """Packs by ingredient and by item, from the rows of prices.csv, a Sheet, or a list of dicts with its columns.

    An ingredient sold in several packs costs what its first row says; every row is found by its item as well.
    Raises StudentError naming the item: a missing price, a yield outside 0 to 1, an unknown unit.

    >>> from pastrylab.ground.datasets import prices
    >>> len(price_list(prices())) > 20
    True
    """
    packs, seen = {}, {}
    named = names_known({row["ingredient"] for row in rows})
    for row in rows:
        cells = [row.get(column) for column in _READ]
        known = all(cell.__hash__ for cell in cells)  # Money has none
        pack = _pack_of_row(*cells) if known else _pack_of_row.__wrapped__(*cells)
        seen.setdefault(named[row["ingredient"]], pack)
        packs[row["item"]] = pack
    common_currency(*(pack.price for pack in packs.values()))
    return packs | {name: pack for name, pack in seen.items() if name}


_READ = ("item", "pack_size", "pack_unit", "currency", "yield_share", "yield_low", "yield_high")
_READ += ("price", "price_low", "price_high")


@functools.lru_cache(maxsize=1024, typed=True)  # a page asks for the whole list at every press
def _pack_of_row(item, size, unit, code, yield_share, yield_low, yield_high, *prices):
    def cash(column, price):
        if price is None or price != price:
            raise StudentError(f"no {column} for {item}", "a price in every row", "12.50")
        amount = money(price, f"the {column} of {item}")
        return amount if amount.currency else Money(amount.amount, code or "")

    price, *ends = map(cash, ("price", "price_low", "price_high"), prices)
    return Pack.of(Q(size, unit), price, yield_share, item, tuple(ends), (yield_low, yield_high))


def tabled_density(item):
    """Density (Decimal, kg/L) of an item that ingredients.csv knows by that name, None where it has none.

    >>> f"{tabled_density('water'):.3f}"
    '1.000'
    """
    try:
        return decimal_of(float(mass_of("1 L", item).m_as("kg")), "density", "1.01")
    except StudentError:
        return None
