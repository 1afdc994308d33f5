"""What the tabs of the formula box share: a place for a formula in force, a table, and a list to search a name in."""

import functools

import ipywidgets as widgets

from pastrylab.ground.units import Quantity, both
from pastrylab.page.bench import guarded
from pastrylab.page.boxes import WIDE, TypedPick, field
from pastrylab.page.parts import part, text_html

_NONE = "No formula yet: type or paste one above, then come back to this step."


class FormulaTab(widgets.VBox):
    """A step of the formula box: shows the formula in force, and may give a changed one back.

    above, below: widgets above and below what the step says. keep: called with a name and a Formula when the reader takes
    a changed formula over; None where nothing takes it. `renew` shows what a new formula in force changes.
    """

    title = ""

    def __init__(self, above, below, keep=None):
        self.formula, self.made, self.keep = None, None, keep
        self.said = widgets.HTML(text_html(_NONE, "note"), layout=WIDE)
        self._parts = [
            widgets.VBox(part, layout=widgets.Layout(width="auto", display="none")) for part in (above, below)
        ]
        super().__init__([self._parts[0], self.said, self._parts[1]], layout=WIDE)

    def show(self, formula):
        """Take the formula in force, a Formula or None; the same one again changes nothing."""
        if formula is None or formula != self.formula:
            guarded(self.said)(self._take)(formula)

    def _take(self, formula):
        self.formula, self.made = formula, None
        for half in self._parts:
            half.layout.display = "none" if formula is None else ""
        self.say("" if formula is not None else _NONE, "note")
        if formula is not None:
            self.renew(formula)

    def renew(self, formula):
        """Show what depends on the formula; each step has its own."""
        raise NotImplementedError

    def with_formula(self, callback):
        """A callback of this step, guarded: without a formula in force it says that, and nothing is worked out."""

        @functools.wraps(callback)
        def call(*args):
            return self.say(_NONE, "note") if self.formula is None else callback(*args)

        return guarded(self.said)(call)

    def hand_over(self, name):
        """Give the formula that was made here, if there still is one: a second press finds none."""
        if self.made is not None:
            made, self.made = self.made, None
            self.keep(name, made)

    def say(self, text, look="say"):
        """Put a sentence, or several, below the step; look: one of parts.LOOKS."""
        self.said.value = text_html(text, look)


def table_html(caption, heads, rows):
    """A table of words, then numbers: the first column is the words."""
    looks = ["words", *["numbers"] * (len(heads) - 1)]
    return str(part("table", caption=caption, heads=heads, rows=rows, looks=looks))


def weight(grams):
    """Grams as a table writes them, with ounces behind, which a narrow page may put on a line of their own.

    >>> weight(125.0).split(), weight(0.0)
    (['125', 'g', '(4.41', 'oz)'], 'none')
    """
    if not grams > 0:
        return "none"
    written = both(Quantity(float(grams), "g"), 3).replace(" ", "\N{NO-BREAK SPACE}")
    return written.replace("\N{NO-BREAK SPACE}(", " (")


def plain_weight(grams):
    """Grams alone, for the column that stands beside one with both.

    >>> plain_weight(125.0).split()
    ['125', 'g']
    """
    return weight(grams).partition(" (")[0]


def percent(share):
    """A share as a table writes it.

    >>> percent(0.2713)
    '27.1 %'
    """
    return f"{100 * share:.1f} %"


def name_box(label, names, example):
    """A box that offers the names that hold what is typed."""
    return TypedPick(description=label, options=list(names), placeholder=f"for example {example}", **field("360px"))
