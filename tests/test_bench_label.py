"""The bench of the label: what is chosen and typed is on the draft, and nothing typed breaks or is run."""

import html

import ipywidgets as widgets
import pytest

from pastrylab.course.labday.label_bench import LabelBench
from pastrylab.page.bench import _OUR_FAULT
from pastrylab.page.label_sheet import label_html
from pastrylab.trade.statement import Label

pytestmark = pytest.mark.usefixtures("own_workbook", "undrawn")


def press(bench):
    """As a press does, once all that is typed is in."""
    bench.act()


def test_it_opens_with_a_label_to_read():
    bench = LabelBench()
    assert "Contains:</b> milk, soybeans" in bench.shown.value
    assert "5.7 oz (162 g)" in bench.shown.value  # 12 pieces of 1300 / 96 g
    assert bench.shown.value.count("________________") == 5


def test_each_choice_is_on_the_draft():
    bench = LabelBench()
    bench.law.value = "EU"
    assert "SOYA" in bench.shown.value and "Contains" not in bench.shown.value
    bench.beside.value = "all other flavours"
    assert "Made in a room with:</b> nuts (hazelnuts)" in bench.shown.value
    bench.flavour.value = "hazelnut praline"
    assert "HAZELNUT" in bench.shown.value and "Made in a room with" not in bench.shown.value


def test_the_weight_on_the_scale_goes_before_the_formula():
    bench = LabelBench()
    bench.weighed.value = "158.9 g"
    press(bench)
    assert "5.6 oz (158 g)" in bench.shown.value  # 5.605
    assert "is it the lightest" in bench.shown.value
    bench.weighed.value = "240 g"
    press(bench)
    assert "take the wrapping off" in bench.shown.value


@pytest.mark.parametrize(
    "pieces", ["", "none", "0", "-3", "2.5", "9**9**8", "<script>alert(1)</script>", "x" * 300, "12 g"]
)
def test_a_count_that_is_none_is_asked_about_and_no_old_label_stays(pieces):
    bench = LabelBench()
    bench.pieces.value = pieces
    press(bench)
    said = html.unescape(bench.said.value)
    assert bench.draft is None and bench.shown.value == ""
    assert said and _OUR_FAULT not in said and "<script" not in bench.said.value


@pytest.mark.parametrize("weighed", ["150", "-3 g", "0 g", "150 mL", "heavy", "<b>9</b> g", "9**9**8 g"])
def test_a_weight_that_is_none_is_asked_about(weighed):
    bench = LabelBench()
    bench.weighed.value = weighed
    press(bench)
    assert bench.draft is None and _OUR_FAULT not in html.unescape(bench.said.value)
    bench.weighed.value = "5 1/2 oz"
    press(bench)
    assert "5.5 oz (155 g)" in bench.shown.value  # 155.92 g


def test_five_boxes_with_a_label_each():
    bench = LabelBench()
    boxes = (bench.flavour, bench.law, bench.pieces, bench.weighed, bench.beside)
    assert all(isinstance(one, widgets.DOMWidget) and one.description for one in boxes)


def test_words_of_a_table_are_escaped():
    odd = Label("x", "US", (("Name", "<b>dark</b> & sweet"), ("Batch", "")), ("<i>ask</i>",), ())
    assert "&lt;b&gt;dark&lt;/b&gt; &amp; sweet" in label_html(odd) and "<i>" not in label_html(odd)
