"""Answers that are amounts of money: typed with or without a currency, judged to half a cent."""

from pastrylab.ground.grammar import APPROXIMATELY
from pastrylab.ground.money import CURRENCIES, Money, Price, money
from pastrylab.ground.units import StudentError, Typed, kind_of, read_text, symbol

# Where one of these is asked, "$" alone means it.
_DOLLARS = ("CAD", "AUD", "NZD", "HKD", "SGD", "TWD", "BBD", "BZD", "JMD", "TTD")
CENTS = "Check the decimal point: a hundred cents make one whole unit of the currency."
_MOST = 10**9


def read_amount(text, currency):
    """A typed amount as Typed(number, unit, step): "$4.50", "4.50", "4,50".

    unit: "" for an amount of the currency asked for or without one; else another currency's code, or a unit of the
    kitchen. step: value of the last digit typed. Raises StudentError for what is neither.
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


def unit_says(unit, fits, example):
    """The sentence for an amount with a unit or a currency that was not asked for. fits: the number is right."""
    measures = f"{unit} is another currency" if unit in CURRENCIES else f"{symbol(unit)} measures {kind_of(unit)}"
    return f"{'The number fits, the unit does not. ' if fits else ''}{measures}; asked is money, like this: {example}."


def rounding_says(expected, number):
    """What is added to a right price that was written below the cent it is asked at; "" for all else."""
    return "; a price goes up to the next cent" if isinstance(expected, Price) and number < expected.rounded() else ""


def example(currency):
    """An amount as it is typed, in the currency asked for."""
    return str(Money(money("4.50").amount, currency))
