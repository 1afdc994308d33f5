"""What a reader adds to the tables: ingredients as their labels say them, couvertures with their bands, and prices.

One file of each in lessons/my-kitchen (ingredients.csv, couvertures.csv, prices.csv), a row a thing, as a spreadsheet
opens it. What an instructor puts into datasets as labels.csv and couvertures.csv goes out with the hand-out and is read
first; the class's prices are datasets/prices.csv itself. A row at fault is left out and said, and stops nobody.
"""

import csv
import functools
import io
from dataclasses import dataclass

from pastrylab.ground import files, kitchen
from pastrylab.ground.names import plain_name
from pastrylab.ground.sheet import Sheet
from pastrylab.ground.tables import Column, Table, read_table
from pastrylab.ground.units import StudentError

PACK_UNITS = ("kg", "g", "lb", "oz", "L", "mL", "fl_oz", "quart", "gallon", "piece")
_FIGURES = (
    *("cocoa", "fat", "saturates", "carbohydrate", "sugars", "added_sugars", "polyols", "fibre", "protein"),
    *("salt", "sodium", "contents", "density"),
)
STAGES = ("melt", "cool", "work")
TABLES = {
    # A figure is text: "less than 1 g" and "< 0.5" are figures too. What they mean: trade/label.
    "ingredients": Table(
        columns=(
            Column("ingredient"),
            Column("also", required=False),
            Column("kind"),
            Column("label", required=False),
            Column("serving", required=False),
            *(Column(name, required=False) for name in _FIGURES),
            Column("source", required=False),
        ),
        key=("ingredient",),
    ),
    "couvertures": Table(
        columns=(
            Column("couverture"),
            Column("kind", choices=("dark", "milk", "white")),
            *(Column(f"{stage}_{end}", "number", low=0, high=60) for stage in STAGES for end in ("low", "high")),
            Column("source", required=False),
        ),
        key=("couverture",),
    ),
    "prices": Table(
        columns=(
            Column("item"),
            Column("ingredient", required=False),
            Column("pack_size", "number", low=0.001, high=10_000),
            Column("pack_unit", choices=PACK_UNITS),
            Column("price", "number", low=0, high=1e9),
            Column("currency", required=False),
            *(
                Column(name, "number", required=False, low=0.01, high=1)
                for name in ("yield_share", "yield_low", "yield_high")
            ),
            *(Column(name, "number", required=False, low=0, high=1e9) for name in ("price_low", "price_high")),
            Column("source", required=False),
        ),
        key=("item",),
    ),
}
_OF_THE_CLASS = {"ingredients": "labels.csv", "couvertures": "couvertures.csv"}


@dataclass(frozen=True)
class Row:
    """One row as it was read: `where` it stands ("my-kitchen/prices.csv, row 3"), its cells by column, and whether it is
    the reader's own or the class's.

    >>> Row("my-kitchen/prices.csv, row 3", {"item": "lemons"}, True).name
    'lemons'
    """

    where: str
    cells: dict
    mine: bool

    @property
    def name(self):
        return next(iter(self.cells.values()))


@dataclass(frozen=True, eq=False)
class Rows:
    """The rows of one table that can be read, the class's first, and a StudentError for each that cannot.

    >>> rows("prices").faults
    ()
    """

    rows: tuple[Row, ...]
    faults: tuple[StudentError, ...]


@files.looked_up
def rows(which):
    """The Rows of "ingredients", "couvertures" or "prices"; read again only when a file has changed. Raises nothing.

    >>> isinstance(rows("couvertures").rows, tuple)
    True
    """
    places = [(kitchen.folder() / f"{which}.csv", f"{kitchen.FOLDER_NAME}/{which}.csv", True)]
    if name := _OF_THE_CLASS.get(which):
        places.insert(0, (files.data_path(name), name, False))
    stamped = []
    for path, shown, mine in places:
        try:
            status = path.stat()
        except OSError:
            continue
        stamped.append((path, shown, mine, status.st_mtime_ns, status.st_size))
    return _read(which, tuple(stamped))


@functools.lru_cache(maxsize=24)
def _read(which, places):
    found, faults = [], []
    for path, shown, mine, *_ in places:
        wrong = []
        try:
            sheet = read_table(path, TABLES[which], shown, wrong)
        except StudentError as error:
            faults.append(error)
            continue
        faults += [error for _row, _cells, error in wrong]
        found += [Row(f"{shown}, row {number}", cells, mine) for number, cells in sheet.numbered()]
    return Rows(tuple(found), tuple(faults))


def said_at(row, error, column=""):
    """An error of a row with the place of the row before it, and the column where one is known.

    >>> row = Row("my-kitchen/prices.csv, row 3", {"item": "lemons"}, True)
    >>> said_at(row, StudentError("nothing", "a price", "4"), "price").given
    "my-kitchen/prices.csv, row 3, column 'price': nothing"
    """
    where = f"{row.where}, column '{column}'" if column else row.where
    return StudentError(f"{where}: {error.given}", error.needed, error.example)


# --- writing ------------------------------------------------------------------------------------------------------


def add(which, cells):
    """Write a row into the reader's own file, in place of one of the same name. cells: {column: text}.

    Other rows stay as they are, those at fault too. Raises StudentError for cells the table does not take, and where the
    disk does not take the file.

    >>> import tempfile
    >>> from unittest import mock
    >>> lemons = {"item": "lemons", "pack_size": "1", "pack_unit": "kg", "price": "4.20"}
    >>> with tempfile.TemporaryDirectory() as folder, mock.patch.dict("os.environ", PASTRYLAB_WORKBOOK=folder):
    ...     add("prices", lemons)
    ...     rows("prices").rows[0].cells["price"]
    4.2
    """
    table = TABLES[which]
    names = [column.name for column in table.columns]
    _no_sums(table, cells)
    read_table(_text([names, [cells.get(name, "") for name in names]]), table, f"{kitchen.FOLDER_NAME}/{which}.csv")
    header, kept = _own_rows(which)
    header = header + [name for name in names if name not in header]
    name = plain_name(cells[names[0]])
    at = header.index(names[0])
    kept = [row for row in kept if plain_name(row[at] if at < len(row) else "") != name]
    kitchen.put("", which, _text([header, *kept, [cells.get(column, "") for column in header]]))


def _no_sums(table, cells):
    """Raises StudentError for a word that a spreadsheet, where this file may be opened, would work out."""
    for column in table.columns:
        word = str(cells.get(column.name, "")).strip()
        if column.kind == "text" and len(word) > 1 and word[0] in kitchen.BEGINS_A_SUM:
            needed = "words that begin with a letter or a figure: a spreadsheet takes these for a sum"
            raise StudentError(f"'{word[:40]}' for {column.name.replace('_', ' ')}", needed, "cream 36 %")


def remove(which, name):
    """Take the row of a name out of the reader's own file, where it stands there.

    >>> remove("prices", "never written")
    """
    header, kept = _own_rows(which)
    first = TABLES[which].columns[0].name
    at = header.index(first) if first in header else 0
    left = [row for row in kept if plain_name(row[at] if at < len(row) else "") != plain_name(name)]
    if len(left) < len(kept):
        kitchen.put("", which, _text([header, *left]))


def _own_rows(which):
    """(header, rows) of the reader's own file as cells, whatever stands in them; the table's own header where none does."""
    names = [column.name for column in TABLES[which].columns]
    try:
        text = kitchen.get("", which)
    except StudentError:
        if (kitchen.folder() / f"{which}.csv").exists():
            raise
        return names, []
    lines = [line for line in text.splitlines() if line.strip(" ;,\t")]
    lines = lines[1:] if lines and lines[0].lower().strip('"').startswith("sep=") else lines
    if not lines:
        return names, []
    separator = max(",;\t", key=lines[0].count)
    header, *found = csv.reader(io.StringIO("\n".join(lines)), delimiter=separator)
    return [cell.strip().casefold() for cell in header], found


def _text(lines):
    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerows(lines)
    return out.getvalue()


# --- prices ---------------------------------------------------------------------------------------------------------


def price_faults(cells):
    """A (column, StudentError) for each thing that does not go together in a row of prices: {column: value}, all filled.

    >>> row = {"pack_unit": "piece", "pack_size": 2.5, "price": 1, "price_low": 1, "price_high": 1}
    >>> [column for column, _ in price_faults(row | {"yield_share": 1, "yield_low": 1, "yield_high": 1})]
    ['pack_size']
    """
    size = cells["pack_size"]
    if cells["pack_unit"] == "piece" and not float(size).is_integer():
        yield "pack_size", StudentError(f"{size:g} pieces", "a whole number: pieces are counted", f"{size:.0f}")
    for what, middle in (("yield", "yield_share"), ("price", "price")):
        low, value, high = cells[f"{what}_low"], cells[middle], cells[f"{what}_high"]
        if not low <= value <= high:
            yield (
                middle,
                StudentError(
                    f"{value:g}",
                    f"a number from {what}_low, {low:g}, to {what}_high, {high:g}; both may be widened",
                    f"{what}_low {min(low, value):g}, {what}_high {max(high, value):g}",
                ),
            )


def price_rows(currency):
    """(rows, faults) of the reader's own prices, complete: {column: value} each, in the class's currency.

    Without a yield all of a pack is used; without a low and a high the price is certain. A row in another currency, or
    whose cells do not go together, is a fault.

    >>> price_rows("USD")[1]
    ()
    """
    return _price_rows(rows("prices"), currency)


def with_own_prices(of_class):
    """The class's table of prices with the reader's own rows before it, in place of the class's of the same item.

    >>> from pastrylab.ground.datasets import prices
    >>> len(with_own_prices(prices())) >= len(prices())
    True
    """
    mine, _faults = price_rows(of_class["currency"][0]) if len(of_class) else ((), ())
    if not mine:
        return of_class
    names = {plain_name(row["item"]) for row in mine}
    others = [row for row in of_class if plain_name(row["item"]) not in names]
    complete = [{column: row[column] for column in of_class.columns} for row in mine]
    return Sheet(of_class.columns, (*complete, *others))


@functools.lru_cache(maxsize=24)
def _price_rows(own, currency):
    found, faults = [], list(own.faults)
    for row in own.rows:
        cells = _filled(row.cells, currency)
        if cells["currency"] != currency:
            error = StudentError(f"'{cells['currency']}'", f"{currency}, in which the class reckons", currency)
            faults.append(said_at(row, error, "currency"))
            continue
        wrong = [said_at(row, error, column) for column, error in price_faults(cells)]
        faults += wrong
        found += [] if wrong else [cells]
    return tuple(found), tuple(faults)


def _filled(cells, currency):
    filled = dict(cells, currency=cells["currency"].strip().upper() or currency)
    filled["source"] = cells["source"] or "my own price"
    filled["ingredient"] = cells["ingredient"] or cells["item"]  # "salt" is salt, whether it is said twice or not
    for what, middle, usual in (("yield", "yield_share", 1.0), ("price", "price", None)):
        if filled[middle] != filled[middle]:
            filled[middle] = usual
        for end in ("low", "high"):
            if filled[f"{what}_{end}"] != filled[f"{what}_{end}"]:
                filled[f"{what}_{end}"] = filled[middle]
    return filled
