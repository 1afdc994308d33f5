"""A guess and what it was about as two bars: the picture of a guess that no bench follows."""

from pastrylab.ground.units import show
from pastrylab.page.guess_mark import GUESS
from pastrylab.page.picture import INK, LINE, Picture


class GuessBars(Picture):
    """Two quantities of one kind, in the unit the question asked for."""

    def __init__(self):
        super().__init__(height=2.3)
        axes = self.axes
        axes.set_title("Your guess beside the amount", fontsize=14, loc="left")
        axes.set_yticks((0, 1), ("your guess", "the amount"), fontsize=12)
        axes.invert_yaxis()
        style = {"height": 0.6, "edgecolor": INK, "linewidth": 1}
        (guess,) = axes.barh(0, 0, facecolor="white", hatch="//", **{**style, "edgecolor": GUESS})
        (amount,) = axes.barh(1, 0, facecolor=LINE, **style)
        self._bars = guess, amount
        self._words = [axes.text(0, row, "", va="center", fontsize=12, color=INK) for row in (0, 1)]

    def update(self, *, guess, amount, unit, system="metric"):
        """guess, amount: quantities of one kind; unit: of the axis. Returns the sentence."""
        numbers = [float(one.m_as(unit)) for one in (guess, amount)]
        for bar, words, number, one in zip(self._bars, self._words, numbers, (guess, amount), strict=True):
            bar.set_width(number)
            words.set_x(number + 0.02 * max(numbers))
            words.set_text(show(one.to(unit)))
        self.axes.set_xlim(0, 1.3 * max(*numbers, 1e-9))
        self.axes.set_xlabel(unit)
        self.alt = f"Your guess is {show(guess.to(unit))}, the amount {show(amount.to(unit))}."
        return self.alt
