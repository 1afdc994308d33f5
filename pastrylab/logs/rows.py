"""The rows of a log: its readings with their times and notes; gaps, footers and remarks in words."""

import re
from collections import namedtuple

from pastrylab.ground.units import StudentError
from pastrylab.logs.cut import TEMPERATURE, rows_named
from pastrylab.logs.tokens import plain_times, token

CHUNK = 500  # rows looked at together

# lines: number of the row; texts: its time, with forms and values as tokens has them; degrees: the text of its temperature
Rows = namedtuple("Rows", "lines texts forms values degrees notes")
_GAP = re.compile(r"(?i)|[-–—.?*/\\]+|n\.?/?a\.?n?|none|null|err(or)?\.?|open|o\.?l\.?|missed|missing")
_REMARK = re.compile(r"([0-9][0-9.,]*(?:\s*°?\s*[CF])?)\s+([A-Za-z][A-Za-z ]+)")


def readings(sheet, columns):
    """(Rows of a sheet, sentences). StudentError: names row, column and remedy."""
    reader = _Reader(columns.roles)
    body = sheet.cells[columns.first :]
    for start in range(0, len(body), CHUNK):
        reader.take(columns.first + start + 1, body[start : start + CHUNK])
    rows = Rows(*reader.lists)
    said = []
    if reader.gaps:
        named = rows_named(reader.gaps)
        said.append(f"{named} without a temperature: a gap. What is noted there stands with the next reading.")
    if reader.skipped:
        said.append(f"{rows_named(reader.skipped)} without a reading: skipped.")
    enough(rows.lines)
    _no_thousands(rows)
    return rows, tuple(said)


def without(rows, keep):
    """Rows without those a mask leaves out."""
    return Rows(*([item for item, kept in zip(column, keep, strict=True) if kept] for column in rows))


def enough(lines):
    """StudentError for fewer than two readings."""
    if len(lines) < 2:
        shown = f"a log with {len(lines)} reading{'s' * (len(lines) != 1)}"
        raise StudentError(shown, "at least two rows of time and temperature", "0, 45.2 and 5, 40.1")


class _Reader:
    """Takes rows in chunks: a regular chunk at once, any other row by row. Both give the same."""

    def __init__(self, roles):
        self.time, self.degrees, self.date = roles["time"], roles["temperature"], roles.get("date")
        self.notes = roles["notes"]
        self.lists = [], [], [], [], [], []
        self.gaps, self.skipped, self.waiting = [], [], ""

    def take(self, line, chunk):
        if not self._regular(line, chunk):
            for number, cells in enumerate(chunk, start=line):
                self._row(number, cells)

    def _regular(self, line, chunk):
        """Takes a chunk of readings whose times and temperatures are plainly written; False where it is not one."""
        try:
            times = [cells[self.time] for cells in chunk]
            degrees = [cells[self.degrees] for cells in chunk]
            if self.date is not None:
                times = [f"{cells[self.date]} {text}" for cells, text in zip(chunk, times, strict=True)]
        except IndexError:
            return False
        if not all(map(TEMPERATURE.fullmatch, degrees)) or any(cells[0].startswith("#") for cells in chunk):
            return False
        read = plain_times(times)
        if read is None:
            return False
        form, values = read
        notes = [self._note(cells) for cells in chunk] if self.notes else [""] * len(chunk)
        if self.waiting:
            notes[0] = "; ".join(filter(None, (self.waiting, notes[0])))
            self.waiting = ""
        new = range(line, line + len(chunk)), times, [form] * len(chunk), values, degrees, notes
        for column, part in zip(self.lists, new, strict=True):
            column.extend(part)
        return True

    def _note(self, cells):
        return " ".join(cells[k] for k in self.notes if k < len(cells) and cells[k])

    def _row(self, line, cells):
        if not any(cells):
            return
        time, degrees, date = (
            cells[k] if k is not None and k < len(cells) else "" for k in (self.time, self.degrees, self.date)
        )
        text = f"{date} {time}" if date else time
        when = token(text)
        if _is_remark(cells[0], time, degrees, when):
            self.skipped.append(line)
            return
        if when is None:
            given = f"row {line}, time column: '{time[:40]}'"
            raise StudentError(given, "minutes or a clock time", "12, 12:30 or 9:05 am")
        note = self._note(cells)
        if not re.search("[0-9]", degrees):
            words = "" if _GAP.fullmatch(degrees) else degrees
            self.waiting = "; ".join(filter(None, (self.waiting, words, note)))
            self.gaps.append(line)
            return
        remark = None if TEMPERATURE.fullmatch(degrees) else _REMARK.fullmatch(degrees)
        if remark:  # "97 seed": a word written behind the reading
            degrees, note = remark[1], " ".join(filter(None, (remark[2], note)))
        if not TEMPERATURE.fullmatch(degrees):
            given = f"row {line}, temperature column: '{degrees[:40]}'"
            needed = "one number, with C or F behind it if you like; leave the cell empty for a missed reading"
            raise StudentError(given, needed, "31.5 or 88.7 F")
        note = "; ".join(filter(None, (self.waiting, note)))
        for column, item in zip(self.lists, (line, text, *when, degrees, note), strict=True):
            column.append(item)
        self.waiting = ""


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
