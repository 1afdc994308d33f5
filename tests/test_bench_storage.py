"""Lesson 07's benches: what their sentences say, worked with a pencil from a printed table of what fills air."""

import html
import json
import math
import re
from pathlib import Path

import pytest

from pastrylab.course.storage import benches
from pastrylab.course.storage.room import hours
from pastrylab.school import answers

pytestmark = pytest.mark.usefixtures("undrawn")

# Full at, hPa (ASHRAE Fundamentals 2017): 4 degC 8.13, 9.565 11.93, 13 14.98, 15 17.05, 16 18.18, 19.76 23.04, 21 24.88, 23 28.10, 27 35.67.


def said(bench):
    return html.unescape(re.sub("<[^>]*>", "", bench.sentence.value))


def moved(bench, **values):
    for name, value in values.items():
        if name in bench.choices:
            bench.choices[name].value = value
        else:
            bench.numbers[name].box.value = str(value)
    return said(bench)


def test_the_tray_bench_says_what_lies_on_the_tray_and_when_it_may_be_unwrapped():
    # 0.51 x 28.10 = 14.33 hPa: over 8.13 that is 176.2 %. Dew at 12.3 degC, where 14.3 fills air. With no error in the
    # hygrometer and 0.2 degrees in the thermometers: 0.51 x 28.44 / 0.82 = 17.69 hPa is full at 15.6, read as 15.8.
    text = moved(benches.tray_bench(), humidity_error=0, probe_error=0.2)
    assert "177 %: drops settle" in text and "Dew ends at 12.3 °C" in text
    (reads,) = re.findall(r"coldest piece reads (\d+\.\d) °C", text)
    assert float(reads) == pytest.approx(15.8, abs=0.1)


def test_dry_to_the_touch_and_still_over_the_limit():
    # 0.55 x 28.10 = 15.46 over 18.18 is 85.0 %: no drop, and above 82 to 85 %.
    text = moved(benches.tray_bench(), start=16, humidity=55, humidity_error=0, probe_error=0.2)
    assert "86 %: no drop to be seen" in text and "Leave it wrapped" in text


def test_the_tray_bench_at_the_ends_of_the_air():
    wettest = moved(benches.tray_bench(), humidity=95)
    assert "no wait will do" in wettest.casefold() and "Leave it wrapped for" not in wettest
    warmer = moved(benches.tray_bench(), start=25, air=20, humidity=40)
    assert "may be unwrapped" in warmer
    frozen = moved(benches.tray_bench(), start=-18)
    # 14.33 hPa over ice at -18 degC, 1.249 hPa (Murphy and Koop 2005): 11.5 times.
    assert "11 times what it can: frost settles" in frozen and "Leave it wrapped" in frozen


def test_the_picture_marks_what_the_sentence_says():
    bench = benches.tray_bench()
    figure = bench.figure
    (at,) = figure._out.get_xdata()
    assert f"{at:.1f}"[:4] in said(bench) or f"{at + 0.05:.1f}" in said(bench)
    assert figure._tray.get_xdata() == [4] and figure._indoors.get_xdata() == [23]
    moved(bench, humidity=95)
    assert len(figure._out.get_xdata()) == 0, "nothing is marked where no wait will do"


def test_a_guess_meets_the_wait(own_workbook):
    # 14.33 / 0.82 = 17.48 hPa is full at 15.4 degC: 19 degrees colder than the room become 7.6, log2(19 / 7.6) x 20 = 26.
    card = benches.guess_wrapped()
    card.box.value = "10 min"
    card.keep.click()
    bench = benches.tray_bench()
    text = html.unescape(re.sub("<[^>]*>", "", bench.guessed.value))
    # After 10 minutes: 23 - 19 x 0.5^0.5 = 9.565 degC, where air is full at 11.93: 14.33 / 11.93 = 120.1 %.
    assert (
        "You said 10 min, the estimate says 26 min" in text
        and "would read 9.56 °C, and the air on it stand at 121 %" in text
    )
    assert answers.last("07", "07.guess.wrapped", "")["answer"] == "10 min"


def test_the_film_comes_off_too_soon():
    # 23 x 0.5^(25 / 15) = 7.24: 27 - 7.24 = 19.76 degC. 0.58 x 35.67 = 20.69 over 23.04 is 89.8 %.
    text = said(benches.unwrapped_bench())
    assert "after 25 minutes, at 19.8 °C: it looks dry" in text
    assert "The air on it stands at 90 %" in text and "too soon" in text
    (careful,) = re.findall(r"stay wrapped for (\d+) minutes", text)
    # 3 % and half a degree: 0.61 x full at 27.5 (36.73) / 0.78 = 28.7 hPa, full at 23.3; 4 degrees colder than 27.5 from 24,
    # log2(24 / 4.2) x 15 = 38, and half a degree in the start.
    assert 37 <= int(careful) <= 41
    late = moved(benches.unwrapped_bench(), opened=careful)
    assert "below the limit of milk chocolate, with every error" in late and "stay wrapped" not in late
    early = moved(benches.unwrapped_bench(), opened=5)
    assert "drops stand on it" in early


def test_a_store_room_by_night():
    # 0.58 x 24.88 = 14.43 hPa: 14.43 / 17.05 = 84.6 % at 15 degC, 14.43 / 14.98 = 96.3 % on the shelf at 13.
    text = said(benches.room_bench())
    assert "the 58 % of the warm hour are 85 % in the room" in text and "On the shelf it comes to 97 %" in text
    assert "for at least" in text and "swings by 6 °C" in text
    dry = moved(benches.room_bench(), humidity=35, colder_by=0.0)
    assert "stays below the limit of dark chocolate all day" in dry
    warm = moved(benches.room_bench(), warmest=28)
    assert "warm enough by day for fat bloom" in warm
    wet = moved(benches.room_bench(), humidity=80)
    assert "water settles there" in wet and "at most 24 hours of the day" in wet


def test_a_night_warmer_than_the_day_is_said():
    bench = benches.room_bench()
    assert "not warmer than the warmest" in moved(bench, warmest=14, coldest=20) and bench.picture.value == ""


def test_both_systems():
    bench = benches.room_bench()
    bench.system.value = "US"
    assert "swings by 11 °F" in said(bench)  # 6 x 1.8 = 10.8, a difference
    film = benches.unwrapped_bench()
    film.system.value = "US"
    assert "at 67.6 °F" in said(film)  # 19.76 x 1.8 + 32


def test_white_chocolate_has_no_published_limit():
    text = moved(benches.tray_bench(), kind="white", start=14, humidity=45)
    assert "no source" in text


@pytest.mark.parametrize(
    ("number", "words"), [(0.4, "half an hour"), (0.6, "1 hour"), (23.6, "24 hours"), (2.1, "2.5 hours")]
)
def test_hours_are_never_told_shorter(number, words):
    assert hours(number) == words


def test_both_tables_on_the_page_say_what_fills_air():
    """Against the Magnus formula, Alduchov & Eskridge 1996, J. Appl. Meteorol. 35:601: 0.4 % of a reading, and its last digit."""
    page = Path(__file__).resolve().parent.parent / "lessons" / "07-store-and-serve.ipynb"
    tables = [
        re.findall(r"^\| \*\*(\d+) °C\*\*<br>(\d+) °F \| (.*) \|$", "".join(cell["source"]), re.MULTILINE)
        for cell in json.loads(page.read_text("utf-8"))["cells"]
    ]
    why, paper = (rows for rows in tables if rows)
    assert why == paper and [int(low) for low, _, _ in why] == [0, 5, 10, 15, 20, 25]
    for low, fahrenheit, hectopascals in why:
        assert int(fahrenheit) == round(1.8 * int(low) + 32)
        for more, printed in enumerate(hectopascals.split(" | ")):
            celsius = int(low) + more
            magnus = 6.1094 * math.exp(17.625 * celsius / (243.04 + celsius))
            assert float(printed) == pytest.approx(magnus, abs=0.05 + 0.004 * magnus), celsius
