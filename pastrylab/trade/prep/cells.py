"""The cells of a line of a prep list: what its tabs, semicolons, colons and brackets part."""

import re
from dataclasses import dataclass

from pastrylab.ground.spellings import UNIT_OF
from pastrylab.trade.prep.amounts import amounts_in

_BULLET = re.compile(r"^\s*(?:(?:[-*•·–—▪◦☐✓]|\[ ?[xX]?\]|\d{1,2}[.)](?=\s))\s*)+")
# Between the cells of a line; a colon in a ratio, a comma in a number and a hyphen in a word part nothing.
_CELLS = re.compile(
    r"\s*[\t;|=]\s*|\s*:(?!\d)\s*|:(?=\d+(?:\s|[a-zA-Z]))(?<!\d:)|\s+[-–—]+\s+|(?<!\d),(?=\S)|,(?=[^\d\s])|\.{2,}|_{2,}"
)
_BRACKETS = re.compile(r"[(\[]([^()\[\]]*)[)\]]")

_COLUMNS = re.compile(
    r"(?:ingredients?|items?|names?|amount|quantity|qty|weight|mass|grams?|g|oz|ounces|units?|notes?|remarks?|percent)\b|%",
    re.I,
)
_HOW_MUCH = re.compile(r"(?:amount|quantity|qty|weight|mass)\b", re.I)


@dataclass(frozen=True)
class Heads:
    """The heads of a table: in which of its columns the amount stands (`at`), and its unit, or ""."""

    at: int
    unit: str


def cells_of(line):
    """(its text without brackets, its cells, what stood in brackets) of a line; a bullet or a number in front is dropped.

    A number in one cell and its unit in the next are one amount.

    >>> cells_of("1. Heavy cream\\t250\\tg (warm)")
    ('Heavy cream\\t250\\tg', ['Heavy cream', '250 g'], ['warm'])
    """
    text = _BULLET.sub("", line.replace("\xa0", " ")).strip(' "')
    brackets = _BRACKETS.findall(text)
    if brackets:
        text = re.sub(" +", " ", _BRACKETS.sub(" ", text)).strip(" ,")
    return text, _joined([cell.strip(' ",') for cell in _CELLS.split(text)]), brackets


def _joined(cells):
    """The cells of a line that hold something; a number in one and its unit in the next are one amount."""
    out = []
    for cell in filter(None, cells):
        if out and re.fullmatch(r"[\d.,/ ½¼¾]+", out[-1]) and re.fullmatch(r"[a-zA-Z ]{1,12}\.?|%", cell):
            one = amounts_in(f"{out[-1]} {cell}")
            if len(one) == 1 and one[0].kind in ("mass", "volume", "percent", "unclear"):
                out[-1] = f"{out[-1]} {cell}"
                continue
        out.append(cell)
    return out


def heads_of(cells, brackets=()):
    """The Heads of a table where these cells are its first row, else None.

    >>> heads_of(["Ingredient", "Grams", "%"]), heads_of(["Heavy cream", "250 g"])
    (Heads(at=1, unit='g'), None)
    """
    if len(cells) < 2 or not all(map(_COLUMNS.match, cells)):
        return None
    units = [UNIT_OF.get(cell.casefold(), "") for cell in cells]
    for at, (cell, unit) in enumerate(zip(cells, units, strict=True)):
        if unit in ("g", "kg", "oz", "lb"):
            return Heads(at, unit)
        if _HOW_MUCH.match(cell):
            return Heads(at, next((UNIT_OF[one.casefold()] for one in brackets if one.casefold() in UNIT_OF), ""))
    return Heads(len(cells), "")
