"""One's own order in one's own lab: typed in words, planned, printed, kept; and planned again when it runs late."""

import base64
import csv
import io

import ipywidgets as widgets
from markupsafe import Markup

from pastrylab.course.labday.late import Late
from pastrylab.course.labday.planned import lab, mould_counts, planned
from pastrylab.ground.units import Number, StudentError
from pastrylab.page.boxes import WIDE, TypedArea, answer_box, button, field
from pastrylab.page.form import Form
from pastrylab.page.formula.tab import table_html
from pastrylab.page.keeper import Keeper, Thing
from pastrylab.page.lab_day.left_over import left_over_words
from pastrylab.page.lab_day.sheets import lab_day_html, requisition_html
from pastrylab.page.lab_day.shown import PlanShown
from pastrylab.page.lab_day.timeline import work_of
from pastrylab.page.parts import part
from pastrylab.trade.orders import kitchen, read_rejects, read_sheet, requisition, table, wait_table
from pastrylab.trade.orders.day import MACHINE
from pastrylab.trade.orders.hours import read_hours, written
from pastrylab.trade.planning import AIMS

_PER_LINE = ("5 boxes of 12 {}", "{}; 4 dozen", "70 {}")
_BOXES = {  # what each is called, and an example of what goes into it
    "pairs": ("Pairs at work", "8"),
    "stations": ("Stations", "12"),
    "machines": ("Tempering machines", "2"),
    "rejects": ("Rejects", "10 %, or 2 in 25"),
    "left": ("Left over", "300 g hazelnut praline"),
    "hours": ("Open", "8:00-12:30; next day 8:00-12:30"),
}
_LONGEST = 20_000  # characters of an order


class OwnDay(Form):
    """An order and a lab in boxes, one button, and what comes of it. It opens with the Kitchen of the sheets, or another."""

    def __init__(self, order="", hours="", there=None):
        self._kitchen = there = kitchen() if there is None else there
        self.order = TypedArea(description="The order", rows=5, **field("520px"))
        self.boxes = {name: answer_box(label, example) for name, (label, example) in _BOXES.items()}
        self.moulds = {name: answer_box(f"Moulds, {name}", "8") for name in mould_counts(there)}
        self.aim = widgets.Dropdown(options=list(AIMS), description="Plan for the", **field("300px"))
        self._opens = _opening(order, hours, there)
        for name, text in self._opens.items():
            self._box(name).value = text
        self.press = button("Plan it", "Moulds, shopping and the day of this order")
        self.shown, self.papers, self.late = PlanShown(), widgets.HTML(layout=WIDE), Late()
        self._made = None, ""
        box = self.boxes
        rows = [[self.order], [box["left"]], [box["hours"]], [box["pairs"], box["stations"], box["machines"]]]
        rows += [[*self.moulds.values()], [box["rejects"], self.aim]]
        typed = [self.order, *box.values(), *self.moulds.values()]
        self.keeper = Keeper("orders", "order", self._thing, self._opened, typed)
        super().__init__(rows, self.press, self.plan, [self.shown, self.papers, self.late, self.keeper])

    def _box(self, name):
        return self.order if name == "order" else self.boxes.get(name) or self.moulds[name]

    def _whole(self, name, least):
        label, text = self._box(name).description, self._box(name).value
        number = Number(at_least=least, at_most=1000, example="8").floats(f"'{label}'", text)
        if number != int(number):
            raise StudentError(f"{text.strip()} for '{label}'", "a whole number", "8")
        return int(number)

    def _stations(self):
        """How many stations there are, 0 where pairs have no place of their own."""
        return self._whole("stations", 1) if self.boxes["stations"].value.strip() else 0

    def read(self):
        """(Sheet, rejects, Lab) of the boxes. Raises StudentError for what cannot be read."""
        if len(self.order.value) > _LONGEST:
            raise StudentError("a very long order", "a line a flavour", "60 dark ganache")
        left = self.boxes["left"].value.strip()
        order = self.order.value + (f"\nleft over: {left}" if left else "")
        sheet, rejects = read_sheet(order, self._kitchen.flavours), read_rejects(self.boxes["rejects"].value)
        moulds = {name: self._whole(name, 0) for name in self.moulds}
        hours = read_hours(self.boxes["hours"].value)
        pairs, machines = self._whole("pairs", 1), self._whole("machines", 1)
        return sheet, rejects, lab(pairs, machines, moulds, hours, self._stations(), self._kitchen.lab)

    def plan(self):
        """Read the boxes, plan, and show it all."""
        self.shown.clear()
        self.papers.value = ""
        self.late.forget()
        sheet, rejects, there = self.read()
        order, brought = sheet.together()
        day = planned(order, rejects, there, self.aim.value, self._kitchen.flavours, brought)
        self.say([*_read(sheet), *_taken(day.found), *left_over_words(day.found)])
        self.shown.show(day.plan)
        if self._made[0] is not day:
            self._made = day, _papers(day, sheet)
        self.papers.value = self._made[1]
        if day.fits:
            self.late.wait(day)

    # --- kept for another day ---------------------------------------------------------------------------------------

    def _thing(self):
        """What is kept: the boxes as they are typed. Raises StudentError for what cannot be read."""
        typed = {name: self._box(name).value.strip() for name in self._opens}
        if typed == self._opens:
            raise StudentError("the order this page opens with", "an order or a lab of your own", "48 dark ganache")
        self.read()
        out = io.StringIO()
        csv.writer(out, lineterminator="\n").writerows([*typed.items(), ("aim", self.aim.value)])
        return Thing(out.getvalue())

    def _opened(self, _name, thing):
        """Put a kept order back into the boxes, and plan it."""
        held = {line[0].strip(): line[1].strip() for line in csv.reader(io.StringIO(thing.text)) if len(line) == 2}
        if "order" not in held:
            raise StudentError(
                "a file that holds no order", "one that this bench has kept", "another one from the list"
            )
        for name in self._opens:
            self._box(name).value = held.get(name, self._opens[name])  # a box there was none of when it was kept
        self.aim.value = held.get("aim") if held.get("aim") in AIMS else next(iter(AIMS))
        self.act()


def _opening(order, hours, there):
    """What stands in each box as the bench opens in a Kitchen."""
    lab = there.lab
    return {
        "order": order or _order(there),
        "pairs": str(lab.teams),
        "stations": str(len(lab.stations) or ""),
        "machines": str(lab.machines.get(MACHINE, 1)),
        "rejects": "10 %",
        "left": "",
        "hours": hours or written(lab.hours),
    } | {name: str(count) for name, count in mould_counts(there).items()}


def _order(there):
    """An order as people write one, of the first three flavours of a Kitchen."""
    names = list(there.flavours)[: len(_PER_LINE)]
    return "\n".join(line.format(name) for line, name in zip(_PER_LINE, names, strict=False))


def _read(sheet):
    """How an order was read, where that is not plain to see."""
    if len(sheet.sections) > 1:
        names = ", ".join(one.name or "the first lines" for one in sheet.sections)
        yield f"{len(sheet.sections)} sections ({names}) are added up here and planned as one day."
    for note in sheet.notes:
        yield f"On the order: {note}"


def _taken(found):
    """What an order takes, a sentence a flavour."""
    for one in found.flavours:
        allergens = ", ".join(sorted(one.allergens)) or "none of the nine of US law, by its ingredients"
        yield (
            f"{one.name}: {one.pieces} good pieces are {one.fills} fills of {one.mould}, {one.cast} pieces cast. "
            f"Allergens: {allergens}."
        )


def _papers(day, sheet):
    """The requisition, and all there is to print and to buy by, as links."""
    rows = table(requisition([day.found.ingredients]))
    made = ", ".join(f"{one.pieces} {one.name}" for one in day.found.flavours)
    page = requisition_html("Requisition", [day.found], sections=[f"{made}."])
    links = _link("requisition.csv", _as_csv(rows), "text/csv", "The requisition for a spreadsheet")
    links += _link("requisition.html", _page("Requisition", page), "text/html", "The requisition, to print")
    if day.fits:
        title = f"{sheet.title or 'Lab day'}: {made}"
        page = _page(title, lab_day_html(title, day.found, day.plan, notes=sheet.notes))
        links += _link("plan.csv", _as_csv(work_of(day.plan)), "text/csv", "Who does what, for a spreadsheet")
        links += _link("day.html", page, "text/html", "Timelines and a bench sheet for each pair, to print")
    ahead = wait_table(day.plan) if day.fits else ()
    swaps = table_html("Made ahead: a swap for every wait", ahead[0], ahead[1:]) if ahead else ""
    return table_html("To fetch and to buy", rows[0], rows[1:]) + swaps + links


def _page(title, body):
    return str(part("sheet", title=title, body=Markup(body)))


def _as_csv(rows):
    out = io.StringIO()
    csv.writer(out).writerows(rows)
    return f"\ufeff{out.getvalue()}"


def _link(name, text, kind, words):
    data = base64.b64encode(text.encode()).decode("ascii")
    return str(part("export", data=data, name=name, kind=kind, words=words))
