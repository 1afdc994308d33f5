"""A meter reading beside an estimate of the same filling."""

from dataclasses import dataclass

from pastrylab.ground import careful
from pastrylab.ground.units import StudentError
from pastrylab.trade.keeping.estimates import AW, CAUTION, METER_ERROR, Estimate


@dataclass(frozen=True)
class Agreement:
    """agrees: whether a reading and an estimate meet within their errors; gap: reading minus estimate; sentence;
    caution.

    >>> mine = Estimate(0.85, 0.82, 0.88, "a ganache")
    >>> against_meter(mine, 0.90, 0.015).agrees
    False
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

    >>> print(against_meter(Estimate(0.85, 0.82, 0.88, "a ganache"), 0.86, 0.015).sentence)
    The meter shows 0.860, give or take 0.015; the estimate is 0.85 (0.82 to 0.88). They agree within their errors.
    The reading is what counts.
    """
    if not isinstance(estimate, Estimate):
        raise StudentError(
            "a number in place of the estimate",
            "an estimate with its error, from a formula",
            "the estimate of a formula, beside a reading of 0.86",
        )
    shown, error = AW.floats("reading", reading), METER_ERROR.floats("meter_error", meter_error)
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
