"""A whole label: what must be on it, what is left to the person, and that nothing is promised."""

import dataclasses

import pytest

from pastrylab.ground.units import StudentError
from pastrylab.trade.orders import flavour, flavours
from pastrylab.trade.statement import EU, US, grams_of_piece, label

LEFT_TO_THE_PERSON = ("Batch", "Made on", "Best before", "Keep", "Made by, with the address")


def lines(*arguments, **named):
    return dict(label(*arguments, **named).lines)


def test_a_piece_weighs_its_coat_and_its_filling(outside):
    """bonbons.csv, dark ganache, 96 pieces: 530 g of coat, and 260, 40, 400 and 70 g of filling: 1300 g."""
    grams = grams_of_piece(flavour("dark ganache"))
    outside(
        quantity="dark ganache, g a piece",
        expected=1300 / 96,
        got=sum(grams.values()),
        tolerance=1e-6,
        source="arithmetic on the rows of bonbons.csv",
    )
    assert grams["dark couverture 64 %"] == pytest.approx(930 / 96)


def test_a_box_of_twelve_in_the_us(outside):
    """12 × 13.5417 g are 162.5 g, 5.732 oz."""
    found = lines("dark ganache", 12)
    outside(
        quantity="net weight of twelve dark ganaches",
        expected="5.7 oz (162 g)",
        got=found["Net weight"],
        tolerance="exact",
        source="arithmetic; rounded down",
    )
    assert found["Contains"] == "milk, soybeans"
    assert found["Ingredients"].startswith("bittersweet chocolate (chocolate liquor, sugar, cocoa butter")
    assert found["Ingredients"].endswith("cream, butter (cream), invert sugar")


def test_the_same_box_in_the_eu():
    found = lines("dark ganache", 12, EU)
    assert found["Net weight"] == "162 g" and "Contains" not in found
    assert "SOYA" in found["Ingredients"] and "cream (MILK)" in found["Ingredients"]


@pytest.mark.parametrize("law", [US, EU])
@pytest.mark.parametrize("name", list(flavours()))
def test_what_nobody_can_know_is_left_to_the_person(name, law):
    draft = label(name, 9, law)
    assert all(dict(draft.lines)[heading] == "" for heading in LEFT_TO_THE_PERSON)
    assert draft.text.count("____________") == len(LEFT_TO_THE_PERSON)
    assert "decide" in draft.asks[-1] and "Weigh the filled boxes" in " ".join(draft.asks)
    assert "safe" not in (draft.text + " ".join(draft.asks)).casefold()
    assert draft.names and all(one.law.startswith("21 CFR") == (law == US) for one in draft.names)


def test_what_is_made_beside_it_is_named_and_what_it_holds_itself_is_not_named_twice():
    assert lines("dark ganache", 12, beside=["hazelnut praline"])["Made in a room with"] == "tree nuts (hazelnuts)"
    assert "Made in a room with" not in lines("hazelnut praline", 12, beside=["dark ganache"])
    assert "Made in a room with" not in lines("dark ganache", 12)


def test_a_second_kind_of_nut_in_the_room_is_named_by_itself():
    praline = flavour("hazelnut praline")
    almond = dataclasses.replace(praline, name="almond", filling={"almond paste": 6.0, "hazelnuts": 1.0})
    assert lines(praline, 12, beside=[almond])["Made in a room with"] == "tree nuts (almonds)"


def test_a_list_that_calls_a_chocolate_what_it_is_not_is_asked_about():
    """Milk couverture of 33 % is under the 10 % of liquor of 21 CFR 163.130."""
    pale = dataclasses.replace(flavour("hazelnut praline"), couverture="milk couverture 33 %")
    asks = " ".join(label(pale, 12).asks)
    assert "The list calls milk couverture 33 % milk chocolate." in asks and "not met" in asks
    assert "The list calls" not in " ".join(label("hazelnut praline", 12).asks)


def test_what_the_name_names_is_given_with_its_share_in_the_eu(outside):
    """bonbons.csv: 230 g of raspberry puree in 1300 g are 17.7 %; 470 g of praline and 70 g of hazelnuts, 36.2 and 5.4 %."""
    for name, expected in (
        ("raspberry ganache", "raspberry puree 18 %."),
        ("hazelnut praline", "hazelnut praline 36 %; roasted hazelnuts 5 %."),
    ):
        (got,) = [ask for ask in label(name, 12, EU).asks if "Article 22" in ask]
        outside(
            quantity=f"{name}: shares of what its name names",
            expected=expected,
            got=got.partition("weighed in: ")[2],
            tolerance="exact",
            source="Regulation (EU) 1169/2011, Article 22, from memory; arithmetic on bonbons.csv",
        )
    assert not [ask for ask in label("raspberry ganache", 12).asks if "Article 22" in ask]


@pytest.mark.parametrize(
    ("weighed", "net", "says"),
    [
        ("158.9 g", "5.6 oz (158 g)", "is it the lightest"),  # 162.5 g by the formula
        ("203 g", "7.1 oz (203 g)", "is it the lightest"),  # a quarter more is 203.1 g
        ("204 g", "7.1 oz (204 g)", "take the wrapping off"),
        ("122 g", "4.3 oz (122 g)", "is it the lightest"),  # a quarter less is 121.9 g
        ("121 g", "4.2 oz (121 g)", "look at the scale"),
    ],
)
def test_a_weighed_box_goes_before_the_formula_and_one_far_off_is_asked_about(weighed, net, says):
    draft = label("dark ganache", 12, weighed=weighed)
    assert dict(draft.lines)["Net weight"] == net
    assert says in " ".join(draft.asks)


@pytest.mark.parametrize("weighed", ["0 g", "-3 g", "150", "150 mL", "heavy", "201 kg"])
def test_a_weight_that_is_none_is_refused(weighed):
    with pytest.raises(StudentError):
        label("dark ganache", 12, weighed=weighed)


def test_a_filled_piece_is_judged_in_the_eu():
    found = {one.name: one.verdict for one in label("dark ganache", 12, EU).names}
    assert found["filled chocolate"] == "met"  # 530 of 1300 g are 41 %


@pytest.mark.parametrize("law", [US, EU])
def test_a_coat_that_is_no_chocolate_has_a_label_and_no_name_of_one(law):
    odd = dataclasses.replace(flavour("dark ganache"), couverture="hazelnut praline 50 %")
    draft = label(odd, 12, law)
    assert draft.names == () and "hazelnut praline (" in dict(draft.lines)["Ingredients"].lower()


@pytest.mark.parametrize(
    ("name", "pieces", "law", "beside"),
    [
        *(("zorks", 12, US, ()), ("", 12, US, ()), ("dark ganache", 0, US, ()), ("dark ganache", 2.5, US, ())),
        *(("dark ganache", -1, US, ()), ("dark ganache", 12, "UK", ()), ("dark ganache", 12, US, ["zorks"])),
        *(("dark ganache", "many", US, ()), ("dark ganache", 10_001, US, ()), ("dark ganache", "12 g", US, ())),
    ],
)
def test_what_is_refused(name, pieces, law, beside):
    with pytest.raises(StudentError):
        label(name, pieces, law, beside)


@pytest.mark.parametrize("pieces", [1, "12", 6.0, 10_000])
def test_boxes_of_any_size(pieces):
    assert lines("Dark Ganache", pieces)["Net weight"]
