"""The pieces a typed formula is made of."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Node:
    """A piece of a formula; text: as it was typed."""

    text: str


@dataclass(frozen=True)
class Number(Node):
    """A number with its unit: a pint name, "" for none, or a currency's code."""

    value: float
    unit: str = ""


@dataclass(frozen=True)
class Name(Node):
    """A given or a sum, by its name, which is the text."""


@dataclass(frozen=True)
class Minus(Node):
    """What is taken with its sign turned."""

    of: Node


@dataclass(frozen=True)
class Joined(Node):
    """Two pieces and the sign between them: one of + - * /."""

    sign: str
    left: Node
    right: Node


@dataclass(frozen=True)
class Power(Node):
    """A piece times itself, so many times."""

    of: Node
    times: int


@dataclass(frozen=True)
class Bracket(Node):
    """What stands in brackets."""

    of: Node


@dataclass(frozen=True)
class Call(Node):
    """A function of the list, by its name, and its arguments."""

    name: str
    given: tuple[Node, ...]
