"""Answers without a unit of their own: a share of a whole, a plain number."""

from dataclasses import dataclass

from pastrylab.school.kinds.measured import Measured
from pastrylab.school.verdict import Verdict


@dataclass(frozen=True)
class ShareKind(Measured):
    """A part of a whole, kept as a number of 1: 0.228, typed "22.8 %" or "0.228".

    >>> from pastrylab import exercises
    >>> exercises.exercise("03.water-of-the-whole").how.show(0.228)
    '22.8 %'
    """

    measures = "a share (a percentage)"
    factor = 100
    check = "As a percentage, a share is a hundred times as large."

    def example(self, expected=None):
        return "25 %"

    def show(self, number):
        """A number of 1 as a percentage."""
        return f"{100 * self.safe(number):.4g} %"

    def bare(self, number):
        return 0 <= number <= 1

    @property
    def _resolution_text(self):
        return f"{100 * self.exercise.resolution:g} points of a percentage"

    def same_number(self, typed, expected):
        if typed.unit != "percent" or not self._fits(typed, expected):
            return None
        return Verdict(
            "unit", "The number is a share, the unit is not: as a percentage it is a hundred times as large."
        )


@dataclass(frozen=True)
class NumberKind(Measured):
    """A plain number: a count, a ratio, a pH. What is counted may be named behind it, in words of the exercise.

    >>> from pastrylab import exercises
    >>> exercises.exercise("08.break-even").how.example()
    '1.5'
    """

    label = "Your answer, a plain number"

    @property
    def own_words(self):
        return f"{self.exercise.title} {self.exercise.prompt}"

    def example(self, expected=None):
        return "1.5"

    def show(self, number):
        """The number with four digits."""
        return f"{self.safe(number):.4g}"

    def bare(self, number):
        return True
