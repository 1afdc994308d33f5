"""What it costs: an edible portion, a formula line by line, labour, a batch and its good pieces, a box.

Definitions as in open kitchen textbooks (Basic Kitchen and Food Service Management, BCcampus, yield testing;
HMD 329, Pennsylvania State University, ch. 7): yield = edible / as purchased; edible-portion cost = cost as
purchased / yield. Nothing is rounded on the way; how a cost is rounded where it is shown: `money`. What to buy for an
edible mass: `yields`.
"""

import difflib
from collections.abc import Mapping
from dataclasses import dataclass

from pastrylab.ground.money import Money, add, common_currency, decimal_of, money
from pastrylab.ground.price_rows import price_at_fault
from pastrylab.ground.share_out import share_out
from pastrylab.ground.shares import share
from pastrylab.ground.units import In, StudentError
from pastrylab.trade.pantry import names_known
from pastrylab.trade.purchasing.packs import cost_of_use, packs_to_buy, tabled_density, usable_share, whole_number


def edible_portion_cost(price, yield_share):
    """Cost of a unit that can be used: as-purchased price of that unit / yield.

    price: number, Decimal, Money or text ("$1.86"), at least 0; yield_share: above 0 to 1, or "75 %".
    Returns Money, unrounded, per the same unit as the price; it works as a number. Raises StudentError.

    >>> print(edible_portion_cost("$1.86", "75 %"))
    $2.48
    """
    return money(price, "the price as purchased") / usable_share(yield_share)


@dataclass(frozen=True)
class Line:
    """One ingredient of a costed formula: cost of what is used, whole packs to buy, and what they cost (Money,
    unrounded).

    >>> from pastrylab.trade.purchasing.packs import Pack
    >>> print(formula_cost({"honey": "600 g"}, {"honey": Pack.of("500 g", "$8")}).lines[0].buying)
    $16.00
    """

    ingredient: str
    cost: Money
    packs: int
    buying: Money


@dataclass(frozen=True)
class FormulaCost:
    """Cost of a formula, line by line; `total` is for use, `buying` for the whole packs.

    >>> from pastrylab.trade.purchasing.packs import Pack
    >>> print(formula_cost({"honey": "600 g"}, {"honey": Pack.of("500 g", "$8")}).buying)
    $16.00
    """

    lines: tuple[Line, ...]

    @property
    def total(self):
        """What is used of everything (Money, unrounded)."""
        return add(line.cost for line in self.lines)

    @property
    def buying(self):
        """The whole packs of everything (Money)."""
        return add(line.buying for line in self.lines)

    @property
    def to_the_cent(self):
        """Lines by ingredient, rounded so that they add up to the rounded total."""
        return share_out({line.ingredient: line.cost for line in self.lines})


def formula_cost(formula, packs, densities=None):
    """Cost of a formula: {ingredient: edible mass (or volume, or pieces)}, or a Formula.

    packs: {name: Pack}, as `price_list` makes; densities: {ingredient: "1.01 g/mL"} for what is sold by
    volume, where ingredients.csv has none or another. Returns FormulaCost. Raises StudentError for an
    ingredient without a price, a pack of another kind of unit, two currencies.

    >>> from pastrylab.trade.purchasing.packs import Pack
    >>> print(formula_cost({"honey": "40 g"}, {"honey": Pack.of("500 g", "$8")}).total)
    $0.64
    """
    parts = parts_of(formula)
    lines = tuple(line_of(name, parts, pack_for(name, packs), densities) for name in parts)
    common_currency(*(line.cost for line in lines))
    return FormulaCost(lines)


def line_of(name, parts, pack, densities):
    """The costed Line of one ingredient.

    name: of the ingredient; parts: {ingredient: edible amount}; pack: its Pack; densities: as formula_cost. Raises
    StudentError for an amount the pack cannot be measured in.

    >>> from pastrylab.trade.purchasing.packs import Pack
    >>> print(line_of("honey", {"honey": "40 g"}, Pack.of("500 g", "$8"), None).cost)
    $0.64
    """
    density = (densities or {}).get(name)
    if density is None and pack.density is None and pack.kind == "volume":
        density = tabled_density(name)
    bought = packs_to_buy(pack, parts[name], density)
    return Line(name, cost_of_use(pack, parts[name], density), bought, pack.price * bought)


def parts_of(formula):
    """{ingredient: amount} of a formula: a mapping, or a Formula. Raises StudentError where there are no ingredients.

    >>> parts_of({"honey": "40 g"})
    {'honey': '40 g'}
    """
    parts = formula if isinstance(formula, Mapping) else getattr(formula, "parts", None)
    if not isinstance(parts, Mapping) or not parts:
        raise StudentError("a formula without ingredients", "ingredients and their masses", '{"honey": "40 g"}')
    return parts


def pack_for(name, packs):
    """The Pack of an ingredient, by its own name or by one that ingredients.csv knows it by.

    packs: {name: Pack}. Raises StudentError, with the nearest names, for an ingredient without a price; its
    row, where that is at fault.

    >>> from pastrylab.trade.purchasing.packs import Pack
    >>> pack_for("honey", {"honey": Pack.of("500 g", "$8", name="honey jar")}).name
    'honey jar'
    """
    if name in packs:
        return packs[name]
    known = names_known([name])[name]
    if known in packs:
        return packs[known]
    fault = price_at_fault(name) or price_at_fault(known)
    if fault:
        raise fault
    near = difflib.get_close_matches(str(name), packs, 3, 0.5) or sorted(packs)[:5]
    raise StudentError(f"'{name}', which has no price", "an ingredient of the price list", " / ".join(near))


def labour_cost(wage, batch_time="0 min", piece_time="0 s", pieces=0, on_costs=0):
    """Cost of labour (Money): hourly wage x (batch time + pieces x time for each) x (1 + on-costs).

    wage: by the hour, at least 0; batch_time, piece_time: times, at least 0; pieces: a whole number; on_costs: benefits
    and payroll tax as a share of the wage, up to 2. Raises StudentError.

    >>> print(labour_cost("$24", "40 min", on_costs="10 %"))
    $17.60
    """
    seconds = [
        decimal_of(In("s", at_least=0, example="40 min").floats(name, value), name, "40 min")
        for name, value in (("batch_time", batch_time), ("piece_time", piece_time))
    ]
    hours = (seconds[0] + seconds[1] * whole_number(pieces, "pieces", 0)) / 3600
    return money(wage, "the hourly wage") * hours * (1 + share(on_costs, "the on-costs", at_most=2))


@dataclass(frozen=True)
class BatchCost:
    """Cost of a batch by kind, and of one good piece of it. `to_the_cent` holds lines that add up.

    >>> print(batch_cost("$30", 50, rejects=2, labour="$18").per_piece)
    $1.00
    """

    materials: Money
    labour: Money
    packaging: Money
    overhead: Money
    good_pieces: int

    @property
    def prime_cost(self):
        """Materials and labour (Money, unrounded)."""
        return self.materials + self.labour

    @property
    def total(self):
        """All four kinds (Money, unrounded)."""
        return self.prime_cost + self.packaging + self.overhead

    @property
    def per_piece(self):
        """What one good piece carries of all (Money, unrounded)."""
        return self.total / self.good_pieces

    @property
    def to_the_cent(self):
        """Lines by kind that add up to the rounded total; the materials as they stand below their own list."""
        kinds = ("materials", "labour", "packaging", "overhead")
        return share_out({kind: getattr(self, kind) for kind in kinds}, carried="materials")


def batch_cost(materials, pieces, rejects=0, labour=0, packaging_each=0, overhead=0, overhead_share=0):
    """Cost of a batch of `pieces`, `rejects` of which cannot be sold: good pieces carry the cost of all.

    materials, labour, overhead: Money, number or text for the batch; packaging_each: for each good piece;
    overhead_share: overhead as a share of prime cost, added to `overhead`. Returns BatchCost.
    Raises StudentError.

    >>> print(batch_cost("$30", 50, rejects=2, labour="$18").total)
    $48.00
    """
    made, lost = whole_number(pieces, "pieces"), whole_number(rejects, "rejects", 0)
    if lost >= made:
        raise StudentError(f"{lost} rejects of {made} pieces", "at least one good piece", "2 rejects of 48 pieces")
    used, work = money(materials, "the materials"), money(labour, "labour")
    indirect = money(overhead, "overhead") + (used + work) * share(overhead_share, "the overhead share", at_most=5)
    wrapped = money(packaging_each, "packaging") * (made - lost)
    common_currency(used, work, wrapped, indirect)
    return BatchCost(used, work, wrapped, indirect, made - lost)


def box_cost(contents, packaging=None):
    """Cost of a box: {label: Money} to the cent, whose sum is the box's rounded cost.

    contents: {label: (pieces, cost of one)}; packaging: {label: cost}, e.g. {"box": "$0.85"}.
    Raises StudentError.

    >>> [f"{label}: {cost}" for label, cost in box_cost({"dark": (6, "$0.42")}, {"box": "$0.85"}).items()]
    ['dark: $2.52', 'box: $0.85']
    """
    lines = {
        label: money(each, f"the cost of {label}") * whole_number(pieces, label, 0)
        for label, (pieces, each) in contents.items()
    }
    for label, cost in (packaging or {}).items():
        if label in lines:
            raise StudentError(
                f"'{label}' twice in one box", "each line of the box under its own name", "box, cup, label"
            )
        lines[label] = money(cost, f"the cost of {label}")
    if not lines:
        raise StudentError("an empty box", "at least one line", '{"dark": (6, "$0.42")}')
    return share_out(lines)
