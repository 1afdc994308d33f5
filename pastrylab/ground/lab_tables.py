"""What a lab day starts from: the mould of each flavour, and what lies in store with how long the rest takes to come."""

from pastrylab.ground.files import load
from pastrylab.ground.tables import Column, Table

_TIMES = ("make", "rest_least", "rest_most", "crystal_least", "crystal_most")
MOULDED = Table(
    columns=(
        Column("bonbon"),
        Column("mould"),
        Column("cavities", "count", low=1, high=1000),
        Column("cavity_ml", "number", low=0.5, high=500),
        Column("cap_g", "number", low=0.1, high=100),
        *(Column(f"{name}_min", "count", low=0, high=20_160) for name in _TIMES),
        Column("source"),
    ),
    key=("bonbon",),
)
STOCK = Table(
    columns=(
        Column("ingredient"),
        Column("on_hand_g", "number", low=0, high=1e7),
        Column("lead_days", "count", low=0, high=365),
        Column("source"),
    ),
    key=("ingredient",),
)
LAB = Table(
    columns=(
        Column("sort", choices=("pairs", "station", "machine", "thing", "day")),
        Column("name"),
        Column("count", "count", low=1, high=10_000),
        Column("opens", required=False),
        Column("closes", required=False),
        Column("source"),
    ),
    key=("sort", "name"),
)


def lab():
    """Who and what is in the lab: pairs at work, their stations, machines, moulds and other things, and its days. Do not write
    to it.

    A day's count is its number (1, 2 ...; a number left out is a day on which nobody is there), opens and closes its hours.

    >>> int(lab().by("name")["tempering machine"]["count"])
    2
    """
    return load("lab.csv", LAB)


def moulded():
    """The mould each bonbon is cast in: its cavities, what one holds in mL, the grams of a cap. Do not write to it.

    Minutes: to make its filling; what that rests before it is piped, at least and at most; how long it then lies in its
    shell before it is capped, at least and at most.

    >>> moulded().by("bonbon")["dark ganache"]["mould"]
    'square, 24'
    """
    return load("moulded.csv", MOULDED)


def stock():
    """What is on hand of an ingredient, in grams, and how many days an order of it takes. Do not write to it.

    >>> int(stock().by("ingredient")["raspberry puree"]["lead_days"])
    4
    """
    return load("stock.csv", STOCK)
