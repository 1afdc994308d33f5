"""How late a step may begin, what holds each day up, and what stands ready in every wait: by hand, and against rules that
know no solver."""

import random

import planning_cases
import pytest
from depth import depth
from planning_rules import broken

from pastrylab.course.labday import benches
from pastrylab.ground.errors import StudentError
from pastrylab.page.lab_day.sheets import lab_day_html
from pastrylab.trade.orders import larkmoor, steps_of, wait_table, waits
from pastrylab.trade.planning import After, Lab, Placed, Plan, Step, chains, make_plan, spare

TWO = ((480, 750), (1920, 2190))


@pytest.fixture(scope="module")
def day():
    kitchen = larkmoor()
    found = kitchen.takes("8 boxes of 12 dark\n60 raspberry\n7 dozen hazelnut", "10 %")
    return found, make_plan(*steps_of(found), kitchen.lab, seconds=5)


def plan_of(lab, *placed):
    return Plan(tuple(placed), lab, "latest start", 0, 0, 0.0)


@pytest.mark.parametrize("seeds", [range(start, start + 8) for start in range(0, depth(8, 80), 8)], ids=str)
def test_so_late_breaks_no_rule(seeds):
    for seed in seeds:
        steps, holds, lab = planning_cases.larger(random.Random(seed))
        try:
            plan = make_plan(steps, holds, lab, seconds=3)
        except StudentError:
            continue
        for name, minutes in spare(plan, holds).items() if isinstance(plan, Plan) else ():
            times = {one.step.name: one.begins + minutes * (one.step.name == name) for one in plan.placed}
            machine = {one.step.name: one.machine for one in plan.placed}
            cleanings = [(one.cleaned_from, one.cleaned_from + one.cleaning) for one in plan.placed if one.cleaning]
            assert broken(times, machine, cleanings, steps, holds, lab) == [], (seed, name, minutes)


def test_each_thing_that_can_hold_a_step_up_by_hand():
    cast = Step("cast", 30, machine="bowl", kind="dark")
    fill = Step("fill", 20, (After("cast", 15, 60),))
    wash, cap = Step("wash", 10), Step("cap", 10, machine="bowl", kind="milk")
    lab = Lab(9, ((480, 720),), {"bowl": 1}, cleaning=10)
    plan = plan_of(
        lab,
        Placed(cast, 480, 510, 1),
        Placed(fill, 535, 555),
        Placed(cap, 600, 610, 1, 10, 590),
        Placed(wash, 700, 710),
    )
    late = spare(plan)
    assert late["cast"] == 535 - 15 - 510  # the filling waits
    assert late["fill"] == 510 + 60 - 535  # no more than an hour after the casting
    assert late["cap"] == 720 - 610 and late["wash"] == 10  # the door
    without = plan_of(lab, Placed(cast, 480, 510, 1), Placed(cap, 600, 610, 1, 10, 590))
    assert spare(without)["cast"] == 590 - 510  # the cleaning of its bowl


def test_a_pair_that_has_more_to_do_and_moulds_that_others_wait_for_by_hand():
    from pastrylab.trade.planning import Hold

    a, b = Step("a", 30), Step("b", 30)
    alone = plan_of(Lab(1, ((480, 720),)), Placed(a, 480, 510), Placed(b, 550, 580))
    assert spare(alone) == {"a": 40, "b": 140}
    two = plan_of(Lab(2, ((480, 720),), things={"mould": 3}), Placed(a, 480, 510), Placed(b, 550, 580))
    holds = (Hold("mould", 2, "a", "a"), Hold("mould", 2, "b", "b"))
    assert spare(two, holds)["a"] == 40 and spare(two, holds[:1])["a"] == 210


def test_moulds_enough_and_trays_of_another_kind_hold_nobody_up():
    from pastrylab.trade.planning import Hold

    steps = [Step(name, 30) for name in "abc"]
    lab = Lab(3, ((480, 720),), things={"mould": 4, "tray": 3})
    plan = plan_of(lab, Placed(steps[0], 480, 510), Placed(steps[1], 550, 580), Placed(steps[2], 540, 570))
    holds = (Hold("mould", 2, "a", "a"), Hold("mould", 2, "b", "b"), Hold("tray", 3, "c", "c"))
    assert spare(plan, holds)["a"] == 210


def test_each_day_has_its_chain_and_a_day_that_leads_into_the_next_has_none_of_its_own():
    steps = [Step("fill", 30), Step("cap", 20, (After("fill", 720),))]
    found = chains(make_plan(steps, (), Lab(1, TWO), seconds=3))
    assert {day: [str(link) for link in links] for day, links in found.items()} == {
        1: ["12:00 to 12:30 fill"],
        2: ["day 2, 12:10 to 12:30 cap"],
    }
    joined = chains(make_plan([steps[0], Step("cap", 20, (After("fill", 1170, 1170),))], (), Lab(1, TWO), seconds=3))
    assert list(joined) == [2] and [link.placed.step.name for link in joined[2]] == ["fill", "cap"]


def test_every_rest_of_the_day_has_a_twin(day):
    found, plan = day
    rests = {
        (one.step.job.split(", batch")[0], after.step.split(":")[0]) for one in plan.placed for after in one.step.after
    }
    rows = wait_table(plan)
    of_flavours = [one for one in waits(plan) if one.what != "machine is cleaned"]
    assert len(of_flavours) == len(rests) == 12  # four rests of three flavours
    assert len(waits(plan)) - 12 == sum(1 for one in plan.placed if one.cleaning)
    assert all(one.length > 0 and one.twin and one.made for one in waits(plan)) and len(rows) == len(waits(plan)) + 1
    night = next(one for one in waits(plan) if (one.what, one.flavour) == ("filling sets in the shell", "dark ganache"))
    assert night.length >= 720


def test_page_and_paper_have_swaps_chain_and_what_to_do_when_it_is_late(day, own_workbook):
    found, plan = day
    paper = lab_day_html("Friday", found, plan)
    for words in (
        "Made ahead: a swap for every wait",
        "What leaves no minute",
        "When it runs late",
        "late by",
        "began",
    ):
        assert words in paper, words
    assert "no minute" in paper and "a mould of shells, covered" in paper
    own = benches.own_bench()
    own.press.click()
    assert "a swap for every wait" in own.papers.value and "No minute to spare" in own.shown.tight.value
    assert own.late.layout.display == "flex"
