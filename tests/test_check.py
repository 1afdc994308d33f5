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
from pastrylab.school.engine import Exercise, Slip
from pastrylab.school.given_kinds import KINDS
from pastrylab.school.sheets import problems as sheets_problems

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
    alike = {"g": "kg", "lb": "kg", "oz": "kg", "cup": "mL", "h": "min"}
    alike |= {"degF": "degC", "delta_degF": "delta_degC", "%": "percent"}
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
    key = exercises.key()["answer"]
    assert f"row {row}" in key[exercise] and sum("not set" in answer for answer in key) == 1
    assert command_line.main(["key"]) == 0
    key = capsys.readouterr().out
    assert f"row {row}" in " ".join(key.split()) and key.count("Missing. ") == 1
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
        ("pack_lists.csv", "\nhoney,honey", "\nhonney,honey", "honney"),
        ("pack_lists.csv", "\nbutter unsalted,", "\nbutter,", "another name of butter unsalted"),
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


# --- limits of a row of exercise values: both sides of each -----------------------------------------------------------

HEAD = "lesson,exercise,given,value,unit,low,high,step\n"


@pytest.mark.parametrize(
    ("value", "low", "high", "step", "says"),
    [
        (1, 1, 4, 0.5, ""),
        (4, 1, 4, 0.5, ""),
        (2, 2, 2, 1, ""),
        (0.99, 1, 4, 0.5, "a value from low, 1, to high, 4; .*low 0.99, high 4"),
        (4.01, 1, 4, 0.5, "a value from low, 1, to high, 4; .*low 1, high 4.01"),
        (2, 4.5, 4, 0.5, "low 4.5 above high 4.*low 4, high 4.5"),
        # at most ten thousand steps, the project's own limit: 1 to 10 001 by 1, and one more
        (2, 1, 10001, 1, ""),
        (2, 1, 10002, 1, "column 'step' .cell H2.: 1.*at most 10000 steps"),
        # 0.7 goes 4.29 times into 3, the nearest is 4 times: 3 / 4 = 0.75. 5 goes no time into 1: one step of 1.
        (2, 1, 4, 0.7, "0.7 does not lead from 1 to 4.*0.75"),
        (2, 1, 2, 5, "5 does not lead from 1 to 2.*Example: 1[.]$"),
        # a millionth may be missing: 3 x 1000 for 3000.002, not for 3000.004; 5 x 0.1 not for 0.50000105
        (2, 0, 3000.002, 1000, ""),
        (2, 0, 3000.004, 1000, "does not lead"),
        (0.2, 0, 0.50000105, 0.1, "does not lead"),
        (0.2, 0, 0.50000095, 0.1, ""),
    ],
)
def test_a_range_and_its_steps_have_two_sides(value, low, high, step, says):
    rows = f"{HEAD}99,99.mine,batch,{value},kg,{low},{high},{step}\n"
    if says:
        with pytest.raises(StudentError, match=says):
            exercise_values.values(rows)
        # looked at as a whole, and given again, it stops its own exercise only
        survey = exercise_values.survey(rows)
        assert exercise_values.values(survey) is survey and survey.faults[0][0] == "99.mine"
        assert survey.of("99.other") == {}
    else:
        assert exercise_values.values(rows).of("99.mine")["batch"].value == value


def test_the_id_of_values_has_eight_letters():
    assert re.fullmatch("[0-9a-f]{8}", exercise_values.values(_VALUES).id)


@pytest.mark.parametrize(("column", "text"), [(VALUE, "7.5"), (LOW, "3.5"), (HIGH, "12.5"), (STEP, "0.5")])
def test_half_a_thing_is_refused_in_every_column(column, text):
    (line,) = re.findall(r"^.*,08.pod-in-a-batch,used,.*$", _VALUES, re.MULTILINE)
    low, high = float(line.split(",")[LOW]), float(line.split(",")[HIGH])
    changed = {VALUE: low + 0.5, LOW: low - 0.5, HIGH: high + 0.5, STEP: 0.5}[column]
    if column in (LOW, HIGH):
        line = cell(line, STEP, str(0.5))
    (_exercise, fault), *_ = exercise_values.survey(f"{HEAD}{cell(line, column, str(changed))}\n").faults
    assert "a whole number: this is counted" in str(fault) and f": {changed:g}" in str(fault)


@pytest.mark.parametrize("name", ["chocolate_bands.csv", "ganache_ratios.csv", "infusions.csv", "ganache_targets.csv"])
def test_a_band_the_wrong_way_round_is_named_in_every_sheet_of_bands(own_workbook, monkeypatch, name):
    shutil.copytree(PACKAGED, own_workbook / "datasets")
    path = own_workbook / "datasets" / name
    head, row, *rest = path.read_text(encoding="utf-8").splitlines()
    cells, at = row.split(","), head.split(",").index("low")
    low, high = cells[at : at + 2]
    cells[at : at + 2] = high, low
    path.write_text("\n".join([head, ",".join(cells), *rest]) + "\n", encoding="utf-8")
    said = f"row 2: low {float(high):g} above high {float(low):g}"
    assert [one for one in sheets_problems() if said in one and name in one and f"low {float(low):g}, high" in one]


def test_a_band_of_no_width_is_let_pass(own_workbook):
    shutil.copytree(PACKAGED, own_workbook / "datasets")
    path = own_workbook / "datasets" / "infusions.csv"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("tea leaves,2,4", "tea leaves,3,3"), encoding="utf-8")
    assert sheets_problems() == []


# --- how often a slip may fall on the right answer: not more than one time in twenty, the project's own limit ---------


def coincides(times, of):
    """What is said of an exercise whose slip gives the right answer for so many of so many students (the class values
    not among them)."""
    asked = iter(range(10**6))
    toy = Exercise(
        "99.mine",
        "t",
        "{batch}",
        answer=lambda g: g.batch,
        hint="h",
        steps=(),
        unit="kg",
        resolution=0.01,
        sane=(0.1, 100),
        slips=(Slip("slip", lambda g: g.batch * (1 if 1 <= next(asked) <= times else 2), "s"),),
    )
    return checking.problems(toy, f"{HEAD}99,99.mine,batch,2,kg,1,4,0.5\n", students=of - 1)


@pytest.mark.parametrize(
    ("times", "of", "percent"),
    [(0, 20, ""), (1, 20, ""), (2, 20, "10"), (20, 400, ""), (21, 400, "5"), (1, 2, "50")],
)
def test_one_slip_in_twenty_may_fall_on_the_right_answer(times, of, percent):
    said = f"99.mine: the slip 'slip' gives the same as the right answer for {percent} % of students; narrow the range."
    assert coincides(times, of) == ([said] if percent else [])


def test_an_absurd_answer_is_said_with_the_values_it_comes_from():
    toy = Exercise("99.mine", "t", "{batch}", answer=lambda g: g.batch, hint="h", steps=(), unit="kg", sane=(0.1, 1.5))
    (said,) = checking.problems(toy, f"{HEAD}99,99.mine,batch,2,kg,1,4,0.5\n", students=3)
    assert "2 kg" in said and said.endswith("for the class values; batch = 2 kg.")
