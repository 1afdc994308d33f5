"""Answers that are amounts of money: typed with or without a currency, judged to half a cent."""

from dataclasses import dataclass
from decimal import Decimal

from pastrylab.ground.currencies import CURRENCIES
from pastrylab.ground.grammar import APPROXIMATELY
from pastrylab.ground.money import Money, Price, money
from pastrylab.ground.units import StudentError, Typed, kind_of, read_text, symbol
from pastrylab.school.kinds.measured import Measured
from pastrylab.school.verdict import Verdict

# Where one of these is asked, "$" alone means it.
_DOLLARS = ("CAD", "AUD", "NZD", "HKD", "SGD", "TWD", "BBD", "BZD", "JMD", "TTD")
_MOST = 10**9


def read_amount(text, currency):
    """A typed amount as Typed(number, unit, step): "$4.50", "4.50", "4,50".

    unit: "" for an amount of the currency asked for or without one; else another currency's code, or a unit of the
    kitchen. step: value of the last digit typed. Raises StudentError for what is neither.

    >>> typed = read_amount("about 4,50", "USD")
    >>> typed.number, typed.unit
    (4.5, '')
    """
    about = APPROXIMATELY.match(text.strip())
    text = text.strip()[about.end() :] if about else text
    try:
        typed = money(text, "the answer", at_least=None, unrounded=True)
    except StudentError:
        try:
            other = read_text(text)
        except StudentError:
            other = None
        if other is None or not other.unit:
            raise
        return other
    if abs(typed) > _MOST:
        raise StudentError(f"{typed}", "an amount a kitchen can have", "4.50")
    code = typed.currency
    if code == currency or (code == "USD" and currency in _DOLLARS and "US" not in text.upper()):
        code = ""
    return Typed(float(typed), code, 10.0 ** typed.amount.as_tuple().exponent)


@dataclass(frozen=True)
class MoneyKind(Measured):
    """An amount of money, in the currency of the exercise's givens; a price may be written below the cent it goes up to.

    >>> from pastrylab import exercises
    >>> exercises.exercise("08.price-by-margin").how.show(money("$11.1429"))
    '$11.14'
    """

    label = "Your answer, an amount of money"
    measures = "money"
    factor = 100
    check = "Check the decimal point: a hundred cents make one whole unit of the currency."

    def example(self, expected=None):
        return "4.50" if expected is None else str(Money(Decimal("4.50"), expected.currency))

    def in_unit(self, value):
        """Money as it is; a number as money without a currency."""
        return value if isinstance(value, Money) else Money(value)

    def show(self, amount):
        """An amount to the smallest coin of its currency."""
        return str(amount)

    def resolution(self, expected):
        """Written down for hundredths; a yen has none, a dinar has thousandths."""
        return self.exercise.resolution * 10.0 ** (2 - expected.places)

    def read(self, text, expected):
        return read_amount(text, expected.currency)

    def unit_trouble(self, typed, expected):
        unit = typed.unit
        if not unit:
            return None
        is_one = f"{unit} is another currency" if unit in CURRENCIES else f"{symbol(unit)} measures {kind_of(unit)}"
        like = f"asked is {self.measures}, like this: {self.example(expected)}."
        return Verdict("unit", f"{self._fits_says(typed, expected)}{is_one}; {like}")

    def praise(self, expected, number):
        below = isinstance(expected, Price) and number < expected.rounded()
        return self.show(expected) + ("; a price goes up to the next cent" if below else "")
