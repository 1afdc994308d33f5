"""Which column of a log holds times, dates, notes and perhaps temperatures: by the header, else by what stands in it."""

import re
from dataclasses import dataclass

import numpy as np

from pastrylab.ground.units import StudentError
from pastrylab.logs.cut import TEMPERATURE, is_reading
from pastrylab.logs.headings import ROLES, named_unit, role
from pastrylab.logs.tokens import DATE, NUMBER, token

_KINDS = "number", "clock", "text"


@dataclass(frozen=True)
class Roles:
    """Columns of a log, by number from 0: its time, its notes, its date or None; able: those that can hold the
    temperature.
    """

    time: int
    notes: tuple[int, ...]
    date: int | None
    able: tuple[int, ...]


def by_header(head, readings):
    """Roles of the columns of a header. readings: (row number, cells) of rows with readings.

    StudentError: no time or no temperature, or more columns of numbers than the header names.

    >>> by_header(("time", "bowl °C", "room °C"), [(2, ("0", "45.5", "21.0")), (3, ("5", "41.0", "21.0"))]).able
    (1,)
    """
    over = [line for line, row in readings if len(row) > len(head) and re.fullmatch("[0-9]+", row[-1])]
    if over:
        raise _too_many(over[0])
    holds = [any(is_reading(row[k]) for _, row in readings if len(row) > k) for k in range(len(head))]
    roles = [role(cell) for cell in head]
    places = {role: [k for k, found in enumerate(roles) if found == role] for role in (*dict(ROLES), None)}
    spare = [k for k in places[None] if holds[k]]
    beyond = range(len(head), len(head) + 5)  # words behind the last column that has a name
    times = places["time"] or places["date"] or spare[:1]
    able = [k for k in places["temperature"] if holds[k]] or [k for k in spare if k not in times]
    able = [k for k in able if not _running(k, readings)] or able
    if not times or not able and not any(holds[k] for k in places["other"]):
        missing = "temperature" if times else "time"
        given = f"a header without a {missing} column: {', '.join(repr(cell[:30]) for cell in head if cell)}"
        raise StudentError(given, "a column of times and one of degrees", "minutes, degC")
    time = next((k for k in times if holds[k]), times[0])
    date = places["date"][0] if places["time"] and places["date"] else None
    return Roles(time, (*places["note"], *beyond), date, tuple(able))


def by_content(readings):
    """Roles of columns without names, from what they hold; as by_header.

    >>> by_content([(1, ("9:05", "45.5", "stirred")), (2, ("9:10", "41.0", "smeared"))])
    Roles(time=0, notes=(2,), date=None, able=(1,))
    """
    kinds = [
        _kind([row[k] for _, row in readings if len(row) > k and row[k]])
        for k in range(max(len(row) for _, row in readings))
    ]
    numbers, clocks, words = (tuple(k for k, kind in enumerate(kinds) if kind == name) for name in _KINDS)
    if clocks:
        time, able = clocks[0], numbers
        if len(numbers) > 1 and numbers[0] < time:
            able = numbers[1:]  # a running number stands before the time
    else:
        counted = len(numbers) > 2 and _running(numbers[0], readings) and _rises(numbers[1], readings)
        time, able = numbers[int(counted)] if numbers else None, numbers[1 + counted :]
    if not able:
        raise StudentError(f"row {readings[0][0]}, without a time or a temperature", "both in every row", "9:05, 112 F")
    if len(able) > 1 and _cut_at_decimal_commas(able, readings):
        raise _too_many(readings[0][0])
    date = kinds.index("date") if clocks and "date" in kinds[:time] else None
    return Roles(time, words, date, able)


def _rises(k, readings):
    """Whether the numbers of a column rise from each row to the next."""
    numbers, _ = degrees_in(k, [], readings)
    return numbers.size > 2 and bool(np.all(np.diff(numbers) > 0))


def _running(k, readings):
    """Whether a column holds a running number: whole, each one more than the one before."""
    numbers, _ = degrees_in(k, [], readings)
    return numbers.size > 2 and bool(np.all(np.diff(numbers) == 1) and numbers[0] in (0, 1))


def _kind(column):
    counts = {
        "number": sum(bool(TEMPERATURE.fullmatch(c)) for c in column),
        "date": sum(bool(re.fullmatch(DATE, c)) and not re.fullmatch(NUMBER, c) for c in column),
        "clock": sum(token(c) is not None and not TEMPERATURE.fullmatch(c) for c in column),
    }
    best = max(counts, key=counts.get)
    return best if column and counts[best] >= 0.5 * len(column) else "text"


def _cut_at_decimal_commas(numbers, readings):
    """Whether whole numbers stand in every column, the last of them short: 44,4 cut in two."""
    cells = [[row[k] for _, row in readings if len(row) > k and row[k]] for k in numbers]
    return all(re.fullmatch("[+-]?[0-9]+", cell) for column in cells for cell in column) and all(
        len(cell) <= 2 for cell in cells[-1]
    )


def no_third(readings):
    """None; StudentError where the notes of a log cut at spaces begin with a number: a third column of them.

    >>> no_third([(1, ("0", "45.5", "stirred"))])
    """
    extra = [line for line, row in readings if re.fullmatch(NUMBER, row[-1]) and len(row) > 2]
    if extra:
        raise _too_many(extra[0])


def _too_many(line):
    return StudentError(
        f"row {line}, with more columns of numbers than a time and a temperature",
        "a header that names the columns, or, if the commas are decimal commas, semicolons between the columns",
        "minutes;degC in the first row, then 0;44,4",
    )


def degrees_in(k, head, readings):
    """(numbers of a column, the unit its header or its cells name or None).

    >>> degrees_in(1, ("time", "temp °F"), [(2, ("9:05", "113")), (3, ("9:10", "95"))])[1]
    'degF'
    """
    found = [TEMPERATURE.fullmatch(row[k]) for _, row in readings if len(row) > k]
    numbers = np.array([float(re.sub("[−–]", "-", m["n"]).replace(",", ".")) for m in found if m])
    units = {(m["u"] or m["sign"] or "").lower()[:1] for m in found if m} - {""}
    inside = {"c": "degC", "f": "degF", "℃": "degC", "℉": "degF"}.get(units.pop()) if len(units) == 1 else None
    return numbers, inside or (named_unit(head[k]) if k < len(head) else None)
