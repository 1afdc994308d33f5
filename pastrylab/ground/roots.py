"""Numbers and numpy arrays alike: where a rising or falling function crosses zero."""

import numpy as np

_HALVINGS = 60  # 2**-60 of the bracket: finer than a float can show


def bisect(function, low, high):
    """The root of `function` between low and high, element by element.

    function: takes and returns an array; monotone between low and high, which must bracket its root.
    low, high: floats or arrays (broadcast). Returns a float where the inputs are scalars, else an array. That they
    bracket a root is not checked: without one between them, one of the two comes back.

    >>> f"{bisect(lambda side: side**3 - 27.0, 0.0, 10.0):.4f}"  # the side in cm of a cube of 27 mL
    '3.0000'
    """
    low, high = np.broadcast_arrays(np.asarray(low, dtype=float), np.asarray(high, dtype=float))
    rising = np.asarray(function(high)) > np.asarray(function(low))
    if rising.ndim == 0:
        return _one_root(function, low.item(), high.item(), bool(rising))
    low, high = low + np.zeros(rising.shape), high + np.zeros(rising.shape)
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        beyond = (np.asarray(function(middle)) > 0) == rising
        high = np.where(beyond, middle, high)
        low = np.where(beyond, low, middle)
    return 0.5 * (low + high)


def _one_root(function, low, high, rising):
    """As `bisect` halves, between two single numbers, and no further than floats can tell apart."""
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        if middle in (low, high):
            return middle
        if (function(middle) > 0) == rising:
            high = middle
        else:
            low = middle
    return 0.5 * (low + high)


def plain(value):
    """A float where value is a single number, numpy's own included, so that pages print it plainly; arrays pass.

    >>> plain(np.float64(31.5))
    31.5
    """
    return float(value) if np.ndim(value) == 0 else value
