"""Who does what: nobody twice, nothing without hands, and evenly where it can be seen by hand."""

import random

import planning_cases
import pytest
from depth import depth

from pastrylab.ground.errors import StudentError
from pastrylab.trade.planning import After, Lab, Plan, Step, by_team, make_plan, shared_out


@pytest.mark.parametrize("seeds", [range(0, 12), range(12, 24)][: depth(1, 2)], ids=str)
def test_no_pair_is_in_two_places_and_no_step_without_hands(seeds):
    for seed in seeds:
        case = planning_cases.larger(random.Random(seed))
        try:
            plan = make_plan(*case, seconds=3)
        except StudentError:
            continue
        if not isinstance(plan, Plan):
            continue
        for tasks in by_team(plan).values():
            for before, then in zip(tasks, tasks[1:], strict=False):
                assert before.ends <= then.begins, seed
        done = {task.what: task for task in shared_out(plan) if not task.cleans}
        assert {name: len(task.teams) for name, task in done.items()} == {s.name: s.teams for s in case[0] if s.teams}
        cleaned = sum(task.ends - task.begins for task in shared_out(plan) if task.cleans)
        assert cleaned == sum(one.cleaning for one in plan.placed)


def test_four_equal_steps_one_after_the_other_are_two_for_each_of_two_pairs():
    steps = [Step(f"wash {n}", 30) for n in range(4)]
    plan = make_plan(steps, (), Lab(2, ((480, 540),)))
    assert sorted(len(tasks) for tasks in by_team(plan).values()) == [2, 2]


def test_a_batch_stays_with_the_pair_that_began_it():
    steps = [
        Step(f"{what} {job}", 30, tuple(After(f"{before} {job}") for before in waits), job=job)
        for job in ("dark", "milk")
        for what, waits in (("cast", ()), ("fill", ("cast",)))
    ]
    plan = make_plan(steps, (), Lab(2, ((480, 540),)))
    for tasks in by_team(plan).values():
        assert len({task.placed.step.job for task in tasks}) == 1


def test_two_pairs_for_one_step():
    plan = make_plan([Step("carry", 30, teams=2)], (), Lab(3, ((480, 510),)))
    assert [task.teams for task in shared_out(plan)] == [(1, 2)]
