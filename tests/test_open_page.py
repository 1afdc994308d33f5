"""Speed of an open page, by what is done and not by the clock: what a lesson imports, asks the disk and draws."""

import re
import subprocess
import sys
from pathlib import Path

import pytest
from matplotlib.axis import Axis
from matplotlib.text import Text

import pastrylab
from pastrylab import benches
from pastrylab.ground import files
from pastrylab.page.picture import Picture

BENCHES = {
    "tempering.seed_bench": "melted_at",
    "emulsion.warm_bench": "liquid",
    "emulsion.infusion_bench": "liquid",
    "costing.price_bench": "food",
    "sugars.pot_bench": "time",
}


@pytest.mark.parametrize(
    ("asked", "unwanted"),
    [
        ("from pastrylab import Q, tempering", ("pandas", "matplotlib", "ipywidgets", "pastrylab.trade.labels.label")),
        (
            "from pastrylab import benches; benches.start",
            ("pandas", "matplotlib.pyplot", "pastrylab.page.kitchen.my_kitchen", "pastrylab.school.sheets"),
        ),
        (
            "from pastrylab.desk import served, shared",  # a student's server, which reckons nothing
            ("numpy", "pint", "pandas", "jinja2", "pastrylab.ground.units", "pastrylab.course.catalogue"),
        ),
        ("from pastrylab import benches; benches.tempering.seed_bench()", ("matplotlib.pyplot", "pandas")),
    ],
)
def test_nobody_waits_for_what_is_not_used(asked, unwanted):
    code = f"import sys; {asked}; print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=120)
    assert not set(unwanted) & set(done.stdout.split())


LESSONS = """
import json, pathlib, sys
from pastrylab.page import parts
from pastrylab.page.picture import Picture
Picture.png = lambda self: b""  # what is shown, in words alone
for path in sorted(pathlib.Path(sys.argv[1]).glob("0*.ipynb")):
    for cell in json.loads(path.read_text(encoding="utf-8"))["cells"]:
        if cell["cell_type"] == "code":
            exec("".join(cell["source"]), {"__name__": "__main__"})
    print("pandas" in sys.modules, path.name, file=sys.stderr)
"""


SOLVES = "09-plan-a-lab-day.ipynb"  # its solver brings pandas along, whoever asks


def test_pandas_comes_only_with_a_table_that_is_handed_out():
    """Thirty MiB and a third of a second of each student's start: `exercises.key()` alone gives a table of its own."""
    package = Path(pastrylab.__file__).parent
    asked = [
        path for path in package.rglob("*.py") if re.search(r"^\s*(import|from) pandas", path.read_text("utf-8"), re.M)
    ]
    assert [path.relative_to(package).as_posix() for path in asked] == ["course/catalogue.py"]
    assert not re.search(r"^(import|from) pandas", asked[0].read_text("utf-8"), re.M), (
        "inside the function that needs it"
    )


@pytest.mark.deep
def test_no_lesson_run_to_its_end_has_waited_for_pandas(tmp_path):
    lessons = Path(__file__).parents[1] / "lessons"
    done = subprocess.run(
        [sys.executable, "-c", LESSONS, str(lessons)], cwd=tmp_path, capture_output=True, text=True, timeout=120
    )
    said = done.stderr.splitlines()
    assert done.returncode == 0 and len(said) == len(list(lessons.glob("0*.ipynb"))), done.stderr[-2000:]
    assert [line for line in said if line.startswith("True") and SOLVES not in line] == []


def moved(name):
    """A bench, and what moves one slider of it by a step there and back."""
    lesson, bench = name.split(".")
    page = getattr(getattr(benches, lesson), bench)()
    slider = page.sliders[BENCHES[name]]
    at = slider.value

    def turn(steps):
        slider.value = at + steps

    for steps in (1, 2, 1):  # what moves is known after a few
        turn(steps)
    return page, turn


@pytest.mark.parametrize("name", BENCHES)
def test_a_move_asks_for_the_workbook_once(name, tmp_path, monkeypatch):
    monkeypatch.delenv("PASTRYLAB_WORKBOOK", raising=False)
    monkeypatch.chdir(tmp_path)
    _page, turn = moved(name)
    asked, locate = [], files.locate
    monkeypatch.setattr(files, "locate", lambda start: (asked.append(start), locate(start))[1])
    turn(2)
    assert len(asked) <= 1


@pytest.mark.parametrize("name", BENCHES)
def test_a_move_draws_no_axis_and_hardly_a_word(name, own_workbook, monkeypatch):
    page, turn = moved(name)
    before, axes, words = page.picture.value, [], []
    axis, word = Axis.draw, Text.draw
    monkeypatch.setattr(Axis, "draw", lambda self, renderer: (axes.append(self), axis(self, renderer))[1])
    monkeypatch.setattr(Text, "draw", lambda self, renderer: (words.append(self), word(self, renderer))[1])
    turn(2)
    assert page.picture.value != before
    assert not axes and len(words) <= 8


def test_the_first_picture_is_drawn_once(monkeypatch):
    drawn = []
    picture = Picture()
    draw = picture.canvas.draw
    monkeypatch.setattr(picture.canvas, "draw", lambda: (drawn.append(picture), draw())[1])
    picture.png()
    assert drawn == [picture]
