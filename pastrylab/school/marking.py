"""A class's hand-ins become marks: every answer judged again, under the values it was given and the number it was asked by."""

from collections import defaultdict
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from operator import itemgetter

from pastrylab.ground.units import StudentError
from pastrylab.school import alike
from pastrylab.school.afterwards import put_in_afterwards
from pastrylab.school.answers import OPENED_SOLUTION
from pastrylab.school.class_list import Student
from pastrylab.school.judging import Judge
from pastrylab.school.owners import Flag, groups_in, looked_at, owner_of, takers_of, too_quick, without_a_number

ABSENT = "nothing handed in"  # of a student of the list
_STUCK = 3  # tries
_A_DAY = timedelta(days=1)  # a clock of another place
_MOST_ANSWERS = 300  # to one exercise: who gives more is no cook


@dataclass(frozen=True)
class Mark:
    """What became of one exercise: whether it was answered and right, after how many tries, whether the first was right,
    how many days late, whether the worked solution had been opened before, the points, and the slips made on the way.

    tries: up to the first right one; an answer that could not be read and the same one given again are none.

    >>> Mark("02.seed-for-a-bowl", tries=4).stuck
    True
    """

    exercise: str
    right: bool = False
    tries: int = 0
    late: int = 0
    solution: bool = False
    points: float = 0.0
    slips: tuple[str, ...] = ()
    right_with: str = ""
    wrong_with: tuple[str, ...] = ()

    @property
    def first(self):
        """Right at the first try."""
        return self.right and self.tries == 1

    @property
    def stuck(self):
        """Tried three times and more, and never right."""
        return not self.right and self.tries >= _STUCK


@dataclass
class Marked:
    """One student with the marks by exercise, and how many answers were left out of them. listed: stands in the class list.

    >>> Marked(Student("17")).points
    0
    """

    student: Student
    listed: bool = True
    marks: dict[str, Mark] = field(default_factory=dict)
    left_out: int = 0
    places: tuple[str, ...] = ()

    @property
    def points(self):
        """The sum over all exercises of the lessons not excused from."""
        counted = (mark for which, mark in self.marks.items() if which.partition(".")[0] not in self.student.excused)
        return sum(mark.points for mark in counted)


@dataclass(frozen=True)
class ClassMarks:
    """Everybody's marks, those of the list first, what a human eye should see, and all that was answered, an Asked each.

    >>> ClassMarks((), ()).flags
    ()
    """

    students: tuple[Marked, ...]
    flags: tuple[Flag, ...]
    asked: tuple = ()


@dataclass(frozen=True)
class Asked:
    """All that a class answered to one exercise: its id, the Rule of its lesson or None, and by student (number, extra
    days, [(when, student, answer, values, did)]), a line each in the order they were given.

    >>> Asked("02.seed-for-a-bowl", None, ()).students
    ()
    """

    exercise: str
    rule: object
    students: tuple


def mark_class(
    hand_ins, roll, exercises, known, rules, now=None, begins=None, progress=lambda d, of: None, spread=None, words=None
):
    """The ClassMarks of a class.

    hand_ins: HandIns; roll: a ClassList; exercises: {id: Exercise}; known: [Values] that were given out, the only ones
    answers are judged by; rules: {lesson: Rule}; now, begins: datetimes with a zone: nothing is answered after the one,
    nothing answered before the other counts. progress: called with how many exercises are done, of how many. spread: does
    `mark_exercise` for each Asked of a list, in order; None: done here. words: of the term, to flag another section's. Pure.

    >>> from pastrylab.school.class_list import ClassList
    >>> mark_class([], ClassList((Student("17"),)), {}, [], {}).flags[0].says
    'nothing handed in'
    """
    judge = Judge(exercises, known)
    now = now or datetime.now(UTC)
    flags, mine, owned, groups = [], defaultdict(list), defaultdict(list), {}
    for hand_in in hand_ins:
        owner, doubts = owner_of(hand_in, roll)
        flags += [Flag(owner, hand_in.where, says) for says in doubts]
        owned[owner].append(hand_in)
        for taker, theirs in takers_of(hand_in, owner, roll).items():
            mine[taker].append((hand_in, theirs))
        groups |= {who: hand_in.where for who in groups_in(hand_in, roll) if who not in groups}
    flags += alike.same_lines(owned) + alike.same_lines_at_other_times(owned)
    flags += [Flag(who[0], at, f"group work: counts for {' and '.join(who)}") for who, at in sorted(groups.items())]
    students = _everybody(roll, mine)
    asked = defaultdict(list)
    for one in students:
        if one.student.number not in mine:
            flags.append(Flag(one.student.number, "", ABSENT))
            continue
        others = words.others(one.student.section) if words and one.listed else ()
        flags += _sorted_out(one, mine[one.student.number], judge, roll, (begins, now + _A_DAY), asked, others)
    tasks = [Asked(which, rules.get(which.partition(".")[0]), tuple(asked[which])) for which in sorted(asked)]
    flags += _judged(tasks, {one.student.number: one for one in students}, judge, progress, spread)
    flags += without_a_number(_names_by_student(asked)) + alike.answers_to_anothers_numbers(
        {one.student.number: one.marks for one in students}, {which for which in asked if exercises[which].options}
    )
    return ClassMarks(tuple(students), tuple(flags), tuple(tasks))


def _everybody(roll, mine):
    others = (Marked(Student(owner), listed=False) for owner in sorted(mine) if roll.of(owner) is None)
    return [*map(Marked, roll.students), *others]


def _sorted_out(one, hand_ins, judge, roll, span, asked, others):
    """Put a student's lines where they belong in `asked`, {exercise: [student]}; returns the flags."""
    number, lines, flags = one.student.number, {}, []
    flags += put_in_afterwards(number, [hand_in for hand_in, theirs in hand_ins if theirs])
    one.places = tuple(hand_in.where for hand_in, _theirs in hand_ins)
    for hand_in, theirs in hand_ins:
        kept, doubts, left_out = looked_at(hand_in, number, judge, roll, span, theirs, others)
        one.left_out += left_out
        for says, count in doubts.items():
            flags.append(Flag(number, hand_in.where, says if count == 1 else f"{says} ({count} lines)"))
        # A student may hand in the same lines again with every lesson: they count as of the earliest.
        for when, entry in kept:
            same = tuple(entry.items())
            if same not in lines or when < lines[same][0]:
                lines[same] = when, entry
    of_exercise, in_order = defaultdict(list), sorted(lines.values(), key=_first)
    quick = too_quick([(when, entry["exercise"]) for when, entry in in_order if "did" not in entry])
    flags += [Flag(number, "", quick)] * bool(quick)
    for when, entry in in_order:
        line = (when, entry["student"], entry["answer"], entry["values"], entry.get("did", ""))
        of_exercise[entry["exercise"]].append(line)
    for which, its in of_exercise.items():
        if len(its) > _MOST_ANSWERS:
            flags.append(Flag(number, which, f"more than {_MOST_ANSWERS} answers: the first of them judged"))
        asked[which].append((number, one.student.extra_days, its[:_MOST_ANSWERS]))
    return flags


def _names_by_student(asked):
    """{number: {exercise: the names that its answers were asked with}}."""
    found = defaultdict(dict)
    for which, students in asked.items():
        for number, _extra, lines in students:
            names = {student for _when, student, _answer, _values, did in lines if not did}
            if names:
                found[number][which] = names
    return found


_first = itemgetter(0)


def _judged(tasks, by_number, judge, progress, spread):
    """Fill in every mark; returns the flags."""
    flags = []
    found = spread(tasks) if spread else (mark_exercise(judge, task) for task in tasks)
    for done, (task, marks) in enumerate(zip(tasks, found, strict=True), start=1):
        for (number, _extra, _lines), mark in zip(task.students, marks, strict=True):
            if isinstance(mark, Mark):
                by_number[number].marks[task.exercise] = mark
            else:
                flags.append(Flag(number, task.exercise, f"cannot be marked: {mark}"))
        progress(done, len(tasks))
    return flags


def mark_exercise(judge, task):
    """What became of one exercise for each student of an Asked: a Mark, or a sentence why there can be none. A list.

    >>> mark_exercise(Judge({}, []), Asked("02.seed-for-a-bowl", None, ()))
    []
    """
    return [_mark(judge, task, extra_days, lines) for _number, extra_days, lines in task.students]


def _mark(judge, task, extra_days, lines):
    which, rule = task.exercise, task.rule
    tries, slips, wrong, solution, before = 0, set(), [], False, None
    for when, student, answer, values, did in lines:
        if did:
            solution = solution or did == OPENED_SOLUTION
            continue
        try:
            status, slip = judge.verdict(which, values, student, answer)
        except StudentError as error:
            return str(error)
        same = (answer.strip(), values, student)
        if status in ("right", "wrong") and same != before:
            tries, before = tries + 1, same
        slips.add(slip)
        if status == "right":
            late = rule.late(when, extra_days) if rule else 0
            points = rule.points(tries == 1, solution, late) if rule else 0.0
            return Mark(which, True, tries, late, solution, points, _named(slips), answer, tuple(wrong))
        wrong += [answer] * (status == "wrong")
    return Mark(which, False, tries, 0, solution, 0.0, _named(slips), "", tuple(wrong))


def _named(slips):
    return tuple(sorted(slip for slip in slips if slip))


def by_lesson(marked, lesson, exercises):
    """One student's row of a lesson: a dict of counts and points. exercises: the ids that the lesson has.

    >>> by_lesson(Marked(Student("17")), "02", ["02.seed-for-a-bowl"])["right"]
    0
    """
    of_it = f"{lesson}."
    marks = [mark for which, mark in marked.marks.items() if which.startswith(of_it)]
    right = [mark for mark in marks if mark.right]
    return {
        "right": len(right),
        "tried": sum(1 for mark in marks if mark.tries),
        "of": len(exercises),
        "tries": sum(mark.tries for mark in marks),
        "first right": sum(mark.first for mark in marks),
        "late": sum(1 for mark in right if mark.late),
        "worked solution first": sum(mark.solution for mark in right),
        "points": "excused" if lesson in marked.student.excused else round(sum(mark.points for mark in marks), 4),
    }
