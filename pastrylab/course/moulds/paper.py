"""The key to lesson 06's sheet on paper."""

from pastrylab.ground.quantities import Quantity
from pastrylab.school.paper_key import Key
from pastrylab.trade.moulds import bowl, cavities


def _ball(s):
    (across,) = s[1]
    right = cavities.hemisphere(Quantity(across, "mm")).volume.m_as("mL")
    wrong = cavities.hemisphere(Quantity(2 * across, "mm")).volume.m_as("mL")
    fills = (f"{across / 20:g}", f"{right:.2f}", f"{wrong:.1f}", f"{wrong / right:g}")
    return fills, "Twice the radius: 2 × 2 × 2 times as much."


def _drawing(s):
    wall, room = s[2]
    said = f"Twice as large: a wall of {2 * wall:g} mm all round, the filling to {2 * room:g} mm below the rim, then the cap."
    return (), said


def _shell(s):
    density, shells, empty, full = s[0][0], *s[3]
    grams = (full - empty) / shells
    return (f"{grams:.3g}", f"{grams / density:.2f}"), f"({full:g} − {empty:g}) ÷ {shells:g}; ÷ {density:g}."


def _filling(s):
    cap, many = s[4]
    (across,), (shells, empty, full), (as_set, _, ganache, _) = s[1], s[3], s[0]
    holds = cavities.hemisphere(Quantity(across, "mm")).volume.m_as("mL")
    left = holds - (full - empty) / shells / as_set
    ml = (left - cap) * many
    return (f"{left:.2f}", f"{ml:.0f}", f"{ml * ganache:.0f}"), f"({left:.2f} − {cap:g}) × {many:g}; × {ganache:g}."


def _thicker(_s):
    return (), "Underline a colder mould, more crystals, waiting longer before tipping. The others make it thinner."


def _cast(s):
    good, one, of, holds = s[6]
    share = one / of
    found = bowl.fills(int(good), share, int(holds))
    pieces = -int(-round(good / (1 - share), 9) // 1)
    return (f"{pieces}", f"{found.count}"), f"{good:g} ÷ {1 - share:g}, rounded up; ÷ {holds:g}, rounded up."


def _bowl(_s):
    return (
        "a mould is filled to the brim before it is tipped,",
        "and the last one needs as much",
    ), "What comes back is used again."


KEYS = {
    "06": {
        0: Key("g/mL g/mL g/mL -", None),
        1: Key("mm", _ball),
        2: Key("mm mm", _drawing),
        3: Key("- g g", _shell, uses=(0,)),
        4: Key("mL -", _filling, uses=(0, 1, 3)),
        5: Key("", _thicker),
        6: Key("- - - -", _cast),
        7: Key("", _bowl),
    }
}
