"""When a day runs late: what has begun and when it is now, and the plan of what is left."""

import re

import ipywidgets as widgets

from pastrylab.ground.names import plain_name
from pastrylab.ground.units import StudentError
from pastrylab.page.bench import guarded
from pastrylab.page.boxes import WIDE, TypedArea, answer_box, button, field, on_press
from pastrylab.page.form import Form
from pastrylab.page.lab_day.shown import PlanShown
from pastrylab.page.parts import text_html
from pastrylab.trade.orders.hours import read_moment
from pastrylab.trade.planning import NoPlan, plan_again
from pastrylab.trade.planning.steps import clock

SECONDS = 5.0
_HEAD = "Does it run late on the day? Say when it is, and what has begun: the rest is planned again."
_LINE = "10:55 make the filling: dark ganache"


class Late(Form):
    """Plan again from now: shown once there is a plan."""

    def __init__(self):
        self.now = answer_box("It is now", "day 2, 9:40")
        self.begun = TypedArea(description="Begun", rows=5, placeholder=_LINE, **field("620px"))
        self.fill = button("As it was planned", "Fill in what should have begun by now; put right what came otherwise")
        self.press = button("Plan again from now", "What is done stays as it was; the rest is planned anew")
        self.shown, self._day = PlanShown(), None
        on_press(self.fill, self.now, lambda: guarded(self.said)(self._planned)())
        head = widgets.HTML(text_html(_HEAD, "note"), layout=WIDE)
        super().__init__([[head], [self.now, self.fill], [self.begun]], self.press, self.again, [self.shown])
        self.forget()

    def forget(self):
        """There is no plan to mend."""
        self._day, self.begun.value, self.said.value = None, "", ""
        self.shown.clear()
        self.layout = widgets.Layout(width="auto", display="none")

    def wait(self, day):
        """There is a plan: a Day that fits."""
        self.forget()
        self._day, self.layout = day, widgets.Layout(width="auto", display="flex")

    def _known(self):
        if self._day is None:
            raise StudentError("no plan to mend", "a plan first", "press Plan it")
        return self._day.plan

    def _planned(self):
        """What should have begun by now, a line a step."""
        plan, now = self._known(), read_moment(self.now.value)
        lines = [f"{clock(one.begins)} {one.step.name}" for one in plan.placed if one.begins <= now]
        self.begun.value = "\n".join(lines)
        self.say(
            "So it was planned. Take out what has not begun, put right the times, and plan again."
            if lines
            else "Nothing should have begun yet."
        )

    def again(self):
        """Plan what is left."""
        self.shown.clear()
        plan, now = self._known(), read_moment(self.now.value)
        begun = read_begun(self.begun.value, plan)
        found = plan_again(plan, self._day.holds, now, begun, seconds=SECONDS)
        self.say("" if isinstance(found, NoPlan) else compared(plan, found, begun))
        self.shown.show(found, now)


def read_begun(text, plan):
    """{step: when it began} of lines such as "day 2, 9:40 cap: dark ganache". Raises StudentError naming the line.

    Upper or lower case; an empty line is passed over.
    """
    names, found = {plain_name(one.step.name): one.step.name for one in plan.placed}, {}
    for number, line in enumerate(text.splitlines(), 1):
        if not line.strip():
            continue
        one = re.fullmatch(r"\s*((?:day\s*\d+\s*,?\s*)?[\d:.]+(?:\s*[ap]\.?m\.?)?)\s*,?\s+(.+?)\s*", line, re.I)
        name = one and names.get(plain_name(one[2]))
        if not name:
            raise StudentError(
                f"line {number} of what has begun, '{line.strip()[:60]}'",
                "when, and a step of the plan",
                _line_of(plan),
            )
        if name in found:
            raise StudentError(f"{name} twice", "each step once", _line_of(plan))
        found[name] = read_moment(one[1])
    return found


def _line_of(plan):
    return f"{clock(plan.placed[0].begins)} {plan.placed[0].step.name}"


def compared(plan, found, begun):
    """What comes next in a plan made again, and whether all is over when it was to be, in sentences."""
    left = [one for one in found.placed if one.step.name not in begun]
    if not left:
        return "All has begun: there is nothing left to plan."
    nexts = "; ".join(str(one) for one in left[:3])
    late = found.ends - plan.ends
    end = f"All is over at {clock(found.ends)}, " + (
        f"{late} min later than planned." if late > 0 else "no later than planned."
    )
    return [f"It still fits, and no rest is cut. Next: {nexts}.", end]
