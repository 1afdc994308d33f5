"""The kitchen's bonbons and money: added up by hand from the packaged tables."""

from decimal import Decimal

import pytest

from pastrylab.ground.units import StudentError
from pastrylab.trade.costing.kitchen import bonbon_formula, bonbon_names, cash, kitchen_currency


def test_a_bonbon_is_its_shell_and_its_filling():
    # bonbons.csv: 530 g of couverture in shell and cap, 400 g in the filling.
    formula, pieces = bonbon_formula("dark ganache")
    assert pieces == 96
    assert {name: mass.m_as("g") for name, mass in formula.items()} == {
        "dark couverture 64 %": 930,
        "heavy cream 36 %": 260,
        "invert sugar paste": 40,
        "butter 82 %": 70,
    }
    assert bonbon_names()[:2] == ["dark ganache", "raspberry ganache"]


def test_a_bonbon_nobody_makes_is_refused_with_those_there_are():
    with pytest.raises(StudentError, match="raspberry ganache"):
        bonbon_formula("unicorn")


@pytest.mark.parametrize(("number", "amount"), [(12, "12"), (7.2, "7.2"), (0.1 + 0.2, "0.3"), (1 / 3, "0.333333")])
def test_a_plain_number_is_money_of_the_price_list(number, amount):
    assert cash(number).amount == Decimal(amount)
    # prices.csv is in US dollars.
    assert cash(number).currency == kitchen_currency() == "USD"
