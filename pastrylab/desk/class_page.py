"""One page on a marked class: which slips, by exercise and section, who is stuck where, what everybody missed."""

from collections import Counter, defaultdict

from markupsafe import Markup

from pastrylab.course import catalogue
from pastrylab.desk.gradebook import averages, by_lesson
from pastrylab.page.parts import part

_MOST_SLIPS = 5  # an exercise
_NONE = "no section"


def class_page(marks, flags, rules):
    """The page as HTML. marks: a ClassMarks; flags: what to look at; rules: {lesson: Rule}."""
    students = [one for one in marks.students if one.places and one.listed]
    in_order = [which for lesson in by_lesson().values() for which in lesson]
    exercises = [found for which in in_order if (found := _exercise(which, students))["tried"]]
    body = part(
        "class_page",
        handed_in=len(students),
        listed=sum(one.listed for one in marks.students),
        lessons=_lessons(marks, rules),
        exercises=exercises,
        missed=[(one["title"], one["tried"]) for one in exercises if not one["right"]],
        stuck=[(one["title"], one["stuck"]) for one in exercises if one["stuck"]],
        flags=Counter(flag.says.partition(":")[0].partition(" (")[0] for flag in flags).most_common(),
    )
    return str(part("sheet", title="The class", body=Markup(body)))


def _lessons(marks, rules):
    """{lesson: [(section, students, percent of the points)]} of the lessons that somebody tried."""
    found = defaultdict(list)
    for lesson, section, students, _right, _of, _points, percent in list(averages(marks, rules))[1:]:
        found[lesson].append((section, students, percent))
    return {lesson: _alone(rows) for lesson, rows in found.items()}


def _alone(rows):
    """The rows of the sections and of all; where there is one section, that of all."""
    return rows[-1:] if len(rows) == 2 else rows


def _exercise(which, students):
    """What the page says of one exercise: how many tried, were right, right at once, and their slips; by section too."""
    found = [(one.student, one.marks[which]) for one in students if which in one.marks and one.marks[which].tries]
    slips = Counter(slip for _student, mark in found for slip in mark.slips).most_common(_MOST_SLIPS)
    stuck = defaultdict(list)
    for student, mark in found:
        if mark.stuck:
            stuck[student.section or _NONE].append(student.written or student.number)
    return {
        "title": f"{which.partition('.')[0]} {catalogue.exercise(which).title}",
        "tried": len(found),
        "right": sum(mark.right for _student, mark in found),
        "stuck": sorted(stuck.items()),
        "rows": [
            ("right in the end", _by_section(found, lambda mark: mark.right)),
            ("right at the first try", _by_section(found, lambda mark: mark.first)),
        ],
        "slips": [(slip, _by_section(found, lambda mark, slip=slip: slip in mark.slips)) for slip, _count in slips],
    }


def _by_section(found, counts):
    """[(section, how many count, of how many)] of (student, mark), all of them last."""
    tried, so = Counter(), Counter()
    for student, mark in found:
        section = student.section or _NONE
        tried[section] += 1
        so[section] += bool(counts(mark))
    return _alone([*((one, so[one], tried[one]) for one in sorted(tried)), ("all", so.total(), tried.total())])
