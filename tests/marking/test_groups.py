"""Groups and accommodations: marks worked out apart, by the published draw and plain arithmetic."""

from datetime import UTC, datetime

import pytest
from lines_handed_in import HONEY, cups, line, right
from test_marking import at, marks, said

from pastrylab.ground.units import StudentError
from pastrylab.school import exercise_values, term
from pastrylab.school.class_list import class_list
from pastrylab.school.marking import by_lesson
from pastrylab.school.named import members, number_named

ROLL = "number,name,section\n17,Ana Doe,A\n23,Bo Roe,A\n31,Cy Poe,B\n"


@pytest.mark.parametrize(
    "text",
    ["17 and 23", "23 and 17", "17 & 23", "17, 23", "17; 23", "17;23", "17+23", "No. 017, no. 23", "numbers 17 and 23"]
    + ["17 AND 23", " 17  and  23 ", "17, 17 and 23", "１７ and 23", "١٧ and ٢٣"],
)
def test_a_group_in_every_hand(text):
    assert number_named(text) == "17 and 23" and members(number_named(text)) == ("17", "23")


def test_numbers_with_letters_make_groups_too():
    assert {number_named(text) for text in ("B-13 & a-13", "a-13, b-13", "A-13 and B-13")} == {"a-13 and b-13"}
    assert members("a-13 and b-13") == ("a-13", "b-13") and members("ana and bo") == ("ana and bo",)


@pytest.mark.parametrize(
    "text", ["17/23", "17,23", "17-23", "Sandy", "Doe, Ana", "ana and bo", "and", "ana 2 and bo 3", "17 and ana"]
)
def test_what_is_no_group_of_numbers(text):
    assert len(members(number_named(text))) == 1


@pytest.mark.parametrize(
    "typed", ["17 and 23", "23 and 017", "Ana Doe and 23", "ana doe & BO ROE", "17, Bo Roe", "Bo Roe, Ana Doe"]
)
def test_the_work_of_a_group_counts_for_each_of_them(hand_in, typed):
    hand_in("number-17/01.jsonl", line("17", "9 g"), line(typed, right(number_named(typed)), at(minutes=1)))
    found, flags, _ = marks(hand_in, ROLL)
    assert (found["17"].points, found["17"].marks[HONEY].tries) == (3, 2)
    assert (found["23"].points, found["23"].marks[HONEY].tries) == (4, 1), "not the try of 17 alone"
    assert not found["31"].marks and "group work: counts for" in "".join(says for _who, says in flags)
    assert {says for who, says in flags if who == "23"} <= {"group work: counts for 23 and 17"}


def test_a_group_draws_numbers_of_its_own():
    three = "17 and 23 and 31"
    assert len({cups(who) for who in ("17", "23", "17 and 23", three)}) > 1 and number_named("31, 17 & 23") == three


def test_both_may_hand_the_same_group_work_in_and_it_is_no_copy(hand_in):
    same = [line("17 and 23", "9 g"), line("17 and 23", "8 g", at(minutes=1)), line("17 and 23", "7 g", at(minutes=2))]
    for who in ("17", "23"):
        hand_in(f"number-{who}/01.jsonl", *same, line(who, right(who), at(minutes=3)))
    found, flags, _ = marks(hand_in, ROLL)
    assert found["17"].marks[HONEY].tries == found["23"].marks[HONEY].tries == 4
    assert [says for _who, says in flags if "same lines" in says or "says" in says] == []


@pytest.mark.parametrize(
    ("where", "kept", "unnamed"),
    [
        ("lesson-01_number-17-and-23_2026-10-05.zip/x", "", ("17", "23")),
        ("a", "17 and 23", ("17", "23")),
        ("a", "17", ("17",)),
        ("number-23", "", ("23",)),
    ],
)
def test_what_was_answered_before_the_number_goes_to_whoever_handed_in(hand_in, where, kept, unnamed):
    hand_in(f"{where}/01.jsonl", line("", "8 g"), line("17 and 23", right("17 and 23"), at(minutes=1)))
    if kept:
        hand_in(f"{where}/number.txt", kept)
    found, flags, _ = marks(hand_in, ROLL)
    for who in ("17", "23"):
        assert found[who].marks[HONEY].tries == (2 if who in unnamed else 1)
    assert "no number" not in said(flags, "")


def test_who_worked_alone_too_is_whose_machine_it_is(hand_in):
    group = [line("17 and 23", f"{n} g", at(minutes=n)) for n in (1, 2)]
    hand_in("x/01.jsonl", line("", "8 g"), *group, line("23", right("23"), at(minutes=3)))
    found, _flags, _ = marks(hand_in, ROLL)
    assert (found["17"].marks[HONEY].tries, found["23"].marks[HONEY].tries) == (2, 4)


def test_of_another_ones_file_only_the_group_one_is_in_counts_and_nothing_else_is_said(hand_in):
    lines = [line("17", "8 g"), line("17 and 23", "7 g", at(minutes=1)), line("23 and 31", "6 g", at(minutes=2))]
    hand_in("number-17/01.jsonl", *lines)
    found, flags, _ = marks(hand_in, ROLL)
    assert [found[who].marks[HONEY].tries for who in ("17", "23", "31")] == [2, 2, 1]
    assert [found[who].left_out for who in ("23", "31")] == [0, 0] and said(flags, "31") == ""


def test_one_of_a_group_who_is_not_in_the_list_is_asked_about(hand_in):
    hand_in("a/01.jsonl", line("17 and 99", right("17 and 99")))
    found, flags, _ = marks(hand_in, ROLL)
    assert found["17"].points == 4 == found["99"].points and not found["99"].listed
    assert "the number 99 is not in the class list" in "".join(says for _who, says in flags)
    hand_in("b/01.jsonl", line("98 and 99", right("98 and 99")))
    found, _flags, _ = marks(hand_in, ROLL)
    assert not any(one.listed for who, one in found.items() if "9" in who)


def test_excused_lessons_are_in_no_total(hand_in):
    hand_in("17/01.jsonl", line("17", right("17")))
    for excused, total in (("", 4), ("2", 4), ("01", 0), ("1; 02", 0), ("lesson 1", 0), ('"02, 01"', 0)):
        found = marks(hand_in, f"number,excused\n17,{excused}\n")[0]["17"]
        row = by_lesson(found, "01", [HONEY])
        assert found.points == total and (row["points"], row["right"]) == (total or "excused", 1)


@pytest.mark.parametrize(
    ("cells", "says"),
    [
        ("excused\n17,all", "numbers of lessons"),
        ("excused\n17,02b", "numbers of lessons"),
        ("excused\n17,-2", "numbers of lessons"),
        ("larger print\n17,maybe", "yes, or nothing"),
        ("name\n17 and 23,Ana", "a row for each student"),
        ("works with\n17,99", "row 2, column 'works with': 99.*somebody else of the list"),
        ("works with\n17,17", "somebody else of the list"),
        ("works with\n17,18 and 99", "somebody else of the list"),
        ("works with\n17,the new one", "somebody else of the list"),
        ("section,works with\n17,A,18", "another section.*somebody of the same section"),
    ],
)
def test_cells_that_say_nothing_clear_are_refused(cells, says):
    with pytest.raises(StudentError, match=says):
        class_list(f"number,{cells}\n18,\n")


def test_who_works_with_whom_is_read_as_people_write_it():
    for cell in ("18", "018", "No. 18", "17 and 18", "18 & 17", "bo doe", "Ana Doe and Bo Doe"):
        found = class_list(f"number,name,works with\n17,Ana Doe,{cell}\n18,Bo Doe,\n19,,\n")
        assert found.together == (("17", "18"),), cell
    for cell in ("", "-", "no", "None", "nobody", "alone"):
        assert class_list(f"number,works with\n17,{cell}\n18,\n").together == (), cell
    for cell in ("18/19", "18,19", "18, 19", "18;19", "18 & 19"):
        assert class_list(f'number,works with\n17,"{cell}"\n18,\n19,\n').together == (("17", "18", "19"),), cell
    both = class_list('number,works with\n17,"18, 19"\n18,17; 19\n19,\n')
    assert both.together == (("17", "18", "19"),), "once, however many of them say so"
    assert class_list("number\n17\n").together == ()


def test_columns_nobody_knows_are_left_alone_and_the_known_ones_read():
    text = (
        "Number,Name,Large Print,Seat by the door,Excused lessons,Group work\n017,Ana,YES,please,3;05,red\n18,Bo,,,,\n"
    )
    ana, bo = class_list(text).students
    assert (ana.larger_print, ana.excused, bo.larger_print, bo.excused) == (True, ("03", "05"), False, ())
    assert class_list(text.replace(",", ";").replace("3;05", "3").encode("utf-16")).students[0].excused == ("03",)


def test_the_numbers_of_another_section_are_flagged_and_marked(hand_in):
    words = term.Words({"a": "morning", "b": "evening"})
    known = [exercise_values.values().worded(word) for word in words.given_out]
    for who in ("17", "31"):
        hand_in(f"{who}/01.jsonl", line(who, right(f"{who}|morning"), values=known[1].id))
    found, flags, _ = marks(hand_in, ROLL, known, words=words)
    assert known[1].word == "morning" and found["17"].points == found["31"].points == 4
    assert said(flags, "17") == "" and said(flags, "31") == "asked with the numbers of another section"
    both = line("17 and 31", right("17 and 31|morning"), values=known[1].id)
    for who in ("17", "31"):
        hand_in(f"{who}/01.jsonl", both)
    assert {said(marks(hand_in, ROLL, known, words=words)[1], who) for who in ("17", "31")} == {
        "group work: counts for 17 and 31",
        "",
    }


def test_sections_words_groups_extra_days_and_excuses_together_equal_plain_arithmetic(hand_in):
    """Sixty students in three sections, two words; odd ones alone, even ones from 2 to 20 in groups with the next but one."""
    words = term.Words({"": "autumn", "c": "evening"})
    known = [exercise_values.values().worded(word) for word in words.given_out]
    word = {"a": "autumn", "b": "autumn", "c": "evening"}
    ids = {one.word: one.id for one in known}
    roll, expected = ["number,name,section,extra days,excused"], {}
    for number in range(1, 61):
        section = "abc"[(number - 1) // 20]
        extra, excused = number % 3, number % 11 == 0
        roll.append(
            f"{number:02},Invented {number},{' Section ' * (number % 2)}{section.upper()},{extra},{'1' * excused}"
        )
        group = number % 2 == 0 and number % 20 in (2, 4)
        first = number - number % 20 + 2
        who = f"{first} and {first + 2}" if group else str(number)
        days = number % 5  # late by so many days begun, were there no extra days
        when = datetime(2026, 10, 5 + days, 12, number - 1, tzinfo=UTC).isoformat()
        wrong = number % 4 == 1
        late = max(0, days - extra)
        points = 0 if late > 3 or excused else (3 if wrong else 4) * (1 - 0.1 * late)
        lines = [line(who, "9 g", at(), values=ids[word[section]])] * wrong
        lines.append(line(who, right(f"{who}|{word[section]}"), when, values=ids[word[section]]))
        expected[str(number)] = points
        if not group or number == first:
            hand_in(f"number-{number}/my-answers/01.jsonl", *lines)
        else:  # of the other's file: as late as that, but for one's own extra days
            late = max(0, first % 5 - extra)
            expected[str(number)] = 0 if late > 3 or excused else 4 * (1 - 0.1 * late)
    found, flags, _ = marks(hand_in, "\n".join(roll), known, words=words)
    assert {who: round(one.points, 6) for who, one in found.items()} == {w: round(p, 6) for w, p in expected.items()}
    assert sum(says.startswith("group work") for _who, says in flags) == 3 == len(flags), flags
    assert 100 < sum(expected.values()) < 240
