"""The step of the formula box that mends: what its boxes take and refuse, and a mending worked by hand."""

import re

import pytest

from pastrylab import Formula
from pastrylab.page.formula.mend import MendTab
from pastrylab.trade.mending import mend

pytestmark = pytest.mark.usefixtures("one_look")


def words(html):
    return " ".join(re.sub("<[^>]+>", " ", html).split())


def tab(parts, use="", **ticked):
    """A step with a formula in force; use "" for bands of one's own, of which only those in `ticked` hold."""
    taken = []
    made = MendTab(lambda name, formula: taken.append(formula))
    made.taken = taken
    made.use.value = use
    made.show(Formula(parts))
    if not use:
        for name, card in made.cards.items():
            card.holds.value = name in ticked
            for word, box in card.ends.items():
                box.value = ticked.get(name, {}).get(word, "")
    return made


def let_in(step, name):
    step.more.value = name
    step.add.click()


BUTTER = {"butter": "100 g"}


def test_a_mending_by_hand():
    # 100 g of butter hold 81.11 g of fat (USDA SR28, 01145); half of the whole is fat once it weighs 162.22 g. A scale
    # that shows grams: 62 g of water leave 50.07 % of fat, 63 g do not.
    step = tab(BUTTER, fat={"at most": "50 %"})
    step.ticks["butter unsalted"].value = False
    let_in(step, "water")
    step.press.click()
    assert words(step.found.value).startswith("Add 63 g of water.")
    assert "water none 63 g (2.22 oz) +63 g" in words(step.found.value)
    assert "together 100 g 163 g (5.75 oz) +63 g" in words(step.found.value)
    assert step.taken == []
    step.take.click()
    assert step.taken[0].grams == pytest.approx({"butter unsalted": 100, "water": 63}, abs=1e-9)


def test_a_second_press_on_use_changes_nothing():
    step = tab(BUTTER, fat={"at most": "50 %"})
    let_in(step, "water")
    step.press.click()
    step.take.click()
    step.take.click()
    assert len(step.taken) == 1


def test_where_no_rounding_holds_the_formula_stays_as_it_was_found():
    # 100 g of butter and w of water with 50.110 to 50.111 % of fat: w from 61.861 to 61.864 g, and no tenth between.
    made = mend(Formula(BUTTER), {"fat": (0.50110, 0.50111)}, "water", to_weigh=True)
    water = made.formula.grams["water"]
    assert 100 * (0.8111 / 0.50111 - 1) <= water <= 100 * (0.8111 / 0.50110 - 1)
    assert water != round(water, 1)


def test_the_total_may_be_kept():
    # As above, in 100 g: 50 / 0.8111 = 61.64 g of butter, and water for the rest; 61.7 g would be too much.
    step = tab(BUTTER, fat={"at most": "50 %"})
    let_in(step, "water")
    step.total.value = True
    step.press.click()
    step.take.click()
    assert step.taken[0].grams == pytest.approx({"butter unsalted": 61.6, "water": 38.4}, abs=1e-9)


def test_what_clashes_is_said():
    # Butter alone is 81 % fat however much of it there is.
    step = tab(BUTTER, fat={"at most": "50 %"})
    step.press.click()
    said = words(step.found.value)
    assert "By moving butter unsalted alone this cannot hold: fat at most 50 %" in said
    assert step.take.layout.display == "none"


def test_what_lies_inside_is_left_alone():
    step = tab(BUTTER, fat={"at least": "80 %", "at most": "82 %"})
    step.press.click()
    assert "Nothing to mend" in words(step.found.value)
    assert step.take.layout.display == "none"


@pytest.mark.parametrize(
    ("ends", "said"),
    [
        ({"at least": "82 %"}, "below the band by 0.89 points"),  # 82 - 81.11
        ({"at most": "80 %"}, "above the band by 1.1 points"),  # 81.11 - 80
        ({"at least": "80 %", "at most": "82 %"}, "inside"),
        ({"at most": "81.11 %"}, "inside"),  # the edge belongs to the band
    ],
)
def test_a_card_says_where_the_formula_lies(ends, said):
    step = tab(BUTTER, fat=ends)
    assert f"Now 81.1 %: {said}." in words(step.cards["fat"].seen.value)


def test_the_card_of_water_activity_goes_by_the_high_end():
    # The estimate of this ganache is 0.94 and a filling's error is 0.03: at the careful end no 0.95 is kept.
    step = tab({"dark couverture 64 %": "300 g", "heavy cream": "200 g"}, **{"water activity": {"at most": "0.95"}})
    assert "(0.91 to 0.97): its high end, 0.97, is above 0.95" in words(step.cards["water activity"].seen.value)
    step.press.click()
    step.take.click()
    step.show(step.taken[0])
    assert "0.95, is not above 0.95" in words(step.cards["water activity"].seen.value)


@pytest.mark.parametrize("typed", ["120 %", "-5 %", "half", "0.2", "17-25", "5 g", "%", "25 % fat % 3", "1e5", "25 °C"])
def test_what_is_no_share_is_refused(typed):
    step = tab(BUTTER, fat={"at most": typed})
    step.press.click()
    assert "You gave" in words(step.said.value), words(step.said.value)
    assert "fat" in words(step.said.value)
    assert step.found.value == ""


@pytest.mark.parametrize(
    "typed", ["50", "50%", "50 %", " 50 percent", "50,0 %", "50.0", "about 50 %", "50 per cent", "1/2 %", "50.00 %"]
)
def test_what_is_clear_is_taken(typed):
    step = tab(BUTTER, fat={"at most": typed})
    let_in(step, "water")
    step.press.click()
    assert step.said.value == ""
    assert "water" in words(step.found.value)


@pytest.mark.parametrize("typed", ["85", "1.2", "0", "-0.8", "0.9 g", "high"])
def test_what_is_no_water_activity_is_refused(typed):
    step = tab(BUTTER, **{"water activity": {"at most": typed}})
    step.press.click()
    assert "You gave" in words(step.said.value)


@pytest.mark.parametrize("typed", ["0.95", "0,95", ".95", "95 %", " 0.950"])
def test_a_water_activity_may_be_written_in_more_than_one_way(typed):
    step = tab({"dark couverture 64 %": "300 g", "heavy cream": "200 g"}, **{"water activity": {"at most": typed}})
    assert step.cards["water activity"].band() == (None, 0.95)


def test_what_cannot_be_mended_as_asked_is_told_in_words():
    step = tab(BUTTER, fat={"at least": "60 %", "at most": "50 %"})
    step.press.click()
    assert "fat at least 60 % and at most 50 %" in words(step.said.value)
    step = tab(BUTTER, fat={"at most": "50 %"})
    step.ticks["butter unsalted"].value = False
    step.press.click()
    assert "no tick" in words(step.said.value)
    step = tab(BUTTER)
    step.press.click()
    assert "no band that must hold" in words(step.said.value)
    step = tab(BUTTER, fat={"at most": "50 %"})
    let_in(step, "unicorn milk")
    assert "not among the ingredients" in words(step.said.value)
    assert list(step.ticks) == ["butter unsalted"]


def test_without_a_formula_there_is_nothing_to_press():
    step = MendTab()
    step.show(None)
    assert "No formula yet" in words(step.said.value)
    assert step.children[0].layout.display == "none"
    step.show(Formula(BUTTER))
    assert step.said.value == ""
    assert step.children[0].layout.display == ""


def test_a_formula_is_mended_into_the_card_of_its_use():
    step = tab({"dark couverture 64 %": "300 g", "heavy cream": "300 g"}, use="fill")
    assert step.cards["water"].band() == (0.17, 0.25)
    assert [name for name, tick in step.ticks.items() if tick.value] == ["heavy cream 36 %"]
    step.press.click()
    step.take.click()
    made = step.taken[0].composition()
    assert 0.17 <= made["water"] <= 0.25
    assert 0.28 <= made["fat"] <= 0.40
    assert 0.22 <= made["sugars"] <= 0.38


def test_what_would_help_is_said():
    # Butter is 81 % fat however much there is; water, skim milk and a syrup thin it, cocoa butter does not.
    step = tab(BUTTER, fat={"at most": "50 %"})
    step.press.click()
    assert words(step.found.value).endswith(
        "It can be done where one of these may change as well: water, skim milk, invert syrup."
    )


def test_without_chocolate_no_band_of_a_ganache_is_asked():
    step = MendTab()
    step.show(Formula({"water": "100 g", "granulated sugar": "150 g"}))
    assert step.use.value == ""
    step.press.click()
    assert "no band that must hold" in words(step.said.value)
    step.cards["water"].holds.value = True
    step.cards["water"].ends["at most"].value = "30 %"
    step.press.click()
    # 150 g of sugar with 0.02 % of water, 100 g of water: 30 % of w + 150 is water at w = 64.2 g.
    assert words(step.found.value).startswith("Take away 36 g of water.")
    step.show(Formula({"dark couverture 64 %": "300 g", "heavy cream": "300 g"}))
    assert step.use.value == "fill"
    assert step.cards["water"].band() == (0.17, 0.25)
    assert step.cards["fat"].holds.value
