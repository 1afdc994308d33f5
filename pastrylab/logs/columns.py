"""Which column of a log is what: by the header's words, else by what the columns hold.

Where several columns can hold the vessel's temperature, and neither a name nor the readings tell, it is asked for.
"""

import re
from collections import namedtuple

import numpy as np

from pastrylab.ground.units import StudentError
from pastrylab.logs.cut import TEMPERATURE, is_reading, rows_named, score
from pastrylab.logs.tokens import DATE, NUMBER, token

SAMPLE = 2000  # rows of readings that decide

_IS_C = re.compile(
    r"(?i)℃|[°º˚]\s*c(?![a-z])|(deg|degrees|temp)\.?\s*c(?![a-z])|celsius|centigrade|(?<![a-z])c(?![a-z])"
)
_IS_F = re.compile(r"(?i)℉|[°º˚]\s*f(?![a-z])|(deg|degrees|temp)\.?\s*f(?![a-z])|fahrenheit|(?<![a-z])f(?![a-z])")
_SURE = r"\btemp(eratur(e|es|en)?|s|[cf])?\b|\bdeg|°|º|˚|℃|℉|celsius|fahrenheit"
_ROLES = (
    ("note", r"note|remark|comment|event|action|observ|what|\bstep"),
    (
        "other",
        r"\bair\b|room|ambient|humid|\brh\b|%|batt|\bset\b|set ?point|\bsv\b|target|serial|\bwater\b|\bbath\b|fridge"
        r"|freezer|cabinet|chamber|outside|outdoor|cold junction|dew|\bmax|\bmin(imum)? *temp|alarm|limit",
    ),
    ("date", r"^\s*(date|day)\s*$"),
    ("index", r"^\s*(no|nr|n°|#|row|index|record|sample|reading no)\.?\s*$"),
    ("time", r"\btime|\bmin|\bsec|hour|clock|elapsed|\bh+:mm|m:ss|^\s*t\s*([(\[]|$)|^\s*[hs]\s*$"),
    ("temperature", rf"{_SURE}|probe|choc|bowl|reading|value|^\s*[cf]\s*$"),
)


class SeveralColumns(StudentError):
    """Several columns can hold the temperature: `columns` names them."""

    def __init__(self, given, needed, example, columns):
        super().__init__(given, needed, example)
        self.columns = tuple(columns)


# first: index of the first row of readings; roles: column of "time", "temperature", perhaps "date", and of the "notes";
# header: what stands over time and temperature; told: the lines above; offered: names of the columns that can hold the
# temperature; taken: the name of the one that does
Columns = namedtuple("Columns", "first roles header told offered taken said")


def find(sheet, job, asked=None):
    """Columns of a sheet. asked: the name of the temperature's column, or "column 3", or None.

    StudentError: no such column; no time or temperature; several temperatures, with their names.
    """
    first = next((i for i, row in enumerate(sheet.cells) if score(row)), 0)
    while first and _time_alone(sheet.cells[first - 1]):
        first -= 1
    head, above, said = _header(sheet, first)
    readings = [(first + i + 1, row) for i, row in enumerate(sheet.cells[first : first + SAMPLE]) if score(row)]
    told = tuple(sheet.lines[i].replace("_", " ") for i in above)
    if sheet.separator == " ":
        _no_third(readings)
        roles, offered = {"time": 0, "temperature": 1, "notes": [2]}, ("column 2",)
        names, why = ["column 1", "column 2"], ""
    else:
        width = max(len(row) for _, row in readings)
        names = _names(head if len(head) > 1 else [], width)
        search = _by_header if len(head) > 1 else _by_content
        roles, able = search(head, readings)
        offered = tuple(names[k] for k in able or _others(head))
        roles["temperature"], why = _choose(able, names, head, readings, told, job, asked)
    over = head if len(head) > 1 else []
    whole = told[-1] if head else ""
    header = {
        k: over[roles[k]].replace("_", " ") if over and roles[k] < len(over) else whole for k in ("time", "temperature")
    }
    said = (*said, *_told(roles, names, why))
    return Columns(first, roles, header, told, offered, names[roles["temperature"]], said)


def _time_alone(cells):
    """Whether a row holds a time and no words: a gap before the first reading."""
    return bool(cells) and token(cells[0]) is not None and not re.search("[a-zA-Z]", "".join(cells[1:]))


def named_unit(text):
    """The unit a text names, "degC" or "degF", or None where it names none or both."""
    celsius, fahrenheit = (bool(pattern.search(text.replace("_", " "))) for pattern in (_IS_C, _IS_F))
    return None if celsius == fahrenheit else "degC" if celsius else "degF"


def _told(roles, names, why):
    """Sentences that name the columns taken and those left."""
    used = [roles["time"], roles["temperature"], *roles["notes"], *([roles["date"]] if "date" in roles else [])]
    times = " and ".join(f"'{names[roles[k]]}'" for k in ("date", "time") if k in roles)
    taken = f"The temperatures are those of '{names[roles['temperature']]}', the times those of {times}."
    left = [f"'{name}'" for k, name in enumerate(names) if k not in used]
    if not left:
        return (f"{taken}{why}",)
    return (f"{taken}{why}", f"Left out: {', '.join(left)}.")


def _names(head, width):
    """A name for each column: from the header, else its number; no two alike."""
    names = [cell[:40] for cell in head] + [""] * (width - len(head))
    alike = {name for name in names if names.count(name) > 1}
    return [
        f"column {k}" if not name else f"{name} (column {k})" if name in alike else name
        for k, name in enumerate(names, start=1)
    ]


# --- the header ---------------------------------------------------------------------------------------------------


def _role(cell):
    cell = cell.replace("_", " ")
    found = next((role for role, words in _ROLES if re.search(words, cell, re.IGNORECASE)), None)
    return "temperature" if found is None and named_unit(cell) else found


def _is_header(cells):
    text = [cell.replace("_", " ") for cell in cells if cell]
    sure = any(re.search(_SURE, cell, re.IGNORECASE) or _role(cell) in ("time", "date") for cell in text)
    return sure and all(len(cell) <= 60 for cell in text)


def _header(sheet, first):
    """(cells of the header, indices of the lines above the readings, sentences)."""
    above = [i for i in range(first) if sheet.lines[i].strip()]
    if not above:
        return [], [], ()
    head = []
    if _is_header(sheet.cells[above[-1]]):
        head = sheet.cells[above[-1]]
        units_only = len(above) > 1 and len(head) > 1 and all(len(cell) < 8 for cell in head)
        if units_only and len(sheet.cells[above[-2]]) == len(head) and _is_header(sheet.cells[above[-2]]):
            head = [f"{name} {cell}" for name, cell in zip(sheet.cells[above[-2]], head, strict=True)]
    what = "the header" if head and len(above) == 1 else "not readings"
    return head, above, (f"{rows_named([i + 1 for i in above])}, before the first reading: {what}.",)


def _by_header(head, readings):
    """(columns of date, time and notes, columns that can hold the temperature)."""
    over = [line for line, row in readings if len(row) > len(head) and re.fullmatch("[0-9]+", row[-1])]
    if over:
        raise _too_many(over[0])
    holds = [any(is_reading(row[k]) for _, row in readings if len(row) > k) for k in range(len(head))]
    roles = [_role(cell) for cell in head]
    places = {role: [k for k, found in enumerate(roles) if found == role] for role in (*dict(_ROLES), None)}
    spare = [k for k in places[None] if holds[k]]
    beyond = range(len(head), len(head) + 5)  # words behind the last column that has a name
    found = {"notes": [*places["note"], *beyond]}
    times = places["time"] or places["date"] or spare[:1]
    able = [k for k in places["temperature"] if holds[k]] or [k for k in spare if k not in times]
    able = [k for k in able if not _running(k, readings)] or able
    if not times or not able and not any(holds[k] for k in places["other"]):
        missing = "temperature" if times else "time"
        given = f"a header without a {missing} column: {', '.join(repr(cell[:30]) for cell in head if cell)}"
        raise StudentError(given, "a column of times and one of degrees", "minutes, degC")
    found["time"] = next((k for k in times if holds[k]), times[0])
    if places["time"] and places["date"]:
        found["date"] = places["date"][0]
    return found, able


def _by_content(_head, readings):
    """As _by_header, from what the columns hold."""
    kinds = [
        _kind([row[k] for _, row in readings if len(row) > k and row[k]])
        for k in range(max(len(row) for _, row in readings))
    ]
    numbers, clocks = ([k for k, kind in enumerate(kinds) if kind == name] for name in ("number", "clock"))
    found = {"notes": [k for k, kind in enumerate(kinds) if kind == "text"]}
    if clocks:
        found["time"] = clocks[0]
        if "date" in kinds[: clocks[0]]:
            found["date"] = kinds.index("date")
        if len(numbers) > 1 and numbers[0] < clocks[0]:
            numbers = numbers[1:]  # a running number stands before the time
    elif len(numbers) > 1:
        counted = len(numbers) > 2 and _running(numbers[0], readings) and _rises(numbers[1], readings)
        found["time"] = numbers.pop(1 if counted else 0)
        numbers = numbers[1:] if counted else numbers
    if not numbers or "time" not in found:
        raise StudentError(f"row {readings[0][0]}, without a time or a temperature", "both in every row", "9:05, 112 F")
    if len(numbers) > 1 and _cut_at_decimal_commas(numbers, readings):
        raise _too_many(readings[0][0])
    return found, numbers


def _rises(k, readings):
    """Whether the numbers of a column rise from each row to the next."""
    numbers, _ = _degrees(k, [], readings)
    return numbers.size > 2 and bool(np.all(np.diff(numbers) > 0))


def _running(k, readings):
    """Whether a column holds a running number: whole, each one more than the one before."""
    numbers, _ = _degrees(k, [], readings)
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


def _no_third(readings):
    extra = [line for line, row in readings if re.fullmatch(NUMBER, row[-1]) and len(row) > 2]
    if extra:
        raise _too_many(extra[0])


def _too_many(line):
    return StudentError(
        f"row {line}, with more columns of numbers than a time and a temperature",
        "a header that names the columns, or, if the commas are decimal commas, semicolons between the columns",
        "minutes;degC in the first row, then 0;44,4",
    )


# --- several temperatures -----------------------------------------------------------------------------------------


def _choose(able, names, head, readings, told, job, asked):
    """(the temperature's column, a sentence that says why it, with a blank before it)."""
    if asked:
        return _asked(asked, names), " You chose it."
    if len(able) == 1:
        return able[0], ""
    if not able:
        raise _several(_others(head), names, job, f"columns of temperatures of which none names the {job.vessel}")
    rest = _one_unit(able, head, readings)
    if len(rest) == 1:
        return rest[0], " The other one says the same in °F."
    own = [k for k in rest if k < len(head) and re.search(job.words, head[k].replace("_", " "), re.IGNORECASE)]
    if len(own) == 1:
        return own[0], f" Its name says {job.vessel}."
    within = [k for k in rest if _can_be(_degrees(k, head, readings), job)]
    if len(within) == 1:
        return within[0], f" Of those that hold temperatures it alone is ever as warm as {job.name}."
    raise _several(able, names, job, "several columns of temperatures")


def _others(head):
    """Columns whose names say that they hold something else than the vessel's temperature."""
    return [k for k, cell in enumerate(head) if _role(cell) == "other"]


def _several(able, names, job, what):
    shown = ", ".join(f"'{names[k]}'" for k in able)
    needed = (
        f'the one whose probe was in the {job.vessel}: chosen at "The temperatures are in", or {job.vessel} over it'
    )
    example = f"minutes, {job.vessel} (degC), room (degC)"
    return SeveralColumns(f"{what}: {shown}", needed, example, [names[k] for k in able])


def _asked(asked, names):
    def plain(name):
        return " ".join(str(name).replace("_", " ").casefold().split())

    for k, name in enumerate(names, start=1):
        if plain(asked) in (plain(name), f"column {k}", str(k)):
            return k - 1
    shown = ", ".join(f"'{name}'" for name in names)
    raise StudentError(f"no column '{str(asked)[:40]}'", "one that stands in the log", shown)


def _degrees(k, head, readings):
    """(numbers of a column, the unit its header or its cells name or None)."""
    found = [TEMPERATURE.fullmatch(row[k]) for _, row in readings if len(row) > k]
    numbers = np.array([float(re.sub("[−–]", "-", m["n"]).replace(",", ".")) for m in found if m])
    units = {(m["u"] or m["sign"] or "").lower()[:1] for m in found if m} - {""}
    inside = {"c": "degC", "f": "degF", "℃": "degC", "℉": "degF"}.get(units.pop()) if len(units) == 1 else None
    return numbers, inside or (named_unit(head[k]) if k < len(head) else None)


def _one_unit(able, head, readings):
    """Columns without those in degF that say what another says in degC."""
    read = {k: _degrees(k, head, readings) for k in able}
    celsius = [numbers for numbers, unit in read.values() if unit == "degC"]

    def repeats(k):
        numbers, unit = read[k]
        same = [c for c in celsius if len(c) == len(numbers)]
        return unit == "degF" and any(np.all(np.abs((numbers - 32) / 1.8 - c) < 0.6) for c in same)

    return [k for k in able if not repeats(k)]


def _can_be(column, job):
    """Whether a column can hold the job's temperatures; where its unit is not known, in either."""
    numbers, unit = column
    if not numbers.size:
        return False
    low, high = np.quantile(numbers, [0.05, 0.95])
    sizes = {"degC": (low, high), "degF": ((low - 32) / 1.8, (high - 32) / 1.8)}
    return any(
        top >= job.warm and job.never[0] <= bottom and top <= job.never[1]
        for name, (bottom, top) in sizes.items()
        if unit in (None, name)
    )
