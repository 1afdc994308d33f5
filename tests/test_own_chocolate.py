"""A chocolate of one's own, whatever it is called: it is one by its family, and its kind follows from what is in it."""

import csv
import io
from pathlib import Path

import pytest

from pastrylab.ground import datasets
from pastrylab.ground.units import StudentError
from pastrylab.trade import chocolate, emulsion, mixing
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
    family = facts()["family"]
    found = {name: chocolate._kind_by_composition(name) for name in family.index[family == "chocolate"]}
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
    assert datasets.ingredients().at["mine", "fat"] == 0.38
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
