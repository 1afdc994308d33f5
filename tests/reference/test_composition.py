"""Composition: ganaches by mass balance, every row of the table, couvertures against the food standards."""

import pytest

from pastrylab.ground.datasets import COMPONENTS, ingredients
from pastrylab.trade import pantry
from pastrylab.trade.formula import Formula

USDA = "USDA SR28 (2015), NDB "
BALANCE = "mass balance on USDA SR28, NDB {} and 01053; rounding of the table's values, doubled"
CFR = "21 CFR 163, cacao products: "
CODEX = "Codex Standard 87-1981, chocolate: "
EU = "Directive 2000/36/EC, Annex I: "


@pytest.mark.parametrize(
    ("dark", "ndb", "parts", "water", "fat", "sugars"),
    [
        ("dark chocolate 60-69 %", "19903", 1.0, 29.53, 37.20, 19.82),
        ("dark chocolate 60-69 %", "19903", 2.0, 20.10, 37.57, 25.45),
        ("dark chocolate 45-59 %", "19902", 1.5, 23.71, 33.20, 29.91),
    ],
)
@pytest.mark.parametrize("component", ["water", "fat", "sugars"])
def test_ganache_by_mass_balance(outside, dark, ndb, parts, water, fat, sugars, component):
    made = Formula({dark: f"{200 * parts} g", "heavy cream": "200 g"}).composition()
    outside(
        quantity=f"{component} of {dark} : heavy cream {parts:g}:1, %",
        expected={"water": water, "fat": fat, "sugars": sugars}[component],
        got=100 * made[component],
        tolerance=0.02,
        source=BALANCE.format(ndb),
    )


@pytest.mark.parametrize(
    ("name", "ndb", "water", "fat", "sugars", "protein"),
    [
        ("heavy cream", "01053", 57.81, 36.08, 2.92, 2.84),
        ("light whipping cream", "01052", 63.50, 30.91, 2.96, 2.17),
        ("salted butter", "01001", 15.87, 81.11, 0.06, 0.85),
        ("butter", "01145", 17.94, 81.11, 0.06, 0.85),
        ("butter oil", "01003", 0.24, 99.48, 0, 0.28),
        ("dark 45-59%", "19902", 0.97, 31.28, 47.90, 4.88),
        ("dark 60-69%", "19903", 1.25, 38.31, 36.71, 6.12),
        ("dark 70-85%", "19904", 1.37, 42.63, 23.99, 7.79),
        ("milk chocolate", "19120", 1.50, 29.66, 51.50, 7.65),
        ("cocoa powder", "19165", 3.00, 13.70, 1.75, 19.60),
        ("honey", "19296", 17.10, 0, 82.12, 0.30),
        ("granulated sugar", "19335", 0.02, 0, 99.80, 0),
        ("powdered sugar", "19336", 0.23, 0, 97.81, 0),
        ("sweetened condensed milk", "01095", 27.16, 8.70, 54.40, 7.91),
    ],
)
def test_rows_as_usda_prints_them(outside, name, ndb, water, fat, sugars, protein):
    got = Formula({name: "100 g"}).composition()
    for component, expected in {"water": water, "fat": fat, "sugars": sugars, "protein": protein}.items():
        outside(
            quantity=f"{component} of {name}, %",
            expected=expected,
            got=100 * got[component],
            tolerance=0.011,
            source=USDA + ndb + "; last digit printed",
        )


def test_light_corn_syrup_is_not_taken_for_pure_sugar(outside):
    """The 76.77 g of sugars printed for NDB 19350 were set from its carbohydrate; chains are no sugars."""
    got = Formula({"light corn syrup": "100 g"}).composition()
    outside(
        quantity="glucose + maltose in the solids of light corn syrup, %",
        expected=34.5,
        got=100 * got["sugars"] / got["solids"],
        tolerance=5.5,
        source="corn syrup of regular conversion, 38-47 DE: 29-40 % glucose and maltose in solids",
    )


@pytest.mark.parametrize("nominal", [40, 42, 60, 62])
def test_glucose_syrup_profiles_hold_their_dextrose_equivalent(nominal):
    """By definition a chain of n glucose units has a DE of 100 x 180.156/(162.14 n + 18.02).

    The profile is right only if the nominal DE lies between that of endless long chains and that of chains
    of three.
    """
    row = ingredients()[f"glucose syrup DE {nominal}"]
    solids = 1 - row["water"]

    def de(part, n):
        return row[part] / solids * 100 * 180.156 / (162.14 * n + 18.02)

    short = de("glucose", 1) + de("maltose", 2)
    assert short < nominal < short + de("higher_saccharides", 3)


@pytest.mark.parametrize("name", ingredients())
def test_every_row_closes_to_100(outside, name):
    reason = pantry.facts()[name]["closes_reason"]
    outside(
        quantity=f"sum of components of {name}",
        expected=100,
        got=100 * sum(ingredients()[name][part] for part in COMPONENTS),
        tolerance=1 if reason else 0.1,
        source="conservation of mass" + (f"; {reason}" if reason else ""),
    )


# --- the label rule, solved again here from its published inputs ----------------------------------

LECITHIN_AND_VANILLA = 0.5
FAT_FREE_COCOA = {"water": 0.028, "protein": 0.227, "fibre": 0.345, "starch": 0.128, "ash": 0.071}


def _named(kind):
    return [name for name in ingredients() if name.startswith(f"{kind} couverture")]


def _label(name):
    words = name.split()
    fat = pantry.facts()[name]["note"].split("fat ")[1].split(",")[0]
    return float(words[2]), float(fat)


@pytest.mark.parametrize("name", _named("dark"))
def test_dark_couverture_from_its_label(outside, name):
    cocoa, fat = _label(name)
    butter = fat - 0.8 * LECITHIN_AND_VANILLA
    dry = cocoa - butter
    expected = {part: share * dry for part, share in FAT_FREE_COCOA.items()}
    expected |= {"cocoa_butter": butter, "sucrose": 100 - cocoa - LECITHIN_AND_VANILLA + 0.019 * dry}
    for part, value in expected.items():
        outside(
            quantity=f"{part} of {name}",
            expected=value,
            got=100 * ingredients()[name][part],
            tolerance=0.03,
            source="label arithmetic on USDA SR28, NDB 19078, 19165, 19166",
        )


@pytest.mark.parametrize("name", [*_named("milk"), *_named("white")])
def test_milk_in_couverture_keeps_the_proportions_of_milk_powder(outside, name):
    """Whole powder (NDB 01212): fat 26.71, lactose 38.42; skim (NDB 01091): fat 0.77, lactose 51.98."""
    row = {part: 100 * share for part, share in ingredients()[name].items()}
    cocoa, fat = _label(name)
    skim = max(0.0, row["lactose"] - row["milk_fat"] * 38.42 / 26.71) / 51.98 * 100
    whole = (row["milk_fat"] - 0.0077 * skim) / 0.2671
    outside(
        quantity=f"sucrose of {name}, g",
        expected=100 - cocoa - LECITHIN_AND_VANILLA - whole - skim,
        got=row["sucrose"],
        tolerance=0.4,
        source="label arithmetic on USDA SR28, NDB 01212 and 01091",
    )


def _cocoa(name):
    """(cocoa butter, fat-free cocoa) in g per 100 g; a label's cocoa percentage is the two together."""
    butter = 100 * ingredients()[name]["cocoa_butter"]
    return butter, _label(name)[0] - butter


@pytest.mark.parametrize("name", _named("dark"))
def test_dark_couverture_meets_the_standards(name):
    butter, dry = _cocoa(name)
    whole = 100 - 100 * ingredients()[name]["water"]
    assert 100 * (butter + dry) / whole >= 35, CODEX + "2.1.1, total cocoa solids on the dry basis"
    assert 100 * butter / whole >= 18, CODEX + "2.1.1, cocoa butter on the dry basis"
    assert 100 * dry / whole >= 14, CODEX + "2.1.1, fat-free cocoa solids on the dry basis"
    assert us_liquor(dry) >= 35, CFR + "163.123(a)(3), chocolate liquor of semisweet chocolate"
    assert butter >= 31 and dry >= 2.5, EU + "couverture"


@pytest.mark.parametrize("name", _named("milk"))
def test_milk_couverture_meets_the_standards(name):
    row = {part: 100 * share for part, share in ingredients()[name].items()}
    butter, dry = _cocoa(name)
    milk = row["milk_fat"] / 0.2671 * (1 - 0.0247)
    assert row["milk_fat"] >= 3.39, CFR + "163.130(a), milkfat"
    assert milk >= 14, EU + "dry milk solids of milk chocolate (US 163.130: 12)"
    assert dry >= 2.5 and butter + dry >= 25 and row["fat"] >= 25, EU + "milk chocolate"
    assert row["milk_fat"] >= 3.5, EU + "milk fat of milk chocolate"


def test_us_liquor_of_milk_couvertures():
    """21 CFR 163.130(a): 10 % chocolate liquor or more. A butter-rich 33 % is EU milk chocolate only."""
    liquor = {name: us_liquor(_cocoa(name)[1]) for name in _named("milk")}
    enough = {name for name, share in liquor.items() if share >= 10}
    assert enough == {"milk couverture 38 %", "milk couverture 41 %"}
    assert "US" in pantry.facts()["milk couverture 33 %"]["note"]


@pytest.mark.parametrize("name", _named("white"))
def test_white_couverture_meets_the_standards(name):
    row = {part: 100 * share for part, share in ingredients()[name].items()}
    solids_without_lactose = row["protein"] + row["ash"]
    assert row["cocoa_butter"] >= 20, CFR + "163.124 and Codex 87, cacao fat"
    assert row["milk_fat"] >= 3.5, CFR + "163.124, milkfat"
    assert row["milk_fat"] + row["lactose"] + solids_without_lactose >= 14, CFR + "163.124, total milk solids"
    assert row["sucrose"] <= 55, CFR + "163.124, nutritive carbohydrate sweetener at most"


def us_liquor(fat_free_cocoa):
    """Chocolate liquor as 21 CFR 163 counts it: (liquor less its cacao fat) x 2.2, per cent of the whole."""
    return 2.2 * fat_free_cocoa


def test_us_chocolate_liquor_of_a_semisweet(outside):
    liquor, its_fat = 35.0, 0.52
    outside(
        quantity="chocolate liquor, 35 g of 52 % fat in 100 g, %",
        expected=36.96,
        got=us_liquor(liquor * (1 - its_fat)),
        tolerance=0.01,
        source=CFR + "163.123(a)(2)",
    )


def test_creams_and_butters_reach_their_us_minimum_of_milk_fat():
    least = {
        "heavy cream 36 %": (36, "21 CFR 131.150"),
        "light whipping cream 31 %": (30, "21 CFR 131.157"),
        "table cream 19 %": (18, "21 CFR 131.155"),
        "butter unsalted": (80, "21 USC 321a"),
        "butter 82 %": (82, "Reg. (EU) 1272/2009, Annex IV"),
    }
    for name, (percent, source) in least.items():
        assert 100 * ingredients()[name]["milk_fat"] >= percent, source


def test_invert_syrups_against_the_eu_definition():
    """Directive 2001/111/EC: dry matter at least 62 %; over 50 % of it invert is an invert sugar syrup."""
    for name in (n for n in ingredients() if "invert" in n):
        row = ingredients()[name]
        solids = 1 - row["water"]
        assert solids >= 0.62, name
        assert (row["glucose"] + row["fructose"]) / solids > 0.5, name
        assert row["glucose"] == pytest.approx(row["fructose"]), "one glucose to each fructose"


def test_honey_against_the_eu_standard():
    """Directive 2001/110/EC, Annex II: fructose and glucose 60 or more, sucrose up to 5, water up to 20 %."""
    row = {part: 100 * share for part, share in ingredients()["honey"].items()}
    assert row["fructose"] + row["glucose"] >= 60 and row["sucrose"] <= 5 and row["water"] <= 20


_ALLERGENS = ("allergens_us", "allergens_eu")
_BY_KIND = {"tree nuts", "nuts", "fish", "crustacean shellfish", "crustaceans", "cereals containing gluten"}


def test_the_allergen_lists_are_the_laws(outside):
    outside(
        quantity="major food allergens of US law",
        expected=9,
        got=len(set(pantry.US_ALLERGENS)),
        tolerance=0,
        source="FALCPA 2004 and FASTER Act 2021 (sesame from 2023-01-01)",
    )
    outside(
        quantity="declarable allergens of EU law",
        expected=14,
        got=len(set(pantry.EU_ALLERGENS)),
        tolerance=0,
        source="Regulation (EU) 1169/2011, Annex II",
    )
    facts = pantry.facts()
    same = dict(zip(pantry.US_ALLERGENS, ("milk", "eggs", "fish", "crustaceans", "nuts", "peanuts"), strict=False))
    same |= {"wheat": "cereals containing gluten", "soybeans": "soybeans", "sesame": "sesame"}
    for name, row in facts.items():
        us, eu = ([word.partition(" (")[0] for word in row[column]] for column in _ALLERGENS)
        assert {same[word] for word in us} == set(eu), name


def test_a_nut_goes_by_its_own_name(outside):
    """FALCPA 2004, 21 USC 343(w)(2): for tree nuts, fish and crustaceans the specific kind. EU 1169/2011, Annex II, 8."""
    facts = pantry.facts()
    for name, us, eu in (
        ("hazelnut praline", "tree nuts (hazelnuts)", "nuts (hazelnuts)"),
        ("almond flour", "tree nuts (almonds)", "nuts (almonds)"),
        ("pistachio paste", "tree nuts (pistachios)", "nuts (pistachios)"),
        ("cake flour", "wheat", "cereals containing gluten (wheat)"),
    ):
        row = facts[pantry.ingredient_name(name)]
        outside(
            quantity=f"allergen of {name}, as US and EU labels name it",
            expected=f"{us}; {eu}",
            got="; ".join((*row["allergens_us"], *row["allergens_eu"])),
            tolerance="exact",
            source="FALCPA 2004, 21 USC 343(w)(2); Regulation (EU) 1169/2011, Annex II (from memory)",
        )
    bare = [word for row in facts.values() for column in _ALLERGENS for word in row[column] if word in _BY_KIND]
    assert bare == []
