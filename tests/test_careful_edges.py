"""Rounding on the careful side, and both ends of a range."""

import pytest

from pastrylab.ground import careful


@pytest.mark.parametrize(
    ("value", "digits", "up", "down"),
    [
        (0.8655, 2, "0.87", "0.86"),
        (0.865, 1, "0.9", "0.8"),
        (0.8651, 3, "0.866", "0.865"),
        (41.2, 0, "42", "41"),
        (0.29, 2, "0.29", "0.29"),  # 0.29 * 100 is 28.999999999999996 as a float
        (1.1, 2, "1.10", "1.10"),  # and 1.1 * 100 is 110.00000000000001
        (0.860001, 2, "0.87", "0.86"),
        (0.859999, 2, "0.86", "0.85"),
        (0.86000000001, 2, "0.87", "0.86"),  # a thousand-millionth of a cent's place counts
        (0.860000000002, 2, "0.86", "0.86"),  # 2e-12 is a fifth of a billionth of 0.01: arithmetic
        (0.869999999998, 2, "0.87", "0.87"),
    ],
)
def test_written_up_and_down(value, digits, up, down):
    assert (careful.written_up(value, digits), careful.written_down(value, digits)) == (up, down)


def test_both_ends_of_a_range_are_in_it():
    assert careful.between(31.0, 31.0, 32.0) is True and careful.between(32.0, 31.0, 32.0) is True
    assert careful.between(30.99, 31.0, 32.0) is False and careful.between(32.01, 31.0, 32.0) is False
    assert careful.between(31.0, 31.0, 32.0, 0.1) is None
    assert careful.every([]) is True and careful.every(iter([False, None])) is False
    assert careful.CANNOT_TELL == "cannot tell"
