"""What a reader adds is known everywhere, wins where it should, and a row at fault stops nobody."""

import ast
import shutil

import pytest

from pastrylab import Formula, purchasing, tempering
from pastrylab.course import catalogue
from pastrylab.ground import datasets, files, kitchen, own
from pastrylab.ground.units import StudentError
from pastrylab.school import sheets
from pastrylab.trade import chocolate, couvertures, emulsion, pantry
from pastrylab.trade.costing.kitchen import kitchen_currency
from pastrylab.trade.purchasing.own_price import pack_and_price, price_row, row_of_pack
from pastrylab.trade.purchasing.typed_pack import read_pack

pytestmark = pytest.mark.usefixtures("undrawn")

CREAM = {"ingredient": "oat cream", "kind": "other", "fat": "13", "carbohydrate": "6", "sugars": "3", "protein": "1"}
DARK = {"ingredient": "my dark 66", "kind": "dark chocolate", "cocoa": "66", "fat": "41", "carbohydrate": "37"}
DARK |= {"sugars": "33", "protein": "6.5", "contents": "cocoa mass, sugar, cocoa butter, soya lecithin"}
BANDS = {"couverture": "my dark 66", "kind": "dark", "melt_low": "48", "melt_high": "52", "cool_low": "27"}
BANDS |= {"cool_high": "28", "work_low": "30.5", "work_high": "31.5", "source": "the supplier's sheet"}


def test_an_own_ingredient_stands_in_a_formula_beside_the_shipped_ones(own_workbook):
    with pytest.raises(StudentError):
        Formula({"oat cream": "100 g"})
    own.add("ingredients", CREAM)
    made = Formula({"Oat Cream": "100 g", "dark couverture 64 %": "100 g"}).composition()
    # 13 g of fat by the label and 40 g by the row of the couverture, in 200 g.
    assert made["fat"] == pytest.approx(0.265, abs=0.003)
    assert pantry.members_of("other", ["oat cream", "honey"]) == {"oat cream"}
    with pytest.raises(StudentError, match="scale"):
        pantry.mass_of("1 cup", "oat cream")
    own.add("ingredients", CREAM | {"density": "1.01", "also": "oatly one; hafer"})
    assert pantry.ingredient_name("Hafer") == "oat cream"
    assert pantry.mass_of("100 mL", "oat cream").m_as("g") == pytest.approx(101)
    own.remove("ingredients", "OAT cream")
    assert pantry.own_ingredients() == ({}, ())


def test_its_allergens_never_pass_for_complete(own_workbook):
    own.add("ingredients", DARK)
    assert "soybeans" in pantry.facts()["my dark 66"]["allergens_us"]
    assert any("pack" in word for word in pantry.facts()["my dark 66"]["allergens_eu"])


def test_an_own_chocolate_counts_as_chocolate_of_its_kind(own_workbook):
    own.add("ingredients", DARK)
    assert chocolate.kind_named("My Dark 66") == "dark"
    assert emulsion.kind_in(Formula({"my dark 66": "100 g"})) == "dark"
    butter = pantry.ingredients()["my dark 66"]["cocoa_butter"]
    assert chocolate.latent_heat("my dark 66") == pytest.approx(157 * butter)
    assert 0.39 < butter < 0.42


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"ingredient": "Honey"}, "a name that honey has"),
        ({"ingredient": "caster  SUGAR"}, "granulated sugar"),
        ({"also": "a nut cream; butter"}, "butter"),
        ({"ingredient": "300"}, "letters"),
        ({"kind": "oaty"}, "as the kind"),
        ({"fat": "130"}, "add up"),
        ({"sugars": "9"}, "more sugars"),
        ({"fat": "13 oz"}, "'fat'"),
    ],
)
def test_a_row_at_fault_is_left_out_and_said_by_its_place(own_workbook, change, said):
    own.add("ingredients", DARK)
    own.add("ingredients", CREAM | change)
    made, faults = pantry.own_ingredients()
    assert list(made) == ["my dark 66"] and len(faults) == 1
    assert "my-kitchen/ingredients.csv, row 3" in str(faults[0]) and said in str(faults[0])
    assert Formula({"my dark 66": "10 g"}).grams
    assert sheets.problems() == [str(faults[0])]


def test_a_file_that_is_none_is_said_and_stops_nobody(own_workbook):
    for which in own.TABLES:
        kitchen.put("", which, "colour,size\nred,1\n")
    found = sheets.problems()
    assert len(found) == 3 and all("my-kitchen/" in one and "no column" in one for one in found)
    assert Formula({"honey": "10 g"}).grams and tempering.band("dark") and len(datasets.prices()) > 20


def test_what_a_spreadsheet_made_of_the_file_is_read_and_kept(own_workbook):
    folder = own_workbook / "lessons" / "my-kitchen"
    folder.mkdir()
    text = (
        "\ufeffIngredient;kind;fat;carbohydrate;sugars;protein;note\r\noat cream;other;13,5;6;3;1;mine\r\nbad;;;;;;\r\n"
    )
    (folder / "ingredients.csv").write_text(text, encoding="utf-8")
    made, faults = pantry.own_ingredients()
    assert made["oat cream"].grams["fat"] == pytest.approx(13.5, abs=0.06)
    assert len(faults) == 1 or all("row 3" in str(fault) for fault in faults)
    own.add("ingredients", DARK)
    assert set(pantry.own_ingredients()[0]) == {"oat cream", "my dark 66"}
    assert "bad" in (folder / "ingredients.csv").read_text(encoding="utf-8")


def test_an_instructors_labels_and_couvertures_go_out_with_the_datasets(own_workbook):
    own.add("ingredients", DARK)
    own.add("couvertures", BANDS)
    (own_workbook / "datasets").mkdir()
    for which, name in (("ingredients", "labels.csv"), ("couvertures", "couvertures.csv")):
        shutil.move(own_workbook / "lessons" / "my-kitchen" / f"{which}.csv", own_workbook / "datasets" / name)
    assert "my dark 66" in pantry.own_ingredients()[0]
    assert chocolate.band_floats("my dark 66")[2] == (30.5, 31.5)
    own.add("ingredients", CREAM)
    assert list(pantry.own_ingredients()[0]) == ["my dark 66", "oat cream"]
    # The class's rows are known, and are not the reader's own to take out.
    assert [(row.name, row.mine) for row in own.rows("ingredients").rows] == [
        ("my dark 66", False),
        ("oat cream", True),
    ]


# --- couvertures ------------------------------------------------------------------------------------------------------


def test_a_couverture_has_the_bands_of_its_sheet(own_workbook):
    own.add("couvertures", BANDS)
    assert chocolate.band_floats("MY dark  66") == ((48, 52), (27, 28), (30.5, 31.5))
    assert chocolate.wide_band_floats("my dark 66")[2] == (30.5, 31.5)
    assert tempering.band("my dark 66")[2][1].m_as("degC") == pytest.approx(31.5)
    assert chocolate.crystals_stand_to("my dark 66") == chocolate.crystals_stand_to("dark")
    assert chocolate.latent_heat("my dark 66") == 46
    assert chocolate.band_floats("dark")[2] == (31, 32)
    own.add("ingredients", DARK)
    assert chocolate.latent_heat("my dark 66") > 60


def test_the_log_reader_judges_by_the_couvertures_own_band(own_workbook):
    """29.4 degC at work: below dark's 30.5 with its edge, inside a supplier's 28.5 to 29.5."""
    from pastrylab.logs import read_log, review_log

    text = "minutes, degC\n0, 49\n5, 49\n10, 38\n15, 32\n20, 29.5\n25, 29.4\n30, 29.4\n"
    own.add("couvertures", BANDS | {"cool_low": "26", "cool_high": "27", "work_low": "28.5", "work_high": "29.5"})
    by_kind = review_log(read_log(text), "dark", seeded_at="8 min")
    by_sheet = review_log(read_log(text), "my dark 66", seeded_at="8 min")
    assert by_kind.at_work is None or by_kind.verdict != by_sheet.verdict
    assert by_sheet.at_work is not None


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"work_high": "34.5"}, "loses its temper"),
        ({"kind": "milk", "work_high": "33"}, "loses its temper"),
        ({"melt_low": "34"}, "last crystals"),
        ({"cool_low": "15"}, "below it chocolate sets"),
        ({"cool_high": "33", "cool_low": "32"}, "cooling below"),
        ({"work_low": "33"}, "lower temperature first"),
        ({"couverture": "dark"}, "taken"),
        ({"couverture": "Dark couverture 64%"}, "taken"),
        ({"couverture": "66"}, "letters"),
    ],
)
def test_bands_that_no_chocolate_has_are_refused(own_workbook, change, said):
    own.add("couvertures", BANDS | change)
    found, faults = couvertures.own_couvertures()
    assert found == {} and said in str(faults[0]) and "couvertures.csv, row 2" in str(faults[0])
    assert sheets.problems() == [str(faults[0])]


@pytest.mark.parametrize(
    ("change", "said"),
    [({"kind": "ruby"}, "dark, milk, white"), ({"melt_low": "118 F"}, "number"), ({"melt_low": ""}, "empty")],
)
def test_a_row_the_table_does_not_take_is_not_written(own_workbook, change, said):
    with pytest.raises(StudentError, match=said):
        own.add("couvertures", BANDS | change)
    assert own.rows("couvertures").rows == ()


def test_a_couverture_and_its_label_are_of_one_kind(own_workbook):
    own.add("ingredients", DARK)
    own.add("couvertures", BANDS | {"kind": "milk", "work_low": "29", "work_high": "30"})
    assert "as milk chocolate" in str(couvertures.own_couvertures()[1][0])


# --- prices ------------------------------------------------------------------------------------------------------------

LEMONS = {"item": "lemons", "pack_size": "1", "pack_unit": "kg", "price": "4.20"}


def test_an_own_price_wins_over_the_classs(own_workbook):
    before = purchasing.price_list(datasets.prices())["dark couverture 64 %"].price
    own.add(
        "prices",
        {"item": "my bag", "ingredient": "dark couverture 64 %", "pack_size": "2.5", "pack_unit": "kg", "price": "50"},
    )
    packs = purchasing.price_list(datasets.prices())
    assert str(packs["dark couverture 64 %"].price) == "$50.00" != str(before)
    assert str(packs["dark couverture 64 %, bag"].price) == str(before)
    own.add("prices", {"item": "dark couverture 64 %, bag", "pack_size": "1", "pack_unit": "kg", "price": "20"})
    assert len(datasets.prices()) == len(datasets.load("prices.csv", datasets.PRICES)) + 1
    assert kitchen_currency() == "USD"


def test_an_own_price_needs_no_more_than_a_receipt_says(own_workbook):
    own.add("prices", LEMONS)
    pack = purchasing.price_list(datasets.prices())["lemons"]
    assert str(pack.price) == "$4.20" and float(pack.yield_share) == 1
    own.add("prices", LEMONS | {"yield_share": "0.4"})
    assert purchasing.packs_to_buy(purchasing.price_list(datasets.prices())["lemons"], "500 g") == 2


def test_a_file_a_spreadsheet_marked_with_its_separator_is_added_to(own_workbook):
    kitchen.put("", "prices", "sep=;\nitem;pack_size;pack_unit;price;price_low;price_high\nsalt;1;kg;0,50;0,4;0,6\n")
    own.add("prices", LEMONS)
    packs = purchasing.price_list(datasets.prices())
    assert str(packs["salt"].price_range[0]) == "$0.40" and str(packs["lemons"].price) == "$4.20"
    own.remove("prices", "Salt")
    assert [row.name for row in own.rows("prices").rows] == ["lemons"]


def test_an_own_price_names_its_ingredient_by_any_of_its_names(own_workbook):
    own.add("prices", LEMONS | {"item": "my carton", "ingredient": "Heavy Cream", "pack_unit": "L", "price": "6.40"})
    assert str(purchasing.price_list(datasets.prices())["heavy cream 36 %"].price) == "$6.40"


def test_a_file_of_headings_alone_holds_nothing_yet(own_workbook):
    kitchen.put("", "prices", "item,pack_size,pack_unit,price\n")
    assert own.rows("prices").rows == () and own.rows("prices").faults == ()
    own.add("prices", LEMONS)
    assert len(own.rows("prices").rows) == 1


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"currency": "EUR"}, "column 'currency'"),
        ({"pack_unit": "piece", "pack_size": "2.5"}, "whole number"),
        ({"price_low": "5", "price_high": "6"}, "may be widened"),
        ({"ingredient": "zorks"}, "zorks"),
    ],
)
def test_a_price_at_fault_is_said_and_left_out(own_workbook, change, said):
    own.add("prices", LEMONS | change)
    assert purchasing.price_list(datasets.prices())
    (problem,) = sheets.problems()
    assert said in problem and "my-kitchen/prices.csv, row 2" in problem


# --- check, and who asks whom -------------------------------------------------------------------------------------------


@pytest.fixture
def datasets_of_ones_own(own_workbook):
    shutil.copytree(files.folder(), own_workbook / "datasets")
    return own_workbook / "datasets" / "ingredients.csv"


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("\nwater,tap water;drinking water,drink,", "\nwater,tap water;drinking water,potion,", "one of acid, butter"),
        ("\nwater,tap water;drinking water,drink,100,", "\nwater,tap water;drinking water,drink,lots,", "'lots'"),
        ("\nwater,tap water;drinking water,drink,100,", "\nwater,tap water;drinking water,drink,50,", "add up to"),
    ],
)
def test_a_fault_that_stops_every_exercise_is_said_once(datasets_of_ones_own, old, new, said):
    text = datasets_of_ones_own.read_text(encoding="utf-8")
    assert text.count(old) == 1
    datasets_of_ones_own.write_text(text.replace(old, new), encoding="utf-8")
    found = catalogue.check(students=5)
    assert len(found) == 2 and said in found[0] and "ingredients.csv, row" in found[0]
    assert "exercises cannot be tried" in found[1]


def test_nobody_above_asks_for_the_shipped_ingredients_alone():
    """Composition is asked of the pantry, which knows a reader's own; only the exercises' own numbers may not move."""
    package = files._PACKAGE
    allowed = {"trade/pantry_rows.py"}
    asking = set()
    for path in package.rglob("*.py"):
        name = path.relative_to(package).as_posix()
        text = path.read_text(encoding="utf-8")
        for node in ast.walk(ast.parse(text)) if "ingredients" in text else ():
            direct = isinstance(node, ast.ImportFrom) and node.module == "pastrylab.ground.datasets"
            if direct and any(one.name == "ingredients" for one in node.names):
                asking.add(name)
            if isinstance(node, ast.Attribute) and node.attr == "ingredients":
                if isinstance(node.value, ast.Name) and node.value.id == "datasets":
                    asking.add(name)
    assert asking <= allowed


CERTAIN = {"pack_unit": "kg", "pack_size": 2.5, "yield_share": 1, "yield_low": 1, "yield_high": 1}


@pytest.mark.parametrize(
    ("price", "example"), [(2, None), (3, None), (1.5, "price_low 1.5, price_high 3"), (4, "price_low 2, price_high 4")]
)
def test_a_price_lies_from_its_low_to_its_high(price, example):
    found = list(own.price_faults(CERTAIN | {"price": price, "price_low": 2, "price_high": 3}))
    assert [(column, error.example) for column, error in found] == ([] if example is None else [("price", example)])
    assert all("price_low, 2, to price_high, 3" in error.needed for _, error in found)


def test_pieces_are_counted_and_a_yield_lies_within_its_ends():
    row = CERTAIN | {"price": 1, "price_low": 1, "price_high": 1}
    assert list(own.price_faults(row | {"pack_unit": "piece", "pack_size": 12})) == []
    ((column, error),) = own.price_faults(row | {"pack_unit": "piece"})
    assert (column, error.given, error.example) == ("pack_size", "2.5 pieces", "2")
    ((column, error),) = own.price_faults(row | {"yield_share": 0.5, "yield_low": 0.6})
    assert (column, error.example) == ("yield_share", "yield_low 0.5, yield_high 1")


def test_what_a_price_does_not_say_is_filled_in(own_workbook):
    own.add("prices", LEMONS | {"yield_share": "0.9", "price_low": "4", "currency": " usd "})
    ((row,), faults) = own.price_rows("USD")
    assert faults == () and (row["currency"], row["ingredient"], row["source"]) == ("USD", "lemons", "my own price")
    assert [row[f"yield_{end}"] for end in ("share", "low", "high")] == [0.9, 0.9, 0.9]
    assert (row["price"], row["price_low"], row["price_high"]) == (4.2, 4, 4.2)
    own.add("prices", LEMONS | {"source": "the receipt", "ingredient": "lemon juice"})
    ((row,), _) = own.price_rows("USD")
    assert (row["yield_share"], row["yield_low"], row["price_high"]) == (1, 1, 4.2)
    assert (row["source"], row["ingredient"]) == ("the receipt", "lemon juice")


def test_short_and_odd_rows_of_the_file_are_kept(own_workbook):
    """A row of one cell has no price, and one of another thing stays as it stands; only the row of the name goes."""
    kitchen.put("", "prices", "note,item,pack_size,pack_unit,price\nmine\n;;\nbest,Lemons,1,kg,4\nx,limes,1,kg,3\n")
    own.remove("prices", "none of these")
    assert "mine\n;;\n" in kitchen.get("", "prices")
    own.remove("prices", "lemons")
    assert kitchen.get("", "prices") == "note,item,pack_size,pack_unit,price\nmine\nx,limes,1,kg,3\n"
    own.add("prices", LEMONS)
    assert kitchen.get("", "prices").splitlines()[1:3] == ["mine", "x,limes,1,kg,3"]
    own.remove("prices", "limes")
    assert [row.name for row in own.rows("prices").rows] == ["lemons"]


def test_a_class_without_prices_has_no_currency(own_workbook):
    own.add("prices", LEMONS)
    nobodys = datasets.load("prices.csv", datasets.PRICES)
    assert len(own.with_own_prices(nobodys.where(item="nobody sells it"))) == 0
    assert list(own.with_own_prices(nobodys)["item"])[0] == "lemons"


def test_an_own_ingredient_keeps_its_name_when_it_is_written_again(own_workbook):
    own.add("ingredients", DARK)
    for taken, but in (("my dark 66", ()), ("My Dark 66", ("honey",)), ("honey", ("honey",))):
        with pytest.raises(StudentError, match="a name that"):
            pantry.check_own_name(taken, but=but)
    pantry.check_own_name("my dark 66", but=("my dark 66",))
    pantry.check_own_name("a" * 60)
    with pytest.raises(StudentError, match="at most 60"):
        pantry.check_own_name("a" * 61)


def test_a_row_says_where_it_comes_from(own_workbook):
    own.add("ingredients", CREAM)
    own.add("ingredients", DARK | {"source": "its pack"})
    assert [pantry.facts()[name]["source"] for name in ("oat cream", "my dark 66")] == [
        "derived from its label, an ingredient of one's own",
        "its pack",
    ]


@pytest.mark.parametrize(
    ("typed", "size", "unit"),
    [
        ("0.00105 kg for 1", 0.00105, "kg"),
        ("0.001 kg for 0.50", 0.001, "kg"),
        ("10000 kg for 999999999", 10_000, "kg"),
        ("2 dozen for 3", 24, "piece"),
        ("9999 pieces for 3", 9999, "piece"),
        ("1 tsp for 4", 4.928922, "mL"),  # 236.5882365 mL a cup, 48 teaspoons in it: 4.92892159..., to the millionth
    ],
)
def test_a_pack_of_any_size_a_kitchen_buys(typed, size, unit):
    assert pack_and_price(typed)[:2] == (size, unit)


@pytest.mark.parametrize(
    ("typed", "needed"),
    [
        ("0.0009 kg for 1", "the size of a pack"),
        ("10000.5 kg for 1", "the size of a pack"),
        ("2.5 pieces for 3", "the size of a pack"),
        ("50 % for 3", "a mass, a volume or pieces"),
        ("5 minutes for 3", "a mass, a volume or pieces"),
        ("1 kg for 0", "a price above zero"),
        ("1 kg for 1000000000", "below 1000000000"),
    ],
)
def test_a_pack_nobody_buys_is_refused(typed, needed):
    with pytest.raises(StudentError) as error:
        pack_and_price(typed)
    assert needed in error.value.needed


def test_what_is_bought_has_a_name_of_letters():
    assert price_row("a" * 60, "1 kg for 4")["item"] == "a" * 60
    for name in ("a" * 61, "300", ""):
        with pytest.raises(StudentError, match="at most 60 letters"):
            price_row(name, "1 kg for 4")


@pytest.mark.parametrize(
    ("typed", "ingredient", "row"),
    [
        ("105 g for 8", "honey", ("0.105", "kg", "8", "")),
        ("99 g for 0.50; 80 %", "honey", ("99", "g", "0.5", "0.8")),
        ("90 mL for 2", "heavy cream 36 %", ("90", "mL", "2", "")),
        ("1 L for 2", "heavy cream 36 %", ("1", "L", "2", "")),
        ("1 L for 2; 0.9 g/mL", "heavy cream 36 %", ("0.9", "kg", "2", "")),  # another density than the table's
        ("100 mL for 2; 0.9 g/mL", "heavy cream 36 %", ("90", "g", "2", "")),
    ],
)
def test_a_pack_is_written_as_one_would_read_it_off(typed, ingredient, row):
    made = row_of_pack(read_pack(typed, ingredient), ingredient, "mine")
    assert tuple(made[column] for column in ("pack_size", "pack_unit", "price", "yield_share")) == row
    with pytest.raises(StudentError, match="above zero"):
        row_of_pack(read_pack("1 kg for 0", "honey"), "honey", "mine")


@pytest.mark.parametrize("word", ["=cmd|' /C calc'!A0", "+1+1", "@SUM(A1)", "-2+3"])
def test_a_word_a_spreadsheet_would_work_out_is_refused(own_workbook, word):
    with pytest.raises(StudentError, match="sum"):
        own.add("prices", {"item": word, "pack_size": "1", "pack_unit": "kg", "price": "4.20"})
    assert not (own_workbook / "lessons" / "my-kitchen" / "prices.csv").exists()


@pytest.mark.parametrize("word", ["cream - 36 %", "2% milk", "64=dark", "Ana's + mine"])
def test_a_sign_inside_a_name_is_a_name(own_workbook, word):
    own.add("prices", {"item": word, "pack_size": "1", "pack_unit": "kg", "price": "4.20"})
    assert word in (own_workbook / "lessons" / "my-kitchen" / "prices.csv").read_text(encoding="utf-8")
