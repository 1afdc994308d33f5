"""Read a probe's temperature log: a logger's file, or a sheet written by hand and typed in.

The text is read by a grammar of its own; nothing in it is ever evaluated. What the log leaves open is asked for in a
StudentError. Limits that decide a unit: chocolate in work is between 10 and 70 degC (common practice, no source).
"""

import csv
import re
from collections import namedtuple
from pathlib import Path

import numpy as np
import pandas as pd

from pastrylab.probelog.times import CLOCK, DATE, NUMBER, SPELT, to_minutes, token
from pastrylab.units import StudentError

COLDEST, HOTTEST = 10.0, 70.0  # degC, chocolate in work
FAULT_BELOW, FAULT_ABOVE = -30.0, 150.0  # degC, beyond these a probe shows an error code
MOST_LINES, LONGEST_LINE = 200_000, 2_000
SEPARATORS = (("\t", "tabs"), (";", "semicolons"), ("|", "bars"), (",", "commas"), (" ", "spaces"))

_GAP = re.compile(r"(?i)|[-–—.?*/\\]+|n\.?/?a\.?n?|none|null|err(or)?\.?|open|o\.?l\.?|missed|missing")
_UNIT = r"(?:(?:°|º|˚|deg(?:rees?)?\.?)?\s*(?P<u>celsius|centigrade|fahrenheit|c|f)|(?P<sign>℃|℉)|°|º|˚)"
_DEGREES = rf"(?P<n>[+\-−–]?[0-9]{{1,12}}(?:[.,][0-9]{{0,12}})?)(?:\s*{_UNIT})?\.?"
_TEMPERATURE = re.compile(rf"(?i){_DEGREES}")
_REMARK = re.compile(r"([0-9][0-9.,]*(?:\s*°?\s*[CF])?)\s+([A-Za-z][A-Za-z ]+)")
_TIME = rf"{DATE}[T\s]+(?:{CLOCK})(?:Z|[+-][0-9]{{2}}:?[0-9]{{2}})?|{CLOCK}|{SPELT}|{NUMBER}"
_SPACED = re.compile(rf"(?i)(?P<t>{_TIME})(?:\s+[-–=:]\s+|\s*=\s*|:?\s+)(?P<d>{_DEGREES}|-+)(?:[\s,;]+(?P<note>.*))?")
_SPACED_NOTE = re.compile(rf"(?i)(?P<t>{_TIME})[:,]?\s+(?P<d>.*)")
_IS_C = re.compile(
    r"(?i)℃|[°º˚]\s*c(?![a-z])|(deg|degrees|temp)\.?\s*c(?![a-z])|celsius|centigrade|(?<![a-z])c(?![a-z])"
)
_IS_F = re.compile(r"(?i)℉|[°º˚]\s*f(?![a-z])|(deg|degrees|temp)\.?\s*f(?![a-z])|fahrenheit|(?<![a-z])f(?![a-z])")
_SURE = r"\btemp(eratures?|s|[cf])?\b|\bdeg|°|º|˚|℃|℉|celsius|fahrenheit"
_ROLES = (
    ("note", r"note|remark|comment|event|action|observ|what|\bstep"),
    ("other", r"\bair\b|room|ambient|humid|\brh\b|%|batt|\bset ?point|target|serial"),
    ("date", r"^\s*(date|day)\s*$"),
    ("index", r"^\s*(no|nr|n°|#|row|index|record|sample|reading no)\.?\s*$"),
    ("time", r"\btime|\bmin|\bsec|hour|clock|elapsed|\bh+:mm|m:ss|^\s*t\s*(\(|$)|^\s*[hs]\s*$"),
    ("temperature", rf"{_SURE}|probe|choc|bowl|reading|value|^\s*[cf]\s*$"),
)
Row = namedtuple("Row", "line time degrees note")


def read_log(path_or_text, unit=None, times=None, between=(COLDEST, HOTTEST)):
    """DataFrame of a log: `minutes` from its first reading, `degC`, and `note` where there are notes.

    path_or_text: a path, bytes, or text with a line break. unit: "degC" or "degF", for a log that names none.
    times: "minutes", "seconds", "hours", "mm:ss" or "h:mm", for a log whose times can be read in two ways.
    between: degC the log lies in by and large; it tells the unit where none is written. Chocolate in work unless said.
    `.attrs["said"]` lists in sentences how the log was read, `.attrs["unit"]` is the unit it was written in.
    StudentError: names row, column and remedy, or asks for the unit where the log leaves it open.
    """
    said = []
    unit, times = _asked(unit, times)
    lines = re.split(r"\r\n|\r|\n", _text(path_or_text, said))
    if len(lines) > MOST_LINES:
        raise StudentError(f"a log of {len(lines)} lines", f"at most {MOST_LINES} lines", "one reading every 10 s")
    for number, line in enumerate(lines, start=1):
        if len(line) > LONGEST_LINE:
            raise StudentError(f"row {number}, with {len(line)} characters", "one reading in each row", "0, 45.2")
    cells, separator = _split(lines, said)
    header, preamble, body, roles = _columns(cells, lines, separator, said)
    rows = _rows(body, roles, said)
    degrees, unit = _celsius(rows, header.get("temperature", ""), preamble, unit, said, between)
    faults = [row.line for row, at in zip(rows, degrees, strict=True) if not FAULT_BELOW <= at <= FAULT_ABOVE]
    if faults:
        said.append(f"{_lines(faults)}: a probe's error code, not a temperature. Left out as a gap.")
        rows = [row for row in rows if row.line not in set(faults)]
        degrees = degrees[(degrees >= FAULT_BELOW) & (degrees <= FAULT_ABOVE)]
        _enough(rows)
    minutes = to_minutes(rows, degrees, header.get("time", ""), times, said)
    return _frame(minutes, degrees, [row.note for row in rows], unit, said)


def _asked(unit, times):
    if unit is not None:
        word = re.sub(r"[°º\s._]|deg(rees?)?", "", str(unit).lower())
        unit_read = {"c": "degC", "celsius": "degC", "f": "degF", "fahrenheit": "degF"}.get(word)
        if unit_read is None:
            raise StudentError(f"unit='{str(unit)[:20]}'", "unit='degC' or unit='degF'", "read_log(log, unit='degF')")
        unit = unit_read
    known = ("minutes", "seconds", "hours", "mm:ss", "h:mm")
    if times is not None and times not in known:
        raise StudentError(f"times='{str(times)[:20]}'", "one of " + ", ".join(known), "read_log(log, times='mm:ss')")
    return unit, times


def _text(given, said):
    example = "read_log('my_log.csv'), or text with one reading on each line"
    if isinstance(given, str) and ("\n" in given or "\r" in given):
        return given.replace("\0", "").lstrip("\ufeff")
    if isinstance(given, bytes | bytearray | memoryview):
        data = bytes(given)
    elif isinstance(given, str | Path):
        try:
            data = Path(given).read_bytes()
        except (OSError, ValueError):
            shown = f"'{str(given)[:60]}', and no file of that name can be read"
            raise StudentError(shown, "a log file, or its text in several lines", example) from None
    else:
        raise StudentError(f"a {type(given).__name__}", "a file name, text or bytes", example)
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return data.decode("utf-16", errors="replace").replace("\0", "")
    try:
        return data.decode("utf-8-sig").replace("\0", "")
    except UnicodeDecodeError:
        said.append("The file is not UTF-8. It was read as a Windows file (cp1252).")
        return data.decode("cp1252", errors="replace").replace("\0", "")


def _cut(line, separator):
    line = line.strip(" \ufeff")
    if separator == " ":
        found = _SPACED.fullmatch(line) or _SPACED_NOTE.fullmatch(line)
        return [found["t"], found["d"].strip(), found.groupdict().get("note") or ""] if found else [line]
    try:
        return [cell.strip() for cell in next(csv.reader([line], delimiter=separator, skipinitialspace=True), [])]
    except csv.Error:
        return [line]


def _is_reading(cell):
    return bool(_TEMPERATURE.fullmatch(cell)) or token(cell) is not None or bool(re.fullmatch(DATE, cell))


def _score(cells):
    """2 where the first two filled cells are readings, 1 where the first and a later one are."""
    filled = [cell for cell in cells if cell]
    if len(filled) < 2 or not _is_reading(filled[0]):
        return 0
    return 2 if _is_reading(filled[1]) else int(any(map(_is_reading, filled[2:])))


def _split(lines, said):
    sample = [line for line in lines if line.strip()][:400]
    scores = [sum(_score(_cut(line, separator)) for line in sample) for separator, _ in SEPARATORS]
    separator, name = SEPARATORS[int(np.argmax(scores))]
    if max(scores) == 0:
        shown = f"text that begins '{sample[0].strip()[:40]}', and" if sample else "an empty text:"
        raise StudentError(
            f"{shown} no row holds a time and a temperature", "both in every row", "0, 45.2 or 9:05, 112 F"
        )
    said.append(f"The columns are set apart by {name}.")
    return [_cut(line, separator) for line in lines], separator


def _role(cell):
    return next((role for role, words in _ROLES if re.search(words, cell.replace("_", " "), re.IGNORECASE)), None)


def _is_header(cells):
    text = [cell.replace("_", " ") for cell in cells if cell]
    sure = any(re.search(_SURE, cell, re.IGNORECASE) or _role(cell) in ("time", "date") for cell in text)
    return sure and all(len(cell) <= 60 for cell in text)


def _columns(cells, lines, separator, said):
    """Which column is what: from the header's words, else from what the columns hold."""
    first = next((i for i, row in enumerate(cells) if _score(row)), 0)
    above = [i for i in range(first) if lines[i].strip()]
    body = [(i + 1, row) for i, row in enumerate(cells) if i >= first]
    head = []
    if above and _is_header(cells[above[-1]]):
        head = cells[above[-1]]
        units_only = len(above) > 1 and len(head) > 1 and all(len(cell) < 8 for cell in head)
        if units_only and len(cells[above[-2]]) == len(head) and _is_header(cells[above[-2]]):
            head = [f"{name} {cell}" for name, cell in zip(cells[above[-2]], head, strict=True)]
    if above:
        what = "the header" if head and len(above) == 1 else "not readings"
        said.append(f"{_lines([i + 1 for i in above])}, before the first reading: {what}.")
    told = [lines[i].replace("_", " ") for i in above]
    readings = [(line, row) for line, row in body[:2000] if _score(row)]
    if separator == " ":
        extra = [line for line, row in readings if re.fullmatch(NUMBER, row[-1])]
        if extra:
            raise _too_many(extra[0])
        roles, named = {"time": 0, "temperature": 1, "notes": [2]}, False
    elif len(head) > 1:
        roles, named = _by_header(head, [row for _, row in readings]), True
        over = [line for line, row in readings if len(row) > len(head) and re.fullmatch("[0-9]+", row[-1])]
        if over:
            raise _too_many(over[0])
    else:
        roles, named = _by_content(readings), False
    whole = lines[above[-1]].replace("_", " ") if head else ""
    header = {k: head[roles[k]].replace("_", " ") if named else whole for k in ("time", "temperature")}
    return header, told, body, roles


def _too_many(line):
    return StudentError(
        f"row {line}, with more columns of numbers than a time and a temperature",
        "a header that names the columns, or, if the commas are decimal commas, semicolons between the columns",
        "minutes;degC in the first row, then 0;44,4",
    )


def _by_header(head, readings):
    roles = [_role(cell) for cell in head]
    spare = [
        k for k, role in enumerate(roles) if role is None and any(_is_reading(r[k]) for r in readings if len(r) > k)
    ]
    found = {"notes": [k for k, role in enumerate(roles) if role == "note"]}
    for name in ("date", "time", "temperature"):
        places = [k for k, role in enumerate(roles) if role == name]
        if name == "temperature" and len(places) > 1:
            bowl = [k for k in places if re.search(r"(?i)choc|bowl", head[k])]
            metric = [k for k in places if _named(head[k]) == "degC"]
            places = next((few for few in (bowl, metric) if len(few) == 1), places)
            if len(places) > 1:
                shown = ", ".join(f"'{head[k][:30]}'" for k in places)
                raise StudentError(f"several columns of temperatures: {shown}", "one, of the bowl", "minutes, degC")
        if places:
            found[name] = places[0]
    if "time" not in found and "date" in found:
        found["time"] = found.pop("date")
    for name in ("time", "temperature"):
        if name not in found and not spare:
            raise StudentError(
                f"a header without a {name} column", "a column of times and one of degrees", "minutes, degC"
            )
        if name not in found:
            found[name] = spare.pop(0)
    return found


def _by_content(readings):
    kinds = []
    for k in range(max(len(row) for _, row in readings)):
        column = [row[k] for _, row in readings if len(row) > k and row[k]]
        counts = {
            "number": sum(bool(_TEMPERATURE.fullmatch(c)) for c in column),
            "date": sum(bool(re.fullmatch(DATE, c)) and not re.fullmatch(NUMBER, c) for c in column),
            "clock": sum(token(c) is not None and not _TEMPERATURE.fullmatch(c) for c in column),
        }
        best = max(counts, key=counts.get)
        kinds.append(best if column and counts[best] >= 0.5 * len(column) else "text")
    numbers, clocks = ([k for k, kind in enumerate(kinds) if kind == name] for name in ("number", "clock"))
    found = {"notes": [k for k, kind in enumerate(kinds) if kind == "text"]}
    if clocks:
        found["time"] = clocks[0]
        if "date" in kinds[: clocks[0]]:
            found["date"] = kinds.index("date")
        if len(numbers) == 2 and numbers[0] < clocks[0]:
            numbers = numbers[1:]  # a running number stands before the time
    elif len(numbers) > 1:
        found["time"] = numbers.pop(0)
    if len(numbers) > 1:
        raise _too_many(readings[0][0])
    if not numbers or "time" not in found:
        raise StudentError(f"row {readings[0][0]}, without a time or a temperature", "both in every row", "9:05, 112 F")
    return {**found, "temperature": numbers[0]}


def _rows(body, roles, said):
    rows, gaps, texts, waiting = [], [], [], ""
    for line, cells in body:
        time, degrees, date = (
            cells[k] if k < len(cells) else "" for k in (roles["time"], roles["temperature"], roles.get("date", 999))
        )
        if not any(cells):
            continue
        if cells[0].startswith("#") or not re.search("[0-9]", time) and (time or not re.search("[0-9]", degrees)):
            texts.append(line)
            continue
        when = token(f"{date} {time}" if date else time)
        if when is None and not (time[:1].isdigit() or time[:1] == "" or time[:1] in "+-−"):
            texts.append(line)
            continue
        if when is None:
            raise StudentError(
                f"row {line}, time column: '{time[:40]}'", "minutes or a clock time", "12, 12:30 or 9:05 am"
            )
        note = " ".join(cells[k] for k in roles["notes"] if k < len(cells) and cells[k])
        if not re.search("[0-9]", degrees):
            words = "" if _GAP.fullmatch(degrees) else degrees
            waiting = "; ".join(filter(None, (waiting, words, note)))
            gaps.append(line)
            continue
        remark = _REMARK.fullmatch(degrees)
        if remark:  # "97 seed": a word written behind the reading
            degrees, note = remark[1], " ".join(filter(None, (remark[2], note)))
        if not _TEMPERATURE.fullmatch(degrees):
            raise StudentError(
                f"row {line}, temperature column: '{degrees[:40]}'",
                "one number, with C or F behind it if you like; leave the cell empty for a missed reading",
                "31.5 or 88.7 F",
            )
        rows.append(Row(line, when, degrees, "; ".join(filter(None, (waiting, note)))))
        waiting = ""
    if gaps:
        said.append(f"{_lines(gaps)} without a temperature: a gap. What is noted there stands with the next reading.")
    if texts:
        said.append(f"{_lines(texts)} without a reading: skipped.")
    _enough(rows)
    plain = [row for row in rows if row.time.form == "number"]
    marked = next((row for row in plain if re.fullmatch("[0-9]{1,3},[0-9]{3}", row.time.value)), None)
    if marked and any(re.fullmatch("[1-9][0-9]{2}", row.time.value) for row in plain):
        shown = f"row {marked.line}, time column: '{marked.time.value}', which can be a thousand or a decimal"
        raise StudentError(shown, "times without a mark for the thousands", marked.time.value.replace(",", ""))
    return rows


def _enough(rows):
    if len(rows) < 2:
        shown = f"a log with {len(rows)} reading{'s' * (len(rows) != 1)}"
        raise StudentError(shown, "at least two rows of time and temperature", "0, 45.2 and 5, 40.1")


def _lines(numbers):
    shown = ", ".join(map(str, numbers[:5])) + (f" and {len(numbers) - 5} more" if len(numbers) > 5 else "")
    return f"Row {shown}" if len(numbers) == 1 else f"Rows {shown}"


def _celsius(rows, header, preamble, asked, said, between):
    """Readings in degC, and the unit they were written in."""
    found = [_TEMPERATURE.fullmatch(row.degrees) for row in rows]
    values = np.array([float(re.sub("[−–]", "-", m["n"]).replace(",", ".")) for m in found])
    if any("," in m["n"] for m in found):
        said.append("The numbers have decimal commas.")
    marks = {"c": "degC", "f": "degF", "℃": "degC", "℉": "degF", "": None}
    labels = [marks[(m["u"] or m["sign"] or "").lower()[:1]] for m in found]
    told = [_named(text) for text in preamble if re.search(r"(?i)\bunits?\b|\btemp(erature)?\b", text)]
    by_header = _named(header) or next(filter(None, told), None)
    written = {label for label in labels if label}
    if asked and by_header and by_header != asked and None in labels:
        raise StudentError(f"unit='{asked}' for a log that says {by_header}", "one of the two", f"unit='{by_header}'")
    bare = asked or by_header or (next(iter(written)) if len(written) == 1 else None)
    unread = [i for i, label in enumerate(labels) if label is None]
    if not unread:
        said.append(f"The temperatures are in {' and '.join(map(_sign, sorted(written)))}: each reading says so.")
    elif bare:
        why = "you said so" if asked else "the header says so" if by_header else "the readings that name a unit say so"
        said.append(f"The temperatures are in {_sign(bare)}: {why}.")
    else:
        bare = _by_range(values[unread], rows[unread[0]].line, between)
        said.append(
            f"No unit is written. For {_what(between)} the numbers can only be {_sign(bare)}, and were read so."
        )
    units = [label or bare for label in labels]
    if unread and written - {bare}:
        said.append("Readings that name the other unit were read in their own.")
    degrees = np.array([v if u == "degC" else (v - 32) / 1.8 for v, u in zip(values, units, strict=True)])
    if by_header and written and by_header not in written:
        said.append(
            f"The header says {_sign(by_header)}, the readings {_sign(next(iter(written)))}: the readings count."
        )
    if not between[0] <= float(np.median(degrees)) <= between[1]:
        shown = f"{np.median(values):.4g} {_sign(units[0])} in the middle of the log, which is not {_what(between)}"
        other = "degC" if units[0] == "degF" else "degF"
        raise StudentError(shown, "the unit the probe showed, in the header or as unit=", f"unit='{other}'")
    return degrees, bare or units[0]


def _what(between):
    low, high = between
    return "chocolate in work" if (low, high) == (COLDEST, HOTTEST) else f"a log between {low:g} and {high:g} °C"


def _sign(unit):
    return {"degC": "°C", "degF": "°F"}[unit]


def _named(text):
    """The unit a text names, or None where it names none or both."""
    celsius, fahrenheit = (bool(pattern.search(text.replace("_", " "))) for pattern in (_IS_C, _IS_F))
    return None if celsius == fahrenheit else "degC" if celsius else "degF"


def _by_range(values, line, between):
    sane = values[(values >= FAULT_BELOW) & (values <= FAULT_ABOVE * 1.8 + 32)]
    low, high = np.quantile(sane if sane.size else values, [0.05, 0.95])
    celsius = between[0] <= low and high <= between[1]
    fahrenheit = between[0] <= (low - 32) / 1.8 and (high - 32) / 1.8 <= between[1]
    if celsius == fahrenheit:
        raise StudentError(
            f"temperatures from {values.min():g} to {values.max():g} without a unit (the first in row {line})",
            "the unit of the probe: write unit='degC' or unit='degF', or put it into the header",
            "read_log(log, unit='degF')",
        )
    return "degC" if celsius else "degF"


def _frame(minutes, degrees, notes, unit, said):
    """Sorted, counted from the first reading, repeated times averaged."""
    order = np.argsort(minutes, kind="stable")
    if np.any(np.diff(order) < 0):
        said.append("The rows were not in the order of time and have been sorted.")
    counted = np.round(minutes[order] - minutes[order[0]], 6)
    frame = pd.DataFrame({"minutes": counted, "degC": degrees[order], "note": [notes[i] for i in order]})
    repeated = int(frame["minutes"].duplicated().sum())
    if repeated:
        groups = frame.groupby("minutes")
        apart = float((groups["degC"].max() - groups["degC"].min()).max())
        said.append(f"Repeated times: {repeated}. Their readings were averaged; the widest lie {apart:.1f} °C apart.")
        joined = groups["note"].agg(lambda column: "; ".join(dict.fromkeys(filter(None, column))))
        frame = pd.DataFrame({"degC": groups["degC"].mean(), "note": joined}).reset_index()
    if len(frame) < 2:
        raise StudentError(
            "a log whose readings all have one time", "readings at two times or more", "0, 45.2 and 5, 40.1"
        )
    if not frame["note"].any():
        frame = frame.drop(columns="note")
    frame.attrs.update(said=said, unit=unit)
    return frame
