"""Times in words and with a colon, as people say them; worked by hand: an hour is 60 minutes."""

import pytest

from pastrylab.ground.careful import wait_in_words
from pastrylab.ground.units import In, StudentError, read_text
from pastrylab.page.controls import Control

WAIT = In("min", above=0, at_most=600, example="20 min")
HALVING = Control("halving", "Halving time", "min", 5, 180, 1, 20)
GOOD_TO = Control("error", "Hygrometer good to", "", 0, 10, 1, 3)


@pytest.mark.parametrize(
    ("text", "minutes"),
    [
        ("half an hour", 30),
        ("Half an hour.", 30),
        ("about half an hour", 30),
        ("a half-hour", 30),
        ("a quarter of an hour", 15),
        ("three quarters of an hour", 45),
        ("an hour", 60),
        ("an hour and a half", 90),
        ("one and a half hours", 90),
        ("half hour", 30),
        ("quarter of an hour", 15),
        ("a quarter hour", 15),
        ("one hour", 60),
        ("an hour and a quarter", 75),
        ("1 h 10", 70),
        ("1h10", 70),
        ("1½ h", 90),
    ],
)
def test_a_time_as_it_is_said(text, minutes):
    assert HALVING.read(text, "metric") == minutes
    assert WAIT.floats("the wait", text) == minutes


@pytest.mark.parametrize(
    ("text", "offered"),
    [
        ("1:10", "1 h 10 min or 1 min 10 s"),
        ("0:20", "20 min or 20 s"),
        ("1:10 h", "1 h 10 min"),
        ("01:10", "1 h 10 min"),
        ("1:10:00", "hours and minutes"),
    ],
)
def test_a_colon_can_be_read_two_ways(text, offered):
    for read in (lambda: HALVING.read(text, "metric"), lambda: WAIT.floats("the wait", text)):
        with pytest.raises(StudentError) as refused:
            read()
        assert offered in str(refused.value)


@pytest.mark.parametrize("text", ["an hour or so", "hours", "half", "a while", "1:75", "half a cup"])
def test_what_is_no_time(text):
    with pytest.raises(StudentError):
        HALVING.read(text, "metric")


def test_an_hour_is_no_mass():
    assert read_text("half an hour").unit == "min"
    assert WAIT.floats("the wait", "a minute") == 1 and WAIT.floats("the wait", "half a minute") == 0.5
    with pytest.raises(StudentError):
        In("g", example="20 g").floats("the mass", "half an hour")


@pytest.mark.parametrize("text", ["±3", "±3 %", "+-3 %", "+/- 3 %", "3 %"])
def test_an_error_with_its_sign(text):
    assert GOOD_TO.read(text, "metric") == 3


def test_a_bare_share_where_it_could_be_either():
    # 0.03 typed for 3 % would take nearly all of the error away, and open a tray too soon
    for text in ("0.03", ".03", "1/20"):
        with pytest.raises(StudentError, match="two ways"):
            GOOD_TO.read(text, "metric")
    assert GOOD_TO.read("0.03 %", "metric") == 0.03 and GOOD_TO.read("0.5", "metric") == 0.5  # 50 % is out of its range
    assert Control("fat", "Fat", "", 0, 50, 0.1, 1).read("0.3", "metric") == 0.3  # moves by tenths: meant


def test_long_waits_are_written_in_hours():
    assert [wait_in_words(m) for m in (1, 119, 120, 283, 1221)] == [
        "1 minute",
        "119 minutes",
        "2 h",
        "4 h 43 min",
        "20 h 21 min",
    ]
