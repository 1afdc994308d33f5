"""What a question offers is accepted when it is typed, and means what it said."""

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pastrylab.ground.errors import StudentError
from pastrylab.ground.grammar import read_text
from pastrylab.ground.money import money
from pastrylab.trade.prep.prep_list import read_list

WHOLE, PART = st.integers(1, 999).map(str), st.integers(0, 999).map("{:03}".format)
UNITS = st.sampled_from(
    ["g", "kg", "oz", "lb", "ml", "mL", "l", "mg", "cups", "fl oz", "°C", "min", "%", "pieces", "ct", ""]
)


def offers(error):
    """The texts between "Needed:" and the next sentence."""
    return error.needed.split(" or ")


@given(WHOLE, st.sampled_from(".,"), PART, UNITS, st.sampled_from(["", "g", "kg", "%"]))
def test_both_readings_of_a_doubtful_number_are_accepted_as_offered(whole, mark, part, unit, bare):
    try:
        read = [read_text(f"{whole}{mark}{part} {unit}", bare=bare)]
    except StudentError as error:
        if "two ways" not in error.given:
            return
        read = [read_text(text, bare=bare) for text in (*offers(error), error.example)]
        assert len({one.unit or bare for one in read}) == 1
        read = read[:2] if read[2] in read[:2] else []
        assert len(read) == 2
    # By hand: 24,147 is 24147 or 24 + 147/1000.
    possible = {float(whole + part), float(Fraction(int(whole + part), 1000))}
    assert {one.number for one in read} <= possible
    assert len(read) == 1 or {one.number for one in read} == possible


@given(WHOLE, st.sampled_from(".,"), PART, st.sampled_from(["g", "kg", "oz", "ml", "cups", "g, soft", ""]))
def test_whatever_a_list_offers_for_an_amount_closes_its_question(whole, mark, part, unit):
    line = f"honey {whole}{mark}{part} {unit}".strip()
    asked = read_list(line).lines[0].asks
    for choice in asked.choices if asked else ():
        answered = read_list(line, {(line, "amount"): choice})
        # A tonne and more is asked about once more: it is no offer to be weighed in a kitchen.
        assert answered.open == 0 or "more than a kitchen holds" in answered.lines[0].asks.sentence, choice


@given(WHOLE, st.sampled_from(".,"), PART, st.sampled_from(["", "$", "€", " USD", " KWD", " JPY"]))
def test_an_amount_of_money_that_may_be_thousands_is_offered_as_it_can_be_typed(whole, mark, part, code):
    try:
        money(f"{whole}{mark}{part}{code}" if code[:1] == " " else f"{code}{whole}{mark}{part}")
    except StudentError as error:
        assert "two ways" in error.given
        for text in offers(error):
            assert float(money(text).amount) == pytest.approx(float(text), abs=0.005)
            assert re.fullmatch(r"[\d.]+", text)


@pytest.mark.parametrize(
    ("line", "ingredient", "asks"),
    [
        ("pectin 5 g/100 g sugar", "", "pectin"),
        ("5 g salt per kg", "salt", "in all"),
        ("citric acid, 2 g per litre", "citric acid", "in all"),
        ("honey 3 g for every 100 g of cream", "honey", "in all"),
        ("cream 200 g/8 oz", "heavy cream 36 %", "several amounts"),
    ],
)
def test_an_amount_for_each_of_something_else_is_not_what_is_weighed(line, ingredient, asks):
    (read,) = read_list(line).lines
    assert read.grams is None and read.ingredient == ingredient and asks in read.asks.sentence


@pytest.mark.parametrize(
    ("line", "grams"),
    [
        ("510 g/18 oz honey", 510),
        ("450 g / 1 lb honey", 450),
        ("340 g/1 cup honey", 340),
        ("1/2 lb / 227 g honey", 226.796),
        ("1 kg/2.2 lb honey", 1000),
        ("honey 500 g / 17.6 oz", 500),
        ("-5 g honey", 5),
    ],
)
def test_one_amount_in_two_units_and_a_bullet_are_read(line, grams):
    (read,) = read_list(line).lines
    assert read.grams == pytest.approx(grams) and read.asks is None
    assert ("bullet" in read.said) == line.startswith("-")


def test_pieces_are_counted_by_ct():
    assert read_text("5 ct").unit == "piece"
    # A large egg without its shell weighs about 50 g.
    assert read_list("eggs 5 ct").formula.grams == {"whole egg": 250.0}
    assert "weigh together" in read_list("honey 5 ct").lines[0].asks.sentence


def test_which_cream_is_asked_where_its_percentage_is_a_share():
    text = "cream 22 %\nsugar 30 %\nbutter 48 %"
    made = read_list(text)
    asked = [line.asks for line in made.lines if line.asks]
    assert [one.about for one in asked] == ["ingredient"] and "share" in asked[0].sentence
    answered = read_list(text, {("cream 22 %", "ingredient"): "table cream 19 %"}, total=500)
    # 22, 30 and 48 % of 500 g.
    assert answered.formula.grams == {"table cream 19 %": 110.0, "granulated sugar": 150.0, "butter unsalted": 240.0}
    assert read_list("heavy cream: 22 %\nsugar 30 %\nbutter 48 %", total=500).open == 0


def test_one_unknown_name_in_a_list_of_percentages_is_the_only_question_for_a_line():
    made = read_list("chocolate 55 %\nheavy cream: 35 %\nbutter 10 %")
    assert [line.asks and line.asks.about for line in made.lines] == ["ingredient", None, None]
    whole = read_list(
        "\n".join(line.typed for line in made.lines), {("chocolate 55 %", "ingredient"): "milk chocolate"}, total=200
    )
    assert whole.formula.grams == {"milk chocolate": 110.0, "heavy cream 36 %": 70.0, "butter unsalted": 20.0}


@pytest.mark.parametrize(
    ("line", "kind", "ingredient", "said"),
    [
        ("GANACHE (makes 60)", "heading", "", ""),
        ("Truffles (yield: 500 g)", "heading", "", ""),
        ("butter (makes 60)", "part", "butter unsalted", "says no amount"),
        ("Bring 200 mL cream and 30 g invert sugar to the boil", "part", "heavy cream 36 %", "a line of its own"),
        ("250g dark choc 64%", "part", "dark couverture 64 %", ""),
        ("milk couv 38% 260g", "part", "milk couverture 38 %", ""),
        ("Milk choc cremeux", "heading", "", ""),
        ("raspberry pâte de fruit", "heading", "", ""),
        ("semisweet choc chips 100 g", "part", "semisweet chocolate chips", ""),
    ],
)
def test_lines_as_a_kitchen_writes_them(line, kind, ingredient, said):
    (read,) = read_list(line).lines
    assert (read.kind, read.ingredient) == (kind, ingredient)
    assert said in read.asks.sentence if said else not read.asks


def test_what_is_offered_for_a_chocolate_of_a_percentage_lies_nearest_to_it():
    (read,) = read_list("pour over 320 g of 70% chocolate").lines
    assert read.asks.choices[0] == "dark couverture 70 %"
    again = read_list(read.typed, {(read.typed, "ingredient"): "unicorn"}).lines[0].asks
    assert "'unicorn' is not in the list" in again.sentence and "chocolate" in again.sentence
    known = read_list(read.typed, {(read.typed, "ingredient"): "dark couverture 70 %"})
    assert known.formula.grams == {"dark couverture 70 %": 320.0}


@pytest.mark.parametrize(
    "line",
    [
        "10 oz honey / cream 1 cup / butter 50 g",
        "honey 40 g, butter 20 g",
        "200 g cream 50 g butter",
        "1 kg sugar + 200 g water",
    ],
)
def test_several_ingredients_in_one_line_are_never_read_as_one(line):
    (read,) = read_list(line).lines
    assert read.grams is None and "a line of its own" in read.asks.sentence
    one = read.asks.choices[0]
    (again,) = read_list(line, {(line, "ingredient"): one}).lines
    assert again.grams is None and one in again.asks.sentence
    (done,) = read_list(line, {(line, "ingredient"): one, (line, "amount"): "40 g"}).lines
    assert (done.ingredient, done.grams) == (one, 40.0)


def test_a_count_behind_a_comma_is_a_count_and_milk_fat_belongs_to_its_cream():
    # A yolk of a large egg: 17 g, from memory (PIECES).
    assert read_list("egg yolk, 2 ea").formula.grams == {"egg yolk": 34.0}
    assert read_list("whipping cream 35% M.F. 500 g").formula.grams == {"cream 35 %": 500.0}


def test_a_yield_in_brackets_beside_an_amount_makes_no_heading():
    (read,) = read_list("unicorn dust (40 g) (makes 60)").lines
    assert read.kind == "part" and read.asks.about == "ingredient"
