"""A formula as people type it, cut into numbers, words and signs."""

import re
import unicodedata
from dataclasses import dataclass

from pastrylab.ground.errors import StudentError
from pastrylab.ground.numbers import HUGE, VULGAR, halves, like_thousands

LONGEST = 300  # characters of one formula
_MOST = 120  # tokens of one formula
_PLAIN = str.maketrans(dict.fromkeys("×·⋅∙✕✖∗", "*") | dict.fromkeys("÷∕⁄➗", "/") | dict.fromkeys("−–—➖", "-"))
_FRACTIONS = "".join(VULGAR)
_NEXT = re.compile(
    r"(?P<space>\s+)"
    rf"|(?P<number>(?:[0-9]+\s?)?[{_FRACTIONS}]|[0-9]+(?:[.,'][0-9]+)*|[.][0-9]+)"
    r"|(?P<word>[Δ∆]?°\s?[CFcf](?![^\W_])|[Δ∆][CF](?!\w)|%|(?![²³])[^\W\d](?:(?![²³])\w)*)"
    r"|(?P<money>[$€£])"
    r"|(?P<sign>\*\*|[-+*/^();,²³])"
)
_INSTEAD = {
    ":": "for a division write ÷ or /",
    "=": "a formula alone; a sum with a name of its own belongs into the column 'sums'",
    "<": "no question inside a formula: min, max, round up and round down choose",
    ">": "no question inside a formula: min, max, round up and round down choose",
    "[": "round brackets",
    "]": "round brackets",
    "{": "the name of a given without its braces",
    "}": "the name of a given without its braces",
    "?": "- for minus, * and / for × and ÷: the spreadsheet could not save the sign that stood there",
    "\N{REPLACEMENT CHARACTER}": "- for minus, * and / for × and ÷: the spreadsheet could not save the sign that stood there",
    "#": "the formula typed without = in front: the spreadsheet took it for one of its own",
}
_KNOWN = "numbers, names of givens, + − × ÷ ^ and round brackets"


@dataclass(frozen=True)
class Token:
    """A piece of a formula. kind: "number", "word", "money" (a currency's sign) or "sign"; text: as read; start, end: where
    it stands in the tidied formula; number: its value."""

    kind: str
    text: str
    start: int
    end: int
    number: float = 0.0


def tidied(text):
    """A formula with one sign for each thing: * / - for × ÷ −, plain blanks, no = in front.

    >>> tidied("= (cream × 2) ÷ pieces")
    '(cream * 2) / pieces'
    """
    plain = "".join(
        c if c in VULGAR or c in "²³°" else unicodedata.normalize("NFKC", c) for c in text.translate(_PLAIN)
    )
    return re.sub(r"\s+", " ", plain).strip().removeprefix("=").strip()


def tokens(source):
    """The Tokens of a tidied formula, a list. Raises StudentError for a sign that no formula has.

    >>> [token.text for token in tokens("15 g / pieces")]
    ['15', 'g', '/', 'pieces']
    """
    if len(source) > LONGEST:
        raise StudentError(
            f"a formula of {len(source)} characters", f"at most {LONGEST}; name a part of it in the column 'sums'"
        )
    found, at = [], 0
    while at < len(source):
        match = _NEXT.match(source, at)
        if not match:
            raise _unknown(source, at)
        kind, text = match.lastgroup, match.group()
        if kind == "number":
            found.append(Token(kind, text, at, match.end(), _number(text)))
        elif kind != "space":
            found.append(Token(kind, "^" if text == "**" else text, at, match.end()))
        at = match.end()
    if len(found) > _MOST:
        raise StudentError(
            f"a formula of {len(found)} numbers, names and signs",
            f"at most {_MOST}; name a part of it in the column 'sums'",
        )
    return found


def _unknown(source, at):
    sign = source[at]
    return StudentError(f"'{source[:40]}', where '{sign}' has no meaning", _INSTEAD.get(sign, _KNOWN), "(a + b) / 2")


def _number(text):
    """The value of digits as typed. Raises StudentError where they can be read two ways or are no number."""
    if text[-1] in VULGAR:
        return float(text[:-1].strip() or 0) + VULGAR[text[-1]]
    parts = like_thousands(text, ",")
    if parts:
        whole, part = parts
        raise StudentError(
            f"'{text}', which can be read two ways", f"{whole}{part} or {whole}.{part}", f"{whole}{part}"
        )
    pair = halves(text)
    if pair is None:
        raise StudentError(f"'{text}', which is no number", "digits with one decimal mark", "12.5")
    value = float(f"{pair[0] or 0}.{pair[1] or 0}")
    if value > HUGE:
        raise StudentError(f"{text[:20]}, a very large number", "a number that fits a kitchen", "250")
    return value
