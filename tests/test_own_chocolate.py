"""A chocolate of one's own, whatever it is called: it is one by its family, and its kind follows from what is in it."""

import csv
import io
from pathlib import Path

import pytest

from pastrylab.ground import datasets, own
from pastrylab.ground.units import StudentError
from pastrylab.trade import chocolate, couvertures, emulsion, mixing
from pastrylab.trade.dissolved import chocolate_sugar
from pastrylab.trade.formula import Formula
from pastrylab.trade.pantry import facts

PACKAGED = Path(__file__).resolve().parents[1] / "datasets" / "ingredients.csv"
# Invented names on rows of the table: what is called so is as the couverture it was copied from.
AS = {
    "house noir": "dark couverture 64 %",
    "Larkmoor gold": "milk couverture 38 %",
    "snow drops": "white couverture 32 %",
    "dark horse with milk": "milk couverture 41 %",
}


@pytest.fixture
def pantry(own_workbook):
    """Puts rows into a table of one's own: {name: (row it is copied from, {column: another cell})}."""

    def put(rows):
        with open(PACKAGED, encoding="utf-8", newline="") as file:
            table = list(csv.DictReader(file))
        known = {row["ingredient"]: row for row in table}
        for name, (like, other) in rows.items():
            table.append(known[like] | {"ingredient": name, "also": ""} | other)
        out = io.StringIO()
        writer = csv.DictWriter(out, table[0])
        writer.writeheader()
        writer.writerows(table)
        (own_workbook / "datasets").mkdir(exist_ok=True)
        (own_workbook / "datasets" / "ingredients.csv").write_text(out.getvalue(), encoding="utf-8")

    return put


def test_a_chocolate_under_any_name_mixes_as_the_one_it_is(pantry):
    pantry({name: (like, {}) for name, like in AS.items()})
    for name, like in AS.items():
        assert chocolate.kind_named(name) == like.split()[0]
        assert chocolate.latent_heat(name) == chocolate.latent_heat(like)
        assert mixing.temper_kept(name) == mixing.temper_kept(like.split()[0])
        ends = [mixing.mixed("300 g", "20 degC", "200 g", "85 degC", kind=one).temperature for one in (name, like)]
        assert ends[0] == ends[1]
        formula = Formula({name: "300 g", "heavy cream": "200 g"})
        assert emulsion.kind_in(formula) == like.split()[0]
        assert emulsion.ratio_finding(formula, "fill").ratio == pytest.approx(1.5)


def test_its_sugar_counts_as_the_chocolates(pantry):
    pantry({"house noir": ("dark couverture 64 %", {})})
    # 35.97 g of sucrose in 100 g; that of the bag does not count, nor that of a praline called after chocolate.
    formula = Formula({"house noir": "200 g", "granulated sugar": "50 g", "hazelnut praline 50 %": "100 g"})
    assert chocolate_sugar(formula).m_as("g") == pytest.approx(2 * 35.97)
    pantry({"chocolate syrup": ("invert syrup", {})})
    assert chocolate_sugar(Formula({"chocolate syrup": "50 g", "water": "5 g"})).m_as("g") == 0


def test_of_every_chocolate_of_the_table_name_and_composition_say_the_same():
    """Rows of USDA SR28 and of labels: what they are is printed on the pack."""
    chocolates = [name for name, row in facts().items() if row["family"] == "chocolate"]
    found = {name: chocolate._kind_by_composition(name) for name in chocolates}
    named = {name: kind for name in found for kind in chocolate.KINDS if kind in name.split()}
    assert len(named) >= 18 and all(found[name] == kind for name, kind in named.items())
    assert found["cocoa mass"] == found["semisweet chocolate chips"] == "dark"


@pytest.mark.parametrize(
    ("cells", "kind"),
    [
        # From the milk row: lactose and sucrose against each other, starch and fibre against what the table calls other.
        ({"lactose": "2.49", "sucrose": "46.19"}, "dark"),
        ({"lactose": "2.51", "sucrose": "46.17"}, None),
        ({"lactose": "3.99", "sucrose": "44.69"}, None),
        ({"lactose": "4.01", "sucrose": "44.67"}, "milk"),
        ({"starch": "0.3", "fibre": "0.29", "other": "3.44"}, "white"),
        ({"starch": "0.3", "fibre": "0.31", "other": "3.42"}, None),
        ({"starch": "0.3", "fibre": "0.69", "other": "3.04"}, None),
        ({"starch": "0.3", "fibre": "0.71", "other": "3.02"}, "milk"),
        ({"starch": "0.2", "fibre": "0.3", "other": "3.53", "lactose": "0", "sucrose": "48.68"}, None),
    ],
)
def test_what_lies_between_two_kinds_is_asked(pantry, cells, kind):
    pantry({"mine": ("milk couverture 38 %", cells)})
    assert datasets.ingredients()["mine"]["fat"] == 0.38
    if kind:
        assert chocolate.kind_of("mine") == kind
        return
    for ask in (
        lambda: chocolate.kind_of("mine"),
        lambda: mixing.temper_kept("mine"),
        lambda: emulsion.kind_in(Formula({"mine": "100 g", "whole milk": "50 g"})),
    ):
        with pytest.raises(StudentError, match="may be dark, milk or white"):
            ask()
    pantry({"my milk one": ("milk couverture 38 %", cells)})
    assert chocolate.kind_of("my milk one") == "milk"


@pytest.mark.parametrize("name", ["cocoa powder", "heavy cream", "whole milk", "cocoa butter", "moon dust", "", "64 %"])
def test_what_is_no_chocolate_is_no_kind(name):
    with pytest.raises(StudentError):
        chocolate.kind_named(name)
    with pytest.raises(StudentError):
        chocolate.kind_of(name)


# --- a supplier's sheet ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "band"),
    [
        ("45 to 50", (45, 50)),
        ("60", (60, 60)),
        ("60.5", (15.83, 15.83)),  # (60.5 - 32) / 1.8: above 60 it can only be degF
        ("58 to 62", (58, 62)),
        ("88 F", (31.11, 31.11)),  # 56 / 1.8
        ("113-122 °F", (45, 50)),
    ],
)
def test_a_band_as_a_sheet_prints_it(typed, band):
    assert couvertures.read_band(typed) == band


@pytest.mark.parametrize("typed", ["", "45 to 50 to 55", "45 °C to 122 °F", "45 kg", "warm"])
def test_what_is_no_band(typed):
    with pytest.raises(StudentError, match="for the band.*45 to 50 °C"):
        couvertures.read_band(typed)


SHEET = {"couverture": "my dark 66", "kind": "dark", "source": ""}
SHEET |= {"melt_low": 45, "melt_high": 50, "cool_low": 27, "cool_high": 28, "work_low": 31, "work_high": 32}


@pytest.mark.parametrize(
    ("cells", "said"),
    [
        ({"couverture": "a" * 60}, None),
        ({"couverture": "a" * 61}, "at most 60"),
        ({"couverture": "honey"}, "taken"),
        ({"cool_low": 20}, None),  # below 20 degC it sets, our own judgement
        ({"cool_low": 19.9}, "20 °C or more"),
        ({"cool_high": 33}, "cooling below the working band"),
        ({"cool_low": 31.5, "cool_high": 31.8}, "cooling below the working band"),
        ({"work_high": 34}, None),
        ({"work_high": 34.1}, "at most 34 °C"),
        ({"melt_low": 36.3}, None),  # form VI, Wille & Lutton 1966
        ({"melt_low": 36.2}, "above 36.3 °C"),
    ],
)
def test_the_edges_of_a_sheet(cells, said):
    if said is None:
        assert couvertures.checked_couverture(SHEET | cells).kind == "dark"
        return
    with pytest.raises(StudentError, match=said):
        couvertures.checked_couverture(SHEET | cells)


def test_a_sheet_is_read_again_once_its_label_is_known(own_workbook):
    label = {"ingredient": "my dark 66", "kind": "dark chocolate", "cocoa": "66", "fat": "41", "carbohydrate": "37"}
    own.add("couvertures", {name: str(cell) for name, cell in SHEET.items()} | {"kind": "milk", "work_high": "32"})
    assert list(couvertures.own_couvertures()[0]) == ["my dark 66"] and chocolate.products()[3:] == ["my dark 66"]
    assert couvertures.own_couverture("My dark 66").kind == "milk"
    own.add("ingredients", label | {"sugars": "33", "protein": "6.5"})
    assert couvertures.own_couverture("my dark 66") is None
    assert couvertures.own_couvertures()[0] == {} and "as milk chocolate" in str(couvertures.own_couvertures()[1][0])
