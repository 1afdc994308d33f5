"""The shell of a moulded piece, from its wall or from two weighings.

Density of chocolate: set 1.27 g/mL, give or take 0.03; fluid 1.22, give or take 0.03. Computed for 35 % of fat, with cocoa
butter solid 0.96-0.99 and fluid 0.88-0.90 g/mL (Beckett, 3rd ed. 1999, read in a text that quotes it) and 1.53 g/mL for
all else (from memory): 1.28 and 1.22. The same book prints 1.3 and 1.2 for chocolate.
"""

from dataclasses import dataclass

from pastrylab.ground.roots import bisect
from pastrylab.ground.units import In, Quantity, StudentError, in_digits, takes
from pastrylab.trade.moulds.cavities import CAVITIES, SCALE, cavity_of, whole

SET, FLUID, DENSITY_ERROR = 1.27, 1.22, 0.03  # g/mL
AS_SET = f"{SET} g/mL"
WALL = In("mm", above=0, at_most=20, example="1.5 mm")
DENSITY = In("g/mL", at_least=0.5, at_most=2, example="1.27 g/mL")
_MOULD = In("g", at_least=0, example="760 g")


@dataclass(frozen=True)
class Shell:
    """One shell: its mass `grams`, its volume `ml`, its `wall_mm` (None where no shape tells), and `error`, the share by
    which the mass may be wrong; plain floats. `mass`, `volume` and `wall` are quantities.

    >>> from pastrylab import show
    >>> from pastrylab.trade.moulds.cavities import hemisphere
    >>> one = shell(hemisphere("30 mm"), "1.5 mm")
    >>> show(one.mass, 3), show(one.volume, 3)
    ('2.43 g', '1.92 mL')
    """

    grams: float
    ml: float
    wall_mm: float | None
    error: float

    @property
    def mass(self):
        return Quantity(self.grams, "g")

    @property
    def volume(self):
        return Quantity(self.ml, "mL")

    @property
    def wall(self):
        return None if self.wall_mm is None else Quantity(self.wall_mm, "mm")


def _filled(cavity, wall):
    """Volume in mL of a shell, for a wall in mm. Raises StudentError for a wall that leaves no room."""
    inside = cavity_of(cavity).known.room(wall)
    if inside <= 0:
        raise StudentError(
            f"a wall of {in_digits(wall, 5)} mm in a cavity of {in_digits(cavity.ml, 3)} mL",
            "a wall that leaves room for a filling",
            "1.5 mm",
        )
    return cavity.ml - inside / 1000


@takes(wall=WALL, density=DENSITY)
def shell(cavity, wall, density=AS_SET):
    """The shell with a `wall` of one thickness everywhere: a Shell.

    cavity: a Cavity of known shape. The error is that of the wall's area and of the density; how even the wall is, only a
    broken shell shows. Raises StudentError for a cavity of unknown shape, or a wall that leaves no room.

    >>> from pastrylab import show
    >>> from pastrylab.trade.moulds.cavities import bar
    >>> show(shell(bar("40 mm", "20 mm", "10 mm"), "1.5 mm").mass, 3)
    '3.37 g'
    """
    ml = _filled(cavity, wall)
    return Shell(ml * density, ml, wall, cavity.error * 2 / 3 + DENSITY_ERROR / density)


@takes(empty=_MOULD, with_shells=In("g", above=0, example="828 g"), cavities=CAVITIES, density=DENSITY, scale=SCALE)
def shell_by_weighing(empty, with_shells, cavities, cavity=None, density=AS_SET, scale="1 g"):
    """The mean shell, from the mould weighed empty and again with its shells set and scraped: a Shell.

    One shell alone: `empty` 0 g and 1 cavity. cavity: a Cavity of known shape; then the wall follows. scale: its step,
    taken once for each weighing. Raises StudentError where the shells weigh nothing, less than the scale can tell, or more
    than fits the cavity, and for part of a cavity.

    >>> from pastrylab.trade.moulds.cavities import hemisphere
    >>> one = shell_by_weighing("760 g", "828 g", 28, hemisphere("30 mm"))
    >>> f"{one.grams:.2f} g, a wall of {one.wall_mm:.1f} mm, within {one.error:.0%}"
    '2.43 g, a wall of 1.5 mm, within 3%'
    """
    cavities = whole(cavities, "cavities")
    chocolate = with_shells - empty
    error = (2 if empty else 1) * scale
    if chocolate <= error:
        raise StudentError(
            f"{in_digits(with_shells, 5)} g with shells and {in_digits(empty, 5)} g empty, "
            f"on a scale of {in_digits(scale, 5)} g",
            "a mould that is clearly heavier with its shells",
            "760 g empty and 828 g with shells",
        )
    grams = chocolate / cavities
    shaped = cavity is not None and cavity_of(cavity).solid is not None
    wall = wall_of.floats(cavity, grams, density) if shaped else None
    return Shell(grams, grams / density, wall, error / chocolate)


@takes(returns="mm", mass=In("g", above=0, example="2.4 g"), density=DENSITY)
def wall_of(cavity, mass, density=AS_SET):
    """The wall of a shell of this mass, of one thickness everywhere.

    cavity: a Cavity of known shape. Raises StudentError for a shell that does not fit, or a cavity of unknown shape.

    >>> from pastrylab import show
    >>> from pastrylab.trade.moulds.cavities import hemisphere
    >>> show(wall_of(hemisphere("30 mm"), "2.43 g"), 3)
    '1.5 mm'
    """
    solid, ml = cavity_of(cavity).known, mass / density
    if ml >= cavity.ml:
        raise StudentError(
            f"a shell of {in_digits(mass, 3)} g in a cavity of {in_digits(cavity.ml, 3)} mL, "
            f"which holds {in_digits(cavity.ml * density, 3)} g",
            "a shell lighter than the full cavity: was the mould taken off, and divided by its cavities?",
            f"{in_digits(cavity.ml * density / 3, 2)} g",
        )
    return bisect(lambda wall: cavity.ml - solid.room(float(wall)) / 1000 - ml, 0.0, solid.depth)
