"""Drawings: sound SVG of their own, words that can be read, and an alt text that says what is to be seen."""

import html
import json
import re
import runpy
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

from pastrylab.course.tempering.smears import SmearCard
from pastrylab.page.drawings import DEFECTS, SMEARS, Drawing, file_name
from pastrylab.page.parts import drawings_html

LESSONS = Path(__file__).resolve().parent.parent / "lessons"
FOUR = [draw() for draw in SMEARS]
ALL = [*FOUR, *DEFECTS.values()]
SVG = "{http://www.w3.org/2000/svg}"


@pytest.mark.parametrize("drawing", ALL, ids=lambda one: one.name)
def test_a_drawing_is_whole_and_says_what_is_to_be_seen(drawing):
    root = ET.fromstring(drawing.svg)
    width, height = map(float, root.get("viewBox").split()[2:])
    assert (width, height) == (float(root.get("width")), float(root.get("height")))
    assert "http" not in drawing.svg.replace(SVG[1:-1], "") and "<script" not in drawing.svg
    texts = list(root.iter(f"{SVG}text"))
    shown = 280 if drawing in FOUR else 165  # the narrowest it is shown, in pixels
    assert texts and all(text.text and float(text.get("font-size")) * shown / width >= 11 for text in texts)
    assert 40 < len(drawing.alt) < 250 and drawing.alt.endswith(".")


def test_no_two_drawings_differ_by_colour_alone():
    shapes = [re.sub(r"#[0-9a-f]{6}", "", drawing.svg) for drawing in ALL]
    assert len(set(shapes)) == len(ALL) > 20


# Common practice, no source: set by 5 minutes is in temper, wet after 10 is not; a clean finger where it is set.
@pytest.mark.parametrize(
    ("name", "minutes", "finger"),
    [
        ("in temper", (2, 5), "clean"),
        ("over-seeded", (0, 2), "clean"),
        ("under-seeded", (5, 10), "stains"),
        ("temper lost", (10, 60), "brown"),
    ],
)
def test_a_smear_shows_the_minutes_its_words_say(name, minutes, finger):
    drawing = next(one for one in FOUR if one.name == name)
    (drawn,) = re.findall(r">(\d+) min<", drawing.svg)
    (said,) = re.findall(r"After (\d+) minutes?:", drawing.alt)
    assert drawn == said and minutes[0] <= int(said) <= minutes[1] and finger in drawing.alt


def test_the_words_come_after_the_picture_and_cast_only_from_the_one_in_temper():
    card = SmearCard()
    shown = card.children[0].value
    assert card.said.value == "" and shown.count("<img alt=") == 4
    assert not re.search("in temper|seeded|temper lost", shown.replace("alt=", ""))
    verdicts = {}
    for letter in ("A", "B", "C", "D", ""):
        card.choice.value = letter
        verdicts[letter] = card.said.value
    assert len(set(verdicts.values())) == 5
    assert [letter for letter, said in verdicts.items() if "Cast now" in said] == ["A"]
    assert "cannot tell" in verdicts[""] and "cast nothing" in verdicts[""]
    assert "Seed it again" in verdicts["D"] and "Warm it half a" in verdicts["B"]


def test_what_a_drawing_says_is_escaped():
    assert '"' not in drawings_html([Drawing("x", "<svg/>", '"><b>')]).split("alt=")[1].split(" src")[0][1:-1]


def _shown():
    """(page, alt, file) of every picture in a lesson's text."""
    for path in sorted(LESSONS.glob("*.ipynb")):
        for cell in json.loads(path.read_text("utf-8"))["cells"]:
            if cell["cell_type"] == "markdown":
                for alt, source in re.findall(r'<img alt="([^"]*)" src="([^"]*)"', "".join(cell["source"])):
                    yield path.stem, html.unescape(alt), source


def test_the_lessons_show_the_drawings_as_they_are_drawn_today():
    """After a change: python -m pastrylab.page.drawings lessons/pictures"""
    files = {file_name(drawing): drawing for drawing in DEFECTS.values()}
    assert {path.name for path in (LESSONS / "pictures").iterdir()} == set(files)
    for name, drawing in files.items():
        assert (LESSONS / "pictures" / name).read_text("utf-8") == drawing.svg, name
    shown = list(_shown())
    for page, alt, source in shown:
        assert alt == files[source.removeprefix("pictures/")].alt, (page, source)
    assert {source for _, _, source in shown} == {f"pictures/{name}" for name in files}, "a drawing no lesson shows"
    assert {page[:2] for page, _, _ in shown} >= {"02", "03", "04", "05"}


def test_the_program_writes_the_files(tmp_path, monkeypatch):
    monkeypatch.setattr("sys.argv", ["drawings", str(tmp_path)])
    runpy.run_module("pastrylab.page.drawings", run_name="__main__")
    assert len(list(tmp_path.iterdir())) == len(DEFECTS)
