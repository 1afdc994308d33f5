"""What a prep list leaves open, asked one by one: which ingredient, how much, in which unit, and what the whole weighs."""

import ipywidgets as widgets

from pastrylab.ground.units import In, StudentError
from pastrylab.page.bench import guarded
from pastrylab.page.boxes import WIDE, TypedBox, TypedPick, field
from pastrylab.page.parts import text_html
from pastrylab.trade.pantry import facts
from pastrylab.trade.prep.prep_list import LEAVE_OUT, read_list

_UNITS = (("I say it line by line", ""), ("grams", "g"), ("kilograms", "kg"), ("ounces", "oz"), ("pounds", "lb"))
_WHOLE = In("g", above=0, example="1 kg")
_TOTAL, _UNIT, _BETWEEN = "total", "unit", " | "


class PrepQuestions(widgets.VBox):
    """The questions of a list. `read` reads it with what was answered; again is called when an answer comes in."""

    def __init__(self, again):
        self._again, self._picks = again, {}
        self.unit = widgets.Dropdown(options=_UNITS, description="Numbers without a unit are", **field("420px"))
        self.total = TypedBox(description="The whole is to weigh", placeholder="for example 1 kg", **field("420px"))
        self.said = widgets.HTML(layout=WIDE)
        for box in (self.unit, self.total):
            self._hear(box)
        super().__init__([], layout=WIDE)

    def _hear(self, box):
        box.observe(guarded(self.said)(lambda _change: self._again()), "value")

    @property
    def answers(self):
        """{(line, what is asked): answer}, of every question that was answered."""
        return {key: box.value.strip() for key, box in self._picks.items() if box.value.strip()}

    def read(self, text):
        """The PrepList of a text, and its questions put on the page."""
        self.said.value = ""
        made = read_list(text, self.answers, self.unit.value, self._whole())
        shown = []
        if made.unit_asked or self.unit.value:
            shown.append(self.unit)
        for line in made.lines:
            if line.asks:
                self._ask(line)
            for about in ("ingredient", "amount"):
                box = self._picks.get((line.typed, about))
                if box and box not in shown and (line.asks or box.value):
                    shown.append(box)
        # A list of masses that follows one in percent has no use for its total.
        if made.total_asked or (self.total.value and any(line.percent is not None for line in made.parts)):
            shown.append(widgets.HTML(text_html(made.total_asked, "note"), layout=WIDE))
            shown.append(self.total)
        if [*shown, self.said] != list(self.children):
            self.children = [*shown, self.said]
        return made

    def _ask(self, line):
        key = line.typed, line.asks.about
        if key not in self._picks:
            self._picks[key] = TypedPick(placeholder="type or choose", **field("640px"))
            self._hear(self._picks[key])
        names = list(facts()) if line.asks.about == "ingredient" else []
        box = self._picks[key]
        box.description = line.asks.sentence
        box.options = list(dict.fromkeys([*line.asks.choices, LEAVE_OUT, *names]))

    def _whole(self):
        """The total in g, None where none is typed."""
        if not self.total.value.strip():
            return None
        try:
            return _WHOLE.floats("the whole", self.total.value)
        except StudentError as error:
            self.said.value = text_html(str(error), "mend")
            return None

    # --- kept with the list, so that a question answered once stays answered

    def settings(self):
        """What was answered, as {text: text}."""
        held = {f"{about}{_BETWEEN}{line}": answer for (line, about), answer in self.answers.items()}
        return {**held, **{name: box.value for name, box in ((_TOTAL, self.total), (_UNIT, self.unit)) if box.value}}

    def restore(self, settings):
        """Answer again what was answered before."""
        for name, value in settings.items():
            about, between, line = name.partition(_BETWEEN)
            if between and about in ("ingredient", "amount"):
                self._picks[line, about] = TypedPick(value=value, placeholder="type or choose", **field("640px"))
                self._picks[line, about].description = f"'{line[:60]}': {about}"
                self._hear(self._picks[line, about])
        self.total.value = settings.get(_TOTAL, "")
        self.unit.value = settings.get(_UNIT, "") if settings.get(_UNIT, "") in dict(_UNITS).values() else ""
