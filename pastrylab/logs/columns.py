"""Which column of a log is what: by the header's words, else by what the columns hold.

Where several columns can hold the vessel's temperature, and neither a name nor the readings tell, it is asked for.
"""

import re
from dataclasses import dataclass

from pastrylab.logs.cut import rows_named, score
from pastrylab.logs.headings import is_header
from pastrylab.logs.roles import Roles, by_content, by_header, no_third
from pastrylab.logs.tokens import token
from pastrylab.logs.vessel import choose, others

SAMPLE = 2000  # rows of readings that decide


@dataclass(frozen=True)
class Columns:
    """Where a log's readings stand: index of the first row of them, and the columns of time, temperature, date (or None)
    and notes, from 0. What is written over times and temperatures, and `told` in the lines above. `offered`: names of
    the columns that can hold the temperature; `taken`: the name of the one that does. `said`: all that in sentences.
    """

    first: int
    time: int
    temperature: int
    date: int | None
    notes: tuple[int, ...]
    over_time: str
    over_temperature: str
    told: tuple[str, ...]
    offered: tuple[str, ...]
    taken: str
    said: tuple[str, ...]


def find(sheet, job, asked=None):
    """Columns of a Sheet. asked: the name of the temperature's column, or "column 3", or None.

    StudentError: no such column; no time or temperature; several temperatures, with their names.

    >>> from pastrylab.logs.cut import cut
    >>> from pastrylab.logs.jobs import CHOCOLATE
    >>> find(cut("minutes, bowl C, room C\\n0, 45.5, 21\\n5, 41.0, 21"), CHOCOLATE).taken
    'bowl C'
    """
    first, head, above, about_head = header_of(sheet)
    readings = [(first + i + 1, row) for i, row in enumerate(sheet.cells[first : first + SAMPLE]) if score(row)]
    told = tuple(sheet.lines[i].replace("_", " ") for i in above)
    over = head if len(head) > 1 else ()
    if sheet.separator == " ":
        no_third(readings)
        names, roles = ["column 1", "column 2"], Roles(time=0, notes=(2,), date=None, able=(1,))
        temperature, why = 1, ""
    else:
        names = names_of(over, max(len(row) for _, row in readings))
        roles = by_header(over, readings) if over else by_content(readings)
        temperature, why = choose(roles.able, names, head, readings, job, asked)
    whole = told[-1] if head else ""
    over_time, over_degrees = (over[k].replace("_", " ") if k < len(over) else whole for k in (roles.time, temperature))
    offered = tuple(names[k] for k in roles.able or others(head))
    said = (*about_head, *_told(roles, temperature, names, why))
    columns = roles.time, temperature, roles.date, roles.notes
    return Columns(first, *columns, over_time, over_degrees, told, offered, names[temperature], said)


def header_of(sheet):
    """(index of the first row that holds a reading, cells of the header, indices of the lines above, sentences).

    >>> from pastrylab.logs.cut import cut
    >>> header_of(cut("Larkmoor\\nminutes, degC\\n0, 45.5\\n5, 41.0"))[:2]
    (2, ('minutes', 'degC'))
    """
    first = _first_reading(sheet)
    return first, *_header(sheet, first)


def _first_reading(sheet):
    """Index of the first row that holds a reading, or a time without one straight before it."""
    first = next((i for i, row in enumerate(sheet.cells) if score(row)), 0)
    while first and _time_alone(sheet.cells[first - 1]):
        first -= 1
    return first


def _time_alone(cells):
    """Whether a row holds a time and no words: a gap before the first reading."""
    return bool(cells) and token(cells[0]) is not None and not re.search("[a-zA-Z]", "".join(cells[1:]))


def _header(sheet, first):
    """(cells of the header, indices of the lines above the readings, sentences)."""
    above = [i for i in range(first) if sheet.lines[i].strip()]
    if not above:
        return (), (), ()
    head = ()
    if is_header(sheet.cells[above[-1]]):
        head = sheet.cells[above[-1]]
        units_only = len(above) > 1 and len(head) > 1 and all(len(cell) < 8 for cell in head)
        if units_only and len(sheet.cells[above[-2]]) == len(head) and is_header(sheet.cells[above[-2]]):
            head = tuple(f"{name} {cell}" for name, cell in zip(sheet.cells[above[-2]], head, strict=True))
    what = "the header" if head and len(above) == 1 else "not readings"
    return head, above, (f"{rows_named([i + 1 for i in above])}, before the first reading: {what}.",)


def names_of(head, width):
    """A name for each column: from the header, else its number; no two alike.

    >>> names_of(("time", "°C", "°C"), 4)
    ['time', '°C (column 2)', '°C (column 3)', 'column 4']
    """
    names = [cell[:40] for cell in head] + [""] * (width - len(head))
    alike = {name for name in names if names.count(name) > 1}
    return [
        f"column {k}" if not name else f"{name} (column {k})" if name in alike else name
        for k, name in enumerate(names, start=1)
    ]


def _told(roles, temperature, names, why):
    """Sentences that name the columns taken and those left."""
    times = [k for k in (roles.date, roles.time) if k is not None]
    shown = " and ".join(f"'{names[k]}'" for k in times)
    taken = f"The temperatures are those of '{names[temperature]}', the times those of {shown}.{why}"
    left = [f"'{name}'" for k, name in enumerate(names) if k not in (*times, temperature, *roles.notes)]
    return (taken, f"Left out: {', '.join(left)}.") if left else (taken,)
