"""What a page keeps by name: listed with its day, opened as it was, replaced or removed only when asked twice."""

import re
from datetime import date

import pytest

from pastrylab.ground import kitchen
from pastrylab.ground.units import StudentError
from pastrylab.page import keeper
from pastrylab.page.keeper import Keeper, Thing


class Page:
    """A page with one text and one setting on it."""

    def __init__(self, shelf="logs"):
        self.thing, self.opened = Thing("0, 45\n", {"unit": "degC"}), None
        self.keeper = Keeper(shelf, "log", self.take, lambda name, thing: setattr(self, "opened", (name, thing)))

    def take(self):
        if not self.thing:
            raise StudentError("no log yet", "a log", "0, 45.2")
        return self.thing

    def keep(self, name):
        self.keeper.name.value = name
        self.keeper.keep.click()
        return re.sub("<[^>]*>", "", self.keeper.said.value)


@pytest.fixture
def page(own_workbook):
    return Page()


def test_what_is_kept_comes_back_as_it_was_on_another_day(page):
    given = 'Zeit;"°C, Fühler"\r\n9:05;45,2\r\n\ttabs, "quotes" and  blanks \n'
    page.thing = Thing(given, {"unit": "degF", "seeded": 'after 12 min, "late"', "method": ""})
    assert "Kept as bowl 3" in page.keep("  bowl   3 ")
    again = Page()
    assert again.keeper.kept.options[0][1] == "bowl 3"
    day = date.today()
    assert str(day.day) in again.keeper.kept.options[0][0] and str(day.year) in again.keeper.kept.options[0][0]
    again.keeper.fetch.click()
    assert again.opened == ("bowl 3", page.thing)


def test_the_first_name_has_the_day_in_it(page):
    assert page.keeper.name.value == f"log of {date.today().day} {date.today():%b} {date.today().year}"


def test_nothing_kept_offers_nothing_to_open(page):
    assert page.keeper._again.layout.display == "none"
    page.keeper.fetch.click()
    assert "Needed" in page.keeper.said.value and page.opened is None


def test_another_thing_is_replaced_only_when_keep_is_pressed_again(page):
    page.keep("bowl")
    page.thing = Thing("0, 50\n")
    assert "again" in page.keep("Bowl") and kitchen.get("logs", "bowl") == "0, 45\n"
    page.keeper.name.value = "other"
    assert "Kept as other" in page.keep("other"), "a new name needs no second press"
    assert "again" in page.keep("bowl"), "and the first press is forgotten"
    assert "Kept as bowl" in page.keep("bowl") and keeper.get("logs", "bowl") == page.thing
    assert "Kept as bowl" in page.keep("bowl"), "the same thing again harms nothing"
    assert sorted(kitchen.kept("logs")) == ["bowl", "other"]


def test_a_thing_goes_for_good_only_when_remove_is_pressed_again(page):
    page.keep("bowl")
    page.keep("pan")
    page.keeper.kept.value = "bowl"
    page.keeper.remove.click()
    assert "again" in page.keeper.said.value and "bowl" in kitchen.kept("logs")
    page.keeper.kept.value = "pan"
    page.keeper.remove.click()
    assert list(kitchen.kept("logs")) == ["bowl", "pan"], "the first press was about another"
    page.keeper.remove.click()
    assert list(kitchen.kept("logs")) == ["bowl"] and list(kitchen.kept("logs/settings")) == ["bowl"]
    assert [name for _, name in page.keeper.kept.options] == ["bowl"]


def test_what_one_page_keeps_the_other_pages_of_that_shelf_list(page, own_workbook):
    beside, elsewhere = Page(), Page("receipts")
    page.keep("bowl")
    assert [name for _, name in beside.keeper.kept.options] == ["bowl"] and not elsewhere.keeper.kept.options
    assert beside.keeper._again.layout.display == "flex"


def test_a_file_laid_on_the_shelf_is_opened_without_settings_and_one_gone_is_said(page, own_workbook):
    kitchen.put("logs", "from the stick", "0, 30\n")
    again = Page()
    again.keeper.fetch.click()
    assert again.opened == ("from the stick", Thing("0, 30\n"))
    kitchen.remove("logs", "from the stick")
    again.keeper.fetch.click()
    assert "not kept" in again.keeper.said.value


@pytest.mark.parametrize("name", ["", "a/b", "../up", "what?", "<b>bold</b>", "CON", "x" * 61, "a\\b", ".x", "x."])
def test_a_name_no_file_can_bear_is_refused_in_words_and_escaped(page, name):
    said = page.keep(name)
    assert "Needed" in said and kitchen.kept("logs") == {} and "<b>" not in page.keeper.said.value


def test_nothing_to_keep_is_said_and_an_older_setting_does_not_outlive_its_text(page):
    page.thing = None
    assert "no log yet" in page.keep("bowl") and kitchen.kept("logs") == {}
    page.thing = Thing("0, 45\n", {"unit": "degF"})
    page.keep("bowl")
    page.thing = Thing("0, 46\n")
    page.keep("bowl")
    page.keep("bowl")
    assert keeper.get("logs", "bowl") == Thing("0, 46\n")
