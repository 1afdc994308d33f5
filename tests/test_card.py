"""The cost card's sums against whole cents and fractions by hand: ten thousand receipts, and price equal to cost."""

import math
import random
from fractions import Fraction

import pytest
from depth import depth

from pastrylab.ground.currencies import CURRENCIES
from pastrylab.ground.money import Money
from pastrylab.ground.units import StudentError
from pastrylab.trade.card import cost_card
from pastrylab.trade.purchasing import Pack, read_receipt

pytestmark = pytest.mark.usefixtures("one_look")

# A gram in each unit and a piece, and the places of a currency (ISO 4217), by hand.
GRAMS = {"g": Fraction(1), "kg": Fraction(1000), "oz": Fraction(45359237, 1600000), "lb": Fraction(45359237, 100000)}
PLACES = {"USD": 2, "EUR": 2, "": 2, "JPY": 0, "KWD": 3}


def a_receipt(chance):
    """(text, currency, exact cost of use) of a random receipt; the cost as a fraction."""
    code, lines, exact = chance.choice(["USD", "EUR", "", "", "JPY", "KWD"]), [], Fraction(0)
    for n in range(chance.randint(1, 7)):
        price = chance.randint(1, 9999)
        kept = chance.choice([100, 100, 40, 87, 93, 97])
        if chance.random() < 0.2:
            held, used, sold, taken = chance.randint(1, 500), chance.randint(1, 40), "pieces", "pieces"
            part = Fraction(used, held)
        else:
            sold, taken = chance.choice(list(GRAMS)), chance.choice(list(GRAMS))
            held, used = chance.randint(1, 900), chance.randint(1, 900)
            part = used * GRAMS[taken] / (held * GRAMS[sold])
        amount = Fraction(price, 10 ** PLACES[code])
        exact += amount * part * 100 / kept
        written = f"{price / 10 ** PLACES[code]:.{PLACES[code]}f} {code}".strip()
        lines.append(f"item {n}; {held} {sold}; {written}; {used} {taken}; {kept} %")
    return "\n".join(lines), code, exact


def whole(amount):
    """An amount in its smallest units, which must be a whole number of them."""
    units = Fraction(amount.amount) * 10**amount.places
    assert units.denominator == 1
    return int(units)


def half_up(number):
    return math.floor(number + Fraction(1, 2))


def check(receipt, chance):
    text, code, exact = receipt
    used, packs = read_receipt(text)
    rejects, pieces = chance.randint(0, 9), chance.randint(10, 200)
    wage, minutes = Fraction(chance.choice([0, 0, 1250, 1800, 2275]), 100), chance.choice([0, 25, 90, 100])
    on_top, over, food, tax = (Fraction(chance.choice(c), 100) for c in ((0, 12), (0, 10), (25, 30, 70), (0, 8, 19)))
    box = chance.choice([6, 12, 24])
    packaging = {"box": Money(chance.randint(1, 300), code) / 7} if chance.random() < 0.5 else None
    found = cost_card(
        used, packs, pieces, rejects, Money(float(wage), code), minutes, float(on_top), float(over), box, packaging,
        float(food), float(tax),
    )  # fmt: skip
    unit = 10 ** PLACES[code]
    work = wage * minutes / 60 * (1 + on_top)
    batch = (exact + work) * (1 + over)
    # Weights are floats of twelve digits: an exact half cent may fall either way, nothing else.
    off = Fraction(1, 1000)
    lines, kinds = [whole(c) for c in found.ingredients.values()], {k: whole(c) for k, c in found.kinds.items()}
    assert abs(sum(lines) - exact * unit) <= Fraction(1, 2) + off
    assert kinds["materials"] == sum(lines)
    assert abs(sum(kinds.values()) - batch * unit) <= Fraction(1, 2) + off
    for kind, cost in (("labour", work), ("overhead", (exact + work) * over)):
        assert abs(kinds[kind] - cost * unit) < 1 + off and (cost or not kinds[kind])
    in_box = [whole(cost) for cost in found.in_box.values()]
    wrapped = Fraction(packaging["box"].amount) if packaging else 0
    full = (batch * box / (pieces - rejects) + wrapped) * unit
    assert abs(sum(in_box) - full) <= Fraction(1, 2) + off
    asked = exact * box / (pieces - rejects) / food * unit
    price = whole(found.price)
    assert 0 <= price - asked + off < 1 + 2 * off  # up, never down
    assert whole(found.left) == price - sum(in_box)
    assert found.verdict == ("earns" if price > sum(in_box) else "at cost" if price == sum(in_box) else "below cost")
    assert whole(found.tax) == half_up(price * tax)


def test_receipts_drawn_at_random_add_up_in_every_table():
    chance = random.Random(8)
    for _ in range(depth(200, 2_000)):
        check(a_receipt(chance), chance)


def test_what_one_table_hands_to_the_next_is_the_same_amount():
    # 4.99 x 600 / 250 = 11.976: together 11.98, and so below it, though work and overhead round the other way.
    used, packs = read_receipt("dark couverture; 250 g; 4.99; 600 g")
    for minutes in range(0, 120):
        found = cost_card(used, packs, pieces=50, wage=18, minutes=minutes, overhead_share=0.1)
        assert str(found.kinds["materials"]) == "11.98" == str(sum(found.ingredients.values()))
        total = Fraction(11976, 1000) + Fraction(18 * minutes, 60)
        assert whole(sum(found.kinds.values())) == half_up(110 * total)


@pytest.mark.parametrize(
    ("price", "share", "verdict", "left"),
    [
        # A box of 6 out of 60 pieces holds a tenth of the batch; at a food cost of 100 % it sells for its ingredients.
        ("60.00", 1, "at cost", "0.00"),
        ("60.00", 0.8, "earns", "1.50"),
        # 6.006 is a cost of 6.01 and a price of 6.01; 6.001 is a cost of 6.00 and a price of 6.01: it went up.
        ("60.06", 1, "at cost", "0.00"),
        ("60.01", 1, "earns", "0.01"),
    ],
)
def test_a_price_equal_to_cost_is_its_own_case(price, share, verdict, left):
    used, packs = read_receipt(f"x; 1 kg; {price}; 1 kg")
    found = cost_card(used, packs, pieces=60, food_share=share)
    assert (found.verdict, str(found.left)) == (verdict, left)


def test_below_cost_what_is_paid_on_top_and_tax():
    used, packs = read_receipt("x; 1 kg; $60; 1 kg")
    found = cost_card(used, packs, 60, wage="$20", minutes=90, on_costs="25 %", food_share="60 %", tax="8.25 %")
    # 20 x 1.5 h x 1.25 = 37.50; a box of 6: (60 + 37.50) / 10 = 9.75; price 6 / 0.6 = 10; tax 0.825, to the cent 0.83.
    assert [str(x) for x in (found.kinds["labour"], found.full, found.price, found.left, found.tax)] == [
        *("$37.50", "$9.75", "$10.00", "$0.25", "$0.83"),
    ]
    assert cost_card(used, packs, 60, wage=20, minutes=120, food_share=1).verdict == "below cost"


# --- receipts a stranger may bring -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("line", "cost"),
    [
        ("labels; 10,000 pieces; $60; 100 pieces", "$0.60"),
        ("labels; 10,000; $60; 100", "$0.60"),
        ("labels; 10000 pcs; $60; 100 labels", "$0.60"),
        ("eggs; 1 dozen; 3.60; 4 eggs", "1.20"),
        ("eggs; 2 dozen eggs; 7.20; 4", "1.20"),
        ("dark couverture; 250 g; 4.99; 250 g dark couverture", "4.99"),
        ("large eggs; 12 large eggs; 3.60; 4 eggs", "1.20"),
        ("egg; 10,000 eggs; 3000; 4 egg", "1.20"),
        ("vanilla pods; 2 pods; 7,20; ½ pod", "1.80"),
        ("butter; 1 lb 4 oz; 6.00; 4 oz", "1.20"),
        ("butter; 1½ lb; 6.00; 0,5 lb", "2.00"),
        ("sugar; 1 000 g; 2.00 dollars; 250g", "$0.50"),
        ("lemons\t1 kg\t4.00\t120 g\t40 %", "1.20"),
        ("cream; 1 L; 5,00 €; 505 g; 100 %; 1.01 g/mL", "€2.50"),
        ("cream; 1 L; 5,00 €; 505 g; 1,01 g/mL", "€2.50"),
        ("gold leaf; 1 piece; 85 cents; 2 pieces", "1.70"),
        # 1 quart is 946.353 mL (NIST SP 811) and heavy cream 1.006 g/mL (USDA SR28: 238 g a cup).
        ("heavy cream; 1 quart; 9.52; 238 g", "2.38"),
        # Packs as a shelf writes them. 12 L at 48 are 4 a litre; 1.006 g/mL makes 1006 g of it.
        ("heavy cream; 12 x 1 L; 48.00; 1006 g", "4.00"),
        ("heavy cream; a quart; $9.52; 238 g", "$2.38"),
        ("heavy cream; carton of 12 x 1 L for 48.00; 1006 g", "4.00"),
        ("lemons; 1 kg for 4.00; 120 g; 40 %", "1.20"),
        ("lemons\t$4.00 a kg\t120 g\t40 %", "$1.20"),
        ("butter; 4.50/lb; 0.5 lb", "2.25"),
        ("butter; 1/2 lb; 4.50; 4 oz", "2.25"),
        ("honey; 12 oz jar; usd 10.40; 6 oz", "$5.20"),
        ("honey; half a kilo @ 10 eur; 50 g", "€1.00"),
        # 12 at 20 g each weigh 240 g: 60 g are a quarter of them.
        ("lemons; 12; 4.80; 60 g; 20 g each", "1.20"),
        ("lemons, 1 kg, 4,00, 120 g, 40 %", "1.20"),
        ("lemons | 1 kg | 4.00 | 120 g | 40 %", "1.20"),
        ("lemons; 4.00; 1 kg; 120 g; 40 %", "1.20"),
        ("butter; 4 sticks; 5.00; 1 stick", "1.25"),
        ("gelatin; 25 sheets; 5.00; 3 leaves", "0.60"),
        ("eggs; 1 dz; $3.60; 6 yolks", "$1.80"),
        ("lemons 1kg $4.00 used 120 g", "$0.48"),
        ("lemons, 1 kg for 4.00, used 120 g", "0.48"),
        ("vanilla pods; bundle of 10; 25.00; 1 pod", "2.50"),
    ],
)
def test_clear_receipts_are_costed(line, cost):
    used, packs = read_receipt(line)
    found = cost_card(used, packs, pieces=10)
    assert str(sum(found.ingredients.values())) == cost


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("a;b;c;d", "'b' for the size of a"),
        ("lemons; 1 kg; 4.00", "what you used of it"),
        ("lemons; 1 kg", "its price and what you used"),
        ("lemons", "No semicolon parts this line"),
        ("lemons; ; ; 120 g", "what the pack holds and its price"),
        ("lemons; 1 kg; ; 120 g", "Missing here: its price"),
        ("lemons; a bag; 4.00; 120 g", "line 1"),
        ("lemons; 12; 4.80; 60 g", "sold by the piece"),
        ("lemons; 12; 4.80; 60 g; 20 mL each", "what it weighs"),
        ("labels; 10.000; $60; 100", "10000 pieces or 10 pieces"),
        ("couverture; 1,250 g; 30; 100 g", "1250 g or 1.25 g"),
        ("couverture; 1 kg; 1.200; 100 g", "1200 or 1.20"),
        ("pods; 1 box; 45; 2 pods", "a number of pieces"),
        ("pods; 1 bag; 45; 2 pods", "no unit known"),
        ("sugar; 40 %; 4; 20 g", "a number of pieces"),
        ("mystery; 1 quart; 5.80; 260 g", "or its density"),
        ("lemons; 1 kg; 4.00; 120", "sold by weight"),
        ("lemons; 1 kg; 4.00; 120 g; 40", "for 40 % write 0.4"),
        ("lemons; 1 kg; 4.00; 120 g; 40 %; 50 %", "one usable share"),
        ("lemons; 1 kg; 4.00 € $; 120 g", r"line 1"),
        ("lemons, net, 1 kg, 4.00, 120 g", "item; pack; price; used"),
        ("lemons; 2.5 pieces; 4.00; 1", "a whole number of pieces"),
        ("lemons; 1 kg; -4; 10 g", "at least 0"),
    ],
)
def test_doubtful_receipts_are_asked_about(line, said):
    with pytest.raises(StudentError, match=said) as error:
        read_receipt(line)
    assert "line 1" in str(error.value)


def test_currencies_used_above_are_known():
    assert set(PLACES) - {""} <= CURRENCIES


def test_a_first_line_of_headings_and_empty_lines_are_passed_over():
    text = "item; pack; price; used\n\nlemons; 1 kg; 4.00; 120 g; 40 %\n ; \nsugar; 1 kg; 2.00; 500 g\n"
    used, packs = read_receipt(text)
    assert list(used) == ["lemons", "sugar"] == list(packs)
    with pytest.raises(StudentError, match="line 2"):
        read_receipt("lemons; 1 kg; 4.00; 120 g; 40 %\nitem; pack; price; used")


def test_a_card_of_what_is_not_told():
    """100 g of honey at $8 for 500 g: $1.60, on 12 pieces; a box of 6 holds $0.80, its price is 0.80 / 0.3 = 2.67."""
    honey = {"honey": "100 g"}, {"honey": Pack.of("500 g", "$8")}
    found = cost_card(*honey, 12)
    assert [str(x) for x in (found.full, found.price, found.tax, found.left)] == ["$0.80", "$2.67", "$0.00", "$1.87"]
    assert found.margin == pytest.approx(1.87 / 2.67) and found.batch.good_pieces == 12
    assert str(cost_card(*honey, 12, wage="$12").kinds["labour"]) == "$0.00"
    assert str(cost_card(*honey, 12, minutes=60).kinds["labour"]) == "$0.00"
    assert str(cost_card(*honey, 12, wage="$12", minutes=60).kinds["labour"]) == "$12.00"
    one = cost_card(*honey, 12, box=1)  # 0.1333 a piece, price 0.1333 / 0.3 = 0.444, up to 0.45; left 0.45 - 0.13
    assert (str(one.price), str(one.left), one.verdict) == ("$0.45", "$0.32", "earns")
    assert one.margin == pytest.approx(0.32 / 0.45)
    assert cost_card(honey[0], {"honey": Pack.of("500 g", 0)}, 12).margin is None
    assert str(cost_card(*honey, 12, tax=2).tax) == "$5.34"
    with pytest.raises(StudentError):
        cost_card(*honey, 12, tax="201 %")
