"""What a water activity means for keeping: what can grow, lines in food law, mould-free days, a meter beside an
estimate."""

from pastrylab.trade.keeping.estimates import CAUTION, IN_SHORT, Estimate
from pastrylab.trade.keeping.food_law import LOW_ACID_AW, LOW_ACID_PH, food_code, highest_reading, low_acid
from pastrylab.trade.keeping.meter import against_meter
from pastrylab.trade.keeping.mould import MOULD_LINES, MOULD_RANGE, mould_free_days
from pastrylab.trade.keeping.organisms import GROWTH_LIMITS, growth, spoilage_band

__all__ = [
    "CAUTION",
    "Estimate",
    "GROWTH_LIMITS",
    "IN_SHORT",
    "LOW_ACID_AW",
    "LOW_ACID_PH",
    "MOULD_LINES",
    "MOULD_RANGE",
    "against_meter",
    "food_code",
    "growth",
    "highest_reading",
    "low_acid",
    "mould_free_days",
    "spoilage_band",
]
