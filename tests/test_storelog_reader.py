"""A store room's log is read as it was meant: two quantities, in any style; what is open or wrong is said, never guessed.

Every number expected here is copied from the text of the log, or its Fahrenheit worked out by hand: 68 °F is 20 °C.
"""

import numpy as np
import pytest

from pastrylab import StudentError
from pastrylab.logs.store import read_store

SURFACE = "time; room °C; RH; shelf °C\n9:00; 21; 48; 18\n10:00; 21; 49; 17.5\n"
CLEAR = {
    "semicolons and decimal commas": (
        "Larkmoor Teaching Kitchen\nDatum;Temperatur (°C);rel. Feuchte (%)\n2026-03-01 09:00;20,0;48,0\n2026-03-01 10:00;20,5;49,0",
        [20, 20.5],
        [0.48, 0.49],
    ),
    "tabs, US dates in two columns, Fahrenheit": (
        "Date\tTime\tTemp (°F)\tHumidity (%)\n3/14/2026\t11:30 pm\t68\t48\n3/15/2026\t12:30 am\t69.8\t49",
        [20, 21],
        [0.48, 0.49],
    ),
    "marks and no header": ("9:00; 20 °C; 48 %\n10:00; 21 °C; 49 %RH", [20, 21], [0.48, 0.49]),
    "by hand, with spaces and notes": ("9:00  20 °C  48 %  door open\n10:00  21 °C  49 %", [20, 21], [0.48, 0.49]),
    "by hand, named in the first line": ("time room RH\n9:00 20 48\n10:00 21 49", [20, 21], [0.48, 0.49]),
    "humidity before temperature": ("time,RH,temp F\n9:00,48,68\n10:00,49,69.8", [20, 21], [0.48, 0.49]),
    "shares": ("minutes;air C;RH\n0;20;0.48\n60;21;0.49", [20, 21], [0.48, 0.49]),
    "shares, one of them dry": ("minutes;air C;RH\n0;20;0.05\n60;21;0.49", [20, 21], [0.05, 0.49]),
    "a running number, and a dew point beside the humidity": (
        "No.,Date/Time,Temperature(°C),Humidity(%RH),Dew Point(°C)\n"
        "1,2026-03-01 09:00,20,48,8.7\n2,2026-03-01 10:00,21,49,9.9",
        [20, 21],
        [0.48, 0.49],
    ),
    "both units of one probe": ("time;°C;°F;RH %\n9:00;20;68;48\n10:00;21;69.8;49", [20, 21], [0.48, 0.49]),
    "no unit written: 20 is a room in °C alone": (
        "hours;temperature;humidity %\n0;20;48\n1;21;49",
        [20, 21],
        [0.48, 0.49],
    ),
    "no unit written: 68 is a room in °F alone": (
        "hours;temperature;humidity %\n0;68;48\n1;69.8;49",
        [20, 21],
        [0.48, 0.49],
    ),
    "T and RH": ("time;T (°C);RH (%)\n9:00;20;48\n10:00;21;49", [20, 21], [0.48, 0.49]),
    "a battery and a set point": (
        "time;battery %;set point °C;cabinet °C;cabinet %RH\n9:00;88;18;20;48\n10:00;88;18;21;49",
        [20, 21],
        [0.48, 0.49],
    ),
    "a silica cupboard, its percent named": (
        "time;cupboard °C;humidity %\n9:00;20;12\n10:00;21;13",
        [20, 21],
        [0.12, 0.13],
    ),
    "a refrigerator": ("time;fridge °C;humidity %\n9:00;4;60\n10:00;5;62", [4, 5], [0.60, 0.62]),
    "a freezer": ("time;freezer °C;humidity %\n9:00;-18;60\n10:00;-19;62", [-18, -19], [0.60, 0.62]),
    "two rows of names, the second of units": (
        "Time,Temp,RH\n,°F,%\n2026-03-01 09:00,68,48\n2026-03-01 10:00,69.8,49",
        [20, 21],
        [0.48, 0.49],
    ),
    "quoted decimal commas": (
        '"Time","Temp (°C)","RH (%)"\n"9:00","20,0","48,0"\n"10:00","21,0","49,0"',
        [20, 21],
        [0.48, 0.49],
    ),
    "indoors and outdoors": (
        "time;indoor °C;indoor %;outdoor °C;outdoor %\n9:00;20;48;5;90\n10:00;21;49;5;90",
        [20, 21],
        [0.48, 0.49],
    ),
    "humidity first, by its mark": ("9:00; 48 %; 20 °C\n10:00; 49 %; 21 °C", [20, 21], [0.48, 0.49]),
    "°F in each cell, no header": ("9:00 am, 68F, 48%\n10:00 am, 69.8F, 49%", [20, 21], [0.48, 0.49]),
    "channels named by what they are": (
        "Time,Channel 1 (Temperature °C),Channel 2 (Humidity %RH)\n2026-03-01 09:00,20,48\n2026-03-01 10:00,21,49",
        [20, 21],
        [0.48, 0.49],
    ),
    "a gap and an error code": (
        "time;room °C;RH\n9:00;20;48\n9:30;;\n"
        + "9:40;20;48\n" * 1
        + "".join(f"10:{m:02d};20;48\n" for m in range(20))
        + "11:00;21;999",
        [20] * 22 + [21],
        [0.48] * 22 + [np.nan],
    ),
}


@pytest.mark.parametrize("name", CLEAR)
def test_what_is_clear_is_read(name):
    text, degrees, shares = CLEAR[name]
    log = read_store(text)
    assert log["degC"].tolist() == pytest.approx(degrees)
    assert log["humidity"].tolist() == pytest.approx(shares, nan_ok=True)
    assert log.how.said and "surface" not in log


REFUSED = {
    "bare numbers": ("9:00;21;68\n10:00;21;69", "row 1, and no word or mark"),
    "times without a unit": (
        "time;room °C;RH\n0;21;48\n1;21;49",
        "from 0 to 1 without a unit, which can be minutes, hours or days",
    ),
    "grams of water in the air": ("time;room °C;humidity\n9:00;21;8.1\n10:00;21;8.2", "dew point, or grams"),
    "a dew point called humidity": ("time;room °C;humidity\n9:00;21;12.6\n10:00;21;12.9", "dew point"),
    "a humidity above 100": ("time;room °C;RH\n9:00;21;148\n10:00;21;149", "no relative humidity"),
    "a humidity below nought": ("time;room °C;RH\n9:00;21;-48\n10:00;21;-49", "no relative humidity"),
    "a sensor that shows nought": ("time;room °C;RH\n9:00;21;0\n10:00;21;0", "no relative humidity"),
    "grams of water alone": ("time;absolute humidity g/m3\n9:00;8\n10:00;8", "not the relative humidity"),
    "no store is as cold as this, nor as warm": ("time;room °C;RH\n9:00;-5;48\n10:00;-6;49", "no freezer"),
    "words with numbers where the humidity should be": (
        "time;room °C;RH\n9:00;21;4x8\n10:00;21;49",
        "no relative humidity",
    ),
    "a quarter of it no store's": (
        "time;room °C;RH\n9:00;19;48\n10:00;99;48\n11:00;19;48\n12:00;19;48",
        "the first in row 3",
    ),
    "a second number that nothing names": ("time temp\n9:00 21 68\n10:00 21 69", "row 2, with a second number"),
    "swapped": ("time;room °C;RH\n9:00;48;21\n10:00;49;21", "not a store room"),
    "°F called °C": ("time;room °C;RH\n9:00;70;48\n10:00;71;48", "not a store room"),
    "°C called °F": (
        "time;room °F;RH\n9:00;20.5;48\n10:00;20.5;48",
        "20.5 °F in the middle of the log: no store, no refrigerator",
    ),
    "two rooms": ("time;T1 °C;RH1;T2 °C;RH2\n9:00;21;48;18;55\n10:00;21;48;18;55", "'T1 °C', 'T2 °C'"),
    "two channels without a name": ("time;CH1;CH2\n9:00;21;48\n10:00;21;48", "'CH1', 'CH2'"),
    "the day's extremes": (
        "date;max temp;min temp;max RH\n2026-03-01;21;15;60\n2026-03-02;21;15;61",
        "highest and lowest",
    ),
    "decimal commas between commas": ("time,room °C,RH\n9:00,21,5,48,2\n10:00,21,5,48,2", "row 2, with more columns"),
    "one reading": ("time;room °C;RH\n9:00;21;48", "1 reading"),
    "nothing": ("good morning\n", "no row holds"),
    "a dew point warmer than the air": ("time;room °C;dew point °C\n9:00;21;25\n10:00;21;25", "above the temperature"),
    "two humidities": ("time;room °C;RH 1;RH 2\n9:00;21;48;50\n10:00;21;48;50", "several columns of humidity"),
    "two humidities and no temperature": ("time;RH 1;RH 2\n9:00;48;50\n10:00;48;50", "several columns of humidity"),
    "a day and a month that is none": ("date;room °C;RH\n2026-13-45 9:00;21;48\n2026-13-45 10:00;21;48", "row"),
}


@pytest.mark.parametrize("name", REFUSED)
def test_what_is_open_or_wrong_is_said_with_a_remedy(name):
    text, said = REFUSED[name]
    with pytest.raises(StudentError) as caught:
        read_store(text)
    assert said in str(caught.value) and caught.value.needed and caught.value.example


def test_a_shelf_is_read_beside_the_air():
    log = read_store(SURFACE)
    assert log["surface"].tolist() == [18, 17.5] and log["degC"].tolist() == [21, 21]
    assert any("surface" in said and "'shelf °C'" in said for said in log.how.said)


def test_of_two_surfaces_the_colder_counts_reading_by_reading():
    log = read_store("time;room °C;RH;shelf °F;outer wall °C\n9:00;21;48;59;16\n10:00;21;48;60.8;15.5\n11:00;21;48;;14")
    assert any("the coldest of 'shelf °F', 'outer wall °C'" in said for said in log.how.said)
    assert log["surface"].tolist() == pytest.approx([15, 15.5, 14])  # 59 °F is 15 °C, 60.8 °F is 16 °C


def test_a_shelf_with_a_humidity_of_its_own_is_air_and_is_asked_for():
    text = "time;door °C;door %;shelf °C;shelf %\n9:00;21;48;18;55\n10:00;21;48;18;56"
    with pytest.raises(StudentError, match="'door °C', 'shelf °C'"):
        read_store(text)
    log = read_store(text, column="shelf °C")
    assert log["humidity"].tolist() == [0.55, 0.56] and "surface" not in log


def test_a_log_of_one_quantity_keeps_it_and_says_what_is_missing():
    log = read_store("time;room °C\n9:00;21\n10:00;22")
    assert np.isnan(log["humidity"]).all() and "No humidity stands in this log." in log.how.said
    log = read_store("time,humidity\n9:00,48%\n10:00,49%")
    assert np.isnan(log["degC"]).all() and log["humidity"].tolist() == [0.48, 0.49]


def test_humidity_alone_by_hand_with_spaces():
    for text in ("time RH\n9:00 48\n10:00 49\n11:00 50\n", "9:00 48 %\n10:00 49 %\n11:00 50 %\n"):
        log = read_store(text)
        assert log["humidity"].tolist() == [0.48, 0.49, 0.50] and np.isnan(log["degC"]).all()
    log = read_store("time temp\n9:00 19.1 C\n10:00 19.3 C\n11:00 19.2 C\n")
    assert log["degC"].tolist() == [19.1, 19.3, 19.2] and np.isnan(log["humidity"]).all()


def test_a_dew_point_becomes_humidity():
    """20 °C with a dew point of 9.27 °C is 50 %, of 12.01 °C 60 %: CoolProp and psychrolib agree on these dew points."""
    log = read_store("time;room °C;dew point °C\n9:00;20;9.27\n10:00;20;12.01")
    assert log["humidity"].tolist() == pytest.approx([0.50, 0.60], abs=5e-4)


def test_a_dew_point_a_touch_above_the_air_is_air_that_is_full():
    log = read_store("time;room °C;dew point °C\n9:00;20;20.6\n10:00;20;12.01")
    assert log["humidity"][0] == 1.0


def test_of_readings_at_one_time_the_most_humid_is_kept():
    log = read_store("time;room °C;RH\n9:00;21;48\n9:00;20;80\n9:00;21;50\n10:00;21;48")
    assert log["humidity"].tolist() == [0.80, 0.48] and log["degC"].tolist() == [20, 21]


def test_a_wet_sensor_above_100_counts_as_100_and_is_said():
    log = read_store("time;room °C;RH\n9:00;21;101.5\n10:00;21;99")
    assert log["humidity"].tolist() == [1.0, 0.99]
    assert any("above 100" in said for said in log.how.said)


def test_long_days_with_dates_count_from_the_first():
    rows = "".join(f"{day:02d}.03.2026 {hour:02d}:00;20,0;48,0\n" for day in range(1, 31) for hour in range(24))
    log = read_store("Zeit;Temp °C;RH %\n" + rows)
    assert len(log) == 720 and log["minutes"][-1] == 719 * 60 and log.how.clock


def test_grams_of_water_beside_a_temperature_are_left_out_and_said():
    log = read_store("time;room °C;absolute humidity g/m3\n9:00;21;8.1\n10:00;21;8.2")
    assert np.isnan(log["humidity"]).all()
    assert "'absolute humidity g/m3' is not the relative humidity." in log.how.said


def test_a_column_can_be_named_by_the_caller():
    text = "time;CH1;CH2;CH3\n9:00;21;48;18\n10:00;21;49;18"
    log = read_store(text, column="CH1", humidity="CH2", surface="column 4")
    assert (log["degC"].tolist(), log["humidity"].tolist(), log["surface"].tolist()) == (
        [21, 21],
        [0.48, 0.49],
        [18, 18],
    )
    with pytest.raises(StudentError, match="no column 'CH9'"):
        read_store(text, column="CH9")


def test_units_and_times_may_be_said_by_the_caller():
    log = read_store("time;temp;RH\n0;68;48\n1;69.8;49", unit="degF", times="hours")
    assert log["degC"].tolist() == pytest.approx([20, 21]) and log["minutes"].tolist() == [0, 60]
    with pytest.raises(StudentError, match="the unit"):
        read_store("time;temp;RH\n9:00;68;48\n10:00;69;48", unit="kelvin")


def test_a_probe_that_starts_anew_is_no_heat_wave():
    """85 °C stands in the memory of a common sensor until its first reading; no store was ever so warm."""
    log = read_store(
        "time;room °C;RH\n" + "9:00;85;48\n" + "".join(f"{h}:00;19.{h % 3};48.{h % 7}\n" for h in range(10, 20))
    )
    assert np.isnan(log["degC"][0]) and np.nanmax(log["degC"]) < 20
    assert any("Error codes of the probe: 1" in said for said in log.how.said)
