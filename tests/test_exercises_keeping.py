"""Exercises of lessons 04 and 05: limits are not widened, judgements come out every way, each with its own sentence."""

import pytest

from pastrylab.exercises import EXERCISES, engine, grade

HIGHEST = EXERCISES["05.highest-reading"]


@pytest.mark.parametrize("typed", ["0.87", "0.866", "0.8651", "0,87", ".87"])
def test_no_digits_typed_widen_a_limit(typed):
    # Table B at pH 5.5: below 0.88; a meter good to 0.015: below 0.865.
    found = grade(HIGHEST, typed)
    assert found.status == "wrong" and "0.865" not in found.message
    assert "never rounded up" in found.message


@pytest.mark.parametrize("typed", ["0.865", "0.864", "0.8650", "0,865"])
def test_the_limit_itself_and_what_lies_under_it_is_right(typed):
    assert grade(HIGHEST, typed).right


# --- judgements -------------------------------------------------------------------------------------------------------

# What cannot come out, and why: honey tastes of itself, a syrup weighed gram for gram brings water, and neither an
# estimate, a bare reading nor a line fitted to cakes ever grants a cream filling days in the warm.
NEVER = {
    "04.which-honey-grains": set(),
    "04.which-syrup": {"honey", "gram for gram"},
    "05.display-case": {"by the estimate", "by the reading", "by the mould line"},
}
STUDENTS = ["", *(f"student {i}" for i in range(400))]


@pytest.mark.parametrize("name", NEVER)
def test_every_way_that_can_come_out_does_and_has_a_sentence_of_its_own(name):
    e = EXERCISES[name]
    came = {e.answer(engine.givens(e, student)) for student in STUDENTS}
    assert came == {option.name for option in e.options} - NEVER[name]
    assert came == {option.name for option in e.options if option.when_right}


@pytest.mark.parametrize("name", NEVER)
def test_right_and_wrong_are_told_different_things(name):
    e = EXERCISES[name]
    for student in STUDENTS[:150]:
        found = {option.name: grade(e, option.name, student) for option in e.options}
        assert [v.status for v in found.values()].count("right") == 1
        said = [v.message for v in found.values()]
        assert len(set(said)) == len(said), student
        assert not any("Do the sum again" in v.message for v in found.values() if v.right)


def test_the_display_case_is_told_the_sum_as_it_is():
    # 0.87 + 0.015 = 0.885, not under 0.88 (table B, pH above 5.0).
    right = grade(EXERCISES["05.display-case"], "D")
    assert right.right and "0.885" in right.message and "not under 0.88" in right.message
    wrong = grade(EXERCISES["05.display-case"], "E")
    assert not wrong.right and "no longer under 0.88" in wrong.message


def test_a_filling_near_saturation_is_not_said_to_hold_less_than_it_does():
    e = EXERCISES["04.which-syrup"]
    for student in STUDENTS:
        g = engine.givens(e, student)
        said = grade(e, "leave it", student)
        if not said.right and g.as_it_is.graining.supersaturation < 1:
            assert "holds less sugar" not in said.message
