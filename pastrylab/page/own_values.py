"""The card at the top of a lesson whose exercise values were changed by hand."""

import ipywidgets as widgets

from pastrylab.page.boxes import WIDE, button
from pastrylab.page.form import Form
from pastrylab.page.parts import text_html
from pastrylab.school import exercise_values, own_values

_TOLD = (
    "The exercise values on this machine were changed by hand: your questions are not those of the class, and "
    "answers to them do not count when they are marked. One press brings the class's values back; yours are kept. "
    "Do you teach, and mean the class to have yours? Hand them out: pastrylab handout."
)


class OwnValuesCard(Form):
    """Says that the values are one's own, and brings the class's back when asked to; one's own are kept beside them."""

    def __init__(self):
        back = button("Take the class's values", "Put the values of the hand-out back; mine are kept")
        self.told = widgets.HTML(text_html(_TOLD, "mend"), layout=WIDE)
        super().__init__([[self.told]], back, self.take_back)

    def take_back(self):
        """Put the class's values into force. Raises StudentError as own_values.take_back."""
        mine = own_values.take_back()
        self.told.value = ""
        self.say(
            f"The class's values are back: {exercise_values.values().id}. Yours are kept in datasets as {mine.name}. "
            "Now take Run, then Run All Cells, so that every question is asked anew.",
            "good",
        )
