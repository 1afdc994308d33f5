"""The exercises that a class has of its own, one card below the other."""

import ipywidgets as widgets

from pastrylab.page.boxes import WIDE
from pastrylab.page.cards import ExerciseCard
from pastrylab.page.parts import text_html


class OwnExercises(widgets.VBox):
    """Cards of exercises; below them, for the instructor, what keeps others from being one."""

    def __init__(self, exercises, faults=()):
        told = "\n".join(
            f"An exercise of your class cannot be shown. Tell your instructor: {fault}" for fault in faults
        )
        self.cards = [ExerciseCard(exercise) for exercise in exercises]
        super().__init__([*self.cards, *([widgets.HTML(text_html(told, "mend"))] if told else [])], layout=WIDE)
