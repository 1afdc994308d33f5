"""Pieces, fills of a mould, and the bowl: what leaves it, what must be in it, and where it runs dry.

A mould is filled to the brim with fluid chocolate and tipped; the shells stay, the rest goes back. So the last mould
wants a full mould in the bowl, and below it the dead rest that no ladle takes up. Chocolate is neither made nor lost: what
was in the bowl is in shells, caps, on scrapers, or in the bowl.
"""

import math
from dataclasses import dataclass

from pastrylab.ground.units import In, Number, Share, StudentError, in_digits, takes
from pastrylab.trade.moulds.cavities import CAVITIES, whole
from pastrylab.trade.moulds.shells import FLUID

REJECTS = Share(at_most=None, below=1, example="20 %")
_COUNT = Number(at_least=1, at_most=100_000, example="300")
_GRAMS = In("g", at_least=0, at_most=1e6, example="2 g")
_ROUNDING = 1e-9


@dataclass(frozen=True)
class Fills:
    """Fills of a mould for an order: how many, the pieces cast in them, and how many of those should be good.

    >>> fills(300, "20 %", 28).cast
    392
    """

    count: int
    cast: int
    good: float


@takes(good=_COUNT, rejects=REJECTS, cavities=CAVITIES)
def fills(good, rejects, cavities):
    """How often moulds of so many `cavities` are filled for `good` pieces, when a share of what is cast is rejected: Fills.

    Rejects divide: good pieces / (1 - rejects), rounded up to whole moulds. rejects: a share from one's own tally. Raises
    StudentError for part of a piece or a cavity, and for rejects of everything.

    >>> fills(300, "20 %", 28).count
    14
    """
    good, cavities = whole(good, "pieces"), whole(cavities, "cavities")
    cast = good / (1 - rejects)
    count = math.ceil(cast / cavities * (1 - _ROUNDING))
    return Fills(count, count * cavities, count * cavities * (1 - rejects))


@dataclass(frozen=True)
class Mould:
    """What one mould takes through the bowl, grams: `full` poured in, `shells` that stay, `caps`, and `lost` on scraper and
    tray while its shells are cast; `spread` is what is ladled over it for the caps and scraped back. Plain floats; see mould.

    >>> mould("7.07 mL", "2.43 g", "1.44 g", 28, "5 g").stays
    73.04
    """

    full: float
    shells: float
    caps: float
    lost: float
    spread: float = 0.0

    @property
    def stays(self):
        """What leaves the bowl with one mould's shells."""
        return self.shells + self.lost


@takes(
    cavity=In("mL", above=0, example="7 mL"),
    shell=_GRAMS,
    cap=_GRAMS,
    cavities=CAVITIES,
    lost=_GRAMS,
    spread=_GRAMS,
    fluid=In("g/mL", at_least=0.5, at_most=2, example="1.22 g/mL"),
)
def mould(cavity, shell, cap, cavities, lost="0 g", spread="0 g", fluid=f"{FLUID} g/mL"):
    """What one fill of a mould takes: a Mould.

    cavity: volume of one; shell, cap: masses of one; lost: what sticks to scraper and tray at each mould, weighed; spread:
    what is ladled over the mould to cap it, and scraped back. fluid: density of the fluid chocolate. Raises StudentError
    for shells heavier than the chocolate poured, and part of a cavity.

    >>> f"{mould('7.07 mL', '2.43 g', '1.44 g', 28).full:.0f} g"
    '242 g'
    """
    cavities = whole(cavities, "cavities")
    full = cavity * fluid * cavities
    if shell * cavities + lost > full:
        raise StudentError(
            f"{in_digits(shell * cavities + lost, 4)} g of shells and losses out of {in_digits(full, 4)} g poured",
            "shells and losses lighter than the chocolate that fills the mould",
            "2.4 g a shell of 7 mL",
        )
    return Mould(full, shell * cavities, cap * cavities, lost, spread)


def mould_of(thing):
    """A Mould as it is. Raises StudentError for anything else.

    >>> mould_of(mould("7.07 mL", "2.43 g", "1.44 g", 28)).lost
    0.0
    """
    if not isinstance(thing, Mould):
        raise StudentError(
            f"{str(thing)[:40]!r} in place of a mould",
            "what one fill of a mould takes: cavity, shell, cap and cavities",
            "28 cavities of 7 mL, shells of 2.4 g, caps of 1.4 g",
        )
    return thing


@dataclass(frozen=True)
class Need:
    """What a day's moulds want of chocolate, grams: `leaves` with shells, caps and losses; `in_bowl`, what must be in it at
    the start; `comes_back`, what is left in the bowl at the end. Plain floats; `decides` says in words what sets in_bowl.

    >>> need(mould("7.07 mL", "2.43 g", "1.44 g", 28), 14, "150 g").decides
    'the caps'
    """

    leaves: float
    in_bowl: float
    comes_back: float
    decides: str

    def __str__(self):
        in_bowl, leaves = math.ceil(self.in_bowl - _ROUNDING), round(self.leaves)
        return f"{in_bowl} g must be in the bowl; {leaves} g leaves it, and {in_bowl - leaves} g comes back."


@takes(fills=_COUNT, rest=_GRAMS)
def need(one, fills, rest="0 g", caps=True, in_turn=False):
    """What must be in the bowl for so many `fills` of a Mould: a Need.

    rest: the dead rest that no ladle takes up, weighed. caps: whether the caps come from the same bowl; in_turn: each
    mould is capped before the next is cast (few moulds, used again), else all are capped after the last is cast.
    Casting wants (fills - 1) x (shells + losses; in turn the caps too) + one full mould + rest; capping wants fills x
    (shells + losses + caps) + what is spread over the last mould + rest: the larger counts. Raises StudentError for part
    of a fill.

    >>> print(need(mould("7.07 mL", "2.43 g", "1.44 g", 28), 14, "150 g"))
    1668 g must be in the bowl; 1517 g leaves it, and 151 g comes back.
    """
    fills, one = whole(fills, "fills"), mould_of(one)
    capped = one.caps * bool(caps)
    to_cast = (fills - 1) * (one.stays + capped * bool(in_turn)) + one.full + rest
    leaves = fills * (one.stays + capped)
    to_cap = leaves + (one.spread + rest) * bool(caps)
    in_bowl = max(to_cast, to_cap)
    decides = "the last mould: it is filled to the brim" if to_cast >= to_cap else "the caps"
    return Need(leaves, in_bowl, in_bowl - leaves, decides)
