"""Energy of a food by the factors of Regulation (EU) 1169/2011, Annex XIV, from what it is made of: an estimate.

Per gram: carbohydrate but polyols 17 kJ and 4 kcal, polyols 10 and 2.4, protein 17 and 4, fat 37 and 9, alcohol 29 and 7,
fibre 8 and 2; organic acids 13 and 3. What the table of ingredients calls "other" (acids, polyphenols, sugars nobody named)
counts from nothing to carbohydrate.
"""

from dataclasses import dataclass

from pastrylab.trade.composition import component_grams
from pastrylab.trade.formula import Formula

_CARBOHYDRATE = ("sucrose", "glucose", "fructose", "lactose", "maltose", "higher_saccharides", "starch")
# (kJ, kcal) in a gram
FACTORS = {
    **dict.fromkeys(_CARBOHYDRATE, (17, 4)),
    "polyols": (10, 2.4),
    "protein": (17, 4),
    "fat": (37, 9),
    "alcohol": (29, 7),
    "fibre": (8, 2),
}
_OTHER = (17, 4)  # at the most


@dataclass(frozen=True)
class Energy:
    """Energy in 100 g: kilojoules and kilocalories as (low, high), between which "other" leaves it open.

    >>> energy({"sugar": "99.8 g"}).kj[0] > 1600
    True
    """

    kj: tuple[float, float]
    kcal: tuple[float, float]

    def of(self, grams):
        """The Energy of so many grams.

        >>> one = Energy((2000.0, 2100.0), (480.0, 500.0)).of(10)
        >>> one.kj, one.kcal
        ((200.0, 210.0), (48.0, 50.0))
        """
        part = grams / 100
        return Energy(tuple(end * part for end in self.kj), tuple(end * part for end in self.kcal))

    @property
    def text(self):
        """Both, as an estimate: the ends where they differ by more than a hundredth."""
        return f"about {_both(self.kj)} kJ / {_both(self.kcal)} kcal"


def _both(ends):
    low, high = ends
    return f"{(low + high) / 2:.0f}" if high - low <= 0.01 * high else f"{low:.0f} to {high:.0f}"


def energy(formula):
    """The Energy in 100 g of a Formula or of {ingredient: mass}, as weighed in: what boils off makes it more by the gram.

    Raises StudentError as Formula does.

    >>> print(energy({"cocoa butter": "50 g"}).text)
    about 3700 kJ / 900 kcal
    """
    formula = formula if isinstance(formula, Formula) else Formula(formula)
    grams = component_grams(formula.grams)

    def in_100(which):
        known = sum(grams[name] * factors[which] for name, factors in FACTORS.items())
        open_to = max(grams["other"], 0.0) * _OTHER[which]
        return known * 100 / formula.total_grams, (known + open_to) * 100 / formula.total_grams

    return Energy(in_100(0), in_100(1))
