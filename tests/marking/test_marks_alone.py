"""One mark and one student's row by themselves, and a line that came twice."""

from datetime import UTC, datetime

import pytest
from lines_handed_in import HONEY, line, right

from pastrylab.course.catalogue import EXERCISES
from pastrylab.school import exercise_values, marking
from pastrylab.school.class_list import Student, class_list
from pastrylab.school.handed_in import handed_in
from pastrylab.school.marking_rules import Rule


def test_a_mark_of_nothing_is_worth_nothing():
    assert (marking.Mark("01.x").points, marking.Mark("01.x").first, marking.Mark("01.x").stuck) == (0, False, False)


@pytest.mark.parametrize(
    ("right", "tries", "stuck"), [(False, 2, False), (False, 3, True), (True, 3, False), (True, 1, False)]
)
def test_stuck_is_three_tries_without_coming_through(right, tries, stuck):
    assert marking.Mark("01.x", right, tries).stuck == stuck


def test_a_row_by_hand():
    found = [
        marking.Mark("01.a", True, 1, points=2),
        marking.Mark("01.b", True, 3, late=2, points=0.5),
        marking.Mark("01.c", False, 4),
        marking.Mark("01.d", True, 1, solution=True, points=1),
        marking.Mark("01.e"),
        marking.Mark("08.a", True, 1, points=9),
    ]
    one = marking.Marked(Student("17"), marks={mark.exercise: mark for mark in found})
    row = marking.by_lesson(one, "01", ["01.a", "01.b", "01.c", "01.d", "01.e", "01.f"])
    wanted = {"right": 3, "tried": 4, "of": 6, "tries": 9, "first right": 2, "late": 1}
    assert row == wanted | {"worked solution first": 1, "points": 3.5} and one.points == 12.5


def test_a_line_that_came_twice_counts_as_of_its_earliest_place(hand_in):
    """In the second file it stands behind a line of the week after, and would be late."""
    good = line("17", right("17"), "2026-10-05T10:00:00+00:00")
    for week, lines in (("1", [good]), ("2", [line("17", "9 g", "2026-10-12T10:00:00+00:00"), good]), ("3", [good])):
        hand_in(f"week {week}/17/01.jsonl", *lines)
    rule = Rule("01", datetime(2026, 10, 6, tzinfo=UTC), 4, 3, 2, 10, 3)
    hand_ins, _troubles = handed_in(hand_in.folder)
    for order in (hand_ins, hand_ins[::-1]):
        known = [exercise_values.values()]
        marks = marking.mark_class(order, class_list("number\n17\n"), EXERCISES, known, {"01": rule})
        mark = marks.students[0].marks[HONEY]
        assert (mark.right, mark.tries, mark.late, mark.points) == (True, 1, 0, 4)
