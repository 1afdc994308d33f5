"""What a formula is made of, by mass balance: each component's mass is the sum over the parts of mass times share.

The shares of the parts come from ingredients.csv, each with its source. Nothing boils off and nothing reacts here.
"""

import math
from dataclasses import dataclass

import numpy as np

from pastrylab.ground.datasets import COMPONENTS, PARTS_OF_FAT
from pastrylab.ground.units import Quantity, StudentError
from pastrylab.trade.pantry import ingredient_names, ingredients

SUGARS = ("sucrose", "glucose", "fructose", "lactose", "maltose")

_COLUMNS = COMPONENTS + PARTS_OF_FAT
_ROWS = {}


def _shares_by_name():
    """{ingredient: its shares as an array in the order of _COLUMNS}, made again when the table has changed."""
    table = ingredients()
    if _ROWS.get("table") is not table:
        rows = {name: np.array([shares[column] for column in _COLUMNS]) for name, shares in table.items()}
        _ROWS.update(table=table, rows=rows)
    return _ROWS["rows"]


def component_grams(grams):
    """{component: g}, milk fat and cocoa butter included, for {name in ingredients.csv: g}; plain floats.

    >>> f"{component_grams({'heavy cream 36 %': 100.0})['fat']:.1f} g"
    '36.1 g'
    """
    rows = _shares_by_name()
    made = sum(mass * rows[name] for name, mass in grams.items())
    return dict(zip(_COLUMNS, made.tolist(), strict=True))


def compositions(names, grams):
    """Shares of many formulas of the same ingredients at once, in one product.

    names: n ingredients. grams: array (formulas, n) of plain floats. Returns {component: array (formulas)}, shares
    0 to 1, milk fat and cocoa butter included. Raises StudentError for an unknown ingredient or masses that do not
    fit.

    >>> compositions(["water", "granulated sugar"], [[50.0, 50.0], [10.0, 30.0]])["sucrose"].round(2).tolist()
    [0.5, 0.75]
    """
    grams = np.asarray(grams, dtype=float)
    names = ingredient_names(names)
    if grams.ndim != 2 or grams.shape[1] != len(names) or not np.isfinite(grams).all() or (grams < 0).any():
        raise StudentError(
            f"masses of the shape {grams.shape}",
            f"one row a formula, {len(names)} masses of 0 g or more",
            "300 g and 150 g",
        )
    totals = grams.sum(axis=1)
    if (totals <= 0).any():
        raise StudentError("a formula that weighs nothing", "masses above 0 g", "300 g and 150 g")
    rows = _shares_by_name()
    shares = grams @ np.array([rows[name] for name in names]) / totals[:, None]
    return dict(zip(_COLUMNS, shares.T, strict=True))


_SUBTOTALS = {
    "sugars": SUGARS,
    "solids": tuple(c for c in COMPONENTS if c not in ("water", "alcohol")),
}


@dataclass(frozen=True)
class Composition:
    """What a formula is made of. `c["water"]` is a share of the whole, 0 to 1; `c.mass("water")` is a mass.

    Iterating gives the components that add up to the whole. Answered as well: "milk_fat" and "cocoa_butter"
    (parts of the fat), "sugars" (sucrose, glucose, fructose, lactose, maltose; no longer chains), "solids"
    (all but water and alcohol). `grams` holds plain numbers in g. Raises StudentError for an unknown
    component.

    >>> from pastrylab import Formula, show
    >>> made = Formula({"heavy cream": "200 g"}).composition()
    >>> f"{made['fat']:.1%}, {show(made.mass('fat'))}"
    '36.1%, 72.16 g'
    """

    grams: dict
    total_grams: float

    def _of(self, component):
        if component in _SUBTOTALS:
            return math.fsum(self.grams[c] for c in _SUBTOTALS[component])
        if component not in self.grams:
            known = ", ".join([*self.grams, *_SUBTOTALS])
            raise StudentError(f"{component!r} as a component", f"one of {known}", "water")
        return self.grams[component]

    def __getitem__(self, component):
        return self._of(component) / self.total_grams

    def __iter__(self):
        return iter(COMPONENTS)

    def mass(self, component):
        """The mass of one component in the whole formula. Raises StudentError for an unknown one.

        >>> from pastrylab import Formula, show
        >>> show(Formula({"butter": "300 g", "honey": "40 g"}).composition().mass("milk_fat"))
        '243.3 g'
        """
        return Quantity(self._of(component), "g")
