"""The cost card as a page: its tables in HTML, its allergens, the packaging of a box."""

import math

from markupsafe import Markup

from pastrylab.ground.money import add
from pastrylab.ground.units import Q, StudentError, both
from pastrylab.page.parts import part
from pastrylab.trade import card, pantry, purchasing

# Boxes of the price list, by the pieces they hold.
BOXES = {6: "boxes for 6, bundle", 12: "boxes for 12, bundle", 24: "boxes for 24, bundle"}


class Sheet(str):
    """A piece of HTML that shows itself in a notebook; `page()` is the same as a whole document to print.

    costed: the sums behind it, a `card.CostCard`.
    """

    costed = None

    def _repr_html_(self):
        return str(self)

    def page(self, title="Cost card"):
        """The sheet as an HTML document of its own, for a browser to print."""
        return str(part("sheet", title=title, body=Markup(self)))


def _allergens(names):
    known, unknown = [], []
    for name in names:
        try:
            known += pantry.facts()[pantry.ingredient_name(name)]["allergens_us"]
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
    if box not in BOXES:
        raise StudentError(f"a box of {box}", "a box size of the price list", "6, 12 or 24")
    cost = purchasing.cost_of_use
    return {
        f"box for {box}": cost(packs[BOXES[box]], 1),
        f"{box} cups": cost(packs["praline cups, sleeve"], box),
        "cushion pad": cost(packs["cushion pads, pack"], 1),
        "label": cost(packs["labels, roll"], 1),
    }


def cost_card(title, formula, packs, pieces, minutes=0, wage=0, box=6, food_share=0.30, overhead_share=0.1, **more):
    """A formula's cost card as HTML on one page: ingredients, batch, piece, box, price, allergens. Returns a Sheet.

    Arguments and errors as in `card.cost_card`. Parts add up to the cent in every table.
    """
    costed = card.cost_card(
        formula, packs, pieces, minutes=minutes, wage=wage, box=box, food_share=food_share,
        overhead_share=overhead_share, **more,
    )  # fmt: skip
    batch, on_top = costed.batch, more.get("on_costs", 0)
    paid = f"{minutes:g} minutes at {wage} an hour" + (f", {_percent(on_top)} on top" if on_top else "")
    batch_rows = [
        ("ingredients", "from above", costed.kinds["materials"]),
        ("work", paid, costed.kinds["labour"]),
        ("overhead", f"{_percent(overhead_share)} of ingredients and work", costed.kinds["overhead"]),
    ]
    sheet = Sheet(
        part(
            "cost_card",
            title=title,
            pieces=int(pieces),
            rejects=int(pieces) - batch.good_pieces,
            batch=batch,
            unrounded=f"{batch.per_piece:.4f}",
            ingredients=_ingredients(formula, packs, costed),
            of_batch=(("what", "how", "cost"), batch_rows, ("together", "", add(costed.kinds.values()))),
            box=box,
            of_box=(("what", "cost"), list(costed.in_box.items()), ("together", costed.full)),
            of_price=(("what", "how", "amount"), _price(costed, food_share, more.get("tax", 0)), None),
            warning=_WARNINGS.get(costed.verdict, ""),
            allergens=_allergens(formula),
        )
    )
    sheet.costed = costed
    return sheet


def _ingredients(formula, packs, costed):
    lines = [
        (
            line.ingredient,
            _amount(formula[line.ingredient]),
            _percent(_pack(packs, line.ingredient).yield_share),
            _as_bought(_pack(packs, line.ingredient)),
            line.packs,
            costed.ingredients[line.ingredient],
        )
        for line in costed.used.lines
    ]
    heads = ("ingredient", "used", "usable", "price as purchased", "packs to buy", "cost of use")
    whole = f"whole packs cost {costed.used.buying}"
    total = ("together", "", "", whole, "", add(costed.ingredients.values()))
    return heads, lines, total


def _margin(share):
    """What is left of a price, in words; below cost a margin would be a percentage below nothing."""
    if share is None:
        return ""
    if share < 0:
        return f"the price pays {math.floor(100 / (1 - share))} % of the full cost"
    return f"margin {100 * share:.0f} % of the price"


def _price(costed, food_share, tax):
    margin = _margin(costed.margin)
    rows = [
        (f"price at a food cost of {_percent(food_share)}", f"{costed.food} of ingredients", costed.price),
        ("full cost of the box", "from above", costed.full),
        ("left of each box", margin, costed.left),
    ]
    if costed.tax:
        paid = (costed.price + costed.tax).rounded()
        rows += [(f"sales tax or VAT, {_percent(tax)}", "the tax office's, not yours", costed.tax)]
        rows += [("the customer pays", "price and tax", paid)]
    return rows


_WARNINGS = {
    "below cost": "Careful: at this price every box is sold below its cost.",
    "at cost": "Careful: at this price a box brings just its cost: no profit, no loss.",
}


def _percent(part):
    return f"{100 * float(part):.4g} %"


def _pack(packs, name):
    return packs[name] if name in packs else packs[pantry.ingredient_name(name)]


def _amount(used):
    quantity = Q(used)
    return str(used) if quantity.dimensionless else both(quantity, 3)


def _as_bought(pack):
    if pack.kind == "count":
        return f"{pack.price} for {pack.size.normalize():f}"
    unit = {"mass": "kg", "volume": "L"}[pack.kind]
    return f"{pack.price} for {both(Q(float(pack.size), unit), 3)}"
