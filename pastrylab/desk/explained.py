"""A page for one student: how each point came about, from what was typed and by which numbers."""

import re
from collections import Counter
from dataclasses import replace

from markupsafe import Markup

from pastrylab.course import catalogue
from pastrylab.desk.gradebook import by_lesson, most_of
from pastrylab.ground.units import StudentError
from pastrylab.page.parts import part
from pastrylab.school import explaining, marking
from pastrylab.school.engine import case
from pastrylab.school.judging import Judge
from pastrylab.school.named import number_named

_EVERYBODY = "all"


def chosen(marks, numbers):
    """[Marked] of the numbers, or of everybody who handed in where one of them is "all". Raises StudentError."""
    numbers = [numbers] if isinstance(numbers, str) else numbers
    there = {one.student.number: one for one in marks.students if one.places}
    if _EVERYBODY in numbers:
        return list(there.values())
    wanted = {number_named(number): number for number in numbers}
    for number, typed in wanted.items():
        if number not in there:
            raise StudentError(f"{typed} to explain, who handed in nothing", "a number of the class, or all", "17")
    return [there[number] for number in wanted]


def pages(marks, numbers, known, rules, flags):
    """Yields (file name, page in HTML) for each student chosen. known: [Values] given out; rules: {lesson:
    Rule}; flags: what to look at."""
    judge, used = Judge(catalogue.EXERCISES, known), Counter()
    lines = {(number, task.exercise): its for task in marks.asked for number, _extra, its in task.students}
    for one in chosen(marks, numbers):
        name = re.sub(r"[^\w-]+", "-", _written(one.student))[:60] or "no-number"
        used[name] += 1
        name += f"_{used[name]}" if used[name] > 1 else ""
        yield f"{name}.html", _page(one, lines, flags, judge, rules)


def _page(one, lines, flags, judge, rules):
    number = one.student.number
    exercises = [_exercise(mark, lines[number, mark.exercise], judge, rules, one.student) for mark in _in_order(one)]
    body = part(
        "student_page",
        who=one.student,
        points=one.points,
        lessons=[_lesson(one, lesson, of, rules) for lesson, of in by_lesson().items()],
        exercises=exercises,
        flags=[flag for flag in flags if flag.who == number],
    )
    return str(part("sheet", title=f"Number {_written(one.student) or 'unknown'}", body=Markup(body)))


def _written(student):
    """Their number as the class list has it."""
    return student.written or student.number


def _in_order(one):
    return [one.marks[which] for which in catalogue.EXERCISES if which in one.marks]


def _lesson(one, lesson, of, rules):
    row, rule = marking.by_lesson(one, lesson, of), rules.get(lesson)
    due = f"{rule.due:%Y-%m-%d %H:%M}" if rule and rule.due else "no date"
    return {"number": lesson, "due": due, "most": most_of(lesson, of, rules), **row}


def _exercise(mark, lines, judge, rules, who):
    which = mark.exercise
    exercise, rule = judge.exercises[which], rules.get(which.partition(".")[0])
    asked = {key: _case(exercise, *key, judge) for key in {_key(line) for line in lines}}
    last = asked[_key(lines[-1])]
    return {
        "title": f"{which.partition('.')[0]} {exercise.title}",
        "lines": [
            _beside(said, asked[_key(line)], last)
            for said, line in zip(explaining.lines_of(judge, which, lines), lines, strict=True)
        ],
        "why": explaining.why(mark, rule),
        **(_asked(last, lines[-1][1], who) if last else {}),
    }


def _key(line):
    """By whose numbers, and of which values, a line was asked."""
    _when, student, _answer, values, _did = line
    return student, values


def _case(exercise, student, values, judge):
    """What was asked; None where its values no longer serve."""
    try:
        return case(exercise, student, judge.known[values])
    except StudentError:
        return None


def _beside(said, asked, last):
    """A line with what was right for it, where another question than the one on the page was asked."""
    if not said.answer or not asked or (last and (asked.prompt, asked.answer) == (last.prompt, last.answer)):
        return said
    return replace(said, says=f"{said.says} (asked with other numbers: right was {asked.answer})")


def _asked(worked, student, who):
    """The question as it was asked last, and what is right."""
    named = _written(who) if student == who.number else student
    numbers = f"the numbers of '{named}'" if student else "the numbers of the class"
    return {"asked": worked.prompt, "options": worked.options, "answer": worked.answer, "numbers": numbers}
