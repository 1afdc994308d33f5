"""Answers that are numbers: near enough to the right one, a slip, or out by something that has a name."""

import math
from dataclasses import dataclass

import pint

from pastrylab.ground.units import StudentError, dimension, in_other_unit, kind_of, symbol
from pastrylab.school import reading
from pastrylab.school.kinds.kind import Kind
from pastrylab.school.verdict import Verdict

_CAP_ON_TYPED_DIGITS = 0.01
_SLACK = 1e-9  # of floats, far below any digit typed
_BEYOND = {"high": "An upper limit is never rounded up.", "low": "A lower limit is never rounded down."}
_MORE_DIGITS = "Work on with all digits, and round once, at the end, to what your scale or probe shows."
_FITS = "The number fits, the unit does not. "


@dataclass(frozen=True)
class Measured(Kind):
    """An answer that is a number, right within a tolerance.

    unit: what it is compared in. measures: what that is, in words. asked: the unit a typed answer is read in, "" for
    none. own_words: words that may stand behind a plain number. alike: units a right size is likely to be taken in.
    factor: what a misplaced unit is out by, 0 for none; check: where to look then.

    >>> from pastrylab import exercises
    >>> seed = exercises.exercise("02.seed-for-a-bowl").how
    >>> seed.unit, seed.measures, seed.factor
    ('g', 'a mass', 1000)
    """

    own_words = ""
    asked = ""
    alike = ()
    factor = 1000
    check = "Check the prefixes: kilo means 1000."

    @property
    def unit(self):
        return self.exercise.unit or "dimensionless"

    @property
    def measures(self):
        return kind_of(self.unit)

    # --- in numbers and as text -----------------------------------------------------------------------------------

    def in_unit(self, value):
        """A quantity or a number as a plain float in `unit`."""
        return float(value.m_as(self.unit) if isinstance(value, pint.Quantity) else value)

    def safe(self, number):
        """A limit to the four digits a page shows, never beyond itself; every other number as it is."""
        if not (self.exercise.limit and number):
            return number
        step = 10.0 ** (math.floor(math.log10(abs(number))) - 3)
        whole = math.floor if self.exercise.limit == "high" else math.ceil
        return round(whole(round(number / step, 6)) * step, 12)

    def tolerance(self, expected, step=0.0):
        """How far an answer may lie from `expected`, in `unit`: the larger of what scale or probe can tell apart and
        half the last digit typed, the latter at most 1 % of the answer. step: value of the last digit typed.

        >>> from pastrylab import exercises
        >>> exercises.exercise("02.heat-to-melt-out").how.tolerance(300, step=10)  # half of 10 kJ, but 1 % is 3 kJ
        3.0
        """
        return max(self.resolution(expected), min(step / 2, _CAP_ON_TYPED_DIGITS * abs(expected)))

    def resolution(self, expected):
        """What scale or probe can tell apart, in `unit`."""
        return self.exercise.resolution

    @property
    def tolerance_text(self):
        """What counts as right and why, for a page: "5 g: the batch scale shows 5 g"; "" where no reason is given."""
        return f"{self._resolution_text}: {self.exercise.because}" if self.exercise.because else ""

    @property
    def _resolution_text(self):
        unit = self.exercise.unit.removeprefix("delta_").replace("deg", "°")
        return f"{self.exercise.resolution:g} {unit}".strip()

    def absurd(self, expected):
        low, high = self.exercise.sane
        if low <= expected <= high:
            return ""
        shown = self.show(expected)
        if math.isinf(low) or math.isinf(high):
            sensible = f"at most {self.show(high)}" if math.isinf(low) else f"{self.show(low)} or more"
        else:
            sensible = f"{self.show(low)} to {self.show(high)}"
        return f"{shown} is absurd (sensible: {sensible})"

    # --- what was typed -------------------------------------------------------------------------------------------

    def read(self, text, expected):
        """What was typed as Typed(number, unit, step). Raises StudentError for what cannot be read."""
        return reading.read_number(text, self.asked, self.own_words)

    def bare(self, number):
        """Whether a number without a unit is an answer."""
        return False

    def converted(self, typed):
        """(number, step of its last digit) in `unit`."""
        if typed.unit in ("", self.unit):
            return typed.number, typed.step
        number = in_other_unit(typed.number, typed.unit, self.unit)
        return number, abs(in_other_unit(typed.number + typed.step, typed.unit, self.unit) - number)

    def room(self, expected, step):
        """How far a typed number may lie from what it counts as: the tolerance round the right answer."""
        return self.tolerance(expected, step) * (1 + _SLACK)

    def beyond(self, number, expected):
        """Whether a typed number lies on the unsafe side of an answer that is a limit: no digits typed widen it."""
        over = number - expected
        return {"high": over, "low": -over}.get(self.exercise.limit, 0.0) > _SLACK * max(1.0, abs(expected))

    # --- the verdict ----------------------------------------------------------------------------------------------

    def verdict(self, worked, answer):
        expected = worked.expected
        try:
            typed = self.read(str(answer), expected)
        except StudentError as error:
            example = error.example if "two ways" in error.given else self.example(expected)
            return Verdict("unreadable", str(StudentError(error.given, error.needed, example)))
        trouble = self.unit_trouble(typed, expected)
        if trouble:
            return trouble
        number, step = self.converted(typed)
        return (
            self._right(worked, number, step)
            or self.same_number(typed, expected)
            or self._slip(worked, number, step)
            or self._same_size(typed, expected)
            or self._out_by_a_factor(number, expected, step)
            or self._rounded_too_far(typed, number, expected, step)
            or self._off(worked, number)
        )

    def unit_trouble(self, typed, expected):
        """A Verdict on a unit that is missing or measures something else; None where the unit will do."""
        if not typed.unit:
            if self.bare(typed.number):
                return None
            example = self.example(expected)
            return Verdict("unit", f"Your answer has no unit: {typed.number:g} of what? Write it like this: {example}.")
        if dimension(typed.unit) == dimension(self.unit):
            return None
        says = f"{symbol(typed.unit)} measures {kind_of(typed.unit)}; asked is {self.measures}, "
        return Verdict("unit", self._fits_says(typed, expected) + says + f"for example {self.example(expected)}.")

    def _fits(self, typed, expected):
        """Whether the number typed is the right one, whatever its unit."""
        return abs(typed.number - expected) <= self.tolerance(expected, typed.step)

    def _fits_says(self, typed, expected):
        return _FITS if self._fits(typed, expected) else ""

    def _right(self, worked, number, step):
        expected = worked.expected
        if not abs(number - expected) <= self.room(expected, step):
            return None
        if self.beyond(number, expected):
            limit = _BEYOND[self.exercise.limit]
            return Verdict("wrong", f"Very near, but beyond it. {limit} Give one more digit.")
        exact = worked.praise(number)
        off = abs(number - expected) > 1e-3 * abs(expected)
        return Verdict("right", f"Right: {exact}." if off else f"Right, {exact}.")

    def praise(self, expected, number):
        """What is said after "Right": the exact answer."""
        return self.show(expected)

    def same_number(self, typed, expected):
        """A Verdict on the right number with another unit of the right kind, 480 kg for 480 g; else None."""
        if not typed.unit or symbol(typed.unit) == symbol(self.unit) or not self._fits(typed, expected):
            return None
        wrote = symbol(typed.unit)
        return Verdict("unit", f"The number is right, the unit is not: you wrote {wrote}. Which unit did you work in?")

    def _slip(self, worked, number, step):
        room = self.room(worked.expected, step)
        found = [(off, slip) for slip, wrong in worked.wrong if (off := abs(number - wrong)) <= room]
        if not found:
            return None
        slip = min(found, key=lambda pair: pair[0])[1]
        return Verdict("wrong", worked.fill(slip.says), slip.name)

    def _same_size(self, typed, expected):
        """The right size labelled with another unit."""
        wrote = symbol(typed.unit)
        for unit in self.alike if typed.unit else ():
            if symbol(unit) == wrote:
                continue
            there = in_other_unit(expected, self.unit, unit)
            apart = max(min(typed.step / 2, _CAP_ON_TYPED_DIGITS * abs(there)), 1e-3 * abs(there))
            if abs(typed.number - there) <= apart:
                would = f"that many {symbol(unit)} would do, you wrote {wrote}"
                return Verdict("unit", f"The size is right, its unit is not: {would}.")
        return None

    def _out_by_a_factor(self, number, expected, step):
        for times, size in ((self.factor, "large"), (1 / self.factor, "small")) if self.factor else ():
            if abs(number - expected * times) <= self.tolerance(expected, step / times) * times:
                return Verdict("wrong", f"Your answer is {self.factor} times too {size}. {self.check}")
        return None

    def _rounded_too_far(self, typed, number, expected, step):
        coarse = step * (reading.coarse(typed) / typed.step if typed.step else 1)
        if reading.rounded_too_far(number, expected, coarse):
            return Verdict("wrong", f"Close, but rounded too far. {_MORE_DIGITS}")
        return None

    def _off(self, worked, number):
        way = "high" if number > worked.expected else "low"
        return Verdict("wrong", f"Not yet: your answer is too {way}. {worked.hint}")
