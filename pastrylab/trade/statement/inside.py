"""What a chocolate is made of as the laws of its names count it: each part as low and as high as the data leave it.

Fat-free cocoa is in no table: it follows from the cocoa percentage of the pack and its cocoa butter, and from its fibre. US
chocolate liquor is 2.2 times the fat-free cocoa of the liquor (21 CFR 163.123(a)(2)).
"""

import re

from pastrylab.ground import own
from pastrylab.trade import pantry
from pastrylab.trade.chocolate import kind_of
from pastrylab.trade.labels.words import read_contents
from pastrylab.trade.statement.packs import entry

# g in 100 g, our own judgement. A label's fat is printed to the half gram; the milk fat of retail averages was estimated
# to 1.5 g and less in the table of ingredients.
_OF_A_LABEL, _OF_AN_AVERAGE = 0.5, 1.5
_FIBRE_OF_COCOA = (0.29, 0.43)  # g in a gram of it, as in labels.cocoa
_WHITE_COCOA = 0.6  # g at the most, as there
_ABOVE_PRINTED = 2  # % by which a percentage printed as "at least" may be passed: as in labels.label
_LIQUOR = 2.2
_LACTOSE_OF_PROTEIN, _ASH_OF_PROTEIN = (1.3, 1.65), (0.17, 0.28)  # of milk: as in labels.cocoa
_NUMBER = re.compile(r"(?<![\d.-])(\d+(?:\.\d+)?) ?%")
_MEASURED = (
    "water",
    "fat",
    "milk_fat",
    "cocoa_butter",
    "lactose",
    "fibre",
    *("sucrose", "glucose", "fructose", "maltose"),
)


def inside(name):
    """{part: (low, high)} in g in 100 g of a chocolate of ingredients.csv or of one's own.

    Parts: cocoa butter, fat-free cocoa, cocoa solids, liquor, milk fat, milk solids, total fat (of cocoa and milk), sugar (added),
    water. Raises StudentError for what is no chocolate.

    >>> low, high = inside("dark couverture 64 %")["fat-free cocoa"]
    >>> f"{low:.0f} to {high:.0f} g"
    '24 to 27 g'
    """
    known = pantry.ingredient_name(name)
    kind, ends, listed = kind_of(known), _ends(known), read_contents(entry(known, "EU").contents)
    butter, milk_fat = ends["cocoa_butter"], ends["milk_fat"]
    cocoa = _fat_free(known, kind, ends, listed)
    # Cocoa powder beside the mass is fat-free cocoa that is no liquor: then only the upper end holds.
    powder = "cocoa powder" in entry(known, "EU").contents.casefold() or not listed.given
    solids = _plus(butter, cocoa)
    return {
        "cocoa butter": butter,
        "fat-free cocoa": cocoa,
        "cocoa solids": _within(solids, _printed(known)) if kind != "white" else solids,
        "liquor": (0.0 if powder else _LIQUOR * cocoa[0], _LIQUOR * cocoa[1]),
        "milk fat": milk_fat,
        "milk solids": _milk(milk_fat, ends["lactose"], whey=listed.may_hold("whey") or not listed.given),
        "total fat": _plus(butter, milk_fat),
        "sugar": tuple(sum(ends[one][end] for one in ("sucrose", "glucose", "fructose", "maltose")) for end in (0, 1)),
        "water": ends["water"],
    }


def other_fat(name):
    """Whether its list names a fat that is neither of cocoa nor of milk: True, False, or None where there is no list.

    >>> other_fat("milk couverture 38 %")
    False
    """
    listed = read_contents(entry(name, "EU").contents)
    return None if not listed.given or listed.unknown else listed.holds("other fat")


def _ends(known):
    mine = pantry.own_ingredients()[0].get(known)
    if mine:
        return {name: mine.ends[name] for name in _MEASURED}
    row = {part: 100 * share for part, share in pantry.ingredients()[known].items()}
    of_label = pantry.facts()[known]["source"].startswith("derived from the label")
    error = _OF_A_LABEL if of_label else _OF_AN_AVERAGE
    return {name: (max(row[name] - error, 0.0), row[name] + error) for name in _MEASURED if name != "fibre"} | {
        "fibre": (row["fibre"], row["fibre"])
    }


def _printed(known):
    """(low, high) of the cocoa percentage that its own label or else its name states, or all there is."""
    said = {row.name: f"{row.cells.get('cocoa') or ''} %".replace("% %", "%") for row in own.rows("ingredients").rows}
    found = _NUMBER.findall(said.get(known, known))
    if len(found) != 1:
        return 0.0, 100.0
    return float(found[0]), float(found[0]) + _ABOVE_PRINTED


def _fat_free(known, kind, ends, listed):
    if kind == "white":
        return 0.0, _WHITE_COCOA
    low, high = _FIBRE_OF_COCOA
    of_cocoa = not listed.may_hold("fibre", "nut", "fruit", "starch", "dextrin")
    by_fibre = ends["fibre"][0] / high if of_cocoa else 0.0, ends["fibre"][1] / low
    printed, butter = _printed(known), ends["cocoa_butter"]
    by_percentage = max(printed[0] - butter[1], 0.0), max(printed[1] - butter[0], 0.0)
    return _within(by_fibre, by_percentage)


def _within(ends, others):
    """Where both hold; where they are at odds, all that either leaves open."""
    low, high = max(ends[0], others[0]), min(ends[1], others[1])
    return (low, high) if low <= high else (min(ends[0], others[0]), max(ends[1], others[1]))


def _plus(one, other):
    return one[0] + other[0], one[1] + other[1]


def _milk(fat, lactose, whey):
    """Fat, lactose, protein and ash of milk; lactose that may be whey's brings no protein of a known amount."""
    low, high = (lactose[0] / _LACTOSE_OF_PROTEIN[1], lactose[1] / _LACTOSE_OF_PROTEIN[0])
    least = 0.0 if whey else low * (1 + _ASH_OF_PROTEIN[0])
    return fat[0] + lactose[0] + least, fat[1] + lactose[1] + high * (1 + _ASH_OF_PROTEIN[1])
