"""A page that reads a log: choose, paste or load one, look at its line, ask what it shows, and keep it."""

from dataclasses import dataclass
from pathlib import Path

import ipywidgets as widgets
from traitlets import TraitError

from pastrylab import logs as probelog
from pastrylab.ground import files
from pastrylab.ground.units import StudentError
from pastrylab.page.bench import guarded
from pastrylab.page.boxes import WIDE, TypedArea, TypedBox, button, field, on_press, row
from pastrylab.page.keeper import Keeper, Thing
from pastrylab.page.parts import part, picture_html, text_html
from pastrylab.page.pictured import Pictured

OWN = "my own log, pasted or loaded below"
_AS_WRITTEN = ("as the log says", "")
_ASKED = ("unit", "times", "column")  # what a log may leave open


@dataclass(frozen=True)
class Finding:
    """What a log shows: a sentence, whether all is well, and what stands below it, as (title, sentences)."""

    sentence: str
    sound: bool
    sections: tuple[tuple[str, tuple[str, ...]], ...]


@dataclass(frozen=True)
class Plain:
    """A picture with words of its own for those who do not see it."""

    picture: object
    alt: str

    @property
    def narrow(self):
        return self.picture.narrow

    def png(self):
        return self.picture.png()


class LogReader(widgets.VBox):
    """The page of one job's logs. A subclass says in `judge` what a log shows, in `bring` what comes with a sample, and
    in `also_kept` which controls of its own are kept with a log, by their names.
    """

    also_kept = ()

    def __init__(self, figure, job, logs, folder, legend, example, own=((), ())):
        """logs: name in the list -> row of the table of logs; folder: where the files of those rows lie; legend: the
        picture in words; example: of a pasted log; own: the subclass's controls, beside the log and in a row below.
        """
        self.figure, self.job, self.logs, self._folder = figure, job, logs, folder
        self._loaded, self._quiet, self._asked_of, self._kept_log = None, False, None, None
        self._make_controls(example)
        typed = [self.paste, *(one for one in (*own[0], *own[1]) if isinstance(one, TypedBox))]
        self.keeper = Keeper("logs", "log", self._own, self._opened, typed, called=job.vessel)
        self.notice, self.verdict, self.details = (widgets.HTML(layout=WIDE) for _ in range(3))
        self.picture = Pictured(figure, guarded(self.notice)(self.refresh))
        rows = [row(self.source, *own[0]), row(*own[1]), row(self.unit, self.times, self.column)]
        rows += [row(self.system), row(self.paste), row(self.load, self.read), self.keeper, self.notice, self.picture]
        rows.append(widgets.HTML(part("legend", text=legend), layout=WIDE))
        self._listen((*own[0], *own[1]))
        self._clear()
        super().__init__([*rows, row(self.ask), self.verdict, self.details], layout=WIDE)

    def _make_controls(self, example):
        wide = field()
        self.source = widgets.Dropdown(options=[*self.logs, OWN], description="Log", **wide)
        units = [_AS_WRITTEN, ("degrees Celsius", "degC"), ("degrees Fahrenheit", "degF")]
        self.unit = widgets.Dropdown(options=units, description="The numbers are", **wide)
        forms = [_AS_WRITTEN, *((form, form) for form in probelog.FORMS)]
        self.times = widgets.Dropdown(options=forms, description="The times are", **wide)
        self.column = widgets.Dropdown(options=[_AS_WRITTEN], description="The temperatures are in", **field())
        self.paste = TypedArea(description="Paste a log", placeholder=example, rows=4, **wide)
        self.load = widgets.FileUpload(
            accept=".csv,.txt,.tsv",
            description="Load a log file",
            layout=widgets.Layout(width="auto", min_width="150px"),
        )
        self.read = button("Read the log", "Reads what is pasted or loaded, or the chosen log again")
        self.system = widgets.ToggleButtons(
            options=[("°C", "metric"), ("°F", "US")], description="Show in", style={"button_width": "70px"}
        )
        self.ask = button("Show the verdict", "Look at the line first")

    def _listen(self, own):
        said = guarded(self.notice)
        see = said(lambda _change: self.refresh())
        for control in (self.unit, self.times, self.column, self.system, *own):
            if not isinstance(control, widgets.Text):
                control.observe(see, "value")
        self.source.observe(said(self._on_source), "value")
        self.paste.observe(said(self._on_paste), "value")
        self.load.observe(said(self._on_load), "value")
        typed = [self.paste, *(control for control in own if isinstance(control, TypedBox))]
        on_press(self.read, typed, said(self.refresh))
        on_press(self.ask, typed, said(lambda: self._on_ask(None)))

    def begin(self, first=None):
        """Shows the first log, or the first whose name begins like that."""
        name = next((name for name in self.logs if first and name.startswith(first)), next(iter(self.logs)))
        self._set(self.source, name)
        guarded(self.notice)(self._on_source)(None)

    def judge(self, log):
        """The Finding of a log; draws it. StudentError: what it cannot use."""
        raise NotImplementedError

    def readings(self, text, **asked):
        """A log's readings, for `judge`. StudentError: what is open or wrong."""
        return probelog.read_log(text, job=self.job, **asked)

    def bring(self, sample):
        """Sets the controls that belong to a sample: its row of the table."""

    def sample(self, row):
        """The file, or the text, of a sample."""
        return files.data_path(self._folder) / row["file"]

    def _set(self, control, value):
        before, self._quiet = self._quiet, True
        control.value = value
        self._quiet = before

    def _on_source(self, _change):
        if self._quiet:
            return
        sample = self.logs.get(self.source.value)
        if sample:
            for control in (self.unit, self.times, self.column):
                self._set(control, "")
            before, self._quiet = self._quiet, True
            self.bring(sample)
            self._quiet = before
        self.refresh()

    def _on_paste(self, _change):
        """What is pasted is the log from now on, whichever was chosen before."""
        if self._quiet or not self.paste.value.strip():
            return
        self._set(self.source, OWN)
        self._set(self.column, "")
        self._clear()
        self.notice.value = text_html('Your own log is chosen. Press "Read the log".')

    def _on_load(self, change):
        if change["new"]:
            self._loaded = bytes(change["new"][0]["content"])
            self._set(self.paste, "")
            self._set(self.source, OWN)
            self._set(self.column, "")
            self.refresh()

    def _own(self):
        """The Thing to keep: one's own log as it was given, and how it is to be read."""
        if self.source.value != OWN:
            raise StudentError(f"{self.source.value}, which is always in the list", "a log of your own", OWN)
        given = self._text()
        text = self.paste.value if self.paste.value.strip() else probelog.decoded(given)[0]
        asked = {name: getattr(self, name).value for name in (*_ASKED, *self.also_kept)}
        return Thing(text, {"vessel": self.job.vessel, **asked})

    def _opened(self, _name, thing):
        """Put a kept log onto the page, with all that was said of it; what this page cannot set is said."""
        before, self._quiet, odd = self._quiet, True, []
        self._loaded, self.source.value, self.paste.value = None, OWN, thing.text
        column = thing.settings.get("column", "")
        self.column.options = [_AS_WRITTEN, (column, column)] if column else [_AS_WRITTEN]
        for name in (*_ASKED, *self.also_kept):
            control, value = getattr(self, name), thing.settings.get(name, "")
            try:
                control.value = value
            except TraitError:
                odd += [f"{control.description}: {value}"] if value else []
        self._quiet, self._asked_of = before, None
        guarded(self.notice)(self.refresh)()
        vessel = thing.settings.get("vessel", self.job.vessel)
        odd += [f"the log of a {vessel}, not of a {self.job.vessel}"] if vessel != self.job.vessel else []
        if odd:
            self.notice.value += text_html(f"Kept as {'; '.join(odd)}. This page cannot set that: mind it.", "mend")

    def _on_ask(self, _button):
        self._asked_of = self._which()
        self.refresh()

    def _which(self):
        """What tells one log from another."""
        return self.source.value, (self.paste.value.strip() or self._loaded) if self.source.value == OWN else ""

    def _text(self):
        if self.source.value != OWN:
            return self.sample(self.logs[self.source.value])
        if self.paste.value.strip():
            return self.paste.value.strip() + "\n"
        if self._loaded:
            return self._loaded
        example = self.paste.placeholder.splitlines()[0]
        raise StudentError(
            "no log yet", "a log pasted into the box or loaded from a file", f"{example} in the first line"
        )

    def _log(self):
        asked = {"unit": self.unit.value, "times": self.times.value, "column": self.column.value}
        given = self._text()
        seen = given, given.stat().st_mtime_ns if isinstance(given, Path) and given.is_file() else None, asked
        if not self._kept_log or self._kept_log[0] != seen:  # another chocolate, or °F, and the log is the same
            try:
                self._kept_log = seen, self.readings(given, **{k: v or None for k, v in asked.items()})
            except probelog.SeveralColumns as error:
                self._offer(error.columns)
                raise
        log = self._kept_log[1]
        self._offer(log.how.columns)
        return log

    def _offer(self, columns):
        """The control for the column is there where there is more than one."""
        chosen = self.column.value if self.column.value in columns else ""
        before, self._quiet = self._quiet, True
        self.column.options = [_AS_WRITTEN, *((name, name) for name in columns)]
        self.column.value = chosen
        self.column.layout.display = "flex" if len(columns) > 1 else "none"
        self._quiet = before

    def _clear(self):
        for place in (self.notice, self.picture, self.verdict, self.details):
            place.value = ""
        self.ask.layout.display = "none"
        if len(self.column.options) < 3:
            self.column.layout.display = "none"

    def refresh(self):
        """Read the log in force and draw it; say what it shows once that has been asked for."""
        if self._quiet:
            return
        self._clear()
        log = self._log()
        finding = self.judge(log)
        if self._asked_of != self._which():
            self.picture.value = picture_html(Plain(self.figure, self.outline(log)))
            self.details.value = part("sections", sections=(("How the log was read", log.how.said),))
            self.ask.layout.display = ""
            return
        self.picture.value = picture_html(self.figure)
        self.verdict.value = text_html(finding.sentence, "good" if finding.sound else "mend")
        self.details.value = part("sections", sections=(*finding.sections, ("How the log was read", log.how.said)))

    def outline(self, log):
        """A log in a sentence that gives no verdict away."""
        minutes, degrees = log["minutes"], log["degC"]
        first, last, low, high = (
            self.figure.write(x, "degC", self.system.value)
            for x in (degrees[0], degrees[-1], degrees.min(), degrees.max())
        )
        return (
            f"The line of the log: {len(minutes)} readings over {minutes[-1]:.0f} minutes, from {first} to {last}, "
            f"between {low} and {high}."
        )
