"""What a label calls an ingredient, what it is made of in turn, and which allergens it brings."""

import functools
import re
from dataclasses import dataclass

from pastrylab.ground import own
from pastrylab.ground.pack_lists import pack_lists
from pastrylab.ground.units import StudentError
from pastrylab.trade import pantry
from pastrylab.trade.labels.words import parted, read_contents

US, EU = "US", "EU"
LAWS = (US, EU)
UNSAID = "what the pack of "  # the pantry's mark on a list that nobody wrote down, or that may hold more


@dataclass(frozen=True)
class Entry:
    """One ingredient as a label writes it: its `name`, its `contents` ("" where it is one thing), its `allergens` by the
    words of the law, what it `may_contain`, and `asks`: what only the pack can tell, in sentences. `known`: whether there is
    a list to go by; where there is none, its allergens are not all known either.

    >>> entry("hazelnut praline").contents
    'hazelnuts, sugar'
    """

    ingredient: str
    name: str
    contents: str
    allergens: tuple[str, ...]
    may_contain: str
    asks: tuple[str, ...]
    known: bool = True

    @property
    def text(self):
        """The name, and in brackets what it is made of."""
        return f"{self.name} ({self.contents})" if self.contents else self.name


def law_named(law):
    """ "US" or "EU" however it is written. Raises StudentError for another law.

    >>> law_named("eu")
    'EU'
    """
    known = str(law).strip().upper()
    if known not in LAWS:
        raise StudentError(f"'{str(law)[:40]}' as the law", "US or EU: for another, ask your authority", US)
    return known


def entry(ingredient, law=US):
    """The Entry of an ingredient for a label in the US or in the EU.

    Its allergens are those of ingredients.csv and those that its list names. An ingredient of one's own goes by its own
    label. Raises StudentError for an unknown ingredient or law.

    >>> entry("butter", "EU").text, entry("butter", "EU").allergens
    ('butter (milk)', ('milk',))
    """
    law, known = law_named(law), pantry.ingredient_name(ingredient)
    name, listed, asks, there = _written(known, law)
    contents, may = parted(listed)
    column, place = ("allergens_us", 0) if law == US else ("allergens_eu", 1)
    said = [one for one in pantry.facts()[known][column] if not one.startswith(UNSAID)]
    read = _contents(listed)  # a line of allergens at its end counts too
    named = (read.allergens_us, read.allergens_eu)[place]
    allergens = tuple(dict.fromkeys((*said, *(one for one in named if one not in said))))
    asks += [
        f"Which kind of {one.partition(' (')[0]} {known} brings is on its pack." for one in said if "which kind" in one
    ]
    return Entry(known, name, contents, allergens, may, tuple(asks), there)


# Clauses of a note in the table of ingredients that are about a label.
_ABOUT_LABELS = re.compile(r"(read|see) the|label decides|name it on|sulphite|allergen|vegetarian|infant")
_contents = functools.lru_cache(maxsize=512)(read_contents)


def noted(ingredient):
    """What the table of ingredients notes about the label of one, a sentence each; its own pack knows better.

    >>> noted("raspberry puree")
    ('raspberry puree: a bought puree may carry sugar or sulphites: read the label.',)
    """
    known = pantry.ingredient_name(ingredient)
    clauses = [clause.strip() for clause in pantry.facts()[known]["note"].split(";")]
    return tuple(f"{known}: {clause}." for clause in clauses if _ABOUT_LABELS.search(clause))


def _written(known, law):
    """(name, list, asks, whether there is a list) as the table has it, or as the reader's own label does."""
    if row := pack_lists().by("ingredient").get(known):
        there = ("name_us", "contents_us") if law == US else ("name_eu", "contents_eu")
        return *(row[column] for column in there), [], True
    for row in own.rows("ingredients").rows:
        if row.name == known and row.cells.get("contents"):
            asks = [f"The list of {known} is as you typed it: compare it with the pack, allergens above all."]
            listed = str(row.cells["contents"])
            # All in capitals, nothing could be set apart by them.
            return known, listed.lower() if listed.isupper() else listed, asks, True
    return known, "", [f"What {known} is made of, and its allergens, are on its pack: copy the list from there."], False
