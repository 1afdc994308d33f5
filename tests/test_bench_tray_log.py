"""The bench that measures one's own cold tray: paste a log, say the room, and put what comes of it onto the other bench."""

import html
import re

import pytest

from pastrylab.course.storage import benches, tray_log

pytestmark = pytest.mark.usefixtures("undrawn")

# 16 degrees below a room of 21, halved every 20 minutes: 5, then 21 - 16 x 0.7071 = 9.7, 13, 15.3, 17, 18.2
WRAPPED = "min, degC\n0, 5.0\n10, 9.7\n20, 13.0\n30, 15.3\n40, 17.0\n50, 18.2\n"


@pytest.fixture
def bench(own_workbook, monkeypatch):
    monkeypatch.setattr(tray_log, "_WAITING", type(tray_log._WAITING)())
    return benches.tray_log_bench()


def plain(text):
    return html.unescape(re.sub("<[^>]*>", " ", text)).strip()


def read(bench, text, room="21 °C"):
    bench.paste.value, bench.room.value = text, room
    bench.read.click()
    return plain(bench.verdict.value)


def test_it_opens_with_a_tray_that_is_told_and_one_that_is_not(bench):
    assert "half the way to its room" in plain(bench.verdict.value) and bench.use.layout.display == ""
    assert "<img" in bench.picture.value and bench.notice.value == ""
    bench.source.value = list(bench.logs)[1]
    assert "Cannot tell: it does not rise" in bench.verdict.value and "wrapped, in one place" in bench.details.value
    assert bench.use.layout.display == "none"


def test_one_s_own_log_is_told(bench):
    assert "20 minutes: 18 to 22" in read(bench, WRAPPED)


@pytest.mark.parametrize(
    "text",
    [
        "0 5\n10 9.7\n20 13\n30 15.3\n40 17\n50 18.2\n",
        "minutes;tray\n0;5,0\n10;9,7\n20;13,0\n30;15,3\n40;17,0\n50;18,2\n",
        "time, degF\n9:00, 41\n9:10, 49.5\n9:20, 55.4\n9:30, 59.5\n9:40, 62.6\n9:50, 64.8\n",
        "time, tray\n9:00, 41 F\n9:10, 49.5 F\n9:20, 55.4 F\n9:30, 59.5 F\n9:40, 62.6 F\n9:50, 64.8 F\n",
    ],
)
def test_a_log_as_people_write_it(bench, text):
    assert "20 minutes" in read(bench, text, "69.8 °F"), plain(bench.notice.value)


@pytest.mark.parametrize(
    ("text", "room", "said"),
    [
        (WRAPPED, "", "beside the tray"),
        (WRAPPED, "21 g", "21 g"),
        (WRAPPED, "15 °C", "warmer than the log ever is"),
        ("min, degC\n0, 18\n10, 14\n20, 11\n30, 9\n40, 8\n", "21 °C", "rise"),
        ("min, degC\n0, 5\n10, 9.7\n", "21 °C", "2 readings"),
        ("<b>tray</b>", "21 °C", "Needed"),
    ],
)
def test_what_is_none_is_refused_in_words(bench, text, room, said):
    read(bench, text, room)
    assert said in plain(bench.notice.value) and "broke on our side" not in bench.notice.value
    assert "<b>tray" not in bench.notice.value and bench.use.layout.display == "none"


def test_the_long_end_goes_onto_the_bench_of_the_tray(bench):
    read(bench, WRAPPED)
    bench.use.click()
    assert "has not been run" in plain(bench.used.value)
    tray = benches.tray_bench()
    bench.use.click()
    assert tray.values["halving"] == pytest.approx(bench.found.high.m_as("min")) and tray.values["halving"] > 20
    assert tray.values["air"] == 21 and "rather than too early" in bench.used.value


def test_without_a_time_there_is_nothing_to_put_there(bench):
    read(bench, WRAPPED, "")
    bench.use.click()
    assert "no halving time" in plain(bench.used.value)


def test_a_time_the_bench_cannot_take_is_said(bench):
    tray = benches.tray_bench()
    before = tray.values["halving"]
    # 16 degrees below 21, halved every 200 minutes
    text = "min, degC\n" + "".join(f"{m}, {21 - 16 * 0.5 ** (m / 200):.2f}\n" for m in range(0, 301, 20))
    assert "200 minutes" in read(bench, text)
    bench.use.click()
    assert "180" in plain(bench.used.value) and tray.values["halving"] == before
