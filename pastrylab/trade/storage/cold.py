"""The cold as an exception: what bloom is and how to tell one from the other, smells, and the steps in and out of the cold."""

from dataclasses import dataclass

from pastrylab.trade.storage.care import Step

PRACTICE, MEMORY = "common practice, no source", "from memory, no source"
FOOD_INFO = "food-info.net, question fp44"
NOTTER = "Notter, The Art of the Chocolatier, 2011"


@dataclass(frozen=True)
class Bloom:
    """A bloom: how it looks and feels, where it comes from, how to tell it, what helps; and the sources.

    >>> SUGAR_BLOOM.name
    'sugar bloom'
    """

    name: str
    looks: str
    comes: str
    telling: str
    helps: str
    source: str


SUGAR_BLOOM = Bloom(
    "sugar bloom",
    "Dull, grey-white, rough or grainy to the finger, often in spots where drops stood.",
    "Water on the surface, from dew or from air more humid than sugar bears, dissolves sugar; when it dries, crystals stay.",
    "A drop of water on it dissolves it; a warm finger does not melt it away.",
    "Nothing brings the shine back. It may be melted for a filling or a batter, where a little water does no harm.",
    FOOD_INFO,
)
FAT_BLOOM = Bloom(
    "fat bloom",
    "Grey or whitish veil, streaks or marbling, smooth and greasy to the finger.",
    "Part of the cocoa butter melts with warmth and sets again as larger crystals; swings do it again and again, and so do "
    "bad temper and oil out of a filling. Stored above 24 °C it is a matter of days to weeks, at 18 °C of months: from memory.",
    "A warm finger melts it away; a drop of water does nothing.",
    "Melt it out and temper it again. What is inside a filled piece cannot be mended.",
    f"{NOTTER}, for the warmth and the swings; the time from memory",
)

SMELLS = (
    Step(
        "Store it away from coffee, spices, cheese, onions, soap and paint.",
        "Cocoa butter takes up smells and keeps them.",
        FOOD_INFO,
    ),
    Step(
        "Close the box; new wood, card and printed paper smell too.",
        "What you can smell on the lid you will taste.",
        PRACTICE,
    ),
    Step(
        "Dark: no daylight, no lamp close by.",
        "Light makes fat rancid, white chocolate's first: it has no cocoa to shield it.",
        PRACTICE,
    ),
)

INTO_THE_COLD = (
    Step("Keep it at 18 to 20 °C instead, if you can.", "The cold is an exception: short, dry and wrapped.", FOOD_INFO),
    Step(
        "Let it set fully first, a day at room temperature.",
        "What is still crystallising shrinks and cracks in the cold.",
        MEMORY,
    ),
    Step(
        "Wrap it air-tight, film close to the piece, then a box with a lid.",
        "Only the air that is in with it can wet it, and no smell comes in.",
        PRACTICE,
    ),
    Step("Write the date on it, and what it is.", "Cold hides age; it does not stop it.", PRACTICE),
    Step("For the freezer: a night in the refrigerator, wrapped, before.", "Cooled in stages it cracks less.", MEMORY),
)
OUT_OF_THE_COLD = (
    Step(
        "Leave it wrapped. It is not opened to look.",
        "The first breath of kitchen air is the wettest for it.",
        FOOD_INFO,
    ),
    Step("From the freezer: a night in the refrigerator, at 4 to 5 °C.", "Staged warming, 24 hours in all.", MEMORY),
    Step(
        "Then some hours in the coolest room, at 12 to 15 °C.",
        "The smaller each step, the less water finds it cold.",
        MEMORY,
    ),
    Step("Then to 18 to 20 °C, still wrapped.", "The clock says when to begin looking.", MEMORY),
    Step(
        "Unwrap it when its coldest piece reads what the humidity of your room asks for.",
        "That is the surface limit of its kind, with your instruments' errors; not the dew point, and not the clock.",
        "ASHRAE Fundamentals 2017 for the air; the limits of datasets/storage_limits.csv",
    ),
)
