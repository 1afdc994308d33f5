"""The key to lesson 05's sheet on paper."""

from pastrylab.school.paper_key import Key
from pastrylab.trade.keeping import food_law


def _jar(s):
    (air,) = s[1]
    return (f"{air / 100:g}",), "At rest, the air over a filling is as damp as the filling's water is free."


def _lowers(_s):
    said = (
        "Underline invert syrup and glycerol. Only what dissolves in the water lowers it: not fat, not cocoa, no sugar "
    )
    said += "that stays solid; and cold slows what grows, it does not bind water."
    return (), said


def _dissolved(s):
    sugar, water, of, whole = s[3]
    fills = (f"{of * sugar / water:.3g}", f"{of * sugar / whole:.3g}")
    return (*fills, "only the water dissolves it; fat and solids do not"), f"{sugar:g} ÷ {water:g}."


def _reading(s):
    error, shown, ph = s[4]
    found = food_law.food_code("B", shown, ph, error)
    return (f"{found.aw:.3f}", found.status), "The meter's error goes on top: the side on which more can grow."


def _estimate(_s):
    return (
        "none",
        "an estimate is no reading:",
        "a class needs a meter",
    ), "Not even one far below a limit: the table asks what a meter shows."


def _days(_s):
    return ("no number of",), "It says what can grow fast, not how long anything keeps. Local code and a laboratory do."


KEYS = {
    "05": {
        1: Key("%", _jar),
        2: Key("", _lowers),
        3: Key("g g g g", _dissolved),
        4: Key("- - -", _reading),
        5: Key("-", _estimate),
        6: Key("", _days),
    }
}
