"""Lines of a prep list that are nothing to weigh: headings, totals and yields, steps of the work."""

import re

from pastrylab.trade.prep.amounts import range_in
from pastrylab.trade.prep.cells import heads_of
from pastrylab.trade.prep.names import VAGUE
from pastrylab.trade.prep.weights import Line

_TITLE = re.compile(
    r"\b(?:ganache|filling|truffles?|bonbons?|caramels?|mousse|glaze|sauce|base|topping|coating|shell|cr[eé]meux"
    r"|p[aâ]tes? de fruits?|fudge|toffee|nougat|brittle|brownies?|cookies?|cakes?|tarts?|insert|layer)\b",
    re.I,
)
_NUMBER_WORD = re.compile(r"\b(?:half|quarter|third|one|two|three|four|juice|zest)\b", re.I)
_TOTAL = re.compile(r"\s*(?:sub-?total|total|sum|together|altogether|yields?|makes|serves|batch)\b", re.I)
_HEADING = re.compile(r"(?:for the |step |method\b|ingredients?\b|prep list\b|recipe\b)", re.I)
_WHOLE = ("mass", "volume")


def no_part(reading):
    """A Line for a heading, a total or a step; None for an ingredient. reading: a line.Reading.

    >>> from pastrylab.trade.prep.prep_list import read_list
    >>> [line.kind for line in read_list("GANACHE (makes 60)\\nhoney 40 g\\nTotal: 40 g").lines]
    ['heading', 'part', 'total']
    """
    kinds = {one.kind for _, one in reading.found} | {one.kind for one in reading.beside}
    if _TOTAL.match(reading.text) and not reading.names.find(_bare_text(reading)):
        return Line(reading.key, "total", grams=next((a.grams for _, a in reading.found if a.kind == "mass"), None))
    if reading.brackets and not reading.found and all(map(_TOTAL.match, reading.brackets)):
        if not reading.names.find(_bare_text(reading)):  # "GANACHE (makes 60)"
            return Line(reading.key, "heading", said="a heading: nothing to weigh")
    if not kinds and heads_of(reading.cells, reading.brackets):
        return Line(reading.key, "heading", said="the heads of columns: nothing to weigh")
    if not kinds & {"mass", "volume", "count", "percent", "bare", "unclear"} and not range_in(reading.text):
        if kinds and not reading.names.find(_bare_text(reading)):
            return Line(reading.key, "step", said="a step of the work: nothing to weigh")
        return (
            None
            if _might_be_part(reading)
            else Line(reading.key, "heading", said="a heading or a step: nothing to weigh")
        )
    many = len(reading.text.split()) > 8 and "other" in kinds and not kinds & set(_WHOLE)
    return Line(reading.key, "step", said="a step of the work: nothing to weigh") if many else None


def _might_be_part(reading):
    """Whether a line without any number names something to weigh."""
    if not re.search(r"\w", reading.text):
        return False
    if reading.names.find(_bare_text(reading)) or VAGUE.search(reading.text):
        return True
    if reading.typed.rstrip().endswith(":") or _HEADING.match(reading.text):
        return False
    if len(reading.text.split()) > 6 or reading.text.isupper() or _TITLE.search(reading.text):
        return False
    return bool(reading.names.held_in(reading.text) or _NUMBER_WORD.search(reading.text))


def _bare_text(reading):
    return VAGUE.sub(" ", reading.text).strip(" ,;:")
