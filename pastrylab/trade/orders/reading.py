"""An order as a person writes it: a line a flavour, pieces or boxes, in any order of words."""

import re

from pastrylab.ground.grammar import read_text
from pastrylab.ground.names import plain_name
from pastrylab.ground.units import StudentError
from pastrylab.trade.orders.flavours import flavours

_LINE = "60 dark ganache, or 5 boxes of 12 dark ganache"
_MOST = 1_000_000
_BOXES = re.compile(
    r"(?P<boxes>[^a-z]*\S)\s*(?:x\s*)?(?:box(?:es)?|bag(?:s)?|tray(?:s)?)\s*(?:of|with|à|a|x|@)?\s*(?P<each>[0-9]+)\b(?P<rest>.*)",
    re.I,
)
_COUNT = r"(?P<count>[0-9½¼¾/.,'  ]*[0-9½¼¾]\s*(?:dozen|doz\.?|dz\.?|pieces?|pcs?\.?|pc\.?|ct|each)?)"
_FIRST = re.compile(rf"{_COUNT}\s*(?:x|×|of|\*)?\s*(?P<name>[^\W\d_].*)", re.I)
_LAST = re.compile(rf"(?P<name>[^\W\d_].*?)\s*[:;,=x×-]?\s*{_COUNT}", re.I)


def read_order(text, known=None):
    """{flavour: pieces} of an order, a line a flavour; the same flavour twice is added up. known: names of flavours, None for
    those of the kitchen.

    "60 dark ganache", "hazelnut praline; 48", "3 dozen raspberry ganache", "5 boxes of 12 dark ganache". An empty line and
    one that begins with # are passed over. Part of a flavour's name will do where no other has it. Raises StudentError
    naming the line.

    >>> read_order("5 boxes of 12 dark ganache\\nhazelnut; 4 dozen")
    {'dark ganache': 60, 'hazelnut praline': 48}
    """
    found, known = {}, list(flavours() if known is None else known)
    for number, line in enumerate(text.splitlines(), 1):
        bare = re.sub(r"^\s*[-*•·]\s+", "", line).replace("\t", " ").strip(" ;,.")
        if not bare or bare.startswith("#"):
            continue
        try:
            name, pieces = _ordered(bare, known)
        except StudentError as error:
            raise StudentError(f"line {number}, '{bare[:40]}': {error.given}", error.needed, error.example) from None
        found[name] = found.get(name, 0) + pieces
    if not found:
        raise StudentError("an empty order", "a line a flavour, with how many", _LINE)
    if sum(found.values()) > _MOST:
        raise StudentError(f"{sum(found.values())} pieces", f"at most {_MOST}", _LINE)
    return found


def _ordered(line, known):
    boxed = _BOXES.fullmatch(line)
    if boxed:
        name = boxed["rest"].strip(" ;,:-")
        name = re.sub(r"^(?:pieces?\s+)?(?:of\s+)?", "", name, flags=re.I)
        return _flavour(name, known), _whole(boxed["boxes"]) * _whole(boxed["each"])
    one = _FIRST.fullmatch(line) or _LAST.fullmatch(line)
    if one is None:
        raise StudentError("no flavour with a number", "how many, and of what", _LINE)
    return _flavour(one["name"].strip(" ;,:=-"), known), _whole(one["count"])


def _whole(text):
    typed = read_text(text.strip(" ;,:"), bare="piece")
    number = typed.number * (12 if typed.unit == "dozen" else 1)
    if typed.unit not in ("", "piece", "dozen") or number != int(number) or number < 1:
        raise StudentError(f"{text.strip()}", "a whole number of pieces, dozens or boxes", _LINE)
    return int(number)


def _flavour(name, known):
    wanted = plain_name(name)
    exact = [one for one in known if plain_name(one) == wanted]
    within = exact or [one for one in known if wanted and set(wanted.split()) <= set(plain_name(one).split())]
    if len(within) != 1:
        which = "which of them" if within else "one that the kitchen makes"
        raise StudentError(f"'{name[:40]}' for a flavour", f"{which}: {', '.join(within or known)}", _LINE)
    return within[0]
