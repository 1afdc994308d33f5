"""Amounts of which sums and ratios are known: their ends and their middle, by hand."""

from math import inf

import pytest

from pastrylab.ground.bounds import Contradiction, Rule, middle, narrowed, none, ratio, span


def free(*names, high=100.0):
    return dict.fromkeys(names, (0.0, high))


# --- rules --------------------------------------------------------------------------------------------------------


def test_a_span_says_what_it_is_unless_told():
    assert span("milk_fat", 0.5, 2, 1) == Rule((("milk_fat", 1),), 0.5, 2, 1, "milk fat lies from 0.5 to 2 g")
    assert span("milk_fat", 0, 2).typical is None
    assert span("milk_fat", 0, 2, says="there is little").says == "there is little"


def test_nothing_of_it_is_nothing_or_next_to_nothing():
    assert none("milk_fat", "starch", upto=0.3) == [
        Rule((("milk_fat", 1),), 0, 0.3, 0, "there is no milk fat in it"),
        Rule((("starch", 1),), 0, 0.3, 0, "there is no starch in it"),
    ]
    assert none("starch")[0].high == 0


def test_a_ratio_is_three_rules():
    """a + b is 2 to 4 times c, 3 as a rule, and up to 6 g more: a + b - 2 c >= 0, a + b - 4 c <= 6, about 6 / 3."""
    both = (("a", 1), ("b", 1))
    assert ratio(("a", "b"), "c", 2, 3, 4, "by c", 6) == (
        Rule((*both, ("c", -2)), 0, inf, None, "by c"),
        Rule((*both, ("c", -4)), -inf, 6, None, "by c"),
        Rule((*both, ("c", -3)), -inf, inf, 2, "by c"),
    )
    from_nothing = ratio(("a",), "c", 0, 1, 2, "by c")
    assert from_nothing[0].parts == (("a", 1),)  # 0 times c is no part of a sum
    assert (from_nothing[1].high, from_nothing[2].typical) == (0, 0)


# --- ends ---------------------------------------------------------------------------------------------------------


def test_what_one_rule_leaves_is_carried_to_those_before_it():
    """a = b, then b from 30 to 40: the first has nothing to say at first, and a is 30 to 40 all the same."""
    equal = Rule((("a", 1), ("b", -1)), 0, 0, 0, "a is b")
    assert narrowed([equal, span("b", 30, 40)], free("a", "b")) == {"a": (30, 40), "b": (30, 40)}


@pytest.mark.parametrize(
    ("low", "high", "left"), [(30, 100, (30, 100)), (0, 40, (0, 40)), (-5, 40, (0, 40)), (30, 120, (30, 100))]
)
def test_one_end_alone_may_move(low, high, left):
    assert narrowed([span("a", low, high)], free("a"))["a"] == left


def test_factors_are_divided_by():
    """2 a + 4 b from 40 to 60, b from 2 to 5: a from (40 - 20) / 2 to (60 - 8) / 2; -2 a from -8 to -6: a from 3 to 4."""
    rule = Rule((("a", 2), ("b", 4)), 40, 60, None, "a and b")
    assert narrowed([rule], {"a": (0, 100), "b": (2, 5)})["a"] == (10, 26)
    assert narrowed([Rule((("a", -2),), -8, -6, None, "a")], free("a"))["a"] == (3, 4)


def test_rules_that_meet_in_one_point_are_not_at_odds():
    assert narrowed([span("a", 5, 60), span("a", 0, 5)], free("a"))["a"] == (5, 5)
    with pytest.raises(Contradiction, match="a is small") as error:
        narrowed([span("a", 5, 60), span("a", 0, 4.9, says="a is small")], free("a"))
    assert error.value.rule.high == 4.9


def test_the_ends_to_begin_with_are_left_as_they_are():
    given = free("a")
    narrowed([span("a", 1, 2)], given)
    assert given == {"a": (0.0, 100.0)}


# --- the middle ---------------------------------------------------------------------------------------------------

WHOLE = Rule((("a", 1), ("b", 1)), 100, 100, 100, "the whole")


def test_the_narrower_rule_gives_way_less():
    """a 30, give or take 10, and b 60, give or take 5, are 10 short of 100. Weights 1/10 and 1/5, squared 1 to 4: of the 10 g
    a takes 4/5 and b 1/5. The ends stand evenly round 30 and 60."""
    found = middle([WHOLE, span("a", 20, 40, 30), span("b", 55, 65, 60)], {"a": (0, 60), "b": (30, 90)})
    assert found == {"a": pytest.approx(38, abs=1e-3), "b": pytest.approx(62, abs=1e-3)}


@pytest.mark.parametrize(("low", "high"), [(-inf, inf), (0, inf), (-inf, 90)])
def test_a_rule_without_an_end_counts_as_give_or_take_20(low, high):
    """Weights 1/20 and 1/10, squared 1 to 4: of the 10 g missing a takes 8."""
    found = middle([WHOLE, span("a", low, high, 30, "a"), span("b", 50, 70, 60)], {"a": (0, 60), "b": (30, 90)})
    assert found["a"] == pytest.approx(38, abs=1e-2)


def test_no_rule_counts_as_closer_than_two_hundredths_of_a_gram():
    """a 10, give or take 0.005, which counts as 0.02; b 20, give or take 0.2; 31.01 in all. Weights squared 100 to 1: of the
    1.01 g a takes 0.01."""
    whole = Rule((("a", 1), ("b", 1)), 31.01, 31.01, 31.01, "the whole")
    found = middle([whole, span("a", 9.995, 10.005, 10), span("b", 19.8, 20.2, 20)], free("a", "b"))
    assert found["a"] == pytest.approx(10.01, abs=1e-4)


def test_factors_count_in_the_middle():
    """2 a + b = 100 and a = 30 exactly: b is 40."""
    rules = [Rule((("a", 2), ("b", 1)), 100, 100, 100, "the whole"), span("a", 30, 30, 30)]
    assert middle(rules, free("a", "b")) == {"a": pytest.approx(30), "b": pytest.approx(40)}


def test_what_no_rule_speaks_of_lies_midway():
    """Ends 0 to 10 and 0 to 40 have their middles at 5 and 20, 75 short; weights 1/10 and 1/40, squared 16 to 1. With 25.85
    in all 0.85 g are missing: a takes 0.05, b 0.8."""
    assert middle([], {"a": (4, 10)})["a"] == pytest.approx(7)
    whole = Rule((("a", 1), ("b", 1)), 25.85, 25.85, 25.85, "the whole")
    found = middle([whole], {"a": (0, 10), "b": (0, 40)})
    assert found == {"a": pytest.approx(5.05, abs=1e-4), "b": pytest.approx(20.8, abs=1e-4)}


def test_a_rule_without_a_typical_amount_moves_nothing():
    assert middle([span("a", 1, 2)], {"a": (4, 10)})["a"] == pytest.approx(7)


@pytest.mark.parametrize(
    ("rule", "ends", "found"),
    [
        # Ends 2 g apart weigh 0.1 / 2 = 1/20, a rule without ends 1/20 as well: halfway between 4 and 5.
        (span("a", -inf, inf, 4, "a"), (4, 6), 4.5),
        # Ends closer than 0.02 g count as that far apart: 0.1 / 0.02 = 5, as a rule of 0.2 either way: halfway.
        (span("a", 4.81, 5.21, 5.01), (5.0, 5.01), 5.0075),
    ],
)
def test_the_middle_of_the_ends_weighs_a_tenth(rule, ends, found):
    assert middle([rule], {"a": ends})["a"] == pytest.approx(found, abs=1e-5)


def test_what_would_leave_its_ends_is_held_there_and_the_rest_makes_up_for_it():
    """a about 50 may only reach 20, so b is 80; a about 10 must be 30 at least, so b is 70."""
    rules = [WHOLE, span("b", 20, 60, 40)]
    assert middle([*rules, span("a", 40, 60, 50)], {"a": (0, 20), "b": (0, 100)}) == {
        "a": pytest.approx(20),
        "b": pytest.approx(80),
    }
    assert middle([*rules, span("a", 0, 20, 10)], {"a": (30, 40), "b": (0, 100)})["b"] == pytest.approx(70)
