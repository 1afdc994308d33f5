"""What can grow at a water activity: limits of organisms and bands of spoilage."""

from dataclasses import dataclass

from pastrylab.ground import careful
from pastrylab.trade.keeping.estimates import AW, CAUTION, Estimate


@dataclass(frozen=True)
class GrowthLimit:
    """The least water activity at which an organism grows: low..high is the spread between sources.

    >>> GROWTH_LIMITS[1].organism, GROWTH_LIMITS[1].low
    ('Salmonella', 0.94)
    """

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
    GrowthLimit(
        "Clostridium perfringens", 0.93, 0.97, f"{_BAD_BUG} 0.93; Banwart 1989, Basic Food Microbiology, to 0.97"
    ),
    GrowthLimit("Bacillus cereus", 0.92, 0.95, f"{_BAD_BUG}; {_HAZARDS}"),
    GrowthLimit(
        "Listeria monocytogenes",
        0.90,
        0.93,
        "Farber, Coates & Daley 1992, Letters in Applied Microbiology 15:103: three of five strains at 0.90 in glycerol, "
        "0.93 in sucrose; 0.90-0.93 European Commission guidance on shelf-life studies 2008; 0.92 " + _BAD_BUG,
    ),
    GrowthLimit("Staphylococcus aureus", 0.83, 0.86, f"{_BAD_BUG} 0.86; Ohio State University and USDA guide 0.83"),
    GrowthLimit("most moulds and many yeasts", 0.80, 0.87, _BEUCHAT),
    GrowthLimit("halophilic bacteria and moulds that make toxins", 0.75, 0.80, _BEUCHAT),
    GrowthLimit("xerophilic moulds", 0.65, 0.75, _BEUCHAT),
    GrowthLimit("osmophilic yeasts and a few moulds", 0.60, 0.65, _BEUCHAT),
)

# From the given water activity upwards; Beuchat 1981. The two highest bands from memory of the same table.
BANDS = (
    (0.91, "most bacteria"),
    (0.87, "many yeasts"),
    (0.80, "most moulds and Staphylococcus aureus"),
    (0.75, "halophilic bacteria and toxin-forming moulds"),
    (0.65, "xerophilic moulds"),
    (0.60, "osmophilic yeasts"),
    (0.0, "no microbial growth"),
)


def spoilage_band(aw):
    """What can grow at a water activity and lower, as a band of organisms (text).

    aw: a plain number above 0 and at most 1, or an Estimate (its high end counts). Source: Beuchat 1981, Cereal Foods
    World 26:345 (bands above 0.87 from memory of the same table). Raises StudentError outside the range.

    >>> spoilage_band(0.70)
    'xerophilic moulds'
    """
    worst = AW.floats("aw", aw.high if isinstance(aw, Estimate) else aw)
    return next(name for least, name in BANDS if careful.below(worst, least) is not True)


@dataclass(frozen=True)
class Growth:
    """can_grow: GrowthLimits whose low end is at or below the water activity (the high end of an estimate);
    band; sentence.

    >>> [limit.organism for limit in growth(0.64).can_grow]
    ['osmophilic yeasts and a few moulds']
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

    >>> print(growth(0.80).sentence)
    At a water activity of 0.80 these can grow, given warmth and time: most moulds and many yeasts, halophilic
    bacteria and moulds that make toxins, xerophilic moulds, osmophilic yeasts and a few moulds.
    """
    printed = careful.written_up(AW.floats("aw", aw.high if isinstance(aw, Estimate) else aw))
    worst = min(1.0, float(printed))  # what the sentence prints is what is compared
    able = tuple(limit for limit in GROWTH_LIMITS if careful.below(worst, limit.low) is not True)
    band = spoilage_band(worst)
    who = ", ".join(limit.organism for limit in able) or "nothing in the table"
    sentence = f"At a water activity of {printed} these can grow, given warmth and time: {who}."
    return Growth(able, band, sentence)
