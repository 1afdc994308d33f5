"""What goes into a shell: filling, and the cap that closes it. Shell, filling and cap together are the cavity."""

from dataclasses import dataclass

from pastrylab.ground.units import In, Quantity, StudentError, in_digits, takes
from pastrylab.trade.moulds.shells import AS_SET, DENSITY, WALL, shell

FILLING = In("g/mL", at_least=0.2, at_most=2, example="1.1 g/mL")  # a beaten one is light
HEADSPACE = "1.5 mm"  # common practice, no source: the filling ends 1 to 2 mm below the rim


@dataclass(frozen=True)
class Piece:
    """A moulded piece: millilitres and grams of its shell, filling and cap, plain floats.

    `shell`, `filling`, `cap`, `chocolate` (shell and cap) and `mass` are masses as quantities.

    >>> from pastrylab import show
    >>> from pastrylab.trade.moulds.cavities import hemisphere
    >>> one = piece(hemisphere("30 mm"), "1.5 mm", "2 mm", "1.1 g/mL")
    >>> [show(part, 3) for part in (one.shell, one.filling, one.cap, one.mass)]
    ['2.43 g', '4.42 g', '1.44 g', '8.29 g']
    """

    shell_ml: float
    filling_ml: float
    cap_ml: float
    shell_g: float
    filling_g: float
    cap_g: float

    @property
    def shell(self):
        return Quantity(self.shell_g, "g")

    @property
    def filling(self):
        return Quantity(self.filling_g, "g")

    @property
    def cap(self):
        return Quantity(self.cap_g, "g")

    @property
    def chocolate(self):
        return Quantity(self.shell_g + self.cap_g, "g")

    @property
    def mass(self):
        return Quantity(self.shell_g + self.filling_g + self.cap_g, "g")

    @property
    def filling_volume(self):
        return Quantity(self.filling_ml, "mL")


@takes(wall=WALL, headspace=WALL, filling_density=FILLING, density=DENSITY)
def piece(cavity, wall, headspace=HEADSPACE, filling_density="1.1 g/mL", density=AS_SET):
    """Shell, filling and cap of a piece from its `cavity` and `wall`: a Piece.

    headspace: how far below the rim the filling ends; the cap fills it, scraped level. density: of set chocolate. Raises
    StudentError for a cavity of unknown shape, and where wall or headspace leave no room for a filling.

    >>> from pastrylab.trade.moulds.cavities import bar
    >>> one = piece(bar("40 mm", "20 mm", "10 mm"), "2 mm", "2 mm")
    >>> f"{one.shell_ml:.3f} + {one.filling_ml:.3f} + {one.cap_ml:.3f} mL"
    '3.392 + 3.456 + 1.152 mL'
    """
    shell_ml = shell.floats(cavity, wall, density).ml
    inside = cavity.ml - shell_ml
    filling = cavity.known.room(wall, headspace) / 1000
    if filling <= 0:
        raise StudentError(
            f"a wall of {in_digits(wall, 3)} mm and a headspace of {in_digits(headspace, 5)} mm in a cavity "
            f"{in_digits(cavity.known.depth, 3)} mm deep",
            "layers that leave room for a filling",
            "a wall of 1.5 mm and a headspace of 1.5 mm",
        )
    cap = inside - filling
    return Piece(shell_ml, filling, cap, shell_ml * density, filling * filling_density, cap * density)


@takes(
    cavity=In("mL", above=0, example="7 mL"),
    shell_mass=In("g", above=0, example="2.4 g"),
    cap_mass=In("g", at_least=0, example="1.4 g"),
    filling_density=FILLING,
    density=DENSITY,
)
def piece_by_mass(cavity, shell_mass, cap_mass, filling_density="1.1 g/mL", density=AS_SET):
    """As piece, from what was weighed: the cavity's volume, and the mean masses of a shell and of a cap. A Piece.

    Raises StudentError where shell and cap fill the cavity.

    >>> from pastrylab import show
    >>> show(piece_by_mass("7 mL", "2.4 g", "1.4 g").filling, 3)
    '4.41 g'
    """
    shell_ml, cap_ml = shell_mass / density, cap_mass / density
    filling = cavity - shell_ml - cap_ml
    if filling <= 0:
        raise StudentError(
            f"{in_digits(shell_ml, 3)} mL of shell and {in_digits(cap_ml, 3)} mL of cap in a cavity of "
            f"{in_digits(cavity, 3)} mL",
            "a shell and a cap that leave room for a filling",
            "2.4 g and 1.4 g in 7 mL",
        )
    return Piece(shell_ml, filling, cap_ml, shell_mass, filling * filling_density, cap_mass)
