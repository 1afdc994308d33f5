"""Exercises of lessons 04 and 05: limits are not widened, judgements come out every way, each with its own sentence."""

import pytest

from pastrylab.exercises import EXERCISES, grade

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
