"""Times as people say them: "half an hour", "an hour and a half"; and "1:10", of which nobody knows what it counts."""

import re

from pastrylab.ground.errors import StudentError

_MINUTES = {
    "half an hour": 30,
    "half hour": 30,
    "a half hour": 30,
    "a quarter of an hour": 15,
    "quarter of an hour": 15,
    "a quarter hour": 15,
    "three quarters of an hour": 45,
    "an hour": 60,
    "one hour": 60,
    "an hour and a quarter": 75,
    "an hour and a half": 90,
    "one and a half hours": 90,
    "a minute": 1,
    "half a minute": 0.5,
}
_ABOUT = re.compile(r"^(?:about|around|roughly|approximately) ")
_COLON = re.compile(
    r"(?P<first>[0-9]{1,2}):(?P<second>[0-5][0-9])(?P<third>:[0-5][0-9])? ?(?:h|hr|hrs|hours?|min|mins|minutes?)?\.?"
)


def plainly(text, time_asked, given):
    """Tidy text with a time in words written in figures, any other as it is. given: how it is quoted where it is refused.

    time_asked: whether a time is asked for. Then "1:10" is refused, as it may be hours and minutes or minutes and seconds.
    Raises StudentError.

    >>> plainly("half an hour", True, "'half an hour'"), plainly("32 °C", False, "'32 °C'")
    ('30 min', '32 °C')
    """
    said = _ABOUT.sub("", text.casefold().replace("-", " ").rstrip("."))
    minutes = _MINUTES.get(said)
    if minutes:
        return f"{minutes:g} min"
    found = _COLON.fullmatch(text) if time_asked else None
    if not found:
        return text
    first, second = int(found["first"]), int(found["second"])
    if found["third"]:
        raise StudentError(given, "hours and minutes in words", f"{first} h {second} min")
    offers = (
        f"{first} h {second} min" if first else f"{second} min",
        f"{first} min {second} s" if first else f"{second} s",
    )
    raise StudentError(f"{given}, which can be read two ways", " or ".join(offers), offers[0])
