"""The careful side: an error is taken against the reader, a limit is never moved."""

import math

import pytest

from pastrylab.ground import careful

# (true value's reading, error, limit) worked by hand: at the edge the limit itself is still inside.
CASES = [
    (4.0, 0.5, 5.0, True),
    (4.5, 0.5, 5.0, True),
    (4.6, 0.5, 5.0, None),
    (5.4, 0.5, 5.0, None),
    (5.5, 0.5, 5.0, None),
    (5.6, 0.5, 5.0, False),
    (5.0, 0.0, 5.0, True),
    (5.0001, 0.0, 5.0, False),
]


@pytest.mark.parametrize(("value", "error", "limit", "expected"), CASES)
def test_at_most_and_its_mirror(value, error, limit, expected):
    assert careful.at_most(value, limit, error) is expected
    assert careful.at_least(-value, -limit, error) is expected
    assert careful.above(value, limit, error) is (None if expected is None else not expected)
    assert careful.below(-value, -limit, error) is (None if expected is None else not expected)


def test_a_limit_that_is_out_of_bounds_itself():
    assert careful.below(0.88, 0.88) is False
    assert careful.below(0.865, 0.88, 0.015) is None  # it may stand at 0.88 itself
    assert careful.below(0.86, 0.88, 0.015) is True
    assert careful.above(34.0, 34.0) is False


@pytest.mark.parametrize("question", [careful.at_most, careful.at_least, careful.above, careful.below])
def test_what_is_not_known_cannot_be_told(question):
    assert question(None, 5.0) is None
    assert question(math.nan, 5.0) is None
    assert question(4.0, 5.0, math.nan) is None
    assert question(4.0, 5.0, None) is None


def test_no_error_named_is_no_error():
    for value, expected in ((5.0, True), (5.001, False)):
        assert careful.at_most(value, 5.0) is expected
        assert careful.at_least(-value, -5.0) is expected
        assert careful.above(value, 5.0) is not expected
        assert careful.below(-value, -5.0) is not expected
        assert careful.between(value, 4.0, 5.0) is expected


def test_between_and_every():
    assert careful.between(31.5, 31.0, 32.0, 0.5) is True
    assert careful.between(31.6, 31.0, 32.0, 0.5) is None
    assert careful.between(33.0, 31.0, 32.0, 0.5) is False
    assert careful.every([True, None, False]) is False
    assert careful.every([True, None]) is None
    assert careful.every([True, True]) is True


def test_a_rounded_figure_never_reads_kinder_than_it_is():
    assert careful.written_up(0.8611) == "0.87"
    assert careful.written_up(0.86) == "0.86"
    assert careful.written_down(0.8699) == "0.86"
    assert careful.written_down(0.87) == "0.87"
