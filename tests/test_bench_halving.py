"""The bench that measures one's own bowl: paste or open a log, say the room, and put what comes of it onto the other bench."""

import html
import re

import pytest

from pastrylab.course.tempering import benches, halving
from pastrylab.page.log_reader import OWN

pytestmark = pytest.mark.usefixtures("undrawn")

# 26 degrees above a room of 20, halved every 30 minutes: 46, 20 + 26 x 0.8909 = 43.2 after 5, 40.6 after 10 ...
ALONE = "min, degC\n0, 46.0\n5, 43.2\n10, 40.6\n15, 38.4\n20, 36.4\n25, 34.6\n30, 33.0\n35, 31.6\n40, 30.3\n"
SEEDED = "time, degC\n9:00, 46.0\n9:05, 43.2\n9:10, 40.6\n9:15, 38.4\n9:20, 36.4\n9:25, 34.6\n9:30, 30.0\n9:35, 28.9\n"


@pytest.fixture
def bench(own_workbook, monkeypatch):
    monkeypatch.setattr(halving, "_HOLDING", type(halving._HOLDING)())
    return benches.halving_bench()


def read(bench, text, room="20 °C"):
    bench.paste.value, bench.room.value = text, room
    bench.read.click()
    return plain(bench.verdict.value)


def plain(text):
    return html.unescape(re.sub("<[^>]*>", " ", text)).strip()


def shown(bench):
    return [
        float(x)
        for x in re.search(r"in ([\d.]+) minutes: ([\d.]+) to ([\d.]+) with", plain(bench.verdict.value)).groups()
    ]


def test_it_opens_with_a_bowl_that_is_told_and_one_that_is_not(bench):
    assert "half the way to its room" in plain(bench.verdict.value) and bench.use.layout.display == ""
    assert "<img" in bench.picture.value and bench.notice.value == ""
    bench.source.value = list(bench.logs)[1]
    assert "Cannot tell" in bench.verdict.value and "What would decide" in bench.details.value
    assert bench.use.layout.display == "none"


def test_one_s_own_log_is_told_at_once_and_the_errors_widen_it(bench):
    assert "30 minutes" in read(bench, ALONE) and bench.ask.layout.display == "none"
    half, low, high = shown(bench)
    assert half == 30 and low < 30 < high
    bench.read_with.value = "other"
    _, lower, higher = shown(bench)
    assert lower <= low and higher >= high and higher - lower > high - low, "two thermometers are off twice"
    bench.good_to.value, bench.read_with.value = "1", "same"
    assert shown(bench)[1:] == [lower, higher]


@pytest.mark.parametrize("room", ["20 °C", "68 F", "68 °F", "20", "20C", " 20 ° C "])
def test_the_room_is_read_as_people_write_it(bench, room):
    text = read(bench, ALONE, room)
    assert "30 minutes" in text or (room == "20" and "unit" in plain(bench.notice.value))


@pytest.mark.parametrize(
    ("room", "said"),
    [
        ("", "no temperature of the room"),
        ("20 g", "20 g"),
        ("warm", "warm"),
        ("<b>20</b>", "Needed"),
        ("45 °C", "in a room of 45"),
        ("-400 °C", "400"),
        ("20 °C or so", "Needed"),
        ("__import__('os')", "Needed"),
    ],
)
def test_a_room_that_is_none_is_refused_in_words(bench, room, said):
    read(bench, ALONE, room)
    assert said in plain(bench.notice.value) and bench.picture.value == "" and "<b>20" not in bench.notice.value
    assert bench.use.layout.display == "none" and "broke on our side" not in bench.notice.value


def test_the_time_alone_ends_where_the_reader_says(bench):
    assert "Cannot tell" in read(bench, SEEDED)
    bench.seeded_at.value = "9:25"
    bench.read.click()
    assert shown(bench)[0] == 30 and "6 readings" in plain(bench.verdict.value)
    bench.seeded_at.value = "11:00"
    bench.read.click()
    assert "9:00 to 9:35" in plain(bench.notice.value)


def test_a_log_kept_by_the_log_reader_opens_here_up_to_its_seed_and_is_kept_with_its_room(bench):
    reader = benches.log_bench()
    reader.paste.value, reader.seeded_at.value = SEEDED, "9:25"
    reader.keeper.name.value = "bowl 3"
    reader.keeper.keep.click()
    bench.room.value = ""
    bench.keeper.fetch.click()
    assert bench.source.value == OWN and "no temperature of the room" in bench.notice.value
    bench.room.value = "68 °F"
    bench.read.click()
    assert shown(bench)[0] == 30
    bench.keeper.name.value = "bowl 3, alone"
    bench.keeper.keep.click()
    again = benches.halving_bench()
    again.keeper.kept.value = "bowl 3, alone"
    again.keeper.fetch.click()
    assert again.room.value == "68 °F" and shown(again) == shown(bench) and again.notice.value == ""


def test_a_pan_of_cream_is_read_as_one(bench):
    # 80 degrees above ice water at 2, halved every 20 minutes.
    text = "min, degC\n" + "".join(f"{m}, {2 + 80 * 0.5 ** (m / 20):.1f}\n" for m in range(0, 61, 5))
    bench.vessel.value = "pan"
    assert "20 minutes" in read(bench, text, "2 °C")


def test_the_short_end_goes_onto_the_bench_that_holds(bench):
    read(bench, ALONE)
    low = bench.found.low.m_as("min")
    bench.use.click()
    assert "has not been run" in plain(bench.used.value)
    hold = benches.hold_bench()
    bench.use.click()
    assert hold.values["halving"] == pytest.approx(low) and hold.values["room"] == 20 and low < 30
    assert "rather than too late" in bench.used.value
    # From 32 to 31 °C above 20: 12 to 11 degrees, low x log2(12 / 11).
    hold.boxes["start"].value = "32"
    minutes = int(low * 0.12553)
    assert f"after {minutes} minutes" in hold.sentence.value
    read(bench, SEEDED)
    assert bench.used.value == "" and bench.use.layout.display == "none"
