"""The keys to the sheets on paper of lessons 02 and 02b."""

import math

from pastrylab.ground.quantities import Quantity
from pastrylab.school.paper_key import Key
from pastrylab.trade import chocolate, holding, newton

_NEAR = 0.85  # of what is needed: by eye that is about right


def _bands(_s):
    said = "From the supplier's sheet for the bag in hand. In Fahrenheit: × 1.8, then 32 on top."
    return (None,) * 8, said


def _needed(s):
    """kJ the melt gives up, kJ a kilogram of seed takes up, with the figures that question 5 names."""
    (bowl, start, _, target), (heat, seed_at, _, melts, latent) = s[2], s[5]
    return heat * bowl * (start - target), heat * (target - seed_at) + melts * latent


def _seed(s):
    gives, takes = _needed(s)
    need, seed = 1000 * gives / takes, s[2][2]
    word = "too little" if seed < _NEAR * need else "too much" if seed * _NEAR > need else "about right"
    return (word, f"the sum of question 5 asks for {need:.0f} g"), ""


def _share(s):
    (of_melt,) = s[3]
    return (f"{100 * of_melt / (100 + of_melt):.3g} %",), f"{of_melt:g} ÷ (100 + {of_melt:g})."


def _degrees(s):
    start, end = s[4]
    return (f"{start - end:g}", f"{1.8 * (start - end):.3g}"), "A difference: × 1.8, and nothing on top."


def _balance(s):
    (bowl, start, _, target), seed_at = s[2], s[5][1]
    gives, takes = _needed(s)
    fills = (f"{bowl:g}", f"{start - target:g}", f"{gives:.3g}", f"{target - seed_at:g}", f"{takes:.3g}")
    return (*fills, f"{gives / takes:.3f}"), f"{gives:.3g} ÷ {takes:.3g}."


def _wet(s):
    return (
        "too few crystals, so no temper yet: seed again, stir, smear",
    ), "The thermometer shows warmth, the smear temper."


def _loads(s):
    order, bowl = s[1]
    found = holding.loads(Quantity(order, "kg"), Quantity(bowl, "kg"))
    return (f"{found.count}", f"{found.each.m_as('kg'):.3g}"), ""


def _halved(s):
    bowl, room = s[2]
    later = newton.after(bowl, room, 1.0)
    return (f"{bowl - room:g}", f"{later - room:g}", f"{later:g}"), ""


def _topped(s):
    bowl, at, warm, most, _ = s[3]
    need = holding.top_up(Quantity(bowl, "kg"), *(Quantity(one, "degC") for one in (at, warm, most))).m_as("kg")
    down = math.floor(need * 100 + 1e-9) / 100
    return (
        f"{most - at:.3g}",
        f"{warm - most:.3g}",
        f"{down:.2f}",
    ), "Rounded down: a gram more is warmer than allowed."


def _too_warm(s):
    stands, lost = chocolate.crystals_stand_to("dark")
    says = (holding.next_step("dark", Quantity(at, "degC")).sentence for at in s[4])
    return tuple(says), f"Crystals of dark chocolate stand to {stands:g} °C; above {lost:g} °C they are lost in time."


def _log(_s):
    return ("a log cannot say: the smear decides",), "It shows temperatures at which temper is made and kept."


KEYS = {
    "02": {
        1: Key("", _bands),
        2: Key("kg °C g °C", _seed, uses=(5,)),
        3: Key("%", _share),
        4: Key("°C °C", _degrees),
        5: Key("- °C - - -", _balance, uses=(2,)),
        6: Key("°C", _wet),
    },
    "02b": {
        1: Key("kg kg", _loads),
        2: Key("°C °C", _halved),
        3: Key("kg °C °C °C -", _topped),
        4: Key("°C °C", _too_warm),
        5: Key("", _log),
    },
}
