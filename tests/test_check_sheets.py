"""`check` on every sheet of datasets: what a spreadsheet person may type wrong is named by row, what is sound is let pass.

Each sheet is spoiled in several rows at once, all of which must be said; and changed in ways its own columns allow.
"""

import csv

import pytest

from pastrylab.ground import files
from pastrylab.school import sheets

# sheet: [(row to change, column, text typed, what is said of it)], rows as a spreadsheet numbers them.
REFUSED = {
    "ingredients.csv": [
        (2, "water", "58.9", "add up"),
        (3, "family", "creem", "creem"),
        (4, "fat", "lots", "lots"),
        (5, "density_g_per_ml", "1006", "from 0.05 to 3"),
    ],
    "chocolate_bands.csv": [
        (2, "kind", "drak", "drak"),
        (3, "low", "29.5", "above high 29"),
        (4, "high", "320", "320"),
    ],
    "cocoa_butter.csv": [(2, "form", "VII", "VII"), (3, "melts_at", "-1", "-1"), (4, "error", "", "empty")],
    "prices.csv": [(2, "price", "free", "free"), (3, "pack_unit", "sack", "sack"), (4, "yield_share", "98", "98")],
    "bonbons.csv": [(2, "grams", "0", "0"), (3, "pieces", "95.5", "whole"), (4, "ingredient", "creem", "creem")],
    "probe_logs.csv": [(2, "file", "mine.csv", "not there"), (3, "kind", "ruby", "ruby")],
    "cream_logs.csv": [(2, "file", "mine.csv", "not there"), (3, "vessel", "", "empty")],
    "store_logs.csv": [(2, "file", "mine.csv", "not there"), (3, "kind", "ruby", "ruby")],
    "ganache_ratios.csv": [
        (2, "use", "spread", "spread"),
        (3, "high", "17", "from 0.1 to 10"),
        (4, "low", "2.5", "above high"),
    ],
    "ganache_targets.csv": [
        (2, "component", "salt", "salt"),
        (3, "high", "140", "140"),
        (4, "low", "36", "above high"),
    ],
    "infusions.csv": [(2, "low", "5", "above high"), (3, "high", "three", "three")],
    "fillings.csv": [
        (2, "ingredient", "couverture X", "couverture X"),
        (3, "grams", "-200", "-200"),
        (4, "use", "eat", "eat"),
    ],
    "lab.csv": [(2, "sort", "pear", "pear"), (3, "count", "0", "0"), (6, "count", "2.5", "whole")],
    "moulded.csv": [(2, "cavities", "23", "called"), (3, "mould", "dome", "dome"), (4, "cap_g", "none", "none")],
    "stock.csv": [
        (2, "ingredient", "chocolat", "chocolat"),
        (3, "on_hand_g", "-1", "-1"),
        (4, "on_hand_g", "2,500", "two ways"),
    ],
    "marking.csv": [(2, "due", "someday", "someday"), (3, "right_first", "-1", "-1"), (4, "lesson", "three", "three")],
    "rubrics.csv": [
        (2, "sound", "eleven", "eleven"),
        (3, "professional", "101", "101"),
        (4, "lesson", "lesson one", "lesson one"),
    ],
    "piece_marks.csv": [
        (2, "lessons", "2 and 6", "2 and 6"),
        (3, "five", "", "empty"),
        (4, "attribute", "gloss", "gloss"),
    ],
    "lab_checks.csv": [(2, "lessons", "al", "'al'"), (3, "check", "", "empty"), (4, "lessons", "02; x", "'x'")],
    "term.csv": [(2, "word", "autumn 26!", "autumn 26!")],
    "pack_lists.csv": [(2, "ingredient", "cream of ours", "cream of ours"), (3, "source", "", "empty")],
    "storage_limits.csv": [(2, "low", "86", "above high 85"), (3, "unit", "", "empty"), (4, "high", "high", "high")],
}
# sheet: [(row, column, text)]: all of it at once is sound.
TAKEN = {
    "ingredients.csv": [(2, "also", "our cream;the cream"), (3, "source", "the pack, read"), (4, "note", "ours")],
    "chocolate_bands.csv": [(2, "low", "45.5"), (3, "high", "29,5"), (4, "source", "the supplier's sheet")],
    "cocoa_butter.csv": [(2, "melts_at", "17.4"), (3, "error", "0.5")],
    "prices.csv": [(2, "price", "44"), (3, "price", "150.00"), (4, "item", "of our own")],
    "bonbons.csv": [(2, "grams", "531.5"), (3, "grams", "262")],
    "probe_logs.csv": [(2, "kind", "milk"), (3, "method", "by hand")],
    "cream_logs.csv": [(2, "vessel", "a pan")],
    "store_logs.csv": [(2, "store", "the cellar"), (3, "kind", "dark")],
    "ganache_ratios.csv": [(2, "low", "0.9"), (3, "high", "1.8")],
    "ganache_targets.csv": [(2, "low", "23"), (3, "high", "41")],
    "infusions.csv": [(2, "high", "4.5"), (3, "low", "2,2")],
    "fillings.csv": [(2, "grams", "335"), (3, "note", "")],
    "lab.csv": [(2, "count", "10"), (3, "name", "marble table"), (8, "count", "14")],
    "moulded.csv": [(2, "cap_g", "1.3"), (3, "make_min", "40"), (4, "source", "timed")],
    "stock.csv": [(2, "on_hand_g", "0"), (3, "lead_days", "0"), (4, "on_hand_g", "2500.5")],
    "marking.csv": [(2, "due", "2026-10-05"), (3, "lesson", "2"), (4, "right_later", "0.5")],
    "rubrics.csv": [(2, "sound", "10"), (3, "lesson", "1"), (4, "sound", "15")],
    "piece_marks.csv": [(2, "lessons", "2; 2b; 6; 7; 9"), (3, "lessons", "all"), (4, "defects", "")],
    "lab_checks.csv": [(2, "check", "Hands washed"), (3, "lessons", "2; 02b; 9"), (4, "lessons", "ALL")],
    "term.csv": [(2, "word", "autumn-26")],
    "pack_lists.csv": [(2, "name_us", "heavy cream"), (3, "source", "the pack")],
    "storage_limits.csv": [(2, "low", "81"), (3, "source", "the supplier's sheet")],
}


def changed(own_workbook, name, cells):
    """Lay a copy of a sheet with these cells changed among the workbook's own; a note beside, as teachers add."""
    with (files.folder() / name).open(encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file))
    for row, column, text in cells:
        rows[row - 1][rows[0].index(column)] = text
    path = own_workbook / "datasets" / name
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("w", encoding="utf-8", newline="") as file:
        noted = [] if "note" in rows[0] else [["note"], *[["ours"]] * (len(rows) - 1)]
        csv.writer(file).writerows([*row, *more] for row, more in zip(rows, noted or [[]] * len(rows), strict=True))


def test_every_sheet_has_its_own():
    by_others = {"exercise_values.csv", "own_exercises.csv", "labels.csv", "couvertures.csv"}  # and those of reference
    named = {name for name in sheets.names() if "/" not in name} - by_others
    assert named == REFUSED.keys() == TAKEN.keys()


@pytest.mark.parametrize("name", REFUSED)
def test_what_is_wrong_is_said_of_each_row(own_workbook, name):
    changed(own_workbook, name, [(row, column, text) for row, column, text, _says in REFUSED[name]])
    found = [one for one in sheets.problems() if one.startswith(f"You gave {name}")]
    for row, column, text, says in REFUSED[name]:
        assert any(f"row {row}" in one and says in one for one in found), (row, column, text, found)


@pytest.mark.parametrize("name", TAKEN)
def test_what_is_sound_is_let_pass(own_workbook, name):
    changed(own_workbook, name, TAKEN[name])
    assert sheets.problems() == []
