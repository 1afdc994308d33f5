"""Costing against worked figures that others published: open textbooks, class notes, extension factsheets."""

import statistics
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest

from pastrylab.ground.money import Money, money
from pastrylab.ground.share_out import share_out
from pastrylab.ground.units import Q
from pastrylab.trade.costing import (
    break_even,
    contribution,
    edible_portion_cost,
    food_cost_allowed,
    margin_of,
    markup_to_margin,
    price_by_margin,
    price_by_markup,
    price_for,
)
from pastrylab.trade.purchasing import Pack, cost_of_use
from pastrylab.trade.yields import purchase

SLIDES = "culinary-math class slides, chapters 9-10 (slideplayer 7840814): 50 lb at $1.86/lb, yield 75 %"
MCVETY = "McVety, Fundamentals of Menu Planning, summary (studysmart.ai)"
AGDEX_BREAK_EVEN = "Alberta Agriculture, Agdex 845-11, p. 5: fixed $12,000, price $6, variable $4"
NDSU = "NDSU pricing module, 2007 (slideplayer 1404245): fixed $50, variable $1.50 each"
MOYER = "Moyer, Penn State Extension: Markups vs. margins, Fruit Growers News, May 2024"
NOTES = "cost-accounting class notes (coursehero 6238556)"


@pytest.mark.parametrize("price", [1.86, "$1.86", "1,86 USD", Decimal("1.86"), money("1.86 USD")])
def test_edible_portion_cost_per_pound(outside, price):
    got = edible_portion_cost(price, 0.75)
    outside(
        quantity=f"edible-portion cost of {price!r:.40}, $/lb",
        expected=2.48,
        got=got,
        tolerance=0.005,
        source=SLIDES,
    )


def test_edible_portion_of_fifty_pounds(outside):
    pack = Pack.of("50 lb", "$93.00", 0.75)
    outside(
        quantity="price of the lot as purchased, $/lb",
        expected=1.86,
        got=cost_of_use(Pack.of("50 lb", "$93.00"), "1 lb"),
        tolerance=0.0005,
        source=SLIDES,
    )
    outside(
        quantity="cost of the 37.5 lb that can be used, $",
        expected=93.00,
        got=cost_of_use(pack, "37.5 lb"),
        tolerance=0.005,
        source=SLIDES,
    )
    outside(
        quantity="edible part of 50 lb, lb",
        expected=37.5,
        got=Q(float(pack.size * pack.yield_share), "kg").m_as("lb"),
        tolerance=0.05,
        source=SLIDES,
    )
    outside(
        quantity="as purchased for 37.5 lb edible, lb",
        expected=50,
        got=purchase("37.5 lb", 0.75).m_as("lb"),
        tolerance=0.05,
        source=SLIDES,
    )


def test_edible_cost_of_a_lot(outside):
    # The publication multiplies by a factor rounded to 1.333 and prints 7.465: the tolerance covers that.
    outside(
        quantity="edible cost, $5.60 at a yield of 75 %",
        expected=7.467,
        got=edible_portion_cost("$5.60", "75 %"),
        tolerance=0.003,
        source="VCC Culinary Math: 10 lb at $5.60, yield 75 %",
    )


def test_food_cost_percent(outside):
    outside(
        quantity="food cost allowed, price 10 at 35 %",
        expected=3.50,
        got=food_cost_allowed(10, "35 %"),
        tolerance=0.005,
        source=MCVETY,
    )
    outside(
        quantity="price for a food cost of 3.50 at 35 %",
        expected=10,
        got=price_for("3.50", 0.35),
        tolerance=0.005,
        source=MCVETY,
    )


def test_markup_is_not_margin(outside):
    outside(
        quantity="price of a $5 item with 30 % put on top, $",
        expected=6.50,
        got=price_by_markup("$5", "30 %"),
        tolerance=0.005,
        source=MOYER,
    )
    outside(
        quantity="margin that a 30 % markup leaves, %",
        expected=23,
        got=100 * markup_to_margin("30 %"),
        tolerance=0.5,
        source=MOYER,
    )
    outside(
        quantity="margin at a price of $6.50 and a cost of $5, %",
        expected=23,
        got=100 * margin_of("$5", "$6.50"),
        tolerance=0.5,
        source=MOYER,
    )
    # Printed as 1.44, a cent above 1 / 0.70: the article calls it 30 %, and 0.44 / 1.44 is 30.6 %.
    outside(
        quantity="price of a $1 item at a margin of 30 %, $",
        expected=1.44,
        got=price_by_margin("$1", 0.30),
        tolerance=0.012,
        source=MOYER,
    )


def test_break_even(outside):
    outside(
        quantity="break-even, jars",
        expected=6000,
        got=break_even(12000, 6, 4),
        tolerance="exact",
        source=AGDEX_BREAK_EVEN,
    )
    outside(
        quantity="contribution, price 20, variable 15",
        expected=5,
        got=contribution(20, 15),
        tolerance=0,
        source=NOTES,
    )
    outside(
        quantity="break-even takings, fixed 500, price 20, variable 15",
        expected=2000,
        got=20 * break_even(500, 20, 15),
        tolerance=0,
        source=NOTES,
    )


@pytest.mark.parametrize("parts", [["1.005", "2.005", "0.99"], ["0.333", "0.333", "0.334"], ["7.125", "0.125"]])
def test_the_parts_add_up_as_exact_fractions_do(outside, parts):
    """The standard library's fractions and statistics stand outside the decimal arithmetic used here."""
    lines = share_out({str(n): Money(Decimal(part), "USD") for n, part in enumerate(parts)})
    exact = statistics.fmean(Fraction(p) for p in parts) * len(parts)
    cents = Decimal(repr(round(exact, 9))).quantize(Decimal("0.01"), ROUND_HALF_UP)
    outside(
        quantity=f"sum of the lines {' + '.join(parts)}, rounded",
        expected=float(cents),
        got=sum(lines.values()),
        tolerance=1e-12,
        source="Python standard library, fractions and statistics",
    )
