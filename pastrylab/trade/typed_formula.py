"""A formula typed line by line: "heavy cream 36 %: 200 g", kitchen measures weighed."""

from pastrylab.ground.units import Quantity, StudentError, read_text
from pastrylab.trade.formula import Formula
from pastrylab.trade.pantry import mass_of


def read_formula(text):
    """A Formula from lines such as "honey: 40 g"; an ingredient named twice is added up.

    text: a line an ingredient, its name, a colon, its mass; empty lines are passed over. A household measure, "honey:
    1 cup", is weighed as pantry.mass_of does. Raises StudentError naming the line that cannot be read, and as Formula
    does.

    >>> read_formula("honey: 40 g\\nbutter: 2 oz\\nhoney: 10 g").grams
    {'honey': 50.0, 'butter unsalted': 56.69...}
    """
    parts = {}
    for line in filter(None, map(str.strip, text.splitlines())):
        name, colon, amount = (part.strip() for part in line.rpartition(":"))
        if not colon or not name:
            raise StudentError(f"the line '{line[:60]}'", "an ingredient, a colon, its mass", "heavy cream 36 %: 200 g")
        parts[name] = parts.get(name, Quantity(0, "g")) + _mass(line, name, amount)
    return Formula(parts)


def _mass(line, name, amount):
    typed = read_text(amount, "[mass]")
    kind = typed.unit and str(Quantity(1, typed.unit).dimensionality)
    if kind == "[length] ** 3":
        return mass_of(typed.quantity, name)
    if kind != "[mass]":
        given = f"the line '{line[:60]}', {'without a unit' if not typed.unit else 'not a mass'}"
        raise StudentError(given, "a mass with its unit", f"{name[:40]}: 200 g")
    return typed.quantity
