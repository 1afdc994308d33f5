"""A typed formula as a line of a worked solution: the same sum in numbers, and what it comes to."""

from dataclasses import dataclass

import pint

from pastrylab.ground.money import Money
from pastrylab.ground.units import in_digits, symbol
from pastrylab.school.typed.kinds import Rate
from pastrylab.school.typed.nodes import Bracket, Call, Joined, Minus, Name, Number, Power
from pastrylab.school.typed.reckon import worth
from pastrylab.school.typed.tree import tree

_SIGNS = {"+": "+", "-": "\N{MINUS SIGN}", "*": "×", "/": "÷"}
_RAISED = str.maketrans("123456", "¹²³⁴⁵⁶")


@dataclass(frozen=True)
class Line:
    """One line of a worked solution, written when it is asked for. name: of the sum, "" for the answer itself; g: the
    namespace of givens and sums."""

    name: str
    text: str
    g: object

    def __str__(self):
        said = in_numbers(self.text, self.g)
        said = f"{self.name.replace('_', ' ')}: {said}." if self.name else f"{said}."
        return said[0].upper() + said[1:]


def in_numbers(text, g):
    """A typed formula with its numbers, and its result: "600 g + 400 g = 1000 g"; a result alone where nothing is reckoned.

    Raises StudentError as `reckoned` does.

    >>> from types import SimpleNamespace
    >>> in_numbers("round up(order / bowl)", SimpleNamespace(order=11.5, bowl=4.5))
    'round up(11.5 ÷ 4.5) = round up(2.5556) = 3'
    """
    names = vars(g)
    whole = tree(text, frozenset(names))
    found = [_written(whole, names, False), _written(whole, names, True), _value(worth(whole, names))]
    return " = ".join(dict.fromkeys(found))


def _written(node, names, inside_done):
    """A piece in numbers; inside_done: whether what stands in a function's brackets is worked out already."""
    if isinstance(node, Joined):
        left, right = (_written(one, names, inside_done) for one in (node.left, node.right))
        return f"{left} {_SIGNS[node.sign]} {_kept_apart(right)}"
    if isinstance(node, Bracket):
        return f"({_written(node.of, names, inside_done)})"
    if isinstance(node, Minus):
        return f"\N{MINUS SIGN}{_kept_apart(_written(node.of, names, inside_done))}"
    if isinstance(node, Power):
        base = _written(node.of, names, inside_done)
        base = base if base.isdigit() or isinstance(node.of, Bracket | Call) else f"({base})"
        return base + str(node.times).translate(_RAISED)
    if isinstance(node, Call):
        given = [
            _value(worth(one, names))
            if inside_done and not isinstance(one, Name | Number)
            else _written(one, names, False)
            for one in node.given
        ]
        return f"{node.name}({'; '.join(given)})"
    return _value(worth(node, names))


def _kept_apart(text):
    return f"({text})" if text.startswith("\N{MINUS SIGN}") else text


def _value(value):
    """A value as it stands in a sum: five digits, its own unit, money with its odd part of a cent."""
    if isinstance(value, Money):
        text = value.in_full()
    elif isinstance(value, Rate):
        text = str(value)
    elif isinstance(value, pint.Quantity):
        text = f"{in_digits(value.magnitude, 5)} {symbol(value.units)}".strip()
    else:
        text = in_digits(value, 5)
    return text.replace("-", "\N{MINUS SIGN}", 1) if text.startswith("-") else text
