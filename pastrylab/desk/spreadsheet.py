"""A table as a file that a spreadsheet opens by double-click, and in which no cell starts a formula."""

import csv

from pastrylab.school.handed_in import shown

_STARTS_A_FORMULA = ("=", "+", "-", "@", "\N{FULLWIDTH EQUALS SIGN}", "\N{FULLWIDTH PLUS SIGN}")


def cell(value):
    """What a spreadsheet shows as it stands: text that would begin a formula begins with an apostrophe.

    >>> cell("=1+1"), cell(-4.0), cell("Ana")
    ("'=1+1", '-4', 'Ana')
    """
    if not isinstance(value, str):
        return f"{value:g}" if isinstance(value, float) else value
    text = shown(value)
    return f"'{text}" if text.lstrip().startswith(_STARTS_A_FORMULA) else text


def write_csv(path, rows):
    """Write rows of text and numbers into a file; its mark tells a spreadsheet that it is UTF-8."""
    with open(path, "w", encoding="utf-8-sig", newline="") as file:
        csv.writer(file).writerows([cell(one) for one in row] for row in rows)
