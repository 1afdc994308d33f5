"""The card at the top of a lesson whose exercise values were changed by hand."""

from pastrylab.page.boxes import button
from pastrylab.page.form import Form
from pastrylab.school import exercise_values, own_values


class OwnValuesCard(Form):
    """Says that the values are one's own, and brings the class's back when asked to; one's own are kept beside them."""

    def __init__(self):
        back = button("Take the class's values", "Put the values of the hand-out back; mine are kept")
        super().__init__([], back, self.take_back)
        self.say(
            "The exercise values on this machine were changed by hand: your questions are not those of the class, and "
            "answers to them do not count when they are marked. One press brings the class's values back; yours are kept. "
            "Do you teach, and mean the class to have yours? Hand them out: pastrylab handout.",
            "mend",
        )

    def take_back(self):
        """Put the class's values into force. Raises StudentError as own_values.take_back."""
        mine = own_values.take_back()
        self.say(
            f"The class's values are back: {exercise_values.values().id}. Yours are kept in datasets as {mine.name}. "
            "Now take Run, then Run All Cells, so that every question is asked anew.",
            "good",
        )
