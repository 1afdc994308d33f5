"""A step of the formula box: what a formula is made of, its two phases, its ratio and how crowded they lie."""

import ipywidgets as widgets

from pastrylab.ground.units import StudentError
from pastrylab.page.bench import guarded
from pastrylab.page.boxes import WIDE, field
from pastrylab.page.formula.tab import FormulaTab, percent, table_html, weight
from pastrylab.page.parts import part
from pastrylab.trade import emulsion
from pastrylab.trade.labels import error as label_error
from pastrylab.trade.phases import CLOSEST_PACKING, RANDOM_PACKING

_PARTS = (
    *(("water", "water"), ("fat", "fat, all of it"), ("milk_fat", "  of it milk fat")),
    *(("cocoa_butter", "  of it cocoa butter"), ("sugars", "sugars")),
    *(("higher_saccharides", "longer chains of glucose"), ("polyols", "polyols"), ("protein", "protein")),
    *(("starch", "starch"), ("fibre", "fibre"), ("ash", "minerals"), ("alcohol", "alcohol"), ("other", "other")),
)
_WATER, _FAT, _SUGAR, _REST = "#b9d4ef", "#f2c14e", "#ffffff", "#b08a6a"
_BY_WEIGHT = (("water", _WATER, False), ("fat", _FAT, False), ("sugars", _SUGAR, True), ("the rest", _REST, False))
_BY_VOLUME = (("fat", _FAT, False), ("solids", _REST, False), ("watery phase", _WATER, False))
_FAT_FILLING = 0.05  # share of water; a praline filling holds less, every ganache more: common practice, no source
# Where a bar of 200 is crossed, and how the line is broken.
_CROWDED = ((200 * RANDOM_PACKING, "3 2"), (200 * CLOSEST_PACKING, "none"))
_LINES = (
    f"Red lines: where fat and solids lie as close as equal balls heaped at random ({100 * RANDOM_PACKING:.0f} %, broken) and "
    f"at their closest ({100 * CLOSEST_PACKING:.0f} %). The further left of them the watery phase begins, the more room."
)
_NOTE = (
    "By mass balance on the table of ingredients: nothing boils off here. Card and ratio are habits of the trade, crowding is "
    "a warning, none of them a law."
)


class CompositionTab(FormulaTab):
    """What the formula in force is made of."""

    title = "Composition"

    def __init__(self, keep=None):
        uses = [(f"to {use}", use) for use in emulsion.USES]
        self.use = widgets.Dropdown(options=uses, value="fill", description="The ganache is", **field("330px"))
        self.table = widgets.HTML(layout=WIDE)
        note = widgets.HTML(part("legend", text=_NOTE), layout=WIDE)
        self.bars = widgets.HTML(layout=WIDE)
        super().__init__([self.bars, self.use], [self.table, note], keep)
        self.use.observe(guarded(self.said)(lambda _change: self.formula and self.renew(self.formula)), "value")

    def renew(self, formula):
        """Write what the formula is made of, and how it lies as a ganache."""
        made = formula.composition()
        shown = [(name, words) for name, words in _PARTS if made[name] >= 0.0005]
        rows = [(words, weight(made[name] * made.total_grams), percent(made[name])) for name, words in shown]
        rows.append(("together", weight(made.total_grams), "100.0 %"))
        self.table.value = table_html("What it is made of", ("part", "mass", "of the whole"), rows)
        bars = [_bar("By weight", "weight", _BY_WEIGHT, _by_weight(made))]
        sentences, sound = self._as_ganache(formula, bars)
        self.bars.value = "".join(bars)
        open_by_label = label_error.said(formula)
        sentences = [*sentences, open_by_label] if open_by_label else sentences
        self.say(sentences, "say" if sound else "mend")

    def _as_ganache(self, formula, bars):
        """(what is to be said of it as a ganache, whether there is room); what cannot be said is said as well."""
        try:
            found = emulsion.phases(formula)
        except StudentError as error:
            return [f"No ganache: {error.given}."], True
        if found["water"] < _FAT_FILLING:
            said = f"With {percent(found['water'])} of water this is a filling of fat, no ganache: how crowded it lies says nothing."
            return [said], True
        fat, watery, solid = found.volume_shares
        bars.append(_bar("Warm, by volume", "volume", _BY_VOLUME, (fat, solid, watery), _CROWDED, _LINES))
        said = [
            f"Droplets and particles are {100 * found.dispersed_share:.0f} % of the volume. {found.warning}",
        ]
        for finding in (emulsion.card_finding, emulsion.ratio_finding):
            try:
                said.append(finding(formula, self.use.value).sentence)
            except StudentError as error:
                said.append(f"Not compared with the habits of a ganache: you gave {error.given}.")
                break
        return said, found.level == "room"


def _by_weight(made):
    """Shares of water, fat, sugars and all else."""
    shares = [made[name] for name in ("water", "fat", "sugars")]
    return [*shares, max(0.0, 1 - sum(shares))]


def _bar(title, key, looks, shares, lines=(), below=""):
    """A bar of shares side by side, each named with its figure."""
    at, parts = 0.0, []
    for (name, colour, hatched), share in zip(looks, shares, strict=True):
        parts.append(
            {
                "name": name,
                "colour": colour,
                "hatched": hatched,
                "percent": percent(share),
                "at": 200 * at,
                "wide": 200 * share,
            }
        )
        at += share
    words = f"{title}: " + ", ".join(f"{one['name']} {one['percent']}" for one in parts)
    return str(part("stacked", title=title, key=key, words=words, parts=parts, lines=lines, below=below))
