"""The doors of the store room, its default errors, and what its figures read: never better than they are."""

import math

import pytest

from pastrylab import StudentError, storage
from pastrylab.trade.storage import box, tray
from pastrylab.trade.storage.moist_air import moist_air

TRAY = {"surface": "15 degC", "air": "22 degC", "humidity": "55 %"}
WAIT = {"start": "5 degC", "air": "22 degC", "humidity": "50 %", "halving": "20 min"}
DRY = {"volume": "20 L", "air": "20 degC", "humidity": "60 %", "down_to": "40 %", "uptake": "20 %"}
ENDS = (["-40 degC", "60 degC"], ["-40.5 degC", "60.5 degC"])
SHARE = ([0.01, 1, "1 %", "100 %"], [0.009, 1.01, 0])

# function, its other arguments, the argument, let in, turned away: as the docstrings say
DOORS = [
    (storage.vapour_pressure, {}, "temperature", *ENDS),
    (storage.vapour_pressure, {"temperature": "20 degC"}, "humidity", *SHARE),
    (storage.dew_point, {"humidity": 0.5}, "air", *ENDS),
    (storage.dew_point, {"air": "20 degC"}, "humidity", *SHARE),
    (storage.surface_humidity, {"air": "20 degC", "humidity": 0.5}, "surface", *ENDS),
    (storage.surface_humidity, {"surface": "20 degC", "humidity": 0.5}, "air", *ENDS),
    (storage.surface_humidity, {"surface": "20 degC", "air": "20 degC"}, "humidity", *SHARE),
    (storage.carried, {"air": "20 degC", "humidity": 0.5}, "to", *ENDS),
    (storage.carried, {"to": "20 degC", "humidity": 0.5}, "air", *ENDS),
    (storage.carried, {"to": "20 degC", "air": "20 degC"}, "humidity", *SHARE),
    (storage.coldest_surface, {"air": "20 degC", "humidity": 0.5}, "limit", [0.3, 1], [0.29, 1.01]),
    (storage.may_come_out, TRAY, "probe_error", ["0 degC", "5 degC"], ["-0.1 degC", "5.1 degC"]),
    (storage.may_come_out, TRAY, "humidity_error", [0, 0.2], [-0.01, 0.21]),
    (storage.how_long_wrapped, WAIT, "halving", ["0.5 min", "3000 min"], ["0 min", "3001 min"]),
    (storage.how_long_wrapped, WAIT, "halving_error", ["0 min", "19.9 min"], ["-0.1 min", "20 min"]),
    (
        storage.how_long_wrapped,
        {**WAIT, "halving": "2000 min"},
        "halving_error",
        ["1000 min"],
        ["1001 min"],
    ),
    (storage.box_with, {"what": "wet table salt"}, "temperature", ["15 degC", "30 degC"], ["14.5 degC", "30.5 degC"]),
    (storage.water_in_air, {"air": "20 degC", "humidity": 0.5}, "volume", ["1 mL", "10000 L"], ["0 L", "10001 L"]),
    (
        storage.water_in_air,
        {"volume": "20 L", "air": "20 degC", "humidity": 0.5},
        "altitude",
        ["-450 m", "5000 m"],
        ["-451 m", "5001 m"],
    ),
    (storage.silica_for, DRY, "uptake", ["1 %", "50 %"], [0, "51 %"]),
    (storage.silica_for, DRY, "also", ["0 g", "5000 g"], ["-1 g", "5001 g"]),
    (storage.silica_for, DRY, "down_to", [0.01, 0.59], [0.6, 0.61]),
    (storage.lime_left, {}, "hardness", [0, 2000], [-1, 2001]),
    (storage.lime_left, {"hardness": 250}, "water", ["0 mL", "10 L"], ["-1 mL", "10001 mL"]),
]


@pytest.mark.parametrize(("function", "others", "name", "inside", "outside"), DOORS)
def test_each_door(function, others, name, inside, outside):
    for value in inside:
        function(**others | {name: value})
    for value in outside:
        with pytest.raises(StudentError):
            function(**others | {name: value})


def test_the_errors_where_nobody_says():
    """Common practice, no source: half a degree of a probe, five points of a hygrometer."""
    assert storage.may_come_out(**TRAY) == storage.may_come_out(
        **TRAY, kind="dark", probe_error="0.5 delta_degC", humidity_error="5 %"
    )
    assert storage.how_long_wrapped(**WAIT) == storage.how_long_wrapped(
        **WAIT, kind="dark", halving_error="0 min", probe_error="0.5 delta_degC", humidity_error="5 %"
    )
    assert storage.lime_left(100).m_as("mg") == pytest.approx(0.005)  # twenty drops to a millilitre


def test_humidity_with_its_error_stays_a_humidity():
    low, _, high = tray.at_the_ends(22.0, 22.0, 0.98, 0.0, 0.05)
    assert (low, high) == (pytest.approx(0.93), 1.0)
    low, _, high = tray.at_the_ends(22.0, 22.0, 0.03, 0.0, 0.05)
    assert (low, high) == (0.01, pytest.approx(0.08))


def test_carried_air_is_never_more_than_full():
    # Magnus, Alduchov & Eskridge 1996: 22 degC against 18 degC, 26.40 / 20.60 = 1.281
    assert storage.carried("22 degC", "50 %", "18 degC") == pytest.approx(0.641, abs=0.002)
    assert storage.carried("18 degC", "50 %", "22 degC") == pytest.approx(0.390, abs=0.002)
    assert storage.carried("22 degC", "90 %", "18 degC") == 1


def test_the_table_for_a_pencil():
    # Hyland & Wexler 1983 as in ASHRAE Fundamentals 2017, equation 6, to a tenth of a hPa
    assert dict(storage.saturation_table())[0] == 6.1
    assert dict(storage.saturation_table()) | {0: 6.1} == dict(storage.saturation_table(0, 30, 1))
    assert len(storage.saturation_table()) == 31
    assert storage.saturation_table(10, 20, 5) == ((10, 12.3), (15, 17.1), (20, 23.4))
    with pytest.raises(StudentError):
        storage.saturation_table(50, 61)


def test_figures_read_no_better_than_they_are():
    found = storage.may_come_out("15.03 degC", "22 degC", "55 %", "dark")
    low, middle, high = found.humidity
    assert f"{math.ceil(100 * middle)} %, {math.floor(100 * low)} % to {math.ceil(100 * high)} %" in found.sentence
    wait = storage.how_long_wrapped(**WAIT, kind="milk")
    assert f"for {math.ceil(wait.minutes[2])} minutes" in wait.sentence
    assert f"of {math.floor(wait.minutes[0])} to" in wait.sentence
    assert f"{math.ceil(10 * wait.unwrap_at.m_as('degC')) / 10:g} °C" in wait.sentence


def test_the_reading_to_wait_for_stands_in_both_scales():
    """15.7 °C are 60.26 °F."""
    assert "15.7 °C (60.3 °F)" in storage.how_long_wrapped("5 degC", "21 degC", "50 %", "20 min").sentence


def test_a_room_too_damp_for_any_wait_says_so():
    said = storage.may_come_out("10 degC", "22 degC", "80 %", "milk")
    assert "No wait will do" in said.advice
    assert "until the coldest piece reads" in storage.may_come_out("10 degC", "22 degC", "50 %", "milk").advice
    by_one_probe = storage.how_long_wrapped("5 degC", "21 degC", "75 %", "20 min")
    assert by_one_probe.verdict == "so long"
    assert by_one_probe.unwrap_at.m_as("degC") > 21
    assert "one probe" in by_one_probe.sentence


def test_what_each_kind_is_said_to_draw():
    said = {kind: storage.may_come_out(**TRAY, kind=kind).sentence for kind in ("dark", "milk", "white")}
    assert "at 82 to 85 %." in said["dark"]
    assert "at 78 %." in said["milk"]
    assert "White chocolate is judged by milk's 78 %: no source was found for it." in said["white"]
    assert (
        "White couverture 28 % chocolate is judged"
        in storage.may_come_out(**TRAY, kind="white couverture 28 %").sentence
    )


def test_the_copy_of_the_library_is_our_own():
    import psychrolib

    before = psychrolib.GetUnitSystem()
    psychrolib.SetUnitSystem(psychrolib.IP)
    try:
        assert storage.dew_point("22 degC", "50 %").m_as("degC") == pytest.approx(11.11, abs=0.01)
        assert moist_air() is not psychrolib
        assert psychrolib.GetUnitSystem() == psychrolib.IP
        assert moist_air().has_numba is False
    finally:
        if before is not None:
            psychrolib.SetUnitSystem(before)


def test_what_stands_in_a_box_is_named():
    with pytest.raises(StudentError, match="wet cloth, wet table salt or silica gel"):
        storage.box_with("a sponge", "20 degC")
    assert {box.CLOTH, box.SALT, box.SILICA} == {"wet cloth", "wet table salt", "silica gel"}
