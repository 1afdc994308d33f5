"""Many answers judged again: an exercise is worked out once for the same numbers, the same answer to them looked at once."""

from functools import cached_property

from pastrylab.school import draws
from pastrylab.school.engine import Case, divided_by_nothing, worked


class _Silent(Case):
    """A case whose verdicts are counted and not read: of its sentences only those are written out that can be typed."""

    def fill(self, text):
        return super().fill(text) if text in self._options else ""

    def praise(self, number):
        return ""

    @cached_property
    def _options(self):
        return {option.text for option in self.exercise.options}


class Judge:
    """Judges answers by the values that were given out and by no others; best asked exercise by exercise.

    exercises: {id: Exercise}; known: [Values], whose ids answers may name.

    >>> Judge({}, []).knows("0badc0de")
    False
    """

    def __init__(self, exercises, known):
        self.exercises = exercises
        self.known = {values.id: values for values in known}
        self._which = None

    def knows(self, values):
        """Whether the values of this id were given out."""
        return values in self.known

    def verdict(self, which, values, student, answer):
        """(status, slip) of an answer, as `grade` has them. which: an exercise's id; values: the id of what was given out.

        Raises StudentError where the values cannot serve the exercise, KeyError for an exercise or values not known.
        """
        if which != self._which:  # what was worked out for one exercise serves no other
            self._which, self._rows, self._asked, self._cases, self._verdicts = which, {}, {}, {}, {}
        asked = values, student
        drawn = self._asked.get(asked)
        if drawn is None:
            drawn = self._asked[asked] = self._numbers(which, values, student)
        said = self._verdicts.get((drawn, answer))
        if said is None:
            case = self._cases.get(drawn)
            if case is None:
                case = self._cases[drawn] = self._worked(which, values, student, drawn)
            try:
                verdict = case.verdict(answer)
            except ZeroDivisionError:  # in a sum that only a wrong answer asks for
                raise divided_by_nothing(case.exercise) from None
            said = self._verdicts[drawn, answer] = verdict.status, verdict.slip
        return said

    def _worked(self, which, values, student, drawn):
        exercise = self.exercises[which]
        return worked(_Silent, exercise, student, self.known[values], lambda: draws.as_asked(exercise, drawn))

    def _numbers(self, which, values, student):
        rows = self._rows.get(values)
        if rows is None:
            rows = self._rows[values] = self.known[values].of(which)
        return draws.numbers(which, rows, student, self.known[values].word)
