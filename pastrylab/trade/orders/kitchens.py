"""The kitchen an order is made in: its flavours and its lab, as the sheets have them, or as Larkmoor's worked examples do."""

from dataclasses import dataclass

from pastrylab.trade.orders.day import MACHINE, Pace, lab_of, stations_of
from pastrylab.trade.orders.flavours import Flavour, flavours
from pastrylab.trade.orders.quantities import quantities
from pastrylab.trade.orders.sheet import read_order
from pastrylab.trade.planning.steps import DAY, Lab

_PLACES = stations_of({"marble bench": 4, "window bench": 4, "island": 4})
_NIGHT, _CREAM = (720, 2160), (45, 180)  # minutes: a ganache in its shell, and before it is piped


@dataclass(frozen=True)
class Kitchen:
    """`flavours` by name, and the `lab` they are made in.

    >>> larkmoor().lab.teams
    8
    """

    flavours: dict[str, Flavour]
    lab: Lab

    def takes(self, order, rejects="0 %", **usual):
        """Quantities of an order in this kitchen. order: text, a line a flavour, or {flavour: pieces}; usual: as quantities.

        >>> larkmoor().takes("8 boxes of 12 dark", "10 %").flavours[0].fills
        5
        """
        wanted = read_order(order, self.flavours) if isinstance(order, str) else order
        return quantities(wanted, rejects, known=self.flavours, **usual)


def kitchen():
    """The Kitchen of the sheets in force: moulded.csv, bonbons.csv and lab.csv. Raises StudentError as they are read.

    >>> kitchen().flavours["dark ganache"].mould
    'square, 24'
    """
    return Kitchen(flavours(), lab_of())


def larkmoor():
    """The Kitchen that the worked examples and the stories of lesson 09 speak of, whatever stands in the sheets.

    All invented, Larkmoor Teaching Kitchen: grams for 96 pieces, minutes, moulds, two mornings.

    >>> list(larkmoor().flavours)
    ['dark ganache', 'raspberry ganache', 'hazelnut praline']
    """
    dark, milk = "dark couverture 64 %", "milk couverture 38 %"
    cream = {"heavy cream 36 %": 260, "invert sugar paste": 40, dark: 400, "butter 82 %": 70}
    fruit = {"raspberry puree": 230, "glucose syrup DE 42": 50, "granulated sugar": 40}
    fruit |= {"dark couverture 55 %": 380, "butter 82 %": 70}
    nuts = {"hazelnut praline 50 %": 470, milk: 190, "cocoa butter": 40, "hazelnuts roasted": 70}
    rows = (
        _piece("dark ganache", dark, cream, ("square, 24", 24, 11.5), (30, _CREAM, _NIGHT)),
        _piece("raspberry ganache", dark, fruit, ("dome, 28", 28, 11.5), (35, _CREAM, _NIGHT)),
        _piece("hazelnut praline", milk, nuts, ("dome, 28", 28, 12.0), (25, (15, 120), (120, 4320))),
    )
    mornings = tuple((day * DAY + 480, day * DAY + 750) for day in range(2))
    pace, things = Pace(), {"square, 24": 8, "dome, 28": 12}
    lab = Lab(8, mornings, {MACHINE: 2}, things, pace.cleaning, pace.allergen_cleaning, stations=_PLACES)
    return Kitchen({one.name: one for one in rows}, lab)


def _piece(name, couverture, filling, mould, minutes):
    grams = {ingredient: mass / 96 for ingredient, mass in filling.items()}
    return Flavour(name, couverture, 530 / 96 - 1.2, 1.2, grams, *mould, *minutes)
