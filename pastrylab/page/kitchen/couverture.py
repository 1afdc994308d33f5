"""A couverture of one's own: its name, its kind, and the three bands of its supplier's sheet."""

import ipywidgets as widgets

from pastrylab.ground.own import STAGES
from pastrylab.ground.units import Q, StudentError, both
from pastrylab.page.boxes import field, row
from pastrylab.page.formula.tab import table_html
from pastrylab.page.kitchen.own import CELL, OwnForm, box
from pastrylab.page.parts import text_html
from pastrylab.trade.chocolate import KINDS, latent_heat, wide_band_floats
from pastrylab.trade.couvertures import checked_couverture, own_couvertures, read_band
from pastrylab.trade.pantry import own_ingredients

_BANDS = {
    "melt": ("Melt out to", "45 to 50 °C"),
    "cool": ("Cool to", "27 to 28 °C"),
    "work": ("Work at", "31 to 32 °C"),
}


class CouvertureForm(OwnForm):
    """The form of a couverture."""

    which, what = "couvertures", "couverture"
    intro = (
        "Copy the temperatures from the supplier's sheet or from the bag, in °C or °F. They then stand in the seed bench, in "
        "the holding bench and in the log reader. If you have kept its label as well, give both the same name: then the seed "
        "is worked out with its own cocoa butter."
    )

    def __init__(self):
        self.boxes = {
            "couverture": box("I call it", "my dark 66 %"),
            "kind": widgets.Dropdown(options=KINDS, description="Kind", **field(CELL)),
            **{stage: box(*texts) for stage, texts in _BANDS.items()},
            "source": box("Read on", "the bag, 27 Nov"),
        }
        b = self.boxes
        super().__init__([row(b["couverture"], b["kind"]), row(*(b[stage] for stage in STAGES)), b["source"]])

    def cells(self):
        """The row, its bands in °C."""
        cells = {"couverture": " ".join(self.boxes["couverture"].value.split()), "kind": self.boxes["kind"].value}
        for stage, (label, _) in _BANDS.items():
            ends = read_band(self.boxes[stage].value, f"'{label}'")
            cells |= {f"{stage}_low": f"{ends[0]:g}", f"{stage}_high": f"{ends[1]:g}"}
        return cells | {"source": " ".join(self.boxes["source"].value.split())}

    def follows(self, cells):
        """The bands as they were read, beside those of the kind, and which cocoa butter the seed goes by."""
        numbers = {name: float(value) for name, value in cells.items() if name.endswith(("_low", "_high"))}
        mine = checked_couverture(cells | numbers)
        usual = wide_band_floats(mine.kind)
        rows = [
            (_BANDS[stage][0].lower(), _band(own_band), _band(wide))
            for stage, own_band, wide in zip(STAGES, mine.bands, usual, strict=True)
        ]
        heads = ("what for", "by its sheet", f"{mine.kind} in textbooks and practice")
        labelled = mine.name in own_ingredients()[0]
        said = (
            f"Its label is kept: melting a kilogram of it takes {latent_heat(mine.name):.0f} kJ."
            if labelled
            else f"Its label is not kept under this name, so melting a kilogram is taken to need {latent_heat(mine.kind):.0f} kJ, "
            "as chocolate of 29 % cocoa butter does. A couverture needs more, and less seed cools the bowl as far."
        )
        return table_html(f"The bands of {mine.name}", heads, rows) + text_html(said, "note")

    def faults(self):
        """What stands in my-kitchen/couvertures.csv, or in the class's, and cannot be used."""
        try:
            return own_couvertures()[1]
        except StudentError as error:
            return (error,)

    def bring(self, cells):
        """Put a row back."""
        for name in ("couverture", "kind", "source"):
            self.boxes[name].value = cells[name]
        for stage in STAGES:
            self.boxes[stage].value = f"{cells[f'{stage}_low']:g} to {cells[f'{stage}_high']:g} °C"


def _band(ends):
    low, high = (both(Q(end, "degC"), 3) for end in ends)
    return low if low == high else f"{low} to {high}"
