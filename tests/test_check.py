"""`check` on sheets as somebody who knows spreadsheets would spoil them: every fault said at once, by its row."""

import re
import shutil

import pytest

from pastrylab import __main__ as command_line
from pastrylab.course import benches
from pastrylab.course import catalogue as exercises
from pastrylab.ground import files
from pastrylab.ground.units import StudentError
from pastrylab.school import checking, exercise_values
from pastrylab.school.given_kinds import KINDS

PACKAGED = files.folder()


@pytest.fixture
def sheets(own_workbook, monkeypatch):
    """The workbook's own copy of datasets, and a function that changes one line of one sheet and returns its row.

    What sound values make of the exercises is tried elsewhere, and takes its time.
    """
    monkeypatch.setattr(checking, "problems", lambda *_: [])
    shutil.copytree(PACKAGED, own_workbook / "datasets")

    def change(name, old, new):
        path = own_workbook / "datasets" / name
        text = path.read_text(encoding="utf-8")
        assert text.count(old) == 1, (name, old, text.count(old))
        path.write_text(text.replace(old, new), encoding="utf-8")
        return 1 + text[: text.index(old)].count("\n")

    return change


def line_of(exercise, given):
    """The line of exercise_values.csv as it is shipped."""
    (line,) = re.findall(rf"^.*,{re.escape(exercise)},{given},.*$", _VALUES, re.MULTILINE)
    return line


_VALUES = (PACKAGED / "exercise_values.csv").read_text(encoding="utf-8")


def cell(line, at, text):
    cells = line.split(",")
    cells[at] = text
    return ",".join(cells)


VALUE, UNIT, LOW, HIGH, STEP = 3, 4, 5, 6, 7


def test_every_given_has_its_kind_and_no_kind_stands_for_nothing():
    """A new exercise gets a line in given_kinds: check and key cannot name a wrong unit without it."""
    shipped = exercise_values.values(_VALUES).givens
    named = {(exercise, given) for exercise, kinds in KINDS.items() for given in kinds}
    assert named == set(shipped)


def test_no_unit_of_another_kind_gets_past_the_door(sheets):
    """Each cell of the column emptied, and filled with one unit of each other kind: none reaches an exercise."""
    units = {"": "", "kg": "mass", "mL": "volume", "min": "time", "degC": "reading", "delta_degC": "fall"}
    units |= {"percent": "share", "USD": "money"}
    alike = {"g": "kg", "lb": "kg", "oz": "kg", "cup": "mL", "degF": "degC", "delta_degF": "delta_degC", "%": "percent"}
    head, *lines = _VALUES.splitlines()
    for line in lines:
        now = line.split(",")[UNIT]
        for unit in units:
            values = exercise_values.survey(f"{head}\n{cell(line, UNIT, unit)}\n")
            assert len(values.faults) == (unit != alike.get(now, now)), (line, unit)


def test_shipped_sheets_are_sound(sheets):
    assert exercises.check(students=2) == []


# (exercise, given, column, text, what is said)
SPOILED = [
    ("02.seed-for-a-bowl", "batch", UNIT, "", "a mass"),
    ("02.seed-for-a-bowl", "batch", UNIT, "mL", "a mass"),
    ("02.seed-for-a-bowl", "batch", UNIT, "zorks", "column 'unit'"),
    ("02.seed-for-a-bowl", "melted_share", UNIT, "", "a share in %"),
    ("02.seed-for-a-bowl", "target", UNIT, "delta_degC", "a temperature"),
    ("01.a-fall-in-degrees", "fall", UNIT, "degF", "a difference"),
    ("08.pod-in-a-batch", "pods", VALUE, "25.5", "a whole number"),
    ("08.pod-in-a-batch", "pods", UNIT, "kg", "an empty cell"),
    ("02.seed-for-a-bowl", "batch", VALUE, "9", "may be widened"),
    ("02.seed-for-a-bowl", "batch", VALUE, "forty", "column 'value'"),
    ("02.seed-for-a-bowl", "batch", VALUE, "", "an empty cell"),
    ("02.seed-for-a-bowl", "batch", LOW, "7", "low 7 above high 6"),
    ("02.seed-for-a-bowl", "batch", STEP, "0", "a number above 0"),
    ("02.seed-for-a-bowl", "batch", STEP, "-0.5", "a number above 0"),
    ("02.seed-for-a-bowl", "batch", STEP, "0.7", "divides the range"),
]


@pytest.mark.parametrize(("exercise", "given", "column", "text", "says"), SPOILED)
def test_a_spoiled_cell_is_named_by_check_key_and_card_and_stops_its_own_exercise_only(
    sheets, capsys, exercise, given, column, text, says
):
    line = line_of(exercise, given)
    row = sheets("exercise_values.csv", line, cell(line, column, text))
    (said,) = exercises.check(students=1)
    assert f"row {row}" in said and says in said and "inf" not in said, said
    with pytest.raises(StudentError, match=f"row {row}"):
        exercises.key()
    assert command_line.main(["key"]) == 2
    assert f"row {row}" in capsys.readouterr().err
    card = benches.exercise(exercise)
    assert f"row {row}" in card.text.value and "our side" not in card.text.value
    card.box.value = "1 g"
    card.check.click()
    assert "our side" not in card.verdict.value and card.verdict.value
    other = benches.exercise("05.highest-reading")
    assert "row" not in other.text.value and "meter" in other.text.value


def test_every_fault_is_said_at_once(sheets):
    for exercise, given, column, text in (
        ("02.seed-for-a-bowl", "batch", VALUE, "forty"),
        ("02.seed-for-a-bowl", "target", UNIT, ""),
        ("08.pod-in-a-batch", "pods", VALUE, "25.5"),
    ):
        line = line_of(exercise, given)
        sheets("exercise_values.csv", line, cell(line, column, text))
    price = '"dark couverture 64 %, bag",dark couverture 64 %,2.5,kg,41.50'
    sheets("prices.csv", price, price.replace("41.50", "forty"))
    found = exercises.check(students=1)
    assert len(found) == 4, found
    assert not any("e+" in sentence for sentence in found)
    for says in ("batch", "target", "pods", "prices.csv, row 2, column 'price'"):
        assert sum(says in sentence for sentence in found) == 1, (says, found)


@pytest.mark.parametrize(
    ("name", "old", "new", "says"),
    [
        (
            "prices.csv",
            'bag",dark couverture 64 %,2.5,kg,41.50',
            'bag",dark couverture 64 %,2.5,kg,4150',
            "may be widened",
        ),
        ("prices.csv", '"vanilla pods, tin of 25",,25,piece', '"vanilla pods, tin of 25",,25.5,piece', "whole number"),
        ("prices.csv", '"salt, box",salt,3,lb', '"salt, box",saltt,3,lb', "saltt"),
        ("prices.csv", "tap water,water,1,L,0,USD", "tap water,water,1,L,0,EUR", "EUR"),
        ("prices.csv", '"salt, box",salt,3,lb', '"salt, box",salt,3,bushel', "pack_unit"),
        (
            "bonbons.csv",
            "dark ganache,filling,heavy cream 36 %,260,96",
            "dark ganache,filling,heavy cream 36 %,260,72.5",
            "whole",
        ),
        (
            "bonbons.csv",
            "dark ganache,filling,heavy cream 36 %,260,96",
            "dark ganache,filling,heavvy creem,260,96",
            "heavvy",
        ),
        ("fillings.csv", "dark,invert syrup,35", "dark,invert syrup,lots", "lots"),
        ("probe_logs.csv", "never_melted_out.csv", "nowhere.csv", "not there"),
        ("cream_logs.csv", "probe_put_in_late.csv", "nowhere.csv", "not there"),
    ],
)
def test_other_sheets_are_looked_at_too(sheets, name, old, new, says):
    sheets(name, old, new)
    found = exercises.check(students=1)
    assert found and any(says in sentence for sentence in found) and all(name in sentence for sentence in found), found


def test_what_spreadsheets_and_teachers_add_is_let_pass():
    noted = "\n".join(line + (",note" if at == 0 else ",ours") for at, line in enumerate(_VALUES.splitlines()))
    semicolons = "sep=;\n" + _VALUES.replace(",", ";")
    for text in (noted, semicolons, _VALUES.replace("lesson,", "Lesson,", 1)):
        assert exercise_values.values(text).id == exercise_values.values(_VALUES).id


@pytest.mark.parametrize(
    ("exercise", "given", "cells"),
    [
        ("02.seed-for-a-bowl", "batch", {VALUE: "6.6138679", UNIT: "lb", LOW: "6.6138679", HIGH: "6.6138679"}),
        ("02.seed-for-a-bowl", "batch", {VALUE: "3000", UNIT: "g", LOW: "1500", HIGH: "6000", STEP: "500"}),
        ("02.seed-for-a-bowl", "target", {VALUE: "88.7", UNIT: "degF", LOW: "88.7", HIGH: "88.7"}),
        ("02.seed-for-a-bowl", "batch", {VALUE: "5,5"}),
        ("02.seed-for-a-bowl", "batch", {VALUE: "2 1/2"}),
        ("08.pod-in-a-batch", "used", {VALUE: "7"}),
        ("08.pod-in-a-batch", "used", {VALUE: "7.0"}),
        ("01.a-fall-in-degrees", "fall", {UNIT: "delta_degC", VALUE: "10"}),
    ],
)
def test_sound_changes_are_let_pass(exercise, given, cells):
    line = new = line_of(exercise, given)
    for at, text in cells.items():
        new = cell(new, at, f'"{text}"' if "," in text else text)
    values = exercise_values.survey(_VALUES.replace(line, new))
    assert values.faults == () and values.id != exercise_values.values(_VALUES).id


def test_another_currency_throughout_is_let_pass():
    euros = re.sub(r",USD,", ",EUR,", _VALUES)
    assert exercise_values.values(euros).faults == ()
