"""Days until mould shows on a filling without dairy: an illustration."""

from dataclasses import dataclass

from pastrylab.ground import careful
from pastrylab.ground.units import Number, Reading, StudentError
from pastrylab.trade.keeping.estimates import CAUTION, Estimate

# (degC, a, b): log10(days) = a - b * ERH %. 21 degC: Cauvain & Seiler; 27 degC: Adams & Moss, Food Microbiology, equation
# 3.34.
MOULD_LINES = ((21.0, 7.91, 0.081), (27.0, 6.42, 0.0647))
MOULD_RANGE = (0.74, 0.90)
_SCATTER = 0.15  # of four published cakes about the equations


@dataclass(frozen=True)
class MouldFreeDays:
    """days with its low..high, sentence (with the origin), caution.

    >>> days = mould_free_days(0.78, "21 degC", dairy=False)
    >>> f"{days.low:.0f} to {days.high:.0f}"
    '34 to 45'
    """

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

    >>> f"{mould_free_days(0.78, '21 degC', dairy=False).days:.0f}"
    '39'
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
