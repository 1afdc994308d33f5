"""Allergens as a label names them: a line of their own in the US, set apart within the list in the EU.

US: 21 USC 343(w), "Contains" right after the list, by the name of the food source, the kind of nut with it. EU:
Regulation 1169/2011, Article 21 and Annex II, the name of the substance set apart in the list by its type; capitals do it.
"""

import re

from pastrylab.trade.pantry import EU_ALLERGENS, US_ALLERGENS
from pastrylab.trade.statement.packs import US, entry, law_named

# What a list may call a substance of Annex II that goes by no kind.
_CALLED = {
    "milk": ("milk",),
    "eggs": ("eggs?",),
    "soybeans": ("soya", "soy", "soybeans?"),
    "peanuts": ("peanuts?",),
    "sesame": ("sesame",),
    "fish": ("fish",),
    "sulphur dioxide and sulphites": ("sulphur dioxide", "sulphites?"),
}


def allergens_of(ingredients, law=US):
    """The allergens of several ingredients as the law names them, each once, in the order of its list: a tuple.

    Kinds of one sort stand together. Traces are not in it. Raises StudentError for an unknown ingredient or law.

    >>> allergens_of(["hazelnuts", "heavy cream", "almonds"])
    ('milk', 'tree nuts (almonds, hazelnuts)')
    """
    law = law_named(law)
    return gathered([one for name in ingredients for one in entry(name, law).allergens], law)


def gathered(allergens, law):
    """Allergens each once and in the order of the law, the kinds of one sort together.

    >>> gathered(["tree nuts (pistachios)", "milk", "tree nuts (almonds)"], "US")
    ('milk', 'tree nuts (almonds, pistachios)')
    """
    kinds = {}
    for one in allergens:
        sort, _, kind = one.partition(" (")
        kinds.setdefault(sort, set()).update({kind.removesuffix(")")} - {""})
    order = US_ALLERGENS if law == US else EU_ALLERGENS
    return tuple(
        f"{sort} ({', '.join(sorted(kinds[sort]))})" if kinds[sort] else sort
        for sort in sorted(kinds, key=lambda sort: order.index(sort) if sort in order else len(order))
    )


def set_apart(text, allergens):
    """A piece of a list with the names of its allergens (as the EU lists them) in capitals.

    >>> set_apart("butter (milk)", ("milk",)), set_apart("cocoa butter", ("milk",))
    ('butter (MILK)', 'cocoa butter')
    """
    for one in allergens:
        for word in _words(one):
            text = re.sub(rf"(?<![a-z]){word}(?![a-z])", lambda found: found[0].upper(), text, flags=re.IGNORECASE)
    return text


def named_in(text, allergen):
    """Whether a piece of a list names an allergen of the EU at all.

    >>> named_in("butter", "milk"), named_in("emulsifier (soya lecithin)", "soybeans")
    (False, True)
    """
    return set_apart(text.lower(), (allergen,)) != text.lower()


def _words(allergen):
    sort, _, kinds = allergen.partition(" (")
    if "which kind" in kinds or not kinds:
        return _CALLED.get(sort, (re.escape(sort),))
    return tuple(f"{re.escape(kind.strip().removesuffix('s'))}s?" for kind in kinds.removesuffix(")").split(","))
