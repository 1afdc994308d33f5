"""One's own mould: sizes by rule, or water, or both; then its shells weighed, and what filling goes into them."""

import csv
import io
import math
import re

import ipywidgets as widgets

from pastrylab.course.moulds import own_filling
from pastrylab.ground.units import In, Number, Q, Share, StudentError, both
from pastrylab.page.bench import guarded
from pastrylab.page.boxes import WIDE, answer_box, button, field
from pastrylab.page.form import Form
from pastrylab.page.keeper import Keeper, Thing
from pastrylab.page.parts import text_html
from pastrylab.trade import moulds
from pastrylab.trade.moulds.cavities import Cavity
from pastrylab.trade.moulds.shells import DENSITY_ERROR, FLUID, SET

_LENGTH = In("mm", above=0, at_most=300, example="32 mm")
_GRAMS = In("g", above=0, at_most=20_000, example="812 g")
_SCALE = In("g", at_least=0, at_most=50, example="1 g")
_HEADSPACE = In("mm", above=0, at_most=20, example="2 mm")
_DENSITY = In("g/mL", at_least=0.2, at_most=2, example="1.1 g/mL")
_COUNT = Number(at_least=1, at_most=1000, example="24")
# What each shape is measured by: a box, and its label under this shape.
SHAPES = {
    "half ball": {"across": "Across the opening"},
    "dome": {"across": "Across the opening", "depth": "Depth"},
    "cone": {"across": "Across the opening", "depth": "Depth", "round": "Across its flat bottom, if it has one"},
    "bar": {"across": "Length", "width": "Width", "depth": "Depth"},
    "rounded bar": {"across": "Length", "width": "Width", "depth": "Depth", "round": "Radius of its edges"},
    "another shape: by water alone": {},
}
_BOXES = {
    "across": ("Across the opening", _LENGTH, "32 mm"),
    "width": ("Width", _LENGTH, ""),
    "depth": ("Depth", _LENGTH, ""),
    "round": ("Radius of its edges", In("mm", at_least=0, at_most=300, example="4 mm"), ""),
    "cavities": ("Cavities", _COUNT, "24"),
    "empty": ("Mould, dry and empty", _GRAMS, "812 g"),
    "full": ("Full of water", _GRAMS, "1017 g"),
    "shells": ("With its shells, scraped", _GRAMS, "891 g"),
    "scale": ("Scale good to", _SCALE, "1 g"),
    "headspace": ("Filling ends below the rim", _HEADSPACE, "2 mm"),
    "density": ("A millilitre of filling weighs", _DENSITY, "1.1 g/mL"),
    "pieces": ("Good pieces wanted", Number(at_least=1, at_most=100_000, example="260"), "260"),
    "rejects": ("Rejects", Share(at_most=None, below=1, example="8 %"), "8 %"),
    "rest": ("No ladle takes up", In("g", at_least=0, at_most=5000, example="120 g"), "120 g"),
}
_OUNCE = 28.349523125  # g, NIST Handbook 44
_GRAMS_ALONE = re.compile(r"[\d.,]+\s*g?")
_MAKE = {
    "half ball": lambda b: moulds.hemisphere.floats(b["across"]),
    "dome": lambda b: moulds.dome.floats(b["across"], b["depth"]),
    "cone": lambda b: moulds.cone.floats(b["across"], b["depth"], b["round"] or 0.0),
    "bar": lambda b: moulds.bar.floats(b["across"], b["width"], b["depth"]),
    "rounded bar": lambda b: moulds.rounded_bar.floats(b["across"], b["width"], b["depth"], b["round"]),
}


class MouldBench(Form):
    """A mould's cavity by rule and by water, its shell and wall by weight, and the filling that goes in.

    It opens with a mould of the Larkmoor Teaching Kitchen, invented, which is not kept.
    """

    def __init__(self):
        self.shape = widgets.Dropdown(options=list(SHAPES), description="Shape", **field())
        self.boxes = {name: answer_box(label, kind.example) for name, (label, kind, _) in _BOXES.items()}
        for name, (_, _, start) in _BOXES.items():
            self.boxes[name].value = start
        box, self.work = self.boxes, button("Work it out", "Cavity, shell, wall and filling from what was weighed")
        self.mine = button(
            "Of my formula", "What a millilitre of the formula in the formula box weighs, and what it does to a shell"
        )
        self.of_mine = widgets.HTML(layout=WIDE)
        box["density"].observe(lambda _change: setattr(self.of_mine, "value", ""), "value")
        self.mine.on_click(guarded(self.of_mine)(lambda _button: self._take_formula()))
        rows = [
            [self.shape, box["across"]],
            [box["width"], box["depth"], box["round"]],
            [box["cavities"], box["empty"]],
            [box["full"], box["shells"]],
            [box["scale"], box["headspace"]],
            [box["density"], self.mine],
            [self.of_mine],
            [box["pieces"], box["rejects"]],
            [box["rest"], self.work],
        ]
        self.keeper = Keeper("moulds", "mould", self._thing, self._opened, list(box.values()))
        super().__init__(rows, self.work, self.refresh, [self.keeper])
        self.shape.observe(lambda _change: self._fit(), "value")
        self._fit()

    def _take_formula(self):
        """Put the density of the formula in force into its box, and say what is known of it."""
        density, sentences = own_filling.said_of(own_filling.formula_in_force())
        self.boxes["density"].value = f"{density:.2f} g/mL"
        self.of_mine.value = text_html(sentences, "note")

    def _fit(self):
        """Show the boxes this shape is measured by."""
        asked = SHAPES[self.shape.value]
        for name in ("across", "width", "depth", "round"):
            self.boxes[name].layout.display = "flex" if name in asked else "none"
            self.boxes[name].description = asked.get(name, _BOXES[name][0])

    def _typed(self, name, needed=False):
        """The float a box holds, None where it is empty and may be. Raises StudentError with the box's label."""
        label, kind, _ = _BOXES[name]
        label, text = SHAPES[self.shape.value].get(name, label), self.boxes[name].value.strip()
        if name == "density" and _GRAMS_ALONE.fullmatch(text):  # of a millilitre, as its label says
            text = f"{text.removesuffix('g')} g/mL"
        if name == "scale":
            text = text.removeprefix("±").strip()
        if isinstance(kind, Number):
            text = re.sub(r"\s*(cavit(y|ies)|moulds?)$", "", text)
        elif text == "0":  # no grams and no millimetres are nothing in any unit
            text = f"0 {kind.unit}"
        if text:
            return self._read(kind, label, text)
        if needed:
            raise StudentError(f"nothing for '{label}'", "a figure in that box", kind.example)
        return None

    @staticmethod
    def _read(kind, label, text):
        """A float by its kind, refused with an example for this very box."""
        try:
            return kind.floats(f"'{label}'", text)
        except StudentError as error:
            raise StudentError(error.given, error.needed, kind.example) from None

    def refresh(self):
        """Work it out, and say it all."""
        self.say(*found(self.shape.value, self._all()))

    def _all(self):
        asked = [name for name in SHAPES[self.shape.value] if self.boxes[name].value.strip()]
        by_rule = "across" in asked or not self.boxes["full"].value.strip()
        pointed = self.shape.value == "cone" and not self.boxes["round"].value.strip()
        sizes = {
            name: self._typed(name, by_rule and not (pointed and name == "round")) for name in SHAPES[self.shape.value]
        }
        always = ("cavities", "scale", "headspace", "density")
        weighed = bool(self.boxes["full"].value.strip() or self.boxes["shells"].value.strip())
        order = bool(self.boxes["pieces"].value.strip())
        rest = {name: self._typed(name, name in always) for name in ("full", "shells", "pieces", *always)}
        rest |= {name: self._typed(name, order) for name in ("rejects", "rest")}
        return {**dict.fromkeys(_BOXES), **sizes, **rest, "empty": self._typed("empty", weighed)}

    # --- kept for another day ---------------------------------------------------------------------------------------

    def _thing(self):
        """What is kept: the boxes of this shape as they are typed. Raises StudentError for what cannot be worked out."""
        opens = {name: start for name, (_, _, start) in _BOXES.items()}
        typed = {name: box.value.strip() for name, box in self.boxes.items()}
        if typed == opens and self.shape.value == next(iter(SHAPES)):
            raise StudentError("the figures this page opens with", "a mould of your own", "yours, empty: 760 g")
        self.refresh()
        lines = [("shape", self.shape.value), *typed.items()]
        out = io.StringIO()
        csv.writer(out, lineterminator="\n").writerows(lines)
        return Thing(out.getvalue())

    def _opened(self, _name, thing):
        """Put a kept mould back into the boxes, and work it out."""
        held = {line[0].strip(): line[1].strip() for line in csv.reader(io.StringIO(thing.text)) if len(line) == 2}
        if held.get("shape") not in SHAPES:
            raise StudentError(
                "a file that holds no mould", "one that this bench has kept", "another one from the list"
            )
        self.shape.value = held["shape"]
        for name, box in self.boxes.items():
            box.value = held.get(name, "")
        self.act()


def found(shape, typed):
    """What a mould's figures say: (sentences, look). typed: every box as a float, None where empty. StudentError as moulds."""
    rule = _MAKE[shape](typed) if shape in _MAKE and typed["across"] else None
    water = None
    if typed["full"]:
        weighed = typed["empty"], typed["full"], typed["cavities"]
        water = moulds.by_water.floats(*weighed, like=rule, scale=typed["scale"])
    if not rule and not water:
        raise StudentError("neither sizes nor water", "one of the two", "the mould full of water, 1017 g")
    sentences, agree = _cavity(rule, water)
    cavity = moulds.surest(*(one for one in (rule, water) if one))
    if agree and typed["shells"]:
        sentences += _inside(cavity, typed)
        sentences += _in_bowl(cavity, typed) if typed["pieces"] else []
    return sentences, "good" if agree else "mend"


def _cavity(rule, water):
    """Sentences on what a cavity holds, and whether rule and water agree within their errors."""
    said = [f"By {word} a cavity holds {_span(one, 'mL')}." for word, one in (("rule", rule), ("water", water)) if one]
    if not rule or not water:
        return said, True
    if rule.high < water.low or water.high < rule.low:
        said.append(
            "The two cannot both be right. Was every cavity full, and level? Is it this shape, all the way down? Were "
            "cavities counted twice? Weigh and measure again before you cast."
        )
        return said, False
    return [
        *said,
        f"They agree. The surer is {'water' if water.error <= rule.error else 'the rule'}: it counts from here on.",
    ], True


def _span(cavity, unit):
    return f"{both(Q(cavity.ml, unit), 3)}, between {cavity.low.magnitude:.3g} and {cavity.high.magnitude:.3g} {unit}"


def _inside(cavity, typed):
    """Sentences on shell and wall, and on the filling that the cavity has room for."""
    cavities, scale = typed["cavities"], typed["scale"]
    one = moulds.shell_by_weighing.floats(typed["empty"], typed["shells"], cavities, cavity, scale=scale)
    light, heavy = (one.grams * (1 + side * one.error) for side in (-1, 1))
    start = f"One shell weighs {both(Q(one.grams, 'g'), 3)}, between {light:.3g} and {heavy:.3g} g"
    if cavity.solid is None:
        return [
            f"{start}. It leaves {both(Q(cavity.ml - one.ml, 'mL'), 3)} for filling and cap together. Without a shape neither "
            "the wall nor the cap can be told: weigh the mould again when it is capped."
        ]
    off = one.error + DENSITY_ERROR / SET  # what the density hides counts for the wall, not for the weight
    ends = [_piece(_resized(cavity, side), one.grams * (1 - side * off), typed) for side in (-1, 1)]
    (_, small), (_, large) = ends
    wall, made = _piece(cavity, one.grams, typed)
    thin, thick = sorted(wall for wall, _ in ends)
    return [
        f"{start}: a wall of {both(Q(wall, 'mm'), 2)}, between {thin:.2g} and {thick:.2g} mm, if it were the same "
        "everywhere. How even it is, only a broken one shows.",
        f"Under the cap there is room for {both(Q(made.filling_ml, 'mL'), 3)} of filling, between {small.filling_ml:.3g} and "
        f"{large.filling_ml:.3g} mL: {both(Q(made.filling_g, 'g'), 3)} a piece. For the {cavities:.0f} of them make "
        f"{_no_less(moulds.batch.floats(large.filling_g, cavities))}, the high end, so that the last is not short; the middle is "
        f"{cavities * made.filling_g:.3g} g.",
        f"A cap that fills the headspace weighs {both(Q(made.cap_g, 'g'), 2)}; the caps of one mould "
        f"{both(Q(cavities * made.cap_g, 'g'), 2)}.",
    ]


def _resized(cavity, side):
    """The cavity at one end of its error: side -1 or 1."""
    factor = 1 + side * cavity.error
    return Cavity(cavity.shape, cavity.ml * factor, 0.0, cavity.solid.scaled(factor ** (1 / 3)))


def _piece(cavity, grams, typed):
    """(wall in mm, Piece) of a shell of that mass in a cavity."""
    wall = moulds.wall_of.floats(cavity, grams)
    return wall, moulds.piece.floats(cavity, wall, typed["headspace"], typed["density"])


def _in_bowl(cavity, typed):
    """Sentences on the order: fills of this mould, and what must be in the bowl for its shells."""
    cavities = typed["cavities"]
    together = typed["shells"] - typed["empty"]
    order = moulds.fills.floats(typed["pieces"], typed["rejects"], cavities)
    # Cavity, chocolate and shells at the high end of their errors: a bowl that has a little too much casts the last mould.
    heaviest = (together + 2 * typed["scale"]) / cavities
    roomiest = cavity.ml * (1 + cavity.error)
    one = moulds.mould.floats(roomiest, heaviest, 0.0, cavities, fluid=FLUID + DENSITY_ERROR)
    need = moulds.need.floats(one, order.count, typed["rest"], False)
    return [
        f"{typed['pieces']:.0f} good pieces with {100 * typed['rejects']:.3g} % rejects: {order.count} fills, {order.cast} pieces "
        f"cast. About {both(Q(order.count * together, 'g'), 4)} leave the bowl as shells. In it must be "
        f"{_no_less(need.in_bowl)}, with every error against you: the last mould takes up to {_no_less(one.full)} to the "
        "brim. Add what sticks to scraper and tray, and the caps where they come from the same bowl."
    ]


def _no_less(grams):
    """Grams, and ounces beside them, both rounded up."""
    ounces = math.ceil(grams / _OUNCE * 10 - 1e-6) / 10
    return f"{math.ceil(grams - 1e-6)} g ({ounces:.1f} oz)"
