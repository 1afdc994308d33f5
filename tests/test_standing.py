"""Reopened, a question shows the last right answer to these very numbers; another is named, never judged."""

import json
from pathlib import Path

import pytest

from pastrylab.course import benches
from pastrylab.course.tempering import benches as tempering
from pastrylab.page import cards
from pastrylab.school import answers, exercise_values

pytestmark = pytest.mark.usefixtures("undrawn")


def write(own_workbook, change):
    """The workbook's exercise values with `change` (exercise, name, given) -> class value."""
    folder = own_workbook / "datasets"
    folder.mkdir(exist_ok=True)
    values = exercise_values.values().moved(change)
    (folder / "exercise_values.csv").write_text(values.to_csv(), encoding="utf-8")
    return values


def give(*texts, which="05.highest-reading"):
    card = benches.exercise(which)
    for text in texts:
        card.box.value = text
        card.check.click()
    return card


# By hand: the row of the table for pH 5.5 is below 0.88; less the meter's error of 0.015 that is 0.865, and a reading
# has to stay under it.
RIGHT, WRONG = "0.865", "0.5"


def test_the_last_right_answer_stands_not_a_wrong_one_after_it(own_workbook):
    assert ">Right" in give(RIGHT).verdict.value
    give(WRONG)
    again = benches.exercise("05.highest-reading")
    assert again.box.value == RIGHT and "Right" in again.verdict.value


def test_without_a_right_one_the_last_stands_with_its_verdict(own_workbook):
    give("0.1", WRONG)
    again = benches.exercise("05.highest-reading")
    assert again.box.value == WRONG and "Not yet" in again.verdict.value


def test_an_empty_box_is_no_answer_and_leaves_the_right_one(own_workbook):
    card = give(RIGHT, "", "   ")
    assert "box is empty" in card.verdict.value and card.tries == 0
    assert len(answers.read("05")[0]) == 1
    assert benches.exercise("05.highest-reading").box.value == RIGHT


def test_changed_numbers_ask_again_and_judge_nothing(own_workbook):
    give(RIGHT)
    write(own_workbook, lambda e, n, g: 0.018 if (e, n) == ("05.highest-reading", "error") else g.value)
    again = benches.exercise("05.highest-reading")
    assert again.box.value == "" and "Right" not in again.verdict.value
    assert RIGHT in again.verdict.value and "older numbers" in again.verdict.value


def test_numbers_changed_in_another_exercise_change_nothing_here(own_workbook):
    give(RIGHT)
    before = exercise_values.values().id
    write(own_workbook, lambda e, n, g: g.high if e.startswith("01") else g.value)
    assert exercise_values.values().id != before
    again = benches.exercise("05.highest-reading")
    assert again.box.value == RIGHT and "Right" in again.verdict.value


def test_the_question_stands_though_the_values_kept_are_gone(own_workbook):
    give(RIGHT)
    write(own_workbook, lambda e, n, g: g.high if e.startswith("01") else g.value)
    for path in (answers.folder() / "values").iterdir():
        path.unlink()
    again = benches.exercise("05.highest-reading")
    assert "meter" in again.text.value and "older numbers" in again.verdict.value


def test_an_open_card_grades_what_it_asks(own_workbook):
    card = benches.exercise("05.highest-reading")
    asked = card.case.values.id
    write(own_workbook, lambda e, n, g: 0.018 if (e, n) == ("05.highest-reading", "error") else g.value)
    card.box.value = RIGHT
    card.check.click()
    card.hint.click()
    card.solution.click()
    assert ">Right" in card.verdict.value and RIGHT in card.worked.value
    (entry,) = answers.read("05")[0]
    assert entry["values"] == asked != exercise_values.values().id


def test_a_solution_opened_before_the_first_try_leaves_a_line(own_workbook):
    card = benches.exercise("05.highest-reading")
    card.solution.click()
    card.solution.click()
    (line,) = answers.done("05")
    assert line["did"] == answers.OPENED_SOLUTION and line["exercise"] == "05.highest-reading"
    assert answers.read("05")[0] == []


def test_a_verdict_comes_though_the_disk_is_full(own_workbook):
    card = benches.exercise("05.highest-reading")
    (own_workbook / "lessons" / "my-answers").write_text("no folder")
    card.box.value = RIGHT
    card.check.click()
    assert ">Right" in card.verdict.value and "not kept" in card.verdict.value
    card.solution.click()
    assert "Worked solution" in card.worked.value
    guess = cards.GuessCard("05", "x", "How much?", "500 g")
    guess.box.value = "800 g"
    guess.keep.click()
    assert "not kept" in guess.said.value
    name = cards.NameCard()
    name.box.value = "17"
    name.keep.click()
    assert "cannot be kept" in name.said.value and "our side" not in name.said.value


def test_answers_that_may_not_be_read_are_said_and_the_question_stands(own_workbook, monkeypatch):
    give(RIGHT)

    def forbidden(self):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "read_bytes", forbidden)
    exercise_values.values()
    card = benches.exercise("05.highest-reading")
    assert "meter" in card.text.value and "Permission denied" in card.verdict.value
    assert "our side" not in card.verdict.value
    card.box.value = RIGHT
    card.check.click()
    assert ">Right" in card.verdict.value


@pytest.mark.parametrize(
    ("example", "guess", "says"),
    [
        ("500 g", "250 ml", "a volume"),
        ("30 %", "10 g", "a mass"),
        ("30 %", "10 degC", "a temperature"),
        ("500 g", "30 %", "a share"),
        ("500 g", "30 C", "a temperature"),
        ("500 g", "", "an empty box"),
        ("500 g", "800", "without a unit"),
        ("500 g", "a lot", "a lot"),
        ("30 %", "0.3", "without a unit"),
        ("500 g", "800 zorks", "zorks"),
    ],
)
def test_guesses_of_another_kind_are_refused(own_workbook, example, guess, says):
    card = cards.GuessCard("05", "x", "How much?", example)
    card.box.value = guess
    card.keep.click()
    assert says in card.said.value and "Kept" not in card.said.value and "our side" not in card.said.value
    assert answers.read("05")[0] == []


# 7 lb = 7 x 453.59237 g = 3175.1 g; 8 oz = 8 x 28.349523 g = 226.8 g
@pytest.mark.parametrize(
    ("example", "guess", "says"),
    [
        ("500 g", "800 g", "Kept: 800 g."),
        ("500 g", "7 lb", "Kept: 7 lb, that is 3175 g."),
        ("500 g", "0,5 kg", "that is 500 g"),
        ("500 g", "½ lb", "that is 227 g"),
        ("500 g", "8 oz", "that is 227 g"),
        ("30 %", "25 %", "Kept: 25 %."),
        ("30 %", "0 %", "Kept: 0 %."),
    ],
)
def test_guesses_of_the_kind_asked_for_are_kept(own_workbook, example, guess, says):
    card = cards.GuessCard("05", "x", "How much?", example)
    card.box.value = guess
    card.keep.click()
    assert says in card.said.value, card.said.value
    assert answers.last("05", "05.guess.x")["answer"] == guess


# Half a pound is 226.8 g: 200 g is 200 / 226.8 - 1 = 12 % too low, 26.8 g short; 250 g 10 % too high, 23.2 g too much.
@pytest.mark.parametrize(
    ("guess", "says"),
    [
        ("200 g", "12 % too low, 26.8 g short."),
        ("250 g", "10 % too high, 23.2 g too much."),
        ("0,25 kg", "10 % too high, 23.2 g too much."),
        ("8 oz", "right"),
        ("0 g", "100 % too low"),
    ],
)
def test_a_guess_no_bench_shows_is_put_beside_the_result(own_workbook, guess, says):
    card = cards.GuessCard("00", "half", "How much?", "200 g", result="0.5 lb")
    card.box.value = guess
    card.keep.click()
    assert says in card.said.value and "226.8 g" in card.said.value, card.said.value
    assert "the amount 226.8 g" in card.picture.value and "<img" in card.picture.value
    again = cards.GuessCard("00", "half", "How much?", "200 g", result="0.5 lb")
    assert again.picture.value == card.picture.value, "kept, it stands there again"


# 7 lb = 7 x 453.59237 g = 3175.1 g; 800 g = 800 / 28.349523 oz = 28.22 oz = 1 lb 12.2 oz
@pytest.mark.parametrize(
    ("guess", "metric", "us"),
    [
        ("7 lb", "said 7 lb, that is 3175 g, the", "said 7 lb, the"),
        ("800 g", "said 800 g, the", "said 800 g, that is 1 lb 12.2 oz, the"),
    ],
)
def test_a_bench_shows_the_guess_in_the_units_in_force(own_workbook, guess, metric, us):
    card = tempering.guess_seed()
    card.box.value = guess
    card.keep.click()
    page = tempering.seed_bench()
    assert metric in page.guessed.value
    page.system.value = "US"
    assert us in page.guessed.value


def test_the_answer_that_stands_is_the_last_of_its_sort_with_its_day(own_workbook):
    from pastrylab.course.catalogue import EXERCISES
    from pastrylab.school.engine import case
    from pastrylab.school.standing import standing

    asked = case(EXERCISES["05.highest-reading"])
    given = [("2026-03-01", "0.1"), ("2026-03-02", "0.865"), ("2026-03-03", "0.864"), ("2026-03-04", "0.2")]
    for place, stands in enumerate(("0.1", "0.865", "0.864", "0.864")):
        day, text = given[place]
        line = {"when": f"{day}T10:11:12+00:00", "student": "", "exercise": "05.highest-reading"}
        path = answers.folder() / "05.jsonl"
        path.parent.mkdir(exist_ok=True)
        with path.open("a", encoding="utf-8") as file:
            file.write(json.dumps(line | {"answer": text, "values": asked.values.id}) + "\n")
        found = standing(asked)
        assert (found.answer, found.day) == (stands, dict(map(reversed, given))[stands])
        assert found.verdict.right is (stands != "0.1")
    # 0.018 in place of 0.015: older numbers, whatever was right then; the last of them is named.
    moved = exercise_values.values().moved(
        lambda e, n, g: 0.018 if (e, n) == ("05.highest-reading", "error") else g.value
    )
    found = standing(case(EXERCISES["05.highest-reading"], values=moved))
    assert (found.answer, found.day, found.verdict) == ("0.2", "2026-03-04", None)
