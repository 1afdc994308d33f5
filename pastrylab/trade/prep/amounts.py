"""The amounts in a line of a prep list: where each stands, and what the kitchen grammar reads in it."""

import functools
import re
from dataclasses import dataclass

from pastrylab.ground.grammar import dimension
from pastrylab.ground.numbers import VULGAR, like_thousands, written_out
from pastrylab.ground.spellings import COUNTS, UNDECIDED, UNIT_OF
from pastrylab.ground.units import StudentError, Typed, read_text

_DIGIT = "0-9" + "".join(VULGAR)
# A number begins where none goes on, and where no word does: the 64 of "E64" and the 5 of "12,5" begin nothing.
_BEGINS = re.compile(rf"(?<![\w{_DIGIT}])(?<![{_DIGIT}][.,/'-])[-−]?(?=[{_DIGIT}]|[.,][0-9])")
_TIMES = re.compile(rf"(?P<count>[0-9]{{1,3}})\s*[x×*]\s*(?=[{_DIGIT}])", re.I)
_SUM = re.compile(rf"[{_DIGIT}]\s*(?:\*\s*\*|\^|\+|--)[\s*]*[{_DIGIT}]")
_NUMBER_WORD = re.compile(rf"-?[{_DIGIT}.,/' ]*[{_DIGIT}]")
# "200-250 g", "200 to 250 g", "1 or 2 tbsp"; the "45-59 %" of a chocolate's name is none, nor is "1-1/2 cups".
_RANGE = re.compile(
    r"(?<![\d/.,])(?P<low>\d[\d.,]*)\s*(?P<unit>[a-zA-Z]{0,5})\s*(?:-|–|—|\bto\b|\bor\b)\s*(?P<high>\d[\d.,]*)(?![/\d])"
    r"\s*(?P<after>[a-zA-Z%]*)"
)
# "5 g/100 g sugar", "2 g per litre": so much for each of something else. "450 g / 1 lb" is one amount in two units.
_FOR_EACH = re.compile(
    r"(?<=[a-zA-Z. ])\s*(?:/\s*(?:1000|100|10)?|\b(?:per|(?:for|to) (?:each|every))\b\s*(?:1000|100|10|1)?)"
    r"\s*(?P<unit>[a-zA-Z]+)\b",
    re.I,
)
_LONGEST = 7  # words of an amount: "1 lb plus 2 1/2 oz"
_MOST_CUPS = 20  # "85 C" is how warm, "2 C" how many cups


@dataclass(frozen=True)
class Amount:
    """An amount in a text: from `start` to `end`, as `typed`, and what it is: "mass", "volume", "count", "percent", "bare"
    (a number without a unit), "other" (a temperature, a time) or "unclear" (two readings; they are the choices)."""

    start: int
    end: int
    text: str
    kind: str
    typed: Typed | None = None
    choices: tuple[str, ...] = ()

    @property
    def grams(self):
        """A mass in g, a plain float."""
        return float(self.typed.quantity.m_as("g"))

    @property
    def millilitres(self):
        """A volume in mL, a plain float."""
        return float(self.typed.quantity.m_as("mL"))


def amounts_in(text):
    """Every Amount of a text, in its order: "64 % couverture 300 g" has a percentage and a mass.

    >>> [(one.text, one.kind) for one in amounts_in("64 % couverture, 1 lb 2 oz")]
    [('64 %', 'percent'), ('1 lb 2 oz', 'mass')]
    """
    found, at = [], 0
    while begins := _BEGINS.search(text, at):
        one = _amount_at(text, begins.start())
        if one:
            found.append(one)
        at = one.end if one else begins.end() + 1
    return found


def range_in(text):
    """The two ends of a range of amounts, as texts with their unit; () where there is none. A share's range is no amount.

    >>> range_in("200-250 g cream"), range_in("dark chocolate 45-59 %")
    (('200 g', '250 g'), ())
    """
    for found in _RANGE.finditer(text):
        if found["after"] == "%" or text[found.end() :].lstrip().startswith("%"):
            continue
        unit = next((word for word in (found["after"], found["unit"]) if word.casefold() in UNIT_OF), "")
        if unit or not found["unit"]:
            return tuple(f"{found[end].rstrip('.,')} {unit}".strip() for end in ("low", "high"))
    return ()


def sum_in(text):
    """Whether figures of a text are to be added, or worse: "2+3 g", "9**9 g". "2 x 200 g" is no sum, it says how many.

    >>> sum_in("2+3 g sugar"), sum_in("1 cup + 2 tbsp cream")
    (True, False)
    """
    return bool(_SUM.search(text))


def for_each(text):
    """(what stands before, the rest) of a text that gives an amount for each of another; None where it does not.

    >>> for_each("pectin 5 g/100 g sugar"), for_each("510 g / 18 oz cream")
    (('pectin 5 g', '/100 g sugar'), None)
    """
    for found in _FOR_EACH.finditer(text):
        weighed = UNIT_OF.get(found["unit"].casefold(), "piece")
        if weighed not in COUNTS and amounts_in(text[: found.start()]):
            return text[: found.start()].strip(), text[found.start() :].strip()
    return None


def without_range(text):
    """A text without its range of amounts.

    >>> without_range("200-250 g cream")
    'cream'
    """
    return " ".join(_RANGE.sub(" ", text).split()) if range_in(text) else text


def one_amount(texts):
    """The first of several texts where all are one amount, None where two of them differ.

    >>> one_amount(["510 g", "1 lb 2 oz"]), one_amount(["200 g", "250 g"])
    ('510 g', None)
    """
    for other in texts[1:]:
        try:
            read_text(f"{texts[0]} ({other})")
        except StudentError:
            return None
    return texts[0]


def _amount_at(text, start):
    """The longest amount that begins there, or None."""
    times = _TIMES.match(text, start)
    if times:
        each = _amount_at(text, times.end())
        if each and each.kind in ("mass", "volume"):
            typed = Typed(int(times["count"]) * each.typed.number, each.typed.unit, each.typed.step)
            return Amount(start, each.end, text[start : each.end], each.kind, typed)
    ends = [found.end() for found in re.finditer(r"\S+", text[start:])][:_LONGEST]
    doubt = ""
    for end in reversed(ends):
        words = text[start : start + end].rstrip(" ,.;:/")
        try:
            typed = _read(words)
        except StudentError as error:
            doubt = doubt or (error if "two ways" in error.given or "two units" in error.given else "")
            continue
        if doubt and not typed.unit:
            break  # the number alone is clear, with its unit it was not
        return Amount(start, start + len(words), words, _kind(typed), typed)
    return _unclear(text, start, doubt) if doubt else None


@functools.lru_cache(maxsize=4096)
def _read(words):
    """One amount; a letter that may be cups is cups where so few degrees are measured by nobody."""
    if re.search(r"[\d" + "".join(VULGAR) + r"]\s*[cC]\.?$", words):
        try:
            cups = read_text(words, "[length] ** 3")
        except StudentError:
            cups = None
        return cups if cups and abs(cups.number) <= _MOST_CUPS else read_text(words, "[temperature]")
    return read_text(words, "[mass]")


def _kind(typed):
    if not typed.unit:
        return "bare"
    if typed.unit in ("percent", "piece", "dozen", "box"):
        return "percent" if typed.unit == "percent" else "count"
    return {"[mass]": "mass", "[length] ** 3": "volume"}.get(dimension(typed.unit), "other")


def _unclear(text, start, doubt):
    """An amount that can be read two ways, with both of them."""
    number = _NUMBER_WORD.match(text, start).group().strip()
    behind = re.match(r"\s*([a-zA-Z]+)\b\.?", text[start + len(number) :])
    unit = behind[1] if behind and (behind[1].casefold() in UNIT_OF or behind[1] in UNDECIDED) else ""
    end = start + len(number) + (behind.end() if unit else 0)
    if "two units" in doubt.given:
        choices = tuple(
            f"{number} {word}" for word in re.findall(r"'(\w+)'|or (°?\w+)", doubt.needed) for word in word if word
        )
    elif not unit and like_thousands(number, ".,"):
        halves = like_thousands(number, ".,")
        choices = (*written_out(*halves, "g", small=True), *written_out(*halves, "oz", small=False))
    else:
        choices = tuple(f"{figure} {unit}".strip() for figure in re.findall(r"(?<![\w.])\d[\d.]*", doubt.needed)[:2])
    if unit in ("T", "t"):
        choices = (f"{number} tbsp", f"{number} tsp")
    return Amount(start, end, text[start:end], "unclear", None, choices)
