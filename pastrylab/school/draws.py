"""The values one student gets: drawn by a published rule, filled into the text of an exercise."""

import hashlib
from types import SimpleNamespace

import pint

from pastrylab.ground.currencies import CURRENCIES
from pastrylab.ground.money import Money, decimal_of
from pastrylab.ground.units import Quantity, StudentError, both, in_digits, symbol
from pastrylab.school import exercise_values
from pastrylab.school.given_kinds import KINDS
from pastrylab.school.named import student_named


def draw(exercise_id, name, given, student, word=""):
    """The value of one given for one student, a float in the given's unit; "" is the class value. word: that of the term.

    Published rule: k = SHA-256 of "exercise|given|student" in UTF-8, or of "exercise|given|student|word" where the term
    has a word, first 16 hexadecimal digits as a whole number, modulo (number of steps + 1); value = low + k steps. A new
    exercise therefore shuffles nobody's values.

    >>> batch = exercise_values.values().of("02.seed-for-a-bowl")["batch"]
    >>> draw("02.seed-for-a-bowl", "batch", batch, "Ana") == draw("02.seed-for-a-bowl", "batch", batch, " ANA")
    True
    """
    student = student_named(student)
    if not student:
        return given.value
    drawn_by = f"{exercise_id}|{name}|{student}" + (f"|{word}" if word else "")
    digest = hashlib.sha256(drawn_by.encode()).hexdigest()
    return float(f"{given.low + int(digest[:16], 16) % (given.steps + 1) * given.step:.10g}")


def givens(exercise, student="", values=None):
    """Namespace of an exercise's givens (quantities, Money, or floats where the CSV has no unit) and its lets.

    Raises StudentError where the values file lacks a given, or where its values make no sense together.

    >>> from pastrylab import exercises
    >>> shown(givens(exercises.exercise("02.seed-for-a-bowl")).batch)
    '3 kg (6.61 lb)'
    """
    values = exercise_values.values(values)
    rows = values.of(exercise.id)
    for name in KINDS.get(exercise.id, ()):
        if name not in rows:
            raise _without(exercise, name)
    g = SimpleNamespace()
    for name, row in rows.items():
        number = draw(exercise.id, name, row, student, values.word)
        setattr(g, name, _with_unit(number, row.unit))
    for name, let in exercise.lets.items():
        try:
            setattr(g, name, let(g))
        except AttributeError as error:
            raise _without(exercise, error.name) from None
    return g


def _without(exercise, name):
    given = f"exercise_values.csv without the given '{name}' of exercise {exercise.id}"
    return StudentError(given, "a row for it", exercise_values.shipped_row(exercise.id, name) or exercise.id)


def _with_unit(number, unit):
    if unit in CURRENCIES:
        return Money(decimal_of(number, "a given", "4.50"), unit)
    return Quantity(number, unit) if unit else number


def fill(text, g):
    """Text with every {name} replaced by that given or let as a page shows it, metric first; {name:kg} as in a sum.

    >>> fill("Weigh {batch}.", SimpleNamespace(batch=Quantity(2, "kg")))
    'Weigh 2 kg (4.41 lb).'
    >>> fill("2 × {batch:kg} = {all:kg}", SimpleNamespace(batch=Quantity(2, "kg"), all=Quantity(4, "kg")))
    '2 × 2 kg = 4 kg'
    """
    return text.format_map({name: _Field(value) for name, value in vars(g).items()})


class _Field:
    """One given or let in braces, written out only where a text names it."""

    def __init__(self, value):
        self.value = value

    def __format__(self, spec):
        return in_sum(self.value, spec) if spec else shown(self.value)


def in_sum(value, spec):
    """A given or a let as it stands in a sum: metric alone, in digits enough for the sum to be followed on paper.

    spec: a unit such as "kg" or "degC"; "%", or "1" for a share as a plain number; "n" for the number as it is, and for
    money, which keeps its odd part of a cent. Behind it "bare" leaves the unit away and puts what is negative in
    brackets, a digit says how many significant ones (else 5). Raises StudentError for a unit not known.

    >>> in_sum(Quantity(31.5, "degC"), "degC bare"), in_sum(0.25, "%"), in_sum(Money(10.8333333, "USD"), "n")
    ('31.5', '25 %', '$10.8333')
    """
    unit, *more = spec.split()
    bare, digits = "bare" in more, next((int(word) for word in more if word.isdigit()), 5)
    if isinstance(value, Money):
        text, mark = value.in_full(), ""
    else:
        number, mark = _in_unit(value, unit)
        text = in_digits(number, digits)
    if not text.startswith("-"):
        return text + mark * (not bare)
    text = text.replace("-", "\N{MINUS SIGN}")
    return f"({text})" if bare else text + mark


def _in_unit(value, unit):
    """(number, what stands behind it) of a quantity or of a plain number."""
    if unit == "n":
        return value.magnitude if isinstance(value, pint.Quantity) else value, ""
    if unit in ("%", "1"):
        share = value.m_as("") if isinstance(value, pint.Quantity) else value
        return (100 * share, " %") if unit == "%" else (share, "")
    return value.m_as(unit), f" {symbol(unit)}"


def shown(value):
    """A given or a let as a page shows it: a quantity metric first, US customary beside it; a number with four digits.

    >>> shown(Quantity(31.5, "degC"))
    '31.5 °C (88.7 °F)'
    """
    if isinstance(value, pint.Quantity):
        return both(value)
    return f"{value:.4g}" if isinstance(value, float | int) else str(value)
