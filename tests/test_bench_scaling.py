"""Lesson 01's benches where they differ from every other: shelf, pieces, and cups typed by a student."""

import pytest

from pastrylab.course.scaling import benches as scaling


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


def bars(bench):
    return [bar.get_width() for bar in bench.figure._need]


def test_the_bars_of_an_order_move_with_it():
    """Twice the pieces, twice the bars, on the same axis."""
    bench = scaling.pieces_bench()
    bench.choices["step"].value = 0.1
    bench.boxes["pieces"].value = 60
    before, axis = bars(bench), bench.figure.axes.get_xlim()
    bench.boxes["pieces"].value = 120
    assert bench.figure.axes.get_xlim() == axis
    assert bars(bench)[0] == pytest.approx(2 * before[0], rel=0.01)
    for pieces, piece in ((12, 4), (240, 20)):
        bench.boxes["pieces"].value, bench.boxes["piece"].value = pieces, piece
        assert 0.02 < bars(bench)[0] / bench.figure.axes.get_xlim()[1] < 0.65


def test_a_scale_shows_whole_steps_and_nothing_for_what_is_too_small():
    bench = scaling.pieces_bench()
    bench.choices["step"].value, bench.boxes["loss"].value = 5.0, 10
    bench.boxes["pieces"].value, bench.boxes["piece"].value = 60, 4
    said = [words.get_text() for words in bench.figure._words]
    assert said[:4] == ["150 g, 56 %", "90 g, 33.6 %", "15 g, 5.6 %", "10 g, 4.5 %"]
    assert said[4] == "too little for this scale, 0.34 %"
    bench.boxes["pieces"].value = 12
    assert "The honey, 2.4 g, and salt, 0.18 g, cannot be weighed" in bench.sentence.value


def test_us_masses_on_the_benches_are_pounds_and_ounces():
    bench = scaling.shelf_bench()
    bench.system.value = "US"
    assert "5 lb 14.5 oz" in bench.sentence.value  # 2679 g = 94.5 oz
    assert "94.5 oz" not in bench.sentence.value
