"""A line of an order as a person writes it: pieces or boxes and a flavour, in any order of words."""

import difflib
import re

from pastrylab.ground.grammar import read_text
from pastrylab.ground.names import plain_name
from pastrylab.ground.units import Share, StudentError

LINE = "60 dark ganache, or 5 boxes of 12 dark ganache"
_REJECTS = Share(at_most=None, below=1, example="10 %, or 2 in 25")
_OF = r"\s*(?:of|with|à|a|x|×|@|holding)?\s*"
_BOX = r"(?:x\s*)?(?:box(?:es)?|bag(?:s)?|tray(?:s)?|bx\.?|bxs\.?)"
_EACH = r"(?P<each>[0-9]+)\b(?:\s*(?:pieces?|pcs?\.?|pc\.?|ea\.?|each))?"
_BOXES = re.compile(rf"(?P<boxes>[^a-z]*\S)\s*{_BOX}{_OF}{_EACH}(?P<rest>.*)", re.I)
_BOXES_LAST = re.compile(rf"(?P<rest>[^\W\d_].*?)\s*[:;,=-]?\s*(?P<boxes>[0-9]+)\s*{_BOX}{_OF}{_EACH}", re.I)
_TIMES = re.compile(r"(?P<boxes>[0-9]+)\s*[x×*]\s*(?P<each>[0-9]+)(?P<rest>\s+[^\W\d_].*)", re.I)
_COUNT = (
    r"(?P<count>(?:[0-9½¼¾][0-9½¼¾/.,'\u2009\u202f\xa0 ]*)?[0-9½¼¾]\s*"
    r"(?:dozen|dozens|doz\.?|dz\.?|pieces?|pcs?\.?|pc\.?|ct\.?|each|ea\.?)?)"
)
_FIRST = re.compile(rf"{_COUNT}\s*(?:x|×|of|\*|;|:|,)?\s*(?P<name>[^\W\d_].*)", re.I)
_LAST = re.compile(rf"(?P<name>[^\W\d_].*?)\s*[:;,=x×-]?\s*{_COUNT}", re.I)
_NO_EACH = re.compile(rf"[0-9]+\s*{_BOX}\s+(?:of\s+|with\s+)?[^\W\d_].*|[^\W\d_].*?[0-9]+\s*{_BOX}", re.I)
_WORDS = ((r"^half a doz(?:en)?\b", "6"), (r"^(?:a|one) (?=doz|box)", "1 "), (r"^an? (?=order of )", ""))
_SHORTEST = 3  # letters of a word that may stand for a longer one


def read_line(line, known):
    """(flavour, pieces) of one line of an order, with `known` the names of flavours. Raises StudentError saying what is
    missing.

    Part of a flavour's name will do where no other has it, and the beginning of its words: "rasp", "hazel".

    >>> read_line("rasp. ganache, 2 boxes à 12", ["dark ganache", "raspberry ganache"])
    ('raspberry ganache', 24)
    """
    for words, digits in _WORDS:
        line = re.sub(words, digits, line, flags=re.I)
    boxed = _BOXES.fullmatch(line) or _TIMES.fullmatch(line) or _BOXES_LAST.fullmatch(line)
    if boxed:
        name = re.sub(r"^(?:pieces?\s+)?(?:of\s+)?", "", boxed["rest"].strip(" ;,:-"), flags=re.I)
        return named_in(name, known), _whole(boxed["boxes"]) * _whole(boxed["each"])
    if _NO_EACH.fullmatch(line):
        raise StudentError("boxes, and not how many are in each", "pieces in a box", "5 boxes of 12 dark ganache")
    one = _FIRST.fullmatch(line) or _LAST.fullmatch(line)
    if one is None:
        raise StudentError("no flavour with a number", "how many, and of what", LINE)
    return named_in(one["name"].strip(" ;,:=-"), known), _whole(one["count"])


def _whole(text):
    bare = re.sub(r"\b(dozens?|doz\.?|dz\.?)$", "dozen", text.strip(" ;,:"), flags=re.I)
    bare = re.sub(r"\s*(?:ct|ea|each)\.?$", "", bare, flags=re.I)
    typed = read_text(bare, bare="piece")
    number = typed.number * (12 if typed.unit == "dozen" else 1)
    if typed.unit not in ("", "piece", "dozen") or number != int(number) or number < 1:
        raise StudentError(f"{text.strip()}", "a whole number of pieces, dozens or boxes", LINE)
    return int(number)


def named_in(name, known):
    """The one name among `known` that is meant: the whole of it, or words of it, or how these begin. Raises StudentError.

    >>> named_in("hazel", ["hazelnut praline", "dark ganache"])
    'hazelnut praline'
    """
    wanted = plain_name(name)
    within = [one for one in known if plain_name(one) == wanted]
    within = within or [one for one in known if _begin(wanted.split(), plain_name(one).split())]
    if len(within) != 1:
        which = "which of them" if within else "one that the kitchen makes"
        near = difflib.get_close_matches(wanted, [plain_name(one) for one in known], 1)
        near = near or difflib.get_close_matches(wanted, [word for one in known for word in plain_name(one).split()], 1)
        meant = f"60 {near[0]}" if near and not within else LINE
        raise StudentError(f"'{name[:40]}' for a flavour", f"{which}: {', '.join(within or known)}", meant)
    return within[0]


def _begin(wanted, words):
    return bool(wanted) and all(any(_is(part.strip("."), word) for word in words) for part in wanted)


def _is(part, word):
    return part in (word, f"{word}s") or (len(part) >= _SHORTEST and word.startswith(part))


def read_rejects(text):
    """The share of what is cast that is not good, from 0 to below 1: "10 %", "0.1", "2 in 25", "1 out of 12".

    Raises StudentError for what is no share.

    >>> read_rejects("2 in 25")
    0.08
    """
    one = re.fullmatch(
        r"\s*([0-9]{1,6})\s*(?:pieces?\s*)?(?:in|of|out of|from|per)\s*([0-9]{1,6})\s*(?:pieces?)?\s*", text
    )
    if one and int(one[2]):
        return _REJECTS.floats("'Rejects'", f"{int(one[1]) / int(one[2]):.12g}")
    return _REJECTS.floats("'Rejects'", text)
