"""The key to lesson 03's sheet on paper."""

from pastrylab.ground.quantities import Quantity
from pastrylab.logs import pan
from pastrylab.school.paper_key import Key
from pastrylab.trade import emulsion, mixing
from pastrylab.trade.formula import Formula

_USES = {"pour": "to pour", "fill": "to fill", "pipe": "to pipe", "roll": "to roll"}
_DARK = "dark couverture 64 %"


def _ratio(s):
    chocolate, cream, _ = s[1]
    ratio = _of(chocolate, cream)
    bands = {use: emulsion.ratio_band("dark", use) for use in _USES}
    fits = [_USES[use] for use, (low, high) in bands.items() if low <= ratio <= high]
    said = "; ".join(f"{use} {low:g} to {high:g}" for use, (low, high) in bands.items())
    return (f"{ratio:.3g}", " or ".join(fits) or "none of them"), f"Habits for dark: {said}."


def _of(chocolate, cream, **more):
    grams = {_DARK: f"{chocolate:g} g", "heavy cream": f"{cream:g} g"}
    grams |= {name.replace("_", " "): f"{mass:g} g" for name, mass in more.items()}
    return Formula(grams).ratio("chocolate", "liquid")


def _wetter(s):
    (chocolate, cream, _), (puree, _, butter, _) = s[1], s[2]
    fills = (_of(chocolate, cream, raspberry_puree=puree), _of(chocolate, cream, butter_unsalted=butter))
    return tuple(f"{one:.3g}" for one in fills), "Puree is a liquid and counts; butter does not, though both soften."


def _water(s):
    cream_share, butter_share, cream, butter = s[3]
    water = cream * cream_share / 100, butter * butter_share / 100
    return (f"{sum(water):g} g",), f"{water[0]:g} + {water[1]:g}."


def _boiled(s):
    before, lost = s[4]
    found = emulsion.boil_off(Quantity(before, "g"), Quantity(before - lost, "g"))
    return (
        f"water, {lost:g} g",
        "there is more of it than the formula has",
    ), f"Only water boils away. {found.sentence}"


def _warmer(s):
    chocolate_at, cream_at, guess = s[5]
    same = Quantity(300, "g")
    found = mixing.mixed(same, Quantity(chocolate_at, "degC"), same, Quantity(cream_at, "degC"), state="tempered")
    at = found.temperature.m_as("degC")
    word = "warmer" if at > guess else "colder"
    return (word, "cream holds more heat in a gram and a degree", "than chocolate"), f"By the sum {at:.1f} °C."


def _limits(_s):
    hot, middle, cold = pan.HOT, pan.MIDDLE, pan.COLD
    hours = pan.FIRST_LIMIT / 60, pan.WHOLE_LIMIT / 60
    degrees = (f"{1.8 * one + 32:.0f} °F" for one in (hot, middle, cold))
    return (f"{hot:g}", f"{middle:g}", f"{hours[0]:g}", f"{cold:g}", f"{hours[1]:g}", *degrees), "Local code prevails."


KEYS = {
    "03": {
        1: Key("g g -", _ratio),
        2: Key("g - g -", _wetter, uses=(1,)),
        3: Key("% % g g", _water),
        4: Key("g g", _boiled),
        5: Key("°C °C °C", _warmer),
        6: Key("", _limits),
    }
}
