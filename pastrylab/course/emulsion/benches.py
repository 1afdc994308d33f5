"""Benches of lesson 03: a ganache as water against fat, an infusion, the warm liquid, and the log of cooling cream."""

from pastrylab import logs as probelog
from pastrylab.course.emulsion.figures import CreamCooling, WarmLiquid, WaterAgainstFat
from pastrylab.course.emulsion.infusion_figure import InfusionWeighed
from pastrylab.ground import datasets
from pastrylab.logs import cream
from pastrylab.page.bench import Bench, Control, Plain, guarded
from pastrylab.page.cards import GuessCard
from pastrylab.page.guess import Asked
from pastrylab.page.log_reader import Finding, LogReader
from pastrylab.trade import emulsion, infusion

_LESSON = "03"
_COUVERTURES = (
    "dark couverture 64 %",
    "dark couverture 55 %",
    "dark chocolate 70-85 %",
    "milk couverture 38 %",
    "white couverture 32 %",
)


def guess_water():
    """The guess before the ganache bench."""
    return GuessCard(
        _LESSON,
        "water",
        "A ganache of 330 g (11.6 oz) of dark couverture, 200 g (7.1 oz) of cream, 35 g (1.2 oz) of invert syrup and "
        "25 g (0.9 oz) of butter. What share of it is water? Commit to a percentage before you look.",
        "30 %",
        most="100 %",
    )


_POINTS = {
    "chocolate": ("Chocolate", 100, 700, (3.5, 25, 0.1)),
    "cream": ("Cream 36 %", 0, 500, (0, 18, 0.1)),
    "syrup": ("Invert syrup", 0, 120, (0, 4.25, 0.05)),
    "butter": ("Butter", 0, 150, (0, 5.5, 0.05)),
    "skim_milk": ("Skim milk", 0, 150, (0, 5.5, 0.05)),
}
_LEGEND = (
    "Rings: your ganache. Hatched boxes: the card of the use, for water and fat and for sugars (from memory, a habit). Blue crosses: fillings of the "
    "Larkmoor Teaching Kitchen. Column: fat, solids and the watery syrup by volume, warm. Red lines: how close equal "
    "balls lie when heaped at random (dashed) and at their closest (dash-dotted). Warnings, not laws."
)


def _water_and_fat(couverture, use, guess=None, **grams):
    """The plot with one control for each of `grams`, in g, opening with that couverture and use."""
    controls = [
        Control(name, label, "g", low, high, 5, grams[name], us=us)
        for name, (label, low, high, us) in _POINTS.items()
        if name in grams
    ]
    couvertures = [couverture, *(name for name in _COUVERTURES if name != couverture)]
    uses = [use, *(name for name in emulsion.USES if name != use)]
    choices = (("couverture", "Chocolate is", couvertures), ("use", "It is to", uses))
    return Bench(WaterAgainstFat(), controls, _LEGEND, choices, guess=guess)


def ganache_bench():
    """A ganache as one plot of water against fat, with its phases."""
    guess = Asked(_LESSON, "water", "percent", "the ganache")
    return _water_and_fat(_COUVERTURES[0], "fill", guess, chocolate=330, cream=200, syrup=35, butter=25)


def split_bench():
    """The ganache that split: very dark, firm, and buttered; skim milk to rescue it."""
    return _water_and_fat("dark chocolate 70-85 %", "pipe", chocolate=600, cream=200, butter=80, skim_milk=0)


class InfusionBench(Bench):
    """An infusion weighed in, strained and topped up. Another kind to steep brings the middle of what it keeps."""

    def __init__(self, *args):
        super().__init__(*args)
        self.choices["kind"].observe(guarded(self.sentence)(self._another), "value")

    def _another(self, change):
        self.numbers["kept"].put(round(sum(infusion.kept_by(change["new"])) / 2, 2))


def infusion_bench():
    """An infusion weighed in, strained and topped up."""
    controls = (
        Control("liquid", "Cream", "g", 150, 1000, 10, 500, us=(5.5, 35, 0.1)),
        Control("leaves", "Leaves, beans or pods", "g", 1, 60, 1, 20, us=(0.05, 2.1, 0.05)),
        Plain("kept", "Kept, times their weight", "", 0, 6, 0.1, 3),
        Control("evaporated", "Gone as steam", "g", 0, 80, 1, 20, us=(0, 2.8, 0.05)),
    )
    legend = (
        "Blue: cream. Green, crossed: cream that stays in the leaves. White, dotted: water gone as steam. Light, upright lines: "
        "water to add; yellow, slanted: what else to add. Black line: where habit puts the strained cream; most habits are our "
        "own judgement, so weigh yours."
    )
    choices = (
        ("kind", "You steep", infusion.kinds()),
        ("top_up", "Top up with", ["heavy cream", "whole milk", "water"]),
    )
    return InfusionBench(InfusionWeighed(), controls, legend, choices)


_STATES = [
    (f"{couverture.split()[0]}, {said}", (state, couverture))
    for said, state in (("tempered and liquid", "tempered"), ("set drops", "drops"))
    for couverture in (_COUVERTURES[0], *_COUVERTURES[3:])
]


def warm_bench():
    """How warm the liquid must be, for both routes."""
    controls = (
        Control("chocolate", "Chocolate", "g", 200, 1500, 10, 450, us=(7, 53, 0.1)),
        Control("chocolate_at", "It stands at", "degC", 15, 34, 0.5, 30, us=(59, 93, 1)),
        Control("liquid", "Liquid", "g", 100, 1000, 10, 250, us=(3.5, 35, 0.1)),
        Control("target", "To end at", "degC", 26, 50, 0.5, 31, us=(79, 122, 1)),
    )
    legend = (
        "Blue line: where the ganache ends for each temperature of the liquid. Dotted: what mass alone would say. Yellow "
        "hatched: where the crystals of this chocolate survive. Ring on dashed lines: the liquid you need."
    )
    choices = (
        ("into", "Chocolate is", _STATES),
        ("of", "Liquid is", ["heavy cream", "whole milk", "raspberry puree", "water", "invert syrup"]),
    )
    return Bench(WarmLiquid(), controls, legend, choices)


def sample_logs():
    """The invented logs of cooling cream: what stands in the list, and the row of cream_logs.csv behind it."""
    return {f"pan {chr(ord('A') + i)} ({row['vessel']})": row for i, row in enumerate(datasets.cream_logs())}


_COOLING_LEGEND = (
    "Blue line with dots: the probe. Dotted: the clock starts when it falls below this. Red lines end at a triangle: the "
    "blue line must cross each before its triangle."
)


class CoolingBench(LogReader):
    """A log of cooling cream: look at the line, then read it against the two limits."""

    def __init__(self):
        example = "time, temperature F\n9:05, 176\n9:20, 120\n9:50, 71"
        super().__init__(CreamCooling(), probelog.CREAM, sample_logs(), "cream_logs", _COOLING_LEGEND, example)
        self.begin()

    def judge(self, log):
        """The two limits, held against a log."""
        found = cream.check_cooling(log)
        sentence = self.figure.update(log=log, found=found, system=self.system.value)
        return Finding(sentence, found.verdict == cream.INSIDE, (("Next at the bench", (found.advice, found.caution)),))


def cooling_bench():
    """The log of cooling cream against the Food Code's two limits."""
    return CoolingBench()
