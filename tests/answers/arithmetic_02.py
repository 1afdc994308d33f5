"""Lesson 02 again in plain arithmetic: numbers of exercise_values.csv in, a number or an option's name out.

Nothing here calls the package. `ANSWERS` holds the answers, `ON_THE_WAY` what the worked solution shows before them, as
(number, unit). Shares are in percent, as in the file of values.
"""

# Beckett (ed.), Industrial Chocolate Manufacture and Use, 4th ed. 2009, pp. 667-668: chocolate and cocoa butter.
HEAT = 1.59  # kJ to a kilogram and a degree
MELTING = 157 * 0.396  # kJ/kg; the couverture of 64 % holds 39.6 % of cocoa butter (ingredients.csv, from its label)
BAND = (31, 32)  # degC, the working band of dark chocolate: McGee, On Food and Cooking, 2004
WIDEST = 32.4  # degC, 90.4 degF: common practice, no source
STANDS, LOST = (
    33.8,
    34,
)  # degC: melting point of form V, Wille & Lutton 1966; Greweling, Chocolates and Confections, 2007
PROBE = 0.5  # degC, from the prompt

_MODEL = {"heat_capacity": (HEAT, "kJ/(kg*K)"), "latent": (MELTING, "kJ/kg")}

# --- heat to melt out ---------------------------------------------------------------------------------------------


def heat_to_melt_out(batch, start, end):
    return batch * HEAT * (end - start) + batch * MELTING


def _heat_to_melt_out_shown(batch, start, end):
    melting = batch * MELTING
    warming = heat_to_melt_out(batch, start, end) - melting
    return _MODEL | {"rise": (end - start, "delta_degC"), "warming": (warming, "kJ"), "melting": (melting, "kJ")}


# --- what to melt for each load -----------------------------------------------------------------------------------


def _loads(order, bowl):
    count = 1
    while order / count > bowl:
        count += 1
    return count


def melt_per_load(order, bowl, share):
    """Of 100 + share parts of a load, 100 are the melt."""
    return 1000 * order / _loads(order, bowl) * 100 / (100 + share)


def _melt_per_load_shown(order, bowl, share):
    melt = melt_per_load(order, bowl, share)
    each = 1000 * order / _loads(order, bowl)
    return {"loads": (_loads(order, bowl), ""), "each": (each, "g"), "seed": (melt * share / 100, "g")}


# --- seed for a bowl ----------------------------------------------------------------------------------------------


def _takes_up(seed_at, target, melted_share):
    """kJ that a kilogram of seed takes up."""
    return HEAT * (target - seed_at) + MELTING * melted_share / 100


def seed_for_a_bowl(batch, melted_at, seed_at, target, melted_share):
    return 1000 * batch * HEAT * (melted_at - target) / _takes_up(seed_at, target, melted_share)


def _seed_for_a_bowl_shown(batch, melted_at, seed_at, target, melted_share):
    return _MODEL | {
        "fall": (melted_at - target, "delta_degC"),
        "climb": (target - seed_at, "delta_degC"),
        "given_up": (batch * HEAT * (melted_at - target), "kJ"),
        "taken_up": (_takes_up(seed_at, target, melted_share), "kJ/kg"),
        "habit": (25, "percent"),  # common practice, no source
    }


# --- where the bowl ends up ---------------------------------------------------------------------------------------


def mixture_temperature(batch, melted_at, seed, seed_at, melted_share):
    """All heat counted from the seed's own temperature, the melting paid for, shared out over the bowl."""
    heat = batch * HEAT * (melted_at - seed_at) - seed / 1000 * MELTING * melted_share / 100
    return seed_at + heat / (HEAT * (batch + seed / 1000))


def _mixture_temperature_shown(batch, melted_at, seed, seed_at, melted_share):
    weighted = mixture_temperature(batch, melted_at, seed, seed_at, 0)
    drop = weighted - mixture_temperature(batch, melted_at, seed, seed_at, melted_share)
    return _MODEL | {
        "weighted": (weighted, "degC"),
        "swallowed": (seed / 1000 * MELTING * melted_share / 100, "kJ"),
        "drop": (drop, "delta_degC"),
    }


# --- a share of what ----------------------------------------------------------------------------------------------


def share_of_the_bowl(melt, share):
    """Of 100 parts of the whole, `share` are seed and the rest is the melt."""
    return 1000 * melt * share / (100 - share)


def _share_of_the_bowl_shown(melt, share):
    return {"melt_share": (100 - share, "percent"), "whole": (1000 * melt * 100 / (100 - share), "g")}


# --- top up -------------------------------------------------------------------------------------------------------


def top_up(bowl, bowl_at, hot):
    """What the bowl gains on its way to the warm end of the band, the top-up gives."""
    return 1000 * bowl * (BAND[1] - bowl_at) / (hot - BAND[1])


def _top_up_shown(bowl, bowl_at, hot):
    return {
        "most": (BAND[1], "degC"),
        "rise": (BAND[1] - bowl_at, "delta_degC"),
        "fall": (hot - BAND[1], "delta_degC"),
    }


# --- read a log ---------------------------------------------------------------------------------------------------


def _passes(degrees, start, fall, every):
    return (start - degrees) / fall * every


def read_a_log(start, fall, every):
    return _passes(BAND[0], start, fall, every) - _passes(BAND[1], start, fall, every)


def _read_a_log_shown(start, fall, every):
    """Rows are counted in tenths of a degree, whole numbers."""
    rows = range(round(10 * start), 10 * BAND[0] - 1, -round(10 * fall))
    return {
        "low": (BAND[0], "degC"),
        "high": (BAND[1], "degC"),
        "rows_inside": (sum(row <= 10 * BAND[1] for row in rows), ""),
        "enters": (_passes(BAND[1], start, fall, every), "min"),
        "leaves": (_passes(BAND[0], start, fall, every), "min"),
    }


# --- what now -----------------------------------------------------------------------------------------------------


def what_now(bowl_at, **given):
    """The probe against the bowl: lost where it is so even half a degree colder, in its band where the band may hold it."""
    if bowl_at - PROBE > LOST:
        return "seed again"
    return "work on" if bowl_at - PROBE <= WIDEST and bowl_at + PROBE <= STANDS else "smear, stir down"


def _what_now_shown(batch, bowl_at, seed_at, target, melted_share):
    return {
        **_MODEL,
        "error": (PROBE, "delta_degC"),
        "lost": (LOST, "degC"),
        "seed": (seed_for_a_bowl(batch, bowl_at, seed_at, target, melted_share), "g"),
        "without_latent": (seed_for_a_bowl(batch, bowl_at, seed_at, target, 0), "g"),
    }


ANSWERS = {
    "02.heat-to-melt-out": heat_to_melt_out,
    "02.melt-per-load": melt_per_load,
    "02.seed-for-a-bowl": seed_for_a_bowl,
    "02.mixture-temperature": mixture_temperature,
    "02.read-a-log": read_a_log,
    "02.share-of-the-bowl": share_of_the_bowl,
    "02.top-up": top_up,
    "02.what-now": what_now,
}
ON_THE_WAY = {
    "02.heat-to-melt-out": _heat_to_melt_out_shown,
    "02.melt-per-load": _melt_per_load_shown,
    "02.seed-for-a-bowl": _seed_for_a_bowl_shown,
    "02.mixture-temperature": _mixture_temperature_shown,
    "02.read-a-log": _read_a_log_shown,
    "02.share-of-the-bowl": _share_of_the_bowl_shown,
    "02.top-up": _top_up_shown,
    "02.what-now": _what_now_shown,
}
