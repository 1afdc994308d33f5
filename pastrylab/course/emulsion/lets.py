"""What several exercises of lesson 03 give besides their values: the ingredients by name, and a share as a page shows it."""

from pastrylab.ground.units import Q
from pastrylab.trade.pantry import ingredient_name, ingredients

DARK = "dark couverture 64 %"
CREAM, BUTTER, PUREE = "heavy cream 36 %", "butter unsalted", "raspberry puree"
SYRUP, SKIM = "invert syrup", "skim milk"


def percent(share):
    """A share of 1 as a percentage (a quantity) to the tenth, as a page shows it.

    >>> f"{percent(0.22784).magnitude:g} %"
    '22.8 %'
    """
    return Q(round(100 * float(share), 1), "percent")


def percent_of(ingredient, component):
    """How much of an ingredient is water, fat or another column of ingredients.csv: a percentage, as `percent` gives it.

    >>> f"{percent_of(CREAM, 'fat').magnitude:g} %"
    '36.1 %'
    """
    return percent(ingredients()[ingredient_name(ingredient)][component])
