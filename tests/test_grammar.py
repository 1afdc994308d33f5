"""The kitchen grammar case by case: what is clear is read as meant, what can be read two ways is asked about.

Expectations are plain arithmetic with NIST SP 811's factors: 1 lb = 453.59237 g, 1 in = 2.54 cm, 1 gal = 231 in³.
"""

import itertools

import pytest

from pastrylab.ground.errors import StudentError
from pastrylab.ground.grammar import dimension, read_text
from pastrylab.ground.units import Q, both, show

LB, OZ, CUP = 453.59237, 28.349523125, 236.5882365

CLEAR = """
7 g | 7 g
7g | 7 g
7 G | 7 g
7 gr | 7 g
7 grams | 7 g
7 grammes | 7 g
250 Gramm | 250 g
250 gms | 250 g
2 kilo | 2 kg
2 kilos | 2 kg
2 Kilogramm | 2 kg
10 dag | 10 dag
10 dekagram | 10 dag
500 mg | 500 mg
3 lbs | 3 lb
5 # | 5 lb
8 ozs. | 8 oz
-3 °C | -3 degC
−3 °C | -3 degC
+4 °C | 4 degC
45°C | 45 degC
45 º C | 45 degC
45 ℃ | 45 degC
45 C | 45 degC
45 C. | 45 degC
32 C° | 32 degC
90 F° | 90 degF
90 oF | 90 degF
32oC | 32 degC
90 f | 90 degF
112 deg F | 112 degF
112 degrees F | 112 degF
112 degrees fahrenheit | 112 degF
31,5 C | 31.5 degC
5 Δ°C | 5 delta_degC
5 delta degC | 5 delta_degC
3 fl oz | 3 fl_oz
3 fl. oz. | 3 fl_oz
3 fluid oz | 3 fl_oz
3 fluid ounces | 3 fl_oz
1 cup | 1 cup
2 tsp | 2 tsp
2 Tbsp | 2 tbsp
1 Tb | 1 tbsp
1 tbl. | 1 tbsp
2 pts | 2 pint
1 qt | 1 quart
1 gal | 1 gallon
5 cc | 5 mL
5 cm3 | 5 mL
5 cm³ | 5 mL
5 cubic centimetres | 5 mL
5.7 ccm | 5.7 mL
5747 mm3 | 5747 mm**3
5747 mm³ | 5747 mm**3
5747 cubic millimeters | 5747 mm**3
250 mls | 250 mL
25 cl | 25 cL
2 dl | 2 dL
1 litre | 1 L
½ cup | 0.5 cup
1½ lb | 1.5 lb
1 ½ lb | 1.5 lb
1-¾ cup | 1.75 cup
1 - 3/4 cup | refused
1 3/4 cup | 1.75 cup
1-1/2 cup | 1.5 cup
2/3 cup | 0.6666666666666666 cup
1⁄2 cup | 0.5 cup
3,5 g | 3.5 g
3.5 g | 3.5 g
.5 kg | 0.5 kg
,5 kg | 0.5 kg
0,5 kg | 0.5 kg
0,250 kg | 0.25 kg
0.250 g | 0.25 g
0,250 g | 0.25 g
1.25 g | 1.25 g
1.2500 g | 1.25 g
1.250 kg | 1.25 kg
1.250 L | 1.25 L
31.500 °C | 31.5 degC
1.250,5 g | 1250.5 g
1,250.5 g | 1250.5 g
1 250 g | 1250 g
1'250 g | 1250 g
1’000 g | 1000 g
1’000’000 mg | 1000000 mg
1,250,000 mg | 1250000 mg
1.250.000 mg | 1250000 mg
1e3 g | 1000 g
250 g. | 250 g
250 g, | 250 g
~437 g | 437 g
≈ 437 g | 437 g
about 437 g | 437 g
About 437 g | 437 g
approx. 437 g | 437 g
ca. 437 g | 437 g
ca 437 g | 437 g
c. 437 g | 437 g
roughly 437 g | 437 g
24 | 24
24 % | 24 percent
24% | 24 percent
50 per cent | 50 percent
50 percent | 50 percent
24 pct | 24 percent
73 °Bx | 73 percent
73 Brix | 73 percent
73 °Brix | 73 percent
73 degBx | 73 percent
73 degrees Brix | 73 percent
5280 ft | 5280 foot
5280 feet | 5280 foot
1 foot | 1 foot
5,280 feet | refused
1600 metres | 1600 m
12" | 12 inch
12 in | 12 inch
30 mm | 30 mm
2 cm | 2 cm
12' | 12 min
12′ | 12 min
12 mins. | 12 min
90 sec | 90 s
2 hrs | 2 h
3 weeks | 3 week
1 wk | 1 week
10 days | 10 day
1h20 | 1.3333333333333333 h
1h20min | 1.3333333333333333 h
1 h 20 min | 1.3333333333333333 h
2 h 30 | 2.5 h
1 h 20 min 30 s | 1.3416666666666666 h
1 lb 4 oz | 1.25 lb
1 lb, 4 oz | 1.25 lb
1 lb + 8 oz | 1.5 lb
1 lb and 8 oz | 1.5 lb
1 lb plus 8 oz | 1.5 lb
1 lb & 8 oz | 1.5 lb
1lb4oz | 1.25 lb
-1 lb 4 oz | -1.25 lb
1 cup plus 2 tbsp | 1.125 cup
1 cup and 2 tbsp | 1.125 cup
1 kg 250 g | 1.25 kg
1 kg + 4 oz | 1.1133980925 kg
5 ft 6 in | 5.5 foot
10 tbsp 1 tsp | 10.333333333333334 tbsp
2125 g (75 oz) | 2125 g
2125 g (75 oz). | 2125 g
2125 g = 75 oz | 2125 g
2125 g / 75 oz | 2125 g
2125 g or 75 oz | 2125 g
2125 g 75 oz | 2125 g
2 kg (4.41 lb) | 2 kg
4.41 lb (2 kg) | 4.41 lb
893 g (1 lb 15 oz) | 893 g
1 oz (28 g) | 1 oz
45 °C (113 °F) | 45 degC
113 °F (45 °C) | 113 degF
10 °C (18 °F) | 10 delta_degC
0 g (0 oz) | 0 g
1 cup (237 mL) | 1 cup
90 min (1.5 h) | 90 min
0.02 1/min | 0.02 1/(min)
0.02 per min | 0.02 1/(min)
1.59 kJ/(kg K) | 1.59 kJ/(kg*K)
0.5 degC/min | 0.5 delta_degC/(min)
12 pieces | 12 piece
10,000 pieces | 10000 piece
"""

REFUSED = """
1.250 g | 1250 g or 1.25 g
12.345 mL | 12345 mL or 12.3450 mL
125.000 g | 125000 g or 125 g
1,250 g | 1250 g or 1.25 g
1,250 kg | 1250 kg or 1.25 kg
1 lb -4 oz | one number with one unit
-1 lb -4 oz | one number with one unit
5 kg - 2 kg | one number with one unit
500 g 300 g | one number with one unit
5 g 3 kg | two different amounts
2125 g (80 oz) | two different amounts
2100 g (75 oz) | two different amounts
2 kg (5 lb) | two different amounts
45 °C (120 °F) | two different amounts
2125 (75 oz) | one number with one unit
2125 g (75 °C) | one number with one unit
1 kg 4 oz | two different amounts
1 kg 3 °C | one number with one unit
32 degrees | °C or °F
32° | °C or °F
5 c | 'cup' or '°C'
5 c. | 'cup' or '°C'
5 m | 'min' or 'metre'
5 T | 'tbsp' or 'tsp'
5 t | 'tbsp' or 'tsp'
1 g 2 g 3 g 4 g | one number with one unit
30-32 C | not a range
30 to 32 C | not a range
30–32 C | not a range
nan | weigh or read
inf g | weigh or read
-inf g | weigh or read
1/0 cup | not zero
1.2.3 g | one decimal point
1,25,3 g | one decimal point
1,25.5 g | one decimal point
5 zorks | no unit known
5 grms | perhaps grams
5 degreesf x | no unit known
3 kelvins/zork | no unit known
254 g honey | no unit known
g | a number first
honey | a number first
five g | a number first
about | a number first
(5 g) | a number first
5**3 g | no unit known
9**9**8 g | no unit known
5 g; import os | no unit known
1e99 g | fits a kitchen
2 billion g | no unit known
<31 g | a number first
>31 g | a number first
± 3 g | a number first
1:20 h | no unit known
$5 | a number first
5 g!! | no unit known
"""


def rows(table):
    return [tuple(part.strip() for part in line.rsplit(" | ", 1)) for line in table.strip().splitlines()]


@pytest.mark.parametrize(("text", "meant"), [r for r in rows(CLEAR) if r[1] != "refused"])
def test_what_is_clear_is_read_as_meant(text, meant):
    number, _, unit = meant.partition(" ")
    typed = read_text(text)
    assert (typed.number, typed.unit) == (pytest.approx(float(number), rel=1e-12), unit)


@pytest.mark.parametrize(("text", "says"), rows(REFUSED))
def test_what_can_be_read_two_ways_or_not_at_all_is_asked_about(text, says):
    with pytest.raises(StudentError) as error:
        read_text(text)
    assert says in str(error.value), str(error.value)
    assert "=" not in error.value.example and "deg" not in error.value.example, "a cook's example"


def test_thousands_of_feet_are_asked_about_like_any_other():
    with pytest.raises(StudentError, match="5280 feet or 5.28 feet"):
        read_text("5,280 feet")


@pytest.mark.parametrize(
    ("text", "expect", "unit"),
    [
        ("1 C", "[length] ** 3", "cup"),
        ("1 c.", "[length] ** 3", "cup"),
        ("1 c", "[length] ** 3", "cup"),
        ("32 c", "[temperature]", "degC"),
        ("32 C", "[temperature]", "degC"),
        ("5 m", "[time]", "min"),
        ("1600 m", "[length]", "m"),
        ("6'", "[length]", "foot"),
        ("6'", "[time]", "min"),
    ],
)
def test_what_is_asked_for_settles_a_letter_with_two_meanings(text, expect, unit):
    assert read_text(text, expect).unit == unit


def test_the_unit_of_a_box_makes_three_decimals_a_question_too():
    with pytest.raises(StudentError, match="1250 g or 1.25 g"):
        read_text("1.250", "[mass]", bare="g")
    assert read_text("1.250", "[mass]", bare="kg").number == 1.25
    assert read_text("0.875", "", bare="g").number == 0.875


NOUNS = """
254 g honey | 254 g
254 g of honey | 254 g
254 g of the honey | 254 g
254 g dark couverture | 254 g
3 fl oz cream | 3 fl_oz
1 lb 4 oz butter | 1.25 lb
2 cups egg whites | 2 cup
250 g crème fraîche | 250 g
about 254 g honey | 254 g
25 % of the melt | 25 percent
12 min stirring | 12 min
31.5 °C dark | 31.5 degC
2 kg low-fat milk | 2 kg
"""
NO_NOUNS = """
5 g of
5 g of the
254 grms honey
254 zorks
254 honey
3 oz fluid
3 g a day
5 g less
5 g or so
5 kg g
5 g honey kg
5 g honey 3
5 cups C
2 lb troy
5 g and honey
5 g more than before
5 g (80 oz) honey
5 g; import os
"""


@pytest.mark.parametrize(("text", "meant"), rows(NOUNS))
def test_the_name_of_what_was_weighed_may_follow(text, meant):
    number, _, unit = meant.partition(" ")
    typed = read_text(text, nouns=True)
    assert (typed.number, typed.unit) == (float(number), unit)


@pytest.mark.parametrize("text", NO_NOUNS.strip().splitlines())
def test_a_word_that_changes_an_amount_is_no_name(text):
    with pytest.raises(StudentError):
        read_text(text, nouns=True)


def test_sums_add_up_and_keep_their_sign():
    for pounds, ounces in itertools.product((1, 2, 17), (1, 4, 15)):
        for sign in ("", "-"):
            typed = read_text(f"{sign}{pounds} lb {ounces} oz")
            grams = typed.quantity.m_as("g")
            assert grams == pytest.approx((-1 if sign else 1) * (pounds * LB + ounces * OZ), rel=1e-12)


@pytest.mark.parametrize("unit", ["g", "kg", "mL", "L", "degC", "delta_degC", "mm", "cm", "m"])
def test_what_a_page_writes_is_read_as_one_amount(unit):
    """Every amount as `both` writes it, metric with US beside, comes back as the metric one."""
    for number in (0, 0.123, 0.5, 1, 1.2345, 3.3333, 9.999, 12.5, 85.11, 123.4, 999.5, 2125, 98765.4):
        if "degC" in unit and number > 999:
            continue
        written = both(Q(number, unit))
        typed = read_text(written, dimension(unit))
        assert typed.quantity.m_as(unit) == pytest.approx(number, rel=6e-3, abs=1e-9), written
        assert show(typed.quantity) == written.split(" (")[0]


# NIST SP 811 and plain arithmetic: 1 ft = 12 in = 0.3048 m, 1 week = 168 h, 1 dag = 10 g.
@pytest.mark.parametrize(
    ("text", "unit", "number"),
    [
        ("5280 ft", "m", 1609.344),
        ("1 ft", "inch", 12),
        ("3 weeks", "h", 504),
        ("10 dag", "g", 100),
        ("1 dag", "kg", 0.01),
        ("1h20", "min", 80),
        ("73 °Bx", "dimensionless", 0.73),
        ("3 Tb", "mL", 3 * 14.78676478125),
        ("2 fluid oz", "mL", 2 * 29.5735295625),
    ],
)
def test_units_are_as_large_as_they_are(text, unit, number):
    assert read_text(text).quantity.m_as(unit) == pytest.approx(number, rel=1e-12)


@pytest.mark.parametrize("text", ["40 °C (300 K)", "300 K / 90 °F", "0C9K"])
def test_a_temperature_in_kelvins_beside_it_must_agree(text):
    with pytest.raises(StudentError):
        read_text(text)


def test_a_temperature_in_kelvins_that_agrees_is_read():
    # 40 + 273.15 = 313.15 K; a difference of 9 °F is 5 K.
    assert read_text("40 °C (313.15 K)").number == 40
    assert read_text("5 K (9 °F)").number == 5
    assert read_text("0C0K").unit == "delta_degC"  # no reading, but no difference at all
