"""What every kind of answer can do."""

from abc import ABC, abstractmethod
from dataclasses import dataclass


@dataclass(frozen=True)
class Kind(ABC):
    """How one exercise is answered: asked for, read, judged and shown.

    exercise: the Exercise it belongs to. label: what stands before the box to type in.

    >>> from pastrylab import exercises
    >>> exercises.exercise("02.seed-for-a-bowl").how.label
    'Your answer, with its unit'
    """

    exercise: object
    label = "Your answer, with its unit"

    @abstractmethod
    def example(self, expected=None):
        """An answer as it could be typed, as text; `expected`: the right one, where its currency matters."""

    @abstractmethod
    def in_unit(self, value):
        """What an answer function returned, as it is compared: a float in the exercise's unit, Money, an option's name."""

    @abstractmethod
    def show(self, answer):
        """An answer (as of `in_unit`) as a page writes it."""

    @abstractmethod
    def absurd(self, expected):
        """Why a right answer makes no sense at a bench, as the rest of a sentence; "" where it does."""

    @abstractmethod
    def verdict(self, worked, answer):
        """The Verdict on a typed answer to an exercise that is worked out (a Case)."""
