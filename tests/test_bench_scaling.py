"""Lesson 01's benches where they differ from every other: shelf, pieces, and cups typed by a student."""

import pytest

from pastrylab.benches import scaling


@pytest.fixture(autouse=True)
def own_folder(tmp_path, monkeypatch):
    monkeypatch.setenv("PASTRYLAB_WORKBOOK", str(tmp_path))


def test_the_sentence_names_what_runs_out_first():
    bench = scaling.shelf_bench()
    assert "The cream runs out first: the shelf makes 3.00 times the formula, 2679 g" in bench.sentence.value
    bench.boxes["couverture"].value = 500
    assert "The couverture runs out first: the shelf makes 1.00 times the formula, 893 g" in bench.sentence.value
    assert "600 g of cream and 130 g of butter stay behind" in bench.sentence.value


def test_pieces_are_counted_without_a_unit_and_a_coarse_scale_is_told():
    bench = scaling.pieces_bench()
    assert bench.boxes["pieces"].description == "Pieces"
    bench.boxes["loss"].value = 10
    bench.boxes["pieces"].value, bench.boxes["piece"].value = 60, 12
    assert "60 pieces need 800 g of ganache" in bench.sentence.value
    bench.choices["step"].value, bench.boxes["piece"].value = 5.0, 4
    assert "The salt, 0.9 g, cannot be weighed on a scale that shows steps of 5 g" in bench.sentence.value
    assert "60 pieces need 267 g" in bench.picture.value, "the picture is of this order, not of the one before"


def test_cups_are_compared_with_the_table_and_nonsense_is_answered():
    bench = scaling.cups_bench()
    bench.paste.value = "82 g\n90 g\n86 g"
    bench.read.click()
    assert "3 cups of cocoa powder: 82 g" in bench.said.value
    bench.paste.value = "<b>lots</b>\n86 g"
    bench.read.click()
    assert "Needed" in bench.said.value and "<b>" not in bench.said.value
