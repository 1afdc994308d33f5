"""What a store room's log shows, in hours worked out on paper: straight lines through the readings, limits of 82, 85, 78 %."""

import numpy as np
import pandas as pd
import pytest

from pastrylab import StudentError
from pastrylab.logs.store import BEYOND, CANNOT_TELL, WITHIN, read_store, review_store
from pastrylab.logs.store.doubts import stuck_humidity, stuck_probe
from pastrylab.logs.store.spans import Span, at_least, beside, gaps
from pastrylab.logs.store.swings import word


def log(humidity, degrees=None, step=1.0, surface=None):
    """A log by the hour; humidity in %."""
    n = len(humidity)
    warm = np.array([18.1, 18.2] * n)[:n] if degrees is None else np.asarray(degrees, float)
    frame = pd.DataFrame(
        {"minutes": 60 * step * np.arange(n), "degC": warm, "humidity": np.array(humidity, float) / 100}
    )
    return frame if surface is None else frame.assign(surface=surface)


# From 70.1 % straight up to 90.1 % in ten hours and down again: two per cent an hour.
HILL = [*np.arange(70.1, 90.2, 2.0), *np.arange(88.1, 70.0, -2.0), *[70.1, 70.3] * 3]


def test_hours_over_and_open_by_hand():
    """Error 3: surely above 85 where the reading is above 88, which is reached after (88 − 70.1) ÷ 2 = 8.95 h and left
    as long before hour 20: 20 − 2 × 8.95 = 2.1 h. Perhaps at 82 from a reading of 79 on, after 4.45 h: 11.1 h in all,
    so 9.0 h are open."""
    got = review_store(log(HILL), "dark", None, "3 %", "0 delta_degC")
    assert got.hours_over == pytest.approx(2.1) and got.hours_open == pytest.approx(9.0)
    assert got.verdict == BEYOND and "2.1 h at least" in " ".join(got.sentences)


def test_no_error_and_one_limit_leave_nothing_open():
    """Milk, 78 %: reached after (78 − 70.1) ÷ 2 = 3.95 h, so above it for 20 − 7.9 = 12.1 h."""
    got = review_store(log(HILL), "milk", None, "0 %", "0 delta_degC")
    assert got.hours_over == pytest.approx(12.1) and got.hours_open == pytest.approx(0, abs=1e-6)


def test_a_larger_error_takes_hours_from_over_and_gives_them_to_open():
    small, large = (review_store(log(HILL), "dark", None, f"{e} %") for e in (1, 6))
    assert small.hours_over > large.hours_over and small.hours_open < large.hours_open


@pytest.mark.parametrize(
    ("peak", "verdict"),
    [(81.9, WITHIN), (82.0, CANNOT_TELL), (85.0, CANNOT_TELL), (85.1, BEYOND)],
)
def test_at_the_limit_itself(peak, verdict):
    """Below 82 no bloom is seen, above 85 it is; at 82 and at 85 the source leaves it open. Error nought."""
    got = review_store(log([60.1, 60.3] * 12 + [peak, 60.1, 60.3]), "dark", None, "0 %", "0 delta_degC")
    assert got.verdict == verdict


@pytest.mark.parametrize(
    ("peak", "verdict"), [(78.9, WITHIN), (79.1, CANNOT_TELL), (88.1, BEYOND), (87.9, CANNOT_TELL)]
)
def test_the_error_is_taken_against_the_reader(peak, verdict):
    """Error 3: 78.9 + 3 is below 82, 79.1 + 3 is not; 88.1 − 3 is above 85, 87.9 − 3 is not."""
    assert review_store(log([60.1, 60.3] * 12 + [peak, 60.1, 60.3]), "dark", None, "3 %").verdict == verdict


def test_whole_per_cent_hide_half_a_per_cent_more():
    """Error 2.8: 78 + 2.8 + 0.5 is below 82; 79 + 2.8 + 0.5 is not, while 79.1 in tenths is."""
    rooms = [[60, 61] * 12 + [78, 60, 61], [60, 61] * 12 + [79, 60, 61], [60.1, 61.1] * 12 + [79.1, 60.1, 61.1]]
    found = [review_store(log(room), "dark", None, "2.8 %").verdict for room in rooms]
    assert found == [WITHIN, CANNOT_TELL, WITHIN]


def test_white_has_no_upper_end_but_water():
    got = review_store(log([60.1, 60.3] * 12 + [90.1, 60.1]), "white", None, "0 %")
    assert got.verdict == CANNOT_TELL and got.hours_over == 0 and got.hours_open > 0
    assert review_store(log([60.1, 60.3] * 12 + [100, 60.1]), "white", None, "0 %").verdict == BEYOND


def test_a_colder_shelf_by_the_table_of_saturation_pressures():
    """20 °C holds 23.39 hPa, 15 °C 17.06 hPa (ASHRAE 2017 table, read). 60 % of 20 °C is 82.3 % at 15 °C, 65 % 89.1 %,
    75 % 102.8 %: water settles."""
    found = [
        review_store(log([h] * 4, [20.0] * 4), "dark", "5 delta_degC", "0 %", "0 delta_degC").surface
        for h in (60.1, 65.1, 75.1)
    ]
    assert [round(float(one.read[0]), 3) for one in found] == pytest.approx([0.824, 0.893, 1.030], abs=1.5e-3)
    wet = review_store(log([75.1, 75.2] * 2, [20.0, 20.1] * 2), "dark", "5 delta_degC", "0 %", "0 delta_degC")
    assert wet.hours_wet == pytest.approx(3) and "Water settled once" in " ".join(wet.sentences)


def test_no_air_holds_more_than_all_even_with_the_error():
    """98 % and 5 % more is 100 %: at 15 °C, from 20 °C, at most 23.39 ÷ 17.06 = 1.371."""
    got = review_store(log([98.1] * 4, [20.0] * 4), "dark", "5 delta_degC", "5 %", "0 delta_degC").surface
    whole = review_store(log([98.1] * 4, [20.0, 20.1] * 2), "dark", "5 delta_degC", "5 %", "0 delta_degC").surface
    assert whole.high[0] == pytest.approx(1.371, abs=1.5e-3) and got.high[0] > whole.high[0]


@pytest.mark.parametrize(("degrees", "verdict"), [(23.1, WITHIN), (23.0, CANNOT_TELL), (22.0, WITHIN)])
def test_whole_degrees_hide_half_a_degree_more(degrees, verdict):
    """Error 0.5: 23.1 in tenths stays below 24; 23 in whole degrees can be 24; 22 cannot."""
    room = [degrees - 1, degrees] * 13
    assert review_store(log([50.1, 50.3] * 13, room), "dark", None, "3 %", "0.5 delta_degC").verdict == verdict


def test_the_first_sentence_is_the_verdict():
    rooms = {50: "Within the limits, as far as these sensors saw.", 95: "Beyond a limit, as far as these sensors saw."}
    rooms[83] = "Cannot tell whether this store stayed within the limits."
    for humidity, said in rooms.items():
        assert review_store(log([humidity + 0.1, humidity + 0.3] * 13)).sentences[0] == said


@pytest.mark.parametrize(("kind", "band"), [("dark", True), ("milk", False)])
def test_why_hours_are_open_is_said(kind, band):
    said = " ".join(review_store(log(HILL), kind, None, "3 %").sentences)
    assert "within the errors" in said and ("limit is not known better" in said) == band


def test_words_for_a_days_swing():
    """Common practice, no source: up to 2 °C steady, up to 5 °C some swing."""
    assert [word(swing) for swing in (2.0, 2.1, 5.0, 5.1)] == ["steady", "some swing", "some swing", "wide swings"]


@pytest.mark.parametrize(
    ("kind", "said"),
    [("dark", "Dark chocolate draws water from 82 to 85 % on"), ("milk", "Milk chocolate draws water from 78 % on")],
)
def test_the_limit_is_said_as_its_source_has_it(kind, said):
    assert said in " ".join(review_store(log([50.1, 50.3] * 13), kind).sentences)


@pytest.mark.parametrize(("correction", "over"), [("0 %", 12.1), ("2 %", 14.1), ("-2 %", 10.1)])
def test_what_wet_salt_showed_is_added_to_each_humidity(correction, over):
    """Milk, no error: two per cent more are an hour more on either side of the hill, two less an hour less."""
    got = review_store(log(HILL), "milk", None, "0 %", "0 delta_degC", correction)
    assert got.hours_over == pytest.approx(over)
    said = {"0 %": None, "2 %": "Added to each humidity: 2 %.", "-2 %": "Taken from each humidity: 2 %."}[correction]
    assert [one for one in got.sentences if "each humidity" in one] == ([said] if said else [])
    assert said is None or got.sentences[1] == said
    assert f"for {int(over)} h at least" in " ".join(got.sentences)


def test_a_correction_moves_no_air_beyond_all():
    got = review_store(log([99.1, 99.3] * 13), "dark", None, "5 %", "0 delta_degC", "5 %").surface
    assert (got.read.max(), got.high.max()) == (1.0, 1.0) and got.low.max() == pytest.approx(0.95)


def test_a_measured_surface_counts_unless_the_reader_says_otherwise():
    cold = log([65.1] * 4, [20.1] * 4, surface=[15.1] * 4)
    assert review_store(cold, "dark", None, "0 %", "0 delta_degC").surface.read[0] > 0.88
    assert review_store(cold, "dark", "0 delta_degC", "0 %", "0 delta_degC").surface.read[0] == pytest.approx(0.651)


def test_both_probes_count_against_the_reader_at_a_measured_surface():
    """Magnus as Alduchov & Eskridge 1996 have it: 60.1 % of 20.1 °C on 15.1 °C, each half a degree off at the worst."""

    def holds(degrees):
        return 6.1094 * np.exp(17.625 * degrees / (243.04 + degrees))

    got = review_store(log([60.1] * 4, [20.1] * 4, surface=[15.1] * 4), "dark", None, "0 %", "0.5 delta_degC").surface
    assert got.high[0] == pytest.approx(0.601 * holds(20.6) / holds(14.6), abs=2e-3)
    assert got.low[0] == pytest.approx(0.601 * holds(19.6) / holds(15.6), abs=2e-3)


def test_a_told_difference_has_one_error():
    """A shelf told to be 5 °C colder: 4.5 to 5.5, whatever the air's thermometer is off."""

    def holds(degrees):
        return 6.1094 * np.exp(17.625 * degrees / (243.04 + degrees))

    got = review_store(log([60.1] * 4, [20.1] * 4), "dark", "5 delta_degC", "0 %", "0.5 delta_degC").surface
    assert got.high[0] == pytest.approx(0.601 * holds(20.1) / holds(14.6), abs=2e-3)
    assert got.low[0] == pytest.approx(0.601 * holds(20.1) / holds(15.6), abs=2e-3)


def test_the_air_alone_says_how_cold_a_shelf_may_be():
    """22 °C and 55 %: milk draws water from 78 % on, which is at 16.4 °C, 5.6 °C colder (storage.coldest_surface has it so
    from psychrolib; Magnus: 0.55 × 26.39 ÷ 0.78 = 18.61 hPa, which saturates at 16.4 °C)."""
    got = review_store(log([50.1, 55.0] * 13, [22.1, 22.0] * 13), "milk", None, "0 %", "0 delta_degC")
    assert any("a shelf or wall more than 5.6 °C (10.1 °F) colder" in one for one in got.sentences)
    got = review_store(log([80.1, 80.3] * 13), "milk", None, "0 %", "0 delta_degC")
    assert not any("a shelf or wall" in one for one in got.sentences)


def test_the_widest_day_is_named_not_the_warmest():
    degrees = [*[17.1] * 12, *[19.6] * 12, *[20.1] * 12, *[20.6] * 12]
    got = review_store(log([50.1, 50.3] * 24, degrees))
    assert any(
        "went from 17.1 °C (62.8 °F) to 19.6 °C (67.3 °F), 2.5 °C (4.5 °F) apart" in one for one in got.sentences
    )


def test_what_is_warmer_than_the_air_counts_as_the_air():
    got = review_store(log([65.1] * 4, [18.1] * 4, surface=[18.9] * 4), "dark", None, "0 %", "0 delta_degC")
    assert got.surface.read[0] == pytest.approx(0.651)


def test_nobody_knows_a_gap():
    """Eight hours missing of thirty: blind for eight, and no verdict."""
    rows = log([60.1, 60.3] * 16)
    got = review_store(rows[(rows["minutes"] <= 600) | (rows["minutes"] >= 1080)])
    assert got.hours_blind == pytest.approx(8) and got.verdict == CANNOT_TELL and "every hour" in got.advice


def test_a_thermometer_that_was_lost_for_hours_leaves_warmth_open():
    """Ten of thirty hours without a temperature; the humidity was read all the time."""
    rows = log([50.1, 50.3] * 16)
    assert review_store(rows).verdict == WITHIN
    rows.loc[(rows["minutes"] > 600) & (rows["minutes"] < 1200), "degC"] = np.nan
    got = review_store(rows)
    assert "every hour" in got.advice
    assert got.verdict == CANNOT_TELL and "10 h of 31 h no temperature" in " ".join(got.sentences)


def test_a_reading_alone_in_a_gap_still_counts():
    frame = pd.DataFrame({"minutes": [0.0, 600, 1200, 1800], "degC": 18.1, "humidity": [0.6, 0.95, 0.6, 0.61]})
    got = review_store(frame, "dark", None, "3 %")
    assert got.verdict == BEYOND and "single readings" in " ".join(got.sentences)


def test_warmth_of_24_degrees_speaks_against_a_dry_room():
    """75 °F are 23.88 and a little: error 0.5, surely so from 24.38 on; a degree an hour up to 25.1, and down again."""
    degrees = [22.1, 22.3] * 11 + [23.1, 24.1, 25.1, 24.1, 23.1]
    got = review_store(log([45.1, 45.3] * 13 + [45.1], degrees), "dark", None, "3 %", "0.5 delta_degC")
    assert got.verdict == BEYOND and got.hours_warm == pytest.approx(2 * (25.1 - 24.38)) and "24 °C" in got.advice
    near = [min(one, 23.6) for one in degrees]
    assert review_store(log([45.1, 45.3] * 13 + [45.1], near)).verdict == CANNOT_TELL


def test_days_are_those_of_the_calendar_where_the_log_has_a_clock():
    rows = "".join(
        f"2026-03-{1 + h // 24:02d} {h % 24:02d}:00;{18 + (h >= 24) * 2 + (h % 24 == 12)}.1;50.{h % 7}\n"
        for h in range(48)
    )
    got = review_store(read_store("time;room °C;RH %\n" + rows))
    assert [(round(day.low, 1), round(day.high, 1)) for day in got.days] == [(18.1, 19.1), (20.1, 21.1)]
    assert "steady" in " ".join(got.sentences)


def test_a_log_of_one_quantity_is_not_passed():
    warm = read_store("time (h);room °C\n" + "".join(f"{h};18.{h % 9}\n" for h in range(30)))
    got = review_store(warm)
    assert got.verdict == CANNOT_TELL and "sugar bloom cannot be judged" in " ".join(got.sentences)
    assert got.hours_blind == got.hours == 29 and got.dew_point is None
    damp = read_store("time (h);RH %\n" + "".join(f"{h};50.{h % 9}\n" for h in range(30)))
    assert review_store(damp).verdict == CANNOT_TELL
    wet = read_store("time (h);RH %\n" + "".join(f"{h};95.{h % 9}\n" for h in range(30)))
    assert review_store(wet).verdict == BEYOND


def test_a_short_log_is_not_passed():
    assert review_store(log([50.1, 50.3] * 5)).verdict == CANNOT_TELL


def test_the_probes_swapped_are_noticed():
    got = review_store(log([50.1, 50.3] * 13, [15.1, 15.2] * 13, surface=[20.1, 20.2] * 13))
    assert got.verdict == CANNOT_TELL and "swapped" in " ".join(got.sentences)


def test_a_humidity_too_low_for_a_room_is_not_passed():
    assert review_store(log([11.1, 11.3] * 13)).verdict == CANNOT_TELL


def test_a_stuck_hygrometer_and_one_that_is_not():
    """Six hours of one tenth while the room warms by 3 °C; the same while it stands; at 100 %, where air can stand."""
    hours = 60.0 * np.arange(12)
    warming = 18 + np.linspace(0, 3, 12)
    assert stuck_humidity(hours, warming, np.full(12, 0.483)) == (Span(0.0, 660.0),)
    assert stuck_humidity(hours, np.full(12, 18.0), np.full(12, 0.483)) == ()
    assert stuck_humidity(hours, warming, np.full(12, 1.0)) == ()
    assert stuck_humidity(hours[:6], np.linspace(18, 21, 6), np.full(6, 0.483)) == (Span(0.0, 300.0),)
    assert stuck_humidity(hours[:5], np.linspace(18, 21, 5), np.full(5, 0.483)) == (), "five readings are no proof"
    assert stuck_probe(60.0 * np.arange(30), np.full(30, 18.3)) == (Span(0.0, 1740.0),)
    assert stuck_probe(60.0 * np.arange(30), np.full(30, 18.0)) == ()


def test_spans_by_hand():
    t = np.array([0.0, 60, 120, 400, 460])
    assert gaps(t) == (Span(120.0, 400.0),)
    assert gaps(np.array([0.0, 180, 361])) == (Span(180.0, 361.0),), "three hours are the longest step"
    assert at_least(t, np.array([1.0, 3, 1, 3, 3]), 2.0) == (Span(30.0, 90.0), Span(400.0, 460.0))
    assert beside((Span(0, 100),), (Span(20, 30), Span(50, 60))) == (Span(0, 20), Span(30, 50), Span(60, 100))


BAD = [
    (lambda: review_store("my_store.csv"), "not a log"),
    (lambda: review_store(log([50.1] * 5), "caramel"), "caramel"),
    (lambda: review_store(log([50.1] * 5), colder="-3 delta_degC"), "-3"),
    (lambda: review_store(log([50.1] * 5), colder="2 kg"), "2 kg"),
    (lambda: review_store(log([50.1] * 5), humidity_error="60 %"), "at most 0.2"),
    (lambda: review_store(log([50.1] * 5), probe_error="9 delta_degC"), "9"),
    (lambda: review_store(log([50.1] * 5), correction="21 %"), "at most 0.2"),
    (lambda: review_store(log([50.1] * 5), correction="4"), "4 for correction"),
    (lambda: review_store(log([5010] * 5)), "outside 0 to 1"),
    (lambda: review_store(log([50.1] * 5, [np.nan] * 5), colder="3 delta_degC"), "without a temperature"),
    (lambda: review_store(log([50.1] * 5).assign(minutes=0.0)), "do not rise"),
    (lambda: review_store(log([50.1])), "fewer than two"),
]


@pytest.mark.parametrize(("call", "said"), BAD)
def test_what_cannot_be_used_is_said(call, said):
    with pytest.raises(StudentError, match=said):
        call()


def test_nothing_is_ever_called_safe():
    for frame in (log(HILL), log([50.1, 50.3] * 13), log([50.1] * 3)):
        got = review_store(frame)
        assert "safe" not in " ".join((*got.sentences, got.advice, got.cannot_show)).lower()
