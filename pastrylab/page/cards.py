"""Cards on a page: an exercise to answer, a guess to commit to, and the number that individual values are drawn from."""

import ipywidgets as widgets

from pastrylab.ground.units import Quantity, StudentError, kind_of, read_text, show, symbol
from pastrylab.page.bench import guarded
from pastrylab.page.boxes import WIDE, answer_box, button, on_enter, on_press, row
from pastrylab.page.form import Form
from pastrylab.page.guess import tell
from pastrylab.page.guess_bars import GuessBars
from pastrylab.page.parts import part, picture_html, text_html
from pastrylab.page.pictured import Pictured
from pastrylab.school import answers, engine, exercise_values, term, whose
from pastrylab.school.named import members
from pastrylab.school.standing import before_a_number, standing

_TRIES = 2
_HEAD = {
    "right": "Right",
    "wrong": "Not yet",
    "unit": "Look at the unit",
    "unreadable": "Could not read that",
}


class ExerciseCard(widgets.VBox):
    """One exercise: its text with this student's numbers, a box, a verdict, a hint, and the worked solution.

    An open card holds the student, the values and the worked case it was opened with: what it grades is what it asks.
    """

    def __init__(self, exercise):
        self.exercise = exercise
        self.case = None
        self.tries, self._wrong, self._opened = 0, "", False
        self.box = answer_box(exercise.how.label, exercise.how.example())
        self.check = button("Check", "Look at my answer")
        self.hint = button("Hint", "Show one hint")
        self.solution = button("Worked solution", "Show every step with my numbers")
        self.text, self.verdict, self.help, self.worked = (widgets.HTML(layout=WIDE) for _ in range(4))
        grade = guarded(self.verdict)(self.grade)
        on_press(self.check, self.box, grade)
        self.hint.on_click(guarded(self.help)(lambda _b: self.show_hint()))
        self.solution.on_click(guarded(self.worked)(lambda _b: self.open_solution()))
        on_enter(self.box, grade)
        buttons = row(self.check, self.hint, self.solution)
        super().__init__([self.text, self.box, buttons, self.verdict, self.help, self.worked], layout=WIDE)
        guarded(self.text)(self._ask)()
        if self.case:
            guarded(self.verdict)(self._show_again)()

    def _ask(self):
        worked = engine.case(self.exercise, whose.student())
        self.text.value = _prompt_html(worked)
        self.case = worked

    def _show_again(self):
        """The answer that stands under this question; one to other numbers is named, not judged."""
        stands = standing(self.case)
        before = None if stands else before_a_number(self.case)
        if before:
            self.verdict.value = text_html(
                f"On {before.day} you had this right with the class values: {before.answer}. That stays and counts. "
                "Above it asks with numbers of your own; answer again if you like.",
                "note",
            )
        if not stands:
            return
        if stands.verdict:
            self.box.value = stands.answer
            self._say(stands.verdict, f"Your answer of {stands.day}. ")
        else:
            self.verdict.value = text_html(
                f"Your answer of {stands.day}, {stands.answer}, was to older numbers. They have changed since: "
                "read the question again and give a new one.",
                "note",
            )

    def _asked(self):
        if self.case is None:
            raise StudentError(
                "this exercise with values that do not serve it", "a sound exercise_values.csv", "ask your instructor"
            )
        return self.case

    def grade(self):
        """Grade what the box holds, keep it, and say the verdict. An empty box is no answer: nothing is kept."""
        worked, typed = self._asked(), self.box.value
        if not typed.strip():
            self.verdict.value = text_html("The box is empty: type your answer first.", "note")
            return
        verdict = worked.verdict(typed)
        not_kept = answers.keep(self.exercise.lesson, self.exercise.id, typed, worked.student, worked.values)
        self._say(verdict, after=not_kept)
        if verdict.status == "wrong" and typed.strip() != self._wrong:  # Enter and then Check is one try
            self._wrong = typed.strip()
            self.tries += 1
            if self.tries >= _TRIES:
                self.show_solution()

    def _say(self, verdict, before="", after=""):
        style = "good" if verdict.right else "mend"
        message = (
            verdict.message
            if verdict.message.startswith(_HEAD[verdict.status])
            else f"{_HEAD[verdict.status]}: {verdict.message}"
        )
        self.verdict.value = text_html(before + message, style) + text_html(after, "mend")

    def show_hint(self):
        self.help.value = text_html("Hint: " + self._asked().hint, "note")

    def open_solution(self):
        """Show the worked solution and note that it was asked for, once a card."""
        self.show_solution()
        if not self._opened:
            self._opened = True
            which, case = self.exercise, self.case
            answers.keep(which.lesson, which.id, "", case.student, case.values, did=answers.OPENED_SOLUTION)

    def show_solution(self):
        within = self.exercise.how.tolerance_text
        self.worked.value = part("worked", lines=self._asked().solution, within=within)


def _prompt_html(worked):
    heads, rows = worked.table or ((), ())
    words = [all(str(cell).strip(" -–")[:1].isalpha() for cell in column) for column in zip(*rows, strict=True)]
    return part(
        "exercise",
        title=worked.exercise.title,
        text=" ".join(worked.prompt.split()),
        heads=heads,
        rows=rows,
        looks=["words" if of_words else "numbers" for of_words in words],
        options=[option for _, option in worked.options] if worked.exercise.options else (),
        student=worked.student,
        word=worked.values.word,
    )


class GuessCard(Form):
    """A guess to commit to before the bench shows the answer; kept, and shown again beside the result.

    example: a guess of the kind asked for; another kind (a volume for a mass) is refused, and so is less than nothing.
    result: what the guess is put beside at once, where no bench shows it. most: what no guess can be above.
    """

    def __init__(self, lesson, name, question, example, result=None, most=None):
        self.lesson, self.name = lesson, f"{lesson}.guess.{name}"
        self._example, self._result = read_text(example), result and read_text(result).quantity
        self._most = most and read_text(most)
        self.student = ""
        self.box = answer_box("My guess", example)
        self.keep = button("Keep my guess", "Write my guess down before I look")
        asked = widgets.HTML(part("asked", text=question), layout=WIDE)
        self.figure = GuessBars() if result else None
        self.picture = Pictured(self.figure, lambda: guarded(self.said)(self._draw)())
        super().__init__([[asked], [self.box]], self.keep, self.record, [self.picture] if result else [])
        guarded(self.said)(self._show_again)()

    def _show_again(self):
        self.student = whose.student()
        entry = answers.guessed(self.lesson, self.name, self.student)
        if entry:
            self.box.value = entry["answer"]
            self.say(f"Kept on {entry['when'][:10]}: {entry['answer']}.")
            if self._result is not None:
                self._meet(self._read(entry["answer"], self.box.placeholder))

    def record(self):
        """Keep the guess, and say how it was understood. Raises StudentError for one of another kind."""
        text, example = self.box.value.strip(), self.box.placeholder.removeprefix("for example ")
        if not text:
            raise StudentError("an empty box", "your guess with its unit", example)
        guess = self._read(text, example)
        not_kept = answers.keep(self.lesson, self.name, text, self.student)
        if not_kept:
            self.say(not_kept, "mend")
            return
        asked = self._example.unit
        also = "" if symbol(guess.unit) == symbol(asked) else f", that is {show(guess.quantity.to(asked), 3)}"
        self.say(f"Kept: {text}{also}. {self._beside(guess)}")
        tell(self.name)

    def _read(self, text, example):
        asked = self._example.unit
        guess = read_text(text, str(Quantity(1, asked).dimensionality))
        if not guess.unit:
            raise StudentError(f"{text}, without a unit", "a guess with its unit", example)
        of_a_kind = Quantity(1, guess.unit).dimensionality == Quantity(1, asked).dimensionality
        of_a_kind &= (guess.unit == "percent") == (asked == "percent")
        if not of_a_kind or guess.unit.startswith("delta_") != asked.startswith("delta_"):
            raise StudentError(f"{text}, {_kind(guess.unit)}", f"{_kind(asked)} as your guess", example)
        if guess.number < 0 or (self._most and guess.quantity > self._most.quantity):
            to = f" to {show(self._most.quantity)}" if self._most else " up"
            raise StudentError(f"{text} as your guess", f"{_kind(asked)} from 0{to}", example)
        return guess

    def _beside(self, guess):
        if self._result is None:
            return "Now go on to the bench: your guess stands there beside the result."
        unit = self._example.unit
        off = float(guess.quantity.m_as(unit)) / float(self._result.m_as(unit)) - 1
        said = f"{show(self._result)} is {show(self._result.to(unit))}: your guess is "
        self._meet(guess)
        if abs(off) < 0.005:
            return f"{said}right."
        apart = show(abs((guess.quantity - self._result).to(unit)), 3)
        return f"{said}{100 * abs(off):.0f} % too {'high' if off > 0 else 'low'}, {apart} {'too much' if off > 0 else 'short'}."

    def _meet(self, guess):
        """Draw a guess beside the amount it was about."""
        self._guess = guess.quantity
        self._draw()

    def _draw(self):
        self.figure.update(guess=self._guess, amount=self._result, unit=self._example.unit)
        self.picture.value = picture_html(self.figure)


def _kind(unit):
    return "a share" if unit == "percent" else kind_of(unit)


class NameCard(Form):
    """The class number (or name) individual values are drawn from, empty for the class values, and the section."""

    def __init__(self):
        self.box = answer_box("Your class number", "17")
        self.section = answer_box("Section, if there are several", "A")
        self.keep = button("Use it", "Draw my values from this number")
        super().__init__([[self.box], [self.section]], self.keep, self.use)
        guarded(self.said)(self._show_again)()

    def _show_again(self):
        self.box.value, self.section.value = whose.student(), whose.section()
        self._tell(whose.student())

    def use(self):
        """Keep what is typed. Raises StudentError for no number, and for a section there is not where it matters."""
        name = whose.checked(self.box.value)
        section = term.words().checked(self.section.value) if name else self.section.value
        try:
            whose.set_student(name, section)
        except OSError as error:
            raise StudentError(
                f"a name that cannot be kept ({error.strerror or error})",
                "room on the disk and a folder you may write in",
                "move the workbook to a folder of your own",
            ) from None
        self._tell(name)

    def _tell(self, name):
        word = exercise_values.values().word
        said = (
            f"Your exercises use values drawn for: {name}{f', term {word}' * bool(word)}."
            if name
            else "No number set: your exercises use the class values."
        )
        if len(members(name)) > 1:
            said += " They count for each of you; keep all your numbers in the box while you work together."
        elif name.replace("/", "").isdecimal() and "/" in name:
            said += f" That is one number. Are you two? Type {name.replace('/', ' and ')}."
        self.say(said + " Run a lesson again to see a change.")


class AmountCard(Form):
    """Type an amount and see how the page understands it."""

    def __init__(self):
        self.box = answer_box("An amount", "1 1/2 lb")
        self.look = button("Read it", "How is this understood?")
        super().__init__([[self.box]], self.look, self.read)

    def read(self):
        typed = read_text(self.box.value)
        if not typed.unit:
            raise StudentError(f"{self.box.value.strip()}, a number without a unit", "the number and its unit", "500 g")
        quantity = typed.quantity
        metric = {"a mass": "g", "a volume": "mL", "a temperature": "degC", "a length": "mm"}.get(kind_of(typed.unit))
        if metric and not typed.unit.startswith("delta_"):
            said = f"Understood: {show(quantity)}, {kind_of(typed.unit)}. That is {show(quantity.to(metric))}."
        else:
            said = f"Understood: {show(quantity)}, {kind_of(typed.unit)}."
        self.say(said, "good")
