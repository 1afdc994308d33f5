"""Cards on a page: an exercise to answer, a guess to commit to, and the name that individual values are drawn from."""

import asyncio
import html

import ipywidgets as widgets
from IPython import get_ipython

from pastrylab.benches.engine import _STYLES, _TABLE_BOX, _WIDE, field, guarded, text_html
from pastrylab.exercises import answers, engine
from pastrylab.exercises import exercise as exercise_of
from pastrylab.units import StudentError, kind_of, read_text, show, symbol

_TRIES = 2
_LATE_KEYS = 0.25  # seconds
_ASKED = {
    "number": "Your answer, a plain number",
    "choice": "Your answer (a letter)",
    "money": "Your answer, an amount of money",
}
_HEAD = {
    "right": "Right",
    "wrong": "Not yet",
    "unit": "Look at the unit",
    "unreadable": "Could not read that",
}


def _button(label, hint):
    return widgets.Button(description=label, tooltip=hint, layout=widgets.Layout(width="auto", min_width="110px"))


def _answer_box(label, example):
    return widgets.Text(
        description=label,
        placeholder=f"for example {example}",
        continuous_update=True,
        **field(),
    )


def _settled(box, callback):
    """Run callback once no more of what was typed comes in: the page holds keys back while the kernel answers to one,
    but not an Enter, so that of "800 g" typed fast an Enter would find "8"."""
    if get_ipython() is None:  # not in a kernel, whatever loop somebody else may run
        return callback()
    loop = asyncio.get_running_loop()

    def look(seen):
        if box.value == seen:
            callback()
        else:
            loop.call_later(_LATE_KEYS, look, box.value)

    look(None)


def _on_enter(box, callback):
    """Run callback when Enter is pressed in the box (leaving the box must not count as answering)."""
    box.on_msg(lambda _box, content, _buffers: _settled(box, callback) if content.get("event") == "submit" else None)


def _row(*children):
    return widgets.Box(list(children), layout=widgets.Layout(display="flex", flex_flow="row wrap", width="100%"))


class ExerciseCard(widgets.VBox):
    """One exercise: its text with this student's numbers, a box, a verdict, a hint, and the worked solution."""

    def __init__(self, which):
        self.exercise = exercise_of(which)
        self.student = answers.student()
        self.tries = 0
        self.box = _answer_box(_ASKED.get(self.exercise.kind, "Your answer, with its unit"), self._example())
        self.check = _button("Check", "Look at my answer")
        self.hint = _button("Hint", "Show one hint")
        self.solution = _button("Worked solution", "Show every step with my numbers")
        self.text, self.verdict, self.help, self.worked = (widgets.HTML(layout=_WIDE) for _ in range(4))
        grade = guarded(self.verdict)(self.grade)
        self.check.on_click(lambda _b: _settled(self.box, grade))
        self.hint.on_click(guarded(self.help)(lambda _b: self.show_hint()))
        self.solution.on_click(guarded(self.worked)(lambda _b: self.show_solution()))
        _on_enter(self.box, grade)
        buttons = _row(self.check, self.hint, self.solution)
        super().__init__([self.text, self.box, buttons, self.verdict, self.help, self.worked], layout=_WIDE)
        guarded(self.text)(self._open)()

    def _example(self):
        if self.exercise.kind == "choice":
            return "A"
        fixed = {"share": "25 %", "number": "1.5", "money": "4.50"}
        return fixed.get(self.exercise.kind) or f"12.5 {symbol(self.exercise.unit)}"

    def _open(self):
        self.text.value = _prompt_html(self.exercise, self.student)
        entry = answers.last(self.exercise.lesson, self.exercise.id, self.student)
        if entry:
            self.box.value = entry["answer"]
            self._say(
                engine.grade(self.exercise, entry["answer"], self.student, answers.values_of(entry)),
                f"Your answer of {entry['when'][:10]}. ",
            )

    def grade(self):
        """Grade what the box holds, keep it, and say the verdict."""
        verdict = engine.grade(self.exercise, self.box.value, self.student)
        answers.record(self.exercise.lesson, self.exercise.id, self.box.value, self.student)
        self._say(verdict)
        if verdict.status == "wrong":
            self.tries += 1
            if self.tries >= _TRIES:
                self.show_solution()

    def _say(self, verdict, before=""):
        style = "good" if verdict.right else "mend"
        message = (
            verdict.message
            if verdict.message.startswith(_HEAD[verdict.status])
            else f"{_HEAD[verdict.status]}: {verdict.message}"
        )
        self.verdict.value = text_html(before + message, style)

    def show_hint(self):
        g = engine.givens(self.exercise, self.student)
        self.help.value = text_html("Hint: " + engine.fill(self.exercise.hint, g), "note")

    def show_solution(self):
        steps = "".join(f"<li>{html.escape(step)}</li>" for step in engine.solution(self.exercise, self.student))
        note = (
            f"<p>{html.escape('An answer counts as right within ' + _tolerance_text(self.exercise) + '.')}</p>"
            if self.exercise.because
            else ""
        )
        self.worked.value = (
            f'<div style="{_STYLES["say"]}"><b>Worked solution</b><ol style="margin:4px 0">{steps}</ol>{note}</div>'
        )


def _tolerance_text(exercise):
    unit = {"share": "", "number": ""}.get(exercise.kind, exercise.unit.removeprefix("delta_"))
    size = (
        f"{100 * exercise.resolution:g} points of a percentage"
        if exercise.kind == "share"
        else f"{exercise.resolution:g} {unit}".strip()
    )
    return f"{size.replace('deg', '°')}: {exercise.because}"


def _prompt_html(exercise, student):
    text = " ".join(engine.prompt(exercise, student).split())
    parts = [f'<div style="font-size:16px;font-weight:600;margin-top:8px">{html.escape(exercise.title)}</div>']
    parts.append(f'<p style="font-size:15px;line-height:1.5;margin:4px 0">{html.escape(text)}</p>')
    if exercise.table:
        heads, rows = exercise.table(engine.givens(exercise, student))
        parts.append(_table_html(exercise.title, heads, rows))
    if exercise.options:
        items = "".join(
            f"<li style='margin:3px 0'>{html.escape(option)}</li>" for _, option in engine.options(exercise, student)
        )
        parts.append(f'<ol type="A" style="font-size:15px;line-height:1.45;margin:4px 0">{items}</ol>')
    if student:
        parts.append(f'<div style="{_STYLES["note"]}">Values drawn for {html.escape(student)}.</div>')
    return "".join(parts)


def _table_html(caption, heads, rows):
    words = [all(str(cell).strip(" -–")[:1].isalpha() for cell in column) for column in zip(*rows, strict=True)]
    cells = [
        f'style="padding:1px 8px;text-align:{"left" if of_words else "right"};border-bottom:1px solid #bbbbbb"'
        for of_words in words
    ]
    head = "".join(
        f'<th scope="col" {cell}>{html.escape(h)}</th>' if h else f"<td {cell}></td>"
        for h, cell in zip(heads, cells, strict=True)
    )
    body = "".join(
        "<tr>" + "".join(f"<td {cell}>{html.escape(str(c))}</td>" for c, cell in zip(row, cells, strict=True)) + "</tr>"
        for row in rows
    )
    return (
        f'<div style="{_TABLE_BOX}"><table style="border-collapse:collapse;font-size:14px;line-height:1.35;margin:6px 0">'
        f'<caption style="text-align:left">{html.escape(caption)}</caption>'
        f"<thead><tr>{head}</tr></thead><tbody>{body}</tbody></table></div>"
    )


class GuessCard(widgets.VBox):
    """A guess to commit to before the bench shows the answer; kept, and shown again beside the result."""

    def __init__(self, lesson, name, question, example):
        self.lesson, self.name = lesson, f"{lesson}.guess.{name}"
        self.student = answers.student()
        self.box = _answer_box("My guess", example)
        self.keep = _button("Keep my guess", "Write my guess down before I look")
        self.said = widgets.HTML(layout=_WIDE)
        self.keep.on_click(guarded(self.said)(lambda _b: self.record()))
        _on_enter(self.box, guarded(self.said)(self.record))
        question_html = widgets.HTML(
            f'<p style="font-size:15px;line-height:1.5;margin:4px 0">{html.escape(question)}</p>',
            layout=_WIDE,
        )
        super().__init__([question_html, self.box, _row(self.keep), self.said], layout=_WIDE)
        entry = answers.last(self.lesson, self.name, self.student)
        if entry:
            self.box.value = entry["answer"]
            self.said.value = text_html(f"Kept on {entry['when'][:10]}: {entry['answer']}.", "note")

    def record(self):
        typed = read_text(self.box.value)
        if not typed.unit:
            raise StudentError(
                f"{self.box.value.strip()}, without a unit",
                "a guess with its unit",
                self.box.placeholder.removeprefix("for example "),
            )
        answers.record(self.lesson, self.name, self.box.value.strip(), self.student)
        self.said.value = text_html(f"Kept: {self.box.value.strip()}. Go on, and see how close you are.", "note")


class NameCard(widgets.VBox):
    """The name or class number individual values are drawn from; empty for the class values."""

    def __init__(self):
        self.box = _answer_box("Your name or class number", "17")
        self.keep = _button("Use it", "Draw my values from this name")
        self.said = widgets.HTML(layout=_WIDE)
        self.box.value = answers.student()
        self.keep.on_click(guarded(self.said)(lambda _b: self.use()))
        _on_enter(self.box, guarded(self.said)(self.use))
        super().__init__([self.box, _row(self.keep), self.said], layout=_WIDE)
        self._say(answers.student())

    def use(self):
        self._say(answers.set_student(self.box.value))

    def _say(self, name):
        said = (
            f"Your exercises use values drawn for: {name}."
            if name
            else "No name set: your exercises use the class values."
        )
        self.said.value = text_html(said + " Run a lesson again to see a change.", "note")


def exercise(which):
    """The card of one exercise, by its id such as "02.seed-for-a-bowl"."""
    return ExerciseCard(which)


class AmountCard(widgets.VBox):
    """Type an amount and see how the page understands it."""

    def __init__(self):
        self.box = _answer_box("An amount", "1 1/2 lb")
        self.look = _button("Read it", "How is this understood?")
        self.said = widgets.HTML(layout=_WIDE)
        self.look.on_click(guarded(self.said)(lambda _b: self.read()))
        _on_enter(self.box, guarded(self.said)(self.read))
        super().__init__([self.box, _row(self.look), self.said], layout=_WIDE)

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
        self.said.value = text_html(said, "good")
