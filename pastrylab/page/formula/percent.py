"""A step of the formula box: a formula in percent of its total or of a base, and scaled to what is wanted or at hand."""

import ipywidgets as widgets

from pastrylab.ground.units import In, Quantity, StudentError, both, read_text, show
from pastrylab.page.bench import guarded
from pastrylab.page.boxes import WIDE, TypedArea, TypedBox, button, field, on_enter, on_press, row
from pastrylab.page.formula.tab import FormulaTab, percent, table_html, weight
from pastrylab.page.parts import part
from pastrylab.trade.formula import Formula
from pastrylab.trade.pantry import members_of
from pastrylab.trade.prep.prep_list import read_list
from pastrylab.trade.weighing import as_shown

_WAYS = ("to a total", "to a number of pieces", "by what is on the shelf", "so many times")
_STEPS = {"1 g": 1.0, "0.1 g": 0.1, "0.01 g": 0.01, "2 g": 2.0, "5 g": 5.0, "10 g": 10.0}
_TOTAL = In("g", above=0, example="2 kg")
_BASES = ("chocolate", "liquid", "sweetener")
_NOTE = (
    "On a base the shares may pass 100 %: the base alone is 100 %. The scaled masses stand as your scale can show them."
)


class PercentTab(FormulaTab):
    """Shares of the total or of a base, and the formula at another size."""

    title = "Percent and scale"

    def __init__(self, keep=None):
        self.base = widgets.Dropdown(options=[("the total", "")], description="In percent of", **field("330px"))
        self.shares = widgets.HTML(layout=WIDE)
        self.way = widgets.Dropdown(options=_WAYS, description="Scale it", **field("330px"))
        self.total = TypedBox(value="2 kg", description="Total", **field("240px"))
        self.pieces = TypedBox(value="60", description="Pieces", **field("160px"))
        self.piece = TypedBox(value="12 g", description="One weighs", **field("240px"))
        self.times = TypedBox(value="2", description="Times", **field("160px"))
        self.stock = TypedArea(
            description="On the shelf", placeholder="heavy cream: 1 quart\nbutter 8 oz", rows=3, **field()
        )
        self.step = widgets.Dropdown(options=list(_STEPS), description="The scale shows steps of", **field("330px"))
        self.press = button("Scale", "Reckon the formula at that size")
        self.found = widgets.HTML(layout=WIDE)
        self.take = button("Use this formula", "Put the scaled formula in place of the one above")
        self._of = dict(zip(_WAYS, ([self.total], [self.pieces, self.piece], [self.stock], [self.times]), strict=True))
        self._asked = row()
        note = widgets.HTML(part("legend", text=_NOTE), layout=WIDE)
        above = [self.base, self.shares, row(self.way, self.step), self._asked, row(self.press)]
        super().__init__(above, [self.found, row(self.take), note], keep)
        self._connect()

    def _connect(self):
        said = self.with_formula
        typed = [box for boxes in self._of.values() for box in boxes]
        self.base.observe(said(lambda _change: self._write_shares()), "value")
        self.way.observe(guarded(self.said)(lambda _change: self._ask()), "value")
        on_press(self.press, typed, said(self.scale))
        for box in typed:
            if isinstance(box, TypedBox):
                on_enter(box, said(self.scale))
        self.take.on_click(said(lambda _button: self.hand_over("scaled")))
        self._ask()

    def _ask(self):
        self._asked.children = self._of[self.way.value]

    def renew(self, formula):
        """Write the shares again; a formula of another size is asked for anew."""
        groups = [(f"the {group}", group) for group in _BASES if len(members_of(group, formula.grams)) > 0]
        options = [("the total", ""), *groups, *((name, name) for name in formula.grams)]
        before = self.base.value
        self.base.options = options
        self.base.value = before if before in dict(options).values() else ""
        self.made, self.found.value = None, ""
        self.take.layout.display = "none"
        self._write_shares()

    def _write_shares(self):
        shares = self.formula.percents(self.base.value or None)
        rows = [(name, weight(self.formula.grams[name]), percent(share)) for name, share in shares.items()]
        rows.append(("together", weight(self.formula.total_grams), percent(sum(shares.values()))))
        of = dict((value, name) for name, value in self.base.options)[self.base.value]
        self.shares.value = table_html("Your formula in percent", ("ingredient", "mass", f"of {of}"), rows)

    def scale(self):
        """The formula at the size that is asked for."""
        self.say("")
        self.made, self.found.value, self.take.layout.display = None, "", "none"
        made, sentences = self._sized()
        step = _STEPS[self.step.value]
        shown = as_shown(made, step)
        small = [name for name, grams in shown.items() if grams is None]
        rows = [
            (name, both(Quantity(made.grams[name], "g"), 3), "too small" if grams is None else f"{grams:g} g")
            for name, grams in shown.items()
        ]
        rows.append(("together", both(made.total, 4), f"{sum(filter(None, shown.values())):.10g} g"))
        if small:
            sentences.append(
                f"Your scale cannot weigh {' and '.join(small)}: take a finer one, or make a larger batch."
            )
        self.say(sentences, "mend" if small else "say")
        heads = ("ingredient", "reckoned", f"on a scale with steps of {self.step.value}")
        self.found.value = table_html("At the new size", heads, rows)
        self.made = made
        self.take.layout.display = "" if self.keep else "none"

    def _sized(self):
        """(the Formula at the new size, what is to be said of it)."""
        formula, way = self.formula, self.way.value
        if way == _WAYS[2]:
            return self._by_shelf()
        if way == _WAYS[0]:
            made = formula.scaled(total=Quantity(_TOTAL.floats("the total", self.total.value), "g"))
        elif way == _WAYS[1]:
            count = _number(self.pieces, "60")
            made = formula.scaled(pieces=count, piece=self.piece.value)
        else:
            made = formula.scaled(factor=_number(self.times, "2"))
        return made, [f"{made.total_grams / formula.total_grams:.4g} times the formula: {both(made.total, 4)}."]

    def _by_shelf(self):
        stock = read_list(self.stock.value)
        asked = [line for line in stock.lines if line.asks]
        if asked:
            raise StudentError(f"'{asked[0].typed}' on the shelf", asked[0].asks.sentence, "heavy cream 36 %: 500 g")
        if stock.formula is None:
            raise StudentError("nothing on the shelf", "what you have, a line an ingredient", "heavy cream 36 %: 500 g")
        found = self.formula.scarcest(stock.formula.parts)
        left = ", ".join(f"{show(mass, 3)} of {name}" for name, mass in found.left.items() if name != found.ingredient)
        made = Formula.of_grams({name: found.factor * grams for name, grams in self.formula.grams.items()})
        sentences = [
            f"{found.ingredient} runs out first: it is enough for {found.factor:.4g} times the formula, {both(made.total, 4)}."
        ]
        return made, [*sentences, f"Left over: {left}."] if left else sentences


def _number(box, example):
    """A plain number or count typed into a box. Raises StudentError naming it."""
    typed = read_text(box.value if box.value.strip() else " ")
    if typed.unit not in ("", "piece", "dozen"):
        raise StudentError(f"'{box.value.strip()[:40]}' for '{box.description}'", "a plain number", example)
    return typed.number * (12 if typed.unit == "dozen" else 1)
