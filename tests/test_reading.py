"""What a student typed, read as a teacher would read it."""

import pytest

from pastrylab.ground.units import StudentError, read_text
from pastrylab.school.reading import chosen, coarse, read_number, rounded_too_far


@pytest.mark.parametrize(
    ("text", "step"),
    [("2100 g", 100), ("2000 g", 1000), ("2125 g", 1), ("2120 g", 10), ("21.5 g", 0.1), ("0 g", 1), ("20.0 g", 0.1)],
)
def test_zeros_at_the_end_may_be_rounding(text, step):
    assert coarse(read_text(text)) == pytest.approx(step, rel=1e-12)


def test_half_a_step_off_is_rounding_and_more_is_not():
    assert rounded_too_far(2100, 2150, 100) and not rounded_too_far(2100, 2151, 100)
    assert rounded_too_far(2200, 2150, 100) and not rounded_too_far(0, 0.4, 1)
    # A quarter of the answer at most: 1 for 0.8 is that, 1 for 0.79 is more.
    assert rounded_too_far(1, 0.8, 1) and not rounded_too_far(1, 0.79, 1)
    assert rounded_too_far(-1, -0.8, 1) and not rounded_too_far(-1, -0.79, 1)


def test_ratios_and_counts():
    assert read_number("3:2", "").number == 1.5 and read_number("3:2", "").step == 0.5
    assert read_number("50 Boxes", "", "How many box ...").number == 50
    for text in ("50 crates", "50 boxes less", "3:0", "1:2:3"):
        with pytest.raises(StudentError):
            read_number(text, "", "How many boxes?")


NAMES = [["the couverture"], ["gelatin", "the leaf"], ["honey"]]


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("A", 0),
        ("(c)", 2),
        ("b.", 1),
        ("C) honey", 2),
        ("C) gelatin", None),
        ("C, honey", 2),  # as the worked solution and the key write it
        ("b, the leaf", 1),
        ("A, B", None),
        ("A, honey", None),
        ("A,", None),
        ("A, and honey", None),
        ("D", None),
        ("option b", 1),
        ("Couverture", 0),
        ("leaf.", 1),
        ("i", None),
        ("", None),
        ("sugar", None),
        ("a)", 0),
    ],
)
def test_an_option_by_letter_or_words(text, place):
    assert chosen(NAMES, text) == place


@pytest.mark.parametrize(
    ("text", "words", "taken"),
    # A plural counts like its singular, and a word in "ss" is no plural.
    [
        ("5 zork", "How many zorks?", True),
        ("5 zorks", "How many in a zork?", True),
        ("5 bless", "How many bles?", False),
        ("5 bless", "How many bless?", True),
        ("5 zork left", "How many zorks?", False),
    ],
)
def test_what_is_counted_may_be_named_in_the_words_of_the_question(text, words, taken):
    if taken:
        typed = read_number(text, "", words)
        assert (typed.number, typed.unit, typed.step) == (5, "", 1)
    else:
        with pytest.raises(StudentError):
            read_number(text, "", words)
