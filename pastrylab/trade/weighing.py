"""Weighing: a formula's parts, what a gram too much means, what a scale's step can promise, how far a cup strays."""

import math
import re
from dataclasses import dataclass

from pastrylab.ground.units import In, Quantity, Share, StudentError, read_text, show, takes
from pastrylab.trade.pantry import mass_of

_VOLUME = Quantity(1.0, "mL").dimensionality
_MASS = In("g", above=0, example="86 g")
# A comma parts two weighings only where a space follows: "3,5 g" is one of them.
_BETWEEN = re.compile(r"[\n;]|,\s")


class _PartMass(In):
    """A mass whose refusal shows how a formula is written."""

    def refuse(self, name, given, needed=None, code=False):
        return StudentError(f"{given} for {name}", needed or "a mass, with its unit", f"250 g of {name}")


PART_MASS = _PartMass("g", at_least=0, example="250 g")


def part_grams(name, mass):
    """The mass of one part of a formula in g, a plain float. name: as it is shown; mass: text or a quantity.

    Raises StudentError for a volume (with about what it weighs), a bare number, NaN, a negative mass, several masses.

    >>> part_grams("honey", "8 oz")
    226.796...
    """
    asked = read_text(mass, "[mass]").quantity if isinstance(mass, str) else mass
    if getattr(asked, "dimensionality", None) == _VOLUME:
        written = mass.strip()[:40] if isinstance(mass, str) else show(mass)
        raise StudentError(f"{written} of {name}, a volume", "a mass: a formula is by weight", _weighed(name, mass))
    return PART_MASS.floats(name, mass)


def _weighed(name, volume):
    """About what a household measure weighs, in words; any mass where nothing is tabled."""
    try:
        return f"{show(mass_of(volume, name), 3)}, about what that measure weighs"
    except StudentError:
        return f"250 g of {name}"


def part_pairs(parts):
    """The (name, mass) pairs of a mapping. Raises StudentError for anything else.

    >>> list(part_pairs({"honey": "40 g"}))
    [('honey', '40 g')]
    """
    if not hasattr(parts, "items"):
        raise StudentError(f"'{str(parts)[:60]}'", "ingredients with their masses", "40 g of honey")
    return parts.items()


@takes(arrays=True, off_by=In("g", example="2 g"), part=In("g", above=0, example="500 g"))
def error_share(off_by, part):
    """By what share of itself a part is off, off_by / part, a plain float. Raises StudentError for a part of 0 g.

    >>> error_share("2 g", "4 g")
    0.5
    """
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
    by rounding alone is one step. Raises StudentError for a step or a share of nothing.

    >>> show(smallest_weighing("1 g", "2 %"))
    '50 g'
    """
    return step / allowed


def as_shown(formula, step):
    """A Formula as a scale with steps of `step` grams shows it: {ingredient: grams}, None for a part below that scale.

    Parts the scale can weigh are rounded as Formula.rounded does, together; a part that would round to nothing has no
    number on it. Plain floats.

    >>> from pastrylab import Formula
    >>> as_shown(Formula({"honey": "40.3 g", "salt": "0.3 g"}), 1.0)
    {'honey': 40.0, 'salt': None}
    """
    large = {name: grams for name, grams in formula.grams.items() if grams >= step / 2}
    while large:
        try:
            shown = type(formula).of_grams(large).rounded(Quantity(step, "g")).grams
            return {name: shown.get(name) for name in formula.grams}
        except StudentError:  # the smallest of them shrank below a step as the total was shared out
            del large[min(large, key=large.get)]
    return dict.fromkeys(formula.grams)


def us_mass(grams):
    """A mass in US customary units as a kitchen writes it: text, pounds and ounces. Plain float in g.

    >>> us_mass(1091.5), us_mass(10.0)
    ('2 lb 6.5 oz', '0.35 oz')
    """
    ounces = grams / 28.349523125  # NIST Handbook 44, appendix C
    if round(ounces, 2) < 1:
        return f"{ounces:.2f} oz"
    tenths = round(10 * ounces)
    pounds, tenths = divmod(tenths, 160)
    rest = f"{tenths / 10:.1f}".removesuffix(".0") + " oz"
    return rest if not pounds else f"{pounds} lb" + (f" {rest}" if tenths else "")


@dataclass(frozen=True)
class Spread:
    """Repeated weighings of the same measure: how many, lowest, highest and mean mass, and (high - low) / mean.

    >>> spread("80 g; 84 g; 88 g").count
    3
    """

    count: int
    low: Quantity
    high: Quantity
    mean: Quantity
    share: float


def grams_of(weighings):
    """The weighings of one measure as floats in g: text with one mass a line, or a list. StudentError: one that is no mass.

    >>> grams_of("80 g; 84 g\\n88 g")
    [80.0, 84.0, 88.0]
    """
    if isinstance(weighings, str):
        weighings = [piece.strip() for piece in _BETWEEN.split(weighings) if piece.strip()]
    try:
        return [_MASS.floats(f"weighing {i}", mass) for i, mass in enumerate(weighings, 1)]
    except StudentError as error:
        raise StudentError(error.given, error.needed, "86 g") from None


def spread(weighings):
    """How far repeated weighings of one measure lie apart. Returns Spread.

    weighings: text with one mass a line ("82 g", "3 oz"; a semicolon parts them as well), or a list of masses. Raises
    StudentError for fewer than two, or for one that is no mass.

    >>> cups = spread("80 g; 84 g; 88 g")
    >>> f"{show(cups.mean)}, {cups.share:.3f}"
    '84 g, 0.095'
    """
    grams = grams_of(weighings)
    if len(grams) < 2:
        raise StudentError("one weighing" if grams else "no weighing", "two at least, one a line", "82 g")
    mean = math.fsum(grams) / len(grams)
    low, high = min(grams), max(grams)
    return Spread(len(grams), *(Quantity(x, "g") for x in (low, high, mean)), (high - low) / mean)
