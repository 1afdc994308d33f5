"""Reads and checks one CSV against what it must hold.

Accepted is what spreadsheets write: BOM, commas, semicolons or tabs, decimal commas, cp1252, trailing blanks. All else
is refused with the file, the row as the spreadsheet numbers it, the column, and what to do.
"""

import csv
import difflib
import io
import re
from dataclasses import dataclass
from pathlib import Path

from pastrylab.ground.cells import cell_of, commas_in, letter
from pastrylab.ground.sheet import Sheet
from pastrylab.ground.units import StudentError

_LARGEST_FILE = 2_000_000
_LINES_OF_A_ROW = 20  # the most that a cell with line breaks may bring; a quotation mark open for longer was never shut
# Columns anybody may add for themselves; they are not read.
_OF_THE_READER = {"note", "notes", "remark", "remarks", "comment", "comments"}


@dataclass(frozen=True)
class Column:
    """One column of a CSV: its name, "text", "formula" (text too), "number" or "count" (a whole number), whether it may be empty, limits (`low`
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


def read_table(source, table, name=None, faults=None):
    r"""Read and check a CSV. source: a Path, text, or bytes; name: what messages call it.

    Returns a Sheet: words as str, numbers as float, NaN where an optional number is empty, in the order of the file. Raises
    StudentError naming file, row, column and remedy. With a list as `faults` a row at fault is left out instead, and (row, its cells by column, StudentError)
    is appended for each; what is wrong with the file as a whole is still raised.

    >>> pack = Table(columns=(Column("item"), Column("price", "number", low=0)))
    >>> read_table("item;price\nbutter;4,50\n", pack).rows
    ({'item': 'butter', 'price': 4.5},)
    """
    source, name = _source(source, name)
    text = source if isinstance(source, str) else decode(source, name)
    broken = None if faults is None else []
    rows = rows_of(text, [c.name for c in table.columns], name, broken)
    for number, line, fault in broken or ():
        faults.append((number, dict(zip(_heads(rows[0][1]), line, strict=False)), fault))
    _check_header(rows, table, name)
    reading = _Reading(name, table, _heads(rows[0][1]), commas_in(rows))
    records, numbers, seen = [], [], {}
    for number, cells in rows[1:]:
        named = dict(zip(reading.header, [c.strip() for c in cells] + [""] * len(reading.header), strict=False))
        try:
            record = reading.record(number, cells, named)
            _once(record, number, seen, table, name)
        except StudentError as error:
            if faults is None:
                raise
            faults += [(number, named, fault) for fault in reading.faults_of(number, cells, named) or [error]]
            continue
        records.append(record)
        numbers.append(number)
    letters = {name: letter(at) for at, name in enumerate(reading.header)}
    return Sheet(tuple(c.name for c in table.columns), tuple(records), tuple(numbers), letters)


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


def _heads(cells):
    """The names of the columns; what is empty behind the last one is none."""
    header = [cell.strip().casefold() for cell in cells]
    while header and not header[-1]:
        header.pop()
    return header


@dataclass(frozen=True)
class _Reading:
    """A sheet whose rows are being read: its name, its Table, its header, and whether it has decimal commas."""

    name: str
    table: Table
    header: list
    commas: bool

    def record(self, number, cells, named):
        """{column: what its cell holds}. Raises StudentError for the first fault."""
        self._check_width(number, cells, named)
        return {column.name: self._cell(number, column, named) for column in self.table.columns}

    def faults_of(self, number, cells, named):
        """Every fault of the cells of one row; one alone where the row as a whole is at fault."""
        found = []
        try:
            self._check_width(number, cells, named)
        except StudentError as error:
            return [error]
        for column in self.table.columns:
            try:
                self._cell(number, column, named)
            except StudentError as error:
                found.append(error)
        return found

    def _cell(self, number, column, named):
        where = f"{self.name}, row {number}, column '{column.name}'"
        if column.name in self.header:
            where += f" (cell {letter(self.header.index(column.name))}{number})"
        return cell_of(named.get(column.name, ""), column, where, self.commas)

    def _check_width(self, number, cells, named):
        where = f"{self.name}, row {number}"
        if any(cell.strip() for cell in cells[len(self.header) :]):
            given = f"{where}: more cells than the header has columns"
            raise StudentError(given, "one cell a column", ", ".join(self.header))
        required = [c.name for c in self.table.columns if c.required]
        filled = [named[name] for name in self.header if named[name]]
        if len(filled) == 1 and len(required) > 2:
            mark = next((mark for mark in ";\t," if filled[0].count(mark) >= len(required) - 1), "")
            if mark:
                given = f"{where}: the whole row in one cell, '{filled[0][:40]}'"
                raise StudentError(given, "a cell a column, as in the first row", ", ".join(self.header))
            given = f"{where}: nothing but '{filled[0][:40]}'"
            raise StudentError(given, "the whole row, or none of it", "fill in the row, or delete it")


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
    if raw[:4] in (b"PK\x03\x04", b"\xd0\xcf\x11\xe0"):
        given = f"{name}, a spreadsheet program's own kind of file under that name"
        raise StudentError(given, "a CSV file", "the sheet saved as CSV UTF-8")
    for encoding in ("utf-16",) if raw[:2] in (b"\xff\xfe", b"\xfe\xff") else ("utf-8-sig", "cp1252"):
        try:
            return raw.decode(encoding)
        except UnicodeDecodeError:
            continue
    raise StudentError(f"{name}, which is not text", "a CSV file", "the sheet saved as CSV UTF-8")


def rows_of(text, known, name, broken=None):
    r"""[(row number, cells)] for every row that is not blank; the separator is the one that finds most known columns.

    known: names of columns, the first row's among them. Rows are counted as a spreadsheet does: a cell with line breaks
    makes no rows. With a list as `broken` a row that cannot be cut into cells is left out, and (row, what may be its
    cells, StudentError) appended; else it is raised, as an empty file is.

    >>> rows_of("item;price\nbutter;4,50\n", ["item", "price"], "prices.csv")
    [(1, ['item', 'price']), (2, ['butter', '4,50'])]
    """
    lines = re.split("\r\n|\r|\n", text.lstrip("\ufeff"))
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
    rows = []
    for number, (line, cut) in enumerate(_cut(lines, separator), 1):
        if isinstance(cut, csv.Error):
            fault = StudentError(
                f"{name}, row {number}: a row that cannot be split into cells ({cut})",
                "quotation marks in pairs",
                '"a cell, with a comma"',
            )
            if broken is None or not rows:
                raise fault
            broken.append((number, [cell.strip(' "') for cell in line.split(separator)], fault))
        elif any(cell.strip() for cell in cut):
            rows.append((number, cut))
    return rows


def _cut(lines, separator):
    """(its first line, its cells) of each row; a csv.Error for cells where quotation marks are not in pairs."""
    at = 0
    while at < len(lines):
        taken, found = _row_at(lines, at, separator)
        yield from ((lines[at], cells) for cells in found)
        at += taken


def _row_at(lines, at, separator):
    """(how many lines, [cells]) of the row that begins at a line: more than one line where a cell has line breaks."""
    first = None
    for end in range(at + 1, min(at + _LINES_OF_A_ROW, len(lines)) + 1):
        text = io.StringIO("\n".join(lines[at:end]), newline="")
        try:
            return end - at, list(csv.reader(text, delimiter=separator, strict=True)) or [[]]
        except csv.Error as error:
            if "end of data" not in str(error):
                return 1, [first or error]
            first = first or csv.Error("one that opens is never shut")
    return 1, [first]


def _check_header(rows, table, name):
    header, names = _heads(rows[0][1]), [c.name for c in table.columns]
    missing = [c.name for c in table.columns if c.required and c.name not in header]
    if missing:
        raise _missing(missing, header, names, rows, name)
    for at, cell in enumerate(header):
        if cell not in names and cell not in _OF_THE_READER:
            raise StudentError(
                f"{name}, row 1, column '{cell}' ({letter(at)}): a column unknown here",
                "only the columns " + ", ".join(names) + ", and note for what is yours",
                "delete that column, or call it note",
            )
        if cell in header[:at]:
            raise StudentError(
                f"{name}, row 1, column '{cell}' ({letter(at)}): stands there twice",
                "each column once",
                "delete one of the two",
            )


def _missing(missing, header, names, rows, name):
    """The StudentError on columns that are not there, with what may have become of them."""
    given = f"{name}, row 1: no column '{missing[0]}'" + "".join(f", none '{one}'" for one in missing[1:4])
    given += f", and {len(missing) - 4} more missing" if len(missing) > 4 else ""
    lower = next((number for number, cells in rows[1:6] if set(missing) <= set(_heads(cells))), None)
    if lower:
        return StudentError(
            given, f"the names of the columns in the first row; they stand in row {lower}", "delete the rows above them"
        )
    odd = [cell for cell in header if cell not in names and cell not in _OF_THE_READER]
    near = difflib.get_close_matches(missing[0].replace("_", " "), [cell.replace("_", " ") for cell in odd], 1)
    called = next((cell for cell in odd if near and cell.replace("_", " ") == near[0]), "")
    if called:
        where = letter(header.index(called))
        return StudentError(given, f"the columns {', '.join(names)}", f"call column {where}, '{called}', {missing[0]}")
    return StudentError(given, f"the columns {', '.join(names)}", ",".join(names))
