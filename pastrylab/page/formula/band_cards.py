"""A card a band of a mending: whether it must hold, from where to where, and where the formula lies."""

import ipywidgets as widgets

from pastrylab.ground import careful
from pastrylab.ground.units import StudentError, read_text
from pastrylab.page.bench import guarded
from pastrylab.page.blanks import Blank
from pastrylab.page.boxes import WIDE, TypedBox, field, row
from pastrylab.page.formula.tab import percent
from pastrylab.page.parts import part, text_html
from pastrylab.trade.activity import estimated
from pastrylab.trade.mending_rows import ACTIVITY

_CARD = {"flex": "1 1 250px", "max_width": "360px", "margin": "4px 14px 8px 0"}
_HAIR = 1e-6  # of a share: what a mass written with seven digits is unsure of
_ACTIVITY_AT_MOST = "0.90"


class BandCard(widgets.VBox):
    """One band: whether it must hold, from where to where, and where the formula lies."""

    ENDS = ("at least", "at most")

    def __init__(self, component, holds=True):
        self.component, self._seen = component, None
        self.holds = widgets.Checkbox(
            value=holds, description=f"Hold {component} in this band", indent=False, layout=WIDE
        )
        self.ends = {
            word: TypedBox(description=f"{component.capitalize()} {word}", **field("160px")) for word in self.ENDS
        }
        self.seen = widgets.HTML(layout=WIDE)
        for box in (self.holds, *self.ends.values()):
            box.observe(guarded(self.seen)(lambda _change: self.look()), "value")
        super().__init__([self.holds, row(*self.ends.values()), self.seen], layout=_CARD)

    def put(self, low, high):
        """Write a band of shares into the boxes; None for an open end."""
        for word, end in zip(self.ENDS, (low, high), strict=True):
            self.ends[word].value = "" if end is None else f"{100 * end:.4g} %"

    def band(self):
        """(low, high) as mend takes it, None for an open end. Raises StudentError naming the box."""
        low, high = (self._end(word) for word in self.ENDS)
        if low is None and high is None:
            raise StudentError(
                f"no figure for {self.component}", "a figure in one of its boxes, or no tick", self.example
            )
        if low is not None and high is not None and low > high:
            given = f"{self.component} at least {self.written(low)} and at most {self.written(high)}"
            raise StudentError(given, "the lower figure under 'at least'", self.example)
        return low, high

    example = "18 % and 25 %"

    def _end(self, word):
        text = self.ends[word].value.strip()
        if not text:
            return None
        share = float(Blank(f"{self.component} {word}", "", "%", "25 %").read(text).m_as(""))
        if share > 1:
            raise StudentError(f"'{text[:40]}' for {self.component}", "a percentage up to 100 %", "25 %")
        return share

    def written(self, share):
        return f"{100 * share:.3g} %"

    def show(self, formula):
        """Take a formula and say where it lies."""
        share = formula.composition()[self.component]
        self._seen = share, share, share
        self.look()

    def look(self):
        """Say, and draw, where the formula lies in the band that stands in the boxes."""
        if self._seen is None:
            return
        low, high = self.band() if any(box.value.strip() for box in self.ends.values()) else (None, None)
        self.seen.value = part("band", words=self._words(low, high), **self._drawn(low, high))

    def _words(self, low, high):
        value, least, most = self._seen
        now = f"Now {self.now()}"
        if low is None and high is None:
            return f"{now}."
        if low is not None and least < low - _HAIR:
            return f"{now}: below the band by {self._gap(low - least)}."
        if high is not None and most > high + _HAIR:
            return f"{now}: above the band by {self._gap(most - high)}."
        return f"{now}: inside."

    def now(self):
        return percent(self._seen[0])

    def _gap(self, gap):
        return f"{100 * gap:.2g} points" if gap >= 0.0001 else "less than 0.01 points"

    _SCALE = (0.0, 1.0)

    def _drawn(self, low, high):
        """Where band, error and value are drawn, on a scale of 200."""
        start, end = self._scale(high)

        def at(share):
            return round(200 * min(max((share - start) / (end - start), 0.0), 1.0), 1)

        value, least, most = self._seen
        edges = at(low or 0.0), at(1.0 if high is None else high)
        band = None if low is None and high is None else (edges[0], round(edges[1] - edges[0], 1))
        return {"band": band, "error": (at(least), round(at(most) - at(least), 1)), "at": at(value)}

    def _scale(self, high):
        return 0.0, min(1.0, 1.3 * max(self._seen[2], high or 0.0, 0.05))


class ActivityCard(BandCard):
    """The band on water activity: at most, judged at the careful end of the estimate; not asked for unless ticked."""

    ENDS = ("at most",)
    example = _ACTIVITY_AT_MOST

    def __init__(self):
        super().__init__(ACTIVITY, holds=False)
        self.ends["at most"].value = _ACTIVITY_AT_MOST

    def band(self):
        end = self._end("at most")
        if end is None:
            raise StudentError("no figure for water activity", "a figure in its box, or no tick", self.example)
        return None, end

    def _end(self, word):
        text = self.ends[word].value.strip()
        if not text:
            return None
        typed = read_text(text)
        number = typed.number / 100 if typed.unit == "percent" else typed.number
        if typed.unit not in ("", "percent") or not 0 < number <= 1:
            raise StudentError(f"'{text[:40]}' for water activity", "a number above 0 and up to 1", self.example)
        return number

    def show(self, formula):
        try:
            found = estimated(formula)
        except StudentError as error:
            self._seen = None
            self.seen.value = text_html(f"No estimate: {error}", "note")
            return
        self._seen = found.value, found.low, found.high
        self._written = found.written
        self.look()

    def look(self):
        if self._seen is not None:
            end = self._end("at most")
            self.seen.value = part("band", words=self._words(None, end), **self._drawn(None, end))

    def now(self):
        return f"about {self._written}"

    def _words(self, low, high):
        if high is None:
            return f"Now {self.now()}."
        most = careful.written_up(self._seen[2])
        under = self._seen[2] <= high
        return f"Now {self.now()}: its high end, {most}, is {'not above' if under else 'above'} {high:g}."

    def _scale(self, high):
        return 0.5, 1.0
