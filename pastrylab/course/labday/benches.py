"""Benches of lesson 09: the Larkmoor order, nuts first in a machine, a ganache without its night, one's own lab day, a label."""

from pastrylab.course.labday.label_bench import LabelBench
from pastrylab.course.labday.make_up_sheet import MakeUpBench
from pastrylab.course.labday.nuts import DONE, ORDERS, OneMachine
from pastrylab.course.labday.order_bench import OrderBench, hours_in_words, opening
from pastrylab.course.labday.own_day import OwnDay
from pastrylab.page.bench import Bench, Control
from pastrylab.page.cards import GuessCard
from pastrylab.trade.orders import kitchen, larkmoor
from pastrylab.trade.orders.day import MACHINE
from pastrylab.trade.planning.steps import clock

_LESSON = "09"


def guess_begin():
    """The guess before the order is planned: in the kitchen of the sheets, as the bench has it."""
    there = kitchen()
    order = " and ".join(", ".join(f"{n} {name}" for name, n in opening(there).items()).rsplit(", ", 1))
    lab = there.lab
    return GuessCard(
        _LESSON,
        "begin",
        f"{order} are fetched when the lab closes: {clock(lab.end)}. Pairs: {lab.teams}. Tempering machines: "
        f"{lab.machines.get(MACHINE, 0)}. Open {hours_in_words(lab)}. How many hours before the boxes are fetched must the "
        "first hand be at work, at the latest? Commit to a number before you look.",
        "5 h",
        most=f"{(lab.end - lab.hours[0][0]) / 60:g} h",
    )


def order_bench():
    """An order in the kitchen of the sheets, planned when asked."""
    return OrderBench()


def _short(order):
    """An order of flavours as a narrow list shows it: the first word of each, nuts for hazelnut."""
    return ", ".join(name.split()[0] for name in order.split(", then ")).replace("hazelnut", "nuts")


def nuts_bench():
    """One machine and three flavours, hazelnut first."""
    controls = (
        Control("each", "Casting a flavour takes", "min", 10, 75, 5, 40),
        Control("kind", "Wiping for another couverture", "min", 5, 40, 5, 25),
        Control("allergen", "Taking apart and washing", "min", 30, 70, 5, 50),
    )
    choices = (
        ("order", "Order", [(_short(one), one) for one in ORDERS]),
        ("between_two", "Between two", [(one, one) for one in reversed(DONE)]),
    )
    legend = (
        "Each bar is a flavour in the machine, crossed bars are cleaning. Dark and raspberry are cast in the same couverture, "
        "hazelnut in milk couverture. All three contain milk and soy. Minutes are common practice, no source."
    )
    return Bench(OneMachine(), controls, legend, choices)


def no_night_bench():
    """An order to be made and fetched within one day, at Larkmoor."""
    return OwnDay("4 boxes of 12 dark ganache\n3 boxes of 12 raspberry ganache", "7:00-18:30", larkmoor())


def own_bench():
    """Your own order in your own lab."""
    return OwnDay()


def make_up_bench():
    """The sheet of who was absent: numbers of one's own, the same skills."""
    return MakeUpBench()


def label_bench():
    """The draft of a label for one flavour of the day."""
    return LabelBench()
