"""A class a kind of answer, by the word an exercise names it with."""

from pastrylab.school.kinds.amounts import DifferenceKind, QuantityKind, ReadingKind
from pastrylab.school.kinds.choice import ChoiceKind
from pastrylab.school.kinds.money import MoneyKind
from pastrylab.school.kinds.plain import NumberKind, ShareKind

KINDS = {
    "quantity": QuantityKind,
    "reading": ReadingKind,
    "difference": DifferenceKind,
    "share": ShareKind,
    "number": NumberKind,
    "money": MoneyKind,
    "choice": ChoiceKind,
}
