"""Lesson 01's benches where they differ from every other: shelf, pieces, and cups typed by a student."""

import pytest

from pastrylab.course.scaling import benches as scaling

pytestmark = pytest.mark.usefixtures("undrawn")


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


# --- a weigh-sheet is kept ------------------------------------------------------------------------------------------------


def test_a_weigh_sheet_is_kept_opened_and_drawn_beside_the_next_one():
    bench = scaling.cups_bench()
    bench.paste.value, bench.what.value = "120 g\n4.5 oz\n150 g", "all-purpose flour"
    bench.keeper.name.value = "spooned, Monday $5"
    bench.keeper.keep.click()
    bench.paste.value, bench.what.value = "82 g\n91 g", "cocoa powder"
    bench.keeper.name.value = "cocoa"
    bench.keeper.keep.click()
    again = scaling.cups_bench()
    again.keeper.kept.value = "spooned, Monday $5"
    again.keeper.fetch.click()
    # 4.5 oz are 127.57 g: mean (120 + 127.57 + 150) / 3 = 132.5 g, from 120 to 150 is 23 % of it; the table says 125 g.
    assert again.what.value == "all-purpose flour" and again.paste.value == "120 g\n4.5 oz\n150 g"
    assert "mean 133 g" in again.said.value and "23 % of the mean" in again.said.value and "<img" in again.picture.value
    assert list(again.figure._means.get_xdata()) == pytest.approx([132.524], abs=0.001), "itself is not drawn twice"
    again.paste.value = "140 g\n150 g"
    again.read.click()
    assert list(again.figure._means.get_xdata()) == pytest.approx([132.524, 145], abs=0.001)
    assert [bar.get_width() for bar in again.figure._spans if bar.get_visible()] == pytest.approx([30, 10])
    assert list(again.figure._table.get_xdata()) == pytest.approx([125, 125], abs=0.5), (
        "SR28: a cup of all-purpose flour weighs 125 g"
    )
    assert "the sheet kept before" in again.figure.alt


@pytest.mark.parametrize("text", ["", "82 g", "lots\n86 g", "82\n91", "82 g\n-3 g", "82 mL\n91 mL", "<b>82 g</b>"])
def test_what_is_no_weigh_sheet_is_neither_drawn_nor_kept(text):
    bench = scaling.cups_bench()
    bench.paste.value = "82 g\n91 g"
    bench.read.click()
    bench.paste.value = text
    bench.read.click()
    assert "Needed" in bench.said.value and bench.picture.value == bench.legend.value == ""
    bench.keeper.keep.click()
    assert (
        "Needed" in bench.keeper.said.value and not bench.keeper.kept.options and "<b>" not in bench.keeper.said.value
    )


@pytest.mark.parametrize(
    "text", ["82 g; 91 g", "82g\n91g", "3 oz\n91 g", "0.2 lb\n90 g", "82,5 g\n91 g", "82 g\n\n91 g\n"]
)
def test_weighings_are_read_as_people_write_them(text):
    bench = scaling.cups_bench()
    bench.paste.value = text
    bench.read.click()
    assert "2 cups of cocoa powder" in bench.said.value and "<img" in bench.picture.value


def test_only_the_last_sheets_are_drawn_and_one_spoiled_by_hand_is_passed_over(tmp_path):
    bench = scaling.cups_bench()
    for k in range(9):
        bench.paste.value, bench.keeper.name.value = f"{80 + k} g\n{90 + k} g", f"sheet {k}"
        bench.keeper.keep.click()
    (tmp_path / "lessons/my-kitchen/weigh-sheets/sheet 8.csv").write_text("spoiled", encoding="utf-8")
    bench.paste.value = "200 g\n210 g"
    bench.read.click()
    assert len(bench.figure._means.get_xdata()) == 6 and bench.figure._means.get_xdata()[-1] == 205


def test_a_weigh_sheet_is_drawn_again_for_a_narrow_page(monkeypatch):
    monkeypatch.setattr("pastrylab.page.picture.Picture.page_is_narrow", False)
    bench = scaling.cups_bench()
    bench.paste.value = "82 g\n91 g"
    bench.read.click()
    wide = bench.picture.value
    bench.picture.told.value = "narrow"
    assert "<img" in bench.picture.value and bench.picture.value != wide
