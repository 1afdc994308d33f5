"""Money: exact decimals in one currency at a time, the grammar of prices, and line items that add up.

Money stays outside pint. Amounts are kept unrounded and rounded once, at the end (`rounded`, `rounded_up`).
"""

import numbers
import re
from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal, InvalidOperation
from fractions import Fraction

from pastrylab.units import StudentError

# ISO 4217: alphabetic codes, and the currencies whose smallest unit is not a hundredth.
CURRENCIES = frozenset(
    """AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BHD BIF BMD BND BOB BRL BSD BTN BWP BYN BZD
    CAD CDF CHF CLP CNY COP CRC CUP CVE CZK DJF DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD
    GNF GTQ GYD HKD HNL HTG HUF IDR ILS INR IQD IRR ISK JMD JOD JPY KES KGS KHR KMF KPW KRW KWD KYD KZT
    LAK LBP LKR LRD LSL LYD MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MYR MZN NAD NGN NIO NOK NPR
    NZD OMR PAB PEN PGK PHP PKR PLN PYG QAR RON RSD RUB RWF SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP
    STN SVC SYP SZL THB TJS TMT TND TOP TRY TTD TWD TZS UAH UGX USD UYU UZS VES VND VUV WST XAF XCD XOF
    XPF YER ZAR ZMW""".split()
)
_PLACES = dict.fromkeys("BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX VND VUV XAF XOF XPF".split(), 0)
_PLACES |= dict.fromkeys("BHD IQD JOD KWD LYD OMR TND".split(), 3)
_SYMBOLS = {
    "$": "USD",
    "US$": "USD",
    "€": "EUR",
    "£": "GBP",
    "C$": "CAD",
    "CA$": "CAD",
    "A$": "AUD",
    "AU$": "AUD",
}
_SYMBOLS |= {
    "NZ$": "NZD",
    "HK$": "HKD",
    "R$": "BRL",
    "₹": "INR",
    "₩": "KRW",
    "₺": "TRY",
    "₪": "ILS",
    "zł": "PLN",
}
_SHOWN = {"USD": "$", "EUR": "€", "GBP": "£"}

_PRICE = re.compile(
    r"(?P<sign>-?) ?(?P<before>[^\d\s.,'-]*) ?(?P<minus>-?)(?P<digits>[\d.,' ]*\d[.,]?) ?(?P<after>\D*)",
    re.ASCII,
)
_PLAIN = re.compile(r"\d*[.,]?\d*")
_GROUPED = re.compile(r"\d{1,3}(?:(?:,\d{3})+(?:\.\d*)?|(?:\.\d{3})+(?:,\d*)?|(?:[ ']\d{3})+(?:[.,]\d*)?)")
_EXAMPLE = "$4.50, 4,50 EUR or 12 GBP"
_HUGE = Decimal(10) ** 12


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
        return _PLACES.get(self.currency, 2)

    def rounded(self):
        """To the smallest unit, halves away from zero."""
        return Money(self.amount.quantize(Decimal(1).scaleb(-self.places), ROUND_HALF_UP), self.currency)

    def rounded_up(self):
        """Up to the smallest unit: the cautious way to round a cost."""
        return Money(self.amount.quantize(Decimal(1).scaleb(-self.places), ROUND_CEILING), self.currency)

    def _other(self, other):
        """(amount of other, common currency), or None where other is no number."""
        if isinstance(other, Money):
            return other.amount, common_currency(self, other)
        if isinstance(other, bool) or not isinstance(other, (numbers.Real, Decimal)):
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

    def __pos__(self):
        return self

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
        if isinstance(other, (float, Decimal)) and other != other:
            return False
        if isinstance(other, float) and other in (float("inf"), float("-inf")):
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
        shown = self.rounded()
        sign = "-" if shown.amount < 0 else ""
        digits = f"{abs(shown.amount):.{self.places}f}"
        if self.currency in _SHOWN:
            return f"{sign}{_SHOWN[self.currency]}{digits}"
        return f"{sign}{digits} {self.currency}".rstrip()


numbers.Real.register(Money)


def money(value, name="the price", at_least=0, above=None):
    """Read an amount of money: int, float, Decimal, Money or text ("$4.50", "4,50 EUR", "1'250.50 CHF").

    A currency is a symbol or a capital ISO 4217 code; "$" alone means USD. "12,000", which can be read two
    ways, is refused.
    at_least, above: limits on the amount (at_least=None lets debts pass). Returns Money. Raises StudentError.
    """
    if isinstance(value, Money):
        result = value
    elif isinstance(value, str):
        result = _read(value, name)
    else:
        result = Money(decimal_of(value, name, _EXAMPLE))
    if at_least is not None and result < at_least:
        raise StudentError(f"{result} for {name}", f"an amount of at least {at_least}", _EXAMPLE)
    if above is not None and not result > above:
        raise StudentError(f"{result} for {name}", f"an amount above {above}", _EXAMPLE)
    return result


def _read(text, name):
    tidy = re.sub(r"\s+", " ", text.replace("−", "-")).strip()
    given = f"'{tidy[:40]}' for {name}"
    if not tidy:
        raise StudentError(f"nothing for {name}", "a price", _EXAMPLE)
    found = _PRICE.fullmatch(tidy) if len(tidy) <= 60 else None
    if not found or (found["sign"] and found["minus"]):
        raise StudentError(given, "one amount with its currency", _EXAMPLE)
    marks = [mark.strip() for mark in (found["before"], found["after"]) if mark.strip()]
    codes = {_SYMBOLS.get(mark, mark) for mark in marks}
    unknown = [mark for mark in codes if mark not in CURRENCIES]
    if any("/" in mark or "per " in mark for mark in unknown):
        raise StudentError(
            given,
            "the price alone; the answer is then for the same unit",
            "$1.86 where each pound costs $1.86",
        )
    if unknown:
        raise StudentError(given, "a currency sign or its three-letter code in capitals", _EXAMPLE)
    if len(codes) > 1:
        raise StudentError(f"{given}, with two currencies", "one currency", _EXAMPLE)
    digits = _read_digits(found["digits"].strip(), given, "an amount")
    return Money(-digits if found["sign"] or found["minus"] else digits, *codes)


def _read_digits(digits, given, needed):
    if re.fullmatch(r"[1-9]\d{0,2},\d{3}", digits):
        bare = digits.replace(",", "")
        raise StudentError(f"{given}, which can be read two ways", f"{bare} or {digits.replace(',', '.')}", bare)
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


def decimal_of(value, name, example):
    """A finite Decimal of at most 10^12 from a number; a float counts as the digits it prints."""
    if value is None:
        raise StudentError(f"nothing for {name}", "a number", example)
    if isinstance(value, Money):
        return value.amount
    if isinstance(value, Decimal):
        result = value
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


def share(value, name="the share", at_least=0, above=None, at_most=1, below=None, example="0.75 or 75 %"):
    """A share of the whole as a Decimal: 0.75, Decimal("0.75"), "75 %" or "0,75". Raises StudentError."""
    if hasattr(value, "dimensionless") and value.dimensionless:
        value = float(value.to("").magnitude)
    if isinstance(value, str):
        tidy = re.sub(r"\s+", " ", value).strip()
        found = re.fullmatch(r"([\d.,]*\d[.,]?) ?(%|percent|per cent)?", tidy, re.ASCII)
        if not found:
            raise StudentError(f"'{tidy[:40]}' for {name}", "a share from 0 to 1, or a percentage", example)
        result = _read_digits(found[1], f"'{tidy[:40]}' for {name}", "a share")
        result = result / 100 if found[2] else result
    else:
        result = decimal_of(value, name, example)
    plain = not (isinstance(value, str) and found[2])
    limits = [
        (at_least is None or result >= at_least, f"at least {at_least}"),
        (above is None or result > above, f"above {above}"),
        (
            at_most is None or result <= at_most,
            f"at most {at_most} (100 %)" if at_most == 1 else f"at most {at_most}",
        ),
        (below is None or result < below, f"below {below}"),
    ]
    for kept, words in limits:
        if not kept:
            percent = plain and 2 <= result <= 100
            slip = f" (for {result.normalize():f} % write {(result / 100).normalize():f})" if percent else ""
            raise StudentError(f"{result.normalize():f} for {name}{slip}", f"a share {words}", example)
    return result


def common_currency(*amounts):
    """The one currency of several Money, "" where none states one. Raises StudentError where two differ."""
    found = sorted({amount.currency for amount in amounts if amount.currency})
    if len(found) > 1:
        raise StudentError(
            f"amounts in {' and '.join(found)}", "one currency at a time: convert first", f"all in {found[0]}"
        )
    return found[0] if found else ""


def add(amounts):
    """The sum of Money, Money(0) for none."""
    return sum(amounts, Money(Decimal(0)))


def share_out(parts):
    """Line items rounded to the smallest unit so that they add up to their rounded total (largest remainder).

    parts: dict of label to Money, unrounded. Returns a dict in the same order; each item is within one
    smallest unit of its exact value. Ties go to the earlier line. Raises StudentError for two currencies.
    """
    currency = common_currency(*parts.values())
    total = Money(add(parts.values()).amount, currency).rounded()
    return dict(zip(parts, _largest_remainder(total, [Fraction(p.amount) for p in parts.values()]), strict=True))


def _largest_remainder(total, exact):
    per_unit = 10**total.places
    floors = [int(amount * per_unit // 1) for amount in exact]
    left = int(Fraction(total.amount) * per_unit) - sum(floors)
    order = sorted(range(len(exact)), key=lambda i: floors[i] - exact[i] * per_unit)
    for i in order[:left]:
        floors[i] += 1
    return [Money(Decimal(units).scaleb(-total.places), total.currency) for units in floors]
