"""The critical path method against two courses' worked examples, and a plan's own chain by hand."""

from dataclasses import replace

import pytest

from pastrylab.ground.errors import StudentError
from pastrylab.trade.planning import After, Lab, Step, chain, chains, critical_path, make_plan
from pastrylab.trade.planning.placed import Placed
from pastrylab.trade.planning.plan import Plan

TEXAS = "CVEN 349 Civil Engineering Project Management, lecture 14, Texas A&M 2009: read"
CALPOLY = "How to CPM, CSC 308, Cal Poly, example 1: table read, passes by hand"


def network(**tasks):
    """Steps from name=(duration, names before)."""
    return [Step(name, days, tuple(After(before) for before in names)) for name, (days, names) in tasks.items()]


def test_early_starts_of_a_published_network(outside):
    steps = network(
        t1=(2, ()), t2=(4, ["t1"]), t3=(6, ["t2"]), t4=(5, ["t1"]), t5=(2, ["t4", "t2"]), t6=(1, ["t3", "t5"])
    )
    found = critical_path(steps)
    for name, start in {"t1": 0, "t2": 2, "t3": 6, "t4": 2, "t5": 7, "t6": 12}.items():
        outside(quantity=f"early start of {name}", expected=start, got=found[name].earliest, tolerance=0, source=TEXAS)


def test_floats_of_a_published_table(outside):
    steps = network(A=(5, ()), B=(4, ()), C=(3, "A"), D=(7, "B"), E=(2, "C"), F=(1, "DE"))
    found = critical_path(steps)
    assert [name for name, times in found.items() if not times.float] == ["B", "D", "F"]
    assert found["F"].earliest + 1 == 12
    for name in "ACE":
        outside(quantity=f"float of {name}", expected=1, got=found[name].float, tolerance=0, source=CALPOLY)


def test_a_rest_counts_as_time_on_the_path():
    steps = [Step("cast", 30), Step("boil", 10), Step("fill", 20, (After("cast", 15), After("boil", 40)))]
    found = critical_path(steps)
    assert (found["cast"].float, found["boil"].float, found["fill"].earliest) == (5, 0, 50)


def test_a_chain_names_the_machine_and_its_cleaning():
    """8:00 to 9:10 by hand: 30 min dark, 10 min cleaning, 30 min milk; with no minute to spare."""
    steps = [Step("dark", 30, machine="bowl", kind="dark"), Step("milk", 30, machine="bowl", kind="milk")]
    plan = make_plan(steps, (), Lab(2, ((480, 550),), {"bowl": 1}, cleaning=10))
    first, then = chain(plan)
    assert (first.placed.begins, then.placed.begins) == (480, 520)
    assert then.why == "its bowl is in use, and then cleaned for 10 min"


def test_a_chain_names_the_night_and_the_hands():
    steps = [Step("fill", 30), Step("cap", 30, (After("fill", 720),)), Step("wash", 30, (After("cap"),))]
    links = chain(make_plan(steps, (), Lab(1, ((480, 720), (1920, 1980)))))
    assert [link.why for link in links] == ["", "nobody is there between 12:00 and day 2, 8:00", "cap has to be done"]
    busy = chain(make_plan([Step("a", 30), Step("b", 30)], (), Lab(1, ((480, 540),))))
    assert busy[1].why.startswith("everybody is busy")


def placed(*steps, lab):
    """A plan as it stands on paper: (step, begins) each, machine 1 where it takes one."""
    at = (Placed(step, begins, begins + step.minutes, int(bool(step.machine))) for step, begins in steps)
    return Plan(tuple(at), lab, "latest start", 0, 0, 0.0)


def test_hands_hold_nobody_up_where_there_are_more_of_them():
    steps = (Step("a", 30), 480), (Step("b", 30), 510)
    assert [link.placed.step.name for link in chain(placed(*steps, lab=Lab(2, ((480, 720),))))] == ["b"]
    assert [link.placed.step.name for link in chain(placed(*steps, lab=Lab(1, ((480, 720),))))] == ["a", "b"]


def test_nuts_before_a_night_hold_up_by_what_it_takes_to_wash_them_out():
    nuts = Step("nuts", 30, machine="bowl", kind="dark", allergens=frozenset({"tree nuts"}))
    plain, lab = Step("plain", 30, machine="bowl", kind="dark"), Lab(1, ((480, 720), (1920, 2160)), {"bowl": 1})
    lab = replace(lab, allergen_cleaning=1410)  # from 8:30 to 8:00 of the next day
    assert "cleaned for" in chain(placed((nuts, 480), (plain, 1920), lab=lab))[1].why
    links = chain(placed((nuts, 480), (plain, 1920), lab=replace(lab, allergen_cleaning=45)))
    assert [link.placed.step.name for link in links] == ["plain"], "washed by nine, and the machine waits"


def test_each_day_has_the_chain_to_its_last_step():
    steps = (Step("a", 30), 480), (Step("b", 30, (After("a"),)), 510), (Step("c", 30), 1920)
    found = chains(placed(*steps, lab=Lab(1, ((480, 720), (1920, 2160)))))
    assert {day: [one.placed.step.name for one in links] for day, links in found.items()} == {1: ["a", "b"], 2: ["c"]}


def test_a_circle_has_no_path():
    with pytest.raises(StudentError):
        critical_path([Step("a", 1, (After("b"),)), Step("b", 1, (After("a"),))])
    with pytest.raises(StudentError):
        critical_path([Step("a", 1, (After("b"),))])
