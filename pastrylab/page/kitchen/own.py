"""What the forms of one's own kitchen share: boxes, a button that shows what follows, one that keeps, and the list."""

import ipywidgets as widgets

from pastrylab.ground import own
from pastrylab.ground.names import plain_name
from pastrylab.ground.units import StudentError
from pastrylab.page.bench import guarded
from pastrylab.page.boxes import WIDE, TypedArea, TypedBox, TypedPick, button, field, on_enter, on_press, row
from pastrylab.page.parts import left_out_html, part, text_html

CELL = "300px"


class OwnForm(widgets.VBox):
    """A form for one row of a table of `ground.own`. which: the table; what: one word for a row of it.

    A subclass makes `boxes` {name: widget} and says in `cells` what they hold, in `follows` what comes of it (HTML), in
    `faults` what stands in the table and cannot be used, and in `bring` how a row is put back into the boxes.
    """

    which, what, intro = "", "", ""

    def __init__(self, rows):
        self.found, self.said, self.list = (widgets.HTML(layout=WIDE) for _ in range(3))
        self.look = button("Work it out", "Show what follows, and keep nothing")
        self.keep = button("Keep it", f"Keep this {self.what} in my kitchen")
        self.mine = widgets.Dropdown(description=f"My {self.what}s", **field("420px"))
        self.fetch = button("Open", f"Put this {self.what} back into the form")
        self.remove = button("Remove", f"Take this {self.what} out of my kitchen")
        self._again, self._sure = row(self.mine, self.fetch, self.remove), None
        intro = widgets.HTML(part("legend", text=self.intro), layout=WIDE)
        buttons = row(self.look, self.keep)
        super().__init__([intro, *rows, buttons, self.said, self.found, self._again, self.list], layout=WIDE)
        self._connect()

    def _connect(self):
        said = guarded(self.said)
        typed = [box for box in self.boxes.values() if isinstance(box, TypedBox | TypedArea | TypedPick)]
        on_press(self.look, typed, said(self.work_out))
        on_press(self.keep, typed, said(self.keep_it))
        for box in typed:
            if not isinstance(box, TypedArea):
                on_enter(box, said(self.work_out))
        self.fetch.on_click(said(lambda _button: self.bring_back()))
        self.remove.on_click(said(lambda _button: self.take_out()))

    # --- what each form says for itself

    def cells(self):
        """{column: text} of the row that the boxes hold. StudentError: what cannot be read."""
        raise NotImplementedError

    def follows(self, cells):
        """What follows from a row, as HTML. StudentError: what cannot be."""
        raise NotImplementedError

    def faults(self):
        """Sentences on the rows of one's own that cannot be used."""
        raise NotImplementedError

    def bring(self, cells):
        """Put a row, {column: value}, back into the boxes."""
        raise NotImplementedError

    # --- what all do

    def work_out(self):
        """Show what follows from what is typed."""
        self.said.value = self.found.value = ""
        self._sure = None
        self.found.value = self.follows(self.cells())

    def keep_it(self):
        """Keep the row, when it can be used; one of the same name is replaced when that is asked for twice."""
        self.said.value = self.found.value = ""
        cells = self.cells()
        name = next(iter(cells.values()))
        self.found.value = self.follows(cells)
        held = {plain_name(row.name) for row in self._rows()}
        if plain_name(name) in held and not self._is_sure("keep", cells):
            self._say(f"{name} is kept already. Press Keep it again to put this one in its place.", "mend")
            return
        own.add(self.which, cells)
        self._sure = None
        self.list_mine(name)
        self._say(f"Kept: {name}. Every box that asks for one knows it when its lesson is run again.", "good")

    def bring_back(self):
        """Put the row that is chosen back into the form."""
        self.said.value = ""
        chosen = next((row for row in self._rows() if row.name == self.mine.value), None)
        if chosen is None:
            raise StudentError(f"no {self.what} to open", "one that is kept", "the first of the list")
        self.bring({name: "" if value != value else value for name, value in chosen.cells.items()})
        self.work_out()

    def take_out(self):
        """Take the row that is chosen out, when that is asked for twice."""
        self.said.value = ""
        name = self.mine.value
        if name is None:
            raise StudentError(f"no {self.what} to remove", "one that is kept", "the first of the list")
        if not self._is_sure("remove", name):
            self._say(f"{name} will be gone for good. Press Remove again if that is what you want.", "mend")
            return
        own.remove(self.which, name)
        self._sure = None
        self.list_mine()
        self._say(f"Removed: {name}.")

    def list_mine(self, name=None):
        """Show what is kept, and below it what is kept and cannot be used."""
        names = [row.name for row in self._rows()]
        before = name or self.mine.value
        self.mine.options = names
        if names:
            self.mine.value = before if before in names else names[-1]
        self._again.layout.display = "flex" if names else "none"
        self.list.value = left_out_html(self.faults())

    def _rows(self):
        return [row for row in own.rows(self.which).rows if row.mine]

    def _is_sure(self, act, of):
        sure, self._sure = self._sure == (act, of), (act, of)
        return sure

    def _say(self, text, look="note"):
        self.said.value = text_html(text, look)


def small_box(label, example):
    """A box for a number, its label always above it, so that a row of them stands level; two beside each other on a phone."""
    above = {"display": "flex", "flex_flow": "row wrap", "height": "auto"}
    layout = widgets.Layout(width="165px", max_width="46%", **above)
    return TypedBox(description=label, placeholder=example, style={"description_width": "initial"}, layout=layout)


def box(label, example):
    """A box of one line with an example in it."""
    return TypedBox(description=label, placeholder=example, **field(CELL))
