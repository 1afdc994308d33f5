"""Every exercise's class answer against one worked by hand: by_hand.csv, its sums as a cook would write them.

The rows were worked from the printed prompt, exercise_values.csv, ingredients.csv and the sources they name.
"""

import csv
from pathlib import Path

import pytest
import written_sums

from pastrylab.course.catalogue import EXERCISES
from pastrylab.school.draws import givens

HERE = Path(__file__).resolve().parent
VALUES = HERE.parents[1] / "datasets" / "exercise_values.csv"


def rows(path):
    with open(path, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


ROWS = rows(HERE / "by_hand.csv")
by_exercise = pytest.mark.parametrize("row", [pytest.param(row, id=row["exercise"]) for row in ROWS])


def test_every_exercise_has_its_row():
    named = [row["exercise"] for row in ROWS]
    assert not (set(EXERCISES) - set(named)), "exercises without a row"
    assert not (set(named) - set(EXERCISES)), "rows without an exercise"
    assert sorted(set(named)) == sorted(named), "an exercise with two rows"


@by_exercise
def test_the_givens_are_those_of_the_class(row):
    found = [(r["given"], r["value"], r["unit"]) for r in rows(VALUES) if r["exercise"] == row["exercise"]]
    assert row["givens"] == "; ".join(f"{name} {value} {unit}".strip() for name, value, unit in found)


@by_exercise
def test_the_written_sums_hold(row):
    assert written_sums.trouble(row["givens"], row["steps"]) == []
    assert row["who_could_check"]


@by_exercise
def test_the_package_finds_the_answer_worked_by_hand(row, outside):
    exercise = EXERCISES[row["exercise"]]
    found = exercise.answer(givens(exercise))
    if exercise.kind == "choice":
        assert found == row["answer"] and row["unit"] == ""
        return
    asked = {"share": "%", "number": "", "money": "USD"}.get(exercise.kind, exercise.unit)
    assert row["unit"] == asked
    ((expected, half),) = written_sums.numbers(row["answer"])
    assert half < 0.002 * abs(expected), "written too coarsely to tell a wrong answer"
    last = row["steps"].split(";")[-1].rpartition("=")[2]
    assert written_sums.numbers(last)[0][0] == pytest.approx(expected / (100 if asked == "%" else 1))
    outside(
        quantity=f"exercise {row['exercise']}, class answer, {asked or 'a number'}",
        expected=expected,
        got=float(exercise.how.in_unit(found)) * (100 if asked == "%" else 1),
        tolerance=half,
        source=f"worked by hand: {row['who_could_check']}",
    )


@pytest.mark.parametrize(
    ("given", "steps", "said"),
    [
        ("batch 3 kg", "3 kg x 2 = 6.1 kg", "not 6.1"),
        ("batch 3 kg; fall 5 degC", "3 kg x 2 = 6 kg", "used nowhere"),
        ("batch 3 kg", "3 kg x 7 kJ/kg = 21 kJ", "from nowhere"),
        ("batch 3 kg; share 20 %", "3 kg x 20 % = 0.6 kg; 0.6 kg > 3 kg", "0.6 and 3"),
    ],
)
def test_a_wrong_sum_is_noticed(given, steps, said):
    assert said in " ".join(written_sums.trouble(given, steps))


def test_a_sum_is_read_as_it_is_written():
    steps = "take c 1.59 kJ/kgK; heat given up: 3 kg x 1.59 kJ/kgK x (46 - 31.5) = 69.165 kJ; up(11 / 4.5) = 3"
    assert written_sums.trouble("batch 3 kg; from 46 degC; to 31.5 degC; order 11 kg; bowl 4.5 kg", steps) == []
    assert written_sums.worth("log2(8) - (2 + 1) x 50 %") == 1.5
