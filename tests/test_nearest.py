"""The shortest step into half-spaces: points worked by hand in the plane."""

from itertools import combinations

import numpy as np
import pytest

from pastrylab.ground.nearest import least_distance, nonnegative_least_squares


def test_one_line_is_met_at_its_foot():
    # x + y >= 2: the foot of the line from the origin is (1, 1).
    x, multipliers = least_distance(np.array([[1.0, 1.0]]), np.array([2.0]))
    assert x == pytest.approx([1, 1], abs=1e-12) and multipliers[0] > 0


def test_where_all_holds_already_no_step_is_taken():
    x, multipliers = least_distance(np.array([[1.0, 0.0]]), np.array([-1.0]))
    assert x == pytest.approx([0, 0], abs=1e-12) and multipliers[0] == 0


def test_a_corner_and_a_row_that_does_not_bite():
    # x >= 1, y >= 2 meet at (1, 2); x + y >= 1 holds there by itself.
    x, multipliers = least_distance(np.array([[1.0, 0.0], [0.0, 1.0], [1.0, 1.0]]), np.array([1.0, 2.0, 1.0]))
    assert x == pytest.approx([1, 2], abs=1e-12)
    assert multipliers[0] > 0 and multipliers[1] > 0 and multipliers[2] == pytest.approx(0, abs=1e-12)


def test_a_row_taken_up_first_is_let_go_again():
    # From (3, 3) >= 4 alone the foot is (2/3, 2/3); y >= 1 moves it to (1/3, 1).
    x, _ = least_distance(np.array([[3.0, 3.0], [0.0, 1.0]]), np.array([4.0, 1.0]))
    assert x == pytest.approx([1 / 3, 1], abs=1e-12)


def test_a_long_step_is_found_too():
    x, _ = least_distance(np.array([[1.0, 0.0]]), np.array([12345.678]))
    assert x == pytest.approx([12345.678, 0], rel=1e-12, abs=1e-9)


def test_what_cannot_be_has_no_point():
    # x >= 1 and -x >= 0.
    x, multipliers = least_distance(np.array([[1.0], [-1.0]]), np.array([1.0, 0.0]))
    assert x is None and (multipliers > 0).all()


def test_least_squares_without_negative_numbers():
    # Columns (1, 0) and (1, 1), wanted (2, -1): the free solution is (3, -1); with none below zero, (2, 0).
    assert nonnegative_least_squares(np.array([[1.0, 1.0], [0.0, 1.0]]), np.array([2.0, -1.0])) == pytest.approx([2, 0])
    assert nonnegative_least_squares(np.eye(2), np.array([2.0, 3.0])) == pytest.approx([2, 3])
    # Columns (1, 1) and (1, 0), wanted (1, 2): the first alone gives 1.5 * (1, 1); free it would be (2, -1).
    assert nonnegative_least_squares(np.array([[1.0, 1.0], [1.0, 0.0]]), np.array([1.0, 2.0])) == pytest.approx(
        [1.5, 0]
    )


def _by_trying_all(g, h):
    """The shortest of the points where some of the rows are met exactly and all of them hold."""
    rows = [list(chosen) for count in range(g.shape[1] + 1) for chosen in combinations(range(len(g)), count)]
    points = [np.linalg.lstsq(g[chosen], h[chosen], rcond=None)[0] if chosen else 0 * g[0] for chosen in rows]
    return min((x for x in points if np.all(g @ x >= h - 1e-9 * np.abs(h).max())), key=lambda x: x @ x)


@pytest.mark.parametrize("size", [1e-3, 1, 1e3, 1e5])
def test_where_many_rows_meet_the_point_is_exact_however_far_it_lies(size):
    # By hand: x >= 3, y >= 4, x + y >= 7 and 3 x + 4 y >= 25 all meet at (3, 4), the foot of the last of them.
    corner = np.array([[1.0, 0.0], [0.0, 1.0], [1.0, 1.0], [3.0, 4.0]])
    x, _ = least_distance(corner, size * np.array([3.0, 4.0, 7.0, 25.0]))
    assert x == pytest.approx([3 * size, 4 * size], rel=1e-12)
    draws = np.random.default_rng(11)
    for _ in range(60):
        n, m = draws.integers(1, 5), draws.integers(1, 6)
        g = draws.normal(size=(m, n))
        h = g @ (size * draws.normal(size=n))
        x, _ = least_distance(g, h)
        assert x == pytest.approx(_by_trying_all(g, h), abs=1e-10 * size)
