"""Reading a probe's log: formats, units, times, and what is asked for or refused."""

import datetime

import numpy as np
import pytest
from depth import depth
from hypothesis import given, settings
from hypothesis import strategies as st

from pastrylab.ground.units import StudentError
from pastrylab.logs.jobs import CREAM
from pastrylab.logs.reader import read_log

CURVE = (44.9, 45.3, 45.1, 42.0, 38.5, 35.6, 34.0, 33.0, 32.4, 31.9, 31.8, 31.7, 31.6)
EVERY = 2  # minutes


def fahrenheit(degc):
    return f"{degc * 1.8 + 32:.1f}"


def sheet(times, readings, separator=",", head=""):
    return head + "".join(f"{t}{separator}{x}\n" for t, x in zip(times, readings, strict=True))


MINUTES = [EVERY * k for k in range(len(CURVE))]
CLOCK = [f"9:{5 + m:02d}" for m in MINUTES]
FAHRENHEIT = [fahrenheit(x) for x in CURVE]
COMMAS = [str(x).replace(".", ",") for x in CURVE]
MIDNIGHT = [datetime.datetime(2025, 3, 4, 23, 51) + datetime.timedelta(minutes=m) for m in MINUTES]

GOOD = {
    "commas": sheet(MINUTES, CURVE),
    "semicolons": sheet(MINUTES, CURVE, ";"),
    "tabs": sheet(MINUTES, CURVE, "\t"),
    "spaces": sheet(MINUTES, CURVE, "  "),
    "decimal commas, semicolons": sheet(MINUTES, COMMAS, ";"),
    "decimal commas, spaces": sheet(MINUTES, COMMAS, " "),
    "decimal commas in quotes": sheet([f'"{m}"' for m in MINUTES], [f'"{x}"' for x in COMMAS], head='"min","degC"\n'),
    "carriage returns": sheet(MINUTES, CURVE).replace("\n", "\r\n"),
    "bare fahrenheit": sheet(MINUTES, FAHRENHEIT),
    "suffix": sheet(CLOCK, [f"{x} F" for x in FAHRENHEIT]),
    "suffix with a degree sign": sheet(CLOCK, [f"{x}°F" for x in FAHRENHEIT], "\t"),
    "one suffix for all": sheet(CLOCK, [f"{FAHRENHEIT[0]} F", *FAHRENHEIT[1:]], "  "),
    "dash between": sheet(CLOCK, [f"{x} F" for x in FAHRENHEIT], " - "),
    "seconds by header": sheet([60 * m for m in MINUTES], CURVE, head="time (s),temp\n"),
    "seconds by length": sheet([60 * m for m in MINUTES], CURVE),
    "hours by header": sheet([f"{m / 60:.4f}" for m in MINUTES], CURVE, head="hours,deg C\n"),
    "underscores": sheet([60 * m for m in MINUTES], FAHRENHEIT, head="elapsed_s,temp_F\n"),
    "minutes spelt": sheet([f"{m} min" for m in MINUTES], CURVE),
    "hours and minutes spelt": sheet([f"1 h {m} min" for m in MINUTES], CURVE),
    "mm:ss": sheet([f"{m}:00" for m in MINUTES], CURVE),
    "mm:ss past the hour": sheet([f"{(50 + m) % 60}:00" for m in MINUTES], CURVE),
    "h:mm": sheet([f"0:{m:02d}" for m in MINUTES], CURVE),
    "h:mm:ss": sheet([f"0:{m:02d}:00" for m in MINUTES], CURVE),
    "clock": sheet(CLOCK, CURVE),
    "clock of twelve hours": sheet(
        [f"{(11 * 60 + 50 + m) // 60 % 12 or 12}:{(50 + m) % 60:02d}" for m in MINUTES], CURVE
    ),
    "past one o'clock": sheet([f"{12 if m < 14 else 1}:{(46 + m) % 60:02d}" for m in MINUTES], CURVE),
    "am and pm": sheet([f"{t:%I:%M %p}" for t in MIDNIGHT], CURVE),
    "am once": sheet([CLOCK[0] + " a.m.", *CLOCK[1:]], CURVE),
    "midnight": sheet([f"{t:%H:%M}" for t in MIDNIGHT], CURVE),
    "ISO": sheet([f"{t:%Y-%m-%dT%H:%M:%S}" for t in MIDNIGHT], CURVE),
    "ISO with a zone": sheet([f"{t:%Y-%m-%dT%H:%M:%S}+01:00" for t in MIDNIGHT], CURVE),
    "ISO with spaces": sheet([f"{t:%Y-%m-%d %H:%M}" for t in MIDNIGHT], CURVE, " "),
    "day first": sheet([f"{t:%d/%m/%Y %H:%M}" for t in MIDNIGHT], CURVE),
    "month first": sheet([f"{t:%m/%d/%y %I:%M %p}" for t in MIDNIGHT], CURVE),
    "date apart": sheet([f"{t:%d.%m.%Y};{t:%H:%M}" for t in MIDNIGHT], COMMAS, ";", "Date;Time;Temp (°C)\n"),
    "date apart, no header": sheet([f"{t:%d.%m.%Y};{t:%H:%M}" for t in MIDNIGHT], COMMAS, ";"),
    "running number": sheet([f"{k},{t}" for k, t in enumerate(CLOCK, 1)], CURVE),
    "room beside": sheet(MINUTES, [f"21.0,{x}" for x in CURVE], head="min,room C,chocolate C\n"),
    "both units": sheet(
        MINUTES, [f"{x},{f}" for x, f in zip(CURVE, FAHRENHEIT, strict=True)], head="min,temp C,temp F\n"
    ),
    "row of units": sheet(MINUTES, CURVE, ";", "Time;Temp\nmin;°C\n"),
    "preamble": sheet(MINUTES, FAHRENHEIT, head="Larkmoor Teaching Kitchen\nBowl: 2\nUnit: F\nminutes,reading\n"),
    "separator line": sheet(MINUTES, CURVE, ";", "sep=;\nmin;degC\n"),
    "title": sheet(MINUTES, CURVE, head="Dark chocolate, 90 F bowl, temper\n"),
    "footer": sheet(MINUTES, CURVE) + "Average,36.0\nEnd of the log\n",
    "unsorted": sheet(MINUTES[6:] + MINUTES[:6], CURVE[6:] + CURVE[:6]),
    "repeated": sheet(MINUTES + MINUTES[-1:], CURVE + CURVE[-1:]),
    "blank lines": "\n\n" + sheet(MINUTES, CURVE).replace("\n", "\n\n"),
    "error code": sheet(MINUTES + [25], [*CURVE, "-127"]),
    "missed": sheet(MINUTES + [25, 26], [*CURVE, "--", ""]),
}


@pytest.mark.parametrize("name", GOOD)
def test_one_log_however_it_is_written(name):
    log = read_log(GOOD[name])
    np.testing.assert_allclose(log["minutes"], MINUTES, atol=0.02)
    np.testing.assert_allclose(log["degC"], CURVE, atol=0.06)
    assert log.how.said and all(sentence.endswith(".") for sentence in log.how.said)


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_bytes_and_files_of_any_usual_encoding(encoding, tmp_path):
    data = sheet(MINUTES, COMMAS, ";", "min;Temperatur °C\n").encode(encoding)
    (tmp_path / "log.csv").write_bytes(data)
    for given_log in (data, tmp_path / "log.csv", str(tmp_path / "log.csv")):
        np.testing.assert_allclose(read_log(given_log)["degC"], CURVE)


def test_notes_stay_with_their_reading_and_a_note_alone_with_the_next():
    log = read_log("9:05 112 F bowl off\n9:09 108 F\n9:10 seed in\n9:12 95 F\n9:20 90 F smear sets\n")
    assert list(log["note"]) == ["bowl off", "", "seed in", "smear sets"]
    assert any("Row 3 without a temperature" in said for said in log.how.said)


def test_what_is_written_in_a_column_of_marks_is_a_note():
    head = "No.,Time,T1 (F),T2 (F),Mark\n"
    log = read_log(f"{head}1,8:14,114.9,71.2,\n2,8:16,108.2,71.3,seed\n3,8:18,100.8,71.2,\n", column="T1 (F)")
    assert list(log["note"]) == ["", "seed", ""]
    named = read_log("Time,Mark (F)\n8:14,114.9\n8:16,108.2\n")  # the probe of one whose name that is
    assert list(named["degC"].round(1)) == [46.1, 42.3]  # (114.9 - 32) / 1.8 and (108.2 - 32) / 1.8


def test_each_way_of_learning_the_unit_is_said():
    told = {
        "header": sheet(MINUTES, CURVE, head="min,degC\n"),
        "each reading": sheet(MINUTES, [f"{x} C" for x in CURVE]),
        "can only be °F": sheet(MINUTES, FAHRENHEIT),
    }
    for words, text in told.items():
        assert any(words in said for said in read_log(text).how.said)
    assert any("you said so" in said for said in read_log(sheet(MINUTES, CURVE), unit="degC").how.said)


def test_readings_that_name_their_unit_count_more_than_the_header_and_it_is_said():
    log = read_log(sheet(MINUTES, [f"{x} F" for x in FAHRENHEIT], head="min,temp C\n"))
    np.testing.assert_allclose(log["degC"], CURVE, atol=0.06)
    assert any("The header says °C, the readings °F" in said for said in log.how.said)


def test_the_unit_is_asked_for_where_both_are_possible_and_taken_as_answered():
    text = sheet(range(0, 50, 10), (97, 92, 86, 80, 74))
    with pytest.raises(StudentError, match="the unit of the probe"):
        read_log(text, job=CREAM)
    assert read_log(text, unit="degC", job=CREAM)["degC"][0] == 97
    assert read_log(text, unit="°F", job=CREAM)["degC"][0] == pytest.approx((97 - 32) / 1.8)


def test_a_unit_in_which_the_log_never_were_warm_is_not_claimed_to_be_impossible():
    log = read_log(sheet(range(0, 25, 5), (55, 56, 58, 60, 62)))
    assert log.how.unit == "degC" and any("in °F the log would never be as warm" in s for s in log.how.said)
    with pytest.raises(StudentError, match="without a unit"):  # as °F 21 °C: a room, not chocolate in work
        read_log(sheet(range(0, 25, 5), (70.5, 70.6, 70.4, 70.5, 70.6)))


def test_times_that_can_be_read_in_two_ways_are_asked_for():
    half_minutes = sheet([f"{k // 2}:{k % 2 * 30:02d}" for k in range(len(CURVE))], CURVE)
    with pytest.raises(StudentError, match="mm:ss or h:mm"):
        read_log(half_minutes)
    assert read_log(half_minutes, times="mm:ss")["minutes"][-1] == 6
    assert read_log(half_minutes, times="h:mm")["minutes"][-1] == 360


def test_a_day_of_holding_keeps_its_hours():
    readings = [46, 35] + [32.2, 32.3, 32.4, 32.1] * 4
    log = read_log(sheet([f"{8 + k // 2}:{k % 2 * 30:02d}" for k in range(18)], readings))
    assert log["minutes"][-1] == 510


def test_repeated_times_are_averaged_and_said():
    log = read_log("0,45.0\n5,40.0\n5,41.0\n9,36.0\n")
    assert list(log["degC"]) == [45.0, 40.5, 36.0]
    assert any("Repeated times: 1" in said and "1.0 °C apart" in said for said in log.how.said)


BAD = {
    "row 5, temperature column: '3l.5'": sheet(MINUTES, [*CURVE[:4], "3l.5", *CURVE[5:]]),
    "row 6, temperature column: '3l.5'": sheet(MINUTES, [*CURVE[:4], "3l.5", *CURVE[5:]], ";", "min;degC\n"),
    "row 6, time column: '1O'": sheet([*MINUTES[:5], "1O", *MINUTES[6:]], CURVE),
    "row 3, time column: '9:75'": sheet(["9:05", "9:10", "9:75", "9:20"], CURVE[:4]),
    "row 2, time column: '9:10', a time written in another way": sheet([0, "9:10", 4, 6], CURVE[:4]),
    "row 3, time column: '1,000'": sheet([800, 900, "1,000", "1,100"], CURVE[:4], ";"),
    "row 1, time column: '9.05', a clock time without its colon": sheet(
        [f"9.{m:02d}" for m in range(5, 25, 2)], CURVE[:10]
    ),
    "row 2, with more columns of numbers": sheet(MINUTES, COMMAS, head="min,degC\n"),
    "row 1, with more columns of numbers": sheet(MINUTES, COMMAS),
    "row 4, time column: ''": "0,45.0\n2,44.0\n4,43.0\n,42.0\n",
    "several columns of temperatures": "min,probe 1 C,probe 2 C\n0,45,44\n2,44,43\n",
    "a header without a time column": "temp,note\n45.0 C,3\n44.0 C,3\n",
    "no row holds a time and a temperature": "hello\nkitchen\n",
    "an empty text": "\n\n",
    "a log with 1 reading.": "0,45.0\n",
    "a log whose readings all have one time": "5,45.0\n5,44.0\n",
    "no file of that name": "no such log.csv",
    "in the middle of the log": sheet(MINUTES, FAHRENHEIT, head="min,degC\n"),
    "34 °F in the middle of the log": sheet(MINUTES, CURVE, head="min,degF\n"),
    "characters": "0," + "4" * 3000 + "\n1,45\n",
}


# As a student types it, what is said, and the example to go by: it must itself be read once every row is like it.
TYPED = [
    (
        "9:00 45\n9:05 42.3\n9.10 40.2\n9:15 38.1\n",
        "'9.10', a time written in another way than '9:00' in row 1",
        "9:10",
    ),
    ("10 am 45\n10.05 42\n10.10 39.5\n10.15 37.6\n", "'10 am', a time written in another way than '10.05'", "10:05"),
    (
        "At nine the bowl stood at 45 degrees.\nAt ten past it was 40.\n",
        "a line for each reading: first the time",
        "9:05",
    ),
    ("started at 45\nlater 42.3\nthen 40.2\n", "a line for each reading: first the time", "9:05 45.2"),
    ("45\n42.3\n40.2\n", "a time before each temperature", "9:05 45."),
    ("45 C\n42.3 C\n", "a time before each temperature", "9:05 45 C."),
    ("9:00\n9:05\n9:10\n", "a temperature behind each time", "9:00 45.2"),
    ("9:00 am\n9:05 am\n", "a temperature behind each time", "9:00 am 45.2"),
    ("good morning\nchef\n", "both in every row", "0, 45.2"),
]


@pytest.mark.parametrize(("text", "says", "example"), TYPED)
def test_a_refusal_says_what_to_type(text, says, example):
    with pytest.raises(StudentError) as caught:
        read_log(text)
    assert says in str(caught.value) and f"Example: {example}" in str(caught.value), caught.value


@pytest.mark.parametrize(
    "text",
    [
        "10 am 45\n10:05 42\n10:10 39.5\n10:15 37.6\n",
        "9h00 45\n9h05 42\n9h10 39.5\n9h15 37.6\n",
        "9:00 45 stirred\n9:05 42\n9:10 39.5 seed in\n9:15 37.6\n",
    ],
)
def test_times_that_are_clear_are_read(text):
    assert list(read_log(text)["degC"]) == [45, 42, 39.5, 37.6]


@pytest.mark.parametrize("said", BAD)
def test_what_cannot_be_read_is_refused_with_row_column_and_remedy(said):
    with pytest.raises(StudentError) as caught:
        read_log(BAD[said])
    assert said in str(caught.value) and "Needed:" in str(caught.value)


@pytest.mark.parametrize("given_log", [None, 5, ["0,45"], b"", "", "\0.csv", b"\xff\xfe\x00"])
def test_what_is_no_log_is_refused(given_log):
    with pytest.raises(StudentError):
        read_log(given_log)


def test_odd_answers_to_the_questions_are_refused():
    for asked in ({"unit": "kelvin"}, {"unit": ""}, {"unit": 5}, {"times": "days"}):
        with pytest.raises(StudentError):
            read_log(sheet(MINUTES, CURVE), **asked)
    with pytest.raises(StudentError, match="says °C"):
        read_log(sheet(MINUTES, CURVE, head="min,degC\n"), unit="degF")


def test_too_long_a_log_is_refused():
    with pytest.raises(StudentError, match="at most"):
        read_log("0,45\n" * 200_001)


def test_nothing_in_a_log_is_evaluated(tmp_path):
    mark = tmp_path / "mark"
    text = (
        sheet(MINUTES[:3], CURVE[:3])
        + f"=cmd|'/c touch {mark}',45\n__import__('pathlib').Path('{mark}').touch(),9**9**9\n"
    )
    with pytest.raises(StudentError):
        read_log(text + "9**9**9**9,45\n")
    read_log(text, times="minutes")
    assert not mark.exists()


PIECES = st.sampled_from(
    [
        *"0123456789:;,.\t -/°FCh\n\r\"'#=+",
        "am",
        "pm",
        " min",
        "\n\n",
        "112 F",
        "31,5",
        "24:00",
        "99:99",
        "--",
        "NaN",
        "1e9",
    ]
    + [
        "9:05",
        "2025-13-40",
        "30/02/2025 ",
        "٣",
        "²",
        "\0",
        "\ufeff",
        "−",
        "seed",
        "12 h",
        "60 s",
        "0",
        "temp",
        "minutes",
    ]
)


@st.composite
def mutated(draw):
    text = draw(st.sampled_from(sorted(GOOD.values())))
    for _ in range(draw(st.integers(1, 6))):
        at = draw(st.integers(0, len(text)))
        text = text[:at] + draw(PIECES | st.text(max_size=3)) + text[at + draw(st.integers(0, 4)) :]
    return text


def read_or_refused(text, **asked):
    try:
        log = read_log(text, **asked)
    except StudentError as error:
        assert len(str(error)) > 20
        return
    minutes, degc = log["minutes"], log["degC"]
    assert minutes[0] == 0 and np.all(np.diff(minutes) > 0)
    assert np.isfinite(minutes).all() and np.all((degc >= -30) & (degc <= 150))


@settings(max_examples=depth(187, 1500), deadline=None)
@given(mutated(), st.sampled_from([None, "degC", "degF"]))
def test_a_damaged_log_is_read_or_refused(text, unit):
    read_or_refused(text + "\n", unit=unit)


@settings(max_examples=depth(125, 1000), deadline=None)
@given(st.lists(PIECES, max_size=60).map("".join) | st.text(max_size=80))
def test_any_text_is_read_or_refused(text):
    read_or_refused(text + "\n")
    read_or_refused(text.encode("utf-8", errors="replace") + b"\n")


@settings(max_examples=depth(62, 500), deadline=None)
@given(st.binary(max_size=120))
def test_any_bytes_are_read_or_refused(data):
    read_or_refused(data)
