"""Every kind of answer by itself: right, wrong, in a wrong unit, unreadable; what is said worked out by hand.

One exercise a kind, with one right answer for everybody. Plain arithmetic; 1 oz = 28.349523125 g, 1 lb = 453.59237 g,
1 kcal = 4.184 kJ (thermochemical), from memory.
"""

from dataclasses import replace
from decimal import Decimal

import pytest

from pastrylab.ground.money import Money, Price
from pastrylab.ground.units import Q
from pastrylab.school.engine import Exercise, Option, Slip, case, grade
from pastrylab.school.kinds import KINDS
from pastrylab.school.kinds.measured import Measured


def exercise(right, kind, unit="", resolution=0.0, **more):
    return Exercise(
        id="99.by-hand",
        title="How many boxes",
        prompt="One batch fills them.",
        answer=lambda g: right,
        hint="Divide first.",
        steps=("Divide.",),
        kind=kind,
        unit=unit,
        resolution=resolution,
        because="the scale shows it",
        sane=(0.001, 1000),
        **more,
    )


MASS = exercise(
    Q("485 g"),
    "quantity",
    "g",
    5,
    slips=(
        Slip("doubled", lambda g: Q("970 g"), "Once is enough."),
        Slip("and a spoon", lambda g: Q("976 g"), "No spoon."),
        Slip("by nothing", lambda g: Q("485 g") / 0, "Never said."),
    ),
)
TIME = exercise(Q("65.6 min"), "quantity", "min", 0.5)
HEAT = exercise(Q("96 kJ"), "quantity", "kJ", 1)
READING = exercise(Q("31.5 degC"), "reading", "degC", 0.2)
FALL = exercise(Q("10 delta_degC"), "difference", "degC", 0.5)
SHARE = exercise(0.228, "share", resolution=0.005)
NUMBER = exercise(50, "number", resolution=0.01)
MONEY = exercise(Money(Decimal("4.50"), "USD"), "money", resolution=0.005)
PRICE = exercise(Price(Decimal("11.1428"), "USD"), "money", resolution=0.0099)
CHOICE = exercise(
    "leave it",
    "choice",
    options=(
        Option("warm it", "Warm the bowl.", says="It is warm enough."),
        Option("leave it", "Leave it alone.", when_right="Nothing is wrong with it."),
        Option("cool it", "Cool the bowl."),
    ),
)

TOO_HIGH = "Not yet: your answer is too high. Divide first."
TOO_LOW = "Not yet: your answer is too low. Divide first."
ROUNDED = "Close, but rounded too far. Work on with all digits, and round once, at the end, to what your scale or probe shows."
PREFIXES = "Check the prefixes: kilo means 1000."
CENTS = "Check the decimal point: a hundred cents make one whole unit of the currency."
OUNCES = "The size is right, its unit is not: that many oz would do, you wrote g."
WHICH = "Which unit did you work in?"
EUROS = "The number fits, the unit does not. USD is another currency; asked is money, like this: €4.50."
LETTERS = "Needed: one of the letters A, B, C. Example: A."


@pytest.mark.parametrize(
    ("which", "typed", "status", "message"),
    [
        # 485 / 28.35 = 17.1 oz; 1.07 lb = 485.3 g. Up to 5 g off counts, 6 g does not.
        (MASS, "485 g", "right", "Right, 485 g (17.1 oz)."),
        (MASS, "0.485 kg", "right", "Right, 485 g (17.1 oz)."),
        (MASS, "1.07 lb", "right", "Right, 485 g (17.1 oz)."),
        (MASS, "490 g", "right", "Right: 485 g (17.1 oz)."),
        (MASS, "480 g", "right", "Right: 485 g (17.1 oz)."),
        (MASS, "491 g", "wrong", TOO_HIGH),
        (MASS, "479 g", "wrong", TOO_LOW),
        (MASS, "500 g", "wrong", ROUNDED),  # to the next hundred
        (MASS, "0.5 kg", "wrong", ROUNDED),  # the same, to a tenth of a kilogram
        (MASS, "970 g", "wrong", "Once is enough."),
        (MASS, "965 g", "wrong", "Once is enough."),
        (MASS, "974 g", "wrong", "No spoon."),  # 4 g from one slip, 2 g from the other
        (MASS, "964 g", "wrong", TOO_HIGH),
        # Half a promille off is "Right,", more is "Right:": 0.485 g of 485 g.
        (MASS, "485.48 g", "right", "Right, 485 g (17.1 oz)."),
        (MASS, "485.51 g", "right", "Right: 485 g (17.1 oz)."),
        # 18 oz = 510.3 g, 25 g off: more than half an ounce, 14.2 g, so no rounding.
        (MASS, "18 oz", "wrong", TOO_HIGH),
        # 485 / 28.3495 = 17.108 oz. Let pass: half the last digit, at most 1 %, at least a thousandth, 0.0171.
        (MASS, "17.12 g", "unit", "The size is right, its unit is not: that many oz would do, you wrote g."),
        (MASS, "17.1260 g", "wrong", TOO_LOW),
        (MASS, "17.15 g", "wrong", TOO_LOW),
        (MASS, "17.2 g", "wrong", TOO_LOW),
        # 5 g let pass, a thousand times as much: 490 000 g.
        (MASS, "490000 g", "wrong", f"Your answer is 1000 times too large. {PREFIXES}"),
        (MASS, "491000 g", "wrong", TOO_HIGH),
        (MASS, "485000 g", "wrong", f"Your answer is 1000 times too large. {PREFIXES}"),
        (MASS, "485 mg", "unit", f"The number is right, the unit is not: you wrote mg. {WHICH}"),
        (MASS, "485", "unit", "Your answer has no unit: 485 of what? Write it like this: 12.5 g."),
        (MASS, "485 kg", "unit", f"The number is right, the unit is not: you wrote kg. {WHICH}"),
        (MASS, "17.1 g", "unit", "The size is right, its unit is not: that many oz would do, you wrote g."),
        (MASS, "485 oz", "unit", f"The number is right, the unit is not: you wrote oz. {WHICH}"),
        (
            MASS,
            "485 mL",
            "unit",
            "The number fits, the unit does not. mL measures a volume; asked is a mass, for example 12.5 g.",
        ),
        (MASS, "12 mL", "unit", "mL measures a volume; asked is a mass, for example 12.5 g."),
        # 1 h 5.6 min = 65.6 min. 1.1 h is 66 min, and a tenth of an hour is coarse: at most 1 % is let pass, 0.66 min.
        (TIME, "1 h 5.6 min", "right", "Right, 65.6 min."),
        (TIME, "1.1 h", "right", "Right: 65.6 min."),
        (TIME, "1 h", "wrong", ROUNDED),
        (TIME, "65.6 s", "unit", f"The number is right, the unit is not: you wrote s. {WHICH}"),
        # 0.5 min let pass: 65.6 to 66.1, a thousand times 66 100; half the last digit typed is far less.
        (TIME, "66050 min", "wrong", f"Your answer is 1000 times too large. {PREFIXES}"),
        (TIME, "66200 min", "wrong", TOO_HIGH),
        # 20.19 oz and 20.21 oz: to the ounce 20, which is 0.19 and 0.21 off; a hundredth of it is 0.2. 20.46 with a
        # tenth of an ounce: 20.5 is 0.04 off, half a tenth 0.05.
        (exercise(Q("20.19 oz"), "quantity", "g", 5), "20 g", "unit", OUNCES),
        (exercise(Q("20.21 oz"), "quantity", "g", 5), "20 g", "wrong", TOO_LOW),
        (exercise(Q("20.46 oz"), "quantity", "g", 5), "20.5 g", "unit", OUNCES),
        # 96 / 4.184 = 22.94 kcal.
        (HEAT, "22.94 kcal", "right", "Right, 96 kJ."),
        (HEAT, "96000 J", "right", "Right, 96 kJ."),
        (HEAT, "96000 kJ", "wrong", f"Your answer is 1000 times too large. {PREFIXES}"),
        (HEAT, "0.096 kJ", "wrong", f"Your answer is 1000 times too small. {PREFIXES}"),
        (HEAT, "96 kcal", "unit", f"The number is right, the unit is not: you wrote kcal. {WHICH}"),
        # 31.5 x 1.8 + 32 = 88.7.
        (READING, "31.5 °C", "right", "Right, 31.5 °C (88.7 °F)."),
        (READING, "88.7 °F", "right", "Right, 31.5 °C (88.7 °F)."),
        (READING, "31.65 °C", "right", "Right: 31.5 °C (88.7 °F)."),
        (READING, "31.75 °C", "wrong", TOO_HIGH),
        (READING, "31.25 °C", "wrong", TOO_LOW),
        (READING, "32 °C", "wrong", ROUNDED),
        (READING, "31.5", "unit", "Your answer has no unit: 31.5 of what? Write it like this: 12.5 °C."),
        (READING, "31.5 °F", "unit", f"The number is right, the unit is not: you wrote °F. {WHICH}"),
        (READING, "88.7 °C", "unit", "The size is right, its unit is not: that many °F would do, you wrote °C."),
        (READING, "31.5 δ°C", "unit", "That is a difference between two temperatures. Asked is a reading: 12.5 °C."),
        (READING, "20 g", "unit", "g measures a mass; asked is a temperature, for example 12.5 °C."),
        # No prefix can be at fault with a thermometer: a thousand times too much is too much.
        (exercise(Q("0.2 degC"), "reading", "degC", 0.1), "200 °C", "wrong", TOO_HIGH),
        # 10 K is 18 °F as a difference; 10 °C as a reading would be 50 °F.
        (FALL, "10 °C", "right", "Right, 10 °C (18 °F)."),
        (FALL, "18 °F", "right", "Right, 10 °C (18 °F)."),
        (FALL, "10 K", "right", "Right, 10 °C (18 °F)."),
        (FALL, "17 °F", "wrong", TOO_LOW),  # 9.44, half a degree is let pass
        (FALL, "50 °F", "wrong", TOO_HIGH),
        (FALL, "10 °F", "unit", f"The number is right, the unit is not: you wrote °F. {WHICH}"),
        (FALL, "18 °C", "unit", "The size is right, its unit is not: that many °F would do, you wrote °C."),
        (FALL, "10", "unit", "Your answer has no unit: 10 of what? Write it like this: 12.5 °C."),
        (SHARE, "22.8 %", "right", "Right, 22.8 %."),
        (SHARE, "0.228", "right", "Right, 22.8 %."),
        (SHARE, "23.2 %", "right", "Right: 22.8 %."),
        (SHARE, "23.4 %", "wrong", TOO_HIGH),
        (SHARE, "22.2 %", "wrong", TOO_LOW),
        (SHARE, "20 %", "wrong", ROUNDED),
        (SHARE, "0", "wrong", TOO_LOW),
        (SHARE, "1", "wrong", TOO_HIGH),
        (
            SHARE,
            "0.0023",
            "wrong",
            "Your answer is 100 times too small. As a percentage, a share is a hundred times as large.",
        ),
        (
            SHARE,
            "2280 %",
            "wrong",
            "Your answer is 100 times too large. As a percentage, a share is a hundred times as large.",
        ),
        (SHARE, "22.8", "unit", "Your answer has no unit: 22.8 of what? Write it like this: 25 %."),
        (SHARE, "1.5", "unit", "Your answer has no unit: 1.5 of what? Write it like this: 25 %."),
        (SHARE, "-0.2", "unit", "Your answer has no unit: -0.2 of what? Write it like this: 25 %."),
        (
            SHARE,
            "0.228 %",
            "unit",
            "The number is a share, the unit is not: as a percentage it is a hundred times as large.",
        ),
        (SHARE, "22.8 g", "unit", "g measures a mass; asked is a share (a percentage), for example 25 %."),
        (NUMBER, "50", "right", "Right, 50."),
        (NUMBER, "50 boxes", "right", "Right, 50."),
        (NUMBER, "100:2", "right", "Right, 50."),
        (NUMBER, "101:2", "wrong", TOO_HIGH),  # half a half is let pass, not half of two
        (NUMBER, "50.2", "wrong", TOO_HIGH),
        (NUMBER, "49", "wrong", TOO_LOW),
        (NUMBER, "50000", "wrong", f"Your answer is 1000 times too large. {PREFIXES}"),
        (NUMBER, "0.05", "wrong", f"Your answer is 1000 times too small. {PREFIXES}"),
        (
            NUMBER,
            "50 g",
            "unit",
            "The number fits, the unit does not. g measures a mass; asked is a plain number, for example 1.5.",
        ),
        (NUMBER, "50 %", "unit", f"The number is right, the unit is not: you wrote %. {WHICH}"),
        (MONEY, "$4.50", "right", "Right, $4.50."),
        (MONEY, "4,50", "right", "Right, $4.50."),
        (MONEY, "4.60", "wrong", TOO_HIGH),
        (MONEY, "450", "wrong", f"Your answer is 100 times too large. {CENTS}"),
        (MONEY, "0.045", "wrong", f"Your answer is 100 times too small. {CENTS}"),
        (
            MONEY,
            "€4.50",
            "unit",
            "The number fits, the unit does not. EUR is another currency; asked is money, like this: $4.50.",
        ),
        # The most a kitchen can have, the project's own: a thousand million.
        (MONEY, "1000000000", "wrong", TOO_HIGH),
        (
            MONEY,
            "1000000001",
            "unreadable",
            "You gave 1000000001.00. Needed: an amount a kitchen can have. Example: $4.50.",
        ),
        (exercise(Money(Decimal("4.50"), "EUR"), "money", resolution=0.005), "$4.50", "unit", EUROS),
        (MONEY, "3 kg", "unit", "kg measures a mass; asked is money, like this: $4.50."),
        # 11.1428 goes up to 11.15; 11.14 is below the cent it is asked at, 11.16 a cent too many.
        (PRICE, "11.15", "right", "Right, $11.15."),
        (PRICE, "11.14", "right", "Right, $11.15; a price goes up to the next cent."),
        (PRICE, "11.16", "wrong", TOO_HIGH),
        (CHOICE, "B", "right", "Right. Nothing is wrong with it."),
        (CHOICE, "b) leave it", "right", "Right. Nothing is wrong with it."),
        (CHOICE, "Leave it alone.", "right", "Right. Nothing is wrong with it."),
        (CHOICE, "A", "wrong", "It is warm enough."),
        (CHOICE, "cool it", "wrong", "Divide first."),
        (CHOICE, "D", "unreadable", f"You gave 'D'. {LETTERS}"),
        (CHOICE, "12 g", "unreadable", f"You gave '12 g'. {LETTERS}"),
        (CHOICE, " ", "unreadable", f"You gave no answer yet. {LETTERS}"),
        (CHOICE, "x" * 60, "unreadable", f"You gave '{'x' * 40}'. {LETTERS}"),
    ],
)
def test_what_is_said(which, typed, status, message):
    verdict = grade(which, typed)
    assert (verdict.status, verdict.message) == (status, message)


@pytest.mark.parametrize("which", [MASS, TIME, HEAT, READING, FALL, SHARE, NUMBER, MONEY], ids=lambda e: e.kind)
@pytest.mark.parametrize("typed", ["", "a handful", "12 zorks", "- kg", "1 2 3"])
def test_what_cannot_be_read_is_answered_with_an_example_of_the_kind(which, typed):
    example = {"share": "25 %", "number": "1.5", "money": "$4.50", "reading": "12.5 °C", "difference": "12.5 °C"}
    verdict = grade(which, typed)
    said = example.get(which.kind, f"12.5 {which.unit}")
    assert verdict.status == "unreadable" and verdict.message.endswith(f"Example: {said}."), verdict


def test_what_can_be_read_two_ways_is_asked_about():
    verdict = grade(MASS, "1,250 g")
    # The example shows how to write the answer given, not one of the exercise's kind.
    assert verdict.status == "unreadable" and "two ways" in verdict.message and "12.5" not in verdict.message


def test_the_slip_is_named():
    assert [grade(MASS, typed).slip for typed in ("970 g", "975 g", "485 g", "12 g")] == [
        "doubled",
        "and a spoon",
        "",
        "",
    ]
    assert [grade(CHOICE, letter).slip for letter in "ABC"] == ["warm it", "", "cool it"]


@pytest.mark.parametrize(
    ("limit", "right", "wrong", "says"),
    [
        ("high", ("0.865", "0.8649", "0.86"), "0.87", "An upper limit is never rounded up."),
        ("low", ("0.865", "0.8651", "0.87"), "0.86", "A lower limit is never rounded down."),
    ],
)
def test_a_limit_has_no_tolerance_beyond_it(limit, right, wrong, says):
    which = exercise(0.865, "number", resolution=0.005, limit=limit)
    assert all(grade(which, typed).right for typed in right)
    verdict = grade(which, wrong)
    assert (verdict.status, verdict.message) == ("wrong", f"Very near, but beyond it. {says} Give one more digit.")
    # The last digit of a float is no digit of an answer.
    assert grade(exercise(0.1 + 0.2, "number", resolution=0.005, limit="low"), "0.3").right


def test_a_limit_is_written_on_its_safe_side():
    high, low = (exercise(1, "number", limit=limit) for limit in ("high", "low"))
    # 0.86547 with four digits: 0.8654 is within an upper limit, 0.8655 within a lower one.
    assert (high.how.show(0.86547), low.how.show(0.86543)) == ("0.8654", "0.8655")
    assert (high.how.show(0.865), low.how.show(0.865)) == ("0.865", "0.865")
    assert high.how.show(1234.56) == "1234" and low.how.show(1234.56) == "1235"


@pytest.mark.parametrize(
    ("which", "expected", "step", "within"),
    [
        (MASS, 485, 1, 5),  # the scale shows 5 g
        (MASS, 4850, 20, 10),  # half of 20 g
        (MASS, 4850, 1000, 48.5),  # at most a hundredth of the answer
        (MASS, -4850, 1000, 48.5),
        (SHARE, 0.228, 0, 0.005),
        (MONEY, Money(Decimal("4.50"), "USD"), 0, 0.005),
        (MONEY, Money(Decimal(450), "JPY"), 0, 0.5),  # a yen has no hundredths
        (MONEY, Money(Decimal("4.500"), "KWD"), 0, 0.0005),  # a dinar has thousandths
    ],
)
def test_how_far_off_is_right(which, expected, step, within):
    assert float(which.how.tolerance(expected, step)) == pytest.approx(within, rel=1e-12)


@pytest.mark.parametrize(
    ("which", "label", "example", "tolerance"),
    [
        (MASS, "Your answer, with its unit", "12.5 g", "5 g: the scale shows it"),
        (READING, "Your answer, with its unit", "12.5 °C", "0.2 °C: the scale shows it"),
        (FALL, "Your answer, with its unit", "12.5 °C", "0.5 °C: the scale shows it"),
        (SHARE, "Your answer, with its unit", "25 %", "0.5 points of a percentage: the scale shows it"),
        (NUMBER, "Your answer, a plain number", "1.5", "0.01: the scale shows it"),
        (MONEY, "Your answer, an amount of money", "4.50", "0.005: the scale shows it"),
        (CHOICE, "Your answer (a letter)", "A", ""),
        (replace(MASS, because=""), "Your answer, with its unit", "12.5 g", ""),
    ],
)
def test_what_stands_round_the_box(which, label, example, tolerance):
    assert (which.how.label, which.how.example(), which.how.tolerance_text) == (label, example, tolerance)


@pytest.mark.parametrize(
    ("which", "value", "number", "shown"),
    [
        (MASS, Q("1 lb"), 453.59237, "453.6 g (16 oz)"),
        (TIME, Q("2 h"), 120, "120 min"),
        (READING, Q("212 degF"), 100, "100 °C (212 °F)"),
        (FALL, Q("18 delta_degF"), 10, "10 °C (18 °F)"),
        (SHARE, Q("22.8 %"), 0.228, "22.8 %"),
        (SHARE, 0.5, 0.5, "50 %"),
        (NUMBER, 3, 3.0, "3"),
        (NUMBER, Q("1 kg") / Q("300 g"), 1000 / 300, "3.333"),
    ],
)
def test_an_answer_as_a_number_and_on_a_page(which, value, number, shown):
    assert which.how.in_unit(value) == pytest.approx(number, rel=1e-12)
    assert which.how.show(which.how.in_unit(value)) == shown


def test_money_stays_money_and_an_option_its_name():
    assert MONEY.how.show(MONEY.how.in_unit(4.5)) == "4.50"
    assert MONEY.how.in_unit(case(MONEY).expected) is case(MONEY).expected
    assert MONEY.how.example(Money(Decimal(450), "EUR")) == "€4.50"
    assert (CHOICE.how.in_unit("leave it"), CHOICE.how.show("cool it")) == ("leave it", "C, cool it")


@pytest.mark.parametrize(
    ("which", "expected", "said"),
    [
        (MASS, 0.001, ""),
        (MASS, 1000, ""),
        (MASS, 1001, "1001 g (35.3 oz) is absurd (sensible: 0.001 g (0.0000353 oz) to 1000 g (35.3 oz))"),
        (MASS, 0, "0 g (0 oz) is absurd (sensible: 0.001 g (0.0000353 oz) to 1000 g (35.3 oz))"),
        (NUMBER, 2000, "2000 is absurd (sensible: 0.001 to 1000)"),
        (CHOICE, "cool it", ""),
        (CHOICE, "throw it away", "'throw it away' is not among the options"),
    ],
)
def test_an_absurd_answer_is_said(which, expected, said):
    assert which.how.absurd(expected) == said


def test_one_case_asks_and_explains():
    worked = case(CHOICE)
    assert worked.prompt == "One batch fills them." and worked.hint == "Divide first." and worked.table is None
    assert worked.options == [("A", "Warm the bowl."), ("B", "Leave it alone."), ("C", "Cool the bowl.")]
    assert worked.solution == ["Divide.", "Answer: B, leave it."] and worked.wrong == ()
    worked = case(replace(MASS, table=lambda g: (("part",), [("cream",)])))
    assert worked.table == (("part",), [("cream",)]) and worked.options == []
    assert worked.solution == ["Divide.", "Answer: 485 g (17.1 oz)."]
    # A slip whose path leads to no number is left out.
    assert [(slip.name, round(wrong)) for slip, wrong in worked.wrong] == [("doubled", 970), ("and a spoon", 976)]


def test_a_case_works_its_givens_once(monkeypatch):
    from pastrylab.school import draws

    asked, draw = [], draws.givens
    monkeypatch.setattr(draws, "givens", lambda *a: asked.append(a) or draw(*a))
    worked = case(MASS)
    assert (worked.prompt, worked.hint, worked.answer) and worked.solution and worked.verdict("485 g").right
    assert len(asked) == 1


@pytest.mark.parametrize(("field", "word", "says"), [("kind", "weight", "quantity"), ("limit", "upper", "'high'")])
def test_a_word_there_is_not_is_refused_when_the_exercise_is_written(field, word, says):
    with pytest.raises(ValueError, match=f"99.by-hand.*{word}.*{says}"):
        replace(MASS, **{field: word})


def test_every_kind_is_tried_here():
    tried = {which.kind for which in (MASS, READING, FALL, SHARE, NUMBER, MONEY, CHOICE)}
    assert tried == set(KINDS)
    assert all(issubclass(kind, Measured) for word, kind in KINDS.items() if word != "choice")


def test_an_exercise_that_names_no_tolerance_and_no_bounds_has_none():
    plain = Exercise("99.x", "t", "p", answer=lambda g: 0.0, hint="h", steps=(), kind="number")
    assert (
        plain.how.tolerance(0.0) == plain.how.tolerance(10.0) == 0
        and grade(plain, "0").right
        and not grade(plain, "0.05").right
    )
    # Half the last digit is a hundredth of the answer at most: nothing for nought.
    assert [plain.how.absurd(number) for number in (0.0, 0.05, 1e12)] == ["", "", ""]
    assert plain.how.absurd(-0.01).startswith("-0.01 is absurd (sensible: 0 or more)")
    assert plain.how.show(0) == "0" and replace(plain, limit="high").how.show(0) == "0"
