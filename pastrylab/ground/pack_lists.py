"""What a label calls each ingredient, in the US and in the EU, and what it is made of itself, as its pack lists it."""

from pastrylab.ground.files import load
from pastrylab.ground.tables import Column, Table

PACK_LISTS = Table(
    columns=(
        Column("ingredient"),
        Column("name_us"),
        Column("contents_us", required=False),
        Column("name_eu"),
        Column("contents_eu", required=False),
        Column("source"),
    ),
    key=("ingredient",),
)


def pack_lists():
    """Names for a label and lists of packs by ingredient; no contents: it is one thing. Do not write to it.

    The lists are of invented packs where the source says so: the pack in one's hand decides.

    >>> pack_lists().by("ingredient")["hazelnut praline 50 %"]["contents_us"]
    'hazelnuts, sugar'
    """
    return load("pack_lists.csv", PACK_LISTS)
