"""Lesson 08 again in plain arithmetic: numbers of exercise_values.csv in, a number or an option's name out.

Nothing here calls the package. `ANSWERS` holds the answers, unrounded, in dollars for money; `ON_THE_WAY` what the
worked solution shows before them, as (number, unit). Shares come and go in percent, as the file of values has them.
"""

import math


def _cents(dollars):
    return round(100 * dollars)


def as_purchased(edible, juice):
    return edible / (juice / 100)


def _as_purchased_shown(edible, juice):
    return {
        "lost": (100 - juice, "percent"),
        "multiplied": (edible * juice / 100, "g"),
        "added": (edible + edible * (100 - juice) / 100, "g"),
        "added_gives": (edible * (200 - juice) / 100 * juice / 100, "g"),
        "back": (edible, "g"),
    }


def pod_in_a_batch(price, pods, usable, used, dried, credit):
    """Good pods carry the whole tin; each dried one brings its credit back."""
    good = pods * usable / 100
    return used * price / good - dried * credit


def _pod_in_a_batch_shown(price, pods, usable, used, dried, credit):
    good = pods * usable / 100
    return {
        "good": (good, ""),
        "each": (price / good, "USD"),
        "fresh": (used * price / good, "USD"),
        "back": (dried * credit, "USD"),
    }


def price_from_food_cost(cost, share):
    return 100 * cost / share


def _price_from_food_cost_shown(cost, share):
    on_top = cost + cost * share / 100
    return {
        "rest": (100 - share, "percent"),
        "habit": (3, ""),
        "on_top": (on_top, "USD"),
        "on_top_share": (100 * cost / on_top, "percent"),
        "as_margin": (100 * cost / (100 - share), "USD"),
        "habit_share": (100 / 3, "percent"),
        "back": (cost, "USD"),
    }


def price_by_margin(cost, margin):
    return 100 * cost / (100 - margin)


def _price_by_margin_shown(cost, margin):
    return {
        "rest": (100 - margin, "percent"),
        "marked_up": (cost + cost * margin / 100, "USD"),
        "kept": (100 * margin / (100 + margin), "percent"),
        "markup": (100 * margin / (100 - margin), "percent"),
    }


def break_even(fixed, price, variable):
    """One box after another until the day is paid, counted in cents."""
    boxes, paid = 0, 0
    while paid < _cents(fixed):
        boxes, paid = boxes + 1, paid + _cents(price) - _cents(variable)
    return boxes


def _break_even_shown(fixed, price, variable):
    gives, boxes = _cents(price) - _cents(variable), break_even(fixed, price, variable)
    return {
        "gives": (gives / 100, "USD"),
        "exact": (_cents(fixed) / gives, ""),
        "one_short": (boxes - 1, ""),
        "missing": ((_cents(fixed) - (boxes - 1) * gives) / 100, "USD"),
    }


def _reduced(price, off):
    """The new price in cents, up to the next one: a price is never rounded down."""
    return math.ceil(_cents(price) * (100 - round(off)) / 100)


def promotion(price, variable, off, now, more):
    """A promotion that leaves as much as before is not worth the work; a box that leaves nothing pays no rent."""
    then, today = _reduced(price, off) - _cents(variable), _cents(price) - _cents(variable)
    if then <= 0:
        return "nothing left of a box"
    return "run it" if then * more > today * now else "too little left"


def _promotion_shown(price, variable, off, now, more):
    reduced = _reduced(price, off)
    then, today = reduced - _cents(variable), _cents(price) - _cents(variable)
    return {
        "reduced": (reduced / 100, "USD"),
        "gives_now": (today / 100, "USD"),
        "gives_then": (then / 100, "USD"),
        "left_now": (today * now / 100, "USD"),
        "left_then": (then * more / 100, "USD"),
        "gain": ((then * more - today * now) / 100, "USD"),
        "takings_now": (_cents(price) * now / 100, "USD"),
        "takings_then": (reduced * more / 100, "USD"),
    }


ANSWERS = {
    "08.as-purchased": as_purchased,
    "08.pod-in-a-batch": pod_in_a_batch,
    "08.price-from-food-cost": price_from_food_cost,
    "08.price-by-margin": price_by_margin,
    "08.break-even": break_even,
    "08.promotion": promotion,
}
ON_THE_WAY = {
    "08.as-purchased": _as_purchased_shown,
    "08.pod-in-a-batch": _pod_in_a_batch_shown,
    "08.price-from-food-cost": _price_from_food_cost_shown,
    "08.price-by-margin": _price_by_margin_shown,
    "08.break-even": _break_even_shown,
    "08.promotion": _promotion_shown,
}
