"""Benches: a few controls round one figure, and one sentence that says what the figure shows."""

import functools
import logging

import ipywidgets as widgets
import traitlets

from pastrylab.ground.files import one_look
from pastrylab.ground.units import StudentError
from pastrylab.page.boxes import WIDE, row
from pastrylab.page.controls import Control, Plain
from pastrylab.page.guess import awaits, compared
from pastrylab.page.parts import part, picture_html, text_html
from pastrylab.page.picture import ONE_AT_A_TIME
from pastrylab.page.pictured import Pictured

__all__ = ["Bench", "Control", "NumberBox", "Plain", "guarded"]
log = logging.getLogger("pastrylab")
_OUR_FAULT = (
    "Something broke on our side, not yours. Run the cell again; if it stays, tell your instructor what you did."
)
_INVITED = "No guess of yours is kept yet. Give one above, under Guess first, and it meets the result here."


def _cell(title):
    """The place of one control on a panel: at least as wide as its label and a number, unless the page is narrower: then
    as wide as the page without its margin, or the panel would scroll sideways."""
    width = f"min(100% - 10px, {max(220, 7 * len(title) + 130)}px)"
    return {"flex": "1 1 240px", "min_width": width, "max_width": "380px", "margin": "2px 10px 2px 0"}


def _choice(label, options):
    return widgets.Dropdown(
        options=options, description=label, style={"description_width": "initial"}, layout=_cell(label)
    )


def guarded(place):
    """Decorator for callbacks: a StudentError is said at `place` (an HTML widget); all else is ours, logged and raised."""

    def decorate(callback):
        @functools.wraps(callback)
        def call(*args, **kwargs):
            try:
                with ONE_AT_A_TIME:
                    return callback(*args, **kwargs)
            except StudentError as error:
                place.value = text_html(str(error), "mend")
            except Exception:
                log.exception("a control's callback failed")
                place.value = text_html(_OUR_FAULT, "mend")
                raise

        return call

    return decorate


class Typed(widgets.Text):
    """A box that tells what was typed when it is left or Enter is pressed; from code it takes a number as well."""

    value = traitlets.CUnicode("").tag(sync=True)

    def __init__(self, **settings):
        super().__init__(continuous_update=False, **settings)


class NumberBox(widgets.VBox):
    """One number of a page and its box. `value` is the number's one home, a float in the control's unit; the box shows
    it in the system in force and reads what is typed there. What is refused is said below the box, and changes nothing.
    """

    value = traitlets.Float()

    def __init__(self, control, beside=(), layout=None):
        self.control, self.system, self._writing = control, "metric", False
        # Always under its label: beside it, some boxes of a row would find room and some would not.
        under = {"height": "auto", "display": "flex", "flex_flow": "column", "align_items": "flex-start"}
        self.box = Typed(style={"description_width": "initial"}, layout={"width": "98%", **under})
        self.said = widgets.HTML(layout=widgets.Layout(width="auto", margin="0"))
        super().__init__([self.box, self.said, *beside], layout=layout or _cell(control.title("metric")))
        self.box.observe(guarded(self.said)(self._typed), "value")
        self.value = control.value
        self.show("metric")

    def show(self, system):
        """Write label and number in that system; the number itself stays as it is."""
        self.system, self._writing = system, True
        try:
            self.box.value = self.control.text(self.value, system)
            self.box.description = self.control.title(system)
            self.said.value = ""
        finally:
            self._writing = False

    def put(self, value):
        """Take a number from elsewhere and show it."""
        self.value = value
        self.show(self.system)

    def _typed(self, change):
        if self._writing:
            return
        try:
            number = self.control.read(change["new"], self.system)
        except StudentError as error:
            stays = f"{self.control.text(self.value, self.system)} {self.control.mark(self.system)}".strip()
            self.said.value = text_html(f"{error} The page keeps {stays}.", "mend")
        else:
            self.put(number)
        # Texts typed one on another at a busy kernel cross on the way: what was read last is what must stand there.
        self.box.send_state("value")


class Bench(widgets.VBox):
    """Controls, figure, sentence, legend. `figure.update` gets each control by name as a metric float (a share as 0-1),
    every choice by name, and system="metric" or "US". guess: an `Asked`; `figure.result_of_guess` then gets the guess and
    what the bench opens with, and returns a `Met`."""

    def __init__(self, figure, controls, legend, choices=(), guess=None):
        self.figure, self.controls = figure, {c.name: c for c in controls}
        self._asked, self._met, self._placing = guess, None, False
        self.system = widgets.ToggleButtons(
            options=[("metric, °C", "metric"), ("US, °F", "US")],
            description="Units",
            style={"button_width": "160px"},
        )
        self.choices = {name: _choice(label, options) for name, label, options in choices}
        self.sentence, self.guessed = (widgets.HTML(layout=WIDE) for _ in range(2))
        self.picture = Pictured(figure, guarded(self.sentence)(self.refresh))
        self.sliders = {c.name: self._slider(c) for c in controls}
        self.numbers = {c.name: NumberBox(c, [self.sliders[c.name]]) for c in controls}
        self.boxes = {name: number.box for name, number in self.numbers.items()}
        self._listen()
        panel = row(*self.choices.values(), *self.numbers.values())
        legend_html = widgets.HTML(part("legend", text=legend), layout=WIDE)
        super().__init__([self.system, panel, self.sentence, self.guessed, self.picture, legend_html], layout=WIDE)
        self._opening = self.values
        if guess:
            awaits(self)
        self.refresh()

    def _listen(self):
        said = guarded(self.sentence)
        for name, number in self.numbers.items():
            number.observe(said(functools.partial(self._changed, name)), "value")
        for choice in self.choices.values():
            choice.observe(said(lambda _change: self.refresh()), "value")
        self.system.observe(said(self._switched), "value")

    def _slider(self, control):
        """A slider over the places of a control's own grid, which no unit switch touches; it shows no number."""
        slider = widgets.IntSlider(
            value=control.place_of(control.value),
            min=0,
            max=control.places,
            readout=False,
            layout=widgets.Layout(width="96%"),
        )
        slider.observe(guarded(self.sentence)(functools.partial(self._slid, control)), "value")
        return slider

    def _slid(self, control, change):
        """A move of the student's: a slider the bench itself has set does not speak."""
        if not self._placing:
            self.numbers[control.name].put(control.at(change["new"], self.system.value))

    def _changed(self, name, change):
        control, slider = self.controls[name], self.sliders[name]
        self._placing = True
        try:
            if control.at(slider.value, self.system.value) != change["new"]:
                slider.value = control.place_of(change["new"])
        finally:
            self._placing = False
        self.refresh()

    def _switched(self, change):
        for number in self.numbers.values():
            number.show(change["new"])
        self.refresh()

    @property
    def values(self):
        """What the figure is given."""
        numbers = {n: x.value / 100 if x.control.is_share else x.value for n, x in self.numbers.items()}
        return {**numbers, **{n: c.value for n, c in self.choices.items()}, "system": self.system.value}

    def refresh(self):
        """Draw the picture again and write its sentence; a StudentError takes the sentence's place."""
        try:
            with one_look():
                sentence = self.figure.update(**self.values)
        except StudentError as error:
            self.sentence.value, self.picture.value = text_html(str(error), "mend"), ""  # no picture of other values
            return
        self.sentence.value = text_html(sentence)
        if self._asked:
            self._meet()
        self.picture.value = picture_html(self.figure)

    def guess_kept(self, which):
        """A guess was kept while this bench stood open; `which` is its name."""
        if self._asked and self._asked.id == which:
            self._met = None
            self.refresh()

    def _meet(self):
        """Put the guess beside its result, for what was asked: the numbers this bench opens with."""
        system = self.system.value
        if not self._met or self._met[0] != system:
            self._met = (system, *self._meeting(system))
        _, here, moved, at = self._met
        opening = self.values == {**self._opening, "system": system}
        self.guessed.value = text_html(here if opening else moved, "say" if at else "note")
        self.figure.mark_guess(at)
        if at:
            self.figure.alt += " Your guess is marked."

    def _meeting(self, system):
        """The sentence where nothing has moved, the one after a move, and where the picture marks the guess."""
        try:
            said = self._asked.said()
        except StudentError as error:
            return str(error), str(error), ()
        if not said:
            return _INVITED, _INVITED, ()
        number = self._asked.number(said)
        if number is None:
            kept = f"Your guess was {said}."
            return kept, kept, ()
        met = self.figure.result_of_guess(number, **{**self._opening, "system": system})
        sentences = (compared(self._asked, said, number, met, system, moved) for moved in (False, True))
        return *sentences, met.at
