"""The one student error: what a person typed or asked that cannot be answered, in a sentence."""


class StudentError(ValueError):
    """What a student or an instructor can cause and mend: what was given, what is needed, an example; one sentence.

    >>> print(StudentError("'20 potatoes'", "a unit of the kitchen", "250 g"))
    You gave '20 potatoes'. Needed: a unit of the kitchen. Example: 250 g.
    """

    def __init__(self, given, needed, example=""):
        self.given, self.needed, self.example = str(given), str(needed), str(example)
        sentence = f"You gave {self.given}. Needed: {self.needed}."
        super().__init__(sentence + (f" Example: {self.example}." if self.example else ""))

    def _render_traceback_(self):
        """What a notebook shows for it: its sentence, not the lines of our code that led to it."""
        return [str(self)]
