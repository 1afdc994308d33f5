"""The forms of one's own kitchen: what is typed off a pack, a sheet, a receipt is shown, kept, opened, taken out."""

import html
import re

import pytest

from pastrylab.course.tempering.benches import LogBench, seed_bench
from pastrylab.ground import own
from pastrylab.ground.units import StudentError
from pastrylab.page.kitchen.my_kitchen import FORMS, MyKitchen
from pastrylab.trade import couvertures, pantry
from pastrylab.trade.couvertures import read_band
from pastrylab.trade.purchasing.own_price import pack_and_price, price_row

CREAM = {"ingredient": "my cream 36", "fat": "36", "carbohydrate": "2.9", "sugars": "2.9", "protein": "2.1"}
DARK = {"couverture": "my dark 66", "melt": "113-122 F", "cool": "27 to 28", "work": "30,5 – 31,5 °C"}
CARTON = {"item": "cream, carton", "price": "1 L for 6.40", "ingredient": "heavy cream", "usable": "98 %"}


def form(title, **typed):
    found = MyKitchen(title).form
    for name, text in typed.items():
        found.boxes[name].value = text
    return found


def said(widget):
    return " ".join(html.unescape(re.sub("<[^>]+>", " ", widget.value)).split())


@pytest.mark.parametrize(
    ("title", "typed", "shown"),
    [
        ("An ingredient", CREAM, "water 58"),
        ("A couverture", DARK, "work at 30.5 °C (86.9 °F) to 31.5 °C"),
        # 1 L of which 98 % are used: 100 mL cost 6.40 / 9.8 = 0.653.
        ("A price", CARTON, "100 mL costs $0.65"),
    ],
)
def test_a_row_is_worked_out_kept_opened_and_taken_out(own_workbook, title, typed, shown):
    mine = form(title, **typed)
    mine.look.click()
    assert shown in said(mine.found) and own.rows(mine.which).rows == ()
    mine.keep.click()
    (row,) = own.rows(mine.which).rows
    assert row.name == next(iter(typed.values())) and mine.mine.options == (row.name,)
    again = form(title)
    again.fetch.click()
    assert shown in said(again.found)
    assert again.boxes[next(iter(typed))].value == row.name
    again.keep.click()
    assert "again" in said(again.said)
    again.keep.click()
    assert "Kept" in said(again.said) and len(own.rows(mine.which).rows) == 1
    again.remove.click()
    assert own.rows(mine.which).rows and "gone for good" in said(again.said)
    again.remove.click()
    assert own.rows(mine.which).rows == () and again.mine.options == ()


@pytest.mark.parametrize(
    ("title", "typed", "refused"),
    [
        ("An ingredient", {}, "no name"),
        ("An ingredient", CREAM | {"ingredient": "Honey"}, "a name that honey has"),
        ("An ingredient", CREAM | {"fat": "three"}, "'fat'"),
        ("An ingredient", CREAM | {"sugars": "9"}, "more sugars than carbohydrate"),
        ("An ingredient", CREAM | {"protein": ""}, "protein"),
        ("An ingredient", CREAM | {"ingredient": "<script>"}, ""),
        ("A couverture", {}, "'Melt out to'"),
        ("A couverture", DARK | {"work": "33 to 35"}, "loses its temper"),
        ("A couverture", DARK | {"couverture": "milk"}, "taken"),
        ("A couverture", DARK | {"work": "warm"}, "'Work at'"),
        ("A price", {}, "what is bought"),
        ("A price", CARTON | {"price": "6.40"}, "what a pack holds and what it costs"),
        ("A price", CARTON | {"ingredient": "zorks"}, "zorks"),
        ("A price", CARTON | {"price": "1 L for 6.40 EUR"}, "in which the class reckons"),
        ("A price", CARTON | {"usable": "300 %"}, "usable share"),
    ],
)
def test_what_cannot_be_kept_is_said_in_the_form(own_workbook, title, typed, refused):
    mine = form(title, **typed)
    mine.keep.click()
    assert refused in said(mine.said) + said(mine.found) and "on our side" not in said(mine.said)
    assert "<script" not in mine.found.value + mine.said.value
    assert bool(own.rows(mine.which).rows) == (refused == "")


def test_a_row_spoiled_in_a_spreadsheet_is_named_below_the_list(own_workbook):
    own.add("ingredients", {"ingredient": "my cream 36", "kind": "cream", "fat": "36"})
    assert "Left out" in said(form("An ingredient").list) and "row 2" in said(form("An ingredient").list)
    for title in FORMS:
        assert form(title).said.value == ""


def test_the_boxes_are_those_of_the_pack(own_workbook):
    mine = form("An ingredient")

    def there(name):
        return mine.boxes[name].layout.display != "none"

    assert there("salt") and not there("sodium") and not there("cocoa")
    mine.boxes["label"].value, mine.boxes["kind"].value = "US", "milk chocolate"
    assert there("sodium") and there("added_sugars") and there("cocoa") and not there("salt")


def test_the_benches_of_tempering_offer_it(own_workbook):
    form("A couverture", **DARK).keep.click()
    assert "my dark 66" in LogBench().kind.options
    seed = seed_bench()
    choice = next(one for one in _all(seed) if "my dark 66" in getattr(one, "options", ()))
    choice.value = "my dark 66"
    assert "of seed" in said(seed.sentence)


def _all(widget):
    yield widget
    for child in getattr(widget, "children", ()):
        yield from _all(child)


@pytest.mark.parametrize(
    ("text", "size", "unit", "price"),
    [
        ("2.5 kg for 41.50", 2.5, "kg", "41.50"),
        ("$41.50 for 2.5 kg", 2.5, "kg", "$41.50"),
        ("4.20 a kg", 1, "kg", "4.20"),
        ("$4.20/lb", 1, "lb", "$4.20"),
        ("12 for $3", 12, "piece", "$3.00"),
        ("a dozen for 3", 12, "piece", "3.00"),
        ("1 L; 6,40 €", 1, "L", "€6.40"),
        ("2.5kg 41.50", 2.5, "kg", "41.50"),
        ("1 pint for 3", 473.176473, "mL", "3.00"),
        ("2 lb 4 oz for $20", 2.25, "lb", "$20.00"),
        ("5 kg, 152.00", 5, "kg", "152.00"),
    ],
)
def test_a_price_is_read_as_written(text, size, unit, price):
    got = pack_and_price(text)
    assert (got[0], got[1], str(got[2])) == (pytest.approx(size), unit, price)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "41.50",
        "2.5 kg",
        "2.5 kg for lots",
        "0 kg for 3",
        "2 kg for -3",
        "2 kg for 3 kg",
        "3.5 pieces for 4",
        "2 kg for 0",
        "32 °C for 4",
    ],
)
def test_what_is_no_price_is_refused(text):
    with pytest.raises(StudentError):
        price_row("cream", text)


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("45-50 °C", 45, 50),
        ("113 to 122 F", 45, 50),
        ("113–122", 45, 50),
        ("31,5", 31.5, 31.5),
        ("45 °C - 50 °C", 45, 50),
    ],
)
def test_a_band_is_read_as_a_sheet_prints_it(text, low, high):
    assert read_band(text) == (pytest.approx(low), pytest.approx(high))


@pytest.mark.parametrize("text", ["", "hot", "45-50-55", "3 kg", "45 C to 122 F", "31.5°C12F/", "a fall of 3 °C"])
def test_what_is_no_band_is_refused(text):
    with pytest.raises(StudentError):
        read_band(text)


def test_its_own_name_is_free_to_itself(own_workbook):
    form("An ingredient", **CREAM).keep.click()
    form("A couverture", **DARK).keep.click()
    pantry.check_own_name("my cream 36", but={"my cream 36"})
    with pytest.raises(StudentError, match="my cream 36"):
        pantry.check_own_name("My Cream 36")
    assert list(couvertures.own_couvertures()[0]) == ["my dark 66"]
