"""Exercises of lessons 04 and 05: limits are not widened, judgements come out every way, each with its own sentence."""

import pytest
from depth import depth

from pastrylab.course.catalogue import EXERCISES, grade
from pastrylab.school import draws

pytestmark = pytest.mark.usefixtures("one_look")

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
    came = {e.answer(draws.givens(e, student)) for student in STUDENTS}
    assert came == {option.name for option in e.options} - NEVER[name]
    assert came == {option.name for option in e.options if option.when_right}


@pytest.mark.parametrize("name", NEVER)
def test_right_and_wrong_are_told_different_things(name):
    e = EXERCISES[name]
    for student in STUDENTS[: depth(25, 150)]:
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
    for student in STUDENTS[: depth(60, 401)]:
        g = draws.givens(e, student)
        said = grade(e, "leave it", student)
        if not said.right and g.as_it_is.graining.supersaturation < 1:
            assert "holds less sugar" not in said.message


# --- slips that are really made ---------------------------------------------------------------------------------------


def test_the_uptake_of_the_finished_sugars_is_named():
    # 2.5 kg at 74 %: 1850 g of sugars, 650 g of water; 1850 x 0.05263 x 0.88 = 85.7 g in place of 81.9.
    found = grade(EXERCISES["04.water-for-invert"], "735.7 g")
    assert found.slip == "uptake of the finished sugars"
    assert grade(EXERCISES["04.water-for-invert"], "732 g").right


def test_the_sign_of_a_reading_dropped_is_named():
    # 26 to -2, end -8.19: (26 + 2)/(26 + 8.19) = 0.819; with +2 it is 0.702.
    assert grade(EXERCISES["04.degree-from-rotation"], "70.2 %").slip == "sign dropped"
    assert grade(EXERCISES["04.degree-from-rotation"], "81.9 %").right


def test_sugar_added_and_not_replaced_is_told_so():
    # 100 g of water, 120 g of sucrose kept and 75 g of invert sugar added, by hand: moles 5.5508, 0.3506, 0.4163; shares
    # 0.8786, 0.0555, 0.0659; roots 2.5436 and 1.5: 0.2400, squared 0.0576; 0.8786 x 0.9440 = 0.8294.
    assert grade(EXERCISES["05.invert-for-sugar"], "0.8294").slip == "added, not replaced"


def test_the_bare_share_of_water_is_told_so():
    # Moles 5.5508, 0.1315, 0.4163: 5.5508/6.0986 = 0.9102.
    assert grade(EXERCISES["05.invert-for-sugar"], "0.9102").slip == "water's share alone"


def test_the_solid_part_counted_is_wrong_in_every_draw():
    e = EXERCISES["05.what-counts"]
    for student in STUDENTS:
        g = draws.givens(e, student)
        solid = g.couverture * g.sugar_share.m_as("") * (1 - g.dissolved.m_as("")) + g.invert
        assert grade(e, f"{100 * (solid / g.water).m_as(''):.1f} g", student).slip == "the solid part"


def test_the_correction_of_a_meter_has_one_reading():
    assert "by that difference" in EXERCISES["05.meter-check"].prompt
