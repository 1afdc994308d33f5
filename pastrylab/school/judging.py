"""Many answers judged again: an exercise is worked out once for the same numbers, the same answer to them looked at once."""

from pastrylab.school.draws import draw, student_named
from pastrylab.school.engine import case

_MOST_CASES = 5_000  # kept at a time: a class of any size needs no more memory
_MOST_VERDICTS = 200_000


class Judge:
    """Judges lines of answers by the values that were given out and by no others.

    exercises: {id: Exercise}; known: [Values], whose ids answers may name.

    >>> Judge({}, []).knows({"values": "0badc0de"})
    False
    """

    def __init__(self, exercises, known):
        self.exercises = exercises
        self.known = {values.id: values for values in known}
        self._rows, self._drawn, self._cases, self._verdicts = {}, {}, {}, {}

    def knows(self, entry):
        """Whether the values that a line names were given out."""
        return entry["values"] in self.known

    def verdict(self, entry):
        """(status, slip) of a line, as `grade` has them for its exercise, student and values.

        Raises StudentError where the values cannot serve the exercise, KeyError for an exercise or values not known.
        """
        which, values, student = entry["exercise"], entry["values"], student_named(entry["student"])
        asked = (which, values, student)
        if asked not in self._drawn:
            self._drawn = self._drawn if len(self._drawn) < _MOST_CASES else {}
            self._drawn[asked] = self._numbers(*asked)
        key = (which, self._drawn[asked])
        said = self._verdicts.get((key, entry["answer"]))
        if said is None:
            verdict = self._case(key, asked).verdict(entry["answer"])
            said = verdict.status, verdict.slip
            self._verdicts = self._verdicts if len(self._verdicts) < _MOST_VERDICTS else {}
            self._verdicts[key, entry["answer"]] = said
        return said

    def _numbers(self, which, values, student):
        rows = self._rows.get((which, values))
        if rows is None:
            rows = self._rows[which, values] = self.known[values].of(which)
        return tuple((name, draw(which, name, row, student), row.unit) for name, row in rows.items())

    def _case(self, key, asked):
        if key not in self._cases:
            self._cases = self._cases if len(self._cases) < _MOST_CASES else {}
            which, values, student = asked
            self._cases[key] = case(self.exercises[which], student, self.known[values])
        return self._cases[key]
