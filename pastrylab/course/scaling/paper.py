"""The key to lesson 01's sheet on paper."""

from pastrylab.ground.quantities import Q
from pastrylab.school.paper_key import Key

_NAMES = ("couverture", "cream", "butter")


def _pounds(s):
    pounds, ounces = s[1]
    pound, ounce = Q("1 lb").m_as("g"), Q("1 oz").m_as("g")
    whole = pounds * pound + ounces * ounce
    return (
        f"{pound:.1f}",
        f"{pound / ounce:.0f}",
        f"{whole:.0f}",
    ), f"{pounds:g} × {pound:.1f} + {ounces:g} × {ounce:.2f} g."


def _fall(s):
    start, end, first, second, *_ = s[2]
    fall = start - end
    said = "32 comes off a reading. A fall is a difference: ÷ 1.8, and nothing off."
    return (f"{fall:g}", f"{fall / 1.8:.3g}", f"{first:g} and {second:g}, the readings"), said


def _percents(s):
    parts = s[3][:4]
    whole = sum(parts)
    return (*(f"{100 * part / whole:.3g}" for part in parts), "yes"), f"Each over {whole:g} g."


def _shelf(s):
    times = [have / need for have, need in zip(s[4], s[3], strict=False)]
    least = min(times)
    first = _NAMES[times.index(least)]
    makes = f"{least * sum(s[3][:4]):g}"
    return (*(f"{one:.3g}" for one in times), first, makes), f"The fewest times decide: {least:.3g} × the formula."


def _peeled(s):
    need, loss, wrong = s[5]
    buy = need / (1 - loss / 100)
    why = f"{loss:g} % of what you buy is lost: of {wrong:g} g only {wrong * (1 - loss / 100):g} g are left"
    return (f"{buy:.0f}", why), f"{need:g} ÷ {1 - loss / 100:g}."


def _acid(s):
    step, asked = s[6]
    small = step / asked
    says = (
        f"One step is {100 * small:.0f} % of it: take a scale of 0.1 g or finer, or weigh it out of a stock solution."
    )
    return (f"not on this scale. {says}",), ""


KEYS = {
    "01": {
        1: Key("lb oz", _pounds),
        2: Key("°F °F - - - -", _fall),
        3: Key("g g g g -", _percents),
        4: Key("g g g", _shelf, uses=(3,)),
        5: Key("g % g", _peeled),
        6: Key("g g", _acid),
    }
}
