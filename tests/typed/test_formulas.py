"""Typed formulas against arithmetic that knows nothing of the package: random ones in exact fractions, others by hand."""

import math
import random
from fractions import Fraction
from types import SimpleNamespace

import pytest
from typed_kitchen import KITCHEN

from pastrylab.ground.money import Money
from pastrylab.ground.units import Quantity, StudentError
from pastrylab.school.typed.reckon import reckoned
from pastrylab.school.typed.written import in_numbers

NAMES = {"cream": Fraction(400), "pieces": Fraction(24), "share": Fraction(1, 4), "rest": Fraction(7, 2)}


def grown(dice, depth):
    """(text, value as an exact fraction) of a formula made at random; None as value where it divides by nothing."""
    if depth == 0 or dice.random() < 0.2:
        if dice.random() < 0.5:
            name = dice.choice(list(NAMES))
            return name, NAMES[name]
        digits = dice.choice(["2", "0.5", "12", "3.25", "1'000", "½", "1 ½", "25 %", "0,75"])
        worth = {"½": "1/2", "1 ½": "3/2", "25 %": "1/4", "0,75": "3/4", "1'000": "1000"}.get(digits, digits)
        return digits, Fraction(worth)
    way = dice.choice(["+", "−", "-", "×", "*", "÷", "/", "power", "minus", "min", "max"])
    (left, a), (right, b) = grown(dice, depth - 1), grown(dice, depth - 1)
    if a is None or b is None:
        return f"({left})", a
    if way == "power":
        times = dice.randint(1, 3)
        return f"({left})^{times}", a**times
    if way == "minus":
        return f"(-({left}))", -a
    if way in ("min", "max"):
        return f"{way}({left}; {right})", (min if way == "min" else max)(a, b)
    if way in "÷/":
        return f"(({left}) {way} ({right}))", a / b if b else None
    return f"(({left}) {way} ({right}))", a + b if way == "+" else a - b if way in "−-" else a * b


def test_random_formulas_come_out_as_in_exact_fractions():
    g = SimpleNamespace(**{name: float(value) for name, value in NAMES.items()})
    compared = 0
    for seed in range(400):
        text, expected = grown(random.Random(seed), 3)
        if expected is None:
            with pytest.raises(StudentError, match="division by nothing"):
                reckoned(text, g)
        elif len(text) <= 300 and abs(expected) < 10**9:
            found = reckoned(text, g)
            found = float(found.m_as("")) if isinstance(found, Quantity) else found
            assert found == pytest.approx(float(expected), rel=1e-9, abs=1e-6), text
            compared += 1
    assert compared > 350


@pytest.mark.parametrize("seed", range(20))
def test_without_brackets_times_goes_before_plus_and_left_before_right(seed):
    """The oracle reads the flat row of numbers and signs itself: first × and ÷ from the left, then + and −."""
    dice = random.Random(seed)
    numbers = [dice.randint(1, 9) for _ in range(6)]
    signs = [dice.choice("+-*/") for _ in range(5)]
    text = str(numbers[0]) + "".join(f" {sign} {n}" for sign, n in zip(signs, numbers[1:], strict=True))
    terms, pending = [Fraction(numbers[0])], []
    for sign, n in zip(signs, numbers[1:], strict=True):
        if sign == "*":
            terms[-1] *= n
        elif sign == "/":
            terms[-1] /= n
        else:
            pending.append(sign)
            terms.append(Fraction(n))
    total = terms[0] + sum(t if sign == "+" else -t for sign, t in zip(pending, terms[1:], strict=True))
    assert reckoned(text, SimpleNamespace()) == pytest.approx(float(total), rel=1e-12)


BY_HAND = [
    ("(couverture + cream) / pieces", 25.0, "g"),  # 1000 / 40
    ("couverture × 25 %", 150.0, "g"),
    ("couverture · (1 − share)", 450.0, "g"),
    ("couverture / (1 + share)", 480.0, "g"),
    ("couverture ÷ cream", 1.5, ""),  # 600 / 400
    ("share + 5 %", 0.30, ""),
    ("share × share", 0.0625, ""),
    ("1 lb", 453.59237, "g"),
    ("3 fl oz + 1 fluid ounce", 118.2941183, "mL"),  # a gallon of 231 cubic inches has 128
    ("15 g / pieces", 0.375, "g"),
    ("2 kg + 400 g", 2.4, "kg"),
    ("hot − cold", 25.0, "delta_degC"),
    ("warm_us - cold", 12.2222222, "delta_degC"),  # 90 °F is 32.2222 °C
    ("hot - fall", 40.0, "degC"),
    ("cold + 3 °C", 23.0, "degC"),
    ("hot − 3 Δ°C", 42.0, "degC"),
    ("(hot − cold) × couverture × 1.6 kJ/(kg K)", 24.0, "kJ"),  # 25 × 0.6 × 1.6
    ("30 kJ/kg × pack", 60.0, "kJ"),
    ("side³", 64.0, "mL"),
    ("side ** 2 × 2 mm", 3.2, "mL"),  # 16 cm² × 0.2 cm
    ("2 cm³ + 1 mL", 3.0, "mL"),
    ("wait + 1 h", 150.0, "min"),
    ("couverture / wait", 6.6666667, "g/min"),
    ("round up(pieces ÷ boxes)", 4.0, ""),  # 3.33
    ("round down(pieces ÷ boxes)", 3.0, ""),
    ("round(pieces ÷ boxes)", 3.0, ""),
    ("round(2.5) + round(3.5)", 7.0, ""),  # halves up: 3 + 4
    ("round up(0.1 × 3 / 0.1)", 3.0, ""),  # not 4 for a trace that floats leave
    ("ROUNDUP(couverture / 7; 5 g)", 90.0, "g"),  # 85.71
    ("round_down(couverture / 7; 5 g)", 85.0, "g"),
    ("round down(hot; 2 °C)", 44.0, "degC"),
    ("min(couverture; cream)", 400.0, "g"),
    ("max(couverture, cream, 1 lb)", 600.0, "g"),
    ("min(hot; 40 °C)", 40.0, "degC"),
    ("price / $3", 3.0, ""),
    ("= 2 × couverture", 1200.0, "g"),
    ("Couverture × 2", 1200.0, "g"),  # a telephone's capital letter
]


@pytest.mark.parametrize("text, number, unit", BY_HAND)
def test_a_formula_with_units_comes_out_as_by_hand(text, number, unit):
    found = reckoned(text, KITCHEN)
    found = found.m_as(unit) if isinstance(found, Quantity) else found
    assert found == pytest.approx(number, rel=1e-7)


@pytest.mark.parametrize(
    "text, amount",
    [
        ("price / pack × cream", 1.80),  # 4.50 a kilo, 0.4 kg
        ("cream × (price / pack)", 1.80),
        ("price × share", 2.25),
        ("price × 2 − $1", 17.00),
        ("price / pieces", 0.225),
        ("price / pack / 2 × 1 kg", 2.25),
        ("round up(price / 7; $0.05)", 1.30),  # 1.2857
        ("min(price; $5)", 5.00),
        ("-price + 10 USD", 1.00),
    ],
)
def test_money_comes_out_as_by_hand(text, amount):
    found = reckoned(text, KITCHEN)
    assert isinstance(found, Money) and found.currency == "USD" and float(found) == pytest.approx(amount, rel=1e-12)


def test_functions_of_the_package_give_what_the_package_gives():
    """Figures worked elsewhere: a dew point from ASHRAE's tables, the others by one line of arithmetic."""
    assert reckoned("dew point(22 °C; 55 %)", KITCHEN).m_as("degC") == pytest.approx(12.55, abs=0.02)
    assert reckoned("purchase(360 g; 72 %)", KITCHEN).m_as("g") == pytest.approx(500)
    assert float(reckoned("price for($1.05; 30 %)", KITCHEN)) == pytest.approx(3.50)
    assert float(reckoned("price by margin($3; 40 %)", KITCHEN)) == pytest.approx(5.00)
    assert reckoned("break even($12000; $6; $4)", KITCHEN) == 6000
    # What is mixed must lie where the seed was asked to bring it: the two functions turn each other round.
    seed = reckoned("seed mass(3 kg; 45 °C; 20 °C; 32 °C)", KITCHEN)
    back = reckoned("mixture temperature(3 kg; 45 °C; seed; 20 °C)", SimpleNamespace(seed=seed))
    assert back.m_as("degC") == pytest.approx(32, abs=1e-6)
    # Less of the seed melts: more of it is needed.
    assert reckoned("seed mass(3 kg; 45 °C; 20 °C; 32 °C; 85 %)", KITCHEN) > seed
    # 5 kg warm by as much as 2.5 times 2 kg.
    two, five = (reckoned(f"heat to melt({kg} kg; 20 °C; 45 °C)", KITCHEN).m_as("kJ") for kg in (2, 5))
    assert five == pytest.approx(2.5 * two) and two > 25 * 2 * 1.2  # warming alone is more than that
    surface = reckoned("surface humidity(15 °C; 22 °C; 55 %)", KITCHEN)
    assert surface == pytest.approx(0.55 * 26.43 / 17.04, abs=0.005)  # saturation pressures in hPa, steam tables
    coldest = reckoned("coldest surface(22 °C; 55 %; 78 %)", KITCHEN)
    assert reckoned("surface humidity(at; 22 °C; 55 %)", SimpleNamespace(at=coldest)) == pytest.approx(0.78, abs=0.002)


@pytest.mark.parametrize(
    "text, line",
    [
        ("couverture + cream", "600 g + 0.4 kg = 1000 g"),
        ("(couverture + cream) ÷ pieces", "(600 g + 0.4 kg) ÷ 40 = 25 g"),
        ("couverture × (1 − share)", "600 g × (1 − 25 %) = 450 g"),
        ("hot − cold", "45 °C − 20 °C = 25 °C"),
        ("round up(pieces / boxes)", "round up(40 ÷ 12) = round up(3.3333) = 4"),
        ("side³", "(4 cm)³ = 64 cm³"),
        ("price / pack × cream", "$9.00 ÷ 2 kg × 0.4 kg = $1.80"),
        ("2 × -boxes", "2 × (−12) = −24"),
        ("boxes", "12"),
    ],
)
def test_a_formula_is_written_out_in_numbers(text, line):
    assert in_numbers(text, KITCHEN) == line


def test_the_smallest_trace_of_a_float_is_no_step_and_a_real_excess_is():
    assert reckoned("round up(6.000000001)", KITCHEN) == 6 and reckoned("round up(6.001)", KITCHEN) == 7
    assert reckoned("round down(5.9999999999)", KITCHEN) == 6 and reckoned("round down(5.999)", KITCHEN) == 5
    assert math.isclose(reckoned("round(-2.5)", KITCHEN), -2)
    assert reckoned("round(2.495)", KITCHEN) == 2 and reckoned("round(2.4999999999)", KITCHEN) == 3
