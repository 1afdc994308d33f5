"""The review of a probe's log against a published limit and common practice."""

import numpy as np
import pytest

from pastrylab.logs import CANNOT_TELL, CONSISTENT, METHODS, NOT_CONSISTENT, read_log, review_log

SEEDED, MACHINE, *_ = METHODS
GREWELING = "Greweling P.P., Chocolates and Confections, 2007: form V melts, temper lost above 34 °C (94 °F)"


def sheet(points, step=2):
    """A sheet in °F with clock times, on straight lines through (minute, degF) points."""
    minutes = np.arange(0, points[-1][0] + 1, step)
    degf = np.interp(minutes, *zip(*points, strict=True))
    rows = [f"{9 + m // 60}:{m % 60:02d}, {f:.1f} F" for m, f in zip(minutes, degf, strict=True)]
    return read_log("\n".join(rows) + "\n")


def held_at(degf, peak=115.0, minutes=60, at_work=90):
    return sheet([(0, 75), (16, peak), (20, peak), (38, at_work), (46, degf), (46 + minutes, degf)])


@pytest.mark.parametrize("error", [0.5, 0.1])
def test_melted_out_at_112_fahrenheit_is_sound(outside, error):
    review = review_log(held_at(89, peak=112.0), "dark", SEEDED, "22 min", error)
    outside(
        quantity=f"dark melted out at 112 °F (44.4 °C), probe good to {error} °C",
        expected=CONSISTENT,
        got=review.verdict,
        tolerance="exact",
        source="common practice, no source",
    )
    assert "melt-out" in [stage.name for stage in review.stages]


@pytest.mark.parametrize("degf", [90.0, 90.4])
def test_held_at_the_set_point_and_a_little_over_is_sound(outside, degf):
    review = review_log(held_at(degf), "dark", MACHINE, "22 min")
    outside(
        quantity=f"dark held at {degf} °F ({(degf - 32) / 1.8:.1f} °C) in a bowl",
        expected=CONSISTENT,
        got=review.verdict,
        tolerance="exact",
        source="common practice, no source",
    )
    assert review.minutes_in("work") >= 60
    assert review.minutes_in("above work") == 0


@pytest.mark.parametrize(("kind", "at_work"), [("dark", 89), ("milk", 87), ("white", 83)])
def test_held_above_34_celsius_temper_is_lost(outside, kind, at_work):
    got = review_log(held_at(96, at_work=at_work), kind, MACHINE, "22 min")
    outside(
        quantity=f"{kind} held for an hour at 96 °F (35.6 °C)",
        expected=NOT_CONSISTENT,
        got=got.verdict,
        tolerance="exact",
        source=GREWELING,
    )
    assert got.minutes_in("temper lost") > 55


def test_at_34_celsius_the_probe_cannot_say(outside):
    outside(
        quantity="dark held for an hour at 94 °F, the limit itself",
        expected=CANNOT_TELL,
        got=review_log(held_at(94), "dark", MACHINE, "22 min").verdict,
        tolerance="exact",
        source=GREWELING,
    )


def test_left_below_29_celsius_form_iv_remains(outside):
    outside(
        quantity="dark left at 82 °F (27.8 °C), not rewarmed",
        expected=NOT_CONSISTENT,
        got=review_log(held_at(82), "dark", SEEDED, "22 min").verdict,
        tolerance="exact",
        source="Greweling P.P., Chocolates and Confections, 2007: below 29 °C (85 °F) form IV remains",
    )
