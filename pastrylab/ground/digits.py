"""The digits of an amount as people write them, with points, commas, blanks and apostrophes, as an exact decimal."""

import re
from decimal import Decimal

from pastrylab.ground.units import StudentError

_PLAIN = re.compile(r"\d*[.,]?\d*")
_GROUPED = re.compile(r"\d{1,3}(?:(?:,\d{3})+(?:\.\d*)?|(?:\.\d{3})+(?:,\d*)?|(?:[ ']\d{3})+(?:[.,]\d*)?)")


def read_digits(digits, given, needed, exact):
    """The Decimal that digits and their marks stand for ("1'250.50", "4,50").

    exact: whether three decimals behind a point are decimals; else "1.200" is refused, as "12,000" always is. given,
    needed: what was typed and what was wanted, for messages. Raises StudentError for what can be read two ways or none.

    >>> str(read_digits("1'250.50", "'1250.50' for the price", "an amount", False))
    '1250.50'
    """
    if re.fullmatch(r"[1-9]\d{0,2},\d{3}" if exact else r"[1-9]\d{0,2}[.,]\d{3}", digits):
        bare = re.sub(r"\D", "", digits)
        raise StudentError(
            f"{given}, which can be read two ways", f"{bare} or {Decimal(digits.replace(',', '.')):.2f}", bare
        )
    if _PLAIN.fullmatch(digits):
        return Decimal(digits.replace(",", ".").rstrip(".") or "0")
    if not _GROUPED.fullmatch(digits):
        raise StudentError(given, f"{needed} with one decimal point or comma", "4.50 or 4,50")
    marks = [c for c in digits if not c.isdigit()]
    # The last mark is the decimal one unless the same mark already parts the thousands.
    if marks[-1] in ".," and marks.count(marks[-1]) == 1:
        whole, _, part = digits.rpartition(marks[-1])
        return Decimal(re.sub(r"\D", "", whole) + "." + (part or "0"))
    return Decimal(re.sub(r"\D", "", digits))
