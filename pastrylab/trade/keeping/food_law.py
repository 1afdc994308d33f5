"""Lines in food law for meter readings: the Food Code's tables and low-acid food.

A computed water activity (Estimate) teaches; it is refused wherever a class or a legal line is decided.
"""

from dataclasses import dataclass, field

from pastrylab.ground import careful
from pastrylab.ground.units import Number, StudentError
from pastrylab.trade.keeping.estimates import AW, CAUTION, METER_ERROR, Estimate
from pastrylab.trade.keeping.organisms import BANDS

_PH_ERROR = Number(at_least=0, at_most=1, example="0.1")
_PH = Number(at_least=1, at_most=10, example="5.2")


def _no_estimate(aw):
    if isinstance(aw, Estimate):
        raise StudentError(
            f"an estimate of {careful.written_up(aw.value)}, computed from a formula",
            "the reading of a water activity meter, since an estimate decides no class",
            "a reading of 0.86, good to 0.015",
        )


# FDA Food Code 1-201.10, "time/temperature control for safety food", as reprinted in Tenn. Comp. R. & Regs.
# 0080-04-09-.01. Rows: (limit, is the limit itself still in the row?). Columns: upper ends of pH, likewise.
_N, _PA = "non-TCS", "PA"
_TABLES = {
    "A": (
        ((4.6, True), (5.6, True), (14.0, True)),
        (
            ((0.92, True), (_N, _N, _N)),
            ((0.95, True), (_N, _N, _PA)),
            ((1.0, True), (_N, _PA, _PA)),
        ),
    ),
    "B": (
        ((4.2, False), (4.6, True), (5.0, True), (14.0, True)),
        (
            ((0.88, False), (_N, _N, _N, _N)),
            ((0.90, True), (_N, _N, _N, _PA)),
            ((0.92, True), (_N, _N, _PA, _PA)),
            ((1.0, True), (_N, _PA, _PA, _PA)),
        ),
    ),
}


def _inside(value, limit):
    at, included = limit
    return (careful.at_most if included else careful.below)(value, at) is True


def _cell(table, aw, ph):
    columns, rows = _TABLES[table]
    column = next(i for i, limit in enumerate(columns) if _inside(ph, limit))
    return next(cells[column] for limit, cells in rows if _inside(aw, limit))


def _table_named(table):
    name = str(table).strip().upper().removeprefix("TABLE").strip()
    if name not in _TABLES:
        raise StudentError(
            f"table '{table}'",
            "table A (heat-treated, then packaged) or B (all other food)",
            "table B, a reading of 0.86 good to 0.015, pH 5.2",
        )
    return name


@dataclass(frozen=True)
class FoodCode:
    """status "non-TCS" or "PA" (product assessment required) with the errors added; at_the_reading the same
    without; aw, ph as put against the table; sentence; caution.

    >>> found = food_code("B", 0.86, 5.2, meter_error=0.03)
    >>> found.at_the_reading, found.status
    ('non-TCS', 'PA')
    """

    status: str
    at_the_reading: str
    aw: float
    ph: float
    sentence: str
    caution: str = field(default=CAUTION)

    def __str__(self):
        return f"{self.sentence} {self.caution}"


def food_code(table, aw_reading, ph, meter_error, ph_error=0.0):
    """Where a meter reading stands in the FDA Food Code's tables, with the errors added on the side of more
    growth.

    table: "A" (heat-treated to destroy vegetative cells and then packaged) or "B" (not heat-treated, or not
    packaged). aw_reading, ph: plain numbers measured on the food. meter_error: of the water activity meter,
    0-0.05; ph_error: of the strip or meter, 0-1. Returns FoodCode. An Estimate is refused: only a measurement
    picks a class. Source: FDA Food Code 1-201.10, tables A and B. Raises StudentError.

    >>> print(food_code("B", 0.86, 5.2, meter_error=0.015).sentence)
    Table B, reading 0.860 and pH 5.20, taken as 0.875 and 5.20: by this table alone it counts as non-TCS. Moulds and
    yeasts may still grow.
    """
    _no_estimate(aw_reading)
    name = _table_named(table)
    aw, acid = AW.floats("aw_reading", aw_reading), _PH.floats("ph", ph)
    worst_aw = round(min(1.0, aw + METER_ERROR.floats("meter_error", meter_error)), 9)
    worst_ph = round(acid + _PH_ERROR.floats("ph_error", ph_error), 9)
    plain, status = _cell(name, aw, acid), _cell(name, worst_aw, worst_ph)
    meaning = {
        _N: "by this table alone it counts as non-TCS",
        _PA: "a product assessment is required (PA)",
    }
    said = (
        f"Table {name}, reading {careful.written_up(aw, 3)} and pH {careful.written_up(acid)}, taken as "
        f"{careful.written_up(worst_aw, 3)} and {careful.written_up(worst_ph)}: {meaning[status]}."
    )
    if status == _N and careful.below(worst_aw, BANDS[-2][0]) is not True:
        said += " Moulds and yeasts may still grow."
    if plain != status:
        said += (
            " The reading alone falls on the other side: the error of the instruments decides here. Better instruments, "
            "or a drier or sharper filling, would settle it."
        )
    return FoodCode(status, plain, worst_aw, worst_ph, said)


def highest_reading(table, ph, meter_error, ph_error=0.0):
    """The highest meter reading that still is non-TCS at a pH: the table's limit minus the meter's error.

    table: "A" or "B"; ph, meter_error, ph_error: as food_code. Returns a plain float; 1.0 where that pH needs no limit
    of water activity. In table B the limit 0.88 itself is already outside. Source: FDA Food Code 1-201.10, tables A and
    B. Raises StudentError.

    >>> highest_reading("A", 5.2, meter_error=0.015)
    0.935
    """
    name = _table_named(table)
    error = METER_ERROR.floats("meter_error", meter_error)
    worst = round(_PH.floats("ph", ph) + _PH_ERROR.floats("ph_error", ph_error), 9)
    limit = max(at for (at, included), _ in _TABLES[name][1] if _cell(name, at if included else at - 1e-9, worst) == _N)
    return 1.0 if limit == 1.0 else round(limit - error, 9)


@dataclass(frozen=True)
class LowAcid:
    """low_acid: whether the reading counts as low-acid food; sentence; caution.

    >>> low_acid(0.88, 4.2, meter_error=0.015).low_acid
    False
    """

    low_acid: bool
    sentence: str
    caution: str = CAUTION

    def __str__(self):
        return f"{self.sentence} {self.caution}"


LOW_ACID_PH, LOW_ACID_AW = 4.6, 0.85


def low_acid(aw_reading, ph, meter_error, ph_error=0.0):
    """Whether a meter reading counts as low-acid food: pH above 4.6 and water activity above 0.85, errors added.

    aw_reading, ph, meter_error, ph_error: as food_code; an Estimate is refused. Returns LowAcid. Source: 21 CFR 114.3
    (the line of 0.85 is a legal one; it is no limit for moulds or yeasts). Raises StudentError.

    >>> print(low_acid(0.84, 5.2, meter_error=0.015).sentence)
    Water activity 0.855 with the error is above the 0.85 line, pH 5.20: low-acid food in the sense of 21 CFR 114.3.
    The reading alone falls on the other side: the error of the instruments decides here.
    """
    _no_estimate(aw_reading)
    shown, acid = AW.floats("aw_reading", aw_reading), _PH.floats("ph", ph)
    aw = round(min(1.0, shown + METER_ERROR.floats("meter_error", meter_error)), 9)
    worst_ph = round(acid + _PH_ERROR.floats("ph_error", ph_error), 9)
    over, plain = not _under_a_line(aw, worst_ph), not _under_a_line(shown, acid)
    stands = "not above" if careful.at_most(aw, LOW_ACID_AW) else "above"
    said = (
        f"Water activity {careful.written_up(aw, 3)} with the error is {stands} the 0.85 line, pH "
        f"{careful.written_up(worst_ph)}: {'low-acid food' if over else 'not low-acid food'} in the sense of 21 CFR 114.3."
    )
    if over != plain:
        said += " The reading alone falls on the other side: the error of the instruments decides here."
    return LowAcid(over, said)


def _under_a_line(aw, ph):
    return careful.at_most(aw, LOW_ACID_AW) is True or careful.at_most(ph, LOW_ACID_PH) is True
