"""The hours of a lab as a person writes them: "8:00-12:30; next day 8-12.30", "Mon 8am to noon, Tue closed, Wed 9-11"."""

import re

from pastrylab.ground.units import StudentError
from pastrylab.trade.planning.steps import DAY

_HOURS = "8:00-12:30; next day 8:00-12:30"
_WEEK = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
_TIME = (
    r"(?:noon|midday|midnight|[0-9]{1,2}(?:\s*[:.h]\s*[0-9]{2})?(?:\s*(?:h\b|o'clock|a\.?\s?m\b\.?|p\.?\s?m\b\.?))?)"
)
_CLOCK = re.compile(r"([0-9]{1,2})(?:\s*[:.h]\s*([0-9]{2}))?\s*(h|o'clock|am|pm)?")
_SPAN = re.compile(
    rf"(?:(?!from)(?P<label>[a-z][a-z ]*?(?:[0-9]{{1,2}})?)\s*[:,.]?\s+)?(?:from\s+)?"
    rf"(?:(?P<closed>closed|holiday|free|off)|(?P<opens>{_TIME})\s*(?:-|–|—|to|till|until)\s*(?P<closes>{_TIME}))\s*"
)
_DAYS = 31


def read_hours(text):
    """((opens, closes), ...) of the days on which a lab is open: minutes from midnight before the first day.

    A day an entry, entries apart by a semicolon, a comma or a line. They follow one another: one that says "closed" is a day
    on which nobody is there; "day 3" and a weekday say which day it is. "8-12:30", "8 am to noon", "8.00-12.30". Raises
    StudentError naming the entry.

    >>> read_hours("8-12:30; closed; 9 am to noon")
    ((480, 750), (3420, 3600))
    """
    found, day, first = [], 0, None
    for entry in re.split(r"[;,\n]", text.casefold()):
        entry = " ".join(entry.split()).strip(" .")
        if not entry:
            continue
        one = _SPAN.fullmatch(entry)
        if one is None:
            raise StudentError(f"'{entry[:40]}' for the hours of a day", "from when to when it is open", _HOURS)
        day, first = _which(one["label"] or "", entry, day, first)
        if one["closed"]:
            continue
        opens, closes = (_minutes(one[which], entry) for which in ("opens", "closes"))
        if closes <= opens:
            raise StudentError(
                f"'{entry[:40]}', which closes before it opens", "hours of the day from 0 to 24, or am and pm", _HOURS
            )
        found.append(((day - 1) * DAY + opens, (day - 1) * DAY + closes))
    if not found:
        raise StudentError("no hour in which the lab is open", "at least one day", _HOURS)
    return tuple(found)


def written(hours):
    """Hours as read_hours reads them: "8:00-12:30; day 2 8:00-12:30".

    >>> written(read_hours("8-12:30; closed; 9 am to noon"))
    '8:00-12:30; day 3 9:00-12:00'
    """
    said = []
    for opens, closes in hours:
        day = opens // DAY
        times = "-".join(f"{at // 60}:{at % 60:02d}" for at in (opens - day * DAY, closes - day * DAY))
        said.append(f"day {day + 1} {times}" if day else times)
    return "; ".join(said)


def read_moment(text):
    """A moment of a plan, minutes from midnight before its first day: "9:05", "day 2, 9:05", "day 2 at 1 pm".

    Raises StudentError where no time of day is read, and for a day beyond a month.

    >>> read_moment("9:05"), read_moment("day 2, 9:05")
    (545, 1985)
    """
    bare = " ".join(text.casefold().split()).strip(" ,.;")
    one = re.fullmatch(rf"(?:day\s*([0-9]{{1,2}})\s*,?\s*(?:at\s+)?)?({_TIME})", bare)
    if one is None or not 1 <= int(one[1] or 1) <= _DAYS:
        raise StudentError(
            f"'{bare[:40]}' for a time", "the time of day, with its day from the second on", "day 2, 9:05"
        )
    return (int(one[1] or 1) - 1) * DAY + _minutes(one[2], bare)


def _which(label, entry, day, first):
    """(the day an entry is of, the weekday of day 1 where it is known)."""
    wanted, word = day + 1, label.replace("on ", "").strip()
    numbered = re.fullmatch(r"day ?([0-9]{1,2})", word)
    if numbered:
        wanted = int(numbered[1])
    elif word[:3] in _WEEK:
        weekday = _WEEK.index(word[:3])
        first = (weekday - day) % 7 if first is None else first
        wanted = day + 1 + (weekday - first - day) % 7
    elif word not in ("", "next day", "the next day", "then", "and", "today", "tomorrow"):
        raise StudentError(
            f"'{entry[:40]}' for the hours of a day", "a weekday, 'day 2' or 'next day' before them", _HOURS
        )
    if not day < wanted <= _DAYS:
        raise StudentError(f"'{entry[:40]}' after day {day}", f"days in their order, at most {_DAYS}", _HOURS)
    return wanted, first


def _minutes(text, entry):
    words = {"noon": 720, "midday": 720, "midnight": 1440}
    if text in words:
        return words[text]
    hour, minute, half = _CLOCK.fullmatch(re.sub(r"([ap])\.?\s?m\.?", r"\1m", text)).groups()
    hour, minute = int(hour), int(minute or 0)
    if half in ("am", "pm"):
        if not 1 <= hour <= 12:
            raise StudentError(f"'{entry[:40]}'", "an hour from 1 to 12 before am or pm", _HOURS)
        hour = hour % 12 + (12 if half == "pm" else 0)
    if minute > 59 or hour * 60 + minute > DAY:
        raise StudentError(f"'{entry[:40]}'", "a time of day", _HOURS)
    return hour * 60 + minute
