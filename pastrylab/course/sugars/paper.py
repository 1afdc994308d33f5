"""The key to lesson 04's sheet on paper."""

from pastrylab.ground.quantities import Quantity
from pastrylab.school.paper_key import Key
from pastrylab.trade.sugars import inversion


def _label(_s):
    return (None, None, None), "From the label or the supplier's sheet; write down whose."


def _inverted(s):
    (sucrose,) = s[2]
    whole, half = (inversion.invert_yield(Quantity(sucrose, "g"), share).m_as("g") for share in (1.0, 0.5))
    return (f"{whole:.1f}", f"{half:.1f}", "the water each molecule takes up"), ""


def _sour(s):
    less, more = s[3]
    rates = [inversion.inversion_rate(ph, "90 degC", 0.7).m_as("1/min") for ph in (more, less)]
    return (f"{rates[0] / rates[1]:.2g}",), "Each step of pH towards 7 makes it ten times slower."


def _grain(s):
    sugar, water, _, more, over = s[4]
    holds = sugar / water * over
    return (
        f"{100 * sugar / (sugar + water):.3g}",
        f"{max(0.0, more - holds):g}",
    ), f"{over:g} g of water hold {holds:g} g."


def _boiling(s):
    shows, _, asked, _ = s[5]
    to = asked - (100 - shows)
    said = f"It shows {100 - shows:g} °C too little in water: the same comes off the recipe."
    return (f"{to:g} °C ({1.8 * to + 32:.0f} °F)",), said


def _soda(_s):
    return ("it foams up at once in hot, acid syrup", "and boils over"), "Below 80 °C (176 °F), a tall pan, in pinches."


KEYS = {
    "04": {
        1: Key("", _label),
        2: Key("g", _inverted),
        3: Key("- -", _sour),
        4: Key("g g °C g g", _grain),
        5: Key("°C °F °C °F", _boiling),
        6: Key("", _soda),
    }
}
