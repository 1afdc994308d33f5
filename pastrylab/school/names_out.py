"""Names taken out of texts: the whole name of a student in any order and spelling becomes the number, a part of one too
where it is no ordinary word. What is left is looked for in another way than it was taken out."""

import functools
import html
import re
import unicodedata
from dataclasses import dataclass
from itertools import permutations
from urllib.parse import quote, unquote

from pastrylab.school.class_list import ClassList

_WORD = re.compile(r"[^\W\d_]+")
_BETWEEN = r"[\W_]{0,3}?"
_MOST_IN_ANY_ORDER = 3  # words of a name; longer ones as written, and the last one first
_SHORTEST_PART = 3  # letters: "de" and "li" are parts of other words' neighbours too often


@dataclass(frozen=True)
class Names:
    """The names of a class list, the words that are ordinary ones, a frozenset in lower case, and what students typed as a
    name: (text, number).

    >>> names = Names(ClassList(()), frozenset())
    >>> names.out_of("nobody's text")
    "nobody's text"
    """

    roll: ClassList
    ordinary: frozenset = frozenset()
    typed: tuple = ()

    def out_of(self, text):
        """A text with the number of the list in place of each name; "17 or 18" for one that two have.

        >>> from pastrylab.school.class_list import Student
        >>> Names(ClassList((Student("17", "Ana Doe"),))).out_of("DOE, Ana and ana_doe@example.org, so says Ana")
        '17 and 17@example.org, so says 17'
        """
        for place in sorted(self._met_in(text)):
            pattern, number = self._patterns[place]
            text = pattern.sub(number, text)
        return text

    def touches(self, text):
        """Whether a name, or a part of one that is taken out, may stand in a text.

        >>> from pastrylab.school.class_list import Student
        >>> names = Names(ClassList((Student("17", "Ana Doe"),)))
        >>> names.touches("ana_doe.zip"), names.touches("a banana")
        (True, False)
        """
        return bool(self._met_in(text))

    def _met_in(self, text):
        return {place for word in set(_words_of(text)) for place in self._index.get(word, ())}

    def out_of_a_path(self, name):
        """One part of a path, without names, parts of names too whether or not they are ordinary words.

        >>> from pastrylab.school.class_list import Student
        >>> Names(ClassList((Student("17", "Rose Doe"),)), frozenset({"rose"})).out_of_a_path("rose_01.jsonl")
        '17_01.jsonl'
        """
        name = self.out_of(name)
        stem, dot, ending = name.rpartition(".") if "." in name else (name, "", "")
        for word in self._parts.keys() & self.ordinary:
            stem = _pattern((word,)).sub(" or ".join(self._parts[word]), stem)
        return f"{stem}{dot}{ending}"

    def left_in(self, text):
        """The numbers of students whose whole name stands in a text, in whatever escapes it is written. A tuple.

        >>> from pastrylab.school.class_list import Student
        >>> Names(ClassList((Student("17", "Zoë Doe"),))).left_in('{"who": "doe, zo\\\\u00eb"}')
        ('17',)
        """
        plain = f" {' '.join(_words_of(text))} "
        words = set(plain.split())
        return tuple(
            number for forms, number in self._sought if any(form in plain for first, form in forms if first in words)
        )

    def parts_in(self, text):
        """Parts of names that stand in a text: a sorted tuple, in lower case. Ordinary words among them.

        >>> from pastrylab.school.class_list import Student
        >>> Names(ClassList((Student("17", "Rose Doe"),)), frozenset({"rose"})).parts_in("a rose is a rose")
        ('rose',)
        """
        return tuple(sorted(set(_words_of(text)) & {_folded(word) for word in self._parts}))

    @functools.cached_property
    def _named(self):
        """{words of a name: [numbers]}."""
        found = {}
        for one in self.roll.students:
            words = tuple(word.casefold() for word in _WORD.findall(unicodedata.normalize("NFC", one.name)))
            if words:
                found.setdefault(words, []).append(one.number)
        return found

    @functools.cached_property
    def _parts(self):
        """{a word of a name: [numbers]}."""
        found = {}
        for words, numbers in self._named.items():
            for word in {word for word in words if len(word) >= _SHORTEST_PART}:
                found.setdefault(word, []).extend(numbers)
        return found

    @functools.cached_property
    def _patterns(self):
        """[(pattern, what takes its place)], whole names before parts, long ones first."""
        return [(_pattern(words), " or ".join(numbers)) for words, numbers in self._taken_out]

    @functools.cached_property
    def _index(self):
        """{a word, or several written as one: [places of the patterns that may find it]}."""
        found = {}
        for place, (words, _numbers) in enumerate(self._taken_out):
            folded = [_folded(word) for word in words]
            for start in range(len(folded)):
                for end in range(start + 1, len(folded) + 1):
                    found.setdefault("".join(folded[start:end]), []).append(place)
        return found

    @functools.cached_property
    def _taken_out(self):
        """[(words in an order, numbers)], as the patterns."""
        whole = [(order, numbers) for words, numbers in self._named.items() for order in _orders(words)]
        whole.sort(key=lambda one: -sum(map(len, one[0])))
        parts = [((word,), numbers) for word, numbers in self._parts.items() if word not in self.ordinary]
        for text, number in self.typed:
            words = tuple(_WORD.findall(unicodedata.normalize("NFC", text.casefold())))
            if len("".join(words)) >= _SHORTEST_PART and not self.ordinary.issuperset(words):
                parts.append((words, [number]))
        return [*whole, *parts]

    @functools.cached_property
    def _sought(self):
        """[([(first word, form with a space on either side)], number)]."""
        found = []
        for words, numbers in self._named.items():
            orders = [[_folded(word) for word in order] for order in _orders(words)]
            forms = {f" {' '.join(order)} " for order in orders} | {f" {''.join(order)} " for order in orders}
            firsts = [(form.split()[0], form) for form in forms]
            found += [(firsts, number) for number in numbers]
        return found


def _orders(words):
    return list(permutations(words)) if len(words) <= _MOST_IN_ANY_ORDER else [words, (words[-1], *words[:-1])]


def _pattern(words):
    spelled = _BETWEEN.join("".join(map(_spellings, word)) for word in words)
    return re.compile(rf"(?<![^\W\d_]){spelled}(?![^\W\d_])", re.IGNORECASE)


def _spellings(letter):
    """A letter as a pattern: itself, decomposed, without its mark, and as JSON, HTML and addresses write it."""
    if letter.isascii():
        return re.escape(letter)
    forms = {}
    for one in (letter, letter.upper()):
        code = ord(one[0])
        entity = html.entities.codepoint2name.get(code)
        forms |= dict.fromkeys([one, unicodedata.normalize("NFD", one), quote(one), f"\\u{code:04x}", f"&#{code};"])
        forms |= dict.fromkeys([f"&#x{code:x};", f"&{entity};"] if entity else [f"&#x{code:x};"])
    bare = "".join(sign for sign in unicodedata.normalize("NFD", letter) if not unicodedata.combining(sign))
    return f"(?:{'|'.join(map(re.escape, [*forms, bare]))})"


def _folded(text):
    """Lower case without marks."""
    if text.isascii():
        return text.casefold()
    apart = unicodedata.normalize("NFKD", text.casefold())
    return "".join(sign for sign in apart if not unicodedata.combining(sign))


def _words_of(text):
    """The words of a text after every escape in it is undone, lower case without marks."""
    return _WORD.findall(_plain(text))


def _plain(text):
    for _again in range(2):  # escapes within escapes
        text = re.sub(r"\\u([0-9a-fA-F]{4})", lambda found: chr(int(found[1], 16)), html.unescape(unquote(text)))
    return _folded(text)
