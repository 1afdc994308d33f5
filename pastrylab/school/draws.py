"""The values one student gets: drawn by a published rule, filled into the text of an exercise."""

import hashlib
import unicodedata
from types import SimpleNamespace

import pint

from pastrylab.ground.currencies import CURRENCIES
from pastrylab.ground.money import Money, decimal_of
from pastrylab.ground.units import Quantity, StudentError, both
from pastrylab.school import exercise_values


def student_named(student):
    """A student's name or class number as it counts for the draw: NFC, lower case, single spaces.

    >>> student_named("  Ana  MARIA ")
    'ana maria'
    """
    return " ".join(unicodedata.normalize("NFC", str(student or "")).casefold().split())


def draw(exercise_id, name, given, student):
    """The value of one given for one student, a float in the given's unit; "" is the class value.

    Published rule: k = SHA-256 of "exercise|given|student" in UTF-8, first 16 hexadecimal digits as a whole number,
    modulo (number of steps + 1); value = low + k steps. A new exercise therefore shuffles nobody's values.

    >>> batch = exercise_values.values().of("02.seed-for-a-bowl")["batch"]
    >>> draw("02.seed-for-a-bowl", "batch", batch, "Ana") == draw("02.seed-for-a-bowl", "batch", batch, " ANA")
    True
    """
    student = student_named(student)
    if not student:
        return given.value
    digest = hashlib.sha256(f"{exercise_id}|{name}|{student}".encode()).hexdigest()
    return float(f"{given.low + int(digest[:16], 16) % (given.steps + 1) * given.step:.10g}")


def givens(exercise, student="", values=None):
    """Namespace of an exercise's givens (quantities, Money, or floats where the CSV has no unit) and its lets.

    Raises StudentError where the values file lacks a given, or where its values make no sense together.

    >>> from pastrylab import exercises
    >>> shown(givens(exercises.exercise("02.seed-for-a-bowl")).batch)
    '3 kg (6.61 lb)'
    """
    rows = exercise_values.values(values).of(exercise.id)
    g = SimpleNamespace()
    for name, row in rows.items():
        number = draw(exercise.id, name, row, student)
        setattr(g, name, _with_unit(number, row.unit))
    for name, let in exercise.lets.items():
        try:
            setattr(g, name, let(g))
        except AttributeError as error:
            raise StudentError(
                f"exercise_values.csv without the given '{error.name}' of exercise {exercise.id}",
                "a row for it",
                exercise.id,
            ) from None
    return g


def _with_unit(number, unit):
    if unit in CURRENCIES:
        return Money(decimal_of(number, "a given", "4.50"), unit)
    return Quantity(number, unit) if unit else number


def fill(text, g):
    """Text with every {name} replaced by that given or let as a page shows it, metric first.

    >>> fill("Weigh {batch}.", SimpleNamespace(batch=Quantity(2, "kg")))
    'Weigh 2 kg (4.41 lb).'
    """
    return text.format_map(_Shown(vars(g)))


class _Shown(dict):
    """Givens and lets by name, written out only where the text names them."""

    def __getitem__(self, name):
        return shown(super().__getitem__(name))


def shown(value):
    """A given or a let as a page shows it: a quantity metric first, US customary beside it; a number with four digits.

    >>> shown(Quantity(31.5, "degC"))
    '31.5 °C (88.7 °F)'
    """
    if isinstance(value, pint.Quantity):
        return both(value)
    return f"{value:.4g}" if isinstance(value, float | int) else str(value)
