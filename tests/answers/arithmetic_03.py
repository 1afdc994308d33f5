"""Lesson 03 again in plain arithmetic: numbers of exercise_values.csv in, a number or an option's name out.

Nothing here calls the package. `ANSWERS` holds the answers, `ON_THE_WAY` what the worked solution shows before them, as
(number, unit), `WRITTEN` the first number of what it shows as text. Shares are in percent, as in the file of values.
"""

import math

# Percent of an ingredient, USDA SR28: NDB 01053, 01145, 01151; couverture from its label by the rule of SOURCES.md.
# "dry" is protein, starch, fibre, ash and what the table calls other.
CREAM = {"water": 57.81, "fat": 36.08, "sugar": 2.92, "dry": 2.84 + 0.53}
BUTTER = {"water": 17.94, "fat": 81.11, "sugar": 0.06, "dry": 0.85 + 0.09}
MILK = {"water": 90.84, "fat": 0.08, "sugar": 5.09, "dry": 3.37 + 0.75}
DARK = {"water": 0.69, "fat": 40.0, "sugar": 35.97, "dry": 5.54 + 3.13 + 8.43 + 1.74 + 4.51}

# --- chocolate to liquid ------------------------------------------------------------------------------------------


def chocolate_to_liquid(chocolate, cream, puree, **left_out):
    return chocolate / (cream + puree)


def _chocolate_to_liquid_shown(chocolate, cream, puree, syrup, butter):
    return {
        "made.total_grams": (chocolate + cream + puree + syrup + butter, ""),
        "liquid": (cream + puree, "g"),
        "soft": (syrup + butter, "g"),
        "cream_water": (57.8 * cream / 100, "g"),  # the tenth of a percent that the page shows
    }


# --- water of the whole -------------------------------------------------------------------------------------------


def _water(chocolate, cream, butter):
    return (DARK["water"] * chocolate + CREAM["water"] * cream + BUTTER["water"] * butter) / 100


def water_of_the_whole(chocolate, cream, butter):
    return _water(chocolate, cream, butter) / (chocolate + cream + butter)


def _water_of_the_whole_shown(chocolate, cream, butter):
    whole = chocolate + cream + butter
    return {
        "in_chocolate": (0.7, "percent"),
        "in_cream": (57.8, "percent"),
        "in_butter": (17.9, "percent"),
        "total": (whole, "g"),
        "made.water": (_water(chocolate, cream, butter) / whole, ""),
        "water": (_water(chocolate, cream, butter), "g"),
        "creams": (57.8 * cream / 100, "g"),
    }


# --- boiled cream -------------------------------------------------------------------------------------------------


def boiled_cream(pan, cream, lost):
    return CREAM["fat"] / 100 * cream / (pan + cream - lost - pan)


def _boiled_cream_shown(pan, cream, lost):
    fat = CREAM["fat"] / 100
    return {
        "made.lost": (lost, "g"),
        "made.fat_before": (fat, ""),
        "made.fat_now": (boiled_cream(pan, cream, lost), ""),
        "made.fat_creamed": ((fat * cream + fat * lost) / cream, ""),
        "full": (pan + cream, "g"),
        "boiled": (pan + cream - lost, "g"),
        "fat": (36.08, "percent"),
        "held": (36.08 * cream / 100, "g"),
        "left": (cream - lost, "g"),
    }


# --- cream for an infusion ----------------------------------------------------------------------------------------


def cream_for_an_infusion(wanted, leaves, kept, steam):
    """Of 100 parts of cream, the tea keeps so many and steam takes so many; the rest is what is wanted."""
    return 100 * wanted / (100 - kept * leaves - steam)


def _cream_for_an_infusion_shown(wanted, leaves, kept, steam):
    start = cream_for_an_infusion(wanted, leaves, kept, steam)
    return {
        "in_tea": (kept * leaves, "percent"),
        "left_share": (100 - kept * leaves - steam, "percent"),
        "start.liquid": (start, "g"),
        "start.leaves": (start * leaves / 100, "g"),
        "start.low": (start, "g"),
        "start.high": (start, "g"),
        "tea": (start * leaves / 100, "g"),
        "tea_keeps": (start * leaves * kept / 100, "g"),
        "gone": (start - wanted - start * leaves * kept / 100, "g"),
        "cream": (start, "g"),
    }


# --- how warm the cream -------------------------------------------------------------------------------------------

CHOCOLATE_HEAT = 1.59  # J to a gram and a degree; Beckett (ed.), 4th ed. 2009, pp. 667-668
# Choi & Okos 1986 (coefficients from memory): percent in cream, then a, b, c of a + b T + c T^2 in J/(g K).
CREAM_HEAT = (
    (57.81, 4.1762, -9.0864e-5, 5.4731e-6),  # water
    (36.08, 1.9842, 1.4733e-3, -4.8008e-6),  # fat
    (2.84, 2.0082, 1.2089e-3, -1.3129e-6),  # protein
    (2.92, 1.5488, 1.9625e-3, -5.9399e-6),  # lactose
    (0.53, 1.0926, 1.8896e-3, -3.6817e-6),  # ash
)


def _cream_heat(degrees):
    held = sum(percent * (a + degrees * (b + degrees * c)) for percent, a, b, c in CREAM_HEAT)
    return held / sum(percent for percent, *_ in CREAM_HEAT)


def how_warm_the_cream(chocolate, chocolate_at, cream, target):
    return target + chocolate * CHOCOLATE_HEAT * (target - chocolate_at) / (cream * _cream_heat(target))


def _how_warm_the_cream_shown(chocolate, chocolate_at, cream, target):
    return {
        "c_chocolate": (CHOCOLATE_HEAT, "kJ/(kg*K)"),
        "c_cream": (_cream_heat(target), "kJ/(kg*K)"),
        "rise": (target - chocolate_at, "delta_degC"),
        "needed": (chocolate * CHOCOLATE_HEAT * (target - chocolate_at), "J"),
        "fall": (how_warm_the_cream(chocolate, chocolate_at, cream, target) - target, "delta_degC"),
    }


# --- cooled in time -----------------------------------------------------------------------------------------------

HOT, MIDDLE = 57, 21  # degC, within two hours: FDA Food Code 3-501.14(A)


def cooled_in_time(around, halving):
    """Newton's law of cooling: e to the -t / tau, and the half is reached after tau times ln 2."""
    return halving / math.log(2) * (math.log(HOT - around) - math.log(MIDDLE - around))


def _cooled_in_time_shown(around, halving):
    return {
        "hot": (HOT, "degC"),
        "middle": (MIDDLE, "degC"),
        "limit": (120, "min"),
        "first_excess": (HOT - around, "delta_degC"),
        "last_excess": (MIDDLE - around, "delta_degC"),
        "halvings": (cooled_in_time(around, 1), ""),
    }


# --- a split bowl -------------------------------------------------------------------------------------------------

# The card to pipe and the crowding of spheres heaped at random: teaching bands, from memory.
WATER, MOST_FAT, CROWDED = (16, 23), 40, 64
WARM = 40  # degC, where a ganache is made


def _bowl(chocolate, cream, butter, milk=0):
    """Percent of water and fat, and of the volume that is droplets and particles. All of the sugar is dissolved: at most
    1.5 g to a gram of water here, which holds 2.3 g at 40 degC (CRC Handbook, Herzfeld's series).

    Densities at 40 degC: fat 0.895 g/mL (Beckett 1999), water 0.992 (IAPWS), dissolved sugar 0.62 mL/g (CRC Handbook),
    other solids 1.45 g/mL (from memory).
    """
    parts = ((DARK, chocolate), (CREAM, cream), (BUTTER, butter), (MILK, milk))
    held = {name: sum(table[name] * mass for table, mass in parts) for name in DARK}
    assert held["sugar"] < 2.3 * held["water"]
    whole = chocolate + cream + butter + milk
    crowd = held["fat"] / 0.895 + held["dry"] / 1.45
    fluid = held["water"] / 0.992 + held["sugar"] * 0.62
    return held["water"] / whole, held["fat"] / whole, 100 * crowd / (crowd + fluid)


def _ends(chocolate, cream, butter, more, at):
    return {
        "leave it": _bowl(chocolate, cream, butter),
        "cream": _bowl(chocolate, cream + more, butter),
        "butter": _bowl(chocolate, cream, butter + more),
        "skim milk": _bowl(chocolate, cream, butter, more),
    }


def _outside(water, fat, crowd):
    """By how many points a bowl lies outside its card, and beyond what leaves room."""
    return max(WATER[0] - water, 0, water - WATER[1]) + max(fat - MOST_FAT, 0) + max(crowd - CROWDED, 0)


def a_split_bowl(**given):
    """A formula inside its card with room stays; else the addition that ends there, or nearest to it."""
    by = {choice: _outside(*end) for choice, end in _ends(**given).items()}
    return "leave it" if by.pop("leave it") == 0 else min(by, key=by.get)


def _a_split_bowl_shown(**given):
    ends = _ends(**given)
    shown = {f"made.{choice}.water": (water / 100, "") for choice, (water, _, _) in ends.items()}
    shown |= {f"made.{choice}.fat": (fat / 100, "") for choice, (_, fat, _) in ends.items()}
    shown |= {f"made.{choice}.dispersed_share": (crowd / 100, "") for choice, (_, _, crowd) in ends.items()}
    return shown | {
        "card.water.0": (WATER[0] / 100, ""),
        "card.water.1": (WATER[1] / 100, ""),
        "card.fat.1": (MOST_FAT / 100, ""),
        "water_low": (WATER[0], "percent"),
        "water_high": (WATER[1], "percent"),
        "fat_high": (MOST_FAT, "percent"),
        "crowd_high": (CROWDED, "percent"),
        "warm": (WARM, "degC"),
        "cream_fat": (36.1, "percent"),
        "butter_fat": (81.1, "percent"),
    }


def _a_split_bowl_written(**given):
    """The first number of each sentence is its water; a wrong choice is told whether the formula is to blame."""
    water, right = {choice: water for choice, (water, _, _) in _ends(**given).items()}, a_split_bowl(**given)
    names = {"now": "leave it", "creamed": "cream", "buttered": "butter", "milked": "skim milk"}
    told = ("The formula is not to blame",) if right == "leave it" else ("It would be water",)
    wrong = dict.fromkeys(("not_left", "not_cream", "not_butter", "not_milk"), told)
    return {name: water[choice] for name, choice in names.items()} | {"right": water[right]} | wrong


ANSWERS = {
    "03.chocolate-to-liquid": chocolate_to_liquid,
    "03.water-of-the-whole": water_of_the_whole,
    "03.boiled-cream": boiled_cream,
    "03.cream-for-an-infusion": cream_for_an_infusion,
    "03.how-warm-the-cream": how_warm_the_cream,
    "03.cooled-in-time": cooled_in_time,
    "03.a-split-bowl": a_split_bowl,
}
ON_THE_WAY = {
    "03.chocolate-to-liquid": _chocolate_to_liquid_shown,
    "03.water-of-the-whole": _water_of_the_whole_shown,
    "03.boiled-cream": _boiled_cream_shown,
    "03.cream-for-an-infusion": _cream_for_an_infusion_shown,
    "03.how-warm-the-cream": _how_warm_the_cream_shown,
    "03.cooled-in-time": _cooled_in_time_shown,
    "03.a-split-bowl": _a_split_bowl_shown,
}
WRITTEN = {"03.a-split-bowl": _a_split_bowl_written}
