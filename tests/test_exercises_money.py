"""Answers in money: how they are typed, whose currency counts, half a cent, dollars and cents, and their slips."""

import itertools
import math
from dataclasses import replace
from fractions import Fraction

import pytest
from depth import depth

from pastrylab.course.catalogue import EXERCISES, grade, key
from pastrylab.ground.money import Money
from pastrylab.ground.units import StudentError
from pastrylab.school import draws, engine, exercise_values
from pastrylab.school.draws import draw
from pastrylab.school.engine import Exercise, Slip
from pastrylab.school.kinds.money import read_amount

pytestmark = pytest.mark.usefixtures("one_look")

MONEY = [e for e in EXERCISES.values() if e.kind == "money"]
HEAD = "lesson,exercise,given,value,unit,low,high,step\n"


def values(cost=4.5, unit="USD"):
    return exercise_values.values(f"{HEAD}08,08.toy,cost,{cost},{unit},1,9,0.125\n")


TOY = Exercise(
    id="08.toy",
    title="t",
    prompt="{cost}",
    answer=lambda g: g.cost,
    kind="money",
    resolution=0.005,
    because="half a cent",
    hint="h",
    steps=("s", "{cost}"),
    sane=(0, 100),
    slips=(Slip("double", lambda g: 2 * g.cost, "not twice {cost}"), Slip("half", lambda g: g.cost / 2, "not half")),
)


def test_a_given_with_a_currency_is_money_in_prompt_answer_and_key():
    assert engine.case(TOY, values=values()).prompt == "$4.50"
    assert engine.case(TOY, values=values(unit="EUR")).prompt == "€4.50"
    assert engine.case(TOY, values=values()).solution[-1] == "Answer: $4.50."
    assert "price $46.00" in key().loc["08.pod-in-a-batch", "givens"]


@pytest.mark.parametrize("typed", ["$4.50", "4.50", "4,50", "4.5", "4.50 USD", "$ 4,5", " US$4.50 "])
def test_typed_with_or_without_currency(typed):
    verdict = grade(TOY, typed, values=values())
    assert verdict.right and "$4.50" in verdict.message


@pytest.mark.parametrize(
    ("typed", "status", "said"),
    [
        ("€4.50", "unit", "The number fits, the unit does not. EUR is another currency"),
        ("3 GBP", "unit", "GBP is another currency; asked is money, like this: $4.50."),
        ("4.50 kg", "unit", "kg measures a mass"),
        ("30 %", "unit", "asked is money"),
        ("$4.50/kg", "unreadable", "the price alone"),
        ("four", "unreadable", "$4.50"),
        ("", "unreadable", "$4.50"),
        ("1,250", "unreadable", "two ways"),
        ("450", "wrong", "100 times too large. Check the decimal point"),
        ("$0.045", "wrong", "100 times too small"),
        ("$9.00", "wrong", "not twice $4.50"),
        ("2.25", "wrong", "not half"),
        ("-4.50", "wrong", "too low"),
        ("999999999999", "unreadable", "an amount a kitchen can have"),
    ],
)
def test_each_trouble_has_its_own_sentence(typed, status, said):
    verdict = grade(TOY, typed, values=values())
    assert verdict.status == status and said in verdict.message


def test_half_a_cent_counts_and_a_whole_one_does_not():
    exact = values(cost=4.125)
    assert grade(TOY, "4.12", values=exact).right and grade(TOY, "4.13", values=exact).right
    assert not grade(TOY, "4.11", values=exact).right and not grade(TOY, "4.14", values=exact).right
    # Half the last digit typed, at most 1 % of the answer.
    assert grade(TOY, "4.1", values=exact).right and not grade(TOY, "4", values=exact).right


def test_where_another_dollar_is_asked_the_bare_sign_means_it():
    canadian = values(unit="CAD")
    assert grade(TOY, "$4.50", values=canadian).right and grade(TOY, "C$4.50", values=canadian).right
    assert grade(TOY, "US$4.50", values=canadian).status == "unit"
    assert "4.50 CAD" in grade(TOY, "4.50", values=canadian).message


def test_two_currencies_in_one_exercise_are_refused():
    rows = "".join(f"08,08.toy,{name},4,{code},1,9,1\n" for name, code in (("cost", "USD"), ("more", "EUR")))
    both = replace(TOY, answer=lambda g: g.cost + g.more)
    with pytest.raises(StudentError, match="prices in EUR and USD"):
        grade(both, "8", values=HEAD + rows)


def test_the_step_of_the_last_digit():
    assert [read_amount(t, "USD").step for t in ("4", "4.5", "$4.50", "4,500.25")] == [1, 0.1, 0.01, 0.01]


@pytest.mark.parametrize("e", MONEY, ids=lambda e: e.id)
@pytest.mark.parametrize("student", ["", *(f"student {i}" for i in range(depth(12, 60)))])
def test_every_money_exercise_knows_right_answers_and_slips(e, student):
    g = draws.givens(e, student)
    expected = e.answer(g)
    assert isinstance(expected, Money) and expected.currency == "USD"
    cents = str(expected.rounded())
    for typed in (cents, cents.removeprefix("$"), cents.removeprefix("$").replace(".", ","), f"{expected.amount:.4f}"):
        assert grade(e, typed, student).right, typed
    wrongs = {slip.name: (slip, wrong) for slip, wrong in engine.case(e, student).wrong}
    for slip, wrong in wrongs.values():
        others = [expected, *(w for s, w in wrongs.values() if s is not slip)]
        if min(abs(wrong - other) for other in others) > 2 * e.how.tolerance(expected):
            verdict = grade(e, f"{wrong.amount:.5f}", student)
            assert (verdict.slip, verdict.message) == (slip.name, draws.fill(slip.says, g))


@pytest.mark.parametrize("e", MONEY, ids=lambda e: e.id)
def test_another_currency_in_the_file_changes_the_answer_and_nothing_breaks(e):
    text = exercise_values.values().to_csv().replace(",USD,", ",EUR,")
    answer = e.answer(draws.givens(e, values=text))
    assert answer.currency == "EUR" and grade(e, str(answer), values=text).right
    assert grade(e, str(Money(answer.amount, "USD")), values=text).status == "unit"


def test_a_count_may_name_what_it_counts():
    # 270 / (14.50 - 9.00) = 49.09, so 50.
    for typed in ("50", "50 boxes", "50 box", "50 pieces"):
        assert grade(EXERCISES["08.break-even"], typed).right, typed
    assert grade(EXERCISES["08.break-even"], "50 kg").status == "unit"


# --- by hand, in whole cents and fractions ---------------------------------------------------------------------------


def drawn(exercise, student):
    """The exercise's numbers for a student as exact fractions, shares as they stand in percent."""
    rows = exercise_values.values().of(exercise)
    return {name: Fraction(str(draw(exercise, name, row, student))) for name, row in rows.items()}


def cents(number):
    """Whole cents as a page and a student write them."""
    return f"${number // 100}.{number % 100:02d}"


@pytest.mark.parametrize(("exercise", "whole"), [("08.price-from-food-cost", 0), ("08.price-by-margin", 100)])
def test_a_price_goes_up_to_the_cent_and_the_nearest_cent_counts_too(exercise, whole):
    e, shown_up = EXERCISES[exercise], 0
    for student in ["", *(f"student {n}" for n in range(200))]:
        n = drawn(exercise, student)
        part = n["margin"] if whole else n["share"]
        exact = 100 * n["cost"] / (abs(whole - part) / 100)
        up, near = math.ceil(exact), math.floor(exact + Fraction(1, 2))
        assert grade(e, cents(up), student).right and grade(e, cents(near), student).right
        assert grade(e, f"{float(exact) / 100:.4f}", student).right
        assert not grade(e, cents(up + 1), student).right
        assert not grade(e, cents(math.floor(exact) - 1), student).right
        assert engine.case(e, student).solution[-1] == f"Answer: {cents(up)}."
        shown_up += up != near
    # 7.80 / 0.7 = 11.1428...: what was written below the cent it is asked at is told so.
    below, at = grade(EXERCISES["08.price-by-margin"], "11.14"), grade(EXERCISES["08.price-by-margin"], "11.15")
    assert (below.message, at.message) == ("Right, $11.15; a price goes up to the next cent.", "Right, $11.15.")
    assert shown_up > 40  # the case is not a rare one


@pytest.mark.parametrize(
    ("code", "cost", "right", "wrong"),
    [
        # 4210 / 0.7 = 6014.28..., up to the next yen 6015; 4.217 / 0.7 = 6.02428..., up to the next fils 6.025.
        ("JPY", 4210, ("6015", "6014", "6015 JPY"), ("6016", "6013")),
        ("KWD", 4.217, ("6.025", "6.024", "6.025 KWD"), ("6.026", "6.023", "6.03")),
        ("EUR", 4.21, ("6.02", "6.01", "€6.02"), ("6.03", "6.00")),
    ],
)
def test_the_smallest_coin_is_that_of_the_currency(code, cost, right, wrong):
    e = EXERCISES["08.price-by-margin"]
    rows = HEAD + f"08,{e.id},cost,{cost},{code},{cost},{cost},1\n08,{e.id},margin,30,%,30,30,1\n"
    assert all(grade(e, typed, values=rows).right for typed in right)
    assert not any(grade(e, typed, values=rows).right for typed in wrong)


def test_a_pod_rounded_on_the_way_is_named():
    e, named, right = EXERCISES["08.pod-in-a-batch"], 0, 0
    for student in (f"student {n}" for n in range(200)):
        n = drawn(e.id, student)
        pod = 100 * n["price"] / (n["pods"] * n["usable"] / 100)
        back = 100 * n["dried"] * n["credit"]
        exact, rounded = n["used"] * pod - back, n["used"] * math.floor(pod + Fraction(1, 2)) - back
        verdict = grade(e, cents(int(rounded)), student)
        if abs(rounded - exact) <= 1:
            right += verdict.right
        elif abs(rounded - exact) > 2:
            assert verdict.slip == "a pod rounded on the way"
            named += 1
        assert grade(e, cents(math.floor(exact + Fraction(1, 2))), student).right
    assert named > 40 and right > 40


def statements(price, variable, off, now, more):
    """Which of the three judgements is true, each read by itself; money in whole cents, off in percent."""
    reduced = -(-price * (100 - off) // 100)
    each, then, today = reduced - variable, (reduced - variable) * more, (price - variable) * now
    return {
        "run it": then > today,
        "too little left": each > 0 and then <= today,
        "nothing left of a box": each <= 0,
    }


def promotion_values(price, variable, off, now, more):
    rows = {"price": (price / 100, "USD"), "variable": (variable / 100, "USD"), "off": (off, "%")}
    rows |= {"now": (now, ""), "more": (more, "")}
    lines = [f"08,08.promotion,{name},{value:g},{unit},{value:g},{value:g},1" for name, (value, unit) in rows.items()]
    return HEAD + "\n".join(lines) + "\n"


def test_of_every_promotion_that_can_be_drawn_one_judgement_is_true_and_all_come_up():
    rows = exercise_values.values().of("08.promotion")
    axes = [
        [round(Fraction(str(row.low)) * unit + n * Fraction(str(row.step)) * unit) for n in range(row.steps + 1)]
        for row, unit in ((rows[name], 100 if name in ("price", "variable") else 1) for name in rows)
    ]
    assert list(rows) == ["price", "variable", "off", "now", "more"]
    came_up, even, level = dict.fromkeys(["run it", "too little left", "nothing left of a box"], 0), [], []
    for numbers in itertools.product(*axes):
        (true,) = [name for name, holds in statements(*numbers).items() if holds]
        came_up[true] += 1
        price, variable, off, now, more = numbers
        reduced = -(-price * (100 - off) // 100)
        if reduced == variable:
            even.append(numbers)
        elif (reduced - variable) * more == (price - variable) * now:
            level.append(numbers)
    assert min(came_up.values()) > 10_000
    # The draws on an edge, sold at cost or leaving just what is left today, are judged as well, and the corners.
    corners = itertools.product(*((axis[0], axis[-1]) for axis in axes))
    assert even and level
    for numbers in [*even[::40], *level[::40], *corners]:
        check_promotion(statements(*numbers), "", promotion_values(*numbers))


def check_promotion(true, student, values):
    e = EXERCISES["08.promotion"]
    for option in e.options:
        verdict = grade(e, option.name, student, values)
        assert verdict.right == true.get(option.name, False), (option.name, verdict)
        # No option is answered with another's sentence, and a right one never with that of a wrong one.
        assert verdict.message.startswith("Right. ") == verdict.right
        if verdict.right:
            g = draws.givens(e, student, values)
            assert verdict.message == f"Right. {draws.fill(option.when_right, g)}" and option.when_right


def test_whole_classes_have_one_right_judgement_each():
    for student in (f"student {n}" for n in range(depth(150, 1000))):
        n = drawn("08.promotion", student)
        numbers = [int(100 * n["price"]), int(100 * n["variable"]), int(n["off"]), int(n["now"]), int(n["more"])]
        (true,) = [name for name, holds in statements(*numbers).items() if holds]
        worked = engine.case(EXERCISES["08.promotion"], student)
        assert worked.expected == true


def test_a_promotion_that_sells_at_cost_has_a_true_answer_and_no_false_sentence():
    # 14.00 less 10 % is 12.60 and leaves 3.60; 100 boxes leave 360.00, and 40 at 5.00 leave 200.00: 160.00 more.
    verdict = grade(EXERCISES["08.promotion"], "B", values=promotion_values(1400, 900, 10, 40, 100))
    assert verdict.right and "$200.00 now, $360.00 with the promotion. That is $160.00 more" in verdict.message
    # 12.00 less 40 % is 7.20, what the box costs: each brings nothing, and nothing is lost on it.
    values = promotion_values(1200, 720, 40, 40, 60)
    verdict = grade(EXERCISES["08.promotion"], "D", values=values)
    assert verdict.right and "no more than the $7.20 it costs" in verdict.message
    assert "lose" not in engine.case(EXERCISES["08.promotion"], values=values).options[3][1]


@pytest.mark.parametrize("typed", ["about $4.50", "ca. 4,50", "~ 4.50 USD", "$4.50"])
def test_an_amount_said_to_be_about_right_is_read(typed):
    read = read_amount(typed, "USD")
    assert (read.number, read.unit) == (4.5, "")
