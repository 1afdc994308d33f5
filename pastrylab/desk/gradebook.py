"""The tables of a marked class: gradebook.csv, lessons.csv and averages.csv, as rows."""

from collections import Counter, defaultdict
from statistics import fmean

from pastrylab.course import catalogue
from pastrylab.school import marking

_OF_A_LESSON = ("right", "tried", "of", "tries", "first right", "late", "worked solution first", "points")


def by_lesson():
    """{lesson: [exercise]} of all exercises there are, in the order of the lessons."""
    lessons = defaultdict(list)
    for which in catalogue.EXERCISES:
        lessons[which.partition(".")[0]].append(which)
    return dict(sorted(lessons.items()))


def asked_of_all(marks, rules, now):
    """{lesson: [exercise]} of the lessons that count in an average: tried by somebody, or due."""
    tried = {which.partition(".")[0] for one in marks.students for which, mark in one.marks.items() if mark.tries}
    due = {lesson for lesson, rule in rules.items() if rule.due and rule.due < now}
    return {lesson: which for lesson, which in by_lesson().items() if lesson in tried | due}


def percent(one, lessons, rules):
    """A student's points as percent of all there are in these lessons, those excused from apart; "" for none."""
    counted = {lesson: which for lesson, which in lessons.items() if lesson not in one.student.excused}
    most = sum(most_of(lesson, which, rules) for lesson, which in counted.items())
    mine = sum(marking.by_lesson(one, lesson, which)["points"] for lesson, which in counted.items())
    return round(100 * mine / most, 1) if most else ""


def most_of(lesson, which, rules):
    """The points of a lesson whose exercises are all right at the first try."""
    return rules[lesson].right_first * len(which) if lesson in rules else 0.0


def gradebook(marks, flags, rules, now):
    """Rows: a student a line; for each lesson what is right and its points; all points, and their percentage."""
    lessons, asked, of = by_lesson(), asked_of_all(marks, rules, now), Counter(flag.who for flag in flags)
    heads = [f"lesson {lesson} {what}" for lesson in lessons for what in ("right", "points")]
    yield ("number", "name", "section", *heads, "points", "percent", "to look at")
    for one in marks.students:
        rows = [marking.by_lesson(one, lesson, which) for lesson, which in lessons.items()]
        cells = [row[what] for row in rows for what in ("right", "points")]
        yield (*_who(one), *cells, round(one.points, 4), percent(one, asked, rules), of[one.student.number])


def lessons(marks):
    """Rows: a student and a lesson a line, with all that is counted."""
    yield ("number", "name", "section", "lesson", *_OF_A_LESSON)
    for one in marks.students:
        for lesson, which in by_lesson().items():
            row = marking.by_lesson(one, lesson, which)
            yield (*_who(one), f"lesson {lesson}", *(row[what] for what in _OF_A_LESSON))


def averages(marks, rules):
    """Rows: a lesson and a section a line, then the class: of those who tried, how many, what is right, their points."""
    yield ("lesson", "section", "students who tried", "right", "of", "points", "percent")
    for lesson, which in by_lesson().items():
        most = most_of(lesson, which, rules)
        for section, rows in _tried(marks, lesson, which).items():
            points = fmean(row["points"] for row in rows)
            right = round(fmean(row["right"] for row in rows), 2)
            share = round(100 * points / most, 1) if most else ""
            yield (f"lesson {lesson}", section, len(rows), right, len(which), round(points, 2), share)


def _tried(marks, lesson, which):
    """{section: [row]} of the students of the list who tried a lesson, "all" last; {} for nobody."""
    found = defaultdict(list)
    for one in marks.students:
        row = marking.by_lesson(one, lesson, which)
        if one.listed and row["tried"] and lesson not in one.student.excused:
            found[one.student.section or "no section"].append(row)
    everybody = {"all": [row for rows in found.values() for row in rows]} if found else {}
    return dict(sorted(found.items())) | everybody


def _who(one):
    student = one.student
    return student.written or student.number, student.name, student.section if one.listed else "not in the list"
