"""Exercises as functions: what one is, the values a student gets, the verdict on an answer, the key.

An exercise's numbers come from exercise_values.csv alone. Its answer, slips and worked steps are computed from them,
so one changed value changes prompt, answer, slips, solution and key together.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass, field

import pint

from pastrylab.ground.money import Money
from pastrylab.ground.units import Quantity, StudentError, both, kind_of, symbol
from pastrylab.school import money_answers, reading
from pastrylab.school.draws import fill, givens

_TEMPERATURES = ("reading", "difference")
_CAP_ON_TYPED_DIGITS = 0.01
_PREFIXES = "Check the prefixes: kilo means 1000."
_BEYOND = {"high": "An upper limit is never rounded up.", "low": "A lower limit is never rounded down."}
_MORE_DIGITS = "Work on with all digits, and round once, at the end, to what your scale or probe shows."
_PERCENT = "As a percentage, a share is a hundred times as large."


@dataclass(frozen=True)
class Slip:
    """A wrong path students really take: a name, the wrong answer as a function of the givens, a sentence that helps."""

    name: str
    wrong: Callable
    says: str


@dataclass(frozen=True)
class Option:
    """One answer of a judgement: a short name, the text (givens in braces), what to say when it is chosen wrongly, and
    when it is right; the latter "" only where no values of the file make it the right one.
    """

    name: str
    text: str
    says: str = ""
    when_right: str = ""


@dataclass(frozen=True)
class Exercise:
    """One exercise.

    prompt, steps: text with givens and lets in braces ("{batch}"). answer, lets, slips: functions of one argument, a
    namespace that holds every given and every let. kind: "quantity", "reading", "difference", "share", "number",
    "money" or "choice"; unit: what the answer is asked in ("" for money: its currency comes with the givens).
    resolution (in unit): what scale or probe can tell apart, and why.
    sane: the lowest and highest answer that makes sense at a bench, in unit. table: rows shown under the prompt.
    limit: "high" where the answer is the most that will do, "low" where it is the least: no tolerance beyond it.
    """

    id: str
    title: str
    prompt: str
    answer: Callable
    hint: str
    steps: tuple[str, ...]
    kind: str = "quantity"
    unit: str = ""
    resolution: float = 0.0
    because: str = ""
    sane: tuple[float, float] = (0.0, float("inf"))
    slips: tuple[Slip, ...] = ()
    options: tuple[Option, ...] = ()
    lets: dict[str, Callable] = field(default_factory=dict)
    table: Callable | None = None
    limit: str = ""

    @property
    def lesson(self):
        return self.id.split(".")[0]


@dataclass(frozen=True)
class Verdict:
    """What grade says: status "right", "wrong", "unit" or "unreadable"; the message; the slip's name or ""."""

    status: str
    message: str
    slip: str = ""

    @property
    def right(self):
        return self.status == "right"


# --- what a page shows ---------------------------------------------------------------------------------------------


def prompt(exercise, student="", values=None):
    """The exercise's text for this student, numbers filled in."""
    return fill(exercise.prompt, givens(exercise, student, values))


def solution(exercise, student="", values=None):
    """The worked solution: a list of sentences with this student's numbers, the answer last."""
    g = givens(exercise, student, values)
    return [fill(step, g) for step in exercise.steps] + [f"Answer: {answer_text(exercise, g)}."]


def options(exercise, student="", values=None):
    """A judgement's options as (letter, text) with this student's numbers."""
    g = givens(exercise, student, values)
    return [("ABCDEFGH"[i], fill(option.text, g)) for i, option in enumerate(exercise.options)]


# --- numbers in the answer's unit ---------------------------------------------------------------------------------


def in_unit(exercise, value):
    """A computed answer as a plain float in the exercise's unit (a share and a number have none); money as Money."""
    if exercise.kind == "money":
        return value if isinstance(value, Money) else Money(value)
    if isinstance(value, pint.Quantity):
        return float(value.m_as(_asked(exercise)))
    return float(value)


def _asked(exercise):
    if exercise.kind == "difference":
        return "delta_" + exercise.unit.removeprefix("delta_")
    return exercise.unit or "dimensionless"


def answer_text(exercise, g):
    """The right answer as a page shows it."""
    value = exercise.answer(g)
    if exercise.kind == "choice":
        return next(f"{'ABCDEFGH'[i]}, {o.name}" for i, o in enumerate(exercise.options) if o.name == value)
    return number_text(exercise, in_unit(exercise, value))


def number_text(exercise, number):
    """A number in the exercise's unit as a page shows it; one that is a limit is never written beyond itself."""
    if exercise.limit and number:
        step = 10.0 ** (math.floor(math.log10(abs(number))) - 3)
        whole = math.floor if exercise.limit == "high" else math.ceil
        number = round(whole(round(number / step, 6)) * step, 12)
    if exercise.kind == "share":
        return f"{100 * number:.4g} %"
    if exercise.kind == "number":
        return f"{number:.4g}"
    if exercise.kind == "money":
        return str(number)
    return both(Quantity(number, _asked(exercise)))


def tolerance(exercise, expected, step=0.0):
    """How far an answer may lie from `expected`, in the exercise's unit: the larger of what scale or probe can tell
    apart and half the last digit typed, the latter at most 1 % of the answer. `step`: value of the last digit typed."""
    apart = exercise.resolution
    if exercise.kind == "money":
        apart *= 10.0 ** (2 - expected.places)  # written down for hundredths; a yen has none, a dinar has thousandths
    return max(apart, min(step / 2, _CAP_ON_TYPED_DIGITS * abs(expected)))


# --- the verdict --------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Case:
    """One student's exercise worked out: givens and lets, the right answer, and (slip, wrong answer) for every slip
    whose path leads to a number. Answers are in the exercise's unit; for a choice `expected` is an option's name."""

    exercise: Exercise
    g: object
    expected: object
    wrong: tuple

    def near(self, number, value, step):
        """Whether a typed number counts as `value`."""
        return abs(number - value) <= tolerance(self.exercise, self.expected, step) * (1 + 1e-9)

    def beyond(self, number):
        """Whether a typed number lies on the unsafe side of an answer that is a limit: no digits typed widen it."""
        over = number - self.expected
        return {"high": over, "low": -over}.get(self.exercise.limit, 0.0) > 1e-9 * max(1.0, abs(self.expected))


def case(exercise, student="", values=None):
    """Work an exercise out for one student. Raises StudentError where the values file cannot serve it."""
    g = givens(exercise, student, values)
    if exercise.kind == "choice":
        return Case(exercise, g, exercise.answer(g), ())
    wrong = []
    for slip in exercise.slips:
        try:
            wrong.append((slip, in_unit(exercise, slip.wrong(g))))
        except (StudentError, ZeroDivisionError):
            continue
    return Case(exercise, g, in_unit(exercise, exercise.answer(g)), tuple(wrong))


def grade(exercise, answer, student="", values=None):
    """The verdict on a typed answer: pure, the same on every machine. `exercise` is an Exercise.

    Returns Verdict. Raises StudentError only where the values file itself cannot serve the exercise.
    """
    return verdict(case(exercise, student, values), answer)


def verdict(worked, answer):
    """The verdict on a typed answer for an exercise that is worked out already (a Case)."""
    exercise, g, expected = worked.exercise, worked.g, worked.expected
    if exercise.kind == "choice":
        return _grade_choice(exercise, answer, g)
    example = _example(exercise, expected)
    try:
        typed = _typed(exercise, str(answer), expected)
    except StudentError as error:
        two_ways = "two ways" in error.given
        return Verdict(
            "unreadable", str(StudentError(error.given, error.needed, error.example if two_ways else example))
        )
    trouble = _unit_trouble(exercise, typed, expected, example)
    if trouble:
        return trouble
    number, step = _number_and_step(exercise, typed)
    if worked.near(number, expected, step):
        if worked.beyond(number):
            return Verdict("wrong", f"Very near, but beyond it. {_BEYOND[exercise.limit]} Give one more digit.")
        return Verdict("right", _praise(exercise, expected, number))
    same_number = _same_number_other_unit(exercise, typed, expected)
    if same_number:
        return same_number
    found = [(abs(number - wrong), slip) for slip, wrong in worked.wrong if worked.near(number, wrong, step)]
    if found:
        slip = min(found, key=lambda pair: pair[0])[1]
        return Verdict("wrong", fill(slip.says, g), slip.name)
    trouble = _size_trouble(exercise, typed, number, expected, step)
    if trouble:
        return trouble
    coarse = step * (reading.coarse(typed) / typed.step if typed.step else 1)
    if reading.rounded_too_far(number, expected, coarse):
        return Verdict("wrong", f"Close, but rounded too far. {_MORE_DIGITS}")
    return Verdict(
        "wrong",
        f"Not yet: your answer is too {'high' if number > expected else 'low'}. {fill(exercise.hint, g)}",
    )


def _typed(exercise, text, expected):
    if exercise.kind == "money":
        return money_answers.read_amount(text, expected.currency)
    asked = _asked(exercise) if exercise.kind in ("quantity", *_TEMPERATURES) else ""
    return reading.read_number(text, asked, f"{exercise.title} {exercise.prompt}" if exercise.kind == "number" else "")


def _number_and_step(exercise, typed):
    """Number and last-digit step in the exercise's unit."""
    if not typed.unit:
        return typed.number, typed.step
    unit = typed.unit
    if exercise.kind == "difference":
        unit = "delta_" + unit if unit in ("degC", "degF") else unit
    asked = _asked(exercise)
    number = Quantity(typed.number, unit).m_as(asked)
    return float(number), abs(float(Quantity(typed.number + typed.step, unit).m_as(asked)) - float(number))


def _example(exercise, expected):
    if exercise.kind == "money":
        return money_answers.example(expected.currency)
    if exercise.kind == "share":
        return "25 %"
    return f"12.5 {symbol(exercise.unit)}".strip() if exercise.unit else "1.5"


def _unit_trouble(exercise, typed, expected, example):
    if exercise.kind == "money":
        fits = abs(typed.number - expected) <= tolerance(exercise, expected, typed.step)
        return Verdict("unit", money_answers.unit_says(typed.unit, fits, example)) if typed.unit else None
    asked = _asked(exercise)
    if not typed.unit:
        if exercise.kind == "number" or (exercise.kind == "share" and 0 <= typed.number <= 1):
            return None
        return Verdict("unit", f"Your answer has no unit: {typed.number:g} of what? Write it like this: {example}.")
    if exercise.kind == "reading" and typed.unit.startswith("delta_"):
        return Verdict("unit", f"That is a difference between two temperatures. Asked is a reading: {example}.")
    if Quantity(1, typed.unit).dimensionality == Quantity(1, asked).dimensionality:
        return None
    fits = abs(typed.number - expected) <= tolerance(exercise, expected, typed.step)
    needed = "a share (a percentage)" if exercise.kind == "share" else kind_of(asked)
    says = f"{symbol(typed.unit)} measures {kind_of(typed.unit)}; asked is {needed}, for example {example}."
    return Verdict("unit", ("The number fits, the unit does not. " if fits else "") + says)


def _same_number_other_unit(exercise, typed, expected):
    """Right number, wrong unit of the right kind: 480 kg for 480 g, 0.24 % for a share of 0.24."""
    asked = _asked(exercise)
    if exercise.kind == "share":
        if typed.unit == "percent" and abs(typed.number - expected) <= tolerance(exercise, expected, typed.step):
            return Verdict(
                "unit",
                "The number is a share, the unit is not: as a percentage it is a hundred times as large.",
            )
        return None
    if not typed.unit or symbol(typed.unit) == symbol(asked):
        return None
    if abs(typed.number - expected) <= tolerance(exercise, expected, typed.step):
        return Verdict(
            "unit",
            f"The number is right, the unit is not: you wrote {symbol(typed.unit)}. Which unit did you work in?",
        )
    return None


def _size_trouble(exercise, typed, number, expected, step):
    """The right size labelled with another unit, or an answer out by a factor of 1000 (100 for a share or money)."""
    for unit in _units_alike(exercise):
        there = float(Quantity(expected, _asked(exercise)).to(unit).magnitude)
        if typed.unit and unit != typed.unit and symbol(unit) != symbol(typed.unit):
            if abs(typed.number - there) <= max(
                min(typed.step / 2, _CAP_ON_TYPED_DIGITS * abs(there)), 1e-3 * abs(there)
            ):
                return Verdict(
                    "unit",
                    f"The size is right, its unit is not: that many {symbol(unit)} would do, you wrote {symbol(typed.unit)}.",
                )
    factor = 100 if exercise.kind in ("share", "money") else 1000
    if exercise.kind not in _TEMPERATURES:
        for times in (factor, 1 / factor):
            if abs(number - expected * times) <= tolerance(exercise, expected, step / times) * times:
                size = "large" if times > 1 else "small"
                check = {"share": _PERCENT, "money": money_answers.CENTS}.get(exercise.kind, _PREFIXES)
                return Verdict("wrong", f"Your answer is {factor} times too {size}. {check}")
    return None


def _units_alike(exercise):
    alike = {
        "[mass]": ("g", "kg", "oz", "lb"),
        "[length] ** 3": ("mL", "L", "cup", "fl_oz", "tbsp", "tsp"),
        "[time]": ("s", "min", "h", "day"),
    }
    if exercise.kind in _TEMPERATURES:
        prefix = "delta_" if exercise.kind == "difference" else ""
        return (prefix + "degC", prefix + "degF")
    if exercise.kind == "quantity":
        kind = str(Quantity(1, _asked(exercise)).dimensionality)
        return alike.get(kind, ("J", "kJ", "kcal") if kind_of(exercise.unit) == "an amount of heat" else ())
    return ()


def _praise(exercise, expected, number):
    exact = number_text(exercise, expected)
    if exercise.kind == "money":
        exact += money_answers.rounding_says(expected, number)
    return f"Right: {exact}." if abs(number - expected) > 1e-3 * abs(expected) else f"Right, {exact}."


def _quoted(answer):
    return f"You gave '{str(answer).strip()[:40]}'." if str(answer).strip() else "You gave no answer yet."


def _grade_choice(exercise, answer, g):
    place = reading.chosen([(option.name, fill(option.text, g)) for option in exercise.options], answer)
    if place is None:
        letters = ", ".join("ABCDEFGH"[: len(exercise.options)])
        return Verdict("unreadable", f"{_quoted(answer)} Needed: one of the letters {letters}. Example: A.")
    chosen, right = exercise.options[place], exercise.answer(g)
    if chosen.name == right:
        return Verdict("right", f"Right. {fill(chosen.when_right, g)}".strip())
    return Verdict("wrong", fill(chosen.says, g) or fill(exercise.hint, g), chosen.name)
