"""Roots of functions whose roots are known by hand."""

import numpy as np
import pytest

from pastrylab.ground.roots import bisect, plain


def test_a_root_is_found_to_the_last_digit_rising_or_falling():
    assert bisect(lambda x: x * x - 2, 0, 2) == pytest.approx(2**0.5, rel=1e-15)
    assert bisect(lambda x: 2 - x * x, 0, 2) == pytest.approx(2**0.5, rel=1e-15)
    assert bisect(lambda x: x - 7.3, -1000, 1000) == pytest.approx(7.3, rel=1e-14)


def test_roots_of_several_at_once():
    found = bisect(lambda x: x - np.array([1.25, 2.5]), 0, [3, 4])
    assert found == pytest.approx([1.25, 2.5], rel=1e-14)
    assert isinstance(bisect(lambda x: x - 1, 0, 3), float)


def test_a_single_number_prints_plainly():
    assert type(plain(np.float64(2.5))) is float and type(plain(np.array(2.5))) is float
    assert plain(np.array([2.5])).tolist() == [2.5]


@pytest.mark.parametrize("low", [0.0, 0.9, 1e-300, -3.0])
@pytest.mark.parametrize("end", [0.7, 2.0, 1e9])
def test_one_number_alone_has_the_root_it_has_in_a_row(low, end):
    """Halved one by one and no further than floats go: to the last bit what halving a row sixty times gives."""
    for root in (0.95, 1.0 / 3, 5e-7, -0.1):
        for sign in (1, -1):
            function = lambda x, root=root, sign=sign: sign * (x - root) ** 3  # noqa: E731
            assert bisect(function, low, end) == bisect(function, np.array([low]), np.array([end]))[0]
