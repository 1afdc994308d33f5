"""Who has another's answers is seen, however the copy was dressed; who merely sat in the same room is not."""

import random
from datetime import UTC, datetime, timedelta

import pytest
from lines_handed_in import HONEY, line, right

from pastrylab.course.catalogue import EXERCISES
from pastrylab.school import alike, exercise_values, marking, marking_rules
from pastrylab.school.class_list import class_list
from pastrylab.school.engine import case
from pastrylab.school.handed_in import handed_in

DAY = datetime(2026, 10, 5, 10, tzinfo=UTC)
WHICH = sorted(EXERCISES)


def at(seconds):
    return (DAY + timedelta(seconds=seconds)).isoformat()


def flags(hand_in, roll="number\n17\n18\n"):
    hand_ins, _troubles = handed_in(hand_in.folder)
    known, rules = [exercise_values.values()], marking_rules.rules()
    now = DAY + timedelta(days=30)
    found = marking.mark_class(hand_ins, class_list(roll), EXERCISES, known, rules, now=now)
    return [(one.who, one.says) for one in found.flags]


def said(found, who):
    return " | ".join(says for one, says in found if one == who)


def work(owner, gaps, begin=0, texts=None):
    """Lines to as many exercises as there are gaps, so many seconds apart."""
    when, lines = begin, []
    for number, gap in enumerate(gaps):
        when += gap
        text = texts[number] if texts else f"{number + 3} g"
        lines.append(line(owner, text, at(when), WHICH[number]))
    return lines


RHYTHM = (0, 61, 47, 130, 88, 75)


@pytest.mark.parametrize("moved", [60, -7 * 60, 86_400, 1])
def test_a_copy_with_its_times_moved(hand_in, moved):
    hand_in("17/01.jsonl", *work("17", RHYTHM))
    hand_in("18/01.jsonl", *work("18", RHYTHM, moved))
    assert "the same answers as 18, at other times" in said(flags(hand_in), "17")


def test_a_copy_with_its_lines_in_another_order(hand_in):
    hand_in("17/01.jsonl", *work("17", RHYTHM))
    hand_in("18/01.jsonl", *reversed(work("18", RHYTHM, 3600)))
    assert "the same answers as 18" in said(flags(hand_in), "17")
    hand_in("18/01.jsonl", *reversed(work("18", RHYTHM)))
    assert "the same lines as 18: 6" in said(flags(hand_in), "17")


def test_a_copy_with_one_answer_changed_in_a_long_one(hand_in):
    long = (*RHYTHM, 41, 93, 55, 62, 77)
    texts = [f"{n} g" for n in range(len(long))]
    hand_in("17/01.jsonl", *work("17", long, texts=texts))
    texts[0] = "99 g"
    hand_in("18/01.jsonl", *work("18", long, 240, texts))
    assert "the same answers as 18" in said(flags(hand_in), "17")


@pytest.mark.parametrize("rhythm", [RHYTHM[:4], (0, 0, 0, 0, 0)])
def test_four_lines_or_a_single_moment_are_no_rhythm(hand_in, rhythm):
    hand_in("17/01.jsonl", *work("17", rhythm))
    hand_in("18/01.jsonl", *work("18", rhythm, 600))
    assert "same answers" not in said(flags(hand_in), "17")


def test_sixty_who_answer_alike_in_their_own_time_are_no_copies(hand_in):
    dice = random.Random(3)
    for number in range(60):
        gaps = [dice.randint(20, 90) for _ in range(12)]
        hand_in(f"{number}/01.jsonl", *work(str(number), gaps, number, ["C"] * 12))
    mine = {one.where: [one] for one in handed_in(hand_in.folder)[0]}
    assert len(mine) == 60 and alike.same_lines(mine) + alike.same_lines_at_other_times(mine) == []


FIVE = ("01.a-cup-of-honey", "08.as-purchased", "08.price-from-food-cost", "02.seed-for-a-bowl", "05.invert-for-sugar")


def answers_of(student, which):
    """What is right for a student, as the key has it: the check here is on who is named, not on what is right."""
    return case(EXERCISES[which], student).answer.split(" (")[0]


@pytest.mark.parametrize(("copied", "flagged"), [(2, False), (3, True), (5, True)])
def test_right_answers_of_another_are_seen_at_any_time(hand_in, copied, flagged):
    hand_in("17/01.jsonl", *(line("17", answers_of("17", w), at(200 * n), w) for n, w in enumerate(FIVE)))
    mine = [line("18", answers_of("17", w), at(9_000 + 77 * n * n), w) for n, w in enumerate(FIVE[:copied])]
    mine += [line("18", answers_of("18", w), at(99_000 + n), w) for n, w in enumerate(FIVE)]
    hand_in("18/01.jsonl", *mine)
    found = said(flags(hand_in), "18")
    assert (f"wrong here and right for 17: {copied} answers" in found) == flagged and "for 18" not in found


def test_a_class_at_one_file_is_one_flag_a_student(hand_in):
    for owner in range(20, 30):
        hand_in(f"{owner}/01.jsonl", *work(str(owner), RHYTHM))
    found = flags(hand_in, "number\n" + "".join(f"{n}\n" for n in range(20, 30)))
    assert len(found) == 9 and ("20", "the same lines as 21, 22, 23 and 6 more: 6") in found
    assert ("28", "the same lines as 29: 6") in found


def test_answers_to_the_numbers_of_the_class_point_at_all_who_have_them_in_one_flag(hand_in):
    four = ("01.a-cup-of-honey", "01.percent-to-pieces", "02.seed-for-a-bowl", "02.heat-to-melt-out")
    for owner in ("17", "18", "19", "20", "21"):
        lines = [line("", answers_of("", w), at(200 * n + 31 * int(owner)), w) for n, w in enumerate(four)]
        hand_in(f"{owner}/01.jsonl", *lines)
    mine = [line("22", answers_of("", w), at(9_000 + 77 * n * n), w) for n, w in enumerate(four)]
    hand_in("22/01.jsonl", *mine)
    (found,) = [one for one in flags(hand_in, "number\n17\n18\n19\n20\n21\n22\n") if "wrong here" in one[1]]
    assert found == ("22", "wrong here and right for 17, 18, 19 and 2 more: 4 answers")


def test_letters_and_short_answers_point_at_nobody(hand_in):
    judged = [which for which in WHICH if EXERCISES[which].options][:6]
    for owner, text in (("17", "A"), ("18", "B"), ("19", "C"), ("20", "D")):
        hand_in(f"{owner}/01.jsonl", *(line(owner, text, at(60 * n + int(owner)), w) for n, w in enumerate(judged)))
    assert not [one for one in flags(hand_in, "number\n17\n18\n19\n20\n") if "right for" in one[1]]


@pytest.mark.parametrize(("exercises", "seconds", "flagged"), [(5, 20, True), (5, 24, False), (4, 1, False)])
def test_five_exercises_in_a_moment_are_more_than_hands_can_type(hand_in, exercises, seconds, flagged):
    lines = [line("17", "9 g", at(seconds * n / (exercises - 1)), WHICH[n]) for n in range(exercises)]
    hand_in("17/01.jsonl", *lines)
    assert ("exercises answered within 20 seconds" in said(flags(hand_in), "17")) == flagged


def test_one_exercise_tried_often_in_a_moment_is_a_student_who_guesses(hand_in):
    hand_in("17/01.jsonl", *(line("17", f"{n} g", at(n), HONEY) for n in range(12)))
    assert flags(hand_in, "number\n17\n") == []


@pytest.mark.parametrize("claim", ["right", "verdict", "points", "status", "score"])
def test_a_line_that_claims_a_verdict_is_named_and_not_believed(hand_in, claim):
    hand_in("17/01.jsonl", line("17", right("17")), line("17", "9 g", at(60), **{claim: "right"}))
    found = said(flags(hand_in, "number\n17\n"), "17")
    assert "says itself what it is worth" in found and "01.jsonl line 2" in found


def test_words_in_an_answer_are_no_claim(hand_in):
    hand_in("17/01.jsonl", line("17", '{"right": true}'), line("17", 'my "points": 9', at(60)))
    assert flags(hand_in, "number\n17\n") == []


def test_two_machines_of_one_student_are_one(hand_in):
    """Wrong on the one at ten, right on the other at eleven, and the first handed in again with a line more."""
    hand_in("a/17/01.jsonl", line("17", "9 g"))
    hand_in("b/17/01.jsonl", line("17", right("17"), at(3600)))
    hand_in("c/17/01.jsonl", line("17", "9 g"), line("17", "8 g", at(1800)))
    hand_ins, _ = handed_in(hand_in.folder)
    found = marking.mark_class(
        hand_ins, class_list("number\n17\n"), EXERCISES, [exercise_values.values()], marking_rules.rules(), now=DAY
    )
    (one,) = found.students
    assert (one.marks[HONEY].right, one.marks[HONEY].tries) == (True, 3) and not found.flags
    assert one.left_out == 0
