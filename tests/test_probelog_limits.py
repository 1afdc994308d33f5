"""Either side of each limit of the log reader. The limits are common practice, no source: written here as they are meant,
and worked by hand on straight lines and on Newton's law; only the Food Code's temperatures are published.
"""

import numpy as np
import pandas as pd
import pytest

from pastrylab.ground.units import StudentError
from pastrylab.logs import faults, judge_making, judge_probe, judge_work, pan, read_log, review_log
from pastrylab.logs.bowl import MACHINE, METHODS, REWARMED, SEEDED, SLAB, SOFTENED, bowl, falls_by_seed
from pastrylab.logs.cream import check_cooling
from pastrylab.logs.findings import AGAINST, FOR, OPEN
from pastrylab.logs.jobs import CHOCOLATE, CREAM
from pastrylab.logs.plausible import halving, plausible
from pastrylab.logs.series import minutes_within

# Dark chocolate, all texts and practice together, as its tables give it: melt out from 44.4, cool 27.0 to 29.0, work
# 31.0 to 32.4, form V stands to 33.8, temper is lost above 34.0. A reading half a degree outside is at a band's edge.


def lines(*points, step=1.0):
    """(minutes, degC) on straight lines through (minute, degC) points."""
    minutes = np.arange(points[0][0], points[-1][0] + step / 2, step)
    return minutes, np.interp(minutes, *zip(*points, strict=True))


def made(points, method=SEEDED, error=0.5, told=None, step=1.0):
    """A Bowl of dark chocolate."""
    minutes, degrees = lines(*points, step=step)
    return bowl("dark", method, error, minutes, degrees, ("",) * len(minutes), told)


def sides(findings):
    return [finding.side for finding in findings]


# --- the probe ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("step", "by", "leaps"),
    [(1, 4.1, True), (1, 3.9, False), (0.25, 2.1, True), (0.25, 1.9, False), (1, -4.1, True), (1, -3.9, False)],
)
def test_a_leap_is_two_degrees_at_four_a_minute(step, by, leaps):
    degrees = np.full(9, 31.6)
    degrees[4] += by
    assert len(faults.jumps(np.arange(9) * step, degrees)) == leaps


@pytest.mark.parametrize(("where", "by", "leaps"), [(0, 8.1, 1), (0, 7.9, 0), (-1, 8.1, 1), (-1, 7.9, 0)])
def test_a_first_or_last_reading_leaps_at_eight_degrees_a_minute(where, by, leaps):
    degrees = np.full(9, 31.6)
    degrees[where] += by
    assert len(faults.jumps(np.arange(9.0), degrees)) == leaps


@pytest.mark.parametrize(("readings", "found"), [(1, 1), (2, 2), (3, 3), (4, 0)])
def test_no_more_than_three_readings_leap(readings, found):
    degrees = np.full(14, 31.6)
    degrees[5 : 5 + readings] += 10
    assert len(faults.jumps(np.arange(14.0), degrees)) == found


@pytest.mark.parametrize(("rests", "leaps"), [(2.9, True), (3.1, False)])
def test_a_leap_comes_back_to_within_half_of_it(rests, leaps):
    # 6 and more above the line, and then as far above where it was as said
    degrees = np.concatenate([np.full(5, 31.6), [31.6 + 6 + rests / 2], np.full(5, 31.6 + rests)])
    assert bool(faults.jumps(np.arange(11.0), degrees)) == leaps


def frozen(readings, leap, after=1.0, step=1.0):
    """A lively fall, so many equal readings, then a leap in `after` minutes, and a lively fall again."""
    before = 45 - 0.3 * np.arange(8)
    degrees = np.concatenate([before, np.full(readings - 1, before[-1]), before[-1] - leap - 0.3 * np.arange(8)])
    steps = np.full(len(degrees), step)
    steps[len(before) + readings - 1] = after
    return np.cumsum(steps), degrees


@pytest.mark.parametrize(
    ("made_of", "sure"),
    [
        (frozen(5, 1.6), [True]),
        (frozen(4, 1.6), []),
        (frozen(5, 1.4), []),
        (frozen(5, 1.6, after=1.5), [True]),
        (frozen(5, 1.6, after=1.7), []),
        (frozen(5, 1.6, step=0.51), [True]),
        (frozen(5, 1.6, step=0.49), []),
        (frozen(10, 0.3), [False]),
        (frozen(9, 0.3), []),
    ],
)
def test_when_a_probe_is_stuck(made_of, sure):
    assert [run.sure for run in faults.stuck(*made_of)] == sure


@pytest.mark.parametrize(("minutes", "found"), [(90, 1), (89, 0)])
def test_an_hour_and_a_half_of_one_reading_is_too_long_for_any_probe(minutes, found):
    assert len(faults.stuck(np.arange(minutes + 1.0), np.full(minutes + 1, 31.5))) == found


def hung(held=6.0, room=21.0, halves=2.0, at=31.6):
    """A bowl held, then its probe hung into a room."""
    t = np.arange(1.0, 31.0)
    return np.concatenate([[0.0, held], held + t]), np.concatenate([[at, at], room + (at - room) * 2 ** (-t / halves)])


@pytest.mark.parametrize(
    ("log", "band", "out"),
    [
        (hung(held=5.0), (30.5, 32.9), True),
        (hung(held=4.9), (30.5, 32.9), False),
        (hung(halves=2.6), (30.5, 32.9), True),
        (hung(halves=3.4), (30.5, 32.9), False),
        (hung(room=24.9), (30.5, 32.9), True),
        (hung(room=25.1), (30.5, 32.9), False),
        (hung(room=8.1), (30.5, 32.9), True),
        (hung(room=7.9), (30.5, 32.9), False),
        (hung(room=24.6, at=28.2), (27.5, 29.9), True),
        (hung(room=24.8, at=28.2), (27.5, 29.9), False),
    ],
)
def test_a_probe_hung_into_air(log, band, out):
    assert (faults.taken_out(*log, *band) < len(log[0])) == out


@pytest.mark.parametrize(
    ("minutes", "by", "out"), [(0.5, 6.1, True), (0.5, 5.9, False), (1.2, 10, True), (1.3, 10, False)]
)
def test_a_probe_put_into_warm_water(minutes, by, out):
    t, degrees = np.array([0.0, 10, 10 + minutes, 12]), np.array([31.6, 31.6, 31.6 + by, 31.6 + by])
    assert (faults.taken_out(t, degrees, 30.5, 32.9) < 4) == out


@pytest.mark.parametrize(("readings", "side"), [(9, FOR), (8, OPEN)])
def test_one_leap_in_ten_readings_is_let_pass(readings, side):
    it = made(((0, 46), (readings - 1, 31.6)))
    assert judge_probe.probe(it, (faults.Jump(2.5, 60.0, 19.0),), ())[0].side == side


@pytest.mark.parametrize(("readings", "found"), [(5, []), (4, [OPEN])])
def test_five_readings_are_the_fewest(readings, found):
    assert sides(judge_probe.probe(made(((0, 46), (readings - 1, 31.6))), (), ())) == found


# --- the making ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("peak", "side"), [(40.8, AGAINST), (41.0, OPEN), (43.8, OPEN), (44.0, FOR)])
def test_three_degrees_short_of_a_melt_out_is_not_melted_out(peak, side):
    # 44.4 - 3 = 41.4; half a degree for the probe, as much for the edge
    it = made(((0, 22), (20, peak), (30, peak), (45, 31.6), (60, 31.6)))
    assert judge_making.route(it)[0].side == side


@pytest.mark.parametrize(("stays", "side"), [(1.9, OPEN), (2.1, FOR)])
def test_crystals_start_by_themselves_in_two_minutes(stays, side):
    # at 28.0, and a step of 0.1 min down to it and up from it, of which 0.0857 lie below 29.5 on either side
    way = stays - 2 * 0.1 * (29.5 - 28.0) / (31.6 - 28.0)
    it = made(
        ((0, 46), (30, 31.6), (30.1, 28.0), (30.1 + way, 28.0), (30.2 + way, 31.6), (40, 31.6)), REWARMED, step=0.01
    )
    assert judge_making.dip(it)[0].side == side


@pytest.mark.parametrize(("warm", "found"), [(19, 0), (21, 1)])
def test_seed_stands_twenty_minutes_where_it_melts(warm, found):
    # seed at 10 min into 36.0, and out of it at a degree a second
    it = made(((0, 46), (10, 36), (10 + warm, 36), (10.1 + warm, 32), (90, 31.6)), told=10, step=0.1)
    assert len(judge_making.seeding(it)) == found


@pytest.mark.parametrize(("before_the_end", "found"), [(1.9, [OPEN]), (2.1, [])])
def test_a_seeding_shows_after_two_minutes(before_the_end, found):
    it = made(((0, 46), (15, 33.5), (20, 31.6)), told=20 - before_the_end)
    assert [side for side in sides(judge_making.seeding(it)) if side != FOR] == found


def fall(upper, lower):
    """From 44 °C to the edge of work, 32.9 °C: minutes for the upper and for the lower half of the way."""
    minutes = np.array([0, 1, 1 + upper, 1 + upper + lower, 2 + upper + lower])
    return minutes, np.array([46, 44, 38.45, 32.9 + 1e-9, 31.63])


@pytest.mark.parametrize(
    ("halves", "method", "seed"),
    [
        ((2.16, 3.24), SEEDED, True),  # 11.1 degrees in 5.4 minutes: more than 2 a minute, quicker than any bowl alone
        ((2.28, 3.42), SEEDED, False),  # in 5.7
        ((9.0, 18.0), SEEDED, True),  # the lower half takes twice as long: it comes to rest at its work
        ((9.5, 19.0), SEEDED, False),  # so slowly that it may be a warm room
        ((7.0, 13.3), SEEDED, False),  # 1.9 times as long: Newton's law can do that
        ((7.0, 13.86), SEEDED, True),  # 1.98 times
        ((4.76, 5.24), SEEDED, True),  # straight: 1.1 times
        ((4.54, 5.46), SEEDED, False),  # 1.2 times
        ((6.43, 7.07), SEEDED, True),  # straight, 0.82 degrees a minute
        ((6.9, 7.6), SEEDED, False),  # straight, 0.77
        ((35.0, 70.0), MACHINE, True),  # a machine takes its time
        ((35.0, 70.0), SEEDED, False),
        ((40.0, 80.0), MACHINE, False),
    ],
)
def test_a_fall_that_seed_makes(halves, method, seed):
    minutes, degrees = fall(*halves)
    assert falls_by_seed(bowl("dark", method, 0.5, minutes, degrees, ("",) * 5, None)) == seed


def test_where_it_falls_fastest_is_taken_for_the_seeding():
    t, degrees = lines((0, 22), (12, 46), (16, 46), (19, 43), (22, 34), (24, 32.4), (40, 31.6))
    log = pd.DataFrame({"minutes": t, "degC": degrees})
    assert review_log(log, "dark").seeded_at == 19  # three degrees a minute from there on
    assert review_log(log, "dark", "cooled and rewarmed").seeded_at is None


# --- at work ------------------------------------------------------------------------------------------------------


def excursion(to, minutes, method=SEEDED, told=15):
    """A sound bowl that goes up or down to a temperature for so many minutes, within a hundredth of a minute."""
    return made(
        (
            (0, 46),
            (15, 46),
            (25, 31.6),
            (40, 31.6),
            (40.01, to),
            (40.01 + minutes, to),
            (40.02 + minutes, 31.6),
            (70, 31.6),
        ),
        method,
        told=told,
        step=0.01,
    )


@pytest.mark.parametrize(
    ("to", "minutes", "side"),
    [
        (36.0, 2.1, AGAINST),  # 34.0 and the probe's half degree: surely lost after two minutes
        (36.0, 1.8, OPEN),
        (34.6, 2.1, AGAINST),
        (34.4, 2.1, OPEN),
        (34.4, 0.5, OPEN),
        (33.4, 15.5, OPEN),  # from 32.9 on for a quarter of an hour: it depends
        (33.4, 14.5, FOR),
    ],
)
def test_how_long_a_bowl_may_be_too_warm(to, minutes, side):
    assert judge_work.holding(excursion(to, minutes))[0].side == side


@pytest.mark.parametrize(("method", "brief"), [*zip(METHODS, (2, 2, 2, 5, 10), strict=True)])
def test_how_long_a_bowl_may_be_too_cold(method, brief):
    start = ((0, 22), (25, 31.6)) if method == SOFTENED else ((0, 46), (15, 46), (25, 31.6))
    for minutes, found in ((brief - 0.2, 0), (brief + 0.2, 1)):
        cold = (40, 31.6), (40.01, 25.0), (40.01 + minutes, 25.0), (40.02 + minutes, 31.6)
        # on a slab a bowl is judged from its stirring in on, but its cold counts from its coming to work
        it = made((*start, *cold, (70, 31.6)), method, told=15 if method in (SEEDED, MACHINE) else None, step=0.01)
        assert sum("colder than the cool band" in finding.said for finding in judge_work.holding(it)) == found


@pytest.mark.parametrize(
    ("last", "side"), [(31.6, FOR), (33.2, OPEN), (34.4, OPEN), (34.6, AGAINST), (30.0, OPEN), (28.0, AGAINST)]
)
def test_where_a_log_may_end(last, side):
    assert judge_work.end(made(((0, 46), (15, 46), (25, 31.6), (40, 31.6), (50, last)), told=15))[0].side == side


def test_a_slab_is_judged_five_minutes_after_its_cold_part_came_back():
    # cold until minute 40 (29.5 is the edge of the cool band), so from minute 45 on
    it = made(((0, 46), (20, 32), (30, 28), (40, 29.5), (41, 33.5), (80, 31.6)), SLAB)
    assert it.t[it.judged] == 45


# --- cream --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("begins", "warmed"), [(24.9, 2), (25.1, 0)])
def test_raw_cream_is_below_25_degrees(begins, warmed):
    assert pan.boiled(np.array([begins, 40, 60, 55]), 0.5) == warmed


@pytest.mark.parametrize(("leap", "minutes", "kept"), [(5.1, 5, 3), (4.9, 4, 4), (5.1, 5.2, 4)])
def test_a_probe_leaves_cold_cream_by_five_degrees_at_one_a_minute(leap, minutes, kept):
    t, degrees = np.array([0, 60, 120, 120 + minutes]), np.array([60, 20, 4.0, 4.0 + leap])
    assert pan.out_of_cold(t, degrees, 0.5) == kept


def doubted(minutes, degrees):
    return bool(pan.doubts(np.asarray(minutes, float), np.asarray(degrees, float), pan.Error(0.5, 0.5)))


def stands(at, readings, every, leap=0.0):
    """A pan that falls to a reading, shows it so many times, and falls on, after a leap where one is given."""
    before = [(0, 85), (40, at + 0.6 * (85 - at)), (80, at + 0.3 * (85 - at))]
    held = [(120 + every * k, at) for k in range(readings)]
    last = held[-1][0]
    after = [(last + 10 * (k + 1), at - leap - 0.5 * (k + 1)) for k in range(6)]
    return tuple(zip(*before, *held, *after, strict=True))


@pytest.mark.parametrize(
    ("log", "found"),
    [
        (stands(40, 4, 5.1, leap=2.6), True),  # 15.3 min, and 3.1 degrees to the next reading
        (stands(40, 4, 4.9, leap=2.6), False),
        (stands(40, 3, 8, leap=2.6), False),
        (stands(40, 4, 5.1, leap=2.4), False),
        (stands(30, 9, 5.1), True),  # 40.8 min, no leap
        (stands(30, 9, 4.9), False),
        (stands(30, 8, 6.0), False),
        (stands(26.1, 9, 5.1), True),
        (stands(25.9, 9, 5.1), False),
    ],
)
def test_when_the_probe_of_a_pan_froze(log, found):
    assert doubted(*log) == found


@pytest.mark.parametrize(("halves", "found"), [(2.8, True), (3.2, False)])
def test_no_pan_halves_its_excess_in_three_minutes(halves, found):
    # the coldest reading less half a degree counts as where it comes to rest
    t = np.arange(0, 60.0)
    assert doubted(t, 2.5 + 87.5 * 2 ** (-t / halves)) == found


# --- what a job can be --------------------------------------------------------------------------------------------


def course(job, halves, length, step=1.0):
    """A vessel that cools by Newton's law towards what the job takes for the coldest around it."""
    t = np.arange(0, length + step / 2, step)
    return t, job.around + (60 - job.around) * 2 ** (-t / halves)


@pytest.mark.parametrize(
    ("job", "log", "fits"),
    [
        (CHOCOLATE, course(CHOCOLATE, 2.2, 30, 0.5), True),
        (CHOCOLATE, course(CHOCOLATE, 1.8, 30, 0.5), False),
        (CHOCOLATE, course(CHOCOLATE, 410, 1400, 10), True),
        (CHOCOLATE, course(CHOCOLATE, 430, 1400, 10), False),
        (CREAM, course(CREAM, 5.4, 60, 0.5), True),
        (CREAM, course(CREAM, 4.6, 60, 0.5), False),
        (CREAM, course(CREAM, 1430, 2800, 10), True),
        (CREAM, course(CREAM, 1450, 2800, 10), False),
    ],
)
def test_how_fast_a_vessel_cools(job, log, fits):
    assert plausible(*log, job) == fits


@pytest.mark.parametrize(
    ("job", "length", "step", "fits"),
    [
        (CHOCOLATE, 3.1, 0.1, True),
        (CHOCOLATE, 2.9, 0.1, False),
        (CHOCOLATE, 1440, 10, True),
        (CHOCOLATE, 1450, 10, False),
        (CHOCOLATE, 960, 240, True),
        (CHOCOLATE, 964, 241, False),
        (CREAM, 3.1, 0.1, True),
        (CREAM, 2.9, 0.1, False),
        (CREAM, 2880, 10, True),
        (CREAM, 2890, 10, False),
        (CREAM, 964, 241, False),
    ],
)
def test_how_long_a_log_runs_and_how_often_it_is_read(job, length, step, fits):
    t = np.arange(0, length + step / 2, step)
    assert plausible(t, np.full(len(t), 31.6), job) == fits


@pytest.mark.parametrize(("falls", "told"), [(10.5, True), (10.2, False)])
def test_a_fall_of_five_degrees_says_how_fast(falls, told):
    # from two degrees below the warmest, 60 % of what is left is looked at: 5.1 degrees, and 4.9
    t, degrees = lines((0, 40), (10, 40 - falls), step=0.01)
    assert (halving(t, degrees, CHOCOLATE) is not None) == told


@pytest.mark.parametrize(("apart", "kept"), [(29, True), (31, None)])
def test_two_readings_half_an_hour_apart_do_not_show_a_stage(apart, kept):
    readings = ((0, 60), (apart, 20), (60, 12), (120, 8), (200, 4))
    log = pd.DataFrame(readings, columns=["minutes", "degC"], dtype=float)
    assert [stage.kept for stage in check_cooling(log).stages] == [kept, True]


@pytest.mark.parametrize(("value", "kept"), [(-29.9, True), (-30.1, False), (149.9, True), (150.1, False)])
def test_beyond_30_below_and_150_above_a_probe_shows_an_error_code(value, kept):
    log = read_log(f"minutes, degC\n0, 45.2\n5, 42.1\n10, {value}\n15, 36.3\n20, 33.4\n25, 31.6")
    assert (value in list(log["degC"])) == kept
    assert any("error code" in said for said in log.how.said) != kept


@pytest.mark.parametrize(("value", "refused"), [(89.0, False), (91.0, True)])
def test_no_bowl_begins_above_90_degrees(value, refused):
    text = f"minutes, degC\n0, {value}\n1, {value}\n2, 60\n3, 50\n5, 42.1\n10, 38.2\n15, 36.3\n20, 33.4\n25, 31.6"
    if refused:
        with pytest.raises(StudentError, match="is not chocolate in work"):
            read_log(text)
    else:
        assert read_log(text)["degC"].max() == value


@pytest.mark.parametrize(("warmest", "unit"), [(80.2, None), (81.2, "degF")])
def test_chocolate_in_work_comes_to_27_degrees(warmest, unit):
    # 80.2 °F are 26.8 °C, 81.2 are 27.3; in degrees Celsius either is too hot for it
    text = "minutes, probe\n" + "".join(f"{k}, {warmest - 0.1 * (k % 5)}\n" for k in range(30))
    if unit is None:
        with pytest.raises(StudentError, match="without a unit"):
            read_log(text)
    else:
        assert read_log(text).how.unit == unit


def test_a_single_reading_spends_no_time_anywhere():
    assert minutes_within(np.array([3.0]), np.array([31.6]), 31, 32) == 0


@pytest.mark.parametrize(("coldest", "kept"), [(4.4, 3), (4.6, 4)])
def test_only_surely_cold_cream_is_left_by_its_probe(coldest, kept):
    # half a degree for the probe: 4.4 is at 4.9 at the most, 4.6 may be 5.1
    assert pan.out_of_cold(np.array([0.0, 60, 120, 122]), np.array([60, 20, coldest, 18]), 0.5) == kept
