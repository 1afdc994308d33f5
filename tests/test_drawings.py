"""Drawings: sound SVG of their own, words that can be read, and an alt text that says what is to be seen."""

import re
import xml.etree.ElementTree as ET

import pytest

from pastrylab.course.tempering.smears import SmearCard
from pastrylab.page.drawings import SMEARS
from pastrylab.page.parts import drawings_html

ALL = [draw() for draw in SMEARS]
SVG = "{http://www.w3.org/2000/svg}"


@pytest.mark.parametrize("drawing", ALL, ids=lambda one: one.name)
def test_a_drawing_is_whole_and_says_what_is_to_be_seen(drawing):
    root = ET.fromstring(drawing.svg)
    width, height = map(float, root.get("viewBox").split()[2:])
    assert (width, height) == (float(root.get("width")), float(root.get("height")))
    assert "http" not in drawing.svg.replace(SVG[1:-1], "") and "<script" not in drawing.svg
    texts = list(root.iter(f"{SVG}text"))
    assert drawing.name in [text.text for text in texts]
    for text in texts:  # at 280 px, the narrowest it is shown, letters are 11 px or more
        assert float(text.get("font-size")) * min(1, 280 / width) >= 11
    assert 40 < len(drawing.alt) < 250 and drawing.alt.endswith(".")


def test_no_two_smears_differ_by_colour_alone():
    shapes = [re.sub(r"#[0-9a-f]{6}", "", drawing.svg) for drawing in ALL]
    assert len(set(shapes)) == len(ALL) == 4


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
    drawing = next(one for one in ALL if one.name == name)
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
    from pastrylab.page.drawings import Drawing

    assert '"' not in drawings_html([Drawing("x", "<svg/>", '"><b>')]).split("alt=")[1].split(" src")[0][1:-1]
