"""One row at fault stops what needs it, and nothing else: counted over every exercise, for each sheet exercises rest on."""

import csv
import shutil

import pytest

from pastrylab.course import catalogue
from pastrylab.ground import datasets, files
from pastrylab.ground.units import StudentError
from pastrylab.school import engine
from pastrylab.school.sheets import problems as sheets_problems
from pastrylab.trade import pantry
from pastrylab.trade.chocolate import band_floats, wide_band_floats

pytestmark = pytest.mark.usefixtures("undrawn")

PACKAGED = files.folder()


@pytest.fixture
def spoil(own_workbook):
    """A function that sets one cell (or drops the row: None) of the row whose first cells are these."""
    shutil.copytree(PACKAGED, own_workbook / "datasets")

    def change(name, first, column=None, text=None):
        path = own_workbook / "datasets" / name
        with path.open(encoding="utf-8", newline="") as file:
            rows = list(csv.reader(file))
        at = next(at for at, row in enumerate(rows) if row[: len(first)] == list(first))
        if column is None:
            del rows[at]
        else:
            rows[at][rows[0].index(column)] = text
        with path.open("w", encoding="utf-8", newline="") as file:
            csv.writer(file).writerows(rows)
        return at + 1

    return change


def blanked():
    found = []
    with files.one_look():
        for e in catalogue.EXERCISES.values():
            try:
                engine.case(e)
            except StudentError as error:
                found.append((e.id, str(error)))
    return found


# Who needs skim milk: 03's rescue alone. Nobody's exercise needs pistachio paste, or a milk chocolate's bands.
@pytest.mark.parametrize(
    ("column", "text", "says"),
    [
        ("water", "lots", "'lots'"),
        ("water", "10", "add up to"),
        ("allergens_us", "mylk", "'mylk'"),
        ("also", "butter unsalted", "too"),
    ],
)
def test_one_ingredient_at_fault_stops_the_exercise_that_needs_it(spoil, column, text, says):
    row = spoil("ingredients.csv", ["skim milk"], column, text)
    ((which, said),) = blanked()
    assert which == "03.a-split-bowl" and f"row {row}" in said and says in said
    with pytest.raises(StudentError, match=f"row {row}"):
        pantry.ingredient_name("Skim Milk")
    assert pantry.ingredient_name("butter") == "butter unsalted"
    assert "skim milk" not in pantry.facts() and "skim milk" not in pantry.ingredients()
    found = sheets_problems()
    assert len(found) == 1 and f"row {row}" in found[0] and says in found[0]


def test_one_band_at_fault_stops_its_own_kind(spoil):
    row = spoil("chocolate_bands.csv", ["milk", "cool"], "low", "forty")
    assert blanked() == []
    for ask in (band_floats, wide_band_floats):
        assert ask("dark")[2][0] == 31
        with pytest.raises(StudentError, match=f"row {row}"):
            ask("milk")


def test_a_band_whose_kind_cannot_be_read_may_be_anybodys(spoil):
    row = spoil("chocolate_bands.csv", ["milk", "cool"], "kind", "millk")
    with pytest.raises(StudentError, match=f"row {row}"):
        band_floats("dark")


def test_a_row_of_another_book_at_fault_stops_the_widest_bands_alone(spoil):
    other = next(r for r in datasets.chocolate_bands() if r["kind"] == "dark" and r["origin"] != "in use")
    spoil("chocolate_bands.csv", ["dark", other["stage"], f"{other['low']:g}", f"{other['high']:g}"], "low", "x")
    assert band_floats("dark")[2] == (31.0, 32.0)
    with pytest.raises(StudentError, match="'x'"):
        wide_band_floats("dark")


def test_a_band_that_is_gone_is_missed(spoil):
    spoil("chocolate_bands.csv", ["dark", "cool"])
    with pytest.raises(StudentError, match="without a row for dark, cool, in use"):
        band_floats("dark")
    (said,) = sheets_problems()
    assert "without its row dark / cool / in use" in said and "dark,cool,28,29,in use" in said


def test_a_limit_that_is_gone_is_missed_and_one_that_never_was_is_ours(spoil):
    from pastrylab.trade.storage.limits import store_band

    spoil("storage_limits.csv", ["any", "store at"])
    with pytest.raises(StudentError, match="without a row any, store at"):
        store_band("store at")
    with pytest.raises(KeyError):
        store_band("what nobody wrote")


def test_an_own_ingredient_does_not_take_the_name_of_a_row_at_fault(spoil, own_workbook):
    spoil("ingredients.csv", ["skim milk"], "water", "lots")
    with pytest.raises(StudentError, match="a row at fault in ingredients.csv"):
        pantry.check_own_name("skim milk")


@pytest.mark.parametrize("name", ["ingredients.csv", "prices.csv", "chocolate_bands.csv", "bonbons.csv"])
def test_a_sheet_without_rows_is_said_and_nothing_breaks(spoil, own_workbook, name):
    path = own_workbook / "datasets" / name
    path.write_text(path.read_text(encoding="utf-8").splitlines()[0] + "\n", encoding="utf-8")
    assert any(name in said and "no row that can be used" in said for said in sheets_problems())
    blanked()


def test_values_that_divide_by_nothing_are_refused_in_words():
    from pastrylab.school import exercise_values

    values = exercise_values.values().moved(
        lambda e, n, g: 0 if (e, n) == ("09.one-more-machine", "machines") else g.value
    )
    with pytest.raises(StudentError, match=r"09.one-more-machine with which a sum divides by nothing"):
        engine.case(catalogue.exercise("09.one-more-machine"), "", values)


@pytest.mark.parametrize(
    ("column", "text", "says"),
    [("price", "forty", "'forty'"), ("price", "4150", "may be widened"), ("pack_size", "", "an empty cell")],
)
def test_one_price_at_fault_stops_its_ingredient_and_no_other(spoil, column, text, says):
    """The carton of the same couverture does not take the bag's place: a cost would move without a word."""
    from pastrylab.trade import costing, purchasing

    row = spoil("prices.csv", ["dark couverture 64 %, bag"], column, text)
    packs = purchasing.price_list(datasets.prices())
    assert "dark couverture 64 %, carton of bags" not in packs and "dark couverture 64 %" not in packs
    with pytest.raises(StudentError, match=f"row {row}, column '{column}'.*{says}"):
        costing.formula_cost({"dark couverture 64 %": "100 g"}, packs)
    assert costing.formula_cost({"heavy cream 36 %": "100 g"}, packs).total
    with pytest.raises(StudentError, match="has no price"):
        costing.formula_cost({"gold leaf": "100 g"}, packs)
    (said,) = sheets_problems()
    assert f"row {row}" in said and says in said


@pytest.mark.parametrize("free", [5, 4, 22, 23])
def test_a_tray_that_never_gets_there_is_refused_in_words(free):
    """It stands at 5 °C in a kitchen of 22."""
    from pastrylab.school import exercise_values

    which = "07.how-long-wrapped"
    values = exercise_values.values().moved(lambda e, n, g: free if (e, n) == (which, "free") else g.value)
    with pytest.raises(StudentError, match=f"reach {free} °C in a kitchen of 22 °C"):
        engine.case(catalogue.exercise(which), "", values)
