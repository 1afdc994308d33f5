"""The kitchen grammar: a number followed by its unit, sums of them, and one amount written in two units.

Text typed by people never reaches pint's own parser: it would read "3 fl oz" as femtolitre-ounces, drop the comma of
"3,5 g" and compute powers. The grammar here knows numbers as cooks write them and a short list of kitchen units.
"""

import difflib
import functools
import math
import re
import unicodedata
from dataclasses import dataclass

from pastrylab.ground.errors import StudentError
from pastrylab.ground.numbers import VULGAR, read_number, written_out
from pastrylab.ground.registry import REGISTRY, Quantity
from pastrylab.ground.spellings import (
    AMERICAN,
    COUNTS,
    DEGREES,
    NO_NOUN,
    SAY_UNDECIDED,
    SMALL,
    UNDECIDED,
    UNIT_OF,
)
from pastrylab.ground.spoken_times import plainly

_ROUNDING = 0.05  # the most by which an amount written in two units may be rounded in one of them
_THOUSANDS = re.compile(r"(?P<digits>[1-9][0-9]{0,2}(?:,[0-9]{3})+|[1-9][0-9]{0,2}\.[0-9]{3}) ?(?P<word>[a-zA-Z]+)\.?")
_UNIT_TEXT = re.compile(r"(?:1/)?(?:[^0-9" + "".join(VULGAR) + r"]|(?<=[mM])[23](?![0-9]))*")
APPROXIMATELY = re.compile(
    r"(?:(?:about|approx(?:imately)?|around|roughly|circa|ca|c)\b\.?|[~≈∼])\s*(?=[+0-9½$€£¥-])", re.I
)
_BRACKET = re.compile(r"(?P<first>[^()=]*[^()=/\s(])\s*(?:\((?P<second>[^()]*)\)|=\s*(?P<third>[^()=]+))\s*\.?")
_JOINED = re.compile(r"(?:[+&,;]|\band\b|\bplus\b)\s*$", re.I)
_SPACE, _O_FOR_DEGREE = re.compile(r"\s+"), re.compile(r"(?<=[0-9 ])o(?=[CF]\b)")
_PER_CENT = re.compile(r"\bper cents?\b", re.I)
LONGEST_TEXT = 60


@dataclass(frozen=True)
class Typed:
    """A number and its unit as somebody typed them; `step` is the value of the last digit typed, in that unit.

    >>> f"{Typed(1.25, 'lb', 0.01).quantity.m_as('oz'):.0f} oz"
    '20 oz'
    """

    number: float
    unit: str
    step: float

    @property
    def quantity(self):
        """The number in its unit, as a Quantity."""
        return Quantity(self.number, unit_of(self.unit))


def read_text(text, expect=None, bare="", nouns=False):
    """Read typed text as a number and a kitchen unit: "3,5 g", "1 1/2 cups", "1 lb 4 oz", "1h20", "2125 g (75 oz)".

    expect: pint dimensionality as text ("[mass]", "[temperature]") or None; settles spellings with two meanings.
    bare: the unit a number alone will be taken in, or "". nouns: whether the name of what was weighed may follow
    ("254 g honey"). Returns Typed (unit "" where none was written). Raises StudentError.

    >>> read_text("3,5 g"), read_text("1 lb 4 oz")
    (Typed(number=3.5, unit='g', step=0.1), Typed(number=1.25, unit='lb', step=0.0625))
    """
    given = f"'{text.strip()[:LONGEST_TEXT]}'"
    if len(text) > 4 * LONGEST_TEXT:
        raise StudentError("a very long text", "one number and its unit", "250 g")
    rest = _tidy(text)
    rest = rest[APPROXIMATELY.match(rest).end() :] if APPROXIMATELY.match(rest) else rest
    rest = plainly(rest, "[time]" in (expect, bare and dimension(bare)), given)
    if not rest:
        raise StudentError("nothing yet", "a number and its unit", "250 g")
    pair = _BRACKET.fullmatch(rest)
    other = pair and (pair["second"] or pair["third"] or "")
    if other and re.search("[0-9]", other):
        first, second = (read_text(part, expect, bare, nouns) for part in (pair["first"], other))
        return _one_amount(first, second, given)
    parts, joints = _parts(_counted(rest, given), expect, bare, nouns, given)
    return parts[0] if len(parts) == 1 else _together(parts, joints, given)


def _parts(rest, expect, bare, nouns, given):
    """Every number of a text with its unit, and what stands between them: "" , "+" or "/"."""
    parts, joints = [], []
    while rest:
        number, step, rest, thousands = read_number(rest, given)
        spelled = _UNIT_TEXT.match(rest).group()
        rest = rest[len(spelled) :].strip()
        spelled, joint = _joint(spelled.strip(), given) if rest else (spelled, "")
        unit = _unit_or_noun(spelled.strip(" ;,"), expect, nouns, given)
        if parts and not unit and parts[-1].unit == "h" and number < 60:
            unit = "min"
        if thousands:
            _ask_thousands(*thousands, (unit or bare) in SMALL, spelled.strip(" ;,") or bare, given)
        parts.append(Typed(number, unit, step))
        joints.append(joint)
    return parts, joints[:-1]


def _ask_thousands(whole, part, mark, small, spelled, given):
    """Refuse digits that may be thousands; behind a point three decimals of a large unit are clear."""
    if mark == "," or small:
        offers = written_out(whole, part, spelled, small)
        raise StudentError(f"{given}, which can be read two ways", " or ".join(offers), offers[0])


def _joint(spelled, given):
    """A unit in front of another number, and how the two belong together."""
    if spelled.endswith("-"):
        raise StudentError(given, "one number with one unit", "32 °C, or 1 lb 4 oz for a sum of weights")
    either = re.fullmatch(r"(.*?)\s*(?:/|\bor\b)", spelled)
    if either:
        return either[1], "/"
    plain = _JOINED.sub("", spelled)
    return plain, "+" if re.search(r"[+&\w]", spelled[len(plain) :]) else ""


def _unit_or_noun(spelled, expect, nouns, given):
    if not spelled:
        return ""
    try:
        return unit_named(spelled, expect, given)
    except StudentError:
        words = spelled.split(" ")
        for k in range(len(words) - 1, 0, -1) if nouns else ():
            if _is_noun(words[k:]):
                try:
                    return unit_named(" ".join(words[:k]), expect, given)
                except StudentError:
                    continue
        raise


def _is_noun(words):
    """Whether words behind a unit name what was weighed ("of dark couverture"), and say nothing of how much."""
    if words[0] == "of":
        words = words[1:]
    words = [word.strip(".,;()") for word in words if word != "the"]
    return 0 < len(words) <= 5 and all(
        re.fullmatch(r"[^\W\d_][^\W\d_]+(?:['-][^\W\d_]+)*", word)
        and word.casefold() not in NO_NOUN | DEGREES
        and UNIT_OF.get(word.casefold(), "piece") in COUNTS
        for word in words
    )


def _together(parts, joints, given):
    """Several numbers as one amount: a sum of falling units ("1 lb 4 oz"), or one amount written twice."""
    first = parts[0]
    refused = StudentError(given, "one number with one unit", "32 °C, or 1 lb 4 oz for a sum of weights")
    kinds = {dimension(part.unit) for part in parts if part.unit}
    if len(parts) > 3 or not all(part.unit for part in parts) or len(kinds) != 1:
        raise refused
    if "/" in joints:
        if len(parts) > 2:
            raise refused
        return _one_amount(*parts, given)
    units = [part.unit for part in parts]
    sizes = [Quantity(1, unit_of(unit)).to_base_units().magnitude for unit in units]
    falling = all(a > b for a, b in zip(sizes, sizes[1:], strict=False))
    mixed = len({unit in AMERICAN for unit in units}) > 1 and "+" not in joints
    if kinds == {"[temperature]"} or mixed or not falling:
        if len(parts) == 2 and "+" not in joints and units[0] != units[1]:
            return _one_amount(*parts, given)
        raise refused
    if kinds.pop() not in ("[mass]", "[time]", "[length] ** 3", "[length]"):
        raise refused
    total = sum(abs(p.quantity.m_as(first.unit)) for p in parts)
    step = Quantity(parts[-1].step, parts[-1].unit).m_as(first.unit)
    return Typed(math.copysign(total, first.number), first.unit, step)


def _one_amount(first, second, given):
    """One amount written in two units: the first, where the other agrees within rounding. Raises StudentError."""
    alike = first.unit.startswith("delta_") == second.unit.startswith("delta_")  # a fall is no reading
    if not (first.unit and second.unit) or dimension(first.unit) != dimension(second.unit) or not alike:
        raise StudentError(given, "one number with one unit", "2125 g, or 2125 g (75 oz)")
    units = [(first.unit, second.unit)]
    if dimension(first.unit) == "[temperature]" and "delta_" not in first.unit + second.unit:
        units.append(tuple("delta_" + u if u.startswith("deg") else u for u in units[0]))  # kelvins measure both
    for mine, theirs in units:
        other, step = (Quantity(number, theirs).m_as(mine) for number in (second.number, second.number + second.step))
        most = math.inf if "deg" in mine else _ROUNDING * abs(first.number)  # no share of a temperature
        room = sum(min(size / 2, most) for size in (first.step, abs(step - other)))
        if abs(first.number - other) <= room * (1 + 1e-9):
            return Typed(first.number, mine, first.step)
    raise StudentError(f"{given}, which are two different amounts", "one of them, or the same in both units", "250 g")


def _counted(rest, given):
    """Text of a count with its thousands written plainly: nobody counts thousandths of a piece, so "10,000 pieces" is
    clear. With a point it is asked about: it may be a count and a half, written too exactly."""
    found = _THOUSANDS.fullmatch(rest)
    if not found or UNIT_OF.get(found["word"].casefold()) not in COUNTS:
        return rest
    digits, word = found["digits"], found["word"]
    if "." in digits:
        whole = digits.replace(".", "")
        raise StudentError(
            f"{given}, which can be read two ways",
            " or ".join(written_out(*digits.split("."), word, small=True)),
            f"{whole} {word}",
        )
    return f"{digits.replace(',', '')} {word}"


@functools.lru_cache(maxsize=2048)
def unit_named(spelled, expect=None, given=None):
    """The pint name of a kitchen spelling; given: what is quoted where it is refused. Raises StudentError.

    expect: pint dimensionality as text or None, which settles a spelling with two meanings.

    >>> unit_named("deg F"), unit_named("kJ/(kg K)"), unit_named("c", "[temperature]")
    ('degF', 'kJ/(kg*K)', 'degC')
    """
    text = _tidy(spelled)
    if text.startswith("per "):
        text = "1/" + text[4:]
    top, *below = re.split(r"\s*/\s*|\s+per\s+", text.replace("(", " ").replace(")", " ").strip())
    if not below:
        return _single(top, expect, given or f"'{spelled}'")
    over = [_single(w, None, given or f"'{spelled}'") for part in below for w in re.split(r"[\s·*]+", part) if w]
    names = [_single(top, None, given or f"'{spelled}'") if top.strip() not in ("", "1") else "1"]
    names += [n.replace("degC", "delta_degC") if n == "degC" else n for n in over]
    head = names[0] if names[0] not in ("degC", "degF") else "delta_" + names[0]
    return f"{head}/({'*'.join(names[1:])})" if names[1:] else head


def _single(word, expect, given):
    word = word.strip()
    key = re.sub(r"[\s._-]+", "", word).casefold()
    letter = "degree" if key in DEGREES else word.rstrip(".")
    if letter in UNDECIDED:
        choices = UNDECIDED[letter]
        if expect in choices or "" in choices:
            return choices.get(expect, choices.get("", ""))
        needed, example = SAY_UNDECIDED[letter]
        raise StudentError(f"{given}, where '{word}' can mean two units", needed, example)
    if key in UNIT_OF:
        return UNIT_OF[key]
    near = difflib.get_close_matches(key, UNIT_OF, 1, cutoff=0.75)
    near = [{"degC": "°C", "degF": "°F"}.get(UNIT_OF[k].removeprefix("delta_"), k) for k in near]
    known = f"a unit of the kitchen{f', perhaps {near[0]}' if near else ''} (g, kg, oz, lb, mL, cup, °C, °F, min, %)"
    raise StudentError(f"{given}, and '{word[:20]}' is no unit known here", known, "250 g or 32 °C")


def _tidy(text):
    text = text if text.isascii() else _in_plain_signs(text)
    text = _SPACE.sub(" ", text).strip()
    # An o for the degree sign; "per cent" is no rate.
    return _PER_CENT.sub("percent", _O_FOR_DEGREE.sub("°", text))


def _in_plain_signs(text):
    for odd, plain in (
        ("º", "°"),
        ("˚", "°"),
        ("℃", "°C"),
        ("℉", "°F"),
        ("−", "-"),
        ("–", "-"),
        ("∆", "Δ"),
        ("’", "'"),
        ("′", "'"),
    ):
        text = text.replace(odd, plain)
    text = "".join(c if c in VULGAR or c in "³²" else unicodedata.normalize("NFKC", c) for c in text)
    return text.replace("⁄", "/")


@functools.lru_cache(maxsize=512)
def unit_of(name):
    """The pint unit of a name that `unit_named` gives; "" is the plain number.

    >>> f"{unit_of('degC'):D}"
    'degree_Celsius'
    """
    return REGISTRY.Unit(name or "dimensionless")


@functools.lru_cache(maxsize=512)
def dimension(unit):
    """The dimensionality of a pint unit's name, as text.

    >>> dimension("cup"), dimension("degF")
    ('[length] ** 3', '[temperature]')
    """
    return str(unit_of(unit).dimensionality)
