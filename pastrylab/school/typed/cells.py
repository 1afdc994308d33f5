"""The cells of a row that makes an exercise: units, amounts, named formulas, texts with givens in braces."""

import re
import string

from pastrylab.ground.currencies import CURRENCIES, SYMBOLS
from pastrylab.ground.errors import StudentError
from pastrylab.ground.grammar import Quantity, dimension, read_text, unit_named
from pastrylab.ground.money import money
from pastrylab.ground.quantities import kind_of, symbol
from pastrylab.ground.spellings import COUNTS

_WORD = re.compile(r"(?![²³])[^\W\d](?:(?![²³])\w)*")
LONGEST_TEXT = 1500


def asked(cell):
    """(kind of answer, its unit as an Exercise has it) of the cell "unit". Raises StudentError for no unit.

    >>> asked("g"), asked("%"), asked(""), asked("USD"), asked("°C"), asked("Δ°C")
    (('quantity', 'g'), ('share', ''), ('number', ''), ('money', ''), ('reading', 'degC'), ('difference', 'degC'))
    """
    if not cell or cell.casefold() in ("number", "count"):
        return "number", ""
    if cell in CURRENCIES or cell in SYMBOLS or cell.casefold() == "money":
        return "money", ""
    unit = unit_named(cell)
    if unit == "percent":
        return "share", ""
    if unit in COUNTS:
        return "number", ""
    if unit.startswith("delta_deg"):
        return "difference", unit.removeprefix("delta_")
    return ("reading" if unit in ("degC", "degF") else "quantity"), unit


def amount(cell, kind, unit, step=False):
    """An amount typed in a cell, as a float in the unit of the answer; a share as a number of 1. A number alone is in
    that unit, for a share in %. step: whether it is a tolerance: no reading but a step of one. Raises StudentError.

    >>> amount("5", "quantity", "g"), amount("0.5 %", "share", ""), amount("0.5 °C", "reading", "degC", step=True)
    (5.0, 0.005, 0.5)
    """
    if kind == "money":
        return float(money(cell, "an amount", at_least=None))
    own = {"share": "percent", "number": ""}.get(kind, unit)
    typed = read_text(cell, dimension(own) if own else None, own)
    if not own:
        if typed.unit and typed.unit not in COUNTS:
            raise StudentError(
                f"'{cell[:30]}'", "a number without a unit: the cell 'unit' has none", f"{typed.number:g}"
            )
        return typed.number
    of_steps = step or kind == "difference"
    here, own = (_in_steps(name) if of_steps else name for name in (typed.unit or own, own))
    if dimension(here) != dimension(own):
        raise StudentError(f"'{cell[:30]}'", f"{kind_of(own)}, as the cell 'unit' says", f"5 {symbol(own)}")
    return float(Quantity(typed.number, here).m_as("" if kind == "share" else own))


def _in_steps(unit):
    return f"delta_{unit}" if unit in ("degC", "degF") else unit


def sums(cell):
    """[(name, formula), ...] of the cell "sums": one a line, or parted by ; outside of brackets.

    Raises StudentError for a sum without a name, a name twice, or the name "answer".

    >>> sums("all = couverture + cream; each = all / pieces")
    [('all', 'couverture + cream'), ('each', 'all / pieces')]
    """
    found = []
    for part in _parted(cell):
        name, formula = named_formula(part, "all = couverture + cream")
        name = name.strip()
        if not _WORD.fullmatch(name) or len(name) > 40:
            raise StudentError(f"'{name[:40]}' as the name of a sum", "one word; _ joins two", "cream_used")
        if name in ("answer", *(other for other, _ in found)):
            raise StudentError(f"'{name}' as the name of a sum, a name there is already", "another name", f"{name}_2")
        found.append((name, formula))
    return found


def _parted(cell):
    depth, part = 0, ""
    for sign in cell:
        depth += {"(": 1, ")": -1}.get(sign, 0)
        if sign == "\n" or (sign == ";" and depth <= 0):
            if part.strip():
                yield part.strip()
            part = ""
        else:
            part += sign
    if part.strip():
        yield part.strip()


def named_formula(text, example):
    """(name, formula) of "name = formula". Raises StudentError where one of them is missing.

    >>> named_formula("cream forgotten = couverture / pieces", "")
    ('cream forgotten', 'couverture / pieces')
    """
    name, equals, formula = (part.strip() for part in text.partition("="))
    if not (name and equals and formula):
        raise StudentError(f"'{text[:60]}'", "a name, then =, then its formula", example)
    return name, formula


def text_of(cell):
    """A text whose braces hold names and nothing else, as it is. Raises StudentError.

    >>> text_of("How much is in {pieces} pieces?")
    'How much is in {pieces} pieces?'
    """
    if len(cell) > LONGEST_TEXT:
        raise StudentError(f"a text of {len(cell)} characters", f"at most {LONGEST_TEXT}")
    for name in names_in(cell):
        if not _WORD.fullmatch(name) or name == "answer":
            needed = "the name of a given or of a sum, alone" + (", not the answer" if name == "answer" else "")
            raise StudentError("{" + name[:30] + "}", needed, "{pieces}")
    return cell


def names_in(text):
    """What stands in braces in a text, a list. Raises StudentError for a brace without its partner.

    >>> names_in("{pieces} pieces of {each}")
    ['pieces', 'each']
    """
    try:
        parts = list(string.Formatter().parse(text))
    except ValueError:
        raise StudentError(f"'{text[:60]}', with a brace {'{'} or {'}'} alone", "braces in pairs", "{pieces}") from None
    return [
        name + (f"!{way}" if way else "") + (f":{spec}" if spec else "")
        for _, name, spec, way in parts
        if name is not None
    ]
