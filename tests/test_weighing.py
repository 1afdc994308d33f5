"""A slip against its part, what a scale's step can promise, the spread of repeated weighings."""

import numpy as np
import pytest

from pastrylab.ground.units import Q, StudentError
from pastrylab.trade.formula import Formula
from pastrylab.trade.weighing import as_shown, error_share, smallest_weighing, spread, us_mass


def test_the_same_slip_is_harmless_on_one_part_and_not_on_another():
    assert error_share("2 g", "500 g") == pytest.approx(0.004)
    assert error_share("2 g", "4 g") == pytest.approx(0.5)
    assert error_share("-1 g", "4 g") == pytest.approx(-0.25)
    assert error_share("1 oz", "1 lb") == pytest.approx(1 / 16)
    assert error_share(Q(np.array([1.0, 2.0]), "g"), "100 g") == pytest.approx([0.01, 0.02])


@pytest.mark.parametrize("step", [0.1, 1.0, 5.0])
def test_no_tared_weighing_from_that_mass_up_is_off_by_more_than_allowed(step):
    """Bowls and parts of every size on a scale that rounds both displays to its step."""
    allowed = 0.02
    least = smallest_weighing(Q(step, "g"), "2 %").m_as("g")
    draw = np.random.default_rng(20)
    bowl, part = draw.uniform(0, 900, 50_000), draw.uniform(least, 20 * least, 50_000)
    shown = np.round((bowl + part) / step) * step - np.round(bowl / step) * step
    off = np.abs(shown - part) / part
    assert off.max() <= allowed
    small = draw.uniform(0.4 * least, 0.6 * least, 50_000)
    shown = np.round((bowl + small) / step) * step - np.round(bowl / step) * step
    assert (np.abs(shown - small) / small).max() > allowed


def test_pharmacists_ask_for_about_as_much(outside):
    outside(
        quantity="smallest weighing to 0.10 %, in steps: worst case of two displays against a 95 % band",
        expected=820,
        got=smallest_weighing("1 mg", "0.1 %").m_as("mg"),
        tolerance=200,
        source="USP general chapter 41, Balances: 2 x 0.41 d / 0.10 %, from memory",
    )


def test_spread_of_cups_as_typed():
    cups = spread("82 g\n91 g, 101 g; 0.086 kg\n\n")
    assert cups.count == 4
    assert (cups.low.m_as("g"), cups.high.m_as("g")) == pytest.approx((82, 101))
    assert cups.mean.m_as("g") == pytest.approx(90)
    assert cups.share == pytest.approx(19 / 90)
    assert spread("3,5 g\n4,5 g").mean.m_as("g") == pytest.approx(4)
    assert spread(["3 oz", Q(3, "oz")]).share == 0


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("", "no weighing"),
        ("82 g", "one weighing"),
        ("82\n91", "weighing 1"),
        ("82 g\nninety", "weighing 2"),
        ("82 g\n1 cup", "a volume"),
        ("82 g\n-3 g", "above 0 g"),
    ],
)
def test_spread_says_which_weighing_it_could_not_read(typed, said):
    with pytest.raises(StudentError, match=said):
        spread(typed)


@pytest.mark.parametrize(
    "call",
    [
        lambda: error_share("2 g", "0 g"),
        lambda: error_share(2, "500 g"),
        lambda: smallest_weighing("0 g", "2 %"),
        lambda: smallest_weighing("1 g", 0),
        lambda: smallest_weighing("1 g", "2 g"),
    ],
)
def test_bad_weighings_are_refused(call):
    with pytest.raises(StudentError):
        call()


@pytest.mark.parametrize(
    ("grams", "text"),
    [
        (10, "0.35 oz"),
        (0.5, "0.02 oz"),
        (28.349523125, "1 oz"),
        (100, "3.5 oz"),
        (453.59237, "1 lb"),
        (453.2, "1 lb"),  # 15.99 oz: as 16.0, never "16 oz"
        (2679, "5 lb 14.5 oz"),
        (3200, "7 lb 0.9 oz"),
    ],
)
def test_us_masses_as_a_kitchen_writes_them(grams, text):
    """By hand: 28.349523125 g an ounce, 16 to the pound."""
    assert us_mass(grams) == text


def test_what_a_scale_shows_of_a_formula():
    formula = Formula({"dark 64 %": "141.8 g", "cream": "85.11 g", "salt": "0.8511 g"})
    shown = as_shown(formula, 5.0)
    assert [shown[name] for name in formula.grams] == [140, 85, None]
    assert all(grams % 1 == 0 for grams in as_shown(formula, 1.0).values())
    assert list(as_shown(Formula({"salt": "1 g"}), 5.0).values()) == [None]


@pytest.mark.parametrize(
    ("parts", "step", "shown"),
    [
        # 0.45 g is less than half a gram; 1.15 g shows as 1 g.
        ({"butter": "1.15 g", "salt": "0.45 g"}, 1.0, [1, None]),
        # Of 10.4 g a scale shows 10 g: 0.5 g of salt would be 0.48 of a gram and shows nothing, the butter shows its 10 g.
        ({"butter": "9.9 g", "salt": "0.5 g"}, 1.0, [10, None]),
        ({"butter": "10 g", "salt": "0.5 g"}, 0.5, [10, 0.5]),
    ],
)
def test_a_part_below_half_a_step_shows_nothing(parts, step, shown):
    assert list(as_shown(Formula(parts), step).values()) == shown


def test_small_masses_and_what_a_third_of_a_cup_weighs():
    assert error_share("0.1 g", "0.5 g") == pytest.approx(0.2)
    # 0.996 oz is 1.00 oz at two decimals: "1 oz", never "1.00 oz"; 0.99 oz is less.
    assert us_mass(0.996 * 28.349523125) == "1 oz" and us_mass(0.99 * 28.349523125) == "0.99 oz"
    # 238 g a cup (USDA SR28): a third of it is 79.33 g, said to three figures.
    with pytest.raises(StudentError, match=r"79\.3 g, about what that measure weighs"):
        Formula({"heavy cream": "1/3 cup"})
