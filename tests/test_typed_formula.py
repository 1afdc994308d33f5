"""A formula typed line by line: what is read, what is weighed, and what is refused in a sentence."""

import pytest

from pastrylab.ground.units import StudentError
from pastrylab.trade.typed_formula import read_formula


def test_lines_are_read_in_their_order_and_one_ingredient_twice_is_added_up():
    made = read_formula("dark couverture 64 %: 300 g\n\n  butter : 1 oz \nhoney: 10 g\nhoney: 0.02 kg\n")
    # An ounce is 28.3495 g (NIST Handbook 44).
    assert made.grams == pytest.approx({"dark couverture 64 %": 300, "butter unsalted": 28.3495, "honey": 30}, abs=1e-4)
    assert list(made.grams) == ["dark couverture 64 %", "butter unsalted", "honey"]


def test_a_formula_without_a_line_is_refused():
    with pytest.raises(StudentError, match="empty"):
        read_formula(" \n")


@pytest.mark.parametrize(
    ("line", "named"),
    [
        ("honey: 40", "without a unit"),
        ("honey: 40 %", "not a mass"),
        ("honey 40 g", "a colon"),
        ("honey: -40 g", "honey"),
        ("unicorn: 40 g", "unicorn"),
        (": 40 g", "a colon"),
    ],
)
def test_a_line_of_a_formula_that_cannot_be_read_is_a_sentence(line, named):
    with pytest.raises(StudentError, match=named):
        read_formula(line)


def test_cups_of_a_known_ingredient_are_weighed():
    # A cup of honey weighs 339 g (USDA SR28, 19296).
    assert read_formula("honey: 1 cup").total_grams == pytest.approx(339, abs=1.5)
