"""An ingredient off the label of its pack: the figures as printed, what is inside by them, and how sure that is."""

import ipywidgets as widgets

from pastrylab.ground.names import plain_name
from pastrylab.ground.units import StudentError
from pastrylab.page.bench import guarded
from pastrylab.page.boxes import TypedArea, field, row
from pastrylab.page.formula.tab import table_html
from pastrylab.page.kitchen.own import CELL, OwnForm, box, small_box
from pastrylab.page.parts import text_html
from pastrylab.trade.labels.figures import EU, US
from pastrylab.trade.labels.label import KINDS, label_of, made_of
from pastrylab.trade.labels.rules import CHOCOLATE
from pastrylab.trade.pantry import check_own_name, own_ingredients

_SHOWN_FROM = 1.0  # g in 100 g: what is not there but may be as much as that, or more, has a line
_FIGURES = {
    "fat": ("Fat (g)", "36"),
    "saturates": ("of which saturates (g)", "22"),
    "carbohydrate": ("Carbohydrate (g)", "2.9"),
    "sugars": ("of which sugars (g)", "2.9"),
    "added_sugars": ("of which added (g)", "0"),
    "polyols": ("of which polyols (g)", "if any"),
    "fibre": ("Fibre (g)", "0"),
    "protein": ("Protein (g)", "2.1"),
    "salt": ("Salt (g)", "0.07"),
    "sodium": ("Sodium (mg)", "10"),
}
_WORDS = {"milk_fat": "of it milk fat", "cocoa_butter": "of it cocoa butter", "higher_saccharides": "longer sugars"}
_WORDS |= {"ash": "minerals, salt", "other": "all else (acids, bitter parts ...)"}
_ORDER = (
    *("water", "fat", "milk_fat", "cocoa_butter", "sucrose", "glucose", "fructose", "lactose", "maltose"),
    *("higher_saccharides", "polyols", "starch", "fibre", "protein", "ash", "alcohol", "other"),
)


class LabelForm(OwnForm):
    """The form of a label."""

    which, what = "ingredients", "ingredient"
    intro = (
        "Type the figures as the pack prints them. What is not printed stays empty. You get what is inside, from how much to "
        "how much: no label is exact."
    )

    def __init__(self):
        self.boxes = {
            "ingredient": box("I call it", "my cream 36 %"),
            "kind": widgets.Dropdown(options=KINDS, value="cream", description="It is a kind of", **field(CELL)),
            "label": widgets.ToggleButtons(
                options=[("per 100 g (EU)", EU), ("per serving (US)", US)],
                description="Figures",
                style={"button_width": "auto"},
            ),
            "serving": box("They stand for", "100 g, or 100 ml"),
            "cocoa": small_box("Cocoa (%)", "64"),
            **{name: small_box(*texts) for name, texts in _FIGURES.items()},
            "contents": TypedArea(
                description="Ingredients, as listed",
                placeholder="cream, stabiliser: carrageenan",
                rows=2,
                **field("640px"),
            ),
            "also": box("Also called", "house cream; cream 36"),
            "density": box("1 mL weighs (g)", "empty if not known"),
        }
        b = self.boxes
        rows = [row(b["ingredient"], b["kind"]), row(b["label"], b["serving"])]
        rows += [row(b["cocoa"], *(b[name] for name in _FIGURES)), b["contents"], row(b["also"], b["density"])]
        super().__init__(rows)
        for name in ("kind", "label"):
            b[name].observe(guarded(self.said)(lambda _change: self._fit()), "value")
        self._fit()

    def _fit(self):
        """Only the boxes that such a pack has."""
        american = self.boxes["label"].value == US
        shown = {"cocoa": self.boxes["kind"].value in CHOCOLATE, "salt": not american}
        shown |= {"sodium": american, "added_sugars": american}
        for name, needed in shown.items():
            self.boxes[name].layout.display = "flex" if needed else "none"
            if not needed:
                self.boxes[name].value = ""
        self.boxes["serving"].placeholder = "30 g, as the serving says" if american else "100 g, or 100 ml"

    def cells(self):
        """The row as typed; its name is looked at, its figures are looked at in `follows`."""
        cells = {name: " ".join(box.value.split()) for name, box in self.boxes.items()}
        mine = {plain_name(cells["ingredient"])}
        check_own_name(cells["ingredient"], cells["also"], but=mine)
        return cells

    def follows(self, cells):
        """A table of what is inside, from how much to how much, and what the label cannot tell."""
        made = made_of(label_of(cells))
        rows = [
            (_WORDS.get(name, name), f"{made.grams[name]:.1f}", *(f"{end:.1f}" for end in made.ends[name]))
            for name in _ORDER
            if made.grams[name] >= 0.05 or made.ends[name][1] > _SHOWN_FROM
        ]
        heads = ("in 100 g", "grams", "at least", "at most")
        table = table_html(f"What is inside {cells['ingredient']}, by its label", heads, rows)
        return table + text_html(made.says, "note")

    def faults(self):
        """What stands in my-kitchen/ingredients.csv, or in the class's labels, and cannot be used."""
        try:
            return own_ingredients()[1]
        except StudentError as error:
            return (error,)

    def bring(self, cells):
        """Put a row back; the kind first, since it says which boxes there are."""
        label = label_of(cells)
        self.boxes["kind"].value = label.kind if label.kind in KINDS else "other"
        self.boxes["label"].value = label.label if label.label in (EU, US) else EU
        for name, typed in self.boxes.items():
            if name not in ("kind", "label"):
                typed.value = cells.get(name, "")
