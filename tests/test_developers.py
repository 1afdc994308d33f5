"""DEVELOPERS.md: its worked examples run as they are printed, and the rooms it draws are the rooms there are."""

import math
import re
from pathlib import Path

import numpy as np
import pytest

from pastrylab.course import catalogue
from pastrylab.ground import datasets
from pastrylab.ground.components import composition_faults
from pastrylab.ground.tables import read_table
from pastrylab.page.bench import Bench, Control, Plain
from pastrylab.page.picture import LINE, Picture
from pastrylab.school import checking, engine, exercise_values, given_kinds
from pastrylab.school.typed import fit, rows
from pastrylab.school.typed.functions import FUNCTIONS

ROOT = Path(__file__).resolve().parent.parent
PAGE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
EXERCISE, FIGURE, BENCH = re.findall(r"```python\n(.*?)```", PAGE, re.DOTALL)


def made(code, **names):
    exec(compile(code, "DEVELOPERS.md", "exec"), names)
    return names


def test_the_ingredient_is_known_and_adds_up(tmp_path):
    (row,) = re.findall(r"<!-- ingredient -->\n    (.*)$", PAGE, re.MULTILINE)
    path = tmp_path / "ingredients.csv"
    path.write_text((ROOT / "datasets" / "ingredients.csv").read_text(encoding="utf-8") + row + "\n", encoding="utf-8")
    frame = read_table(path, datasets.INGREDIENTS)
    assert list(composition_faults(frame)) == []
    oat = frame.by("ingredient")["oat cream"]
    assert (oat["water"], oat["fat"], oat["fibre"], oat["other"]) == (79, 13, 0.8, 0.9)


@pytest.fixture
def exercise():
    return made(EXERCISE, math=math, Exercise=engine.Exercise, Slip=engine.Slip)["BOWLS"]


@pytest.fixture
def values():
    rows = re.findall(r"^    (02,02\.bowls-for-an-order,.*)$", PAGE, re.MULTILINE)
    assert len(rows) == 2
    return "lesson,exercise,given,value,unit,low,high,step\n" + "\n".join(rows) + "\n"


def test_the_exercise_is_fit_to_be_set_and_grades(exercise, values, monkeypatch):
    (kinds,) = re.findall(r'"02\.bowls-for-an-order": \{(.*?)\}', PAGE)
    monkeypatch.setitem(given_kinds.KINDS, exercise.id, dict(re.findall(r'"(\w+)": "(\w+)"', kinds)))
    sound = exercise_values.values(values)
    assert sound.faults == () and checking.problems(exercise, sound, 100) == []
    assert engine.grade(exercise, "3", values=sound).status == "right"  # 11.5 kg in bowls of 4.5 kg
    assert engine.grade(exercise, "2", values=sound).slip == "rounded down"
    assert engine.grade(exercise, "2.556", values=sound).slip == "not rounded"
    assert exercise.id not in catalogue.EXERCISES


def rows_of(marker):
    (block,) = re.findall(rf"<!-- {marker} -->\n((?:    .*\n)+)", PAGE)
    return re.sub("^    ", "", block, flags=re.MULTILINE)


def test_the_exercise_without_code_is_fit_to_be_set_and_grades():
    sheet = rows.survey(rows_of("own exercise"))
    assert sheet.faults == ()
    bowls = sheet.exercises["02.bowls"]
    known = exercise_values.values("lesson,exercise,given,value,unit,low,high,step\n" + rows_of("own values"))
    assert fit.problems(bowls, known) == [] and checking.problems(bowls, known, 100) == []
    assert engine.grade(bowls, "3", values=known).status == "right"  # 11.5 kg in bowls of 4.5 kg
    assert engine.grade(bowls, "2", values=known).slip == "rounded down"
    (text,) = re.findall(r"\*\*answer\*\*: .*?(?=- \*\*sums)", PAGE, re.DOTALL)
    listed = re.findall(r"`([a-z ]+)[`(]", " ".join(text.split()))
    assert set(listed) - {"pastrylab check"} == set(FUNCTIONS), "the functions the page lists"


def test_the_bench_draws_and_says_what_it_shows():
    names = made(FIGURE, np=np, Picture=Picture, LINE=LINE)
    bench = made(BENCH, Bench=Bench, Control=Control, Plain=Plain, **names)["cooling_bench"]()
    # 45 degC in a room of 20 degC with a time constant of 30 min: after an hour 20 + 25 exp(-2) = 23.4 degC.
    assert "23.4 °C" in bench.sentence.value and "<img" in bench.picture.value
    bench.system.value = "US"
    assert "74.1 °F" in bench.sentence.value


def test_every_room_and_file_of_the_map_is_there_and_none_is_missing():
    (drawn,) = re.findall(r"^pastrylab/ .*?(?=^tests/)", PAGE, re.DOTALL | re.MULTILINE)
    package = ROOT / "pastrylab"
    rooms = re.findall(r"^  (\w+)/", drawn, re.MULTILINE)
    assert rooms == ["ground", "trade", "logs", "school", "page", "course", "desk"]
    assert {p.name for p in package.iterdir() if p.is_dir() and p.name[0] not in "_."} == set(rooms)
    words = set(re.findall(r"[a-z_]+", drawn))
    for room in set(rooms) - {"course"}:
        names = {p.stem for p in (package / room).iterdir() if p.suffix in (".py", "") and p.name[0] not in "_."}
        assert names <= words, (room, names - words)
