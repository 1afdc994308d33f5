"""Benches of lesson 02: the crystals a bowl can hold, the seed balance, smears, a bowl held, and the reader of its log."""

import ipywidgets as widgets

from pastrylab import logs as probelog
from pastrylab.course.tempering.figures import CrystalPath, HoldPath, ProbeLog, SeedBalance
from pastrylab.course.tempering.halving import halving_bench, hears_halving
from pastrylab.course.tempering.smears import smears
from pastrylab.ground import datasets
from pastrylab.ground.units import StudentError
from pastrylab.page.bench import Bench, Control, guarded
from pastrylab.page.boxes import TypedBox, field, on_enter
from pastrylab.page.cards import GuessCard
from pastrylab.page.guess import Asked
from pastrylab.page.log_reader import Finding, LogReader
from pastrylab.page.parts import text_html
from pastrylab.trade import chocolate, couvertures, pantry

__all__ = [
    "LogBench",
    "crystal_bench",
    "guess_hold",
    "guess_seed",
    "halving_bench",
    "hold_bench",
    "log_bench",
    "sample_logs",
    "seed_bench",
    "smears",
]
_LESSON = "02"
_FIRST = "dark couverture 64 %"


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
        "where the sentence says what to mind. Your own couverture stands in the list once you have kept it, on the page "
        "Start here."
    )
    choices = (("kind", "Chocolate", _couvertures()),)
    return Bench(SeedBalance(), controls, legend, choices, guess=Asked(_LESSON, "seed", "g", "the bowl"))


def _couvertures():
    """The couvertures of the ingredient list, the one the page speaks of first, and one's own."""
    own = [name for name, made in pantry.own_ingredients()[0].items() if made.chocolate]
    names = [name for name in pantry.facts() if name.split()[0] in chocolate.KINDS and "couverture" in name]
    names = list(dict.fromkeys([*names, *own, *couvertures.own_couvertures()[0]]))
    return sorted(names, key=lambda name: name != _FIRST) or list(chocolate.KINDS)


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


def guess_hold():
    """The guess before the holding bench."""
    return GuessCard(
        _LESSON,
        "hold",
        "A tempered bowl of dark chocolate stands at 32 °C (90 °F) in a room at 20 °C (68 °F), with nothing under it. Two "
        "degrees above the room become one in 40 minutes. After how many minutes does it stand at 31 °C (88 °F), the cold "
        "end of its band?",
        "20 min",
    )


def hold_bench():
    """How long a bowl that nobody warms stays in its working band."""
    controls = (
        Control("start", "It stands at", "degC", 26, 36, 0.1, 32, us=(79, 97, 0.2)),
        Control("room", "Room", "degC", 14, 28, 0.5, 20, us=(57, 82, 1)),
        Control("halving", "Halving time", "min", 10, 120, 1, 40),
    )
    legend = (
        "Blue line: the bowl, left alone. Yellow band: the working band. Dashed red line: above it temper is lost, sooner "
        "or later. Ring: here it leaves the band. Halving time: the minutes in which what it is warmer than the room halves."
    )
    choices = (("kind", "Chocolate", chocolate.products()),)
    guess = Asked(_LESSON, "hold", "min", "the bowl")
    return hears_halving(Bench(HoldPath(), controls, legend, choices, guess=guess))


def sample_logs():
    """The invented logs of the Larkmoor Teaching Kitchen: the name in the list, and the row of probe_logs.csv behind it.

    The names are letters, so that the list does not give the verdict away.
    """
    return {
        f"bowl {chr(ord('A') + i)} ({row['kind']}, {row['method']})": row for i, row in enumerate(datasets.probe_logs())
    }


_LOG_LEGEND = (
    "Blue line with dots: the readings. Bands: dotted, melt out; hatched left, cool; hatched right, work (each the span of "
    "two textbooks and of practice). Dashed red line: above it temper is lost, sooner or later. White crosses: readings "
    "too warm for temper. The supplier's sheet wins over every "
    "band here: type it into your own kitchen, on the page Start here, and choose it above under Chocolate."
)


class LogBench(LogReader):
    """A bowl's log: say kind, method and seeding time; look at the line; read what it shows."""

    also_kept = ("kind", "method", "seeded_at")

    def __init__(self, first=None):
        wide = field()
        self.kind = widgets.Dropdown(options=chocolate.products(), description="Chocolate", **wide)
        self.method = widgets.Dropdown(options=probelog.METHODS, description="Method", **wide)
        self.seeded_at = TypedBox(
            description="Seeded after",
            placeholder="12 min, or the clock time in the log; empty if not noted",
            **wide,
        )
        example = "time, temperature\n9:05, 113 F\n9:15, 95 F"
        own = (self.kind,), (self.method, self.seeded_at)
        super().__init__(ProbeLog(), probelog.CHOCOLATE, sample_logs(), "probe_logs", _LOG_LEGEND, example, own)
        on_enter(self.seeded_at, guarded(self.notice)(self.refresh))
        self.begin(first)

    def bring(self, sample):
        """Kind, method and seeding time of a sample."""
        self.kind.value, self.method.value = sample["kind"], sample["method"]
        self.seeded_at.value = sample["seeded_at"]

    def judge(self, log):
        """The review of a log; a seeding time that is none of this log's is said, and hides nothing."""
        try:
            seeded_at = probelog.minutes_into(log, self.seeded_at.value)
        except StudentError as error:
            seeded_at = None
            self.notice.value = text_html(f'"Seeded after" was left out. {error}', "mend")
        review = probelog.review_log(log, self.kind.value, method=self.method.value, seeded_at=seeded_at)
        sentence = self.figure.update(log=log, review=review, system=self.system.value)
        sections = (
            ("Why", review.reasons),
            ("Next at the bench", (review.advice,)),
            ("Out of the band", review.excursions),
            ("Stages found", tuple(stage.sentence for stage in review.stages)),
        )
        return Finding(sentence, review.verdict == probelog.CONSISTENT, sections)


def log_bench(first=None):
    """The log reader: what a log shows, what it cannot show, and what to do next. first: the log it opens with."""
    return LogBench(first)
