"""Reads and checks one CSV against what it must hold.

Accepted is what spreadsheets write: BOM, commas, semicolons or tabs, decimal commas, cp1252, trailing blanks. All else
is refused with the file, the row as the spreadsheet numbers it, the column, and what to do.
"""

import csv
import functools
import io
from dataclasses import dataclass
from pathlib import Path

from pastrylab.ground.units import StudentError, read_text

_LARGEST_FILE = 2_000_000
# Columns anybody may add for themselves; they are not read.
_OF_THE_READER = {"note", "notes", "remark", "remarks", "comment", "comments"}


@dataclass(frozen=True)
class Column:
    """One column of a CSV: its name, "text", "number" or "count" (a whole number), whether it may be empty, limits (`low`
    and `high` are allowed, `above` is not), and the choices allowed."""

    name: str
    kind: str = "text"
    required: bool = True
    low: float | None = None
    high: float | None = None
    above: float | None = None
    choices: tuple[str, ...] = ()


@dataclass(frozen=True)
class Table:
    """What a CSV must hold: its columns, and the columns whose values together may occur only once."""

    columns: tuple[Column, ...]
    key: tuple[str, ...] = ()


class _Numbers(list):
    """Rows' numbers. A frame copies its attrs, deep, whenever it is looked into: what nobody changes needs no copy."""

    def __deepcopy__(self, memo):
        return self


def read_table(source, table, name=None, faults=None):
    r"""Read and check a CSV. source: a Path, text, or bytes; name: what messages call it.

    Returns a DataFrame (text columns as str, number columns as float, NaN where an optional number is empty), in the
    order of the file; its attrs["rows"] holds the spreadsheet's row numbers. Raises StudentError naming file, row, column
    and remedy. With a list as `faults` a row at fault is left out instead, and (row, its cells by column, StudentError)
    is appended for each; what is wrong with the file as a whole is still raised.

    >>> pack = Table(columns=(Column("item"), Column("price", "number", low=0)))
    >>> read_table("item;price\nbutter;4,50\n", pack).to_dict("records")
    [{'item': 'butter', 'price': 4.5}]
    """
    source, name = _source(source, name)
    text = source if isinstance(source, str) else decode(source, name)
    rows = rows_of(text, [c.name for c in table.columns], name)
    header = [cell.strip().casefold() for cell in rows[0][1]]
    while header and not header[-1]:
        header.pop()
    _check_header(header, table, name)
    records, numbers, seen = [], [], {}
    for number, cells in rows[1:]:
        named = dict(zip(header, [c.strip() for c in cells] + [""] * len(header), strict=False))
        try:
            record = _record(number, cells, named, header, table, name)
            _once(record, number, seen, table, name)
        except StudentError as error:
            if faults is None:
                raise
            faults += [(number, named, fault) for fault in _each(number, cells, named, header, table, name) or [error]]
            continue
        records.append(record)
        numbers.append(number)
    import pandas as pd  # half the time of an import, and not every call reads a table

    frame = pd.DataFrame(records, columns=[c.name for c in table.columns])
    frame.attrs["rows"] = _Numbers(numbers)
    return frame


def _source(source, name):
    if not isinstance(source, Path):
        return source, name or "the table"
    name = name or source.name
    try:
        return source.read_bytes(), name
    except OSError as error:
        raise StudentError(
            f"{name}, which cannot be read ({error.strerror})", "a CSV file", "a file in datasets"
        ) from None


def _record(number, cells, named, header, table, name):
    _check_width(number, cells, header, name)
    return {c.name: _cell(named.get(c.name, ""), c, f"{name}, row {number}, column '{c.name}'") for c in table.columns}


def _check_width(number, cells, header, name):
    if any(cell.strip() for cell in cells[len(header) :]):
        raise StudentError(
            f"{name}, row {number}: more cells than the header has columns", "one cell a column", ", ".join(header)
        )


def _each(number, cells, named, header, table, name):
    """Every fault of the cells of one row."""
    found = []
    try:
        _check_width(number, cells, header, name)
    except StudentError as error:
        return [error]
    for column in table.columns:
        try:
            _cell(named.get(column.name, ""), column, f"{name}, row {number}, column '{column.name}'")
        except StudentError as error:
            found.append(error)
    return found


def _once(record, number, seen, table, name):
    key = tuple(record[k] for k in table.key)
    if table.key and key in seen:
        raise StudentError(
            f"{name}, row {number}: {' / '.join(map(str, key))} stands in row {seen[key]} already",
            f"each {' / '.join(table.key)} once",
            "delete one of the two rows",
        )
    seen[key] = number


def decode(raw, name):
    """Bytes of a small CSV as text: UTF-8 with or without its mark, UTF-16, else cp1252. Raises StudentError.

    >>> decode("crème".encode("cp1252"), "prices.csv")
    'crème'
    """
    if len(raw) > _LARGEST_FILE:
        raise StudentError(f"{name}, a file of {len(raw)} bytes", "a small CSV file", "the sheet saved as CSV UTF-8")
    for encoding in ("utf-16",) if raw[:2] in (b"\xff\xfe", b"\xfe\xff") else ("utf-8-sig", "cp1252"):
        try:
            return raw.decode(encoding)
        except UnicodeDecodeError:
            continue
    raise StudentError(f"{name}, which is not text", "a CSV file", "the sheet saved as CSV UTF-8")


def rows_of(text, known, name):
    r"""[(row number, cells)] for every row that is not blank; the separator is the one that finds most known columns.

    known: names of columns, the first row's among them. Raises StudentError for an empty or broken file.

    >>> rows_of("item;price\nbutter;4,50\n", ["item", "price"], "prices.csv")
    [(1, ['item', 'price']), (2, ['butter', '4,50'])]
    """
    lines = text.lstrip("\ufeff").splitlines()
    hint = lines[0].strip(' "').casefold() if lines else ""
    if hint.startswith("sep=") and len(hint) <= 5:  # a line for one spreadsheet program, which numbers rows without it
        del lines[0]
    first = next((line for line in lines if line.strip(" \t;,")), "")
    if "\0" in text or not first:
        raise StudentError(
            f"{name}, which is empty or is not text",
            "a CSV file with a header row",
            ",".join(known),
        )

    def found(separator):
        return sum(cell.strip(' "').casefold() in known for cell in first.split(separator))

    separator = max(",;\t", key=found)
    rows, reader = [], csv.reader(io.StringIO("\n".join(lines)), delimiter=separator, strict=True)
    try:
        for cells in reader:
            if any(cell.strip() for cell in cells):
                rows.append((reader.line_num, cells))
    except csv.Error as error:
        raise StudentError(
            f"{name}, row {reader.line_num}: a row that cannot be split into cells ({error})",
            "quotation marks in pairs",
            '"a cell, with a comma"',
        ) from None
    return rows


def _check_header(header, table, name):
    names = [c.name for c in table.columns]
    for column in table.columns:
        if column.required and column.name not in header:
            raise StudentError(
                f"{name}, row 1: no column '{column.name}'",
                "the columns " + ", ".join(names),
                ",".join(names),
            )
    for at, cell in enumerate(header):
        if cell not in names and cell not in _OF_THE_READER:
            raise StudentError(
                f"{name}, row 1, column '{cell}': a column unknown here",
                "only the columns " + ", ".join(names) + ", and note for what is yours",
                "delete that column, or call it note",
            )
        if cell in header[:at]:
            raise StudentError(
                f"{name}, row 1, column '{cell}': stands there twice",
                "each column once",
                "delete one of the two",
            )


def _cell(cell, column, where):
    if not cell:
        if column.required:
            raise StudentError(
                f"{where}: an empty cell",
                "a word" if column.kind == "text" else "a number",
                _example(column),
            )
        return "" if column.kind == "text" else float("nan")
    if column.kind == "text":
        if column.choices and cell not in column.choices:
            raise StudentError(f"{where}: '{cell[:40]}'", "one of " + ", ".join(column.choices), column.choices[0])
        return cell
    try:
        typed = _read(cell)
    except StudentError as error:
        raise StudentError(
            f"{where}: {error.given}", error.needed.replace(" first, then its unit", ""), _example(column)
        ) from None
    if typed.unit:
        raise StudentError(f"{where}: '{cell[:40]}'", "a number alone, without a unit", f"{typed.number:g}")
    if not _fits(typed.number, column):
        raise StudentError(f"{where}: {cell[:40]}", _wanted(column), _example(column))
    return typed.number


_read = functools.lru_cache(maxsize=4096)(read_text)  # most numbers of a table stand there many times


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


def _example(column):
    if column.kind == "text":
        return column.choices[0] if column.choices else "a short name"
    low, high = (0 if column.low is None else column.low), column.high
    middle = (low + high) / 2 if high is not None and high <= 1000 else low + 12.5
    return f"{int(middle) if column.kind == 'count' else middle:g}"
