"""Lesson 06 again in plain arithmetic: numbers of exercise_values.csv in, a number or an option's name out.

Nothing here calls the package. `ANSWERS` holds the answers, `ON_THE_WAY` what the worked solution shows before them, as
(number, unit). Shares are in percent, as in the file of values.
"""

import math

SET = 1.27  # g/mL, set chocolate, from the prompt

# --- a cavity -----------------------------------------------------------------------------------------------------


def room_in_a_cavity(diameter):
    """A ball is a sixth of pi times its diameter three times; the mould has half of it. Cubic mm to mL."""
    return math.pi * diameter**3 / 12 / 1000


def _room_in_a_cavity_shown(diameter):
    return {
        "pi": (3.141592653589793, ""),
        "radius": (diameter / 2, "mm"),
        "ball": (2 * room_in_a_cavity(diameter), "mL"),
    }


# --- a shell ------------------------------------------------------------------------------------------------------


def shell_by_weighing(empty, with_shells, cavities, cracked):
    return (with_shells - empty) / cavities


def _shell_by_weighing_shown(empty, with_shells, cavities, cracked):
    return {"chocolate": (with_shells - empty, "g"), "sound": (cavities - cracked, "")}


# --- filling ------------------------------------------------------------------------------------------------------


def filling_to_make(cavity, shell, cap, filling, pieces):
    """All cavities less all chocolate, in mL, then in grams."""
    return (pieces * cavity - pieces * (shell + cap) / SET) * filling


def _filling_to_make_shown(cavity, shell, cap, filling, pieces):
    grams = filling_to_make(cavity, shell, cap, filling, pieces)
    return {
        "set": (SET, "g/mL"),
        "solid": ((shell + cap) / SET, "mL"),
        "room": (grams / filling / pieces, "mL"),
        "all": (grams / filling, "mL"),
    }


# --- moulds for an order ------------------------------------------------------------------------------------------


def moulds_for_an_order(good, rejects, cavities):
    """Fill moulds until enough of what is cast is good."""
    filled = 0
    while filled * cavities * (100 - rejects) < 100 * good:
        filled += 1
    return filled


def _moulds_for_an_order_shown(good, rejects, cavities):
    cast = 100 * good / (100 - rejects)
    return {"kept": (100 - rejects, "percent"), "cast": (cast, ""), "exact": (cast / cavities, "")}


# --- the bowl -----------------------------------------------------------------------------------------------------


def what_must_be_in_the_bowl(fills, cavities, full, shell, cap, rest):
    """Backwards from the last mould: full, and the dead rest; each mould before it took shells and caps."""
    bowl = full + rest
    for _earlier in range(int(fills) - 1):
        bowl += cavities * shell + cavities * cap
    return bowl


def _what_must_be_in_the_bowl_shown(fills, cavities, full, shell, cap, rest):
    each = cavities * (shell + cap)
    return {
        "shells": (cavities * shell, "g"),
        "caps": (cavities * cap, "g"),
        "before": (fills - 1, ""),
        "gone": (what_must_be_in_the_bowl(fills, cavities, full, shell, cap, rest) - full - rest, "g"),
        "leaves": (fills * each, "g"),
    }


# --- the ninth mould ----------------------------------------------------------------------------------------------


def _cast(bowl, fills, full, shells, rest):
    """(moulds that could be filled, what is left)."""
    done = 0
    while done < fills and bowl - rest >= full:
        done, bowl = done + 1, bowl - shells
    return done, bowl


def the_ninth_mould(bowl, fills, full, shells, rest):
    done, _left = _cast(bowl, fills, full, shells, rest)
    if done == fills:
        return "enough"
    return "top it up" if bowl - fills * shells >= rest else "too small"


def _the_ninth_mould_shown(bowl, fills, full, shells, rest):
    done, left = _cast(bowl, fills, full, shells, rest)
    there = left if done < fills else left + shells
    return {
        "leaves": (fills * shells, "g"),
        "before": (fills - 1, ""),
        "gone": (fills * shells - shells, "g"),
        "need": (fills * shells - shells + full + rest, "g"),
        "cast": (done, ""),
        "next": (min(done + 1, fills), ""),
        "there": (there, "g"),
        "within": (there - rest, "g"),
    }


ANSWERS = {
    "06.room-in-a-cavity": room_in_a_cavity,
    "06.shell-by-weighing": shell_by_weighing,
    "06.filling-to-make": filling_to_make,
    "06.moulds-for-an-order": moulds_for_an_order,
    "06.what-must-be-in-the-bowl": what_must_be_in_the_bowl,
    "06.the-ninth-mould": the_ninth_mould,
}
ON_THE_WAY = {
    "06.room-in-a-cavity": _room_in_a_cavity_shown,
    "06.shell-by-weighing": _shell_by_weighing_shown,
    "06.filling-to-make": _filling_to_make_shown,
    "06.moulds-for-an-order": _moulds_for_an_order_shown,
    "06.what-must-be-in-the-bowl": _what_must_be_in_the_bowl_shown,
    "06.the-ninth-mould": _the_ninth_mould_shown,
}
