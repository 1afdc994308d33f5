"""What a water activity means for keeping: growth limits, the Food Code tables for meter readings, mould-free
days.

A computed water activity (Estimate) teaches; it is refused wherever a class or a legal line is decided.
"""

from dataclasses import dataclass, field

from pastrylab.units import Number, Reading, StudentError, takes

CAUTION = (
    "For teaching and planning only: this does not show that a food may be kept or sold. Follow your local "
    "food code and the advice of a licensed professional; clean work, cold and short keeping come first."
)


@dataclass(frozen=True)
class Estimate:
    """A computed water activity: value, low, high, a sentence with the stated error, notes, and the
    caution.
    """

    value: float
    low: float
    high: float
    sentence: str
    notes: tuple[str, ...] = ()
    caution: str = CAUTION

    def __str__(self):
        return " ".join([self.sentence, *self.notes, self.caution])


@dataclass(frozen=True)
class GrowthLimit:
    """The least water activity at which an organism grows: low..high is the spread between sources."""

    organism: str
    low: float
    high: float
    source: str


_BAD_BUG = "FDA Bad Bug Book 1992, factors table"
_HAZARDS = "low end from memory: FDA Fish and Fishery Products Hazards and Controls Guidance, appendix 4, table A-1"
_BEUCHAT = "Beuchat 1981, Cereal Foods World 26:345"
GROWTH_LIMITS = (
    GrowthLimit("Clostridium botulinum type E", 0.965, 0.97, f"{_BAD_BUG}; 0.97 Hauschild 1989"),
    GrowthLimit("Salmonella", 0.94, 0.95, f"{_BAD_BUG}; some strains 0.94"),
    GrowthLimit("Vibrio parahaemolyticus", 0.94, 0.94, _BAD_BUG),
    GrowthLimit("Escherichia coli", 0.935, 0.95, _BAD_BUG),
    GrowthLimit("Clostridium botulinum types A and B", 0.93, 0.94, _BAD_BUG),
    GrowthLimit("Bacillus cereus", 0.92, 0.95, f"{_BAD_BUG}; {_HAZARDS}"),
    GrowthLimit("Listeria monocytogenes", 0.92, 0.92, _BAD_BUG),
    GrowthLimit("Staphylococcus aureus", 0.83, 0.86, f"{_BAD_BUG} 0.86; Ohio State University and USDA guide 0.83"),
    GrowthLimit("most moulds and many yeasts", 0.80, 0.87, _BEUCHAT),
    GrowthLimit("halophilic bacteria and moulds that make toxins", 0.75, 0.80, _BEUCHAT),
    GrowthLimit("xerophilic moulds", 0.65, 0.75, _BEUCHAT),
    GrowthLimit("osmophilic yeasts and a few moulds", 0.60, 0.65, _BEUCHAT),
)
# From the given water activity upwards; Beuchat 1981. The two highest bands from memory of the same table.
_BANDS = (
    (0.91, "most bacteria"),
    (0.87, "many yeasts"),
    (0.80, "most moulds and Staphylococcus aureus"),
    (0.75, "halophilic bacteria and toxin-forming moulds"),
    (0.65, "xerophilic moulds"),
    (0.60, "osmophilic yeasts"),
    (0.0, "no microbial growth"),
)
_AW = Number(above=0, at_most=1, example="0.85")
_ERROR = Number(at_least=0, at_most=0.05, example="0.015")
_PH_ERROR = Number(at_least=0, at_most=1, example="0.1")
_PH = Number(at_least=1, at_most=10, example="5.2")


def _no_estimate(aw):
    if isinstance(aw, Estimate):
        raise StudentError(
            f"an estimate of {aw.value:.2f}, computed from a formula",
            "the reading of a water activity meter, since an estimate decides no class",
            "aw_reading=0.86, meter_error=0.015",
        )


@takes(aw=_AW)
def spoilage_band(aw):
    """What can grow at a water activity and lower, as a band: spoilage_band(0.70) -> "xerophilic moulds".

    aw: a plain number above 0 and at most 1. Returns text. Source: Beuchat 1981, Cereal Foods World 26:345
    (bands above 0.87 from memory of the same table). Raises StudentError outside the range.
    """
    return next(name for least, name in _BANDS if aw >= least)


@dataclass(frozen=True)
class Growth:
    """can_grow: GrowthLimits whose low end is at or below the water activity (the high end of an estimate);
    band; sentence.
    """

    can_grow: tuple[GrowthLimit, ...]
    band: str
    sentence: str
    caution: str = CAUTION

    def __str__(self):
        return f"{self.sentence} {self.caution}"


def growth(aw):
    """What can grow at a water activity, on the careful end of the sources.

    aw: a plain number, or an Estimate (its high end counts). Returns Growth. Sources: GROWTH_LIMITS. Raises
    StudentError.
    """
    careful = _AW.floats("aw", aw.high if isinstance(aw, Estimate) else aw)
    careful = max(careful, round(careful, 2))  # what the sentence prints is what is compared
    able = tuple(limit for limit in GROWTH_LIMITS if limit.low <= careful + 1e-9)
    band = spoilage_band.floats(careful)
    who = ", ".join(limit.organism for limit in able) or "nothing in the table"
    sentence = f"At a water activity of {careful:.2f} these can grow, given warmth and time: {who}."
    return Growth(able, band, sentence)


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
    return value <= at if included else value < at


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
            'food_code("B", 0.86, 5.2, 0.015)',
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
    aw, acid = _AW.floats("aw_reading", aw_reading), _PH.floats("ph", ph)
    worst_aw = round(min(1.0, aw + _ERROR.floats("meter_error", meter_error)), 9)
    worst_ph = round(acid + _PH_ERROR.floats("ph_error", ph_error), 9)
    plain, status = _cell(name, aw, acid), _cell(name, worst_aw, worst_ph)
    meaning = {
        _N: "by this table alone it counts as non-TCS",
        _PA: "a product assessment is required (PA)",
    }
    said = (
        f"Table {name}, reading {aw:.3f} and pH {acid:.2f}, taken as {worst_aw:.3f} and {worst_ph:.2f}: "
        f"{meaning[status]}."
    )
    if status == _N and worst_aw >= _BANDS[-2][0]:
        said += " Moulds and yeasts may still grow."
    if plain != status:
        said += " The reading alone falls on the other side: the error of the instruments decides here."
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
    aw = round(min(1.0, _AW.floats("aw_reading", aw_reading) + _ERROR.floats("meter_error", meter_error)), 9)
    acid = round(_PH.floats("ph", ph) + _PH_ERROR.floats("ph_error", ph_error), 9)
    over = acid > LOW_ACID_PH and aw > LOW_ACID_AW
    stands = "above" if aw > LOW_ACID_AW else "not above"
    said = (
        f"Water activity {aw:.3f} with the error is {stands} the 0.85 line, pH {acid:.2f}: "
        f"{'low-acid food' if over else 'not low-acid food'} in the sense of 21 CFR 114.3."
    )
    return LowAcid(over, said)


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

    aw: a plain number, or an Estimate (its ends widen the answer); 0.74-0.90. temperature: reading, 21-27
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
            'mould_free_days(0.78, "21 degC", dairy=False)',
        )
    warm = Reading(at_least=21, at_most=27, example="21 degC").floats("temperature", temperature)
    span = (aw.low, aw.value, aw.high) if isinstance(aw, Estimate) else (aw,) * 3
    fits = Number(at_least=MOULD_RANGE[0], at_most=MOULD_RANGE[1], example="0.78")
    most, middle, least = (_mould_days(fits.floats("aw", one), warm) for one in span)
    low, high = least / (1 + _SCATTER), most * (1 + _SCATTER)
    said = (
        f"About {middle:.0f} days without visible mould ({low:.0f} to {high:.0f}), by formulas fitted to "
        "cakes at water "
        "activities from 0.74 to 0.90; four published cakes scatter by 15 % about them."
    )
    return MouldFreeDays(middle, low, high, said)


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
            "what estimate(...) returns, with its error",
            "against_meter(estimate(...), 0.86, 0.015)",
        )
    shown, error = _AW.floats("reading", reading), _ERROR.floats("meter_error", meter_error)
    agrees = shown - error <= estimate.high + 1e-9 and shown + error >= estimate.low - 1e-9
    beside = (
        f"The meter shows {shown:.3f}, give or take {error:.3f}; the estimate is {estimate.value:.2f}, between "
        f"{estimate.low:.2f} and {estimate.high:.2f}."
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
