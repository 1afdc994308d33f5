"""The ingredient a line of a prep list names: found where it is clear, else the ones to choose from."""

import difflib
import re
from dataclasses import dataclass, field

from pastrylab.trade.pantry import facts, plain_name

# What does not change which ingredient it is: its state, its cut, how it is measured.
_OF_NO_MATTER = set(
    "a an the of and at in some good best quality organic fresh freshly strained squeezed soft softened cold cool cooled "
    "chilled warm warmed hot melted chopped finely fine roughly coarsely coarse diced cubed cut cubes sliced grated sifted "
    "unsifted packed firmly tempered drops buttons discs pieces piece large room temperature temp more extra about approx "
    "approximately around roughly circa ca each plus".split()
)
_BESIDE_A_SHARE = {"cocoa", "cacao", "solids", "fat", "min", "minimum", "milkfat", "butterfat", "m.f", "mf", "bf"}
VAGUE = re.compile(
    r"\b(?:pinch(?:es)?|dash(?:es)?|handfuls?|knobs?|splash(?:es)?|drops? of|few|little|some|to taste|as needed|q\.?s\.?)"
    r"(?!\w)(?: of\b)?",
    re.I,
)
_SHORT = {"choc": "chocolate", "chocs": "chocolate", "couv": "couverture"}
_KINDS = ("dark", "milk", "white")


def _words(name):
    """The words of a name, each in the singular, "64%" as "64" and "%"."""
    bare = re.sub(r"[^\w%.\-/' ]", " ", plain_name(name))
    return [_single(word.strip(".-'")) for word in bare.split() if word.strip(".-'")]


def _single(word):
    word = _SHORT.get(word, word)
    if word.endswith("ies"):
        return word[:-3] + "y"
    return word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word


@dataclass(frozen=True)
class Names:
    """Every name of every ingredient in force: `known` by the name as compared, `by_words` by its words in any order."""

    known: dict
    by_words: dict
    families: dict = field(default_factory=dict)

    @classmethod
    def in_force(cls):
        """The names of ingredients.csv and of what a reader has added.

        >>> Names.in_force().find("64 % dark chocolate, chopped")
        'dark couverture 64 %'
        """
        table = facts()
        pairs = [(also, name) for name, row in table.items() for also in (name, *row["also"])]
        by_words = {}
        for also, name in pairs:
            by_words.setdefault(frozenset(_words(also)), set()).add(name)
        return cls(
            {plain_name(also): name for also, name in pairs},
            by_words,
            {name: row["family"] for name, row in table.items()},
        )

    def exact(self, name):
        """The ingredient that bears this name, its words in any order, or "".

        >>> Names.in_force().exact("whipping cream heavy"), Names.in_force().exact("chocolate")
        ('heavy cream 36 %', '')
        """
        for text in (name, name.replace("-", " "), name.replace("-", "")):
            fitting = self.by_words.get(frozenset(_words(text)), set())
            if plain_name(text) in self.known or len(fitting) == 1:
                return self.known.get(plain_name(text)) or next(iter(fitting))
        return ""

    def find(self, name):
        """The ingredient a name means beyond doubt, or "": what follows a comma and words of its state are passed over.

        >>> [Names.in_force().find(name) for name in ("butter, soft", "cream 36 % fat", "chocolate")]
        ['butter unsalted', 'heavy cream 36 %', '']
        """
        parts = name.split(",")
        for many in range(len(parts), 0, -1):
            text = ",".join(parts[:many])
            found = self.exact(text) or self._bare(text)
            if found:
                return found
        return ""

    def _bare(self, text):
        """Without the words that are of no matter; then by its words and its figure, where one ingredient has them all."""
        words = [
            word for word in re.split(r"[\s,()]+", text) if word and word.casefold().strip(".") not in _OF_NO_MATTER
        ]
        if any(word.casefold() == "couverture" for word in words):
            words = [word for word in words if word.casefold() != "chocolate"]
        if "%" in text:
            words = [word for word in words if word.casefold() not in _BESIDE_A_SHARE] if len(words) > 2 else words
        found = self.exact(" ".join(words))
        if found or not any(re.search(r"\d", word) for word in words):
            return found
        wanted = set(_words(" ".join(words)))
        fitting = self._holding(wanted)
        if len(fitting) != 1 or len(wanted - {"%"}) < 2:
            return ""
        (one,) = fitting
        # A figure tells one cream from another; it does not tell dark chocolate from milk.
        return "" if self.families[one] == "chocolate" and not wanted & set(_KINDS) else one

    def _holding(self, wanted):
        fitting = [ingredients for words, ingredients in self.by_words.items() if wanted and wanted <= words]
        return set().union(*fitting)

    def named_by(self, texts):
        """The ingredients that several texts name, each once, in their order.

        >>> Names.in_force().named_by(["cream", "warm", "butter, soft", "heavy cream"])
        ['heavy cream 36 %', 'butter unsalted']
        """
        return list(dict.fromkeys(filter(None, map(self.find, texts))))

    def held_in(self, text):
        """The ingredient whose name, the longest, stands within a text, or "".

        >>> Names.in_force().held_in("half a cup of honey")
        'honey'
        """
        bare = f" {plain_name(text)} "
        held = [known for known in self.known if f" {known} " in bare]
        return self.known[max(held, key=len)] if held else ""

    def like(self, name, most=8):
        """Ingredients to choose from for a name, the nearest first: those with all its words, with some, spelled like it.

        >>> Names.in_force().like("cream 38 %")[:2]
        ['heavy cream 36 %', 'cream 35 %']
        """
        wanted = set(_words(" ".join(w for w in re.split(r"[\s,()]+", name) if w.casefold() not in _OF_NO_MATTER)))
        figures = [float(word) for word in wanted if re.fullmatch(r"\d+(\.\d+)?", word)]
        letters = {word for word in wanted if len(word) > 2 and not re.fullmatch(r"[\d.%]+", word)}
        scores = {}
        for words, ingredients in self.by_words.items():
            common = len(letters & words)
            if common:
                missed = len(letters - words)
                for one in ingredients:
                    by_alias = not letters & set(_words(one))
                    score = (missed, _apart(figures, words), by_alias, len(words))
                    scores[one] = min(scores.get(one, score), score)
        found = sorted(scores, key=scores.get)
        close = difflib.get_close_matches(plain_name(name), self.known, 4, cutoff=0.7)
        return list(dict.fromkeys([*found, *(self.known[one] for one in close)]))[:most]


def _apart(figures, words):
    """How far the nearest figure of a name lies from the figure typed; 0 where none was typed."""
    theirs = [float(word) for word in words if re.fullmatch(r"\d+(\.\d+)?", word)]
    if not figures:
        return 0.0
    return min((abs(mine - one) for mine in figures for one in theirs), default=50.0)
