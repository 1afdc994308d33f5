"""Packs, formulas, pieces, boxes, prices: the properties that hold for all of them, and what is refused."""

from decimal import Decimal
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from pastrylab.ground.datasets import PRICES, prices
from pastrylab.ground.money import Money
from pastrylab.ground.tables import read_table
from pastrylab.ground.units import Q, StudentError
from pastrylab.trade.costing import (
    batch_cost,
    box_cost,
    break_even,
    contribution,
    discounted,
    edible_portion_cost,
    food_cost_allowed,
    food_cost_share,
    formula_cost,
    labour_cost,
    margin_of,
    margin_to_markup,
    markup_to_margin,
    price_by_margin,
    price_by_markup,
    price_for,
    tornado,
    what_moves,
)
from pastrylab.trade.formula import Formula
from pastrylab.trade.pantry import ingredient_name
from pastrylab.trade.purchasing import (
    Pack,
    Tool,
    compare_tools,
    cost_of_buying,
    cost_of_use,
    packs_to_buy,
    pod_cost,
    pods_until_bulk_pays,
    price_list,
    read_receipt,
    tool_cost,
)

prices_paid = st.decimals("0.01", "9999", places=2)
yields = st.decimals("0.05", "1", places=2)
grams = st.floats(0.1, 50_000)
shares = st.decimals("0.01", "0.95", places=3)

PACKS = {
    "dark couverture 64 %": Pack.of("2.5 kg", "$40", 1, "couverture", ("$30", "$60"), ("0.9", 1)),
    "heavy cream 36 %": Pack.of("1 L", "$6", 0.96, "cream", ("$5", "$7")),
    "honey": Pack.of("500 g", "$8", name="honey"),
    "pod": Pack.of(10, "$20", name="pods"),
}
GANACHE = {"dark couverture 64 %": "500 g", "heavy cream 36 %": "250 g", "honey": "25 g"}


# --- properties -------------------------------------------------------------------------------------


@given(prices_paid, st.floats(1, 25_000), yields, grams)
def test_buying_never_costs_less_than_use(price, size, kept, used):
    pack = Pack.of(Q(size, "g"), price, kept)
    assert cost_of_buying(pack, Q(used, "g")) >= cost_of_use(pack, Q(used, "g"))


@given(prices_paid, st.integers(1, 50), yields)
def test_whole_packs_used_up_cost_what_was_bought(price, packs, kept):
    pack = Pack.of("2 kg", price, kept)
    amount = Q(float(2 * packs * kept), "kg")
    assert packs_to_buy(pack, amount) == packs
    assert cost_of_use(pack, amount) == price * packs


@given(prices_paid, yields)
def test_edible_portion_cost_undoes_the_yield(price, kept):
    cost = edible_portion_cost(price, kept)
    assert cost >= price
    assert abs(cost * kept - price) < Decimal("1e-20")


@given(st.dictionaries(st.text(min_size=1), st.tuples(st.integers(0, 99), st.decimals(0, 50, places=6)), min_size=1))
def test_lines_of_a_box_add_up_to_its_cost(contents):
    lines = box_cost({label: (n, Money(each, "USD")) for label, (n, each) in contents.items()})
    exact = sum((n * each for n, each in contents.values()), Decimal(0))
    total = sum(lines.values())
    assert abs(total - exact) <= Decimal("0.005")
    for label, (n, each) in contents.items():
        assert abs(lines[label] - n * each) < Decimal("0.01")
        assert lines[label] == lines[label].rounded()


@given(prices_paid, shares.filter(lambda margin: margin < Decimal("0.909")))
def test_price_by_margin_and_back(cost, margin):
    price = price_by_margin(cost, margin)
    assert margin_of(cost, price) == pytest.approx(float(margin), abs=1e-12)
    assert price_by_markup(cost, margin_to_markup(margin)) == pytest.approx(float(price), rel=1e-12)


@given(shares.filter(lambda margin: margin < Decimal("0.909")))
def test_margin_and_markup_are_inverses(margin):
    assert markup_to_margin(margin_to_markup(margin)) == pytest.approx(float(margin), abs=1e-12)


@given(st.decimals(0, "9.999", places=3))
def test_markup_and_margin_are_inverses(markup):
    assert margin_to_markup(markup_to_margin(markup)) == pytest.approx(float(markup), rel=1e-9, abs=1e-12)


@given(prices_paid, st.decimals("0.01", "1", places=2))
def test_price_by_food_cost_and_back(cost, part):
    assert food_cost_share(cost, price_for(cost, part)) == pytest.approx(float(part), rel=1e-12)


@given(st.decimals(0, 100_000, places=2), prices_paid, prices_paid)
def test_break_even_is_the_first_piece_that_pays(fixed, price, variable):
    assume(price > variable)
    pieces = break_even(fixed, price, variable)
    assert pieces * (price - variable) >= fixed
    assert pieces == 0 or (pieces - 1) * (price - variable) < fixed


# --- packs and formulas -----------------------------------------------------------------------------


def test_what_a_use_costs_by_mass_volume_and_piece():
    # By hand: 40 / 2.5; 6 / (1000 x 0.96) x 96; 20 / 10; 6 / (1 x 0.96) / 1.2 x 0.96.
    assert cost_of_use(PACKS["dark couverture 64 %"], "1 kg") == 16
    assert cost_of_use(PACKS["heavy cream 36 %"], "96 mL") == Decimal("0.6")
    assert cost_of_use(PACKS["pod"], 1) == 2
    assert float(cost_of_use(PACKS["heavy cream 36 %"], "0.96 kg", "1.2 g/mL")) == pytest.approx(5, rel=1e-9)


def test_a_pound_pack_is_full_of_ounces():
    assert packs_to_buy(Pack.of("5 lb", 10), "80 oz") == 1
    assert packs_to_buy(Pack.of("5 lb", 10), "81 oz") == 2
    # 700 g are 0.7000000000000001 kg in binary, and still one pack.
    assert packs_to_buy(Pack.of("0.7 kg", 10), "700 g") == 1


def test_a_formula_costs_its_lines():
    costed = formula_cost(GANACHE, PACKS)
    couverture, cream, honey = costed.lines
    assert couverture.cost == 8
    # 250 g of cream at the tabled 1.006 g/mL, of which 96 % leave the carton.
    assert float(cream.cost) == pytest.approx(6 * 0.250 / 1.006 / 0.96, rel=1e-9)
    assert honey.cost == Decimal("0.4")
    assert costed.total == couverture.cost + cream.cost + honey.cost
    assert costed.buying == 40 + 6 + 8
    assert sum(costed.to_the_cent.values()) == costed.total.rounded()


def test_a_formula_object_and_other_names_of_an_ingredient_cost_the_same():
    assert formula_cost(Formula(GANACHE), PACKS).total == formula_cost(GANACHE, PACKS).total
    other = {"dark couverture 64%": "500 g", "heavy cream": "250 g", "Honey": "25 g"}
    assert formula_cost(other, PACKS).total == formula_cost(GANACHE, PACKS).total


def test_a_density_of_ones_own_wins():
    thin = formula_cost({"heavy cream 36 %": "250 g"}, PACKS, {"heavy cream 36 %": "0.5 g/mL"}).total
    assert float(thin) == pytest.approx(6 * 0.5 / 0.96)


def test_the_tornado_is_ranked_and_moves_one_input_at_a_time():
    bars = tornado(GANACHE, PACKS)
    assert [bar.name for bar in bars] == [
        "price of dark couverture 64 %",
        "yield of dark couverture 64 %",
        "price of heavy cream 36 %",
    ]
    for bar in bars:
        field, _, name = bar.name.partition(" of ")
        for end, cost in ((bar.low, bar.cost_at_low), (bar.high, bar.cost_at_high)):
            pack = PACKS[name]
            changed = Pack.of(
                f"{pack.size} {'kg' if pack.kind == 'mass' else 'L'}",
                end if field == "price" else pack.price,
                end if field == "yield" else pack.yield_share,
            )
            expected = formula_cost(GANACHE, PACKS | {name: changed}).total
            assert float(cost) == pytest.approx(float(expected), rel=1e-12)
    assert bars[0].swing == 6


# --- batch, piece, box ------------------------------------------------------------------------------


def test_labour_by_batch_and_by_piece():
    assert labour_cost("$24", "90 min") == 36
    assert labour_cost("$24", "90 min", "15 s", 120) == 48
    assert labour_cost("$24", "1 h", on_costs="25 %") == 30


def test_good_pieces_carry_the_rejects():
    batch = batch_cost(30, 50, rejects=2, labour=20, packaging_each="0.25", overhead=3, overhead_share="10 %")
    assert batch.prime_cost == 50
    assert batch.packaging == 12
    assert batch.overhead == 8
    assert batch.total == 70
    assert float(batch.per_piece) == pytest.approx(70 / 48)
    assert sum(batch.to_the_cent.values()) == batch.total.rounded()


def test_the_cent_left_over_goes_to_the_largest_remainder():
    lines = box_cost({"dark": (1, "$0.334"), "milk": (1, "$0.333"), "white": (1, "$0.333")})
    assert [str(line) for line in lines.values()] == ["$0.34", "$0.33", "$0.33"]
    yen = box_cost({"dark": (1, "33.4 JPY"), "milk": (1, "33.3 JPY"), "white": (1, "33.3 JPY")})
    assert [str(line) for line in yen.values()] == ["34 JPY", "33 JPY", "33 JPY"]


def test_what_is_left_of_a_price():
    assert margin_of(4, 6) == pytest.approx(1 / 3)
    assert margin_of(6, 4) == pytest.approx(-0.5)
    assert contribution(4, 6) == -2


# --- pods and tools ---------------------------------------------------------------------------------


def test_a_pod_singly_in_bulk_and_used_again():
    assert pod_cost("$3.60") == Decimal("3.60")
    assert pod_cost("$46", pods=25, usable=0.92) == 2
    assert pod_cost("$46", pods=25, usable=0.92, used=1.5, credit="$0.40") == Decimal("2.4")
    assert pods_until_bulk_pays("$4", "$46", 25, 0.92) == 12
    assert pods_until_bulk_pays("$2", "$46", 25, 0.92) == 23


def test_a_tool_worn_out_is_bought_again_and_its_upkeep_paid_for_each_use():
    brush = Tool.of("brush", "$4", 5, upkeep="$0.10", food_safe=True)
    assert [tool_cost(brush, uses) for uses in (1, 5, 6)] == [Decimal("4.10"), Decimal("4.50"), Decimal("8.60")]


def test_only_food_safe_tools_touch_food():
    hardware = Tool.of("paint gun", 20, 500)
    kitchen = Tool.of("spray gun", 120, 500, upkeep="0.10", food_safe=True)
    assert [(tool.name, cost) for tool, cost in compare_tools([hardware, kitchen], 100)] == [("spray gun", 130)]
    assert [tool.name for tool, _ in compare_tools([kitchen, hardware], 100, touches_food=False)] == [
        "paint gun",
        "spray gun",
    ]
    with pytest.raises(StudentError, match="food-contact safe"):
        compare_tools([hardware], 10)


# --- the price list ---------------------------------------------------------------------------------


def test_the_price_list_reads_and_covers_what_a_lab_buys():
    frame = prices()
    packs = price_list(frame)
    assert len(frame) >= 30
    assert {packs[name].kind for name in frame["item"]} == {"mass", "volume", "count"}
    assert packs["vanilla pods, tin of 25"].size == 25
    assert set(frame["source"]) == {"invented, Larkmoor Teaching Kitchen"}
    for name in filter(None, frame["ingredient"]):
        assert ingredient_name(name) == name


def test_bulk_is_cheaper_by_the_unit_in_the_price_list():
    packs = price_list(prices())
    bag, carton = packs["dark couverture 64 %, bag"], packs["dark couverture 64 %, carton of bags"]
    assert cost_of_use(carton, "1 kg") < cost_of_use(bag, "1 kg")
    assert packs["dark couverture 64 %"] is bag


HEADER = ",".join(column.name for column in PRICES.columns)
ROW = "honey jar,honey,500,g,8,USD,0.95,0.9,1,6,11,invented"


@pytest.mark.parametrize(
    ("was", "now", "said"),
    [
        (",8,", ",,", "row 2, column 'price'"),
        (",8,", ",-8,", "row 2, column 'price'"),
        (",8,", ",12,", "outside its range"),
        (",0.95,", ",0,", "row 2, column 'yield_share'"),
        (",0.95,", ",1.2,", "row 2, column 'yield_share'"),
        (",g,", ",min,", "row 2, column 'pack_unit'"),
        ("USD", "dollars", "'dollars' as a currency"),
        ("500", "nan", "row 2, column 'pack_size'"),
    ],
)
def test_a_bad_price_list_is_refused_by_name(was, now, said):
    with pytest.raises(StudentError, match=said):
        price_list(read_table(f"{HEADER}\n{ROW.replace(was, now, 1)}\n", PRICES, "prices.csv"))


def test_a_price_list_in_two_currencies_is_refused():
    second = ROW.replace("honey jar", "honey pail").replace("USD", "EUR")
    with pytest.raises(StudentError, match="EUR and USD"):
        price_list(read_table(f"{HEADER}\n{ROW}\n{second}\n", PRICES, "prices.csv"))


def test_a_row_without_a_price_is_refused():
    row = read_table(f"{HEADER}\n{ROW}\n", PRICES).rows[0]
    for missing in (None, float("nan")):
        for column in ("price", "price_low", "price_high"):
            with pytest.raises(StudentError, match=f"no {column} for honey jar"):
                price_list([row | {column: missing}])


# --- refusals ---------------------------------------------------------------------------------------

NAN = float("nan")


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (lambda: edible_portion_cost(None, 0.75), "nothing for the price"),
        (lambda: edible_portion_cost("", 0.75), "nothing for the price"),
        (lambda: edible_portion_cost(-1, 0.75), "at least 0"),
        (lambda: edible_portion_cost(NAN, 0.75), "nan"),
        (lambda: edible_portion_cost(1.86, 0), "above 0"),
        (lambda: edible_portion_cost(1.86, 1.1), "at most 1"),
        (lambda: edible_portion_cost(1.86, 75), "for 75 % write 0.75"),
        (lambda: edible_portion_cost(1.86, NAN), "nan for the yield"),
        (lambda: edible_portion_cost("$1.86/lb", 0.75), "the price alone"),
        (lambda: Pack.of("0 kg", 5), "above zero"),
        (lambda: Pack.of(2.5, 5), "whole number of pieces"),
        (lambda: Pack.of("30 min", 5), "a mass, a volume or a number of pieces"),
        (lambda: Pack.of("1 kg", None), "nothing for the price of the pack"),
        (lambda: Pack.of("1 kg", 5, 0), "above 0"),
        (lambda: Pack.of("1 kg", 5, price_range=(6, 7)), "outside its range"),
        (lambda: cost_of_use(PACKS["honey"], "1 L"), "sold by weight"),
        (lambda: cost_of_use(PACKS["pod"], "1 kg"), "sold by the piece"),
        (lambda: cost_of_use(PACKS["honey"], 25), "sold by weight"),
        (lambda: cost_of_use(PACKS["honey"], "-25 g"), "above zero"),
        (lambda: cost_of_use(PACKS["honey"], Q(NAN, "g")), "nan"),
        (lambda: cost_of_use(PACKS["heavy cream 36 %"], "25 g"), "its density"),
        (lambda: cost_of_use(PACKS["honey"], Q(np.array([1.0, 2.0]), "g")), "a mass, a volume or a number"),
        (lambda: formula_cost({"hony": "25 g"}, PACKS), "'hony', which has no price.*honey"),
        (lambda: formula_cost({}, PACKS), "without ingredients"),
        (
            lambda: formula_cost({"honey": "5 g", "a": "5 g"}, PACKS | {"a": Pack.of("1 kg", "3 EUR")}),
            "EUR and USD",
        ),
        (lambda: labour_cost("$24", "2 kg"), "a time"),
        (lambda: labour_cost("$24", "1 h", "10 s", -3), "at least 0"),
        (lambda: batch_cost("$30", 0), "at least 1"),
        (lambda: batch_cost("$30", 10, rejects=10), "at least one good piece"),
        (lambda: batch_cost("$30", 10, labour="20 EUR"), "EUR and USD"),
        (lambda: box_cost({}), "an empty box"),
        (lambda: box_cost({"dark": (6, "$0.4")}, {"box": "1 EUR"}), "EUR and USD"),
        (lambda: box_cost({"box": (6, "$0.4")}, {"box": "$1"}), "twice"),
        (lambda: price_for(3, 0), "above 0"),
        (lambda: price_for(3, "130 %"), "at most 1"),
        (lambda: price_by_margin(3, 1), "below 1"),
        (lambda: price_by_markup(3, -0.1), "at least 0"),
        (lambda: price_for("5", "30"), "for 30 % write 0.3"),
        (lambda: price_by_markup("5", "40"), "40 %, or 4000 %"),
        (lambda: margin_to_markup(1), "below 1"),
        (lambda: margin_of(3, 0), "above 0"),
        (lambda: break_even(100, 4, 4), "never break even"),
        (lambda: break_even(-1, 6, 4), "at least 0"),
        (lambda: break_even(NAN, 6, 4), "nan"),
        (lambda: break_even("$5", "6 EUR", 4), "EUR and USD"),
        (lambda: break_even("12,000", 6, 4), "12000 or 12.00"),
        (lambda: pod_cost("$3", credit="$4"), "less than a fresh pod"),
        (lambda: pod_cost("$3", pods=0), "at least 1"),
        (lambda: pod_cost("$3", used=-1), "at least 0"),
        (lambda: pods_until_bulk_pays("$1", "$46", 25, 0.9), "never pays"),
        (lambda: pods_until_bulk_pays("$1", "9 EUR", 25), "EUR and USD"),
        (lambda: Tool.of("brush", "$4", 0), "at least 1"),
        (lambda: tool_cost(Tool.of("brush", "$4", 5), 2.5), "whole number"),
    ],
)
def test_bad_input_is_answered_with_a_remedy(call, said):
    with pytest.raises(StudentError, match=said) as caught:
        call()
    assert "Needed:" in str(caught.value)


def test_thirds_do_not_cost_a_piece_more():
    third = Fraction(1, 3)
    assert break_even(1, third, 0) == 3


def test_what_moves_a_piece_by_hand():
    # 100 g of honey are $1.60 ($1.20 to $2.20), half an hour at $24 and a tenth on top is $13.20; 20 pieces, 2 rejects.
    packs = {"honey": Pack.of("500 g", "$8", price_range=("$6", "$11"))}
    bars = what_moves({"honey": "100 g"}, packs, 20, 2, "$24", "30 min", 0.2, "10 %")
    expected = {
        "hourly wage": ((1.60 + 10.56) / 18, (1.60 + 15.84) / 18),
        "minutes of work": ((1.60 + 10.56) / 18, (1.60 + 15.84) / 18),
        "rejects": (14.80 / 20, 14.80 / 16),
        "price of honey": ((1.20 + 13.20) / 18, (2.20 + 13.20) / 18),
    }
    assert [bar.name for bar in bars] == list(expected)
    for bar in bars:
        assert (float(bar.cost_at_low), float(bar.cost_at_high)) == pytest.approx(expected[bar.name])
    ends = {bar.name: (bar.low, bar.high) for bar in bars}
    assert ends["rejects"] == (0, 4) and ends["minutes of work"] == pytest.approx((24, 36))
    assert [float(end) for end in ends["hourly wage"]] == pytest.approx([19.2, 28.8])


@pytest.mark.parametrize(
    ("most", "beyond"),
    [
        (lambda: labour_cost("$24", "1 h", on_costs="200 %"), lambda: labour_cost("$24", "1 h", on_costs="201 %")),
        (
            lambda: batch_cost(30, 50, overhead_share="500 %"),
            lambda: batch_cost(30, 50, overhead_share="501 %"),
        ),
    ],
)
def test_the_most_that_is_put_on_top(most, beyond):
    # Common practice, no source: more is a slip of the pen.
    most()
    with pytest.raises(StudentError):
        beyond()


def test_prices_by_hand():
    assert price_for("$1.05", "30 %") == Decimal("3.5") and price_for("$1.05", 1) == Decimal("1.05")
    assert food_cost_allowed("$9", "30 %") == Decimal("2.7")
    assert discounted("$20", "15 %") == 17 and discounted("$20", 1) == 0
    assert price_by_margin("$3", "40 %") == 5 and price_by_markup("$5", "30 %") == Decimal("6.5")
    assert food_cost_share("$2.70", "$9") == pytest.approx(0.3)
    assert margin_to_markup("75 %") == pytest.approx(3) and markup_to_margin(3) == pytest.approx(0.75)
    assert [break_even(*sums) for sums in ((100, 6, 4), (101, 6, 4), (99, 6, 4), (0, 6, 4))] == [50, 51, 50, 0]


def test_a_pack_is_bought_whole():
    # 40 % of 1 kg can be used: 400 g fill a pack, 401 g ask for a second.
    lemons = Pack.of("1 kg", "$4", "40 %")
    assert [packs_to_buy(lemons, amount) for amount in ("0 g", "1 g", "400 g", "401 g")] == [0, 1, 1, 2]
    assert cost_of_buying(lemons, "401 g") == 8 and cost_of_use(lemons, "100 g") == 1
    assert cost_of_use(Pack.of(12, "$3"), "4 pieces") == 1 and cost_of_use(Pack.of("1 dozen", "$3"), 4) == 1


def test_whole_packs_are_counted_and_paid():
    # 1.2 kg out of pots of 500 g for $8: three pots, $24; used of them 2.4 x 8 = $19.20.
    (line,) = formula_cost({"honey": "1.2 kg"}, {"honey": Pack.of("500 g", "$8")}).lines
    assert (line.packs, line.buying, line.cost) == (3, 24, Decimal("19.2"))


def test_a_receipt_line_with_a_gap_is_told_its_form():
    with pytest.raises(StudentError, match="item; pack; price; used; usable share"):
        read_receipt("lemons; 1 kg; ; 120 g")
