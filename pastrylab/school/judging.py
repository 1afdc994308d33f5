"""Many answers judged again: an exercise is worked out once for the same numbers, the same answer to them looked at once."""

from dataclasses import fields
from functools import cached_property

from pastrylab.school.draws import draw
from pastrylab.school.engine import Case, case
from pastrylab.school.named import student_named


class _Silent(Case):
    """A case whose verdicts are counted and not read: of its sentences only those are written out that can be typed."""

    def fill(self, text):
        return self._options.get(text, "")

    @cached_property
    def _options(self):
        return {option.text: super(_Silent, self).fill(option.text) for option in self.exercise.options}


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
        numbers = self._asked.get(asked)
        if numbers is None:
            numbers = self._asked[asked] = self._numbers(which, values, student_named(student))
        said = self._verdicts.get((numbers, answer))
        if said is None:
            if numbers not in self._cases:
                worked = case(self.exercises[which], student, self.known[values])
                self._cases[numbers] = _Silent(*(getattr(worked, one.name) for one in fields(worked)))
            verdict = self._cases[numbers].verdict(answer)
            said = self._verdicts[numbers, answer] = verdict.status, verdict.slip
        return said

    def _numbers(self, which, values, student):
        rows = self._rows.get(values)
        if rows is None:
            rows = self._rows[values] = self.known[values].of(which)
        word = self.known[values].word
        return tuple((name, draw(which, name, row, student, word), row.unit) for name, row in rows.items())
