"""What the worked solutions of lessons 04, 05 and 08 show on the way, and their answers, against plain arithmetic."""

import csv
import hashlib
from functools import reduce
from pathlib import Path

import arithmetic_04
import arithmetic_05
import arithmetic_08
import pytest

from pastrylab.course.catalogue import EXERCISES
from pastrylab.school.draws import givens
from pastrylab.school.engine import in_unit

VALUES = Path(__file__).resolve().parents[2] / "datasets" / "exercise_values.csv"
LESSONS = (arithmetic_04, arithmetic_05, arithmetic_08)
ANSWERS = {which: answer for lesson in LESSONS for which, answer in lesson.ANSWERS.items()}
ON_THE_WAY = {which: shown for lesson in LESSONS for which, shown in lesson.ON_THE_WAY.items()}
STUDENTS = ["", *(f"student {number}" for number in range(1, 21))]
# The vapour pressure of water is another equation than the package's, up to 0.003 K away.
TOLERANCE = {"04.boil-in-the-mountains": 5e-5}
# The package's molar masses are rounded to four decimals.
ROUNDED = 5e-6


def drawn(which, student):
    """A student's numbers by the published rule: SHA-256 of "exercise|given|student", low + k steps."""
    numbers = {}
    with open(VALUES, encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            if row["exercise"] != which:
                continue
            low, high, step = (float(row[name]) for name in ("low", "high", "step"))
            digest = hashlib.sha256(f"{which}|{row['given']}|{student}".encode()).hexdigest()
            k = int(digest[:16], 16) % (round((high - low) / step) + 1)
            numbers[row["given"]] = round(low + k * step, 9) if student else float(row["value"])
    return numbers


def plain(value, unit):
    """A let as a plain number in a unit."""
    return float(value.m_as(unit)) if hasattr(value, "m_as") else float(value)


by_exercise = pytest.mark.parametrize("which", ANSWERS)


@by_exercise
def test_the_answer_is_that_of_plain_arithmetic(which):
    exercise = EXERCISES[which]
    for student in STUDENTS:
        found, expected = exercise.answer(givens(exercise, student)), ANSWERS[which](**drawn(which, student))
        if exercise.kind == "choice":
            assert found == expected, student
        else:
            near = pytest.approx(expected, rel=TOLERANCE.get(which, 1e-6))
            assert float(in_unit(exercise, found)) == near, student


@by_exercise
def test_what_is_shown_on_the_way_is_too(which):
    for student in STUDENTS:
        g = givens(EXERCISES[which], student)
        for name, (expected, unit) in ON_THE_WAY[which](**drawn(which, student)).items():
            found = plain(reduce(getattr, name.split("."), g), unit)
            near = pytest.approx(expected, rel=TOLERANCE.get(which, ROUNDED), abs=1e-9)
            assert found == near, (student, name)


def test_all_that_is_shown_as_a_number_is_compared():
    for which, shown in ON_THE_WAY.items():
        g = givens(EXERCISES[which])
        compared = {name.split(".")[0] for name in shown(**drawn(which, ""))}
        numbers = {name for name in EXERCISES[which].lets if not isinstance(getattr(g, name), str)}
        assert compared == numbers, which
