"""The functions of a typed formula that choose and round: min, max, round up, round down, round."""

import functools
import math
from fractions import Fraction

import pint

from pastrylab.ground.money import Money
from pastrylab.ground.units import Quantity, StudentError
from pastrylab.school.typed.functions import FUNCTIONS
from pastrylab.school.typed.kinds import Rate, is_reading, is_steps, kind, plain, size_of, typed_degrees, unlike_kinds

_NEAREST = 1e-9  # of a step: what floats leave of a whole one


def _alike(node, given):
    """Values of one kind, shares as plain numbers where not all are shares. Raises StudentError."""
    if not all(isinstance(one, pint.Quantity) and one.units == given[0].units for one in given):
        given = [plain(one) for one in given]
    first = given[0]
    for other in given[1:]:
        fits = type(first) is type(other) or (isinstance(first, Money) and isinstance(other, Money))
        if fits and isinstance(first, pint.Quantity):
            fits = first.dimensionality == other.dimensionality and is_reading(first) == is_reading(other)
        if not fits or isinstance(first, Rate):
            raise unlike_kinds(node, first, other)
    return given


def _chosen(choose, node, given):
    return choose(_alike(node, given))


def _stepped(way, node, given):
    """A value to a whole step; without one a plain number to a whole number."""
    value, *step = given
    if not step:
        if isinstance(value, float):
            return float(way(_whole(value)))
        count = plain(value)
        if isinstance(count, float) and kind(value) != "a share":
            return float(way(_whole(count)))
        said = FUNCTIONS[node.name]
        raise StudentError(f"'{node.text[:60]}', {kind(value)} with no step to go to", said.says, said.example)
    value, step = _alike_step(node, value, step[0])
    if not size_of(step) > 0:
        raise StudentError(f"'{node.text[:60]}', with a step of {node.given[1].text}", "a step above 0", "5 g")
    if isinstance(value, Money):
        return step * float(way(_whole(float(value / step))))
    if isinstance(value, float):
        return step * way(_whole(value / step))
    size = float(step.magnitude)
    return Quantity(way(_whole(float(value.m_as(_of_steps(value, step))) / size)) * size, _of_steps(value, step))


def _of_steps(value, step):
    """The unit a value is counted in: that of the step; degrees of a reading for a step of degrees."""
    return str(step.units).removeprefix("delta_") if is_reading(value) else step.units


def _alike_step(node, value, step):
    if typed_degrees(node.given[1]) and (is_reading(value) or is_steps(value)):
        step = Quantity(step.magnitude, "delta_" + node.given[1].unit)
    if is_reading(value) and is_steps(step):
        return value, step
    return _alike(node, [value, step])


def _whole(number):
    """A number as it is, a whole one where floats left a trace of it."""
    near = round(number)
    return Fraction(near) if abs(number - near) <= _NEAREST * max(1.0, abs(number)) else Fraction(number)


def _half_up(number):
    return math.floor(number + Fraction(1, 2) + Fraction(1, 10**9))


CHOOSING = {
    "min": functools.partial(_chosen, min),
    "max": functools.partial(_chosen, max),
    "round up": functools.partial(_stepped, math.ceil),
    "round down": functools.partial(_stepped, math.floor),
    "round": functools.partial(_stepped, _half_up),
}
