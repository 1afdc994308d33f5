"""Both sides of every edge of the kitchen grammar, by hand: 1 lb = 453.59237 g."""

import pytest

from pastrylab.ground.errors import StudentError
from pastrylab.ground.grammar import read_text, unit_named
from pastrylab.ground.numbers import read_number


@pytest.mark.parametrize(
    ("text", "number"),
    [
        # 75 oz are 2126.2 g: half a gram and half an ounce, 14.17 g, may be rounding.
        ("2112 g (75 oz)", 2112),
        ("2111 g (75 oz)", None),
        # A twentieth at most is rounding: 0.05 lb and half a gram. 476 g are 1.0494 lb, 477 g 1.0516.
        ("1 lb (476 g)", 1),
        ("1 lb (477 g)", None),
        # 20.5 g may have been written as 20 or as 21.
        ("20 g = 21 g", 20),
        ("20 g = 22 g", None),
        # Minutes without their word, up to 59.
        ("1 h 59", 1 + 59 / 60),
        ("1 h 60", None),
        # Three units at most, falling all the way.
        ("1 day 1 h 1 min", 1 + 61 / 1440),
        ("1 week 1 day 1 h 1 min", None),
        ("1 lb 4 oz 1 lb", None),
        ("1 oz 2 lb 3 oz", None),
        ("500 g + 300 g", None),
        ("4 oz + 1 lb", None),
        ("2 kg / 2000 g / 4.41 lb", None),
    ],
)
def test_one_amount_written_twice_or_in_parts(text, number):
    if number is None:
        with pytest.raises(StudentError):
            read_text(text)
    else:
        assert read_text(text).number == pytest.approx(number, rel=1e-12)


def test_a_name_has_five_words_at_most():
    assert read_text("254 g very dark bitter old couverture", nouns=True).number == 254
    with pytest.raises(StudentError):
        read_text("254 g very dark bitter and old couverture", nouns=True)
    with pytest.raises(StudentError):
        read_text("254 g very dark bitter old fine couverture", nouns=True)


def test_a_text_is_no_longer_than_four_lines_of_sixty():
    assert read_text("5 g" + " " * 237).number == 5
    with pytest.raises(StudentError, match="a very long text"):
        read_text("5 g" + " " * 238)


def test_a_rate_that_is_none_is_quoted():
    for spelled in ("zorks/min", "g/zork", "zorks"):
        with pytest.raises(StudentError) as error:
            unit_named(spelled)
        assert error.value.given.startswith(f"'{spelled}', and 'zork")
    with pytest.raises(StudentError, match=r"^You gave '5 zorks/min', and 'zorks'"):
        read_text("5 zorks/min")


@pytest.mark.parametrize(
    ("text", "number", "step", "tail"),
    [
        ("½ cup", 0.5, 0.01, "cup"),
        ("2¼ cup", 2.25, 0.01, "cup"),
        ("1/4 cup", 0.25, 0.25, "cup"),
        ("2 1/4 cup", 2.25, 0.25, "cup"),
        ("1.5e3 g", 1500, 100, "g"),
        ("2e-2 g", 0.02, 0.01, "g"),
        ("1 250,5 g", 1250.5, 0.1, "g"),
        ("-3,25 g", -3.25, 0.01, "g"),
        ("1000000000 g", 1e9, 1, "g"),
    ],
)
def test_a_number_and_what_its_last_digit_is_worth(text, number, step, tail):
    assert read_number(text, text)[:3] == (pytest.approx(number), pytest.approx(step), tail)


def test_a_number_beyond_a_thousand_million_is_refused():
    with pytest.raises(StudentError, match="fits a kitchen"):
        read_number("1000000001 g", "much")


def test_the_last_digit_of_a_sum_is_that_of_its_last_part():
    """A tenth of an ounce is 0.1 / 16 lb."""
    typed = read_text("1 lb 4.5 oz")
    assert (typed.number, typed.step) == (pytest.approx(1.28125), pytest.approx(0.00625))
