"""A whole label as a draft: what the data give, what the person has to fill in, and what has to be looked up first."""

from dataclasses import dataclass

from pastrylab.ground.files import one_look
from pastrylab.ground.units import In, Number, StudentError, takes
from pastrylab.trade import pantry
from pastrylab.trade.formula import Formula
from pastrylab.trade.orders.flavours import Flavour, flavour
from pastrylab.trade.statement.allergens import gathered
from pastrylab.trade.statement.energy import energy
from pastrylab.trade.statement.listing import ingredient_list
from pastrylab.trade.statement.net_weight import stated
from pastrylab.trade.statement.packs import EU, US, entry, law_named
from pastrylab.trade.statement.reserved import filled_chocolate, reserved_names

TO_FILL = ""
_LAW_OF = {US: "21 CFR", EU: "Directive"}
_FAR = 0.25  # our own judgement: more than hands and rejects make
NO_PROMISE = "A draft. The packs in your hand and the law of the place where you sell decide: have it read there."


# What no table can know.
_ASKS = (
    "The lists of sub-ingredients are of invented packs: put those of yours in their place.",
    "How long it keeps, the recipe alone does not tell: have that measured before you print a date.",
    "Whether any allergen got in from bench, mould, bowl or machine, only the one who cleaned them knows.",
)


@dataclass(frozen=True)
class Label:
    """The draft of a label: `lines` of (heading, text), the text "" where the person fills it in; `asks`: what to look up
    before it is printed; `names`: what is known of the reserved names of its chocolate.

    >>> draft = label("dark ganache", 12)
    >>> dict(draft.lines)["Contains"]
    'milk, soybeans'
    """

    name: str
    law: str
    lines: tuple[tuple[str, str], ...]
    asks: tuple[str, ...]
    names: tuple

    @property
    def text(self):
        """The draft as plain text, a line to fill in where something is left to the person."""
        return "\n".join(f"{heading}: {said or '_' * 16}" for heading, said in self.lines)


def grams_of_piece(one):
    """{ingredient: grams} of one piece of a Flavour: its coat and its filling together.

    >>> round(grams_of_piece(flavour("dark ganache"))["heavy cream 36 %"], 2)
    2.71
    """
    grams = {one.couverture: one.shell + one.cap}
    for name, mass in one.filling.items():
        grams[name] = grams.get(name, 0.0) + mass
    return grams


@takes(
    pieces=Number(at_least=1, at_most=10_000, example="12"),
    weighed=In("g", above=0, at_most=200_000, example="161.4 g"),
)
@one_look()
def label(name, pieces=1, law=US, beside=(), weighed=None):
    """The Label of a box of so many pieces of one flavour, by the law of "US" or "EU".

    name: a flavour or a Flavour; beside: other flavours made in the same room that day: what they bring and this one does not
    is named as what may have got in. weighed: the lightest filled box without its wrapping; without it the net weight is
    worked out from the formula. Either is rounded down. Raises StudentError for an unknown flavour or law, part of a piece.

    >>> print(dict(label("hazelnut praline", 12, "EU").lines)["Ingredients"][:60])
    MILK chocolate (sugar, cocoa butter, whole MILK powder, coco
    """
    law, one = law_named(law), name if isinstance(name, Flavour) else flavour(name)
    if pieces != int(pieces):
        raise StudentError(f"{pieces:g} pieces", "whole pieces in a box", "12")
    grams = grams_of_piece(one)
    formula, each = Formula.of_grams(grams), sum(grams.values())
    listed = ingredient_list(formula, law)
    net = stated(each * pieces if weighed is None else weighed, law).text.removeprefix("Net Wt ")
    lines = (
        ("Name", one.name),
        *_of_the_list(listed, _near(grams, beside, law)),
        ("Net weight", net),
        ("Energy in 100 g, an estimate", energy(formula).text),
        *((heading, TO_FILL) for heading in ("Batch", "Made on", "Best before", "Keep", "Made by, with the address")),
    )
    called, weight = tuple(_called(grams, law)), _of_the_weight(each * pieces, weighed)
    asks = (*listed.asks, *called, weight, *_ASKS, *_shares(one.name, listed), NO_PROMISE)
    return Label(one.name, law, lines, asks, _names(one, each, law))


def _of_the_list(listed, near):
    yield "Ingredients", listed.text
    if listed.law == US:
        yield "Contains", listed.contains.removeprefix("Contains: ").rstrip(".") or "none known of"
    if listed.may_contain:
        yield "By their packs, may contain", "; ".join(listed.may_contain)
    if near:
        yield "Made in a room with", ", ".join(near)


def _near(grams, beside, law):
    """Allergens of what is made beside it and not in it, a second kind of nut among them."""
    others = [found if isinstance(found, Flavour) else flavour(found) for found in beside]
    near = dict.fromkeys(name for other in others for name in grams_of_piece(other))
    own = {allergen for name in grams for allergen in entry(name, law).allergens}
    theirs = [allergen for name in near for allergen in entry(name, law).allergens]
    return gathered([allergen for allergen in theirs if allergen not in own], law)


def _names(one, each, law):
    """What is known of the names of its coat; none of one that is no chocolate, or of which nobody knows the kind."""
    try:
        found = [name for name in reserved_names(one.couverture) if name.law.startswith(_LAW_OF[US]) == (law == US)]
        return (*found, *(() if law == US else (filled_chocolate(one.couverture, one.shell + one.cap, each),)))
    except StudentError:
        return ()


def _called(grams, law):
    """What its list calls a chocolate, where the composition does not meet that name."""
    for name in grams:
        if pantry.facts()[pantry.ingredient_name(name)]["family"] != "chocolate":
            continue
        called = entry(name, law).name
        try:
            found = reserved_names(name)
        except StudentError as error:
            yield f"What {name} may be called is not judged here: {error.given}."
            continue
        for one in found:
            if one.law.startswith(_LAW_OF[law]) and called in _names_in(one.name) and one.met is not True:
                yield f"The list calls {name} {called}. {one.text}"


def _names_in(name):
    """The names that one standard reserves: of "semisweet or bittersweet chocolate" both."""
    first, _, second = name.partition(" or ")
    return {first if first.endswith("chocolate") else f"{first} chocolate", second} - {""}


def _of_the_weight(planned, weighed):
    if weighed is None:
        return "Weigh the filled boxes: the lightest of them, without its wrapping, is what may be stated."
    if abs(weighed - planned) > _FAR * planned:
        return (
            f"The box weighs {weighed:.0f} g and its formula makes {planned:.0f} g: look at the scale and the count, "
            "and take the wrapping off."
        )
    return "The weight is that of the box you weighed: is it the lightest, without its wrapping?"


def _shares(name, listed):
    """In the EU an ingredient that the name names stands with its share, as used: Regulation 1169/2011, Article 22."""
    if listed.law != EU:
        return
    words = [word for word in name.casefold().split() if len(word) > 3]
    named = [line for line in listed.lines if any(word in line.entry.name.casefold() for word in words)]
    shares = "; ".join(f"{line.entry.name} {line.share:.0%}".replace("%", " %") for line in named)
    said = "What the name or the picture names has to stand with its share in the list (Article 22)"
    yield f"{said}; as weighed in: {shares}." if named else f"{said}."
