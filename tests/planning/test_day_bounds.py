"""How short a day can be: what must lie around a step on its day, by hand, and that being told it changes no best plan."""

import random

import planning_cases
import pytest
from depth import depth
from planning_rules import broken_by

from pastrylab.ground.errors import StudentError
from pastrylab.trade.orders import larkmoor, steps_of
from pastrylab.trade.planning import After, Lab, Plan, Step, day_bounds, make_plan
from pastrylab.trade.planning.steps import checked

TWO = ((480, 750), (1920, 2190))


def around(steps, hours=TWO):
    return {key: (one.head, one.tail) for key, one in day_bounds.around(steps, Lab(2, hours)).items()}


def test_what_lies_around_the_steps_of_a_ganache_by_hand():
    kitchen = larkmoor()
    steps, holds = steps_of(
        kitchen.takes({"dark ganache": 60}, "10 %")
    )  # 60 / 0.9 / 24 = 2.8: three moulds, 15 min each job
    found = day_bounds.around(checked(steps, holds, kitchen.lab), kitchen.lab)
    assert set(found) == {
        ("make the filling: dark ganache", 0),
        ("cast: dark ganache", 0),
        ("fill: dark ganache", 0),
        ("cap: dark ganache", 1),  # twelve hours after the filling
        ("turn out: dark ganache", 1),
    }
    assert found["make the filling: dark ganache", 0].tail == 45 + 15
    assert found["cast: dark ganache", 0].tail == 20 + 15
    assert found["fill: dark ganache", 0].head == 30 + 45
    assert found["cap: dark ganache", 1].tail == 30 + 15
    assert found["turn out: dark ganache", 1].head == 15 + 30


def test_what_may_wait_for_the_next_day_lies_around_nothing():
    steps = [Step("cast", 30), Step("cap", 20, (After("cast", 60),))]
    assert around(steps) == {("cast", 0): (0, 0), ("cast", 1): (0, 80), ("cap", 0): (90, 0), ("cap", 1): (0, 0)}


def test_what_a_day_has_no_room_for_is_on_the_next():
    # From 8:00 casting takes until 11:20; the 100 minutes of capping do not fit before 12:30.
    steps = [Step("cast", 200), Step("cap", 100, (After("cast"),))]
    assert day_bounds.possible_days(steps, Lab(2, TWO)) == {"cast": [0], "cap": [1]}
    steps[1] = Step("cap", 70, (After("cast"),))
    assert day_bounds.possible_days(steps, Lab(2, TWO)) == {"cast": [0, 1], "cap": [0, 1]}


def test_what_must_be_over_before_a_night_leaves_less_to_what_comes_before_it():
    # Capping takes 200 minutes of the second day after twelve hours of rest: filling is done by 12:30, melting by 12:00,
    # four hours after eight.
    for minutes, days in ((240, [0]), (241, [])):
        steps = [Step("melt", minutes), Step("fill", 30, (After("melt"),)), Step("cap", 200, (After("fill", 720),))]
        assert day_bounds.possible_days(steps, Lab(2, TWO))["melt"] == days


def test_what_nobody_attends_may_begin_when_the_door_opens_and_wait_over_night():
    steps = [Step("set", 60, teams=0), Step("fill", 30, (After("set"),)), Step("out", 30, (After("fill", 720),))]
    assert day_bounds.possible_days(steps, Lab(2, TWO)) == {"fill": [0], "out": [1]}
    assert around(steps) == {("fill", 0): (0, 0), ("out", 1): (0, 0)}
    assert day_bounds.possible_days(steps[:2], Lab(2, TWO)) == {"fill": [0, 1]}


@pytest.mark.parametrize(("most", "tail"), [(1169, 80), (1170, 0)])
def test_a_rest_that_ends_before_the_door_opens_again_keeps_both_on_one_day(most, tail):
    # From 12:30 to 8:00 the next morning are 1170 minutes.
    steps = [Step("cast", 30), Step("cap", 20, (After("cast", 60, most),))]
    assert around(steps)["cast", 0] == (0, tail)
    assert around(steps)["cap", 1] == ((90, 0) if tail else (0, 0))


def test_the_middle_of_three_days_looks_both_ways():
    steps = [Step("cast", 30), Step("cap", 20, (After("cast", 60, 1169),))]
    found = around(steps, (*TWO, (3360, 3630)))
    assert found["cast", 1] == (0, 80) and found["cap", 1] == (90, 0)
    later = around([Step("cast", 30), Step("cap", 20, (After("cast", 60, 1170),))], (*TWO, (3360, 3630)))
    assert later["cast", 1] == later["cap", 1] == (0, 0)


def test_a_short_day_by_hand():
    # One machine: three castings of 30 min, each then set 20 min and filled in 10, on one day: 3 x 30 + 20 + 10.
    steps = [Step(f"cast {n}", 30, machine="bowl", kind="dark") for n in range(3)]
    steps += [Step(f"fill {n}", 10, (After(f"cast {n}", 20, 60),)) for n in range(3)]
    plan = make_plan(steps, (), Lab(2, ((480, 720),), {"bowl": 1}), "shortest day", seconds=5)
    assert (plan.value, plan.bound) == (120, 120)


def test_what_takes_no_machine_waits_for_none():
    steps = [Step(f"wash {n}", 30) for n in range(4)] + [Step("cast", 30, machine="bowl", kind="dark")]
    plan = make_plan(steps, (), Lab(5, ((480, 720),), {"bowl": 1, "oven": 1}), "shortest day", seconds=5)
    assert (plan.value, plan.bound) == (30, 30)


def test_more_work_than_hands_is_done_one_after_another():
    # Five half hours for two pairs, two of them with two pairs: 30 + 30 + 3 x 30 / 2, in whole steps 2 h.
    steps = [Step(f"wash {n}", 30, teams=1 + (n < 2)) for n in range(5)]
    plan = make_plan(steps, (), Lab(2, ((480, 720),)), "shortest day", seconds=5)
    assert (plan.value, plan.bound) == (120, 120)


def test_a_cleaning_over_night_makes_no_day_longer_than_it_must():
    # Nuts are cast last on day 1 and what is without them on day 2; 45 min of washing come between, by hand, on either day.
    nuts = frozenset({"tree nuts"})
    steps = [
        Step("hazelnut", 30, machine="bowl", kind="milk", allergens=nuts),
        Step("dark", 30, (After("hazelnut", 720),), machine="bowl", kind="dark"),
    ]
    lab = Lab(2, TWO, {"bowl": 1}, cleaning=15, allergen_cleaning=45)
    plan = make_plan(steps, (), lab, "shortest day", seconds=5)
    assert plan.value == 30 + 45 + 30
    assert broken_by(plan, steps, (), lab) == []


@pytest.mark.parametrize("seeds", [range(start, start + 6) for start in range(0, depth(6, 60), 6)], ids=str)
def test_being_told_changes_no_best_plan(seeds, monkeypatch):
    for seed in seeds:
        case = planning_cases.larger(random.Random(seed))
        told = _planned(case)
        with monkeypatch.context() as patch:
            patch.setattr(day_bounds, "add", lambda *_: None)
            untold = _planned(case)
        assert isinstance(told, Plan) == isinstance(untold, Plan), seed
        if isinstance(told, Plan):
            assert broken_by(told, *case) == [], seed
            assert told.bound <= untold.value and untold.bound <= told.value, seed
            if told.value == told.bound and untold.value == untold.bound:
                assert told.value == untold.value, seed


def _planned(case):
    try:
        return make_plan(*case, "shortest day", seconds=4)
    except StudentError:
        return None
