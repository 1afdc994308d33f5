"""A log as plain columns: what a reading says is worked by hand, what is no log is refused in words."""

import numpy as np
import pytest

from pastrylab import logs
from pastrylab.ground.units import StudentError
from pastrylab.logs.log import Log, log_of
from pastrylab.logs.store.reader import read_store

BOWL = {"minutes": [0, 5, 10], "degC": [46.0, 40.0, 34.0]}


def test_times_that_come_again_are_averaged_and_their_notes_joined():
    read = logs.read_log("9:05, 45 C\n9:10, 40 C, stirred\n9:10, 42 C, seed in\n9:10, 44 C, stirred\n9:20, 36 C\n")
    assert read["minutes"].tolist() == [0, 5, 15] and read["degC"].tolist() == [45, (40 + 42 + 44) / 3, 36]
    assert read["note"] == ("", "stirred; seed in", "")
    assert any("Repeated times: 2." in said and "4.0 °C apart" in said for said in read.how.said)


def test_of_a_stores_readings_at_one_time_the_most_humid_stays_with_its_own_temperature():
    read = read_store("time (h);room °C;RH %\n1;19;50\n0;20;71\n0;21;72\n0;22;\n2;18;49\n")
    assert read["minutes"].tolist() == [0, 60, 120]
    assert read["degC"].tolist() == [21, 19, 18] and read["humidity"].tolist() == [0.72, 0.5, 0.49]
    assert any("Repeated times: 2." in said for said in read.how.said)


@pytest.mark.parametrize(
    "given", [BOWL, {name: tuple(column) for name, column in BOWL.items()}, log_of(BOWL, ("minutes", "degC"))]
)
def test_any_table_with_these_columns_is_a_log(given):
    """From 40 to 34 °C in 5 min: 35 to 36 °C takes 5/6 min."""
    assert logs.minutes_between(given, "35 degC", "36 degC").m_as("min") == pytest.approx(5 / 6)


@pytest.mark.parametrize(
    "given",
    [
        *(None, "a log", 7, [], [1, 2], {"minutes": [0, 5]}, np.zeros((2, 2))),
        *({"minutes": [0, 5], "degC": [45]}, {"minutes": 5, "degC": 45}, {"minutes": [[0, 5]], "degC": [[45, 40]]}),
        *({"minutes": [0, 5], "degC": ["hot", "cold"]}, {"minutes": [5, 0], "degC": [45, 40]}),
    ],
)
def test_what_is_no_log_is_refused_in_words(given):
    with pytest.raises(StudentError):
        logs.review_log(given, "dark")
    with pytest.raises(StudentError):
        logs.minutes_between(given, "31 degC", "32 degC")


def test_what_was_read_is_a_dict_of_columns_for_whoever_goes_on_elsewhere():
    read = logs.read_log("9:05, 45 C\n9:15, 36 C\n")
    assert isinstance(read, Log) and dict(read).keys() == {"minutes", "degC"} and len(read) == 2


def test_words_in_a_log_are_named_with_the_columns_that_want_numbers():
    with pytest.raises(StudentError, match="numbers in minutes, degC and humidity"):
        log_of({"minutes": [0, 5], "degC": ["hot", "cold"], "humidity": [0, 0]}, ("minutes", "degC", "humidity"))
    with pytest.raises(StudentError, match="numbers in minutes and degC"):
        log_of({"minutes": [0, 5], "degC": ["hot", "cold"]}, ("minutes", "degC"))
