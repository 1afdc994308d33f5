"""How much a cavity holds: from its size, by water, or weighed full; each way with its error.

Errors are worst cases, added up: a rule read 0.5 mm wrong the same way everywhere, both weighings wrong by a step of the
scale, the surface of the water 0.25 mm off the rim (our own judgement: levelled with a straight edge, it still bulges).
"""

from dataclasses import dataclass

from pastrylab.ground.units import In, Number, Quantity, StudentError, in_digits, takes
from pastrylab.trade.moulds.solids import Bar, Cone, Dome, Solid, TallDome

WATER = 0.9982  # g/mL at 20 degC: CRC Handbook; 0.997 at 25 degC
OFF_THE_RIM = 0.25  # mm

LENGTH = In("mm", above=0, at_most=300, example="30 mm")
_RULE = In("mm", at_least=0, at_most=5, example="0.5 mm")
_MASS = In("g", above=0, example="760 g")
SCALE = In("g", at_least=0, at_most=50, example="1 g")
CAVITIES = Number(at_least=1, at_most=1000, example="28")


@dataclass(frozen=True)
class Cavity:
    """One cavity of a mould. `ml` is what it holds and `error` the share by which that may be wrong (plain floats);
    `volume`, `opening`, `walls` and `depth` are quantities. `solid` is its geometry, None where nobody measured it.
    Raises StudentError for an error that leaves nothing of it.

    >>> from pastrylab import show
    >>> cavity = hemisphere("30 mm")
    >>> show(cavity.volume, 3), show(cavity.opening, 3), f"within {cavity.error:.1%}"
    ('7.07 mL', '707 mm²', 'within 5.1%')
    """

    shape: str
    ml: float
    error: float
    solid: Solid | None = None

    def __post_init__(self):
        if self.error >= 1:
            raise StudentError(
                f"a cavity of {in_digits(self.ml, 3)} mL ({self.shape}), measured so roughly that it may as well hold nothing",
                "sizes and weights well above what rule and scale can tell",
                "a finer rule, or water in a whole mould",
            )

    @property
    def volume(self):
        return Quantity(self.ml, "mL")

    @property
    def opening(self):
        return Quantity(self.known.opening, "mm**2")

    @property
    def walls(self):
        return Quantity(self.known.walls, "mm**2")

    @property
    def depth(self):
        return Quantity(self.known.depth, "mm")

    @property
    def low(self):
        return Quantity(self.ml * (1 - self.error), "mL")

    @property
    def high(self):
        return Quantity(self.ml * (1 + self.error), "mL")

    @property
    def known(self):
        """The solid. Raises StudentError where the shape was never measured."""
        if self.solid is None:
            raise StudentError(
                "a cavity of which only the volume is known",
                "its shape as well: opening and depth, taken with a rule",
                "a dome, 30 mm across and 12 mm deep",
            )
        return self.solid

    def __str__(self):
        ml, low, high = (in_digits(number, 3) for number in (self.ml, self.low.magnitude, self.high.magnitude))
        return f"{ml} mL, {low} to {high} mL ({self.shape})"


def cavity_of(thing):
    """A Cavity as it is. Raises StudentError for anything else.

    >>> cavity_of(hemisphere("30 mm")).shape
    'half ball'
    """
    if not isinstance(thing, Cavity):
        raise StudentError(
            f"{str(thing)[:40]!r} in place of a cavity",
            "a cavity, measured by its size or by water",
            "a half ball of 30 mm",
        )
    return thing


def _by_rule(shape, solid, small, large):
    """A cavity of a measured solid; small and large: the same with every length read wrong."""
    room = solid.room()
    error = max(large.room() - room, room - small.room()) / room
    return Cavity(shape, room / 1000, error, solid)


def _above_rule(rule, **lengths):
    for name, length in lengths.items():
        if length <= 2 * rule:
            raise StudentError(
                f"{in_digits(length, 5)} mm for {name}, read to {in_digits(rule, 5)} mm",
                "a length well above what the rule can tell",
                "a finer rule, or the cavity by water",
            )


def _dome(radius, depth):
    return Dome(radius, depth) if depth <= radius else TallDome(radius, depth)


@takes(diameter=LENGTH, rule=_RULE)
def hemisphere(diameter, rule="0.5 mm"):
    """A half ball by the diameter of its opening: a Cavity. rule: how well the diameter was read.

    Raises StudentError for no length, or one the rule cannot tell.

    >>> print(hemisphere("30 mm"))
    7.07 mL, 6.71 to 7.43 mL (half ball)
    """
    _above_rule(rule, diameter=diameter)
    low, solid, high = (Dome(d / 2, d / 2) for d in (diameter - rule, diameter, diameter + rule))
    return _by_rule("half ball", solid, low, high)


@takes(diameter=LENGTH, depth=LENGTH, rule=_RULE)
def dome(diameter, depth, rule="0.5 mm"):
    """A dome by the diameter of its opening and its depth: a Cavity.

    Shallower than half the diameter it is part of a ball, deeper half a ball drawn out downwards. Raises StudentError for
    no length, or one the rule cannot tell.

    >>> print(dome("30 mm", "10 mm"))
    4.06 mL, 3.67 to 4.44 mL (dome)
    """
    _above_rule(rule, diameter=diameter, depth=depth)
    low, solid, high = (_dome((diameter + off) / 2, depth + off) for off in (-rule, 0.0, rule))
    return _by_rule("dome", solid, low, high)


@takes(diameter=LENGTH, depth=LENGTH, bottom=In("mm", at_least=0, at_most=300, example="12 mm"), rule=_RULE)
def cone(diameter, depth, bottom="0 mm", rule="0.5 mm"):
    """A cone by its opening, its depth and the diameter of its flat `bottom` (0 mm: pointed): a Cavity.

    Raises StudentError for no length, one the rule cannot tell, or a bottom wider than the opening.

    >>> print(cone("30 mm", "20 mm"))
    4.71 mL, 4.43 to 4.99 mL (cone)
    """
    _above_rule(rule, diameter=diameter, depth=depth)
    if bottom > diameter:
        raise StudentError(
            f"a bottom of {in_digits(bottom, 5)} mm under an opening of {in_digits(diameter, 5)} mm",
            "a bottom no wider than the opening, or no piece comes out",
            "12 mm under 30 mm",
        )
    low, solid, high = (
        Cone((diameter + off) / 2, depth + off, max(bottom + off, 0.0) / 2 if bottom else 0.0)
        for off in (-rule, 0.0, rule)
    )
    return _by_rule("cone", solid, low, high)


@takes(length=LENGTH, width=LENGTH, depth=LENGTH, rule=_RULE)
def bar(length, width, depth, rule="0.5 mm"):
    """A bar with upright walls and sharp edges: a Cavity. Where the walls lean, take the middle of the depth.

    Raises StudentError for no length, or one the rule cannot tell.

    >>> print(bar("40 mm", "20 mm", "10 mm"))
    8 mL, 7.28 to 8.72 mL (bar)
    """
    return _bar("bar", length, width, depth, 0.0, rule)


@takes(length=LENGTH, width=LENGTH, depth=LENGTH, radius=LENGTH, rule=_RULE)
def rounded_bar(length, width, depth, radius, rule="0.5 mm"):
    """A bar whose lower edges and upright corners are rounded by `radius`: a Cavity.

    Raises StudentError for no length, one the rule cannot tell, or a rounding for which the bar is too narrow or flat.

    >>> print(rounded_bar("40 mm", "20 mm", "10 mm", "4 mm"))
    7.49 mL, 6.67 to 8.32 mL (rounded bar)
    """
    most = min(length / 2, width / 2, depth)
    if radius > most:
        raise StudentError(
            f"a rounding of {in_digits(radius, 5)} mm in a bar {in_digits(length, 5)} by {in_digits(width, 5)} mm and "
            f"{in_digits(depth, 5)} mm deep",
            "a radius of at most half the width, and of at most the depth",
            f"{in_digits(most, 5)} mm",
        )
    return _bar("rounded bar", length, width, depth, radius, rule)


def _bar(shape, length, width, depth, radius, rule):
    _above_rule(rule, length=length, width=width, depth=depth)
    low = Bar(
        length - rule,
        width - rule,
        depth - rule,
        min((width - rule) / 2, (length - rule) / 2, depth - rule, radius + rule * bool(radius)),
    )
    high = Bar(length + rule, width + rule, depth + rule, max(radius - rule, 0.0))
    return _by_rule(shape, Bar(length, width, depth, radius), low, high)


@takes(empty=_MASS, full=_MASS, cavities=CAVITIES, scale=SCALE)
def by_water(empty, full, cavities, like=None, scale="1 g"):
    """A cavity by water: the mould weighed empty and dry, then with its cavities filled level: a Cavity.

    full: all `cavities` filled. scale: its step. like: a Cavity of the same shape by rule, which then takes the volume
    measured here (its lengths grow in proportion). Water of 20 degC; at 25 degC 0.1 % less dense. Raises StudentError
    where the full mould is no heavier, for part of a cavity, or where the scale cannot tell.

    >>> print(by_water("760 g", "958 g", 28, like=hemisphere("30 mm")))
    7.08 mL, 6.84 to 7.33 mL (half ball, by water)
    """
    return _weighed("water", empty, full, cavities, WATER, 0.0, like, scale)


@takes(
    empty=_MASS,
    full=_MASS,
    cavities=CAVITIES,
    density=In("g/mL", above=0.2, at_most=3, example="1.27 g/mL"),
    density_error=In("g/mL", at_least=0, at_most=1, example="0.03 g/mL"),
    scale=SCALE,
)
def by_weighing(empty, full, cavities, density, density_error="0.03 g/mL", like=None, scale="1 g"):
    """A cavity by weighing the mould filled level with something of known `density`, such as fluid chocolate: a Cavity.

    As by_water, with the error of the density on top. Weigh before it sets: it shrinks. Raises StudentError as by_water.

    >>> print(by_weighing("760 g", "1010 g", 28, "1.25 g/mL"))
    7.14 mL, 6.74 to 7.55 mL (free form, weighed full)
    """
    return _weighed("weighed full", empty, full, cavities, density, density_error, like, scale)


def _weighed(way, empty, full, cavities, density, density_error, like, scale):
    cavities = whole(cavities, "cavities")
    inside = full - empty
    if inside <= 2 * scale:
        raise StudentError(
            f"{in_digits(full, 5)} g full and {in_digits(empty, 5)} g empty, on a scale of {in_digits(scale, 5)} g",
            "a full mould that is clearly heavier than the empty one",
            "760 g empty and 958 g full",
        )
    ml = inside / density / cavities
    shape, solid = "free form", None
    if like is not None:
        shape = cavity_of(like).shape
        solid = like.known.scaled((1000 * ml / like.known.room()) ** (1 / 3))
    opening = solid.opening if solid else _ball_opening(ml)
    name = f"{shape}, by water" if way == "water" else f"{shape}, {way}"
    error = 2 * scale / inside + density_error / density + OFF_THE_RIM * opening / (1000 * ml)
    return Cavity(name, ml, error, solid)


def _ball_opening(ml):
    """Opening in mm2 of the half ball that holds as much: what stands in where nobody measured it."""
    radius = (1000 * ml * 3 / 6.283185307179586) ** (1 / 3)
    return Dome(radius, radius).opening


def whole(number, name):
    """A count of things as an int. Raises StudentError for part of one.

    >>> whole(28.0, "cavities")
    28
    """
    if number != int(number):
        raise StudentError(f"{number:g} {name}", f"a whole number of {name}", f"{int(number) + 1}")
    return int(number)


def surest(*cavities):
    """The one of several measurements of a cavity whose error is smallest. Raises StudentError for none.

    >>> surest(hemisphere("30 mm"), by_water("760 g", "958 g", 28)).shape
    'free form, by water'
    """
    if not cavities:
        raise StudentError("no measurement", "at least one", "a half ball of 30 mm")
    return min(cavities, key=lambda cavity: cavity_of(cavity).error)
