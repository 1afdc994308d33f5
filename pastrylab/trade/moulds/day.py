"""A day at the moulds, one after the other: what is in the bowl at each, where it runs dry, when the last is set."""

import math
from dataclasses import dataclass

from pastrylab.ground.units import In, Number, Quantity, StudentError, in_digits, takes
from pastrylab.trade.moulds.bowl import REJECTS, mould_of
from pastrylab.trade.moulds.cavities import CAVITIES, whole

_FILLS = Number(at_least=1, at_most=2000, example="14")
_GRAMS = In("g", at_least=0, at_most=1e6, example="2 kg")
_STOCK = In("g", above=0, at_most=1e6, example="2 kg")
_MINUTES = In("min", at_least=0, at_most=2880, example="15 min")
_SLACK = 1e-9


@dataclass(frozen=True)
class Cast:
    """One mould at the bowl: its `number` from 1, grams in the bowl `before` it, `poured` in, `back` tipped out, `stays` in
    the mould and `lost` on the way, and `after`. Plain floats.

    >>> one = Cast(1, 2000.0, 242.0, 169.0, 68.0, 5.0, 1927.0)
    >>> one.poured - one.back == one.stays + one.lost
    True
    """

    number: int
    before: float
    poured: float
    back: float
    stays: float
    lost: float
    after: float


@dataclass(frozen=True)
class Day:
    """Moulds cast from one bowl: `casts`, those that were filled to the brim; `dry`, the number of the first that could not
    be, or None; `left`, grams in the bowl at the end; `capped`, how many of the cast moulds the rest of the bowl closes.

    >>> from pastrylab.trade.moulds.bowl import mould
    >>> from_bowl("900 g", mould("7.07 mL", "2.43 g", "1.44 g", 28, "5 g"), 14, "100 g").dry
    9
    """

    casts: tuple[Cast, ...]
    dry: int | None
    left: float
    capped: int

    def __str__(self):
        cast = len(self.casts)
        if self.dry:
            return f"The bowl ends at mould {self.dry}: {self.left:.0f} g are left in it, too little to fill a mould."
        shut = "all of them" if self.capped == cast else f"{self.capped} of them"
        return f"All {cast} moulds are cast; the {self.left:.0f} g left in the bowl close {shut}."


@takes(start=_GRAMS, fills=_FILLS, rest=_GRAMS)
def from_bowl(start, one, fills, rest="0 g"):
    """What happens to a bowl of `start` when so many `fills` of a Mould are cast from it, one after the other: a Day.

    Each is filled to the brim and tipped; a mould that the bowl cannot fill, dead rest apart, is where it ends. The bowl is
    never topped up. capped: moulds whose caps, with what is spread over them, the rest of the bowl still makes. Raises
    StudentError for part of a fill.

    >>> from pastrylab.trade.moulds.bowl import mould
    >>> print(from_bowl("900 g", mould("7.07 mL", "2.43 g", "1.44 g", 28, "5 g"), 14, "100 g"))
    The bowl ends at mould 9: 316 g are left in it, too little to fill a mould.
    """
    fills, one, casts, bowl = whole(fills, "fills"), mould_of(one), [], start
    for number in range(1, fills + 1):
        if bowl - rest < one.full - _SLACK:
            return Day(tuple(casts), number, bowl, _closed(bowl - rest, one, len(casts)))
        after = bowl - one.stays
        casts.append(Cast(number, bowl, one.full, one.full - one.stays, one.shells, one.lost, after))
        bowl = after
    return Day(tuple(casts), None, bowl, _closed(bowl - rest, one, len(casts)))


def _closed(usable, one, cast):
    """How many of `cast` moulds the rest of a bowl closes."""
    if not one.caps or usable - one.spread >= cast * one.caps - _SLACK:
        return cast
    return math.floor(max(usable - one.spread, 0.0) / one.caps + _SLACK)


@dataclass(frozen=True)
class Made:
    """Pieces that filling and chocolate allow: `cast` and `good` (plain numbers), whole `fills`, `short` ("filling" or
    "chocolate"), which runs out first, and what is left over of each.

    >>> made("1.2 kg", "3 kg", "4.4 g", "3.9 g", 28, "10 %").short
    'filling'
    """

    fills: int
    cast: int
    good: float
    short: str
    filling_left: Quantity
    chocolate_left: Quantity


@takes(
    filling=_STOCK,
    chocolate=_STOCK,
    filling_each=In("g", above=0, example="4.4 g"),
    chocolate_each=In("g", above=0, example="3.9 g"),
    cavities=CAVITIES,
    rejects=REJECTS,
)
def made(filling, chocolate, filling_each, chocolate_each, cavities, rejects="0 %"):
    """Pieces from a batch: whole moulds of what filling and chocolate both allow, whichever runs out first. A Made.

    chocolate: what may leave the bowl (without what must be in it at the last mould and its dead rest). chocolate_each:
    shell and cap, with losses. Raises StudentError where not one mould can be filled.

    >>> made("1.2 kg", "3 kg", "4.4 g", "3.9 g", 28, "10 %").cast
    252
    """
    cavities = whole(cavities, "cavities")
    of_filling = math.floor(filling / (filling_each * cavities) + _SLACK)
    of_chocolate = math.floor(chocolate / (chocolate_each * cavities) + _SLACK)
    fills = min(of_filling, of_chocolate)
    if not fills:
        raise StudentError(
            f"{in_digits(filling, 4)} g of filling and {in_digits(chocolate, 4)} g of chocolate for a mould of {cavities}",
            "enough of both for one mould",
            f"{math.ceil(filling_each * cavities)} g of filling and {math.ceil(chocolate_each * cavities)} g of chocolate",
        )
    by_pieces = filling / filling_each <= chocolate / chocolate_each
    cast = fills * cavities
    left = (filling - cast * filling_each, chocolate - cast * chocolate_each)
    return Made(
        fills,
        cast,
        cast * (1 - rejects),
        "filling" if by_pieces else "chocolate",
        *(Quantity(max(m, 0.0), "g") for m in left),
    )


@takes(
    returns="g",
    each=In("g", above=0, example="4.4 g"),
    pieces=Number(at_least=1, at_most=1e6, example="392"),
    left=REJECTS,
)
def batch(each, pieces, left="0 %"):
    """What to make of a filling (or of caps) for so many pieces cast, when a share of what is made stays in bag and bowl.

    What stays behind divides: each x pieces / (1 - left). Raises StudentError for a share of everything, part of a piece.

    >>> from pastrylab import show
    >>> show(batch("4.4 g", 392, "5 %"), 4)
    '1816 g'
    """
    return each * whole(pieces, "pieces") / (1 - left)


@takes(fills=_FILLS, moulds=Number(at_least=1, at_most=1000, example="4"), hands=_MINUTES, sets=_MINUTES, returns="min")
def earliest_end(fills, moulds, hands, sets):
    """When the last of so many fills is out, with so many moulds at hand, at the earliest.

    hands: minutes of handwork a fill takes, one fill at a time. sets: minutes it then stands before the mould is free again
    (setting, filling, capping and chilling, as your own clock says). A mould is filled again once it is free. Raises
    StudentError for part of a fill or mould.

    >>> from pastrylab import show
    >>> show(earliest_end(14, 4, "10 min", "60 min"))
    '290 min'
    """
    fills, moulds = whole(fills, "fills"), whole(moulds, "moulds")
    free, clock = [0.0] * min(moulds, fills), 0.0
    for number in range(fills):
        which = number % len(free)
        clock = max(clock, free[which]) + hands
        free[which] = clock + sets
    return clock + sets
