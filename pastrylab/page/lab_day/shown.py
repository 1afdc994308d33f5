"""A plan on a page: its timeline of a day, by pair or by machine, in words beside; or what clashes where none fits."""

import ipywidgets as widgets

from pastrylab.page.bench import guarded
from pastrylab.page.boxes import WIDE, field, row
from pastrylab.page.lab_day.timeline import ROWS, Timeline
from pastrylab.page.parts import picture_html, text_html
from pastrylab.page.pictured import Pictured
from pastrylab.trade.planning import NoPlan, chains
from pastrylab.trade.planning.steps import DAY


class PlanShown(widgets.VBox):
    """The place of a plan: `show` puts one there. day, by: what is looked at."""

    def __init__(self):
        self.plan, self._drawn = None, (None, (), "")
        self.day = widgets.Dropdown(options=[("day 1", 1)], description="Show", **field("230px"))
        self.by = widgets.Dropdown(options=[f"by {one[:-1]}" for one in ROWS], description="Rows", **field("260px"))
        self.said, self.tight = widgets.HTML(layout=WIDE), widgets.HTML(layout=WIDE)
        self.picture = Pictured(Timeline(), guarded(self.said)(self.draw))
        self._looks = row(self.day, self.by)
        for choice in (self.day, self.by):
            choice.observe(guarded(self.said)(lambda _change: self.draw()), "value")
        super().__init__([self.said, self._looks, self.picture, self.tight], layout=WIDE)
        self.clear()

    def clear(self, text="", look="note"):
        """No plan here; `text` in its place."""
        self.plan = None
        self.said.value, self.picture.value, self.tight.value = text_html(text, look), "", ""
        self._looks.layout.display = "none"

    def show(self, plan, moment=0):
        """Put a Plan there, or what a NoPlan says, open at the day of a moment: minutes from midnight before the first."""
        if isinstance(plan, NoPlan):
            self.clear(plan.sentence, "mend")
            return
        self.plan = None  # not drawn while the days are put in
        days = [n for n, (opens, closes) in enumerate(plan.lab.hours, 1) if _any(plan, opens, closes)]
        self.day.options = [(f"day {plan.lab.hours[n - 1][0] // DAY + 1}", n) for n in days]
        self.day.value = next((n for n in days if plan.lab.hours[n - 1][1] > moment), days[-1])
        self.plan, self._looks.layout.display = plan, "flex"
        tight = [str(link) for links in chains(plan).values() for link in links]
        self.tight.value = text_html(
            ["No minute to spare: what is lost here is lost at the end of its day.", *tight], "note"
        )
        self.draw()

    def draw(self):
        """The day looked at, again."""
        if self.plan is None or self.day.value is None:
            return
        figure, looks = self.picture.figure, (self.day.value, self.by.value, self.picture.figure.narrow)
        if self._drawn[0] is not self.plan or self._drawn[1] != looks:
            figure.update(plan=self.plan, day=self.day.value, by=self.by.value.removeprefix("by ") + "s")
            self._drawn = self.plan, looks, picture_html(figure)
        self.said.value, self.picture.value = text_html(figure.alt), self._drawn[2]


def _any(plan, opens, closes):
    return any(opens <= one.begins < closes for one in plan.placed)
