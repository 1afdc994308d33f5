"""Where a rising or falling function crosses zero, for numbers and numpy arrays alike."""

import numpy as np

_HALVINGS = 60  # 2**-60 of the bracket: finer than a float can show


def bisect(function, low, high):
    """The root of `function` between low and high, element by element.

    function: takes and returns an array; monotone between low and high, which must bracket its root.
    low, high: floats or arrays (broadcast). Returns a float where the inputs are scalars, else an array.
    """
    low, high = np.broadcast_arrays(np.asarray(low, dtype=float), np.asarray(high, dtype=float))
    rising = np.asarray(function(high)) > np.asarray(function(low))
    low, high = low + np.zeros(rising.shape), high + np.zeros(rising.shape)
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        beyond = (np.asarray(function(middle)) > 0) == rising
        high = np.where(beyond, middle, high)
        low = np.where(beyond, low, middle)
    root = 0.5 * (low + high)
    return float(root) if root.ndim == 0 else root
