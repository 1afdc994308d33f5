"""The formula box: what is typed, asked, kept, exported and read in again, and handed to the steps; by hand."""

import base64
import re

import pytest

from pastrylab import Formula, benches
from pastrylab.ground import kitchen
from pastrylab.ground.units import StudentError
from pastrylab.page.formula import file as formula_file
from pastrylab.page.formula.box import EXAMPLE, TABS, FormulaBox
from pastrylab.page.formula.composition import CompositionTab
from pastrylab.page.formula.percent import PercentTab

pytestmark = pytest.mark.usefixtures("undrawn")

_PRESSED = {"Scale", "Mend it", "Swap it", "Cost it", "Save a page to print", "Keep my packs", "Use this formula"}
DARK, CREAM, BUTTER = "dark couverture 64 %", "heavy cream 36 %", "butter unsalted"


def words(html):
    return " ".join(re.sub("<[^>]+>", " ", html).split())


@pytest.fixture
def box(own_workbook):
    return FormulaBox()


def everything(widget):
    yield widget
    for child in getattr(widget, "children", ()):
        yield from everything(child)


def asked(box):
    return [one.description for one in box.questions.children if hasattr(one, "options")]


def answer(box, begins, text):
    next(one for one in box.questions.children if getattr(one, "description", "").startswith(begins)).value = text


# --- reading and asking ---------------------------------------------------------------------------------------------


def test_a_list_is_read_when_it_is_typed(box):
    box.text.value = EXAMPLE
    # 3/4 of a cup of heavy cream, 238 g (USDA SR28, 01053), is 178.5 g: 330 + 178.5 + 35 + 25 = 568.5 g.
    assert "4 ingredients, together 568.5 g" in words(box.said.value) and box.formula.grams[DARK] == 330
    assert "3/4 cup by its density" in words(box.lines.value) and asked(box) == []


def test_what_is_open_is_asked_below_and_may_be_answered_otherwise_later(box):
    box.text.value = "chocolate 300 g\ncream 200 g"
    assert "One question is open" in words(box.said.value) and box.formula is None
    answer(box, "Which ingredient is 'chocolate'?", "milk couverture 38 %")
    assert box.formula.grams == {"milk couverture 38 %": 300.0, CREAM: 200.0}
    answer(box, "Which ingredient is 'chocolate'?", "dark 64 %")
    assert box.formula.grams == {DARK: 300.0, CREAM: 200.0}
    answer(box, "Which ingredient is 'chocolate'?", "leave this line out")
    assert box.formula.grams == {CREAM: 200.0}


def test_one_answer_serves_all_numbers_without_a_unit(box):
    box.text.value = "heavy cream 200\nhoney 40"
    assert asked(box)[0] == "Numbers without a unit are" and box.formula is None
    box.questions.unit.value = "g"
    assert box.formula.grams == {CREAM: 200.0, "honey": 40.0}


def test_a_list_in_percent_asks_what_the_whole_weighs(box):
    box.text.value = "dark couverture 64 %: 60 %\ncream 36 %: 40 %"
    assert box.formula is None and "to weigh" in words(box.questions.children[0].value)
    for odd in ("a lot", "-1 kg", "1 cup", "0 g", "5"):
        box.questions.total.value = odd
        assert box.formula is None and "Needed" in words(box.questions.said.value), odd
    box.questions.total.value = "1 kg"
    assert box.formula.grams == pytest.approx({DARK: 600, CREAM: 400})


def test_what_is_typed_is_escaped(box):
    box.text.value = "<img src=x onerror=alert(1)> 40 g\n<b>honey</b> 3 g"
    assert "<img" not in box.lines.value and "<b>honey" not in box.lines.value and "&lt;img" in box.lines.value


def test_a_list_too_long_is_said(box):
    box.text.value = "honey 40 g"
    box.text.value = "honey 1 g\n" * 81
    assert "very long list" in words(box.said.value) and box.formula is None


# --- kept, exported, read in ----------------------------------------------------------------------------------------


def test_the_next_box_opens_with_the_list_and_its_answers(box):
    box.text.value = "chocolate 300 g\ncream 200 ml"
    answer(box, "Which ingredient is 'chocolate'?", DARK)
    again = FormulaBox("composition")
    assert again.text.value == box.text.value and again.formula == box.formula
    assert words(again.place.children[0].table.value).startswith("What it is made of")


def test_an_untouched_box_writes_nothing(box):
    assert not kitchen.folder().exists()


def test_a_kept_formula_comes_back_as_it_was_read(box):
    box.text.value = "3/4 cup heavy cream, warm\nchocolate 300 g"
    box.keeper.name.value = "my truffle"
    box.keeper.keep.click()
    assert "no formula yet" in words(box.keeper.said.value)
    answer(box, "Which ingredient is 'chocolate'?", DARK)
    box.keeper.keep.click()
    assert kitchen.get("formulas", "my truffle").splitlines()[0] == "ingredient,amount,unit,note"
    box.text.value = "honey 40 g"
    box.keeper.fetch.click()
    assert box.formula.grams == pytest.approx({CREAM: 178.5, DARK: 300}, rel=1e-3)
    assert "(note: warm)" in box.text.value


def test_the_export_is_the_file_that_is_read_in_again(box):
    box.text.value = EXAMPLE
    data = re.search(r"base64,([^\"]+)", box.export.value)[1]
    before = box.formula
    box.put("")
    assert box.formula is None
    box.put(formula_file.lines_of(base64.b64decode(data)))
    assert box.formula.grams == pytest.approx(before.grams, rel=1e-6)


@pytest.mark.parametrize(
    ("text", "grams"),
    [
        ("ingredient,amount,unit,note\nheavy cream,200,g,\nbutter,25,g,soft\n", {CREAM: 200, BUTTER: 25}),
        ("Ingredient;Amount;Unit\nheavy cream;0,75;cup\n", {CREAM: 178.5}),
        ("amount\tunit\tingredient\n8\toz\thoney\n", {"honey": 226.8}),
        ('ingredient,amount,unit,note\n"couverture, dark, 64 %",300,g,"melted at 45 °C, in 500 g lots"\n', {DARK: 300}),
        ("\ufeffhoney 40 g\nbutter; 25 g\n", {"honey": 40, BUTTER: 25}),
    ],
)
def test_a_file_of_a_spreadsheet_is_read(box, text, grams):
    box.put(formula_file.lines_of(text.encode("utf-8")))
    assert box.formula.grams == pytest.approx(grams, rel=0.003)


@pytest.mark.parametrize(
    ("raw", "named"),
    [
        (b"ingredient,amount\nhoney,lots\n", "row 2"),
        (b"ingredient,amount\nhoney,-3\n", "at least 0"),
        (b"ingredient,amount,colour\nhoney,3,red\n", "colour"),
        (b"\x00\x01\x02", "not text"),
        (b"honey 40 g\n" * 10_000, "bytes"),
    ],
)
def test_a_file_that_cannot_be_read_is_named(raw, named):
    with pytest.raises(StudentError, match=named):
        formula_file.lines_of(raw)


# --- the steps ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("word", ["", "percent", "composition", "mend", "swap", "water", "cost"])
def test_a_lesson_opens_the_step_it_names(own_workbook, word):
    box = benches.my_formula(word)
    assert word in box.steps.value.casefold() and "No formula yet" in words(box.place.children[0].said.value)
    box.text.value = EXAMPLE
    assert "No formula yet" not in words(box.place.children[0].said.value)


def test_every_step_keeps_what_the_box_gives_it(box):
    box.text.value = EXAMPLE
    for kind in TABS:
        box.steps.value = kind.title
        assert "Something broke" not in words(box.place.children[0].said.value)
        assert box.place.children[0].formula == box.formula


@pytest.mark.parametrize("before", ["", EXAMPLE])
@pytest.mark.parametrize("kind", [kind for kind in TABS if kind is not CompositionTab])  # nothing to press there
def test_nothing_works_a_step_without_a_formula(box, kind, before, caplog):
    box.text.value, box.steps.value = before, kind.title
    tab = box.place.children[0]
    if before and hasattr(tab, "press"):
        tab.press.click()
    box.text.value = ""
    buttons = [one for one in everything(tab) if getattr(one, "description", "") in _PRESSED]
    for one in buttons:
        one.click()
        assert "No formula yet" in words(tab.said.value), one.description
    if hasattr(tab, "boiled"):
        tab.boiled.value = "400 g"
        assert "No formula yet" in words(tab.said.value)
    assert not caplog.records and box.text.value == "" and box.formula is None


def test_a_changed_formula_becomes_the_one_in_force(box):
    box.text.value = "butter, soft, 25 g\nhoney 75 g"
    box.keep("scaled", Formula({"butter": "50 g", "honey": "150 g"}))
    assert box.formula.grams == {BUTTER: 50.0, "honey": 150.0} and "(note: soft)" in box.text.value
    assert box.keeper.name.value.endswith(", scaled")


# --- percent and scale ----------------------------------------------------------------------------------------------

PARTS = {DARK: "300 g", "heavy cream": "150 g", "butter": "50 g"}


def scaled(**typed):
    taken = []
    tab = PercentTab(lambda name, formula: taken.append((name, formula)))
    tab.show(Formula(PARTS))
    for name, value in typed.items():
        getattr(tab, name).value = value
    tab.press.click()
    return tab, taken


def test_percent_of_the_total_and_of_a_base():
    tab, _ = scaled()
    # 300, 150 and 50 of 500 g are 60, 30 and 10 %; on the chocolate 100, 50 and 16.7 %.
    text = words(tab.shares.value)
    assert "60.0 %" in text and "30.0 %" in text and "10.0 %" in text
    tab.base.value = "chocolate"
    text = words(tab.shares.value)
    assert "of the chocolate" in text and "50.0 %" in text and "16.7 %" in text and "166.7 %" in text


@pytest.mark.parametrize(
    ("typed", "factor", "said"),
    [
        ({"way": "to a total", "total": "2 kg"}, 4, "4 times the formula"),
        ({"way": "to a total", "total": "2 lb"}, 1.81437, "1.814 times"),
        ({"way": "to a number of pieces", "pieces": "60", "piece": "12 g"}, 1.44, "1.44 times"),
        ({"way": "to a number of pieces", "pieces": "5 dozen", "piece": "12 g"}, 1.44, "1.44 times"),
        ({"way": "so many times", "times": "1/2"}, 0.5, "0.5 times"),
        # 240 g of butter would do for 4.8 times; 450 g of cream only for 3.
        (
            {"way": "by what is on the shelf", "stock": "450 g cream\nbutter: 240 g"},
            3,
            "heavy cream 36 % runs out first",
        ),
    ],
)
def test_a_formula_is_scaled_each_way(typed, factor, said):
    tab, taken = scaled(**typed)
    assert said in words(tab.said.value)
    tab.take.click()
    ((name, made),) = taken
    assert name == "scaled" and made.grams == pytest.approx(
        {DARK: 300 * factor, CREAM: 150 * factor, BUTTER: 50 * factor}, rel=1e-5
    )


def test_what_is_left_on_the_shelf_is_said():
    tab, _ = scaled(way="by what is on the shelf", stock="450 g cream\nbutter: 240 g")
    assert "Left over: 90 g of butter unsalted" in words(tab.said.value)  # 240 - 3 x 50


def test_a_scale_too_coarse_is_said():
    tab, _ = scaled(way="so many times", times="0.01", step="10 g")
    assert "cannot weigh" in words(tab.said.value) and "too small" in words(tab.found.value)


@pytest.mark.parametrize(
    ("typed", "named"),
    [
        ({"total": ""}, "nothing"),
        ({"total": "0 g"}, "total"),
        ({"total": "2 cups"}, "a volume"),
        ({"way": "to a number of pieces", "pieces": "12.5"}, "whole number"),
        ({"way": "to a number of pieces", "pieces": "12 g"}, "plain number"),
        ({"way": "so many times", "times": "0"}, "factor"),
        ({"way": "so many times", "times": "-2"}, "-2"),
        ({"way": "by what is on the shelf", "stock": ""}, "nothing on the shelf"),
        ({"way": "by what is on the shelf", "stock": "chocolate 300 g"}, "Which ingredient"),
        ({"way": "by what is on the shelf", "stock": "salt 300 g"}, "without any part"),
    ],
)
def test_what_cannot_be_scaled_is_said(typed, named):
    tab, _ = scaled(**typed)
    text = words(tab.said.value)
    assert named in text and "Something broke" not in text and tab.found.value == ""


# --- composition ----------------------------------------------------------------------------------------------------


def test_composition_by_hand():
    # 100 g of butter (USDA SR28, 01145: 17.94 g of water, 81.11 of fat) and 100 g of water.
    tab = CompositionTab()
    tab.show(Formula({"butter": "100 g", "water": "100 g"}))
    text = words(tab.table.value)
    assert "water 118 g (4.16 oz) 59.0 %" in text and "fat, all of it 81.1 g (2.86 oz) 40.6 %" in text
    assert "Not compared with the habits of a ganache" in words(tab.said.value)


def test_without_water_there_is_no_ganache():
    tab = CompositionTab()
    tab.show(Formula({"cocoa butter": "100 g"}))
    assert "No ganache" in words(tab.said.value) and "by volume" not in tab.bars.value


def test_a_praline_filling_is_no_ganache_that_splits():
    tab = CompositionTab()
    tab.show(Formula({"hazelnut praline 50 %": "200 g", "milk couverture 38 %": "100 g", "cocoa butter": "20 g"}))
    assert "filling of fat" in words(tab.said.value) and "split" not in words(tab.said.value)


def test_card_ratio_and_crowding_of_a_ganache():
    tab = CompositionTab()
    tab.show(Formula({DARK: "300 g", "heavy cream": "200 g"}))
    text = words(tab.said.value)
    # 300 g of it hold 120 g of fat, 200 g of cream 72 g: 192 of 500 g (label of ingredients.csv, 40 %; USDA SR28, 36.08 %).
    assert 'aria-label="By weight: water 23.5 %, fat 38.4 %' in tab.bars.value and "Warm, by volume" in tab.bars.value
    assert "Chocolate to liquid 1.50 : 1" in text and "Inside the card to fill" in text  # 300 / 200
    tab.use.value = "pour"
    assert "firmer than the habit" in words(tab.said.value)


def test_a_note_is_no_sum_to_a_spreadsheet():
    text = formula_file.as_csv(Formula({"honey": "40 g"}), {"honey": "=1+1"})
    assert text == "ingredient,amount,unit,note\nhoney,40,g,1+1\n"
