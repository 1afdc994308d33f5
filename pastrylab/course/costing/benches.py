"""Benches of lesson 08: price and break-even, a discount, what moves a cost, and the cost card that prints."""

import re
from dataclasses import replace
from decimal import Decimal

import ipywidgets as widgets

from pastrylab.course.costing.figures import BreakEven, CostParts, Discount, WhatMoves
from pastrylab.ground import datasets
from pastrylab.ground.money import Money, common_currency, money
from pastrylab.ground.units import StudentError
from pastrylab.page.bench import Bench, Control, Plain, guarded
from pastrylab.page.blanks import Blank, in_currency
from pastrylab.page.boxes import WIDE, TypedArea, TypedBox, field, on_press, row
from pastrylab.page.cards import GuessCard
from pastrylab.page.cost_sheet import BOXES, box_packaging, cost_card
from pastrylab.page.guess import Asked
from pastrylab.page.keeper import Keeper, Thing
from pastrylab.page.parts import left_out_html, part, picture_html, text_html
from pastrylab.page.pictured import Pictured
from pastrylab.school import answers
from pastrylab.trade import purchasing
from pastrylab.trade.costing.kitchen import bonbon_formula, bonbon_names, cash, kitchen_currency, prices_left_out

_LESSON = "08"
_OWN = "my own receipt, typed below"


def _bench(figure, controls, legend, choices=(), guess=None):
    bench = Bench(figure, controls, legend, choices, guess)
    # Nothing here is weighed: the switch between metric and US would change nothing.
    bench.system.layout.display = "none"
    return bench


def guess_promotion():
    """The guess before the discount bench."""
    return GuessCard(
        _LESSON,
        "promotion",
        f"A box sells at {cash(12)}; making it costs {cash(7.2)}. You take 20 % off. By how many per cent must the "
        "number of boxes rise so that as much is left for the rent as before?",
        "25 %",
    )


def price_bench():
    """A price from a food-cost percent, and the boxes that pay the fixed costs at that price."""
    code = kitchen_currency()
    controls = (
        Plain("food", "Ingredients of a box", code, 1, 12, 0.1, 4.8),
        Control("share", "Food cost, of the price", "", 15, 80, 1, 32),
        Plain("other", "Work and packaging", code, 0, 12, 0.1, 5.2),
        Plain("fixed", "Fixed costs, a week", code, 0, 2000, 10, 300),
        Plain("sold", "You sell, a week", "boxes", 0, 400, 1, 75),
    )
    legend = (
        "Above: ring on dashed lines, your price. Below: blue line, takings; red dashed line, all costs; red hatched, "
        "not yet paid; ring, break-even; dotted line, the boxes you sell. Prices are before sales tax or VAT."
    )
    return _bench(BreakEven(), controls, legend)


def promotion_bench():
    """What a discount does to what is left, and how many boxes would make up for it."""
    code = kitchen_currency()
    controls = (
        Plain("price", "Price of a box", code, 4, 40, 0.5, 12),
        Plain("variable", "Making one box costs", code, 1, 30, 0.1, 7.2),
        Control("off", "Discount", "", 0, 60, 1, 20),
        Plain("now", "Sold today", "boxes", 5, 300, 5, 40),
        Plain("more", "Expected with it", "boxes", 5, 900, 5, 60),
    )
    legend = (
        "Blue line: how many boxes a discount needs so that as much is left as today. Dashed line: the boxes you expect. "
        "Ring: your promotion; below the blue line it leaves less than today. Red hatched: the price is below the cost."
    )
    return _bench(Discount(), controls, legend, guess=Asked(_LESSON, "promotion", "percent", "the promotion"))


def cost_bench():
    """Ranked bars: what moves the cost of a piece most."""
    code = kitchen_currency()
    controls = (
        Plain("wage", "Wage", f"{code} an hour", 0, 60, 0.5, 18),
        Control("on_costs", "Paid on top of the wage", "", 0, 60, 1, 0),
        Plain("minutes", "Work on it", "minutes", 5, 480, 5, 90),
        Plain("rejects", "Rejects of 96", "pieces", 0, 40, 1, 4),
        Control("unsure", "Unsure of wage, time by", "", 0, 50, 5, 20),
    )
    legend = (
        "Each bar moves one number alone, from its low to its high end, and leaves the others where they are. Yellow "
        "hatched: cheaper than today. Blue: dearer. The line between them: today. The longest bar is worth your time."
    )
    return _bench(WhatMoves(), controls, legend, (("bonbon", "Bonbon", bonbon_names()),))


# --- the cost card, filled in --------------------------------------------------------------------------------------------


_BLANKS = {
    "pieces": Blank("Pieces made", "96", "piece", "96"),
    "rejects": Blank("Rejects", "4", "piece", "4"),
    "minutes": Blank("Work on the batch (minutes)", "90", "min", "90, or 1 h 30 min"),
    "wage": Blank("Wage, an hour", "18", "", "18.50"),
    "on_costs": Blank("Paid on top of the wage (%)", "0", "%", "12 %"),
    "overhead_share": Blank("Overhead (%)", "10", "%", "10 %"),
    "food_share": Blank("Food cost (% of the price)", "30", "%", "30 %"),
    "tax": Blank("Sales tax or VAT (%)", "0", "%", "8 %"),
}


_PARTS_LEGEND = (
    "Blue: ingredients, as used. Yellow hatched: work, with what is paid on top. Grey: overhead. Dotted: packaging. The "
    "longest bar is the one to look at first."
)


class CardBench(widgets.VBox):
    """A cost card to fill in: a bonbon of the kitchen or your own receipt, live, with a page to print."""

    def __init__(self):
        cell = field("330px")
        self.source = widgets.Dropdown(options=[*bonbon_names(), _OWN], description="Cost of", **cell)
        self.box = widgets.Dropdown(options=list(BOXES), description="Box of", **cell)
        self.blanks = {
            key: TypedBox(value=blank.value, description=blank.label, **cell) for key, blank in _BLANKS.items()
        }
        self.packaging = TypedBox(description="Packaging of a box", placeholder="as in the price list", **cell)
        self.receipt = TypedArea(
            description="Receipt",
            placeholder="item; pack; price; used; usable share\nlemons; 1 kg; 4.00; 120 g; 40 %",
            rows=5,
            **field("640px"),
        )
        self.show = widgets.Button(description="Cost it", layout=widgets.Layout(width="auto", min_width="120px"))
        self.save = widgets.Button(
            description="Save a page to print", layout=widgets.Layout(width="auto", min_width="180px")
        )
        self.said, self.card, self.left_out = (widgets.HTML(layout=WIDE) for _ in range(3))
        typed = [*self.blanks.values(), self.packaging, self.receipt]
        self.keeper = Keeper("receipts", "receipt", self._thing, self._opened, typed)
        self.parts, self._opening = CostParts(), False
        self.picture = Pictured(self.parts, guarded(self.said)(self.refresh))
        self._connect()
        note = widgets.HTML(part("receipt"), layout=WIDE)
        panel = row(self.source, self.box, *self.blanks.values(), self.packaging)
        buttons = row(self.show, self.save)
        legend = widgets.HTML(part("legend", text=_PARTS_LEGEND), layout=WIDE)
        shown = (self.said, self.card, self.left_out, self.picture, legend)
        super().__init__([panel, self.receipt, note, buttons, self.keeper, *shown], layout=WIDE)
        guarded(self.said)(self.refresh)()

    def _connect(self):
        see, typed = guarded(self.said)(self.refresh), [*self.blanks.values(), self.packaging]
        for control in (self.source, self.box, *typed):
            control.observe(lambda _change: None if self._opening else see(), "value")
        on_press(self.show, [*typed, self.receipt], see)
        on_press(self.save, [*typed, self.receipt, self.keeper.name], guarded(self.said)(self.save_page))

    def sheet(self):
        """The card for what the boxes hold now. Raises StudentError."""
        packs = purchasing.price_list(datasets.prices())
        n = {key: _BLANKS[key].read(box.value) for key, box in self.blanks.items()}
        if self.source.value == _OWN:
            formula, mine = purchasing.read_receipt(self.receipt.value)
            # A receipt that names no currency is in that of the price list, where the packaging comes from.
            code = common_currency(*(pack.price for pack in mine.values())) or kitchen_currency()
            mine = {name: replace(pack, price=Money(pack.price.amount, code)) for name, pack in mine.items()}
            title = " ".join(self.keeper.name.value.split()) or "my own receipt"
        else:
            (formula, made), mine, code = bonbon_formula(self.source.value), packs, kitchen_currency()
            formula, title = {name: mass * (n["pieces"] / made) for name, mass in formula.items()}, self.source.value
        n["wage"] = in_currency(n["wage"], code, _BLANKS["wage"].name)
        return cost_card(title, formula, mine, box=self.box.value, packaging=self._packaging(packs, code), **n)

    def _packaging(self, packs, code):
        """{what: cost} of a box: what is typed, else out of the price list. Raises StudentError."""
        if self.packaging.value.strip():
            cost = money(self.packaging.value, "'Packaging of a box'")
            return {"packaging": in_currency(cost, code, "'Packaging of a box'")}
        if code != kitchen_currency():
            raise StudentError(
                f"a receipt in {code}, and the kitchen's packaging is in {kitchen_currency()}",
                f"what the packaging of a box costs you in {code}, in the box 'Packaging of a box'",
                str(Money(Decimal("1.40"), code)),
            )
        return box_packaging(packs, self.box.value)

    def refresh(self):
        """Show the card and its picture; what cannot be costed is said in their place."""
        self.card.value = self.said.value = self.picture.value = ""
        self.left_out.value = left_out_html(prices_left_out())
        sheet = self.sheet()
        self.card.value = str(sheet)
        self.parts.update(costed=sheet.costed, box=self.box.value)
        self.picture.value = picture_html(self.parts)

    def _thing(self):
        """The Thing to keep: the receipt as it was typed, and every other box."""
        if self.source.value == _OWN and not self.receipt.value.strip():
            raise StudentError("an empty receipt", "a line for each item", "lemons; 1 kg; 4.00; 120 g; 40 %")
        boxes = {name: box.value for name, box in (*self.blanks.items(), ("packaging", self.packaging))}
        return Thing(self.receipt.value, {"source": self.source.value, "box": str(self.box.value), **boxes})

    def _opened(self, _name, thing):
        """Put a kept receipt onto the page; a file without settings is a receipt, costed with the boxes as they stand."""
        held, self._opening = thing.settings, True
        source, box = held.get("source", _OWN), held.get("box", "")
        self.receipt.value = thing.text
        self.source.value = source if source in self.source.options else _OWN
        self.box.value = int(box) if box in map(str, BOXES) else self.box.value
        for name, blank in (*self.blanks.items(), ("packaging", self.packaging)):
            blank.value = held.get(name, blank.value)
        self._opening = False
        guarded(self.said)(self.refresh)()

    def save_page(self):
        """Write the card as a page of its own beside the answers, under the name of what was costed."""
        self.refresh()
        own = self.source.value == _OWN and self.keeper.name.value.strip()
        name = re.sub(r"[^\w-]+", "-", own or self.source.value.split(",")[0]).strip("-")
        path = answers.folder() / f"cost-card-{name}.html"
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(self.sheet().page(), encoding="utf-8")
        except OSError as error:
            raise StudentError(
                f"no room for {path.name}: {path.parent} cannot be written to ({error.strerror or error})",
                "room on the disk, or a workbook in a folder of your own",
            ) from None
        self.said.value = text_html(
            f"Saved as {path.parent.name}/{path.name}. Open it from the list of files on the left, or in your browser, and print."
        )


def card_bench():
    """The cost card to fill in."""
    return CardBench()
