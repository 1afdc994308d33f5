"""What a water activity means for keeping: the Food Code tables for meter readings, mould-free days, a reading beside an
estimate. What can grow lives in growth.py and is reachable from here.

A computed water activity (Estimate) teaches; it is refused wherever a class or a legal line is decided.
"""

from dataclasses import dataclass, field

from pastrylab.ground import careful
from pastrylab.ground.units import Number, Reading, StudentError
from pastrylab.trade.growth import (  # noqa: F401  (part of this module's face)
    AW,
    BANDS,
    CAUTION,
    GROWTH_LIMITS,
    IN_SHORT,
    Estimate,
    Growth,
    GrowthLimit,
    growth,
    spoilage_band,
)

_ERROR = Number(at_least=0, at_most=0.05, example="0.015")
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
    """
    _no_estimate(aw_reading)
    name = _table_named(table)
    aw, acid = AW.floats("aw_reading", aw_reading), _PH.floats("ph", ph)
    worst_aw = round(min(1.0, aw + _ERROR.floats("meter_error", meter_error)), 9)
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

    Arguments as food_code. Returns a plain float; 1.0 where that pH needs no limit of water activity. In
    table B the limit 0.88 itself is already outside. Raises StudentError. Source: FDA Food Code 1-201.10,
    tables A and B.
    """
    name = _table_named(table)
    error = _ERROR.floats("meter_error", meter_error)
    worst = round(_PH.floats("ph", ph) + _PH_ERROR.floats("ph_error", ph_error), 9)
    limit = max(at for (at, included), _ in _TABLES[name][1] if _cell(name, at if included else at - 1e-9, worst) == _N)
    return 1.0 if limit == 1.0 else round(limit - error, 9)


@dataclass(frozen=True)
class LowAcid:
    """low_acid: whether the reading counts as low-acid food; sentence; caution."""

    low_acid: bool
    sentence: str
    caution: str = CAUTION

    def __str__(self):
        return f"{self.sentence} {self.caution}"


LOW_ACID_PH, LOW_ACID_AW = 4.6, 0.85


def low_acid(aw_reading, ph, meter_error, ph_error=0.0):
    """Whether a meter reading counts as low-acid food: pH above 4.6 and water activity above 0.85, errors
    added.

    Arguments as food_code; an Estimate is refused. Returns LowAcid. Source: 21 CFR 114.3 (the line of 0.85 is
    a legal one; it is no limit for moulds or yeasts). Raises StudentError.
    """
    _no_estimate(aw_reading)
    shown, acid = AW.floats("aw_reading", aw_reading), _PH.floats("ph", ph)
    aw = round(min(1.0, shown + _ERROR.floats("meter_error", meter_error)), 9)
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


# (degC, a, b): log10(days) = a - b * ERH %. 21 degC: Cauvain & Seiler; 27 degC: Adams & Moss, Food Microbiology, equation
# 3.34.
MOULD_LINES = ((21.0, 7.91, 0.081), (27.0, 6.42, 0.0647))
MOULD_RANGE = (0.74, 0.90)
_SCATTER = 0.15  # of four published cakes about the equations


@dataclass(frozen=True)
class MouldFreeDays:
    """days with its low..high, sentence (with the origin), caution."""

    days: float
    low: float
    high: float
    sentence: str
    caution: str = CAUTION

    def __str__(self):
        return f"{self.sentence} {self.caution}"


def mould_free_days(aw, temperature, dairy=None):
    """Days until mould shows on a filling without dairy, from formulas made for cakes: an illustration.

    aw: a plain number, or an Estimate (its high end gives the days, its low end the most there may be); 0.74-0.90.
    temperature: reading, 21-27
    degC (between the two equations log days are interpolated). dairy: must be stated, False; a filling with
    cream, milk or butter is refused. Returns MouldFreeDays. Sources: Cauvain & Seiler (21 degC), Adams &
    Moss, Food Microbiology, equation 3.34 (27 degC). Raises StudentError.
    """
    if dairy is not False:
        given = "a filling with dairy" if dairy else "a filling without saying whether it holds dairy"
        raise StudentError(
            given,
            "a filling without cream, milk or butter, and that it is so: with dairy, bacteria spoil it "
            "before mould shows",
            "0.78 at 21 °C, without dairy",
        )
    warm = Reading(at_least=21, at_most=27, example="21 degC").floats("temperature", temperature)
    span = (aw.low, aw.value, aw.high) if isinstance(aw, Estimate) else (aw,) * 3
    fits = Number(at_least=MOULD_RANGE[0], at_most=MOULD_RANGE[1], example="0.78")
    most, _, least = (_mould_days(fits.floats("aw", one), warm) for one in span)
    low, high = least / (1 + _SCATTER), most * (1 + _SCATTER)
    where = f"At the high end, {careful.written_up(span[2])}: about" if isinstance(aw, Estimate) else "About"
    said = (
        f"{where} {careful.written_down(least, 0)} days without visible mould ({careful.written_down(low, 0)} to "
        f"{careful.written_down(high, 0)}), by formulas fitted to cakes at water activities from 0.74 to 0.90; four "
        "published cakes scatter by 15 % about them."
    )
    return MouldFreeDays(least, low, high, said)


def _mould_days(aw, warm):
    (t1, a1, b1), (t2, a2, b2) = MOULD_LINES
    at_first, at_second = a1 - b1 * 100 * aw, a2 - b2 * 100 * aw
    return 10.0 ** (at_first + (at_second - at_first) * (warm - t1) / (t2 - t1))


@dataclass(frozen=True)
class Agreement:
    """agrees: whether a reading and an estimate meet within their errors; gap: reading minus estimate; sentence;
    caution.
    """

    agrees: bool
    gap: float
    sentence: str
    caution: str = CAUTION

    def __str__(self):
        return f"{self.sentence} {self.caution}"


def against_meter(estimate, reading, meter_error):
    """A meter reading beside an estimate of the same filling: do they meet within their errors?

    estimate: an Estimate. reading, meter_error: plain numbers, the error 0-0.05. Returns Agreement. Both ways
    the reading is what counts; a gap says where to look. Raises StudentError.
    """
    if not isinstance(estimate, Estimate):
        raise StudentError(
            "a number in place of the estimate",
            "an estimate with its error, from a formula",
            "the estimate of a formula, beside a reading of 0.86",
        )
    shown, error = AW.floats("reading", reading), _ERROR.floats("meter_error", meter_error)
    agrees = careful.between(shown, estimate.low, estimate.high, error) is not False
    beside = (
        f"The meter shows {careful.written_up(shown, 3)}, give or take {careful.written_up(error, 3)}; the estimate is "
        f"{estimate.written}."
    )
    if agrees:
        said = "They agree within their errors. The reading is what counts."
    elif shown > estimate.high:
        said = (
            "The reading is higher than the estimate's error allows: look for sugar of the chocolate that stayed "
            "undissolved, crystals, less water boiled off than planned, or a meter that reads high. The reading is "
            "what counts."
        )
    else:
        said = (
            "The reading is lower than the estimate's error allows: look for more water boiled off than planned, a "
            "sample that dried or stood too short a time, alcohol, or a meter that reads low. Until you know, take "
            "the higher of the two."
        )
    return Agreement(agrees, shown - estimate.value, f"{beside} {said}")
