"""The step of the formula box that costs: a card worked by hand, questions for what has no price, money of one kind."""

import re
import shutil

import pytest

from pastrylab import Formula
from pastrylab.ground import files, kitchen, own
from pastrylab.page.formula.cost import CostTab

pytestmark = pytest.mark.usefixtures("undrawn")

GANACHE = {"dark couverture 64 %": "300 g", "heavy cream": "200 g"}
PACKS = {"dark couverture 64 %": "1 kg for 20", "heavy cream 36 %": "1 L for 5; 1 g/mL"}
BY_HAND = {
    "pieces": "50",
    "rejects": "0",
    "minutes": "60",
    "wage": "20",
    "on_costs": "0",
    "overhead_share": "0 %",
    "box": "10",
    "food_share": "20 %",
}
BOX = "box; 0.50\n10 cups; 100 for 4.00"


@pytest.fixture(autouse=True)
def own_kitchen(tmp_path, monkeypatch):
    monkeypatch.setenv("PASTRYLAB_WORKBOOK", str(tmp_path))
    return tmp_path


def words(html):
    return " ".join(re.sub("<style>.*?</style>|<[^>]+>", " ", html, flags=re.S).split())


def tab(parts=GANACHE, packs=PACKS, packaging=BOX, **boxes):
    step = CostTab()
    step.show(Formula(parts))
    for name, text in packs.items():
        step.packs[name].value = text
    for name, text in {**BY_HAND, **boxes}.items():
        step.blanks[name].value = text
    step.packaging.value = packaging
    step.press.click()
    return step


def test_a_card_by_hand():
    # 0.3 kg x 20 + 0.2 L x 5 = 6.00 + 1.00; an hour at 20: 27.00 for 50 pieces, 0.54 each. A box of ten: 5.40, the box
    # 0.50, ten cups of a hundred for 4.00 0.40: 6.30. Ten pieces hold 7.00 / 5 = 1.40 of ingredients, a fifth of 7.00.
    said = words(tab().card.value)
    assert "500 g (17.6 oz) in 50 pieces is 10 g (0.353 oz) each." in said
    for line in (
        "dark couverture 64 % 300 g (10.6 oz) 100 % $20.00 for 1 kg (2.2 lb) 1 $6.00",
        "1 $1.00 together",
        "work 60 minutes at $20.00 an hour $20.00",
        "together $27.00",
        "One good piece: $0.54",
        "10 pieces $5.40 box $0.50 10 cups $0.40 together $6.30",
        "price at a food cost of 20 % $1.40 of ingredients $7.00",
        "left of each box margin 10 % of the price $0.70",
        "Contains: soybeans, milk.",
    ):
        assert line in said, line


def test_what_has_no_price_is_asked_for_all_at_once_and_first():
    step = tab({**GANACHE, "molasses": "10 g", "tahini": "5 g"})
    assert [box.description for box in step.packs.values()][:2] == ["molasses (?)", "tahini (?)"]
    assert "no price for molasses, tahini." in words(step.said.value)
    assert step.card.value == ""
    step.packs["molasses"].value = "12 oz jar for 4.99"
    step.packs["tahini"].value = "1 lb for 9"
    step.press.click()
    assert step.said.value == ""
    # 10 g of 340.19 g at 4.99; 5 g of 453.59 g at 9.00
    assert "1 $0.15" in words(step.card.value)
    assert "1 $0.10" in words(step.card.value)


def test_an_empty_box_goes_by_the_price_list():
    # 300 g of a 2.5 kg bag at 41.50 of which 98 % is usable: 41.5 x 0.3 / 2.5 / 0.98 = 5.08
    said = words(tab(packs={}).card.value)
    assert "98 % $41.50 for 2.5 kg (5.51 lb) 1 $5.08" in said


def test_money_of_another_country():
    step = tab(packs={**PACKS, "heavy cream 36 %": "1 L for 5,00 €"})
    assert "€5.00" in words(step.said.value)
    assert "another currency under &#39;Money in&#39;" in words(step.said.value)
    step.currency.value = "EUR"
    step.press.click()
    said = words(step.card.value)
    assert "€6.00" in said
    assert "together €6.30" in said
    assert "$" not in said


def test_in_another_currency_the_price_list_is_no_help_and_says_so():
    step = tab(packs={})
    step.currency.value = "EUR"
    step.press.click()
    assert "no price for dark couverture 64 %, heavy cream 36 % in EUR" in words(step.said.value)
    step = tab(packaging="")
    step.currency.value = "EUR"
    step.press.click()
    assert "no packaging in EUR" in words(step.said.value)


def test_packaging_of_the_price_list_fits_its_boxes_alone():
    assert "6 cups" in words(tab(packaging="", box="6").card.value)
    step = tab(packaging="", box="9")
    assert "no packaging for a box of 9" in words(step.said.value)
    assert step.card.value == ""
    assert "9 pieces $4.86 together $4.86" in words(tab(packaging="none", box="9").card.value)


@pytest.mark.parametrize(
    ("box", "typed"),
    [
        ("pieces", "0"),
        ("pieces", "many"),
        ("pieces", "50.5"),
        ("pieces", "500 g"),
        ("rejects", "50"),
        ("rejects", "-1"),
        ("minutes", "5 kg"),
        ("wage", "20 €"),
        ("wage", "twenty"),
        ("box", "0"),
        ("box", "51"),
        ("box", "2.5"),
        ("food_share", "0"),
        ("food_share", "0.3"),
        ("food_share", "150 %"),
        ("tax", "-5 %"),
        ("on_costs", "5 min"),
    ],
)
def test_what_cannot_be_is_refused(box, typed):
    step = tab(**{box: typed})
    assert "You gave" in words(step.said.value), words(step.card.value)
    assert "Something broke" not in step.said.value
    assert step.card.value == ""


@pytest.mark.parametrize(
    ("box", "typed"),
    [
        ("pieces", "50 pieces"),
        ("pieces", "4 dozen"),
        ("minutes", "1 h"),
        ("minutes", "1 h 30 min"),
        ("minutes", "1.5 h"),
        ("wage", "$20/h"),
        ("wage", "20 an hour"),
        ("wage", "20,00"),
        ("box", "1 dozen"),
        ("food_share", "20"),
        ("tax", "7,5 %"),
        ("rejects", "2"),
    ],
)
def test_what_is_clear_is_taken(box, typed):
    step = tab(**{box: typed})
    assert step.said.value == ""
    assert "Cost card" in words(step.card.value)


def test_a_faulty_pack_is_named_by_its_ingredient():
    step = tab(packs={**PACKS, "heavy cream 36 %": "1 L for <b>five</b>"})
    assert "heavy cream 36 %" in words(step.said.value)
    assert "<b>" not in step.said.value


def test_prices_stand_when_the_formula_changes():
    step = tab()
    step.show(Formula({"heavy cream": "100 g", "honey": "50 g"}))
    assert step.card.value == ""
    assert step.packs["heavy cream 36 %"].value == PACKS["heavy cream 36 %"]
    step.show(Formula(GANACHE))
    assert step.packs["dark couverture 64 %"].value == PACKS["dark couverture 64 %"]


def test_a_card_is_kept_opened_again_and_printed_under_its_name(own_kitchen):
    step = tab()
    step.keeper.name.value = "larkmoor truffle"
    step.keeper.keep.click()
    step.save.click()
    page = kitchen.folder() / "cost-cards" / "larkmoor truffle.html"
    assert "my-kitchen/cost-cards/larkmoor truffle.html" in words(step.said.value)
    assert "Cost card: larkmoor truffle" in words(page.read_text(encoding="utf-8"))
    again = CostTab()
    again.show(Formula(GANACHE))
    again.keeper.kept.value = "larkmoor truffle"
    again.keeper.fetch.click()
    again.press.click()
    assert "10 pieces $5.40 box $0.50 10 cups $0.40 together $6.30" in words(again.card.value)


def test_without_a_formula_there_is_nothing_to_cost():
    step = CostTab()
    step.show(None)
    assert "No formula yet" in words(step.said.value)


def test_packs_are_kept_as_prices_and_count_in_the_next_card():
    step = tab({**GANACHE, "molasses": "10 g"}, packs={**PACKS, "molasses": "12 oz jar for 4.99; 90 %"})
    before = words(step.card.value)
    step.mine.click()
    assert "Kept among your prices: molasses, dark couverture 64 %, heavy cream 36 %." in words(step.said.value)
    assert [box.value for box in step.packs.values()] == ["", "", ""]
    assert not any("(?)" in box.description for box in step.packs.values())
    step.press.click()
    # 1 L at the 1 g/mL that was typed is kept as 1 kg: the same money for the same grams.
    for line in ("1 $6.00", "1 $1.00", "1 $0.16", "together"):  # 10 g of 340.19 g, nine tenths usable, at 4.99
        assert line in words(step.card.value) and line in before, line
    again = tab(packs={})
    assert "1 $6.00" in words(again.card.value)


@pytest.mark.parametrize(
    ("typed", "cost"),
    # 10 g out of each: 36 lb are 16.329 kg at 148; 5 g; a gallon weighs 3.785 x 1.006 kg; two dozen of 18 g are 432 g
    [
        ("36 lb for 148", "$0.09"),
        ("5 g for 3", "$6.00"),
        ("1 gallon for 20", "$0.05"),
        ("2 dozen for 6; 18 g each", "$0.14"),
    ],
)
def test_a_pack_of_any_size_is_kept_as_it_was(typed, cost):
    step = tab({"heavy cream": "10 g", "butter": "500 g"}, packs={"heavy cream 36 %": typed})
    assert f" {cost} " in words(step.card.value)
    step.mine.click()
    step.press.click()
    assert f" {cost} " in words(step.card.value), words(step.said.value)


def test_a_pack_kept_again_takes_the_place_of_the_first():
    step = tab()
    step.mine.click()
    step.packs["heavy cream 36 %"].value = "1 kg for 7"
    step.mine.click()
    step.press.click()
    assert "1 $1.40" in words(step.card.value)  # 0.2 x 7


@pytest.mark.parametrize(
    ("packs", "said"),
    [
        ({}, "no pack to keep"),
        ({"heavy cream 36 %": "1 L"}, "heavy cream 36 %"),
        ({"heavy cream 36 %": "1 L for 0"}, "zero"),
    ],
)
def test_packs_that_cannot_be_kept(packs, said):
    step = tab(packs=packs)
    step.mine.click()
    assert said in words(step.said.value)
    assert "Kept" not in words(step.said.value)


def test_packs_of_another_currency_stay_with_their_card():
    step = tab()
    step.currency.value = "EUR"
    step.mine.click()
    assert "packs in EUR" in words(step.said.value)


def test_prices_of_ones_own_that_no_card_uses_are_said(own_workbook):
    row = {"item": "lemons", "pack_size": "1", "pack_unit": "kg", "price": "4", "currency": "EUR"}
    assert tab(packs={}).left_out.value == ""
    own.add("prices", row)
    assert "Left out." in tab(packs={}).left_out.value and "EUR" in tab(packs={}).left_out.value


def test_a_price_whose_row_is_at_fault_is_not_said_to_be_missing(own_workbook):
    shutil.copytree(files.folder(), own_workbook / "datasets")
    sheet = own_workbook / "datasets" / "prices.csv"
    lines = sheet.read_text(encoding="utf-8").splitlines()
    row = 1 + next(at for at, one in enumerate(lines) if "heavy cream 36 %" in one)
    price = next(cell for cell in reversed(lines[row - 1].split(",")[:6]) if cell.replace(".", "").isdigit())
    sheet.write_text("\n".join(lines).replace(lines[row - 1], lines[row - 1].replace(price, "forty")), encoding="utf-8")
    step = tab({**GANACHE, "molasses": "10 g"}, packs={})
    assert f"prices.csv, row {row}, column" in step.left_out.value and "forty" in step.left_out.value
    cream, molasses = step.packs["heavy cream 36 %"], step.packs["molasses"]
    assert "at fault" in cream.placeholder and "no price yet" in molasses.placeholder
    said = words(step.said.value)
    assert "no price for" in said and f"left out: prices.csv, row {row}" in said and said.count("left out") == 1
    cream.value, molasses.value = "1 L for 5; 1 g/mL", "12 oz jar for 4.99"
    step.press.click()
    assert "1 $1.00" in words(step.card.value), "200 g of a litre for 5, whatever the list says"
