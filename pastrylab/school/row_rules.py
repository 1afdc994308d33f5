"""What the cells of one row must be to each other, and to the other sheets: ends in their order, names that are known."""

import difflib
import re

from pastrylab.ground import datasets, files, lab_tables, mark_tables, own
from pastrylab.ground.components import composition_faults
from pastrylab.ground.errors import StudentError
from pastrylab.school import marking_rules
from pastrylab.trade import chocolate, pantry_rows
from pastrylab.trade.pantry import ingredient_name
from pastrylab.trade.purchasing import price_list

# Columns that are the two ends of one thing: the first is at most the second.
_ENDS = (
    *(("low", "high"), ("yield_low", "yield_high"), ("price_low", "price_high")),
    *(("rest_least_min", "rest_most_min"), ("crystal_least_min", "crystal_most_min")),
    *(("moisture_percent_low", "moisture_percent_high"), ("water_activity_low", "water_activity_high")),
)


def faults_of_rows(name, sheet):
    """A StudentError for each row of a sheet whose cells do not go together, or name what no other sheet knows.

    name: the sheet's in the folder datasets; sheet: as read_table gives it. Yields them in the order of the rows.

    >>> from pastrylab.ground.lab_tables import STOCK
    >>> list(faults_of_rows("stock.csv", files.load("stock.csv", STOCK)))
    []
    """
    if name == "ingredients.csv":
        yield from (fault for _row, fault in composition_faults(sheet))
        yield from pantry_rows.shipped_at(files.data_path(name)).faults
    for number, row in sheet.numbered():
        where = f"{name}, row {number}"
        yield from _ends(row, where)
        try:
            _RULES.get(name, _none)(row, where)
        except StudentError as fault:
            yield (
                fault if where in fault.given else StudentError(f"{where}: {fault.given}", fault.needed, fault.example)
            )


def _ends(row, where):
    for low, high in _ENDS:
        if {low, high} <= row.keys() and row[low] > row[high]:
            yield StudentError(
                f"{where}: {low} {row[low]:g} above {high} {row[high]:g}",
                f"{low} at most {high}",
                f"{low} {row[high]:g}, {high} {row[low]:g}",
            )


def _none(_row, _where):
    pass


def _ingredient(row, _where):
    ingredient_name(row["ingredient"])


def _pack_list(row, _where):
    known = ingredient_name(row["ingredient"])
    if known != row["ingredient"]:
        raise StudentError(f"{row['ingredient']}, another name of {known}", "the name in ingredients.csv", known)


def _price(row, where):
    if row["ingredient"]:
        ingredient_name(row["ingredient"])
    for column, error in own.price_faults(row):
        raise StudentError(f"{where}, column '{column}': {error.given}", error.needed, error.example)
    price_list([row])


def _due(row, where):
    _lesson(row, where)
    if row["due"]:
        marking_rules.day_named(row["due"], f"{where}, column 'due'")


def _moulded(row, where):
    _among(row["bonbon"], datasets.bonbons()["bonbon"], f"{where}, column 'bonbon'", "a bonbon of bonbons.csv")
    moulds = lab_tables.lab().where(sort="thing")["name"]
    _among(row["mould"], moulds, f"{where}, column 'mould'", "a thing of lab.csv")
    named = re.fullmatch(r".*,\s*(\d+)\s*", row["mould"])
    if named and int(named[1]) != row["cavities"]:
        raise StudentError(
            f"{where}, column 'cavities': {row['cavities']:g} of a mould called '{row['mould'][:40]}'",
            "the number behind the comma in a mould's name, which is that of its cavities",
            named[1],
        )


def _among(name, known, where, what):
    if name not in set(known):
        near = difflib.get_close_matches(name, list(known), 1, cutoff=0) or [""]
        raise StudentError(f"{where}: '{name[:40]}'", what, near[0])


def _lesson(row, where):
    _a_lesson(row["lesson"], f"{where}, column 'lesson'")


def _lessons(row, where):
    for one in row["lessons"].split(";"):
        if one.strip().casefold() != "all":
            _a_lesson(
                one, f"{where}, column 'lessons'", "numbers of lessons, a semicolon between two, or all", "02; 05"
            )


def _a_lesson(cell, where, needed="the number of a lesson", example="02"):
    if not re.fullmatch(r"\d\d[a-z]?", mark_tables.lesson_named(cell)):
        raise StudentError(f"{where}: '{cell.strip()[:40]}'", needed, example)


def _store_log(row, where):
    _log_in("store_logs")(row, where)
    _among(row["kind"], chocolate.products(), f"{where}, column 'kind'", "a kind of chocolate, or a couverture")


def _log_in(folder):
    def there(row, where):
        if not (files.data_path(folder) / row["file"]).is_file():
            raise StudentError(
                f"{where}, column 'file': '{row['file'][:40]}', which is not there",
                f"a file in datasets/{folder}",
                "put the log there, or delete the row",
            )

    return there


_RULES = {
    "bonbons.csv": _ingredient,
    "fillings.csv": _ingredient,
    "stock.csv": _ingredient,
    "pack_lists.csv": _pack_list,
    "prices.csv": _price,
    "marking.csv": _due,
    "rubrics.csv": _lesson,
    "piece_marks.csv": _lessons,
    "lab_checks.csv": _lessons,
    "moulded.csv": _moulded,
    "store_logs.csv": _store_log,
    **{f"{folder}.csv": _log_in(folder) for folder in ("probe_logs", "cream_logs")},
}
