"""The bench that plans an order in the kitchen of the sheets: pieces, pairs, machines, and the day that comes of them."""

import ipywidgets as widgets

from pastrylab.course.labday.planned import lab, mould_counts, planned, taken_by
from pastrylab.ground.units import StudentError
from pastrylab.page.bench import NumberBox, Plain, guarded
from pastrylab.page.boxes import WIDE, button, field, row
from pastrylab.page.guess import Asked, Met, awaits, compared
from pastrylab.page.lab_day.shown import PlanShown
from pastrylab.page.parts import part, text_html
from pastrylab.trade.orders import kitchen, larkmoor
from pastrylab.trade.orders.day import MACHINE
from pastrylab.trade.planning import AIMS
from pastrylab.trade.planning.steps import DAY, clock, span

REJECTS = 0.10
PIECES = (96, 60, 84)
GUESS = Asked("09", "begin", "h", "the order as it opens")
_LEGEND = (
    "A bar is a piece of work, its colour and hatching the flavour; thick edges: no minute to spare. One piece in ten is "
    "rejected. Open {hours}; moulds: {moulds}. Nuts go last in a machine's day, and over night it is washed. Minutes a mould "
    "are common practice, no source. "
)
_AS_HERE = "All as in the worked example below, and invented."
_OTHER = "The sheets of your kitchen say otherwise than the worked example below: its numbers are not this order's."


def opening(there):
    """{flavour: pieces} this bench opens with, in a Kitchen: of its first three flavours.

    >>> opening(larkmoor())
    {'dark ganache': 96, 'raspberry ganache': 60, 'hazelnut praline': 84}
    """
    return dict(zip(there.flavours, PIECES, strict=False))


def hours_in_words(there):
    """The hours of a Lab: "8:00 to 12:30 on 2 days", or one by one where they differ.

    >>> hours_in_words(larkmoor().lab)
    '8:00 to 12:30 on 2 days'
    """
    each = [(opens % DAY, closes - opens // DAY * DAY) for opens, closes in there.hours]
    in_a_row = all(opens // DAY == number for number, (opens, _) in enumerate(there.hours))
    if len(each) > 1 and len(set(each)) == 1 and in_a_row:
        return f"{clock(each[0][0])} to {clock(each[0][1])} on {len(each)} days"
    return ", ".join(f"{clock(opens)} to {clock(closes)}" for opens, closes in there.hours)


def _keys(names):
    """{a short key: flavour}: the first word of its name where no other begins so."""
    firsts = [name.split()[0] for name in names]
    return {first if firsts.count(first) == 1 else name: name for first, name in zip(firsts, names, strict=True)}


class OrderBench(widgets.VBox):
    """Pieces, pairs, machines, an aim, and a button: what the order takes is said at every change, the day planned when asked."""

    def __init__(self):
        self._kitchen = there = kitchen()
        self._flavours = _keys(opening(there))
        teams, machines = there.lab.teams, there.lab.machines.get(MACHINE, 1)
        controls = (
            *(
                Plain(name, f"Good pieces, {flavour}", "", 0, 400, 1, pieces)
                for (name, flavour), pieces in zip(self._flavours.items(), PIECES, strict=False)
            ),
            Plain("pairs", "Pairs at work", "", 1, max(12, teams), 1, teams),
            Plain("machines", "Tempering machines", "", 1, max(4, machines), 1, machines),
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
        legend = widgets.HTML(part("legend", text=_legend(there)), layout=WIDE)
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
        wanted = {flavour: self._whole(name) for name, flavour in self._flavours.items()}
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
        found = taken_by(self.order(), REJECTS, self._kitchen.flavours)
        moulds = "; ".join(f"{one.name}: {one.fills} of {one.mould}" for one in found.flavours)
        bowls = " and ".join(f"{one.in_bowl:.0f} g of {one.couverture}" for one in found.bowls)
        self.takes.value = text_html(f"Moulds to fill: {moulds}. In the bowls at the start: {bowls}.", "note")

    def plan(self):
        """Plan the day and show it, or say what clashes."""
        there = lab(self._whole("pairs"), self._whole("machines"), there=self._kitchen.lab)
        day = planned(self.order(), REJECTS, there, self.aim.value, self._kitchen.flavours)
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


def _legend(there):
    moulds = " and ".join(f"{count} of {name}" for name, count in mould_counts(there).items())
    said = _LEGEND.format(hours=hours_in_words(there.lab), moulds=moulds)
    return said + (_AS_HERE if there == larkmoor() else _OTHER)


def there_ends(day):
    """When the last day of a plan closes, and the boxes are fetched: minutes from midnight before the first day."""
    return day.plan.lab.end
