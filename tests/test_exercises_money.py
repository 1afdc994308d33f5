"""Answers in money: how they are typed, whose currency counts, half a cent, dollars and cents, and their slips."""

from dataclasses import replace

import pytest

from pastrylab import datasets
from pastrylab.exercises import EXERCISES, engine, grade, key
from pastrylab.exercises.engine import Exercise, Slip
from pastrylab.exercises.money_answers import read_amount
from pastrylab.money import Money
from pastrylab.units import StudentError

MONEY = [e for e in EXERCISES.values() if e.kind == "money"]
HEAD = "lesson,exercise,given,value,unit,low,high,step\n"


def values(cost=4.5, unit="USD"):
    return datasets.values(f"{HEAD}08,08.toy,cost,{cost},{unit},1,9,0.125\n")


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
    assert engine.prompt(TOY, values=values()) == "$4.50"
    assert engine.prompt(TOY, values=values(unit="EUR")) == "€4.50"
    assert engine.solution(TOY, values=values())[-1] == "Answer: $4.50."
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
    with pytest.raises(StudentError, match="one currency at a time"):
        grade(both, "8", values=HEAD + rows)


def test_the_step_of_the_last_digit():
    assert [read_amount(t, "USD").step for t in ("4", "4.5", "$4.50", "4,500.25")] == [1, 0.1, 0.01, 0.01]


@pytest.mark.parametrize("e", MONEY, ids=lambda e: e.id)
@pytest.mark.parametrize("student", ["", *(f"student {i}" for i in range(60))])
def test_every_money_exercise_knows_right_answers_and_slips(e, student):
    g = engine.givens(e, student)
    expected = e.answer(g)
    assert isinstance(expected, Money) and expected.currency == "USD"
    cents = str(expected.rounded())
    for typed in (cents, cents.removeprefix("$"), cents.removeprefix("$").replace(".", ","), f"{expected.amount:.4f}"):
        assert grade(e, typed, student).right, typed
    wrongs = {slip.name: (slip, engine.in_unit(e, slip.wrong(g))) for slip in e.slips}
    for slip, wrong in wrongs.values():
        others = [expected, *(w for s, w in wrongs.values() if s is not slip)]
        if min(abs(wrong - other) for other in others) > 2 * engine.tolerance(e, expected):
            verdict = grade(e, f"{wrong.amount:.5f}", student)
            assert (verdict.slip, verdict.message) == (slip.name, engine.fill(slip.says, g))


@pytest.mark.parametrize("e", MONEY, ids=lambda e: e.id)
def test_another_currency_in_the_file_changes_the_answer_and_nothing_breaks(e):
    text = datasets.values().to_csv().replace(",USD,", ",EUR,")
    answer = e.answer(engine.givens(e, values=text))
    assert answer.currency == "EUR" and grade(e, str(answer), values=text).right
    assert grade(e, str(Money(answer.amount, "USD")), values=text).status == "unit"


def test_a_count_may_name_what_it_counts():
    # 270 / (14.50 - 9.00) = 49.09, so 50.
    for typed in ("50", "50 boxes", "50 box", "50 pieces"):
        assert grade(EXERCISES["08.break-even"], typed).right, typed
    assert grade(EXERCISES["08.break-even"], "50 kg").status == "unit"
