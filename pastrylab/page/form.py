"""A form: boxes to type in, a button, and a place that says what came of them."""

import ipywidgets as widgets

from pastrylab.page.bench import guarded
from pastrylab.page.boxes import WIDE, TypedArea, TypedBox, on_enter, on_press, row
from pastrylab.page.parts import text_html


class Form(widgets.VBox):
    """What the small cards share. rows: widgets to stand side by side, row for row; press: the button, in a row of its own
    unless it stands in one of them; act: called without arguments when it is pressed, or Enter in a box of one line, once
    all that is typed is in. A StudentError it raises is said in `said`. below: what stands below that.
    """

    def __init__(self, rows, press, act, below=()):
        inside = [one for line in rows for one in line]
        self.said = widgets.HTML(layout=WIDE)
        self.act = done = guarded(self.said)(act)
        on_press(press, [one for one in inside if isinstance(one, TypedBox | TypedArea)], done)
        for one in inside:
            if isinstance(one, TypedBox):
                on_enter(one, done)
        lines = [line[0] if len(line) == 1 else row(*line) for line in rows]
        lines += [] if press in inside else [row(press)]
        super().__init__([*lines, self.said, *below], layout=WIDE)

    def say(self, text, look="note"):
        """Put a sentence, or several, where the form answers; look: one of parts.LOOKS."""
        self.said.value = text_html(text, look)
