"""The functions a typed formula may use: a short list, each by a plain name."""

import importlib
import re
from dataclasses import dataclass


@dataclass(frozen=True)
class Function:
    """A function of the list: how many things stand in its brackets, what they are, how it is typed. works: its module and
    name in the package, "" for one that `choose` knows; takes: its arguments there, where they have another order, which is
    then told of the couverture besides."""

    fewest: int
    most: int
    says: str
    example: str
    works: str = ""
    takes: tuple[str, ...] = ()


_DARK = "dark couverture 64 %"
FUNCTIONS = {
    "min": Function(2, 9, "two amounts or more of one kind: the smallest", "min(a; b)"),
    "max": Function(2, 9, "two amounts or more of one kind: the largest", "max(a; b)"),
    "round up": Function(1, 2, "a number, or an amount and the step it goes up to", "round up(mass; 5 g)"),
    "round down": Function(1, 2, "a number, or an amount and the step it goes down to", "round down(mass; 5 g)"),
    "round": Function(1, 2, "a number, or an amount and the step it goes to, halves up", "round(mass; 5 g)"),
    "seed mass": Function(
        4,
        5,
        "the melt, its temperature, that of the seed, the target; perhaps the share of the seed that melts (else 90 %)",
        "seed mass(3 kg; 45 °C; 20 °C; 32 °C; 90 %)",
        "tempering.seed_mass",
        ("batch", "melted_at", "seed_at", "target", "melted_share"),
    ),
    "mixture temperature": Function(
        4,
        4,
        "the melt, its temperature, the seed, its temperature",
        "mixture temperature(3 kg; 45 °C; 1 kg; 20 °C)",
        "tempering.mixture_temperature",
        ("batch", "melted_at", "seed", "seed_at"),
    ),
    "heat to melt": Function(
        3,
        3,
        "the mass of dark couverture, where it starts, where it ends",
        "heat to melt(2 kg; 20 °C; 45 °C)",
        "tempering.heat_to_melt",
        ("batch", "start", "end"),
    ),
    "purchase": Function(
        2, 2, "the mass you use, and the share that is usable", "purchase(360 g; 72 %)", "yields.purchase"
    ),
    "dew point": Function(
        2, 2, "a room's temperature and its humidity", "dew point(22 °C; 55 %)", "storage.air.dew_point"
    ),
    "surface humidity": Function(
        3,
        3,
        "a surface's temperature, the room's, and the room's humidity",
        "surface humidity(15 °C; 22 °C; 55 %)",
        "storage.air.surface_humidity",
    ),
    "coldest surface": Function(
        3,
        3,
        "a room's temperature, its humidity, and the most humidity the surface may have",
        "coldest surface(22 °C; 55 %; 78 %)",
        "storage.air.coldest_surface",
    ),
    "price for": Function(
        2, 2, "the food cost, and its share of the price", "price for($1.05; 30 %)", "costing.price_for"
    ),
    "price by margin": Function(
        2, 2, "the cost, and the margin as a share of the price", "price by margin($3; 40 %)", "costing.price_by_margin"
    ),
    "break even": Function(
        3,
        3,
        "the fixed costs, the price of a piece, what a piece costs",
        "break even($12000; $6; $4)",
        "costing.break_even",
    ),
}
_BY_SPELLING = {name.replace(" ", ""): name for name in FUNCTIONS}


def named(spelled):
    """The name in the list of a function as somebody typed it; "" for none.

    >>> named("Round_Up"), named("dewpoint"), named("sin")
    ('round up', 'dew point', '')
    """
    return _BY_SPELLING.get(re.sub(r"[\s_]+", "", spelled).casefold(), "")


def from_the_house(name):
    """The package's own function behind a name of the list, as a function of what stands in its brackets.

    It checks what it is given: raises StudentError. Chocolate is the dark couverture of 64 %. None for a name that
    `choose` knows.

    >>> from pastrylab import Q, show
    >>> show(from_the_house("purchase")(Q("360 g"), Q("72 %")))
    '500 g'
    """
    listed = FUNCTIONS[name]
    if not listed.works:
        return None
    module, _, function = listed.works.rpartition(".")
    works = getattr(importlib.import_module(f"pastrylab.trade.{module}"), function)
    if not listed.takes:
        return works
    return lambda *given: works(**dict(zip(listed.takes, given, strict=False)), kind=_DARK)
