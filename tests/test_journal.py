"""Meter readings of one's own: kept row by row, corrected by the day's salt, a change told only beyond both errors."""

import html
import re
from datetime import datetime, timedelta

import pytest

from pastrylab.course.keeping import benches, journal
from pastrylab.ground import kitchen
from pastrylab.ground.units import StudentError
from pastrylab.page.keeper import Thing, put

pytestmark = pytest.mark.usefixtures("undrawn")

SALT = "sodium chloride"


def row(day, read, over_salt=0.7528, error=0.015, filling="dark ganache"):
    return journal.Row(datetime(2026, 11, day, 9, 30), filling, SALT, 25.0, over_salt, read, error)


def said(text):
    return html.unescape(re.sub("<[^>]*>", " ", text))


@pytest.fixture
def bench(own_workbook):
    made = benches.reading_bench()
    made.boxes["reading"].value = "0.912"
    made.keeper.name.value = "batch 3"
    return made


def test_a_reading_is_corrected_by_what_the_meter_showed_over_the_salt(outside):
    # Sodium chloride at 25 degC: 0.753. The meter showed 0.765, 0.012 too much.
    got = row(2, 0.900, over_salt=0.765).corrected
    outside(
        quantity="reading of 0.900 by a meter that shows 0.765 over NaCl at 25 degC",
        expected=0.888,
        got=got,
        tolerance=0.0006,
        source="CRC Handbook: 0.753 over NaCl; 0.900 - 0.012",
    )
    assert row(2, 0.900, over_salt=0.741).corrected == pytest.approx(0.912, abs=0.0006), "one that reads low"
    assert row(2, 0.900, over_salt=0.753).corrected == 0.900, "less than a meter shows is no correction"


@pytest.mark.parametrize(
    ("reads", "errors", "told"),
    [
        ((0.900, 0.869), (0.015, 0.015), "fallen by 0.031"),  # 0.031 is more than 0.015 + 0.015
        ((0.900, 0.870), (0.015, 0.015), "no change can be told"),  # 0.030 is not
        ((0.900, 0.931), (0.015, 0.015), "risen by 0.031"),
        ((0.900, 0.880, 0.905), (0.015, 0.015, 0.015), "no change can be told"),
        ((0.900, 0.869), (0.030, 0.015), "no change can be told"),
        ((0.900, 0.899), (0.0, 0.0), "fallen by 0.001"),
    ],
)
def test_a_change_is_told_only_where_it_is_more_than_both_errors(reads, errors, told):
    rows = [
        row(2 + k, read, over_salt=0.753, error=error)
        for k, (read, error) in enumerate(zip(reads, errors, strict=True))
    ]
    sentence = journal.compared(rows)
    assert told in sentence and "safe" not in sentence and sentence.endswith("For planning only.")


def test_several_fillings_in_one_series_are_not_compared():
    rows = [row(2, 0.9), row(9, 0.8, filling="caramel")]
    assert "no change is told" in journal.compared(rows) and "fallen" not in journal.compared(rows)


def test_what_is_written_is_read_again_also_from_a_spreadsheet_of_decimal_commas():
    rows = [row(2, 0.905, filling='dark, "64 %"; best'), row(9, 0.88)]
    text = journal.written(rows)
    assert journal.read(text) == rows and text.splitlines()[0] == ",".join(journal.HEADER)
    commas = ";".join(journal.HEADER) + "\r\n2026-11-02 09:30;dark;sodium chloride;22,5;0,753;0,905;0,015\r\n;;;;;;\r\n"
    (one,) = journal.read(commas)
    assert (one.slurry, one.over_salt, one.reading, one.error) == (22.5, 0.753, 0.905, 0.015)
    assert journal.read(text.splitlines()[0] + "\n" + "\n".join(reversed(text.splitlines()[1:]))) == rows, (
        "sorted by time"
    )


@pytest.mark.parametrize(
    "line",
    [
        "yesterday,dark,sodium chloride,22,0.753,0.9,0.015",
        "2026-11-02 09:30,dark,sodium chloride,22,0.753,0.9",
        "2026-11-02 09:30,dark,table sugar,22,0.753,0.9,0.015",
        "2026-11-02 09:30,dark,sodium chloride,80,0.753,0.9,0.015",
        "2026-11-02 09:30,dark,sodium chloride,22,0.753,1.2,0.015",
        "2026-11-02 09:30,dark,sodium chloride,22,0.753,0.9,0.2",
        "2026-11-02 09:30,dark,sodium chloride,22,0.753,lots,0.015",
        "2026-11-02 09:30,dark,sodium chloride,22,nan,0.9,0.015",
        "2026-11-02 09:30,dark,sodium chloride,22,0.753,0.9,0.015,more",
        "<b>,,,,,,",
    ],
)
def test_a_line_that_is_no_reading_is_named_and_none_is_lost(bench, line):
    text = ",".join(journal.HEADER) + "\n" + line + "\n"
    with pytest.raises(StudentError, match="line 2"):
        journal.read(text)
    kitchen.put("readings", "batch 3", text)
    bench.keeper.keep.click()
    assert "line 2" in bench.keeper.said.value and "<b>" not in bench.keeper.said.value
    assert kitchen.get("readings", "batch 3") == text


def test_a_sheet_without_its_columns_is_refused():
    for text in ("", "a,b\n1,2\n", "when,filling\n"):
        with pytest.raises(StudentError, match="names of its columns"):
            journal.read(text)


def test_readings_are_kept_one_after_another_listed_and_drawn_after_a_restart(bench, monkeypatch):
    moments = iter(datetime(2026, 11, 20, 9, 30, 12) + timedelta(days=3 * k) for k in range(9))

    class Clock(datetime):
        @classmethod
        def now(cls, tz=None):
            return next(moments)

    monkeypatch.setattr(benches, "datetime", Clock)
    for reading in ("0.905", "0,89", "87 %"):
        bench.boxes["reading"].value = reading
        bench.keeper.keep.click()
        assert "Kept as batch 3" in said(bench.keeper.said.value)
    again = benches.reading_bench()
    assert again.picture.value == "" and again._last.layout.display == "none"
    again.keeper.fetch.click()
    assert again.boxes["reading"].value == "87 %" and "<img" in again.picture.value
    assert [one.reading for one in again._rows()] == [0.905, 0.89, 0.87]
    assert "3 readings from 20 Nov 2026 to 26 Nov 2026" in said(again.list.value)
    assert list(again.journal._raw.get_ydata()) == [0.905, 0.89, 0.87]
    assert "fallen by 0.035" in again.journal.alt
    again.shorten.click()
    assert "Removed: 26 Nov 2026" in said(again.keeper.said.value) and len(again._rows()) == 2
    again.shorten.click()
    again.shorten.click()
    assert not again.keeper.kept.options and again.picture.value == ""
    again.shorten.click()
    assert "no reading is kept" in said(again.keeper.said.value)


def test_one_press_too_many_keeps_nothing_twice(bench):
    bench.keeper.keep.click()
    bench.keeper.keep.click()
    assert len(bench._rows()) in (1, 2)  # 2 where the minute turned between the two
    assert len(set(bench._rows())) == len(bench._rows())


@pytest.mark.parametrize(
    ("box", "text"),
    [
        ("reading", ""),
        ("reading", "1.4"),
        ("reading", "0.9 g"),
        ("error", "0.5"),
        ("room", "80 °C"),
        ("over_salt", "lots"),
    ],
)
def test_what_is_no_reading_is_not_kept(bench, box, text):
    bench.boxes[box].value = text
    bench.keeper.keep.click()
    assert "Needed" in bench.keeper.said.value and kitchen.kept("readings") == {} and bench.picture.value == ""


def test_one_s_own_filling_goes_by_the_name_of_its_series(bench):
    bench.filling.value = benches._OWN
    bench.formula.value = "300 g dark couverture 64 %\n200 g heavy cream 36 %"
    bench.keeper.keep.click()
    assert bench._rows()[0].filling == "batch 3"
    other = benches.reading_bench()
    other.keeper.fetch.click()
    assert other.filling.value == benches._OWN and other.formula.value == bench.formula.value


def test_a_kept_series_with_settings_of_no_sense_is_opened(bench):
    put(
        "readings", "batch 3", Thing(journal.written([row(2, 0.9)]), {"salt": "sand", "filling": "<b>", "reading": "?"})
    )
    again = benches.reading_bench()
    again.keeper.fetch.click()
    assert "Opened" in again.keeper.said.value and "One reading of dark ganache" in said(again.list.value)
    assert again.salt.value == SALT


def test_the_pictures_of_what_is_kept_are_drawn_again_for_a_narrow_page(bench, monkeypatch):
    monkeypatch.setattr("pastrylab.page.picture.Picture.page_is_narrow", False)
    bench.keeper.keep.click()
    wide = bench.picture.value
    bench.picture.told.value = "narrow"
    assert "<img" in bench.picture.value and bench.picture.value != wide and "One reading" in bench.journal.alt


def test_the_figures_the_page_opens_with_are_nobody_s_reading(own_workbook):
    made = benches.reading_bench()
    made.keeper.name.value = "batch 3"
    made.keeper.keep.click()
    assert "opens with" in made.keeper.said.value and kitchen.kept("readings") == {}
    made.boxes["reading"].value = "0.921"
    made.keeper.keep.click()
    assert list(kitchen.kept("readings")) == ["batch 3"]
