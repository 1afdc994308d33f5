"""Vanilla pods: what they add to a batch, and when a bulk pack beats pods bought singly."""

from fractions import Fraction

from pastrylab.ground.money import common_currency, decimal_of, money
from pastrylab.ground.units import StudentError
from pastrylab.trade.purchasing.packs import usable_share, whole_number


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
