"""The times in a probe's log turned into minutes.

Where a form can be read in two ways ("5:30", or a bare 60), the job decides: order, length of the log, and how fast the
vessel would have cooled. What stays open is asked for in a StudentError; the quicker reading is never assumed.
"""

import re
from dataclasses import dataclass

import numpy as np

from pastrylab.ground.units import StudentError
from pastrylab.logs.plausible import halving, plausible
from pastrylab.logs.tokens import JOINED, Token, in_minutes, minute_of_day

FORMS = ("minutes", "seconds", "hours", "mm:ss", "h:mm")  # what a log's times can be said to be
EARLIEST_KITCHEN = 5 * 60.0  # minutes after midnight: a stopwatch does not begin there
_DOTTED = re.compile(r"([0-9]{1,2})\.([0-5][0-9])")
_SIZE = {"minutes": 1.0, "seconds": 1 / 60, "hours": 60.0}
_LONG = {"mm:ss": "minutes and seconds", "h:mm": "hours and minutes"}
_ASK = 'what the times are: over their column, or chosen at "The times are"'

_HINTS = (
    ("mm:ss", r"(?<![a-z:])m{1,2}:s{1,2}(?![a-z])|min:s"),
    ("h:mm", r"(?<![a-z])h{1,2}:m{1,2}|clock|time of day"),
    ("minutes", r"(?<![a-z])min(ute)?[sn]?(?![a-z])"),
    ("seconds", r"(?<![a-z])(s|secs?|seconds?)(?![a-z])"),
    ("hours", r"(?<![a-z])(h|hrs?|hours?)(?![a-z])"),
    ("days", r"^\s*days?\s*$"),
)


@dataclass(frozen=True)
class Times:
    """Minutes of each row, not yet counted from the first; how they were read; whether they are times of the day; and
    that in sentences.
    """

    minutes: np.ndarray
    form: str
    clock: bool
    said: tuple[str, ...]


def hinted(header):
    """What a header says about its times: one of FORMS, "days", or None.

    >>> hinted("time (mm:ss)"), hinted("elapsed_min"), hinted("time")
    ('mm:ss', 'minutes', None)
    """
    header = header.replace("_", " ").lower()
    return next((hint for hint, words in _HINTS if re.search(words, header)), None)


def to_minutes(rows, degrees, header, asked, job):
    """Times of a log. rows: Rows, as the module rows gives them; degrees in degC; header: what stands over the times;
    asked: one of FORMS or None. StudentError for mixed forms, and for times the job leaves open.

    >>> from pastrylab.logs.jobs import CHOCOLATE
    >>> from pastrylab.logs.rows import Rows
    >>> rows = Rows([1, 2], ["0:00", "5:00"], ["a:b"] * 2, [(0.0, 0.0), (5.0, 0.0)], ["45.5", "41.0"], ["", ""])
    >>> to_minutes(rows, np.array([45.5, 41.0]), "time (mm:ss)", None, CHOCOLATE).minutes.tolist()
    [0.0, 5.0]
    """
    if rows.values.count(rows.values[0]) == len(rows.values):
        given = "a log whose readings all have one time"
        raise StudentError(given, "readings at two times or more", "0, 45.2 and 5, 40.1")
    hint, why = _hint(header, asked)
    forms, rows = _forms(rows)
    if forms == {"number"}:
        return _numbers(rows, degrees, hint if hint in {*_SIZE, "days"} else None, why, job)
    if forms <= {"number", "spelt"}:
        return _spelt(rows, hint)
    if forms == {"dated"}:
        return _dates(rows)
    if "clock" in forms and forms <= {"clock", "a:b", "a:b:c"}:
        return _clocks(rows)
    if forms <= {"a:b", "a:b:c"}:
        return _pairs(rows, degrees, hint, why, job)
    raise _mixed(rows, forms)


def _hint(header, asked):
    """(what the times are said to be, by whom)."""
    written = hinted(header)
    if not asked:
        return written, "the header says so"
    return asked, "you said so" if written in (None, asked) else f"you said so, though the header says {written}"


def _forms(rows):
    """(the set of forms of the times, the rows), where all are meant in one form that some do not show."""
    forms = set(rows.forms)
    if forms == {"a:b", "number"} and all(value == 0 for value in rows.values if not isinstance(value, tuple)):
        return {"a:b"}, rows._replace(values=[value or (0.0, 0.0) for value in rows.values])  # a bare 0 before 0:30
    if forms == {"spelt"} and all(map(JOINED.fullmatch, rows.texts)):
        return {"a:b:c"}, rows._replace(values=[(value // 60, value % 60, 0.0) for value in rows.values])  # 9h05
    return forms, rows


def _mixed(rows, forms):
    most = max(forms, key=rows.forms.count)
    usual = rows.forms.index(most)
    odd = next(at for at, form in enumerate(rows.forms) if form != most)
    dotted = [found for text in rows.texts if (found := _DOTTED.fullmatch(text.strip()))]
    given = f"row {rows.lines[odd]}, time column: '{rows.texts[odd].strip()[:20]}', a time written in another way than "
    given += f"'{rows.texts[usual].strip()[:20]}' in row {rows.lines[usual]}"
    if dotted and forms & {"clock", "a:b"}:
        needed = "a colon in every clock time, and am or pm in all rows or in none"
        return StudentError(given, needed, f"{dotted[0][1]}:{dotted[0][2]}")
    return StudentError(given, "one way of writing the time in all rows", "9:05, 9:10, 9:15, or 0, 5, 10")


# --- numbers, and times that name their unit ----------------------------------------------------------------------


def _numbers(rows, degrees, hint, why, job):
    values = np.array(rows.values)
    if hint:
        return Times(values * _SIZE.get(hint, 1440.0), hint, False, (f"The times are {hint}: {why}.",))
    _no_colon_missing(rows, values)
    read = {name: values * size for name, size in _SIZE.items()}
    fits = _fitting(read, degrees, job)
    if len(fits) != 1:
        words = f"{', '.join(fits[:-1])} or {fits[-1]}" if fits else "neither minutes, seconds nor hours"
        can = "can be" if fits else "are, for a log of " + job.name + ","
        given = f"times from {values.min():g} to {values.max():g} without a unit, which {can} {words}"
        raise StudentError(given, _ASK, "time (min), temperature (degC)")
    (name,) = fits
    said = f"No unit stands over the times. They were read as {name}: a log of {np.ptp(read[name]):.3g} minutes."
    return Times(read[name], name, False, (said,))


def _no_colon_missing(rows, values):
    """StudentError for numbers that can be clock times: 9.05, or 0905."""
    dotted = all(re.fullmatch("[0-9]{1,2}[.,][0-5][0-9]", text) for text in rows.texts)
    joined = all(re.fullmatch("[0-9]{1,2}[0-5][0-9]", text) for text in rows.texts)
    padded = any(re.fullmatch("0[0-9]{3}", text) for text in rows.texts)
    if dotted and values.max() < 24 or joined and values.max() < 2400 and (padded or values.min() >= 500):
        shown = rows.texts[0]
        given = f"row {rows.lines[0]}, time column: '{shown}', a clock time without its colon, or minutes"
        needed = 'a colon in a clock time, or "min" over the column'
        raise StudentError(given, needed, f"{int(re.sub('[.,]', '', shown)[:-2])}:{shown[-2:]}")


def _fitting(read, degrees, job):
    """Names of the readings that a log of the job can have; without a fall to tell them by, minutes before seconds."""
    whole = np.all(read["minutes"] % 1 == 0)
    if whole and np.ptp(read["hours"]) > 1440:  # nobody reads a bowl by the hour for longer than a day
        read = {name: minutes for name, minutes in read.items() if name != "hours"}
    fits = [n for n, minutes in read.items() if plausible(minutes, degrees, job, None if n == "seconds" else 0)]
    if not fits:
        fits = [name for name, minutes in read.items() if plausible(minutes, degrees, job, shortest=0)]
    step = np.median(np.abs(np.diff(read["minutes"])))
    if {"minutes", "seconds"} <= set(fits) and step < 30 and halving(read["minutes"], degrees, job) is None:
        fits.remove("seconds")
    return fits


def _spelt(rows, hint):
    size = _SIZE.get(hint)
    read = list(zip(rows.lines, rows.texts, rows.forms, rows.values, strict=True))
    bare = [(line, text) for line, text, form, value in read if form == "number" and value]
    if bare and size is None:
        line, text = bare[0]
        given = f"row {line}, time column: '{text}' without a unit among times that name theirs"
        raise StudentError(given, "a unit in each row, or over the column", f"{text} min")
    minutes = [value if form == "spelt" else value * (size or 1) for _, _, form, value in read]
    return Times(np.array(minutes), "spelt", False, ("The times name their units.",))


# --- times of the day ---------------------------------------------------------------------------------------------


def _dates(rows):
    minutes = min(np.array(rows.values).T, key=np.ptp)  # two orders of day and month
    hours = minutes % 1440 // 60
    if 1 <= hours.min() and hours.max() < 13:  # perhaps a clock of twelve hours, which goes back after twelve
        _in_order(rows, minutes)
        leap = np.flatnonzero(np.diff(minutes) > 720)
        if leap.size and np.ptp(minutes // 1440):
            raise _am_or_pm(rows.lines[int(leap[0]) + 1])
    return Times(minutes, "dated", True, ("The times are dates with clock times.",))


def _clocks(rows):
    """Clock times of which some say am or pm; a time without it lies within six hours of the one before."""
    marks = [form == "clock" for form in rows.forms]
    values = [minute_of_day(Token(*read)) for read in zip(rows.forms, rows.values, strict=True)]
    for line, value in zip(rows.lines, values, strict=True):
        if value is None:
            raise StudentError(f"row {line}, time column: an hour above 23", "a clock time", "9:05 am or 21:05")
    out = list(values)
    first = marks.index(True)
    for i in (*range(first + 1, len(out)), *range(first - 1, -1, -1)):
        near = out[i - 1] if i > first else out[i + 1]
        period = 1440 if marks[i] else 720
        out[i] = values[i] + period * round((near - values[i]) / period)
    minutes = np.array(out, dtype=float)
    _in_order(rows, minutes)
    return Times(minutes, "clock", True, ("The times are clock times with am and pm.",))


def _unrolled(values, period):
    """The same times carried on where the clock begins again at zero (midnight, twelve, a full hour)."""
    steps = np.diff(values)
    if len(steps) == 0 or steps.min() > -period / 2:
        return values
    return np.concatenate([values[:1], values[0] + np.cumsum((steps + period / 2) % period - period / 2)])


def _in_order(rows, minutes):
    """StudentError where times of the day go back; a log written from its end to its beginning may."""
    back = np.flatnonzero(np.diff(minutes) < 0)
    if 0 < len(back) and np.any(np.diff(minutes) > 0):
        raise _goes_back(rows.lines[int(back[0]) + 1])


def _goes_back(line):
    return StudentError(
        f"row {line}, time column: a time before that of the row above",
        "the rows in their order; where a log runs past noon or midnight, am and pm or the date",
        "11:50 am, then 12:20 pm",
    )


def _am_or_pm(line):
    return StudentError(
        f"row {line}, time column: half a day or more after the row above, on what may be a clock of twelve hours",
        "am and pm, or 24 hours",
        "11:05 pm, then 12:05 am",
    )


# --- a:b, which is mm:ss or h:mm ----------------------------------------------------------------------------------


def _pairs(rows, degrees, hint, why, job):
    parts = rows.values
    as_hours = _as_hours(parts, rows.texts)
    if all(len(p) == 3 for p in parts):
        clock = as_hours[0] >= EARLIEST_KITCHEN and max(p[0] for p in parts) < 24
        if clock:
            _in_order(rows, as_hours)
        return Times(as_hours, "h:mm", clock, ("The times are h:mm:ss.",))
    as_minutes = np.array([in_minutes(p) / 60 if len(p) == 2 else in_minutes(p) for p in parts])
    if max(p[0] for p in parts) < 60:
        as_minutes = _unrolled(as_minutes, 60)
    read = {"mm:ss": as_minutes, "h:mm": as_hours}
    name = {"hours": "h:mm"}.get(hint, hint)
    if name in read:
        said = f"The times are {name}: {why}."
    else:
        name = _which(parts, read, degrees, job)
        said = f"The times are {name}, {_LONG[name]}: a log of {np.ptp(read[name]):.0f} minutes."
    clock = name == "h:mm" and as_hours[0] >= 60 and max(p[0] for p in parts) < 24
    if clock:
        _in_order(rows, as_hours)
    return Times(read[name], name, clock, (said,))


def _as_hours(parts, texts):
    """Minutes of times read as hours and minutes, carried on past twelve or midnight."""
    values = np.array([in_minutes(p) for p in parts])
    hours = [p[0] for p in parts]
    if max(hours) >= 24:
        return values
    if not 1 <= min(hours) or max(hours) > 12:
        return _unrolled(values, 1440)
    twelve = _unrolled(values, 720)
    if any(text.startswith("0") for text in texts):  # 08:30 is written on a clock of 24 hours, if not by a machine
        steps = np.diff(twelve)
        if np.any(steps[np.diff(values) < 0] > 3 * np.median(steps)):
            return _unrolled(values, 1440)
    return twelve


def _which(parts, read, degrees, job):
    """ "mm:ss" or "h:mm", by syntax, by the clock, by the job; StudentError where both stay possible."""
    fits = [name for name in read if plausible(read[name], degrees, job)]
    back = {name: int(np.sum(np.diff(minutes) < 0)) for name, minutes in read.items()}
    of_day = max(p[0] for p in parts) < 24
    if of_day and _like_a_clock(parts, read["h:mm"]):
        if "h:mm" in fits or fits == [] or back["mm:ss"] > back["h:mm"]:
            return "h:mm"
    elif len(fits) == 1:
        return fits[0]
    elif back["mm:ss"] != back["h:mm"]:
        return min(back, key=back.get)
    shown = ":".join(f"{part:02.0f}" if k else f"{part:.0f}" for k, part in enumerate(parts[-1]))
    given = f"times up to {shown}, which can be minutes and seconds or hours and minutes"
    raise StudentError(given, f"mm:ss or h:mm, {_ASK.removeprefix('what the times are: ')}", "time (h:mm), temp (degC)")


def _like_a_clock(parts, as_hours):
    """Whether times begin as those of a clock do: at five or later, or at a quarter after one or later."""
    quarters = all(p[1] in (0, 15, 30, 45) and not any(p[2:]) for p in parts)
    return as_hours[0] >= (60 if quarters else EARLIEST_KITCHEN)
