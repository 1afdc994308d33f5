"""An order as a whole, as it comes on a sheet: lines, headings of sections or days, what is left over, and notes."""

import re
from dataclasses import dataclass, field

from pastrylab.ground.grammar import read_text
from pastrylab.ground.names import plain_name
from pastrylab.ground.units import StudentError
from pastrylab.trade.orders.flavours import flavours
from pastrylab.trade.orders.reading import LINE, named_in, read_line

_MOST = 1_000_000
_LEFT = re.compile(
    r"(?:left[ -]?overs?|left|brought(?: in)?|from (?:yesterday|last week|before))\s*[:=-]?\s+(?P<what>.+)", re.I
)
_NOTHING = ("none", "nothing", "no", "-", "0")
_LEFT_LINE = "left over: 300 g hazelnut praline, 1.2 kg dark couverture"
_AMOUNT = r"(?P<amount>[0-9½¼¾][0-9½¼¾.,/ ]*\s*(?:kg|g|gr|grams?|kilos?|oz|lbs?|pounds?|ounces?)\b\.?)"
_ENTRY = (
    re.compile(rf"{_AMOUNT}\s*(?:of\s+)?(?P<name>[^\W\d_].*)", re.I),
    re.compile(rf"(?P<name>[^\W\d_].*?)\s*[:=,-]?\s*{_AMOUNT}", re.I),
)
_NOTE = re.compile(
    r"(?:notes?|n\.?b\.?|p\.?s\.?|allerg\w*|attention|careful|caution|please|remember|customer|thanks?|thank you|"
    r"pick(?:ed)?[ -]?up|collect\w*|fetched|deliver\w*|contact|tel|phone)\b.*",
    re.I,
)
_DIET = re.compile(
    r"allerg|intoleran|coeliac|celiac|vegan|halal|kosher|(?:nut|milk|dairy|gluten|soy)[ -]free|free (?:of|from)|"
    r"\b(?:no|without)\s+(?:any\s+)?(?:nuts?|peanuts?|hazelnuts?|almonds?|milk|dairy|gluten|wheat|soya?|eggs?|alcohol)\b",
    re.I,
)
_WEEK = r"(?:mon|tues?|wed(?:nes)?|thu(?:rs?)?|fri|sat(?:ur)?|sun)(?:day)?"
_MONTH = r"(?:jan|feb|mar|apr|may|june?|july?|aug|sept?|oct|nov|dec)[a-z]*"
_HEAD = re.compile(
    r"(?:(?:order|section|sect\.|group|class|team|lab|for|day)\b.*|(?:morning|afternoon|evening|noon|early|late)\b.*|"
    rf"(?:the\s+)?{_WEEK}\b.*|[0-9]{{1,2}}(?:st|nd|rd|th)?\.?\s*(?:of\s+)?{_MONTH}\b.*|{_MONTH}\s*[0-9].*|"
    r"[0-9]{1,4}[./-][0-9]{1,2}(?:[./-](?:[0-9]{2,4})?)?)",
    re.I,
)

_COLUMNS = set("quantity qty count number pieces amount flavour flavor name product item order how many no".split())


@dataclass(frozen=True)
class Section:
    """What one section makes: its `name`, its `order` as {flavour: pieces}, and what it has `brought`, {flavour or
    couverture: grams}.

    >>> Section("morning", {"dark ganache": 60}).brought
    {}
    """

    name: str
    order: dict
    brought: dict = field(default_factory=dict)


@dataclass(frozen=True)
class Sheet:
    """An order as it was read: `title`, `sections`, and `notes` that are nobody's flavour and must not be lost.

    >>> read_sheet("60 dark ganache").sections[0].order
    {'dark ganache': 60}
    """

    title: str
    sections: tuple[Section, ...]
    notes: tuple[str, ...] = ()

    def together(self):
        """({flavour: pieces}, {flavour or couverture: grams brought}) of all sections, added up.

        >>> read_sheet("A class:\\n24 dark\\nB class:\\n24 dark").together()
        ({'dark ganache': 48}, {})
        """
        order, brought = {}, {}
        for one in self.sections:
            for name, pieces in one.order.items():
                order[name] = order.get(name, 0) + pieces
            for name, grams in one.brought.items():
                brought[name] = brought.get(name, 0.0) + grams
        return order, brought


def read_sheet(text, known=None):
    """The Sheet of an order in writing. known: {name: Flavour}, None for those of the kitchen.

    A line a flavour (read_line). A line that names a section, a day or ends in a colon is a heading; headings before the
    first line are the title. "left over: 300 g hazelnut praline, 1.2 kg dark couverture": fillings and couvertures of an
    earlier day, for the section they stand under. What speaks of allergies, of fetching or begins with "note" is a note, and
    so is what stands in brackets after a line. Empty lines, those that begin with #, and a first row of headings (quantity; flavour) are passed over. Raises StudentError
    naming the line.

    >>> sheet = read_sheet("Friday 27 Nov\\nMorning:\\n60 dark (no nuts!)\\nAfternoon:\\n24 hazel\\nleft over: 300 g hazelnut praline")
    >>> sheet.title, [(one.name, one.order, one.brought) for one in sheet.sections]
    ('Friday 27 Nov', [('Morning', {'dark ganache': 60}, {}), ('Afternoon', {'hazelnut praline': 24}, {'hazelnut praline': 300.0})])
    >>> sheet.notes
    ('60 dark: no nuts!',)
    """
    found = _Reader(flavours() if known is None else known)
    for number, line in enumerate(text.splitlines(), 1):
        bare = re.sub(r'^\s*[-*•·]\s+|["\ufeff]', "", line).replace("\t", " ").strip(" ;,.|").replace("|", ";")
        if not bare or bare.startswith("#") or set(re.findall(r"\w+", bare.casefold())) <= _COLUMNS:
            continue
        try:
            found.line(bare)
        except StudentError as error:
            raise StudentError(f"line {number}, '{bare[:40]}': {error.given}", error.needed, error.example) from None
    return found.sheet()


def read_order(text, known=None):
    """{flavour: pieces} of an order, all its sections added up (read_sheet). known: {name: Flavour}, None for the kitchen's.

    "60 dark ganache", "hazelnut praline; 48", "3 dozen raspberry ganache", "5 boxes of 12 dark ganache". Raises StudentError
    naming the line.

    >>> read_order("5 boxes of 12 dark ganache\\nhazelnut; 4 dozen")
    {'dark ganache': 60, 'hazelnut praline': 48}
    """
    return read_sheet(text, known).together()[0]


class _Reader:
    """What has been read so far: blocks of [heading, order, brought]."""

    def __init__(self, known):
        self.known, self.blocks, self.title, self.notes = known, [["", {}, {}]], [], []
        self.words = {word for name in known for word in plain_name(name).split()}

    def line(self, bare):
        block = self.blocks[-1]
        left = _LEFT.fullmatch(bare)
        if left:
            for name, grams in () if left["what"].casefold() in _NOTHING else _left_over(left["what"], self.known):
                block[2][name] = block[2].get(name, 0.0) + grams
        elif _NOTE.fullmatch(bare) or (_DIET.search(bare) and not re.search("[0-9]", bare)):
            self.notes.append(bare)
        elif self._is_heading(bare):
            self._heading(bare)
        elif (both := re.fullmatch(r"([^:]+):\s*(.*[0-9].*)", bare)) and self._is_heading(f"{both[1]}:"):
            self._heading(both[1])
            self.line(both[2])
        else:
            self._order(block[1], bare)

    def _order(self, order, bare):
        bracket = re.fullmatch(r"(.*?)\s*\(([^()]+)\)", bare)
        words, note = bracket.groups() if bracket else (bare, "")
        try:
            read = _several(words.strip(" ;,."), list(self.known))
        except StudentError:
            if _DIET.search(bare):
                raise StudentError(
                    "an amount and a note in one", "the note on a line of its own", "note: no nuts in the dark ones"
                ) from None
            raise
        if note:
            self.notes.append(f"{words}: {note}")
        for name, pieces in read:
            order[name] = order.get(name, 0) + pieces

    def _is_heading(self, bare):
        plain = set(re.findall(r"[^\W\d_]+", bare.casefold()))
        boxed = bare.startswith("[") and bare.endswith("]")
        return not plain & self.words and bool(boxed or bare.endswith(":") or _HEAD.fullmatch(bare))

    def _heading(self, bare):
        name, block = bare.strip("[]: "), self.blocks[-1]
        if block[1] or block[2]:
            self.blocks.append([name, {}, {}])
        elif len(self.blocks) > 1:
            raise StudentError(f"nothing under '{block[0]}'", "a line a flavour under each heading", LINE)
        else:
            self.title += [block[0]] if block[0] else []
            block[0] = name

    def sheet(self):
        sections = [Section(*block) for block in self.blocks if block[1]]
        if not sections:
            raise StudentError("an empty order", "a line a flavour, with how many", LINE)
        empty = next((block[0] for block in self.blocks if not block[1]), None)
        if empty is not None:
            raise StudentError(f"nothing ordered under '{empty}'", "a line a flavour under each heading", LINE)
        if sum(sum(one.order.values()) for one in sections) > _MOST:
            raise StudentError("a very large order", f"at most {_MOST} pieces", LINE)
        title, names = self.title, [one.name for one in sections]
        if len(sections) == 1:
            title, sections = (
                title + [names[0]] if names[0] else title,
                [Section("", sections[0].order, sections[0].brought)],
            )
        elif len({plain_name(name) for name in names}) < len(names):
            raise StudentError("two sections of one name", "a name of its own for each", "Section A, Section B")
        return Sheet(", ".join(title), tuple(sections), tuple(self.notes))


def _several(line, known):
    """[(flavour, pieces)] of a line: several where it has several that can each be read ("60 dark, 48 hazelnut")."""
    parts = re.split(r"\s*(?:[,;+&]|\band\b)\s*(?=[0-9])", line)
    if len(parts) > 1:
        try:
            return [read_line(part, known) for part in parts]
        except StudentError:
            pass  # the comma stood within one of them: "dark ganache, 60"
    return [read_line(line, known)]


def _left_over(text, known):
    """(flavour or couverture, grams) of what is left over. Raises StudentError for what no order can use."""
    couvertures = list(dict.fromkeys(one.couverture for one in known.values()))
    for entry in re.split(r";|,(?![0-9])|\band\b|\+", text):
        entry = entry.strip(" .")
        one = next((match for pattern in _ENTRY if (match := pattern.fullmatch(entry))), None)
        if one is None:
            raise StudentError(f"'{entry[:40]}' for something left over", "so many grams, and of what", _LEFT_LINE)
        typed = read_text(one["amount"].strip())
        grams = float(typed.quantity.m_as("g"))
        name = re.sub(r"\s*\b(?:filling|in temper|tempered|melted)\b", "", one["name"], flags=re.I).strip()
        if not 0 < grams <= 1e6:
            raise StudentError(f"{one['amount'].strip()} of {name}", "more than nothing, up to 1000 kg", _LEFT_LINE)
        yield _left_name(name, known, couvertures), grams


def _left_name(name, known, couvertures):
    whole = [one for one in (*known, *couvertures) if plain_name(one) == plain_name(name)]
    if whole:
        return whole[0]
    chocolate = re.search(r"couverture|chocolate", name, re.I)
    try:
        return named_in(re.sub(r"\bchocolate\b", "couverture", name, flags=re.I), couvertures if chocolate else known)
    except StudentError as error:
        raise StudentError(
            f"'{name[:40]}' left over",
            f"a filling ({', '.join(known)}) or a couverture ({', '.join(couvertures)}); other things in store stand in stock.csv",
            _LEFT_LINE,
        ) from error
