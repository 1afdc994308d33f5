"""The shortest step into a set of half-spaces: min |x| with G x >= h, in plain floats.

Lawson and Hanson, Solving Least Squares Problems, 1974, chapter 23, turn it into one non-negative least squares problem.
"""

import numpy as np


def least_distance(g, h):
    """(x, multipliers): the shortest x with g x >= h, or (None, multipliers) where there is none.

    g: array (rows, n); h: array (rows); plain numbers, its columns of about one size. Returns arrays:
    x (n), multipliers (rows), at least 0. Rows with a multiplier above 0 are those that bite or, without a solution,
    clash. Source: Lawson and Hanson 1974, algorithm LDP.

    >>> step, _ = least_distance(np.array([[1.0, 1.0]]), np.array([2.0]))  # two changes that must add 2 between them
    >>> [round(float(part), 6) for part in step]
    [1.0, 1.0]
    """
    longest = np.linalg.norm(g, axis=1)
    longest[longest == 0] = 1.0
    # Each row as a distance from here, and the farthest as one: what counts as nothing below then fits any step.
    away = h / longest
    far = float(np.max(np.abs(away), initial=0.0)) or 1.0
    x, multipliers = _of_about_one(g / longest[:, None], away / far)
    return (None if x is None else far * x), multipliers / longest


def _of_about_one(g, h):
    """least_distance for rows of length one."""
    e = np.vstack([g.T, h])
    f = np.zeros(len(e))
    f[-1] = 1.0
    multipliers = nonnegative_least_squares(e, f)
    residual = e @ multipliers - f
    if -residual[-1] < 1e-10:
        return None, multipliers
    x = -residual[:-1] / residual[-1]
    return _closer(x, _on_the_rows(g, h, multipliers), g, h), multipliers


def _on_the_rows(g, h, multipliers):
    """The same point from the rows that bite alone: a long step loses digits in the division above."""
    bite = multipliers > 1e-12
    return np.linalg.lstsq(g[bite], h[bite], rcond=None)[0] if bite.any() else np.zeros(g.shape[1])


def _closer(one, other, g, h):
    """Of two points the one that misses the rows by less."""
    return min((one, other), key=lambda x: max(0.0, np.max(h - g @ x, initial=0.0)))


def nonnegative_least_squares(e, f):
    """u >= 0 with the least |e u - f|: array (columns). Source: Lawson and Hanson 1974, algorithm NNLS.

    e: array (rows, columns); f: array (rows); plain numbers of about one size. Stops after 30 turns a column.

    >>> u = nonnegative_least_squares(np.array([[1.0, 0.0], [0.0, 1.0]]), np.array([3.0, -2.0]))
    >>> [round(float(part), 6) for part in u]
    [3.0, 0.0]
    """
    columns = e.shape[1]
    held, u = np.zeros(columns, dtype=bool), np.zeros(columns)
    for _ in range(30 * columns + 30):
        gain = np.where(held, -np.inf, e.T @ (f - e @ u))
        if not np.any(gain > 1e-12):
            break
        held[np.argmax(gain)] = True
        while True:
            trial = np.zeros(columns)
            trial[held] = np.linalg.lstsq(e[:, held], f, rcond=None)[0]
            negative = held & (trial <= 0)
            if not np.any(negative):
                break
            step = np.min(u[negative] / np.maximum(u[negative] - trial[negative], 1e-300))
            u = u + step * (trial - u)
            held &= u > 1e-15
            u[~held] = 0.0
        u = trial
    return u
