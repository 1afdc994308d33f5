"""The water activity of the formula in force: the estimate against growth limits, and what moves it which way."""

import ipywidgets as widgets

from pastrylab.ground.units import StudentError, read_text
from pastrylab.page.bench import Bench, Control
from pastrylab.page.boxes import WIDE, TypedBox, field, on_enter
from pastrylab.page.formula.tab import FormulaTab, table_html
from pastrylab.page.growth_bars import GrowthBars
from pastrylab.page.parts import text_html
from pastrylab.trade import keeping
from pastrylab.trade.activity import ADDED, estimated, moves
from pastrylab.trade.dissolved import chocolate_sugar
from pastrylab.trade.formula import Formula

_BARS = (
    "Each bar: where a group of organisms can grow. Hatched: published limits differ there. Red-brown with a bold name: "
    "can grow at the high end of the estimate. Blue line: the estimate. Yellow band: its stated error. An estimate "
    "compares formulas. It picks no class of any food code, and no days: that takes a reading from a meter. "
)
_SHARES = (1.0, 0.75, 0.5)
_SMALL = 0.0005
_MEANING = (
    "Water activity is the water that is free: 1 in pure water, less the more is dissolved. Lower holds back growth, by "
    "this one hurdle alone.",
    "What shortens the life of a filling beside it: warmth, unclean tools and fingers, a crack in the shell, sugar that "
    "crystallises in store and sets its water free again. What lengthens it: clean work, cold, a dense shell.",
)
_OPENING = Formula({"dark couverture 64 %": "330 g", "heavy cream 36 %": "200 g"})  # until there is one in force


class FormulaKeeping(GrowthBars):
    """The estimate of any formula."""

    formula, weight = _OPENING, None

    def update(self, *, dissolved_share, system="metric"):
        """dissolved_share: share of the chocolate's sugar in solution. Returns the sentence."""
        return self.show(estimated(self.formula, dissolved_share, self.weight))


class ActivityTab(FormulaTab):
    """What is free of the formula's water, by an estimate with its error, and what moves it."""

    title = "Water activity"

    def __init__(self, keep=None):
        self.figure = FormulaKeeping()
        dissolved = Control("dissolved_share", "Chocolate sugar dissolved", "", 40, 100, 5, 100)
        self.bench = Bench(self.figure, (dissolved,), _BARS + keeping.CAUTION)
        self.bench.system.layout.display = "none"  # nothing here is weighed
        self.boiled = TypedBox(
            description="Boiled down to", placeholder="weight in the pan, where you boiled it", **field("420px")
        )
        self.table = widgets.HTML(layout=WIDE)
        super().__init__([self.boiled], [self.bench, self.table], keep)
        said = self.with_formula
        self.boiled.observe(said(lambda _change: self.look()), "value")
        on_enter(self.boiled, said(self.look))

    def renew(self, formula):
        chocolate = chocolate_sugar(formula).m_as("g") > 0
        self.bench.numbers["dissolved_share"].layout.display = "" if chocolate else "none"
        if not chocolate:
            self.bench.numbers["dissolved_share"].put(100.0)
        self.look()

    def look(self):
        """Draw the estimate for what stands in the box and on the slider, and the tables below it."""
        self.say("")
        self.table.value = self.bench.sentence.value = self.bench.picture.value = ""
        self.figure.formula, self.figure.weight = self.formula, self._weight()
        self.bench.refresh()
        if self.bench.picture.value:
            weight = self.figure.weight
            shares = _shares(self.formula, weight) if chocolate_sugar(self.formula).m_as("g") > 0 else ""
            self.table.value = shares + _moves(self.formula, weight) + text_html(_MEANING, "note")

    def _weight(self):
        """What the pan held after boiling, None where nothing was boiled. Raises StudentError."""
        text = self.boiled.value.strip()
        if not text:
            return None
        typed = read_text(text, "[mass]")
        if not typed.unit:
            example = f"{0.8 * self.formula.total_grams:.0f} g"
            raise StudentError(f"{text[:40]} for 'Boiled down to', without a unit", "a mass with its unit", example)
        return typed.quantity


def _shares(formula, weight):
    rows = [(f"{100 * share:.0f} %", estimated(formula, share, weight).written) for share in _SHARES]
    heads = ("of the chocolate's sugar dissolved", "water activity (with its error)")
    return table_html("Nobody knows how much of it dissolves", heads, rows)


def _moves(formula, weight):
    more = f"{100 * ADDED:.0f} g to 100 g of the formula"
    rows = [(one.what, _said(one.change)) for one in moves(formula, weight=weight)]
    return table_html(f"What raises it, what lowers it: {more}", ("change", "the estimate"), rows)


def _said(change):
    if abs(change) < _SMALL:
        return "hardly moves"
    return f"{'rises' if change > 0 else 'falls'} by {abs(change):.3f}"
