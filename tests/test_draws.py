"""How a given is written in a text and in a sum: by hand, both sides of each rule."""

from types import SimpleNamespace

import pytest

from pastrylab.ground.money import Money, Price
from pastrylab.ground.units import Q, Quantity
from pastrylab.school.draws import draw, fill, in_sum
from pastrylab.school.exercise_values import Given


@pytest.mark.parametrize(
    ("value", "spec", "written"),
    [
        (Q("3 kg"), "kg", "3 kg"),
        (Q("3 kg"), "g", "3000 g"),
        (Q("3 kg"), "kg bare", "3"),
        (Q("31.5 degC"), "degC", "31.5 °C"),
        (Q("31.5 degC"), "degF bare", "88.7"),
        (Quantity(14.5, "delta_degC"), "delta_degC", "14.5 °C"),
        (Quantity(14, "delta_degF"), "delta_degC bare 3", "7.78"),
        (Quantity(1.59, "kJ/(kg*K)"), "n", "1.59"),
        (Q("25 %"), "%", "25 %"),
        (Q("25 %"), "% bare", "25"),
        (Q("25 %"), "1", "0.25"),
        (Q("25 %"), "n", "25"),
        (0.227778, "%", "22.778 %"),
        (0.227778, "% 3", "22.8 %"),
        (0.227778, "1 2", "0.23"),
        (2933.3333, "n", "2933.3"),
        (2933.3333, "n 4", "2933"),
        (0.0, "n", "0"),
        (-92.0, "n", "\N{MINUS SIGN}92"),
        (-92.0, "n bare", "(\N{MINUS SIGN}92)"),
        (Quantity(-4.5, "delta_degC"), "delta_degC", "\N{MINUS SIGN}4.5 °C"),
        (Money(7.8, "USD") / 0.7, "n", "$11.1429"),
        (Price(11.142857, "USD"), "n", "$11.1429"),
        (Money(14, "USD"), "n", "$14.00"),
        (Money(-0.6, "USD"), "n", "\N{MINUS SIGN}$0.60"),
        (Money(-0.6, "USD"), "n bare", "(\N{MINUS SIGN}$0.60)"),
        (Money(2.999999, "USD"), "n", "$3.00"),
        (Money(2.99994, "USD"), "n", "$2.9999"),
        (Money(120.5, "JPY"), "n", "120.50 JPY"),
        (Money(12, "CHF"), "n", "12.00 CHF"),
    ],
)
def test_in_a_sum_a_value_is_metric_alone_and_in_digits_enough(value, spec, written):
    assert in_sum(value, spec) == written


def test_a_text_writes_both_systems_and_a_sum_the_metric_one():
    g = SimpleNamespace(batch=Q("2 kg"), name="dark", share=0.25)
    assert (
        fill("{batch} of {name}: {batch:kg} × {share:1} = {batch:kg bare}", g)
        == "2 kg (4.41 lb) of dark: 2 kg × 0.25 = 2"
    )


def test_a_text_asked_for_in_a_sum_is_no_number():
    with pytest.raises((AttributeError, TypeError, ValueError)):
        fill("{name:kg}", SimpleNamespace(name="dark"))


def test_a_draw_by_the_published_rule():
    # SHA-256 of "02.seed-for-a-bowl|batch|ana" begins 41a93940cf4c00ca, as a whole number 4731375834047971530; modulo
    # 10 (9 steps and one) 0, so the low end: 1.5. That of "99.x|y|class 7" begins 750baa83a6409e8b, 8434022209588076171;
    # modulo 10 that is 1: 1.5 + 1 x 0.5 = 2; modulo 8 it is 3: 1.5 + 3 x 0.25 = 2.25. (sha256sum)
    batch = Given(3, "kg", 1.5, 6, 0.5)
    assert draw("02.seed-for-a-bowl", "batch", batch, " ANA") == 1.5
    assert draw("99.x", "y", batch, "Class  7") == 2.0
    assert draw("99.x", "y", Given(2, "kg", 1.5, 3.25, 0.25), "class 7") == 2.25
    assert draw("99.x", "y", batch, "") == 3
