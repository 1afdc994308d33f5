"""A pack's price as people type it, and the packaging of a box: read as meant, refused where it is not clear."""

from decimal import Decimal

import pytest

from pastrylab.ground.units import StudentError
from pastrylab.trade.purchasing.packs import cost_of_use
from pastrylab.trade.purchasing.typed_pack import read_pack, read_packaging

# A US quart is 0.946353 L, a gallon four of them, a pound 453.59237 g: exact, from 231 cubic inches and the metre.
QUART, POUND = 0.946352946, 0.45359237


@pytest.mark.parametrize(
    ("typed", "kilograms", "price"),
    [
        ("500 g for 8", 0.5, "8.00"),
        ("500g for $8.00", 0.5, "$8.00"),
        ("$8 for 500 g", 0.5, "$8.00"),
        ("500 g; 8", 0.5, "8.00"),
        ("500 g, 8.00", 0.5, "8.00"),
        ("500 g 8.00", 0.5, "8.00"),
        ("500 g $8", 0.5, "$8.00"),
        ("8.00 per 500 g", 0.5, "8.00"),
        ("16/kg", 1, "16.00"),
        ("$7.25 per lb", POUND, "$7.25"),
        ("$7.25/lb", POUND, "$7.25"),
        ("$7.25 a pound", POUND, "$7.25"),
        ("5 lb for $30", 5 * POUND, "$30.00"),
        ("25 lb bag $62", 25 * POUND, "$62.00"),
        ("2 x 5 lb bags for $60", 10 * POUND, "$60.00"),
        ("case of 12 x 250 g at 30", 3, "30.00"),
        ("2,5 kg for 41,50 €", 2.5, "€41.50"),
        ("41,50 € for 2,5 kg", 2.5, "€41.50"),
        ("12 USD for 1 kg", 1, "$12.00"),
        ("jar of 500 g for 8", 0.5, "8.00"),
        ("1 kg honey = 12", 1, "12.00"),
        ("a kilo for 12", 1, "12.00"),
        ("half a pound for 4", POUND / 2, "4.00"),
        ("24 for 6; 20 g each", 0.48, "6.00"),
        ("2 dozen for 6; 20 g each", 0.48, "6.00"),
        ("1 kg for 0", 1, "0.00"),
    ],
)
def test_a_pack_by_weight_is_read_as_meant(typed, kilograms, price):
    pack = read_pack(typed, "honey")
    assert pack.kind == "mass"
    assert float(pack.size) == pytest.approx(kilograms, rel=1e-9)
    assert str(pack.price) == price


@pytest.mark.parametrize(
    ("typed", "litres"),
    [
        ("1 quart for 4.99", QUART),
        ("1 qt 4.99", QUART),
        ("4.99/quart", QUART),
        ("4.99 a quart", QUART),
        ("4.99 per quart", QUART),
        ("$4.99 per quart", QUART),
        ("quart: 4.99", QUART),
        ("1/2 gallon for 4.99", 2 * QUART),
        ("half gallon for 4.99", 2 * QUART),
        ("12 x 1 L for 4.99", 12),
        ("4,99 € / L", 1),
        ("1 L / 4.99", 1),
        ("1 L / $4.99", 1),
        ("2 cups for 4.99", QUART / 2),
    ],
)
def test_a_pack_by_volume_brings_its_density(typed, litres):
    # Cream weighs 238 g a US cup (USDA SR28), 1.006 kg a litre.
    pack = read_pack(typed, "heavy cream 36 %")
    assert pack.kind == "volume"
    assert float(pack.size) == pytest.approx(litres, rel=1e-9)
    assert float(pack.price) == 4.99
    assert float(pack.density) == pytest.approx(1.006, abs=0.001)


def test_a_quart_is_used_in_grams_by_hand():
    # 200 g are 0.2 / 1.03 = 0.19417 L of 0.94635 L at 4.99; four fifths of it are usable: 4.99 x 0.20518 / 0.8.
    pack = read_pack("1 quart for $4.99; 80 %; 1.03 g/mL", "cream of the farm")
    assert float(cost_of_use(pack, "200 g")) == pytest.approx(4.99 * 0.2 / 1.03 / QUART / 0.8, rel=1e-6)
    assert float(cost_of_use(pack, "200 g")) == pytest.approx(1.2798, abs=1e-4)
    assert pack.yield_share == Decimal("0.8")


@pytest.mark.parametrize(
    "typed",
    [
        "",
        "500 g",
        "8.00",
        "abc",
        "500 g for eight",
        "500 g for 8 for 9",
        "-500 g for 8",
        "500 g for -8",
        "0 g for 8",
        "500 °C for 8",
        "500 g for 8 €; 120 %",
        "500 g for 8; 12 USD",
        "12 for 3.00",
        "12 for 3.00; 2 L each",
        "500 g for 12,000",
        "500 g for $8 €",
        "5-6 kg for 20",
    ],
)
def test_what_is_not_clear_is_refused(typed):
    with pytest.raises(StudentError):
        read_pack(typed, "honey")


def test_what_is_missing_is_named():
    with pytest.raises(StudentError, match="by the piece.*what one weighs as well.*20 g each"):
        read_pack("12 for 3.00", "egg yolk")
    with pytest.raises(StudentError, match="by volume.*its density as well.*1.03 g/mL"):
        read_pack("1 L for 9", "syrup of the house")


@pytest.mark.parametrize(
    ("typed", "what", "cost"),
    [
        ("box; 0.80", "box", "0.80"),
        ("box for 6; 0.80", "box for 6", "0.80"),
        ("box for 6 $0.80", "box for 6", "0.80"),
        ("box for 6; 25 for 20.00", "box for 6", "0.80"),
        ("box 25 for 20.00", "box", "0.80"),
        ("9 cups; 100 for 3.50", "9 cups", "0.315"),
        ("cups; 9; 100 for 3.50", "9 cups", "0.315"),
        ("9 cups; 0.04 each", "9 cups", "0.36"),
        ("9 cups; 0.32", "9 cups", "0.32"),
        ("label: 0.05", "label", "0.05"),
        ("label; 1000 labels for 50", "label", "0.05"),
        ("label 0,05 €", "label", "0.05"),
        ("ribbon\t0.25", "ribbon", "0.25"),
        ("seal; 10 dozen for 6", "seal", "0.05"),
    ],
)
def test_packaging_is_read_as_meant(typed, what, cost):
    found = read_packaging(typed)
    assert list(found) == [what]
    assert found[what].amount == Decimal(cost)


@pytest.mark.parametrize(
    "typed",
    [
        "",
        "box",
        "0.80",
        "box; x",
        "box; -1",
        "box; 0.8\nbox; 0.9",
        "cups; 10 g for 3",
        "cups; 0 for 3",
        "a; b; c; d",
        ";",
    ],
)
def test_packaging_that_is_not_clear_is_refused(typed):
    with pytest.raises(StudentError):
        read_packaging(typed)


def test_no_packaging_may_be_said():
    assert read_packaging("none") == {} == read_packaging("None.")


@pytest.mark.parametrize(
    ("typed", "item", "kilograms", "price"),
    [
        ("2 x 0.5 kg for 8", "honey", 1, "8.00"),
        ("12 for 3.00; 0.5 g each", "pods", 0.006, "3.00"),
        ("12 eggs for 3.00; 50 g each", "eggs", 0.6, "3.00"),
        ("12 lemons for 3; 100 g each", "lemons", 1.2, "3.00"),
        ("12 of 250 g for 30", "honey", 3, "30.00"),
        ("4.99 for 12; 20 g each", "honey", 0.24, "4.99"),
        ("12 for 4.99; 20 g each", "honey", 0.24, "4.99"),
        ("12 for 5; 20 g each", "honey", 0.24, "5.00"),
        ("12 for $3; 20 g each", "honey", 0.24, "$3.00"),
        ("0.50 a piece; 20 g each", "egg", 0.02, "0.50"),
        ("500 g for 8", "thing of mine", 0.5, "8.00"),  # by weight no density is asked for
    ],
)
def test_a_pack_of_pieces_and_what_one_weighs(typed, item, kilograms, price):
    pack = read_pack(typed, item)
    assert (pack.kind, str(pack.price)) == ("mass", price) and pack.density is None and pack.yield_share == 1
    assert float(pack.size) == pytest.approx(kilograms, rel=1e-9)


@pytest.mark.parametrize(
    ("typed", "given"),
    [
        ("box; 0.8\n\nbox; 0.9", "line 2, 'box' again"),
        ("label; 0.05\nbox; x", "'x' for box (line 2)"),
        ("a; b; c; d", "line 1, 'a; b; c; d'"),
        ("cups; 10 g for 3", "'10 g' for cups (line 1)"),
        ("cups; 3 for 4 for 5", "'3 for 4 for 5' for cups (line 1)"),
        ("cups; 0 for 3", "'0' for cups (line 1)"),
    ],
)
def test_a_line_of_packaging_is_refused_by_its_number(typed, given):
    with pytest.raises(StudentError) as error:
        read_packaging(typed)
    assert error.value.given == given


def test_a_pack_of_one_is_a_pack():
    assert read_packaging("ribbon; 1 for 0.30")["ribbon"].amount == Decimal("0.3")
    assert read_packaging("2 seals; 2 dozen for 6")["2 seals"].amount == Decimal("0.5")  # 24 for 6, two of them


def test_half_of_a_price_is_told_its_form():
    for typed in ("for 8", "500 g for ", "500 g; 8; 9"):
        with pytest.raises(StudentError, match="what a pack holds and what it costs"):
            read_pack(typed, "honey")
