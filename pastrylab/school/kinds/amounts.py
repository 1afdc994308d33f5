"""Answers with a unit: an amount, a thermometer's reading, a difference of two readings."""

from dataclasses import dataclass
from functools import cached_property

from pastrylab.ground.units import Quantity, both, dimension, symbol
from pastrylab.school.kinds.measured import Measured
from pastrylab.school.verdict import Verdict

# Units of one kind that are taken for each other.
_ALIKE = (
    ("g", "kg", "oz", "lb"),
    ("mL", "L", "cup", "fl_oz", "tbsp", "tsp"),
    ("s", "min", "h", "day"),
)


@dataclass(frozen=True)
class QuantityKind(Measured):
    """An amount with its unit: 485 g, 1 h 5 min, 96 kJ.

    >>> from pastrylab import exercises
    >>> exercises.exercise("02.seed-for-a-bowl").how.show(485)
    '485 g (17.1 oz)'
    """

    @property
    def asked(self):
        return self.unit

    @cached_property
    def alike(self):
        return next((units for units in _ALIKE if dimension(units[0]) == dimension(self.unit)), ())

    def example(self, expected=None):
        return f"12.5 {symbol(self.unit)}"

    def show(self, number):
        """A number in the exercise's unit, metric first."""
        return both(Quantity(self.safe(number), self.unit))


@dataclass(frozen=True)
class ReadingKind(QuantityKind):
    """A temperature read off a thermometer. Out by a factor it makes no sense: no prefix was misplaced.

    >>> from pastrylab import exercises
    >>> exercises.exercise("03.how-warm-the-cream").how.show(34.1)
    '34.1 °C (93.4 °F)'
    """

    alike = ("degC", "degF")
    factor = 0

    def unit_trouble(self, typed, expected):
        if typed.unit.startswith("delta_"):
            example = self.example(expected)
            return Verdict("unit", f"That is a difference between two temperatures. Asked is a reading: {example}.")
        return super().unit_trouble(typed, expected)


@dataclass(frozen=True)
class DifferenceKind(QuantityKind):
    """A rise or a fall between two temperatures: typed "18 °F" it is 10 °C.

    >>> from pastrylab.school.engine import Exercise
    >>> fall = Exercise("02.mine", "A fall", "How far?", answer=len, hint="", steps=(), kind="difference", unit="degC")
    >>> fall.how.show(10)
    '10 °C (18 °F)'
    """

    alike = ("delta_degC", "delta_degF")
    factor = 0

    @property
    def unit(self):
        return "delta_" + self.exercise.unit.removeprefix("delta_")

    def converted(self, typed):
        steps = "delta_" + typed.unit if typed.unit in ("degC", "degF") else typed.unit
        return super().converted(type(typed)(typed.number, steps, typed.step))
