"""Marks against marks worked out from the log of what was typed: by the published draw and plain arithmetic."""

import random
from datetime import UTC, datetime, timedelta

import pytest
from lines_handed_in import GRAMS_A_CUP, HONEY, cups, line, opened, right

from pastrylab.course.catalogue import EXERCISES
from pastrylab.ground.units import StudentError
from pastrylab.school import exercise_values, marking, marking_rules
from pastrylab.school.class_list import class_list
from pastrylab.school.handed_in import handed_in

DAY = datetime(2026, 10, 5, 10, tzinfo=UTC)
DUE = datetime(2026, 10, 6, tzinfo=UTC)
RULE = marking_rules.Rule("01", DUE, 4, 3, 2, 10, 3)


def marks(hand_in, roll, known=None, rule=RULE, **more):
    hand_ins, troubles = handed_in(hand_in.folder)
    known = known or [exercise_values.values()]
    more = {"now": DAY + timedelta(days=30)} | more
    found = marking.mark_class(hand_ins, class_list(roll), EXERCISES, known, {"01": rule}, **more)
    return {one.student.number: one for one in found.students}, [(f.who, f.says) for f in found.flags], troubles


def at(**later):
    return (DAY + timedelta(**later)).isoformat()


CASES = [
    ("at once", lambda w, r: [line(w, r)], (True, 1, 0, 4)),
    ("later", lambda w, r: [line(w, "9 g"), line(w, r, at(minutes=1))], (True, 2, 0, 3)),
    (
        "the same twice is one try",
        lambda w, r: [line(w, "9 g"), line(w, " 9 g ", at(minutes=1)), line(w, r, at(minutes=2))],
        (True, 2, 0, 3),
    ),
    (
        "what cannot be read is no try",
        lambda w, r: [line(w, "honey"), line(w, "3 °C"), line(w, r, at(minutes=1))],
        (True, 1, 0, 4),
    ),
    ("wrong after right takes nothing", lambda w, r: [line(w, r), line(w, "9 g", at(minutes=1))], (True, 1, 0, 4)),
    ("never", lambda w, r: [line(w, "9 g"), line(w, "8 g"), line(w, "7 g")], (False, 3, 0, 0)),
    ("solution first", lambda w, r: [opened(w, at()), line(w, r, at(minutes=1))], (True, 1, 0, 2)),
    ("solution after", lambda w, r: [line(w, r), opened(w, at(minutes=1))], (True, 1, 0, 4)),
    ("a minute before the day ends", lambda w, r: [line(w, r, "2026-10-05T23:59:00+00:00")], (True, 1, 0, 4)),
    ("one day late: less 10 %", lambda w, r: [line(w, r, "2026-10-06T00:01:00+00:00")], (True, 1, 1, 3.6)),
    ("three days late: less 30 %", lambda w, r: [line(w, r, "2026-10-08T20:00:00+00:00")], (True, 1, 3, 2.8)),
    ("four days late: nothing", lambda w, r: [line(w, r, "2026-10-09T10:00:00+00:00")], (True, 1, 4, 0)),
    ("by another zone's clock", lambda w, r: [line(w, r, "2026-10-05T22:30:00-05:00")], (True, 1, 1, 3.6)),
]


@pytest.mark.parametrize(("name", "typed", "mark"), CASES, ids=[name for name, *_ in CASES])
def test_one_exercise(hand_in, name, typed, mark):
    hand_in("17/my-answers/01.jsonl", *typed("17", right("17")))
    found = marks(hand_in, "number\n17\n")[0]["17"].marks[HONEY]
    assert (found.right, found.tries, found.late, found.points) == (*mark[:3], pytest.approx(mark[3]))
    assert found.first == (mark[0] and mark[1] == 1) and found.solution == (name == "solution first")


def test_extra_days_of_the_list_move_the_due_date(hand_in):
    hand_in("17/01.jsonl", line("17", right("17"), "2026-10-08T20:00:00+00:00"))
    assert marks(hand_in, "number,extra days\n17,2\n")[0]["17"].marks[HONEY].late == 1


def test_three_sections_of_twenty_equal_the_log_of_what_was_typed(hand_in):
    """Some under older values, some under the class values before they gave a number, some as 017."""
    dice = random.Random(14)
    older = exercise_values.values().moved(lambda e, _n, given: 2 if e == HONEY else given.value)
    worth, roll = {}, ["number,name,section"]
    for number in range(1, 61):
        roll.append(f"{number:03},somebody invented,{'ABC'[number % 3]}")
        lines, wrong, first_right = [], 0, None
        for step in range(dice.randint(0, 4)):
            who = dice.choice(["", str(number), f"{number:03}"])
            values = dice.choice([exercise_values.values(), older])
            good = dice.random() < 0.4
            grams = cups(who, value=values.givens[HONEY, "cups"].value) * GRAMS_A_CUP
            lines.append(
                line(who, f"{grams if good else grams * 1.31 + step:.1f} g", at(minutes=step), values=values.id)
            )
            if first_right is None:
                wrong, first_right = (wrong, step) if good else (wrong + 1, None)
        worth[str(number)] = None if not lines else (first_right is not None, wrong + (first_right is not None))
        if lines:
            hand_in(f"number-{number}/my-answers/01.jsonl", *lines)
    found, flags, _troubles = marks(hand_in, "\n".join(roll), [exercise_values.values(), older])
    got = {n: (m.marks[HONEY].right, m.marks[HONEY].tries) if m.marks else None for n, m in found.items()}
    assert got == worth and sum(bool(one) for one in worth.values()) > 40
    assert sum(m.left_out for m in found.values()) == 0
    assert {who for who, says in flags if says == "nothing handed in"} == {n for n, w in worth.items() if not w}


# --- what a file claims is never believed -------------------------------------------------------------------------


def said(flags, who):
    return " | ".join(says for one, says in flags if one == who)


def test_a_line_that_says_it_is_right_is_judged_again(hand_in):
    hand_in("17/01.jsonl", line("17", "9 g", right=True, verdict="right", points=99))
    assert not marks(hand_in, "number\n17\n")[0]["17"].marks[HONEY].right


def test_values_nobody_gave_out_count_for_nothing(hand_in):
    mine = exercise_values.values().moved("low")
    hand_in("17/my-answers/values/x.csv", mine.to_csv())
    hand_in("17/my-answers/01.jsonl", line("17", right("17"), values=mine.id))
    found, flags, _ = marks(hand_in, "number\n17\n")
    assert not found["17"].marks and found["17"].left_out == 1 and f"values {mine.id}" in said(flags, "17")


def test_a_line_put_in_behind_with_an_old_date_counts_as_of_then(hand_in):
    late = "2026-10-20T10:00:00+00:00"
    hand_in("17/01.jsonl", line("17", "9 g", late), line("17", right("17"), at()))
    found, flags, _ = marks(hand_in, "number\n17\n")
    mark = found["17"].marks[HONEY]
    assert (mark.tries, mark.late, mark.points) == (2, 15, 0) and "written after a line" in said(flags, "17")


def test_a_time_to_come_is_flagged_and_moves_no_other_line(hand_in):
    hand_in("17/01.jsonl", line("17", "9 g", "2031-01-01T00:00:00+00:00"), line("17", right("17"), at()))
    found, flags, _ = marks(hand_in, "number\n17\n")
    assert found["17"].marks[HONEY].late == 0 and "not come yet" in said(flags, "17")


@pytest.mark.parametrize(("hours", "flagged"), [(-1, False), (23, False), (25, True)])
def test_a_clock_that_is_a_day_ahead_is_one_of_another_place(hand_in, hours, flagged):
    hand_in("17/01.jsonl", line("17", right("17"), at(hours=hours)))
    found, flags, _ = marks(hand_in, "number\n17\n", now=DAY)
    assert found["17"].listed and found["17"].marks[HONEY].right
    assert ("not come yet" in said(flags, "17")) == flagged


@pytest.mark.parametrize(("minutes", "flagged"), [(14, False), (16, True)])
def test_a_clock_set_right_is_no_line_put_in_behind(hand_in, minutes, flagged):
    hand_in("17/01.jsonl", line("17", "9 g", at(minutes=minutes)), line("17", right("17"), at()))
    assert ("written after a line" in said(marks(hand_in, "number\n17\n")[1], "17")) == flagged


@pytest.mark.parametrize(("alike", "flagged"), [(2, False), (3, True)])
def test_three_lines_alike_are_worth_a_look(hand_in, alike, flagged):
    for owner in ("17", "18"):
        same = [line(owner, f"{n} g", at(minutes=n)) for n in range(alike)]
        hand_in(f"{owner}/01.jsonl", *same, line(owner, owner + " oz"))
    assert (f"the same lines as 18: {alike}" in said(marks(hand_in, "number\n17\n18\n")[1], "17")) == flagged


def test_slips_on_the_way_are_kept_by_name(hand_in):
    lines = [line("", text, at(minutes=n), "08.as-purchased") for n, text in enumerate(["360 g", "360 g", "900 g"])]
    hand_in("17/08.jsonl", *lines)
    mark = marks(hand_in, "number\n17\n")[0]["17"].marks["08.as-purchased"]
    assert mark.slips == ("the loss forgotten",) and mark.tries == 2 and (mark.late, mark.points) == (0, 0)


@pytest.mark.parametrize("when", ["yesterday", "", "2026-10-05", "2026-10-05T10:00:00", "9999999"])
def test_a_time_that_is_none_does_not_count(hand_in, when):
    hand_in("17/01.jsonl", line("17", right("17"), when))
    found, flags, _ = marks(hand_in, "number\n17\n")
    assert not found["17"].marks and "a time that is none" in said(flags, "17")


def test_before_the_term_nothing_counts(hand_in):
    hand_in("17/01.jsonl", line("17", right("17"), "2026-08-01T00:00:00+00:00"))
    assert marks(hand_in, "number\n17\n")[0]["17"].marks
    found, flags, _ = marks(hand_in, "number\n17\n", begins=datetime(2026, 9, 1, tzinfo=UTC))
    assert not found["17"].marks and "before the term" in said(flags, "17")


def test_a_copied_folder_is_flagged_and_counts_for_the_one_whose_lines_it_holds(hand_in):
    for owner in ("17", "18"):
        hand_in(f"{owner}/01.jsonl", line("17", right("17")))
    found, flags, _ = marks(hand_in, "number\n17\n18\n")
    assert found["17"].points == 4 and not found["18"].marks
    assert "its name says 18, its lines say 17" in said(flags, "17") and "nothing handed in" in said(flags, "18")


def test_a_copy_with_the_number_replaced_is_wrong_and_flagged(hand_in):
    assert cups("17") != cups("20")
    for owner in ("17", "20"):
        hand_in(f"{owner}/01.jsonl", line(owner, right("17")))
    found, flags, _ = marks(hand_in, "number\n17\n20\n")
    assert found["17"].points == 4 and found["20"].points == 0
    assert "the same lines as 20: 1" in said(flags, "17")


def test_two_who_press_in_the_same_second_are_no_copy(hand_in):
    for owner in ("17", "18"):
        hand_in(f"{owner}/01.jsonl", line(owner, "9 g"), *(line(owner, f"{owner}{n} g", at(minutes=n)) for n in (1, 2)))
    assert not marks(hand_in, "number\n17\n18\n")[1]


def test_lines_of_another_of_the_class_do_not_count(hand_in):
    hand_in("17/01.jsonl", line("17", "9 g"), line("18", right("18"), at(minutes=1)))
    found, flags, _ = marks(hand_in, "number\n17\n18\n")
    assert not found["17"].marks[HONEY].right and "a line of number 18" in said(flags, "17")


def test_a_number_out_of_the_list_is_kept_below_it_and_no_number_is_asked_about(hand_in):
    hand_in("a/01.jsonl", line("71", right("71")))
    hand_in("b/01.jsonl", line("", right("")))
    found, flags, _ = marks(hand_in, "number\n17\n")
    assert found["71"].points == 4 and not found["71"].listed and found[""].points == 4
    assert "not in the class list" in said(flags, "71") and "no number anywhere" in said(flags, "")


def test_the_number_kept_beside_the_lines_says_whose_they_are(hand_in):
    hand_in("a/my-answers/01.jsonl", line("", right("")), line("ana", right("ana"), at(minutes=1)))
    hand_in("a/my-answers/number.txt", "017")
    found, flags, _ = marks(hand_in, "number\n17\n")
    assert found["17"].points == 4 and "the numbers of 'ana'" in said(flags, "17")


def test_lines_handed_in_again_with_each_lesson_count_once(hand_in):
    for week in ("w1", "w2", "w3"):
        hand_in(f"{week}/17/01.jsonl", line("17", "9 g"), line("17", right("17"), at(minutes=1)))
    found, flags, _ = marks(hand_in, "number\n17\n")
    assert found["17"].marks[HONEY].tries == 2 and flags == []


def test_guesses_are_no_exercises_and_made_up_ones_do_not_count(hand_in):
    hand_in("17/01.jsonl", line("17", "3 g", exercise="01.guess.x"), line("17", "3 g", exercise="01.made-up"))
    found, flags, _ = marks(hand_in, "number\n17\n")
    assert not found["17"].marks and said(flags, "17") == "not counted: an exercise there is not"


@pytest.mark.parametrize("when", ["0001-01-01T00:00:00+23:59", "9999-12-31T23:59:59-23:59"])
def test_the_ends_of_all_time_break_nothing(hand_in, when):
    hand_in("17/01.jsonl", line("17", "9 g", when), line("17", right("17")))
    assert marks(hand_in, "number\n17\n")[0]["17"].marks[HONEY].right


def test_endless_answers_cost_no_time_without_end(hand_in):
    hand_in("17/01.jsonl", line("17", "9 " * 1_000_000), *(line("17", f"{n} lb") for n in range(9, 5_000)))
    found, flags, _ = marks(hand_in, "number\n17\n")
    assert found["17"].marks[HONEY].tries < 301 and "more than 300 answers" in said(flags, "17")


# --- the table of rules -------------------------------------------------------------------------------------------

HEADS = "lesson,due,right_first,right_later,after_solution,off_a_day,last_day\n"


def test_every_lesson_has_its_rule():
    assert marking_rules.rules().keys() == {which.partition(".")[0] for which in EXERCISES}


def test_rules_as_a_spreadsheet_saves_them(tmp_path):
    path = tmp_path / "marking.csv"
    path.write_text(HEADS + "1,5-Oct-26,4,3,2,10,3\n02,2026-10-05 17:00,1,1,1,0,\n", encoding="utf-8")
    found = marking_rules.rules(path)
    assert found["01"].due == datetime(2026, 10, 6).astimezone() and found["01"].last_day == 3
    assert found["02"].due == datetime(2026, 10, 5, 17).astimezone() and found["02"].last_day is None


@pytest.mark.parametrize(
    "due",
    [
        "2026-10-25",
        "25 Oct 2026",
        "25 October 2026",
        "Oct 25, 2026",
        "25-Oct-26",
        "10/25/2026",
        "25/10/2026",
        "25.10.2026",
    ],
)
def test_a_day_in_many_hands(due):
    assert marking_rules.day_named(due) == datetime(2026, 10, 25).astimezone()


@pytest.mark.parametrize("due", ["05/10/2026", "soon", "2026-13-01", "31 Feb 2026", "2026-10-05 25:00", "17", "=A1"])
def test_a_day_that_is_none_or_two_is_refused(due):
    with pytest.raises(StudentError, match="read two ways|no date"):
        marking_rules.day_named(due)


@pytest.mark.parametrize(
    ("row", "says"),
    [("01,,-1,1,1,0,", "right_first"), ("01,,1,1,1,101,", "off_a_day"), ("01,,1,1,1,0,1.5", "last_day")],
)
def test_a_rule_that_is_none_is_refused(tmp_path, row, says):
    path = tmp_path / "marking.csv"
    path.write_text(HEADS + row + "\n", encoding="utf-8")
    with pytest.raises(StudentError, match=says):
        marking_rules.rules(path)
