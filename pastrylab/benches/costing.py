"""Benches of lesson 08: price and break-even, a discount, what moves a cost, and the cost card that prints."""

import html
from dataclasses import replace

import ipywidgets as widgets

from pastrylab import costing, datasets, pantry, purchasing
from pastrylab.benches.cards import GuessCard
from pastrylab.benches.engine import _STYLES, _TABLE_BOX, _WIDE, Bench, Control, Plain, field, guarded, text_html
from pastrylab.exercises import answers
from pastrylab.figures.costing import BreakEven, Discount, WhatMoves, bonbon_formula, cash
from pastrylab.money import Money
from pastrylab.units import Q, StudentError, both

_LESSON = "08"
_OWN = "my own receipt, typed below"
_BOXES = {6: "boxes for 6, bundle", 12: "boxes for 12, bundle", 24: "boxes for 24, bundle"}


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
    code = cash(0).currency
    controls = (
        Plain("food", "Ingredients of a box", code, 1, 12, 0.1, 4.2),
        Control("share", "Food cost, of the price", "", 15, 80, 1, 30),
        Plain("other", "Work and packaging", code, 0, 12, 0.1, 4.8),
        Plain("fixed", "Fixed costs, a week", code, 0, 2000, 10, 270),
        Plain("sold", "You sell, a week", "boxes", 0, 400, 1, 70),
    )
    legend = (
        "Above: ring on dashed lines, your price. Below: blue line, takings; red dashed line, all costs; red hatched, "
        "not yet paid; ring, break-even; dotted line, the boxes you sell."
    )
    return _bench(BreakEven(), controls, legend)


def promotion_bench():
    """What a discount does to what is left, and how many boxes would make up for it."""
    code = cash(0).currency
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
    return _bench(Discount(), controls, legend, guess=(_LESSON, f"{_LESSON}.guess.promotion"))


def cost_bench():
    """Ranked bars: what moves the cost of a piece most."""
    code = cash(0).currency
    controls = (
        Plain("wage", "Wage", f"{code} an hour", 0, 60, 0.5, 18),
        Plain("minutes", "Work on it", "minutes", 5, 480, 5, 90),
        Plain("rejects", "Rejects of 96", "pieces", 0, 40, 1, 4),
        Control("unsure", "Unsure of wage, time by", "", 0, 50, 5, 20),
    )
    legend = (
        "Each bar moves one number alone, from its low to its high end, and leaves the others where they are. Yellow "
        "hatched: cheaper than today. Blue: dearer. The line between them: today. The longest bar is worth your time."
    )
    bonbons = list(dict.fromkeys(datasets.bonbons()["bonbon"]))
    return _bench(WhatMoves(), controls, legend, (("bonbon", "Bonbon", bonbons),))


# --- the cost card ------------------------------------------------------------------------------------------------

_SHEET = """
@page { size: auto; margin: 14mm }
.cost-card { font: 13px/1.35 sans-serif; color: #111; background: #fff; max-width: 178mm; padding: 4px 8px }
.cost-card h1 { font-size: 20px; margin: 0 0 2px }
.cost-card h2 { font-size: 14px; margin: 12px 0 2px }
.cost-card p { margin: 2px 0 }
.cost-card table { border-collapse: collapse; width: 100%; font-size: 13px }
.cost-card th, .cost-card td { text-align: right; padding: 1px 6px; border-bottom: 1px solid #bbb; background: #fff; color: #111 }
.cost-card th:first-child, .cost-card td:first-child { text-align: left }
.cost-card tr.sum td { font-weight: 600; border-top: 2px solid #111 }
"""


class Sheet(str):
    """A piece of HTML that shows itself in a notebook; `page()` is the same as a whole document to print."""

    def _repr_html_(self):
        return str(self)

    def page(self, title="Cost card"):
        """The sheet as an HTML document of its own, for a browser to print."""
        return (
            f'<!doctype html><html lang="en"><head><meta charset="utf-8"><title>{html.escape(title)}</title></head>'
            f'<body style="margin:0">{self}</body></html>'
        )


def _table(caption, heads, rows, total=None):
    def cells(row, tag="td"):
        scope = ' scope="col"' if tag == "th" else ""
        return "".join(f"<{tag}{scope}>{html.escape(str(c))}</{tag}>" for c in row)

    body = "".join(f"<tr>{cells(row)}</tr>" for row in rows)
    last = f'<tr class="sum">{cells(total)}</tr>' if total else ""
    table = f"<table><thead><tr>{cells(heads, 'th')}</tr></thead><tbody>{body}{last}</tbody></table>"
    return f'<h2>{html.escape(caption)}</h2><div style="{_TABLE_BOX}">{table}</div>'


def _allergens(names):
    known, unknown = [], []
    for name in names:
        try:
            known += pantry.facts()["allergens_us"][pantry.ingredient_name(name)]
        except StudentError:
            unknown.append(name)
    said = f"Contains: {', '.join(dict.fromkeys(known))}. " if known else ""
    if not known and not unknown:
        said = "By its ingredients none of the nine allergens of US law. "
    if unknown:
        said += f"Not known here, read their packs: {', '.join(unknown)}. "
    return said + "Traces and the supplier's labels are yours to add; they and local law decide what the label says."


def box_packaging(packs, box):
    """{what: cost} of the packaging of one box of 6, 12 or 24, out of the price list. Raises StudentError."""
    if box not in _BOXES:
        raise StudentError(f"a box of {box}", "a box size of the price list", "6, 12 or 24")
    cost = purchasing.cost_of_use
    return {
        f"box for {box}": cost(packs[_BOXES[box]], 1),
        f"{box} cups": cost(packs["praline cups, sleeve"], box),
        "cushion pad": cost(packs["cushion pads, pack"], 1),
        "label": cost(packs["labels, roll"], 1),
    }


def cost_card(
    title, formula, packs, pieces, rejects=0, wage=0, minutes=0, box=6, packaging=None, share=0.30, overhead_share=0.1
):
    """A formula's cost card as HTML on one page: ingredients, batch, piece, box, price, allergens. Returns a Sheet.

    formula: {ingredient: edible amount}; packs: {ingredient: Pack}; wage: by the hour; minutes of work on the batch;
    packaging: {what: cost} of one box; share: food cost as a share of the price; overhead_share: of ingredients and
    work. Parts add up to the cent in every table. Raises StudentError as `costing.formula_cost` and `batch_cost` do.
    """
    used = costing.formula_cost(formula, packs)
    cents = used.to_the_cent
    work = costing.labour_cost(wage, Q(float(minutes), "min"))
    batch = costing.batch_cost(used.total, int(pieces), int(rejects), work, overhead_share=overhead_share)
    lines = [
        (
            line.ingredient,
            _amount(formula[line.ingredient]),
            f"{100 * float(_pack(packs, line.ingredient).yield_share):.0f} %",
            _as_bought(_pack(packs, line.ingredient)),
            line.packs,
            cents[line.ingredient],
        )
        for line in used.lines
    ]
    parts = batch.to_the_cent
    batch_rows = [
        ("ingredients", "from above", parts["materials"]),
        ("work", f"{minutes:g} minutes at {wage} an hour", parts["labour"]),
        ("overhead", f"{100 * overhead_share:.0f} % of ingredients and work", parts["overhead"]),
    ]
    in_box = costing.box_cost({f"{box} pieces": (box, batch.per_piece)}, packaging)
    food = used.total / batch.good_pieces * box
    price = costing.price_for(food, share).rounded_up()
    full = sum(in_box.values(), Money(0))
    left = costing.contribution(price, full)
    prices = [
        (f"price at a food cost of {100 * share:.0f} %", f"{food.rounded()} of ingredients", price),
        ("full cost of the box", "from above", full),
        ("left of each box", f"margin {100 * costing.margin_of(full, price):.0f} % of the price", left),
    ]
    warning = "" if left > 0 else "<p><b>Careful: at this price every box is sold below its cost.</b></p>"
    body = (
        f"<h1>Cost card: {html.escape(title)}</h1>"
        f"<p>Batch of {int(pieces)} pieces, {int(rejects)} rejects: {batch.good_pieces} good pieces carry the cost of all.</p>"
        "<p>Date: ______________ Costed by: ______________________</p>"
        + _table(
            "Ingredients of the batch",
            ("ingredient", "used", "usable", "price as purchased", "packs to buy", "cost of use"),
            lines,
            ("together", "", "", f"whole packs cost {used.buying}", "", sum(cents.values(), Money(0))),
        )
        + _table("The batch", ("what", "how", "cost"), batch_rows, ("together", "", sum(parts.values(), Money(0))))
        + f"<p>One good piece: {batch.per_piece.rounded_up()} (unrounded {batch.per_piece:.4f})</p>"
        + _table(f"The box of {box}", ("what", "cost"), list(in_box.items()), ("together", full))
        + _table("The price", ("what", "how", "amount"), prices)
        + warning
        + f"<h2>Allergens, for the label</h2><p>{html.escape(_allergens(formula))}</p>"
    )
    return Sheet(f'<style>{_SHEET}</style><div class="cost-card">{body}</div>')


def _pack(packs, name):
    return packs[name] if name in packs else packs[pantry.ingredient_name(name)]


def _amount(used):
    try:
        return both(used, 3)
    except StudentError:
        return str(used)


def _as_bought(pack):
    if pack.kind == "count":
        return f"{pack.price} for {pack.size:f}"
    unit = {"mass": "kg", "volume": "L"}[pack.kind]
    return f"{pack.price} for {both(Q(float(pack.size), unit), 3)}"


class CardBench(widgets.VBox):
    """A cost card to fill in: a bonbon of the kitchen or your own receipt, live, with a page to print."""

    def __init__(self):
        cell = {"style": {"description_width": "initial"}, "layout": widgets.Layout(width="96%", max_width="330px")}
        names = list(dict.fromkeys(datasets.bonbons()["bonbon"]))
        self.source = widgets.Dropdown(options=[*names, _OWN], description="Cost of", **cell)
        self.box = widgets.Dropdown(options=list(_BOXES), description="Box of", **cell)
        self.numbers = {
            key: widgets.BoundedFloatText(value=value, min=low, max=high, step=step, description=label, **cell)
            for key, label, low, high, step, value in (
                ("pieces", "Pieces made", 1, 5000, 1, 96),
                ("rejects", "Rejects", 0, 4999, 1, 4),
                ("wage", f"Wage ({cash(0).currency} an hour)", 0, 200, 0.5, 18),
                ("minutes", "Work on the batch (minutes)", 0, 2000, 5, 90),
                ("share", "Food cost (% of the price)", 5, 100, 1, 30),
                ("overhead", "Overhead (% on top)", 0, 200, 1, 10),
            )
        }
        self.receipt = widgets.Textarea(
            description="Receipt",
            placeholder="item; pack; price; used; usable share\nlemons; 1 kg; 4.00; 120 g; 40 %",
            rows=5,
            **field("640px"),
        )
        self.show = widgets.Button(description="Cost it", layout=widgets.Layout(width="auto", min_width="120px"))
        self.save = widgets.Button(
            description="Save a page to print", layout=widgets.Layout(width="auto", min_width="180px")
        )
        self.said, self.card = widgets.HTML(layout=_WIDE), widgets.HTML(layout=_WIDE)
        see = guarded(self.said)(lambda _change: self.refresh())
        for control in (self.source, self.box, *self.numbers.values()):
            control.observe(see, "value")
        self.show.on_click(see)
        self.save.on_click(guarded(self.said)(lambda _b: self.keep()))
        flow = widgets.Layout(display="flex", flex_flow="row wrap", width="100%")
        note = widgets.HTML(
            f'<div style="{_STYLES["note"]}">A receipt of your own has a line for each item: item; what the pack holds; its '
            "price; what you used of it; the usable share if part of it is trim. For example: "
            "<code>lemons; 1 kg; 4.00; 120 g; 40 %</code>. Packaging comes from the kitchen's price list.</div>",
            layout=_WIDE,
        )
        panel = widgets.Box([self.source, self.box, *self.numbers.values()], layout=flow)
        buttons = widgets.Box([self.show, self.save], layout=flow)
        super().__init__([panel, self.receipt, note, buttons, self.said, self.card], layout=_WIDE)
        guarded(self.said)(self.refresh)()

    def sheet(self):
        """The card for what the boxes hold now. Raises StudentError."""
        packs = purchasing.price_list(datasets.prices())
        n = {key: box.value for key, box in self.numbers.items()}
        if self.source.value == _OWN:
            formula, mine = purchasing.read_receipt(self.receipt.value)
            # A receipt without a currency is in that of the price list, where the packaging comes from.
            mine = {name: replace(pack, price=pack.price + cash(0)) for name, pack in mine.items()}
            title = "my own receipt"
        else:
            (formula, made), mine = bonbon_formula(self.source.value), packs
            formula, title = {name: mass * (n["pieces"] / made) for name, mass in formula.items()}, self.source.value
        return cost_card(
            title,
            formula,
            mine,
            pieces=n["pieces"],
            rejects=n["rejects"],
            wage=cash(n["wage"]),
            minutes=n["minutes"],
            box=self.box.value,
            packaging=box_packaging(packs, self.box.value),
            share=n["share"] / 100,
            overhead_share=n["overhead"] / 100,
        )

    def refresh(self):
        """Show the card; what cannot be costed is said in its place."""
        self.card.value = self.said.value = ""
        self.card.value = str(self.sheet())

    def keep(self):
        """Write the card as a page of its own beside the answers."""
        self.refresh()
        path = answers.folder() / "cost-card.html"
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(self.sheet().page(), encoding="utf-8")
        self.said.value = text_html(
            f"Saved as {path.parent.name}/{path.name}. Open it from the list of files on the left, or in your browser, and print."
        )


def card_bench():
    """The cost card to fill in."""
    return CardBench()
