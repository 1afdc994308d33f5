"""A pack's figures on both sides of every edge: their rounding, their units, what they stand for, and what they add up to."""

from types import SimpleNamespace

import pytest

from pastrylab.ground.units import StudentError
from pastrylab.trade.labels import error as label_error
from pastrylab.trade.labels import label
from pastrylab.trade.labels.figures import EU, US, Figure, figure, serving_grams
from pastrylab.trade.labels.label import Label, label_of, made_of
from pastrylab.trade.labels.words import read_contents

MG = 0.0025  # g of salt in a milligram of sodium: 2.5 times, Regulation (EU) 1169/2011, Annex I


def near(low, printed, high):
    return Figure(*map(pytest.approx, (low, printed, high)))


@pytest.mark.parametrize(
    ("name", "text", "label", "wanted"),
    [
        # 0 in the EU: up to 0.5 g, 0.1 of saturates, 0.0125 of salt (the Commission's guidance, 2012, from memory); in the
        # US below half a gram, 5 mg of sodium: 21 CFR 101.9(c).
        ("fat", "0", EU, (0, 0, 0.5)),
        ("saturates", "0", EU, (0, 0, 0.1)),
        ("salt", "0", EU, (0, 0, 0.0125)),
        ("saturates", "0", US, (0, 0, 0.5)),
        ("sodium", "0", US, (0, 0, 5 * MG)),
        ("sodium", "traces", EU, (0, 0, 5 * MG)),
        ("protein", "nil", EU, (0, 0, 0.5)),
        ("protein", "trace.", US, (0, 0, 0.5)),
        # Less than: nothing to that in the EU, half of it to it in the US; half of it is printed.
        ("sugars", "less than 1 g", EU, (0, 0.5, 1)),
        ("sugars", "under 0.6", EU, (0, 0.3, 0.6)),
        ("sugars", "<1 g", US, (0.5, 0.5, 1)),
        # EU: half of the last digit to either side, never below nothing.
        ("fat", "12", EU, (11.5, 12, 12.5)),
        ("fat", "12,5", EU, (12.45, 12.5, 12.55)),
        ("saturates", "0.05", EU, (0.045, 0.05, 0.055)),
        ("salt", "0.2", EU, (0.15, 0.2, 0.25)),
        # US: fat to half a gram below 5 g: a quarter to either side; from 5 g on to a gram, as all else is.
        ("fat", "4.9", US, (4.65, 4.9, 5.15)),
        ("saturates", "0.5", US, (0.25, 0.5, 0.75)),
        ("fat", "5", US, (4.5, 5, 5.5)),
        ("fat", "5.0", US, (4.95, 5, 5.05)),  # more digits than the law asks for are as good as their last
        ("fat", "5.5", US, (5.45, 5.5, 5.55)),
        ("protein", "3", US, (2.5, 3, 3.5)),
        ("protein", "3.5", US, (3.45, 3.5, 3.55)),
        # Sodium to 5 mg up to 140 mg, to 10 mg above.
        ("sodium", "140", US, (137.5 * MG, 140 * MG, 142.5 * MG)),
        ("sodium", "141", US, (136 * MG, 141 * MG, 146 * MG)),
        ("sodium", "2", US, (0, 2 * MG, 4.5 * MG)),
        ("sodium", "40", EU, (39.5 * MG, 40 * MG, 40.5 * MG)),
        # In the other unit: 500 mg are 0.5 g, give or take half a milligram; 0.04 g are 40 mg, give or take 5.
        ("protein", "500 mg", EU, (0.4995, 0.5, 0.5005)),
        ("sodium", "0.04 g", EU, (35 * MG, 40 * MG, 45 * MG)),
        ("sodium", "40 mg", EU, (39.5 * MG, 40 * MG, 40.5 * MG)),
    ],
)
def test_a_figure_is_as_wide_as_the_law_lets_it_be(name, text, label, wanted):
    assert figure(name, text, label) == near(*wanted)


def test_the_heavier_the_serving_the_less_is_in_100_g():
    """12 g in 98 to 103 g, 100 as printed: 11.5 in 103 is 11.165 in 100 g, 12.5 in 98 is 12.755."""
    assert figure("fat", "12", EU, (98, 100, 103)) == near(11.1650485, 12, 12.7551020)


@pytest.mark.parametrize(
    ("name", "text", "needed"),
    [
        ("added_sugars", "lots", "grams for 'added sugars'"),
        ("fat", "-1", "grams for 'fat'"),
        ("fat", "1 kg", "grams for 'fat'"),
        ("sodium", "a pinch", "milligrams, as the pack has them, for 'sodium'"),
    ],
)
def test_what_is_no_figure_is_refused_by_its_name(name, text, needed):
    with pytest.raises(StudentError) as refused:
        figure(name, text)
    assert refused.value.needed == needed


# Kilograms a litre, common practice; ingredients.csv has the same things by a cup's weight.
@pytest.mark.parametrize(
    ("kind", "dense"), [("cream", (0.98, 1.0, 1.03)), ("milk", (1.02, 1.03, 1.04)), ("fruit", (1.02, 1.05, 1.1))]
)
def test_millilitres_go_by_the_density_of_the_kind(kind, dense):
    assert serving_grams("100 ml", kind=kind) == pytest.approx([100 * one for one in dense])
    assert serving_grams("100 ml", kind=kind, density=1.2) == pytest.approx([120] * 3)


def test_what_figures_stand_for():
    assert serving_grams("") == (100, 100, 100)
    assert serving_grams("1 cup (240 mL, 245 g)", US) == (245, 245, 245)
    assert serving_grams("240 mL or 8 fl oz (237 mL)", US, "milk")[1] == pytest.approx(240 * 1.03)
    for edge in ("1 g", "1000 g"):
        assert serving_grams(edge, US)[1] == float(edge.split()[0])
    for beyond in ("0.9 g", "1001 g"):
        with pytest.raises(StudentError, match=f"a serving of {beyond}"):
            serving_grams(beyond, US)
    with pytest.raises(StudentError, match="figures for 30 mL"):
        serving_grams("30 mL", US, "syrup")
    with pytest.raises(StudentError, match="without its serving"):
        serving_grams(" ", US)


# --- the label as a whole -------------------------------------------------------------------------------------------

SWEET = {"kind": "sugar", "fat": "0", "carbohydrate": "99", "sugars": "99", "protein": "0"}
DARK = {"kind": "dark chocolate", "fat": "40", "carbohydrate": "37", "sugars": "36", "protein": "5.5"}


def refusal(**cells):
    """What a label is refused with; "" where it is taken."""
    try:
        made_of(Label(**cells))
    except StudentError as error:
        return str(error)
    return ""


@pytest.mark.parametrize(
    ("text", "taken"),
    [("0.2", True), ("2", True), ("0.19", False), ("2.01", False), ("1 kg", False), ("1.1 g/mL", True)],
)
def test_a_density_is_from_two_tenths_to_two(text, taken):
    assert ("as the density" in refusal(**SWEET, density=text)) is not taken


@pytest.mark.parametrize(
    ("text", "taken"), [("10", True), ("100 %", True), ("9.9", False), ("100.5", False), ("64 g", False), ("64", True)]
)
def test_a_cocoa_percentage_is_from_10_to_100(text, taken):
    assert ("as the cocoa percentage" in refusal(**DARK, cocoa=text)) is not taken


@pytest.mark.parametrize(
    ("cells", "words", "refused"),
    [
        # At least 99.5 + 0.45 + 0.0445 = 99.9945 g; then 99.5 + 0.45 + 0.07145 = 100.02145. Two hundredths are let pass.
        (SWEET | {"carbohydrate": "100", "protein": "0.5", "salt": "0.045"}, "add up to 100 g", False),
        (SWEET | {"carbohydrate": "100", "protein": "0.5", "salt": "0.0715"}, "add up to 100 g", True),
        # 59.5 + 49.5 + 5.45 = 114.45.
        (
            DARK | {"fat": "60", "carbohydrate": "50"},
            "add up to 114 g in 100 g. Needed: at most 100 g: are these",
            True,
        ),
        # In the US carbohydrate has the fibre in it: 29.5 + 59.5 + 9.5 = 98.5 with 20 g of fibre in the 60.
        (
            {"kind": "other", "label": "US", "serving": "100 g", "fat": "30", "carbohydrate": "60", "sugars": "10"}
            | {"protein": "10", "fibre": "20"},
            "add up",
            False,
        ),
        # In the EU it has not: 98.5 + 19.5 = 118.
        (
            {"kind": "other", "fat": "30", "carbohydrate": "60", "sugars": "10", "protein": "10", "fibre": "20"},
            "add up to 118 g",
            True,
        ),
        # Fat at most 1.00005; saturates at least 1.01995, then 1.02095: two hundredths are let pass.
        (
            SWEET | {"carbohydrate": "98", "sugars": "98", "fat": "1.0000", "saturates": "1.0200"},
            "more saturates",
            False,
        ),
        (
            SWEET | {"carbohydrate": "98", "sugars": "98", "fat": "1.0000", "saturates": "1.0210"},
            "more saturates",
            True,
        ),
        (SWEET | {"added_sugars": "100"}, "more added sugars than sugars", False),  # 99.5 may be 99.5
        (SWEET | {"sugars": "50", "added_sugars": "60"}, "more added sugars than sugars", True),
        (SWEET | {"polyols": "101"}, "more polyols than carbohydrate", True),
        (SWEET | {"carbohydrate": "50", "sugars": "50", "fibre": "52"}, "more fibre than", False),  # EU: beside it
        (
            SWEET | {"carbohydrate": "50", "sugars": "50", "fibre": "52", "label": "US", "serving": "100 g"},
            "more fibre than carbohydrate",
            True,
        ),
        # 63.5 of cocoa at least, 36.5 of sugars at least: 100; with 36.55 it is 100.05; with 36.521 100.021.
        (DARK | {"cocoa": "64", "sugars": "37"}, "more than 100 g together", False),
        (DARK | {"cocoa": "64", "sugars": "36.6"}, "64 % of cocoa and 37 g of sugars: more than 100 g together", True),
        (DARK | {"cocoa": "64", "sugars": "36.5215"}, "more than 100 g together", True),
        # Cocoa is at most 2 more than printed; 10 g of fat more than that cannot be: 20 + 2 + 10 = 32.
        (DARK | {"cocoa": "20", "fat": "32"}, "nearly all fat", False),
        (DARK | {"cocoa": "20", "fat": "33"}, "33 g of fat and 20 % of cocoa", True),
        (DARK | {"kind": "milk chocolate", "cocoa": "20", "fat": "40"}, "nearly all fat", False),
    ],
)
def test_figures_that_cannot_stand_together(cells, words, refused):
    assert (words in refusal(**cells)) is refused


def test_a_us_label_is_asked_for_its_serving():
    cells = {
        "kind": "sugar",
        "label": "US",
        "serving": "10 g",
        "fat": "5",
        "carbohydrate": "9",
        "sugars": "9",
        "protein": "0",
    }
    # 4.5 + 8.5 in 10 g: 130 in 100.
    assert "add up to 130 g in 100 g. Needed: at most 100 g: is the serving right?" in refusal(**cells)


def test_the_cocoa_printed_is_a_minimum():
    """70 %: 69.5 to 72 g of cocoa butter and cocoa. With 42 g of fat, all but 0 to 0.9 cocoa butter's: 40.6 to 42.5 of it."""
    cells = DARK | {"cocoa": "70", "fat": "42", "sugars": "28", "carbohydrate": "34", "protein": "8"}
    made = made_of(Label(**cells, contents="cocoa mass, sugar, cocoa butter"))
    assert made.ends["cocoa_butter"][0] >= 41.5 - 0.9 - 1e-6 and made.ends["cocoa_butter"][1] <= 42.5 + 1e-6
    assert made.chocolate == "dark" and made.family == "chocolate"


def test_a_row_of_a_sheet_is_a_label():
    row = {"ingredient": "mine", "kind": " Dark  CHOCOLATE ", "label": "us", "fat": 35.0, "density": ""}
    assert label_of(row) == Label("dark chocolate", "US", fat="35.0")


def said(**cells):
    return " ".join(made_of(Label(**cells)).says)


def test_what_a_label_does_not_tell_is_said():
    dark = DARK | {"contents": "cocoa mass, sugar, cocoa butter"}
    assert "milk fat" not in said(**dark) and "No list" not in said(**dark) and "crystals" not in said(**dark)
    low, high = made_of(Label(**dark)).ends["water"]
    assert f"between {low:.1f} and {high:.1f} g in 100 g" in said(**dark)
    # Butter oil in a dark chocolate: 0 to 4 g of milk fat, nobody printed how much.
    assert "milk fat is not printed: between 0.0 and 4.0 g." in said(
        **dark | {"contents": dark["contents"] + ", butter oil"}
    )
    cream = {
        "kind": "cream",
        "fat": "36",
        "carbohydrate": "2.9",
        "sugars": "2.9",
        "protein": "2.1",
        "contents": "cream",
    }
    assert "milk fat" not in said(**cream) and "Which sugars" not in said(**cream)
    milk = {"kind": "milk chocolate", "fat": "35", "carbohydrate": "52", "sugars": "51", "protein": "7.5"}
    assert "from the milk's protein" in said(**milk) and "No list" in said(**milk)
    syrup = {"kind": "syrup", "fat": "0", "carbohydrate": "78", "sugars": "78", "protein": "0"}
    assert "stands in crystals" in said(**syrup) and "Which sugars they are is not printed" in said(**syrup)
    assert "Which sugars" not in said(**SWEET, contents="sugar") and "crystals" not in said(**SWEET)
    assert "Not understood in the list: zorks." in said(**syrup, contents="zorks")


@pytest.mark.parametrize(
    ("milk_fat", "sucrose", "glucose", "words"),
    [
        ((0, 0.5), (10, 13), (0, 4), ()),  # one sugar alone is open, milk fat by no more than half a gram
        ((1, 1.52), (10, 13.1), (0, 3), ("milk fat",)),
        ((0, 0.5), (10, 13.1), (0, 3.1), ("Which sugars",)),
        ((2, 2.6), (10, 13.5), (2, 6), ("milk fat", "Which sugars")),
    ],
)
def test_no_more_than_half_a_gram_of_milk_fat_and_three_of_a_sugar_need_no_word(
    monkeypatch, milk_fat, sucrose, glucose, words
):
    """Our own judgement of what is worth saying. What the figures leave is put in by hand."""
    whole, nothing = label.narrowed, dict.fromkeys(("fructose", "lactose", "maltose"), (0, 0))

    def by_hand(rules, ends):
        return whole(rules, ends) | {"milk_fat": milk_fat, "sucrose": sucrose, "glucose": glucose} | nothing

    monkeypatch.setattr(label, "narrowed", by_hand)
    made_of.cache_clear()
    text = said(kind="sugar", fat="3", carbohydrate="93", sugars="93", protein="1", contents="sugar, butter")
    made_of.cache_clear()
    assert tuple(word for word in ("milk fat", "Which sugars") if word in text) == words


# --- words ----------------------------------------------------------------------------------------------------------


def test_a_short_word_and_a_number_are_nothing_unknown():
    found = read_contents("sugar 40 %, ab, 2*, zorks")
    assert found.unknown == ("zorks",) and found.groups == {"sugar"} and found.given
    nothing = read_contents("")
    assert not nothing.given and nothing.may_hold("sugar") and not nothing.holds("sugar")
    assert not read_contents("sugar").may_hold("whey", "honey") and read_contents("sugar").may_hold("whey", "sugar")
    assert read_contents("zorks").given and read_contents("zorks").may_hold("whey")
    assert nothing.allergens_us == () == nothing.allergens_eu


def test_nut_butters_keep_their_nut_and_lose_the_butter():
    found = read_contents("almond butter, shea butter, oats, barley malt")
    assert found.allergens_us == ("tree nuts (almonds)",)
    assert found.allergens_eu == (
        "cereals containing gluten (barley)",
        "cereals containing gluten (oats)",
        "nuts (almonds)",
    )


# --- how far a formula is open ----------------------------------------------------------------------------------------

# 20 g of water, 40 of sucrose, 20 of glucose, 20 of fructose in 100 g; each may be as low and as high as its ends.
OPEN = {"water": (15, 30), "sucrose": (30, 60), "glucose": (10, 25), "fructose": (15, 22)}


@pytest.fixture
def by_hand(monkeypatch):
    grams = dict.fromkeys(label_error.COMPONENTS, 0.0) | {"water": 20, "sucrose": 40, "glucose": 20, "fructose": 20}
    ends = dict.fromkeys(label_error.COMPONENTS, (0.0, 0.0)) | OPEN
    made = {"my syrup": SimpleNamespace(grams=grams, ends=ends)}
    monkeypatch.setattr(label_error, "own_ingredients", lambda: (made, ()))
    return made["my syrup"]


def test_the_most_and_the_least_water_a_label_may_leave_free(by_hand):
    """Most: glucose gives 10 and fructose 5 to sucrose (10, 15 and 55); water 30, so those 80 g are 70: times 0.875. Least:
    sucrose gives 5 to glucose and 2 to fructose (33, 25 and 22); water 15: times 85 / 80. Of 50 g, half of each change."""
    most, least = label_error.ends({"my syrup": 50.0, "honey": 40.0})
    assert {name: grams for name, grams in most.items() if grams} == {
        "water": pytest.approx(10 / 2),
        "sucrose": pytest.approx((55 * 0.875 - 40) / 2),
        "glucose": pytest.approx((10 * 0.875 - 20) / 2),
        "fructose": pytest.approx((15 * 0.875 - 20) / 2),
    }
    assert {name: grams for name, grams in least.items() if grams} == {
        "water": pytest.approx(-5 / 2),
        "sucrose": pytest.approx((33 * 1.0625 - 40) / 2),
        "glucose": pytest.approx((25 * 1.0625 - 20) / 2),
        "fructose": pytest.approx((22 * 1.0625 - 20) / 2),
    }


def test_sugar_goes_no_further_than_the_others_reach(by_hand):
    """Sucrose may reach 42 alone: glucose gives 2 of its 10, fructose none; maltose takes 3 of what is left of glucose's."""
    by_hand.ends |= {"sucrose": (30, 42), "maltose": (0, 3), "water": (20, 20)}
    most, _least = label_error.ends({"my syrup": 100.0})
    assert most["sucrose"] == pytest.approx(2) and most["maltose"] == pytest.approx(3)
    assert most["glucose"] == pytest.approx(-5) and most["fructose"] == pytest.approx(0)


def test_two_of_ones_own_add_up_and_none_of_one_counts_not(by_hand):
    both = label_error.ends({"my syrup": 30.0})[0]["water"] * 2
    assert label_error.labelled({"my syrup": 0.0, "honey": 2.0}) == []
    assert label_error.labelled({"my syrup": 0.1, "honey": 2.0}) == ["my syrup"]
    assert both == pytest.approx(30 * 10 / 100 * 2)


def test_the_sentence_has_the_numbers(by_hand):
    """40 g of it in 200: water 20, from 15 to 30: 2 g less or 4 g more, 1 or 2 % of the whole's 50; fat 10, from 9 to 13."""
    by_hand.grams["fat"], by_hand.ends["fat"] = 10, (9, 13)
    formula = SimpleNamespace(
        grams={"my syrup": 40.0, "honey": 160.0}, total_grams=200.0, composition=lambda: {"water": 0.5, "fat": 0.1}
    )
    assert label_error.said(formula) == (
        "Of my syrup only the label is known: of the whole, water 49.0 to 52.0 % and fat 9.8 to 10.6 %."
    )


def test_ends_far_apart_and_half_a_gram_are_counted_to_the_full(by_hand):
    """All of 200 g: water 20 %, from 0 to 95. And sucrose that may reach 40.5 takes half a gram of glucose."""
    by_hand.ends |= {"water": (0, 95), "fat": (0, 0)}
    formula = SimpleNamespace(
        grams={"my syrup": 200.0}, total_grams=200.0, composition=lambda: {"water": 0.2, "fat": 0.0}
    )
    assert "water 0.0 to 95.0 %" in label_error.said(formula)
    by_hand.ends |= {"water": (20, 20), "sucrose": (30, 40.5)}
    most, _least = label_error.ends({"my syrup": 100.0})
    assert most["sucrose"] == pytest.approx(0.5) and most["glucose"] == pytest.approx(-0.5)


@pytest.mark.parametrize(
    "text", ["min. 64 %", "64 % minimum", "64% min", "at least 64 %", "≥ 64 %", "cocoa solids: 64 % min."]
)
def test_a_cocoa_percentage_is_read_as_a_pack_prints_it(text):
    pack = {"kind": "dark chocolate", "fat": "40", "carbohydrate": "38", "sugars": "36", "protein": "6.5"}
    assert made_of(Label(**pack, cocoa=text)) == made_of(Label(**pack, cocoa="64"))


def test_a_cocoa_percentage_that_cannot_be_read_is_refused_in_its_own_words():
    assert "'strong' as the cocoa percentage" in refusal(**DARK, cocoa="strong")
