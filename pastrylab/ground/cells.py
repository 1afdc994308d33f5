"""One cell of a sheet becomes a word or a number; what is neither is refused in the words of a spreadsheet."""

import difflib
import functools
import re

from pastrylab.ground.units import StudentError, read_text

WORDS = ("text", "formula")  # kinds of Column; a formula is ours to read, and may begin with =
_ERRORS = ("#REF!", "#NAME?", "#DIV/0!", "#VALUE!", "#N/A", "#NUM!", "#NULL!")
_MONTHS = "jan|feb|mar|mär|apr|may|mai|jun|jul|aug|sep|oct|okt|nov|dec|dez"
_DATE = re.compile(
    rf"(?P<day>\d{{1,2}})[. -]+(?P<month>{_MONTHS})[a-z]*\.?([ -]*\d{{2,4}})?"
    rf"|(?P<first>{_MONTHS})[a-z]*\.?[ -]+\d{{1,4}}|\d{{4}}-\d{{1,2}}-\d{{1,2}}|\d{{1,2}}[./]\d{{1,2}}[./]\d{{2,4}}",
    re.IGNORECASE,
)
_GROUPS, _GROUPS_BY_COMMA = re.compile(r"-?[1-9]\d{0,2}(\.\d{3})+"), re.compile(r"-?[1-9]\d{0,2}(,\d{3})+")
_DECIMAL_COMMA, _DECIMAL_POINT = re.compile(r"-?\d+,\d+"), re.compile(r"-?\d+\.\d+")


def commas_in(rows):
    """Whether a sheet, [(row, cells)], writes decimals with a comma and none with a point: in it 1,006 is less than two, and
    1.000 may be a thousand.

    >>> commas_in([(1, ["price"]), (2, ["4,50"])])
    True
    """
    cells = [cell.strip() for _row, cells in rows for cell in cells]
    points = any(_DECIMAL_POINT.fullmatch(cell) and not _GROUPS.fullmatch(cell) for cell in cells)
    commas = any(_DECIMAL_COMMA.fullmatch(cell) and not _GROUPS_BY_COMMA.fullmatch(cell) for cell in cells)
    return commas and not points


def cell_of(cell, column, where, commas=False):
    """What a cell of a Column holds: a text, or a float (NaN for an empty cell that may be so).

    where: file, row and column for the message; commas: as commas_in says of the sheet. Raises StudentError.

    >>> from pastrylab.ground.tables import Column
    >>> cell_of("4,50", Column("price", "number"), "prices.csv, row 2")
    4.5
    """
    if not cell:
        if column.required:
            raise StudentError(
                f"{where}: an empty cell", "a word" if column.kind in WORDS else "a number", example(column)
            )
        return "" if column.kind in WORDS else float("nan")
    if column.kind == "formula":
        return cell
    _no_formula(cell, column, where)
    if column.kind == "text":
        if column.choices and cell not in column.choices:
            near = difflib.get_close_matches(cell.casefold(), column.choices, 1, cutoff=0.5) or column.choices
            raise StudentError(f"{where}: '{cell[:40]}'", "one of " + ", ".join(column.choices), near[0])
        return cell
    return _number(cell, column, where, commas)


def _no_formula(cell, column, where):
    """Refuse what a spreadsheet leaves where it could not work a cell out, and a formula that was saved as it stands."""
    if cell in _ERRORS:
        thing = "word" if column.kind == "text" else "number"
        needed = f"the {thing} itself: the spreadsheet could not work this cell out"
        raise StudentError(f"{where}: '{cell}'", needed, example(column))
    if cell[0] == "=":
        needed = "what the formula comes to: paste the cell again as a value"
        raise StudentError(f"{where}: '{cell[:40]}'", needed, example(column))


def _number(cell, column, where, commas):
    if _DATE.fullmatch(cell):
        needed = "a number: the spreadsheet made a date of it. Set the column's format to number, then type it again"
        raise StudentError(f"{where}: '{cell}', a date", needed, example(column))
    if commas and _GROUPS.fullmatch(cell):
        needed = f"{cell.replace('.', '')} or {float(cell.split('.')[0]):g}: other cells have a decimal comma"
        raise StudentError(f"{where}: '{cell}', which can be read two ways", needed, cell.replace(".", ""))
    plain = cell.replace(",", ".") if commas and _DECIMAL_COMMA.fullmatch(cell) else cell.lstrip("$€£ ")
    try:
        typed = _read(plain)
    except StudentError as error:
        given = error.given if cell in error.given else f"'{cell[:40]}'"
        raise StudentError(
            f"{where}: {given}", error.needed.replace(" first, then its unit", ""), example(column)
        ) from None
    if typed.unit or cell[0] in "$€£":
        raise StudentError(f"{where}: '{cell[:40]}'", "a number alone, without a unit", _without(typed, column))
    if not _fits(typed.number, column):
        raise StudentError(f"{where}: {cell[:40]}", _wanted(column), example(column))
    return typed.number


_read = functools.lru_cache(maxsize=4096)(read_text)  # most numbers of a table stand there many times


def _without(typed, column):
    """The number to type in place of one with a unit: 65 % in a column of shares up to 1 is 0.65."""
    share = typed.unit == "percent" and column.high is not None and column.high <= 1
    number = typed.number / 100 if share else typed.number
    return f"{number:.10g}" if _fits(number, column) else example(column)


def _fits(number, column):
    if column.kind == "count" and number != int(number):
        return False
    return (
        (column.low is None or number >= column.low)
        and (column.high is None or number <= column.high)
        and (column.above is None or number > column.above)
    )


def _wanted(column):
    thing = "a whole number" if column.kind == "count" else "a number"
    if column.above is not None:
        return f"{thing} above {column.above:g}"
    if column.low is not None and column.high is not None:
        return f"{thing} from {column.low:g} to {column.high:g}"
    ends = (f" of at least {column.low:g}" if column.low is not None else "") + (
        f" of at most {column.high:g}" if column.high is not None else ""
    )
    return thing + ends


def example(column):
    """A cell that a Column takes, as text.

    >>> from pastrylab.ground.tables import Column
    >>> example(Column("pieces", "count", low=1, high=99))
    '50'
    """
    if column.kind in WORDS:
        return column.choices[0] if column.choices else "a short name"
    low, high = (0 if column.low is None else column.low), column.high
    middle = (low + high) / 2 if high is not None and high <= 1000 else low + 12.5
    return f"{int(middle) if column.kind == 'count' else middle:g}"


def letter(at):
    """The letters a spreadsheet gives to a column, counted from 0.

    >>> letter(0), letter(25), letter(26)
    ('A', 'Z', 'AA')
    """
    letters = ""
    while at >= 0:
        letters = chr(ord("A") + at % 26) + letters
        at = at // 26 - 1
    return letters
