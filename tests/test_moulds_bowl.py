"""Fills, the bowl and its day: sums by hand, chocolate conserved mould by mould, what is refused."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pastrylab import moulds
from pastrylab.ground.units import Q, StudentError

ONE = moulds.mould("7 mL", "2.5 g", "1.5 g", 28, "5 g", "30 g")  # full 239.12 g, shells 70, caps 42


def test_fills_by_hand():
    assert moulds.fills(300, "20 %", 28) == moulds.Fills(14, 392, pytest.approx(313.6))  # 375 / 28 = 13.39
    assert moulds.fills(280, 0, 28).count == 10
    assert moulds.fills(281, 0, 28).count == 11
    assert moulds.fills(252, "10 %", 28).count == 10  # 280 exactly
    assert moulds.fills(1, "50 %", 24).count == 1
    assert moulds.fills("24 dozen", "4 %", 24).count == 13  # 288 / 0.96 = 300 / 24 = 12.5


@given(st.integers(1, 5000), st.floats(0, 0.9), st.integers(1, 60))
def test_as_many_fills_as_needed_and_not_one_more(good, rejects, cavities):
    found = moulds.fills(good, rejects, cavities)
    assert found.good >= good * (1 - 1e-9)
    assert (found.count - 1) * cavities * (1 - rejects) < good


def test_a_mould_by_hand():
    assert (ONE.full, ONE.shells, ONE.caps, ONE.stays) == (pytest.approx(239.12), 70, 42, 75)


def test_what_must_be_in_the_bowl_by_hand():
    shells_only = moulds.need(ONE, 10, "100 g", caps=False)
    assert shells_only.in_bowl == pytest.approx(9 * 75 + 239.12 + 100)
    assert shells_only.leaves == 750
    assert shells_only.comes_back == pytest.approx(239.12 - 75 + 100)
    assert shells_only.decides == "the last mould: it is filled to the brim"
    capped = moulds.need(ONE, 10, "100 g")
    assert capped.leaves == 750 + 420
    assert capped.in_bowl == 750 + 420 + 30 + 100
    assert capped.decides == "the caps"
    in_turn = moulds.need(ONE, 10, "100 g", in_turn=True)
    assert in_turn.in_bowl == pytest.approx(9 * (75 + 42) + 239.12 + 100)
    assert in_turn.leaves == capped.leaves
    few = moulds.need(ONE, 2, "100 g")
    assert few.in_bowl == pytest.approx(75 + 239.12 + 100)  # more than 2 x (75 + 42) + 130 = 364
    assert str(few) == "415 g must be in the bowl; 234 g leaves it, and 181 g comes back."


def test_a_bowl_that_ends_at_the_ninth_mould():
    day = moulds.from_bowl("930 g", ONE, 14, "100 g")  # 930 - 8 x 75 = 330, of which 230 can be ladled: less than 239
    assert (day.dry, len(day.casts), day.left) == (9, 8, 330)
    assert day.capped == 4  # (230 - 30) / 42 = 4.8
    assert str(day) == "The bowl ends at mould 9: 330 g are left in it, too little to fill a mould."
    assert moulds.from_bowl("940 g", ONE, 14, "100 g").dry == 10
    assert moulds.from_bowl("100 g", ONE, 14).dry == 1
    even = moulds.Mould(240.0, 70.0, 42.0, 5.0)
    assert moulds.from_bowl("340 g", even, 1, "100 g").dry is None  # to the gram
    assert moulds.from_bowl("339 g", even, 1, "100 g").dry == 1
    whole = moulds.from_bowl("1.5 kg", ONE, 9, "100 g")
    assert str(whole) == "All 9 moulds are cast; the 825 g left in the bowl close all of them."


@given(
    start=st.floats(0, 20_000),
    fills=st.integers(1, 40),
    rest=st.floats(0, 500),
    shell=st.floats(0.5, 5),
    cap=st.floats(0, 3),
    lost=st.floats(0, 20),
)
def test_chocolate_is_conserved_mould_by_mould(start, fills, rest, shell, cap, lost):
    one = moulds.mould("7 mL", Q(shell, "g"), Q(cap, "g"), 28, Q(lost, "g"))
    day = moulds.from_bowl(Q(start, "g"), one, fills, Q(rest, "g"))
    bowl = start
    for cast in day.casts:
        assert cast.before == pytest.approx(bowl)
        assert cast.poured == pytest.approx(cast.back + cast.stays + cast.lost)
        assert cast.before - cast.poured >= rest - 1e-6
        bowl = cast.before - cast.poured + cast.back
        assert cast.after == pytest.approx(bowl)
    assert day.left == pytest.approx(bowl)
    assert start == pytest.approx(day.left + sum(cast.stays + cast.lost for cast in day.casts))
    assert day.capped * one.caps <= day.left - rest + 1e-6 or not day.capped or not one.caps


@given(fills=st.integers(1, 40), rest=st.floats(0, 500), cap=st.floats(0, 3), spread=st.floats(0, 60))
def test_the_need_is_just_enough(fills, rest, cap, spread):
    one = moulds.mould("7 mL", "2.5 g", Q(cap, "g"), 28, "5 g", Q(spread, "g"))
    need = moulds.need(one, fills, Q(rest, "g"))
    enough = moulds.from_bowl(Q(need.in_bowl + 1e-6, "g"), one, fills, Q(rest, "g"))
    assert (enough.dry, enough.capped) == (None, fills)
    short = moulds.from_bowl(Q(need.in_bowl - 0.01, "g"), one, fills, Q(rest, "g"))
    assert short.dry == fills or short.capped < fills
    assert need.in_bowl == pytest.approx(need.leaves + need.comes_back)


def test_pieces_from_a_batch_whichever_runs_out_first():
    found = moulds.made("1.2 kg", "3 kg", "4.4 g", "3.9 g", 28, "10 %")  # 272 pieces of filling: 9 moulds; chocolate 27
    assert (found.fills, found.cast, found.short) == (9, 252, "filling")
    assert found.good == pytest.approx(226.8)
    assert found.filling_left.m_as("g") == pytest.approx(1200 - 252 * 4.4)
    assert found.chocolate_left.m_as("g") == pytest.approx(3000 - 252 * 3.9)
    by_chocolate = moulds.made("3 kg", "1 kg", "4.4 g", "3.9 g", 28)  # 1000 / 109.2 = 9.2
    assert (by_chocolate.fills, by_chocolate.short) == (9, "chocolate")
    assert moulds.made("1 kg", "1 kg", "4 g", "4 g", 25).chocolate_left.m_as("g") == 0
    with pytest.raises(StudentError) as told:
        moulds.made("1 kg", "80 g", "4.4 g", "3.9 g", 28)
    assert told.value.given == "1000 g of filling and 80 g of chocolate for a mould of 28"
    assert told.value.example == "124 g of filling and 110 g of chocolate"
    assert moulds.made("123.2 g", "1 kg", "4.4 g", "3.9 g", 28).fills == 1  # exactly one mould
    assert moulds.made("100 g", "90 g", "0.9 g", "0.9 g", 25).fills == 4  # 90 / 22.5


def test_a_batch_for_pieces_divides_by_what_is_left_behind():
    assert moulds.batch("4.4 g", 392, "5 %").m_as("g") == pytest.approx(392 * 4.4 / 0.95)


def test_turns_of_the_moulds_at_hand():
    # 4 moulds, 10 min a fill, 60 min set: round 4 begins at 210 min; its second fill is done at 230 and set at 290.
    assert moulds.earliest_end(14, 4, "10 min", "60 min").m_as("min") == 290
    assert moulds.earliest_end(14, 14, "10 min", "1 h").m_as("min") == 200  # moulds enough: the hands decide
    assert moulds.earliest_end(3, 1, "10 min", "60 min").m_as("min") == 210
    assert moulds.earliest_end(1, 8, "10 min", "60 min").m_as("min") == 70


@given(st.integers(1, 60), st.integers(1, 20), st.floats(0, 60), st.floats(0, 240))
def test_an_end_lies_between_all_moulds_and_one(fills, at_hand, hands, sets):
    end = moulds.earliest_end(fills, at_hand, Q(hands, "min"), Q(sets, "min")).m_as("min")
    assert fills * hands + sets - 1e-6 <= end <= fills * (hands + sets) + 1e-6
    more = moulds.earliest_end(fills, at_hand + 1, Q(hands, "min"), Q(sets, "min")).m_as("min")
    assert more <= end + 1e-6
    rounds = math.ceil(fills / at_hand)
    assert end >= rounds * (hands + sets) - 1e-6


@pytest.mark.parametrize(
    ("call", "found"),
    [
        (lambda: moulds.fills("300", "1/5", "28").count, 14),
        (lambda: moulds.fills(300, 0.2, 28).count, 14),
        (lambda: moulds.fills("25 dozen", "20 %", 28).count, 14),
        (lambda: moulds.fills(300, "0 %", 1).count, 300),
        (lambda: moulds.mould("0.5 fl oz", "0.1 oz", "0 g", 24).caps, 0),
        (lambda: moulds.mould("7 mL", "2.5 g", "1.5 g", 28, fluid="1.2 kg/L").full, pytest.approx(235.2)),
        (lambda: moulds.mould("7 mL", "8 g", "0 g", 28, "15.1 g").shells, 224),  # 239.1 g of 239.12 g
        (lambda: moulds.need(ONE, "2", "0.1 kg").leaves, 234),
        (lambda: len(moulds.from_bowl("2 lb", ONE, 5).casts), 5),
        (lambda: moulds.made("1 kg", "1 kg", "4 g", "4 g", 25).fills, 10),
        (lambda: moulds.earliest_end(2, 1, "0 min", "1 h").m_as("min"), 120),
    ],
)
def test_taken(call, found):
    assert call() == found


def test_shells_and_losses_beyond_what_was_poured_are_told_by_weight():
    with pytest.raises(StudentError) as told:
        moulds.mould("7 mL", "8 g", "0 g", 28, "15.2 g")
    assert told.value.given == "239.2 g of shells and losses out of 239.1 g poured"


@pytest.mark.parametrize(
    "call",
    [
        lambda: moulds.fills(0, "20 %", 28),
        lambda: moulds.fills(300.5, "20 %", 28),
        lambda: moulds.fills(300, "100 %", 28),
        lambda: moulds.fills(300, "120 %", 28),
        lambda: moulds.fills(300, -0.1, 28),
        lambda: moulds.fills(300, "20 %", 0),
        lambda: moulds.fills("300 g", "20 %", 28),
        lambda: moulds.mould("7 mL", "9 g", "1 g", 28),
        lambda: moulds.mould("7 g", "2 g", "1 g", 28),
        lambda: moulds.need(ONE, 2.5),
        lambda: moulds.need("28 cavities", 2),
        lambda: moulds.from_bowl("1 kg", 28, 3),
        lambda: moulds.from_bowl("-1 g", ONE, 3),
        lambda: moulds.made("100 g", "3 kg", "4.4 g", "3.9 g", 28),
        lambda: moulds.batch("4.4 g", 392, "100 %"),
        lambda: moulds.earliest_end(14, 0, "10 min", "60 min"),
        lambda: moulds.earliest_end(14, 4, "10", "60 min"),
    ],
)
def test_refused(call):
    with pytest.raises(StudentError):
        call()


def test_doors_let_in_what_a_kitchen_has_and_no_more():
    assert moulds.mould("7 mL", "1 g", "0.5 g", 28, fluid="0.52 g/mL").full == pytest.approx(7 * 0.52 * 28)
    assert moulds.batch("0.5 g", 100).m_as("g") == pytest.approx(50)
    with pytest.raises(StudentError):
        moulds.hemisphere("40 mm", rule="5.5 mm")
    assert moulds.film_by_yield(14, slope=0.5).mm > moulds.film_by_yield(14, slope=90).mm
