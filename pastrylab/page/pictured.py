"""The place of a picture on a page, which learns from the page whether it is narrow and has the picture made for it."""

import ipywidgets as widgets

from pastrylab.page.boxes import WIDE
from pastrylab.page.picture import ONE_AT_A_TIME, Picture


class Pictured(widgets.VBox):
    """A picture's place: `value` is its HTML. figure: the Picture; draw: updates it and sets `value` again.

    No widget tells the kernel how wide it is shown. So the image itself does, as it loads and whenever its place changes
    between narrow and wide (templates/picture.html): it writes the word into a box nobody sees, and the word travels as
    typed text does. One picture is drawn, never two.
    """

    def __init__(self, figure, draw):
        self.figure, self._draw = figure, draw
        self._html = widgets.HTML(layout=WIDE)
        self.told = widgets.Text(layout={"display": "none"}, continuous_update=False)
        self.told.observe(self._fit, "value")
        super().__init__([self._html, self.told], layout=WIDE)
        self.add_class("pastrylab-picture")

    value = property(lambda self: self._html.value, lambda self, html: setattr(self._html, "value", html))

    def _fit(self, change):
        """What the page tells holds for every figure that is made from now on; this one is made anew where it differs."""
        if change["new"] in ("narrow", "wide"):
            with ONE_AT_A_TIME:
                Picture.page_is_narrow = change["new"] == "narrow"
                if self.figure.fit() and self.value:
                    self._draw()
