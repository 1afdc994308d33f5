"""Weighing: what a gram too much means for a part, what a scale's step can promise, how far a cup strays."""

import math
import re
from dataclasses import dataclass

from pastrylab.units import In, Quantity, Share, StudentError, takes

_MASS = In("g", above=0, example="86 g")
# A comma parts two weighings only where a space follows: "3,5 g" is one of them.
_BETWEEN = re.compile(r"[\n;]|,\s")


@takes(off_by=In("g", example="2 g"), part=In("g", above=0, example="500 g"))
def error_share(off_by, part):
    """By what share of itself a part is off, off_by / part: error_share("2 g", "4 g") -> 0.5. Raises StudentError."""
    return off_by / part


@takes(
    returns="g",
    step=In("g", above=0, example="1 g"),
    allowed=Share(at_least=None, above=0, example='0.02 or "2 %"'),
)
def smallest_weighing(step, allowed):
    """The smallest mass, in g, that a scale of that step weighs within a share of itself: step / allowed.

    A digital display stands for anything within half a step of it (JCGM 100:2008, Guide to the Expression of
    Uncertainty in Measurement, F.2.2.1). A tared weight is the difference of two displays, so the worst it can be off
    by rounding alone is one step. Raises StudentError.
    """
    return step / allowed


@dataclass(frozen=True)
class Spread:
    """Repeated weighings of the same measure: how many, lowest, highest and mean mass, and (high - low) / mean."""

    count: int
    low: Quantity
    high: Quantity
    mean: Quantity
    share: float


def spread(weighings):
    """How far repeated weighings of one measure lie apart. Returns Spread.

    weighings: text with one mass a line ("82 g", "3 oz"; a semicolon parts them as well), or a list of masses. Raises
    StudentError for fewer than two, or for one that is no mass.
    """
    if isinstance(weighings, str):
        weighings = [piece.strip() for piece in _BETWEEN.split(weighings) if piece.strip()]
    try:
        grams = [_MASS.floats(f"weighing {i}", mass) for i, mass in enumerate(weighings, 1)]
    except StudentError as error:
        raise StudentError(error.given, error.needed, "86 g") from None
    if len(grams) < 2:
        raise StudentError("one weighing" if grams else "no weighing", "two at least, one a line", "82 g")
    mean = math.fsum(grams) / len(grams)
    low, high = min(grams), max(grams)
    return Spread(len(grams), *(Quantity(x, "g") for x in (low, high, mean)), (high - low) / mean)
