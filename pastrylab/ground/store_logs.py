"""The table of invented store-room logs."""

from pastrylab.ground.files import load
from pastrylab.ground.tables import Column, Table

STORE_LOGS = Table(
    columns=(
        Column("file"),
        Column("store"),
        Column("kind"),
        Column("colder", required=False),
        Column("hygrometer_error"),
        Column("truth"),
        Column("source"),
    ),
    key=("file",),
)


def store_logs():
    """The sample logs of store rooms: file in store_logs/, which store, kind of chocolate in it, by how much its coldest
    shelf is colder than the air, how far the hygrometer is good, and what is true of it.

    >>> store_logs().by("file")["cellar_two_weeks.csv"]["truth"]
    'sound: dry and cool for two weeks'
    """
    return load("store_logs.csv", STORE_LOGS)
