"""The list of ingredients and its allergens, against the text of the rules and lists put in order by hand."""

import pytest

from pastrylab.ground.pack_lists import pack_lists
from pastrylab.ground.units import StudentError
from pastrylab.trade import pantry
from pastrylab.trade.formula import Formula
from pastrylab.trade.labels.words import parted
from pastrylab.trade.statement import EU, US, allergens_of, entry, ingredient_list
from pastrylab.trade.statement.allergens import gathered, named_in, set_apart

NAMES = list(pantry.facts())


def names(found):
    return [line.entry.ingredient for line in found.lines]


def test_the_heaviest_first_by_what_was_weighed_in(outside):
    found = ingredient_list({"honey": "40 g", "dark couverture 64 %": "0.5 kg", "heavy cream": "9 oz"})
    got = names(found)  # 9 oz are 255.146 g
    outside(
        quantity="order of a list: 500 g, 9 oz and 40 g",
        expected=["dark couverture 64 %", "heavy cream 36 %", "honey"],
        got=got,
        tolerance="exact",
        source="21 CFR 101.4(a)(1), read: descending order of predominance by weight",
    )
    assert [round(line.share, 4) for line in found.lines] == [0.6288, 0.3209, 0.0503]  # of 795.146 g, by hand


def test_sub_ingredients_stand_in_brackets_behind_their_ingredient(outside):
    found = ingredient_list({"hazelnut praline": "120 g", "milk couverture 41 %": "300 g"})
    outside(
        quantity="a praline and a milk chocolate on one list",
        expected="milk chocolate (sugar, cocoa butter, dry whole milk, chocolate liquor, soy lecithin (an emulsifier), "
        "natural vanilla flavor), hazelnut praline (hazelnuts, sugar)",
        got=found.text,
        tolerance="exact",
        source="21 CFR 101.4(b)(2), from memory: the parts in brackets after the name; the lists are of invented packs",
    )


def test_shell_and_filling_of_one_couverture_are_one_place():
    found = ingredient_list(Formula({"dark couverture 64 %": "60 g", "butter": "100 g", "Dark couverture 64%": "60 g"}))
    assert names(found) == ["dark couverture 64 %", "butter unsalted"]
    assert found.lines[0].grams == 120


def test_two_creams_of_one_name_are_added_before_they_are_put_in_order():
    found = ingredient_list({"sugar": "50 g", "cream 35 %": "30 g", "heavy cream": "30 g"})
    assert [(line.entry.name, line.grams) for line in found.lines] == [("cream", 60), ("sugar", 50)]


def test_chocolates_of_one_name_but_another_list_stay_apart():
    found = ingredient_list({"dark couverture 64 %": "60 g", "dark couverture 55 %": "50 g"}, EU)
    assert [line.entry.name for line in found.lines] == ["dark chocolate"] * 2
    assert found.lines[0].entry.contents.startswith("cocoa mass, sugar")
    assert found.lines[1].entry.contents.startswith("sugar, cocoa mass")


def test_of_two_that_weigh_the_same_the_first_named_is_first_also_when_sums_differ_in_the_last_digit():
    found = ingredient_list({"honey": "0.3 g", "sugar": "0.1 g", "granulated sugar": "0.2 g"})
    assert 0.1 + 0.2 > 0.3  # in the last digit
    assert names(found) == ["honey", "granulated sugar"]


def test_what_weighs_nothing_is_not_on_the_list():
    assert names(ingredient_list({"honey": "40 g", "butter": "0 g"})) == ["honey"]


def test_added_water_counts_by_what_is_left_of_it(outside):
    """60 g of water and 100 g of sugar, boiled to 130 g: 30 g of water are left; to 104 g: 4 g, 3.8 %."""
    parts = {"water": "120 g", "sugar": "100 g"}
    source = "Regulation (EU) 1169/2011, Annex VII, part A, point 1, from memory"
    for finished, expected in (("130 g", "sugar, water"), ("220 g", "water, sugar"), ("104 g", "sugar")):
        got = ingredient_list(parts, EU, finished=finished).text
        outside(quantity=f"syrup boiled to {finished}", expected=expected, got=got, tolerance="exact", source=source)
    assert ingredient_list(parts, US, finished="130 g").text == "water, sugar"


def test_five_per_cent_of_water_may_stay_out_and_more_may_not():
    parts = {"water": "50 g", "sugar": "95 g"}
    assert ingredient_list(parts, EU, finished="100 g").text == "sugar"  # 5 g in 100 g
    assert ingredient_list(parts, EU, finished="100.1 g").text == "sugar, water"


@pytest.mark.parametrize("law", [US, EU])
def test_each_ingredient_of_the_table_has_a_name_for_a_label(law):
    assert set(pack_lists()["ingredient"]) == set(NAMES)
    for name in NAMES:
        one = entry(name, law)
        assert one.known and one.name and not one.asks, name


@pytest.mark.parametrize("name", NAMES)
def test_the_list_of_a_pack_and_the_table_agree_on_allergens_and_the_eu_list_names_each(name):
    for law, column in ((US, "allergens_us"), (EU, "allergens_eu")):
        assert set(entry(name, law).allergens) == set(pantry.facts()[name][column])
    one = entry(name, EU)
    assert [found for found in one.allergens if not named_in(one.text, found)] == []


def test_allergens_by_the_names_of_the_law(outside):
    got = ingredient_list({"hazelnut praline": "120 g", "milk couverture 41 %": "300 g"}).contains
    outside(
        quantity="the line of allergens of a praline",
        expected="Contains: milk, tree nuts (hazelnuts), soybeans.",
        got=got,
        tolerance="exact",
        source="21 USC 343(w)(1)(A) and (2), as quoted by FDA (read): all of them, the kind of nut by name",
    )


def test_in_the_eu_the_list_itself_sets_them_apart(outside):
    found = ingredient_list({"hazelnut praline": "120 g", "butter 82 %": "20 g", "lecithin": "1 g"}, EU)
    outside(
        quantity="allergens within the list",
        expected="HAZELNUT praline (HAZELNUTS, sugar), butter (MILK), emulsifier (SOYA lecithin)",
        got=found.text,
        tolerance="exact",
        source="Regulation (EU) 1169/2011, Article 21(1)(b): set apart by its type; Annex II",
    )
    assert found.contains == "" and found.allergens == ("soybeans", "milk", "nuts (hazelnuts)")


@pytest.mark.parametrize(
    ("text", "allergens", "expected"),
    [
        ("cocoa butter", ("milk",), "cocoa butter"),
        ("coconut milk (coconut, water)", (), "coconut milk (coconut, water)"),
        ("eggs", ("eggs",), "EGGS"),
        ("wheat flour", ("cereals containing gluten (wheat)",), "WHEAT flour"),
        ("roasted peanuts", ("peanuts",), "roasted PEANUTS"),
        ("sesame paste (sesame seeds)", ("sesame",), "SESAME paste (SESAME seeds)"),
        ("almonds, pistachios", ("nuts (almonds, pistachios)",), "ALMONDS, PISTACHIOS"),
        ("buttermilk", ("milk",), "buttermilk"),  # within a longer word it is left: the list must then name it
    ],
)
def test_what_is_set_apart(text, allergens, expected):
    assert set_apart(text, allergens) == expected
    assert all(named_in(text, one) == (expected != text) for one in allergens)


def test_kinds_of_one_sort_stand_together_and_in_the_order_of_the_law():
    assert allergens_of(["almonds", "hazelnuts", "egg yolk", "butter"]) == (
        "milk",
        "egg",
        "tree nuts (almonds, hazelnuts)",
    )
    assert gathered(["nuts (almonds)", "cereals containing gluten (wheat)"], EU) == (
        "cereals containing gluten (wheat)",
        "nuts (almonds)",
    )


def test_no_allergen_is_not_called_free_of_any():
    found = ingredient_list({"sugar": "10 g"})
    assert found.allergens == () and found.contains == ""


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Ingredients: sugar, cocoa mass (48%). May contain nuts.", ("sugar, cocoa mass (48%)", "nuts")),
        ("sugar, cocoa butter", ("sugar, cocoa butter", "")),
        ("", ("", "")),
        ("Sugar, milk. May also contain: traces of nuts", ("Sugar, milk", "traces of nuts")),
        ("sugar; traces of milk", ("sugar", "milk")),
        ("sugar, whey. Contains: milk. May contain nuts.", ("sugar, whey", "nuts")),
        ("sugar, whey\nCONTAINS MILK AND SOY", ("sugar, whey", "")),
        ("sugar, cream. Contains less than 2% of: salt", ("sugar, cream. Contains less than 2% of: salt", "")),
        ("sugar, cream, contains 2% or less of salt", ("sugar, cream, contains 2% or less of salt", "")),
    ],
)
def test_a_list_and_what_it_may_contain_are_parted(text, expected):
    assert parted(text) == expected


LABEL = "ingredient,also,kind,label,serving,fat,carbohydrate,sugars,protein,contents,source\n"


@pytest.fixture
def my_packs(own_workbook):
    """A couverture with its list, and one without."""
    folder = own_workbook / "lessons" / "my-kitchen"
    folder.mkdir(exist_ok=True)

    def write(*rows):
        (folder / "ingredients.csv").write_text(LABEL + "".join(f"{row}\n" for row in rows), encoding="utf-8")

    return write


def test_a_pack_of_ones_own_goes_by_its_own_list(my_packs):
    my_packs('my cream,,cream,EU,,35,3,3,2.1,"Ingredients: cream, carrageenan. May contain traces of egg.",read')
    found = ingredient_list({"my cream": "100 g", "sugar": "10 g"}, US)
    assert found.text == "my cream (cream, carrageenan), sugar"
    assert found.unknown == () and found.contains == "Contains: milk."
    assert found.allergens == ("milk",) and found.may_contain == ("traces of egg",)
    assert found.asks == ("The list of my cream is as you typed it: compare it with the pack, allergens above all.",)


def test_in_the_eu_a_list_that_does_not_name_its_allergen_is_asked_about(my_packs):
    my_packs('my cream,,cream,EU,,35,3,3,2.1,"cream, carrageenan",read')
    assert "The list must name milk where it comes to my cream." in ingredient_list({"my cream": "9 g"}, EU).asks


def test_a_list_in_capitals_is_written_small_so_that_allergens_stand_out(my_packs):
    my_packs('my cream,,cream,EU,,35,3,3,2.1,"INGREDIENTS: CREAM (MILK), CARRAGEENAN",read')
    assert ingredient_list({"my cream": "9 g"}, EU).text == "my cream (cream (MILK), carrageenan)"


def test_a_line_of_allergens_on_the_pack_counts_and_is_no_ingredient(my_packs):
    my_packs('my cream,,cream,US,100 g,35,3,3,2.1,"cream, carrageenan. Contains: milk, soy.",read')
    found = ingredient_list({"my cream": "9 g"}, US)
    assert found.text == "my cream (cream, carrageenan)" and found.allergens == ("milk", "soybeans")


def test_a_pack_without_a_list_leaves_the_allergens_open(my_packs):
    my_packs("my spread,,other,EU,,35,50,48,4,,read")
    found = ingredient_list({"my spread": "100 g", "butter": "10 g"}, US)
    assert found.contains == "Contains: milk, and whatever the pack of my spread says."
    assert found.unknown == ("my spread",)
    assert any("copy the list from there" in ask for ask in found.asks)


def test_what_the_table_notes_about_packs_is_asked_about():
    """Most dark lines run beside milk, says the row of each dark couverture; a puree may carry sulphites, says its own."""
    asks = ingredient_list({"dark couverture 64 %": "60 g", "raspberry puree": "20 g", "sugar": "5 g"}).asks
    assert [ask for ask in asks if "run beside milk" in ask] and [ask for ask in asks if "sulphites" in ask]
    assert not [ask for ask in asks if "fat beyond" in ask or ask.startswith("granulated sugar")]
    assert ingredient_list({"honey": "9 g"}).asks == ("honey: never for infants under one year.",)


REFUSED = [
    ({"zorks": "10 g"}, US, None),
    ({}, US, None),
    ({"honey": "0 g"}, US, None),
    ({"honey": "10"}, US, None),
    ({"honey": "-10 g"}, US, None),
    ({"honey": "10 mL"}, US, None),
    ({"honey": "10 g"}, "France", None),
    ({"honey": "10 g"}, "", None),
    ({"honey": "10 g"}, EU, "12 g"),
    ({"honey": "10 g"}, EU, "0 g"),
    ({"honey": "10 g"}, EU, "12"),
]


@pytest.mark.parametrize(("parts", "law", "finished"), REFUSED)
def test_what_is_refused(parts, law, finished):
    with pytest.raises(StudentError):
        ingredient_list(parts, law, finished=finished)


@pytest.mark.parametrize("law", ["US", "us", " EU ", "eu"])
def test_the_law_however_it_is_written(law):
    assert ingredient_list({"honey": "10 g"}, law).text == "honey"
