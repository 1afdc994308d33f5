"""Vanilla pods: what they add to a batch, when a bulk pack beats pods bought singly, and when a spent one is dry."""

from dataclasses import dataclass
from fractions import Fraction

from pastrylab.ground import careful
from pastrylab.ground.money import common_currency, decimal_of, money
from pastrylab.ground.units import In, Quantity, StudentError, show, takes
from pastrylab.trade.keeping.organisms import GROWTH_LIMITS
from pastrylab.trade.purchasing.packs import usable_share, whole_number

# Pods as bought are a fifth to a third water (from memory): dry ones weigh at most so much of it. Of what they weigh they
# may lose so much in a day and be said to have stopped. Both our own judgement, no source. Stopped alone is not dry: in
# damp air pods stop early.
_DRY, _STILL = 0.85, 0.02


def pod_cost(price, pods=1, usable=1, used=1, credit=0):
    """What vanilla pods add to a batch (Money): used x (price / (pods x usable) - credit).

    price: of the pack; pods: in the pack; usable: share of them good enough; used: pods in the batch (a half
    is 0.5); credit: worth of one spent pod's second use, such as the vanilla sugar it replaces (rinse it and dry
    it fully first: a pod that stays damp moulds).
    Raises StudentError, also for a credit above the pod's own cost: a spent pod never is worth a fresh one.

    >>> print(pod_cost("$54", pods=20, usable="90 %", used=2, credit="$0.50"))
    $5.00
    """
    good = whole_number(pods, "pods", example="25") * usable_share(usable, "the usable share")
    each = money(price, "the price of the pods") / good
    back = money(credit, "the credit of a spent pod")
    if back > each:
        raise StudentError(f"a credit of {back} for a pod that cost {each}", "less than a fresh pod costs", "$0.40")
    number = decimal_of(used, "the pods used", "2")
    if number < 0:
        raise StudentError(f"{used} for the pods used", "a number of at least 0", "2")
    return (each - back) * number


def pods_until_bulk_pays(single_price, bulk_price, pods, usable=1):
    """Good pods used (int) from which the bulk pack costs no more than pods bought singly.

    single_price: of one pod, above 0; bulk_price: of the whole pack, which is paid for; pods: in it, a whole number;
    usable: share of them good enough. Raises StudentError where the pack is too dear even when it is used up.

    >>> pods_until_bulk_pays("$4.20", "$54", 20, "90 %")
    13
    """
    single, bulk = money(single_price, "one pod", above=0), money(bulk_price, "the bulk pack")
    common_currency(single, bulk)
    good = Fraction(whole_number(pods, "pods", example="25")) * Fraction(usable_share(usable, "the usable share"))
    needed = -int(-Fraction(bulk.amount) // Fraction(single.amount))
    if needed > good:
        raise StudentError(
            f"a pack of {pods} at {bulk} beside single pods at {single}, which never pays",
            "a pack that is cheaper by the good pod",
            "25 pods for $45, single pods at $4",
        )
    return needed


@dataclass(frozen=True)
class Dried:
    """Whether spent pods are dry: True, False, or None where the scale cannot tell; and a sentence.

    >>> pods_dry("30 g", "24.7 g", "24.6 g").verdict
    True
    """

    verdict: bool | None
    sentence: str


_PODS = In("g", above=0, example="30 g")


@takes(fresh=_PODS, day_before=_PODS, today=_PODS, error=In("g", at_least=0, example="0.1 g"))
def pods_dry(fresh, day_before, today, error="0.1 g"):
    """Whether rinsed pods have dried far enough for sugar, by three weighings of the same pods: a Dried.

    fresh: before they went into the cream; day_before, today: while they dry, a day apart; error: of one weighing. Dry
    means at most 85 % of fresh, and no more than 2 % lighter than a day ago (our own judgement, no source). The scale's
    error is taken against the reader, so a single pod on a coarse scale stays open. Nothing is said of what may grow in
    the jar: only a measured water activity tells. Raises StudentError for pods that got heavier in drying by more than
    the scale explains.

    >>> pods_dry("3 g", "2.6 g", "2.5 g").verdict is None  # one pod on a scale of 0.1 g
    True
    """
    lost = day_before - today
    if lost < -2 * error - 1e-9:
        raise StudentError(
            f"{today:.4g} g after {day_before:.4g} g for pods that dry",
            "the same pods, not heavier than a day before",
            "25 g",
        )
    # Both weighings of a comparison may be out, each by its part.
    light = careful.at_most(round(today - _DRY * fresh, 9), 0.0, (1 + _DRY) * error)
    still = careful.at_least(round(today - (1 - _STILL) * day_before, 9), 0.0, (2 - _STILL) * error)
    found = careful.every((light, still))
    return Dried(found, _of_pods(found, light, today / fresh, lost, error))


def _of_pods(found, light, of_fresh, lost, error):
    limit = next(one.low for one in GROWTH_LIMITS if one.organism == "xerophilic moulds")
    damp = f"Damp pods mould, in sugar too: some moulds grow from a water activity of {limit:g} on."
    if found:
        return (
            f"Dry as far as a scale can tell: {100 * of_fresh:.0f} % of fresh, and no longer losing. Into dry sugar, in a jar "
            "that closes. Pods that steeped in cream bring milk with them: write it on the jar."
        )
    if found is None:
        enough = show(Quantity(4 * error / _STILL, "g"), 2)
        return f"Cannot tell: the scale is too coarse for so little. Dry on, and weigh {enough} of pods or more together. {damp}"
    if light is False:
        return (
            f"Not dry: {100 * of_fresh:.0f} % of fresh, and dry pods weigh {100 * _DRY:.0f} % or less. Dry on. {damp}"
        )
    return f"Not dry: {show(Quantity(lost, 'g'), 2)} lost since the day before. Dry on. {damp}"
