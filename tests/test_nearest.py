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


def test_a_row_of_nothing_says_nothing_or_can_never_hold():
    """0 x + 0 y >= -1 holds anywhere, 0 x + 0 y >= 1 nowhere."""
    x, multipliers = least_distance(np.array([[0.0, 0.0], [1.0, 0.0]]), np.array([-1.0, 2.0]))
    assert x == pytest.approx([2, 0], abs=1e-12) and multipliers[0] == 0
    assert least_distance(np.array([[0.0, 0.0]]), np.array([1.0]))[0] is None
    assert least_distance(np.array([[1.0, 0.0]]), np.array([0.0]))[0] == pytest.approx([0, 0], abs=1e-12)


def test_multipliers_say_how_much_of_each_row_the_step_is_made_of():
    """3 x >= 3 and y >= 2: the step (1, 2) is 1/3 of (3, 0) and 2 of (0, 1), one to six."""
    _, multipliers = least_distance(np.array([[3.0, 0.0], [0.0, 1.0]]), np.array([3.0, 2.0]))
    assert multipliers[1] / multipliers[0] == pytest.approx(6)


def test_least_squares_is_the_best_of_all_sets_of_columns():
    """Each set of columns solved freely; of those with nothing below zero the one that leaves least is the answer."""
    draws = np.random.default_rng(5)
    for _ in range(80):
        n = draws.integers(2, 6)
        e = draws.normal(size=(n + 1, n)) + draws.normal(size=(n + 1, 1)) * draws.integers(0, 4)
        f = e @ draws.normal(size=n) + draws.normal(size=n + 1)
        least = f @ f
        for held in (list(held) for count in range(1, n + 1) for held in combinations(range(n), count)):
            part = np.linalg.lstsq(e[:, held], f, rcond=None)[0]
            if (part >= 0).all():
                least = min(least, np.sum((e[:, held] @ part - f) ** 2))
        u = nonnegative_least_squares(e, f)
        assert (u >= 0).all() and np.sum((e @ u - f) ** 2) == pytest.approx(least, rel=1e-9, abs=1e-12)
