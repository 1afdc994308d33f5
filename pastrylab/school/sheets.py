"""Are the workbook's other CSVs sound? Every fault of every row, before a class meets it."""

from pastrylab.ground import (
    datasets,
    files,
    lab_tables,
    mark_tables,
    own,
    pack_lists,
    reference,
    storage_limits,
    store_logs,
)
from pastrylab.ground.tables import read_table
from pastrylab.ground.units import StudentError
from pastrylab.school import marking_rules, term
from pastrylab.school.row_rules import faults_of_rows
from pastrylab.trade import couvertures, pantry
from pastrylab.trade.costing.kitchen import prices_left_out
from pastrylab.trade.orders import flavours
from pastrylab.trade.orders.day import lab_of
from pastrylab.trade.pantry import ingredient_name
from pastrylab.trade.purchasing import price_list

_TABLES = {
    "ingredients.csv": datasets.INGREDIENTS,  # first: the others name what is in it
    "chocolate_bands.csv": datasets.CHOCOLATE_BANDS,
    "cocoa_butter.csv": datasets.COCOA_BUTTER,
    "prices.csv": datasets.PRICES,
    "bonbons.csv": datasets.BONBONS,
    "probe_logs.csv": datasets.PROBE_LOGS,
    "ganache_ratios.csv": datasets.GANACHE_RATIOS,
    "infusions.csv": datasets.INFUSIONS,
    "ganache_targets.csv": datasets.GANACHE_TARGETS,
    "fillings.csv": datasets.FILLINGS,
    "cream_logs.csv": datasets.CREAM_LOGS,
    "lab.csv": lab_tables.LAB,
    "moulded.csv": lab_tables.MOULDED,  # after those it names things of
    "stock.csv": lab_tables.STOCK,
    "marking.csv": marking_rules.MARKING,
    "rubrics.csv": mark_tables.RUBRICS,
    "piece_marks.csv": mark_tables.PIECE_MARKS,
    "lab_checks.csv": mark_tables.LAB_CHECKS,
    "term.csv": term.TERM,
    "pack_lists.csv": pack_lists.PACK_LISTS,
    "store_logs.csv": store_logs.STORE_LOGS,
    "storage_limits.csv": storage_limits.STORAGE_LIMITS,
    **{f"reference/{name}.csv": table for name, table in reference.TABLES.items()},
}
_RESTS_ON = {"prices.csv": ("ingredients.csv",), "moulded.csv": ("bonbons.csv", "ingredients.csv")}
_MAY_BE_EMPTY = ("term.csv",)
_LOOKED_UP = (
    "chocolate_bands.csv",
    "cocoa_butter.csv",
    "ganache_ratios.csv",
    "ganache_targets.csv",
    "storage_limits.csv",
)
_IN_USE = "in use"  # rows of other origins are there to compare with


def names():
    """Names in the folder datasets of every sheet that the package reads, a set; logs stand in folders of their own.

    >>> "prices.csv" in names()
    True
    """
    exercises = {"exercise_values.csv", "own_exercises.csv"}
    return {*_TABLES, *exercises, *(f"examples/{name}" for name in exercises), "labels.csv", "couvertures.csv"}


def problems():
    """Sentences saying what is wrong with the CSVs in force beside exercise_values.csv; an empty list where all is well.

    >>> problems()
    []
    """
    found, given = [], []
    for name, table in _TABLES.items():
        faults = []
        try:
            sheet = read_table(files.data_path(name), table, name, faults)
        except StudentError as error:
            found.append(error)
            given.append(error.given)
            continue
        new = [fault for _row, _cells, fault in faults]
        if len(sheet):
            # What another sheet has at fault is said there, at its row.
            new += [fault for fault in faults_of_rows(name, sheet) if not any(one in fault.given for one in given)]
        new += _not_whole(name, table, sheet) if not new else []
        found += new
        given += [fault.given for fault in new]
    said = list(dict.fromkeys(map(str, found)))
    return said + _as_a_whole(said) + _added()


def _not_whole(name, table, sheet):
    """A StudentError where a sheet has no rows at all, or lacks one that the package looks up."""
    if not len(sheet) and name not in _MAY_BE_EMPTY:
        return [
            StudentError(
                f"{name}, which has no row that can be used",
                "rows under the first",
                f"the {name} that came with the package",
            )
        ]
    if name not in _LOOKED_UP:
        return []
    packaged = read_table(files.folder() / name, table, name, [])
    there, faults = {tuple(row[column] for column in table.key) for row in sheet}, []
    for row in packaged:
        key = tuple(row[column] for column in table.key)
        if key not in there and row.get("origin", _IN_USE) == _IN_USE:
            given = f"{name} without its row {' / '.join(key)}"
            faults.append(
                StudentError(given, "every row that came with it", ",".join(_shown(cell) for cell in row.values()))
            )
    return faults


def _shown(cell):
    return f"{cell:g}" if isinstance(cell, float) else f'"{cell}"' if "," in cell else cell


def _added():
    """What is wrong with the rows that a reader, or the class, has added: labels, couvertures, prices of their own."""
    try:
        faults = [*pantry.own_ingredients()[1], *couvertures.own_couvertures()[1]]
        faults += prices_left_out()
    except StudentError:
        return []  # a sheet they rest on is at fault, and was said
    for row in own.rows("prices").rows:
        try:
            ingredient_name(row.cells["ingredient"] or "water")
        except StudentError as error:
            faults.append(own.said_at(row, error, "ingredient"))
    return [str(fault) for fault in faults]


def _as_a_whole(found):
    """What only all rows together show; not looked at where a row is at fault already."""
    wholes = {
        "prices.csv": lambda: price_list(datasets.prices()),
        "rubrics.csv": mark_tables.all_points,
        "term.csv": term.words,
        "lab.csv": lab_of,
        "moulded.csv": flavours,
    }
    faults = []
    for name, whole in wholes.items():
        needed = (name, *_RESTS_ON.get(name, ()))
        if any(one in sentence for one in needed for sentence in found + faults):
            continue
        try:
            whole()
        except StudentError as error:
            given = error.given if error.given.startswith(name) else f"{name}: {error.given}"
            faults.append(str(StudentError(given, error.needed, error.example)))
    return faults
