"""What the practical work is marked by: points of the rubrics, the scale of the pieces, what is ticked at a bench."""

from pastrylab.ground.files import load
from pastrylab.ground.tables import Column, Table
from pastrylab.ground.units import StudentError

WHOLE = 100  # points of a rubric

RUBRICS = Table(
    columns=(
        Column("lesson"),
        Column("what"),
        Column("sound", "number", low=0, high=WHOLE),
        Column("professional", "number", above=0, high=WHOLE),
    ),
    key=("lesson", "what"),
)
PIECE_MARKS = Table(
    columns=(
        Column("attribute"),
        Column("lessons"),
        Column("five"),
        Column("three"),
        Column("one"),
        Column("defects", required=False),
    ),
    key=("attribute",),
)
LAB_CHECKS = Table(columns=(Column("lessons"), Column("check")), key=("lessons", "check"))


def rubric_points(lesson):
    """{row of the rubric: (points for sound, points for professional)} of a lesson; {} where the sheet has none.

    Raises StudentError where they do not add up to 100, or sound is worth more than professional.

    >>> rubric_points("02")["smear"]
    (22.0, 30.0)
    """
    found = {
        row["what"]: (row["sound"], row["professional"])
        for row in load("rubrics.csv", RUBRICS)
        if lesson_named(row["lesson"]) == lesson
    }
    if fault := points_fault(lesson, found):
        raise fault
    return found


def all_points():
    """{lesson: its rubric_points} of the whole sheet. Raises StudentError as rubric_points does.

    >>> sorted(all_points())[:3]
    ['01', '02', '02b']
    """
    lessons = {lesson_named(one) for one in load("rubrics.csv", RUBRICS)["lesson"]}
    return {one: rubric_points(one) for one in sorted(lessons)}


def points_fault(lesson, points):
    """The StudentError on the points of a rubric, as rubric_points returns them, or None.

    >>> points_fault("02", {"smear": (22, 30)}).needed
    'points that add up to 100'
    """
    where = f"rubrics.csv, lesson {lesson}"
    for what, (sound, professional) in points.items():
        if sound > professional:
            return StudentError(
                f"{where}, {what}: {sound:g} points for sound, {professional:g} for professional",
                "no more for sound than for professional",
                f"{professional:g} and {sound:g}",
            )
    whole = sum(professional for _, professional in points.values())
    if points and abs(whole - WHOLE) > 1e-9:
        return StudentError(
            f"{where}: points for professional that add up to {whole:g}",
            f"points that add up to {WHOLE}",
            f"{WHOLE - whole:+g} in one of its rows",
        )
    return None


def piece_marks(lesson):
    """What pieces of a lesson are marked by: dicts attribute, five, three, one (the scale in words), defects (a list of names).

    >>> [row["attribute"] for row in piece_marks("03")]
    ['filling', 'taste']
    """
    rows = [row for row in load("piece_marks.csv", PIECE_MARKS) if _is_of(lesson, row["lessons"])]
    return [{**row, "defects": _listed(row["defects"])} for row in rows]


def lab_checks(lesson):
    """What is ticked at a bench in a lesson, sentences in the order of their sheet.

    >>> len(lab_checks("08"))
    5
    """
    return [row["check"] for row in load("lab_checks.csv", LAB_CHECKS) if _is_of(lesson, row["lessons"])]


def lesson_named(text):
    """A lesson's number as the pages have it: a spreadsheet drops the nought of 02.

    >>> lesson_named(" 2"), lesson_named("2b"), lesson_named("09")
    ('02', '02b', '09')
    """
    plain = text.strip().casefold()
    number = plain.rstrip("abcdefghijklmnopqrstuvwxyz")
    return number.zfill(2) + plain[len(number) :] if number.isdigit() else plain


def _is_of(lesson, lessons):
    named = {lesson_named(one) for one in _listed(lessons)}
    return bool({lesson, "all"} & named)


def _listed(cell):
    return [one.strip() for one in cell.split(";") if one.strip()]
