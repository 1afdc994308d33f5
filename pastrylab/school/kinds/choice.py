"""Answers that are a choice: a letter, or the words of an option."""

from dataclasses import dataclass

from pastrylab.school import reading
from pastrylab.school.kinds.kind import Kind
from pastrylab.school.verdict import Verdict


@dataclass(frozen=True)
class ChoiceKind(Kind):
    """A judgement: one of up to eight options, each with the sentence that is said when it is chosen.

    >>> from pastrylab import exercises
    >>> exercises.exercise("01.a-slip-of-the-hand").how.show("the gelatin")
    'C, the gelatin'
    """

    label = "Your answer (a letter)"
    tolerance_text = ""

    def example(self, expected=None):
        return "A"

    def in_unit(self, value):
        """The name of an option, as it is."""
        return value

    def show(self, name):
        """The option's letter and name."""
        return f"{reading.LETTERS[self._names.index(name)]}, {name}"

    def absurd(self, expected):
        return "" if expected in self._names else f"'{expected}' is not among the options"

    @property
    def _names(self):
        return [option.name for option in self.exercise.options]

    def verdict(self, worked, answer):
        options = self.exercise.options
        # No option is called by a letter alone, whatever numbers are filled into its text.
        fill = str if reading.is_letter(answer) else worked.fill
        place = reading.chosen([(option.name, fill(option.text)) for option in options], answer)
        if place is None:
            letters = ", ".join(reading.LETTERS[: len(options)])
            return Verdict("unreadable", f"{_quoted(answer)} Needed: one of the letters {letters}. Example: A.")
        chosen = options[place]
        if chosen.name == worked.expected:
            return Verdict("right", f"Right. {worked.fill(chosen.when_right)}".strip())
        return Verdict("wrong", worked.fill(chosen.says) or worked.hint, chosen.name)


def _quoted(answer):
    return f"You gave '{str(answer).strip()[:40]}'." if str(answer).strip() else "You gave no answer yet."
