"""The bench of the label: pick a flavour and a box, and read the draft of its label with all that is still to look up."""

import ipywidgets as widgets

from pastrylab.page.boxes import TypedBox, answer_box, button, field
from pastrylab.page.form import Form
from pastrylab.page.label_sheet import label_html
from pastrylab.trade.orders import flavours
from pastrylab.trade.statement import EU, US, label

_LAWS = (("the United States", US), ("the European Union", EU))
_ALONE, _ALL = "nothing else", "all other flavours"


def _choice(title, options):
    return widgets.Dropdown(description=title, options=options, **field())


class LabelBench(Form):
    """A draft of a label. `draft` is what stands on the page, None while something typed cannot be read."""

    def __init__(self):
        self.flavour = _choice("Flavour", list(flavours()))
        self.law = _choice("Sold in", _LAWS)
        self.beside = _choice("Made in the room that day", [_ALL, _ALONE])
        self.pieces = TypedBox(description="Pieces in a box", value="12", **field())
        self.weighed = answer_box("Lightest box, wrapping off", "161.4 g")
        self.shown = widgets.HTML()
        self.draft = None
        press = button("Write the label", "Read the draft of this label")
        rows = [[self.flavour, self.law], [self.pieces, self.weighed], [self.beside]]
        super().__init__(rows, press, self.write, below=[self.shown])
        for one in (self.flavour, self.law, self.beside):
            one.observe(lambda _change: self.act(), names="value")
        self.act()

    def write(self):
        """Draft the label of what is chosen and typed. Raises StudentError."""
        self.draft, self.shown.value = None, ""  # an old label does not stand beside a new choice
        others = [name for name in flavours() if name != self.flavour.value] if self.beside.value == _ALL else ()
        weighed = self.weighed.value.strip() or None
        self.draft = label(self.flavour.value, self.pieces.value, self.law.value, others, weighed)
        self.shown.value = label_html(self.draft)
        self.say(f"A draft for {self.draft.name}: the empty lines are yours to fill in.")
