"""Are the workbook's other CSVs sound? Every fault of every row, before a class meets it."""

from pastrylab.ground import datasets, files, reference
from pastrylab.ground.tables import read_table
from pastrylab.ground.units import StudentError
from pastrylab.trade import pantry
from pastrylab.trade.pantry import ingredient_name
from pastrylab.trade.purchasing import price_list

_TABLES = {
    "chocolate_bands.csv": datasets.CHOCOLATE_BANDS,
    "cocoa_butter.csv": datasets.COCOA_BUTTER,
    "ingredients.csv": datasets.INGREDIENTS,
    "prices.csv": datasets.PRICES,
    "bonbons.csv": datasets.BONBONS,
    "probe_logs.csv": datasets.PROBE_LOGS,
    "ganache_ratios.csv": datasets.GANACHE_RATIOS,
    "infusions.csv": datasets.INFUSIONS,
    "ganache_targets.csv": datasets.GANACHE_TARGETS,
    "fillings.csv": datasets.FILLINGS,
    "cream_logs.csv": datasets.CREAM_LOGS,
    **{f"reference/{name}.csv": table for name, table in reference.TABLES.items()},
}


def problems():
    """Sentences saying what is wrong with the CSVs in force beside exercise_values.csv; an empty list where all is well.

    >>> problems()
    []
    """
    found = []
    for name, table in _TABLES.items():
        faults = []
        try:
            frame = read_table(files.data_path(name), table, name, faults)
        except StudentError as error:
            found.append(str(error))
            continue
        found += [str(fault) for _row, _cells, fault in faults]
        found += [str(fault) for fault in _meaning(name, frame)]
    return found + _as_a_whole(found)


def _meaning(name, frame):
    """What no single cell shows: a StudentError for each row whose cells do not go together."""
    if name == "ingredients.csv":
        yield from datasets.composition_faults(frame)
    for number, row in zip(frame.attrs["rows"], frame.to_dict("records"), strict=True):
        where = f"{name}, row {number}"
        if {"low", "high"} <= row.keys() and row["low"] > row["high"]:
            yield StudentError(
                f"{where}: low {row['low']:g} above high {row['high']:g}",
                "low at most high",
                f"low {row['high']:g}, high {row['low']:g}",
            )
        try:
            _of_a_row(name, row, where)
        except StudentError as fault:
            yield (
                fault if where in fault.given else StudentError(f"{where}: {fault.given}", fault.needed, fault.example)
            )


def _of_a_row(name, row, where):
    if name in ("bonbons.csv", "fillings.csv"):
        ingredient_name(row["ingredient"])
    elif name == "prices.csv":
        _price(row, where)
    elif name in ("probe_logs.csv", "cream_logs.csv"):
        logs = name.removesuffix(".csv")
        if not (files.data_path(logs) / row["file"]).is_file():
            raise StudentError(
                f"{where}, column 'file': '{row['file'][:40]}', which is not there",
                f"a file in datasets/{logs}",
                "put the log there, or delete the row",
            )


def _price(row, where):
    if row["ingredient"]:
        ingredient_name(row["ingredient"])
    if row["pack_unit"] == "piece" and not float(row["pack_size"]).is_integer():
        raise StudentError(
            f"{where}, column 'pack_size': {row['pack_size']:g} pieces",
            "a whole number: pieces are counted",
            f"{row['pack_size']:.0f}",
        )
    for what, middle in (("yield", "yield_share"), ("price", "price")):
        low, high = row[f"{what}_low"], row[f"{what}_high"]
        if not low <= row[middle] <= high:
            raise StudentError(
                f"{where}, column '{middle}': {row[middle]:g}",
                f"a number from {what}_low, {low:g}, to {what}_high, {high:g}; both may be widened",
                f"{what}_low {min(low, row[middle]):g}, {what}_high {max(high, row[middle]):g}",
            )
    price_list([row])


def _as_a_whole(found):
    """What only all rows together show; not looked at where a row is at fault already."""
    wholes = {
        "ingredients.csv": pantry.facts,
        "prices.csv": lambda: price_list(datasets.prices()),
    }
    faults = []
    for name, whole in wholes.items():
        if any(name in sentence for sentence in found):
            continue
        try:
            whole()
        except StudentError as error:
            faults.append(str(StudentError(f"{name}: {error.given}", error.needed, error.example)))
    return faults
