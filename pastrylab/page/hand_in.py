"""The last card of a lesson: what is still open, and one file to hand in."""

import base64

import ipywidgets as widgets

from pastrylab.ground.files import one_look
from pastrylab.page.bench import guarded
from pastrylab.page.boxes import WIDE, answer_box, button
from pastrylab.page.form import Form
from pastrylab.page.parts import part
from pastrylab.school import exercise_values, handing_in, whose

_TOLD = 6  # exercises named one by one


class HandInCard(Form):
    """Number, section, and a button that makes one zip of a lesson's answers; says what is still open and where it lies.

    exercises: those of the lesson, in the order of its page.
    """

    def __init__(self, lesson, exercises):
        self.lesson, self.exercises = lesson, exercises
        self.number = answer_box("Your class number", "17")
        self.section = answer_box("Section, if there are several", "A")
        self.make = button("Make my file", "Put my answers of this lesson into one file")
        self.link = widgets.HTML(layout=WIDE)
        super().__init__([[self.number], [self.section]], self.make, self.hand_in, [self.link])
        guarded(self.said)(self._ask)()

    def _ask(self):
        self.number.value, self.section.value = handing_in.remembered()
        self.say(
            [*self._open(), "Whenever you are done, or as far as you got: press the button, then hand in the file."]
        )

    def hand_in(self):
        """Make the file and say what is in it. Raises StudentError as handing_in.hand_in."""
        self.link.value = ""
        word = exercise_values.values().word
        made = handing_in.hand_in(self.lesson, self.number.value, self.section.value)
        self.number.value, self.section.value = handing_in.remembered()
        said = [
            f"Your file is made: {_counted(made.answers, 'answer')} to lesson {self.lesson}. It lies at {made.path}."
        ]
        if whose.student() and exercise_values.values().word != word:
            said.append(f"You are in section {whose.section()} now, and your numbers go by it: run the lesson again.")
        if made.unnamed:
            said.append(f"Given before there was a number, and in it as yours: {_counted(made.unnamed, 'answer')}.")
        if made.others:
            names = ", ".join(one[:40] for one in made.others[:_TOLD])
            said.append(
                f"Not in it, as another's: what was answered here as {names}. Was that you? Type it on the page Start here "
                "as your number, come back, and press again."
            )
        if made.torn:
            lines = ", ".join(map(str, made.torn))
            said.append(f"Not in it, as it could not be read: line {lines} of my-answers/{self.lesson}.jsonl.")
        self.say([*said, *self._open()], "good")
        packed = base64.b64encode(made.data).decode("ascii")
        self.link.value = str(part("hand_in", name=made.path.name, data=packed))

    @one_look()
    def _open(self):
        """What is still open, in a sentence or two."""
        found = handing_in.still_open(self.exercises, whose.student())
        if not found:
            return ["Nothing is open: every exercise of this lesson stands right."]
        said = []
        for tried, words in ((True, "Tried, not right yet"), (False, "Not tried yet")):
            titles = [exercise.title for exercise, was_tried in found if was_tried == tried]
            more = f" and {len(titles) - _TOLD} more" if len(titles) > _TOLD else ""
            said += [f"{words}: {'; '.join(titles[:_TOLD])}{more}."] if titles else []
        return said


def _counted(number, what):
    return f"{number} {what}{'' if number == 1 else 's'}"
