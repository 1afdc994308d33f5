"""Prep lists as people write them: what a person reads in each line, what has to be asked, what is no ingredient.

Household weights are those of USDA SR28: a US cup of heavy cream weighs 238 g, honey 339, butter 227, whole milk 244,
sugar 200, light corn syrup 341, half and half 242, cocoa 86, chocolate chips 168, maple syrup 315, lemon juice 244. A
pound is 453.592 g, an ounce 28.3495 g (NIST Handbook 44), a cup 236.588 mL.
"""

import pytest

from pastrylab.ground.units import StudentError
from pastrylab.trade.prep.amounts import amounts_in, range_in
from pastrylab.trade.prep.cells import cells_of, heads_of
from pastrylab.trade.prep.line import Reading
from pastrylab.trade.prep.names import Names
from pastrylab.trade.prep.prep_list import LEAVE_OUT, read_formula, read_list
from pastrylab.trade.prep.weights import PIECES, in_grams

pytestmark = pytest.mark.usefixtures("one_look")

DARK, CREAM, BUTTER = "dark couverture 64 %", "heavy cream 36 %", "butter unsalted"
READ = [
    ("300 g dark couverture 64 %", DARK, 300),
    ("dark couverture 64 % 300 g", DARK, 300),
    ("dark couverture 64%: 300g", DARK, 300),
    ("64 % dark couverture, 300 g", DARK, 300),
    ("300 g dark couverture (64 %)", DARK, 300),
    ("Dark Chocolate 64%\t300\tg", DARK, 300),
    ("300 g couverture, dark, 64 %, chopped", DARK, 300),
    ("1 1/2 lb dark 64 %", DARK, 680.4),
    ("1.5 lb dark couverture 64% (chopped fine)", DARK, 680.4),
    ("milk chocolate 38 % - 250 g", "milk couverture 38 %", 250),
    ("250 g milk couverture 38%, melted at 45 °C", "milk couverture 38 %", 250),
    ("dark chocolate 45-59 % 200 g", "dark chocolate 45-59 %", 200),
    ("1 cup semisweet chips", "semisweet chocolate chips", 168),
    ("semi-sweet chocolate chips, 6 oz", "semisweet chocolate chips", 170.1),
    ("3/4 cup heavy cream", CREAM, 178.5),
    ("¾ cup heavy cream", CREAM, 178.5),
    ("heavy cream: 1 cup", CREAM, 238),
    ("1 c. heavy cream", CREAM, 238),
    ("Heavy cream\t250\tg", CREAM, 250),
    ("250\tg\tHeavy cream", CREAM, 250),
    ("heavy cream,250,g", CREAM, 250),
    ("heavy cream;250;g;warm", CREAM, 250),
    ("200g cream", CREAM, 200),
    ("cream 200 ml", CREAM, 201.2),
    ("2 dl cream", CREAM, 201.2),
    ("Cream 36 %: 200 g", CREAM, 200),
    ("200 g cream 36% fat", CREAM, 200),
    ("200 g cream (36 %), hot", CREAM, 200),
    ("1 cup (240 g) heavy cream", CREAM, 240),
    ("3/4 cup heavy cream (178 g)", CREAM, 178),
    ("cream 200 g (7 oz)", CREAM, 200),
    ("cream = 200 g", CREAM, 200),
    ("cream ........ 200 g", CREAM, 200),
    ("* 250 g of cream, warm", CREAM, 250),
    ("[ ] 250 g cream", CREAM, 250),
    ("1 pint heavy cream", CREAM, 476),
    ("1 cup + 2 tbsp cream", CREAM, 267.8),
    ("cream 35 %: 100 g", "cream 35 %", 100),
    ("1/2 cup half-and-half", "half and half 10 %", 121),
    ("½ cup milk", "whole milk", 122),
    ("milk, whole, 122 g", "whole milk", 122),
    ("butter; 25 g", BUTTER, 25),
    ("butter, soft, 25 g", BUTTER, 25),
    ("25 g butter (room temperature)", BUTTER, 25),
    ("25 g soft butter", BUTTER, 25),
    ("1 lb 2 oz butter", BUTTER, 510.3),
    ("butter — 2 oz", BUTTER, 56.7),
    ("butter 12,5 g", BUTTER, 12.5),
    ("1 stick butter", BUTTER, 113.4),
    ("2 x 100 g butter", BUTTER, 200),
    ("2 tablespoons of butter, cold", BUTTER, 28.4),
    ("butter 82 % 40 g", "butter 82 %", 40),
    ("2 tbsp honey", "honey", 42.4),
    ("honey, 1 Tbsp.", "honey", 21.2),
    ("about 40 g honey", "honey", 40),
    ("~40 g honey", "honey", 40),
    ("1. 40 g honey", "honey", 40),
    ("2) honey - 40 g", "honey", 40),
    ("• honey – 40 g", "honey", 40),
    ("1/4 cup light corn syrup", "light corn syrup", 85.3),
    ("invert sugar 35 g", "invert syrup", 35),
    ("glucose syrup DE 42 40 g", "glucose syrup DE 42", 40),
    ("40 g glucose (DE 42)", "glucose syrup DE 42", 40),
    ("1 1/2 cups sugar", "granulated sugar", 300),
    ("0.1 kg caster sugar", "granulated sugar", 100),
    ("1 000 g sugar", "granulated sugar", 1000),
    ("2 tbsp cocoa", "cocoa powder", 10.75),
    ("3 tsp lemon juice, strained", "lemon juice", 15.25),
    ("fresh lemon juice 15 g", "lemon juice", 15),
    ("maple syrup 1/3 cup", "maple syrup", 105),
    ("2 eggs", "whole egg", 100),
    ("3 egg yolks (60 g)", "egg yolk", 60),
    ("raspberry puree: 500 g", "raspberry puree", 500),
    ("10x sugar 1 oz", "powdered sugar", 28.35),
    ("hazelnuts, 4 oz., blanched", "hazelnuts blanched", 113.4),
    ("rum 2 cl", "rum 40 %", 18.8),
    ("water 50cc", "water", 50),
    ("cocoa butter 1 1/2 oz", "cocoa butter", 42.52),
    ("2 cups (16 oz) heavy cream", CREAM, 476),  # fluid ounces: sixteen of them are two cups
    ("16 oz (2 cups) heavy cream", CREAM, 476),
    ("butter, 1 000 g", BUTTER, 1000),
    ("chocolate couverture dark 60% 2.5 lbs", "dark couverture 60 %", 1134),
    ("• 10½ oz dark chocolate 64%", DARK, 297.7),
    ("½ lb + 2 oz butter", BUTTER, 283.5),
    ("2 Tbs. rum", "rum 40 %", 27.8),
    ("cream 250g / 8.8oz", CREAM, 250),
]


@pytest.mark.parametrize(("line", "ingredient", "grams"), READ)
def test_a_line_is_read_as_a_person_reads_it(line, ingredient, grams):
    (found,) = read_list(line).lines
    assert (found.kind, found.asks, found.ingredient) == ("part", None, ingredient)
    assert found.grams == pytest.approx(grams, rel=0.006)


ASKED = [
    ("chocolate 300 g", "ingredient", "milk chocolate"),
    ("300 g couverture", "ingredient", DARK),
    ("64 % couverture 300 g", "ingredient", DARK),
    ("chocolate 70 %, 300 g", "ingredient", "dark couverture 70 %"),
    ("dark couverture 66 % 300 g", "ingredient", DARK),
    ("heavy cream 38 %: 200 g", "ingredient", CREAM),
    ("glucose 40 g", "ingredient", "glucose syrup DE 42"),
    ("vanilla bean 1", "ingredient", "vanilla extract"),
    ("unicorn 40 g", "ingredient", ""),
    ("half a cup of honey", "ingredient", "honey"),
    ("cream", "amount", ""),
    ("cream 200", "amount", "200 g"),
    ("200-250 g cream", "amount", "250 g"),
    ("200 to 250 g cream", "amount", "200 g"),
    ("pinch of salt", "amount", ""),
    ("salt, to taste", "amount", ""),
    ("1 T honey", "amount", "1 tbsp"),
    ("1,250 g cream", "amount", "1250 g"),
    ("1.250 g cream", "amount", "1.25 g"),
    ("honey: -40 g", "amount", ""),
    ("4 sheets gelatin", "amount", ""),
    ("cream 200 g (9 oz)", "amount", "9 oz"),
    ("cream 35 250 g", "amount", "250 g"),
    ("1 cup hazelnuts blanched", "amount", ""),
    ("cream\t200\t34", "amount", "200 g"),
    ("butter 20 g 30 g", "amount", "30 g"),
    ("milk couverture 38 100", "amount", "100"),
    ("1 cup (100 g) honey", "amount", "1 cup"),
    ("juice of half a lemon", "ingredient", "lemon juice"),
    ("250 ml Sahne", "ingredient", ""),
    ("1e9 kg honey", "amount", ""),
    ("cream \N{MINUS SIGN}200 g", "amount", ""),
]


@pytest.mark.parametrize(("line", "about", "choice"), ASKED)
def test_what_is_not_clear_is_asked_and_never_guessed(line, about, choice):
    made = read_list(line)
    (found,) = made.lines
    assert found.asks is not None and found.asks.about == about and found.asks.sentence.endswith("?")
    assert made.formula is None and made.open == 1 and found.grams is None
    assert not choice or choice in found.asks.choices
    with pytest.raises(StudentError):
        read_formula(line)


@pytest.mark.parametrize(
    ("line", "kind"),
    [
        ("Ganache", "heading"),
        ("FOR THE FILLING:", "heading"),
        ("ingredient,amount,unit,note", "heading"),
        ("Bring the cream to a boil and pour it over the chocolate", "heading"),
        ("White chocolate ganache", "heading"),
        ("--------", "heading"),
        ("Ingredient;Grams;%", "heading"),
        ("Heat to 85 °C for 5 minutes", "step"),
        ("cook to 118C", "step"),
        ("Total: 590 g", "total"),
        ("Yield: 60 pieces", "total"),
        ("makes 40", "total"),
    ],
)
def test_what_is_no_ingredient_is_said_to_be_none(line, kind):
    made = read_list(f"{line}\nhoney 40 g")
    assert made.lines[0].kind == kind and made.lines[0].said and made.formula.grams == {"honey": 40.0}


def test_an_answer_closes_its_question_and_a_wrong_one_asks_again():
    line = "chocolate 300 g"
    for answer, known in (("dark couverture 64 %", DARK), ("Milk 38%", "milk couverture 38 %")):
        assert read_list(line, {(line, "ingredient"): answer}).formula.grams == {known: 300.0}
    again = read_list(line, {(line, "ingredient"): "unicorn"}).lines[0]
    assert again.asks.about == "ingredient" and "unicorn" in again.asks.sentence
    assert read_list(line, {(line, "ingredient"): LEAVE_OUT}).lines[0].kind == "left out"
    pinch = "pinch of salt"
    assert read_list(pinch, {(pinch, "amount"): "0.5 g"}).formula.grams == {"salt": 0.5}
    # A teaspoon of salt weighs 6 g (USDA SR28, 02047).
    assert read_list(pinch, {(pinch, "amount"): "1/4 tsp"}).formula.grams["salt"] == pytest.approx(1.5, rel=0.02)
    for odd in ("a bit", "5", "85 °C", "1,250 g", "-2 g"):
        assert read_list(pinch, {(pinch, "amount"): odd}).lines[0].asks.about == "amount"


def test_numbers_without_a_unit_are_asked_about_once_for_the_whole_list():
    made = read_list("heavy cream 200\nhoney 40")
    assert made.unit_asked and made.open == 2
    assert read_list("heavy cream 200\nhoney 40", unit="g").formula.grams == {CREAM: 200.0, "honey": 40.0}
    ounces = read_list("heavy cream 8\nhoney 40 g", unit="oz").formula
    assert ounces.grams == pytest.approx({CREAM: 226.8, "honey": 40.0}, rel=1e-4)


def test_a_list_in_percent_needs_the_whole():
    text = "dark couverture 64 %: 60 %\ncream 36 %: 35 %\nhoney: 5 %"
    assert read_list(text).total_asked and read_list(text).formula is None
    assert read_list(text, total=1000.0).formula.grams == pytest.approx({DARK: 600, CREAM: 350, "honey": 50})
    # On the chocolate: 100 + 50 parts of 1500 g are 1000 g and 500 g.
    on_it = read_list("dark couverture 64 %: 100 %\ncream: 50 %\nTotal 1500 g")
    assert on_it.formula.grams == pytest.approx({DARK: 1000, CREAM: 500})
    assert "not to 100" in read_list("dark couverture 64 %: 60 %\nhoney: 30 %").total_asked
    assert read_list("dark couverture 64 % 60 %\ncream 36 %: 35 %\nhoney 5 %", total=100.0).formula.grams[DARK] == 60


def test_a_share_is_an_answer_in_a_list_in_percent():
    text = "white choc 55%\ncream 25 %\nglucose 8%\nraspberry puree 12 %"  # 55 + 25 + 8 + 12 = 100
    answers = {
        ("white choc 55%", "ingredient"): "white couverture 32 %",
        ("glucose 8%", "ingredient"): "glucose syrup DE 42",
        ("cream 25 %", "amount"): "25 %",
        ("raspberry puree 12 %", "amount"): "12%",
    }
    assert read_list(text, answers).total_asked
    made = read_list(text, answers, total=2000.0).formula
    expected = {"white couverture 32 %": 1100, CREAM: 500, "glucose syrup DE 42": 160, "raspberry puree": 240}
    assert made.grams == pytest.approx(expected)
    alone = read_list("butter 50 g\na little honey", {("a little honey", "amount"): "5 %"})
    assert "among masses" in alone.lines[1].asks.sentence and alone.formula is None


@pytest.mark.parametrize("line", ["\u00bd c. whole milk + 1/4 cup cream", "honey 30 g, butter 20 g"])
def test_two_ingredients_in_a_line_are_not_one_with_two_amounts(line):
    assert "a line of its own" in read_list(line).lines[0].asks.sentence
    assert "a line of its own" not in read_list("butter 20 g 30 g").lines[0].asks.sentence


def test_a_percentage_among_masses_and_a_name_with_one_are_asked_about():
    for text in ("cream 300 g\nsalt 1 %", "cream 300 g\nhoney: 5 %", "cream 35 %", "cream 35 %\nbutter 82 %"):
        made = read_list(text)
        assert made.lines[-1].asks.about == "amount" and not made.total_asked


def test_one_ingredient_twice_is_added_up_and_a_total_is_compared():
    made = read_list("honey 40 g\nbutter 1 oz\n10 g honey\nTotal: 78 g")
    assert made.formula.grams == pytest.approx({"honey": 50, BUTTER: 28.35}, rel=1e-4)
    assert "as the lines add up" in made.lines[-1].said
    assert "78.35 g" in read_list("honey 50 g\nbutter 1 oz\nTotal: 90 g").lines[-1].said


def test_the_heads_of_a_table_say_which_number_is_the_amount():
    text = "Ingredient;Grams;%\ndark couverture 64 %;330;55,9\nheavy cream;200;33,9\n"
    assert read_list(text).formula.grams == {DARK: 330.0, CREAM: 200.0}
    ounces = read_list("Item\tAmount (oz)\tPercent\nhoney\t8\t100\n").formula
    assert ounces.grams == pytest.approx({"honey": 226.8}, rel=1e-4)
    assert read_list("item\tamount\tpercent\nhoney\t8\t100\n").unit_asked


def test_notes_are_kept_beside_the_line():
    notes = [
        read_list(line).lines[0].note
        for line in ("250 g cream, warm", "butter (room temperature) 25 g", "dark 64 % 300 g chopped", "honey 40 g")
    ]
    assert notes == ["warm", "room temperature", "chopped", ""]


def test_a_list_beyond_measure_is_refused():
    for text in ("honey 1 g\n" * 81, "x" * 201):
        with pytest.raises(StudentError, match="very long list"):
            read_list(text)
    with pytest.raises(StudentError, match="without anything"):
        read_formula("\n")
    with pytest.raises(StudentError, match="percent"):
        read_formula("cream: 60 %\nhoney: 40 %")


@pytest.mark.parametrize(
    "line", ["🍫", "()", ": ; |", "%", "-", "1", "½", "1/0 cup cream", "nan g cream", "1e9 kg honey", "((((", "\t\t"]
)
def test_any_text_at_all_comes_back_as_a_line_or_a_question(line):
    made = read_list(line)
    assert made.formula is None or made.formula.total_grams >= 0


# --- the parts of the reader ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("64 % couverture, 1 lb 2 oz", [("64 %", "percent"), ("1 lb 2 oz", "mass")]),
        ("1 c cream", [("1 c", "volume")]),
        ("20 C cream", [("20 C", "volume")]),
        ("21 C", [("21 C", "other")]),
        ("85 °C for 5 min", [("85 °C", "other"), ("5 min", "other")]),
        ("10x sugar", []),
        ("E322", []),
        ("2 x 250 g", [("2 x 250 g", "mass")]),
        ("3 x 5", [("3", "bare"), ("5", "bare")]),
        ("1 T", [("1 T", "unclear")]),
        ("1,250 g", [("1,250 g", "unclear")]),
        ("12,5 g", [("12,5 g", "mass")]),
        ("2 eggs", [("2 eggs", "count")]),
        ("-5 g", [("-5 g", "mass")]),
        (".5 oz", [(".5 oz", "mass")]),
        ("1 lb 2 oz 3 g 4 mg 5 kg 6 oz 7 lb 8 g", [("1 lb 2 oz", "mass"), ("3 g 4 mg", "mass")]),
    ],
)
def test_amounts_are_found_where_they_stand(text, found):
    held = amounts_in(text)
    assert [(one.text, one.kind) for one in held][: len(found)] == found
    assert all(text[one.start : one.end] == one.text for one in held)


@pytest.mark.parametrize(
    ("text", "ends"),
    [
        ("200-250 g cream", ("200 g", "250 g")),
        ("1 or 2 tbsp honey", ("1 tbsp", "2 tbsp")),
        ("200 g - 250 g cream", ("200 g", "250 g")),
        ("cream 5 to 7", ("5", "7")),
        ("45-59 %", ()),
        ("1-1/2 cups", ()),
        ("cream 200 g", ()),
    ],
)
def test_a_range_has_two_ends(text, ends):
    assert range_in(text) == ends


def test_cells_and_heads():
    assert cells_of("• Heavy cream | 250 | g (warm)") == ("Heavy cream | 250 | g", ["Heavy cream", "250 g"], ["warm"])
    assert cells_of("12) honey: 40 g")[1] == ["honey", "40 g"]
    assert cells_of("ratio 2:1")[1] == ["ratio 2:1"]
    assert heads_of(["Item", "Qty", "Unit"]).at == 1 and heads_of(["Item"]) is None
    assert heads_of(["Item", "oz"]).unit == "oz" and heads_of(["Item", "Amount"], ["kg"]).unit == "kg"
    assert heads_of(["Item", "Note"]).at == 2  # none of its columns


def test_a_tenth_more_than_a_measure_weighs_is_no_other_amount():
    # A cup of honey weighs 339 g (USDA SR28, 19296): 0.65 and 1.5 times that are 220 and 508 g.
    for grams, asked in ((310, False), (370, False), (230, False), (210, True), (500, False), (520, True)):
        assert (read_list(f"1 cup ({grams} g) honey").open == 1) == asked, grams


def test_what_a_piece_weighs():
    # USDA SR28: 4.86 large eggs fill a cup of 243 g; yolk 17 g and white 33 g, from memory, make the egg again.
    assert PIECES["whole egg"] == pytest.approx(243 / 4.86) and PIECES["egg yolk"] + PIECES["egg white"] == 50
    assert read_list("1 dozen eggs").formula.grams == {"whole egg": 600.0}
    assert in_grams(178.46) == "178.5 g" and in_grams(178.46, 3) == "178 g"


def test_names_to_choose_from_begin_with_the_nearest():
    names = Names.in_force()
    assert names.like("dark couverture 66 %")[:2] == [DARK, "dark couverture 70 %"]
    assert names.like("cream 38 %")[:2] == [CREAM, "cream 35 %"] and len(names.like("couverture")) == 8
    assert names.like("xyzzy") == [] and names.held_in("a spoon of dark rum") == "rum 40 %"
    assert names.find("chocolate 64 %") == "" and names.find("couverture dark 64 % cocoa") == DARK


def test_a_line_alone_is_read_with_the_heads_above_it():
    names = Names.in_force()
    line = Reading("honey | 40 | 8 %", names, {}, "", heads_of(["item", "g", "%"])).line()
    assert line.grams == 40 and Reading("honey | 40", names, {}, "oz").line().grams == pytest.approx(1134, rel=1e-3)


def test_lists_and_lines_up_to_their_limits_are_read():
    assert len(read_list("\n".join(["honey 1 g"] * 80)).parts) == 80
    line = "honey 1 g " + "(" + "x" * (200 - 12) + ")"
    assert read_list(line).formula.grams == {"honey": 1.0} and len(line) == 200


@pytest.mark.parametrize(("shares", "open_"), [((60, 39), 0), ((60, 38.4), 0), ((60, 41.6), 0)])
def test_a_list_in_percent_may_be_rounded(shares, open_):
    text = f"{DARK}: {shares[0]} %\nheavy cream: {shares[1]} %"
    made = read_list(text, total=500.0)
    assert made.open == open_ and made.formula.total_grams == pytest.approx(500)
    said = read_list(text).total_asked
    assert ("not to 100" in said) == (abs(sum(shares) - 100) > 1.5)


def test_a_long_sentence_with_a_temperature_and_a_count_is_a_step():
    eight = "Heat 2 pans to 85 °C and then stir"
    assert len(eight.split()) == 8 + 1 and read_list(eight).lines[0].kind == "step"
    assert read_list("2 pans at 85 °C, then stir honey").lines[0].kind == "part"


def test_a_name_within_six_words_is_asked_about_and_within_seven_is_a_step():
    assert read_list("some of the very best honey").lines[0].kind == "part"
    assert read_list("then stir the honey in gently").lines[0].kind == "part"
    assert read_list("then stir all the honey in gently").lines[0].kind == "heading"


def test_figures_before_an_amount_are_a_question_with_both_readings():
    asked = read_list("cream 35 250 g").lines[0].asks
    assert asked.choices == ("250 g", "35250 g")


def test_words_of_the_name_are_no_note():
    assert read_list("butter, unsalted, soft, 25 g").lines[0].note == "soft"
    assert read_list("butter | 25 g | 8").lines[0].note == ""
