"""The sums in worked solutions hold, in numbers a student can type into a pocket calculator, and lead to the answer."""

import math

import pytest
from paper_sums import off, sums

from pastrylab.course.catalogue import EXERCISES
from pastrylab.school.engine import case

STUDENTS = ["", "Ana", "Bo", "Chidi", "Daria", "Emre"]
# Their last step is in words: boxes are sold whole, moulds are filled whole.
WHOLE = {"08.break-even", "06.moulds-for-an-order", "09.moulds-for-boxes", "09.cartons-for-two-sections"}


@pytest.mark.parametrize(
    ("text", "holds"),
    [
        ("Heat: 3 kg × 1.59 × (46 − 31.5) = 69.165 kJ.", True),
        ("Heat: 3 kg × 1.59 × (46 + 31.5) = 69.165 kJ.", False),
        ("(52.2 + (−92)) ÷ 2 = −19.9", True),
        ("(52.2 + 92) ÷ 2 = −19.9", False),
        ("takes $270.00 − 49 × $5.50 = $0.50", True),
        ("takes $270.00 − 48 × $5.50 = $0.50", False),
        ("log(53 ÷ 17) ÷ log(2) = 1.6405 times", True),
        ("0.9102 × e^(−0.02472) = 0.888", True),
        ("0.9102 × e^(0.02472) = 0.888", False),
        ("so 361 g ÷ 870 g = 41.49 %", True),
        ("so 361 g ÷ 870 g = 41.6 %", False),
        ("10^1.349 = 22.34 days", True),
        ("√6.47 × 0.0306 = 2.544 × 0.0306 = 0.0778", True),
        ("√6.47 × 0.0306 = 2.544 × 0.0306 = 0.0788", False),
    ],
)
def test_a_sum_is_read_as_written(text, holds):
    ((left, right, half, _),) = sums(text)
    assert (off(left, right, half) == 0) == holds


@pytest.mark.parametrize("which", EXERCISES)
def test_the_sums_of_every_worked_solution_hold(which):
    exercise = EXERCISES[which]
    for student in STUDENTS:
        worked = case(exercise, student)
        steps = worked.solution[:-1]
        found = [one for step in steps for one in sums(step)]
        assert found, "words only"
        for left, right, half, _ in found:
            assert off(left, right, half) == 0, (student, left.tokens, left.worth(), right)
        if exercise.kind == "choice":
            continue
        expected, spread = float(worked.expected), max(exercise.resolution, 1e-3 * abs(float(worked.expected)))
        ends = {right * (1000 if unit == "kg" and exercise.unit == "g" else 1) for _, right, _, unit in found}
        if which in WHOLE:
            ends = {math.ceil(end) for end in ends}
        assert any(abs(end - expected) <= spread for end in ends), (student, ends, expected)
