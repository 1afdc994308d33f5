"""Money as people write it, as a number beside other numbers, and shared out to the cent."""

import math
from decimal import Decimal
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pastrylab.ground.currencies import CURRENCIES
from pastrylab.ground.money import Money, Price, add, money
from pastrylab.ground.share_out import share_out
from pastrylab.ground.shares import share
from pastrylab.ground.units import StudentError

amounts = st.decimals(-10_000, 10_000, places=4)


@pytest.mark.parametrize(
    ("text", "amount", "currency"),
    [
        ("$4.50", "4.50", "USD"),
        ("$ 4", "4", "USD"),
        ("US$ 5", "5", "USD"),
        ("4,50 EUR", "4.50", "EUR"),
        ("€4,50", "4.50", "EUR"),
        ("12 GBP", "12", "GBP"),
        ("12GBP", "12", "GBP"),
        ("1'250.50 CHF", "1250.50", "CHF"),
        ("1,250.50", "1250.50", ""),
        ("usd 10.40", "10.40", "USD"),
        ("10,40 eur", "10.40", "EUR"),
        ("Usd 4", "4", "USD"),
        ("1.250,50 €", "1250.50", "EUR"),
        ("1\u00a0250,50 PLN", "1250.50", "PLN"),
        ("1,250,000 JPY", "1250000", "JPY"),
        ("0,125", "0.125", ""),
        (" .5 ", "0.5", ""),
        ("0.333 USD", "0.333", "USD"),
        ("1.2500", "1.25", ""),
        ("1.250 KWD", "1.250", "KWD"),
        ("10.40 dollars", "10.40", "USD"),
        ("10,40 Euro", "10.40", "EUR"),
        ("50 cents", "0.5", ""),
        ("85¢", "0.85", ""),
    ],
)
def test_prices_as_people_write_them(text, amount, currency):
    read = money(text)
    assert (read.amount, read.currency) == (Decimal(amount), currency)


@pytest.mark.parametrize(
    "bad",
    [
        *(
            "",
            "  ",
            "$",
            "abc",
            "nan",
            "1e5",
            "--3",
            "$5 EUR",
            "4.50 cup",
            "4.50 all",
            "5 lb",
            "$1.86/lb",
            "4.50 USD per kg",
        ),
        *(
            "12,000",
            "1.200 EUR",
            "12.345 JPY",
            "12,345 JPY",
            "1,250 KWD",
            "1,25,000",
            "1.2.3",
            "4 50",
            "$4-5",
            "4½",
            "¥5",
            "9" * 70,
            "9**9**9",
            "$" * 50,
            "-$3",
            "-3",
        ),
        *(
            None,
            True,
            float("nan"),
            float("inf"),
            Decimal("sNaN"),
            Decimal("Infinity"),
            -1,
            1e300,
            [1],
            {},
            2j,
        ),
    ],
)
def test_what_is_no_price_is_refused(bad):
    with pytest.raises(StudentError):
        money(bad)


@given(amounts, st.sampled_from(["", "USD", "EUR", "GBP", "CHF", "JPY", "KWD"]))
def test_what_is_shown_is_read_back(amount, currency):
    exact = Money(amount, currency)
    again = money(str(exact), at_least=None)
    assert again == exact.rounded()
    # A zero keeps its currency but loses its sign.
    assert again.currency == currency


@given(st.text(max_size=80))
def test_any_text_is_read_or_refused(text):
    try:
        assert math.isfinite(money(text))
    except StudentError as refused:
        assert "Needed:" in str(refused)


def test_money_behaves_as_a_number():
    price = money("$2.48")
    assert float(price) == 2.48
    assert price == 2.48 and price == Decimal("2.48") and price == np.float64(2.48) and price == money("2.48")
    assert pytest.approx(2.48) == price
    assert abs(price - 2.4) < 0.1 and abs(2.4 - price) < 0.1 and abs(np.float64(2.4) - price) < 0.1
    assert 2 < price <= 2.48 < price + 1 and max(price, 2) is price
    assert round(price, 1) == 2.5 and round(price) == 2 and int(price) == 2 and bool(price) and -price < 0
    assert f"{price:.1f}" == "2.5" and f"{price}" == "$2.48"
    assert price / money("$0.62") == 4 and isinstance(price / money("$0.62"), Decimal)
    assert price * 2 == 2 * price == price + price == sum([price, price])
    assert price != float("nan") and price != float("inf") and price != "2.48" and price != money("2.48 EUR")
    with pytest.raises(TypeError):
        hash(price)
    with pytest.raises(TypeError):
        price * price
    with pytest.raises(StudentError, match="zero"):
        price / 0


@pytest.mark.parametrize("mix", [lambda a, b: a + b, lambda a, b: a - b, lambda a, b: a < b, lambda a, b: a / b])
def test_two_currencies_do_not_mix(mix):
    with pytest.raises(StudentError, match="EUR and USD"):
        mix(money("$1"), money("1 EUR"))


def test_an_amount_that_can_be_read_two_ways_is_asked_about_in_both():
    for text in ("1.200 EUR", "1,200 EUR"):
        with pytest.raises(StudentError, match=r"two ways. Needed: 1200 or 1\.20\."):
            money(text)
    # Typed as a calculator shows it, three decimals are decimals; a comma stays open.
    assert money("11.143", unrounded=True) == Decimal("11.143")
    with pytest.raises(StudentError, match="two ways"):
        money("11,143", unrounded=True)


@pytest.mark.parametrize(
    ("exact", "currency", "cost", "price"),
    [
        # 7.80 / 0.7 = 11.142857...: the cost of something is 11.14, a price of it 11.15.
        (Decimal("7.80") / Decimal("0.7"), "USD", "$11.14", "$11.15"),
        (Decimal("4.3721"), "USD", "$4.37", "$4.38"),
        (Decimal("4.375"), "USD", "$4.38", "$4.38"),
        (Decimal("14"), "USD", "$14.00", "$14.00"),
        (Decimal("14.0001"), "USD", "$14.00", "$14.01"),
        # Three thirds and three sevenths: what is left of a division is no cent.
        (Decimal(9) / 7 * 7, "USD", "$9.00", "$9.00"),
        (Decimal("9.0000000000000000000000001"), "USD", "$9.00", "$9.00"),
        (Decimal("1200.2"), "JPY", "1200 JPY", "1201 JPY"),
        (Decimal("1.2001"), "KWD", "1.200 KWD", "1.201 KWD"),
    ],
)
def test_a_cost_goes_to_the_nearest_cent_and_a_price_up(exact, currency, cost, price):
    assert (str(Money(exact, currency)), str(Price(exact, currency))) == (cost, price)
    assert Price(exact, currency).rounded() == money(price)
    # What is reckoned on with stays unrounded, and is no price any more.
    assert str(Price(exact, currency) + 0) == cost


def test_rounding_is_in_the_smallest_unit():
    assert str(Money(Decimal("2.005"), "USD").rounded()) == "$2.01"
    assert str(Money(Decimal("2.5"), "JPY")) == "3 JPY"
    assert str(Money(Decimal("-2.5"), "GBP")) == "-£2.50"


def test_a_currency_has_a_known_code():
    assert {"USD", "EUR", "GBP", "JPY"} < CURRENCIES
    assert all(len(code) == 3 and code.isupper() for code in CURRENCIES)
    with pytest.raises(StudentError, match="ISO 4217"):
        Money(1, "ABC")


@given(st.lists(amounts, min_size=1, max_size=20))
def test_parts_sum_to_the_whole(parts):
    exact = {str(n): Money(part, "USD") for n, part in enumerate(parts)}
    lines = share_out(exact)
    assert add(lines.values()) == Money(sum(parts), "USD").rounded()
    for label, line in lines.items():
        assert abs(line - exact[label]) < Decimal("0.01")
        assert exact[label].amount % Decimal("0.01") or line == exact[label]


@pytest.mark.parametrize(
    ("given_share", "exact"),
    [
        (0.75, "0.75"),
        ("75 %", "0.75"),
        ("0,75", "0.75"),
        ("33.3%", "0.333"),
        (Decimal("0.1"), "0.1"),
        (1, "1"),
    ],
)
def test_shares_stay_exact(given_share, exact):
    assert share(given_share) == Decimal(exact)


@pytest.mark.parametrize("bad", ["", "abc", "-5 %", "110 %", 1.1, -0.1, None, float("nan"), "7/8", "1,000", True])
def test_what_is_no_share_is_refused(bad):
    with pytest.raises(StudentError):
        share(bad)


@given(st.lists(st.decimals(0, 500, places=4), min_size=1, max_size=8))
def test_parts_sum_to_the_whole_beside_a_line_from_another_table(parts):
    exact = {str(n): Money(part, "USD") for n, part in enumerate(parts)}
    lines = share_out(exact, carried="0")
    assert list(lines) == list(exact)
    assert lines["0"] == exact["0"].rounded()
    assert add(lines.values()) == Money(sum(parts), "USD").rounded()
    for label, line in lines.items():
        assert abs(line - exact[label]) < Decimal("0.01")
        assert exact[label].amount % Decimal("0.01") or line == exact[label]


@pytest.mark.parametrize(
    ("given_share", "said"),
    [("40", "40 %, or 4000 %"), ("1.5", "1.5 %, or 150 %"), (40, "40 %, or 4000 %"), (12.5, "12.5 %, or 1250 %")],
)
def test_a_bare_share_above_the_whole_is_asked_about(given_share, said):
    with pytest.raises(StudentError, match=said):
        share(given_share, "the markup", at_most=None)


@pytest.mark.parametrize(
    ("given_share", "exact"), [("40 %", "0.4"), ("400 %", "4"), (4, "4"), ("0.4", "0.4"), ("1", "1")]
)
def test_a_share_above_the_whole_is_read_where_it_is_clear(given_share, exact):
    assert share(given_share, "the markup", at_most=None) == Decimal(exact)


def test_sixty_signs_are_the_longest_price():
    assert money("0" * 56 + "4.50") == Decimal("4.50")
    with pytest.raises(StudentError, match="one amount with its currency"):
        money("0" * 57 + "4.50")


def test_limits_of_an_amount_on_both_sides():
    assert money("3", at_least=3) == 3 and money("3.01", above=3) == Decimal("3.01") and money(0) == 0
    for typed, limits, needed in (
        ("2.99", {"at_least": 3}, "an amount of at least 3"),
        ("3", {"above": 3}, "an amount above 3"),
        (-0.01, {}, "an amount of at least 0"),
    ):
        with pytest.raises(StudentError) as error:
            money(typed, **limits)
        assert error.value.needed == needed
    assert money(10**12) == 10**12 and money(-5, at_least=None) == -5
    with pytest.raises(StudentError, match=r"1\.00e\+12 for the price"):
        money(10**12 + 1)


@pytest.mark.parametrize("typed", ["$2/lb", "2 per lb", "$2 per lb", "eur 2 per lb"])
def test_a_price_of_something_else_is_asked_for_alone(typed):
    with pytest.raises(StudentError, match="the price alone"):
        money(typed)


def test_comparing_at_the_same_amount():
    two = money("$2")
    for same in (two, 2, Decimal(2), 2.0):
        assert two <= same and two >= same and not two < same and not two > same
        assert same <= two and same >= two
    assert two < 3 and two > 1 and not two <= 1 and not two >= 3
    assert not bool(money(0)) and bool(money("0.01")) and int(money("2.90")) == 2
    assert round(Money(Decimal("2.5"))) == 3 and round(Money(Decimal("2.45")), 1) == Decimal("2.5")
    assert 5 - two == 3 and two - 5 == -3 and abs(two - 5) == 3 and (two + 1) * 2 == 6 and two / 4 == Decimal("0.5")
    with pytest.raises(TypeError):
        two + True


@pytest.mark.parametrize(
    ("amount", "currency", "text"),
    [
        ("10.83333", "USD", "$10.8333"),
        ("10.8300", "USD", "$10.83"),
        ("10.83004", "USD", "$10.83"),
        ("10.83005", "USD", "$10.8301"),
        ("1.5", "JPY", "1.50 JPY"),
        ("2", "JPY", "2 JPY"),
        ("1.23456", "KWD", "1.23456 KWD"),
        ("-0.005", "GBP", "-£0.0050"),
    ],
)
def test_as_it_stands_in_a_sum(amount, currency, text):
    """Two decimals more than the currency has, where there is an odd part of its smallest unit."""
    assert Money(Decimal(amount), currency).in_full() == text


def test_a_fraction_and_an_odd_cent():
    assert Money(Fraction(1, 4)) == Decimal("0.25")
    # 0.5, 0.3 and 0.2 of a cent are a cent: the largest remainder has it. Of three equal ones, the first.
    lines = share_out(
        {name: Money(Decimal(part), "USD") for name, part in (("a", "0.003"), ("b", "0.005"), ("c", "0.002"))}
    )
    assert [str(line) for line in lines.values()] == ["$0.00", "$0.01", "$0.00"]
    lines = share_out({name: Money(Decimal("1.005"), "USD") for name in "abcd"})
    assert [str(line) for line in lines.values()] == ["$1.01", "$1.01", "$1.00", "$1.00"]
