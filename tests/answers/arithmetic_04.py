"""Lesson 04 again in plain arithmetic: numbers of exercise_values.csv in, a number or an option's name out.

Nothing here calls the package. `ANSWERS` holds the answers, `ON_THE_WAY` what the worked solution shows before them,
as (number, unit), `WRITTEN` what is said of an option, as words that must stand in it, `TABLES` the rows of the table.
Shares come and go in percent, as the file of values has them.
"""

import math

from dissolved import SUCROSE, WATER, activity, alone, beside, root

UPTAKE = WATER / SUCROSE  # C12H22O11 + H2O = 2 C6H12O6

# --- honey for invert ---------------------------------------------------------------------------------------------


def honey_for_invert(syrup, syrup_solids, honey_solids):
    return syrup * syrup_solids / honey_solids


def _honey_for_invert_shown(syrup, syrup_solids, honey_solids):
    return {"dry": (syrup * syrup_solids / 100, "g"), "points": (honey_solids - syrup_solids, "")}


# --- which honey grains -------------------------------------------------------------------------------------------


def _jars(given):
    """Glucose over water of the first, second and third jar: with `shelf` 1 the second sample stands first, and so on."""
    samples = [given[f"{n}_glucose"] / given[f"{n}_water"] for n in ("one", "two", "three")]
    first = int(given["shelf"])
    return dict(zip(("first", "second", "third"), samples[first:] + samples[:first], strict=True))


def which_honey_grains(**given):
    """Glucose crystallises and water holds it (White et al. 1962): the jar with most glucose to its water."""
    return sorted((ratio, jar) for jar, ratio in _jars(given).items())[-1][1]


def _which_honey_grains_shown(**given):
    shown = {f"ratio_{jar}": (round(ratio, 2), "") for jar, ratio in _jars(given).items()}
    return shown | {"stays": (1.7, ""), "grains": (2.1, "")}  # White et al. 1962, USDA Technical Bulletin 1261


def _which_honey_grains_said(**given):
    """What misleads in a jar: the most glucose among its sugars, the least water to all of them."""
    samples = ("one", "two", "three")
    first = int(given["shelf"])
    at = dict(zip(("first", "second", "third"), samples[first:] + samples[:first], strict=True))
    most = max(at, key=lambda jar: given[f"{at[jar]}_glucose"] / given[f"{at[jar]}_fructose"])
    thick = max(
        at, key=lambda jar: (given[f"{at[jar]}_glucose"] + given[f"{at[jar]}_fructose"]) / given[f"{at[jar]}_water"]
    )
    said = {jar: [f"It holds {ratio:.2f} g"] for jar, ratio in _jars(given).items()}
    said[most].append("Among its sugars it has the most glucose")
    said[thick].append("It is the thickest")
    return {f"about_{jar}": tuple(words) for jar, words in said.items()}


def _which_honey_grains_table(**given):
    samples = ("one", "two", "three")
    rows = [[f"{given[f'{n}_{part}']:.1f}" for part in ("glucose", "fructose", "water")] for n in samples]
    first = int(given["shelf"])
    return [(jar, *row) for jar, row in zip(("first", "second", "third"), rows[first:] + rows[:first], strict=True)]


# --- water for an invert syrup ------------------------------------------------------------------------------------


def water_for_invert(syrup, solids, inverted):
    """Nothing leaves the pan: what is not sugar at the start is water. A kilogram is 1000 g."""
    sucrose = 1000 * syrup * solids / 100 / (1 + UPTAKE * inverted / 100)
    return 1000 * syrup - sucrose


def _water_for_invert_shown(syrup, solids, inverted):
    sucrose = 1000 * syrup - water_for_invert(syrup, solids, inverted)
    return {
        "uptake": (1000 * UPTAKE, "mg"),
        "sugars": (10 * syrup * solids, "g"),
        "left": (10 * syrup * (100 - solids), "g"),
        "sucrose": (sucrose, "g"),
        "taken": (10 * syrup * solids - sucrose, "g"),
    }


# --- the polarimeter ----------------------------------------------------------------------------------------------

# Specific rotations, handbook values at 20 degC and the sodium D line; invert sugar is half of each (Zerban 1925).
TURNS = {"sucrose": 66.5, "glucose": 52.2, "fructose": -92.0}


def _end(before):
    """Where a reading ends once every gram of sucrose has become 1.0526 g of invert sugar."""
    invert = (TURNS["glucose"] + TURNS["fructose"]) / 2
    return before / TURNS["sucrose"] * (1 + UPTAKE) * invert


def degree_from_rotation(before, now):
    return (before - now) / (before - _end(before))


def _degree_from_rotation_shown(before, now):
    return {name: (turn, "") for name, turn in TURNS.items()} | {
        "invert": (-19.9, ""),
        "total": (-39.8, ""),
        "gain": (1.0526, ""),
        "end": (round(_end(before), 2), ""),
        "way": (round(before - _end(before), 2), ""),
        "gone": (before - now, ""),
    }


# --- boiling in the mountains -------------------------------------------------------------------------------------

# Wagner & Pruss 1993, J. Phys. Chem. Ref. Data 22:783: vapour pressure of water, an equation of another form than the
# one the package takes (IAPWS-IF97); the two agree within 0.01 %, 0.003 K.
_WAGNER = (-7.85951783, 1.84408259, -11.7866497, 22.6807411, -15.9618719, 1.80122502)
_POWERS = (1, 1.5, 3, 3.5, 4, 7.5)
_SEA = 101.325  # kPa, the standard atmosphere


def _steam(celsius):
    """kPa at which water boils at a temperature."""
    kelvin = celsius + 273.15
    rest = 1 - kelvin / 647.096
    total = sum(a * rest**power for a, power in zip(_WAGNER, _POWERS, strict=True))
    return 22064 * math.exp(647.096 / kelvin * total)


def _wet(x, celsius):
    """Water activity of sucrose at a mole fraction x: Starzak & Peacock 1997, Zuckerindustrie 122:380."""
    pull = -17638 / (8.314462618 * (celsius + 273.15)) * x**2 * (1 - 1.0038 * x - 0.24653 * x**2)
    return (1 - x) * math.exp(pull)


def _sugar_by_moles(recipe_at):
    """Mole fraction of sucrose in the syrup that boils at a reading at the coast."""
    return root(lambda x: _SEA - _wet(x, recipe_at) * _steam(recipe_at), 0, 0.7)


def boil_in_the_mountains(recipe_at, water_at):
    x, air = _sugar_by_moles(recipe_at), _steam((water_at - 32) / 1.8)
    return root(lambda t: _wet(x, t) * _steam(t) - air, 60, 200)


def _boil_in_the_mountains_shown(recipe_at, water_at):
    x = _sugar_by_moles(recipe_at)
    return {
        "coast": (212, "degF"),
        "celsius": ((212 - water_at) / 1.8, "delta_degC"),
        "fahrenheit": (212 - water_at, "delta_degF"),
        "step": (180 / 100, ""),
        "about": (recipe_at - (212 - water_at) * 100 / 180, "degC"),
        "solids": (100 * SUCROSE * x / (SUCROSE * x + WATER * (1 - x)), "percent"),
    }


# --- which syrup --------------------------------------------------------------------------------------------------

# Per 100 g as in ingredients.csv: a 77 % invert syrup, 95 parts inverted; a 42 DE syrup at 80 % solids (from memory).
SYRUPS = {
    "honey": {"sucrose": 0.89, "glucose": 35.75, "fructose": 40.94, "maltose": 4.54, "water": 17.1},
    "invert": {"sucrose": 3.84, "glucose": 36.53, "fructose": 36.53, "water": 23},
    "glucose": {"glucose": 15.94, "maltose": 11.16, "higher": 52.6, "water": 20},
}
# Middle of the published sweetness, sucrose 1: Gaman & Sherrington 1990 and others; see the table in the lesson.
SWEET = {"sucrose": 1, "glucose": 0.70, "fructose": 1.45, "maltose": 0.315, "higher": 0.35}
# Grams that a gram of water holds at 14 degC or more, each sugar by itself, at the least: Jackson & Silsbee 1922 for
# glucose less a tenth, Gillis for maltose, handbooks from memory for fructose.
HELD = {"glucose": 0.69, "maltose": 0.70, "fructose": 2.9}


def filling(syrup, water, sugar, store, replaced):
    """(grams of syrup, its water, supersaturation, sweetness, water activity) with part of the sugar replaced dry for dry."""
    dry = math.floor(sugar * replaced / 100 + 0.5)
    parts = SYRUPS[syrup]
    solids = sum(share for name, share in parts.items() if name != "water")
    grams = dry * 100 / solids
    sugars = {name: grams * share / 100 for name, share in parts.items() if name != "water"}
    sweet = sum(SWEET[name] * mass for name, mass in sugars.items()) / dry
    sugars["sucrose"] = sugars.get("sucrose", 0) + sugar - dry
    others = {name: 100 * mass / water for name, mass in sugars.items() if name != "sucrose"}
    over = 100 * sugars["sucrose"] / water / beside(store, others)
    assert all(mass / 100 < HELD[name] for name, mass in others.items() if name in HELD), "another sugar would grain"
    return grams, grams * parts["water"] / 100, over, 1 + replaced / 100 * (sweet - 1), activity(water, sugars)


def as_it_is(water, sugar, store):
    """The same without a syrup; what the water does not hold at 25 degC, where Norrish's rule stands, is left out."""
    dissolved = min(sugar, alone(25) * water / 100)
    return 0, 0, 100 * sugar / water / alone(store), 1, activity(water, {"sucrose": dissolved})


def _ways(water, sugar, store, replaced):
    return {
        "leave it": as_it_is(water, sugar, store),
        "invert syrup": filling("invert", water, sugar, store, replaced),
        "glucose syrup": filling("glucose", water, sugar, store, replaced),
    }


def which_syrup(water, sugar, store, replaced, sweetest):
    """Honey tastes of itself. Of what does not grain by more than the sum's 5 % and is not too sweet, the driest."""
    ways = _ways(water, sugar, store, replaced)
    fit = {way: seen[4] for way, seen in ways.items() if seen[2] * 1.05 < 1 and seen[3] <= sweetest / 100}
    return sorted(fit, key=fit.get)[0]


def _which_syrup_shown(water, sugar, store, replaced, sweetest):
    dry = math.floor(sugar * replaced / 100 + 0.5)
    seen = {"as_it_is": as_it_is(water, sugar, store)}
    seen |= {name: filling(name, water, sugar, store, replaced) for name in SYRUPS}
    shown = {"dry": (dry, "g"), "before": (round(seen["as_it_is"][2], 2), "")}
    for name, (grams, wet, over, sweet, aw) in seen.items():
        shown |= {f"{name}.mass": (grams, "g"), f"{name}.water": (wet, "g"), f"{name}.sweetness": (sweet, "")}
        shown |= {f"{name}.graining.supersaturation": (over, ""), f"{name}.activity": (aw, "")}
    for name in SYRUPS:
        shown |= {f"{name}_mass": (round(seen[name][0]), "g"), f"{name}_water": (round(seen[name][1]), "g")}
    return shown | {"true_dry": (round(dry * dry / shown["invert_mass"][0]), "g")}


def _up(activity):
    """A water activity with two decimals, never below itself."""
    return f"{math.ceil(100 * activity) / 100:.2f}"


def _which_syrup_said(water, sugar, store, replaced, sweetest):
    """Beyond what the water holds; within 5 % of it; too sweet; the driest of the rest; or not the driest."""
    ways, best = _ways(water, sugar, store, replaced), which_syrup(water, sugar, store, replaced, sweetest)
    said = {}
    for way, (_, _, over, sweet, aw) in ways.items():
        if over >= 1:
            said[way] = (f"supersaturation {over:.2f}.", "Sooner or later it grains")
        elif over * 1.05 >= 1:
            said[way] = (f"Supersaturation {over:.2f} is so near to one", "cannot tell")
        elif sweet > sweetest / 100:
            said[way] = (f"It would be {100 * sweet:.0f} % as sweet", f"allowed is {sweetest:.0f} %")
        elif way == best:
            said[way] = (f"{over:.2f}, {100 * sweet:.0f} % as sweet", f"about {_up(aw)}", "the lowest of what is left")
        else:
            said[way] = ("lower water activity", f"{_up(ways[best][4])} against {_up(aw)}")
    return {"about_as_it_is": said["leave it"]} | {
        f"about_{name}": said[way] for way, name in (("invert syrup", "invert"), ("glucose syrup", "glucose"))
    }


def _which_syrup_table(water, sugar, store, replaced, sweetest):
    rows = {"no syrup": as_it_is(water, sugar, store)}
    rows |= {name: filling(name, water, sugar, store, replaced) for name in SYRUPS}
    return [(name, f"{over:.2f}", f"{100 * sweet:.0f} %", _up(aw)) for name, (_, _, over, sweet, aw) in rows.items()]


ANSWERS = {
    "04.honey-for-invert": honey_for_invert,
    "04.which-honey-grains": which_honey_grains,
    "04.water-for-invert": water_for_invert,
    "04.degree-from-rotation": degree_from_rotation,
    "04.boil-in-the-mountains": boil_in_the_mountains,
    "04.which-syrup": which_syrup,
}
ON_THE_WAY = {
    "04.honey-for-invert": _honey_for_invert_shown,
    "04.which-honey-grains": _which_honey_grains_shown,
    "04.water-for-invert": _water_for_invert_shown,
    "04.degree-from-rotation": _degree_from_rotation_shown,
    "04.boil-in-the-mountains": _boil_in_the_mountains_shown,
    "04.which-syrup": _which_syrup_shown,
}
WRITTEN = {
    "04.which-honey-grains": _which_honey_grains_said,
    "04.which-syrup": _which_syrup_said,
}
TABLES = {
    "04.which-honey-grains": _which_honey_grains_table,
    "04.which-syrup": _which_syrup_table,
}
