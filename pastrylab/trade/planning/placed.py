"""A step where a plan has put it."""

from dataclasses import dataclass

from pastrylab.trade.planning.steps import Step, times


@dataclass(frozen=True)
class Placed:
    """A step in a plan: begins and ends in minutes from midnight before the first day, in machine number `machine` of its
    sort (0: none), after `cleaning` minutes of cleaning that begin at `cleaned_from`.

    >>> str(Placed(Step("cast", 30), 480, 510))
    '8:00 to 8:30 cast'
    """

    step: Step
    begins: int
    ends: int
    machine: int = 0
    cleaning: int = 0
    cleaned_from: int = 0

    def __str__(self):
        return f"{times(self.begins, self.ends)} {self.step.name}"
