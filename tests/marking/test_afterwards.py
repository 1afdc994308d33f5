"""A line with an old date, put into a file that had been handed in without it, is seen; growing, a second machine and a
clock set right are not."""

import pytest
from lines_handed_in import line, right

from pastrylab.school.afterwards import put_in_afterwards
from pastrylab.school.handed_in import handed_in

AT = "2026-10-05T10:{:02}:00+00:00".format
FIRST = (line("17", "9 g", AT(0)), line("17", "8 g", AT(40)))
NEXT = "2026-10-09T10:00:00+00:00"


def found(hand_in, *later):
    hand_in("week 1/17/01.jsonl", *FIRST)
    hand_in("week 2/17/01.jsonl", *later)
    return [(one.where, one.says) for one in put_in_afterwards("17", handed_in(hand_in.folder)[0])]


def test_a_right_answer_with_an_old_date(hand_in):
    later = (FIRST[0], line("17", right("17"), AT(20)), FIRST[1], line("17", "7 g", NEXT))
    assert found(hand_in, *later) == [("week 2/17", "put in after it had been handed in without: 1 line")]
    later = (line("17", "1 lb", AT(3)), *later)
    assert found(hand_in, *later) == [("week 2/17", "put in after it had been handed in without: 2 lines")]


@pytest.mark.parametrize(
    "later",
    [
        FIRST,
        (*FIRST, line("17", right("17"), NEXT)),
        (*FIRST, line("17", right("17"), AT(25))),  # a clock that was a quarter of an hour ahead
        (line("17", "7 g", AT(1)), line("17", right("17"), AT(2)), line("17", "6 g", NEXT)),  # another machine
        (FIRST[0], line("17", right("17"), AT(2)), line("17", "6 g", NEXT)),  # a copy that went its own way
        (*FIRST, line("17", right("17"), "noon")),
        FIRST[:1],
    ],
)
def test_nothing_was_put_in(hand_in, later):
    assert found(hand_in, *later) == []


def test_a_minute_beyond_what_a_clock_is_set_right_by(hand_in):
    assert found(hand_in, *FIRST, line("17", right("17"), AT(24)))


PUT_IN = (FIRST[0], line("17", right("17"), AT(20)), FIRST[1], line("17", "7 g", NEXT), line("17", "6 g", NEXT))


@pytest.mark.parametrize(("between", "seen"), [(1, True), (4, True), (5, False)])
def test_files_of_other_machines_between_the_two(hand_in, between, seen):
    for n in range(between):
        hand_in(f"{n}/17/01.jsonl", *(line("17", f"{n}{m} lb", AT(m)) for m in range(3)))
    assert bool(found(hand_in, *PUT_IN)) == seen


def test_each_lesson_by_itself(hand_in):
    for n in range(9):
        hand_in(f"{n}/17/08.jsonl", *(line("17", f"{n}{m} lb", AT(m), "08.as-purchased") for m in range(3)))
    assert found(hand_in, *PUT_IN) == [("week 2/17", "put in after it had been handed in without: 1 line")]


def test_lines_without_any_time_are_no_earlier_ones(hand_in):
    hand_in("week 1/17/08.jsonl", line("17", "9 g", "noon", "08.as-purchased"))
    later = (line("17", "9 g", "noon", "08.as-purchased"), line("17", "8 g", AT(1), "08.as-purchased"))
    hand_in("week 2/17/08.jsonl", *later)
    assert found(hand_in, *FIRST) == []


def test_who_hands_in_thousands_of_files_waits_no_longer(hand_in):
    hand_in("a/01.jsonl", *FIRST)
    (one,) = handed_in(hand_in.folder)[0]
    one.files *= 5_000
    one.files += [[entry | {"answer": f"{n} g"} for entry in one.files[0]] for n in range(5_000)]
    assert put_in_afterwards("17", [one]) == []
