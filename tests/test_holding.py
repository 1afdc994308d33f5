"""A bowl through the day: loads, melting, cooling fitted to a log, topping up; what holds, and what is refused."""

import math

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pastrylab.ground.units import Q, StudentError
from pastrylab.logs import cooling
from pastrylab.trade import holding, tempering


@given(total=st.floats(0.1, 200), capacity=st.floats(0.5, 20))
def test_loads_fit_the_bowl_and_add_up_and_one_less_would_not_do(total, capacity):
    found = holding.loads(Q(total, "kg"), Q(capacity, "kg"))
    each = found.each.m_as("kg")
    assert each <= capacity * (1 + 1e-9)
    assert each * found.count == pytest.approx(total)
    assert (found.count - 1) * capacity < total


def test_a_full_bowl_is_one_load_and_a_gram_more_is_two():
    assert holding.loads("10 lb").count == 1
    assert holding.loads("20 lb").count == 2
    assert holding.loads("4.54 kg", "10 lb").count == 2
    assert holding.loads("9 kg", "4.5 kg").count == 2


@given(
    total=st.floats(0.5, 20),
    hot=st.floats(40, 50),
    seed_at=st.floats(12, 24),
    target=st.floats(28, 33),
    part=st.floats(0, 1),
)
def test_a_load_adds_up_and_its_seed_brings_its_melt_to_the_target(total, hot, seed_at, target, part):
    bare = holding.load.floats(total, hot, seed_at, target, 0.0)
    leftovers = part * bare.melt.m_as("kg")
    made = holding.load.floats(total, hot, seed_at, target, leftovers)
    assert (made.melt + made.seed).m_as("kg") == pytest.approx(total)
    assert (made.leftovers + made.fresh).m_as("kg") == pytest.approx(made.melt.m_as("kg"))
    assert made.melt == bare.melt, "leftovers are melted out: they change what is fresh, not what is melted"
    end = tempering.mixture_temperature(made.melt, Q(hot, "degC"), made.seed, Q(seed_at, "degC"))
    assert end.m_as("degC") == pytest.approx(target)


def test_leftovers_beyond_the_melt_are_kept_for_the_next():
    # 2 kg / 1.35964 = 1.47098 kg are melted out (seed to melt as below): 1470 g of leftovers fit in.
    with pytest.raises(StudentError, match="next melt.*1470 g of leftovers"):
        holding.load("2 kg", "45 degC", "20 degC", "31.5 degC", leftovers="1.9 kg")
    assert "800 g" in str(holding.load("4 kg", "45 degC", "20 degC", "31.5 degC", leftovers="800 g"))
    assert "leftovers" not in str(holding.load("4 kg", "45 degC", "20 degC", "31.5 degC"))


def test_a_load_is_said_in_grams_and_ounces():
    """By hand: seed to melt 1.59 x 13.5 / (1.59 x 11.5 + 0.9 x 46) = 0.35964, so 4 kg are 2.942 and 1.058 kg."""
    said = str(holding.load("4 kg", "45 degC", "20 degC", "31.5 degC", leftovers="800 g"))
    assert said == "Melt out 2942 g (104 oz), 800 g (28.2 oz) of it leftovers; hold back 1058 g (37.3 oz) as seed."


def test_melting_out_by_hand():
    """60 / ln 2 x [ln(32 / 5) + 46 / 1.59 / (50 - 33.8)] = 86.562 x (1.8563 + 1.7859) = 315.3 min."""
    took = holding.melting_time("18 degC", "45 degC", "50 degC", "60 min")
    assert took.m_as("min") == pytest.approx(315.3, abs=0.1)


def test_melting_takes_longer_in_a_cooler_cupboard_and_in_a_slower_vessel():
    hours = [holding.melting_time("18 degC", "45 degC", Q(t, "degC"), "60 min").m_as("h") for t in (46, 50, 60)]
    assert hours == sorted(hours, reverse=True)
    twice = holding.melting_time("18 degC", "45 degC", "50 degC", "120 min").m_as("h")
    assert twice == pytest.approx(2 * hours[1])
    quick = holding.melting_time("18 degC", "45 degC", "50 degC", "0.5 min").m_as("h")
    assert quick == pytest.approx(hours[1] / 120)


@pytest.mark.parametrize(
    ("start", "end", "around"),
    [("35 degC", "45 degC", "50 degC"), ("18 degC", "33 degC", "50 degC"), ("18 degC", "45 degC", "45 degC")],
)
def test_melting_refuses(start, end, around):
    with pytest.raises(StudentError, match="cupboard"):
        holding.melting_time(start, end, around, "60 min")


@given(bowl=st.floats(0.5, 10), at=st.floats(28, 31), most=st.floats(31.5, 33), hot=st.floats(35, 50))
def test_a_top_up_brings_the_bowl_to_what_it_may_reach(bowl, at, most, hot):
    added = holding.top_up(Q(bowl, "kg"), Q(at, "degC"), Q(hot, "degC"), Q(most, "degC"))
    # The same balance seen as a bowl without latent heat.
    end = tempering.mixture_temperature(added, Q(hot, "degC"), Q(bowl, "kg"), Q(at, "degC"), melted_share=0)
    assert end.m_as("degC") == pytest.approx(most)
    thinned = holding.crystals_after(0.03, Q(bowl, "kg"), added)
    assert thinned * (bowl + added.m_as("kg")) == pytest.approx(0.03 * bowl)


@pytest.mark.parametrize(("at", "hot", "most"), [(33, 45, 32.5), (31, 32, 32.5), (31, 45, 31)])
def test_top_up_refuses(at, hot, most):
    with pytest.raises(StudentError, match="top-up"):
        holding.top_up("2 kg", Q(at, "degC"), Q(hot, "degC"), Q(most, "degC"))


# --- the vessel's halving time -------------------------------------------------------------------------------------


def log_of(minutes, degrees):
    return pd.DataFrame({"minutes": np.asarray(minutes, float), "degC": np.asarray(degrees, float)})


@given(start=st.floats(30, 60), room=st.floats(2, 25), halving=st.floats(10, 120))
def test_a_perfect_log_gives_its_own_halving_time(start, room, halving):
    minutes = np.linspace(0, 1.5 * halving, 12)
    fit = cooling.fit_halving(log_of(minutes, room + (start - room) * 0.5 ** (minutes / halving)), Q(room, "degC"))
    assert fit.halving.m_as("min") == pytest.approx(halving, rel=1e-6)
    assert fit.time_constant.m_as("min") == pytest.approx(halving / math.log(2), rel=1e-6)
    assert fit.readings == 12


def test_the_falling_part_alone_is_fitted():
    minutes = np.arange(0, 65, 5)
    fall = 20 + 25 * 0.5 ** (minutes / 30)
    warmed = np.concatenate((np.linspace(22, 44, 5), fall, np.linspace(fall[-1] + 1, 33, 4)))
    fit = cooling.fit_halving(log_of(5 * np.arange(len(warmed)), warmed), "20 degC")
    assert fit.readings == len(fall)
    assert fit.halving.m_as("min") == pytest.approx(30, rel=1e-6)
    assert "halves in 30 minutes" in fit.sentence


def test_the_error_it_states_is_the_error_it_makes():
    rng = np.random.default_rng(5)
    minutes = np.arange(0, 61, 3)
    off, stated = [], []
    for _ in range(200):
        degrees = 20 + 12 * 0.5 ** (minutes / 40) + rng.normal(0, 0.1, len(minutes))
        try:
            fit = cooling.fit_halving(log_of(minutes, degrees), "20 degC")
        except StudentError:
            continue
        off.append(fit.halving.m_as("min") - 40)
        stated.append(fit.halving_error.m_as("min"))
    assert len(off) == 200
    assert np.std(off) == pytest.approx(np.median(stated), rel=0.25)


@pytest.mark.parametrize(
    ("degrees", "room", "says"),
    [
        ([45, 40, 36], "20 degC", "at least four"),
        ([32, 31.9, 31.8, 31.6], "20 degC", "by a degree"),
        ([30, 25, 21, 19], "20 degC", "warmer than what is around"),
        ([20, 25, 30, 35], "18 degC", "at least four"),
    ],
)
def test_logs_that_tell_no_halving_time_are_refused(degrees, room, says):
    with pytest.raises(StudentError, match=says):
        cooling.fit_halving(log_of(range(len(degrees)), degrees), room)


def test_an_error_of_more_than_five_degrees_is_no_probes():
    assert holding.next_step("dark", "45 degC", "5 delta_degC").name == "seed again"
    with pytest.raises(StudentError, match="5"):
        holding.next_step("dark", "45 degC", "5.5 delta_degC")


def test_a_small_load_is_said_to_three_digits():
    """As above: 300 g / 1.35964 = 220.65 g to melt out and 79.35 g of seed, 7.783 and 2.799 oz; 97.14 g are 3.427 oz."""
    said = str(holding.load("300 g", "45 degC", "20 degC", "31.5 degC", leftovers="97.14 g"))
    assert said == "Melt out 221 g (7.78 oz), 97.1 g (3.43 oz) of it leftovers; hold back 79.4 g (2.8 oz) as seed."
