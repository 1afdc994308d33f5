"""Benches of lesson 05: what lowers water activity, a meter against the Food Code, one's own reading beside the estimate."""

from datetime import datetime

import ipywidgets as widgets

from pastrylab.course.keeping import journal
from pastrylab.course.keeping.figures import FoodCodeMap, FruitKeeping, GanacheKeeping, ModelAgainstMeasured
from pastrylab.ground import careful, kitchen
from pastrylab.ground.grammar import dimension
from pastrylab.ground.units import StudentError, read_text
from pastrylab.page.bench import Bench, Control, Plain, guarded
from pastrylab.page.boxes import WIDE, TypedArea, answer_box, button, field, on_press, row
from pastrylab.page.cards import GuessCard
from pastrylab.page.form import Form
from pastrylab.page.formula.box import lines_in_force
from pastrylab.page.guess import Asked
from pastrylab.page.keeper import Keeper, Thing
from pastrylab.page.parts import part, picture_html, text_html
from pastrylab.page.pictured import Pictured
from pastrylab.trade import emulsion, keeping, water_activity
from pastrylab.trade.activity import estimated
from pastrylab.trade.prep.prep_list import read_formula

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
        "(77 °F). At which humidity does the air above it come to rest? Commit to a percentage before you look.",
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
        self.journal, self.list, self._drawn = journal.Journal(), widgets.HTML(layout=WIDE), []
        self.picture = Pictured(self.journal, lambda: self._show(self._drawn))
        typed = [*box.values(), self.formula]
        self.keeper = Keeper("readings", "reading", self._longer, self._opened, typed, called="my meter", grows=True)
        self.keeper.keep.description = "Keep this reading"
        self.shorten = button("Remove the last reading", "Take the latest row out of the series in the box above")
        on_press(self.shorten, self.keeper.name, guarded(self.keeper.said)(self._shorter))
        self._last = row(self.shorten)
        below = [caution, self.keeper, self._last, self.picture, self.list]
        super().__init__(rows, self.compare, self.refresh, below)
        self.filling.observe(guarded(self.said)(lambda _change: self._own_in()), "value")
        self._show([])

    def _own_in(self):
        """The formula of the box goes in where one's own is chosen and none is written."""
        if self.filling.value == _OWN and not self.formula.value.strip():
            self.formula.value = lines_in_force()

    def _typed(self):
        """What the boxes hold: shares and water activities as plain numbers, the temperature as a reading."""
        found = {}
        for name, label, start in self._BOXES:
            text = self.boxes[name].value.strip()
            if not text:
                raise StudentError(f"nothing for '{label}'", "a number in that box", start)
            typed = read_text(text, "[temperature]" if name == "room" else None)
            if name == "room":
                if dimension(typed.unit) != "[temperature]":
                    raise StudentError(f"'{text[:40]}' for '{label}'", "a temperature", start)
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
        offset = journal.offset(typed["over_salt"], salt, typed["room"])
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

    # --- what was read on other days --------------------------------------------------------------------------------------

    def _rows(self):
        """The readings kept under the name in the box, in the order of time; none under a new one."""
        name = kitchen.thing_named(self.keeper.name.value)
        held = [one.casefold() for one in kitchen.kept("readings")]
        return journal.read(kitchen.get("readings", name)) if name.casefold() in held else []

    def _longer(self):
        """The Thing to keep: what was kept under this name, and the reading in the boxes. StudentError for one twice."""
        typed, own = self._typed(), self.filling.value == _OWN
        if all(self.boxes[name].value.strip() == start for name, _, start in self._BOXES):
            raise StudentError("the figures this page opens with", "your own readings", "over the slurry 0.757")
        rows, now = self._rows(), datetime.now().replace(second=0, microsecond=0)
        what = self.keeper.name.value.strip() if own else self.filling.value
        taken = [typed[name] for name in ("over_salt", "reading", "error")]
        row = journal.checked(journal.Row(now, what, self.salt.value, float(typed["room"].m_as("degC")), *taken))
        if rows and rows[-1] == row:
            raise StudentError("a reading that was kept this very minute", "another reading", "the next one")
        self._show([*rows, row])
        return Thing(journal.written([*rows, row]), self._set_to())

    def _shorter(self):
        """Take the latest reading off its series, and say which it was."""
        rows = self._rows()
        if not rows:
            raise StudentError("a name under which no reading is kept", "the name of a series", "one from the list")
        name = kitchen.thing_named(self.keeper.name.value)
        self.keeper.replace(name, Thing(journal.written(rows[:-1]), self._set_to()) if rows[1:] else None)
        self._show(rows[:-1])
        self.keeper.said.value = text_html(f"Removed: {rows[-1]}.", "note")

    def _set_to(self):
        """What stands in the boxes, by their names."""
        boxes = {name: box.value for name, box in self.boxes.items()}
        return {"filling": self.filling.value, "formula": self.formula.value, "salt": self.salt.value, **boxes}

    def _opened(self, _name, thing):
        """Show the readings kept under a name, and put the boxes as they stood at the last of them."""
        rows, held = journal.read(thing.text), thing.settings
        for control, options in ((self.filling, self.filling.options), (self.salt, _SALTS)):
            name = "filling" if control is self.filling else "salt"
            control.value = held[name] if held.get(name) in options else control.value
        for name, box in (*self.boxes.items(), ("formula", self.formula)):
            box.value = held.get(name, box.value)
        self._show(rows)

    def _show(self, rows):
        """Draw the readings and list them, the latest first."""
        self.picture.value = self.list.value = ""
        self._drawn = rows
        self._last.layout.display = "flex" if rows else "none"
        if rows:
            said = self.journal.update(rows=rows)
            self.picture.value = picture_html(self.journal)
            kept = part("sections", sections=(("Readings, the latest first", [str(row) for row in rows[::-1]]),))
            self.list.value = text_html(said) + str(part("legend", text=journal.LEGEND)) + str(kept)


def reading_bench():
    """Your own meter reading beside the estimate of your formula."""
    return ReadingBench()
