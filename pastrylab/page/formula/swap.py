"""Swap a sweetener of the formula in force for another, holding its solids, its water or its sweetness."""

import ipywidgets as widgets

from pastrylab.ground.units import StudentError, read_text
from pastrylab.page.bench import guarded
from pastrylab.page.boxes import WIDE, TypedBox, button, field, on_enter, on_press, row
from pastrylab.page.formula.tab import FormulaTab, name_box, percent, plain_weight, table_html, weight
from pastrylab.page.parts import part, text_html
from pastrylab.trade import keeping
from pastrylab.trade.activity import estimated
from pastrylab.trade.pantry import ingredients
from pastrylab.trade.sugars.swapped import HOLDS, swapped, sweeteners

_HOLD = dict(zip(("the dry sugar in it", "the water in it", "how sweet it is"), HOLDS, strict=True))
_NOTE = (
    "A swap holds one thing and lets the others go. Sweetness: grams of table sugar that would be as sweet, from the "
    "lowest to the highest that is published; cold, acid and bitter cocoa change what you taste. Water that has come in "
    "can be boiled off, or taken out at the step Mend. "
)


class SwapTab(FormulaTab):
    """Another sweetener in the place of one of the formula's, and what that changes."""

    title = "Swap a sweetener"

    def __init__(self, keep=None):
        wide = field("330px")
        self.goes = widgets.Dropdown(description="Take out", **wide)
        self.amount = TypedBox(description="How much of it", placeholder="all of it", **wide)
        self.comes = name_box("Put in", sweeteners(ingredients()), "glucose syrup DE 42")
        self.hold = widgets.Dropdown(options=_HOLD, description="Hold", **wide)
        self.press = button("Swap it", "Work out the swap")
        self.found = widgets.HTML(layout=WIDE)
        self.take = button("Use this formula", "Put the swapped formula in place of the one above")
        self.take.layout.display = "none"
        note = widgets.HTML(part("legend", text=_NOTE + keeping.CAUTION), layout=WIDE)
        panel = row(self.goes, self.amount, self.comes, self.hold)
        super().__init__([panel, row(self.press)], [self.found, row(self.take), note], keep)
        said, act = guarded(self.said), self.with_formula(self.swap)
        on_press(self.press, [self.amount, self.comes], act)
        for box in (self.amount, self.comes):
            on_enter(box, act)
        self.take.on_click(said(lambda _button: self.hand_over("swapped")))

    def renew(self, formula):
        there, stood = sweeteners(formula.grams), self.goes.value
        self.goes.options = there
        self._clear()
        if there:
            self.goes.value = stood if stood in there else there[0]
            return
        for half in self._parts:
            half.layout.display = "none"
        self.say(
            "This formula has no sweetener of its own to swap; the sugar inside chocolate stays where it is.", "note"
        )

    def _clear(self):
        self.made, self._made, self.found.value, self.take.layout.display = None, None, "", "none"
        self.say("")

    def swap(self):
        """Swap what the boxes say, and show what was held and what was not."""
        self._clear()
        new = self.comes.value.strip()
        if not new:
            raise StudentError("nothing to put in", "the sweetener that comes in", "glucose syrup DE 42")
        self._made = swapped(self.formula, self.goes.value, new, self.hold.value, self._grams())
        self.made = self._made.formula
        sentences = [self._made.swap.sentence, *self._made.not_held, *self._made.swap.notes]
        self.found.value = text_html(sentences) + self._beside() + self._changes()
        self.take.layout.display = "" if self.keep else "none"

    def _grams(self):
        """The mass to swap, None for all of it. A share is one of what the formula holds."""
        text = self.amount.value.strip()
        if not text or text.casefold() in ("all", "all of it"):
            return None
        typed = read_text(text, "[mass]")
        if typed.unit == "percent":
            return f"{typed.number / 100 * self.formula.grams[self.goes.value]} g"
        if not typed.unit:
            raise StudentError(f"{text[:40]}, without a unit", "a mass with its unit, or nothing for all of it", "30 g")
        return typed.quantity

    def _beside(self):
        before, after = self.formula.grams, self._made.formula.grams
        rows = [
            (name, plain_weight(before.get(name, 0.0)), weight(after.get(name, 0.0)))
            for name in dict.fromkeys([*before, *after])
        ]
        rows.append(("together", plain_weight(self.formula.total_grams), weight(self._made.formula.total_grams)))
        return table_html("The formula, before and after", ("ingredient", "before", "after"), rows)

    def _changes(self):
        both = self.formula, self._made.formula
        made = [formula.composition() for formula in both]
        rows = [(name, *(percent(one[name]) for one in made)) for name in ("water", "sugars", "fat")]
        if self._made.sweetness:
            rows.append(
                ("as sweet as table sugar", *(f"{low:.0f} to {high:.0f} g" for low, high in self._made.sweetness))
            )
        rows.append(("water activity, estimated", *(_activity(formula) for formula in both)))
        return table_html("What it changes", ("in the whole formula", "before", "after"), rows)


def _activity(formula):
    """The estimate with its ends, or that there is none."""
    try:
        return estimated(formula).written
    except StudentError:
        return "no estimate"
