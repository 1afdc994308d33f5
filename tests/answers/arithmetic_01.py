"""Lesson 01 again in plain arithmetic: numbers of exercise_values.csv in, a number or an option's name out.

Nothing here calls the package. `ANSWERS` holds the answers, `ON_THE_WAY` what the worked solution shows before them as
(number, unit), `WRITTEN` what it shows as text, whole or the first number of it. Shares are in percent, as in the file of values.
"""

from fractions import Fraction

OUNCE = 28.349523125  # g, NIST Handbook 44, appendix C; sixteen of them are a pound
CUP = 8 * 29.5735295625  # mL, the same appendix
HONEY = 1.4329  # g/mL; USDA SR28, NDB 19296: 339 g to a cup of 236.588 mL

# --- pounds and ounces --------------------------------------------------------------------------------------------


def pounds_and_ounces(pounds, ounces, held):
    return (16 * pounds + ounces) * OUNCE - held


def _pounds_and_ounces_shown(pounds, ounces, held):
    asked = pounds_and_ounces(pounds, ounces, 0)
    return {
        "metric_pound": (500, "g"),
        "from_pounds": (pounds_and_ounces(pounds, 0, 0), "g"),
        "from_ounces": (pounds_and_ounces(0, ounces, 0), "g"),
        "asked": (asked, "g"),
    }


def _pounds_and_ounces_written(pounds, ounces, held):
    return {
        "pound": 16 * OUNCE,
        "ounce": OUNCE,
        "decimal": float(f"{pounds:.0f}.{ounces:.0f}"),
        "pounds_in_grams": 16 * pounds * OUNCE,
        "ounces_in_grams": ounces * OUNCE,
        "asked_in_grams": (16 * pounds + ounces) * OUNCE,
    }


# --- a fall in degrees --------------------------------------------------------------------------------------------


def a_fall_in_degrees(start, fall):
    """From freezing to boiling are 180 steps of Fahrenheit and 100 of Celsius: to Fahrenheit, down, and back again."""
    return (start * 180 / 100 + 32 - fall - 32) * 100 / 180


def _as_reading(fall):
    return (fall - 32) * 5 / 9


def _a_fall_in_degrees_shown(start, fall):
    return {"steps": (180 / 100, ""), "as_reading": (_as_reading(fall), "degC")}


def _a_fall_in_degrees_written(start, fall):
    """Three digits: a probe shows tenths, and the fall has one digit before the point."""
    seen, fall_c = (f"{degrees:.3g} °C" for degrees in (_as_reading(fall), fall * 100 / 180))
    return {"start_read": start, "offset": 32, "seen": seen, "fall_c": fall_c}


# --- a cup of honey -----------------------------------------------------------------------------------------------


def a_cup_of_honey(cups):
    return cups * CUP * HONEY


def _a_cup_of_honey_shown(cups):
    return {"cup": (CUP, "mL"), "density": (HONEY, "g/mL"), "volume": (cups * CUP, "mL"), "metric_cup": (250, "mL")}


def _a_cup_of_honey_written(cups):
    """As the cups stand on their rack: whole ones, halves and quarters; one cup or less is no plural."""
    whole, part = divmod(cups, 1)
    parts = [f"{whole:.0f}"] * (whole > 0) + [{0: "", 0.25: "1/4", 0.5: "1/2", 0.75: "3/4"}[part]] * (part > 0)
    return {"measure": f"{' '.join(parts)} {'cup' if cups <= 1 else 'cups'}"}


# --- what runs out first ------------------------------------------------------------------------------------------


def _lasts(given):
    """How many batches each part of the formula lasts, the scarcest first."""
    return sorted((given[f"{part}_held"] / given[part], part) for part in ("couverture", "cream", "butter"))


def _batch(given):
    return given["couverture"] + given["cream"] + given["butter"]


def what_runs_out_first(**given):
    return _batch(given) * _lasts(given)[0][0]


def _what_runs_out_first_shown(**given):
    lasts = {part: times for times, part in _lasts(given)}
    pile = min(lasts, key=lambda part: given[f"{part}_held"])
    shown = {f"times_{part}": (times, "") for part, times in lasts.items()}
    return shown | {"batch": (_batch(given), "g"), "times_least": (lasts[pile], ""), "times": (min(lasts.values()), "")}


# --- from percent to pieces ---------------------------------------------------------------------------------------


def percent_to_pieces(couverture, pieces, piece, loss):
    """Of 100 g made, 100 - loss leave the bag; of 100 g made, so many are couverture."""
    return pieces * piece / (100 - loss) * couverture


def _percent_to_pieces_shown(couverture, pieces, piece, loss):
    made = percent_to_pieces(100, pieces, piece, loss)
    return {"piped": (pieces * piece, "g"), "left": (100 - loss, "percent"), "made": (made, "g")}


# --- a slip of the hand -------------------------------------------------------------------------------------------


def a_slip_of_the_hand(couverture, cream, gelatin, slip, allowed):
    """Exactly, so that a slip on the limit is inside: weighed again is what is off by more than is allowed."""
    slip, allowed = Fraction(str(slip)), Fraction(str(allowed)) / 100
    again = [part for part, mass in (("couverture", couverture), ("gelatin", gelatin)) if slip > allowed * int(mass)]
    return {0: "leave both", 1: f"the {again[0] if again else ''}", 2: "both"}[len(again)]


def _a_slip_of_the_hand_shown(couverture, cream, gelatin, slip, allowed):
    batch = couverture + cream + gelatin
    shares = (("on_batch", batch), ("on_couverture", couverture), ("on_gelatin", gelatin))
    return {"batch": (batch, "g")} | {name: (round(100 * (slip / mass), 2), "percent") for name, mass in shares}


def _a_slip_of_the_hand_written(couverture, cream, gelatin, slip, allowed):
    return {"slip_g": slip, "gelatin_g": gelatin}


ANSWERS = {
    "01.pounds-and-ounces": pounds_and_ounces,
    "01.a-fall-in-degrees": a_fall_in_degrees,
    "01.a-cup-of-honey": a_cup_of_honey,
    "01.what-runs-out-first": what_runs_out_first,
    "01.percent-to-pieces": percent_to_pieces,
    "01.a-slip-of-the-hand": a_slip_of_the_hand,
}
ON_THE_WAY = {
    "01.pounds-and-ounces": _pounds_and_ounces_shown,
    "01.a-fall-in-degrees": _a_fall_in_degrees_shown,
    "01.a-cup-of-honey": _a_cup_of_honey_shown,
    "01.what-runs-out-first": _what_runs_out_first_shown,
    "01.percent-to-pieces": _percent_to_pieces_shown,
    "01.a-slip-of-the-hand": _a_slip_of_the_hand_shown,
}
WRITTEN = {
    "01.pounds-and-ounces": _pounds_and_ounces_written,
    "01.a-fall-in-degrees": _a_fall_in_degrees_written,
    "01.a-cup-of-honey": _a_cup_of_honey_written,
    "01.a-slip-of-the-hand": _a_slip_of_the_hand_written,
}
