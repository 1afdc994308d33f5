"""`check_all`: all sheets at once, what moved, what nobody reads. Damages are made as a spreadsheet makes them."""

import shutil

import pytest

from pastrylab import __main__ as command_line
from pastrylab.course import catalogue
from pastrylab.desk import checked
from pastrylab.ground import files
from pastrylab.ground.units import StudentError
from pastrylab.school import checking, exercise_values
from pastrylab.school.moved import moved

PACKAGED = files.folder()
_BATCH = "02,02.seed-for-a-bowl,batch,3,kg,1.5,6,0.5"


@pytest.fixture
def sheets(own_workbook, monkeypatch):
    """The workbook's own folder datasets; what sound values make of the exercises is tried elsewhere, and takes its time."""
    monkeypatch.setattr(checking, "problems", lambda *_: [])
    monkeypatch.chdir(own_workbook)
    shutil.copytree(PACKAGED, own_workbook / "datasets")
    return own_workbook / "datasets"


def change(path, old, new):
    text = path.read_text(encoding="utf-8")
    assert text.count(old) == 1
    path.write_text(text.replace(old, new), encoding="utf-8")


def test_who_changed_nothing_is_told_so(sheets):
    found = checked.check_all()
    assert (found.faults, found.notes) == ((), ())
    assert found.said[0].startswith("The exercise values and the other sheets are sound")
    assert found.changes == ("No exercise has moved since the values that came with the package.",)


@pytest.mark.parametrize(
    ("row", "says"),
    [
        # the class value alone: who draws, draws as before
        (
            "3.5,kg,1.5,6,0.5",
            "class value changed (batch 3 to 3.5 kg); students who gave a number draw from low to high",
        ),
        ("3.5,kg,1.5,6,0.5", "unaffected, because low, high and step did not change."),
        # one step more, or another place to begin: 9 of 10 draws in the old range land elsewhere in the new one
        ("3,kg,1.5,6.5,0.5", "class value as it was; low, high or step changed (batch now 1.5 to 6.5 by 0.5)"),
        ("3,kg,2,6.5,0.5", "of students who gave a number all have other numbers."),
        ("3000,g,1500,6000,500", "another unit (batch kg to g)"),
    ],
)
def test_what_moved_is_said_an_exercise_a_sentence(sheets, row, says):
    change(sheets / "exercise_values.csv", _BATCH, f"02,02.seed-for-a-bowl,batch,{row}")
    (since, said) = checked.check_all().changes
    assert since == "Since the values that came with the package:"
    assert said.startswith("02.seed-for-a-bowl: ") and says in said


def test_how_many_draw_anew_is_counted():
    """Steps 0 to 9 and 0 to 10: k mod 10 and k mod 11 agree where k mod 110 is below 10, one name in eleven."""
    rows = "lesson,exercise,given,value,unit,low,high,step\n99,99.mine,batch,3,kg,0,{},1\n"
    before, now = (exercise_values.values(rows.format(high)) for high in (9, 10))
    (said,) = moved(now, before)
    percent = float(said.partition("about ")[2].partition(" %")[0])
    assert abs(percent - 100 * 10 / 11) < 6, said  # three sigma of 200 names
    assert moved(before, before) == []


def test_new_and_gone_exercises_and_givens():
    head, one = "lesson,exercise,given,value,unit,low,high,step\n", "99,99.{},{},3,kg,1,4,1\n"
    before = exercise_values.values(head + one.format("old", "batch") + one.format("kept", "batch"))
    now = exercise_values.values(head + one.format("new", "batch") + one.format("kept", "bowl"))
    assert moved(now, before) == [
        "99.new: new.",
        "99.kept: other givens than before ('bowl', 'batch'): every student has other numbers.",
        "99.old: no longer in the file.",
    ]


def test_the_last_hand_out_is_what_is_compared_with(sheets):
    kept = sheets.parent / "hand-out" / "values"
    kept.mkdir(parents=True)
    (kept / "0.csv").write_text(
        (PACKAGED / "exercise_values.csv").read_text(encoding="utf-8").replace(_BATCH, _BATCH[:-3] + "1.5")
    )
    (since, said) = checked.check_all().changes
    assert since.startswith("Since the hand-out of ") and "02.seed-for-a-bowl" in said
    assert checked.check_all(hand_outs="elsewhere").changes[0].startswith("No exercise has moved")
    assert "02.seed-for-a-bowl" in checked.check_all(since=kept / "0.csv").changes[1]


def test_a_sheet_nobody_reads_and_one_that_is_missing(sheets):
    (sheets / "prices.csv").rename(sheets / "price.csv")
    assert checked.check_all().notes == (
        "price.csv in the folder datasets is read by no lesson. If it is meant to be prices.csv, give it that name.",
        "prices.csv is not in the folder datasets: the one that came with the package is in force.",
    )


def test_values_that_are_no_table_do_not_hide_other_faults(sheets):
    (sheets / "exercise_values.csv").write_bytes(b"PK\x03\x04\0\0")
    change(sheets / "prices.csv", 'bag",dark couverture 64 %,2.5,kg,41.50', 'bag",dark couverture 64 %,2.5,kg,forty')
    found = checked.check_all()
    assert [("exercise_values.csv" in one, "prices.csv, row 2" in one) for one in found.faults] == [
        (True, False),
        (False, True),
    ]
    assert found.changes == ()
    with pytest.raises(StudentError, match="exercise_values.csv"):
        checked.check_all(sheets / "exercise_values.csv")


def test_a_class_list_is_looked_at_when_named(sheets, tmp_path):
    roll = tmp_path / "class.csv"
    roll.write_text("number,name\n17,Ana\n,Bo\n")
    (said,) = checked.check_all(roll=roll).faults
    assert "class.csv, row 3: no number" in said
    with pytest.raises(StudentError, match="nowhere.csv"):
        checked.check_all(roll=tmp_path / "nowhere.csv")


def test_the_command_says_its_progress_and_all_it_found(sheets, capsys):
    change(sheets / "exercise_values.csv", _BATCH, _BATCH.replace(",3,", ",forty,"))
    assert command_line.main(["check"]) == 1
    said = capsys.readouterr()
    assert "Lesson 02: every exercise" in said.err and "Reading every sheet" in said.err
    assert "row" in said.out and "'forty'" in said.out and "No exercise has moved" in said.out


def test_a_misspelt_exercise_is_named_with_the_one_that_was_meant(sheets):
    change(sheets / "exercise_values.csv", _BATCH, _BATCH.replace("02.seed-for-a-bowl", "02.sead-for-a-bowl"))
    found = checked.check_all().faults
    assert "exercise_values.csv: there is no exercise '02.sead-for-a-bowl'. Did you mean 02.seed-for-a-bowl?" in found


def test_the_key_goes_on_where_one_exercise_cannot_be_set(sheets):
    whole = catalogue.key()
    change(sheets / "exercise_values.csv", _BATCH, _BATCH.replace(",3,", ",forty,"))
    key = catalogue.key()
    assert list(key.index) == list(whole.index)
    changed = [e for e in key.index if key.loc[e, "answer"] != whole.loc[e, "answer"]]
    assert changed == ["02.seed-for-a-bowl"] and "'forty'" in key.loc[changed[0], "answer"]


@pytest.mark.parametrize(
    ("name", "old", "new", "says", "example"),
    [
        ("stock.csv", "\nbutter 82 %,", "\nbuter 82 %,", "'buter 82 %'", "butter 82 %"),
        ("moulded.csv", '"square, 24",24', '"squre, 24",24', "row 2, column 'mould': 'squre, 24'", "square, 24"),
        ("moulded.csv", '"square, 24",24', '"square, 24",25', "row 2, column 'cavities': 25 of a mould called", "24"),
        ("moulded.csv", "dark ganache,", "drak ganache,", "row 2, column 'bonbon': 'drak ganache'", "dark ganache"),
        ("moulded.csv", "30,45,180", "30,450,180", "rest_least_min 450 above rest_most_min 180", "rest_least_min 180"),
        ("lab.csv", "day 1,1,8:00,", "day 1,1,eight,", "'eight' for the hours of day 1", "8:00"),
        (
            "ingredients.csv",
            "water,tap water;drinking water,drink",
            "water,tap water;drinking water,drnk",
            "'drnk'",
            "drink",
        ),
        ("chocolate_bands.csv", "dark,cool,28,29,in use", "DARK,cool,28,29,in use", "'DARK'", "dark"),
    ],
)
def test_sheets_that_name_each_other_and_words_near_another(sheets, name, old, new, says, example):
    change(sheets / name, old, new)
    faults = [one for one in checked.check_all().faults if not one.startswith("Until that is mended")]
    assert len(faults) == 1 and name in faults[0] and says in faults[0], faults
    assert f"Example: {example}" in faults[0]


def test_a_mould_has_one_number_of_cavities(sheets):
    """By the name where it states one; else by what the other rows say of it. A maker's number in a name is no count."""
    for name in ("dome", "dome 28", "dome no. 1205", "No. 1205", "dome, 28 g"):
        for sheet in ("moulded.csv", "lab.csv"):
            text = (files.folder() / sheet).read_text(encoding="utf-8")
            (sheets / sheet).write_text(text.replace("dome, 28", name), encoding="utf-8")
        assert not [one for one in checked.check_all(students=1).faults if "moulded" in one], name
    change(sheets / "moulded.csv", 'hazelnut praline,"dome, 28 g",28', 'hazelnut praline,"dome, 28 g",24')
    (fault,) = (one for one in checked.check_all(students=1).faults if "moulded" in one)
    assert "24 cavities of 'dome, 28 g' for hazelnut praline, 28 above" in fault
