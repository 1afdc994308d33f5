"""Exercise 03.a-split-bowl: every draw has one right option, worked by plain arithmetic, and it is answered truly."""

import itertools
from pathlib import Path
from types import SimpleNamespace

import pytest

from pastrylab.course.emulsion.benches import warm_bench
from pastrylab.course.emulsion.judgements import RESCUE, _miss
from pastrylab.ground import datasets
from pastrylab.ground.units import Q
from pastrylab.school import exercise_values
from pastrylab.school.draws import givens
from pastrylab.school.engine import grade

pytestmark = pytest.mark.usefixtures("one_look", "undrawn")


def _by_hand(grams):
    """(water, fat, crowding) by plain arithmetic on the table and the densities of the docstring, all sugar dissolved."""
    rows = datasets.ingredients()
    sugar = ["sucrose", "glucose", "fructose", "lactose", "maltose", "higher_saccharides", "polyols"]
    held = {"water": 0.0, "fat": 0.0, "sugar": 0.0, "dry": 0.0}
    for name, mass in grams.items():
        row = rows[name]
        held["water"] += mass * row["water"]
        held["fat"] += mass * row["fat"]
        held["sugar"] += mass * sum(row[part] for part in sugar)
        held["dry"] += mass * sum(row[part] for part in ("protein", "starch", "fibre", "ash", "other"))
    whole = sum(grams.values())
    crowd = held["fat"] / 0.895 + held["dry"] / 1.45
    return held["water"] / whole, held["fat"] / whole, crowd / (crowd + held["water"] / 0.992 + 0.62 * held["sugar"])


def test_the_right_answer_to_a_split_bowl_gets_out_of_crowded():
    """Every draw: inside the card to pipe with room (water 16-23 %, fat to 40 %, crowding under 64 %), or the milk brings
    it there and neither cream nor butter does; both happen."""
    rows = exercise_values.values().of("03.a-split-bowl")
    grid = [[row.low + k * row.step for k in range(row.steps + 1)] for row in rows.values()]
    seen = set()
    for values in itertools.product(*grid):
        given = dict(zip(rows, values, strict=True))
        grams = {
            "dark couverture 64 %": given["chocolate"],
            "heavy cream 36 %": given["cream"],
            "butter unsalted": given["butter"],
        }
        inside = {}
        for choice, name in (("leave it", None), ("cream", 1), ("butter", 2), ("skim milk", 3)):
            more = dict(grams)
            if name:
                added = ["", "heavy cream 36 %", "butter unsalted", "skim milk"][name]
                more[added] = more.get(added, 0.0) + given["more"]
            water, fat, crowd = _by_hand(more)
            inside[choice] = 0.16 <= water <= 0.23 and fat <= 0.40 and crowd < 0.64
        right = (
            "leave it" if inside["leave it"] else "skim milk" if list(inside.values()) == [False] * 3 + [True] else "?"
        )
        g = SimpleNamespace(**{name: Q(value, rows[name].unit) for name, value in given.items()})
        for name, let in RESCUE.lets.items():
            setattr(g, name, let(g))
        assert RESCUE.answer(g) == right, given
        seen.add(right)
    assert seen == {"leave it", "skim milk"}


@pytest.mark.parametrize("student", ["", *map(str, range(1, 25))])
def test_a_split_bowl_is_answered_with_its_own_sentence(student):
    g = givens(RESCUE, student)
    right = RESCUE.answer(g)
    for letter, option in zip("ABCD", RESCUE.options, strict=True):
        verdict = grade(RESCUE, letter, student)
        assert verdict.right == (option.name == right)
        to_blame = "The formula is not to blame" in verdict.message
        assert to_blame == (right == "leave it" and not verdict.right)
        assert ("there is room again" in verdict.message) == (verdict.right and right == "skim milk")


def test_a_crowded_bowl_is_to_blame_though_water_and_fat_lie_in_the_card():
    """Water 20 %, fat 38 %, but 66 % of the volume droplets and particles: 2 points over 64."""

    class Crowded(dict):
        dispersed_share = 0.66

    crowded = Crowded(water=0.20, fat=0.38)
    g = SimpleNamespace(made={"leave it": crowded}, card={"water": (0.16, 0.23), "fat": (0.28, 0.40)})
    assert _miss(g, "leave it") == pytest.approx(0.02)


def test_no_bench_opens_on_an_exercise():
    """What the warm bench shows when it opens must not be the answer to 03.how-warm-the-cream."""
    opens = {control.name: control.value for control in warm_bench().controls.values()}
    given = {name: row.value for name, row in exercise_values.values().of("03.how-warm-the-cream").items()}
    assert all(opens[mine] != given[theirs] for mine, theirs in (("chocolate", "chocolate"), ("liquid", "cream")))


def test_nobody_is_told_to_taste_what_may_have_spoiled():
    page = (Path(__file__).parent.parent / "lessons" / "03-ganache-emulsion.ipynb").read_text(encoding="utf-8")
    assert "tastes off" not in page and "never taste to find out" in page
