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
_NO_NUMBER, _RANGE = re.compile(r"[+-]?(nan|inf)", re.IGNORECASE), re.compile(r"(-|to\b|–)\s*[0-9]")
_PLAIN = re.compile(r"\d*[.,]?\d*")
_GROUPED = re.compile(r"\d{1,3}(?:(?:,\d{3})+(?:\.\d*)?|(?:\.\d{3})+(?:,\d*)?|(?:[ ']\d{3})+(?:[.,]\d*)?)")


def halves(digits):
    """The digits before and behind the decimal mark of an unsigned number, without its thousands; None for no number.

    A point or a comma is the decimal mark, unless the same mark parts the thousands twice or more, or the other one stands
    behind it. So "1,250" is 1.25 here: whoever must ask which was meant asks `like_thousands` first.

    >>> halves("1'250.50"), halves("1.250,5"), halves("1,250,000"), halves("3,5"), halves("1,2,3")
    (('1250', '50'), ('1250', '5'), ('1250000', ''), ('3', '5'), None)
    """
    if _PLAIN.fullmatch(digits):
        whole, _, part = with_point(digits).partition(".")
        return whole, part
    if not _GROUPED.fullmatch(digits):
        return None
    marks = re.sub(r"\d", "", digits)
    # The last mark is the decimal one unless the same mark already parts the thousands.
    whole, part = digits, ""
    if marks[-1] in ".," and marks.count(marks[-1]) == 1:
        whole, _, part = digits.rpartition(marks[-1])
    return re.sub(r"\D", "", whole), part


def like_thousands(digits, marks):
    """The digits on either side of the one mark of a number that may be thousands or decimals, or None where it is clear.

    marks: those to be asked about, "," or "." or ".,".

    >>> like_thousands("1,250", ","), like_thousands("1.250", ","), like_thousands("0,250", ",")
    (('1', '250'), None, None)
    """
    found = marks and re.fullmatch(rf"([1-9]\d{{0,2}})[{marks}](\d{{3}})", digits)
    return found.groups() if found else None


def with_point(text):
    """A number without thousands with a decimal point for its comma.

    >>> with_point("31,5"), with_point("-3.5")
    ('31.5', '-3.5')
    """
    return text.replace(",", ".")


def read_number(rest, given):
    """The number a text begins with, tidied ("1 1/2 cups", "1 250,5 g", "½ cup"); given: what a refusal quotes.

    Returns (the number, the value of its last digit, the text behind it, and where it may be thousands the digits before
    its mark, those behind it and the mark, else None). Raises StudentError for no number, a range, or more than HUGE.

    >>> read_number("1 1/2 cups", "'1 1/2 cups'"), read_number("1.250 g", "'1.250 g'")
    ((1.5, 0.5, 'cups', None), (1.25, 0.001, 'g', ('1', '250', '.')))
    """
    if _NO_NUMBER.match(rest):
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
        number, step = _decimal(m["groups"] or m["digits"].rstrip(".,"), given)
        scale = float("1" + m["power"]) if m["power"] else 1.0
        number, step = number * scale, step * scale
        thousands = None if m["groups"] else _doubtful(m["digits"], m["power"])
    if _RANGE.match(tail):
        raise StudentError(given, "one number, not a range", "31.5 °C")
    if number > HUGE:
        raise StudentError(given, "a number that fits a kitchen", "2500 g")
    return (-number if m["sign"] == "-" else number), step, tail, thousands


def _doubtful(digits, power):
    """Both halves and the mark of digits that may be thousands; with a power of ten a point is none."""
    found = like_thousands(digits.rstrip(".,"), "," if power else ".,")
    return found and (*found, "," if "," in digits else ".")


def written_out(whole, part, word, small):
    """The two ways to read "24,147 g", each as it can be typed and is asked about no more: "24147 g", "24.1470 g".

    whole, part: the digits on either side of its mark; word: its unit, or ""; small: whether three decimals behind a point
    are asked about. Returns two texts.

    >>> written_out("24", "147", "g", True), written_out("1", "250", "kg", False)
    (('24147 g', '24.1470 g'), ('1250 kg', '1.25 kg'))
    """
    fraction = f"{whole}.{part}".rstrip("0").rstrip(".")
    fraction += "0" if small and len(fraction.partition(".")[2]) == 3 else ""
    return f"{whole}{part} {word}".strip(), f"{fraction} {word}".strip()


def _decimal(digits, given):
    found = halves(digits)
    if not found:
        raise StudentError(given, "one decimal point or comma", "3.5 g or 3,5 g")
    whole, part = found
    return float(f"{whole or 0}.{part or 0}"), 10.0 ** -len(part)
