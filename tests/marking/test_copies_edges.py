"""Where a likeness begins to be told, line by line: straight at the functions that compare."""

from datetime import UTC, datetime, timedelta

import pytest

from pastrylab.school.alike import answers_to_anothers_numbers, same_lines, same_lines_at_other_times
from pastrylab.school.handed_in import HandIn
from pastrylab.school.marking import Mark

DAY = datetime(2026, 10, 5, 10, tzinfo=UTC)


def hand_in(*lines, student=""):
    """A hand-in of (seconds, exercise, answer)."""
    entries = [
        {"when": (DAY + timedelta(seconds=at)).isoformat(), "student": student, "exercise": which, "answer": answer}
        for at, which, answer in lines
    ]
    return [HandIn("", [entries])]


def lines(many, since=0):
    return [(since + 37 * n, f"01.{n}", f"{n} g") for n in range(many)]


def said(flags):
    return [(one.who, one.says) for one in flags]


def test_the_most_lines_of_several_are_told():
    mine = {"17": hand_in(*lines(9)), "18": hand_in(*lines(4)), "19": hand_in(*lines(7))}
    assert said(same_lines(mine)) == [("17", "the same lines as 18, 19: 7"), ("18", "the same lines as 19: 4")]


@pytest.mark.parametrize(("shared", "own", "told"), [(3, 5, True), (2, 5, False), (2, 0, True), (1, 0, True)])
def test_three_lines_or_all_that_one_of_them_has(shared, own, told):
    more = [(9_000 + n, "02.x", f"{n} oz") for n in range(own)]
    mine = {"17": hand_in(*lines(9)), "18": hand_in(*lines(shared), *more)}
    assert bool(same_lines(mine)) == bool(same_lines(dict(reversed(mine.items())))) == told


def test_of_many_at_one_file_the_first_forty_are_compared():
    mine = {f"{n:02}": hand_in(*lines(3)) for n in range(60)}
    flags = said(same_lines(mine))
    assert [who for who, _says in flags] == [f"{n:02}" for n in range(39)]
    assert flags[0] == ("00", "the same lines as 01, 02, 03 and 36 more: 3")
    assert flags[-4] == ("35", "the same lines as 36, 37, 38 and 1 more: 3")
    assert flags[-3] == ("36", "the same lines as 37, 38, 39: 3")


def test_work_of_a_group_is_meant_to_be_the_same():
    mine = {who: hand_in(*lines(6), student="17 and 18") for who in ("17", "18")}
    assert same_lines(mine) == same_lines_at_other_times(mine) == []


@pytest.mark.parametrize(("many", "moved", "told"), [(5, 1, True), (4, 1, False), (9, -3600, True), (5, 0, False)])
def test_five_lines_in_one_rhythm(many, moved, told):
    flags = same_lines_at_other_times({"17": hand_in(*lines(many)), "18": hand_in(*lines(many, moved))})
    says = "the same answers as 18, at other times but in the same rhythm"
    assert said(flags) == ([("17", says)] if told else [])


def test_four_answers_in_one_moment_after_a_first_are_a_rhythm():
    mine = {
        who: hand_in(*((at if n else at - 60, f"01.{n}", "9 g") for n in range(5)))
        for who, at in (("17", 60), ("18", 99))
    }
    assert len(same_lines_at_other_times(mine)) == 1


def test_a_second_or_an_answer_or_an_exercise_less_is_another_rhythm():
    for change in (lambda at, w, a: (at + 1, w, a), lambda at, w, a: (at, w, "1 lb"), lambda at, w, a: (at, "03.y", a)):
        other = lines(5, 60)
        other[2] = change(*other[2])
        assert same_lines_at_other_times({"17": hand_in(*lines(5)), "18": hand_in(*other)}) == []


def test_a_line_without_a_time_has_no_rhythm():
    broken = hand_in(*lines(5))
    broken[0].files[0][2]["when"] = "noon"
    assert same_lines_at_other_times({"17": broken, "18": hand_in(*lines(5, 60))}) == []


def marks(right=(), wrong=()):
    """{exercise: Mark}: right and wrong hold a text for each exercise, or None."""
    found = {f"01.{n}": Mark(f"01.{n}", True, right_with=text) for n, text in enumerate(right) if text}
    return found | {f"01.{n}": Mark(f"01.{n}", wrong_with=(text,)) for n, text in enumerate(wrong) if text}


@pytest.mark.parametrize(
    ("wrong", "told"),
    [
        (["485 g", "1.25 kg", "33.5 °C"], 3),
        (["485 G", "1.25kg", "33.5°C"], 3),
        (["485 g", "1.25 kg"], 0),
        (["485 g", "1.25 kg", "33.5 °C", "111 g", "222 g", "333 g"], 3),
        (["485 g", "1.25 kg", "33.5 °C", "111 g", "222 g", "333 g", "444 g"], 0),
        (["485 g", "1.25 kg", "33.5 °C", "11 g", "22 g", "33 g", "C"], 3),
        (["485 g", "1.25 kg", "33.5 g"], 0),
    ],
)
def test_three_answers_and_half_of_all_wrong(wrong, told):
    mine = {"17": marks(["485 g", "1.25 kg", "33.5 °C"]), "18": marks((), wrong)}
    says = f"wrong here and right for 17: {told} answers"
    assert said(answers_to_anothers_numbers(mine, ())) == ([("18", says)] if told else [])


@pytest.mark.parametrize("text", ["48 g", "4800 g", "0.048 kg", "C", "$9.00"])
def test_what_many_could_hit_tells_nothing(text):
    mine = {"17": marks([text] * 4), "18": marks((), [text] * 4)}
    assert answers_to_anothers_numbers(mine, ()) == []


def test_the_most_answers_of_several_are_told():
    texts = ["485 g", "1.25 kg", "33.5 °C", "0.813"]
    mine = {"16": marks(texts[:3]), "17": marks(texts), "18": marks((), texts)}
    assert said(answers_to_anothers_numbers(mine, ())) == [("18", "wrong here and right for 16, 17: 4 answers")]


def test_judgements_tell_nothing_and_nobody_copies_from_oneself():
    texts = ["485 g", "1.25 kg", "33.5 °C", "0.813"]
    mine = {"17": marks(texts), "18": marks((), texts)}
    assert answers_to_anothers_numbers(mine, {"01.0", "01.1"}) == []
    own = {which: Mark(which, True, right_with="485 g", wrong_with=("485 g",)) for which in ("01.0", "01.1", "01.2")}
    assert answers_to_anothers_numbers({"17": own}, ()) == []


def test_right_for_many_is_told_of_the_first():
    texts = ["485 g", "1.25 kg", "33.5 °C"]
    mine = {f"{n:02}": marks(texts) for n in range(60)} | {"99": marks((), texts)}
    ((who, says),) = said(answers_to_anothers_numbers(mine, ()))
    assert (who, says) == ("99", "wrong here and right for 00, 01, 02 and 37 more: 3 answers")
