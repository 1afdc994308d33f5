"""The keys of drawn students against plain arithmetic, and what they say counts as right against the marker."""

import math

import pytest
from test_drawn_students import ANSWERS, TIGHT, TOLERANCE, drawn

from pastrylab.course.catalogue import EXERCISES, grade
from pastrylab.school.class_list import Student
from pastrylab.school.keys import key_of

pytestmark = pytest.mark.usefixtures("one_look")

STUDENTS = ["", "7", "17", "ana maria"]
LETTERS = "ABCDEFGH"
UNITS = {"degC": "°C", "day": "days", "": ""}  # as a cook writes them; the others as they are


def right_for(which, student):
    """The answer of plain arithmetic as the key writes its number: shares in percent, prices up to the cent, letters."""
    exercise, answer = EXERCISES[which], ANSWERS[which](**drawn(which, student))
    if exercise.kind == "choice":
        return LETTERS[[option.name for option in exercise.options].index(answer)]
    return 100 * answer if exercise.kind == "share" else answer


def within(exercise):
    """What may be missed on either side, as the number in the key counts: by the rule of the page, in plain figures."""
    return (100 if exercise.kind == "share" else 1) * exercise.resolution


def last_digit(exercise, expected):
    """A cent; else a tenth of what may be missed, or less. Three decimals behind a whole number look like thousands."""
    digit = 0.01 if exercise.kind == "money" else 10 ** math.floor(math.log10(within(exercise) / 10) + 1e-9)
    return 0.01 if math.isclose(digit, 0.001) and expected >= 1 else digit


@pytest.mark.parametrize("which", ANSWERS)
def test_a_key_has_the_answer_of_plain_arithmetic_and_its_unit(which):
    exercise = EXERCISES[which]
    for student in STUDENTS:
        (row,) = key_of([exercise], Student(student)).rows
        found, expected = row.accepted, right_for(which, student)
        if exercise.kind == "choice":
            assert (found.number, found.unit, found.lowest, found.highest) == (expected, "", "", "")
            assert row.answer.startswith(f"{expected}, ")
            continue
        off = TOLERANCE.get(which, TIGHT) * abs(expected)
        digit = last_digit(exercise, expected)
        limit = exercise.limit != "" or exercise.kind == "money"  # these go up or down, not to the nearest
        assert abs(float(found.number) - expected) <= (digit if limit else digit / 2) + off, (student, found)
        low = expected if exercise.limit == "low" else expected - within(exercise)
        high = expected if exercise.limit == "high" else expected + within(exercise)
        assert low - off <= float(found.lowest) < low + digit + off, (student, found)
        assert high - digit - off < float(found.highest) <= high + off, (student, found)
        unit = {"share": "%", "money": "USD"}.get(exercise.kind) or UNITS.get(exercise.unit, exercise.unit)
        assert found.unit == unit
        assert str(float(found.lowest)).rstrip("0").rstrip(".") in found.words
        assert exercise.because in found.words


@pytest.mark.parametrize("which", [which for which in ANSWERS if EXERCISES[which].kind != "choice"])
def test_what_a_key_says_counts_as_right_is_what_the_marker_takes(which):
    """Lowest and highest, typed as they stand, are right; one more of their last digit is not."""
    exercise = EXERCISES[which]
    for student in STUDENTS:
        (row,) = key_of([exercise], Student(student)).rows
        found = row.accepted
        digit = last_digit(exercise, right_for(which, student))
        places = max(0, -math.floor(math.log10(digit) + 1e-9))

        def verdict(number, found=found, student=student):
            return grade(which, f"{number} {found.unit}".strip(), student).status

        assert verdict(found.number) == verdict(found.lowest) == verdict(found.highest) == "right", (student, found)
        below, above = float(found.lowest) - digit, float(found.highest) + digit
        assert "right" not in (verdict(f"{below:.{places}f}"), verdict(f"{above:.{places}f}")), (student, found)


@pytest.mark.parametrize("which", [which for which in ANSWERS if EXERCISES[which].kind == "choice"])
def test_the_letter_of_a_key_is_right_and_no_other(which):
    for student in STUDENTS:
        (row,) = key_of([EXERCISES[which]], Student(student)).rows
        right = {letter for letter, _text in row.options if grade(which, letter, student).right}
        assert right == {row.accepted.number}
