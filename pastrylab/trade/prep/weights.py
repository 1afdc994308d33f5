"""What a line of a prep list weighs: its amount as grams, by the density or by the piece, or the question that is open."""

import re
from dataclasses import dataclass, replace

from pastrylab.ground.numbers import like_thousands, written_out
from pastrylab.ground.spellings import SMALL
from pastrylab.ground.units import Quantity, StudentError, show
from pastrylab.trade.pantry import facts, mass_of
from pastrylab.trade.prep.amounts import amounts_in

# Grams of one piece. USDA SR28, NDB 01123: 4.86 large eggs fill a cup of 243 g; 01125 and 01124, yolk and white of a large
# egg: from memory.
PIECES = {"whole egg": 50.0, "egg yolk": 17.0, "egg white": 33.0}
_STICK = 113.4  # g, a US stick of butter is a quarter of a pound (453.592 g / 4)
STICKS = re.compile(r"\bsticks?\b(?: of\b)?", re.I)
LEAVES = re.compile(r"\b(?:sheet|lea(?:f|ve)|tub|can|tin|bag|bottle|jar|pack(?:et)?|box|bar)(?:e?s)?\b(?: of\b)?", re.I)
_MOST = 1e6  # g, a tonne
_WHOLE = ("mass", "volume")
_ANSWERS = (*_WHOLE, "percent")  # a list in percent may be answered in percent


@dataclass(frozen=True)
class Question:
    """What a line still needs: of what ("ingredient", "amount"), in a sentence, and some answers to choose from.

    >>> from pastrylab.trade.prep.prep_list import read_list
    >>> read_list("chocolate: 300 g").lines[0].asks.about
    'ingredient'
    """

    about: str
    sentence: str
    choices: tuple[str, ...] = ()


@dataclass(frozen=True)
class Line:
    """A line as it was typed and as it was read.

    kind: "part", "heading", "step", "total" or "left out". ingredient: as ingredients.csv names it, "" until known; grams:
    a plain float, None until known; percent: where the amount is one; said: how it was read, in words; note: what stood
    beside name and amount; asks: a Question, or None.

    >>> from pastrylab.trade.prep.prep_list import read_list
    >>> line = read_list("3/4 cup heavy cream").lines[0]
    >>> line.ingredient, round(line.grams), line.said
    ('heavy cream 36 %', 179, '3/4 cup by its density, US cup, fluid')
    """

    typed: str
    kind: str = "part"
    ingredient: str = ""
    grams: float | None = None
    percent: float | None = None
    said: str = ""
    note: str = ""
    asks: Question | None = None


def how_much(line, sentence, choices=()):
    """The line with a question for its amount.

    >>> how_much(Line("cream", ingredient="heavy cream 36 %"), "how much is it").asks.sentence
    'how much is it?'
    """
    return replace(line, asks=Question("amount", f"{sentence}?", tuple(choices)))


def in_grams(grams, digits=4):
    """A mass as a line writes it.

    >>> in_grams(178.45, 3)
    '178 g'
    """
    return show(Quantity(grams, "g"), digits)


def weighed(line, one, text="", unit=""):
    """A Line that knows its ingredient, with its grams or with the question that leads to them.

    one: its Amount; text: the line, which may say what was counted; unit: what a number without one is in, or "".

    >>> weighed(Line("honey 40", ingredient="honey"), amounts_in("40")[0], unit="g").grams
    40.0
    """
    if one.typed.number < 0:
        return how_much(line, f"'{one.text}' is below nothing: how much {line.ingredient} is it")
    if one.kind in _WHOLE and one.typed.quantity.m_as("g" if one.kind == "mass" else "mL") > _MOST:
        return how_much(line, f"'{one.text}' is more than a kitchen holds: how much is it")
    if one.kind == "mass":
        plain = re.fullmatch(r"[^+x]*[^k]g", one.text)
        return replace(line, grams=one.grams, said="" if plain else f"{one.text} is {in_grams(one.grams)}")
    if one.kind == "percent":
        return replace(line, percent=one.typed.number)
    return _by_density(line, one) if one.kind == "volume" else _by_piece(line, one, text, unit)


def from_text(line, text):
    """A Line by an amount that was answered; one that cannot be weighed asks again.

    >>> from_text(Line("a little honey", ingredient="honey"), "1 tbsp").said
    '1 tbsp by its density, US cup, fluid'
    """
    amounts = amounts_in(text)
    if len(amounts) != 1 or amounts[0].text.strip() != text.strip().rstrip(".") or amounts[0].kind not in _ANSWERS:
        sentence = f"'{text[:40]}' is no amount to weigh: how much {line.ingredient} is '{line.typed}'"
        return how_much(line, sentence, amounts[0].choices if amounts else ())
    return weighed(line, amounts[0])


def _by_density(line, one):
    try:
        grams = float(mass_of(one.typed.quantity, line.ingredient).m_as("g"))
    except StudentError:
        return how_much(line, f"Nothing is tabled for a measure of {line.ingredient}: what does {one.text} of it weigh")
    form = facts()[line.ingredient]["density_form"]
    how = f" by its density, {form}" if form else " by its density"
    return replace(line, grams=grams, said=f"{one.text}{how}")


def _with_unit(number, unit):
    """A number that had no unit, with one: as it stands, or both ways it can then be read."""
    doubtful = like_thousands(number, "." if unit in SMALL else "")
    return written_out(*doubtful, unit, small=True) if doubtful else (f"{number} {unit}",)


def _by_piece(line, one, text, unit):
    number = one.typed.number * (12 if one.typed.unit == "dozen" else 1)
    sticks = "butter" in line.ingredient and STICKS.search(text)
    each = _STICK if sticks else PIECES.get(line.ingredient)
    if each and (one.typed.unit or sticks or re.search(r"egg|yolk|white", text, re.I)):
        size = "a US stick" if sticks else "large, without shell"
        grams = number * each
        return replace(line, grams=grams, said=f"{number:g} at about {each:g} g each, {size}")
    if one.typed.unit or LEAVES.search(text):
        return how_much(line, f"What do the {number:g} of {line.ingredient} weigh together")
    if unit:
        return from_text(line, f"{one.text} {unit}")
    choices = tuple(choice for unit in ("g", "oz", "mL", "cup") for choice in _with_unit(one.text, unit))
    asked = how_much(line, f"'{line.typed}' has no unit: how much {line.ingredient} is it", choices)
    return replace(asked, asks=replace(asked.asks, about="unit"))
