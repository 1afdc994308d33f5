"""What a key says of one exercise: the number, what counts as right beside it, what is missing."""

import dataclasses
from decimal import Decimal

import pytest

from pastrylab.course.catalogue import EXERCISES, grade
from pastrylab.ground.money import Money
from pastrylab.school.engine import Exercise
from pastrylab.school.keys import accepted, key_of


def test_the_unit_asked_for_is_one_that_is_taken():
    for exercise in EXERCISES.values():
        (row,) = key_of([exercise]).rows
        right = row.accepted
        assert grade(exercise.id, f"{right.number} {right.unit}".strip()).right, exercise.id


def test_an_answer_without_a_tolerance_of_its_own_is_itself():
    mine = Exercise("02.mine", "Mine", "How much?", lambda g: 12.3456, "", (), unit="g")
    assert accepted(mine, 12.3456).words == "Right at 12.35 g."
    assert accepted(mine, 0.0).number == "0"


@pytest.mark.parametrize(
    ("answer", "resolution", "right"),
    [  # by hand; three decimals behind a whole number would be taken for thousands
        (2.6667, 0.07, ("2.67", "2.6", "2.73")),
        (2.6667, 0.02, ("2.67", "2.65", "2.68")),
        (2.66671, 0.0199, ("2.6667", "2.6469", "2.6866")),
        (0.2667, 0.07, ("0.267", "0.197", "0.336")),
        (26667.0, 500.0, ("26670", "26170", "27160")),
        (26667.0, 5.0, ("26667", "26662", "26672")),
    ],
)
def test_a_number_has_a_digit_more_than_its_tolerance(answer, resolution, right):
    mine = Exercise("02.mine", "Mine", "How much?", lambda g: answer, "", (), unit="g", resolution=resolution)
    found = accepted(mine, answer)
    assert (found.number, found.lowest, found.highest) == right


@pytest.mark.parametrize(
    ("amount", "currency", "right"),
    [  # a cent, a yen and a fils on either side
        ("12.5", "USD", ("12.50", "12.49", "12.51", "Right from $12.49 to $12.51.")),
        ("1200", "JPY", ("1200", "1199", "1201", "Right from 1199 JPY to 1201 JPY.")),
        ("1.5", "KWD", ("1.500", "1.499", "1.501", "Right from 1.499 KWD to 1.501 KWD.")),
    ],
)
def test_money_is_written_to_its_coin(amount, currency, right):
    mine = Exercise("08.mine", "Mine", "How much?", lambda g: 0, "", (), kind="money", resolution=0.01)
    found = accepted(mine, Money(Decimal(amount), currency))
    assert (found.number, found.lowest, found.highest, found.words) == right and found.unit == currency


def test_a_given_that_only_the_text_names_is_said_to_be_missing():
    exercise = dataclasses.replace(EXERCISES["08.as-purchased"], prompt="Take {basket} and {edible}.")
    (missing,) = key_of([exercise]).missing
    assert "without the given 'basket' of 08.as-purchased" in missing[1]


def test_a_fault_of_ours_is_not_taken_for_a_missing_row():
    ours = Exercise("02.seed-for-a-bowl", "Mine", "How much?", lambda g: "text".grams, "", ())
    with pytest.raises(AttributeError, match="grams"):
        key_of([ours])
