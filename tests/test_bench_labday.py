"""Lesson 09's benches: the Larkmoor order planned, nuts in one machine, one's own day typed, kept and planned again.

Minutes and moulds are worked by hand from moulded.csv and the pace of common practice, as the comments show.
"""

import base64
import re

import pytest

from pastrylab.course.labday import benches
from pastrylab.course.labday.late import read_begun
from pastrylab.course.labday.nuts import ORDERS, OneMachine, cleaning_of, traces_of
from pastrylab.course.labday.planned import lab, planned
from pastrylab.ground.units import StudentError
from pastrylab.page.lab_day.timeline import Timeline, rows_of, short_of
from pastrylab.page.picture import Picture
from pastrylab.school import answers

pytestmark = pytest.mark.usefixtures("undrawn")


def read_aloud(html):
    return " ".join(re.sub(r"<[^>]+>", " ", html).split())


@pytest.fixture
def order(own_workbook):
    return benches.order_bench()


@pytest.fixture(scope="module")
def day():
    return planned({"dark ganache": 96, "raspberry ganache": 60, "hazelnut praline": 84}, 0.1, lab(), "latest start")


# --- the Larkmoor order -----------------------------------------------------------------------------------------------


def test_what_the_order_takes_is_said_before_it_is_planned(order):
    # 96 / 0.9 / 24 = 4.4; 60 / 0.9 / 28 = 2.4; 84 / 0.9 / 28 = 3.3: rounded up 5, 3 and 4.
    said = read_aloud(order.takes.value)
    assert (
        "dark ganache: 5 of square" in said and "raspberry ganache: 3 of" in said and "hazelnut praline: 4 of" in said
    )
    assert "press Plan it" in order.shown.said.value and not order.shown.picture.value


def test_the_latest_start_is_the_one_walked_back_by_hand(order):
    # From 12:30: 15 min of filling, 45 of rest, 35 to make the raspberry ganache: 10:55.
    order.press.click()
    said = read_aloud(order.shown.said.value)
    assert "from 10:55 to 12:30" in said and "Proved best" in said
    assert 'alt="Day 1: from 10:55' in order.shown.picture.value
    assert "No minute to spare" in order.shown.tight.value


def test_a_move_takes_the_plan_of_other_numbers_away(order):
    order.press.click()
    order.numbers["dark"].box.value = "48"
    assert not order.shown.picture.value and not order.guessed.value
    order.numbers["dark"].box.value = "48.5"
    assert "whole number" in order.takes.value


def test_too_few_moulds_are_named_with_the_smallest_change(order):
    order.numbers["dark"].box.value = "200"  # 200 / 0.9 / 24 = 9.3: ten of eight moulds
    order.press.click()
    assert "2 more of square, 24" in order.shown.said.value and not order.shown.picture.value


def test_nothing_ordered_is_a_sentence(order):
    for name in ("dark", "raspberry", "hazelnut"):
        order.numbers[name].box.value = "0"
    order.press.click()
    assert "empty order" in order.shown.said.value


@pytest.mark.parametrize(
    ("guess", "word"), [("5 h", "5 times your guess"), ("1535 min", "that is 25.6 h"), ("25.58 h", "right")]
)
def test_a_guess_meets_its_result(order, guess, word):
    # 24 h and 95 min before the door: 25.58 h.
    answers.keep("09", "09.guess.begin", guess, "")
    order.press.click()
    said = read_aloud(order.guessed.value)
    assert "25.6 h" in said and word in said and "25 h 35 min before the boxes" in said


def test_without_a_guess_and_for_another_order_nothing_is_compared(order):
    order.press.click()
    assert not order.guessed.value
    answers.keep("09", "09.guess.begin", "5 h", "")
    order.guess_kept("09.guess.begin")
    assert order.guessed.value
    order.aim.value = "shortest day"
    order.press.click()
    assert not order.guessed.value


# --- the timeline -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("narrow", [False, True])
def test_rows_with_wider_names_are_not_cut(day, monkeypatch, undrawn, narrow):
    monkeypatch.setattr(Picture, "page_is_narrow", narrow)
    picture = Timeline()
    for by in ("pairs", "machines", "pairs"):
        picture.update(plan=day.plan, day=2, by=by)
        undrawn(picture)
        width = picture.canvas.get_width_height()[0]
        labels = [label for label in picture.axes.get_yticklabels() if label.get_text()]
        assert labels and all(
            label.get_window_extent().x0 >= 0 and label.get_window_extent().x1 <= width for label in labels
        )


def test_batches_of_one_flavour_are_told_apart(day):
    words = {short_of(bar[2]) for row in rows_of(day.plan, "machines").values() for bar in row}
    assert {"cast 1", "cast 2", "cap 1", "cap 2"} <= words


# --- nuts -------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("order", "minutes"),
    [
        ("hazelnut praline, then dark ganache, then raspberry ganache", [50, 0]),
        ("dark ganache, then hazelnut praline, then raspberry ganache", [20, 50]),
        ("dark ganache, then raspberry ganache, then hazelnut praline", [0, 20]),
    ],
)
def test_cleaning_by_hand(order, minutes):
    assert cleaning_of(order.split(", then "), 20, 50, washed=True) == minutes


def test_nuts_get_into_all_that_comes_after_where_it_is_only_wiped():
    for order in ORDERS:
        names = order.split(", then ")
        assert traces_of(names, washed=False) == names[names.index("hazelnut praline") + 1 :]
        assert traces_of(names, washed=True) == []


def test_the_morning_that_went_wrong_says_whose_label_is_wrong():
    values = {"each": 40, "kind": 25, "allergen": 50}
    said = OneMachine().update(**values, order=ORDERS[0], between_two="wipe only")
    # 8:00 and three times 40 with 25 of wiping: 145 minutes, 10:25.
    assert "25 min of cleaning, over at 10:25" in said and "dark ganache and raspberry ganache" in said
    last = OneMachine().update(**values, order=ORDERS[3], between_two="wipe only")
    assert "25 min of cleaning, over at 10:25" in last and "none get from this machine" in last
    assert "safe" not in (said + last).casefold()


# --- one's own day ----------------------------------------------------------------------------------------------------


@pytest.fixture
def own(own_workbook):
    return benches.own_bench()


def test_an_order_becomes_moulds_shopping_a_plan_and_files(own):
    own.press.click()
    # 60 / 0.9 / 24 = 2.8; 48 / 0.9 / 28 = 1.9; 70 / 0.9 / 28 = 2.8
    said = read_aloud(own.said.value)
    assert (
        "60 good pieces are 3 fills" in said
        and "48 good pieces are 2 fills" in said
        and "tree nuts (hazelnuts)" in said
    )
    assert "Proved best" in own.shown.said.value
    files = dict(re.findall(r'download="([^"]+)" href="data:[^;]+;base64,([^"]+)"', own.papers.value))
    assert list(files) == ["requisition.csv", "requisition.html", "plan.csv", "day.html"]
    page = base64.b64decode(files["day.html"]).decode()
    assert "Bench sheet: pair 1" in page and "<!doctype html>" in page and "&lt;div" not in page


def test_an_order_without_its_night_is_refused_in_words_and_fits_with_one(own_workbook):
    bench = benches.no_night_bench()
    bench.press.click()
    assert "12 h of rest" in bench.said.value and "11 h 30 min" in bench.said.value and not bench.papers.value
    bench.boxes["hours"].value = "Thu 13:00-16:00; Fri 8:00-18:30"
    bench.press.click()
    assert bench.shown.picture.value
    bench.boxes["hours"].value, bench.order.value = "7:00-18:30", "84 hazelnut praline"
    bench.press.click()
    assert bench.shown.picture.value


@pytest.mark.parametrize(
    ("box", "text", "word"),
    [
        ("order", "", "empty order"),
        ("order", "60 pistachio", "line 1"),
        ("order", "<script>alert(1)</script>", "line 1"),
        ("pairs", "0", "Pairs at work"),
        ("pairs", "2.5", "whole number"),
        ("pairs", "2 kg", "has a unit"),
        ("machines", "many", "Tempering machines"),
        ("rejects", "100 %", "Rejects"),
        ("hours", "12-8", "closes before it opens"),
        ("square, 24", "-1", "Moulds, square, 24"),
        ("square, 24", "0", "square, 24"),
    ],
)
def test_what_cannot_be_planned_is_a_sentence_and_nothing_else_stays(undrawn, own, box, text, word):
    own.press.click()
    own._box(box).value = text
    own.press.click()
    said = read_aloud(own.said.value + own.shown.said.value)
    assert word in said and "<script" not in own.said.value
    assert not own.shown.picture.value and own.late.layout.display == "none"


def test_an_order_is_kept_and_opened_again(own):
    own.order.value, own.boxes["hours"].value = "48 dark ganache", "Mon 8-12; Tue 8-12"
    own.aim.value = "shortest day"
    own.keeper.name.value = "friday"
    own.keeper.keep.click()
    other = benches.own_bench()
    other.keeper.kept.value = "friday"
    other.keeper.fetch.click()
    assert (other.order.value, other.aim.value) == ("48 dark ganache", "shortest day")
    assert "48 good pieces" in other.said.value


def test_the_order_the_page_opens_with_is_not_kept(own):
    own.keeper.keep.click()
    assert "an order or a lab of your own" in own.keeper.said.value


# --- late -------------------------------------------------------------------------------------------------------------


def test_late_what_has_begun_stays_and_the_rest_is_planned(own):
    own.press.click()
    late = own.late
    assert late.layout.display == "flex"
    late.now.value = "day 2, 8:00"
    late.fill.click()
    assert "cast: dark ganache" in late.begun.value and "cap" not in late.begun.value
    late.press.click()
    assert "no rest is cut" in late.said.value and late.shown.picture.value
    # At 12:00 a cap that has not begun wants 10 minutes and half an hour's rest: it is not turned out by 12:30.
    late.now.value = "day 2, 12:00"
    late.press.click()
    assert "It does not fit" in late.shown.said.value and "later" in late.shown.said.value


@pytest.mark.parametrize(
    "line", ["9:00", "cast: dark ganache", "9:00 caste: dark ganache", "day x, 9:00 cast: raspberry ganache"]
)
def test_a_line_that_is_no_step_is_named(day, line):
    with pytest.raises(StudentError, match="line 1"):
        read_begun(line, day.plan)


def test_a_step_twice_is_refused_and_its_name_is_read_in_any_letters(day):
    assert read_begun("\n Day 1, 11:30  CAST: raspberry ganache\n", day.plan) == {"cast: raspberry ganache": 690}
    with pytest.raises(StudentError, match="twice"):
        read_begun("9:00 cast: raspberry ganache\n9:30 cast: raspberry ganache", day.plan)


# --- the label --------------------------------------------------------------------------------------------------------


def test_a_label_names_what_was_made_beside_it(own_workbook):
    bench = benches.label_bench()
    assert "Contains" in read_aloud(bench.shown.value)
    bench.beside.value = "all other flavours"
    assert "hazelnuts" in read_aloud(bench.shown.value)
