"""Mend a formula without code: a card a band, a tick an ingredient that may move; the sums are trade.mending's."""

import ipywidgets as widgets

from pastrylab.ground.units import StudentError
from pastrylab.page.bench import guarded
from pastrylab.page.boxes import WIDE, button, field, on_enter, on_press, row
from pastrylab.page.formula.band_cards import ActivityCard, BandCard
from pastrylab.page.formula.tab import FormulaTab, name_box, percent, plain_weight, table_html, weight
from pastrylab.page.parts import part, text_html
from pastrylab.trade import emulsion, keeping
from pastrylab.trade.mending import COMPONENTS, mend
from pastrylab.trade.mending_rows import ACTIVITY
from pastrylab.trade.pantry import ingredient_name, ingredients, members_of

_USES = [(f"to {use}", use) for use in emulsion.USES] + [("none: I type my own bands", "")]
_HELPERS = ("water", "skim milk", "butter unsalted", "cocoa butter", "invert syrup")
_NOTE = (
    "The bands of a use are a teaching habit, no law: type your own where your ganache is meant otherwise. Empty means: "
    "any. Nothing boils off in these sums. A water activity asked for is judged at the careful end of its estimate. "
)


class MendTab(FormulaTab):
    """The smallest change that brings the formula in force into its bands, or what stands against it."""

    title = "Mend"

    def __init__(self, keep=None):
        self.use = widgets.Dropdown(options=_USES, value="fill", description="It is a ganache", **field("330px"))
        self.cards = {name: BandCard(name) for name in COMPONENTS} | {ACTIVITY: ActivityCard()}
        self.ticks, self._chocolate = {}, True
        self.movers = widgets.Box(layout=widgets.Layout(display="flex", flex_flow="row wrap", width="100%"))
        self.more = name_box("Another that may come in", ingredients(), "skim milk")
        self.add = button("Add to the list", "Let this ingredient come in")
        self.total = widgets.Checkbox(
            value=False, description="Keep the total weight of the batch", indent=False, layout=WIDE
        )
        self.press = button("Mend it", "Find the smallest change")
        self.found = widgets.HTML(layout=WIDE)
        self.take = button("Use this formula", "Put the mended formula in place of the one above")
        self.take.layout.display = "none"
        head = widgets.HTML(part("asked", text="Which ingredients may change? Tick them."), layout=WIDE)
        note = widgets.HTML(part("legend", text=_NOTE + keeping.CAUTION), layout=WIDE)
        steps = [self.use, row(*self.cards.values()), head, self.movers, row(self.more, self.add), self.total]
        super().__init__([*steps, row(self.press)], [self.found, row(self.take), note], keep)
        self._connect()
        self._bands()

    def _connect(self):
        said = guarded(self.said)
        boxes = [box for card in self.cards.values() for box in card.ends.values()]
        self.use.observe(said(lambda _change: self._bands()), "value")
        on_press(self.add, self.more, said(self.let_in))
        on_enter(self.more, said(self.let_in))
        on_press(self.press, boxes, self.with_formula(self.mend))
        self.take.on_click(said(lambda _button: self.hand_over("mended")))

    def _bands(self):
        """The bands of the use that was chosen; those of one's own stay as they stand."""
        if self.use.value:
            for name, band in emulsion.targets(self.use.value).items():
                self.cards[name].put(*band)

    def _choose_use(self, chocolate):
        """The bands are a ganache's: without chocolate the reader types the ones that are meant."""
        if chocolate != self._chocolate:
            self._chocolate, self.use.value = chocolate, "fill" if chocolate else ""
            for name in COMPONENTS:
                self.cards[name].holds.value = chocolate
                if not chocolate:
                    self.cards[name].put(None, None)

    def renew(self, formula):
        self._choose_use(bool(members_of("chocolate", formula.grams)))
        for card in self.cards.values():
            card.show(formula)
        if list(self.ticks)[: len(formula.grams)] != list(formula.grams):
            self._tick_list(formula)
        self._clear()

    def _tick_list(self, formula):
        """A tick for each ingredient of the formula; the liquids are ticked, or what weighs most."""
        liquids = members_of("liquid", formula.grams) or {max(formula.grams, key=formula.grams.get)}
        self.ticks = {name: self._tick(name, name in liquids) for name in formula.grams}
        self.movers.children = list(self.ticks.values())

    @staticmethod
    def _tick(name, value):
        layout = widgets.Layout(width="auto", min_width="200px", margin="0 14px 0 0")
        return widgets.Checkbox(value=value, description=name, indent=False, layout=layout)

    def let_in(self):
        """Put an ingredient that may come in on the list, ticked."""
        name = ingredient_name(self.more.value)
        if name in self.ticks:
            self.ticks[name].value = True
        else:
            self.ticks[name] = self._tick(name, True)
            self.movers.children = list(self.ticks.values())
        self.more.value = ""
        self.say("")

    def _clear(self):
        self.made, self.found.value, self.take.layout.display = None, "", "none"
        self.say("")

    def mend(self):
        """Mend the formula in force, and say what to do or what clashes."""
        self._clear()
        movers = [name for name, tick in self.ticks.items() if tick.value]
        if not movers:
            raise StudentError("no tick", "a tick at each ingredient that may change", "tick the cream")
        bands = {name: card.band() for name, card in self.cards.items() if card.holds.value}
        if not bands:
            raise StudentError("no band that must hold", "a tick at one of the bands", "tick water")
        made = mend(self.formula, bands, movers, self.total.value, to_weigh=True)
        if made.changes:
            self.made = made.formula
            self.found.value = text_html(made.sentence, "good") + self._beside(made) + _shares(self.formula, made)
            self.take.layout.display = "" if self.keep else "none"
        else:
            said = [made.sentence] if made else [made.sentence, self._helped_by(bands, movers)]
            self.found.value = text_html([one for one in said if one], "good" if made else "mend")

    def _helped_by(self, bands, movers):
        """Which other ingredient alone would let the bands hold, in words; "" where none does."""
        more = () if ACTIVITY in bands else _HELPERS  # a search for a water activity takes its time
        helping = []
        for name in dict.fromkeys([*self.formula.grams, *more]):
            try:
                if name not in movers and mend(self.formula, bands, [*movers, name], self.total.value):
                    helping.append(name)
            except StudentError:
                continue
        return f"It can be done where one of these may change as well: {', '.join(helping)}." if helping else ""

    def _beside(self, made):
        before, after = self.formula.grams, made.formula.grams
        rows = [
            (
                name,
                plain_weight(before.get(name, 0.0)),
                weight(after.get(name, 0.0)),
                _change(after.get(name, 0.0), grams),
            )
            for name, grams in {**dict.fromkeys(made.changes, 0.0), **before}.items()
        ]
        rows = sorted(rows, key=lambda line: list({**before, **after}).index(line[0]))
        total = self.formula.total_grams, made.formula.total_grams
        rows.append(("together", plain_weight(total[0]), weight(total[1]), _change(total[1], total[0])))
        return table_html("The formula, before and after", ("ingredient", "before", "after", "change"), rows)


def _change(after, before):
    gap = after - before
    return "stays" if abs(gap) < 0.05 else f"{gap:+.3g} g"


def _shares(before, made):
    """What the change does to the three shares."""
    was, now = before.composition(), made.formula.composition()
    rows = [(name, percent(was[name]), percent(now[name])) for name in COMPONENTS]
    return table_html("What it is made of", ("share", "before", "after"), rows)
