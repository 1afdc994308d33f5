"""Answers on disk: appended, torn lines survived, verdicts never believed."""

import errno
import json

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from pastrylab.ground.units import StudentError
from pastrylab.school import answers, exercise_values, whose


def test_answers_are_appended_and_read_back(own_workbook):
    answers.record("02", "02.seed-for-a-bowl", "480 g", " José ")
    answers.record("02", "02.seed-for-a-bowl", '=1+1\n"quoted" é', "jose")
    entries, torn = answers.read("02")
    assert [e["answer"] for e in entries] == ["480 g", '=1+1\n"quoted" é'] and not torn
    assert answers.last("02", "02.seed-for-a-bowl", "JOSÉ")["answer"] == "480 g"
    assert answers.last("02", "02.other") is None and answers.read("03") == ([], [])
    assert (own_workbook / "lessons" / "my-answers" / "02.jsonl").read_bytes().count(b"\n") == 2


@pytest.mark.parametrize(
    "rubbish", [b'{"when": "2', b"\xff\xfe\x00", b"[1, 2]", b"null", b'{"answer": 3}', b"[" * 10000]
)
def test_a_torn_line_is_reported_and_swallows_nothing(own_workbook, rubbish):
    answers.record("02", "02.a", "1 g")
    with (answers.folder() / "02.jsonl").open("ab") as file:
        file.write(rubbish)
    answers.record("02", "02.a", "2 g")
    entries, torn = answers.read("02")
    assert [e["answer"] for e in entries] == ["1 g", "2 g"] and torn == [2]


def test_what_a_line_says_of_itself_is_not_kept(own_workbook):
    entry = answers.record("02", "02.a", "1 g")
    line = json.loads((answers.folder() / "02.jsonl").read_text(encoding="utf-8"))
    assert line == entry and set(line) == {"when", "student", "exercise", "answer", "values"}


def test_superseded_values_are_kept_under_their_id(own_workbook):
    entry = answers.record("02", "02.a", "1 g")
    kept = answers.folder() / "values" / f"{entry['values']}.csv"
    assert exercise_values.values(kept).id == entry["values"]
    (own_workbook / "datasets").mkdir()
    moved = exercise_values.values().moved("high")
    (own_workbook / "datasets" / "exercise_values.csv").write_text(moved.to_csv(), encoding="utf-8")
    assert exercise_values.values().id == moved.id
    assert answers.values_of(entry).id == entry["values"]
    kept.write_text(moved.to_csv(), encoding="utf-8")
    with pytest.raises(StudentError, match="was changed"):
        answers.values_of(entry)
    kept.unlink()
    with pytest.raises(StudentError, match="no longer|kept with it"):
        answers.values_of(entry)


def test_an_id_from_a_file_is_no_path(own_workbook):
    with pytest.raises(StudentError):
        answers.values_of({"values": "../../../../etc/passwd"})


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(text=st.text(max_size=300), name=st.text(max_size=100))
def test_any_text_and_name_come_back(own_workbook, text, name):
    try:
        entry = answers.record("09", "09.x", text, name)
    except UnicodeEncodeError:
        pytest.fail("a lone surrogate must not stop a student")
    assert answers.read("09")[0][-1] == entry


def test_a_file_saved_again_with_a_byte_order_mark_keeps_its_first_line(own_workbook):
    answers.record("02", "02.a", "1 g")
    answers.record("02", "02.a", "2 g")
    path = answers.folder() / "02.jsonl"
    path.write_bytes(b"\xef\xbb\xbf" + path.read_bytes().replace(b"\n", b"\r\n"))
    entries, torn = answers.read("02")
    assert [e["answer"] for e in entries] == ["1 g", "2 g"] and torn == []


def test_an_empty_answer_is_not_the_last_one(own_workbook):
    answers.record("02", "02.a", "1 g")
    answers.record("02", "02.a", "  ")
    assert answers.last("02", "02.a")["answer"] == "1 g"


def test_what_was_done_besides_answering_is_no_answer(own_workbook):
    answers.record("02", "02.a", "", "Ada", did=answers.OPENED_SOLUTION)
    answers.record("02", "02.a", "1 g", "Ada")
    (entry,) = answers.done("02")
    assert (entry["did"], entry["student"], entry["exercise"]) == (answers.OPENED_SOLUTION, "ada", "02.a")
    assert [e["answer"] for e in answers.read("02")[0]] == ["1 g"]


@pytest.mark.parametrize("at", ["_append", "_keep_values"])
def test_a_disk_that_takes_nothing_is_said_in_a_sentence(own_workbook, monkeypatch, at):
    def full(*_):
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(answers, at, full)
    said = answers.keep("02", "02.a", "1 g")
    assert "not kept" in said and "No space left" in said and "Make room" in said
    assert answers.read("02") == ([], [])


def test_a_folder_that_may_not_be_written_is_said_in_a_sentence(own_workbook):
    (own_workbook / "lessons" / "my-answers").write_text("a file where the folder belongs")
    assert "not kept" in answers.keep("02", "02.a", "1 g")
    assert answers.last("02", "02.a") is None


def test_draws_follow_a_name_of_any_length(own_workbook):
    answers.record("02", "02.a", "1 g", "x" * 100)
    assert answers.last("02", "02.a", "x" * 100)["answer"] == "1 g"


@pytest.mark.parametrize(("length", "kept"), [(2000, 2000), (2001, 2000)])
def test_of_an_answer_two_thousand_letters_are_kept(own_workbook, length, kept):
    answers.record("02", "02.a", "x" * length)
    assert answers.last("02", "02.a")["answer"] == "x" * kept


@pytest.mark.parametrize(("length", "kept"), [(80, 80), (81, 80)])
def test_of_a_name_eighty_letters_are_kept(own_workbook, length, kept):
    assert answers.record("02", "02.a", "1 g", "x" * length)["student"] == "x" * kept
    assert whose.set_student("y" * length) == "y" * kept == whose.student()
    (answers.folder() / "student.txt").write_text("z" * length, encoding="utf-8")  # by hand
    assert whose.student() == "z" * kept


def test_a_line_is_added_under_the_last_and_nothing_between(own_workbook):
    entries = [answers.record("02", "02.a", f"{i} g") for i in range(3)]
    path = answers.folder() / "02.jsonl"
    assert [json.loads(line) for line in path.read_bytes().split(b"\n")[:-1]] == entries
    path.write_bytes(path.read_bytes()[:-1])  # the end of the last line was never written
    answers.record("02", "02.a", "3 g")
    assert path.read_bytes().count(b"\n") == 4 and len(answers.read("02")[0]) == 4


def test_an_answer_makes_the_folders_it_needs(tmp_path, monkeypatch):
    monkeypatch.setenv("PASTRYLAB_WORKBOOK", str(tmp_path))
    whose.set_student("Ada")
    whose.set_student("Bea")
    answers.record("02", "02.a", "1 g")
    assert whose.student() == "bea" and len(answers.read("02")[0]) == 1


def test_a_values_file_that_cannot_be_written_says_why_and_leaves_no_draft(own_workbook, monkeypatch):
    def full(*_, **__):
        raise OSError(errno.ENOSPC, "No space left on device")

    with monkeypatch.context() as disk:
        disk.setattr("pathlib.Path.write_text", full)
        said = answers.keep("02", "02.a", "1 g")
    assert "No space left on device" in said
    assert list((answers.folder() / "values").iterdir()) == []


def test_a_torn_line_is_counted_from_one(own_workbook):
    answers.record("02", "02.a", "1 g")
    path = answers.folder() / "02.jsonl"
    path.write_bytes(b"torn\n\n" + path.read_bytes() + b"torn too\n")
    assert answers.read("02")[1] == [1, 4]


@pytest.mark.parametrize("typed", ["17", "017", " 17. ", "No. 17"])
def test_a_number_typed_in_any_hand_draws_the_same(own_workbook, typed):
    assert whose.set_student(typed) == whose.student() == "17"
