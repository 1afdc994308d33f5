"""One time as a log writes it: minutes, mm:ss, h:mm, h:mm:ss, a clock time, a date with one, or "1 h 20 min"."""

import datetime
import functools
import re
from typing import NamedTuple

from pastrylab.ground.numbers import with_point

DATE = r"[0-9]{1,4}[-/.][0-9]{1,2}[-/.][0-9]{1,4}"
CLOCK = (
    r"[0-9]{1,4}:[0-9]{1,2}(?::[0-9]{1,2})?(?:[.,][0-9]{1,9})?(?:\s*[ap]\.?\s?m\b\.?)?"
    r"|[0-9]{1,2}(?:\.[0-9]{2})?\s*[ap]\.?\s?m\b\.?"
)
SPELT = r"(?:[0-9]{1,6}(?:[.,][0-9]{1,9})?\s*(?:h(?:ours?|rs?)?|min(?:ute)?s?|m|s(?:ec(?:ond)?s?)?)(?![a-z])\.?\s*)+"
NUMBER = r"[+-]?[0-9]{1,9}(?:[.,][0-9]{0,15})?"

_NUMBER, _CLOCK, _SPELT = (re.compile(f"(?i){pattern}") for pattern in (NUMBER, CLOCK, SPELT))
_DATED = re.compile(rf"(?i)({DATE})[T\s,]+({CLOCK})\s*(Z|[+-][0-9]{{2}}:?[0-9]{{2}})?")
_PLAIN_DATED = re.compile(
    rf"({DATE})[T ]([01]?[0-9]|2[0-3]):([0-5][0-9])(?::([0-5][0-9](?:\.[0-9]{{1,9}})?))?(?: ([AP])M)?"
)
_PLAIN_FORMS = (
    ("number", re.compile(r"[0-9]{1,9}(?:[.,][0-9]{0,9})?")),
    ("a:b", re.compile(r"[0-9]{1,4}:[0-5][0-9]")),
    ("a:b:c", re.compile(r"[0-9]{1,4}:[0-5][0-9]:[0-5][0-9]")),
)
_MONTHS = "jan feb mar apr may jun jul aug sep oct nov dec".split()
_NAMED_MONTH = re.compile(rf"(?i)([0-9]{{1,2}})[- ]({'|'.join(_MONTHS)})[a-z]{{0,6}}\.?[-, ]+([0-9]{{2,4}})(?=[ T,])")
JOINED = re.compile(r"(?i)([0-9]{1,2})h([0-9]{2})")
_SIZES = {"h": 60.0, "m": 1.0, "s": 1 / 60}


class Token(NamedTuple):
    """One time: its form, and by that its value: "number" (it), "a:b" and "a:b:c" (tuple of the parts), "clock" (minute
    of the day), "dated" (two minutes, one for each order of day and month), "spelt" (minutes).
    """

    form: str
    value: float | tuple[float, ...]


def token(text):
    """Token of one cell, or None for what is no time.

    >>> token("9:05"), token("1 h 20 min")
    (Token(form='a:b', value=(9.0, 5.0)), Token(form='spelt', value=80.0))
    """
    text = text.strip()
    if _NUMBER.fullmatch(text):
        return Token("number", float(with_point(text)))
    dated = _DATED.fullmatch(_NAMED_MONTH.sub(_numbered, text))
    if dated:
        of_day = minute_of_day(token(dated[2]))
        return None if of_day is None else _dated(dated[1], of_day - _offset(dated[3]))
    if _CLOCK.fullmatch(text):
        return _clock(text)
    return _spelt(text)


def _numbered(match):
    """4-Mar-2025 as 2025-03-04."""
    day, month, year = match.groups()
    return f"{year if len(year) > 2 else '20' + year}-{_MONTHS.index(month.lower()) + 1}-{day}"


def plain_times(texts):
    """(form, values) of times that are all written in one plain way, the same as token gives one by one; else None.

    A hundred thousand times: no object is made for each but its value.

    >>> plain_times(["0", "2,5"])
    ('number', [0.0, 2.5])
    """
    for form, pattern in _PLAIN_FORMS:
        if all(map(pattern.fullmatch, texts)):
            if form == "number":
                return form, [float(with_point(text)) for text in texts]
            return form, [tuple(map(float, text.split(":"))) for text in texts]
    found = list(map(_PLAIN_DATED.fullmatch, texts))
    values = _plain_dates([match.groups() for match in found]) if all(found) else None
    return None if values is None else ("dated", values)


def _plain_dates(parts):
    """Values of (date, hours, minutes, seconds or None, A or P or None); None where one cannot be."""
    starts = {date: _days(date) for date in {part[0] for part in parts}}
    if not all(starts.values()):
        return None
    values = []
    for date, hour, minute, second, half in parts:
        hours = int(hour)
        if half:
            if not 1 <= hours <= 12:
                return None
            hours = hours % 12 + (12 if half == "P" else 0)
        of_day = hours * 60 + int(minute) + float(second or 0) * 60 / 3600
        first, other = starts[date]
        values.append((first * 1440 + of_day, other * 1440 + of_day))
    return values


def _dated(date, of_day):
    days = _days(date)
    return Token("dated", tuple(day * 1440 + of_day for day in days)) if days else None


def _offset(zone):
    digits = re.sub("[:zZ]", "", zone or "")
    return (int(digits[1:3]) * 60 + int(digits[3:])) * (-1 if digits[0] == "-" else 1) if digits else 0


def _clock(text):
    digits, suffix = re.fullmatch(r"([0-9:.,]+)\s*(.*)", text).groups()
    if suffix and ":" not in digits:
        digits = digits.replace(".", ":")  # 9.05 am
    parts = [float(part) for part in with_point(digits).split(":")]
    if len(parts) > 1 and any(part >= 60 for part in parts[1:]):
        return None
    if not suffix:
        return Token("a:b" if len(parts) == 2 else "a:b:c", tuple(parts))
    if not 1 <= parts[0] <= 12:
        return None
    hour = parts[0] % 12 + (12 if suffix[0] in "pP" else 0)
    return Token("clock", in_minutes((hour, *parts[1:])))


def _spelt(text):
    if _SPELT.fullmatch(text):
        found = re.findall(r"([0-9.,]+)\s*([hms])[a-z]*", text.lower())
        return Token("spelt", sum(float(with_point(n.rstrip(".,"))) * _SIZES[u] for n, u in found))
    joined = JOINED.fullmatch(text)
    if joined and int(joined[2]) < 60:
        return Token("spelt", int(joined[1]) * 60.0 + int(joined[2]))
    return None


@functools.lru_cache(maxsize=512)
def _days(text):
    """The two day numbers a date can mean, with day and month either way round; alike where one way alone is a date."""
    first, second, third = (int(part) for part in re.split("[-/.]", text))
    year = third + 2000 if third < 100 else third
    orders = ((first, second, third),) * 2 if first > 31 else ((year, second, first), (year, first, second))
    days = []
    for year, month, day in orders:
        try:
            days.append(datetime.date(year, month, day).toordinal())
        except ValueError:
            days.append(None)
    return tuple(days) if None not in days else tuple(d for d in days if d) * 2


def minute_of_day(clock):
    """Minutes since midnight of a Token of a time of day, or None where it is none.

    >>> minute_of_day(token("9:05 pm"))
    1265.0
    """
    if clock is None or clock.form not in ("a:b", "a:b:c", "clock"):
        return None
    if clock.form == "clock":
        return clock.value
    return in_minutes(clock.value) if clock.value[0] < 24 else None


def in_minutes(parts):
    """Minutes of (hours, minutes, seconds), of which the last may be missing.

    >>> in_minutes((1, 20, 30))
    80.5
    """
    return sum(part * 60 / 60**k for k, part in enumerate(parts))
