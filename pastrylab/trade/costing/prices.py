"""From a cost to a price, from a price to what is left of it, and the sales at which the fixed costs are paid.

Definitions as in HMD 329, Pennsylvania State University, ch. 7: food-cost percent = food cost / price; margin =
(price - cost) / price; markup = (price - cost) / cost; contribution = price - variable cost. A price is unrounded and
goes up to the next cent where it is shown: `money`.
"""

from fractions import Fraction

from pastrylab.ground.money import Price, common_currency, money
from pastrylab.ground.shares import share
from pastrylab.ground.units import StudentError


def _price(amount):
    return Price(amount.amount, amount.currency)


def price_for(cost, food_cost_share):
    """Price (unrounded; shown up to the cent) at which the food cost is the given share of it: cost / share.

    cost: number, Decimal, Money or text, at least 0; food_cost_share: above 0 to 1, or "30 %".
    Raises StudentError.

    >>> print(price_for("$1.05", "30 %"))
    $3.50
    """
    part = share(food_cost_share, "the food-cost share", above=0, at_least=None)
    return _price(money(cost, "the food cost") / part)


def food_cost_allowed(price, food_cost_share):
    """What the food may cost (Money) under a given price: price x share.

    price: number, Decimal, Money or text, at least 0; food_cost_share: 0 to 1, or "30 %". Raises StudentError.

    >>> print(food_cost_allowed("$9", "30 %"))
    $2.70
    """
    return money(price) * share(food_cost_share, "the food-cost share")


def food_cost_share(cost, price):
    """Food cost as a share (float) of the price; above 1 where it is sold at a loss.

    cost: at least 0; price: above 0; in one currency. Raises StudentError.

    >>> food_cost_share("$2.70", "$9")
    0.3
    """
    return float(money(cost, "the food cost") / money(price, above=0))


def price_by_margin(cost, margin):
    """Price (unrounded) that leaves a margin: cost / (1 - margin).

    cost: at least 0; margin: a share of the price, from 0 to below 1. Raises StudentError.

    >>> print(price_by_margin("$3", "40 %"))
    $5.00
    """
    return _price(money(cost, "the cost") / (1 - share(margin, "the margin", at_most=None, below=1)))


def price_by_markup(cost, markup):
    """Price (unrounded) with a markup on top: cost x (1 + markup).

    cost: at least 0; markup: a share of the cost, at least 0; "150 %" may exceed 1. Raises StudentError.

    >>> print(price_by_markup("$5", "30 %"))
    $6.50
    """
    return _price(money(cost, "the cost") * (1 + share(markup, "the markup", at_most=None)))


def discounted(price, off):
    """Price (unrounded) after a discount: price x (1 - off).

    price: at least 0; off: a share of the price, from 0 to 1. Raises StudentError.

    >>> print(discounted("$20", "15 %"))
    $17.00
    """
    return _price(money(price) * (1 - share(off, "the discount")))


def margin_of(cost, price):
    """(price - cost) / price as a float; negative where it is sold at a loss.

    cost: at least 0; price: above 0; in one currency. Raises StudentError.

    >>> f"{margin_of('$5', '$6.50'):.1%}"
    '23.1%'
    """
    return float(1 - money(cost, "the cost") / money(price, above=0))


def margin_to_markup(margin):
    """The markup (float, a share of the cost) that leaves a margin: m / (1 - m).

    margin: a share of the price, from 0 to below 1. Raises StudentError.

    >>> margin_to_markup("50 %")
    1.0
    """
    part = share(margin, "the margin", at_most=None, below=1)
    return float(part / (1 - part))


def markup_to_margin(markup):
    """The margin (float, a share of the price) that a markup leaves: k / (1 + k).

    markup: a share of the cost, at least 0. Raises StudentError.

    >>> f"{markup_to_margin('30 %'):.1%}"
    '23.1%'
    """
    part = share(markup, "the markup", at_most=None)
    return float(part / (1 + part))


def contribution(price, variable):
    """What one sale gives towards the fixed costs (Money): price - variable cost, negative at a loss.

    price, variable: at least 0, in one currency. Raises StudentError.

    >>> print(contribution("$6", "$4"))
    $2.00
    """
    return money(price) - money(variable, "the variable cost")


def _contribution_above_zero(price, variable):
    gained = contribution(price, variable)
    if gained <= 0:
        raise StudentError(
            f"a price of {money(price)} and a variable cost of {money(variable)}, which never break even",
            "a price above what one more costs to make",
            "price 6, variable 4",
        )
    return gained


def break_even(fixed, price, variable):
    """Pieces to sell (int, rounded up) until contributions pay the fixed costs: fixed / (price - variable).

    All in one currency: numbers, Decimal, Money or text. Raises StudentError where price <= variable.

    >>> break_even("$12000", "$6", "$4")
    6000
    """
    gained, owed = _contribution_above_zero(price, variable), money(fixed, "the fixed costs")
    common_currency(owed, gained)
    # Rounded far below a piece, so that a price of a third does not ask for one more than it must.
    return -int(-round(Fraction(owed.amount) / Fraction(gained.amount), 15) // 1)
