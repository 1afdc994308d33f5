"""The key to lesson 08's sheet on paper."""

from pastrylab.school.paper_key import Key
from pastrylab.trade.costing import prices


def _pack(_s):
    return (None, None, None, None), "Price ÷ grams × 1000; a tenth of that."


def _peel(s):
    whole, left, need = s[2]
    share = left / (1000 * whole)
    fills = (f"{100 * share:.3g}", f"{need / share:.0f}", f"{need * share:.0f}")
    return (*fills, f"after peeling only {need * share * share:.4g} g are left"), f"{need:g} ÷ {share:g}."


def _food_cost(s):
    cost, percent, added, margin, _ = s[3]
    right = float(prices.price_for(f"{cost:.2f}", f"{percent:g} %").amount)
    why = f"{added:.2f} is the cost and {percent:g} % of it"
    return (
        f"{right:.2f}",
        f"{why};",
        f"at {margin:.2f} the cost is {100 * cost / margin:.0f} %",
    ), f"{cost:.2f} ÷ {percent / 100:g}."


def _margin(s):
    cost, price = s[4]
    gained = price - cost
    return (
        f"{100 * gained / price:.3g}",
        f"{100 * gained / cost:.3g}",
    ), f"{gained:.2f} of {price:.2f}; {gained:.2f} on {cost:.2f}."


def _even(s):
    fixed, gained = s[5]
    boxes = prices.break_even(f"{fixed:g}", f"{gained:g}", "0")
    return (f"{boxes}", f"{fixed - (boxes - 1) * gained:g}"), f"{fixed:g} ÷ {gained:g}, rounded up."


def _discount(s):
    price, cost = s[6]
    return (f"{100 * (price - cost) / price:.3g}", "twice nothing is nothing, and twice the work"), ""


KEYS = {
    "08": {
        1: Key("g", _pack),
        2: Key("kg g g", _peel),
        3: Key("- % - - -", _food_cost),
        4: Key("- -", _margin),
        5: Key("- -", _even),
        6: Key("- -", _discount),
    }
}
