"""What the kitchen costs: the bonbons of bonbons.csv, and plain numbers as money of the price list."""

from pastrylab.ground import datasets, own
from pastrylab.ground.money import Money, decimal_of
from pastrylab.ground.units import Quantity, StudentError


def cash(number):
    """A plain number as Money in the currency of the price list, to the millionth.

    number: a finite plain number. Raises StudentError for what is none.

    >>> str(cash(12).amount), str(cash(0.1 + 0.2).amount)
    ('12', '0.3')
    """
    return Money(decimal_of(round(number, 6), "an amount", "4.50"), kitchen_currency())


def kitchen_currency():
    """The currency of the price list: its code, a text. Raises StudentError for a list without a row.

    >>> kitchen_currency()
    'USD'
    """
    rows = datasets.prices()
    if not len(rows):
        raise StudentError(
            "prices.csv, which has no row that can be used",
            "a row for each pack you buy",
            "the one that came with the package",
        )
    return rows["currency"][0]


def prices_left_out():
    """The reader's own prices that no card uses, a StudentError each: in another currency, or with cells at fault.

    >>> prices_left_out()
    ()
    """
    return own.price_rows(kitchen_currency())[1]


def bonbon_names():
    """The bonbons of bonbons.csv, a list in their order.

    >>> bonbon_names()[0]
    'dark ganache'
    """
    return list(dict.fromkeys(datasets.bonbons()["bonbon"]))


def bonbon_formula(name):
    """(formula, pieces): {ingredient: mass} of a bonbon of bonbons.csv, shell and filling together, and its batch.

    name: as bonbon_names gives it. An ingredient of shell and filling is added up. Raises StudentError for another name.

    >>> formula, pieces = bonbon_formula("dark ganache")
    >>> f"{formula['dark couverture 64 %'].m_as('g'):.0f} g for {pieces}"
    '930 g for 96'
    """
    rows, grams = datasets.bonbons().where(bonbon=name), {}
    if not len(rows):
        raise StudentError(f"a bonbon called '{str(name)[:40]}'", "one of " + ", ".join(bonbon_names()), "dark ganache")
    for row in rows:
        grams[row["ingredient"]] = grams.get(row["ingredient"], 0.0) + row["grams"]
    return {ingredient: Quantity(mass, "g") for ingredient, mass in grams.items()}, int(rows["pieces"][0])
