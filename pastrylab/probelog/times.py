"""The times in a probe's log: minutes, seconds, mm:ss, h:mm, h:mm:ss, clock times and dates, turned into minutes.

Where a form can be read in two ways ("5:30"), the readings decide: order, length of the log, and how fast the bowl
would have cooled (limits are common practice, no source). What stays open is asked for in a StudentError.
"""

import datetime
import re
from collections import namedtuple

import numpy as np

from pastrylab.units import StudentError

DATE = r"[0-9]{1,4}[-/.][0-9]{1,2}[-/.][0-9]{1,4}"
CLOCK = (
    r"[0-9]{1,4}:[0-9]{1,2}(?::[0-9]{1,2})?(?:[.,][0-9]{1,9})?(?:\s*[ap]\.?\s?m\b\.?)?|[0-9]{1,2}\s*[ap]\.?\s?m\b\.?"
)
SPELT = r"(?:[0-9]{1,6}(?:[.,][0-9]{1,9})?\s*(?:h(?:ours?|rs?)?|min(?:ute)?s?|m|s(?:ec(?:ond)?s?)?)(?![a-z])\.?\s*)+"
NUMBER = r"[+-]?[0-9]{1,9}(?:[.,][0-9]{0,9})?"
SHORTEST, LONGEST = 3.0, 960.0  # minutes a log runs
FALL = (42.0, 35.0, 0.7, 90.0)  # from, to in degC; least and most minutes a bowl takes for it
LONGEST_STEP = 60.0  # minutes between two readings, in the middle
EARLIEST_KITCHEN = 5 * 60.0  # minutes after midnight

Token = namedtuple("Token", "form value")
_NUMBER, _CLOCK, _SPELT = (re.compile(f"(?i){pattern}") for pattern in (NUMBER, CLOCK, SPELT))
_DATED = re.compile(rf"(?i)({DATE})[T\s,]+({CLOCK})\s*(Z|[+-][0-9]{{2}}:?[0-9]{{2}})?")

_HINTS = (
    ("mm:ss", r"(?<![a-z:])m{1,2}:s{1,2}(?![a-z])|min:s"),
    ("h:mm", r"(?<![a-z])h{1,2}:m{1,2}|clock|time of day"),
    ("minutes", r"(?<![a-z])min(ute)?[sn]?(?![a-z])"),
    ("seconds", r"(?<![a-z])(s|secs?|seconds?)(?![a-z])"),
    ("hours", r"(?<![a-z])(h|hrs?|hours?)(?![a-z])"),
)
_SIZE = {"minutes": 1.0, "seconds": 1 / 60, "hours": 60.0}


def token(text):
    """Token(form, value) of one cell, or None. Forms: number, a:b, a:b:c, clock, dated, spelt."""
    text = text.strip()
    if _NUMBER.fullmatch(text):
        return Token("number", text)
    dated = _DATED.fullmatch(text)
    if dated:
        days, clock = _days(dated[1]), token(dated[2])
        of_day = _of_day(clock)
        if not days or of_day is None:
            return None
        offset = re.sub("[:Z]", "", dated[3] or "", flags=re.IGNORECASE)
        shift = (int(offset[1:3]) * 60 + int(offset[3:])) * (-1 if offset[0] == "-" else 1) if offset else 0
        return Token("dated", tuple(day * 1440 + of_day - shift for day in days))
    if _CLOCK.fullmatch(text):
        digits, suffix = re.fullmatch(r"([0-9:.,]+)\s*(.*)", text).groups()
        parts = [float(part) for part in digits.replace(",", ".").split(":")]
        if len(parts) > 1 and any(part >= 60 for part in parts[1:]):
            return None
        if suffix:
            if not 1 <= parts[0] <= 12:
                return None
            hour = parts[0] % 12 + (12 if suffix[0] in "pP" else 0)
            return Token("clock", hour * 60 + sum(part / 60**k for k, part in enumerate(parts[1:])))
        return Token("a:b" if len(parts) == 2 else "a:b:c", tuple(parts))
    if _SPELT.fullmatch(text):
        sizes = {"h": 60.0, "m": 1.0, "s": 1 / 60}
        found = re.findall(r"([0-9.,]+)\s*([hms])[a-z]*", text.lower())
        return Token("spelt", sum(float(n.rstrip(".,").replace(",", ".")) * sizes[u] for n, u in found))
    joined = re.fullmatch(r"(?i)([0-9]{1,2})h([0-9]{2})", text)
    if joined and int(joined[2]) < 60:
        return Token("spelt", int(joined[1]) * 60.0 + int(joined[2]))
    return None


def _days(text):
    """Day numbers a date can mean; two where day and month could be either way round."""
    first, second, third = (int(part) for part in re.split("[-/.]", text))
    year = third + 2000 if third < 100 else third
    orders = ((first, second, third),) if first > 31 else ((year, second, first), (year, first, second))
    days = []
    for year, month, day in orders:
        try:
            days.append(datetime.date(year, month, day).toordinal())
        except ValueError:
            days.append(None)
    return tuple(days) if any(days) and None not in days else tuple(d for d in days if d) * 2


def _of_day(clock):
    if clock is None or clock.form not in ("a:b", "a:b:c", "clock"):
        return None
    if clock.form == "clock":
        return clock.value
    return _hours(clock.value) if clock.value[0] < 24 else None


def _hours(parts):
    return sum(part * 60 / 60**k for k, part in enumerate(parts))


def hinted(header):
    """What a header says about its times: one of minutes, seconds, hours, mm:ss, h:mm, or None."""
    header = header.replace("_", " ").lower()
    return next((hint for hint, words in _HINTS if re.search(words, header)), None)


def to_minutes(rows, degrees, header, asked, said):
    """Minutes of each row (not yet from the first reading). rows have .line and .time (a Token); degrees in degC.

    Appends to `said` how the times were read. Raises StudentError for mixed forms and for times left open.
    """
    hint = asked or hinted(header)
    forms = {row.time.form for row in rows}
    if forms == {"a:b", "number"} and all(_number(r.time) == 0 for r in rows if r.time.form == "number"):
        rows = [r._replace(time=Token("a:b", (0.0, 0.0))) if r.time.form == "number" else r for r in rows]
        forms = {"a:b"}
    why = "you said so" if asked else "the header says so"
    if forms == {"number"}:
        return _numbers(rows, degrees, hint if hint in _SIZE else None, why, said)
    if forms <= {"number", "spelt"}:
        size = _SIZE.get(hint, 1.0)
        said.append("The times name their units.")
        return np.array([r.time.value if r.time.form == "spelt" else _number(r.time) * size for r in rows])
    if forms == {"dated"}:
        said.append("The times are dates with clock times.")
        return min((np.array([r.time.value[k % len(r.time.value)] for r in rows]) for k in (0, 1)), key=np.ptp)
    if forms <= {"clock", "a:b", "a:b:c"}:
        if "clock" in forms:
            return _clocks(rows, said)
        return _pairs(rows, degrees, hint, why, said)
    most = max(forms, key=lambda form: sum(row.time.form == form for row in rows))
    odd = next(row for row in rows if row.time.form != most)
    raise StudentError(
        f"row {odd.line}, time column: a time written in another way than the rest of the log",
        "one way of writing the time in all rows",
        "9:05, 9:10, 9:15, or 0, 5, 10",
    )


def _number(time):
    return float(time.value.replace(",", "."))


def _numbers(rows, degrees, hint, why, said):
    values = np.array([_number(row.time) for row in rows])
    if hint:
        said.append(f"The times are {hint}: {why}.")
        return values * _SIZE[hint]
    dotted = all(re.fullmatch("[0-9]{1,2}[.,][0-5][0-9]", row.time.value) for row in rows)
    if dotted and np.ptp(values) < SHORTEST and values.min() >= 5:
        shown = rows[0].time.value
        raise StudentError(
            f"row {rows[0].line}, time column: '{shown}', a clock time with a dot, or minutes",
            "a colon in a clock time, or a header that says min",
            re.sub("[.,]", ":", shown),
        )
    fits = [name for name in ("minutes", "seconds") if _plausible(values * _SIZE[name], degrees)]
    if len(fits) == 2 and _fall(values, degrees) is not None and np.median(np.abs(np.diff(values))) >= 10:
        raise StudentError(
            f"times from {values.min():g} to {values.max():g}, which can be minutes or seconds",
            "the unit over the time column: min or s, or times='minutes' or times='seconds'",
            "time (s), temperature (degC)",
        )
    name = fits[0] if fits else "seconds" if np.ptp(values) > LONGEST else "minutes"
    said.append(
        f"No unit stands over the times. They were read as {name}: a log of {np.ptp(values) * _SIZE[name]:.3g} minutes."
    )
    return values * _SIZE[name]


def _clocks(rows, said):
    """Clock times of which some say am or pm; a time without it lies within six hours of the one before."""
    marks = [row.time.form == "clock" for row in rows]
    values = [row.time.value if mark else _of_day(row.time) for row, mark in zip(rows, marks, strict=True)]
    for row, value in zip(rows, values, strict=True):
        if value is None:
            raise StudentError(f"row {row.line}, time column: an hour above 23", "a clock time", "9:05 am or 21:05")
    out = list(values)
    first = marks.index(True)
    for i in (*range(first + 1, len(out)), *range(first - 1, -1, -1)):
        near = out[i - 1] if i > first else out[i + 1]
        period = 1440 if marks[i] else 720
        out[i] = values[i] + period * round((near - values[i]) / period)
    said.append("The times are clock times with am and pm.")
    return np.array(out, dtype=float)


def _unrolled(values, period):
    """The same times carried on where the clock begins again at zero (midnight, twelve, a full hour)."""
    steps = np.diff(values)
    if len(steps) == 0 or steps.min() > -period / 2:
        return values
    return np.concatenate([values[:1], values[0] + np.cumsum((steps + period / 2) % period - period / 2)])


def _pairs(rows, degrees, hint, why, said):
    parts = [row.time.value for row in rows]
    as_hours = np.array([_hours(p) for p in parts])
    if max(p[0] for p in parts) < 24:
        twelve = 1 <= min(p[0] for p in parts) and max(p[0] for p in parts) < 13
        as_hours = _unrolled(as_hours, 720 if twelve else 1440)
    if all(len(p) == 3 for p in parts):
        said.append("The times are h:mm:ss.")
        return as_hours
    as_minutes = np.array([_hours(p) / 60 if len(p) == 2 else _hours(p) for p in parts])
    if max(p[0] for p in parts) < 60:
        as_minutes = _unrolled(as_minutes, 60)
    if hint in ("mm:ss", "h:mm"):
        said.append(f"The times are {hint}: {why}.")
        return as_minutes if hint == "mm:ss" else as_hours
    readings = {"mm:ss": as_minutes, "h:mm": as_hours}
    if max(p[0] for p in parts if len(p) == 2) > 23:
        del readings["h:mm"]
    backward = {name: int(np.sum(np.diff(minutes) < 0)) for name, minutes in readings.items()}
    fits = [name for name in readings if backward[name] == min(backward.values())]
    fits = [name for name in fits if _plausible(readings[name], degrees)] or fits
    if len(fits) > 1 and as_hours[0] >= EARLIEST_KITCHEN:
        fits = ["h:mm"]
    if len(fits) > 1:
        shown = ":".join(f"{part:02.0f}" if k else f"{part:.0f}" for k, part in enumerate(parts[-1]))
        raise StudentError(
            f"times up to {shown} (row {rows[-1].line}), which can be minutes and seconds or hours and minutes",
            "mm:ss or h:mm over the time column, or times='mm:ss' or times='h:mm'",
            "time (mm:ss), temperature (degC)",
        )
    name, span = fits[0], np.ptp(readings[fits[0]])
    other = np.ptp(as_hours if name == "mm:ss" else as_minutes)
    long = "minutes and seconds" if name == "mm:ss" else "hours and minutes"
    said.append(f"The times are {name}, {long}: a log of {span:.0f} minutes. Read the other way it were {other:.3g}.")
    return readings[name]


def _plausible(minutes, degrees):
    """Whether a bowl's log can run like this: its length, its steps, and how fast the bowl cools."""
    order = np.argsort(minutes, kind="stable")
    minutes, degrees = minutes[order], degrees[order]
    if not SHORTEST <= minutes[-1] - minutes[0] <= LONGEST or np.median(np.diff(minutes)) > LONGEST_STEP:
        return False
    fall = _fall(minutes, degrees)
    return fall is None or FALL[2] <= fall <= FALL[3]


def _fall(minutes, degrees):
    """Minutes from the last reading at 42 degC or more to the next at 35 degC or less, or None."""
    cold = np.flatnonzero(degrees <= FALL[1])
    for end in cold:
        hot = np.flatnonzero(degrees[:end] >= FALL[0])
        if hot.size:
            return float(minutes[end] - minutes[hot[-1]])
    return None
