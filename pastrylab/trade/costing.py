"""Costing and pricing: from a pack and its yield to a batch, a piece, a box, a price and a break-even point.

Definitions as in open kitchen textbooks (Basic Kitchen and Food Service Management, BCcampus, yield testing;
HMD 329, Pennsylvania State University, ch. 7): yield = edible / as purchased; edible-portion cost = cost as
purchased / yield; food-cost percent = food cost / price. Nothing is rounded on the way; how a cost and a price are
rounded where they are shown: `money`. What to buy for an edible mass: `formula.purchase`, `formula.yield_after`.
"""

import difflib
from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from pastrylab.ground.money import Money, Price, add, common_currency, decimal_of, money, share, share_out
from pastrylab.ground.units import In, Q, StudentError, takes
from pastrylab.trade.pantry import ingredient_name, mass_of
from pastrylab.trade.purchasing import cost_of_use, packs_to_buy, usable_share

_MASS = In("kg", above=0, example="500 g")
_NO_WASTE = Q("0 g")


# --- from as purchased to edible ------------------------------------------------------------------


def edible_portion_cost(price, yield_share):
    """Cost of a unit that can be used: as-purchased price of that unit / yield.

    price: number, Decimal, Money or text ("$1.86"), at least 0; yield_share: above 0 to 1, or "75 %".
    Returns Money, unrounded, per the same unit as the price; it works as a number. Raises StudentError.
    """
    return money(price, "the price as purchased") / usable_share(yield_share)


@takes(purchased=_MASS, edible=In("kg", at_least=0, example="400 g"))
def edible_yield(purchased, edible):
    """Yield as a share (float) from two weighings. Raises StudentError where more is left than was bought."""
    if edible > purchased:
        raise StudentError("more edible than was bought, a yield above 100 %", "both weighed", "1 kg and 800 g")
    return edible / purchased


@takes(purchased=_MASS, portion=_MASS, waste=In("kg", at_least=0, example="200 g"))
def portions(purchased, portion, waste=_NO_WASTE):
    """Whole portions (int) from a lot after its waste. Raises StudentError where all is waste and more."""
    if waste > purchased:
        raise StudentError("more waste than was bought", "a waste below the mass bought", "3 lb of 10 lb")
    # A milligram is allowed: 7 lb hold 28 portions of 4 oz though the last binary digits differ.
    return int((purchased - waste + 1e-6) // portion)


# --- a formula, a batch, a piece, a box -----------------------------------------------------------


@dataclass(frozen=True)
class Line:
    """One ingredient: cost of what is used, whole packs to buy, and what they cost."""

    ingredient: str
    cost: Money
    packs: int
    buying: Money


@dataclass(frozen=True)
class FormulaCost:
    """Cost of a formula, line by line; `total` is for use, `buying` for the whole packs."""

    lines: tuple[Line, ...]

    @property
    def total(self):
        return add(line.cost for line in self.lines)

    @property
    def buying(self):
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
    """
    parts = _parts(formula)
    lines = tuple(_line(name, parts, _find(name, packs), densities) for name in parts)
    common_currency(*(line.cost for line in lines))
    return FormulaCost(lines)


def _line(name, parts, pack, densities):
    density = (densities or {}).get(name)
    if density is None and pack.density is None and pack.kind == "volume":
        density = _density(name)
    bought = packs_to_buy(pack, parts[name], density)
    return Line(name, cost_of_use(pack, parts[name], density), bought, pack.price * bought)


def _parts(formula):
    parts = formula if isinstance(formula, Mapping) else getattr(formula, "parts", None)
    if not isinstance(parts, Mapping) or not parts:
        raise StudentError("a formula without ingredients", "ingredients and their masses", '{"honey": "40 g"}')
    return parts


def _density(name):
    try:
        return mass_of("1 L", name) / Q("1 L")
    except StudentError:
        return None


def _find(name, packs):
    if name in packs:
        return packs[name]
    try:
        return packs[ingredient_name(name)]
    except (StudentError, KeyError):
        pass
    near = difflib.get_close_matches(str(name), packs, 3, 0.5) or sorted(packs)[:5]
    raise StudentError(f"'{name}', which has no price", "an ingredient of the price list", " / ".join(near))


def labour_cost(wage, batch_time="0 min", piece_time="0 s", pieces=0, on_costs=0):
    """Cost of labour (Money): hourly wage x (batch time + pieces x time for each) x (1 + on-costs).

    on_costs: benefits and payroll tax as a share of the wage. Raises StudentError.
    """
    seconds = [
        decimal_of(In("s", at_least=0, example="40 min").floats(name, value), name, "40 min")
        for name, value in (("batch_time", batch_time), ("piece_time", piece_time))
    ]
    hours = (seconds[0] + seconds[1] * _count(pieces, "pieces", 0)) / 3600
    return money(wage, "the hourly wage") * hours * (1 + share(on_costs, "the on-costs", at_most=2))


def _count(value, name, at_least=1):
    number = decimal_of(value, name, "60")
    if number % 1 or number < at_least:
        raise StudentError(f"{value} for {name}", f"a whole number of at least {at_least}", "60")
    return int(number)


@dataclass(frozen=True)
class BatchCost:
    """Cost of a batch by kind, and of one good piece of it. `to_the_cent` holds lines that add up."""

    materials: Money
    labour: Money
    packaging: Money
    overhead: Money
    good_pieces: int

    @property
    def prime_cost(self):
        return self.materials + self.labour

    @property
    def total(self):
        return self.prime_cost + self.packaging + self.overhead

    @property
    def per_piece(self):
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
    """
    made, lost = _count(pieces, "pieces"), _count(rejects, "rejects", 0)
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
    """
    lines = {
        label: money(each, f"the cost of {label}") * _count(pieces, label, 0)
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


# --- what moves the cost --------------------------------------------------------------------------


@dataclass(frozen=True)
class Bar:
    """One bar of a tornado: the cost when one input alone takes its low and its high value."""

    name: str
    low: object
    high: object
    cost_at_low: Money
    cost_at_high: Money

    @property
    def swing(self):
        """Money between the two ends, at least 0."""
        return abs(self.cost_at_high - self.cost_at_low)


def tornado(formula, packs, densities=None):
    """Which price or yield moves a formula's cost most: each in turn at the ends of its own range.

    Returns a list of Bar, longest first (ties in alphabetical order); inputs without a range are left out.
    Raises StudentError as `formula_cost`.
    """
    parts, bars = _parts(formula), []
    costed = formula_cost(parts, packs, densities)
    for line in costed.lines:
        pack = _find(line.ingredient, packs)
        for kind, field, ends in (
            ("price", "price", pack.price_range),
            ("yield", "yield_share", pack.yield_range),
        ):
            if ends is not None:
                at = [
                    costed.total
                    - line.cost
                    + _line(line.ingredient, parts, replace(pack, **{field: end}), densities).cost
                    for end in ends
                ]
                bars.append(Bar(f"{kind} of {line.ingredient}", *ends, *at))
    return sorted(bars, key=lambda bar: (-bar.swing.amount, bar.name))


def what_moves(formula, packs, pieces, rejects=0, wage=0, batch_time="0 min", unsure=0.2, on_costs=0, **more):
    """Which input moves the cost of one good piece most: `tornado` with labour and rejects among the bars.

    Every price and yield takes the ends of its own range; wage and working time go up and down by the share
    `unsure`, rejects from none to twice as many. on_costs: as in `labour_cost`; more: packaging_each, overhead, overhead_share of `batch_cost`.
    Returns a list of Bar, longest first. Raises StudentError as `batch_cost`.
    """
    part = share(unsure, "how unsure you are")
    minutes = In("min", at_least=0, example="40 min").floats("batch_time", batch_time)
    paid, lost = money(wage, "the hourly wage"), _count(rejects, "rejects", 0)
    parts = _parts(formula)
    used = formula_cost(parts, packs).total

    def each(materials=used, rejects=lost, wage=paid, minutes=minutes):
        work = labour_cost(wage, Q(minutes, "min"), on_costs=on_costs)
        return batch_cost(materials, pieces, rejects, work, **more).per_piece

    bars = [
        replace(bar, cost_at_low=each(bar.cost_at_low), cost_at_high=each(bar.cost_at_high))
        for bar in tornado(parts, packs)
    ]
    less, greater = float(1 - part), float(1 + part)
    for name, key, low, high in (
        ("hourly wage", "wage", paid * less, paid * greater),
        ("minutes of work", "minutes", minutes * less, minutes * greater),
        ("rejects", "rejects", 0, 2 * lost),
    ):
        bars.append(Bar(name, low, high, each(**{key: low}), each(**{key: high})))
    return sorted(bars, key=lambda bar: (-bar.swing.amount, bar.name))


# --- from a cost to a price -----------------------------------------------------------------------

TERMS = {
    "food-cost percent": "food cost / price: what share of the price the ingredients take",
    "margin": "(price - cost) / price: what share of the price is left after the cost",
    "markup": "(price - cost) / cost: how much is put on top, as a share of the cost",
    "contribution": "price - variable cost: what each piece sold gives towards the fixed costs",
    "break-even": "the sales at which the contributions have just paid the fixed costs",
    "prime cost": "cost of the materials plus labour with everything paid on top of the wage",
    "overhead": "what is paid whether or not this batch is made: rent, power, insurance",
}


def _price(amount):
    return Price(amount.amount, amount.currency)


def price_for(cost, food_cost_share):
    """Price (unrounded; shown up to the cent) at which the food cost is the given share of it: cost / share.

    cost: number, Decimal, Money or text, at least 0; food_cost_share: above 0 to 1, or "30 %".
    Raises StudentError.
    """
    part = share(food_cost_share, "the food-cost share", above=0, at_least=None)
    return _price(money(cost, "the food cost") / part)


def food_cost_allowed(price, food_cost_share):
    """What the food may cost (Money) under a given price and food-cost share."""
    return money(price) * share(food_cost_share, "the food-cost share")


def food_cost_share(cost, price):
    """Food cost as a share (float) of the price; above 1 where it is sold at a loss. Raises StudentError."""
    return float(money(cost, "the food cost") / money(price, above=0))


def price_by_margin(cost, margin):
    """Price (unrounded) that leaves `margin`, a share of the price from 0 to below 1: cost / (1 - margin)."""
    return _price(money(cost, "the cost") / (1 - share(margin, "the margin", at_most=None, below=1)))


def price_by_markup(cost, markup):
    """Price (unrounded) with `markup`, a share of the cost, on top: cost x (1 + markup); "150 %" may exceed 1."""
    return _price(money(cost, "the cost") * (1 + share(markup, "the markup", at_most=None)))


def discounted(price, off):
    """Price (unrounded) after a discount, a share of the price from 0 to 1. Raises StudentError."""
    return _price(money(price) * (1 - share(off, "the discount")))


def margin_of(cost, price):
    """(price - cost) / price as a float; negative where it is sold at a loss. Raises StudentError."""
    return float(1 - money(cost, "the cost") / money(price, above=0))


def markup_of(cost, price):
    """(price - cost) / cost as a float; negative where it is sold at a loss. Raises StudentError."""
    return float(money(price) / money(cost, "the cost", above=0) - 1)


def margin_to_markup(margin):
    """The markup (float) that leaves a margin: m / (1 - m)."""
    part = share(margin, "the margin", at_most=None, below=1)
    return float(part / (1 - part))


def markup_to_margin(markup):
    """The margin (float) that a markup leaves: k / (1 + k)."""
    part = share(markup, "the markup", at_most=None)
    return float(part / (1 + part))


# --- break-even -----------------------------------------------------------------------------------


def contribution(price, variable):
    """What one sale gives towards the fixed costs (Money): price - variable cost, negative at a loss."""
    return money(price) - money(variable, "the variable cost")


def _contribution_above_zero(price, variable):
    gained = contribution(price, variable)
    if gained <= 0:
        raise StudentError(
            f"a price of {money(price)} and a variable cost of {money(variable)}, which never break even",
            "a price above what one more costs to make",
            "price 6, variable 4",
        )
    return gained


def break_even(fixed, price, variable):
    """Pieces to sell (int, rounded up) until contributions pay the fixed costs: fixed / (price - variable).

    All in one currency: numbers, Decimal, Money or text. Raises StudentError where price <= variable.
    """
    gained, owed = _contribution_above_zero(price, variable), money(fixed, "the fixed costs")
    common_currency(owed, gained)
    # Rounded far below a piece, so that a price of a third does not ask for one more than it must.
    return -int(-round(Fraction(owed.amount) / Fraction(gained.amount), 15) // 1)


def break_even_revenue(fixed, price, variable):
    """Takings (Money) at break-even: fixed x price / (price - variable)."""
    gained = _contribution_above_zero(price, variable)
    return money(fixed, "the fixed costs") * (money(price) / gained)


def fixed_share(fixed, variable, pieces):
    """Share (float) of the total cost that is fixed, when `pieces` are made. Raises StudentError."""
    owed, each = money(fixed, "the fixed costs"), money(variable, "the variable cost")
    total = owed + each * _count(pieces, "pieces", 0)
    if not total:
        raise StudentError("no cost at all", "a fixed or a variable cost above zero", "fixed 50, variable 1.50")
    return float(owed / total)
