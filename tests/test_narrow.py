"""Every picture of every bench in a narrow column: letters that can be read, and none beyond the edge."""

import inspect

import pytest
from matplotlib.artist import Artist
from matplotlib.layout_engine import ConstrainedLayoutEngine

from pastrylab import benches
from pastrylab.course import catalogue
from pastrylab.course.keeping.figures import ModelAgainstMeasured
from pastrylab.ground.units import Q
from pastrylab.page import narrow
from pastrylab.page.bench import Bench
from pastrylab.page.guess_bars import GuessBars
from pastrylab.page.picture import Picture

COLUMN = 315  # pixels that JupyterLab leaves of a telephone's 390, tests/browser/test_fits.py
LEAST = 11  # pixels of a letter


def _benches():
    for folder in catalogue.FOLDERS.values():
        lesson = getattr(benches, folder)
        for name, make in inspect.getmembers(lesson, inspect.isfunction):
            if (
                name.endswith("_bench")
                and make.__module__ == lesson.__name__
                and not inspect.signature(make).parameters
            ):
                yield pytest.param(make, id=f"{folder}.{name}")


@pytest.fixture
def narrow_page(monkeypatch):
    monkeypatch.setattr(Picture, "page_is_narrow", True)


def _written(figure):
    """Every text that shows: of an axis, the ticks within its ends."""
    for axes in [one for part in figure.axes for one in (part, *part.child_axes)]:
        yield from (axes._left_title, axes.title, *axes.texts)
        for axis, ends in ((axes.xaxis, sorted(axes.get_xlim())), (axes.yaxis, sorted(axes.get_ylim()))):
            yield axis.label
            for place, label in zip(axis.get_majorticklocs(), axis.get_ticklabels(), strict=False):
                if ends[0] <= place <= ends[1]:
                    yield label
    for legend in [*figure.legends, *(axes.get_legend() for axes in figure.axes)]:
        if legend and legend.get_visible():
            yield from legend.get_texts()


def read_on_a_telephone(picture):
    """Every text of a drawn figure: pixels of its letters in the column, and whether all of it lies in the figure."""
    picture.settle()  # all that `png` does but for the pixels
    narrow.wrap(picture._room_of_words)
    picture.figure.draw_without_rendering()
    width, height = picture.canvas.get_width_height()
    for text in _written(picture.figure):
        if text.get_text().strip() and text.get_visible():
            box = text.get_window_extent()
            inside = box.x0 >= -2 and box.y0 >= -2 and box.x1 <= width + 2 and box.y1 <= height + 2
            yield text.get_text(), text.get_size() / 72 * picture.figure.dpi * COLUMN / width, inside


@pytest.mark.parametrize("make", list(_benches()))
def test_a_picture_is_made_for_a_narrow_page(own_workbook, narrow_page, undrawn, make):
    bench = make()
    picture = getattr(bench, "figure", None)
    if picture is None:
        pytest.skip("a bench without a figure of its own")
    for system in ("metric", "US"):
        bench.system.value = system
        found = list(read_on_a_telephone(picture))
        assert len(found) > 5
        assert [text for text, pixels, _ in found if pixels < LEAST] == []
        assert [text for text, _, inside in found if not inside] == []


@pytest.mark.parametrize(
    "name", ["heavy cream 36 %", "dark couverture 64 %", "wholesome mm nuts", "mascarpone cheese, drained well"]
)
def test_the_bars_of_a_cost_card_have_room_for_the_longest_name(own_workbook, narrow_page, undrawn, name):
    card = benches.costing.card_bench()
    card.receipt.value = f"{name}; 1 kg; 9.00; 300 g\nsugar; 1 kg; 2; 100 g"
    card.source.value = card.source.options[-1]
    found = list(read_on_a_telephone(card.parts))
    assert any(text.startswith(name[:8]) for text, _, _ in found)
    assert [text for text, _, inside in found if not inside] == []


def test_the_two_pictures_of_the_model_stand_one_above_the_other(narrow_page):
    picture = ModelAgainstMeasured()
    picture.update()
    found = list(read_on_a_telephone(picture))
    assert all(pixels >= LEAST and inside for _, pixels, inside in found)
    above, below = (axes.get_window_extent() for axes in picture.figure.axes)
    assert above.y0 > below.y1 and above.width > 1.5 * above.height


def test_the_bars_of_a_guess_fit_however_wild_it_is(narrow_page):
    for guess in ("0 g", "200 g", "9000 kg"):
        picture = GuessBars()
        picture.update(guess=Q(guess), amount=Q("0.5 lb"), unit="g")
        assert all(pixels >= LEAST and inside for _, pixels, inside in read_on_a_telephone(picture)), guess


def test_what_the_page_tells_makes_the_picture_anew_once_and_back(own_workbook, monkeypatch):
    monkeypatch.setattr(Picture, "page_is_narrow", False)
    bench = benches.tempering.seed_bench()
    wide, drawn = bench.picture.value, []
    monkeypatch.setattr(bench.figure, "update", lambda update=bench.figure.update, **v: drawn.append(v) or update(**v))
    bench.numbers["batch"].put(3)
    bench.picture.told.value = "narrow"
    assert bench.figure.canvas.get_width_height()[0] == 648 and len(drawn) == 2 and drawn[1]["batch"] == 3
    assert bench.picture.value != wide and bench.figure.alt.startswith("Needs 867 g")
    assert benches.tempering.crystal_bench().figure.narrow, "the next bench is made for this page from the start"
    bench.picture.told.value = "nonsense <b>"
    assert len(drawn) == 2
    bench.numbers["batch"].put(2)
    bench.picture.told.value = "wide"
    assert bench.picture.value == wide
    assert isinstance(bench, Bench) and not bench.figure.narrow


def test_a_long_label_is_broken_again_when_it_changes(own_workbook, narrow_page):
    bench = benches.emulsion.warm_bench()
    for system, degree in (("metric", "°C"), ("US", "°F"), ("metric", "°C")):
        bench.system.value = system
        lines = bench.figure.axes.get_xlabel().split("\n")
        assert len(lines) == 2 and lines[-1].endswith(degree) and max(map(len, lines)) <= 36


def _figures(of=Picture):
    for one in of.__subclasses__():
        yield one
        yield from _figures(one)


def test_a_figure_keeps_its_own_artists_on_a_narrow_page(narrow_page, monkeypatch):
    """What a figure calls its own is not taken for what is worked out once for the column: each is drawn again after that."""
    monkeypatch.setattr(ConstrainedLayoutEngine, "execute", lambda *_: None)  # it moves artists, and makes none
    for folder in catalogue.FOLDERS.values():
        assert getattr(benches, folder)
    tried = 0
    for figure in _figures():
        if figure.__module__.startswith("pastrylab.") and not inspect.signature(figure).parameters.keys() - {
            "width",
            "height",
        }:
            made = figure()
            before = dict(vars(made))
            made.settle()
            lost = [name for name, was in before.items() if isinstance(was, Artist) and vars(made)[name] is not was]
            assert lost == [], (figure, lost)
            tried += 1
    assert tried > 15


def test_the_timeline_of_a_lab_day(own_workbook, narrow_page, undrawn):
    bench = benches.labday.order_bench()
    bench.press.click()
    for by in ("by pair", "by machine"):
        bench.shown.by.value = by
        found = list(read_on_a_telephone(bench.shown.picture.figure))
        assert [text for text, _, inside in found if not inside] == []
        assert [text for text, pixels, _ in found if pixels < LEAST] == []
