"""A computed water activity with its error, and the caution that goes with every answer about keeping."""

from dataclasses import dataclass

from pastrylab.ground import careful
from pastrylab.ground.units import Number

CAUTION = (
    "For teaching and planning only: this does not show that a food may be kept or sold. Follow your local "
    "food code and the advice of a licensed professional; clean work, cold and short keeping come first."
)
IN_SHORT = "For planning only."  # where the whole caution stands on the same bench
METER_ERROR = Number(at_least=0, at_most=0.05, example="0.015")


@dataclass(frozen=True)
class Estimate:
    """A computed water activity: value, low, high, a sentence with the stated error, notes, and the
    caution.

    >>> Estimate(0.85, 0.82, 0.88, "a ganache").written
    '0.85 (0.82 to 0.88)'
    """

    value: float
    low: float
    high: float
    sentence: str
    notes: tuple[str, ...] = ()
    caution: str = CAUTION

    def __str__(self):
        return " ".join([self.sentence, *self.notes, self.caution])

    @property
    def written(self):
        """The estimate and its ends as text, none lower than it is: "0.92 (0.89 to 0.95)"."""
        value, low, high = (careful.written_up(end) for end in (self.value, self.low, self.high))
        return f"{value} ({low} to {high})"


AW = Number(above=0, at_most=1, example="0.85")
