"""The page on which a vessel left alone is measured: its log becomes a halving time, for the benches that ask for one."""

import ipywidgets as widgets
import numpy as np

from pastrylab import logs as probelog
from pastrylab.ground.units import Quantity, Reading, StudentError
from pastrylab.logs.halving import MEASURED
from pastrylab.page.bench import guarded
from pastrylab.page.boxes import WIDE, TypedBox, button, field, on_enter, row
from pastrylab.page.log_reader import Finding, LogReader
from pastrylab.page.parts import text_html
from pastrylab.page.picture import BAND, INK, LINE, Picture

_SAME, _OTHER = "same", "other"
_GOOD_TO = [("0.1 °C (0.2 °F)", "0.1"), ("0.5 °C (1 °F)", "0.5"), ("1 °C (2 °F)", "1"), ("2 °C (4 °F)", "2")]
_ONWARD = 1.3  # of a halving time: so far the picture runs on, so that the ring stands in it


class HalvingFit(Picture):
    """A log of a vessel left alone, the curve fitted to it, and where that can run."""

    def __init__(self, title, fitted, legend_at="upper right"):
        super().__init__()
        axes = self.axes
        axes.set_title(title, fontsize=14, loc="left")
        axes.set_xlabel("time, minutes")
        axes.set_ylabel("temperature, °F or °C")
        self._room = axes.axhline(20, color=INK, lw=1.4, ls=(0, (6, 3)), label="room")
        (self._fit,) = axes.plot([], [], color=LINE, lw=2, label=fitted)
        self._span = axes.fill_between([0, 1], [0, 1], [0, 1], color=BAND, alpha=0.7, lw=0, label="with every error")
        (self._left,) = axes.plot([], [], "o", ms=6, mfc="white", mec=INK, label="left out")
        (self._used,) = axes.plot([], [], "o", ms=6, color=LINE, label="used")
        (self._drop,) = axes.plot([], [], color=INK, lw=1.2, ls=":")
        (self._halfway,) = axes.plot([], [], "o", ms=10, mfc="white", mec=INK, mew=2.2, label="half the way")
        axes.legend(loc=legend_at, fontsize=11)

    def update(self, *, log, found, system="metric"):
        """log: as read_log gives it; found: a Halving. Returns the sentence."""
        minutes, degrees = log["minutes"], log["degC"]
        used = (minutes >= found.begins) & (minutes <= found.ends)
        self._used.set_data(minutes[used], degrees[used])
        self._left.set_data(minutes[~used], degrees[~used])
        excess, rate, room = found.curves[0]
        told = found.verdict == MEASURED
        half, low, high = (x.m_as("min") if told else 0.0 for x in (found.halving, found.low, found.high))
        at = np.linspace(found.begins, max(minutes[-1], found.begins + _ONWARD * half), 121)
        since = at - found.begins
        self._fit.set_data(at, room + excess * np.exp(-rate * since))
        ends = [room + excess * 0.5 ** (since / end) for end in (low, high)] if told else [since * np.nan] * 2
        self._span.set_data(at, *ends)
        self._halfway.set_data(*([found.begins + half], [room + excess / 2]) if told else ([], []))
        self._drop.set_data(
            *([found.begins, *[found.begins + half] * 2], [room + excess / 2] * 2 + [-99]) if told else ([], [])
        )
        self._room.set_ydata([room, room])
        self.axes.set(xlim=(0, at[-1] * 1.02), ylim=(min(room, degrees.min()) - 2, max(room, degrees.max()) + 2))
        if self.axes.get_ylabel() != (label := f"temperature, {'°C' if system == 'metric' else '°F'}"):
            self.axes.set_ylabel(label)
            self.temperature_axis(self.axes.yaxis, system)
        self.alt = found.sentence
        return self.alt


class HalvingLog(LogReader):
    """A log of one's own vessel, left alone: its halving time with every error, or that none can be told.

    A subclass says in `measure` how a log is reckoned, in `hand_on` which benches get the time, and names its `beside`.
    """

    also_kept = ("room", "read_with", "good_to", "seeded_at")
    beside = "bowl"

    def __init__(self, figure, job, samples, legend, example, use, first=()):
        """samples: name -> text, room, until; use: words of the button that hands the time on, and its tip; first: the
        subclass's own controls, beside the log."""
        wide = field()
        self.room = TypedBox(description="Room around it", placeholder="for example 20 °C or 68 °F", **wide)
        self.read_with = widgets.Dropdown(
            options=[("the same thermometer", _SAME), ("another one", _OTHER)],
            description="The room was read with",
            **wide,
        )
        self.good_to = widgets.Dropdown(options=_GOOD_TO, value="0.5", description="Thermometers good to", **wide)
        # Under the name by which the reader of lesson 02 keeps when the seed went in: alone it stood until then.
        self.seeded_at = TypedBox(
            description="Left alone until",
            placeholder="20 min or 9:25; empty: all of it",
            **wide,
        )
        own = tuple(first), (self.room, self.read_with, self.good_to, self.seeded_at)
        self.use = button(*use)
        self.used = widgets.HTML(layout=WIDE)
        super().__init__(figure, job, samples, None, legend, example, own)
        for box in (self.room, self.seeded_at):
            on_enter(box, guarded(self.notice)(self.refresh))
        self.use.on_click(guarded(self.used)(lambda _button: self._on_use()))
        self.children = (*self.children, row(self.use), self.used)
        self.begin()

    def measure(self, log, room, error, until):
        """The Halving of a log."""
        raise NotImplementedError

    def hand_on(self, found):
        """Puts the time into the benches that ask for it, and says so. StudentError: none has been run."""
        raise NotImplementedError

    def bring(self, sample):
        """Room and time alone of a sample."""
        self.room.value, self.seeded_at.value = sample["room"], sample["until"]
        self.read_with.value, self.good_to.value = _SAME, "0.5"

    def sample(self, row):
        """The text of a sample."""
        return row["text"]

    def refresh(self):
        """Nothing is held back here: the fit is shown as soon as the log is read."""
        self.found, self._asked_of = None, self._which()
        super().refresh()
        self.use.layout.display = "" if self.found and self.found.verdict == MEASURED else "none"

    def judge(self, log):
        """The halving time of a log."""
        if not self.room.value.strip():
            raise StudentError(
                "no temperature of the room", f"what a thermometer beside the {self.beside} showed", "20 °C"
            )
        good_to = float(self.good_to.value) * (1 if self.read_with.value == _SAME else 2)
        until = probelog.minutes_into(log, self.seeded_at.value)
        room = Quantity(Reading(example="20 °C").floats("the room", self.room.value), "degC")
        self.found = self.measure(log, room, Quantity(good_to, "delta_degC"), until)
        sentence = self.figure.update(log=log, found=self.found, system=self.system.value)
        sound = self.found.verdict == MEASURED
        return Finding(
            sentence, sound, (("What it is good for" if sound else "What would decide", (self.found.advice,)),)
        )

    def _clear(self):
        super()._clear()
        self.used.value, self.use.layout.display = "", "none"

    def _on_use(self):
        if not self.found or self.found.verdict != MEASURED:
            raise StudentError("no halving time", "a log that tells one, with its room", "the first log of the list")
        self.used.value = text_html(self.hand_on(self.found), "good")
