"""The digits of an amount as people write them, with points, commas, blanks and apostrophes, as an exact decimal."""

from decimal import Decimal

from pastrylab.ground.numbers import halves, like_thousands
from pastrylab.ground.units import StudentError


def read_digits(digits, given, needed, exact):
    """The Decimal that digits and their marks stand for ("1'250.50", "4,50").

    exact: whether three decimals behind a point are decimals; else "1.200" is refused, as "12,000" always is. given,
    needed: what was typed and what was wanted, for messages. Raises StudentError for what can be read two ways or none.

    >>> str(read_digits("1'250.50", "'1250.50' for the price", "an amount", False))
    '1250.50'
    """
    doubtful = like_thousands(digits, "," if exact else ".,")
    if doubtful:
        bare, fraction = "".join(doubtful), Decimal(".".join(doubtful))
        # With three decimals it would be asked about again.
        offered = f"{fraction:.4f}" if exact else f"{fraction:.2f}"
        raise StudentError(f"{given}, which can be read two ways", f"{bare} or {offered}", bare)
    found = halves(digits)
    if not found:
        raise StudentError(given, f"{needed} with one decimal point or comma", "4.50 or 4,50")
    whole, part = found
    return Decimal(f"{whole or 0}.{part}" if part else whole or 0)
