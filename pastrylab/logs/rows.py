"""The rows of a log: its readings with their times and notes; gaps, footers and remarks in words."""

import re
from dataclasses import dataclass
from typing import NamedTuple

from pastrylab.ground.units import StudentError
from pastrylab.logs.cut import TEMPERATURE, rows_named
from pastrylab.logs.tokens import plain_times, token

CHUNK = 500  # rows looked at together
_GAP = re.compile(r"(?i)|[-–—.?*/\\]+|n\.?/?a\.?n?|none|null|err(or)?\.?|open|o\.?l\.?|missed|missing")
_REMARK = re.compile(r"([0-9][0-9.,]*(?:\s*°?\s*[CF])?)\s+([A-Za-z][A-Za-z ]+)")


class Rows(NamedTuple):
    """Readings, column by column: number of each row, text of its time with form and value as a Token has them, text of
    its temperature, and its note.
    """

    lines: list[int]
    texts: list[str]
    forms: list[str]
    values: list
    degrees: list[str]
    notes: list[str]


@dataclass(frozen=True)
class _Part:
    """What some rows of a log hold: readings, numbers of those that are gaps and of those without a reading, and the
    note that waits for the next reading.
    """

    rows: Rows
    gaps: tuple[int, ...]
    skipped: tuple[int, ...]
    waiting: str


@dataclass(frozen=True)
class _Gap:
    """A row that holds a time and no temperature, and what is noted there."""

    note: str


def readings(sheet, columns):
    """(Rows of a Sheet, sentences on what was left out). StudentError: names row, column and remedy.

    >>> from pastrylab.logs.columns import find
    >>> from pastrylab.logs.cut import cut
    >>> from pastrylab.logs.jobs import CHOCOLATE
    >>> sheet = cut("minutes, degC\\n0, 45.5\\n5, missed\\n10, 41.0")
    >>> rows, said = readings(sheet, find(sheet, CHOCOLATE))
    >>> rows.degrees, rows.lines
    (['45.5', '41.0'], [2, 4])
    """
    body, parts, waiting = sheet.cells[columns.first :], [], ""
    for start in range(0, len(body), CHUNK):
        chunk = columns.first + start + 1, body[start : start + CHUNK]
        parts.append(_regular(*chunk, columns, waiting) or _one_by_one(*chunk, columns, waiting))
        waiting = parts[-1].waiting
    rows = Rows(*([item for part in column for item in part] for column in zip(*(p.rows for p in parts), strict=True)))
    gaps, skipped = [n for part in parts for n in part.gaps], [n for part in parts for n in part.skipped]
    said = ()
    if gaps:
        said = (f"{rows_named(gaps)} without a temperature: a gap. What is noted there stands with the next reading.",)
    if skipped:
        said = (*said, f"{rows_named(skipped)} without a reading: skipped.")
    enough(rows.lines)
    _no_thousands(rows)
    return rows, said


def without(rows, keep):
    """Rows without those a mask leaves out.

    >>> without(Rows([1, 2], ["0", "5"], ["number"] * 2, [0.0, 5.0], ["45.5", "999"], ["", ""]), [True, False]).degrees
    ['45.5']
    """
    return Rows(*([item for item, kept in zip(column, keep, strict=True) if kept] for column in rows))


def enough(lines):
    """None; StudentError for fewer than two readings. lines: their rows.

    >>> enough([2, 3])
    """
    if len(lines) < 2:
        shown = f"a log with {len(lines)} reading{'s' * (len(lines) != 1)}"
        raise StudentError(shown, "at least two rows of time and temperature", "0, 45.2 and 5, 40.1")


def _joined(*notes):
    return "; ".join(filter(None, notes))


def _regular(line, chunk, columns, waiting):
    """_Part of rows whose times and temperatures are all plainly written; None where one is not.

    It gives what _one_by_one gives, many times as fast.
    """
    try:
        times = [cells[columns.time] for cells in chunk]
        degrees = [cells[columns.temperature] for cells in chunk]
        if columns.date is not None:
            times = [f"{cells[columns.date]} {text}" for cells, text in zip(chunk, times, strict=True)]
    except IndexError:
        return None
    if not all(map(TEMPERATURE.fullmatch, degrees)) or any(cells[0].startswith("#") for cells in chunk):
        return None
    read = plain_times(times)
    if read is None:
        return None
    form, values = read
    notes = [_note(cells, columns) for cells in chunk]
    notes[0] = _joined(waiting, notes[0])
    lines = list(range(line, line + len(chunk)))
    return _Part(Rows(lines, times, [form] * len(chunk), values, degrees, notes), (), (), "")


def _one_by_one(line, chunk, columns, waiting):
    """_Part of rows in any order and of any kind."""
    found, gaps, skipped = [], [], []
    for number, cells in enumerate(chunk, start=line):
        if not any(cells):
            continue
        row = _row(number, cells, columns)
        if row is None:
            skipped.append(number)
        elif isinstance(row, _Gap):
            waiting = _joined(waiting, row.note)
            gaps.append(number)
        else:
            *reading, note = row
            found.append((number, *reading, _joined(waiting, note)))
            waiting = ""
    columns_of = zip(*found, strict=True) if found else ((),) * len(Rows._fields)
    return _Part(Rows(*map(list, columns_of)), tuple(gaps), tuple(skipped), waiting)


def _note(cells, columns):
    return " ".join(cells[k] for k in columns.notes if k < len(cells) and cells[k])


def _row(line, cells, columns):
    """(text of the time, its form and value, text of the temperature, note) of a row that is not empty; or a _Gap, or
    None for words. StudentError where it is none of these.
    """
    time, degrees, date = (
        cells[k] if k is not None and k < len(cells) else "" for k in (columns.time, columns.temperature, columns.date)
    )
    text = f"{date} {time}" if date else time
    when = token(text)
    if _is_remark(cells[0], time, degrees, when):
        return None
    if when is None:
        given = f"row {line}, time column: '{time[:40]}'"
        raise StudentError(given, "minutes or a clock time", "12, 12:30 or 9:05 am")
    note = _note(cells, columns)
    if not re.search("[0-9]", degrees):
        return _Gap(_joined("" if _GAP.fullmatch(degrees) else degrees, note))
    remark = None if TEMPERATURE.fullmatch(degrees) else _REMARK.fullmatch(degrees)
    if remark:  # "97 seed": a word written behind the reading
        degrees, note = remark[1], " ".join(filter(None, (remark[2], note)))
    if not TEMPERATURE.fullmatch(degrees):
        given = f"row {line}, temperature column: '{degrees[:40]}'"
        needed = "one number, with C or F behind it if you like; leave the cell empty for a missed reading"
        raise StudentError(given, needed, "31.5 or 88.7 F")
    return text, when.form, when.value, degrees, note


def _is_remark(first, time, degrees, when):
    """Whether a row holds words, not a reading."""
    if first.startswith("#"):
        return True
    if not re.search("[0-9]", time) and (time or not re.search("[0-9]", degrees)):
        return True
    return when is None and not (time[:1].isdigit() or time[:1] == "" or time[:1] in "+-−")


def _no_thousands(rows):
    """StudentError where a comma in the times can mark thousands."""
    if not any("," in text for text in rows.texts):
        return
    plain = [(n, text) for n, text, form in zip(rows.lines, rows.texts, rows.forms, strict=True) if form == "number"]
    marked = next(((n, text) for n, text in plain if re.fullmatch("[0-9]{1,3},[0-9]{3}", text)), None)
    if marked and any(re.fullmatch("[1-9][0-9]{2}", text) for _, text in plain):
        given = f"row {marked[0]}, time column: '{marked[1]}', which can be a thousand or a decimal"
        raise StudentError(given, "times without a mark for the thousands", marked[1].replace(",", ""))
