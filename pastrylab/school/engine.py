"""Exercises as functions: what one is, one worked out for a student, the verdict on an answer.

An exercise's numbers come from exercise_values.csv alone. Its answer, slips and worked steps are computed from them,
so one changed value changes prompt, answer, slips, solution and key together.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property

from pastrylab.ground.units import StudentError
from pastrylab.school import draws, exercise_values, reading
from pastrylab.school.kinds import KINDS


@dataclass(frozen=True)
class Slip:
    """A wrong path students really take: a name, the wrong answer as a function of the givens, a sentence that helps.

    fits: for a sentence that claims an order or a size ("the smallest pile"), whether that is so with the givens. Where it
    is not, the sentence is not said.

    >>> Slip("doubled", lambda g: 2 * g.batch, "Once is enough.").name
    'doubled'
    """

    name: str
    wrong: Callable
    says: str
    fits: Callable = lambda g: True


@dataclass(frozen=True)
class Option:
    """One answer of a judgement: a short name, the text (givens in braces), what to say when it is chosen wrongly, and
    when it is right; the latter "" only where no values of the file make it the right one.

    >>> Option("warm it", "Warm the bowl.", says="It is warm enough at {bowl_at}.").name
    'warm it'
    """

    name: str
    text: str
    says: str = ""
    when_right: str = ""


@dataclass(frozen=True)
class Exercise:
    """One exercise. Raises ValueError for a kind or a limit that there is not.

    prompt, steps: text with givens and lets in braces ("{batch}"), in a sum with the unit it is written in ("{batch:kg}");
    steps know the answer too ("{answer:g}"). answer, lets, slips: functions of one argument, a namespace that holds
    every given and every let. kind: "quantity", "reading", "difference", "share", "number",
    "money" or "choice"; unit: what the answer is asked in ("" for money: its currency comes with the givens).
    resolution (in unit): what scale or probe can tell apart, and why.
    sane: the lowest and highest answer that makes sense at a bench, in unit. table: rows shown under the prompt.
    supposes: {"the honey is the drier of the two": function of the givens}, what its texts take for granted.
    limit: "high" where the answer is the most that will do, "low" where it is the least: no tolerance beyond it.
    reads_names: whether its functions ask which givens and lets there are.

    >>> from pastrylab import exercises
    >>> exercises.exercise("02.seed-for-a-bowl").lesson
    '02'
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
    supposes: dict[str, Callable] = field(default_factory=dict)
    limit: str = ""
    reads_names: bool = False

    def __post_init__(self):
        if self.kind not in KINDS:
            raise ValueError(f"exercise {self.id}: kind '{self.kind}'. Needed: one of {', '.join(KINDS)}.")
        if self.limit not in ("", "high", "low"):
            raise ValueError(f"exercise {self.id}: limit '{self.limit}'. Needed: 'high', 'low' or ''.")

    @property
    def lesson(self):
        """The number of the lesson it belongs to, as text."""
        return self.id.split(".")[0]

    @cached_property
    def how(self):
        """The Kind that asks for its answer, reads, judges and shows it."""
        return KINDS[self.kind](self)


@dataclass(frozen=True)
class Case:
    """One student's exercise worked out: what asks it, what judges an answer, and what explains it.

    values: the Values it was worked with. g: givens and lets. expected: the right answer in the exercise's unit, Money,
    or an option's name.

    >>> from pastrylab import exercises
    >>> case(exercises.exercise("02.seed-for-a-bowl")).expected > 100  # g
    True
    """

    exercise: Exercise
    student: str
    values: exercise_values.Values
    g: object
    expected: object

    def fill(self, text):
        """Text with every given and let in braces written out."""
        return draws.fill(text, self.g)

    @property
    def prompt(self):
        """The exercise's text, numbers filled in."""
        return self.fill(self.exercise.prompt)

    @property
    def table(self):
        """(heads, rows) of the table under the prompt; None where there is none."""
        return self.exercise.table(self.g) if self.exercise.table else None

    @property
    def options(self):
        """A judgement's options as [(letter, text)]."""
        return [(reading.LETTERS[i], self.fill(option.text)) for i, option in enumerate(self.exercise.options)]

    @property
    def hint(self):
        """The exercise's one hint."""
        return self.fill(self.exercise.hint)

    @property
    def answer(self):
        """The right answer as a page shows it: "485 g (17.1 oz)", "C, the gelatin"."""
        return self.exercise.how.show(self.expected)

    @property
    def solution(self):
        """The worked solution: a list of sentences, the answer last."""
        return [*map(self.fill, self.exercise.steps), f"Answer: {self.answer}."]

    def praise(self, number):
        """What is said after "Right" to a number: the exact answer."""
        return self.exercise.how.praise(self.expected, number)

    @cached_property
    def wrong(self):
        """((slip, its wrong answer), ...) for every slip whose path leads to a number, in the exercise's unit, and whose
        sentence says what is so."""
        found = []
        for slip in self.exercise.slips:
            try:
                if not slip.fits(self.g):
                    continue
                found.append((slip, self.exercise.how.in_unit(slip.wrong(self.g))))
            except (StudentError, ZeroDivisionError):
                continue
        return tuple(found)

    def verdict(self, answer):
        """The Verdict on a typed answer: pure, the same on every machine.

        >>> from pastrylab import exercises
        >>> case(exercises.exercise("01.a-slip-of-the-hand")).verdict("C").right
        True
        """
        return self.exercise.how.verdict(self, answer)


def case(exercise, student="", values=None):
    """Work an exercise out for one student ("" for the class values): a Case.

    exercise: an Exercise. values: None for the values in force, or Values, a path, CSV text. Raises StudentError where
    the values file cannot serve it.

    >>> from pastrylab import exercises
    >>> case(exercises.exercise("01.a-slip-of-the-hand")).answer
    'C, the gelatin'
    """
    values = exercise_values.values(values)
    return worked(Case, exercise, student, values, lambda: draws.givens(exercise, student, values))


def worked(kind, exercise, student, values, namespace):
    """A Case of that kind: Case itself, or a class made of it. namespace: a function that returns its givens and lets.

    Raises StudentError where the values cannot serve the exercise.

    >>> from types import SimpleNamespace
    >>> third = Exercise("99.third", "A third", "{all}", lambda g: g.all / 3, "", (), kind="number")
    >>> worked(Case, third, "", None, lambda: SimpleNamespace(all=7.5)).expected
    2.5
    """
    try:
        g = namespace()
        g.answer = exercise.answer(g)
        return kind(exercise, student, values, g, exercise.how.in_unit(g.answer))
    except ZeroDivisionError:
        raise divided_by_nothing(exercise) from None


def divided_by_nothing(exercise):
    """The StudentError for values with which a sum of the exercise divides by nothing.

    >>> third = Exercise("99.third", "A third", "{all}", lambda g: g.all / 3, "", (), kind="number")
    >>> divided_by_nothing(third).given
    'values of 99.third with which a sum divides by nothing'
    """
    given = f"values of {exercise.id} with which a sum divides by nothing"
    return StudentError(given, "another value in place of a 0, or of two that cancel", "pastrylab check")


def grade(exercise, answer, student="", values=None):
    """The Verdict on a typed answer: pure, the same on every machine. `exercise` is an Exercise.

    Raises StudentError only where the values file itself cannot serve the exercise.

    >>> from pastrylab import exercises
    >>> grade(exercises.exercise("01.a-slip-of-the-hand"), "(c) the gelatin").status
    'right'
    """
    return case(exercise, student, values).verdict(answer)
