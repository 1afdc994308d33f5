"""Why a mark is what it is: what a student typed to one exercise, what became of each line, and how the points come about."""

from dataclasses import dataclass
from datetime import datetime

from pastrylab.ground.units import StudentError
from pastrylab.school.answers import OPENED_SOLUTION

_SAID = {
    "right": "right",
    "wrong": "wrong",
    "unit": "its unit is missing or another: no try",
    "unreadable": "could not be read: no try",
}


@dataclass(frozen=True)
class Line:
    """One line that a student handed in: when, what was typed, and in words what became of it.

    >>> Line(None, "360 g", "wrong: the loss forgotten").answer
    '360 g'
    """

    when: datetime
    answer: str
    says: str


def lines_of(judge, which, lines):
    """[Line] of all that a student gave to an exercise, judged again one by one. which: its id; lines: as in an Asked.

    >>> lines_of(None, "02.seed-for-a-bowl", [(None, "17", "", "0badc0de", "opened the worked solution")])[0].says
    'opened the worked solution'
    """
    found, before, done = [], None, False
    for when, student, answer, values, did in lines:
        if did:
            found.append(Line(when, "", did if did == OPENED_SOLUTION else "something else done: no try"))
            continue
        try:
            status, slip = judge.verdict(which, values, student, answer)
        except StudentError as error:
            found.append(Line(when, answer, f"cannot be judged: {error}"))
            continue
        same = (answer.strip(), values, student)
        says = _SAID[status] + (f": {slip}" if slip and status == "wrong" else "")
        if done:
            says += "; after the right one, so it changes nothing"
        elif status in ("right", "wrong"):
            says += "; the same again, no try" if same == before else ""
            before, done = same, status == "right"
        found.append(Line(when, answer, says))
    return found


def why(mark, rule):
    """How the points of a Mark come about, in a sentence. rule: the Rule of its lesson, or None.

    >>> from pastrylab.school.marking import Mark
    >>> from pastrylab.school.marking_rules import Rule
    >>> why(Mark("02.mine", True, tries=2, late=1, points=2.7), Rule("02", None, 4, 3, 2, 10, 3))
    'Right at try 2: 3 points. 1 day late, less 10 %: 2.7 points.'
    """
    if not mark.right:
        tried = f"{mark.tries} {'try' if mark.tries == 1 else 'tries'}" if mark.tries else "no try"
        return f"Not right, after {tried}: 0 points."
    if rule is None:
        return "Right, and no row for the lesson in marking.csv: 0 points."
    if mark.solution:
        said = f"Right after the worked solution was opened: {_points(rule.after_solution)}."
    elif mark.first:
        said = f"Right at the first try: {_points(rule.right_first)}."
    else:
        said = f"Right at try {mark.tries}: {_points(rule.right_later)}."
    return said + _late(mark, rule)


def _late(mark, rule):
    if not mark.late:
        return ""
    days = f"{mark.late} {'day' if mark.late == 1 else 'days'} late"
    if rule.last_day is not None and mark.late > rule.last_day:
        return f" {days}, and it counts up to {rule.last_day}: 0 points."
    return f" {days}, less {min(100, rule.off_a_day * mark.late):g} %: {_points(mark.points)}."


def _points(number):
    return f"{number:g} {'point' if number == 1 else 'points'}"
