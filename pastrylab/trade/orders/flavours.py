"""What one piece of a flavour takes: couverture of shell and cap, filling by ingredient, and the mould it is cast in."""

from dataclasses import dataclass

from pastrylab.ground import datasets, lab_tables
from pastrylab.ground.names import plain_name
from pastrylab.ground.units import StudentError
from pastrylab.trade import pantry

_SHELL = "shell and cap"


@dataclass(frozen=True)
class Flavour:
    """One moulded chocolate, grams a piece: `shell` and `cap` of one couverture, `filling` as {ingredient: grams}. It is
    cast in moulds called `mould`, of so many `cavities` of so many mL. Minutes: `make` the filling, its `rest` before it is
    piped and `crystal` in the shell before the cap, each (least, most). Plain numbers.

    >>> from pastrylab import show
    >>> one = flavour("dark ganache")
    >>> f"{one.shell + one.cap:.2f} g in {one.couverture}, {one.filled:.2f} g of filling"
    '5.52 g in dark couverture 64 %, 8.02 g of filling'
    """

    name: str
    couverture: str
    shell: float
    cap: float
    filling: dict
    mould: str
    cavities: int
    cavity_ml: float
    make: int
    rest: tuple[int, int]
    crystal: tuple[int, int]

    @property
    def filled(self):
        """Grams of filling in a piece."""
        return sum(self.filling.values())

    @property
    def allergens(self):
        """Allergens of US law that its ingredients bring, in words as a label names them."""
        facts = pantry.facts()
        return frozenset(one for name in (self.couverture, *self.filling) for one in facts[name]["allergens_us"])


def flavours():
    """Every Flavour of bonbons.csv that moulded.csv has a mould for, by name, in the order of the file.

    >>> list(flavours())
    ['dark ganache', 'raspberry ganache', 'hazelnut praline']
    """
    table, found, cavities = datasets.bonbons(), {}, {}
    for row in lab_tables.moulded():
        mould, holds = row["mould"], row["cavities"]
        if cavities.setdefault(mould, holds) != holds:
            raise StudentError(
                f"moulded.csv, {holds:g} cavities of '{mould[:40]}' for {row['bonbon']}, {cavities[mould]:g} above",
                "one number of cavities for each mould, or a name of its own for each",
                f"{mould}, wide",
            )
        coat, filling = _parts(table.where(bonbon=row["bonbon"]), row["bonbon"])
        found[row["bonbon"]] = Flavour(
            row["bonbon"],
            coat["ingredient"],
            coat["grams"] / coat["pieces"] - row["cap_g"],
            row["cap_g"],
            filling,
            mould,
            int(holds),
            row["cavity_ml"],
            int(row["make_min"]),
            (int(row["rest_least_min"]), int(row["rest_most_min"])),
            (int(row["crystal_least_min"]), int(row["crystal_most_min"])),
        )
    return found


def _parts(rows, bonbon):
    """(the row of its couverture, {ingredient: g of the filling in a piece}) of a bonbon's rows."""
    shells, filling = rows.where(part=_SHELL), {}
    if len(shells) != 1:
        raise StudentError(
            f"bonbons.csv with {len(shells)} rows of '{_SHELL}' for {bonbon}", "one couverture", "dark couverture"
        )
    coat = shells.rows[0]
    for row in rows:
        if row["part"] != _SHELL:
            filling[row["ingredient"]] = filling.get(row["ingredient"], 0.0) + row["grams"]
    return coat, {name: grams / coat["pieces"] for name, grams in filling.items()}


def flavour(name):
    """A Flavour by name, upper or lower case. Raises StudentError naming those there are.

    >>> flavour("Hazelnut Praline").mould
    'dome, 28'
    """
    return named(name, flavours())


def named(name, known):
    """The Flavour of that name, upper or lower case, among those `known` by name. Raises StudentError naming them.

    >>> named("DARK GANACHE", flavours()).cavities
    24
    """
    if name in known:
        return known[name]
    for one in known.values():
        if plain_name(one.name) == plain_name(str(name)):
            return one
    raise StudentError(f"a flavour called '{str(name)[:40]}'", "one of " + ", ".join(known), next(iter(known)))
