"""Benches of lesson 01: a formula scaled to shelf or order, one gram too much, and the spread of one's own cups."""

from dataclasses import dataclass

from pastrylab.course.scaling.cups import CupsBench, cups_bench
from pastrylab.course.scaling.figures import OneGramTooMuch, ScaledFormula
from pastrylab.page.bench import Bench, Control
from pastrylab.page.cards import GuessCard
from pastrylab.page.guess import Asked

__all__ = ["CupsBench", "guess_batch", "guess_slip", "pieces_bench", "cups_bench", "shelf_bench", "slip_bench"]
_LESSON = "01"
_STEPS = [("steps of 1 g", 1.0), ("steps of 0.1 g", 0.1), ("steps of 2 g", 2.0), ("steps of 5 g", 5.0)]


@dataclass(frozen=True)
class Count(Control):
    """A number of things, without a unit."""

    def title(self, system):
        return self.label


def guess_batch():
    """The guess before the scaling bench."""
    return GuessCard(
        _LESSON,
        "shelf",
        "A ganache takes 500 g couverture, 300 g cream and 50 g butter, with a little honey and salt: 893 g (1 lb 15 oz). "
        "On the shelf lie 2 kg couverture, 900 g cream and 180 g butter, and plenty of the rest. How much ganache can you "
        "make? Commit to a number before you look.",
        "2 kg",
    )


def guess_slip():
    """The guess before the bench on a slip of the hand."""
    return GuessCard(
        _LESSON,
        "gelatin",
        "Your hand slips and you weigh 2 g too much. Once it lands on 500 g of couverture, once on 4 g of gelatin. By how "
        "many percent is the gelatin too heavy?",
        "5 %",
    )


def shelf_bench():
    """Scale a formula to what lies on the shelf; see what runs out first."""
    controls = (
        Control("couverture", "Couverture on the shelf", "g", 500, 3000, 50, 2000, us=(18, 106, 1)),
        Control("cream", "Cream on the shelf", "g", 300, 2000, 50, 900, us=(11, 70, 1)),
        Control("butter", "Butter on the shelf", "g", 50, 500, 10, 180, us=(2, 17, 0.5)),
    )
    legend = (
        "Blue bars: what to weigh, in grams as your scale shows them. Dashed boxes: what lies on the shelf. Yellow hatched bar: "
        "the ingredient that runs out first. Of honey and salt there is plenty. Diamond: what your guess would take of what runs out first. Percent: of the whole ganache."
    )
    choices = (("step", "Your scale shows", _STEPS),)
    return Bench(ScaledFormula(), controls, legend, choices, guess=Asked(_LESSON, "shelf", "g", "the shelf"))


def pieces_bench():
    """Scale the same formula to an order of pieces, with what stays in bowl and bag."""
    controls = (
        Count("pieces", "Pieces", "dimensionless", 12, 240, 12, 96),
        Control("piece", "One piece holds", "g", 4, 20, 0.5, 9, us=(0.15, 0.7, 0.05)),
        Control("loss", "Stays in bowl and bag", "", 0, 20, 1, 8),
    )
    legend = "Blue bars: what to weigh, in grams as your scale shows them. Percent: of the whole ganache."
    choices = (("step", "Your scale shows", _STEPS),)
    return Bench(ScaledFormula(), controls, legend, choices)


def slip_bench():
    """One gram too much: the error of a part against its size."""
    controls = (
        Control("off_by", "Too much by", "g", 0.5, 10, 0.5, 2, us=(0.02, 0.35, 0.01)),
        Control("part", "The part it lands on", "g", 1, 1000, 1, 40, us=(0.05, 35, 0.05)),
        Control("allowed", "A part may be off by", "", 0.5, 10, 0.5, 2),
    )
    legend = (
        "Blue bars: the slip as a share of a part everybody knows. Dotted yellow bar: of your part. Grey hatched: more than you "
        "allow. Scale too coarse: its own step is already more than that. A bar at the edge goes on beyond it."
    )
    choices = (("step", "Your scale shows", _STEPS),)
    return Bench(OneGramTooMuch(), controls, legend, choices, guess=Asked(_LESSON, "gelatin", "percent", "the slip"))
