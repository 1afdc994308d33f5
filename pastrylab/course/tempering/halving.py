"""The bench on which one's own bowl is measured: a log of it left alone becomes its halving time, for the bench that holds."""

import weakref

import ipywidgets as widgets
import numpy as np

from pastrylab import logs as probelog
from pastrylab.ground.units import Quantity, Reading, StudentError
from pastrylab.logs.halving import MEASURED, own_halving
from pastrylab.page.bench import guarded
from pastrylab.page.boxes import WIDE, TypedBox, button, field, on_enter, row
from pastrylab.page.log_reader import Finding, LogReader
from pastrylab.page.parts import text_html
from pastrylab.page.picture import BAND, INK, LINE, Picture

_HOLDING = weakref.WeakSet()  # the benches of this kernel that a halving time can be put into
_JOBS = {job.vessel: job for job in (probelog.CHOCOLATE, probelog.CREAM)}
_SAME, _OTHER = "same", "other"
_GOOD_TO = [("0.1 °C (0.2 °F)", "0.1"), ("0.5 °C (1 °F)", "0.5"), ("1 °C (2 °F)", "1"), ("2 °C (4 °F)", "2")]
_LEGEND = (
    "Blue dots: the readings used. White dots: those left out, before the warmest, after it was touched, or close to the "
    "room. Line: the fall fitted to them. Yellow: where it can run with every error. Dashed: the room. Ring: half the way "
    "to the room; straight below it, the halving time."
)
_ONWARD = 1.3  # of a halving time: so far the picture runs on, so that the ring stands in it
_SAMPLES = {  # invented for the Larkmoor Teaching Kitchen
    "a bowl of 2 kg, left alone": {
        "text": "min, degC\n0, 46.3\n4, 44.5\n8, 42.9\n12, 41.3\n16, 39.9\n20, 38.5\n24, 37.3\n28, 36.2\n32, 35.1\n36, 34.1\n",
        "room": "21 °C",
        "until": "",
    },
    "a bowl that got its seed on the way": {
        "text": "time, degF\n9:00, 116\n9:05, 112\n9:10, 109\n9:15, 106\n9:20, 103\n9:25, 95\n9:30, 91\n9:35, 90\n",
        "room": "70 °F",
        "until": "",
    },
}


def hears_halving(bench):
    """A bench with the controls `halving` and `room`, into which a measured halving time can be put from now on."""
    _HOLDING.add(bench)
    return bench


class HalvingFit(Picture):
    """A log of a vessel left alone, the fall fitted to it, and where that can run."""

    def __init__(self):
        super().__init__()
        axes = self.axes
        axes.set_title("A bowl left alone in its room", fontsize=14, loc="left")
        axes.set_xlabel("time, minutes")
        axes.set_ylabel("temperature, °F or °C")
        self._room = axes.axhline(20, color=INK, lw=1.4, ls=(0, (6, 3)), label="room")
        (self._fit,) = axes.plot([], [], color=LINE, lw=2, label="fall fitted")
        self._span = axes.fill_between([0, 1], [0, 1], [0, 1], color=BAND, alpha=0.7, lw=0, label="with every error")
        (self._left,) = axes.plot([], [], "o", ms=6, mfc="white", mec=INK, label="left out")
        (self._used,) = axes.plot([], [], "o", ms=6, color=LINE, label="used")
        (self._drop,) = axes.plot([], [], color=INK, lw=1.2, ls=":")
        (self._halfway,) = axes.plot([], [], "o", ms=10, mfc="white", mec=INK, mew=2.2, label="half the way")
        axes.legend(loc="upper right", fontsize=11)

    def update(self, *, log, found, system="metric"):
        """log: DataFrame with minutes and degC; found: a Halving. Returns the sentence."""
        minutes, degrees = log["minutes"].to_numpy(float), log["degC"].to_numpy(float)
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
            *([found.begins, *[found.begins + half] * 2], [room + excess / 2] * 2 + [0]) if told else ([], [])
        )
        self._room.set_ydata([room, room])
        self.axes.set(xlim=(0, at[-1] * 1.02), ylim=(min(room, degrees.min()) - 2, degrees.max() + 2))
        if self.axes.get_ylabel() != (label := f"temperature, {'°C' if system == 'metric' else '°F'}"):
            self.axes.set_ylabel(label)
            self.temperature_axis(self.axes.yaxis, system)
        self.alt = found.sentence
        return self.alt


class HalvingBench(LogReader):
    """A log of one's own bowl or pan, left alone to cool: its halving time with every error, or that none can be told."""

    also_kept = ("vessel", "room", "read_with", "good_to", "seeded_at")

    def __init__(self):
        wide = field()
        self.vessel = widgets.Dropdown(
            options=[("a bowl of chocolate", "bowl"), ("a pan of cream", "pan")], description="It is", **wide
        )
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
        own = (self.vessel,), (self.room, self.read_with, self.good_to, self.seeded_at)
        self.use = button("Use it on the bench", "Put it into the bench that holds a bowl")
        self.used = widgets.HTML(layout=WIDE)
        example = "time, temperature\n9:05, 113 F\n9:10, 109 F"
        super().__init__(HalvingFit(), probelog.CHOCOLATE, _SAMPLES, None, _LEGEND, example, own)
        for box in (self.room, self.seeded_at):
            on_enter(box, guarded(self.notice)(self.refresh))
        self.use.on_click(guarded(self.used)(lambda _button: self._on_use()))
        self.children = (*self.children, row(self.use), self.used)
        self.begin()

    def bring(self, sample):
        """Room and time alone of a sample."""
        self.vessel.value, self.room.value, self.seeded_at.value = "bowl", sample["room"], sample["until"]
        self.read_with.value, self.good_to.value = _SAME, "0.5"

    def sample(self, row):
        """The text of a sample."""
        return row["text"]

    def refresh(self):
        """Nothing is held back here: the fit is shown as soon as the log is read."""
        self.found, self.job, self._asked_of = None, _JOBS[self.vessel.value], self._which()
        super().refresh()
        self.use.layout.display = "" if self.found and self.found.verdict == MEASURED else "none"

    def judge(self, log):
        """The halving time of a log."""
        if not self.room.value.strip():
            raise StudentError("no temperature of the room", "what a thermometer beside the bowl showed", "20 °C")
        good_to = float(self.good_to.value) * (1 if self.read_with.value == _SAME else 2)
        until = probelog.minutes_into(log, self.seeded_at.value)
        room = Quantity(Reading(example="20 °C").floats("the room", self.room.value), "degC")
        self.found = own_halving(log, room, Quantity(good_to, "delta_degC"), until)
        sentence = self.figure.update(log=log, found=self.found, system=self.system.value)
        sound = self.found.verdict == MEASURED
        return Finding(
            sentence, sound, (("What it is good for" if sound else "What would decide", (self.found.advice,)),)
        )

    def _clear(self):
        super()._clear()
        self.used.value, self.use.layout.display = "", "none"

    def _on_use(self):
        """The short end goes onto the bench: a bowl is looked at too early rather than too late."""
        low, room = self.found.low.m_as("min"), self.found.curves[0][2]
        if not _HOLDING:
            raise StudentError(
                "a bench that has not been run", "the bench that holds a bowl, further up", "run its cell"
            )
        for bench in _HOLDING:
            bench.numbers["room"].put(room)
            bench.numbers["halving"].put(low)
        self.used.value = text_html(
            f"The bench that holds a bowl has it now: {low:.3g} minutes, the short end, so that you look at the bowl too early "
            "rather than too late.",
            "good",
        )


def halving_bench():
    """Your own bowl's halving time, from a log of it left alone."""
    return HalvingBench()
