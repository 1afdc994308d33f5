"""Both sides of every edge of a table's reader, by hand."""

import pytest

from pastrylab.ground.tables import Column, Table, read_table
from pastrylab.ground.units import StudentError


def one(cell, kind="number", **limits):
    """What a single cell reads as."""
    frame = read_table(f"name;it\na;{cell}\n", Table((Column("name"), Column("it", kind, **limits))), "t.csv")
    return frame["it"].iloc[0]


def refusal(cell, kind="number", **limits):
    with pytest.raises(StudentError) as error:
        one(cell, kind, **limits)
    return error.value


@pytest.mark.parametrize(
    ("cell", "limits"),
    [("0", {"low": 0}), ("5", {"high": 5}), ("0.1", {"above": 0}), ("5", {"low": 5, "high": 5}), ("-3", {"high": 5})],
)
def test_a_limit_itself_is_allowed(cell, limits):
    assert one(cell, **limits) == float(cell)


@pytest.mark.parametrize(
    ("cell", "kind", "limits", "needed", "example"),
    [
        ("-0.1", "number", {"low": 0}, "a number of at least 0", "12.5"),
        ("5.1", "number", {"high": 5}, "a number of at most 5", "2.5"),
        ("0", "number", {"above": 0}, "a number above 0", "12.5"),
        ("1.5", "count", {"low": 1}, "a whole number of at least 1", "13"),
        ("9", "number", {"low": 2, "high": 5}, "a number from 2 to 5", "3.5"),
        ("9", "count", {"low": 2, "high": 5}, "a whole number from 2 to 5", "3"),
        ("1001", "number", {"low": 0, "high": 1000}, "a number from 0 to 1000", "500"),
        ("1002", "number", {"low": 0, "high": 1001}, "a number from 0 to 1001", "12.5"),
        ("1.5", "count", {}, "a whole number", "12"),
    ],
)
def test_what_is_beyond_is_refused_with_an_example_within(cell, kind, limits, needed, example):
    error = refusal(cell, kind, **limits)
    assert (error.needed, error.example) == (needed, example)
    assert error.given == f"t.csv, row 2, column 'it': {cell}"


def test_empty_cells():
    assert refusal("", "text").needed == "a word" and refusal("", "text").example == "a short name"
    assert refusal("").needed == "a number"
    assert refusal("", "text", choices=("dark", "milk")).example == "dark"
    assert one("", "text", required=False) == ""
    empty = one("", required=False)
    assert empty != empty
    with pytest.raises(StudentError, match="an empty cell"):
        read_table("name,it\na\n", Table((Column("name"), Column("it"))), "t.csv")


def test_words_are_of_the_choice_or_any_where_there_is_none():
    assert one("milk", "text", choices=("dark", "milk")) == "milk" and one("milk", "text") == "milk"
    assert refusal("ruby", "text", choices=("dark", "milk")).needed == "one of dark, milk"
    assert refusal("r" * 50, "text", choices=("dark",)).given.endswith("'" + "r" * 40 + "'")
    assert refusal("3 kg").given.endswith("'3 kg'") and refusal("3 kg").example == "3"
    assert refusal("3 kg" + " " * 50).example == "3"
    assert refusal("lots").needed == "a number"


TWO = Table((Column("item"), Column("shop"), Column("grams", "number", required=False)), key=("item", "shop"))


def test_a_key_of_two_columns_may_repeat_in_one_of_them():
    assert len(read_table("item,shop\na,x\na,y\nb,x\n", TWO, "t.csv")) == 3
    with pytest.raises(StudentError, match=r"row 4: a / x stands in row 2 already.*each item / shop once"):
        read_table("item,shop\na,x\na,y\na,x\n", TWO, "t.csv")


def test_without_a_key_rows_may_repeat():
    assert len(read_table("item\na\na\n", Table((Column("item"),)), "t.csv")) == 2


def test_rows_are_numbered_as_the_spreadsheet_does():
    frame = read_table("item,shop\n\na,x\n,\nb,y\n", TWO, "t.csv")
    assert frame.attrs["rows"] == [3, 5]
    # One spreadsheet program hides its own first line, and numbers the rest from 1.
    for line in ("sep=;", "SEP=,", '"sep=;"'):
        mark = "," if "," in line else ";"
        frame = read_table(f"{line}\nitem{mark}shop\na{mark}x\n", TWO, "t.csv")
        assert frame.attrs["rows"] == [2], line
    with pytest.raises(StudentError):
        read_table("sep=of\nitem,shop\na,x\n", TWO, "t.csv")


def test_columns_for_the_readers_own_words_are_left_out():
    frame = read_table("item,shop,Remarks,notes\na,x,dear,mine\n", TWO, "t.csv")
    assert list(frame.columns) == ["item", "shop", "grams"]
    with pytest.raises(StudentError, match="stands there twice"):
        read_table("item,shop,note,note\na,x,1,2\n", TWO, "t.csv")
    with pytest.raises(StudentError, match="column '': a column unknown here"):
        read_table("item,,shop\na,,x\n", TWO, "t.csv")


def test_a_file_of_two_million_bytes_is_the_largest():
    head = b"item,shop\na,x\n"
    assert len(read_table(head + b"\n" * (2_000_000 - len(head)), TWO, "t.csv")) == 1
    with pytest.raises(StudentError, match="a file of 2000001 bytes"):
        read_table(head + b"\n" * (2_000_001 - len(head)), TWO, "t.csv")


def test_every_fault_of_every_row_is_told_and_sound_rows_are_kept():
    table = Table((Column("item"), Column("low", "number"), Column("high", "number")), key=("item",))
    faults = []
    text = "item,low,high\na,1,2\nb,x,y\na,3,4\nc,1,2,3\nd,5,6\n"
    frame = read_table(text, table, "t.csv", faults)
    assert list(frame["item"]) == ["a", "d"] and frame.attrs["rows"] == [2, 6]
    assert [row for row, _, _ in faults] == [3, 3, 4, 5]
    assert faults[0][1] == {"item": "b", "low": "x", "high": "y"}
    assert "column 'low'" in faults[0][2].given and "column 'high'" in faults[1][2].given
    assert "stands in row 2 already" in faults[2][2].given and "more cells" in faults[3][2].given


def test_utf_16_either_way_round_and_a_name_by_default(tmp_path):
    text = "item,shop\ncrème,x\n"
    for code in ("utf-16-be", "utf-16-le"):
        assert read_table(("\ufeff" + text).encode(code), TWO)["item"].iloc[0] == "crème"
    with pytest.raises(StudentError, match="the table, which is empty"):
        read_table("", TWO)
    path = tmp_path / "stock.csv"
    path.write_text("item\na\n")
    with pytest.raises(StudentError, match="stock.csv, row 1: no column 'shop'"):
        read_table(path, TWO)


def test_a_quotation_mark_that_closes_too_early_is_refused():
    with pytest.raises(StudentError, match="row 2: a row that cannot be split into cells"):
        read_table('item,shop\n"a"b,x\n', TWO, "t.csv")
