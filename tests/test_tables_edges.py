"""Both sides of every edge of a table's reader, by hand."""

import pytest

from pastrylab.ground.cells import letter
from pastrylab.ground.tables import Column, Table, read_table
from pastrylab.ground.units import StudentError


def one(cell, kind="number", **limits):
    """What a single cell reads as."""
    frame = read_table(f"name;it\na;{cell}\n", Table((Column("name"), Column("it", kind, **limits))), "t.csv")
    return frame["it"][0]


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
    assert error.given == f"t.csv, row 2, column 'it' (cell B2): {cell}"


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
    assert frame.numbers == (3, 5)
    # One spreadsheet program hides its own first line, and numbers the rest from 1.
    for line in ("sep=;", "SEP=,", '"sep=;"'):
        mark = "," if "," in line else ";"
        frame = read_table(f"{line}\nitem{mark}shop\na{mark}x\n", TWO, "t.csv")
        assert frame.numbers == (2,), line
    with pytest.raises(StudentError):
        read_table("sep=of\nitem,shop\na,x\n", TWO, "t.csv")


def test_columns_for_the_readers_own_words_are_left_out():
    frame = read_table("item,shop,Remarks,notes\na,x,dear,mine\n", TWO, "t.csv")
    assert frame.columns == ("item", "shop", "grams")
    with pytest.raises(StudentError, match="stands there twice"):
        read_table("item,shop,note,note\na,x,1,2\n", TWO, "t.csv")
    with pytest.raises(StudentError, match="column '' .B.: a column unknown here"):
        read_table("item,,shop\na,,x\n", TWO, "t.csv")


def test_a_file_of_two_million_bytes_is_the_largest():
    head, line = b"item,shop\na,x\n", b" " * 99 + b"\n"

    def of_size(size):
        return (head + line * (size // len(line)))[: size - 1] + b"\n"

    assert len(of_size(2_000_000)) == 2_000_000 and len(read_table(of_size(2_000_000), TWO, "t.csv")) == 1
    with pytest.raises(StudentError, match="a file of 2000001 bytes"):
        read_table(of_size(2_000_001), TWO, "t.csv")


def test_every_fault_of_every_row_is_told_and_sound_rows_are_kept():
    table = Table((Column("item"), Column("low", "number"), Column("high", "number")), key=("item",))
    faults = []
    text = "item,low,high\na,1,2\nb,x,y\na,3,4\nc,1,2,3\nd,5,6\n"
    frame = read_table(text, table, "t.csv", faults)
    assert list(frame["item"]) == ["a", "d"] and frame.numbers == (2, 6)
    assert [row for row, _, _ in faults] == [3, 3, 4, 5]
    assert faults[0][1] == {"item": "b", "low": "x", "high": "y"}
    assert "column 'low'" in faults[0][2].given and "column 'high'" in faults[1][2].given
    assert "stands in row 2 already" in faults[2][2].given and "more cells" in faults[3][2].given


def test_utf_16_either_way_round_and_a_name_by_default(tmp_path):
    text = "item,shop\ncrème,x\n"
    for code in ("utf-16-be", "utf-16-le"):
        assert read_table(("\ufeff" + text).encode(code), TWO)["item"][0] == "crème"
    with pytest.raises(StudentError, match="the table, which is empty"):
        read_table("", TWO)
    path = tmp_path / "stock.csv"
    path.write_text("item\na\n")
    with pytest.raises(StudentError, match="stock.csv, row 1: no column 'shop'"):
        read_table(path, TWO)


def test_a_quotation_mark_that_closes_too_early_is_refused():
    with pytest.raises(StudentError, match="row 2: a row that cannot be split into cells"):
        read_table('item,shop\n"a"b,x\n', TWO, "t.csv")


# --- what a spreadsheet does to a cell, a row, a file -----------------------------------------------------------------


@pytest.mark.parametrize(
    "cell", ["3. Apr", "3-Apr", "Apr 03", "Apr-03", "3. April 2026", "2026-04-03", "03/04/2026", "3.4.26"]
)
def test_a_number_made_a_date_is_told_from_a_number(cell):
    error = refusal(cell)
    assert "a date" in error.given and "format to number" in error.needed


@pytest.mark.parametrize("cell", ["3.4", "3 1/4", "1/4", "5", "12.05", "0.04", "4 000", "1e3"])
def test_a_number_is_no_date(cell):
    assert one(cell) > 0


@pytest.mark.parametrize("cell", ["#REF!", "#NAME?", "#DIV/0!", "#VALUE!", "#N/A"])
@pytest.mark.parametrize("kind", ["number", "text"])
def test_a_cell_the_spreadsheet_could_not_work_out(cell, kind):
    assert "could not work this cell out" in refusal(cell, kind).needed


@pytest.mark.parametrize("kind", ["number", "text"])
def test_a_formula_saved_as_it_stands(kind):
    assert "paste the cell again as a value" in refusal("=A1*2", kind).needed
    assert one("a=b", "text") == "a=b" and one("#3 of the shelf", "text") == "#3 of the shelf"


def test_a_unit_in_a_column_of_numbers_is_taken_away_in_the_example():
    assert refusal("3 kg").example == "3" and refusal("$3").example == "3"
    assert refusal("65 %").example == "65", "a column of per cents"
    assert refusal("65 %", low=0.01, high=1).example == "0.65", "a column of shares"
    assert refusal("650 kg", low=0, high=100).example == "50", "3 kg is no help where 3 does not fit"


def test_a_point_between_thousands_is_asked_about_where_others_have_a_decimal_comma():
    table = Table((Column("item"), Column("grams", "number")))
    assert read_table("item;grams\na;1.000\nb;2.5\n", table, "t.csv")["grams"][0] == 1
    with pytest.raises(
        StudentError, match=r"cell B2.: '1.000', which can be read two ways. Needed: 1000 or 1:.*Example: 1000"
    ):
        read_table("item;grams\na;1.000\nb;2,5\n", table, "t.csv")
    for cell in ("1.05", "0.768"):
        assert read_table(f"item;grams\na;{cell}\nb;2,5\n", table, "t.csv")["grams"][0] == float(cell)


def test_cells_with_line_breaks_make_no_rows():
    table = Table((Column("item"), Column("grams", "number")))
    frame = read_table('item,grams\n"a\nb\nc",1\nd,2\n', table, "t.csv")
    assert frame.numbers == (2, 3) and frame["item"][0] == "a\nb\nc"
    with pytest.raises(StudentError, match=r"row 3, column 'grams' .cell B3.: 'x'"):
        read_table('item,grams\n"a\nb",1\nd,x\n', table, "t.csv")


def test_a_quotation_mark_left_open_costs_its_own_row_and_no_other():
    table, faults = Table((Column("item"), Column("grams", "number")), key=("item",)), []
    frame = read_table('item,grams\na,1\n"b,2\nc,3\n"d, e",4\nf"g,5\n', table, "t.csv", faults)
    assert list(frame["item"]) == ["a", "c", "d, e", 'f"g']
    ((row, cells, fault),) = faults
    assert row == 3 and cells == {"item": "b", "grams": "2"} and "never shut" in fault.given
    with pytest.raises(StudentError, match="row 3: a row that cannot be split"):
        read_table('item,grams\na,1\n"b,2\nc,3\n', table, "t.csv")


def test_a_row_of_another_separator_and_half_a_row_are_said_once():
    three, faults = Table((Column("item"), Column("shop"), Column("grams", "number"))), []
    read_table("item,shop,grams\na;x;1\nb\nc,x,1\n", three, "t.csv", faults)
    assert [str(fault).partition(". ")[0] for _, _, fault in faults] == [
        "You gave t.csv, row 2: the whole row in one cell, 'a;x;1'",
        "You gave t.csv, row 3: nothing but 'b'",
    ]


def test_what_became_of_a_missing_column_is_said():
    table = Table((Column("item"), Column("pack_size", "number")))
    for text, says in (
        ("item,pack sise\na,1\n", "call column B, 'pack sise', pack_size"),
        ("Prices of autumn\nitem,pack_size\na,1\n", "they stand in row 2"),
        ("item,zork\na,1\n", "Example: item,pack_size"),
    ):
        with pytest.raises(StudentError, match=says):
            read_table(text, table, "t.csv")
    with pytest.raises(StudentError, match="no column 'item', none 'pack_size'"):
        read_table("a,b\n1,2\n", table, "t.csv")


def test_a_workbook_of_a_spreadsheet_program_is_told_from_a_csv():
    for start in (b"PK\x03\x04", b"\xd0\xcf\x11\xe0"):
        with pytest.raises(StudentError, match="a spreadsheet program's own kind of file"):
            read_table(start + b"\0" * 40, TWO, "t.csv")


def test_columns_have_the_letters_of_a_spreadsheet():
    assert [letter(at) for at in (0, 25, 26, 51, 52, 701, 702)] == ["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]


def test_a_column_of_formulas_of_ours_takes_what_begins_with_an_equals_sign():
    assert one("=a*2", "formula") == "=a*2" and one("#NAME?", "formula") == "#NAME?"
    assert refusal("", "formula").needed == "a word" and one("", "formula", required=False) == ""


def test_a_comma_before_three_digits_is_read_by_the_other_cells():
    """A spreadsheet with decimal commas saves a density of 1.006 as 1,006; alone it may be a thousand and six."""
    table = Table((Column("item"), Column("it", "number")))

    def first(*cells):
        rows = "".join(f"a{at};{cell}\n" for at, cell in enumerate(cells))
        return read_table(f"item;it\n{rows}", table, "t.csv")["it"][0]

    assert first("1,006", "57,81") == 1.006 and first("-1,006", "57,8") == -1.006
    for others in ((), ("2,005",), ("57.81",), ("57,81", "0.5")):
        with pytest.raises(StudentError, match="two ways"):
            first("1,006", *others)
