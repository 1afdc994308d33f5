"""Keep what stands on a page under a name, and open it again: a name, Keep, the list of what is kept, Open, Remove."""

import csv
import io
import weakref
from dataclasses import dataclass, field
from datetime import date

import ipywidgets as widgets

from pastrylab.ground import kitchen
from pastrylab.ground.units import StudentError
from pastrylab.page import boxes
from pastrylab.page.bench import guarded
from pastrylab.page.boxes import WIDE, TypedBox, button, on_enter, on_press, row
from pastrylab.page.parts import text_html

_KEEPERS = weakref.WeakSet()  # all that are open in this kernel: what one keeps, the others list


@dataclass(frozen=True)
class Thing:
    """What is kept: a text as it was given, and how it is to be read or shown, setting by setting."""

    text: str
    settings: dict[str, str] = field(default_factory=dict)


def today():
    """The day as it is written on a label: "27 Nov 2026"."""
    return _written(date.today())


def put(shelf, name, thing):
    """Keep a Thing: its text as a file of its own, its settings beside it as CSV. StudentError: see `kitchen.put`."""
    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerows(thing.settings.items())
    if thing.settings:
        kitchen.put(f"{shelf}/settings", name, out.getvalue())
    else:
        kitchen.remove(f"{shelf}/settings", name)
    kitchen.put(shelf, name, thing.text)


def get(shelf, name):
    """The Thing of that name; a file that somebody laid on the shelf has no settings. StudentError: see `kitchen.get`."""
    text, held = kitchen.get(shelf, name), kitchen.kept(f"{shelf}/settings")
    if name not in held:
        return Thing(text)
    rows = csv.reader(io.StringIO(kitchen.get(f"{shelf}/settings", name)))
    return Thing(text, {line[0]: line[1] for line in rows if len(line) == 2})


class Keeper(widgets.VBox):
    """The part of a page that keeps. `name` is the box, `kept` the list; what it says stands in `said`."""

    def __init__(self, shelf, what, take, give, typed=(), called=None, grows=False):
        """shelf: of `kitchen`. what: one word for the thing kept, "log". take(): the Thing on the page; StudentError where
        there is none. give(name, Thing): puts it onto the page. typed: the boxes whose text must be in before it is taken.
        called: what its first name begins with, where that is not `what`. grows: what is taken holds all that was kept under
        the name before, so nothing is lost and nothing asked.
        """
        self.shelf, self._what, self._take, self._give, self._sure = shelf, what, take, give, None
        self._grows = grows
        self.name = TypedBox(value=f"{called or what} of {today()}", description="Keep it as", **boxes.field("330px"))
        self.keep = button("Keep", f"Keep this {what} for another day")
        self.kept = widgets.Dropdown(description="Kept", **boxes.field("420px"))
        self.fetch = button("Open", f"Put this {what} back onto the page")
        self.remove = button("Remove", f"Take this {what} out of your kitchen's folder")
        self.said = widgets.HTML(layout=WIDE)
        self._again = row(self.kept, self.fetch, self.remove)
        said = guarded(self.said)
        on_press(self.keep, [self.name, *typed], said(self._on_keep))
        on_enter(self.name, said(self._on_keep))
        self.fetch.on_click(said(lambda _button: self._on_open()))
        self.remove.on_click(said(lambda _button: self._on_remove()))
        _KEEPERS.add(self)
        self._list()
        super().__init__([row(self.name, self.keep), self._again, self.said], layout=WIDE)

    def _on_keep(self):
        self.said.value = ""
        name, thing = kitchen.thing_named(self.name.value), self._take()
        held = next((one for one in kitchen.kept(self.shelf) if one.casefold() == name.casefold()), None)
        if held and not self._grows and get(self.shelf, held) != thing and not self._is_sure("keep", held):
            self._say(f"Another {self._what} is kept as {held}. Press Keep again to put this one in its place.", "mend")
            return
        put(self.shelf, name, thing)
        self._changed(held or name)
        self._say(f"Kept as {held or name}. It is in the list now, and still there when you come back.", "good")

    def replace(self, name, thing):
        """Put a Thing in the place of the one kept under a name, without a question; None takes it off the shelf."""
        if thing:
            put(self.shelf, name, thing)
        else:
            kitchen.remove(self.shelf, name)
            kitchen.remove(f"{self.shelf}/settings", name)
        self._changed(name if thing else None)

    def _on_open(self):
        self.said.value, self._sure = "", None
        name = self._chosen()
        thing = get(self.shelf, name)
        self.name.value = name
        self._give(name, thing)
        self._say(f"Opened: {name}.")

    def _on_remove(self):
        self.said.value = ""
        name = self._chosen()
        if not self._is_sure("remove", name):
            self._say(f"{name} will be gone for good. Press Remove again if that is what you want.", "mend")
            return
        self.replace(name, None)
        self._say(f"Removed: {name}.")

    def _chosen(self):
        if self.kept.value is None:
            raise StudentError(f"no {self._what} to open", f"a {self._what} that is kept", "one from the list")
        return self.kept.value

    def _is_sure(self, act, name):
        """Whether this was asked for just before, and of the same thing."""
        sure, self._sure = self._sure == (act, name, self.name.value), (act, name, self.name.value)
        return sure

    def _say(self, text, look="note"):
        self.said.value = text_html(text, look)

    def _changed(self, name):
        self._sure = None
        for one in list(_KEEPERS):
            if one.shelf == self.shelf:
                one._list()
        if name:
            self.kept.value = name

    def _list(self):
        """Show what is kept, the latest first; without anything there is nothing to open."""
        held = sorted(kitchen.kept(self.shelf).items(), key=lambda one: one[1], reverse=True)
        before = self.kept.value
        self.kept.options = [(f"{name} (kept {_written(day)})", name) for name, day in held]
        if held:
            self.kept.value = before if before in dict(held) else held[0][0]
        self._again.layout.display = "flex" if held else "none"


def _written(day):
    return f"{day.day} {day:%b %Y}"
