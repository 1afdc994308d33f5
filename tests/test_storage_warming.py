"""A tray opened after so many minutes: Newton's halves by counting, the air on it by the Magnus formula."""

import math
import random

import pytest

from pastrylab.ground.units import StudentError
from pastrylab.trade import storage
from pastrylab.trade.storage.warming import after_halvings

NO_ERROR = {"probe_error": "0 delta_degC", "humidity_error": 0}


def full(celsius):
    """Magnus, Alduchov & Eskridge 1996, J. Appl. Meteorol. 35:601."""
    return 6.1094 * math.exp(17.625 * celsius / (243.04 + celsius))


# 4 degC in 20 degC: 16 colder, then 8, 4, 2.
@pytest.mark.parametrize(("spent", "stands"), [(0, 4), (1, 12), (2, 16), (3, 18)])
def test_what_lies_on_a_tray_after_whole_halvings(outside, spent, stands):
    low, read, high = after_halvings(4.0, 20.0, 0.5, float(spent), 0.5, 0.05)
    outside(
        quantity=f"humidity on a tray at {stands} degC in air of 20 degC, 50 %",
        expected=0.5 * full(20) / full(stands),
        got=read,
        tolerance=0.003,
        source="Magnus formula, Alduchov & Eskridge 1996, J. Appl. Meteorol. 35:601",
    )
    assert low < read < high
    # One corner by hand: tray and room half a degree colder than read, 5 % drier and damper.
    left = 16 / 2**spent
    assert (
        low <= 0.45 * full(19.5) / full(19.5 - left) + 0.003 and high >= 0.55 * full(19.5) / full(19.5 - left) - 0.003
    )


def test_the_film_of_the_july_morning():
    """27 degC and 58 %, milk from 4 degC, halving in 15 minutes, opened after 25: worked in the lesson."""
    found = storage.film_off("25 min", "4 degC", "27 degC", "58 %", "15 min", "milk", "0.5 delta_degC", "3 %")
    assert found.stands_at == pytest.approx(27 - 23 * 0.5 ** (25 / 15)) and found.humidity[1] == pytest.approx(
        0.898, abs=0.002
    )
    assert found.verdict == "too soon" and found.humidity[0] < 0.898 < found.humidity[2] < 1


def test_it_opens_at_the_very_minute_it_may():
    needed = 20 - 16 / 4  # milk at 78 %: the air is chosen so that 16 degC, two halvings, is the limit
    share = 0.78 * full(needed) / full(20)
    told = {
        m: storage.film_off(f"{m} min", "4 degC", "20 degC", share, "20 min", "milk", **NO_ERROR).verdict
        for m in (39, 41)
    }
    assert told == {39: "too soon", 41: "long enough"}


def test_verdicts_hold_at_every_end():
    """Whatever the true tray, room and air within the errors: long enough is below the limit, too soon above it."""
    dice = random.Random(3)
    seen = set()
    for _ in range(60):
        air, share, halving = dice.uniform(16, 30), dice.uniform(0.3, 0.7), dice.uniform(5, 60)
        start, opened = dice.uniform(-18, 12), dice.uniform(0, 120)
        found = storage.film_off.floats(opened, start, air, share, halving, "milk", 0.5, 0.03)
        seen.add(found.verdict)
        for _ in range(10):
            room, tray = air + dice.uniform(-0.5, 0.5), start + dice.uniform(-0.5, 0.5)
            stands = room + (tray - room) * 0.5 ** (opened / halving)
            true = (share + dice.uniform(-0.03, 0.03)) * full(room) / full(stands)
            assert not (found.verdict == "long enough" and true > 0.783), (opened, start, air, share)
            assert not (found.verdict == "too soon" and true < 0.777), (opened, start, air, share)
    assert seen == {"long enough", "too soon", "cannot tell"}


def test_a_damp_room_is_never_long_enough():
    found = storage.film_off("50 h", "4 degC", "20 degC", "85 %", "20 min", "milk")
    assert found.verdict == "too soon" and found.minutes[2] == math.inf


@pytest.mark.parametrize(
    "given",
    [
        ("-1 min", "4 degC", "20 degC", "50 %", "20 min"),
        ("20 degC", "4 degC", "20 degC", "50 %", "20 min"),
        ("20 min", "4 degC", "20 degC", "50 %", "0 min"),
        ("20 min", "4 degC", "90 degC", "50 %", "20 min"),
        ("20 min", "4 degC", "20 degC", "0 %", "20 min"),
        ("20 min", "-60 degC", "20 degC", "50 %", "20 min"),
        ("20 min", "4 degC", "20 degC", "50 %", "20 min", "caramel"),
    ],
)
def test_what_is_no_tray_is_said(given):
    with pytest.raises(StudentError):
        storage.film_off(*given)
