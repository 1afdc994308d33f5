"""What a class gets: one file, newer each time, that keeps a student's work; and the way back to the class's values."""

import json
import os
import subprocess
import sys
import venv
import zipfile
from datetime import datetime
from pathlib import Path

import pint
import pytest
from packaging.version import Version

from pastrylab import __main__ as command_line
from pastrylab.course import benches
from pastrylab.desk import commands, handout, news, workbook
from pastrylab.ground import files
from pastrylab.ground.units import StudentError
from pastrylab.school import answers, exercise_values, own_values

ROOT = Path(__file__).resolve().parent.parent
NOON = datetime(2026, 11, 27, 12, 0, 5)
DESK = {"lessons/instructor-desk.ipynb"}  # not for students


@pytest.fixture(autouse=True)
def few(monkeypatch):
    """`pastrylab check` has tests of its own: five drawn students are enough here."""
    monkeypatch.setattr(handout, "_TRIED", 5)


@pytest.fixture
def teaching(tmp_path, monkeypatch):
    """An instructor's working copy, with a class list where it does not belong."""
    root = tmp_path / "teaching"
    workbook.update(workbook.shipped_root(), root, "0.1.0")
    monkeypatch.setenv("PASTRYLAB_WORKBOOK", str(root))
    return root


def change_values(root, find="02.seed-for-a-bowl,batch,3,kg", put="02.seed-for-a-bowl,batch,3.5,kg"):
    path = root / "datasets" / "exercise_values.csv"
    text = path.read_text(encoding="utf-8")
    assert text.count(find) == 1
    path.write_text(text.replace(find, put), encoding="utf-8")


def inside(wheel, start="pastrylab/_workbook/"):
    with zipfile.ZipFile(wheel) as archive:
        assert archive.testzip() is None
        return {n.removeprefix(start): archive.read(n) for n in archive.namelist() if n.startswith(start)}


def test_the_version_rises_with_time_and_tells_values_apart():
    at = ["2026-11-27 09:59:59", "2026-11-27 10:00:00", "2026-11-28 00:00:01", "2027-01-01 00:00:00"]
    versions = [Version(handout.version_of("ffffffff", datetime.fromisoformat(one), "0.1.0")) for one in at]
    assert sorted(versions) == versions and len(set(versions)) == 4
    assert Version("0.1.0") < versions[0] and versions[-1] < Version("0.1.1")
    one, other = (handout.version_of(which, NOON, "0.1.0") for which in ("0000000a", "0000000b"))
    assert one == "0.1.0.20261127.120005.10" and other == "0.1.0.20261127.120005.11"


def test_the_file_holds_every_lesson_sheet_and_module_as_they_are(tmp_path):
    made = handout.hand_out(tmp_path, NOON)
    shipped = {name: path.read_bytes() for name, path in workbook.shipped_files(ROOT).items() if name not in DESK}
    assert inside(made.wheel) == shipped and made.left_out == ()
    package = {p.relative_to(ROOT).as_posix() for p in (ROOT / "pastrylab").rglob("*") if p.is_file()}
    package = {name for name in package if "__pycache__" not in name}
    assert {"pastrylab/" + name for name in inside(made.wheel, "pastrylab/")} - package == {
        f"pastrylab/_workbook/{name}" for name in shipped
    }
    assert package <= {"pastrylab/" + name for name in inside(made.wheel, "pastrylab/")}
    (info,) = {name.split("/")[0] for name in inside(made.wheel, "") if ".dist-info/" in name}
    metadata = inside(made.wheel, f"{info}/")["METADATA"].decode()
    assert "Requires-Dist: psychrolib>=2.5" in metadata and "pytest" not in metadata
    assert b"MIT" in inside(made.wheel, f"{info}/")["licenses/.licence/LICENSE"]


def test_what_is_nobody_elses_stays_out(teaching, tmp_path):
    for name in ("class.csv", "exercise_values.mine.csv"):
        (teaching / "datasets" / name).write_text("number,name\n17,Ana\n")
    (teaching / "lessons" / "names.txt").write_text("Ana")
    (teaching / "lessons" / "instructor-desk.ipynb").write_text("{}")
    (teaching / "lessons" / "02-tempering.new-0.2.0.ipynb").write_text("{}")
    answers.record("05", "05.highest-reading", "0.9", student="Ana")
    lesson = teaching / "lessons" / "05-keeping.ipynb"
    ran = json.loads(lesson.read_text(encoding="utf-8"))
    start = next(cell for cell in ran["cells"] if cell["id"] == "setup")
    start["outputs"] = [{"output_type": "stream", "name": "stdout", "text": ["values drawn for: Ana\n"]}]
    ran["metadata"]["widgets"] = {"state": "Ana"}
    lesson.write_text(json.dumps(ran), encoding="utf-8")
    made = handout.hand_out(tmp_path / "out", NOON)
    assert set(made.left_out) == {"datasets/class.csv", "datasets/exercise_values.mine.csv", "lessons/names.txt"}
    carried = inside(made.wheel)
    assert not [name for name, data in carried.items() if b"Ana" in data or "my-answers" in name]
    assert carried.keys() == workbook.shipped_files(ROOT).keys() - DESK
    assert carried["lessons/05-keeping.ipynb"] == (ROOT / "lessons" / "05-keeping.ipynb").read_bytes()


def test_an_instructors_values_labels_and_lessons_go_along(teaching, tmp_path):
    change_values(teaching)
    (teaching / "lessons" / "10-our-own.ipynb").write_text('{"cells": [], "metadata": {}, "nbformat": 4}')
    made = handout.hand_out(tmp_path / "out", NOON)
    carried = inside(made.wheel)
    assert exercise_values.survey(carried["datasets/exercise_values.csv"]).id == made.values
    assert made.values != own_values.class_values().id and "lessons/10-our-own.ipynb" in carried
    kept = tmp_path / "out" / "values" / f"{made.values}.csv"
    assert exercise_values.survey(kept).id == made.values, "for marking, later in the term"
    page = made.page.read_text(encoding="utf-8")
    assert made.wheel.name in made.line and made.line.replace("&", "&amp;") in page
    assert made.line_on_windows in page and made.values in page and '<html lang="en">' in page


@pytest.mark.parametrize(
    ("find", "put", "says"),
    [
        ("02.seed-for-a-bowl,batch,3,kg", "02.seed-for-a-bowl,batch,three,kg", "'batch'|three"),
        ("02.seed-for-a-bowl,batch,3,kg", "02.seed-for-a-bowl,batch,3,miles", "fault"),
    ],
)
def test_values_that_are_not_sound_are_not_handed_out(teaching, tmp_path, find, put, says):
    change_values(teaching, find, put)
    with pytest.raises(StudentError, match=says):
        handout.hand_out(tmp_path / "out")
    with pytest.raises(StudentError, match="Example: a tick in the box"):
        handout.hand_out(tmp_path / "out", how="a tick in the box")
    assert not (tmp_path / "out").exists()


def test_a_row_at_fault_goes_out_when_told_so_and_stops_its_own_exercise_only(teaching, tmp_path, capsys):
    change_values(teaching, "02.seed-for-a-bowl,batch,3,kg", "02.seed-for-a-bowl,batch,three,kg")
    assert command_line.main(["handout", "--out", str(tmp_path / "out")]) == 2
    assert "--anyway" in capsys.readouterr().err
    assert command_line.main(["handout", "--out", str(tmp_path / "out"), "--anyway"]) == 0
    assert "Handed out all the same" in capsys.readouterr().out
    (wheel,) = (tmp_path / "out").glob("*.whl")
    values = exercise_values.survey(inside(wheel)["datasets/exercise_values.csv"])
    assert {exercise for exercise, _fault in values.faults} == {"02.seed-for-a-bowl"}
    assert values.of("02.heat-to-melt-out")


def test_a_torn_lesson_and_a_folder_in_the_way_are_said(teaching, tmp_path):
    (tmp_path / "file").write_text("")
    with pytest.raises(StudentError, match="folder you may write in"):
        handout.hand_out(tmp_path / "file")
    (teaching / "lessons" / "05-keeping.ipynb").write_text('{"cells": [')
    with pytest.raises(StudentError, match="no lesson any more"):
        handout.hand_out(tmp_path / "out")


def test_the_command_says_the_file_and_the_line(tmp_path, capsys):
    assert commands.main(["handout", "--out", str(tmp_path)]) == 0
    said = capsys.readouterr().out
    (wheel,) = tmp_path.glob("*.whl")
    assert str(wheel) in said and f"pip install ./{wheel.name} && .venv/bin/pastrylab open" in said
    assert rf"py -3 -m venv .venv; .venv\Scripts\python -m pip install .\{wheel.name}" in said


# --- a student's copy ------------------------------------------------------------------------------------


def test_a_newer_hand_out_is_told_in_one_line(teaching):
    before = news.numbers(teaching)
    after = before.moved(lambda e, n, given: given.value + given.step if e.startswith("03.b") else given.value)
    changes = [
        workbook.Change("datasets/exercise_values.csv", "updated"),
        workbook.Change("lessons/02-tempering.ipynb", "beside", "lessons/02-tempering.new-1.ipynb"),
        workbook.Change("lessons/05-keeping.ipynb", "updated"),
        workbook.Change("lessons/10-our-own.ipynb", "added"),
        workbook.Change("lessons/pictures/sound.svg", "updated"),
    ]
    line, beside = news.said(changes, before, after)
    assert line == (
        "New in your workbook: other numbers in 1 exercise (03.boiled-cream); 1 lesson and 1 other file replaced; "
        "1 lesson new; kept as you changed it: lessons/02-tempering.ipynb. Your answers are as they were."
    )
    assert beside == str(changes[1])
    assert news.said([], before, after) == [] and news.said(changes[:1], before, before)[0].count("same numbers")
    assert news.numbers(teaching / "nowhere") is None


def test_a_copy_changed_by_hand_says_so_and_goes_back(teaching, capsys):
    assert not own_values.by_hand() and benches.start("02") is None
    change_values(teaching)
    mine, path = exercise_values.values().id, teaching / "datasets" / "exercise_values.csv"
    card = benches.start("02")
    said = capsys.readouterr().out
    assert "changed by hand" in card.told.value and mine in said and "changed by hand on this machine" in said
    card.act()
    assert (
        "are back" in card.said.value
        and not card.told.value
        and path.read_bytes() == (files.folder() / path.name).read_bytes()
    )
    assert exercise_values.values().id == own_values.class_values().id
    kept = path.with_name("exercise_values.mine.csv")
    assert exercise_values.survey(kept).id == mine and benches.start("02") is None
    assert workbook.update(workbook.shipped_root(), teaching, "0.1.0") == []
    change_values(teaching)
    assert own_values.take_back().name == "exercise_values.mine1.csv" and kept.is_file()
    path.write_bytes(b"\xff\x00 nonsense")
    assert own_values.by_hand() and own_values.take_back() and not own_values.by_hand()


def test_saved_again_by_a_spreadsheet_is_not_by_hand(teaching):
    path = teaching / "datasets" / "exercise_values.csv"
    path.write_bytes(b"\xef\xbb\xbf" + path.read_bytes().replace(b"\n", b"\r\n"))
    assert not own_values.by_hand()


def test_the_word_of_the_term_goes_along_and_one_of_ones_own_says_so(teaching, tmp_path):
    path = teaching / "datasets" / "term.csv"
    path.write_text("section,word\nA,morning\nB,evening\nC,\n", encoding="utf-8")
    made = handout.hand_out(tmp_path / "out", NOON)
    kept = {p.name for p in (tmp_path / "out" / "values").iterdir()}
    each = {exercise_values.for_section(one).id for one in "ABC"}
    assert kept == {f"{one}.csv" for one in each} and len(kept) == 3 and made.values in each
    with zipfile.ZipFile(made.wheel) as archive:
        assert archive.read("pastrylab/_workbook/datasets/term.csv") == path.read_bytes()
    assert own_values.by_hand() and own_values.take_back().name == "term.mine.csv" and not own_values.by_hand()
    path.write_bytes(b"word;section\r\n;everybody\r\n")
    assert not own_values.by_hand(), "saved again by a spreadsheet"


def test_a_new_word_is_said_in_the_line_on_what_is_new(teaching):
    now = exercise_values.values()
    (line,) = news.said([workbook.Change("datasets/term.csv", "updated")], now, now)
    assert line.startswith("New in your workbook: another word for the term, so other numbers for every class number.")


@pytest.mark.slow
@pytest.mark.skipif(os.name != "posix", reason="the line for Windows is written, not run")
def test_pip_takes_each_hand_out_and_the_copy_keeps_its_work(teaching, tmp_path):
    """Installed, answered, new values in mid-term, installed over it: new numbers, old answers."""
    first = handout.hand_out(tmp_path / "out", NOON)
    change_values(teaching)
    second = handout.hand_out(tmp_path / "out", NOON.replace(hour=13))
    place = tmp_path / "student"
    venv.create(place / ".venv", with_pip=False, symlinks=True)
    python = place / ".venv" / "bin" / "python"
    (packages,) = (place / ".venv").glob("lib/python*/site-packages")
    (packages / "libraries.pth").write_text(str(Path(pint.__file__).parents[1]))
    setting = {k: v for k, v in os.environ.items() if not k.startswith(("PYTHON", "PASTRYLAB", "JUPYTER"))}

    def run(*command):
        return subprocess.run(command, cwd=place, env=setting, check=True, capture_output=True, text=True).stdout

    def install(made):
        pip = [sys.executable, "-m", "pip", "--python", python, "--disable-pip-version-check"]
        return run(*pip, "install", "--no-deps", "--no-index", "--no-compile", made.wheel)

    opened = "from pathlib import Path; from pastrylab.desk import workbook; workbook.prepare(Path.cwd())"
    kept = "from pastrylab.school import answers; print(answers.record('02', '02.seed-for-a-bowl', '480 g')['values'])"
    assert "Successfully installed" in install(first)
    said, values = run(python, "-c", f"{opened}; {kept}").splitlines()
    assert said.startswith("Made your working copy") and values == first.values
    assert "Successfully installed" in install(second)
    said, values = run(python, "-c", f"{opened}; {kept}").splitlines()
    assert "other numbers in 1 exercise (02.seed-for-a-bowl)" in said and values == second.values
    lines = (place / "pastrylab-workbook" / "lessons" / "my-answers" / "02.jsonl").read_text().splitlines()
    assert [json.loads(line)["values"] for line in lines] == [first.values, second.values]
    assert run(place / ".venv" / "bin" / "pastrylab", "--version").strip() == second.wheel.name.split("-")[1]
