"""Costs, price lists and receipts: what is not told costs nothing, both sides of every edge, refusals with their line."""

from decimal import Decimal

import pytest

from pastrylab.ground.money import Money
from pastrylab.ground.units import StudentError
from pastrylab.trade.costing import (
    batch_cost,
    break_even,
    food_cost_share,
    formula_cost,
    labour_cost,
    margin_of,
    what_moves,
)
from pastrylab.trade.purchasing import Pack, read_receipt
from pastrylab.trade.purchasing.packs import whole_number

HONEY = {"honey": Pack.of("500 g", "$8", price_range=("$6", "$11"))}


def test_what_is_not_told_costs_nothing():
    """100 g of honey at $8 for 500 g: $1.60, on 20 pieces 8 cents; with half an hour at $24 (1.60 + 12) / 20 = 68 cents."""
    assert labour_cost("$24", piece_time="60 s") == 0 == labour_cost("$24")
    batch = batch_cost("$30", 50)
    assert (batch.total, batch.good_pieces, batch.per_piece) == (30, 50, Decimal("0.6"))
    idle = {bar.name: bar for bar in what_moves({"honey": "100 g"}, HONEY, 20, batch_time="30 min")}
    assert idle["hourly wage"].swing == 0 and idle["rejects"].swing == 0
    assert float(idle["hourly wage"].cost_at_low) == pytest.approx(0.08)
    told = {bar.name: bar for bar in what_moves({"honey": "100 g"}, HONEY, 20, wage="$24", batch_time="0.5 min")}
    # A fifth less and a fifth more of $24 for half a minute, 20 cents: 16 and 24 cents on $1.60.
    assert [float(end) for end in (told["hourly wage"].low, told["hourly wage"].high)] == pytest.approx([19.2, 28.8])
    assert float(told["hourly wage"].cost_at_low) == pytest.approx((1.60 + 0.16) / 20)
    assert float(told["minutes of work"].cost_at_high) == pytest.approx((1.60 + 0.24) / 20)
    assert whole_number(1, "pieces") == 1 and Pack("x", Decimal(1), "mass", Money(1)).yield_share == 1


def test_names_of_the_price_list_are_offered():
    packs = {name: Pack.of("1 kg", 1) for name in "gfedcba"}
    for name, example in (("zzzz", "a / b / c / d / e"), ("hony", "honey")):
        with pytest.raises(StudentError) as error:
            formula_cost({name: "1 g"}, packs if name == "zzzz" else packs | HONEY)
        assert error.value.example == example


def test_prices_below_one():
    assert food_cost_share("0.25", "0.50") == 0.5 and margin_of("0.25", "0.50") == 0.5
    assert break_even(10, "1.00", "0.50") == 20


def test_a_price_lies_in_its_range_ends_included():
    for ends in ((5, 7), (3, 5), (5, 5)):
        assert Pack.of("1 kg", 5, price_range=ends).price == 5
    for ends, said in (((6, 7), "6.00 to 7.00"), ((3, 4), "3.00 to 4.00")):
        with pytest.raises(StudentError, match=f"5.00 for honey, outside its range {said}"):
            Pack.of("1 kg", 5, name="honey", price_range=ends)


LINE = "lemons; 1 kg; 4; 120 g"


@pytest.mark.parametrize(
    ("text", "kept", "density"),
    [
        (LINE, "1", None),
        (f"item; pack; price; used\n{LINE}", "1", None),
        (f"item; pack; price; used;\n{LINE}", "1", None),
        (f"\n{LINE};\n\n", "1", None),
        (f"{LINE}; 40 %", "0.4", None),
        (f"{LINE}; 40 %; 1.01 g/mL", "0.4", "1.01"),
        (f"{LINE}; 1.01 g/mL; 0.4", "0.4", "1.01"),
    ],
)
def test_a_receipt_line_of_four_to_six_cells(text, kept, density):
    used, packs = read_receipt(text)
    assert used == {"lemons": "120 g"} and packs["lemons"].yield_share == Decimal(kept)
    assert packs["lemons"].density == (density and Decimal(density))


@pytest.mark.parametrize(
    ("text", "given"),
    [
        (f"beans; pack; much\n{LINE}", "line 1, 'beans; pack; much'"),
        ("lemons;;;", "line 1, 'lemons;;;'"),
        ("lemons; 1 kg; 4", "line 1, 'lemons; 1 kg; 4'"),
        (f"{LINE}; 40 %; 1.01 g/mL; 3", "line 1, 'lemons; 1 kg; 4; 120 g; 40 %; 1.01 g/mL;'"),
        (f"{LINE}\n{LINE}", "line 2, 'lemons' again"),
        (f"{LINE}\nitem; pack; price; used", "'pack' (line 2)"),
        ("lemons; 1 kg; abc; def", "'abc' for the price of lemons (line 1)"),
        (f"{LINE}; 40 %; 50 %", "40 % and 50 % for lemons (line 1)"),
        (f"{LINE}; /", "'/' for the yield of lemons (line 1)"),
    ],
)
def test_a_receipt_line_is_refused_by_its_number(text, given):
    with pytest.raises(StudentError) as error:
        read_receipt(text)
    assert error.value.given == given
