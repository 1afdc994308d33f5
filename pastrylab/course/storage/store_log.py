"""The log reader of lesson 07: a store room's temperature and humidity over days, against the limits at its coldest shelf."""

import re

import ipywidgets as widgets
import numpy as np
from matplotlib.ticker import MaxNLocator

from pastrylab.ground import careful
from pastrylab.ground.store_logs import store_logs
from pastrylab.ground.units import Difference, Quantity, Share, StudentError
from pastrylab.logs import store as storelog
from pastrylab.logs.store.spans import gaps
from pastrylab.page.bench import guarded
from pastrylab.page.boxes import TypedBox, field, on_enter
from pastrylab.page.log_reader import Finding, LogReader
from pastrylab.page.picture import BAND, HABIT, INK, LINE, LOST, Picture
from pastrylab.trade import chocolate
from pastrylab.trade.storage.limits import store_band
from pastrylab.trade.storage.tray import HYGROMETER_IS_OFF

_LEGEND = (
    "Upper picture: humidity where the chocolate lies; grey round the line: with every error. Bars along its foot: slanted "
    "red, surely above the limit; dotted yellow, nobody can tell; crossed grey, not read. Hatched band: here sources differ "
    "on when it draws water. Lower picture: the air's temperature; dashed: here fat bloom begins."
)
_ERRORS = [("1 % (a salt-checked logger)", "1 %"), ("2 %", "2 %"), ("3 % (a good logger)", "3 %")]
_ERRORS += [("5 % (a cheap one)", HYGROMETER_IS_OFF), ("10 % (a dial)", "10 %")]
_BARS = (  # what a span is called, its hatch, its colours, where it stands, what the legend says
    ("over", "////", "#f3b9a8", LOST, "above the limit"),
    ("open", "...", BAND, "#8a6a14", "nobody can tell"),
    ("blind", "xx", HABIT, "#777777", "not read"),
    ("stuck", "xx", HABIT, "#777777", None),
)
_ADD = Share(at_least=-0.2, at_most=0.2, example="4 %")
_COLDER = Difference(at_least=0, at_most=20, example="2 °C or 4 °F")
_WHOLE = re.compile(r"[-+−]?(?:0|[1-9]\d*(?:[.,]\d+)?)")
_FOOT = 6.0  # % of humidity: how high the bars stand
_FEW = 60  # readings, up to which each is a dot


class StoreLog(Picture):
    """Humidity at the coldest shelf and temperature of the air, day by day."""

    def __init__(self):
        super().__init__(height=6.4)
        grid = self.figure.add_gridspec(2, 1, height_ratios=(1.7, 1))
        axes = self.axes
        axes.set_subplotspec(grid[0])
        axes.set_title("Humidity where the chocolate lies", fontsize=14, loc="left")
        axes.set_ylabel("humidity, %")
        self._limit = axes.axhspan(
            82, 85, facecolor="none", edgecolor="#8a6a14", hatch="\\\\", lw=1.2, zorder=1.5, label="limit"
        )
        axes.axhline(100, color=INK, lw=1, ls=":", label="100 %, water settles")
        at = [0, 1]
        self._errors = axes.fill_between(at, at, at, color=HABIT, lw=3, zorder=1, label="with every error")
        (self._curve,) = axes.plot([], [], color=LINE, lw=2, ms=4, zorder=2, label="as read")
        self._bars = [
            axes.fill_between([], [], [], facecolor=face, edgecolor=edge, hatch=hatch, lw=0.8, zorder=3, label=name)
            for _, hatch, face, edge, name in _BARS
        ]
        below = self.below = self.figure.add_subplot(grid[1])
        below.set_title("Temperature of the air", fontsize=14, loc="left")
        below.spines[["top", "right"]].set_visible(False)
        below.tick_params(labelsize=12)
        below.set_xlabel("time, hours from the first reading", fontsize=12)
        below.set_ylabel("air, °C or °F", fontsize=12)
        warm = below.axhline(
            store_band("fat bloom from").low, color=LOST, lw=1.6, ls=(0, (6, 3)), label="fat bloom begins"
        )
        (self._air,) = below.plot([], [], color=LINE, lw=2, ms=4)
        handles = [*axes.get_legend_handles_labels()[0], warm]
        self.figure.legend(handles=handles, loc="outside lower center", ncols=3, fontsize=11, frameon=False)
        for one in (axes, below):
            one.xaxis.set_major_locator(MaxNLocator(7, steps=[1, 2, 4, 5, 10]))

    def update(self, *, log, review, system="metric"):
        """log: as read_store gives it; review: a StoreReview. Returns the sentence."""
        size, name = (1440.0, "days") if review.hours > 72 else (60.0, "hours")
        end = log["minutes"][-1] / size
        self._draw_humidity(review, size)
        at, degrees = _broken(log["minutes"], log["degC"])
        self._air.set(data=(at / size, degrees), marker="o" if len(at) <= _FEW else "")
        known = degrees[np.isfinite(degrees)] if np.isfinite(degrees).any() else np.array([18.0])
        self.below.set(xlim=(0, end), ylim=(min(known.min(), 12) - 1, max(known.max(), 24) + 1.5))
        self.axes.set_xlim(0, end)
        self._label(f"time, {name} from the first reading", "air, °C" if system == "metric" else "air, °F", system)
        self.alt = self._says(log, review, system)
        return self.alt

    def _draw_humidity(self, review, size):
        surface, limit = review.surface, review.limit
        top = min(limit.high, 1.0)
        self._limit.set(y=100 * limit.low, height=max(100 * (top - limit.low), 0.6))
        at, low, read, high = _broken(surface.minutes, surface.low, surface.read, surface.high)
        self._errors.set_data(at / size, 100 * low, 100 * high)
        self._curve.set(data=(at / size, 100 * read), marker="o" if len(at) <= _FEW else "")
        ends = (np.nanmin(low), np.nanmax(high)) if len(at) else (0.4, 0.9)
        foot = min(100 * ends[0] - 2, 60) - _FOOT
        for (key, *_), bar in zip(_BARS, self._bars, strict=True):
            at = np.array([x for start, end in review.spans[key] for x in (start, end, end)]) / size
            height = np.array([x for _ in review.spans[key] for x in (_FOOT, _FOOT, np.nan)])
            bar.set_data(at, np.full(len(at), foot), foot + height)
        self.axes.set_ylim(foot, max(100 * ends[1], 102) + 3)

    def _label(self, along, sign, system):
        if self.below.get_xlabel().replace("\n", " ") != along:
            self.below.set_xlabel(along)
        if self.below.get_ylabel() != sign:
            self.below.set_ylabel(sign)
            self.temperature_axis(self.below.yaxis, system)

    def _says(self, log, review, system):
        """What the picture shows, in a sentence or two."""
        known = log["degC"][np.isfinite(log["degC"])]
        said = [f"{review.verdict[0].upper()}{review.verdict[1:]}: {len(log)} readings over {_long(review.hours)}."]
        if review.surface.minutes.size:
            said.append(f"Humidity {review.surface.where} up to {100 * review.surface.read.max():.0f} %.")
        if len(known):
            ends = (self.write(x, "degC", system) for x in (known.min(), known.max()))
            said.append("Air from {} to {}.".format(*ends))
        return " ".join(said)


def _broken(minutes, *columns):
    """The same arrays with a nan inside each gap, so that no line is drawn across it."""
    after = np.flatnonzero(np.isin(minutes, [span.start for span in gaps(minutes)])) + 1
    return np.insert(minutes, after, np.nan), *(np.insert(column, after, np.nan) for column in columns)


def _long(hours):
    return f"{hours / 24:.0f} days" if hours > 72 else f"{hours:.0f} hours"


def sample_logs():
    """The invented logs of store rooms: what stands in the list, and the row of store_logs.csv behind it."""
    return {f"store {chr(ord('A') + i)} ({row['store']}, {row['kind']})": row for i, row in enumerate(store_logs())}


class StoreLogBench(LogReader):
    """A store room's log: say what lies there and how good the hygrometer is; look at the line; read what it shows."""

    also_kept = ("kind", "humidity_error", "add", "colder")

    def __init__(self):
        wide = field()
        self.kind = widgets.Dropdown(options=chocolate.products(), description="Chocolate", **wide)
        self.humidity_error = widgets.Dropdown(
            options=_ERRORS, value=HYGROMETER_IS_OFF, description="Hygrometer good to", **wide
        )
        self.colder = TypedBox(
            description="Coldest shelf is colder by", placeholder="2 °C or 4 °F; empty: as the log says", **wide
        )
        self.add = TypedBox(description="Add to each humidity", placeholder="4 %, where wet salt showed 71", **wide)
        example = "time, room °C, humidity %\n2026-03-02 09:00, 18.5, 61\n2026-03-02 10:00, 18.6, 60"
        own = (self.kind,), (self.humidity_error, self.add, self.colder)
        super().__init__(StoreLog(), storelog.STORE, sample_logs(), "store_logs", _LEGEND, example, own)
        for box in (self.add, self.colder):
            on_enter(box, guarded(self.notice)(self.refresh))
        self.begin()

    def readings(self, text, **asked):
        """Temperature and humidity of a store's log."""
        return storelog.read_store(text, **asked)

    def bring(self, sample):
        """Kind, hygrometer and shelf of a sample."""
        self.kind.value, self.humidity_error.value = sample["kind"], sample["hygrometer_error"]
        self.add.value, self.colder.value = "", sample["colder"]

    def judge(self, log):
        """The review of a log."""
        colder, add = self._read(self.colder, _COLDER), self._read(self.add, _ADD) or 0.0
        colder = None if colder is None else Quantity(colder, "delta_degC")
        review = storelog.review_store(log, self.kind.value, colder, self.humidity_error.value, correction=add)
        sentence = self.figure.update(log=log, review=review, system=self.system.value)
        why, shows = review.sentences[1:], (review.cannot_show,)
        sections = ("Why", why), ("Next in the store", (review.advice,)), ("What no log shows", shows)
        return Finding(sentence, review.verdict == storelog.WITHIN, sections)

    @staticmethod
    def _read(box, kind):
        """The float in a box, None where it is empty. StudentError with the box's name, and an example for this box."""
        text = box.value.strip()
        if not text:
            return None
        if kind is _ADD and _WHOLE.fullmatch(text):  # 4 can only be per cents, 0 is nothing in any unit
            text = f"{text} %"
        try:
            return kind.floats(f"'{box.description}'", "0 delta_degC" if text == "0" else text)
        except StudentError as error:
            raise StudentError(error.given, error.needed, kind.example) from None

    def outline(self, log):
        """A log in a sentence that gives no verdict away."""
        days = careful.written_down(float(log["minutes"][-1]) / 60, 0)
        parts = [f"The lines of the log: {len(log)} readings over {days} hours."]
        for name, unit in (("degC", "degC"), ("humidity", "percent")):
            known = log[name][np.isfinite(log[name])] * (100 if name == "humidity" else 1)
            if len(known):
                what = "Temperature" if name == "degC" else "Humidity of the air"
                low, high = (self.figure.write(x, unit, self.system.value) for x in (known.min(), known.max()))
                parts.append(f"{what} from {low} to {high}.")
        return " ".join(parts)
