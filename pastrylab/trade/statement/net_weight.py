"""The net weight a label may state: what is in the pack without its wrapping, rounded down and never up.

US: the statement may not be above the average of the packs, 21 CFR 101.7 and 16 CFR 500.25; ounces and grams both, 15 USC
1453; 28.3495 g to the ounce, grams in three digits and below 100 g in two, 16 CFR 500.19; decimals of the ounce at most
two, the Uniform Packaging and Labeling Regulation. EU: Directive 76/211/EEC, Annex I: not below the statement on
average, and no pack below it by more than twice the error of 2.4.
"""

import math
from dataclasses import dataclass

from pastrylab.ground.units import In, StudentError, takes
from pastrylab.trade.statement.packs import US, law_named

GRAMS_TO_THE_OUNCE = 28.3495
_OUNCES_TO_THE_POUND = 16
_MASS = In("g", above=0, example="152.4 g")
# Directive 76/211/EEC, Annex I, 2.4: (to this many grams, error in g, or as a share of what is stated).
_ERRORS = (
    (50, None, 0.09),
    (100, 4.5, None),
    (200, None, 0.045),
    (300, 9, None),
    (500, None, 0.03),
    (1000, 15, None),
    (10_000, None, 0.015),
)
_LEAST = 5  # g: below it the table does not begin


@dataclass(frozen=True)
class NetWeight:
    """What may be stated of a pack: whole `grams` and `ounces`, each rounded down, of the `lightest` pack in grams.

    >>> print(net_weight("152.4 g").text)
    Net Wt 5.3 oz (152 g)
    """

    law: str
    lightest: float
    grams: float
    ounces: float

    @property
    def text(self):
        """As it is printed: ounces and grams in the US, grams in the EU. From a pound on, pounds and ounces stand beside."""
        if self.law != US:
            return f"{self.grams:g} g"
        if self.ounces < _OUNCES_TO_THE_POUND:
            return f"Net Wt {self.ounces:g} oz ({self.grams:g} g)"
        pounds, rest = divmod(round(self.ounces * 10), _OUNCES_TO_THE_POUND * 10)
        both = f"{pounds} lb" + (f" {rest / 10:g} oz" if rest else "")
        return f"Net Wt {self.ounces:g} oz ({both}) {self.grams:g} g"

    @property
    def tolerable(self):
        """Grams by which single packs may lie below the statement in the EU, where enough others lie above; None below 5 g and
        above 10 kg."""
        for to, grams, share in _ERRORS:
            if _LEAST <= self.grams <= to:
                return grams if share is None else self.grams * share
        return None


@takes(tare=In("g", at_least=0, example="18 g"), error=In("g", at_least=0, example="0.1 g"))
def net_weight(weighed, tare="0 g", error="0 g", law=US):
    """The NetWeight of filled packs: by the lightest of them, less its wrapping and the error of the scale.

    weighed: the mass of one pack, or of several as a row, with what wraps them; tare: box, cups, paper and ribbon; error: of
    the scale. The law asks for the average: who goes by the lightest is on the careful side of it. Raises StudentError for
    no pack, and where nothing is left besides the wrapping.

    >>> net_weight(["170.2 g", "168.9 g", "171 g"], tare="18 g", law="EU").text
    '150 g'
    """
    law = law_named(law)
    packs = list(weighed) if isinstance(weighed, list | tuple) else [weighed]
    if not packs:
        raise StudentError("no pack on the scale", "the weight of one filled pack at least", "152.4 g")
    lightest = min(_MASS.floats("the weight of a pack", one) for one in packs) - tare - error
    return stated(lightest, law)


def stated(lightest, law=US):
    """The NetWeight of a pack that holds so many grams at the least. Raises StudentError where that is nothing.

    >>> stated(12.99).text
    'Net Wt 0.45 oz (12 g)'
    """
    if not lightest > 1e-6:
        raise StudentError(
            f"{lightest:.3g} g in the pack, once its wrapping is off",
            "a pack that weighs more than its wrapping and the error of the scale",
            "weigh an empty box again",
        )
    ounces = lightest / GRAMS_TO_THE_OUNCE
    return NetWeight(law_named(law), lightest, _down(lightest), _ounces(ounces))


def _ounces(ounces):
    """One decimal, and two below an ounce: the rule allows two and asks for no more."""
    return _floor(ounces, 2 if ounces < 1 else 1)


def _down(grams):
    """Three digits, two below 100 g; from 1 kg on that is tens of grams and more."""
    digits = 3 if grams >= 100 else 2
    return _floor(grams, digits - 1 - math.floor(math.log10(grams)))


def _floor(number, decimals):
    # A billionth below a step is arithmetic, not a lighter pack.
    return math.floor(round(number * 10.0**decimals, 7)) / 10.0**decimals
