"""Cocoa butter's forms on their way through a bowl, solid fat and contraction: what holds, and what is refused."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pastrylab.ground.units import Q, StudentError
from pastrylab.trade import chocolate, crystals

ORDER = ("I", "II", "III", "IV", "V", "VI")


def fates(*temperatures):
    return {form.name: form.fate for form in crystals.forms_after(*(Q(t, "degC") for t in temperatures))}


def test_a_bowl_cooled_and_rewarmed_keeps_form_five_alone():
    assert fates(45, 27, 31.5) == {
        "I": crystals.NONE,
        "II": crystals.NONE,
        "III": crystals.NONE,
        "IV": crystals.MELTS,
        "V": crystals.FORMS,
        "VI": crystals.LATER,
    }


def test_a_bowl_left_cold_keeps_the_weak_forms():
    stand = [form.name for form in crystals.forms_after("45 degC", "22 degC", "22 degC") if form.stands]
    assert stand == ["II", "III", "IV", "V"]


def test_softened_drops_still_hold_their_crystals():
    found = fates(33, 31, 31)
    assert found["V"] == found["VI"] == crystals.STAYS
    assert fates(35, 31, 31)["V"] == crystals.FORMS, "melted out at 35 °C: it has to form anew"
    assert fates(35, 31, 31)["VI"] == crystals.STAYS


def test_within_its_error_a_form_is_at_its_edge():
    assert fates(33.8, 31, 31)["V"] == crystals.EDGE
    assert fates(45, 27.6, 27.6)["IV"] == crystals.EDGE
    assert fates(45, 27.9, 27.9)["IV"] == crystals.NONE
    assert fates(45, 27.1, 27.1)["IV"] == crystals.FORMS
    assert fates(45, 27, 27.6)["IV"] == crystals.EDGE, "grown in the cold, and warmed to its edge"
    # IV: 27.5 with an error of 0.3. At the warm end of its error it is melted out, and grows anew in the cold.
    assert fates(27.8, 22, 22)["IV"] == crystals.FORMS and fates(27.7, 22, 22)["IV"] == crystals.EDGE


@pytest.mark.parametrize("kind", chocolate.KINDS)
def test_every_working_band_lets_form_five_stand_and_no_weaker_one_after_a_melt_out(kind):
    melt, _, work = chocolate.band_floats(kind)
    if kind == "white":  # milk fat moves all of it down: the melting points are those of pure cocoa butter
        work = (28, 30)
    for at in work:
        stand = [
            form.name for form in crystals.forms_after(Q(melt[0], "degC"), Q(at, "degC"), Q(at, "degC")) if form.stands
        ]
        assert stand == ["V"]


@given(
    cold=st.floats(5, 40),
    warmer=st.floats(0, 20),
    warmest=st.floats(0, 20),
)
def test_what_stands_has_a_melting_point_above_the_bowl(cold, warmer, warmest):
    melted_to = cold + warmer + warmest
    found = crystals.forms_after.floats(melted_to, cold, cold + warmer)
    assert tuple(form.name for form in found) == ORDER
    for form in found:
        if form.stands:
            assert form.melts_at + form.error > cold + warmer
        if form.fate == crystals.STAYS:
            assert form.melts_at > melted_to
        if form.fate == crystals.MELTS:
            assert cold - form.error < form.melts_at < cold + warmer


@pytest.mark.parametrize("temperatures", [(27, 45, 31), (45, 33, 31), (30, 27, 31)])
def test_temperatures_out_of_order_are_refused(temperatures):
    with pytest.raises(StudentError, match="cooled to"):
        fates(*temperatures)


def test_solid_fat_falls():
    at = np.linspace(10, 35, 60)
    for values in crystals.solid_cocoa_butter(Q(at, "degC")):
        assert np.all(np.diff(values) < 0)
    low, usual, high = crystals.solid_cocoa_butter("20 degC")
    assert low < usual < high and isinstance(usual, float)
    for outside in ("9 degC", "36 degC"):
        with pytest.raises(StudentError):
            crystals.solid_cocoa_butter(outside)


@pytest.mark.parametrize(
    ("at", "low", "usual", "high"),
    [
        # By hand, half way between two readings of the table of solid cocoa butter (from memory): (70 + 44) / 2 and so on.
        (12.5, 82.5, 87.5, 92.5),
        (17.5, 75, 80.5, 86),
        (22.5, 65, 73, 78),
        (27.5, 47, 57, 64),
        (32.5, 17, 22.25, 28.3),
    ],
)
def test_solid_fat_lies_on_straight_lines_between_the_readings(at, low, usual, high):
    got = crystals.solid_cocoa_butter(Q(at, "degC"))
    assert [100 * share for share in got] == pytest.approx([low, usual, high])


@given(liquid=st.floats(0.8, 0.95), denser=st.floats(0, 0.2), share=st.floats(0, 1))
def test_volume_is_what_contraction_leaves(liquid, denser, share):
    solid = liquid + denser
    lost = crystals.contraction.floats(liquid, solid, share)
    assert (1 - lost) / liquid == pytest.approx(share / solid + (1 - share) / liquid)
    assert (1 - crystals.linear(lost)) ** 3 == pytest.approx(1 - lost)


def test_chocolate_shrinks_less_than_its_fat_and_pure_fat_as_much():
    low, middle, high = crystals.chocolate_contraction(0.35)
    assert 0 < low < middle < high < crystals.contraction()
    assert crystals.chocolate_contraction(1.0)[1] == pytest.approx(crystals.contraction())
    assert crystals.chocolate_contraction(0.35, 0.5)[1] == pytest.approx(middle / 2)
    with pytest.raises(StudentError, match="denser"):
        crystals.contraction("0.975 g/mL", "0.89 g/mL")


def test_nothing_a_kitchen_melts_is_denser_than_25():
    # From memory: the densest metal has 22.6 g/mL. (25 - 24) / 25 = 4 %.
    assert crystals.contraction("24 g/mL", "25 g/mL") == pytest.approx(0.04)
    with pytest.raises(StudentError, match="25"):
        crystals.contraction("24 g/mL", "25.5 g/mL")
