"""What an order takes of an earlier day, and what is over at its end, in sentences."""

from pastrylab.ground.units import Quantity, both
from pastrylab.trade.orders.quantities import grams_up

_OLD = (
    "What was left over has its date on it, or it is thrown away: your local food code says how long a filling keeps."
)


def left_over_words(found):
    """What some Quantities take of what was brought, and what comes back at the end: a list of sentences.

    >>> from pastrylab.trade.orders import larkmoor
    >>> left_over_words(larkmoor().takes("24 dark"))[-1]
    'Over at the end: 205 g (7.23 oz) of dark couverture 64 % from the bowl.'
    """
    fillings = [(f"{one.name} filling", one.brought, one.aside) for one in found.flavours if one.brought]
    brought = fillings + [(bowl.couverture, bowl.brought, bowl.aside) for bowl in found.bowls if bowl.brought]
    said = []
    if brought:
        used = "; ".join(f"{_grams(there - aside)} of {name}" for name, there, aside in brought if there > aside)
        said.append(f"Used of what was left over: {used}. {_OLD}" if used else _OLD)
    over = [
        f"{_grams(bowl.comes_back)} of {bowl.couverture} from the bowl" for bowl in found.bowls if bowl.comes_back >= 1
    ]
    over += [f"{_grams(aside)} of {name} that this order has no use for" for name, _, aside in brought if aside >= 1]
    over += [
        f"{one.cast - one.pieces} more pieces of {one.name}, rejects among them"
        for one in found.flavours
        if one.cast > one.pieces
    ]
    if over:
        said.append(f"Over at the end: {'; '.join(over)}.")
    return said


def _grams(grams):
    return both(Quantity(grams_up(grams), "g"))
