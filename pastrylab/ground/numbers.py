"""How a number is written: digits, thousands, a decimal point or comma, fractions."""

import re
import unicodedata

from pastrylab.ground.errors import StudentError

HUGE = 1e9
VULGAR = {c: unicodedata.numeric(c) for c in "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"}
_NUMBER = re.compile(
    r"(?P<sign>[+-])?\s*(?:"
    r"(?:(?P<before>[0-9]+)[ -]?)?(?P<vulgar>[" + "".join(VULGAR) + "])"
    r"|(?:(?P<mixed>[0-9]+)[ -])?(?P<top>[0-9]+)\s?/\s?(?P<bottom>[0-9]+)(?![0-9.,])"
    r"|(?P<groups>[0-9]{1,3}(?:[ '][0-9]{3})+(?![0-9])(?:[.,][0-9]+)?)"
    r"|(?P<digits>[0-9][0-9.,]*|[.,][0-9]+)(?P<power>[eE][+-]?[0-9]{1,2}(?![0-9]))?"
    r")"
)
_LIKE_THOUSANDS = re.compile(r"([1-9][0-9]{0,2})[.]([0-9]{3})")


def read_number(rest, given):
    """The number a text begins with, tidied ("1 1/2 cups", "1 250,5 g", "½ cup"); given: what a refusal quotes.

    Returns (the number, the value of its last digit, the text behind it, and where it may be thousands with a point the
    digits on either side of that, else None). Raises StudentError for no number, a range, or more than HUGE.

    >>> read_number("1 1/2 cups", "'1 1/2 cups'"), read_number("1.250 g", "'1.250 g'")
    ((1.5, 0.5, 'cups', None), (1.25, 0.001, 'g', ('1', '250')))
    """
    if re.match(r"[+-]?(nan|inf)", rest, re.IGNORECASE):
        raise StudentError(given, "a number you can weigh or read", "250 g")
    m = _NUMBER.match(rest)
    if not m:
        raise StudentError(given, "a number first, then its unit", "250 g or 32 °C")
    tail, thousands = rest[m.end() :].strip(), None
    if m["vulgar"]:
        number, step = int(m["before"] or 0) + VULGAR[m["vulgar"]], 0.01
    elif m["bottom"]:
        if int(m["bottom"]) == 0:
            raise StudentError(given, "a fraction whose lower number is not zero", "1/2 cup")
        number, step = int(m["mixed"] or 0) + int(m["top"]) / int(m["bottom"]), 1 / int(m["bottom"])
    else:
        number, step = _decimal(re.sub(r"[ ']", "", m["groups"] or m["digits"]), bool(m["groups"]), given)
        scale = float("1" + m["power"]) if m["power"] else 1.0
        number, step = number * scale, step * scale
        found = None if m["groups"] or m["power"] else _LIKE_THOUSANDS.fullmatch(m["digits"])
        thousands = found and found.groups()
    if re.match(r"(-|to\b|–)\s*[0-9]", tail):
        raise StudentError(given, "one number, not a range", "31.5 °C")
    if number > HUGE:
        raise StudentError(given, "a number that fits a kitchen", "2500 g")
    return (-number if m["sign"] == "-" else number), step, tail, thousands


def _decimal(digits, grouped, given):
    digits = digits.rstrip(".,") if digits[-1] in ".," else digits
    marks = [c for c in digits if c in ".,"]
    whole, part = digits, ""
    if marks:
        mark = marks[-1]
        whole, _, part = digits.rpartition(mark)
        repeated = len(marks) > 1 and len(set(marks)) == 1
        if repeated:
            whole, part = digits, ""
        elif (
            mark == ","
            and len(marks) == 1
            and len(part) == 3
            and 1 <= len(whole) <= 3
            and whole[0] != "0"
            and not grouped
        ):
            raise StudentError(
                f"{given}, which can be read two ways",
                f"{whole}{part} or {whole}.{part}",
                f"{whole}.{part} kg",
            )
        groups = re.split(r"[.,]", whole)
        if len(groups) > 1 and not (1 <= len(groups[0]) <= 3 and all(len(g) == 3 for g in groups[1:])):
            raise StudentError(given, "one decimal point or comma", "3.5 g or 3,5 g")
        if mark in whole and not repeated:
            raise StudentError(given, "one decimal point or comma", "3.5 g or 3,5 g")
        whole = "".join(groups)
    return float(f"{whole or 0}.{part or 0}"), 10.0 ** -len(part)
