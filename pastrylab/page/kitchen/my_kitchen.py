"""What is one's own, entered without code: an ingredient off its label, a couverture with its bands, a price."""

import ipywidgets as widgets

from pastrylab.page.bench import guarded
from pastrylab.page.boxes import WIDE
from pastrylab.page.kitchen.couverture import CouvertureForm
from pastrylab.page.kitchen.label import LabelForm
from pastrylab.page.kitchen.price import PriceForm

FORMS = {"An ingredient": LabelForm, "A couverture": CouvertureForm, "A price": PriceForm}


class MyKitchen(widgets.VBox):
    """Three forms, one at a time, made when they are first asked for; each lists what is kept."""

    def __init__(self, first="An ingredient"):
        self._made = {}
        self.what = widgets.ToggleButtons(
            options=list(FORMS), value=first, description="I add", style={"button_width": "auto"}, layout=WIDE
        )
        self.place, self.said = widgets.VBox(layout=WIDE), widgets.HTML(layout=WIDE)
        self.what.observe(guarded(self.said)(lambda _change: self._in_front()), "value")
        super().__init__([self.what, self.said, self.place], layout=WIDE)
        self.add_class("pastrylab-kitchen")
        guarded(self.said)(self._in_front)()

    @property
    def form(self):
        """The form in front."""
        return self._made[self.what.value]

    def _in_front(self):
        self.said.value = ""
        title = self.what.value
        if title not in self._made:
            self._made[title] = FORMS[title]()
        self._made[title].list_mine()
        self.place.children = [self._made[title]]
