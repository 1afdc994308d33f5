"""A table as a file that a spreadsheet opens by double-click, and in which no cell starts a formula."""

import csv
from decimal import Decimal

from pastrylab.school.handed_in import shown

_STARTS_A_FORMULA = ("=", "+", "-", "@", "\N{FULLWIDTH EQUALS SIGN}", "\N{FULLWIDTH PLUS SIGN}")


def cell(value, comma=False):
    """What a spreadsheet shows as it stands: text that would begin a formula begins with an apostrophe.

    >>> cell("=1+1"), cell(-4.5), cell("Ana"), cell(3.5, comma=True)
    ("'=1+1", '-4.5', 'Ana', '3,5')
    """
    if isinstance(value, float | Decimal):
        number = f"{value:g}" if isinstance(value, float) else str(value)
        return number.replace(".", ",") if comma else number
    if not isinstance(value, str):
        return value
    text = shown(value)
    return f"'{text}" if text.lstrip().startswith(_STARTS_A_FORMULA) else text


def has_semicolons(content):
    """Whether a list as it was brought, in bytes, has semicolons: its spreadsheet then writes a decimal comma.

    >>> has_semicolons(b"number;name"), has_semicolons(b"number,name")
    (True, False)
    """
    return b";" in content.partition(b"\n")[0]


def write_csv(path, rows, comma=False):
    """Write rows of text and numbers into a file; its mark tells a spreadsheet that it is UTF-8.

    comma: numbers with a decimal comma and semicolons between the cells, for a spreadsheet that is used to them.
    """
    with open(path, "w", encoding="utf-8-sig", newline="") as file:
        writer = csv.writer(file, delimiter=";" if comma else ",")
        writer.writerows([cell(one, comma) for one in row] for row in rows)
