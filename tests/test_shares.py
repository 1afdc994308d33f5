"""A share of a whole, as cooks type it; both sides of each limit, by plain arithmetic."""

from decimal import Decimal

import pytest

from pastrylab.ground.shares import share
from pastrylab.ground.units import Q, StudentError


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("75 %", "0.75"),
        ("75%", "0.75"),
        ("75 percent", "0.75"),
        ("75 per cent", "0.75"),
        (" 7,5 % ", "0.075"),
        ("0,75", "0.75"),
        ("0", "0"),
        ("1", "1"),
        ("100 %", "1"),
        (0.75, "0.75"),
        (1, "1"),
        (Decimal("0.75"), "0.75"),
        ("0.125 %", "0.00125"),
        ("1.125 %", "0.01125"),
    ],
)
def test_a_share_is_read_as_meant(typed, meant):
    assert share(typed) == Decimal(meant)


def test_quantities_are_shares_too():
    assert share(Q(75, "percent")) == Decimal("0.75")
    assert share(Q(0.75, "dimensionless")) == Decimal("0.75")
    assert share(Q(250, "percent"), at_most=None) == Decimal("2.5")
    assert share(Q(5, "dimensionless"), at_most=None) == 5
    with pytest.raises(StudentError, match="250 % for the share"):
        share(Q(250, "percent"))


@pytest.mark.parametrize(
    ("typed", "limits", "says"),
    [
        ("101 %", {}, "101 % for the share. Needed: a share at most 1 (100 %)"),
        ("-1 %", {}, "'-1 %' for the share"),
        (-0.01, {}, "a share at least 0"),
        (0, {"above": 0}, "a share above 0"),
        (1, {"below": 1}, "a share below 1"),
        (3, {"at_most": 2}, "a share at most 2."),
        ("40", {}, "40 for the share (for 40 % write 0.4 or 40 %)"),
        ("2", {}, "2 for the share (for 2 % write 0.02 or 2 %)"),
        ("100", {}, "100 for the share (for 100 % write 1 or 100 %)"),
        ("a third", {}, "'a third' for the share"),
        ("x" * 60, {}, "'" + "x" * 40 + "' for"),
        ("3 kg", {}, "a share from 0 to 1, or a percentage"),
        ("40", {"at_most": None}, "40 for the share, which can be read two ways. Needed: 40 %, or 4000 % for 40 times"),
        ("1.5", {"at_most": None}, "1.5 %, or 150 % for 1.5 times"),
        (11, {"at_most": None}, "two ways"),
    ],
)
def test_what_lies_beyond_a_limit_or_can_be_two_things_is_refused(typed, limits, says):
    with pytest.raises(StudentError) as error:
        share(typed, **limits)
    assert says in str(error.value)


@pytest.mark.parametrize("typed", ["1.9", 1.9, 101])
def test_no_slip_is_guessed_where_none_is_likely(typed):
    with pytest.raises(StudentError) as error:
        share(typed)
    assert "write" not in str(error.value)


def test_the_limits_themselves_are_allowed_where_the_words_say_so():
    assert share(0.01, above=0) == Decimal("0.01") and share(0.99, below=1) == Decimal("0.99")
    assert share(2, at_most=2) == 2 and share(0.2, at_least=Decimal("0.2")) == Decimal("0.2")
    assert share("1", at_most=None) == 1 and share(10, at_most=None) == 10
    assert share("150 %", at_most=None) == Decimal("1.5") and share(-0.5, at_least=None) == Decimal("-0.5")
    with pytest.raises(StudentError):
        share(0.19, at_least=Decimal("0.2"))


@pytest.mark.parametrize("limit", [0.1, 0.2, 0.3, 0.7, 0.15, 0.999, Decimal("0.2"), 1])
def test_a_limit_written_as_a_float_is_the_number_that_is_written(limit):
    typed = str(limit)
    for value in (typed, limit, f"{Decimal(typed) * 100} %"):
        assert share(value, at_least=limit) == share(value, at_most=limit) == Decimal(typed)
        for beyond in ("above", "below"):
            with pytest.raises(StudentError, match=f"a share {beyond} {typed}"):
                share(value, **{beyond: limit})
