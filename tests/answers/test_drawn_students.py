"""Answers of drawn students, and what their worked solutions show on the way, against plain arithmetic."""

import csv
import hashlib
import itertools
import re
from dataclasses import replace
from functools import reduce
from pathlib import Path
from types import SimpleNamespace

import arithmetic_01
import arithmetic_02
import arithmetic_03
import arithmetic_04
import arithmetic_05
import arithmetic_06
import arithmetic_07
import arithmetic_08
import arithmetic_09
import pytest
from depth import depth

from pastrylab.course.catalogue import EXERCISES
from pastrylab.ground.units import Q
from pastrylab.school import exercise_values
from pastrylab.school.draws import givens

pytestmark = pytest.mark.usefixtures("one_look")

with open(
    Path(__file__).resolve().parents[2] / "datasets" / "exercise_values.csv", encoding="utf-8", newline=""
) as file:
    ROWS = list(csv.DictReader(file))
LESSONS = (
    arithmetic_01,
    arithmetic_02,
    arithmetic_03,
    arithmetic_04,
    arithmetic_05,
    arithmetic_06,
    arithmetic_07,
    arithmetic_08,
    arithmetic_09,
)
ANSWERS = {which: answer for lesson in LESSONS for which, answer in lesson.ANSWERS.items()}
ON_THE_WAY = {which: shown for lesson in LESSONS for which, shown in lesson.ON_THE_WAY.items()}
WRITTEN = {which: shown for lesson in LESSONS for which, shown in getattr(lesson, "WRITTEN", {}).items()}
TABLES = {which: table for lesson in LESSONS for which, table in getattr(lesson, "TABLES", {}).items()}
STUDENTS = ["", *(f"student {number}" for number in range(1, depth(9, 21)))]
TIGHT = 1e-6  # relative: both sides are sums in floats
TOLERANCE = {
    "04.boil-in-the-mountains": 5e-5,  # the vapour pressure of water is another equation than the package's: up to 0.003 K
}
ROUNDED = 5e-6  # on the way: the package's molar masses are rounded to four decimals


def grid(which):
    """Every value a given of the exercise can have: {given: values}."""
    found = {}
    for row in (row for row in ROWS if row["exercise"] == which):
        low, high, step = (float(row[name]) for name in ("low", "high", "step"))
        found[row["given"]] = [round(low + k * step, 9) for k in range(round((high - low) / step) + 1)]
    return found


def drawn(which, student):
    """A student's numbers by the published rule: SHA-256 of "exercise|given|student", low + k steps."""
    if not student:
        return {row["given"]: float(row["value"]) for row in ROWS if row["exercise"] == which}
    numbers = {}
    for given, values in grid(which).items():
        digest = hashlib.sha256(f"{which}|{given}|{student}".encode()).hexdigest()
        numbers[given] = values[int(digest[:16], 16) % len(values)]
    return numbers


def same(exercise, found, expected):
    if exercise.kind == "choice":
        return found == expected
    return float(exercise.how.in_unit(found)) == pytest.approx(expected, rel=TOLERANCE.get(exercise.id, TIGHT))


def test_every_exercise_is_worked_again():
    assert set(ANSWERS) == set(ON_THE_WAY) == set(EXERCISES)


@pytest.mark.parametrize("which", ANSWERS)
def test_the_answer_is_that_of_plain_arithmetic(which):
    exercise = EXERCISES[which]
    for student in STUDENTS:
        found, numbers = exercise.answer(givens(exercise, student)), drawn(which, student)
        assert same(exercise, found, ANSWERS[which](**numbers)), (student, found, numbers)


def step(value, name):
    """One part of a let: "made.cream.fat", "card.water.0"."""
    if hasattr(value, "__getitem__"):
        return value[int(name) if name.isdigit() else name]
    return getattr(value, name)


def plain(value, unit):
    """A let as a plain number in a unit."""
    return float(value.m_as(unit or "dimensionless")) if hasattr(value, "m_as") else float(value)


@pytest.mark.parametrize("which", ON_THE_WAY)
def test_what_is_shown_on_the_way_is_too(which):
    for student in STUDENTS:
        g = givens(EXERCISES[which], student)
        for name, (expected, unit) in ON_THE_WAY[which](**drawn(which, student)).items():
            found = plain(reduce(step, name.split("."), g), unit)
            assert found == pytest.approx(expected, rel=TOLERANCE.get(which, ROUNDED), abs=1e-9), (student, name)


@pytest.mark.parametrize("which", WRITTEN)
def test_what_is_written_on_the_way_says_so_too(which):
    """A whole text, the first number of one; or words that stand in it, and in no text of this exercise that should not have them."""
    for student in STUDENTS:
        g, written = givens(EXERCISES[which], student), WRITTEN[which](**drawn(which, student))
        words = {word for expected in written.values() if isinstance(expected, tuple) for word in expected}
        for name, expected in written.items():
            text = getattr(g, name)
            if isinstance(expected, str):
                assert text == expected, (student, name)
                continue
            if isinstance(expected, tuple):
                assert {word for word in words if word in text} == set(expected), (student, name, text)
                continue
            number, decimals = re.search(r"-?\d+(?:\.(\d+))?", text).group(0, 1)
            half = 0.5 * 10.0 ** -len(decimals or "") + 1e-9
            assert float(number) == pytest.approx(expected, abs=half), (student, name)


@pytest.mark.parametrize("which", TABLES)
def test_the_table_under_the_prompt_is_too(which):
    for student in STUDENTS:
        _head, found = EXERCISES[which].table(givens(EXERCISES[which], student))
        assert [tuple(row) for row in found] == TABLES[which](**drawn(which, student)), student


def test_the_log_that_is_shown_is_the_one_that_was_worked():
    which = "02.read-a-log"
    for student in STUDENTS:
        given = drawn(which, student)
        _, rows = EXERCISES[which].table(givens(EXERCISES[which], student))
        degrees = [(round(10 * given["start"]) - i * round(10 * given["fall"])) / 10 for i in range(len(rows))]
        assert rows == [(f"{i * given['every']:g}", f"{c:.1f}", f"{9 * c / 5 + 32:.1f}") for i, c in enumerate(degrees)]
        assert 1 <= sum(c < 31 for c in degrees) <= 3, "it ends below the working band, and soon"


def test_the_shelf_that_is_shown_is_the_one_that_was_worked():
    which = "01.what-runs-out-first"
    for student in STUDENTS:
        given = drawn(which, student)
        _, rows = EXERCISES[which].table(givens(EXERCISES[which], student))
        for part, (name, formula, held) in zip(("couverture", "cream", "butter"), rows, strict=True):
            assert part in name
            assert formula.startswith(f"{given[part]:.0f} g") and held.startswith(f"{given[part + '_held']:.0f} g")


@pytest.mark.parametrize("which", ON_THE_WAY)
def test_all_that_is_shown_as_a_number_is_compared(which):
    g = givens(EXERCISES[which])
    compared = {name.split(".")[0] for name in ON_THE_WAY[which](**drawn(which, ""))}
    assert compared == {name for name in EXERCISES[which].lets if not isinstance(getattr(g, name), str)}


LIMITS = [  # an exercise with a limit in it, the givens that decide
    ("01.a-slip-of-the-hand", ("couverture", "gelatin", "slip", "allowed")),
    ("02.what-now", ("bowl_at", "target")),
    ("03.a-split-bowl", ("chocolate", "cream", "butter", "more")),
    ("04.which-syrup", ("sugar", "store", "sweetest")),
    ("05.display-case", ("reading", "error", "ph")),
    ("08.break-even", ("fixed", "price", "variable")),  # boxes that pay to the cent
    ("08.promotion", ("price", "variable", "off")),  # a box that leaves just nothing
    ("08.promotion", ("variable", "now", "more")),  # all boxes together that leave just as much as now
]


@pytest.mark.parametrize(("which", "deciding"), LIMITS)
def test_beside_a_limit_all_that_can_be_drawn_is_that_of_plain_arithmetic(which, deciding):
    """Twenty students do not meet every limit: a slip of exactly what is allowed, a bowl just inside its card."""
    exercise, values, every = EXERCISES[which], grid(which), exercise_values.values()
    own = replace(every, givens={key: row for key, row in every.givens.items() if key[0] == which})
    for combination in itertools.product(*(values[given] for given in deciding)):
        numbers = drawn(which, "") | dict(zip(deciding, combination, strict=True))
        file = own.moved(lambda _exercise, name, _given, to=numbers: to[name])
        assert same(exercise, exercise.answer(givens(exercise, "", file)), ANSWERS[which](**numbers)), numbers


@pytest.mark.parametrize(
    ("chocolate", "cream", "butter", "more", "right"),
    [(300, 80, 0, 120, "cream"), (300, 400, 0, 60, "butter"), (300, 120, 160, 60, "skim milk")],
)
def test_a_bowl_that_nothing_brings_into_its_card_gets_what_ends_nearest(chocolate, cream, butter, more, right):
    """Nobody draws such bowls, but a class may be given them: too dry, too wet, too fat and crowded."""
    numbers = {"chocolate": chocolate, "cream": cream, "butter": butter, "more": more, "at": 25}
    g = SimpleNamespace(**{name: Q(value, "degC" if name == "at" else "g") for name, value in numbers.items()})
    rescue = EXERCISES["03.a-split-bowl"]
    for name in ("card", "made"):
        setattr(g, name, rescue.lets[name](g))
    assert rescue.answer(g) == right == arithmetic_03.a_split_bowl(**numbers)
