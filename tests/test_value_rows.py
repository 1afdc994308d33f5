"""What is said of a row of exercise values: in the cell's words, with a number of that row as the example."""

import shutil

import pytest

from pastrylab.course import catalogue
from pastrylab.ground import files
from pastrylab.ground.units import StudentError
from pastrylab.school import engine, exercise_values

HEAD = "lesson,exercise,given,value,unit,low,high,step\n"


def fault(cells, head=HEAD):
    ((_exercise, error), *more) = exercise_values.survey(f"{head}99,99.mine,batch,{cells}\n").faults
    assert not more, more
    return error


@pytest.mark.parametrize(
    ("cells", "cell", "example"),
    [
        ("forty,g,30,50,5", "cell D2", "30"),
        (",g,30,50,5", "cell D2", "30"),
        ("40,g,thirty,50,5", "cell F2", "40"),
        ("40,g,30,3. Apr,5", "cell G2", "40"),
        ("40,g,30,50,0", "cell H2", "1"),
        ("40,zorks,30,50,5", "cell E2", "kg"),
        ("60,g,30,50,5", "cell D2", "low 30, high 60"),
        ("40,g,30,50,7", "cell H2", "6.66667"),
    ],
)
def test_the_example_is_of_that_row(cells, cell, example):
    error = fault(cells)
    assert cell in error.given and error.example == example


def test_letters_follow_the_columns_of_the_file():
    head = "lesson,exercise,given,unit,note,value,low,high,step\n"
    assert "(cell F2)" in fault("g,ours,forty,30,50,5", head).given
    assert "(cell D2)" in fault("zorks,ours,40,30,50,5", head).given


@pytest.mark.parametrize(
    ("cells", "example", "says"),
    [
        # 65 % typed as 0.65: 100 times it lies in the range, and nothing else was meant
        ("0.65,%,50,70,1", "65", "per cents"),
        ("0.5,%,50,70,1", "50", "per cents"),
        ("0.7,%,50,70,1", "70", "per cents"),
        ("0.49,%,50,70,1", "low 0.49, high 70", "may be widened"),
        # 1.000 for a thousand grams
        ("1.000,g,500,1500,100", "1000", "a decimal point"),
        ("1.6,g,500,1500,100", "low 1.6, high 1500", "may be widened"),
        ("0,g,500,1500,100", "low 0, high 1500", "may be widened"),
        ("0.65,,50,70,1", "low 0.65, high 70", "may be widened"),
        # a point one place off: 22.0 without it, 6.5 for 65
        ("220,%,16,30,1", "22, or low 16, high 220", "may be widened"),
        ("6.5,,50,70,1", "65, or low 6.5, high 70", "may be widened"),
    ],
)
def test_a_share_and_a_thousand_typed_otherwise_are_told_how(cells, example, says):
    error = fault(cells)
    assert error.example == example and says in error.needed


def test_a_row_that_is_gone_is_named_with_what_to_type(own_workbook):
    shutil.copytree(files.folder(), own_workbook / "datasets")
    path = own_workbook / "datasets" / "exercise_values.csv"
    text = path.read_text(encoding="utf-8")
    # `machines` stands in the answer, `seed_at` in a let and the answer, `shelf` only in a judgement's answer
    for row in (
        "09,09.one-more-machine,machines,",
        "02,02.seed-for-a-bowl,seed_at,",
        "04,04.which-honey-grains,shelf,",
    ):
        (line,) = (line for line in text.splitlines() if line.startswith(row))
        path.write_text(text.replace(line + "\n", ""), encoding="utf-8")
        with pytest.raises(StudentError, match="without the given") as error:
            engine.case(catalogue.exercise(row.split(",")[1]))
        assert error.value.example == line
    path.write_text(text, encoding="utf-8")
    for e in catalogue.EXERCISES.values():
        engine.case(e)
