"""Speed of an open page, by what is done and not by the clock: what a lesson imports, asks the disk and draws."""

import subprocess
import sys

import pytest
from matplotlib.axis import Axis
from matplotlib.text import Text

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
        ("from pastrylab import benches; benches.tempering.seed_bench()", ("matplotlib.pyplot",)),
    ],
)
def test_nobody_waits_for_what_is_not_used(asked, unwanted):
    code = f"import sys; {asked}; print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=120)
    assert not set(unwanted) & set(done.stdout.split())


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
