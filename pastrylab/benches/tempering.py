"""Benches of lesson 02: the crystals a bowl can hold, the seed balance, and the reader of a bowl's log."""

import html

import ipywidgets as widgets

from pastrylab import datasets, probelog, tempering
from pastrylab.benches.cards import GuessCard, _on_enter, _row
from pastrylab.benches.engine import _STYLES, _WIDE, Bench, Control, field, guarded, picture_html, text_html
from pastrylab.figures.tempering import CrystalPath, ProbeLog, SeedBalance
from pastrylab.units import StudentError

_LESSON = "02"
_FIRST = "dark couverture 64 %"
_OWN = "my own log, pasted or loaded below"


def guess_seed():
    """The guess before the seed bench."""
    return GuessCard(
        _LESSON,
        "seed",
        "A bowl holds 2 kg (4.4 lb) of dark couverture 64 % at 45 °C (113 °F). How much seed at 20 °C (68 °F) brings it to "
        "31.5 °C (89 °F)? Commit to a number before you look.",
        "500 g",
    )


def seed_bench():
    """Seed by heat balance: move the bowl, read the seed."""
    controls = (
        Control("batch", "Melted chocolate", "kg", 0.5, 10, 0.1, 2, us=(1, 22, 0.25)),
        Control("melted_at", "It stands at", "degC", 40, 55, 0.5, 45, us=(104, 131, 1)),
        Control("seed_at", "Seed lies at", "degC", 10, 26, 0.5, 20, us=(50, 79, 1)),
        Control("target", "Bring it to", "degC", 26, 34, 0.1, 31.5, us=(79, 93, 0.2)),
        Control("melted_share", "Share of the seed that melts", "", 50, 100, 1, 90),
    )
    legend = (
        "Blue line: where the bowl ends up for each amount of seed. Yellow band: the working band. Grey hatched: the "
        "habit of the trade, 20-33 % of the melt. Ring on dashed lines: the seed that brings your bowl to your target; red "
        "where the sentence says what to mind."
    )
    choices = (("kind", "Chocolate", _couvertures()),)
    return Bench(SeedBalance(), controls, legend, choices, guess=(_LESSON, f"{_LESSON}.guess.seed"))


def _couvertures():
    """The couvertures of the ingredient list, the one the page speaks of first."""
    names = [
        name for name in datasets.ingredients().index if name.split()[0] in tempering.KINDS and "couverture" in name
    ]
    return sorted(names, key=lambda name: name != _FIRST) or list(tempering.KINDS)


def crystal_bench():
    """Melt out, cool, work: move the three and read which crystals the bowl can hold."""
    controls = (
        Control("melted_to", "Melted out to", "degC", 30, 50, 0.5, 45, us=(86, 122, 1)),
        Control("cooled_to", "Cooled to", "degC", 16, 34, 0.5, 27, us=(60, 94, 1)),
        Control("warmed_to", "Worked at", "degC", 16, 38, 0.5, 31.5, us=(60, 100, 1)),
    )
    legend = (
        "Blue line with rings: your bowl. Each level line: the temperature at which a crystal form melts. Thick line: the "
        "form can stand in the bowl. Dashed: it is at its edge. Dotted: it cannot form, or has melted again."
    )
    return Bench(CrystalPath(), controls, legend)


def sample_logs():
    """The invented logs of the Larkmoor Teaching Kitchen: the name in the list, and the row of probe_logs.csv behind it.

    The names are letters, so that the list does not give the verdict away.
    """
    rows = datasets.probe_logs().to_dict("records")
    return {f"bowl {chr(ord('A') + i)} ({row['kind']}, {row['method']})": row for i, row in enumerate(rows)}


class LogBench(widgets.VBox):
    """Choose, paste or load a log; say kind, method and seeding time; read what it shows."""

    def __init__(self, first=None):
        self.logs = sample_logs()
        wide = field()
        first = next((name for name in self.logs if first and name.startswith(first)), next(iter(self.logs)))
        self.source = widgets.Dropdown(options=[*self.logs, _OWN], value=first, description="Log", **wide)
        self.kind = widgets.Dropdown(options=tempering.KINDS, description="Chocolate", **wide)
        self.method = widgets.Dropdown(options=probelog.METHODS, description="Method", **wide)
        self.unit = widgets.Dropdown(
            options=[("as the log says", ""), ("degrees Celsius", "degC"), ("degrees Fahrenheit", "degF")],
            description="The numbers are",
            **wide,
        )
        self.times = widgets.Dropdown(
            options=[("as the log says", ""), *((t, t) for t in ("minutes", "seconds", "hours", "mm:ss", "h:mm"))],
            description="The times are",
            **wide,
        )
        self.seeded_at = widgets.Text(
            description="Seeded after", placeholder="for example 12 min; empty if not noted", **wide
        )
        self.paste = widgets.Textarea(
            description="Paste a log",
            placeholder="time, temperature\n9:05, 113 F\n9:15, 95 F",
            rows=4,
            **wide,
        )
        self.load = widgets.FileUpload(
            accept=".csv,.txt,.tsv",
            description="Load a log file",
            layout=widgets.Layout(width="auto", min_width="150px"),
        )
        self.system = widgets.ToggleButtons(
            options=[("°C", "metric"), ("°F", "US")], description="Show in", style={"button_width": "70px"}
        )
        self.read = widgets.Button(description="Read the log", layout=widgets.Layout(width="auto", min_width="130px"))
        self.verdict, self.picture, self.details = (widgets.HTML(layout=_WIDE) for _ in range(3))
        self._figure, self._loaded, self._bringing = ProbeLog(), None, False
        see = guarded(self.verdict)(lambda _change: self.refresh())
        self.source.observe(guarded(self.verdict)(self._on_source), "value")
        for control in (self.kind, self.method, self.unit, self.times, self.system):
            control.observe(see, "value")
        _on_enter(self.seeded_at, guarded(self.verdict)(self.refresh))
        self.load.observe(guarded(self.verdict)(self._on_load), "value")
        self.read.on_click(guarded(self.verdict)(lambda _b: self.refresh()))
        pairs = (
            (self.source, self.kind),
            (self.method, self.seeded_at),
            (self.unit, self.times),
            (self.system,),
            (self.paste,),
            (self.load, self.read),
        )
        rows = [_row(*pair) for pair in pairs]
        legend = widgets.HTML(
            f'<div style="{_STYLES["note"]}">Blue line with dots: the readings. Bands: dotted, melt out; hatched left, cool; '
            "hatched right, work (each the span of two textbooks and of practice). Dashed red line: above it temper is lost, "
            "sooner or later. "
            "White crosses: readings too warm for temper. The supplier's sheet wins over every band here.</div>",
            layout=_WIDE,
        )
        super().__init__([*rows, self.verdict, self.picture, legend, self.details], layout=_WIDE)
        guarded(self.verdict)(self._on_source)(None)

    def _on_source(self, _change):
        """A sample brings its kind, method and seeding time along; one's own log keeps what is set."""
        row = self.logs.get(self.source.value)
        if row:
            self._bringing = True
            self.kind.value, self.method.value, self.seeded_at.value = (
                row["kind"],
                row["method"],
                row["seeded_at"],
            )
            self._bringing = False
        self.refresh()

    def _on_load(self, change):
        if change["new"]:
            self._loaded = bytes(change["new"][0]["content"])
            self.paste.value = ""
            if self.source.value == _OWN:
                self.refresh()
            else:
                self.source.value = _OWN

    def _log(self):
        if self.source.value != _OWN:
            path = datasets.data_path("probe_logs") / self.logs[self.source.value]["file"]
            return probelog.read_log(path, unit=self.unit.value or None, times=self.times.value or None)
        if self.paste.value.strip():
            return probelog.read_log(
                self.paste.value.strip() + "\n", unit=self.unit.value or None, times=self.times.value or None
            )
        if self._loaded:
            return probelog.read_log(self._loaded, unit=self.unit.value or None, times=self.times.value or None)
        raise StudentError(
            "no log yet",
            "a log pasted into the box or loaded from a file",
            "time, temperature in the first line",
        )

    def refresh(self):
        """Read the log in force, review it, and draw it."""
        if self._bringing:
            return
        self.picture.value = self.details.value = ""
        log = self._log()
        review = probelog.review_log(
            log, self.kind.value, method=self.method.value, seeded_at=self.seeded_at.value.strip() or None
        )
        finding = self._figure.update(log=log, review=review, system=self.system.value)
        self.verdict.value = text_html(finding, "good" if review.verdict == probelog.CONSISTENT else "mend")
        self.picture.value = picture_html(self._figure)
        self.details.value = _details_html(log, review)


def _details_html(log, review):
    def listed(title, sentences):
        items = "".join(f"<li>{html.escape(s)}</li>" for s in sentences)
        return f"<b>{title}</b><ul style='margin:2px 0 8px'>{items}</ul>" if items else ""

    parts = (
        listed("Why", review.reasons),
        f"<b>Next at the bench</b><p style='margin:2px 0 8px'>{html.escape(review.advice)}</p>",
        listed("Stages found", [stage.sentence for stage in review.stages]),
        listed("How the log was read", log.attrs.get("said", [])),
    )
    return f'<div style="font-size:14px;line-height:1.45;padding:4px 10px">{"".join(parts)}</div>'


def log_bench(first=None):
    """The log reader: what a log shows, what it cannot show, and what to do next. first: the log it opens with."""
    return LogBench(first)
