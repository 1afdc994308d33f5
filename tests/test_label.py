"""A composition from the label of a pack: foods whose analysis is published, written as a pack would print them."""

import pytest

from pastrylab.ground.bounds import Contradiction, Rule, middle, narrowed, none, ratio, span
from pastrylab.ground.datasets import COMPONENTS, ingredients
from pastrylab.ground.units import StudentError
from pastrylab.trade.labels.figures import US, Figure, figure, serving_grams
from pastrylab.trade.labels.label import Label, made_of
from pastrylab.trade.labels.words import read_contents
from pastrylab.trade.pantry import facts

# Row of ingredients.csv | kind | NDB number of USDA SR28 | its fat, carbohydrate by difference, total sugars, fibre and
# protein, g in 100 g | a list of ingredients as such a pack prints it. Each composition in ingredients.csv rests on the
# same analysis, but on its water, ash and sugars too, which no label shows.
PUBLISHED = """\
heavy cream 36 %|cream|01053|36.08|2.74|2.92|0|2.84|
light whipping cream 31 %|cream|01052|30.91|2.96|2.96|0|2.17|cream
table cream 19 %|cream|01050|19.1|2.82|3.67|0|2.96|
half and half 10 %|cream|01049|10.39|4.73|4.13|0|3.13|milk, cream
whole milk|milk|01211|3.27|4.78|5.05|0|3.15|milk, vitamin D3
skim milk|milk|01151|0.08|4.96|5.09|0|3.37|
skim milk powder|milk powder|01091|0.77|51.98|51.98|0|36.16|
whole milk powder|milk powder|01212|26.71|38.42|38.42|0|26.32|
sweetened condensed milk|milk|01095|8.7|54.4|54.4|0|7.91|milk, sugar
evaporated milk|milk|01214|7.56|10.04|10.04|0|6.81|
butter unsalted|butter|01145|81.11|0.06|0.06|0|0.85|
butter salted|butter|01001|81.11|0.06|0.06|0|0.85|cream, salt
dark chocolate 45-59 %|dark chocolate|19902|31.28|61.17|47.9|7|4.88|
dark chocolate 45-59 %|dark chocolate|19902|31.28|61.17|47.9|7|4.88|sugar, chocolate, cocoa butter, milk fat, milk, soy lecithin
dark chocolate 60-69 %|dark chocolate|19903|38.31|52.42|36.71|8|6.12|
dark chocolate 70-85 %|dark chocolate|19904|42.63|45.9|23.99|10.9|7.79|
semisweet chocolate chips|dark chocolate|19080|30|63.9|54.5|5.9|4.2|sugar, chocolate, cocoa butter, soy lecithin, vanilla
cocoa mass|dark chocolate|19078|52.31|28.42|0.91|16.6|14.32|cocoa mass
milk chocolate|milk chocolate|19120|29.66|59.4|51.5|3.4|7.65|
milk chocolate|milk chocolate|19120|29.66|59.4|51.5|3.4|7.65|sugar, milk, chocolate, cocoa butter, lactose, milk fat, soy lecithin
white chocolate|white chocolate|19087|32.09|59.24|59|0.2|5.87|
cocoa powder 24 % fat|cocoa powder|19859|23.71|51.39|1.55|29.8|16.8|
cocoa powder alkalised|cocoa powder|19166|13.1|58.3|1.76|29.8|18.1|
granulated sugar|sugar|19335|0|99.98|99.8|0|0|sugar
powdered sugar|sugar|19336|0|99.77|97.81|0|0|sugar, cornstarch
brown sugar|sugar|19334|0|98.09|97.02|0|0.12|sugar, molasses
honey|syrup|19296|0|82.4|82.12|0.2|0.3|honey
maple syrup|syrup|19353|0.06|67.04|60.46|0|0.04|maple syrup
hazelnuts|nut paste|12120|60.75|16.7|4.34|9.7|14.95|hazelnuts
hazelnuts roasted|nut paste|12122|62.4|17.6|4.89|9.4|15.03|hazelnuts
almonds|nut paste|12061|49.93|21.55|4.35|12.5|21.15|almonds
almonds blanched|nut paste|12062|52.52|18.67|4.63|9.9|21.4|almonds
pistachios|nut paste|12151|45.32|27.17|7.66|10.6|20.16|pistachios
almond paste|nut paste|12071|27.74|47.81|36.25|4.8|9|almonds, sugar
raspberries|fruit|09302|0.65|11.94|4.42|6.5|1.2|raspberries
strawberries|fruit|09316|0.3|7.68|4.89|2|0.67|
mango|fruit|09176|0.38|14.98|13.66|1.6|0.82|
banana|fruit|09040|0.33|22.84|12.23|2.6|1.09|
apricots|fruit|09021|0.39|11.12|9.24|2|1.4|
lemon juice|fruit|09152|0.24|6.9|2.52|0.3|0.35|
orange juice|fruit|09206|0.2|10.4|8.4|0.2|0.7|
passion fruit juice|fruit|09232|0.05|13.6|13.4|0.2|0.39|
egg yolk|other|01125|26.54|3.59|0.56|0|15.86|
coconut milk|other|12118|21.33|2.81|2.1|0.57|2.02|"""
ROWS = [line.split("|") for line in PUBLISHED.splitlines()]


def eu(grams):
    """As the Commission's guidance rounds: to a gram from 10 g on, to a tenth below, under half a gram "0"."""
    return f"{grams:.0f}" if grams >= 10 else f"{grams:.1f}" if grams >= 0.5 else "0"


def us(grams, is_fat=False):
    """As 21 CFR 101.9(c) rounds the grams of a serving."""
    if grams < 0.5:
        return "0"
    if is_fat and grams < 5:
        return f"{round(2 * grams) / 2:g}"
    return "less than 1 g" if grams < 1 else f"{grams:.0f} g"


def printed(row, serving=None):
    """The Label of a row of PUBLISHED: for 100 g as in the EU, or for a serving of so many grams as in the US."""
    _, kind, _, *numbers, contents = row
    fat, carbohydrate, sugars, fibre, protein = map(float, numbers)
    if serving is None:
        figures = {"carbohydrate": eu(max(carbohydrate - fibre, sugars)), "fat": eu(fat), "sugars": eu(sugars)}
        return Label(kind, **figures, fibre=eu(fibre), protein=eu(protein), contents=contents)
    part = serving / 100
    figures = {"carbohydrate": max(carbohydrate, sugars), "sugars": sugars, "fibre": fibre, "protein": protein}
    figures = {name: us(grams * part) for name, grams in figures.items()}
    return Label(kind, US, f"{serving} g", fat=us(fat * part, True), **figures, contents=contents)


@pytest.mark.parametrize("serving", ["-100 g", "\N{MINUS SIGN}30 g", "1 piece (-30 g)"])
def test_a_serving_below_nothing_is_refused(serving):
    with pytest.raises(StudentError, match="from 1 to 1000 g"):
        serving_grams(serving)
    assert serving_grams("20-30 g") == serving_grams("1-2 pieces (30 g)") == (30.0, 30.0, 30.0)


@pytest.mark.parametrize("contents", ["brown rice, water", "Oats, water", "rice syrup"])
def test_a_syrup_of_a_grain_holds_no_table_sugar(contents):
    # Starch is glucose alone, so what is cut from it is glucose, maltose and longer chains: no sucrose, no fructose.
    made = made_of(Label("syrup", fat="0", carbohydrate="79", sugars="47", protein="0", salt="0", contents=contents))
    assert made.ends["sucrose"][1] < 0.5 and made.ends["fructose"][1] < 0.5
    assert made.ends["maltose"][1] > 40 and made.ends["glucose"][1] > 40
    assert "Which sugars they are is not printed" in " ".join(made.says)


@pytest.mark.parametrize("serving", [None, 30, 15])
@pytest.mark.parametrize("row", ROWS, ids=[f"{row[0]}{', its list' * bool(row[-1])}" for row in ROWS])
def test_the_analysis_lies_within_the_error_of_the_label(outside, row, serving):
    made, analysed = (
        made_of(printed(row, serving)),
        {part: 100 * share for part, share in ingredients()[row[0]].items()},
    )
    beyond = {
        name: (float(analysed[name]), ends)
        for name, ends in made.ends.items()
        if not ends[0] - 0.01 <= analysed[name] <= ends[1] + 0.01
    }
    assert not beyond
    low, high = made.ends["water"]
    outside(
        quantity=f"water of {row[0]} from its {'EU' if serving is None else f'US ({serving} g)'} label, %",
        expected=float(analysed["water"]),
        got=made.grams["water"],
        tolerance=high - low,
        source=f"USDA SR28, NDB {row[2]}; within the error stated",
    )


@pytest.mark.parametrize("row", ROWS, ids=[row[0] for row in ROWS])
def test_what_follows_is_100_g_and_within_its_own_ends(row):
    made = made_of(printed(row))
    assert sum(made.grams[name] for name in COMPONENTS) == pytest.approx(100, abs=1e-6)
    assert all(low <= made.grams[name] <= high and low >= 0 for name, (low, high) in made.ends.items())
    assert made.grams["milk_fat"] + made.grams["cocoa_butter"] <= made.grams["fat"] + 0.01


@pytest.mark.parametrize(
    ("name", "component", "widest"),
    [
        ("heavy cream 36 %", "fat", 1.1),
        ("heavy cream 36 %", "water", 5),
        ("whole milk", "water", 4.5),
        ("semisweet chocolate chips", "sucrose", 3.5),
        ("semisweet chocolate chips", "cocoa_butter", 2),
        ("honey", "fructose", 14),
        ("honey", "glucose", 14),
        ("honey", "sucrose", 6),
        ("honey", "water", 6),
        ("heavy cream 36 %", "ash", 1.3),
        ("heavy cream 36 %", "lactose", 0.2),
        ("skim milk powder", "water", 6),
        ("butter unsalted", "water", 7),
        ("maple syrup", "sucrose", 11),
        ("maple syrup", "water", 21),
        ("hazelnuts", "water", 12),
        ("hazelnuts", "starch", 3.5),
        ("hazelnuts", "sucrose", 5),
        ("cocoa powder 24 % fat", "cocoa_butter", 2),
        ("sweetened condensed milk", "lactose", 8),
        ("sweetened condensed milk", "sucrose", 9),
        ("dark chocolate 45-59 %", "milk_fat", 4.1),
        ("dark chocolate 45-59 %", "other", 6),
        ("dark chocolate 45-59 %", "starch", 5.5),
        ("milk chocolate", "ash", 3),
        ("milk chocolate", "milk_fat", 13.5),
        ("white chocolate", "fibre", 0.5),
        ("white chocolate", "lactose", 9),
        ("raspberries", "water", 12.5),
        ("granulated sugar", "sucrose", 1.5),
        ("egg yolk", "water", 23),
    ],
)
def test_the_error_is_no_wider_than_a_cook_can_use(name, component, widest):
    """Our own judgement of what is of use; an error of 100 g would hold every analysis."""
    row = next(row for row in ROWS if row[0] == name)
    low, high = made_of(printed(row)).ends[component]
    assert high - low <= widest


DARK = {"kind": "dark chocolate", "cocoa": "64", "fat": "40", "carbohydrate": "40", "sugars": "36", "protein": "5.5"}
LISTED = "cocoa mass, sugar, cocoa butter, soya lecithin, vanilla"


def test_a_dark_couverture_as_its_row_is_worked_out(outside):
    """The shipped couvertures rest on the sum of SOURCES.md, done by hand there: fat less 0.4 g of lecithin's is cocoa butter."""
    made, row = (
        made_of(Label(**DARK, contents=LISTED)),
        {part: 100 * share for part, share in ingredients()["dark couverture 64 %"].items()},
    )
    for part, tolerance in {"cocoa_butter": 0.2, "sucrose": 0.5, "fibre": 1, "protein": 0.2, "water": 0.5}.items():
        source = "label arithmetic on USDA SR28, NDB 19078, 19165, 19166"
        outside(
            quantity=f"{part} from a label, dark 64 %",
            expected=row[part],
            got=made.grams[part],
            tolerance=tolerance,
            source=source,
        )


def test_the_list_of_ingredients_narrows_and_an_unknown_word_opens():
    def milk_fat(contents):
        return made_of(Label(**DARK, contents=contents)).ends["milk_fat"]

    assert milk_fat(LISTED) == (0, 0)
    assert milk_fat(LISTED + ", butter oil")[1] > 2
    assert milk_fat("")[1] > 2 and milk_fat("masse de cacao, sucre")[1] > 2
    assert milk_fat(LISTED + ". May contain milk and nuts.") == (0, 0)
    said = " ".join(made_of(Label(**DARK, contents="cocoa mass, zorks")).says)
    assert "zorks" in said
    assert "No list" in " ".join(made_of(Label(**DARK)).says)


def test_added_sugars_tell_lactose_from_sucrose():
    """15 g of sugars of which 13 added, in 30 g: at least (14.5 - 13.5) / 30 of it is milk's own."""
    common = {"label": US, "serving": "30 g", "fat": "9", "carbohydrate": "18", "sugars": "15", "protein": "2"}
    without, told = (
        made_of(Label("milk chocolate", **common, added_sugars=added)).ends["lactose"] for added in ("", "12")
    )
    assert told[0] > without[0]


def test_milk_and_butter_words_name_allergens_and_plant_butters_do_not():
    found = read_contents("sugar, cocoa butter, whole milk powder, hazelnuts, emulsifier: soya lecithin")
    assert found.allergens_us == ("milk", "soybeans", "tree nuts (hazelnuts)")
    assert found.allergens_eu == ("milk", "soybeans", "nuts (hazelnuts)")
    assert read_contents("cocoa butter, coconut milk, peanut butter, almond milk").allergens_us == (
        "peanuts",
        "tree nuts (almonds)",
    )
    assert read_contents("wheat flour, barley malt").allergens_eu == (
        "cereals containing gluten (wheat)",
        "cereals containing gluten (barley)",
    )


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"saturates": "45"}, "more saturates than fat"),
        ({"sugars": "47"}, "more sugars than carbohydrate"),
        ({"fat": "60", "carbohydrate": "50"}, "add up to"),
        ({"cocoa": "75"}, "more than 100 g together"),
        ({"cocoa": "20"}, "nearly all fat is cocoa butter"),
        ({"cocoa": "120"}, "from 10 to 100"),
        ({"cocoa": "64 g"}, "cocoa percentage"),
        ({"fat": ""}, "no figure for 'fat'"),
        ({"fat": "lots"}, "'fat'"),
        ({"fat": "-3"}, "'fat'"),
        ({"fat": "40 mL"}, "'fat'"),
        ({"kind": "dark"}, "as the kind"),
        ({"kind": "cream"}, "cocoa percentage"),
        ({"label": "UK"}, "as the label"),
        ({"label": "US"}, "without its serving"),
        ({"salt": "1", "sodium": "40"}, "both salt and sodium"),
        ({"protein": "30"}, "add up to"),
        ({"fat": "12", "cocoa": "", "sugars": "40", "carbohydrate": "80", "fibre": "0"}, "do not go together"),
        ({"density": "1000"}, "density"),
        ({"serving": "100 ml"}, "density"),
        ({"serving": "a handful"}, "grams"),
    ],
)
def test_a_label_that_cannot_be_is_refused_in_words(change, said):
    with pytest.raises(StudentError) as refused:
        made_of(Label(**{**DARK, **change}))
    assert said in str(refused.value)


@pytest.mark.parametrize(
    "change",
    [
        {"fat": "40 g"},
        {"fat": "39,5"},
        {"cocoa": "64 %"},
        {"cocoa": ""},
        {"saturates": "24"},
        {"fibre": "8.5"},
        {"salt": "< 0.01 g"},
        {"protein": "5.5 g", "salt": "traces"},
        {"contents": "Ingredients: cocoa mass 48%, sugar, cocoa butter; emulsifier: lecithins (soya)."},
        {"contents": "pasta di cacao, zucchero"},
        {"serving": "100 g"},
        {"polyols": "0"},
        {"sodium": "10"},
        {"serving": "100 ml", "density": "1.3", "fat": "52", "carbohydrate": "52", "sugars": "47", "protein": "7.2"},
    ],
)
def test_a_clear_label_is_not_refused(change):
    assert made_of(Label(**{**DARK, **change})).grams["cocoa_butter"] > 35


def test_figures_are_as_wide_as_their_rounding():
    """21 CFR 101.9(c): half a gram to either side, a quarter for fat below 5 g, 2.5 and 5 mg of sodium; EU: the last digit."""
    assert figure("fat", "35") == Figure(34.5, 35, 35.5)
    assert figure("protein", "6.5") == Figure(6.45, 6.5, 6.55)
    assert figure("fat", "0") == Figure(0, 0, 0.5) and figure("saturates", "0") == Figure(0, 0, 0.1)
    assert figure("fat", "4.5", US) == Figure(4.25, 4.5, 4.75)
    assert figure("fat", "12", US) == Figure(11.5, 12, 12.5)
    assert figure("sugars", "0", US) == Figure(0, 0, 0.5)
    assert figure("sugars", "less than 1 g", US) == Figure(0.5, 0.5, 1)
    assert figure("sugars", "<0.5") == Figure(0, 0.25, 0.5)
    assert figure("sodium", "40", US) == Figure(*(pytest.approx(mg * 0.0025) for mg in (37.5, 40, 42.5)))
    assert figure("sodium", "200", US) == Figure(*(pytest.approx(mg * 0.0025) for mg in (195, 200, 205)))
    half = figure("fat", "10", US, (50, 50, 50))
    assert (half.low, half.printed, half.high) == (19, 20, 21)
    assert figure("fat", " ") is None


def test_a_serving_is_its_grams():
    assert serving_grams("3 pieces (28 g)", US)[1] == 28
    assert serving_grams("2 Tbsp (30 mL, 31 g)", US)[1] == 31
    assert serving_grams("")[1] == 100
    assert serving_grams("15 mL", US, "", 1.4)[1] == 21
    low, middle_, high = serving_grams("100 ml", kind="milk")
    assert low < 103 == middle_ < high


def test_rules_leave_what_sums_leave():
    """By hand: 100 g of a, b and c; a 30 to 40, b 1 to 2 times a: c is 100 - 40 - 80 (so 0) to 100 - 30 - 30."""
    whole = Rule((("a", 1), ("b", 1), ("c", 1)), 100, 100, 100, "the whole")
    rules = [whole, span("a", 30, 40, 36), *ratio(("b",), "a", 1, 1.5, 2, "b by a")]
    ends = narrowed(rules, dict.fromkeys("abc", (0.0, 100.0)))
    assert ends["a"] == pytest.approx((30, 40)) and ends["b"][0] == pytest.approx(30)
    assert ends["c"] == pytest.approx((0, 40))
    found = middle(rules, ends)
    assert sum(found.values()) == pytest.approx(100, abs=1e-3)
    assert all(low - 1e-9 <= found[name] <= high + 1e-9 for name, (low, high) in ends.items())
    with pytest.raises(Contradiction) as none_left:
        narrowed([*rules, *none("b", upto=20)], ends)
    assert none_left.value.rule.says


LISTS = {
    "dark": LISTED,
    "milk": "sugar, cocoa butter, whole milk powder, cocoa mass, soya lecithin",
    "white": "sugar, cocoa butter, whole milk powder, skimmed milk powder, soya lecithin",
}


@pytest.mark.parametrize("name", [name for name in ingredients() if "couverture" in name])
def test_the_middle_is_what_the_sum_by_hand_gives(outside, name):
    """The shipped couvertures were worked out from such a label by the sum of SOURCES.md, independently of the rules here."""
    row, kind = {part: 100 * share for part, share in ingredients()[name].items()}, name.split()[0]
    fat, sugars = (facts()[name]["note"].split(f"{word} ")[1].split(",")[0].split(";")[0] for word in ("fat", "sugars"))
    figures = {"fat": fat, "sugars": sugars, "carbohydrate": f"{float(sugars) + row['starch']:.0f}"}
    label = Label(
        f"{kind} chocolate", cocoa=name.split()[2], protein=f"{row['protein']:.1f}", contents=LISTS[kind], **figures
    )
    made, source = made_of(label), "label arithmetic on USDA SR28, NDB 19078, 19165, 19166, 01212, 01091"
    tolerances = {
        "cocoa_butter": 0.8,
        "milk_fat": 0.8,
        "sucrose": 1.2,
        "lactose": 1.0,
        "ash": 0.9,
        "fibre": 1.2,
        "water": 0.6,
    }
    for part, tolerance in tolerances.items():
        got, expected = made.grams[part], float(row[part])
        outside(quantity=f"{part} of {name}, middle", expected=expected, got=got, tolerance=tolerance, source=source)
