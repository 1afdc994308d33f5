"""Units at the door: the decorator that checks arguments and hands them on as plain floats.

What an argument may be is said with limits.py. What the other rooms need of quantities and text is fetched here.
"""

import functools
import inspect

from pastrylab.ground.errors import StudentError
from pastrylab.ground.grammar import Quantity, Typed, dimension, read_text, unit_named, unit_of
from pastrylab.ground.limits import Difference, In, Number, Reading, Share
from pastrylab.ground.quantities import Q, both, in_digits, in_other_unit, kind_of, show, symbol, us_unit

__all__ = [
    "Difference",
    "In",
    "Number",
    "Q",
    "Quantity",
    "Reading",
    "Share",
    "StudentError",
    "Typed",
    "both",
    "dimension",
    "in_digits",
    "in_other_unit",
    "kind_of",
    "read_text",
    "show",
    "symbol",
    "takes",
    "unit_named",
    "us_unit",
]


def takes(returns=None, arrays=False, **doors):
    """Check and convert arguments at a public function's door; inside, everything is a plain float.

    returns: unit of the result (wrapped as a quantity), or None to hand the result back as it is.
    arrays: whether a checked argument may hold many values (a numpy array in the room); else they are refused.
    doors: one In, Reading, Difference, Share or Number for each argument that is checked; others pass through.
    None passes where None is the default. The plain-float function stays reachable as `function.floats`; its defaults
    are plain floats too, converted once. Returns a decorator; the decorated function raises StudentError.

    >>> @takes(returns="kg", batch=In("kg", above=0), share=Share())
    ... def part(batch, share="10 %"):
    ...     return batch * share
    >>> show(part("2 kg", "25 %")), f"{part.floats(2.0):g}"
    ('0.5 kg', '0.2')
    """

    def decorate(function):
        signature = inspect.signature(function)
        names = list(signature.parameters)
        unknown = set(doors) - set(names)
        if unknown:
            raise TypeError(f"{function.__name__} has no argument {unknown}")
        written = {n: p.default for n, p in signature.parameters.items() if p.default is not inspect.Parameter.empty}
        may_be_none = {name for name, default in written.items() if default is None}
        plain = {n: doors[n].floats(n, d) if n in doors and d is not None else d for n, d in written.items()}
        _plain_defaults(function, signature, plain)

        @functools.wraps(function)
        def door(*args, **kwargs):
            given = _by_name(signature, names, args, kwargs)
            result = function(**_in_the_room(given, names, plain, may_be_none, doors, arrays))
            return result if returns is None else Quantity(result, unit_of(returns))

        door.floats, door.__signature__ = function, signature
        door.doors, door.arrays = doors, arrays
        return door

    return decorate


def _by_name(signature, names, args, kwargs):
    """Arguments by name; TypeError as from any call that does not fit."""
    given = dict(zip(names, args, strict=False))
    if len(args) > len(names) or given.keys() & kwargs.keys() or not kwargs.keys() <= set(names):
        signature.bind(*args, **kwargs)
    return given | kwargs


def _in_the_room(given, names, plain, may_be_none, doors, arrays):
    """Every argument by name, as the function inside takes it."""
    room = {}
    for name in names:
        if name not in given:
            room[name] = plain[name] if name in plain else _missing(name, doors)
            continue
        value = given[name]
        checked = name in doors and not (value is None and name in may_be_none)
        room[name] = doors[name].floats(name, value, arrays) if checked else value
    return room


def _missing(name, doors):
    raise doors[name].refuse(name, "nothing", code=True) if name in doors else StudentError("nothing", name)


def _plain_defaults(function, signature, plain):
    """Give a function its converted defaults, so that it may be called with plain floats alone."""
    placed = [n for n, p in signature.parameters.items() if p.kind is not inspect.Parameter.KEYWORD_ONLY]
    behind = len(function.__defaults__ or ())
    function.__defaults__ = tuple(plain[name] for name in placed[len(placed) - behind :])
    function.__kwdefaults__ = {name: plain[name] for name in function.__kwdefaults__ or {}}
