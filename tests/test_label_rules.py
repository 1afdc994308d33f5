"""What is taken for known of each kind of ingredient: every span, share and law as the sources named here have it.

"judgement": common practice, no source; wide on purpose, so that only a slip can move it.
"""

from math import inf

import pytest

from pastrylab.trade.labels.figures import Figure
from pastrylab.trade.labels.rules import AMOUNTS, FAMILIES, rules_of
from pastrylab.trade.labels.words import read_contents

ANYWHERE = (-inf, inf)


def known(rules, **terms):
    """(low, high, typical) of each rule on just this sum of amounts: {amount: factor}."""
    return [(rule.low, rule.high, rule.typical) for rule in rules if dict(rule.parts) == terms]


def rules(kind, contents="", label="EU", cocoa=None, **figures):
    return rules_of(kind, label, figures, cocoa, read_contents(contents))


def by(part, whole, low, typical, high, extra=0.0):
    """A part that is low to high times a whole, and up to `extra` g more: three rules, the typical one a third of it up."""
    return [
        ({part: 1} | ({whole: -low} if low else {}), (0, inf, None)),
        ({part: 1, whole: -high}, (-inf, extra, None)),
        ({part: 1, whole: -typical}, (*ANYWHERE, pytest.approx(extra / 3))),
    ]


def one(part, low, high, typical=None):
    return [({part: 1}, (low, high, typical))]


def nothing(*parts, upto=0.0):
    return [pair for part in parts for pair in one(part, 0, upto, 0)]


DARK, MILK = "cocoa mass, sugar, cocoa butter", "sugar, cocoa butter, whole milk powder, cocoa mass"
LIGHT = "sugar, cocoa butter, skimmed milk powder"

CHOCOLATES = [
    # SR28 has 0.97 to 1.5 g of water in retail bars, couverture is drier.
    ("dark chocolate", DARK, one("water", 0.1, 1.6, 0.7)),
    ("dark chocolate", DARK, nothing("alcohol", "higher_saccharides", "polyols", "milk_protein", "milk_fat")),
    # Lecithin and vanilla: judgement. Other fats: 5 % at most by 2000/36/EC, 6 with the lecithin. With nuts: judgement.
    ("dark chocolate", DARK, one("other_fat", 0, 0.9, 0.4)),
    ("dark chocolate", DARK + ", palm oil", one("other_fat", 0, 6, 0.4)),
    ("dark chocolate", "", one("other_fat", 0, 6, 0.4)),
    ("dark chocolate", DARK + ", hazelnuts", one("other_fat", 0, 40, 0.4)),
    # Traces of glucose and fructose come with cocoa; more only where the list names them: judgement.
    ("dark chocolate", DARK, one("glucose", 0, 1, 0) + one("fructose", 0, 1, 0) + one("maltose", 0, 0.3, 0)),
    ("dark chocolate", DARK + ", honey", one("glucose", 0, 60) + one("fructose", 0, 60) + one("maltose", 0, 60)),
    ("dark chocolate", DARK + ", glucose syrup", one("higher_saccharides", 0, 60, 0) + one("fructose", 0, 1, 0)),
    ("dark chocolate", DARK + ", maltodextrin", one("higher_saccharides", 0, 60, 0)),
    # g in a gram of fat-free cocoa solids, round SR28, NDB 19078, 19165, 19166 (starch: Ciqual 2020, 31074).
    (
        "dark chocolate",
        DARK,
        [
            ({"protein": 1, "milk_protein": -1, "cocoa": -0.20}, (0, inf, None)),
            ({"protein": 1, "milk_protein": -1, "cocoa": -0.30}, (-inf, 0, None)),
            ({"protein": 1, "milk_protein": -1, "cocoa": -0.227}, (*ANYWHERE, 0)),
        ],
    ),
    ("dark chocolate", DARK, by("fibre", "cocoa", 0.29, 0.345, 0.43, 0.05)),
    ("dark chocolate", DARK, by("starch", "cocoa", 0.09, 0.128, 0.26, 0.05)),
    ("dark chocolate", DARK, by("ash", "cocoa", 0.055, 0.071, 0.10, 0.4)),
    ("dark chocolate", DARK, by("other", "cocoa", 0.05, 0.181, 0.24, 0.4)),
    # Milk's ash by its protein, 0.22 to 0.23 in SR28, NDB 01212, 01091; whey brings more.
    *(
        (
            *pack,
            [
                ({"ash": 1, "cocoa": -0.055, "milk_protein": -0.17}, (0, inf, None)),
                ({"ash": 1, "cocoa": -0.10, "milk_protein": -0.28}, (-inf, 1, None)),
                ({"ash": 1, "cocoa": -0.071, "milk_protein": -0.225}, (*ANYWHERE, 0)),
            ],
        )
        for pack in (("milk chocolate", MILK), ("white chocolate", LIGHT), ("dark chocolate", DARK + ", butter oil"))
    ),
    # Dark bars hold 0.4 to 3 g of milk fat (SR28, fatty acids); 4 leaves room, as 1.5 g of milk protein does: judgement.
    ("dark chocolate", DARK, by("lactose", "milk_protein", 0, 1.45, 1.7)),
    ("dark chocolate", DARK + ", butter oil", nothing("milk_protein") + one("milk_fat", 0, 4, 1.5)),
    ("dark chocolate", DARK + ", skimmed milk powder", nothing("milk_protein", upto=1.5) + nothing("milk_fat")),
    ("dark chocolate", DARK + ", whey powder", by("lactose", "milk_protein", 0, 1.45, 1.7, 1.7)),
    ("dark chocolate", DARK + ", whole milk powder", one("milk_fat", 0, 4, 1.5) + one("milk_protein", 0, 1.5, 0)),
    ("dark chocolate", "", one("milk_fat", 0, 4, 0) + one("milk_protein", 0, 1.5, 0)),
    # White chocolate holds cocoa butter and none of cocoa's solids but a trace; fibre is added to some: judgement.
    ("white chocolate", LIGHT, one("cocoa", 0, 0.6, 0) + one("fibre", 0, 3, 0.1)),
    # Milk fat: 3.5 g by 2000/36/EC, 3.39 by 21 CFR 163.130, a tenth of rounding off.
    ("milk chocolate", MILK, one("milk_fat", 3.3, 60)),
    # By milk protein: 26.71 / 26.32 = 1.015 in whole powder (SR28, NDB 01212), next to none in skim; round it, judgement.
    ("milk chocolate", MILK, by("milk_fat", "milk_protein", 0.85, 1.015, 1.2)),
    ("milk chocolate", MILK + ", butter oil", by("milk_fat", "milk_protein", 0.85, 1.2, 2.6)),
    ("white chocolate", LIGHT, by("milk_fat", "milk_protein", 0, 0.75, 1.2)),
    ("white chocolate", LIGHT + ", butter oil", by("milk_fat", "milk_protein", 0, 1.015, 2.6)),
    # Lactose 38.42 / 26.32 = 1.46 of the protein in whole powder (NDB 01212); with whey up to 6 g more: judgement.
    ("milk chocolate", MILK, by("lactose", "milk_protein", 1.3, 1.45, 1.65, 0.3)),
    ("milk chocolate", MILK + ", whey powder", by("lactose", "milk_protein", 1.3, 1.45, 1.65, 6)),
    # Cocoa powder: 3 g of water in SR28, NDB 19165; no more than 7 to 9 by Codex 105-1981 (from memory).
    ("cocoa powder", "cocoa", one("water", 0.5, 7, 3) + one("other_fat", 0, 0.5, 0)),
    (
        "cocoa powder",
        "cocoa",
        nothing(
            *("milk_fat", "milk_protein", "lactose", "maltose", "glucose", "fructose", "polyols", "alcohol"),
            "higher_saccharides",
            upto=0.1,
        ),
    ),
    ("cocoa powder", "cocoa", by("ash", "cocoa", 0.055, 0.071, 0.10, 0.4)),
]

DAIRIES = [
    ("cream", "cream", nothing("cocoa_butter", "cocoa", "alcohol", "polyols", "other_fat")),
    # Sugar, if none is listed, is lactose.
    ("cream", "cream", nothing("sucrose", "glucose", "fructose", "maltose")),
    # A stabiliser is a tenth of a gram or so, starch up to 3 g: judgement.
    ("cream", "cream", nothing("fibre", "starch", "higher_saccharides", upto=0.1)),
    ("cream", "cream, carrageenan", nothing("fibre", "starch", "higher_saccharides", upto=0.4)),
    *(("cream", f"cream, {more}", nothing("fibre", "starch", upto=3)) for more in ("starch", "pectin", "strawberry")),
    ("cream", "cream, maltodextrin", nothing("higher_saccharides", upto=40) + nothing("fibre", upto=3)),
    ("milk", "milk, glucose syrup", nothing("higher_saccharides", upto=40)),
    ("cream", "cream", one("other", 0, 0.6, 0)),
    ("cream", "cream, carrageenan", one("other", 0, 1.2, 0)),
    ("cream", "cream, palm oil", one("other_fat", 0, 100, 0)),
    ("cream", "cream", [({"protein": 1, "milk_protein": -1}, (0, 0, 0))]),
    ("cream", "cream, gelatin", [({"protein": 1, "milk_protein": -1}, (0, 1, 0))]),
    # Ash by milk protein: 0.72 / 3.15 = 0.23 in milk (SR28, NDB 01211), less in cream; salted butter has more: judgement.
    ("cream", "cream", [({"ash": 1, "milk_protein": -0.1}, (0, inf, None))]),
    ("cream", "cream", [({"ash": 1, "milk_protein": -0.28}, (-inf, 0.6, None))]),
    ("butter", "cream", [({"ash": 1, "milk_protein": -0.28}, (-inf, 3, None))]),
    ("cream", "cream", [({"ash": 1, "milk_protein": -0.2}, (*ANYWHERE, 0))]),
    # Codex 207-1999: at most 5 % of water in milk powders (from memory), a gram more for open bags.
    ("milk powder", "milk", one("water", 0, 6, 3.5)),
    # Lactose of milk protein: 1.03 in cream, 1.6 in milk (SR28, NDB 01053, 01211), and what lies round it.
    ("milk", "milk, sugar", by("lactose", "milk_protein", 0.9, 1.45, 1.75, 0.3)),
    ("milk", "milk, sugar", nothing("glucose", "fructose", "maltose")),
]

OTHERS = [
    ("sugar", "sugar", nothing("alcohol", "polyols", "milk_fat", "milk_protein", "lactose", "cocoa_butter", "cocoa")),
    ("other", "flour", nothing("alcohol", "milk_fat", "milk_protein", "lactose", "cocoa_butter", "cocoa")),
    # Of the fat beside cocoa 0.6 is cocoa butter, 0.2 beside nuts and other fats: judgement.
    ("other", "cocoa, flour", [({"cocoa_butter": 1, "fat": -0.6}, (*ANYWHERE, 0))]),
    ("other", "", [({"cocoa_butter": 1, "fat": -0.6}, (*ANYWHERE, 0))]),
    ("nut paste", "hazelnuts, cocoa", [({"cocoa_butter": 1, "fat": -0.2}, (*ANYWHERE, 0))]),
    ("other", "palm oil, cocoa", [({"cocoa_butter": 1, "fat": -0.2}, (*ANYWHERE, 0))]),
    ("other", "flour", one("ash", 0, 6)),
    # Milk in something else, by its protein; butter and cream bring fat without it: judgement round SR28, NDB 01212.
    ("other", "milk, flour", [({"milk_protein": 1, "protein": -1}, (-inf, 0, None))]),
    ("other", "milk, flour", by("lactose", "milk_protein", 0, 1.45, 1.75, 0.5)),
    ("other", "whey, flour", by("lactose", "milk_protein", 0, 1.45, 1.75, 60)),
    ("other", "milk, flour", by("milk_fat", "milk_protein", 0, 0.5, 1.2)),
    ("other", "butter, flour", [({"milk_fat": 1, "fat": -0.3}, (*ANYWHERE, 0))]),
    # Spans of a kind round the rows of ingredients.csv: judgement.
    ("syrup", "sugar, fibre", one("starch", 0, 0.5, 0) + one("ash", 0, 1, 0.2) + one("other", 0, 1, 0)),
    ("syrup", "sugar, fibre", one("fibre", 0, 3, 0) + one("fat", 0, 2, 0)),
    ("syrup", "sugar", one("fibre", 0, 0.5, 0)),
    ("syrup", "", one("fibre", 0, 3, 0)),
    ("sugar", "sugar, fibre", one("starch", 0, 3.5, 0) + one("ash", 0, 2.5, 0) + one("other", 0, 1.5, 0)),
    # Dextrose is sold as its hydrate: 18 of 198 g are water, 9 %.
    ("sugar", "sugar, fibre", one("fibre", 0, 2, 0) + one("water", 0, 10, 0.2)),
    ("sugar", "sugar", one("fibre", 0, 0.5, 0)),
    ("nut paste", "hazelnuts", one("ash", 0.3, 4.5, 2.5) + one("other", 0, 14, 3)),
    ("nut paste", "hazelnuts", one("water", 0, 20, 3) + one("starch", 0, 14, 2)),
    ("fruit", "raspberry", one("ash", 0.1, 1.6, 0.5) + one("other", 0, 8, 1.2)),
    ("fruit", "raspberry", one("starch", 0, 7, 0) + one("fibre", 0, 12, 1.5)),
    ("other", "flour", one("other", 0, 10, 0) + one("fibre", 0, 12, 0)),
    # Acids, and chains in what is by law carbohydrate but no sugar: 6.6 g in maple syrup (SR28, NDB 19353). Minerals of
    # molasses: NDB 19304.
    ("syrup", "maple syrup", one("ash", 0, 1, 0.5) + one("other", 0, 9, 1)),
    ("syrup", "molasses", one("ash", 0, 5, 0.5) + one("other", 0, 9, 1)),
    # Chains of glucose only where the list brings them; 0.3 g is below what a label tells.
    *(
        (kind, contents, nothing("higher_saccharides", upto=0.3))
        for kind, contents in (("sugar", "sugar"), ("fruit", "raspberry, sugar"), ("nut paste", "hazelnuts"))
    ),
    # Honey: SR28, NDB 19296: 40.9 g of fructose and 35.8 of glucose in 82.1 of sugars are 0.50 and 0.44; sucrose 0.9, and
    # at most 5 g by 2001/110/EC, 5 / 80 = 0.06.
    ("syrup", "honey", by("fructose", "sugars", 0.42, 0.50, 0.58)),
    ("syrup", "honey", by("glucose", "sugars", 0.34, 0.43, 0.50)),
    ("syrup", "honey", by("sucrose", "sugars", 0, 0.01, 0.07)),
    # Maple syrup: SR28, NDB 19353: 58.3 g of sucrose in 60.5 of sugars, 0.96.
    ("syrup", "maple syrup", by("sucrose", "sugars", 0.85, 0.97, 1.0)),
    ("syrup", "maple syrup", by("glucose", "sugars", 0, 0.02, 0.12)),
    ("syrup", "maple syrup", by("fructose", "sugars", 0, 0.01, 0.1)),
    ("syrup", "corn syrup", nothing("sucrose", "fructose")),
    # Half inverted to fructose syrups: judgement.
    ("syrup", "agave syrup", by("sucrose", "sugars", 0, 0.1, 0.5)),
    ("syrup", "agave syrup", by("glucose", "sugars", 0.05, 0.42, 0.6)),
    ("syrup", "agave syrup", by("fructose", "sugars", 0.2, 0.47, 0.95)),
    # Where the list names none of these, the sugar is sucrose; nuts bring a little of their own.
    ("sugar", "sugar", nothing("glucose", "fructose", "maltose", upto=0.3)),
    ("other", "sugar, hazelnuts", nothing("glucose", "fructose", "maltose", upto=4)),
    ("nut paste", "tahini, sugar", nothing("glucose", "fructose", "maltose", upto=4)),
    ("nut paste", "sugar", nothing("glucose", "fructose", "maltose", upto=4)),
    ("other", "corn syrup, flour", nothing("sucrose")),
    ("sugar", "", nothing("lactose")),
    ("sugar", "zorks", nothing("lactose")),
]


@pytest.mark.parametrize(
    ("kind", "contents", "wanted"),
    [*CHOCOLATES, *DAIRIES, *OTHERS],
    ids=[f"{kind} of {contents}: {wanted[0][0]}" for kind, contents, wanted in [*CHOCOLATES, *DAIRIES, *OTHERS]],
)
def test_what_is_known_of_a_kind(kind, contents, wanted):
    found = rules(kind, contents)
    missing = [
        (terms, limits, known(found, **terms)) for terms, limits in wanted if limits not in known(found, **terms)
    ]
    assert not missing


@pytest.mark.parametrize(
    ("kind", "contents", "left_open"),
    [
        ("dark chocolate", DARK + ", maltitol", ["polyols"]),
        ("milk chocolate", MILK, ["cocoa"]),
        ("cream", "cream", ["water"]),
        ("milk", "milk, honey", ["sucrose", "glucose", "fructose", "maltose"]),
        ("milk", "milk, sugar, glucose syrup", ["sucrose", "glucose", "fructose", "maltose"]),
        ("other", "rum, flour", ["alcohol"]),
        ("syrup", "maltitol syrup", ["polyols"]),
        ("syrup", "", ["higher_saccharides", "sucrose", "glucose"]),
        ("other", "flour", ["higher_saccharides"]),
        ("other", "", ["glucose", "sucrose"]),
        ("other", "flour, zorks", ["glucose", "maltose"]),
        ("sugar", "dried glucose syrup", ["higher_saccharides", "glucose"]),
        ("sugar", "sugar, fructose", ["higher_saccharides", "sucrose", "glucose"]),
        ("sugar", "sugar, maltodextrin", ["higher_saccharides"]),
        ("fruit", "raspberry", ["sucrose", "glucose", "fructose"]),
        ("fruit", "raspberry, milk", ["milk_protein"]),
        ("sugar", "sugar", ["fat"]),
        ("syrup", "honey, sugar", ["sucrose"]),
        ("syrup", "corn syrup, sugar", ["sucrose", "fructose"]),
        ("nut paste", "hazelnuts", ["fibre"]),
        ("fruit", "raspberry, zorks", ["glucose", "sucrose"]),
        ("syrup", "agave syrup, zorks", ["glucose"]),
    ],
)
def test_what_a_list_may_bring_is_left_open(kind, contents, left_open):
    found = rules(kind, contents)
    assert {amount: known(found, **{amount: 1}) for amount in left_open if known(found, **{amount: 1})} == {}


def test_a_list_of_one_sweet_thing_alone_settles_its_sugars():
    for contents in ("honey, maple syrup", "honey, agave syrup", "maple syrup, corn syrup"):
        assert not any(
            "sugars" in dict(rule.parts) and "is as in its kind" in rule.says for rule in rules("syrup", contents)
        )
    for kind in ("sugar", "other"):
        assert not any("is as in its kind" in rule.says for rule in rules(kind, "honey"))


@pytest.mark.parametrize("kind", FAMILIES)
def test_parts_are_the_whole(kind):
    """Half a gram either way is what analyses of one food leave open (SR28)."""
    found = rules(kind)
    sugars = {"sucrose": -1, "glucose": -1, "fructose": -1, "lactose": -1, "maltose": -1}
    assert known(found, sugars=1, **sugars) == [(0, 0, 0)]
    assert known(found, carbohydrate=1, sugars=-1, higher_saccharides=-1, polyols=-1, starch=-1) == [(0, 0, 0)]
    assert known(found, fat=1, milk_fat=-1, cocoa_butter=-1, other_fat=-1) == [(0, 0, 0)]
    all_parts = known(found, carbohydrate=1, water=1, fat=1, protein=1, fibre=1, ash=1, alcohol=1, other=1)
    assert all_parts == [(99.5, 100.5, 100)]
    assert all(set(dict(rule.parts)) <= set(AMOUNTS) for rule in found)


def test_what_is_printed_holds_as_far_as_its_rounding():
    names = ("fat", "protein", "fibre", "polyols", "sugars", "carbohydrate")
    printed = {name: Figure(10 * k, 10 * k + 4, 10 * k + 7) for k, name in enumerate(names, 1)}
    for label in ("EU", "US"):
        found = rules("fruit", label=label, **printed)
        for k, name in enumerate(names[:5], 1):
            assert (10 * k, 10 * k + 7, 10 * k + 4) in known(found, **{name: 1})
    # US: all that is left, with fibre (21 CFR 101.9(c)(6)). EU: without it (1169/2011, Annex I), and what is left counts in
    # acids, which may be all or none of what is there: half of them in the middle.
    assert known(found, carbohydrate=1, fibre=1, other=1) == [(60, 67, 64)]
    assert not known(found, carbohydrate=1, other=1)
    found = rules("fruit", **printed)
    assert known(found, carbohydrate=1) == [(-inf, 67, None)]
    assert known(found, carbohydrate=1, other=1) == [(60, inf, None)]
    assert known(found, carbohydrate=1, other=0.5) == [(*ANYWHERE, 64)]


def test_added_sugars_salt_and_saturates_bound_what_they_are_part_of():
    """Sugars 20 to 22, of which 10 to 13 are added: 20 - 13 = 7 at least came with milk or fruit. Salt is ash. Of cocoa butter
    and milk fat 0.60 and 0.62 are saturates in SR28: 0.55 leaves room."""
    found = rules(
        "other",
        sugars=Figure(20, 21, 22),
        added_sugars=Figure(10, 12, 13),
        salt=Figure(1, 2, 2.5),
        saturates=Figure(3, 4, 5),
    )
    assert known(found, lactose=1, fructose=1, glucose=1) == [(7, inf, None)]
    assert (1, inf, None) in known(found, ash=1)
    assert known(found, cocoa_butter=0.55, milk_fat=0.55) == [(-inf, 5, None)]


@pytest.mark.parametrize(("salt", "most"), [(1, 6), (2, 6), (2.5, 6.5), (10, 14)])
def test_minerals_are_the_salt_and_four_grams_at_least_six(salt, most):
    assert (0, most, None) in known(rules("other", "flour", salt=Figure(0, salt / 2, salt)), ash=1)


def test_what_is_printed_needs_no_span():
    assert known(rules("other", "flour", fibre=Figure(20, 21, 22)), fibre=1) == [(20, 22, 21)]
    assert known(rules("syrup", "sugar", fibre=Figure(1, 2, 3)), fibre=1) == [(1, 3, 2), (0, 0.5, 0)]
    assert known(rules("sugar", "sugar", polyols=Figure(1, 2, 3)), polyols=1) == [(1, 3, 2)]


@pytest.mark.parametrize("kind", ["dark chocolate", "milk chocolate", "white chocolate"])
def test_cocoa_butter_and_cocoa_solids_are_the_cocoa_percentage(kind):
    assert known(rules(kind, cocoa=(63.5, 64, 66)), cocoa_butter=1, cocoa=1) == [(63.5, 66, 64)]
    assert known(rules(kind), cocoa_butter=1, cocoa=1) == []
