"""What the formula in force costs, with one's own packs, work and packaging: a cost card, kept and printed."""

import re
from dataclasses import replace

import ipywidgets as widgets

from pastrylab.ground import datasets, kitchen, own
from pastrylab.ground.currencies import CURRENCIES
from pastrylab.ground.price_rows import price_at_fault
from pastrylab.ground.units import Quantity, StudentError
from pastrylab.page.bench import guarded
from pastrylab.page.blanks import Blank, in_currency
from pastrylab.page.boxes import WIDE, TypedArea, TypedBox, button, field, on_enter, once_in, row
from pastrylab.page.cost_sheet import BOXES, box_packaging, cost_card
from pastrylab.page.formula.tab import FormulaTab, weight
from pastrylab.page.keeper import Keeper, Thing
from pastrylab.page.parts import left_out_html, part, text_html
from pastrylab.trade import purchasing
from pastrylab.trade.costing.kitchen import kitchen_currency, prices_left_out
from pastrylab.trade.purchasing.own_price import row_of_pack
from pastrylab.trade.purchasing.typed_pack import PACK, PACKAGING, read_pack, read_packaging

_BLANKS = {
    "pieces": Blank("Pieces made", "60", "piece", "60"),
    "rejects": Blank("Rejects", "0", "piece", "4"),
    "minutes": Blank("Work on the batch (minutes)", "60", "min", "90, or 1 h 30 min"),
    "wage": Blank("Wage, an hour", "18", "", "18.50"),
    "on_costs": Blank("Paid on top of the wage (%)", "0", "%", "12 %"),
    "overhead_share": Blank("Overhead (%)", "10", "%", "10 %"),
    "box": Blank("Pieces in a box", "6", "piece", "6"),
    "food_share": Blank("Food cost (% of the price)", "30", "%", "30 %"),
    "tax": Blank("Sales tax or VAT (%)", "0", "%", "8 %"),
}
_COMMON = ("USD", "EUR", "GBP", "CAD", "AUD", "CHF")
_SHELF = "cost-cards"
_PRICES = (
    "What does a pack cost you? Type what it holds and its price: 2.5 kg for 41.50, or $4.99 a quart. Where a box stays "
    "empty, the price shown in it counts; it comes from the price list, which is invented unless it is yours."
)
_MORE = (
    "Behind a pack, after a semicolon: the usable share (1 kg for 4.00; 40 %), the density of what is bought by volume "
    "(1 quart for 5.80; 1.03 g/mL), or what one piece weighs (12 for 3.00; 18 g each). Prices are before sales tax or VAT."
)


class CostTab(FormulaTab):
    """A cost card of the formula in force."""

    title = "Cost"

    def __init__(self, keep=None):
        cell = field("330px")
        codes = [*_COMMON, *sorted(CURRENCIES - set(_COMMON))]
        self.currency = widgets.Dropdown(options=codes, value=kitchen_currency(), description="Money in", **cell)
        self.packs, self._typed = {}, {}
        self.prices = widgets.Box(layout=widgets.Layout(display="flex", flex_flow="row wrap", width="100%"))
        self.blanks = {
            name: TypedBox(value=blank.value, description=blank.label, **cell) for name, blank in _BLANKS.items()
        }
        self.packaging = TypedArea(
            description="Packaging of one box",
            placeholder=f"box; 0.80\n{PACKAGING}\nleave empty for that of the price list, or write: none",
            rows=3,
            **field("640px"),
        )
        self.press = button("Cost it", "Make the cost card")
        self.save = button("Save a page to print", "Write the card as a page beside your formulas")
        self.mine = button("Keep my packs", "Keep the packs typed above as my prices, for every card to come")
        self.card = widgets.HTML(layout=WIDE)
        typed = [*self.blanks.values(), self.packaging]
        self.keeper = Keeper(_SHELF, "cost card", self._thing, self._put, typed, "costs")
        asked, more = (widgets.HTML(part(look, text=text), layout=WIDE) for look, text in _TEXTS)
        self.left_out = widgets.HTML(layout=WIDE)
        above = [self.currency, asked, self.prices, self.left_out, more, row(*self.blanks.values()), self.packaging]
        super().__init__([*above, row(self.press, self.save, self.mine)], [self.card, self.keeper], keep)
        self._connect(typed)

    def _connect(self, typed):
        said = guarded(self.said)
        self.press.on_click(lambda _button: once_in([*typed, *self.packs.values()], self.with_formula(self.cost)))
        named = [*typed, self.keeper.name]
        self.save.on_click(lambda _button: once_in([*named, *self.packs.values()], self.with_formula(self.write_page)))
        self.mine.on_click(lambda _button: once_in(list(self.packs.values()), self.with_formula(self.keep_packs)))
        for box in self.blanks.values():
            on_enter(box, self.with_formula(self.cost))
        self.currency.observe(said(lambda _change: self._price_boxes()), "value")

    def renew(self, formula):
        self._remember()
        self._price_boxes()
        self.card.value = ""

    # --- prices ---------------------------------------------------------------------------------------------------

    def _listed(self):
        """{ingredient: Pack} of the price list, those in the card's currency alone."""
        return purchasing.price_list(datasets.prices().where(currency=self.currency.value))

    def _remember(self):
        self._typed |= {name: box.value for name, box in self.packs.items()}

    def _price_boxes(self):
        """A box for each ingredient of the formula; those without a price come first and say so."""
        if self.formula is None:
            return
        self._remember()
        listed = self._listed()
        names = sorted(self.formula.grams, key=lambda name: name in listed)
        self.packs = {name: self._price_box(name, listed.get(name)) for name in names}
        self.prices.children = list(self.packs.values())
        faults = filter(None, (price_at_fault(name) for name in names if name not in listed))
        self.left_out.value = left_out_html(dict.fromkeys([*prices_left_out(), *faults]))

    def _price_box(self, name, pack):
        none = "its row is at fault, see below" if price_at_fault(name) else f"no price yet: {PACK}"
        listed = f"{_held(pack)} for {pack.price}" if pack else none
        label = name if pack else f"{name} (?)"
        box = TypedBox(description=label, placeholder=listed, value=self._typed.get(name, ""), **field("330px"))
        on_enter(box, self.with_formula(self.cost))
        return box

    def _bought(self):
        """{ingredient: Pack} for the formula: what is typed, else the price list. StudentError names all that is missing."""
        listed, found, missing = self._listed(), {}, []
        for name, box in self.packs.items():
            if box.value.strip():
                found[name] = self._read(box.value, name)
            elif name in listed:
                found[name] = listed[name]
            else:
                missing.append(name)
        if missing:
            at_fault = {fault.given: True for name in missing if (fault := price_at_fault(name))}
            given = f"no price for {', '.join(missing)}" + ("" if listed else f" in {self.currency.value}")
            given += f" (left out: {'; '.join(at_fault)})" if at_fault else ""
            raise StudentError(given, "what a pack holds and costs, in the boxes marked (?)", PACK)
        return found

    def _read(self, text, name):
        try:
            pack = read_pack(text, name)
            price = in_currency(pack.price, self.currency.value, name)
        except StudentError as error:
            where = error.given if name in error.given else f"{error.given} for {name}"
            raise StudentError(where, error.needed + self._switch(error), error.example) from None
        return replace(pack, price=price)

    def _switch(self, error):
        return ", or another currency under 'Money in'" if "an amount in" in error.needed else ""

    def keep_packs(self):
        """Put the packs that are typed among the reader's own prices, where every card finds them."""
        typed = {name: box.value for name, box in self.packs.items() if box.value.strip()}
        if not typed:
            raise StudentError("no pack to keep", "a pack in one of the boxes above", PACK)
        if self.currency.value != kitchen_currency():
            why = f"packs in {self.currency.value}, and the price list is in {kitchen_currency()}"
            raise StudentError(why, "the card kept by its name below: its packs are kept with it", "Keep")
        held = {row.cells["ingredient"]: row.name for row in own.rows("prices").rows if row.mine}
        rows = [
            row_of_pack(self._read(text, name), name, held.get(name, f"{name}, my pack"))
            for name, text in typed.items()
        ]
        for one in rows:
            own.add("prices", one)
        for name in typed:
            self.packs[name].value = self._typed[name] = ""
        self._price_boxes()
        self.say(f"Kept among your prices: {', '.join(typed)}. They count in every card from now on.", "good")

    # --- the card -------------------------------------------------------------------------------------------------

    def sheet(self):
        """The card for what the boxes hold now. Raises StudentError."""
        n = {name: _BLANKS[name].read(box.value) for name, box in self.blanks.items()}
        n["wage"] = in_currency(n["wage"], self.currency.value, _BLANKS["wage"].name)
        n["box"] = _whole(n["box"], _BLANKS["box"])
        if n["box"] > n["pieces"] - n["rejects"]:
            given = f"a box of {n['box']} out of {n['pieces'] - n['rejects']:g} good pieces"
            raise StudentError(given, "a batch that fills one box at least", f"{10 * n['box']} pieces made")
        formula = {name: Quantity(grams, "g") for name, grams in self.formula.grams.items()}
        packaging = self._packaging(n["box"])
        return cost_card(self._name(), formula, self._bought(), packaging=packaging, **n)

    def _packaging(self, box):
        """{what: cost} of a box: what is typed, else out of the price list. Raises StudentError."""
        if self.packaging.value.strip():
            lines = read_packaging(self.packaging.value)
            return {what: in_currency(cost, self.currency.value, what) for what, cost in lines.items()}
        listed = self._listed()
        if box not in BOXES or not listed:
            why = f"packaging for a box of {box}" if listed else f"packaging in {self.currency.value}"
            raise StudentError(f"no {why} of your own", "what one box needs, a line each, or 'none'", PACKAGING)
        return box_packaging(listed, box)

    def _name(self):
        return kitchen.thing_named(self.keeper.name.value)

    def cost(self):
        """Show the card, and what each piece weighs; what cannot be costed is said in its place."""
        self.card.value = ""
        self.say("")
        sheet = self.sheet()
        pieces = _BLANKS["pieces"].read(self.blanks["pieces"].value)
        each = f"{weight(self.formula.total_grams)} in {pieces:g} pieces is {weight(self.formula.total_grams / pieces)} each."
        self.card.value = text_html(" ".join(each.split()), "note") + str(sheet)

    def write_page(self):
        """Write the card as a page of its own, under the name it is kept by."""
        self.cost()
        path = kitchen.put(_SHELF, self._name(), self.sheet().page(), "html")
        self.say(
            f"Saved as {kitchen.FOLDER_NAME}/{path.parent.name}/{path.name}. Open it from the list of files on the left, or in "
            "your browser, and print.",
            "good",
        )

    # --- kept -----------------------------------------------------------------------------------------------------

    def _thing(self):
        """What stands in the boxes, to be kept: the packaging as the text, the rest by the labels of its boxes."""
        self._remember()
        boxes = {blank.label: self.blanks[name].value for name, blank in _BLANKS.items()}
        packs = {f"pack of {name}": text for name, text in self._typed.items() if text.strip()}
        return Thing(self.packaging.value, {"Money in": self.currency.value, **boxes, **packs})

    def _put(self, _name, thing):
        """Put what was kept back into the boxes."""
        kept = thing.settings
        self.packaging.value = thing.text
        for name, blank in _BLANKS.items():
            self.blanks[name].value = kept.get(blank.label, blank.value)
        self.packs = {}
        self._typed |= {key.removeprefix("pack of "): text for key, text in kept.items() if key.startswith("pack of ")}
        if kept.get("Money in") in CURRENCIES:
            self.currency.value = kept["Money in"]
        self._price_boxes()
        self.card.value = ""


_TEXTS = (("asked", _PRICES), ("legend", _MORE))


def _whole(number, blank):
    if number != int(number) or number < 1:
        raise StudentError(f"{number:g} for {blank.name}", "a whole number of pieces", blank.example)
    return int(number)


def _held(pack):
    """What a pack holds, short."""
    unit = {"mass": " kg", "volume": " L", "count": " pieces"}[pack.kind]
    return re.sub(r"\.?0+$", "", f"{pack.size:.3f}") + unit
