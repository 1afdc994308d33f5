"""A make-up lab on paper: a sheet for the student, and the key for who marks it."""

import base64

import ipywidgets as widgets
from markupsafe import Markup

from pastrylab.course.labday.make_up import MISSED, make_up
from pastrylab.ground.units import Quantity, both
from pastrylab.page.boxes import WIDE, answer_box, button, field
from pastrylab.page.form import Form
from pastrylab.page.lab_day.sheets import ALWAYS, bands, formula
from pastrylab.page.parts import part
from pastrylab.school import exercise_values, whose
from pastrylab.trade.orders.day import Pace
from pastrylab.trade.orders.quantities import grams_up
from pastrylab.trade.planning import chain
from pastrylab.trade.planning.steps import clock, span, times

_SKILLS = (
    "set-up: all weighed and in reach before the first step",
    "clock: said ten minutes ahead what would be late",
    "rests: least and most on the mould, none cut",
    "allergens: order of flavours kept, tools apart, bench washed",
    "dairy: time from the hob on the bowl, into the cold in time",
)
_BENCH = {
    "day 1": ("cast",),
    "day 2": ("cap",),
    "both days": ("cast", "cap"),
    "the planning": ("call",),
}


def sheets_html(labs):
    """The sheets of some MakeUps to print, one after the other, as HTML.

    >>> "Make-up lab" in sheets_html([make_up("17", "day 1")])
    True
    """
    return str(part("make_up", sheets=[_sheet(one) for one in labs]))


def key_html(labs):
    """The key to the sheets of some MakeUps, as HTML: for who marks them.

    >>> "fills" in key_html([make_up("17", "day 1")])
    True
    """
    return str(part("make_up_key", keys=[{"student": one.student, "rows": key_rows(one)} for one in labs]))


def _sheet(lab):
    rows = [
        ("flavour", "good pieces", "mould", "filling in a piece", "make", "rest, then pipe", "in the shell, then cap")
    ]
    for one in lab.flavours:
        rows.append(
            (
                one.name,
                lab.order[one.name],
                one.mould,
                f"{one.filled:.2f} g",
                span(one.make),
                _from_to(one.rest),
                _from_to(one.crystal),
            )
        )
    first = lab.flavours[0]
    return {
        "student": lab.student,
        "missed": lab.missed,
        "order": rows,
        "rejects": f"{100 * lab.rejects:g} %",
        "fetched": clock(lab.fetched),
        "opens": ", ".join(times(opens, closes) for opens, closes in lab.plans[0].lab.hours),
        "pace": Pace(),
        "bench": _BENCH[lab.missed],
        "flavour": first.name,
        "mould": first.mould,
        "formula": formula(lab.one.flavours[0]),
        "bands": bands([first]),
        "couverture": first.couverture,
        "bowl": _grams(lab.one.bowls[0].in_bowl),
        "skills": _SKILLS,
        "cautions": [
            f"Allergens at your bench: {', '.join(sorted(first.allergens)) or 'none of the nine of US law'}.",
            *ALWAYS,
        ],
    }


def key_rows(lab):
    """The answers of a MakeUp as rows: the headings, then what was asked and what is right."""
    rows = [("asked", "right")]
    for one in lab.found.flavours:
        rows.append((f"{one.name}: fills, and pieces cast", f"{one.fills} fills, {one.cast} pieces"))
        rows.append((f"{one.name}: filling to make, 5 % left in the bag", _grams(one.filled)))
    for plan in lab.plans:
        name = plan.placed[0].step.job.split(", batch ")[0]
        rows.append((f"{name}: latest start, by itself", f"{clock(plan.value)}. {plan.proof}"))
        rows.append((f"{name}: what has no minute at the end", "; ".join(str(link) for link in chain(plan))))
    if len(lab.flavours) > 1:
        rows.append(("in one machine", lab.row or "either first: they leave the same allergens behind"))
    one, flavour = lab.one.flavours[0], lab.flavours[0]
    if "cast" in _BENCH[lab.missed]:
        rows.append((f"shells of one mould of {one.name}", f"{_grams(one.shells)}, {flavour.shell:.1f} g each"))
    if "cap" in _BENCH[lab.missed]:
        rows.append((f"caps of one mould of {one.name}", f"{_grams(one.caps)}, {flavour.cap:.1f} g each"))
    return tuple(rows)


def _from_to(least_most):
    return f"{span(least_most[0])} to {span(least_most[1])}"


def _grams(grams):
    return both(Quantity(grams_up(grams), "g"))


class MakeUpBench(Form):
    """Who was absent, and what was missed: the sheet, to print."""

    def __init__(self):
        self.student = answer_box("Class number or name", "17")
        self.missed = widgets.Dropdown(options=list(MISSED), description="Missed", **field("260px"))
        self.shown = widgets.HTML(layout=WIDE)
        press = button("Make my sheet", "A lab with numbers of my own, and what I can do alone")
        super().__init__([[self.student, self.missed]], press, self.make, below=[self.shown])

    def make(self):
        """Draw the lab and put its sheet there. Raises StudentError."""
        self.shown.value = ""
        typed = self.student.value.strip() or whose.student()
        lab = make_up(typed, self.missed.value, word=exercise_values.values().word)
        order = " and ".join(f"{pieces} {name}" for name, pieces in lab.order.items())
        self.say(f"For {lab.student}: {order}, {100 * lab.rejects:g} % rejects, fetched at {clock(lab.fetched)}.")
        body = part("sheet", title="Make-up lab", body=Markup(sheets_html([lab])))
        data = base64.b64encode(str(body).encode()).decode("ascii")
        self.shown.value = str(
            part("export", data=data, name="make-up.html", kind="text/html", words="My sheet, to print")
        )
