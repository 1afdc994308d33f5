"""What a store room is held against: datasets/storage_limits.csv."""

from pastrylab.ground.files import load
from pastrylab.ground.tables import Column, Table

STORAGE_LIMITS = Table(
    columns=(
        Column("kind", choices=("dark", "milk", "white", "any")),
        Column(
            "what",
            choices=("humidity at the surface", "store at", "store at for long", "store drier than", "fat bloom from"),
        ),
        Column("low", "number", low=0, high=100),
        Column("high", "number", required=False, low=0, high=100),
        Column("unit", choices=("%", "degC")),
        Column("source"),
    ),
    key=("kind", "what"),
)


def storage_limits():
    """Limits of a store room, `low` to `high` in `unit`, by kind of chocolate and what is meant, each row with its source.

    `high` is nan where no source says how far the band goes. Do not write to it.

    >>> row = storage_limits().by("kind", "what")["dark", "humidity at the surface"]
    >>> f"{row['low']:g} to {row['high']:g} {row['unit']}"
    '82 to 85 %'
    """
    return load("storage_limits.csv", STORAGE_LIMITS)
