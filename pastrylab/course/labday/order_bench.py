"""The bench that plans the Larkmoor order: pieces, pairs, machines, and the day that comes of them."""

import ipywidgets as widgets

from pastrylab.course.labday.planned import lab, planned, taken_by
from pastrylab.ground.units import StudentError
from pastrylab.page.bench import NumberBox, Plain, guarded
from pastrylab.page.boxes import WIDE, button, field, row
from pastrylab.page.guess import Asked, Met, awaits, compared
from pastrylab.page.lab_day.shown import PlanShown
from pastrylab.page.parts import part, text_html
from pastrylab.trade.planning import AIMS
from pastrylab.trade.planning.steps import clock, span

REJECTS = 0.10
FLAVOURS = {"dark": "dark ganache", "raspberry": "raspberry ganache", "hazelnut": "hazelnut praline"}
GUESS = Asked("09", "begin", "h", "the Larkmoor order")
_LEGEND = (
    "A bar is a piece of work, its colour and hatching the flavour; thick edges: no minute to spare. One piece in ten is "
    "rejected. Two mornings, 8:00 to 12:30; eight square and twelve dome moulds, all invented. Nuts go last in a machine's day, "
    "and over night it is washed. Minutes are common practice, no source."
)


class OrderBench(widgets.VBox):
    """Five numbers, an aim, and a button: what the order takes is said at every change, the day is planned when asked."""

    def __init__(self):
        controls = (
            *(
                Plain(name, f"Good pieces, {flavour}", "", 0, 400, 1, pieces)
                for (name, flavour), pieces in zip(FLAVOURS.items(), (96, 60, 84), strict=True)
            ),
            Plain("pairs", "Pairs at work", "", 1, 12, 1, 8),
            Plain("machines", "Tempering machines", "", 1, 4, 1, 2),
        )
        self.numbers = {one.name: NumberBox(one) for one in controls}
        self.aim = widgets.Dropdown(options=list(AIMS), description="Plan for the", **field("300px"))
        self.press = button("Plan it", "Find the best plan for this order")
        self.takes, self.guessed = widgets.HTML(layout=WIDE), widgets.HTML(layout=WIDE)
        self.shown = PlanShown()
        said = guarded(self.takes)
        for number in self.numbers.values():
            number.observe(said(lambda _change: self.moved()), "value")
        self.aim.observe(said(lambda _change: self.moved()), "value")
        self.press.on_click(guarded(self.shown.said)(lambda _button: self.plan()))
        legend = widgets.HTML(part("legend", text=_LEGEND), layout=WIDE)
        super().__init__(
            [row(*self.numbers.values()), row(self.aim, self.press), self.takes, self.shown, self.guessed, legend],
            layout=WIDE,
        )
        self._opening = self.values
        awaits(self)
        said(self.moved)()

    @property
    def values(self):
        return {**{name: number.value for name, number in self.numbers.items()}, "aim": self.aim.value}

    def order(self):
        """{flavour: pieces} of what is wanted. Raises StudentError for part of a piece, and for none at all."""
        wanted = {flavour: self._whole(name) for name, flavour in FLAVOURS.items()}
        return {flavour: pieces for flavour, pieces in wanted.items() if pieces}

    def _whole(self, name):
        number = self.numbers[name]
        if number.value != int(number.value):
            raise StudentError(f"{number.value:g} for '{number.control.label}'", "a whole number", "8")
        return int(number.value)

    def moved(self):
        """Say what the order takes; the plan of other numbers is taken away."""
        self.shown.clear("Not planned yet: press Plan it.")
        self.guessed.value = ""
        found = taken_by(self.order(), REJECTS)
        moulds = "; ".join(f"{one.name}: {one.fills} of {one.mould}" for one in found.flavours)
        bowls = " and ".join(f"{one.in_bowl:.0f} g of {one.couverture}" for one in found.bowls)
        self.takes.value = text_html(f"Moulds to fill: {moulds}. In the bowls at the start: {bowls}.", "note")

    def plan(self):
        """Plan the day and show it, or say what clashes."""
        there = lab(self._whole("pairs"), self._whole("machines"))
        day = planned(self.order(), REJECTS, there, self.aim.value)
        self.shown.show(day.plan)
        self._meet(day)

    def guess_kept(self, which):
        """A guess was kept while this bench stood open."""
        if which == GUESS.id and self.shown.plan is not None:
            self.plan()

    def _meet(self, day):
        """Put the guess beside its result: for the order it was asked about, and planned to begin as late as can be."""
        said = GUESS.said()
        if not said or self.values != self._opening or not day.fits:
            self.guessed.value = ""
            return
        number, end = GUESS.number(said), there_ends(day)
        begins = day.plan.begins
        then = f"The first hand is at work at {clock(begins)}, {span(end - begins)} before the boxes are fetched."
        if number is None:
            self.guessed.value = text_html(f"Your guess was {said}. {then}", "note")
            return
        met = Met((end - begins) / 60, then, ())
        self.guessed.value = text_html(compared(GUESS, said, number, met, "metric", False), "note")


def there_ends(day):
    """When the last day of a plan closes, and the boxes are fetched: minutes from midnight before the first day."""
    return day.plan.lab.end
