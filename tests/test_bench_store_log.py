"""The page that reads a store room's log: the invented ones against their truth, one's own, and what it keeps."""

import html
import re

import numpy as np
import pytest

from pastrylab.course.storage import benches
from pastrylab.ground import files
from pastrylab.ground.store_logs import store_logs
from pastrylab.logs.store import BEYOND, CANNOT_TELL, WITHIN, read_store, review_store
from pastrylab.page.log_reader import OWN

TRUTH = {"sound": WITHIN, "unsound": BEYOND, "unknowable": CANNOT_TELL}
OWN_LOG = "time, room °C, humidity %\n" + "".join(
    f"2026-03-{2 + h // 24:02d} {h % 24:02d}:00, 18.{h % 5}, {60 + h % 4}.5\n" for h in range(30)
)
ROWS = store_logs()


@pytest.fixture
def page(own_workbook, undrawn):
    return benches.store_log_bench()


def words(html):
    return " ".join(re.sub("<[^>]*>", " ", html).split())


@pytest.mark.parametrize("row", [pytest.param(row, id=row["file"]) for row in ROWS])
def test_the_invented_logs_are_what_they_were_made_to_be(row):
    log = read_store(files.data_path("store_logs") / row["file"])
    got = review_store(log, row["kind"], row["colder"] or None, row["hygrometer_error"])
    assert got.verdict == TRUTH[row["truth"].split(":")[0]], got.sentences


def test_there_are_logs_of_every_truth_and_style():
    assert len(ROWS) >= 5 and {row["truth"].split(":")[0] for row in ROWS} == set(TRUTH)
    assert all("invented" in row["source"] for row in ROWS)
    read = [read_store(files.data_path("store_logs") / row["file"]) for row in ROWS]
    assert {log.how.unit for log in read} == {"degC", "degF"}
    assert sum("surface" in log for log in read) == 1 and sum(np.isnan(log["humidity"]).all() for log in read) == 1


def test_the_verdict_waits_and_then_says_why_and_what_it_cannot_show(page):
    assert "<img" in page.picture.value and page.verdict.value == "" and "°C" in page.picture.value
    page.ask.click()
    assert "Within the limits" in page.verdict.value
    assert "smells" in words(page.details.value) and "Below that at every reading" in words(page.details.value)
    page.source.value = next(name for name in page.logs if "outer wall" in name)
    assert page.verdict.value == ""
    page.ask.click()
    assert "Beyond a limit" in page.verdict.value and "measured surface" in words(page.details.value)


def test_a_sample_is_drawn_in_both_units_and_says_so(page):
    for name in list(page.logs)[3:5]:  # no humidity; a few readings
        page.source.value = name
        page.ask.click()
        assert page.notice.value == "" and "<img" in page.picture.value, name
        metric = page.figure.alt
        page.system.value = "US"
        assert page.figure.alt != metric and "°F" in page.figure.alt, name
        page.system.value = "metric"


def test_ones_own_log_with_a_colder_shelf(page):
    page.paste.value = OWN_LOG
    page.kind.value, page.colder.value = "dark", ""
    page.read.click()
    page.ask.click()
    assert page.source.value == OWN and "Within the limits" in page.verdict.value
    page.colder.value = "9 °C"
    page.read.click()
    page.ask.click()
    assert "Beyond a limit" in page.verdict.value
    page.colder.value = "16 °F"  # steps of Fahrenheit: 8.9 °C
    page.read.click()
    assert "Beyond a limit" in page.verdict.value


@pytest.mark.parametrize("colder", ["warm", "-2 °C", "5 g", "<b>3</b>", "50 °C"])
def test_a_shelf_that_cannot_be_is_said(page, colder):
    page.colder.value = colder
    page.read.click()
    assert page.notice.value and "<b>3" not in page.notice.value and page.picture.value == ""


def test_several_temperatures_are_offered(page):
    page.paste.value = "time;T1 °C;RH1;T2 °C;RH2\n9:00;21;48;18;55\n10:00;21;48;18;56"
    page.read.click()
    assert "T2 °C" in [value for _, value in page.column.options]
    page.column.value = "T2 °C"
    assert "55" in page.picture.value or "<img" in page.picture.value
    assert "'RH2'" in words(page.details.value).replace("&#39;", "'")


def test_what_is_wrong_is_said_and_nothing_is_drawn(page):
    page.paste.value = "9:00;21;68\n10:00;21;69"
    page.read.click()
    assert "no word or mark" in page.notice.value and page.picture.value == ""


def test_a_log_is_kept_with_all_that_was_said_of_it_and_opened_again(page):
    page.paste.value = OWN_LOG
    page.kind.value, page.colder.value, page.humidity_error.value = "milk", "2 °C", "2 %"
    page.add.value = "-3 %"
    page.read.click()
    page.keeper.name.value = "my cellar"
    page.keeper.keep.click()
    other = benches.store_log_bench()
    other.keeper.kept.value = "my cellar"
    other.keeper.fetch.click()
    assert (other.kind.value, other.colder.value, other.humidity_error.value) == ("milk", "2 °C", "2 %")
    assert other.add.value == "-3 %"
    assert other.source.value == OWN and "30 readings" in other.picture.value


def test_no_humidity_is_drawn_as_none(page):
    page.paste.value = "time;room °C\n" + "".join(f"{h % 24}:00;18.{h % 7}\n" for h in range(8, 20))
    page.read.click()
    page.ask.click()
    assert "sugar bloom cannot be judged" in words(page.details.value)
    page.colder.value = ""
    page.paste.value = "time;RH %\n" + "".join(f"{h % 24}:00;58.{h % 7}\n" for h in range(8, 20))
    page.read.click()
    page.ask.click()
    assert "Cannot tell" in page.verdict.value


@pytest.mark.parametrize(
    ("text", "added"), [("4", "4 %"), ("+4", "4 %"), ("4 %", "4 %"), ("0.04", "4 %"), ("2,5", "2.5 %")]
)
def test_what_is_added_to_a_humidity_is_read_as_the_lesson_says_it(page, text, added):
    page.add.value = text
    page.ask.click()
    page.refresh()
    assert page.notice.value == ""
    page.ask.click()
    assert f"Added to each humidity: {added}" in words(page.details.value)


@pytest.mark.parametrize(
    ("box", "text", "example"),
    [
        ("add", "four", "4 %"),
        ("add", "40 %", "4 %"),
        ("add", "4 °C", "4 %"),
        ("colder", "2", "2 °C or 4 °F"),
        ("colder", "4 g", "2 °C"),
    ],
)
def test_a_box_that_is_refused_is_named_with_an_example_of_its_own(page, box, text, example):
    place = getattr(page, box)
    place.value = text
    page.read.click()
    said = html.unescape(words(page.notice.value))
    assert f"'{place.description}'" in said and example in said
