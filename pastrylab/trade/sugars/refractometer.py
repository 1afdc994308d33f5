"""A home-made syrup on the scale and on the refractometer: do the two agree within their errors?"""

import math
from dataclasses import dataclass

from pastrylab.ground.units import In, Number, Share, StudentError, takes
from pastrylab.trade.sugars.inversion import UPTAKE

# A refractometer's Brix is made for sucrose. Points read low for every percent of invert sugar in the syrup:
# 0.019 from the refractive index of 60 % glucose (CRC Handbook, 1.4394) on the sucrose scale; the correction of
# sugar laboratories is 0.022 (from memory).
READS_LOW, READS_LOW_ERROR = 0.020, 0.003


@dataclass(frozen=True)
class Comparison:
    """expected_brix: what the refractometer should show, with its expected_error; reading, reading_error; solids:
    share by weight; agrees; sentence. Brix are plain numbers.

    >>> compare_with_scale("700 g", "980 g", 73.5).agrees
    True
    """

    expected_brix: float
    expected_error: float
    reading: float
    reading_error: float
    solids: float
    agrees: bool
    sentence: str

    def __str__(self):
        return self.sentence


@takes(
    sucrose=In("g", above=0, example="700 g"),
    syrup=In("g", above=0, example="980 g"),
    reading=Number(at_least=0, at_most=95, example="73.5"),
    inverted=Share(example='0.9 or "90 %"'),
    inverted_error=Share(at_most=0.5, example="0.1"),
    scale_error=In("g", at_least=0, example="2 g"),
    reading_error=Number(at_least=0, at_most=5, example="0.5"),
)
def compare_with_scale(sucrose, syrup, reading, inverted=1.0, inverted_error=0.1, scale_error="2 g", reading_error=0.5):
    """Compare a refractometer reading with the solids that follow from two weighings.

    sucrose: mass weighed in. syrup: mass of the finished syrup, without the pan. reading: Brix, cooled, a plain number;
    reading_error in the same. inverted: estimated share of the sucrose inverted, with inverted_error. scale_error: of
    the syrup's mass. Solids = (sucrose + water taken up) / syrup; the reading expected is lower by 0.020 for every
    percent of invert sugar. Returns Comparison. Sources: stoichiometry; see READS_LOW. Raises StudentError where the
    syrup would weigh less than its sugars.

    >>> seen = compare_with_scale("700 g", "980 g", 73.5)
    >>> f"{seen.expected_brix:.1f} ± {seen.expected_error:.1f}"
    '73.7 ± 0.4'
    """
    sugars = sucrose * (1.0 + UPTAKE * inverted)
    if syrup < sugars - scale_error:
        raise StudentError(
            f"{syrup:g} g of syrup from {sucrose:g} g of sugar",
            f"a syrup that weighs at least its sugars, {sugars:.0f} g: was the pan's mass taken off twice?",
            "980 g",
        )
    solids = min(sugars / syrup, 1.0)
    invert = 100.0 * sucrose * inverted * (1.0 + UPTAKE) / syrup
    expected = 100.0 * solids - READS_LOW * invert
    by_share = 100.0 * sucrose * inverted_error * abs(UPTAKE - READS_LOW * (1.0 + UPTAKE)) / syrup
    error = math.hypot(100.0 * solids * scale_error / syrup, by_share, READS_LOW_ERROR * invert)
    apart, allowed = reading - expected, math.hypot(error, reading_error)
    sentence = (
        f"By weight the syrup holds {100 * solids:.1f} % solids. With {100 * inverted:.0f} % of its sugar inverted, "
        f"{invert:.0f} g in every 100 g of syrup are invert sugar, so the instrument should show "
        f"{expected:.1f} ± {error:.1f} Brix; it shows {reading:.1f} ± {reading_error:.1f}. {_verdict(apart, allowed)}"
    )
    return Comparison(expected, error, reading, reading_error, solids, abs(apart) <= allowed, sentence)


def _verdict(apart, allowed):
    if abs(apart) <= allowed:
        return "They agree within their errors."
    if apart > 0:
        return (
            "The reading is higher than the errors explain: more water has left than the scale says, or the drop "
            "dried or was warm on the glass. Read again, then weigh again."
        )
    return (
        "The reading is lower than the errors explain: was the pan weighed with it, the glass wet, the scale of the "
        "instrument set to zero with water? Read again, then weigh again."
    )
