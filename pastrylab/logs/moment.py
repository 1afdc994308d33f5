"""A moment noted beside a log ("seeded after 12 min", "seeded at 9:09"), in minutes from the log's first reading."""

from pastrylab.ground.grammar import dimension, read_text
from pastrylab.ground.units import StudentError
from pastrylab.logs.log import log_of
from pastrylab.logs.tokens import Token, in_minutes, token

_HALF_DAY, _DAY = 720.0, 1440.0


def minutes_into(log, text):
    """Minutes from a log's first reading to the moment a text names; None for an empty text.

    log: as read_log gives it. text: minutes ("4"), a time with its unit ("12 min"), or a time as the log writes its own
    ("9:09", "9:09 pm", or "12:30" in a log of mm:ss). StudentError: anything else, and a moment outside the log.

    >>> from pastrylab.logs import read_log
    >>> log = read_log("time, degC\\n9:05, 45.5\\n9:15, 36.0\\n9:30, 31.6")
    >>> minutes_into(log, "9:09"), minutes_into(log, "12 min")
    (4.0, 12.0)
    """
    text = str(text).strip()
    if not text:
        return None
    log = log_of(log, ("minutes",))
    found, last = token(text.replace("−", "-")), float(log["minutes"][-1])
    found = _spoken(text) if found is None else found
    if found is None or found.form == "dated":
        raise _refused(f"'{text[:40]}'", log)
    if found.form in ("number", "spelt"):
        minutes = found.value
        if not 0 <= minutes <= last:
            raise _refused(f"{minutes:.4g} minutes after the first reading", log)
        return minutes
    fits = [minutes for minutes in _moments(found, log, text) if -1e-9 <= minutes <= last + 1e-9]
    if len(fits) != 1:
        several = f"'{text[:40]}', which comes {len(fits)} times in this log"
        raise _refused(several if fits else f"'{text[:40]}'", log)
    return min(max(fits[0], 0.0), last)


def _spoken(text):
    """A time as grammar reads it ("1 h 10", "half an hour"), as a Token in minutes; None for anything else."""
    try:
        typed = read_text(text, "[time]")
    except StudentError:
        return None
    return Token("number", float(typed.quantity.m_as("min"))) if dimension(typed.unit) == "[time]" else None


def _moments(found, log, text):
    """Minutes from the first reading that a time written with a colon can mean."""
    first, form = log.how.first, log.how.times
    if first is None or form not in ("mm:ss", "h:mm", "clock", "dated"):
        raise _refused(f"'{text[:40]}', a time of the clock, for a log without any", log)
    value = found.value if found.form == "clock" else in_minutes(found.value)
    if form == "mm:ss" and found.form == "a:b":
        return [value / 60 - first]
    if not log.how.clock:
        return [value - first]
    twelve = found.form != "clock" and 1 <= found.value[0] <= 12 and not text.startswith("0")
    period = _HALF_DAY if twelve else _DAY
    last = float(log["minutes"][-1])
    start = (value - first) % period
    return [start + period * k for k in range(int(last // period) + 1)]


def _refused(given, log):
    first, last = log.how.first, float(log["minutes"][-1])
    needed, example = f"minutes after the first reading, 0 to {last:.4g}", "12 min"
    if log.how.clock:
        ends = " to ".join(f"{int(t % _DAY // 60)}:{int(t % 60):02d}" for t in (first, first + last))
        needed, example = f"{needed}, or a clock time within the log, {ends}", "12 min, or 9:09"
    return StudentError(given, needed, example)
