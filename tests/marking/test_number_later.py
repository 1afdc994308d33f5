"""Begun without a number, or under another: on the page, in the zip and in the marks it is one student's work."""

import csv
import html
import re

import pytest
from lines_handed_in import HONEY, right

from pastrylab.course import benches
from pastrylab.desk.marked import mark_folder
from pastrylab.page.cards import GuessCard, NameCard
from pastrylab.school import answers, exercise_values, whose

OTHER = "01.pounds-and-ounces"


def type_in(which, text):
    card = benches.exercise(which)
    card.box.value = text
    card.grade()
    return card.verdict.value


def give_number(number, section=""):
    card = NameCard()
    card.box.value, card.section.value = number, section
    card.act()
    return card.said.value


def handed_in_as(number, section=""):
    card = benches.hand_in("01")
    seen = card.number.value, card.section.value
    if number is not None:
        card.number.value, card.section.value = number, section
    card.act()
    return seen, " ".join(re.sub("<[^>]*>", " ", html.unescape(card.said.value)).split())


def test_answers_before_and_after_the_number_are_one_students(own_workbook, undrawn, tmp_path):
    guess = GuessCard("01", "x", "How much?", "10 g")
    guess.box.value = "12 g"
    guess.act()
    assert "Right" in type_in(HONEY, right(""))
    assert "drawn for: 17." in give_number("No. 017", "A")
    again = benches.exercise(HONEY)
    assert "Values drawn for 17." in again.text.value and again.box.value == ""
    assert (
        "you had this right with the class values" in again.verdict.value and "stays and counts" in again.verdict.value
    )
    assert GuessCard("01", "x", "How much?", "10 g").box.value == "12 g", "a guess is about the same bench for all"
    type_in(OTHER, "1 g")
    seen, said = handed_in_as(None)
    assert (
        seen == ("17", "a") and "2 answers" in said and "Given before there was a number, and in it as yours: 1" in said
    )
    assert "Weigh" not in said.partition("Tried, not right yet")[0]
    (made,) = (own_workbook / "hand-in").glob("*.zip")
    assert made.name.startswith("lesson-01_number-17_section-a_")
    roll = tmp_path / "list.csv"
    roll.write_text("number,name,section\n017,Invented,A\n")
    mark_folder(own_workbook / "hand-in", roll, tmp_path / "marks")
    with open(tmp_path / "marks" / "lessons.csv", encoding="utf-8-sig", newline="") as file:
        (row,) = [row for row in csv.DictReader(file) if row["lesson"] == "lesson 01"]
    assert (row["number"], row["right"], row["tried"]) == ("017", "1", "2")
    assert (tmp_path / "marks" / "flags.csv").read_text(encoding="utf-8-sig").count("\n") == 1, "nothing to look at"


def test_what_was_given_under_another_name_is_named_and_comes_along_when_asked_for(own_workbook, undrawn):
    give_number("ana")
    type_in(HONEY, right("ana"))
    give_number("17")
    type_in(HONEY, right("17"))
    _seen, said = handed_in_as("17")
    assert "1 answer to" in said and "as another's: what was answered here as ana" in said
    give_number("ana")
    seen, said = handed_in_as("17")
    assert seen[0] == "ana" and "2 answers to" in said and "another's" not in said


def test_work_of_a_group_goes_into_the_file_of_each(own_workbook, undrawn):
    give_number("17")
    type_in(HONEY, right("17"))
    said = give_number("23 & 17")
    assert "drawn for: 17 and 23. They count for each of you" in said
    assert "That is one number. Are you two? Type 17 and 23." in give_number("17/23")
    give_number("23 & 17")
    type_in(HONEY, right("17 and 23"))
    assert "2 answers" in handed_in_as("17")[1] and "1 answer to" in handed_in_as("23")[1]
    both = handed_in_as("17 and 23")[1]
    assert "1 answer to" in both and "another's: what was answered here as 17." in both
    assert {p.name.split("_")[1] for p in (own_workbook / "hand-in").iterdir()} == {
        "number-17",
        "number-23",
        "number-17-and-23",
    }


def test_a_new_number_on_the_first_page_is_the_one_of_the_last_card(own_workbook, undrawn):
    type_in(HONEY, "9 g")
    handed_in_as("71", "B")
    give_number("17", "A")
    assert handed_in_as(None)[0] == ("17", "a")
    give_number("", "")
    assert whose.student() == "" and exercise_values.values().word == ""


REFUSED = ["-1", "-17", "+17", "1" * 41, "***", "../..", "<>", "17,23", "|", "—"]
READ = {
    "١٧": "17",
    "017": "17",
    "17.": "17",
    "No. 17": "17",
    "0": "0",
    "17a": "17a",
    "17/23": "17/23",
    "9" * 40: "9" * 40,
    "B-12": "b-12",
    "Ana Doe": "ana doe",
    "é": "é",
    "17 and 23": "17 and 23",
}


@pytest.mark.parametrize("typed", REFUSED)
def test_what_can_be_no_number_is_refused_on_the_page_and_changes_nothing(typed, own_workbook, undrawn):
    give_number("5", "A")
    assert "Needed" in give_number(typed, "B") and (whose.student(), whose.section()) == ("5", "a")


@pytest.mark.parametrize("typed", READ)
def test_what_can_be_one_is_read(typed, own_workbook, undrawn):
    said = give_number(typed)
    assert f"drawn for: {READ[typed]}." in said and whose.student() == READ[typed]
    answers.record("01", HONEY, "9 g", whose.student())
    assert handed_in_as(None)[0][0] == READ[typed]
    assert len(list((own_workbook / "hand-in").glob("*.zip"))) == 1
