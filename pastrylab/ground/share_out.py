"""The odd cents of a table: line items rounded so that they add up to their rounded total."""

from decimal import Decimal
from fractions import Fraction

from pastrylab.ground.money import Money, add, common_currency


def share_out(parts, carried=""):
    """Line items rounded to the smallest unit so that they add up to their rounded total (largest remainder).

    parts: dict of label to Money, none negative where a line is carried; unrounded. carried: the label of a line that
    stands in another table already, and so keeps its own rounded value here. Returns a dict in the same order; each item
    is within one smallest unit of its exact value. Ties go to the earlier line. Raises StudentError for two currencies.

    >>> third = Money(Decimal(10) / 3, "USD")
    >>> [str(line) for line in share_out({"shell": third, "filling": third, "box": third}).values()]
    ['$3.34', '$3.33', '$3.33']
    """
    currency = common_currency(*parts.values())
    total = Money(add(parts.values()).amount, currency).rounded()
    fixed = {label: Money(part.amount, currency).rounded() for label, part in parts.items() if label == carried}
    free = {label: part for label, part in parts.items() if label != carried}
    rest = Money(total.amount - add(fixed.values()).amount, currency)
    shared = _largest_remainder(rest, [Fraction(part.amount) for part in free.values()])
    lines = fixed | dict(zip(free, shared, strict=True))
    return {label: lines[label] for label in parts}


def _largest_remainder(total, exact):
    per_unit = 10**total.places
    floors = [int(amount * per_unit // 1) for amount in exact]
    left = int(Fraction(total.amount) * per_unit) - sum(floors)
    order = sorted(range(len(exact)), key=lambda i: floors[i] - exact[i] * per_unit)
    for i in order[:left]:
        floors[i] += 1
    return [Money(Decimal(units).scaleb(-total.places), total.currency) for units in floors]
