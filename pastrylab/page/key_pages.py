"""Keys and exercise sheets of a class as pages to print: a page a student, and all answers in one grid."""

from itertools import groupby

from markupsafe import Markup

from pastrylab.page.parts import part
from pastrylab.school.keys import FEWER_DIGITS
from pastrylab.school.named import section_named

_MISSING = "missing"


def keys_html(title, keys):
    """A key, each student on a page of their own: question, answer, what counts as right, working. A str, a whole page.

    title: of the lesson; keys: a Key a student, section by section.
    """
    return _page(f"{title}, key", part("keys", title=title, keys=keys, fewer_digits=FEWER_DIGITS))


def sheets_html(title, keys):
    """The exercises on paper, each student on a page of their own with room to write. A str; arguments as keys_html."""
    return _page(f"{title}, exercises", part("exercise_sheets", title=title, keys=keys, asks=_asks))


def grid_html(title, keys):
    """Students by exercises, a table a section, the answers alone. A str; arguments as keys_html."""
    heads = {row.exercise: (row.title, row.accepted.unit) for key in keys for row in key.rows}
    sections = [
        (group[0], [(key.student, _cells(key, heads)) for key in group])
        for group in (list(group) for _, group in groupby(keys, key=lambda key: section_named(key.student.section)))
    ]
    filled = part("key_grid", title=title, heads=list(heads.values()), sections=sections)
    return _page(f"{title}, all answers", filled)


def _cells(key, heads):
    answers = {row.exercise: row.accepted.number for row in key.rows}
    return [answers.get(which, _MISSING) for which in heads]


def _asks(row):
    """What stands before the line for the answer: the unit it is asked in."""
    if row.options:
        return "Answer, a letter"
    unit = row.accepted.unit
    return f"Answer, in {unit}" if unit else "Answer, a plain number"


def _page(title, body):
    return str(part("sheet", title=title, body=Markup(body)))
