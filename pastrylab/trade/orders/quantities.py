"""From an order to what it takes: moulds to fill, shells, caps and fillings to make, and what must be in each bowl."""

import math
from dataclasses import dataclass

from pastrylab.ground.units import In, Share, StudentError, takes
from pastrylab.trade.moulds.bowl import fills, mould
from pastrylab.trade.orders.flavours import Flavour, flavours, named

_GRAMS = In("g", at_least=0, at_most=1e6, example="150 g")
_LEFT = Share(at_most=None, below=1, example="5 %")


@dataclass(frozen=True)
class Ordered:
    """One `flavour` of an order: `pieces` that must be good, `fills` of its mould, pieces `cast`, and grams of `shells`,
    `caps` and of filling to make, in all (`filled`) and by ingredient (`filling`), besides what was `brought` of it of an
    earlier day. Plain numbers.

    >>> quantities({"dark ganache": 300}, "20 %").flavours[0].fills
    16
    """

    flavour: Flavour
    pieces: int
    fills: int
    cast: int
    shells: float
    caps: float
    filled: float
    filling: dict
    full: float  # g of chocolate in one mould filled to the brim
    brought: float = 0.0
    aside: float = 0.0  # g brought of which this order has no use

    name = property(lambda self: self.flavour.name)
    couverture = property(lambda self: self.flavour.couverture)
    mould = property(lambda self: self.flavour.mould)
    allergens = property(lambda self: self.flavour.allergens)


@dataclass(frozen=True)
class Bowl:
    """One couverture of an order, grams: what `leaves` the bowl, what must be `in_bowl` at the start, `comes_back` at the
    end, and of that what was `brought` of an earlier day. Plain numbers.

    >>> quantities({"dark ganache": 96}).bowls[0].couverture
    'dark couverture 64 %'
    """

    couverture: str
    fills: int
    leaves: float
    in_bowl: float
    brought: float

    @property
    def comes_back(self):
        return self.in_bowl - self.leaves

    @property
    def fresh(self):
        """Grams that must be melted anew, besides what was brought."""
        return max(self.in_bowl - self.brought, 0.0)

    @property
    def aside(self):
        """Grams brought of which this order has no use."""
        return max(self.brought - self.in_bowl, 0.0)


@dataclass(frozen=True)
class Quantities:
    """What an order takes: every flavour Ordered, every Bowl, and {ingredient: grams} to have at hand in all.

    >>> print(f"{quantities({'dark ganache': 96}).ingredients['heavy cream 36 %']:.0f} g")
    260 g
    """

    flavours: tuple[Ordered, ...]
    bowls: tuple[Bowl, ...]

    @property
    def ingredients(self):
        found = {}
        for bowl in self.bowls:
            found[bowl.couverture] = found.get(bowl.couverture, 0.0) + bowl.fresh
        for one in self.flavours:
            for name, grams in one.filling.items():
                found[name] = found.get(name, 0.0) + grams
        return {name: grams for name, grams in found.items() if grams > 0}


@takes(rejects=_LEFT, left=_LEFT, lost=_GRAMS, rest=_GRAMS)
def quantities(order, rejects="0 %", left="0 %", lost="0 g", rest="0 g", brought=None, known=None):
    """What an order takes: Quantities.

    order: {flavour: good pieces}; rejects: the share of what is cast that is not good, one's own tally; left: the share of
    a filling that stays in bowl and bag; lost: chocolate on scraper and tray at each mould; rest: what no ladle takes up
    from a bowl; brought: {couverture or flavour: grams} left of an earlier day: chocolate, melted again and in
    temper, and filling. known: {name: Flavour},
    None for those of the kitchen. Rejects and what is left
    divide. A bowl casts all flavours of its couverture, the fullest mould last, and caps them all after that. Raises
    StudentError for an unknown flavour, no piece, part of a piece.

    >>> found = quantities({"hazelnut praline": 300}, "20 %")
    >>> found.flavours[0].fills, found.flavours[0].cast  # moulds of 28: 300 / 0.8 = 375 pieces
    (14, 392)
    """
    if not order:
        raise StudentError("an empty order", "at least one flavour", "60 dark ganache")
    known = flavours() if known is None else known
    brought = dict(brought or {})
    ordered = tuple(
        _ordered(named(name, known), pieces, rejects, left, lost, brought) for name, pieces in order.items()
    )
    by_kind = {}
    for one in ordered:
        by_kind.setdefault(one.couverture, []).append(one)
    of_use = [*by_kind, *(one.name for one in ordered)]
    unknown = sorted(set(brought) - set(of_use))
    if unknown:
        raise StudentError(f"{', '.join(unknown)} left over", f"what this order takes: {', '.join(of_use)}", "none")
    bowls = tuple(_bowl(name, row, lost, rest, brought.get(name, 0.0)) for name, row in by_kind.items())
    return Quantities(ordered, bowls)


def _ordered(one, pieces, rejects, left, lost, brought):
    cast = fills(pieces, rejects, one.cavities)
    takes_up = mould.floats(one.cavity_ml, one.shell, one.cap, one.cavities, lost)
    whole, there = one.filled * cast.cast / (1 - left), brought.get(one.name, 0.0)
    made = max(whole - there, 0.0)
    share = made / one.filled if one.filled else 0.0
    return Ordered(
        one,
        int(pieces),
        cast.count,
        cast.cast,
        one.shell * cast.cast,
        one.cap * cast.cast,
        made,
        {name: grams * share for name, grams in one.filling.items()},
        takes_up.full,
        there,
        max(there - whole, 0.0),
    )


def _bowl(couverture, row, lost, rest, brought):
    count = sum(one.fills for one in row)
    stays = sum(one.shells for one in row) + count * lost
    leaves = stays + sum(one.caps for one in row)
    # At the fullest mould, cast last, all others' shells have left already.
    last = max(one.full - one.shells / one.fills - lost for one in row)
    return Bowl(couverture, count, leaves, max(stays + last, leaves) + rest, brought)


def grams_up(grams):
    """Grams to weigh out, rounded up to the whole gram: too little spoils a batch, a gram too much does not.

    >>> grams_up(1815.2)
    1816
    """
    return math.ceil(round(grams, 6))
