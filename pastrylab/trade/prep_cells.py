"""The cells of a line of a prep list: what its tabs, semicolons, colons and brackets part."""

import re

from pastrylab.trade.prep_amounts import amounts_in

_BULLET = re.compile(r"^\s*(?:(?:[-*•·–—▪◦☐✓]|\[ ?[xX]?\]|\d{1,2}[.)](?=\s))\s*)+")
# Between the cells of a line; a colon in a ratio, a comma in a number and a hyphen in a word part nothing.
_CELLS = re.compile(
    r"\s*[\t;|=]\s*|\s*:(?!\d)\s*|:(?=\d+(?:\s|[a-zA-Z]))(?<!\d:)|\s+[-–—]+\s+|(?<!\d),(?=\S)|,(?=[^\d\s])|\.{2,}|_{2,}"
)
_BRACKETS = re.compile(r"[(\[]([^()\[\]]*)[)\]]")


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
