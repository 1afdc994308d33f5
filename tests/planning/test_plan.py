"""Plans against every plan of small labs, against rules that know no solver, and where nothing fits."""

import random

import planning_cases
import pytest
from depth import depth
from planning_rules import broken_by

from pastrylab.ground.errors import StudentError
from pastrylab.trade.planning import AIMS, After, Hold, Lab, NoPlan, Plan, Step, by_machine, make_plan, plan_again

MORNING = Lab(1, ((480, 720),), {"bowl": 1}, {"mould": 2}, cleaning=10, allergen_cleaning=30)


def planned(case, aim="latest start"):
    """A Plan or NoPlan, None where the lab itself was refused."""
    try:
        return make_plan(*case, aim, seconds=5)
    except StudentError:
        return None


@pytest.mark.parametrize("aim", AIMS)
@pytest.mark.parametrize("seeds", [range(start, start + 20) for start in range(0, depth(20, 60), 20)], ids=str)
def test_small_labs_are_planned_as_well_as_trying_every_plan(aim, seeds):
    for seed in seeds:
        case = planning_cases.small(random.Random(seed))
        expected, found = planning_cases.best_of_all(*case, aim), planned(case, aim)
        if expected is None:
            assert not isinstance(found, Plan), seed
        else:
            assert (found.value, found.bound) == (expected, expected), seed
            assert broken_by(found, *case) == [], seed


@pytest.mark.parametrize("seeds", [range(start, start + 10) for start in range(0, depth(10, 40), 10)], ids=str)
def test_a_larger_lab_keeps_every_rule_or_fits_with_the_change_that_is_offered_and_no_smaller(seeds):
    for seed in seeds:
        case = planning_cases.larger(random.Random(seed))
        found = planned(case)
        if isinstance(found, Plan):
            assert broken_by(found, *case) == [], seed
        elif found is not None:
            assert found.clashes, seed
            _mended_by_its_changes(found, *case)


def _mended_by_its_changes(found, steps, holds, lab):
    for change in found.changes:
        mended = make_plan(steps, holds, change.given(lab), seconds=5)
        assert isinstance(mended, Plan), change.words
        assert broken_by(mended, steps, holds, change.given(lab)) == []
        for name in change.more if change.sort != "hours" else ():
            fewer = change.__class__(change.sort, change.more | {name: change.more[name] - 1}, "")
            assert isinstance(make_plan(steps, holds, fewer.given(lab), seconds=5), NoPlan), change.words


def test_the_last_steps_of_a_morning_by_hand():
    """Common practice, no source; worked by hand: 12:00 less 20 min is 11:40, less 15 min of rest and 30 min is 10:55."""
    plan = make_plan([Step("cast", 30), Step("fill", 20, (After("cast", least=15),))], (), MORNING)
    assert [str(one) for one in plan.placed] == ["10:55 to 11:25 cast", "11:40 to 12:00 fill"]
    assert plan.proof.startswith("Proved best")


def test_the_nut_flavour_goes_last_and_its_machine_is_cleaned_between():
    nuts = frozenset({"tree nuts", "milk"})
    steps = [
        Step("hazelnut", 30, machine="bowl", kind="dark", allergens=nuts),
        Step("milk", 30, machine="bowl", kind="milk", allergens=frozenset({"milk"})),
        Step("dark", 30, machine="bowl", kind="dark"),
    ]
    plan = make_plan(steps, (), Lab(2, ((480, 720),), {"bowl": 1}, cleaning=10, allergen_cleaning=30))
    order = [one.step.name for one in by_machine(plan)["bowl", 1]]
    assert order == ["dark", "milk", "hazelnut"]
    # 12:00 less 30, 10, 30, 10, 30 minutes
    assert plan.begins == 720 - 110


def test_a_bowl_too_few_is_named_and_one_more_is_offered():
    steps = [Step(f"cast {n}", 120, machine="bowl", kind="dark") for n in range(3)]
    found = make_plan(steps, (), Lab(4, ((480, 720),), {"bowl": 1}))
    assert "1 of bowl" in found.sentence
    assert {"1 more of bowl", "an end 2 h later, at 14:00"} & {change.words for change in found.changes}


def test_a_rest_that_may_not_be_longer_is_named():
    steps = [Step("boil", 30), Step("pipe", 30, (After("boil", 0, 30),)), Step("rest", 60, (After("boil"),))]
    steps[1] = Step("pipe", 30, (After("boil", 0, 30), After("rest")))
    found = make_plan(steps, (), Lab(2, ((480, 720),)))
    assert found.clashes == ("pipe at most 30 min after boil",)


def test_late_what_is_done_stays_and_the_rest_is_planned_from_now():
    steps = [Step("cast", 30), Step("fill", 20, (After("cast", least=15),)), Step("wash", 20)]
    plan = make_plan(steps, (), MORNING)
    late = plan_again(plan, (), 660, {"cast": 650})
    assert late.of("cast").begins == 650
    assert broken_by(late, steps, (), MORNING) == []
    assert min(late.of(name).begins for name in ("fill", "wash")) >= 660


REFUSED = {
    "no step": ([], ()),
    "twice": ([Step("cast", 10), Step("cast", 10)], ()),
    "a circle": ([Step("a", 10, (After("b"),)), Step("b", 10, (After("a"),))], ()),
    "itself": ([Step("a", 10, (After("a"),))], ()),
    "an unknown step before": ([Step("a", 10, (After("z"),))], ()),
    "no minutes": ([Step("a", 0)], ()),
    "a rest longer than all days": ([Step("a", 10), Step("b", 10, (After("a", least=10_000),))], ()),
    "least above most": ([Step("a", 10), Step("b", 10, (After("a", 30, 20),))], ()),
    "too many hands": ([Step("a", 10, teams=2)], ()),
    "a machine that is not there": ([Step("a", 10, machine="oven")], ()),
    "longer than any day": ([Step("a", 500)], ()),
    "more moulds than there are": ([Step("a", 10)], (Hold("mould", 3, "a", "a"),)),
    "a mould for nothing": ([Step("a", 10)], (Hold("mould", 1, "a", "z"),)),
}


@pytest.mark.parametrize("steps, holds", REFUSED.values(), ids=REFUSED)
def test_what_no_plan_can_mend_is_refused_in_a_sentence(steps, holds):
    with pytest.raises(StudentError) as refused:
        make_plan(steps, holds, MORNING)
    assert "Needed:" in str(refused.value)


@pytest.mark.parametrize(
    "lab", [Lab(0, ((480, 720),)), Lab(1, ()), Lab(1, ((720, 480),)), Lab(1, ((480, 720), (600, 800)))]
)
def test_a_lab_without_people_or_hours_is_refused(lab):
    with pytest.raises(StudentError):
        make_plan([Step("a", 10)], (), lab)


def test_an_unknown_aim_and_a_start_in_the_future_are_refused():
    with pytest.raises(StudentError):
        make_plan([Step("a", 10)], (), MORNING, "cheapest")
    plan = make_plan([Step("a", 10)], (), MORNING)
    with pytest.raises(StudentError):
        plan_again(plan, (), 500, {"a": 600})
    with pytest.raises(StudentError):
        plan_again(plan, (), 500, {"b": 490})


def test_two_bowls_too_few_are_two_and_never_more():
    """Three castings of two hours in two hours: three bowls. Four would need three more than there are: not offered."""
    steps = [Step(f"cast {n}", 120, machine="bowl", kind="dark") for n in range(3)]
    found = make_plan(steps, (), Lab(4, ((480, 600),), {"bowl": 1}))
    assert {"bowl": 2} in [change.more for change in found.changes if change.sort == "machine"]
    steps.append(Step("cast 3", 120, machine="bowl", kind="dark"))
    found = make_plan(steps, (), Lab(4, ((480, 600),), {"bowl": 1}))
    assert "machine" not in [change.sort for change in found.changes]
