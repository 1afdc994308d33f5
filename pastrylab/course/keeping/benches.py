"""Benches of lesson 05: what lowers water activity, a meter against the Food Code, one's own reading beside the estimate."""

import ipywidgets as widgets

from pastrylab.course.keeping.figures import FoodCodeMap, FruitKeeping, GanacheKeeping, ModelAgainstMeasured
from pastrylab.ground import careful
from pastrylab.ground.units import StudentError, read_text
from pastrylab.page.bench import Bench, Control, Plain
from pastrylab.page.boxes import WIDE, TypedArea, answer_box, button, field
from pastrylab.page.cards import GuessCard
from pastrylab.page.form import Form
from pastrylab.page.guess import Asked
from pastrylab.page.parts import part, picture_html, text_html
from pastrylab.page.pictured import Pictured
from pastrylab.trade import emulsion, keeping, water_activity
from pastrylab.trade.activity import estimated
from pastrylab.trade.prep_list import read_formula

_LESSON = "05"
_GUESS = Asked(_LESSON, "humidity", "percent", "the jar")
_BARS = (
    "Each bar: where a group of organisms can grow. Hatched: published limits differ there. Red-brown with a bold name: "
    "can grow at the high end of the estimate. Blue line: the estimate. Yellow band: its stated error."
)


def guess_humidity():
    """The guess before the ganache bench."""
    return GuessCard(
        _LESSON,
        "humidity",
        "A ganache of 330 g dark couverture, 200 g cream and 35 g invert syrup is sealed in a small jar at 25 °C "
        "(77 °F). At which relative humidity does the air above it come to rest? Commit to a percentage before you look.",
        "60 %",
        most="100 %",
    )


def ganache_bench():
    """A ganache: what lowers its water activity, and what could still grow."""
    controls = (
        Control("chocolate", "Dark couverture 64 %", "g", 150, 600, 5, 330, us=(5.5, 21, 0.25)),
        Control("cream", "Cream 36 %", "g", 80, 400, 5, 200, us=(3, 14, 0.25)),
        Control("invert", "Invert syrup", "g", 0, 150, 5, 35, us=(0, 5.25, 0.25)),
        Control("rum", "Rum 40 %", "g", 0, 80, 5, 0, us=(0, 2.75, 0.25)),
        Control("dissolved_share", "Chocolate sugar dissolved", "", 40, 100, 5, 100),
    )
    return Bench(GanacheKeeping(), controls, f"{_BARS} {keeping.CAUTION}", guess=_GUESS)


def fruit_bench():
    """A boiled raspberry filling without dairy; it opens with the sugar cut by half."""
    controls = (
        Control("puree", "Raspberry puree", "g", 300, 700, 10, 500, us=(11, 25, 0.5)),
        Control("sugar", "Sugar", "g", 100, 500, 10, 200, us=(3.5, 18, 0.5)),
        Control("glucose", "Glucose syrup DE 42", "g", 0, 250, 10, 60, us=(0, 9, 0.5)),
        Control("boiled_to", "Weight after boiling", "g", 400, 1300, 10, 600, us=(14, 46, 0.5)),
        Control("stands_at", "It stands at", "degC", 21, 27, 1, 24, us=(70, 80, 1)),
    )
    legend = (
        f"{_BARS} The bars know nothing of acid: a sharp fruit stops most of the bacteria, but no mould and no yeast. Days "
        f"are given for this filling only because there is no dairy in it, and only as an illustration. {keeping.CAUTION}"
    )
    return Bench(FruitKeeping(), controls, legend)


def meter_bench():
    """A meter reading and a pH, with their errors, against the Food Code's tables."""
    controls = (
        Plain("reading", "Meter reading", "", 0.75, 0.99, 0.001, 0.9),
        Plain("meter_error", "Meter good to", "", 0, 0.05, 0.001, 0.02),
        Plain("ph", "pH", "", 3.5, 7.5, 0.1, 5.4),
        Plain("ph_error", "pH good to", "", 0, 0.5, 0.1, 0.1),
    )
    legend = (
        "White: by the table alone non-TCS, no time and temperature control for its sake. Grey hatched: product assessment. "
        "Ring: as read. Cross: with both errors towards more growth; the cross decides. Dashed red: the line of 0.85. "
        + keeping.CAUTION
    )
    tables = [("B: all other food", "B"), ("A: heat-treated, then packaged", "A")]
    bench = Bench(FoodCodeMap(), controls, legend, (("table", "Table", tables),))
    bench.system.layout.display = "none"
    return bench


def model_picture():
    """The model beside measured syrups and honeys, with what the picture shows in words."""
    picture = ModelAgainstMeasured()
    sentence = picture.update()
    legend = (
        "Rings: sucrose, measured. Blue: the sum. Yellow band: the error the estimate states. Red lines with squares: "
        "three published series of honeys."
    )
    place = Pictured(picture, lambda: picture.update() and setattr(place, "value", picture_html(picture)))
    place.value = picture_html(picture)
    return widgets.VBox(
        [
            widgets.HTML(text_html(sentence), layout=WIDE),
            place,
            widgets.HTML(part("legend", text=legend), layout=WIDE),
        ],
        layout=WIDE,
    )


_OWN = "my own formula, written below"
_SALTS = ("sodium chloride", "magnesium chloride", "potassium sulfate", "lithium chloride")


class ReadingBench(Form):
    """One's own meter: checked over a salt, its readings corrected, and put beside the estimate of the formula."""

    _BOXES = (
        ("dissolved", "Chocolate sugar dissolved", "100 %"),
        ("room", "Temperature of the slurry", "22 °C"),
        ("over_salt", "Meter over the slurry", "0.753"),
        ("reading", "Meter over the filling", "0.920"),
        ("error", "Meter good to", "0.015"),
    )

    def __init__(self):
        wide = field()
        self.fillings = emulsion.fillings()
        self.filling = widgets.Dropdown(options=[*self.fillings, _OWN], description="Filling", **wide)
        self.formula = TypedArea(
            description="Own formula",
            placeholder="dark couverture 64 %: 330 g\nheavy cream 36 %: 200 g",
            rows=4,
            **wide,
        )
        self.salt = widgets.Dropdown(options=_SALTS, description="Salt slurry", **wide)
        self.boxes = {name: answer_box(label, start) for name, label, start in self._BOXES}
        self.compare = button("Compare", "Reading beside estimate")
        for name, _label, start in self._BOXES:
            self.boxes[name].value = start
        box = self.boxes
        rows = [
            [self.filling, box["dissolved"]],
            [self.formula],
            [self.salt, box["room"]],
            [box["over_salt"], box["reading"]],
            [box["error"], self.compare],
        ]
        caution = widgets.HTML(text_html(keeping.CAUTION, "note"), layout=WIDE)
        super().__init__(rows, self.compare, self.refresh, [caution])

    def _typed(self):
        """What the boxes hold: shares and water activities as plain numbers, the temperature as a reading."""
        found = {}
        for name, label, start in self._BOXES:
            text = self.boxes[name].value.strip()
            if not text:
                raise StudentError(f"nothing for '{label}'", "a number in that box", start)
            typed = read_text(text, "[temperature]" if name == "room" else None)
            if name == "room":
                found[name] = typed.quantity
            elif typed.unit not in ("", "percent"):
                raise StudentError(f"'{text[:40]}' for '{label}'", "a plain number or a percentage", start)
            else:
                found[name] = typed.number / 100 if typed.unit else typed.number
        return found

    def refresh(self):
        """Check the meter, correct the reading, compare, and say it all."""
        formula = read_formula(self.formula.value) if self.filling.value == _OWN else self.fillings[self.filling.value]
        typed, salt = self._typed(), self.salt.value
        offset = water_activity.meter_offset(typed["over_salt"], salt, typed["room"])
        offset = offset if abs(offset) >= 0.0005 else 0.0  # less than the meter shows
        standard = water_activity.salt_standard(salt, typed["room"])
        estimate = estimated(formula, typed["dissolved"])
        found = keeping.against_meter(estimate, typed["reading"] - offset, typed["error"])
        over = f"over {salt} ({standard:.3f} at this temperature)"
        sentences = [
            f"The meter reads {abs(offset):.3f} too {'high' if offset > 0 else 'low'} {over}; the reading is corrected by that."
            if offset
            else f"The meter reads true {over}.",
            *estimate.notes,
            found.sentence,
            keeping.IN_SHORT,
        ]
        if careful.above(abs(offset), typed["error"]):
            sentences.insert(1, "That is more than the meter should be off: clean it, calibrate it, measure again.")
        self.say(sentences, "good" if found.agrees else "mend")


def reading_bench():
    """Your own meter reading beside the estimate of your formula."""
    return ReadingBench()
