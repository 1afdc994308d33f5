"""Judged in several processes a class has the marks it has in one; where none can be started, one does."""

import gc

import pytest
from lines_handed_in import HONEY, right

from pastrylab.course.catalogue import EXERCISES
from pastrylab.desk import cores
from pastrylab.ground.files import data_path
from pastrylab.school import exercise_values
from pastrylab.school.judging import Judge
from pastrylab.school.marking import Asked, mark_exercise

VALUES = exercise_values.values().id


def tasks():
    found = []
    for which in (HONEY, "08.as-purchased"):
        lines = [(None, number, text, VALUES, "") for number in ("", "17") for text in (right(number), "360 g")]
        found.append(Asked(which, None, (("17", 0, lines[:2]), ("18", 0, lines[2:]))))
    return found


def alone():
    judge = Judge(EXERCISES, cores.given_out([]))
    return [mark_exercise(judge, task) for task in tasks()]


def test_what_they_must_say():
    honey, purchased = alone()
    assert [mark.right for mark in honey] == [True, True], "each by the numbers that its line was asked with"
    assert purchased[0].slips == ("the loss forgotten",) and not purchased[0].right


@pytest.mark.deep
def test_two_processes_mark_as_one(monkeypatch):
    monkeypatch.setattr(cores, "ENOUGH", 1)
    monkeypatch.setattr(cores, "_cores", lambda: 2)
    assert list(cores.spread(tasks(), [])) == alone()


@pytest.mark.parametrize("fault", [OSError("no more processes"), cores.BrokenProcessPool("killed")])
def test_where_no_process_can_be_started_one_does_it_all(monkeypatch, fault):
    def none(*_given):
        raise fault

    monkeypatch.setattr(cores, "ENOUGH", 1)
    monkeypatch.setattr(cores, "_cores", lambda: 2)
    monkeypatch.setattr(cores, "ProcessPoolExecutor", none)
    assert list(cores.spread(tasks(), [])) == alone()


def test_a_process_that_dies_midway_loses_no_exercise(monkeypatch):
    class Dies:
        def __init__(self, *_given):
            pass

        def __enter__(self):
            return self

        def __exit__(self, *_error):
            return False

        def map(self, function, tasks):
            yield function(tasks[0])
            raise cores.BrokenProcessPool("killed")

    monkeypatch.setattr(cores, "ENOUGH", 1)
    monkeypatch.setattr(cores, "_cores", lambda: 2)
    monkeypatch.setattr(cores, "ProcessPoolExecutor", Dies)
    monkeypatch.setitem(cores._own, "judge", Judge(EXERCISES, cores.given_out([])))
    assert list(cores.spread(tasks(), [])) == alone()


def test_a_process_of_its_own_asks_the_disk_once_as_long_as_it_lives(monkeypatch):
    """Where its look ended as it began, every table was read again for every student: six times the work."""
    monkeypatch.setattr(cores, "_own", {})
    cores._begin([])
    gc.collect()
    with cores._own["look"]:
        assert data_path("prices.csv") is data_path("prices.csv")
    assert data_path("prices.csv") is not data_path("prices.csv")
