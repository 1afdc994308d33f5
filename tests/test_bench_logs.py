"""The page that reads a log: one's own log is read and no other, the verdict waits, what is open has a control."""

import html
import re
from datetime import UTC, datetime

import ipywidgets as widgets
import pytest

from pastrylab.course.emulsion import benches as emulsion
from pastrylab.course.tempering import benches as tempering
from pastrylab.page.log_reader import OWN, LogReader

pytestmark = pytest.mark.usefixtures("undrawn")

SOUND = "time, temperature F\n9:00 am, 118\n9:10 am, 110\n9:15 am, 97 seed\n9:25 am, 91\n9:35 am, 89.5\n9:50 am, 89.6\n"
NO_NOTE = SOUND.replace(" seed", "").replace(" am", "")
MINUTES, BOWL = range(0, 26, 2), (44.9, 45.3, 45.1, 42.0, 38.5, 35.6, 34.0, 33.0, 32.4, 31.9, 31.8, 31.7, 31.6)
CHANNELS = "Time,CH1 (C),CH2 (C)\n" + "".join(f"9:{5 + m:02d},50.0,{x}\n" for m, x in zip(MINUTES, BOWL, strict=True))
LATE_CREAM = "time, temperature F\n9:05, 176\n10:05, 130\n11:05, 112\n12:05, 100\n13:05, 92\n14:05, 68\n15:05, 40\n"


@pytest.fixture(params=["bowl", "cream"])
def page(request, own_workbook):
    return tempering.log_bench("bowl D") if request.param == "bowl" else emulsion.cooling_bench()


def file(content):
    when = datetime(2026, 3, 2, tzinfo=UTC)
    return (
        {
            "name": "a.csv",
            "type": "text/csv",
            "size": len(content),
            "content": memoryview(content),
            "last_modified": when,
        },
    )


def alt(page):
    return html.unescape(re.search(r'<img alt="([^"]*)"', page.picture.value)[1])


def test_the_verdict_waits_until_it_is_asked_for_and_again_for_the_next_log(page):
    verdicts = re.compile("(?i)consistent|cannot|within the limits|missed")
    assert "<img" in page.picture.value and page.verdict.value == "" and page.ask.layout.display == ""
    assert not verdicts.search(alt(page)) and "How the log was read" in page.details.value
    assert not verdicts.search(re.sub("<[^>]*>", " ", page.details.value))
    page.ask.click()
    assert verdicts.search(page.verdict.value) and page.ask.layout.display == "none" and verdicts.search(alt(page))
    assert "Next at the bench" in page.details.value
    page.system.value = "US"
    assert page.verdict.value != "", "another unit is no other log"
    page.source.value = list(page.logs)[1]
    assert page.verdict.value == "" and page.ask.layout.display == ""


def test_a_log_is_read_again_when_it_is_to_be_read_otherwise_or_its_file_has_changed(page, tmp_path, monkeypatch):
    kept = tmp_path / "kept.csv"
    kept.write_text(CHANNELS, encoding="utf-8")
    monkeypatch.setattr(page, "sample", lambda _row: kept)
    page.read.click()
    page.column.value = "CH2 (C)"
    assert "between 31.6 °C and 45.3 °C" in alt(page)
    page.column.value = "CH1 (C)"
    assert "between 50 °C and 50 °C" in alt(page)
    kept.write_text(CHANNELS.replace("50.0", "48.5"), encoding="utf-8")
    page.read.click()
    assert "between 48.5 °C and 48.5 °C" in alt(page)


def test_what_is_pasted_is_read_whichever_log_was_chosen(page):
    before = page.picture.value
    page.paste.value = LATE_CREAM if page.job.vessel == "pan" else SOUND
    assert page.source.value == OWN and page.picture.value == "" and "Read the log" in page.notice.value
    page.read.click()
    assert page.picture.value not in ("", before) and alt(page).split()[5] in ("7", "6")
    page.source.value = next(iter(page.logs))
    assert "<img" in page.picture.value and alt(page).split()[5] not in ("7", "6")


def test_the_late_cream_of_the_bench_s_own_format_is_told_that_it_missed(own_workbook):
    page = emulsion.cooling_bench()
    page.paste.value = LATE_CREAM
    page.read.click()
    page.ask.click()
    assert "limit was missed" in page.verdict.value


def test_a_loaded_file_is_read_at_once_and_what_cannot_be_read_is_said(page):
    page.paste.value = "nothing here"
    page.read.click()
    assert "Needed" in page.notice.value and page.picture.value == page.details.value == ""
    assert page.ask.layout.display == "none"
    page.load.value = file(b"min;degC\n0;66\n5;58\n10;42\n15;31,6\n20;31,5\n25;31,5\n")
    assert page.paste.value == "" and page.source.value == OWN and "6 readings over 25 minutes" in alt(page)
    page.paste.value = ""
    page.read.click()
    assert "6 readings over 25 minutes" in alt(page)


def test_times_that_stay_open_are_chosen_on_the_page(page):
    readings = (66, 64, 61, 58, 55) if page.job.vessel == "pan" else (33, 32, 31.5, 31.6, 31.5)
    page.paste.value = "temperature C\n" + "".join(f"{k}, {x}\n" for k, x in enumerate(readings))
    page.read.click()
    assert "minutes or hours" in page.notice.value and "The times are" in page.notice.value
    page.times.value = "hours"
    assert "5 readings over 240 minutes" in alt(page)
    page.source.value = next(iter(page.logs))
    assert page.times.value == "", "what was said of one log is not said of a sample"


def test_the_column_is_chosen_on_the_page_where_there_are_several(page):
    assert page.column.layout.display == "none"
    page.paste.value = CHANNELS
    page.read.click()
    assert "'CH1 (C)', 'CH2 (C)'" in html.unescape(page.notice.value) and page.column.layout.display == "flex"
    page.column.value = "CH2 (C)"
    assert "from 44.9" in alt(page).replace("\xa0", " ")
    assert "CH1 (C)" in page.details.value
    page.source.value = next(iter(page.logs))
    assert page.column.layout.display == "none"


SEEDED = (("4", 4), ("9:15", 15), ("15 min", 15), ("9:15 am", 15), ("", None))


@pytest.mark.parametrize(("text", "minutes"), SEEDED)
def test_the_seeding_is_typed_in_minutes_or_by_the_clock(text, minutes, own_workbook, monkeypatch):
    given = []
    reviewed = tempering.probelog.review_log
    monkeypatch.setattr(
        tempering.probelog,
        "review_log",
        lambda *args, **kwargs: given.append(kwargs["seeded_at"]) or reviewed(*args, **kwargs),
    )
    page = tempering.log_bench()
    page.paste.value = NO_NOTE
    page.seeded_at.value = text
    page.read.click()
    assert given[-1] == minutes and page.notice.value == "" and "<img" in page.picture.value


@pytest.mark.parametrize("text", ["8:00", "70", "soon", "9:51", "-3 min"])
def test_a_seeding_time_that_is_none_is_said_and_hides_no_log(text, own_workbook):
    page = tempering.log_bench()
    page.paste.value = NO_NOTE
    page.seeded_at.value = text
    page.read.click()
    page.ask.click()
    assert "was left out" in page.notice.value and "9:00 to 9:50" in page.notice.value
    assert "<img" in page.picture.value and "6 readings over 50 minutes" in page.verdict.value


def test_excursions_are_shown(own_workbook):
    page = tempering.log_bench("bowl D")
    page.ask.click()
    assert "Out of the band" in page.details.value
    assert "worked on a slab" in page.method.options


def test_a_page_takes_no_name_that_a_widget_needs_itself(own_workbook):
    # a method of its own named "open" kept the page from ever reaching the browser
    for kind in (LogReader, tempering.LogBench, emulsion.CoolingBench):
        assert not {n for n in vars(kind) if hasattr(widgets.VBox, n) and not n.startswith("_")}


# --- a log of one's own is kept -------------------------------------------------------------------------------------------


def keep(page, name):
    page.keeper.name.value = name
    page.keeper.keep.click()
    return page.keeper.said.value


def again(page):
    """The page as another day finds it."""
    return type(page)()


def test_a_pasted_log_is_kept_as_given_and_opened_with_all_that_was_said_of_it(page, own_workbook):
    page.paste.value = CHANNELS + "\n"
    page.read.click()
    page.column.value = "CH2 (C)"
    page.unit.value = "degC"
    own = {"kind": "milk", "method": "bench", "seeded_at": "9:11"} if page.job.vessel == "bowl" else {}
    for name, value in own.items():
        getattr(page, name).value = next(v for v in _choices(page, name, value))
    kept = {name: getattr(page, name).value for name in own}
    assert "Kept as bowl 3" in keep(page, "bowl 3")
    assert (own_workbook / "lessons/my-kitchen/logs/bowl 3.csv").read_text(encoding="utf-8") == CHANNELS + "\n"
    other = again(page)
    other.keeper.fetch.click()
    assert other.source.value == OWN and other.paste.value == CHANNELS + "\n" and other.notice.value == ""
    assert (other.column.value, other.unit.value) == ("CH2 (C)", "degC") and other.column.layout.display == "flex"
    assert {name: getattr(other, name).value for name in own} == kept
    assert "from 44.9" in alt(other).replace("\xa0", " ") and other.verdict.value == "", "the verdict waits again"


def _choices(page, name, value):
    control = getattr(page, name)
    return [value] if isinstance(control, widgets.Text) else [one for one in control.options[1:]]


def test_a_loaded_file_is_kept_as_text_whatever_it_was_written_in(page):
    page.load.value = file("min;°C\r\n0;66\r\n5;58\r\n10;42\r\n15;31,6\r\n20;31,5\r\n25;31,5\r\n".encode("cp1252"))
    assert "Kept" in keep(page, "from the stick")
    other = again(page)
    other.keeper.fetch.click()
    assert "°C\r\n" in other.paste.value and "6 readings over 25 minutes" in alt(other)
    other.load.value = file(b"min;degC\n0;66\n5;58\n10;42\n15;31,6\n20;31,5\n")
    assert "5 readings over 20 minutes" in alt(other), "a file loaded later takes the place of the log opened"


@pytest.mark.parametrize("text", ["", "  \n "])
def test_there_is_nothing_to_keep_where_there_is_no_log_of_one_s_own(page, text):
    assert "always in the list" in html.unescape(keep(page, "bowl 3"))
    page.source.value = OWN
    page.paste.value = text
    assert "no log yet" in keep(page, "bowl 3") and not page.keeper.kept.options


def test_a_log_that_asks_a_question_is_kept_and_asks_it_again(page):
    page.paste.value = CHANNELS
    page.read.click()
    assert "Kept" in keep(page, "two probes")
    other = again(page)
    other.keeper.fetch.click()
    assert "'CH1 (C)', 'CH2 (C)'" in html.unescape(other.notice.value) and "Opened" in other.keeper.said.value


def test_a_bowl_s_log_opened_as_cream_and_a_chocolate_nobody_knows_any_more_are_said(own_workbook):
    bowl = tempering.log_bench()
    bowl.paste.value = SOUND
    keep(bowl, "bowl 3")
    pan = emulsion.cooling_bench()
    pan.keeper.fetch.click()
    assert "of a bowl, not of a pan" in pan.notice.value and "<img" in pan.picture.value
    settings = own_workbook / "lessons/my-kitchen/logs/settings/bowl 3.csv"
    settings.write_text("vessel,bowl\nkind,ruby <1>\nbroken line\n,\n", encoding="utf-8")
    bowl.keeper.fetch.click()
    assert "Chocolate: ruby &lt;1&gt;" in bowl.notice.value and "<img" in bowl.picture.value


def test_more_than_could_be_opened_again_is_not_kept(page):
    page.source.value = OWN
    page.paste.value = "0, 45\n" * 400_000
    assert "at most 2,000,000" in keep(page, "a year")
