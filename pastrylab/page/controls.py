"""A bench's controls: what each number may be, how a typed one is read, and how it is written in either system."""

import math
import re
from dataclasses import dataclass

from pastrylab.ground.currencies import CURRENCIES
from pastrylab.ground.grammar import dimension
from pastrylab.ground.money import money
from pastrylab.ground.spellings import COUNTS, SMALL
from pastrylab.ground.units import Quantity, StudentError, in_digits, kind_of, read_text, symbol, unit_named, us_unit

_SHOWN = 0.0005  # a limit as a page writes it, four digits, may be typed
_EITHER_WAY = re.compile(r"^\s*(?:±|\+\s*/?\s*[-−–])\s*(?=[\d.,])")  # in front of an error, where it says nothing new


@dataclass(frozen=True)
class Control:
    """One number a student can move: name, label, metric unit ("" for a share in %), range and step, start value.

    The number lives in `unit`; system, "metric" or "US", only says how it is written and how a bare number is meant.
    us: low, high and step in the US customary unit; of these the step is the one a slider's moves are rounded to there.

    >>> melt = Control("melt", "It stands at", "degC", 40, 55, 0.5, 45, us=(104, 131, 1))
    >>> melt.read("113 F", "metric"), melt.text(45, "US"), melt.range_in_words("metric")
    (45.0, '113', 'from 40 to 55 °C')
    """

    name: str
    label: str
    unit: str
    low: float
    high: float
    step: float
    value: float
    us: tuple[float, float, float] | None = None

    def unit_in(self, system):
        unit = self.unit or "percent"
        return unit if system == "metric" else us_unit(unit) or unit

    def title(self, system):
        """The label with its unit in that system."""
        return f"{self.label} ({self.mark(system)})"

    def mark(self, system):
        """What stands behind a number on a page."""
        return symbol(self.unit_in(system))

    @property
    def is_share(self):
        """Whether the figure is given a hundredth of the number."""
        return not self.unit

    # --- a slider's places: a grid in the metric unit, the same in both systems -----------------------------------

    @property
    def places(self):
        """The number of steps of its slider."""
        return math.ceil(round((self.high - self.low) / self.step, 6))

    def at(self, place, system):
        """The number at a place of the slider; in the US system the nearest whole step of its unit, where there is one."""
        number = round(min(self.low + place * self.step, self.high), 9)
        if system == "metric" or not self.us or self.unit_in(system) == self.unit:
            return number
        step = self.us[2]
        near = self._metric(round(self._shown(number, system) / step) * step, self.unit_in(system))
        return near if self.low <= near <= self.high else number

    def place_of(self, number):
        """The place of the slider nearest to a number."""
        return min(max(round((number - self.low) / self.step), 0), self.places)

    # --- writing and reading -----------------------------------------------------------------------------------------

    def text(self, number, system):
        """A number as its box shows it in that system."""
        unit, shown = self.unit_in(system), self._shown(number, system)
        if unit in SMALL:  # three decimals could be read as thousands
            shown = round(shown, 2)
        written = in_digits(shown, 6 if unit in (self.unit, "percent") else 4)
        return f"{written} %" if unit == "percent" and self._either(shown) else written

    def read(self, text, system):
        """The number a typed text means, in `unit`. Raises StudentError for what is unclear or out of range."""
        try:
            number = round(self.meant(text, system), 9)
        except StudentError as error:
            if self.label in error.given:
                raise
            needed = error.needed.replace(" and its unit", "").replace(" first, then its unit", " first")
            raise StudentError(f"{error.given} for '{self.label}'", needed, self._example(system)) from None
        nearest = min(max(number, self.low), self.high)
        if abs(number - nearest) > _SHOWN * abs(nearest):
            raise StudentError(f"{text.strip()[:40]} for '{self.label}'", self.range_in_words(system))
        return nearest

    def meant(self, text, system):
        """The number a typed text means, whatever the range."""
        unit = self.unit_in(system)
        if self.label.endswith("good to"):
            text = _EITHER_WAY.sub("", text)
        typed = read_text(text, dimension(unit), bare=unit, nouns=True)
        if typed.unit and (
            dimension(typed.unit) != dimension(unit) or (unit == "percent") != (typed.unit == "percent")
        ):
            raise self.refuse(text, _measures(typed.unit))
        if typed.unit.startswith("delta_"):
            raise self.refuse(text, "a difference between two temperatures")
        if unit == "percent" and not typed.unit:
            self._ask_share(text, typed.number)
        return self._metric(typed.number, typed.unit or unit) if unit != "percent" else typed.number

    def _ask_share(self, text, number):
        """Refuse a bare 0.08 of which nobody knows whether it is a share or per cents."""
        if self._either(number):
            offers = f"{in_digits(100 * number, 6)} %", f"{in_digits(number, 6)} %"
            raise StudentError(f"'{text.strip()[:40]}', which can be read two ways", " or ".join(offers), offers[0])

    def _either(self, number):
        """Whether a bare number can be a share or per cents: this control moves by whole ones, and both are in its range."""
        both = (number, round(100 * number, 9))
        return self.step >= 1 and 0 < number < 1 and all(self.low <= one <= self.high for one in both)

    def refuse(self, text, why):
        """The StudentError for a typed text that is no number of this control."""
        needed = kind_of(self.unit) if self.unit else "a percentage"
        return StudentError(f"'{text.strip()[:40]}' for '{self.label}': {why}", needed, self._example("metric"))

    def range_in_words(self, system):
        """From which to which number, in that system; what is written there is within."""
        low, high = (self.text(end, system) for end in (self.low, self.high))
        return f"from {low} to {high} {self.mark(system)}".strip()

    def _example(self, system):
        return f"{self.text(self.value, system)} {self.mark(system)}".strip()

    def _shown(self, number, system):
        unit = self.unit_in(system)
        same = unit in (self.unit, "percent")
        return float(number) if same else float(Quantity(number, self.unit).m_as(unit))

    def _metric(self, number, unit):
        return round(float(Quantity(number, unit).m_as(self.unit)), 9) if unit != self.unit else float(number)


@dataclass(frozen=True)
class Plain(Control):
    """A number that has no unit of the kitchen: a pH, pieces, money. `unit` is the word behind its label, or "".

    >>> Plain("sold", "You sell, a week", "boxes", 0, 400, 1, 75).read("6 dozen", "metric")
    72.0
    """

    def unit_in(self, system):
        return self.unit

    def title(self, system):
        return f"{self.label} ({self.unit})" if self.unit else self.label

    def mark(self, system):
        return self.unit

    @property
    def is_share(self):
        return False

    def text(self, number, system):
        return in_digits(number, 6)

    def at(self, place, system):
        return round(min(self.low + place * self.step, self.high), 9)

    def refuse(self, text, why):
        return StudentError(
            f"'{text.strip()[:40]}' for '{self.label}': {why}", "a plain number", self._example("metric")
        )

    def meant(self, text, system):
        code = self.unit.split(" ")[0]
        if code in CURRENCIES:
            return self._money(text, code)
        typed = read_text(self._bare(text), nouns=False)
        if not typed.unit or (typed.unit in COUNTS and typed.unit != "dozen") or self._says(typed.unit):
            return typed.number
        if typed.unit == "dozen":
            return 12 * typed.number
        if typed.unit == "percent" and self.high <= 1:
            return typed.number / 100
        try:
            mine = unit_named(self.unit) if self.unit else ""
        except StudentError:
            mine = ""
        if mine and typed.unit != "percent" and dimension(mine) == dimension(typed.unit):
            return float(typed.quantity.m_as(mine))
        raise self.refuse(text, _measures(typed.unit))

    def _bare(self, text):
        """The text without the word of its label: "pH 3,2" is 3,2 where the label says pH."""
        for word in (re.escape(self.label.split(",")[0]), re.escape(self.unit)):
            if word:
                text = re.sub(rf"^\s*{word}\s*[:=]?\s*(?=\S)|(?<=\S)\s*\b{word}\s*$", "", text, flags=re.IGNORECASE)
        return text

    def _says(self, unit):
        return symbol(unit) in re.findall(r"\w+", self.label)

    def _money(self, text, code):
        amount = money(self._bare(text), f"'{self.label}'", at_least=None)
        if amount.currency not in ("", code):
            raise self.refuse(text, f"in {amount.currency}; the page counts in {code}")
        return float(amount)


def _measures(unit):
    return "a percentage" if unit == "percent" else f"{symbol(unit)} measures {kind_of(unit)}"
