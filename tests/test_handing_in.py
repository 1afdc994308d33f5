"""Handing in: one zip a lesson, whose it is, what is in it, and what is still open."""

import base64
import io
import json
import re
import zipfile
from datetime import date

import pytest

from pastrylab import exercises
from pastrylab.course import benches
from pastrylab.ground.units import StudentError
from pastrylab.school import answers, exercise_values, handing_in, whose

DAY = date(2026, 11, 27)


def zipped(made):
    with zipfile.ZipFile(io.BytesIO(made.data)) as archive:
        return {name.partition("/")[2]: archive.read(name) for name in archive.namelist()}


def lines(made, lesson="05"):
    return [json.loads(line) for line in zipped(made)[f"{lesson}.jsonl"].splitlines()]


@pytest.mark.parametrize(
    ("typed", "counts"),
    [
        ("17", "17"),
        ("017", "17"),
        (" 17. ", "17"),
        ("No. 17", "17"),
        ("no 017", "17"),
        ("#17", "17"),
        ("Nr. 17", "17"),
        ("\uff11\uff17", "17"),  # full-width digits of an East Asian keyboard
        ("000", "0"),
        ("B-12", "b-12"),
        ("José", "josé"),
        ("S0012345", "s0012345"),
    ],
)
def test_a_class_number_counts_however_it_is_typed(typed, counts):
    assert handing_in.class_number(typed) == counts


@pytest.mark.parametrize("typed", ["", "   ", None, "-", "../..", "***", "1" * 41, "x" * 5000, "\x00", "<>"])
def test_what_is_no_number_is_refused_in_words(typed, own_workbook):
    answers.record("05", "05.highest-reading", "0.865")
    with pytest.raises(StudentError, match="class list"):
        handing_in.hand_in("05", typed)
    assert not handing_in.folder().exists()


def test_the_zip_holds_the_lines_as_they_stand_and_the_values_they_were_given_under(own_workbook):
    answers.record("05", "05.highest-reading", '=1+1 "é"')
    before = exercise_values.values()
    (own_workbook / "datasets").mkdir()
    moved = before.moved("high")
    (own_workbook / "datasets" / "exercise_values.csv").write_text(moved.to_csv(), encoding="utf-8")
    answers.record("05", "05.highest-reading", "0.9")
    answers.record("05", "05.highest-reading", "", did=answers.OPENED_SOLUTION)
    answers.record("02", "02.seed-for-a-bowl", "480 g")
    made = handing_in.hand_in("05", "017", "Monday B", DAY)
    assert made.path == own_workbook / "hand-in" / "lesson-05_number-17_section-monday-b_2026-11-27.zip"
    assert made.path.read_bytes() == made.data and (made.answers, made.unnamed, made.torn) == (2, 2, ())
    within = zipped(made)
    assert within["05.jsonl"] == (answers.folder() / "05.jsonl").read_bytes()
    assert (within["number.txt"], within["section.txt"]) == (b"17\n", b"monday b\n")
    kept = {name: data for name, data in within.items() if name.startswith("values/")}
    assert set(kept) == {f"values/{before.id}.csv", f"values/{moved.id}.csv"}
    assert kept[f"values/{moved.id}.csv"].decode() == moved.to_csv()
    assert len(within) == 5, "nothing of another lesson"


def test_who_begins_without_a_number_loses_and_splits_nothing(own_workbook):
    answers.record("05", "05.highest-reading", "0.1")
    answers.record("05", "05.highest-reading", "0.2", student="017")
    whose.set_student("17")
    answers.record("05", "05.highest-reading", "0.3", student=whose.student())
    made = handing_in.hand_in("05", "17.", day=DAY)
    assert [e["answer"] for e in lines(made)] == ["0.1", "0.2", "0.3"] and made.unnamed == 1
    assert made.path.name == "lesson-05_number-17_2026-11-27.zip"
    assert whose.student() == "17", "a hand-in draws no other numbers"


def test_another_students_answers_at_the_same_machine_stay(own_workbook):
    for name in ("Ana", "18", "17"):
        answers.record("05", "05.highest-reading", name, student=name)
    whose.set_student("17")
    assert [e["answer"] for e in lines(handing_in.hand_in("05", "17"))] == ["17"]


def test_who_drew_from_a_name_hands_in_under_a_number(own_workbook):
    whose.set_student("Ana María")
    answers.record("05", "05.highest-reading", "0.2", student=whose.student())
    made = handing_in.hand_in("05", "5", day=DAY)
    assert lines(made)[0]["student"] == "ana maría" and made.unnamed == 0
    assert handing_in.remembered() == ("5", "") and whose.student() == "ana maría"


def test_torn_lines_stay_and_are_named(own_workbook):
    answers.record("05", "05.highest-reading", "0.2")
    with (answers.folder() / "05.jsonl").open("ab") as file:
        file.write(b'{"when": "2\n\xff\n[]\n')
    answers.record("05", "05.highest-reading", "0.3")
    made = handing_in.hand_in("05", "5")
    assert made.torn == (2, 3, 4) and [e["answer"] for e in lines(made)] == ["0.2", "0.3"]


def test_ids_of_values_in_a_file_are_no_paths(own_workbook):
    answers.record("05", "05.highest-reading", "0.2")
    secret = own_workbook / "secret.csv"
    secret.write_text("mine")
    path = answers.folder() / "05.jsonl"
    entry = json.loads(path.read_text())
    path.write_text(json.dumps({**entry, "values": "../../../secret"}) + "\n")
    assert set(zipped(handing_in.hand_in("05", "5"))) == {"05.jsonl", "number.txt", "section.txt"}


def test_a_second_one_on_a_day_replaces_the_first_and_nothing_half_lies_there(own_workbook):
    answers.record("05", "05.highest-reading", "0.2")
    handing_in.hand_in("05", "5", day=DAY)
    answers.record("05", "05.highest-reading", "0.3")
    made = handing_in.hand_in("05", "5", day=DAY)
    assert [path.name for path in handing_in.folder().iterdir()] == [made.path.name]
    assert len(lines(made)) == 2


def test_nothing_to_hand_in_and_no_room_are_said(own_workbook):
    with pytest.raises(StudentError, match="without an answer"):
        handing_in.hand_in("05", "5")
    answers.record("05", "05.highest-reading", "0.2")
    (own_workbook / "hand-in").write_text("a file in the way")
    with pytest.raises(StudentError, match="cannot be written"):
        handing_in.hand_in("05", "5")


@pytest.mark.parametrize("section", ["/", "\\..\\", "x" * 41])
def test_a_section_that_is_none_is_refused(section, own_workbook):
    answers.record("05", "05.highest-reading", "0.2")
    with pytest.raises(StudentError, match="section"):
        handing_in.hand_in("05", "5", section)


@pytest.mark.parametrize("name", ["17/2", "a\nb", "con", "élan & co"])
@pytest.mark.parametrize("section", ["17/../../x", "C:\\x", "a\nb", "con", "=1+1", "<script>", "élan & co"])
def test_a_name_is_a_file_name_anywhere(name, section, own_workbook):
    answers.record("05", "05.highest-reading", "0.2")
    made = handing_in.hand_in("05", name, section, DAY)
    assert re.fullmatch(r"lesson-05_number-[\w-]+_section-[\w-]+_2026-11-27\.zip", made.path.name)
    assert made.path.parent == own_workbook / "hand-in" and made.path.is_file()


def test_what_is_open_counts_what_was_right_before_there_was_a_number(own_workbook):
    asked = exercises.EXERCISES["02.seed-for-a-bowl"], exercises.EXERCISES["02.mixture-temperature"]
    assert [(e.id, tried) for e, tried in handing_in.still_open(asked, "17")] == [(e.id, False) for e in asked]
    answers.record("02", asked[0].id, exercises.key().loc[asked[0].id, "answer"])
    answers.record("02", asked[1].id, "1 degC", student="17")
    assert [(e.id, tried) for e, tried in handing_in.still_open(asked, "17")] == [(asked[1].id, True)]


def test_the_card_says_what_is_open_where_the_file_lies_and_gives_a_copy(own_workbook):
    card = benches.hand_in("05")
    titles = [e.title for e in exercises.EXERCISES.values() if e.lesson == "05"]
    assert all(title in card.said.value for title in titles) and "Not tried yet" in card.said.value
    card.act()
    assert "class list" in card.said.value and not card.link.value
    card.number.value = "017"
    card.act()
    assert "without an answer" in card.said.value
    for which, answer in exercises.key()["answer"].items():
        if which.startswith("05."):
            typed = answer.partition(" (")[0]  # grams; of options the letter
            answers.record("05", which, typed[0] if typed[1] in ",:" else typed)
    card.section.value = "<b>A"
    card.act()
    assert "Nothing is open" in card.said.value and f"{len(titles)} answers to lesson 05" in card.said.value
    made = next((own_workbook / "hand-in").iterdir())
    assert str(made) in card.said.value and made.name in card.link.value
    packed = base64.b64decode(re.search(r'base64,([^"]+)"', card.link.value)[1])
    assert packed == made.read_bytes()
    assert benches.hand_in("05").number.value == "17"


def test_there_is_a_card_for_every_lesson_and_for_no_other(own_workbook):
    for number in exercises.FOLDERS:
        assert benches.hand_in(number).exercises
    with pytest.raises(StudentError, match="as a lesson"):
        benches.hand_in("99")


def test_outside_a_workbook_the_file_lies_in_the_current_folder(tmp_path, monkeypatch):
    monkeypatch.delenv("PASTRYLAB_WORKBOOK", raising=False)
    monkeypatch.chdir(tmp_path)
    answers.record("05", "05.highest-reading", "0.2")
    assert handing_in.hand_in("05", "5").path.parent == tmp_path / "hand-in"
