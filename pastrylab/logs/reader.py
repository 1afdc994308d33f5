"""Read a probe's temperature log: a logger's file, or a sheet written by hand and typed in.

The text is read by a grammar of its own; nothing in it is ever evaluated. What the log leaves open is asked for in a
StudentError. The way: cut -> columns -> rows -> degrees -> times; each says in sentences what it took for what.
"""

import re
from pathlib import Path

import numpy as np

from pastrylab.ground.units import StudentError
from pastrylab.logs.columns import find
from pastrylab.logs.cut import cut, rows_named
from pastrylab.logs.degrees import celsius, sound
from pastrylab.logs.jobs import CHOCOLATE
from pastrylab.logs.log import How, Log
from pastrylab.logs.rows import enough, readings, without
from pastrylab.logs.times import FORMS, to_minutes


def read_log(path_or_text, unit=None, times=None, column=None, job=CHOCOLATE):
    """A Log: `minutes` from its first reading, `degC`, and `note` where there are notes; `how` it was read.

    path_or_text: a path, bytes, or text with a line break. unit: "degC" or "degF", for a log that names none.
    times: "minutes", "seconds", "hours", "mm:ss" or "h:mm", for a log whose times can be read in two ways.
    column: the name of the temperature's column, or "column 3", for a log of several. job: jobs.CHOCOLATE or jobs.CREAM,
    what was logged; its limits tell unit, times and column where the log does not.
    StudentError: names row, column and remedy, or asks for what the log leaves open.

    >>> log = read_log("time, degF\\n9:05, 113\\n9:15, 95")
    >>> log["minutes"].tolist(), log["degC"].tolist()
    ([0.0, 10.0], [45.0, 35.0])
    """
    unit, times = asked_unit(unit), asked_form(times)
    text, about_file = text_of(path_or_text)
    sheet = cut(text)
    columns = find(sheet, job, column)
    rows, about_rows = readings(sheet, columns)
    degrees, unit, about_unit = celsius(rows, columns, unit, job)
    rows, degrees, about_faults = _without_faults(rows, degrees)
    read = to_minutes(rows, degrees, columns.over_time, times, job)
    read_columns, about_order = _in_order(read.minutes, degrees, rows.notes)
    said = (*about_file, *sheet.said, *columns.said, *about_rows, *about_unit, *about_faults, *read.said, *about_order)
    return Log(read_columns, how_read(said, unit, columns, read))


def how_read(said, unit, columns, read):
    """How of a log. said: sentences; unit: as written; columns: Columns; read: its Times.

    >>> read_log("9:05, 45 C\\n9:15, 36 C").how.first
    545.0
    """
    first = float(read.minutes.min())
    first = first % 1440 if read.clock else first
    return How(said, unit, columns.taken, columns.offered, read.form, first, read.clock)


def asked_unit(given):
    """ "degC", "degF" or None, from what a caller says of a log. StudentError for any other unit.

    >>> asked_unit("°F")
    'degF'
    """
    if given is None:
        return None
    word = re.sub(r"[°º\s._]|deg(rees?)?", "", str(given).lower())
    found = {"c": "degC", "celsius": "degC", "f": "degF", "fahrenheit": "degF"}.get(word)
    if found is None:
        raise StudentError(f"'{str(given)[:20]}' as the unit", "°C or °F", "°F")
    return found


def asked_form(given):
    """One of FORMS or None, from what a caller says of a log's times. StudentError for anything else.

    >>> asked_form("mm:ss")
    'mm:ss'
    """
    if given is not None and given not in FORMS:
        raise StudentError(f"'{str(given)[:20]}' for the times", "one of " + ", ".join(FORMS), "mm:ss")
    return given


def text_of(given):
    """(text of a log, sentences). given: a path, bytes, or text with a line break. StudentError for anything else.

    >>> text_of("9:05, 45 C\\n9:15, 36 C")
    ('9:05, 45 C\\n9:15, 36 C', ())
    """
    if isinstance(given, str) and ("\n" in given or "\r" in given):
        return given.replace("\0", "").lstrip("\ufeff"), ()
    if isinstance(given, bytes | bytearray | memoryview):
        return decoded(bytes(given))
    example = "my_log.csv, or text with one reading on each line"
    if not isinstance(given, str | Path):
        raise StudentError(f"a {type(given).__name__}", "a file name, text or bytes", example)
    try:
        return decoded(Path(given).read_bytes())
    except (OSError, ValueError):
        shown = f"'{str(given)[:60]}', and no file of that name can be read"
        raise StudentError(shown, "a log file, or its text in several lines", example) from None


def decoded(data):
    """(text, sentences) of a file's bytes: UTF-8, UTF-16 where it says so, else as Windows writes it (cp1252).

    >>> decoded("9:05, 45 °C".encode("cp1252"))[0]
    '9:05, 45 °C'
    """
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return data.decode("utf-16", errors="replace").replace("\0", ""), ()
    try:
        return data.decode("utf-8-sig").replace("\0", ""), ()
    except UnicodeDecodeError:
        said = "The file is not UTF-8. It was read as a Windows file (cp1252)."
        return data.decode("cp1252", errors="replace").replace("\0", ""), (said,)


def _without_faults(rows, degrees):
    keep = sound(degrees)
    if keep.all():
        return rows, degrees, ()
    faults = [line for line, kept in zip(rows.lines, keep, strict=True) if not kept]
    rows = without(rows, keep)
    enough(rows.lines)
    said = f"{rows_named(faults)}: a probe's error code, not a temperature. Left out as a gap."
    return rows, degrees[keep], (said,)


def _in_order(minutes, degrees, notes):
    """({name: column} sorted, counted from the first reading, repeated times averaged; sentences)."""
    order = np.argsort(minutes, kind="stable")
    counted, degrees = np.round(minutes[order] - minutes[order[0]], 6), degrees[order]
    begins = np.flatnonzero(np.append(True, counted[1:] != counted[:-1]))
    if len(begins) < 2:
        given = "a log whose readings all have one time"
        raise StudentError(given, "readings at two times or more", "0, 45.2 and 5, 40.1")
    said = ["The rows were not in the order of time and have been sorted."] if np.any(np.diff(order) < 0) else []
    noted, repeated = [notes[i] for i in order], len(counted) - len(begins)
    if repeated:
        ends = np.append(begins[1:], len(counted))
        apart = float((np.maximum.reduceat(degrees, begins) - np.minimum.reduceat(degrees, begins)).max())
        degrees = np.add.reduceat(degrees, begins) / (ends - begins)
        noted = [
            "; ".join(dict.fromkeys(filter(None, noted[begin:end]))) for begin, end in zip(begins, ends, strict=True)
        ]
        said.append(f"Repeated times: {repeated}. Their readings were averaged; the widest lie {apart:.1f} °C apart.")
    columns = {"minutes": counted[begins], "degC": degrees}
    return columns | ({"note": tuple(noted)} if any(noted) else {}), tuple(said)
