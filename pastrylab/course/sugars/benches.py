"""Benches of lesson 04: the inversion pot, the water of a filling, the solubility tables, refractometer against scale."""

import re

from pastrylab.course.sugars.figures import InversionPot, SolubilityTables, WaterHolds
from pastrylab.ground.units import StudentError, read_text
from pastrylab.page.bench import Bench, Control, Plain
from pastrylab.page.boxes import answer_box, button
from pastrylab.page.cards import GuessCard
from pastrylab.page.form import Form
from pastrylab.page.guess import Asked
from pastrylab.trade.sugars.refractometer import compare_with_scale

_LESSON = "04"


def guess_inversion():
    """The guess before the pot."""
    return GuessCard(
        _LESSON,
        "inversion",
        "A pot of syrup, 70 % sugar, pH 3.0, is held at 104 °C (219 °F) for 40 minutes with the lid on. How much of the sugar "
        "is inverted? Commit to a number before you look.",
        "50 %",
        most="100 %",
    )


def pot_bench():
    """The inversion pot: acid, heat, time and water, and how far the sugar is inverted."""
    controls = (
        Plain("ph", "pH, by strip", "", 2, 7, 0.1, 3.0),
        Control("temperature", "Held at", "degC", 40, 120, 1, 104, us=(104, 248, 1)),
        Control("time", "Time", "min", 1, 180, 1, 40),
        Control("solids", "Sugar in the syrup", "", 30, 90, 1, 70),
    )
    legend = (
        "Blue line: the estimate. Hatched band round it: the same with the rate a quarter lower and a quarter higher, which is "
        "as well as it is known. Dotted yellow band: where a kitchen usually stops. Ring on dashed lines: your pot."
    )
    return Bench(InversionPot(), controls, legend, guess=Asked(_LESSON, "inversion", "percent", "the pot"))


def water_bench():
    """The saturated syrup: what 100 g of water hold of sucrose beside invert sugar or glucose syrup."""
    controls = (
        Control("temperature", "Kept at", "degC", 0, 40, 1, 16, us=(32, 104, 1)),
        Plain("sucrose", "Sucrose, g to 100 g water", "", 100, 300, 1, 225),
        Plain("beside", "Beside it, g to 100 g water", "", 0, 200, 1, 0),
    )
    choices = (
        (
            "syrup",
            "Beside it stands",
            [("invert sugar", "invert sugar"), ("glucose (corn) syrup", "glucose syrup DE 42")],
        ),
    )
    legend = (
        "Blue line: sucrose that 100 g of water hold beside the other sugars. Hatched: the error of that line. Ring: your "
        "filling. Red dotted line down to the blue one: the sucrose that can come out as grain."
    )
    return Bench(WaterHolds(), controls, legend, choices)


def tables_bench():
    """Sucrose alone: published solubilities with their spread, against the model, and your syrup."""
    controls = (
        Control("temperature", "Syrup at", "degC", 0, 100, 1, 20, us=(32, 212, 1)),
        Control("share", "Sugar in the syrup", "", 60, 88, 0.5, 70),
    )
    legend = (
        "Squares and triangles: two published tables. Dotted band: the spread of three series. Blue line: what all sums "
        "here use. Ring: your syrup; above the band it is supersaturated."
    )
    return Bench(SolubilityTables(), controls, legend)


class RefractometerCard(Form):
    """Two weighings and a reading: does the refractometer agree with the scale?"""

    _BOXES = (
        ("sucrose", "Sugar weighed in", "700 g"),
        ("syrup", "Finished syrup, without the pan", "982 g"),
        ("inverted", "Inverted, by your estimate", "85 %"),
        ("reading", "The refractometer shows (Brix)", "73.5"),
        ("reading_error", "It is good to (Brix)", "0.5"),
        ("scale_error", "The scale is good to", "2 g"),
    )
    _MASSES = ("sucrose", "syrup", "scale_error")
    _BRIX = ("reading", "reading_error")

    def __init__(self):
        self.boxes = {name: answer_box(label, example) for name, label, example in self._BOXES}
        self.compare = button("Compare", "Do scale and refractometer agree?")
        boxes = list(self.boxes.values())
        super().__init__([boxes[i : i + 2] for i in range(0, len(boxes), 2)], self.compare, self.read)

    def read(self):
        seen = compare_with_scale(**{name: self._typed(name, label, example) for name, label, example in self._BOXES})
        self.say(seen.sentence, "good" if seen.agrees else "mend")

    def _typed(self, name, label, example):
        """What a box holds: a mass, a share, or Brix, which is a percentage of the syrup however it is written."""
        text = self.boxes[name].value.strip()
        if not text:
            raise StudentError(f"nothing for '{label}'", "a number in that box", example)
        brix = name in self._BRIX
        typed = read_text(_BRIX.sub("", text) if brix else text)
        if name in self._MASSES and not typed.unit:
            raise StudentError(f"{label}: {typed.number:g}, without a unit", "a mass with its unit", example)
        if name in self._MASSES:
            return typed.quantity
        if typed.unit not in ("", "percent"):
            raise StudentError(f"'{text[:40]}' for '{label}'", "degrees Brix" if brix else "a share", example)
        if brix:
            return typed.number
        if not typed.unit and typed.number > 1:
            raise StudentError(f"{label}: {typed.number:g}, without a sign", "a percentage", f"{typed.number:g} %")
        return typed.number / 100 if typed.unit else typed.number


_BRIX = re.compile(r"\s*(?:°\s*|deg(?:rees)?\s*)?(?:bx|brix)\.?\s*$", re.IGNORECASE)


def refractometer_card():
    """Type two weighings and a reading; see whether they agree within their errors."""
    return RefractometerCard()
