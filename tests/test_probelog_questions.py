"""Columns and moments that a log leaves open are asked about and named; a hundred thousand rows are read at once."""

import time

import numpy as np
import pandas as pd
import pytest
from depth import depth

from pastrylab.ground.units import StudentError
from pastrylab.logs import CONSISTENT, CREAM, minutes_into, read_log, review_log, rows


def clock(start, minutes):
    return [f"{(start + m) // 60}:{(start + m) % 60:02d}" for m in minutes]


# --- columns ----------------------------------------------------------------------------------------------------------

MINUTES = range(0, 26, 2)
BOWL = (44.9, 45.3, 45.1, 42.0, 38.5, 35.6, 34.0, 33.0, 32.4, 31.9, 31.8, 31.7, 31.6)
ROOM = (21.3, 21.2, 21.4, 21.3, 21.3, 21.1, 21.2, 21.3, 21.4, 21.3, 21.2, 21.3, 21.3)


def table(head, *columns):
    return head + "\n" + "".join(",".join(map(str, row)) + "\n" for row in zip(*columns, strict=True))


def fahrenheit(readings):
    return [round(x * 1.8 + 32, 1) for x in readings]


NUMBERED = [f"2025-03-04 09:{5 + m:02d}" for m in MINUTES]
TAKEN = {
    "room in the first channel": (
        table("No.,Date Time,CH1 (C),CH2 (C)", range(1, 14), NUMBERED, ROOM, BOWL),
        "CH2 (C)",
        "Left out: 'No.', 'CH1 (C)'.",
    ),
    "bowl in the first channel": (table("min,CH1 (C),CH2 (C)", MINUTES, BOWL, ROOM), "CH1 (C)", "Left out: 'CH2 (C)'."),
    "channels without a unit": (table("Time,CH1,CH2", clock(545, MINUTES), ROOM, BOWL), "CH2", "Left out: 'CH1'."),
    "a bowl and a bath": (table("min,bath C,bowl C", MINUTES, [50.0] * 13, BOWL), "bowl C", "Left out: 'bath C'."),
    "named by the vessel": (table("min,probe,bowl", MINUTES, [46.0] * 13, BOWL), "bowl", "Left out: 'probe'."),
    "two units": (table("min,T1 C,T1 F", MINUTES, BOWL, fahrenheit(BOWL)), "T1 C", "Left out: 'T1 F'."),
    "no header": (table("", MINUTES, ROOM, BOWL), "column 3", "Left out: 'column 2'."),
    "one name twice": (table("min,temp C,temp C", MINUTES, ROOM, BOWL), "temp C (column 3)", "temp C (column 2)"),
    "two columns": (table("min,degC", MINUTES, BOWL), "degC", "the times those of 'min'."),
    "an index before the minutes": (
        table("", range(1, 14), MINUTES, BOWL),
        "column 3",
        "the times those of 'column 2'. Left out: 'column 1'.",
    ),
    "an index called reading": (
        table("Reading,Time (min),Temp C", range(1, 14), MINUTES, BOWL),
        "Temp C",
        "Left out: 'Reading'.",
    ),
    "a set point": (table("min,SV,PV", MINUTES, [32] * 13, BOWL), "PV", "Left out: 'SV'."),
    "extremes": (table("Time (min),min,max,avg", MINUTES, BOWL, BOWL, BOWL), "avg", "Left out: 'min', 'max'."),
}


@pytest.mark.parametrize("name", TAKEN)
def test_the_column_taken_and_those_left_are_named(name):
    text, column, left = TAKEN[name]
    log = read_log(text)
    np.testing.assert_allclose(log["degC"], BOWL, atol=0.05)
    said = " ".join(log.how.said)
    assert log.how.column == column and f"The temperatures are those of '{column}'" in said and left in said


def test_a_column_in_another_unit_that_says_something_else_is_no_copy():
    log = read_log(table("min,CH1 (C),CH2 (F)", MINUTES, ROOM, fahrenheit(BOWL)))
    assert log.how.column == "CH2 (F)" and log["degC"][-1] == pytest.approx(31.6, abs=0.05)


def test_whole_degrees_that_rise_one_by_one_are_no_running_number():
    log = read_log(table("min,T1 C,T2 C", range(0, 15, 3), (41, 42, 43, 44, 45), ROOM[:5]))
    assert log.how.column == "T1 C"
    log = read_log(table("min,T1 C,T2 C", range(0, 15, 3), (41, 42, 43, 44, 45), ROOM[:5]), column="T2 C")
    assert log["degC"][0] == 21.3


def test_the_pan_is_known_by_its_few_warm_readings_and_a_room_by_more_than_one():
    quick, room = (88, 40, 20, 10, 6, *[5] * 16), (21, 45, *[21] * 19)
    log = read_log(table("min,CH1 (C),CH2 (C)", range(0, 105, 5), room, quick), job=CREAM)
    assert log.how.column == "CH2 (C)"


OPEN = {
    "two warm channels": (table("min,CH1 (C),CH2 (C)", MINUTES, [50.0] * 13, BOWL), ("CH1 (C)", "CH2 (C)")),
    "°F, it seems": (table("Time,CH1,CH2", MINUTES, fahrenheit(ROOM), fahrenheit(BOWL)), ("CH1", "CH2")),
    "no header": (table("", MINUTES, fahrenheit(ROOM), fahrenheit(BOWL)), ("column 2", "column 3")),
    "a room alone": (table("min,room C,air C", MINUTES, ROOM, BOWL), ("room C", "air C")),
    "two bowls": (table("min,bowl 1 C,bowl 2 C", MINUTES, BOWL, BOWL), ("bowl 1 C", "bowl 2 C")),
}


@pytest.mark.parametrize("name", OPEN)
def test_the_column_is_asked_for_by_name_and_taken_as_answered(name):
    text, offered = OPEN[name]
    with pytest.raises(StudentError, match="columns of temperatures") as caught:
        read_log(text, times="minutes")
    assert all(f"'{column}'" in str(caught.value) for column in offered) and caught.value.columns == offered
    log = read_log(text, times="minutes", column=offered[1])
    assert log["degC"][-1] == pytest.approx(31.6, abs=0.05) and log.how.columns == offered
    assert any("You chose it" in said for said in log.how.said)
    with pytest.raises(StudentError, match="no column 'bowl 7'"):
        read_log(text, column="bowl 7")


def test_a_room_alone_is_not_said_to_be_chocolate_in_fahrenheit():
    with pytest.raises(StudentError, match="without a unit"):
        read_log(table("Time,CH1,CH2", MINUTES, fahrenheit(ROOM), fahrenheit(BOWL)), column="CH1")


def test_decimal_commas_are_not_taken_for_a_second_column():
    with pytest.raises(StudentError, match="semicolons between the columns"):
        read_log("0,44,4\n2,43,1\n4,42,0\n6,40,9\n")


# --- the moment of the seeding ----------------------------------------------------------------------------------------

ELAPSED = read_log(table("min,degC", MINUTES, BOWL))
CLOCK = read_log(table("time,degC", clock(545, MINUTES), BOWL))
NOON = read_log(table("time,degC", [f"{t} am" if t < "12" else t for t in clock(710, MINUTES)], BOWL))
STOPWATCH = read_log(table("mm:ss,degC", [f"{m}:30" for m in MINUTES], BOWL))
DATED = read_log(table("time,degC", NUMBERED, BOWL))
MOMENTS = (
    (ELAPSED, "4", 4),
    (ELAPSED, "4,5", 4.5),
    (ELAPSED, "12 min", 12),
    (ELAPSED, "90 s", 1.5),
    (ELAPSED, "0.2 h", 12),
    (CLOCK, "4", 4),
    (CLOCK, "9:09", 4),
    (CLOCK, "9:09 am", 4),
    (CLOCK, "09:29", 24),
    (CLOCK, "9:09:30", 4.5),
    (DATED, "9:09", 4),
    (NOON, "12:02", 12),
    (NOON, "12:02 pm", 12),
    (STOPWATCH, "4:30", 4),
    (STOPWATCH, "24:30", 24),
)


@pytest.mark.parametrize(("log", "text", "minutes"), MOMENTS)
def test_the_seeding_is_named_in_minutes_or_as_the_log_writes_its_times(log, text, minutes):
    assert minutes_into(log, text) == pytest.approx(minutes)


@pytest.mark.parametrize("log", [ELAPSED, CLOCK, DATED])
@pytest.mark.parametrize(
    "text", ["25", "-1", "soon", "8:00", "9:31", "9:09 pm", "0:10", "3 g", "25 min", "99:99", "9.09.2025"]
)
def test_a_moment_that_is_none_of_the_log_is_refused(log, text):
    with pytest.raises(StudentError, match="minutes after the first reading"):
        minutes_into(log, text)


def test_no_moment_is_none():
    assert minutes_into(ELAPSED, "  ") is None


def test_a_clock_time_that_comes_twice_is_asked_about():
    log = read_log("8:00, 46\n12:00, 31.6\n20:00, 31.5\n23:00, 31.5\n", times="h:mm")
    with pytest.raises(StudentError, match="comes 2 times"):
        minutes_into(log, "9:00")
    assert minutes_into(log, "21:00") == 780 and minutes_into(log, "9:00 am") == 60
    assert minutes_into(log, "09:00") == 60


# --- a hundred thousand rows ------------------------------------------------------------------------------------------

ROWS, SLACK = depth((25_000, 0.2), (100_000, 0.5))  # seconds; what grows with its square takes minutes with either
WRITTEN = {
    "minutes": ("min,degC", lambda k: f"{k * 0.1:.1f},"),
    "clock": ("h:mm:ss,degC", lambda k: f"{k // 600}:{k // 10 % 60:02d}:{k % 10 * 6:02d},"),
    "dates": (
        "time,degC",
        lambda k: f"2025-03-{4 + k // 14400:02d}T{k // 600 % 24:02d}:{k // 10 % 60:02d}:{k % 10 * 6:02d},",
    ),
    "am and pm": (
        "No.,time,degC",
        lambda k: (
            f"{k},3/{4 + k // 14400}/2025 {k // 600 % 12 or 12}:{k // 10 % 60:02d}:{k % 10 * 6:02d} {'AP'[k // 7200 % 2]}M,"
        ),
    ),
}


def long_log(form, count, suffix=""):
    head, begin = WRITTEN[form]
    readings = 31.5 + 0.3 * np.sin(np.arange(count) / 50)
    return head + "\n" + "".join(f"{begin(k)}{x:.2f}{suffix}\n" for k, x in enumerate(readings))


def same(one, other):
    """Whether two logs hold the same readings to the last bit."""
    return all(list(one[name]) == list(other[name]) for name in one.keys() | other.keys())


@pytest.mark.parametrize("form", WRITTEN)
@pytest.mark.parametrize("suffix", ["", " C", ","])
def test_a_regular_log_is_read_at_once_and_row_by_row_alike(form, suffix, monkeypatch):
    text = long_log(form, 1700, suffix)
    at_once = read_log(text)
    monkeypatch.setattr(rows, "_regular", lambda *_: None)
    one_by_one = read_log(text)
    assert same(at_once, one_by_one) and at_once.how == one_by_one.how


def test_a_note_behind_the_last_named_column_is_kept():
    log = read_log("time, temp C\n9:00, 46\n9:10, 40, seed in\n9:20, 33\n9:30, 31.5, smear, sets\n")
    assert list(log["note"]) == ["", "seed in", "", "smear sets"]


def test_gaps_notes_and_footers_between_regular_stretches_are_found(monkeypatch):
    lines = long_log("minutes", 1700).splitlines()
    lines[1], lines[500], lines[1300] = "0.0,--", "49.9,,seed in", "129.9,31.4 stirred"
    text = "\n".join([*lines, "", "Average,31.5"]) + "\n"
    at_once = read_log(text)
    assert len(at_once) == 1698 and list(filter(None, at_once["note"])) == ["seed in", "stirred"]
    assert at_once["note"][498] == "seed in", "the reading after it, in the next stretch"
    monkeypatch.setattr(rows, "_regular", lambda *_: None)
    assert same(at_once, read_log(text))


def read_in_time(path):
    """Whether a log takes no more CPU time than pandas twice and a slack."""
    took = [time.process_time()]
    for read in (pd.read_csv, read_log):
        read(path)
        took.append(time.process_time())
    return took[2] - took[1] < 2 * (took[1] - took[0]) + SLACK


@pytest.mark.parametrize("form", WRITTEN)
def test_very_many_rows(form, tmp_path):
    path = tmp_path / "log.csv"
    path.write_text(long_log(form, ROWS))
    assert any(read_in_time(path) for _ in range(3)), "three times: a long test run may be tidying its memory"
    assert len(read_log(path)) == ROWS


def test_a_pasted_chocolate_log_still_reads_as_it_did():
    text = (
        "time, temperature F\n9:00 am, 118\n9:10 am, 110\n9:15 am, 97 seed\n9:25 am, 91\n9:35 am, 89.5\n9:50 am, 89.6\n"
    )
    assert review_log(read_log(text), "dark").verdict == CONSISTENT


def test_a_pan_put_into_ice_in_fahrenheit_is_not_read_as_celsius():
    """One hot reading, then cold ones: as °C it would begin at 167 degrees, which no cream does."""
    sheet = "time, temperature\n0, 166.6\n15, 74\n30, 46\n45, 39\n60, 37.5\n75, 37\n"
    sheet += "".join(f"{90 + 15 * i}, 36.{8 - i % 3}\n" for i in range(30))
    with pytest.raises(StudentError) as error:
        read_log(sheet, job=CREAM)
    assert "without a unit" in str(error.value)
    assert read_log(sheet, job=CREAM, unit="degF")["degC"][0] == pytest.approx(74.8, abs=0.05)
