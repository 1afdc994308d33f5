"""Both sides of every limit an argument can have, and the example that is offered."""

import pytest

from pastrylab.ground.limits import Difference, In, Number, Reading, Share
from pastrylab.ground.units import Q, StudentError


@pytest.mark.parametrize(
    ("limits", "inside", "outside"),
    [
        ({"above": 2}, "2.01 kg", "2 kg"),
        ({"at_least": 2}, "2 kg", "1.99 kg"),
        ({"below": 2}, "1.99 kg", "2 kg"),
        ({"at_most": 2}, "2 kg", "2.01 kg"),
    ],
)
def test_a_limit_in_or_out(limits, inside, outside):
    door = In("kg", **limits)
    assert door.floats("batch", inside) == float(inside.split()[0])
    with pytest.raises(StudentError):
        door.floats("batch", outside)


@pytest.mark.parametrize(
    ("door", "low", "high", "under", "over"),
    [
        (Reading(), "-60 °C", "300 °C", "-60.1 °C", "300.1 °C"),
        (Difference(), "-300 °C", "300 °C", "-300.1 °C", "300.1 °C"),
        (Share(), "0", "1", "-0.001", "1.001"),
        (Number(), "-1000000000", "1000000000", "-1e10", "1e10"),
    ],
)
def test_how_far_readings_differences_and_shares_go(door, low, high, under, over):
    for allowed in (low, high):
        door.floats("it", allowed)
    for refused in (under, over):
        with pytest.raises(StudentError):
            door.floats("it", refused)


@pytest.mark.parametrize(
    ("limits", "example"),
    [
        ({}, "1 kg"),
        ({"above": 2}, "3 kg"),
        ({"at_least": 0}, "1 kg"),
        ({"below": 9}, "8 kg"),
        ({"at_most": 9}, "8 kg"),
        ({"above": 2, "at_most": 6}, "4 kg"),
        ({"at_least": 2, "below": 5}, "3.5 kg"),
        ({"above": 2, "example": "250 g"}, "250 g"),
    ],
)
def test_the_example_lies_within(limits, example):
    with pytest.raises(StudentError) as error:
        In("kg", **limits).floats("the_batch", "12 min")
    assert error.value.example == example and error.value.given == "12 min, which is a time for the batch"


def test_ranges_in_words():
    def says(door, value):
        with pytest.raises(StudentError) as error:
            door.floats("it", value)
        return error.value.given, error.value.needed

    assert says(In("kg", above=0, at_most=5), "6 kg") == ("6 kg for it", "a mass above 0 kg and at most 5 kg")
    assert says(In("kg", at_least=1, below=5), "0.5 kg") == ("0.5 kg for it", "a mass at least 1 kg and below 5 kg")
    assert says(In("kg"), Q(2e9, "kg")) == ("2e+09 kg for it", "a mass that fits a kitchen")
    assert says(In("kg"), Q(-2e9, "kg"))[0] == "-2e+09 kg for it"
    assert says(In("kg"), Q(float("nan"), "kg"))[0] == "a value that is not a number for it"
    assert says(In("kg"), "5")[0] == "'5', a number without a unit for it"
    assert says(Number(), "5 kg")[0] == "'5 kg', which has a unit for it"
    assert says(Number(), True)[0] == "True for it" and says(Number(), "5 kg")[1].startswith("a plain number")
    assert says(Number(), ["a" * 80])[0] == repr(["a" * 80])[:60] + "... for it"


def test_in_a_row_the_worst_value_is_named():
    door = In("kg", at_least=1, at_most=5)
    assert door.floats("it", Q([1, 5], "kg"), arrays=True).tolist() == [1, 5]
    assert door.floats("it", Q([], "kg"), arrays=True).size == 0
    for row, worst in (([2, 6, 7], "7 kg"), ([0.5, 0.2, 2], "0.2 kg")):
        with pytest.raises(StudentError, match=f"^You gave {worst} for it"):
            door.floats("it", Q(row, "kg"), arrays=True)


def test_a_refusal_shows_the_example_it_was_given():
    with pytest.raises(StudentError, match=r"Example: 1\.5\."):
        Number(above=0, example="1.5").floats("factor", "-1")


def test_a_row_is_one_value_too_many_unless_it_is_wanted():
    with pytest.raises(StudentError, match="a row of 2 values"):
        In("kg").limited("it", [1, 2])
    assert In("kg").limited("it", [1, 2], arrays=True).tolist() == [1, 2]


@pytest.mark.parametrize(
    ("row", "given"),
    [
        ([1.0, float("inf")], "a value that is not a number for it"),
        ([float("-inf"), 1.0], "a value that is not a number for it"),
        ([1.0, 2e9], "2e+09 kg for it"),
        ([-2e9, 1.0], "-2e+09 kg for it"),
        ([-3e9, 2e9], "-3e+09 kg for it"),
        ([1.0, 1.05e9], "1.05e+09 kg for it"),  # beyond a thousand million
    ],
)
def test_of_a_row_what_fits_no_kitchen_is_named(row, given):
    with pytest.raises(StudentError) as error:
        In("kg").floats("it", Q(row, "kg"), arrays=True)
    assert error.value.given == given


def test_a_thousand_million_is_the_most():
    assert In("kg").floats("it", Q(1e9, "kg")) == 1e9 and Number().floats("it", "1000000000") == 1e9
    for beyond in ("1050000000", "-1050000000"):
        with pytest.raises(StudentError, match="a number that fits a kitchen"):
            Number().floats("it", beyond)


@pytest.mark.parametrize(
    ("typed", "needed"), [("6", "a plain number above 0 and at most 5"), ("5 kg", "a plain number")]
)
def test_a_number_refused_is_told_what_it_may_be(typed, needed):
    with pytest.raises(StudentError) as error:
        Number(above=0, at_most=5).floats("it", typed)
    assert error.value.needed == needed
