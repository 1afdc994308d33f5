"""Money: exact decimals in one currency at a time, the grammar of prices, and line items that add up.

Money stays outside pint. The price of a cent, one rule: amounts are kept unrounded and rounded once, where they are
shown. A cost goes to the nearest cent, halves up, and the lines of a table share the odd cents so that they add up to
its total (`share_out`); a total carried into another table stands there as it stood in its own. A price, what a customer
is asked for, goes up to the next cent, never down (`Price`): rounded down it would bring less than was decided.
"""

import math
import numbers
import re
from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal, InvalidOperation

from pastrylab.ground.currencies import CURRENCIES, PLACES, SHOWN, SYMBOLS, WORDS
from pastrylab.ground.digits import read_digits
from pastrylab.ground.units import StudentError

_PRICE = re.compile(
    r"(?P<sign>-?) ?(?P<before>[^\d\s.,'-]*) ?(?P<minus>-?)(?P<digits>[\d.,' ]*\d[.,]?) ?(?P<after>\D*)",
    re.ASCII,
)
_EXAMPLE = "$4.50, 4,50 EUR or 12 GBP"
_HUGE = Decimal(10) ** 12
# What a division leaves far behind the cent belongs to arithmetic, not to the price: 9.000...01 is 9.
_STEADY = Decimal("1e-9")


@dataclass(frozen=True, eq=False)
class Money:
    """An amount (Decimal, unrounded) in one currency ("USD"; "" where none was stated).

    Behaves as a number: float(m), round(m, 2), abs, sums, m < 3, m == Decimal("2.48"), f"{m:.4f}". A bare
    number beside it is read in its currency; two different currencies raise StudentError (and are never
    equal). A float counts as the digits it prints. Money has no hash: what equals numbers of several types
    cannot have a consistent one.
    """

    amount: Decimal
    currency: str = ""

    def __post_init__(self):
        object.__setattr__(self, "amount", decimal_of(self.amount, "money", _EXAMPLE))
        if self.currency and self.currency not in CURRENCIES:
            raise StudentError(f"'{self.currency}' as a currency", "an ISO 4217 code in capitals", "USD")

    @property
    def places(self):
        """Decimals of the smallest unit: 2 for USD, 0 for JPY."""
        return PLACES.get(self.currency, 2)

    def _to_the_cent(self, way):
        return self.amount.quantize(_STEADY, ROUND_HALF_EVEN).quantize(Decimal(1).scaleb(-self.places), way)

    def rounded(self):
        """To the smallest unit, halves away from zero."""
        return Money(self._to_the_cent(ROUND_HALF_UP), self.currency)

    def _other(self, other):
        """(amount of other, common currency), or None where other is no number."""
        if isinstance(other, Money):
            return other.amount, common_currency(self, other)
        if isinstance(other, bool) or not isinstance(other, (float, int, Decimal, numbers.Real)):
            return None
        return decimal_of(other, "money", _EXAMPLE), self.currency

    def __add__(self, other):
        pair = self._other(other)
        return NotImplemented if pair is None else Money(self.amount + pair[0], pair[1])

    __radd__ = __add__

    def __sub__(self, other):
        pair = self._other(other)
        return NotImplemented if pair is None else Money(self.amount - pair[0], pair[1])

    def __rsub__(self, other):
        pair = self._other(other)
        return NotImplemented if pair is None else Money(pair[0] - self.amount, pair[1])

    def __mul__(self, other):
        pair = None if isinstance(other, Money) else self._other(other)
        return NotImplemented if pair is None else Money(self.amount * pair[0], self.currency)

    __rmul__ = __mul__

    def __truediv__(self, other):
        """Money by a number is Money; money by money is a plain Decimal."""
        pair = self._other(other)
        if pair is None:
            return NotImplemented
        if pair[0] == 0:
            raise StudentError("a division of money by zero", "a number above zero", "6")
        ratio = self.amount / pair[0]
        return ratio if isinstance(other, Money) else Money(ratio, self.currency)

    def __neg__(self):
        return Money(-self.amount, self.currency)

    def __abs__(self):
        return Money(abs(self.amount), self.currency)

    def __round__(self, places=None):
        whole = self.amount.quantize(Decimal(1).scaleb(-(places or 0)), ROUND_HALF_UP)
        return int(whole) if places is None else Money(whole, self.currency)

    def __float__(self):
        return float(self.amount)

    def __int__(self):
        return int(self.amount)

    def __bool__(self):
        return self.amount != 0

    def __eq__(self, other):
        if isinstance(other, Money) and self.currency and other.currency and self.currency != other.currency:
            return False
        if isinstance(other, (float, Decimal)) and not math.isfinite(other):
            return False
        pair = self._other(other)
        return NotImplemented if pair is None else self.amount == pair[0]

    __hash__ = None
    # numpy numbers beside Money leave the work to Money.
    __array_ufunc__ = None

    def __lt__(self, other):
        pair = self._other(other)
        return NotImplemented if pair is None else self.amount < pair[0]

    def __le__(self, other):
        pair = self._other(other)
        return NotImplemented if pair is None else self.amount <= pair[0]

    def __gt__(self, other):
        pair = self._other(other)
        return NotImplemented if pair is None else self.amount > pair[0]

    def __ge__(self, other):
        pair = self._other(other)
        return NotImplemented if pair is None else self.amount >= pair[0]

    def __format__(self, spec):
        return format(self.amount, spec) if spec else str(self)

    def __str__(self):
        """To the smallest unit: "$4.50", "-€4.50", "12.00 CHF", "4.50"; `money` reads each of them back."""
        return self._written(self.rounded().amount, self.places)

    def in_full(self):
        """As it stands in a sum, before it is rounded: two more decimals where there is an odd part of a cent.

        >>> Money(10.8333333, "USD").in_full(), Money(3, "USD").in_full()
        ('$10.8333', '$3.00')
        """
        places = self.places + 2
        amount = self.amount.quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP)
        whole = amount == amount.quantize(Decimal(1).scaleb(-self.places), ROUND_HALF_UP)
        return self._written(amount, self.places if whole else places)

    def _written(self, amount, places):
        sign, digits = "-" if amount < 0 else "", f"{abs(amount):.{places}f}"
        if self.currency in SHOWN:
            return f"{sign}{SHOWN[self.currency]}{digits}"
        return f"{sign}{digits} {self.currency}".rstrip()


@dataclass(frozen=True, eq=False)
class Price(Money):
    """What a customer is asked for: Money that is rounded, and shown, up to the next smallest unit.

    Sums and differences with it are plain Money.
    """

    def rounded(self):
        """Up to the smallest unit, never down."""
        return Price(self._to_the_cent(ROUND_CEILING), self.currency)


numbers.Real.register(Money)  # so that approximate comparison, and whatever else asks for a number, takes it


def money(value, name="the price", at_least=0, above=None, unrounded=False):
    """Read an amount of money: int, float, Decimal, Money or text ("$4.50", "4,50 EUR", "1'250.50 CHF", "50 cents").

    A currency is a symbol, a word or a capital ISO 4217 code; "$" alone means USD. "12,000" and "1.200", which can be
    read two ways, are refused; `unrounded` takes three decimals behind a point for what they are, where a sum is typed
    as a calculator shows it, and so does a currency with thousandths.
    at_least, above: limits on the amount (at_least=None lets debts pass); name: for messages. Returns Money, unrounded.
    Raises StudentError for what is no amount, for two currencies and outside the limits.

    >>> str(money("4,50 EUR")), str(money("50 cents")), str(money("1'250.50 CHF"))
    ('€4.50', '0.50', '1250.50 CHF')
    """
    if isinstance(value, Money):
        result = value
    elif isinstance(value, str):
        result = _read(value, name, unrounded)
    else:
        result = Money(decimal_of(value, name, _EXAMPLE))
    if at_least is not None and result < at_least:
        raise StudentError(f"{result} for {name}", f"an amount of at least {at_least}", _EXAMPLE)
    if above is not None and not result > above:
        raise StudentError(f"{result} for {name}", f"an amount above {above}", _EXAMPLE)
    return result


def _read(text, name, unrounded):
    tidy = re.sub(r"\s+", " ", text.replace("−", "-")).strip()
    given = f"'{tidy[:40]}' for {name}"
    if not tidy:
        raise StudentError(f"nothing for {name}", "a price", _EXAMPLE)
    found = _PRICE.fullmatch(tidy) if len(tidy) <= 60 else None
    if not found or (found["sign"] and found["minus"]):
        raise StudentError(given, "one amount with its currency", _EXAMPLE)
    code, hundredths = _currency([found["before"].strip(), found["after"].strip()], given)
    digits = read_digits(found["digits"].strip(), given, "an amount", unrounded or PLACES.get(code) == 3)
    digits = digits.scaleb(-2) if hundredths else digits
    return Money(-digits if found["sign"] or found["minus"] else digits, code)


def _currency(marks, given):
    """(code, whether the amount is in hundredths) of the words and signs beside a number; "" where none is known."""
    codes = {SYMBOLS.get(mark, WORDS.get(mark.casefold(), mark)) for mark in marks if mark}
    hundredths = "¢" in codes
    codes -= {"¢"}
    unknown = codes - CURRENCIES
    if any("/" in mark or "per " in mark for mark in unknown):
        raise StudentError(
            given, "the price alone; the answer is then for the same unit", "$1.86 where each pound costs $1.86"
        )
    if unknown:
        raise StudentError(given, "a currency sign or its three-letter code in capitals", _EXAMPLE)
    if len(codes) > 1:
        raise StudentError(f"{given}, with two currencies", "one currency", _EXAMPLE)
    return (codes.pop() if codes else ""), hundredths


def decimal_of(value, name, example):
    """A finite Decimal of at most 10^12 from a number or Money; a float counts as the digits it prints.

    name, example: for messages. Raises StudentError for nothing, text, nan, infinities and what is larger.

    >>> str(decimal_of(0.1, "the price", "4.50"))
    '0.1'
    """
    if value is None:
        raise StudentError(f"nothing for {name}", "a number", example)
    if isinstance(value, Money):
        return value.amount
    if isinstance(value, Decimal):
        result = value
    elif isinstance(value, float):
        result = Decimal(str(value))
    elif isinstance(value, bool) or not isinstance(value, numbers.Real):
        raise StudentError(f"{str(value)[:40]} for {name}", "a plain number or text", example)
    elif isinstance(value, numbers.Rational):
        result = Decimal(int(value.numerator)) / Decimal(int(value.denominator))
    else:
        try:
            result = Decimal(str(value))
        except InvalidOperation:
            raise StudentError(f"{value} for {name}", "a plain number", example) from None
    if not result.is_finite():
        raise StudentError(f"{value} for {name}, not a number to reckon with", "a plain number", example)
    if abs(result) > _HUGE:
        raise StudentError(f"{result:.3g} for {name}", "an amount a kitchen can have", example)
    return result


def common_currency(*amounts):
    """The one currency of several Money, "" where none states one. Raises StudentError where two differ.

    >>> common_currency(money("$41.50"), money("3"))
    'USD'
    """
    found = sorted({amount.currency for amount in amounts if amount.currency})
    if len(found) > 1:
        raise StudentError(
            f"prices in {' and '.join(found)}", "one currency: change the others first", f"all prices in {found[0]}"
        )
    return found[0] if found else ""


def add(amounts):
    """The sum of an iterable of Money, unrounded; Money(0) for none. Raises StudentError for two currencies.

    >>> str(add([money("$41.50"), money("$0.25")]))
    '$41.75'
    """
    return sum(amounts, Money(Decimal(0)))
