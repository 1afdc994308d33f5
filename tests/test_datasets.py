"""Every CSV: what spreadsheets write is accepted, all else is refused with file, row, column and remedy."""

import csv
import io

import pytest
from depth import depth
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from pastrylab.ground import datasets, files
from pastrylab.ground.sheet_names import SHEETS
from pastrylab.ground.tables import Column, Table, read_table
from pastrylab.ground.units import StudentError
from pastrylab.school import sheets
from pastrylab.school.exercise_values import EXERCISE_VALUES, Values, values

TABLE = Table(
    (Column("item"), Column("grams", "number", low=0, high=1000), Column("note", required=False)), key=("item",)
)
PLAIN = "item,grams,note\ncream,250,\nbutter,12.5,soft\n"


def rows(source):
    return read_table(source, TABLE, "stock.csv").rows


WANTED = rows(PLAIN)


@pytest.mark.parametrize(
    "source",
    [
        PLAIN.encode("utf-8-sig"),
        PLAIN.encode("utf-16"),
        PLAIN.replace("\n", "\r\n").encode(),
        PLAIN.replace(",", ";").encode(),
        PLAIN.replace(",", "\t").encode(),
        b"item;grams;note\ncream;250;\nbutter;12,5;soft\n",
        b'item,grams,note\ncream,250,\nbutter,"12,5",soft\n',
        b"item,grams,note,,\ncream,250,,,\nbutter,12.5,soft,,\n,,,,\n\n",
        b"  Item , GRAMS,note \ncream , 250 ,\nbutter,12.5,soft",
        b"\n\nitem,grams,note\ncream,250,\n\nbutter,12.5,soft\n",
    ],
)
def test_what_spreadsheets_write_is_read(source):
    assert rows(source) == WANTED


def test_every_sheet_that_is_checked_goes_out_and_no_other():
    """The names that a server asks at its start, without the tables, are those of the tables."""
    assert {name for name in sheets.names() if not name.startswith("reference/")} == SHEETS


def test_cp1252_is_read():
    assert rows("item,grams\ncrème,1\n".encode("cp1252"))[0]["item"] == "crème"


@pytest.mark.parametrize(
    ("source", "says"),
    [
        (b"", "empty"),
        (b"\n\n;;\n", "empty"),
        (b"item\ncream\n", "no column 'grams'"),
        (b"item,grams,colour\ncream,1,red\n", "column 'colour'"),
        (b"item,grams,item\ncream,1,red\n", "twice"),
        (b"item,grams\ncream,lots\n", "row 2, column 'grams'"),
        (b"item,grams\ncream,\n", "column 'grams' (cell B2): an empty cell"),
        (b"item,grams\ncream,3 kg\n", "a number alone"),
        (b"item,grams\ncream,1001\n", "a number from 0 to 1000"),
        (b"item,grams\ncream,-1\n", "a number from 0 to 1000"),
        (b"item,grams\ncream,nan\n", "row 2, column 'grams'"),
        (b"item,grams\ncream,1e99\n", "row 2, column 'grams'"),
        (b'item,grams\ncream,"1,250"\n', "two ways"),
        (b"item,grams\ncream,1\ncream,2\n", "row 3: cream stands in row 2 already"),
        (b"item,grams\ncream,1,2,3\n", "more cells"),
        (b'item,grams\n"cream,1\n', "row 2"),
        (b"item,grams\ncream\x00,1\n", "not text"),
        (b"\x81\x8d\x8f", "not text"),
        (b"x" * 2_000_001, "a file of"),
    ],
)
def test_all_else_is_refused_with_row_column_and_remedy(source, says):
    with pytest.raises(StudentError) as error:
        rows(source)
    assert says in str(error.value) and "stock.csv" in str(error.value)
    assert error.value.needed and error.value.example


def test_missing_file_is_a_student_error(tmp_path):
    with pytest.raises(StudentError, match="cannot be read"):
        read_table(tmp_path / "nothing.csv", TABLE)


GOOD = values().to_csv()
_CELLS = st.one_of(
    st.sampled_from(
        [
            "",
            " ",
            "3",
            "3,5",
            "3.5",
            "-1",
            "1e9",
            "nan",
            "½",
            "kg",
            "degC",
            "zorks",
            "02",
            "=1+1",
            '"',
            "\x00",
            "\ufeff",
        ]
    ),
    st.text(max_size=8),
)


@st.composite
def fuzzed_csv(draw):
    """A values file with cells, rows, separators and bytes spoiled."""
    table = list(csv.reader(io.StringIO(GOOD)))[: draw(st.integers(1, 6))]
    for _ in range(draw(st.integers(0, 3))):
        row = draw(st.integers(0, len(table) - 1))
        column = draw(st.integers(0, len(table[row]) - 1))
        table[row][column] = draw(_CELLS)
    if draw(st.booleans()):
        table.insert(draw(st.integers(0, len(table))), draw(st.lists(_CELLS, max_size=10)))
    separator = draw(st.sampled_from([",", ";", "\t", "|"]))
    text = draw(st.sampled_from(["\n", "\r\n", "\r"])).join(separator.join(row) for row in table)
    raw = text.encode(draw(st.sampled_from(["utf-8", "utf-8-sig", "utf-16", "cp1252"])), errors="replace")
    if draw(st.integers(0, 9)) == 0:
        at = draw(st.integers(0, len(raw)))
        raw = raw[:at] + draw(st.binary(max_size=4)) + raw[at:]
    return raw


@settings(max_examples=depth(200, 2_000), suppress_health_check=list(HealthCheck))
@given(fuzzed_csv())
def test_spoiled_files_are_read_or_refused(raw):
    try:
        found = values(raw)
    except StudentError as error:
        assert "exercise_values.csv" in str(error) and error.needed and error.example
        return
    assert isinstance(found, Values)
    for given_ in found.givens.values():
        assert given_.low <= given_.value <= given_.high and given_.step > 0


def test_values_in_force_explicit_then_workbook_then_package(own_workbook):
    packaged = values()
    assert packaged.givens
    assert values(packaged.moved("high")).id != packaged.id
    (own_workbook / "datasets").mkdir()
    own = own_workbook / "datasets" / "exercise_values.csv"
    own.write_text(packaged.moved("low").to_csv(), encoding="utf-8")
    assert values().id == packaged.moved("low").id
    assert values(packaged.to_csv()).id == packaged.id


def test_values_id_is_of_the_content_not_of_the_file():
    assert values(GOOD).id == values(GOOD.replace(",", ";")).id == values(("\ufeff" + GOOD).encode()).id
    assert len(values(GOOD).id) == 8


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (("9999", "kg", "2", "6", "0.5"), "column 'value'"),
        (("4", "zorks", "2", "6", "0.5"), "column 'unit'"),
        (("4", "kg", "2", "6", "0.7"), "column 'step'"),
        (("4", "kg", "2", "6", "0"), "column 'step'"),
        (("4", "kg", "2", "6", "0.00001"), "at most 10000 steps"),
        (("4", "kg", "6", "2", "0.5"), "low 6 above high 2"),
    ],
)
def test_values_out_of_range_are_refused(change, says):
    text = "lesson,exercise,given,value,unit,low,high,step\n02,02.x,batch," + ",".join(change) + "\n"
    with pytest.raises(StudentError) as error:
        values(text)
    assert says in str(error.value)


def test_every_dataset_has_its_sources():
    sources = (files.folder() / "SOURCES.md").read_text(encoding="utf-8")
    for path in sorted(files.folder().rglob("*.csv")):
        header = path.read_bytes().decode("utf-8", errors="replace").splitlines()[0]
        named = path.name in sources or path.parent.name in sources
        assert "source" in header or named, path.name


def test_bands_and_logs_load():
    assert set(datasets.chocolate_bands()["kind"]) == {"dark", "milk", "white"}
    for name in datasets.probe_logs()["file"]:
        assert (files.folder() / "probe_logs" / name).is_file()
    assert values().to_csv().splitlines()[0] == ",".join(
        c.name for c in EXERCISE_VALUES.columns if c.required or c.name == "unit"
    )
