"""A store room's log cut into cells as any other, its "48 %" made bare numbers: which column bore the marks is kept."""

import re

from pastrylab.ground.units import StudentError
from pastrylab.logs.cut import SAMPLE, Sheet, cells_of, cut, score
from pastrylab.logs.store.headings import AIR, HUMIDITY

_PERCENT = re.compile(r"(?i)(?<=[0-9])[ \t]*(?:%[ \t]*(?:r\.?[ ]?h\.?|r\.?f\.?|rel\.?[ ]*h\w*\.?)?|r\.?h\.?)(?![a-z])")
_THIRD = re.compile(r"([0-9]+(?:[.,][0-9]+)?)(?:[\s,;]+(.*))?")
_DEGREES = re.compile(r"(?i)[0-9][.,0-9]*\s*(?:[°º˚]\s*[cf]?|℃|℉|deg\.?\s*[cf]|[cf])\.?")


def cut_store(text):
    """(Sheet of a log's text, what marks say of its columns: kind by index). StudentError as `cut`.

    >>> sheet, marks = cut_store("9:00; 21 °C; 48 %\\n10:00; 21 °C; 49 %")
    >>> sheet.cells[0], marks
    (('9:00', '21 °C', '48'), {2: 'humidity', 1: 'temperature'})
    """
    bare = _PERCENT.sub("", text)
    sheet = cut(bare)
    if sheet.separator == " ":
        return _spaced(sheet, text)
    raw = cells_of(text.replace("\r\n", "\n").replace("\r", "\n").split("\n")[: 10 * SAMPLE], sheet.separator)
    rows = [row for row, read in zip(raw, sheet.cells, strict=False) if score(read)][:SAMPLE]
    return sheet, _marks(rows, _PERCENT.search, HUMIDITY) | _marks(rows, _DEGREES.fullmatch, AIR)


def _marks(rows, marked, name):
    """{column: name} of those in which half of the filled cells or more are marked."""
    found = {}
    for k in range(max(map(len, rows), default=0)):
        filled = [row[k] for row in rows if len(row) > k and row[k]]
        if filled and 2 * sum(bool(marked(cell)) for cell in filled) >= len(filled):
            found[k] = name
    return found


def _spaced(sheet, text):
    """A log cut at spaces has time, temperature and the rest: where the rest begins with a number, that is the humidity,
    if a name or a mark says so.
    """
    cells = [_third(row) if score(row) else row for row in sheet.cells]
    thirds = [k for k, row in enumerate(cells) if len(row) > 3 and row[2]]
    above = " ".join(line for line, row in zip(sheet.lines, sheet.cells, strict=True) if not score(row))
    damp = re.search(r"(?i)hum|\br\.?h\b|%", above) or _PERCENT.search(text)
    if not thirds:
        alone = damp and not re.search(r"(?i)temp|[°º˚℃℉]|\b[cf]\b", above + " ".join(sheet.lines[-2:]))
        return sheet, {1: HUMIDITY if alone else AIR}
    if not damp:
        line = thirds[0] + 1
        raise StudentError(
            f"row {line}, with a second number that nothing names",
            "% behind the humidity, or a first row that names the columns",
            "9:05  18.5 °C  48 %",
        )
    return Sheet(sheet.lines, cells, sheet.separator, sheet.said), {1: AIR, 2: HUMIDITY}


def _third(row):
    found = _THIRD.fullmatch(row[2]) if len(row) > 2 else None
    return (*row[:2], found[1], found[2] or "") if found else (*row[:2], "", *row[2:])
