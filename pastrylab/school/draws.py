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
    return _drawn(f"{exercise_id}|{name}|{student}", given, word) if student else given.value


def _drawn(by, given, word):
    digest = hashlib.sha256((f"{by}|{word}" if word else by).encode()).digest()
    return float(f"{given.low + int.from_bytes(digest[:8], 'big') % (given.steps + 1) * given.step:.10g}")


def numbers(exercise_id, rows, student, word=""):
    """All values of an exercise for one student: ((name, number, unit), ...), a number a row. rows: {name: Given}.

    Raises StudentError where a given is lacking that the exercise cannot do without.

    >>> rows = exercise_values.values().of("05.highest-reading")
    >>> numbers("05.highest-reading", rows, "")
    (('ph', 5.5, ''), ('error', 0.015, ''))
    """
    for name in KINDS.get(exercise_id, ()):
        if name not in rows:
            raise _without(exercise_id, name)
    student = student_named(student)
    if not student:
        return tuple((name, given.value, given.unit) for name, given in rows.items())
    return tuple(
        (name, _drawn(f"{exercise_id}|{name}|{student}", given, word), given.unit) for name, given in rows.items()
    )


def givens(exercise, student="", values=None):
    """Namespace of an exercise's givens (quantities, Money, or floats where the CSV has no unit) and its lets.

    Raises StudentError where the values file lacks a given, or where its values make no sense together.

    >>> from pastrylab import exercises
    >>> shown(givens(exercises.exercise("02.seed-for-a-bowl")).batch)
    '3 kg (6.61 lb)'
    """
    values = exercise_values.values(values)
    g = SimpleNamespace(**_with_units(numbers(exercise.id, values.of(exercise.id), student, values.word)))
    for name, let in exercise.lets.items():
        setattr(g, name, _let(exercise, let, g))
    return g


def as_asked(exercise, drawn):
    """As `givens`, but a let is worked out when something asks for it: many stand only in sentences. drawn: of `numbers`.

    >>> from pastrylab import exercises
    >>> melting = exercises.exercise("02.heat-to-melt-out")
    >>> g = as_asked(melting, numbers(melting.id, exercise_values.values().of(melting.id), ""))
    >>> "rise" in vars(g), shown(g.rise), "rise" in vars(g)
    (False, '33 °C (59.4 °F)', True)
    """
    g = _AsAsked(exercise, _with_units(drawn))
    for name in exercise.lets if exercise.reads_names else ():
        getattr(g, name)
    return g


class _AsAsked(SimpleNamespace):
    """Givens, and lets that are worked out once, when they are first asked for."""

    __slots__ = ("_exercise", "_open")

    def __init__(self, exercise, givens):
        super().__init__(**givens)
        self._exercise, self._open = exercise, dict(exercise.lets)

    def __getattr__(self, name):
        let = self._open.pop(name, None)  # one that asks for itself finds nothing
        if let is None:
            raise AttributeError(f"no given or let '{name}'", name=name, obj=self)
        try:
            found = _let(self._exercise, let, self)
        except Exception:
            self._open[name] = let
            raise
        setattr(self, name, found)
        return found


def _let(exercise, let, g):
    try:
        return let(g)
    except AttributeError as error:
        raise _without(exercise.id, error.name) from None


def _with_units(drawn):
    return {name: _with_unit(number, unit) for name, number, unit in drawn}


def _without(exercise_id, name):
    given = f"exercise_values.csv without the given '{name}' of exercise {exercise_id}"
    return StudentError(given, "a row for it", exercise_values.shipped_row(exercise_id, name) or exercise_id)


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
    return text.format_map(_Fields(g))


class _Fields:
    """The givens and lets of a namespace, each by its name in braces."""

    def __init__(self, g):
        self._g = g

    def __getitem__(self, name):
        try:
            return _Field(getattr(self._g, name))
        except AttributeError:
            raise KeyError(name) from None


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
