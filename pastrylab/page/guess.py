"""A guess beside its result: what was said before the bench, read again, and the sentence that compares the two."""

import weakref
from dataclasses import dataclass

from pastrylab.ground.grammar import dimension
from pastrylab.ground.units import Q, StudentError, read_text, show, us_unit
from pastrylab.school import answers, whose
from pastrylab.trade.weighing import us_mass

_RIGHT = 0.005  # of the result: no page shows less
_TIMES = 3  # from here on a per cent says less than "4 times as much"
_BENCHES = weakref.WeakSet()


@dataclass(frozen=True)
class Asked:
    """What a guess is about. unit: "g", "min", "h" or "percent", in which the result is given; thing: as a sentence names it.

    >>> Asked("02", "seed", "g", "the bowl").id
    '02.guess.seed'
    """

    lesson: str
    name: str
    unit: str
    thing: str

    @property
    def id(self):
        """The name it is kept under."""
        return f"{self.lesson}.guess.{self.name}"

    def said(self):
        """The guess as it was typed last, "" without one. Raises StudentError where the answers cannot be read."""
        entry = answers.guessed(self.lesson, self.id, whose.student())
        return entry["answer"] if entry else ""

    def number(self, said):
        """What is said as a float in `unit`, None where it is of another kind: such a guess was kept by an older page."""
        try:
            typed = read_text(said)
            alike = typed.unit and dimension(typed.unit) == dimension(self.unit)
            if not alike or (typed.unit == "percent") != (self.unit == "percent"):
                return None
            return typed.number if self.unit == "percent" else float(typed.quantity.m_as(self.unit))
        except StudentError:
            return None

    def written(self, number, system):
        """A number in `unit` as a page writes it in that system.

        >>> seed = Asked("02", "seed", "g", "the bowl")
        >>> seed.written(719.3, "metric"), seed.written(719.3, "US")
        ('719 g', '1 lb 9.4 oz')
        """
        if self.unit == "percent":
            return show(Q(round(number, 1 if number < 10 else 0), "percent"), 3)
        if self.unit in ("min", "h"):
            return show(Q(number, self.unit), 2 if self.unit == "min" else 3)
        return us_mass(number) if system == "US" else show(Q(number, "g"), 3)


@dataclass(frozen=True)
class Met:
    """A guess that has met its result: what a figure's `result_of_guess` returns.

    result: in the unit of the guess; then: what the guess would have done, in sentences; at: where the picture marks
    it, points (x, y) of its axes, None for the whole length of one; error: the ends of the result, where it is an estimate.
    """

    result: float
    then: str
    at: tuple
    error: tuple = ()


def compared(asked, said, number, met, system, moved):
    """The sentence that puts a guess beside its result. moved: whether the controls have left what was asked.

    >>> seed, met = Asked("02", "seed", "g", "the bowl"), Met(719.3, "The bowl would stand at 34.8 °C.", ())
    >>> compared(seed, "500 g", 500, met, "metric", False)
    'You said 500 g, the sum says 719 g: 30 % short. The bowl would stand at 34.8 °C.'
    """
    ends = [asked.written(end, system) for end in met.error]
    about = f" ({ends[0].removesuffix(' %')} to {ends[1]})" if ends and ends[0] != ends[1] else ""
    result = f"{asked.written(met.result, system)}{about}"
    start = f"For {asked.thing} you were asked about you said" if moved else "You said"
    says = f"the {'estimate' if met.error else 'sum'} says {result}"
    return f"{start} {_typed(asked, said, number, system)}, {says}: {_off(asked, number, met)}. {met.then}".strip()


def _typed(asked, said, number, system):
    """The guess as it was typed, and in the units in force where those are others."""
    if asked.unit == "percent":
        return said
    typed = read_text(said).unit
    if asked.unit in ("min", "h"):
        return said if typed == asked.unit else f"{said}, that is {asked.written(number, system)}"
    in_force = typed in (("g", "kg") if system == "metric" else ("oz", "lb", us_unit("g"), us_unit("kg")))
    return said if in_force else f"{said}, that is {asked.written(number, system)}"


def _off(asked, number, met):
    if met.error and met.error[0] <= number <= met.error[1]:
        return "within its error"
    off = number / met.result - 1
    if abs(off) < _RIGHT or (asked.unit == "percent" and round(number) == round(met.result)):
        return "right"
    times = met.result / number if 0 < number < met.result else number / met.result
    if times >= _TIMES:
        return f"it is {times:.0f} times your guess" if off < 0 else f"your guess is {times:.0f} times as much"
    if asked.unit == "percent":
        return "too high" if off > 0 else "too low"
    return f"{100 * abs(off):.0f} % {'too much' if off > 0 else 'short'}"


def awaits(bench):
    """Let a bench know when a guess is kept: its `guess_kept(id)` is called."""
    _BENCHES.add(bench)


def tell(which):
    """A guess was kept: every bench that stands open hears of it."""
    for bench in list(_BENCHES):
        bench.guess_kept(which)
