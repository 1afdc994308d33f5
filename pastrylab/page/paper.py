"""Pages to print: a lesson's sheets alone, and what an instructor marks, ticks and signs on."""

import base64

from pastrylab.logs.pan import COLD, FIRST_LIMIT, HOT, MIDDLE, WHOLE_LIMIT
from pastrylab.page.drawings import DEFECTS
from pastrylab.page.parts import part

BLANK_ROWS = 20
_DAYS_A_PAGE = 12


def document(title, pages):
    """A whole HTML document of its own: each of the pages (pieces of HTML) begins a new sheet of paper.

    >>> "<title>a &amp; b</title>" in document("a & b", [])
    True
    """
    return str(part("paper", title=title, pages=pages))


def sheet_page(lesson, title, heading, body, points=None, look="sheet"):
    """A sheet of a lesson as a piece of HTML. body: a Markup; points: as ground.mark_tables.rubric_points, or None."""
    return part("paper_sheet", lesson=lesson, title=title, heading=heading, body=body, points=points, look=look)


def rubric_pages(lesson, title, points, people=()):
    """The rubric as a grid, a page or more for each section: a row a student, a column a row of the rubric."""
    return [
        part("paper_class", what="rubric", lesson=lesson, title=title, points=points, section=section, people=some)
        for section, some in _sections(people)
    ]


def attendance_pages(people=(), days=()):
    """Rows for the students of each section, a column a day (a str each); without days, columns to fill in."""
    days = list(days) or [""] * _DAYS_A_PAGE
    spans = [days[at : at + _DAYS_A_PAGE] for at in range(0, len(days), _DAYS_A_PAGE)]
    return [
        part("paper_class", what="attendance", section=section, people=some, days=span)
        for section, some in _sections(people)
        for span in spans
    ]


def pieces_page(lesson, title, marks, drawn):
    """The sheet on which pieces are marked. marks: as ground.mark_tables.piece_marks; drawn: names of defects the lesson shows."""
    named = dict.fromkeys(name for one in marks for name in one["defects"] if name in drawn and name in DEFECTS)
    seen = [(DEFECTS[name].alt, base64.b64encode(DEFECTS[name].svg.encode()).decode("ascii")) for name in named]
    return part("paper_class", what="pieces", lesson=lesson, title=title, marks=marks, seen=seen)


def bench_pages(lesson, title, caution, checks, benches, groups=()):
    """A lab sheet for each of so many benches: caution (a Markup), what is ticked, temperatures, cooling to sign.

    groups: Students, those that the class list names as one; each has a sheet with their names, numbered section by section.
    """
    more = {"caution": caution, "checks": checks, "limits": _cooling()}
    return [
        part("paper_class", what="bench", lesson=lesson, title=title, bench=bench, section=section, group=group, **more)
        for section, some in (_sections(groups) if groups else [("", [])])
        for bench, group in enumerate([*some, *[None] * (benches - len(some))], 1)
    ]


def _cooling():
    # The law's own figures in °F are whole degrees.
    hot, middle, cold = (f"{degrees:g} °C ({degrees * 1.8 + 32:.0f} °F)" for degrees in (HOT, MIDDLE, COLD))
    return (
        f"{hot}: the clock starts",
        f"{middle}: within {FIRST_LIMIT / 60:g} h of that",
        f"{cold}: within {WHOLE_LIMIT / 60:g} h of the first",
    )


def _sections(people):
    """(section, its students) in the order of the list; blank rows where there is no list."""
    if not people:
        return [("", [None] * BLANK_ROWS)]
    found = {}
    for one in people:
        found.setdefault(one.section, []).append(one)
    return list(found.items())
