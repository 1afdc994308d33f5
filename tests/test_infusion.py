"""An infusion: every figure worked by hand as plain arithmetic; bands and weights; what is refused and what is not."""

import pytest

from pastrylab.course import benches
from pastrylab.ground.units import Q, StudentError
from pastrylab.trade import infusion


def grams(quantity):
    return quantity.m_as("g")


def test_cream_with_tea_by_hand():
    """500 g of cream, 20 g gone as steam: 480 g. 20 g of tea keep 3 g each, 60 g: 420 g are left.

    Of the steam 420 / 480 belongs to what is left: 17.5 g of water; the rest to 500 g is 62.5 g of cream.
    """
    made = infusion.infused("500 g", "20 g", evaporated="20 g")
    assert [grams(x) for x in (made.kept, made.left, made.left_low, made.left_high)] == pytest.approx(
        [60, 420, 400, 440]
    )
    assert (grams(made.water), grams(made.more)) == pytest.approx((17.5, 62.5))
    assert made.kept_per_gram == pytest.approx(3)
    assert made.formula.grams == {"heavy cream 36 %": 500}
    # USDA SR28, NDB 01053: 36.08 % of fat. 500 x 36.08 % in 480 g; with cream alone (420 x 37.58 % + 80 x 36.08 %) / 500.
    assert made.fat_left == pytest.approx(0.3608 * 500 / 480)
    assert made.fat_topped == pytest.approx(0.3608)
    assert made.fat_alone == pytest.approx((420 * 0.3608 * 500 / 480 + 80 * 0.3608) / 500)


def test_topped_up_with_milk_its_composition_is_the_balance():
    """As above: 420 g left and 17.5 g of water are 437.5 g of the cream as bought; 62.5 g of milk at 3.27 % fat."""
    made = infusion.infused("500 g", "20 g", evaporated="20 g", top_up="whole milk")
    assert made.formula.grams == pytest.approx({"heavy cream 36 %": 437.5, "whole milk": 62.5})
    fat = (437.5 * 0.3608 + 62.5 * 0.0327) / 500
    assert made.fat_topped == pytest.approx(fat) and made.formula.composition()["fat"] == pytest.approx(fat)
    water = (437.5 * 0.5781 + 62.5 * 0.8813) / 500
    assert made.formula.composition()["water"] == pytest.approx(water, rel=0.005)  # the tables' parts come to 100.2
    # All 80 g as milk, no water: 420 g at 37.58 % and 80 g at 3.27 %.
    assert made.fat_alone == pytest.approx((500 * 0.3608 / 480 * 420 + 80 * 0.0327) / 500)


def test_a_weight_wins_over_the_band():
    """500 + 20 - 505 = 15 g of steam; 485 - 455 = 30 g kept: 1.5 g a gram."""
    made = infusion.infused("500 g", "20 g", in_the_pan="505 g", strained="455 g")
    assert [grams(x) for x in (made.evaporated, made.kept, made.left_low, made.left_high)] == pytest.approx(
        [15, 30, 455, 455]
    )
    assert made.kept_per_gram == pytest.approx(1.5)
    assert "weighed" in made.sentence and "2 to 4 g a gram is usual, which yours is not" in made.sentence
    own = infusion.infused("500 g", "20 g", kept=2.5)
    assert grams(own.left) == grams(own.left_low) == pytest.approx(450) and "yours is not" not in own.sentence
    assert "reckoned: weigh it" in own.sentence


def test_what_the_leaves_kept_and_what_is_left_make_up_the_pan():
    for kind in infusion.kinds():
        low, high = infusion.kept_by(kind)
        made = infusion.infused("400 g", "12 g", of="whole milk", kind=kind, evaporated="10 g")
        assert grams(made.kept) + grams(made.left) == pytest.approx(390)
        assert grams(made.left) + grams(made.water) + grams(made.more) == pytest.approx(400)
        assert (grams(made.left_low), grams(made.left_high)) == pytest.approx((390 - 12 * high, 390 - 12 * low))


def test_the_start_is_divided_not_added():
    """5 g of tea in 100 g keep 3 each, 15 %, and 4 % boil away: 81 % is left, and 400 / 0.81 = 493.8 g."""
    start = infusion.start_with("400 g", "5 %", kept=3, evaporated="4 %")
    assert (grams(start.liquid), grams(start.leaves)) == pytest.approx((493.827, 24.691), abs=0.001)
    assert grams(start.low) == grams(start.high) == grams(start.liquid)
    by_band = infusion.start_with("400 g", "5 %", evaporated="4 %")
    assert [grams(x) for x in (by_band.low, by_band.liquid, by_band.high)] == pytest.approx(
        [400 / 0.86, 400 / 0.81, 400 / 0.76]
    )


@pytest.mark.parametrize(("leaves", "steam"), [("5 %", "4 %"), ("2 %", "0 %"), ("8 %", "10 %"), (0.03, 0.05)])
def test_what_is_started_with_ends_at_what_was_wanted(leaves, steam):
    start = infusion.start_with("400 g", leaves, kept=3, evaporated=steam)
    lost = infusion.start_with.doors["evaporated"].floats("steam", steam) * start.liquid
    made = infusion.infused(start.liquid, start.leaves, kept=3, evaporated=lost)
    assert grams(made.left) == pytest.approx(400)


@pytest.mark.parametrize(
    ("told", "says"),
    [
        ({"liquid": "500"}, "a number without a unit"),
        ({"liquid": "0 g"}, "above 0"),
        ({"liquid": "500 mL"}, "a volume"),
        ({"leaves": "-3 g"}, "-3"),
        ({"leaves": "5 %"}, "a plain number"),
        ({"leaves": "150 g"}, "may keep all of it"),
        ({"of": "moon dust"}, "not among the ingredients"),
        ({"top_up": "moon dust"}, "not among the ingredients"),
        ({"kind": "feathers"}, "'feathers' as what is steeped"),
        ({"kind": "coffee"}, "ground coffee, whole coffee beans"),
        ({"kind": ""}, "one of tea leaves"),
        ({"kept": "11"}, "11 for kept"),
        ({"kept": "3 g"}, "which has a unit"),
        ({"evaporated": "300 g"}, "at most its water, 289"),
        ({"in_the_pan": "525 g"}, "a pan that got lighter"),
        ({"in_the_pan": "505 g", "evaporated": "15 g"}, "steam twice"),
        ({"of": "water", "evaporated": "500 g", "kept": 0}, "may keep all of it"),
        ({"strained": "501 g"}, "less than was in the pan"),
        ({"in_the_pan": "500 g", "strained": "481 g"}, "less than was in the pan"),
    ],
)
def test_what_cannot_be_is_refused(told, says):
    with pytest.raises(StudentError) as error:
        infusion.infused(**({"liquid": "500 g", "leaves": "20 g"} | told))
    assert says in str(error.value) and "=" not in str(error.value)


@pytest.mark.parametrize(
    "told",
    [
        {"kind": "tea"},
        {"kind": "Tea leaves"},
        {"kind": "VANILLA"},
        {"kind": "ground coffee"},
        {"kind": "fresh herbs", "leaves": "1 oz"},
        {"of": "milk"},
        {"of": "water", "kind": "tea"},
        {"of": "coconut milk", "top_up": "water"},
        {"strained": "500 g"},
        {"in_the_pan": "520 g"},
        {"evaporated": "15 g", "strained": "420 g"},
        {"liquid": "1 lb", "leaves": "0.5 oz"},
        {"kept": 0},
        {"kept": "2 1/2"},
        {"liquid": Q(0.5, "kg")},
        {"liquid": "0.9 g", "leaves": "0.05 g", "in_the_pan": "0.9 g", "strained": "0.5 g"},
        {"kept": 10},
        {"kept": 0.5, "evaporated": "0.5 g"},
    ],
)
def test_what_is_clear_is_not(told):
    made = infusion.infused(**({"liquid": "500 g", "leaves": "20 g"} | told))
    assert grams(made.left) > 0 and "nan" not in made.sentence


@pytest.mark.parametrize(
    "told", [("400 g", "30 %"), ("400 g", "20 %"), ("400 g", "0 %"), ("400 g", "6 g"), ("400", "5 %")]
)
def test_a_start_that_leaves_nothing_is_refused(told):
    with pytest.raises(StudentError):
        infusion.start_with(*told)


def test_the_least_that_may_be_left_is_a_fifth():
    assert grams(infusion.start_with("100 g", "20 %", kept=3.9).liquid) == pytest.approx(100 / 0.22)
    with pytest.raises(
        StudentError, match="leaves of 26 % and 3 % of steam, which leave 19 % .* a start of which 20 % is"
    ):
        infusion.start_with("100 g", "26 %", kept=3, evaporated="3 %")


def test_the_bands_are_those_of_the_table_and_every_one_has_its_source():
    """Spent tea of two thirds to four fifths water holds 2 to 4 g a gram; drained coffee 2 to 2.5 (brewing literature)."""
    assert infusion.kept_by("tea leaves") == (pytest.approx(2 / 3 / (1 / 3)), pytest.approx(0.8 / 0.2))
    assert infusion.kept_by("ground coffee")[0] == 2 and infusion.kept_by("ground coffee")[1] >= 2.5
    for kind in infusion.kinds():
        low, high = infusion.kept_by(kind)
        assert 0 < low < high


def test_the_bench_says_and_lays_out_the_balance():
    """150 g, 10 g gone, 10 g of tea at 3: 110 g left; water 110 x 10 / 140 = 7.857 g, the rest to 150 is 32.143 g."""
    bench = benches.emulsion.infusion_bench()
    for name, value in {"liquid": 150, "leaves": 10, "evaporated": 10}.items():
        bench.numbers[name].put(value)
    assert (
        "150 g of cream 110 g come through" in bench.sentence.value
        and "7.86 g of water and 32.1 g" in bench.sentence.value
    )
    bars = {name: [bar.get_width() for bar in made] for name, made in bench.figure._bars.items()}
    assert bars["cream"] == pytest.approx([150, 110, 110])
    assert bars["kept by the leaves"] + bars["gone as steam"] == pytest.approx([30, 10])
    assert bars["water to add"] + bars["liquid to add"] == pytest.approx([110 / 14, 40 - 110 / 14])
    assert list(bench.figure._span.get_xdata()) == pytest.approx([100, 120])


def test_another_kind_brings_what_it_keeps_and_a_typed_number_stays():
    bench = benches.emulsion.infusion_bench()
    bench.choices["kind"].value = "vanilla pods"
    low, high = infusion.kept_by("vanilla pods")
    assert (
        bench.numbers["kept"].value == pytest.approx((low + high) / 2, abs=0.006)
        and "is inside" in bench.sentence.value
    )
    bench.numbers["kept"].put(2)
    bench.choices["top_up"].value = "water"
    assert bench.numbers["kept"].value == 2 and "2 times their weight is above" in bench.sentence.value
    bench.numbers["kept"].put(0.1)
    assert "is below their habit" in bench.sentence.value
    bench.system.value = "US"
    assert "oz of cream" in bench.sentence.value and bench.figure.axes.get_xlabel() == "ounces"


def test_what_is_said_holds_every_figure():
    """500 + 20 - 505 = 15 g, 485 - 435 = 50 g; 435 x 15 / 485 = 13.45 g; 50 x 500 / 485 = 51.55 g.

    Fat 36.08 %: strained x 500 / 485 = 37.20 %; with cream alone (435 x 37.20 + 65 x 36.08) / 500 = 37.05 %.
    """
    said = infusion.infused("500 g", "20 g", in_the_pan="505 g", strained="435 g").sentence
    assert said == (
        "Left: 435 g (15.3 oz) (weighed). The leaves kept 50 g, 2.5 g a gram; 2 to 4 g a gram is usual. Top up with 13.5 g of "
        "water and 51.5 g of heavy cream 36 %. Fat of the strained 37.2 %, topped up 36.1 %; with heavy cream 36 % alone 37.1 %."
    )
    said = infusion.infused("300 g", "10 g", of="water").sentence
    assert said == (
        "Left: 270 g (9.52 oz), from 260 g to 280 g (reckoned: weigh it). The leaves kept 30 g, 3 g a gram; 2 to 4 g a gram is "
        "usual. Top up with 30 g of water."
    )
    assert infusion.start_with("400 g", "5 %", evaporated="4 %").sentence == (
        "Start with 494 g (17.4 oz) and 24.7 g of leaves: 81 % of it is left, 465 g to 526 g by what tea leaves keep."
    )


@pytest.mark.parametrize(
    ("told", "example"),
    [({"leaves": "150 g"}, "25 g of leaves"), ({"in_the_pan": "525 g"}, "510 g"), ({"strained": "501 g"}, "450 g")],
)
def test_an_example_would_be_taken(told, example):
    with pytest.raises(StudentError) as error:
        infusion.infused(**({"liquid": "500 g", "leaves": "20 g"} | told))
    assert error.value.example == example
    (name,) = told
    infusion.infused(**({"liquid": "500 g", "leaves": "20 g"} | {name: example.removesuffix(" of leaves")}))


def test_a_usual_is_usual_up_to_its_ends():
    for kept, off in ((2, False), (4, False), (1.9, True), (4.1, True)):
        assert ("which yours is not" in infusion.infused("500 g", "20 g", kept=kept).sentence) == off


def test_a_little_is_started_with_as_well():
    assert grams(infusion.start_with("0.5 g", "0.5 %", kept=0.5).liquid) == pytest.approx(0.5 / 0.9975)
    assert grams(infusion.start_with("100 g", "5 %", kept=0).liquid) == 100
    assert grams(infusion.start_with("100 g", "5 %", kept=10).liquid) == pytest.approx(200)


# --- both sides of every edge -----------------------------------------------------------------------


def test_masses_are_said_to_three_figures():
    """321.7 - 4.6 = 317.1 g; 10.63 g at 3 keep 31.89 g: 285.21 g left, 274.58 g at 4 and 295.84 g at 2; 285.21 g is
    10.06 oz. Water 285.21 x 4.6 / 317.1 = 4.137 g, cream 31.89 x 321.7 / 317.1 = 32.35 g."""
    said = infusion.infused("321.7 g", "10.63 g", evaporated="4.6 g").sentence
    assert (
        "Left: 285 g (10.1 oz), from 275 g to 296 g (reckoned: weigh it). The leaves kept 31.9 g, 3 g a gram;" in said
    )
    assert "Top up with 4.14 g of water and 32.4 g of heavy cream 36 %." in said


def test_half_a_gram_of_steam_is_topped_up_with_water():
    """499.5 - 60 = 439.5 g left; 439.5 x 0.5 / 499.5 = 0.44 g of water."""
    said = infusion.infused("500 g", "20 g", evaporated="0.5 g").sentence
    assert "Top up with 0.44 g of water and" in said and "; with heavy cream 36 % alone 36.1 %." in said
    assert grams(infusion.infused("1 g", "0.05 g").left) == pytest.approx(0.85)
    # A fat of half a per cent is worth a word: mango puree has 0.38 % (USDA SR28), by a third of steam 0.38 / 0.7 = 0.54 %.
    assert "Fat of the strained 0.5 %" in infusion.infused("100 g", "1 g", of="mango puree", evaporated="30 g").sentence
    assert "Fat" not in infusion.infused("100 g", "1 g", of="mango puree", evaporated="20 g").sentence  # 0.48 %


@pytest.mark.parametrize(
    ("told", "rest"),
    [
        ({"leaves": "30 %"}, "leaves of 30 % and 0 % of steam, which leave 0 % of"),  # 1 - 0.3 x 4 is less than nothing
        ({"leaves": "22 %"}, "leave 12 % of"),  # 1 - 0.22 x 4, though by the middle of the band it were 34 %
        ({"leaves": "20 %", "kept": 4.03}, "leave 19 % of"),  # 19.4 %
    ],
)
def test_what_would_be_left_is_said(told, rest):
    with pytest.raises(StudentError) as error:
        infusion.start_with("400 g", **told)
    assert rest in error.value.given and "a start of which 20 % is left at least" in error.value.needed


@pytest.mark.parametrize(
    ("call", "needed", "example"),
    [
        (
            lambda: infusion.infused("500 g", "20 g", kind="coffee"),
            "one of ground coffee, whole coffee beans",
            "ground coffee",
        ),
        (lambda: infusion.start_with("100 g", "5 %", kept=10.5), "a plain number at least 0 and at most 10", "3"),
        (lambda: infusion.infused("500 g", "20 g", kept=10.5), "a plain number at least 0 and at most 10", "3"),
    ],
)
def test_a_refusal_names_what_there_is(call, needed, example):
    with pytest.raises(StudentError) as error:
        call()
    assert (error.value.needed, error.value.example) == (needed, example)
