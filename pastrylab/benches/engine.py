"""Benches: a few controls round one figure, and one sentence that says what the figure shows."""

import base64
import functools
import html
import logging
import math
import threading
import time
from dataclasses import dataclass

import ipywidgets as widgets

from pastrylab.exercises import answers
from pastrylab.units import Q, StudentError, symbol, us_unit

log = logging.getLogger("pastrylab")
_OUR_FAULT = (
    "Something broke on our side, not yours. Run the cell again; if it stays, tell your instructor what you did."
)
# JupyterLab may run the messages of two controls at once, each on a thread of its own; a figure bears one.
_ONE_AT_A_TIME = threading.RLock()
_SETTLING = 1.0  # seconds after the units were switched
_WIDE = widgets.Layout(width="auto")  # not 100 %: a widget's margin comes on top of its width
# A table wider than a narrow page scrolls in a box of its own; the text round it wraps.
_TABLE_BOX = "overflow-x:auto;width:0;min-width:100%"
_STYLES = {
    "say": "border-left:4px solid #0b4f8a;padding:6px 10px;font-size:15px;line-height:1.45",
    "good": "border-left:6px double #1b6e3c;padding:6px 10px;font-size:15px;line-height:1.45",
    "mend": "border-left:6px solid #9a5b00;padding:6px 10px;font-size:15px;line-height:1.45",
    "note": "padding:2px 10px;font-size:13px;line-height:1.4;color:var(--jp-ui-font-color1)",
}


def field(max_width="420px"):
    """What every labelled box to type in or to choose from gets: where a page is too narrow for both, the box goes
    below its label instead of shrinking to nothing."""
    layout = widgets.Layout(width="96%", max_width=max_width, height="auto", display="flex", flex_flow="row wrap")
    return {"style": {"description_width": "initial"}, "layout": layout}


def _cell(title):
    """The place of one control on a panel: at least as wide as its label and a number, unless the page is narrower."""
    width = f"min(100%, {max(220, 7 * len(title) + 80)}px)"
    return widgets.Layout(flex="1 1 240px", min_width=width, max_width="380px", margin="2px 10px 2px 0")


def text_html(text, style="say"):
    """Text from us or from a student as HTML: escaped, in one of the page's few styles."""
    return f'<div role="status" style="{_STYLES[style]}">{html.escape(text)}</div>' if text else ""


def picture_html(picture):
    """A figure as an image whose alt text states the finding."""
    data = base64.b64encode(picture.png()).decode("ascii")
    alt = html.escape(picture.alt, quote=True)
    return f'<img alt="{alt}" src="data:image/png;base64,{data}" style="width:100%;max-width:720px;height:auto">'


def guarded(place):
    """Decorator for callbacks: a StudentError is said at `place` (an HTML widget); all else is ours, logged and raised."""

    def decorate(callback):
        @functools.wraps(callback)
        def call(*args, **kwargs):
            try:
                with _ONE_AT_A_TIME:
                    return callback(*args, **kwargs)
            except StudentError as error:
                place.value = text_html(str(error), "mend")
            except Exception:
                log.exception("a control's callback failed")
                place.value = text_html(_OUR_FAULT, "mend")
                raise

        return call

    return decorate


@dataclass(frozen=True)
class Control:
    """One number a student can move: name, label, metric unit ("" for a share in %), range and step, start value.

    us: low, high and step in the US customary unit; without it the metric range is converted.
    """

    name: str
    label: str
    unit: str
    low: float
    high: float
    step: float
    value: float
    us: tuple[float, float, float] | None = None

    def unit_in(self, system):
        return self.unit if system == "metric" or not self.unit else us_unit(self.unit)

    def span(self, system):
        """(low, high, step) in the unit of that system."""
        if system == "metric" or self.unit_in(system) == self.unit:
            return self.low, self.high, self.step
        if self.us:
            return self.us
        low, high = (float(Q(end, self.unit).m_as(us_unit(self.unit))) for end in (self.low, self.high))
        step = 10.0 ** math.floor(math.log10((high - low) / 50))
        return round(low, 2), round(high, 2), step

    def shown(self, metric, system):
        """A metric value as its box shows it in that system, within the range."""
        unit = self.unit_in(system)
        number = round(float(Q(metric, self.unit).m_as(unit)), 2) if unit != self.unit else float(metric)
        low, high, _ = self.span(system)
        return min(max(number, low), high)

    def metric(self, shown, system):
        unit = self.unit_in(system)
        return float(Q(shown, unit).m_as(self.unit)) if unit != self.unit else float(shown)

    def title(self, system):
        unit = "%" if self.is_share else symbol(self.unit_in(system))
        return f"{self.label} ({unit})"

    @property
    def is_share(self):
        """Whether the figure is given a hundredth of what the box shows."""
        return not self.unit


class Plain(Control):
    """A number that has no unit of the kitchen: a pH, pieces, money. `unit` is the word behind its label, or ""."""

    def unit_in(self, system):
        return self.unit

    def title(self, system):
        return f"{self.label} ({self.unit})" if self.unit else self.label

    @property
    def is_share(self):
        return False


class Bench(widgets.VBox):
    """Controls, figure, sentence, legend. `figure.update` gets each control by name as a metric float (a share as 0-1),
    every choice by name, and system="metric" or "US"."""

    def __init__(self, figure, controls, legend, choices=(), guess=None, also=None):
        self.figure, self.controls, self._also = figure, {c.name: c for c in controls}, also
        self._guess, self._moving, self._switched_at = guess, False, -math.inf
        self._metric = {c.name: c.value for c in controls}
        self.system = widgets.ToggleButtons(
            options=[("metric, °C", "metric"), ("US, °F", "US")],
            description="Units",
            style={"button_width": "160px"},
        )
        self.boxes, self.sliders = {}, {}
        self.choices = {
            name: widgets.Dropdown(
                options=options, description=label, style={"description_width": "initial"}, layout=_cell(label)
            )
            for name, label, options in choices
        }
        self.sentence, self.picture, self.guessed = (
            widgets.HTML(layout=_WIDE),
            widgets.HTML(layout=_WIDE),
            widgets.HTML(layout=_WIDE),
        )
        rows = [self._row(c) for c in controls]
        for choice in self.choices.values():
            choice.observe(guarded(self.sentence)(self._moved), "value")
        self.system.observe(guarded(self.sentence)(self._switched), "value")
        panel = widgets.Box(
            [*self.choices.values(), *rows],
            layout=widgets.Layout(display="flex", flex_flow="row wrap", width="100%"),
        )
        legend_html = widgets.HTML(f'<div style="{_STYLES["note"]}">{legend}</div>', layout=_WIDE)
        super().__init__([self.system, panel, self.sentence, self.guessed, self.picture, legend_html], layout=_WIDE)
        self.refresh()

    def _row(self, control):
        low, high, step = control.span("metric")
        box = widgets.BoundedFloatText(
            value=control.value,
            min=low,
            max=high,
            step=step,
            description=control.title("metric"),
            style={"description_width": "initial"},
            layout=widgets.Layout(width="98%"),
        )
        slider = widgets.FloatSlider(
            value=control.value,
            min=low,
            max=high,
            step=step,
            readout=False,
            layout=widgets.Layout(width="96%"),
        )
        self.boxes[control.name], self.sliders[control.name] = box, slider
        for one in (box, slider):
            one.observe(guarded(self.sentence)(functools.partial(self._moved, name=control.name)), "value")
        return widgets.VBox([box, slider], layout=_cell(control.title("metric")))

    def _moved(self, change, name=None):
        if self._moving:
            return
        if name:
            control, system = self.controls[name], self.system.value
            now = control.shown(self._metric[name], system)
            # A slider set from its box answers with the nearest step: that is no move of the student's.
            if change["owner"] is self.sliders[name]:
                if abs(change["new"] - now) < 0.51 * control.span(system)[2]:
                    return
                # Nor is a number that comes back while the ranges are changing hands.
                if time.monotonic() - self._switched_at < _SETTLING:
                    self._place({name})
                    return
            self._metric[name] = round(control.metric(change["new"], system), 9)
            self._place({name})
        self.refresh()

    def _switched(self, _change):
        self._switched_at = time.monotonic()
        self._place(set(self.controls))
        self.refresh()

    def _place(self, names):
        """Put box and slider of these controls where the value in force is, in the units in force."""
        self._moving = True
        try:
            for name in names:
                control, system = self.controls[name], self.system.value
                low, high, step = control.span(system)
                value = control.shown(self._metric[name], system)
                for one in (self.boxes[name], self.sliders[name]):
                    # First room for both numbers, then the number, then its range: a slider whose range leaves its
                    # number outside answers with that number cut off.
                    one.min, one.max = min(one.min, low), max(one.max, high)
                    one.step, one.value = step, value
                    one.min, one.max = low, high
                self.boxes[name].description = control.title(system)
        finally:
            self._moving = False

    @property
    def values(self):
        """What the figure is given."""
        shares = {c.name for c in self.controls.values() if c.is_share}
        numbers = {n: v / 100 if n in shares else v for n, v in self._metric.items()}
        return {**numbers, **{n: c.value for n, c in self.choices.items()}, "system": self.system.value}

    def refresh(self):
        """Draw the picture again and write its sentence; a StudentError takes the sentence's place."""
        try:
            sentence = self.figure.update(**self.values)
        except StudentError as error:
            self.sentence.value, self.picture.value = text_html(str(error), "mend"), ""  # no picture of other values
            return
        self.sentence.value = text_html(sentence)
        self.picture.value = picture_html(self.figure)
        if self._guess:
            entry = answers.last(*self._guess, answers.student())
            self.guessed.value = text_html(f"Your guess was {entry['answer']}." if entry else "", "note")
        if self._also:
            self._also(self)
