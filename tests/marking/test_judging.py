"""Many answers judged as `grade` judges each, though no sentence is written and only what is asked for is worked out."""

import random

import pytest
from depth import depth

from pastrylab.course.catalogue import EXERCISES
from pastrylab.ground.money import Money
from pastrylab.ground.units import Quantity, StudentError
from pastrylab.school import draws, exercise_values
from pastrylab.school.engine import Exercise, Option, Slip, case
from pastrylab.school.judging import Judge

VALUES = exercise_values.values()


def typed(worked, dice):
    """Answers right, rounded, a thousand times too large, of another unit, a slip's and none; letters and words."""
    expected, exercise = worked.expected, worked.exercise
    if isinstance(expected, str):
        return [*"Ad", "(b)", worked.answer, worked.options[-1][1], "Z", "", f"C, {expected}"]
    number = float(expected.amount) if isinstance(expected, Money) else expected
    unit = "" if isinstance(expected, Money) else exercise.unit.removeprefix("delta_")
    found = [f"{number:.5g} {unit}", f"{number:.1g} {unit}", f"{1000 * number:.4g} {unit}", f"{number:.4g} oz", "lots"]
    for _slip, wrong in worked.wrong:
        found.append(f"{float(wrong.amount) if isinstance(wrong, Money) else wrong:.4g} {unit}")
    return [*found, f"{number * dice.uniform(0.5, 1.5):.3g} {unit}"]


@pytest.mark.parametrize("which", EXERCISES)
def test_a_judge_says_what_grade_says(which):
    dice, judge = random.Random(which), Judge(EXERCISES, [VALUES])
    for number in range(depth(2, 40)):
        student = str(number or "")
        worked = case(EXERCISES[which], student, VALUES)
        for answer in typed(worked, dice):
            verdict = worked.verdict(answer)
            assert judge.verdict(which, VALUES.id, student, answer) == (verdict.status, verdict.slip), (student, answer)


def the_judge(**parts):
    """A Judge of one exercise, 99.x, asked of a batch of 1.5 kg; its id of values."""
    values = exercise_values.values(
        "lesson,exercise,given,value,unit,low,high,step\n99,99.x,batch,1.5,kg,1,4,0.5\n99,99.x,none,0,,0,1,1\n"
    )
    plain = {"answer": lambda g: g.batch, "hint": "", "steps": (), "unit": "kg", "resolution": 0.01} | parts
    judge = Judge({"99.x": Exercise("99.x", "A batch", "{batch}", **plain)}, [values])
    return lambda answer: judge.verdict("99.x", values.id, "", answer)


def test_a_let_is_worked_out_once_and_only_when_it_is_asked_for():
    asked = []
    lets = {
        "half": lambda g: asked.append("half") or g.batch / 2,
        "quarter": lambda g: asked.append("quarter") or g.half / 2,
        "idle": lambda g: asked.append("idle"),
    }
    slips = (Slip("quartered", lambda g: g.quarter, "{idle}"), Slip("twice", lambda g: 2 * g.quarter, "{idle}"))
    said = the_judge(lets=lets, slips=slips)
    assert said("1.5 kg") == ("right", "") and asked == []
    assert said("0.375 kg") == ("wrong", "quartered") and said("0.75 kg") == ("wrong", "twice")
    assert asked == ["quarter", "half"]


@pytest.mark.parametrize(
    ("lets", "says"),
    [
        ({"mine": lambda g: g.mine}, "without the given 'mine'"),
        ({"mine": lambda g: g.yours, "yours": lambda g: g.mine}, "without the given 'mine'"),
        ({"mine": lambda g: g.lost}, "without the given 'lost'"),
        ({"mine": lambda g: 1 / g.none}, "divides by nothing"),
    ],
)
def test_a_let_that_cannot_be_worked_out_is_said_and_stops_no_marking(lets, says):
    said = the_judge(lets=lets, answer=lambda g: g.mine)
    for _again in range(2):
        with pytest.raises(StudentError, match=says):
            said("1 kg")


def test_where_only_a_slip_asks_for_it_the_slip_is_left_out():
    lets = {"lost": lambda g: g.batch / g.none}
    said = the_judge(lets=lets, slips=(Slip("lost", lambda g: g.lost, ""), Slip("twice", lambda g: 2 * g.batch, "")))
    assert said("3 kg") == ("wrong", "twice") and said("1.5 kg") == ("right", "")


def test_where_only_an_options_text_asks_for_it_words_cannot_be_judged():
    options = (Option("this", "{lost} of it"), Option("that", "{batch} of it"))
    parts = {"kind": "choice", "unit": "", "answer": lambda g: "that"}
    said = the_judge(lets={"lost": lambda g: g.batch / g.none}, options=options, **parts)
    assert said("B") == ("right", "") and said("a") == ("wrong", "this")
    with pytest.raises(StudentError, match="divides by nothing"):
        said("1.5 kg (3.31 lb) of it")


def test_an_option_that_is_a_number_is_chosen_by_it():
    options = (Option("few", "{few}"), Option("many", "{many}"))
    said = the_judge(
        kind="choice",
        unit="",
        answer=lambda g: "many",
        options=options,
        lets={"few": lambda g: 3.0, "many": lambda g: 7.0},
    )
    assert [said(text) for text in ("7", "3", "b", "5")] == [
        ("right", ""),
        ("wrong", "few"),
        ("right", ""),
        ("unreadable", ""),
    ]


def test_what_reads_the_names_there_are_finds_all_of_them():
    exercise = Exercise(
        "99.x",
        "x",
        "x",
        lambda g: len(vars(g)),
        "",
        (),
        kind="number",
        lets={"two": lambda g: 2 * g.one},
        reads_names=True,
    )
    g = draws.as_asked(exercise, (("one", 1.0, "kg"),))
    assert vars(g) == {"one": Quantity(1.0, "kg"), "two": Quantity(2.0, "kg")}
