"""Names that a law keeps for what is made so: 21 CFR 163, Directive 2000/36/EC, Codex standard 87-1981, by composition.

US: 163.123 and 163.130 (read), 163.124 (read). EU: Annex I, read for family milk chocolate and, in tables and food codes
that quote it, for the others; the milk fat of white chocolate as in 75/155/EEC. Codex: chocolate read; white chocolate in a
table that quotes it, with the range of milk fat that an authority may choose from. Codex milk chocolate is
from memory, and so decides nothing: it is shown beside what was found, and left open. A law asks for more than this: which fats and flavours, which milk; nothing here is a promise.
"""

from dataclasses import dataclass

from pastrylab.ground.careful import every, written_down, written_up
from pastrylab.ground.units import StudentError
from pastrylab.trade import pantry
from pastrylab.trade.chocolate import kind_of
from pastrylab.trade.statement.inside import inside, other_fat

MET, NOT_MET, OPEN = "met", "not met", "not knowable from the data"
_SAID = {"liquor": "Chocolate liquor (cocoa mass, as the rule counts it)", "sugar": "Added sugar"}
_WORDS = {True: MET, False: NOT_MET, None: OPEN}


@dataclass(frozen=True)
class _Limit:
    """A part in g in 100 g: at least `least`, or less than `below`, or at most `most`; `surely`: what meets it whatever
    figure an authority has chosen."""

    part: str
    least: float | None = None
    below: float | None = None
    most: float | None = None
    surely: float | None = None

    def holds(self, ends):
        low, high = ends
        if self.least is not None:
            return True if low >= (self.surely or self.least) else False if high < self.least else None
        if self.below is not None:
            return True if high < self.below else False if low >= self.below else None
        return True if high <= self.most else False if low > self.most else None

    @property
    def words(self):
        if self.least is not None:
            return f"at least {self.surely or self.least:g} %"
        return f"less than {self.below:g} %" if self.below is not None else f"at most {self.most:g} %"


@dataclass(frozen=True)
class _Standard:
    name: str
    law: str
    kind: str
    limits: tuple[_Limit, ...]
    dry: bool = False  # Codex counts on dry matter
    read: bool = True  # False: quoted from memory, and never decided by


_LITTLE_MILK = _Limit("milk solids", below=12)
_STANDARDS = (
    _Standard("sweet chocolate", "21 CFR 163.123", "dark", (_Limit("liquor", 15), _LITTLE_MILK)),
    _Standard("semisweet or bittersweet chocolate", "21 CFR 163.123", "dark", (_Limit("liquor", 35), _LITTLE_MILK)),
    _Standard(
        "milk chocolate",
        "21 CFR 163.130",
        "milk",
        (_Limit("liquor", 10), _Limit("milk fat", 3.39), _Limit("milk solids", 12)),
    ),
    _Standard(
        "white chocolate",
        "21 CFR 163.124",
        "white",
        (_Limit("cocoa butter", 20), _Limit("milk fat", 3.5), _Limit("milk solids", 14), _Limit("sugar", most=55)),
    ),
    _Standard(
        "chocolate",
        "Directive 2000/36/EC",
        "dark",
        (_Limit("cocoa solids", 35), _Limit("cocoa butter", 18), _Limit("fat-free cocoa", 14)),
    ),
    _Standard(
        "couverture chocolate",
        "Directive 2000/36/EC",
        "dark",
        (_Limit("cocoa solids", 35), _Limit("cocoa butter", 31), _Limit("fat-free cocoa", 2.5)),
    ),
    _Standard(
        "milk chocolate",
        "Directive 2000/36/EC",
        "milk",
        (
            *(_Limit("cocoa solids", 25), _Limit("fat-free cocoa", 2.5), _Limit("milk solids", 14)),
            *(_Limit("milk fat", 3.5), _Limit("total fat", 25)),
        ),
    ),
    _Standard(
        "family milk chocolate",
        "Directive 2000/36/EC",
        "milk",
        (
            *(_Limit("cocoa solids", 20), _Limit("fat-free cocoa", 2.5), _Limit("milk solids", 20)),
            *(_Limit("milk fat", 5), _Limit("total fat", 25)),
        ),
    ),
    _Standard(
        "white chocolate",
        "Directive 2000/36/EC",
        "white",
        (_Limit("cocoa butter", 20), _Limit("milk solids", 14), _Limit("milk fat", 3.5)),
    ),
    _Standard(
        "chocolate",
        "Codex standard 87-1981",
        "dark",
        (_Limit("cocoa solids", 35), _Limit("cocoa butter", 18), _Limit("fat-free cocoa", 14)),
        dry=True,
    ),
    _Standard(
        "milk chocolate",
        "Codex standard 87-1981",
        "milk",
        (
            *(_Limit("cocoa solids", 25), _Limit("fat-free cocoa", 2.5), _Limit("milk solids", 12, surely=14)),
            _Limit("milk fat", 2.5, surely=3.5),
        ),
        dry=True,
        read=False,
    ),
    _Standard(
        "white chocolate",
        "Codex standard 87-1981",
        "white",
        (_Limit("cocoa butter", 20), _Limit("milk solids", 14), _Limit("milk fat", 2.5, surely=3.5)),
        dry=True,
    ),
)
_FILLED = 25  # % of chocolate in the whole: Directive 2000/36/EC, Annex I, 7 and 10, read in a food code that quotes it
_ALL_COCOA = 99
_COAT_VARIES = 0.1  # of a shell and its cap, our own judgement: hands and warmth


@dataclass(frozen=True)
class Name:
    """A reserved name, the law that reserves it, and whether the composition meets it: True, False or None. `why`: each
    limit beside what was found, in words.

    >>> found = reserved_names("milk couverture 33 %")[0]
    >>> found.name, found.verdict
    ('milk chocolate', 'not met')
    """

    name: str
    law: str
    met: bool | None
    why: tuple[str, ...]

    @property
    def verdict(self):
        return _WORDS[self.met]

    @property
    def text(self):
        """The verdict in a sentence, with what decides it."""
        return f"{self.name} ({self.law}): {self.verdict}. {' '.join(self.why)}".strip()


def reserved_names(ingredient):
    """Every reserved name of its kind (dark, milk or white), each with its verdict: a tuple of Name.

    "met" and "not met" hold at both ends of what the data leave open. A fat that is neither of cocoa nor of milk, where
    the list names one, is met by no name of the US; in the EU up to 5 % of a few of them may be in it and must be said.
    Cocoa mass, without sugar, is none of them: (). Raises StudentError for what is no chocolate.

    >>> [(one.law, one.verdict) for one in reserved_names("dark couverture 64 %")][1:3]
    [('21 CFR 163.123', 'met'), ('Directive 2000/36/EC', 'met')]
    """
    known = pantry.ingredient_name(ingredient)
    kind, parts, fat = kind_of(known), inside(known), other_fat(known)
    if parts["cocoa solids"][1] >= _ALL_COCOA and parts["sugar"][0] <= 0:
        return ()
    return tuple(_judged(one, parts, fat) for one in _STANDARDS if one.kind == kind)


def _judged(standard, parts, fat):
    found, why = [], []
    for limit in standard.limits:
        low, high = parts[limit.part]
        if standard.dry:
            low, high = low / (1 - parts["water"][0] / 100), min(high / (1 - parts["water"][1] / 100), 100.0)
        found.append(limit.holds((low, high)))
        said = f": {_WORDS[found[-1]]}" if standard.read else ""
        why.append(f"{_SAID.get(limit.part, limit.part.capitalize())} {_from_to(low, high)}, {limit.words}{said}.")
    if not standard.read:
        why.append("These limits are quoted from memory: read the standard, it alone decides.")
        return Name(standard.name, standard.law, None, tuple(why))
    found.append(_fats(standard, fat, why))
    return Name(standard.name, standard.law, every(found), tuple(why))


def _fats(standard, fat, why):
    if fat is False:
        return True
    american = standard.law.startswith("21 CFR")
    why.append(
        "Its list is not known, so other fats may be in it: read the pack."
        if fat is None
        else "Its list names another fat than those of cocoa and milk"
        + (": then the name is another." if american else "; how much of it, the pack does not say.")
    )
    return False if fat and american else None


def _from_to(low, high):
    # Rounded outwards: a limit between the two is not hidden by a digit.
    return f"{written_down(low, 1)} to {written_up(high, 1)} %"


def filled_chocolate(couverture, coat, whole):
    """Whether a filled piece may bear the name of a filled chocolate in the EU and by Codex: a Name.

    couverture: of the coat; coat: grams of shell and cap in a piece; whole: grams of the piece. The coat must be a
    quarter of the whole, and itself meet the name of a chocolate. A tenth of the coat is taken as its spread: weigh yours.
    Raises StudentError for what is no chocolate, and for a coat of nothing or of more than the piece.

    >>> filled_chocolate("dark couverture 64 %", 5.5, 13.5).verdict
    'met'
    """
    if not 0 < coat <= whole:
        raise StudentError(f"{coat:g} g of coat on {whole:g} g", "a coat that is part of the piece", "5.5 g of 13.5 g")
    names = [one for one in reserved_names(couverture) if one.law == "Directive 2000/36/EC"]
    share = 100 * coat / whole
    low, high = (100 * coat * part / (whole - coat + coat * part) for part in (1 - _COAT_VARIES, 1 + _COAT_VARIES))
    quarter = _Limit("coat", _FILLED).holds((low, high))
    its_own = True if any(one.met for one in names) else False if all(one.met is False for one in names) else None
    why = (
        f"The coat is {share:.0f} % of the piece, {_from_to(low, high)} as hands vary; at least {_FILLED} %: {_WORDS[quarter]}.",
        f"The coat as a chocolate of its own: {_WORDS[its_own]}.",
        "Whether it is a single mouthful, as the name of a praline asks, and what the filling is, the data do not say.",
    )
    return Name("filled chocolate", "Directive 2000/36/EC", every((quarter, its_own)), why)
