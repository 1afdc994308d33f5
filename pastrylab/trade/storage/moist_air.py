"""Our own copy of psychrolib, set to SI: the moist air of ASHRAE Fundamentals 2017, chapter 1."""

import builtins
import functools
import importlib.util


def _without_numba(name, *args, **kwargs):
    """For a handful of sums a compiler costs seconds and brings nothing."""
    if name == "numba":
        raise ImportError(name)
    return builtins.__import__(name, *args, **kwargs)


@functools.cache
def moist_air():
    """psychrolib as a module of our own, in SI (degC, Pa, shares).

    Its system of units is a global: a copy keeps ours from anybody else's, and theirs from us. Raises nothing.

    >>> f"{moist_air().GetSatVapPres(20.0):.0f} Pa"  # what the air of a room can hold
    '2339 Pa'
    """
    spec = importlib.util.find_spec("psychrolib")
    module = importlib.util.module_from_spec(spec)
    module.__dict__["__builtins__"] = {**vars(builtins), "__import__": _without_numba}
    spec.loader.exec_module(module)
    module.SetUnitSystem(module.SI)
    return module
