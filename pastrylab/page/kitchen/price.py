"""A price of one's own: what is bought, "2.5 kg for 41.50", and how much of a pack is used."""

from pastrylab.ground.money import Money, money
from pastrylab.ground.units import Q, StudentError, both
from pastrylab.page.boxes import row
from pastrylab.page.formula.tab import name_box
from pastrylab.page.kitchen.own import OwnForm, box
from pastrylab.page.parts import text_html
from pastrylab.trade.costing.kitchen import kitchen_currency, prices_left_out
from pastrylab.trade.pantry import facts, ingredient_name, names_known
from pastrylab.trade.purchasing.own_price import price_row
from pastrylab.trade.purchasing.packs import Pack, cost_of_use

_USES = {"mass": "100 g", "volume": "100 mL", "count": "1"}


class PriceForm(OwnForm):
    """The form of a price."""

    which, what = "prices", "price"
    intro = (
        "Your own price wins over the class's for the same ingredient, in the cost card and in the formula box. Name the "
        "ingredient it buys; packaging and the like have none."
    )

    def __init__(self):
        self.boxes = {
            "item": box("I buy", "cream 36 %, carton"),
            "price": box("Pack and price", "1 L for 6.40"),
            "ingredient": name_box("It is the ingredient", facts(), "heavy cream 36 %"),
            "usable": box("Usable share", "98 %; empty for all of it"),
            "source": box("Read on", "receipt of 27 Nov"),
        }
        b = self.boxes
        super().__init__([row(b["item"], b["price"]), row(b["ingredient"], b["usable"]), b["source"]])

    def cells(self):
        """The row, its ingredient by its name in the list."""
        ingredient = self.boxes["ingredient"].value.strip()
        item = self.boxes["item"].value
        ingredient = ingredient_name(ingredient) if ingredient else names_known([item])[item]
        values = item, self.boxes["price"].value
        usable, source = (" ".join(self.boxes[name].value.split()) for name in ("usable", "source"))
        return price_row(*values, ingredient if ingredient != item else "", usable, source)

    def follows(self, cells):
        """What the pack was read as, and what a little of it costs."""
        code = kitchen_currency()
        if cells["currency"] not in ("", code):
            raise StudentError(
                f"a price in {cells['currency']}", f"{code}, in which the class reckons", f"{cells['price']} {code}"
            )
        price = Money(money(cells["price"]).amount, code)
        size = Q(float(cells["pack_size"]), cells["pack_unit"])
        pack = Pack.of(size, price, cells["yield_share"] or 1, cells["item"])
        use = _USES[pack.kind]
        whole = f"{pack.size:g} pieces" if pack.kind == "count" else both(size)
        said = [
            f"{cells['item']}: {whole} for {price}. {use if pack.kind != 'count' else 'One'} costs {cost_of_use(pack, use)}."
        ]
        if cells["ingredient"] in facts():
            said.append(f"It is taken wherever a formula names {cells['ingredient']}.")
        else:
            said.append("It stands for no ingredient: no formula asks for it by itself.")
        return text_html(said, "say")

    def faults(self):
        """What stands in my-kitchen/prices.csv and cannot be used."""
        return prices_left_out()

    def bring(self, cells):
        """Put a row back."""
        unit = {"piece": "pieces", "fl_oz": "fl oz"}.get(cells["pack_unit"], cells["pack_unit"])
        self.boxes["price"].value = f"{cells['pack_size']:g} {unit} for {cells['price']:.2f}"
        usable = cells["yield_share"]
        self.boxes["usable"].value = f"{100 * usable:g} %" if usable != "" else ""
        for name in ("item", "ingredient", "source"):
            self.boxes[name].value = cells[name]
