"""The givens of a kitchen, for formulas that are typed."""

from types import SimpleNamespace

from pastrylab.ground.money import Money
from pastrylab.ground.units import Q, Quantity

KITCHEN = SimpleNamespace(
    couverture=Q("600 g"),
    cream=Q("0.4 kg"),
    pieces=40.0,
    boxes=12.0,
    share=Quantity(25.0, "percent"),
    hot=Q("45 degC"),
    cold=Q("20 degC"),
    warm_us=Q("90 degF"),
    fall=Quantity(5.0, "delta_degC"),
    price=Money(9, "USD"),
    pack=Q("2 kg"),
    side=Q("4 cm"),
    wait=Q("90 min"),
)
