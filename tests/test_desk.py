"""The instructor's desk without a page: each job pressed, what it says, where things lie."""

import io
import json
import shutil
import zipfile
from datetime import UTC, datetime
from pathlib import Path

import pytest

from pastrylab.course import benches
from pastrylab.desk import buttons, checked
from pastrylab.school import exercise_values

NOW = datetime(2026, 10, 2, tzinfo=UTC)
ROOT = Path(__file__).resolve().parents[1]


def told(job):
    return job.said.value


def given(load, name, content):
    load.value = ({"name": name, "type": "", "size": len(content), "content": content, "last_modified": NOW},)


def linked(job):
    return job.links.outputs[0]["data"]["text/markdown"] if job.links.outputs else ""


@pytest.fixture
def at_the_desk(own_workbook, monkeypatch):
    monkeypatch.chdir(own_workbook / "lessons")
    return own_workbook / "my-desk"


def test_a_list_is_counted_kept_and_read_again_another_day(at_the_desk):
    page = buttons.ClassList()
    given(page.load, "autumn.csv", b"number,name,section\n017,A,north\n18,B,south\n19,C,south\n")
    assert "3 students: 1 in north, 2 in south." in told(page._job)
    assert (at_the_desk / "class-list.csv").is_file()
    assert "3 students" in told(buttons.ClassList()._job)
    assert "../my-desk/class-list.csv" in linked(page._job)


def test_a_list_that_cannot_be_read_does_not_replace_the_one_that_lies_there(at_the_desk):
    page = buttons.ClassList()
    given(page.load, "good.csv", b"number\n1\n2\n")
    given(page.load, "bad.csv", b"who,what\na,b\n")
    assert "no column with the numbers" in told(page._job)
    assert (at_the_desk / "class-list.csv").read_bytes() == b"number\n1\n2\n"


def test_marking_needs_a_list_and_something_handed_in(at_the_desk):
    page = buttons.Marking()
    assert "0 files lie in" in told(page.job)
    page.job.act()
    assert "no class list" in told(page.job)
    given(buttons.ClassList().load, "list.csv", b"number\n17\n")
    page.job.act()
    assert "no answers in it" in told(page.job), told(page.job)


@pytest.mark.parametrize(
    "name",
    ["../../up.zip", "/etc/up.zip", "..\\up.zip", "a\0b.zip", "<b>.zip", "", "...", "C:\\x.zip", "x" * 300 + ".zip"],
)
def test_what_is_brought_stays_in_its_folder(at_the_desk, name):
    page = buttons.Marking()
    given(page.load, name, b"PK")
    given(page.load, name + " ", b"PK again")
    (first, second) = sorted((at_the_desk / "hand-ins").iterdir())
    assert {first.read_bytes(), second.read_bytes()} == {b"PK", b"PK again"}
    assert [one for one in at_the_desk.parent.rglob("*") if one.is_file()].__len__() == 2


def test_a_hand_in_is_marked_and_its_papers_linked(at_the_desk):
    given(buttons.ClassList().load, "list.csv", b"number,section\n017,A\n")
    line = {"when": "2026-10-02T10:00:00+00:00", "student": "17", "exercise": "05.highest-reading"}
    line |= {"answer": "0.8", "values": exercise_values.values().id}
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as archive:
        archive.writestr("my-answers/05.jsonl", json.dumps(line))
    page = buttons.Marking()
    given(page.load, "17.zip", packed.getvalue())
    page.job.act()
    assert "Written to" in told(page.job), told(page.job)
    for name in ("class.html", "gradebook.csv", "flags.csv"):
        assert f"../my-desk/marks/{name}" in linked(page.job)
    page.begins.value = "the first of never"
    page.job.act()
    assert not linked(page.job), "the links of an earlier run stand under a refusal"


def test_values_of_before_are_laid_where_the_desk_says(at_the_desk):
    given(buttons.ClassList().load, "list.csv", b"number\n17\n")
    older = exercise_values.values().moved("high")
    line = {"when": "2026-10-02T10:00:00+00:00", "student": "17", "exercise": "05.highest-reading", "answer": "0.8"}
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as archive:
        archive.writestr("my-answers/05.jsonl", json.dumps(line | {"values": older.id}))
        archive.writestr(f"my-answers/values/{older.id}.csv", older.to_csv())
    page = buttons.Marking()
    given(page.load, "17.zip", packed.getvalue())
    page.job.act()
    file, into = at_the_desk / "marks" / "values" / f"{older.id}.csv", at_the_desk / "hand-out" / "values"
    assert f"copy {file} into {into}" in told(page.job) and "--values" not in told(page.job), "the desk has no command"
    shutil.copy(file, into)
    page.job.act()
    assert older.id not in told(page.job)


def test_on_a_classs_server_the_students_own_folders_are_marked(at_the_desk, tmp_path, monkeypatch):
    answers = tmp_path / "students" / "17" / "pastrylab-workbook" / "lessons" / "my-answers"
    answers.mkdir(parents=True)
    monkeypatch.setenv("PASTRYLAB_STUDENTS", str(tmp_path / "students"))
    assert "0 files lie in" in told(buttons.Marking().job), "on a machine of one's own that folder has no say"
    monkeypatch.setenv("PASTRYLAB_COURSE", str(at_the_desk.parent))
    given(buttons.ClassList().load, "list.csv", b"number\n17\n")
    line = {"when": "2026-10-02T10:00:00+00:00", "student": "17", "exercise": "05.highest-reading"}
    line |= {"answer": "0.8", "values": exercise_values.values().id}
    (answers / "05.jsonl").write_text(json.dumps(line) + "\n", "utf-8")
    page = buttons.Marking()
    assert "folder lies in" in told(page.job) and page.load not in page.children[0].children
    page.job.act()
    assert "1 hand-ins of 1 students marked" in told(page.job), told(page.job)
    assert (at_the_desk / "marks" / "gradebook.csv").is_file()


def test_a_day_that_fits_is_linked_and_one_that_does_not_says_what_clashes(at_the_desk):
    job = buttons.plan_day()
    job.act()
    assert "day.html" in linked(job) and "requisition.csv" in linked(job)
    boxes = {
        one.description: one
        for row in job.children
        for one in getattr(row, "children", [row])
        if hasattr(one, "description")
    }
    assert "make-up" not in linked(job)
    boxes["Absent, for a make-up lab"].value = "17: day 1"
    job.act()
    assert "make-up.html" in linked(job) and "make-up-key.html" in linked(job)
    boxes["The order"].value = "5000 dark ganache"
    job.act()
    assert "day.html" not in linked(job) and "requisition.csv" in linked(job)
    boxes["Name of the day"].value = "../up"
    job.act()
    assert "Name of the day" in told(job) and not linked(job)


def test_check_says_that_all_is_sound(at_the_desk, monkeypatch):
    monkeypatch.setattr(checked.check_all, "__defaults__", (None, 20, None, None, "hand-out", None))
    job = buttons.check_sheets()
    job.act()
    assert "sound" in told(job) and not job.press.disabled


def test_the_hand_out_lies_at_the_desk_with_the_lines_to_type(at_the_desk):
    for name in ("02-tempering.ipynb", "instructor-desk.ipynb"):
        shutil.copy(ROOT / "lessons" / name, at_the_desk.parent / "lessons")
    shutil.copytree(ROOT / "datasets", at_the_desk.parent / "datasets")
    given(buttons.ClassList().load, "list.csv", b"number,name\n17,An invented name\n")
    job = buttons.hand_out()
    job.act()
    (wheel,) = (at_the_desk / "hand-out").glob("*.whl")
    assert wheel.name in told(job) and "hand-out.html" in linked(job)
    names = zipfile.ZipFile(wheel).namelist()
    assert any(name.endswith("02-tempering.ipynb") for name in names) and not any("my-desk" in n for n in names)
    assert not any("instructor-desk" in name for name in names)


def test_keys_and_sheets_lie_at_the_desk(at_the_desk):
    shutil.copy(ROOT / "lessons" / "02-tempering.ipynb", at_the_desk.parent / "lessons")
    given(
        buttons.ClassList().load,
        "list.csv",
        b"number,name,section\n017,An invented name,A\n18,Another,B\n19,A third,A\n",
    )
    job = buttons.print_keys()
    lesson, section = job.children[0].children
    lesson.value, section.value = "02", "A"
    job.act()
    assert "lesson-02-key.html" in linked(job) and "lesson-02-grid.html" in linked(job), told(job)
    page = (at_the_desk / "keys" / "lesson-02-key.html").read_text("utf-8")
    assert "An invented name" in page and "Another" not in page
    job.children[1].value, section.value = "19 and 17", ""
    job.act()
    both = (at_the_desk / "keys" / "19 and 17" / "lesson-02-key.html").read_text("utf-8")
    assert "17 and 19" in both and "Another" not in both and both != page, told(job)
    job = buttons.print_papers()
    job.children[0].children[0].value = "02"
    job.act()
    assert "attendance.html" in linked(job) and "02-key-to-the-sheet.html" in linked(job), told(job)


def test_the_names_are_put_away_beside_the_desk(at_the_desk):
    job = buttons.put_names_away()
    job.act()
    assert "no class list" in told(job)
    given(buttons.ClassList().load, "list.csv", b"number,name\n17,Zebedea Quillfeather\n")
    (at_the_desk / "marks").mkdir()
    (at_the_desk / "marks" / "gradebook.csv").write_text("number,name\n17,Zebedea Quillfeather\n", "utf-8")
    job.act()
    away = at_the_desk.parent / "my-desk-without-names"
    assert "Quillfeather" not in (away / "marks" / "gradebook.csv").read_text("utf-8"), told(job)
    assert "Quillfeather" in (at_the_desk / "marks" / "gradebook.csv").read_text("utf-8"), (
        "nothing of the desk is touched"
    )


def test_on_a_class_s_server_the_students_answers_are_put_away_too(at_the_desk, monkeypatch, tmp_path):
    students = tmp_path / "students"
    own = students / "s17" / "pastrylab-workbook" / "lessons" / "my-answers"
    own.mkdir(parents=True)
    (own / "02.jsonl").write_text('{"student": "s17", "answer": "so says Zebedea Quillfeather"}\n', "utf-8")
    monkeypatch.setenv("PASTRYLAB_COURSE", str(at_the_desk.parent))
    monkeypatch.setenv("PASTRYLAB_STUDENTS", str(students))
    given(buttons.ClassList().load, "list.csv", b"number,name\ns17,Zebedea Quillfeather\n")
    job = buttons.put_names_away()
    job.act()
    away = at_the_desk.parent / "my-desk-without-names"
    (kept,) = away.rglob("02.jsonl")
    assert "so says s17" in kept.read_text("utf-8") and "stand as they were" in told(job), told(job)
    assert "Quillfeather" in (own / "02.jsonl").read_text("utf-8")


def test_the_desk_calls_itself_by_its_name(at_the_desk, capsys):
    benches.start()
    first = capsys.readouterr().out.splitlines()[0]
    assert first.startswith("The instructor's desk · pastrylab ") and "Lesson" not in first
    page = json.loads((ROOT / "lessons" / "instructor-desk.ipynb").read_text("utf-8"))
    assert ["benches.start()" in "".join(cell["source"]) for cell in page["cells"]].count(True) == 1
