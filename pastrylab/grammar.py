"""The kitchen grammar: the units a cook writes, the numbers a cook writes, and the one student error.

Text typed by people never reaches pint's own parser: it would read "3 fl oz" as femtolitre-ounces, drop the comma of
"3,5 g" and compute powers. The grammar here knows numbers as cooks write them and a short list of kitchen units.
"""

import difflib
import functools
import re
import unicodedata
from dataclasses import dataclass

import pint

# NIST SP 811 (2008) appendix B: pound 453.592 37 g and gallon 231 cubic inches, both exact.
_DEFINITIONS = """
milli- = 1e-3 = m-
centi- = 1e-2 = c-
deci- = 1e-1 = d-
hecto- = 1e2 = h-
kilo- = 1e3 = k-
meter = [length] = m
gram = [mass] = g
second = [time] = s
kelvin = [temperature]; offset: 0 = K
degree_Celsius = kelvin; offset: 273.15 = °C = degC
degree_Fahrenheit = 5 / 9 * kelvin; offset: 233.15 + 200 / 9 = °F = degF
percent = 0.01 = %
piece = []
dozen = 12 * piece
box = []
minute = 60 * second = min
hour = 60 * minute = h
day = 24 * hour = day
inch = 2.54 * centimeter = inch
pound = 453.59237 * gram = lb
ounce = pound / 16 = oz
liter = decimeter ** 3 = L
gallon = 231 * inch ** 3 = gallon
quart = gallon / 4 = quart
pint = quart / 2 = pint
cup = pint / 2 = cup
fluid_ounce = cup / 8 = fl_oz
tablespoon = fluid_ounce / 2 = tbsp
teaspoon = tablespoon / 3 = tsp
newton = kilogram * meter / second ** 2 = N
pascal = newton / meter ** 2 = Pa
joule = newton * meter = J
calorie = 4.184 * joule = cal
watt = joule / second = W
"""
REGISTRY = pint.UnitRegistry(_DEFINITIONS.strip().splitlines(), cache_folder=None)
Quantity = REGISTRY.Quantity

SPELLINGS = {
    "g": "g gr gm gms gram grams gramme grammes",
    "kg": "kg kgs kilo kilos kilogram kilograms kilogramme kilogrammes",
    "mg": "mg milligram milligrams",
    "lb": "lb lbs pound pounds #",
    "oz": "oz ozs ounce ounces",
    "mL": "ml mls milliliter milliliters millilitre millilitres cc cm3 cm³",
    "cL": "cl centiliter centilitre",
    "dL": "dl deciliter decilitre",
    "L": "l liter liters litre litres",
    "tsp": "tsp tsps teaspoon teaspoons",
    "tbsp": "tbsp tbsps tbs tbl tablespoon tablespoons",
    "fl_oz": "floz flozs fluidounce fluidounces ozfl",
    "cup": "cup cups",
    "pint": "pt pts pint pints",
    "quart": "qt qts quart quarts",
    "gallon": "gal gals gallon gallons",
    "degC": "c °c degc degreec degreesc celsius degcelsius degreecelsius degreescelsius centigrade",
    "degF": "f °f degf degreef degreesf fahrenheit degfahrenheit degreefahrenheit degreesfahrenheit",
    "delta_degC": "c° deltadegc deltac delta°c δ°c δc δdegc degcdifference celsiusdegrees",
    "delta_degF": "f° deltadegf deltaf delta°f δ°f δf δdegf degfdifference fahrenheitdegrees",
    "K": "k kelvin kelvins",
    "percent": "% percent pct",
    "piece": "piece pieces pc pcs each ea pod pods egg eggs",
    "dozen": "dozen dozens doz",
    "box": "box boxes",
    "s": "s sec secs second seconds",
    "min": "min mins minute minutes ′",
    "h": "h hr hrs hour hours",
    "day": "d day days",
    "m": "meter meters metre metres",
    "cm": "cm centimeter centimeters centimetre centimetres",
    "mm": "mm millimeter millimeters millimetre millimetres",
    "inch": 'in inch inches "',
    "J": "j joule joules",
    "kJ": "kj kilojoule kilojoules",
    "kcal": "kcal kilocalorie kilocalories",
    "W": "w watt watts",
    "Pa": "pa pascal pascals",
    "hPa": "hpa hectopascal mbar millibar",
    "kPa": "kpa kilopascal",
    "m**3": "m3 m³",
}
_UNIT_OF = {spelling: unit for unit, spellings in SPELLINGS.items() for spelling in spellings.split()}
# One spelling, two meanings: settled only by what is asked for.
_UNDECIDED = {
    "c": {"[temperature]": "degC", "[length] ** 3": "cup"},
    "m": {"[time]": "min", "[length]": "m"},
    "T": {},
    "t": {},
}
_SAY_UNDECIDED = {
    "c": ("'cup' or 'degC' written out", "1 cup or 32 degC"),
    "m": ("'min' or 'metre' written out", "5 min"),
    "T": ("'tbsp' or 'tsp' written out", "1 tbsp"),
    "t": ("'tbsp' or 'tsp' written out", "1 tsp"),
}
_COUNTS = ("piece", "dozen", "box")
_THOUSANDS = re.compile(r"(?P<digits>[1-9][0-9]{0,2}(?:,[0-9]{3})+|[1-9][0-9]{0,2}\.[0-9]{3}) ?(?P<word>[a-zA-Z]+)\.?")
_VULGAR = {c: unicodedata.numeric(c) for c in "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"}
_NUMBER = re.compile(
    r"(?P<sign>[+-])?\s*(?:"
    r"(?P<before>[0-9]+)?\s?(?P<vulgar>[" + "".join(_VULGAR) + "])"
    r"|(?:(?P<mixed>[0-9]+)[ -])?(?P<top>[0-9]+)\s?/\s?(?P<bottom>[0-9]+)(?![0-9.,])"
    r"|(?P<groups>[0-9]{1,3}(?:[ '][0-9]{3})+(?![0-9])(?:[.,][0-9]+)?)"
    r"|(?P<digits>[0-9][0-9.,]*|[.,][0-9]+)(?P<power>[eE][+-]?[0-9]{1,2}(?![0-9]))?"
    r")"
)
_UNIT_TEXT = re.compile(r"(?:1/)?(?:[^0-9" + "".join(_VULGAR) + r"]|(?<=[A-Za-z])[23])*")
LONGEST_TEXT = 60
HUGE = 1e9


class StudentError(ValueError):
    """What a student or an instructor can cause and mend: what was given, what is needed, an example."""

    def __init__(self, given, needed, example=""):
        self.given, self.needed, self.example = str(given), str(needed), str(example)
        sentence = f"You gave {self.given}. Needed: {self.needed}."
        super().__init__(sentence + (f" Example: {self.example}." if self.example else ""))


@dataclass(frozen=True)
class Typed:
    """A number and its unit as somebody typed them; `step` is the value of the last digit typed, in that unit."""

    number: float
    unit: str
    step: float

    @property
    def quantity(self):
        return Quantity(self.number, unit_of(self.unit))


def read_text(text, expect=None):
    """Read typed text as a number and a kitchen unit, e.g. "3,5 g", "1 1/2 cups", "1 lb 4 oz", "0.02 1/min".

    expect: pint dimensionality as text ("[mass]", "[temperature]") or None; settles spellings with two meanings.
    Returns Typed (unit "" where none was written). Raises StudentError.
    """
    given = f"'{text.strip()[:LONGEST_TEXT]}'"
    if len(text) > 4 * LONGEST_TEXT:
        raise StudentError("a very long text", "one number and its unit", "250 g")
    rest = _tidy(text)
    if not rest:
        raise StudentError("nothing yet", "a number and its unit", "250 g")
    rest, parts = _counted(rest, given), []
    while rest:
        number, step, rest = _read_number(rest, given)
        spelled = _UNIT_TEXT.match(rest).group()
        rest = rest[len(spelled) :].strip()
        unit = unit_named(spelled.strip(" ;,"), expect, given) if spelled.strip(" ;,") else ""
        parts.append(Typed(number, unit, step))
    first = parts[0]
    if len(parts) == 1:
        return first
    same = all(p.unit and dimension(p.unit) == dimension(first.unit) for p in parts) and len(parts) == 2
    if not same or dimension(first.unit) not in ("[mass]", "[time]", "[length] ** 3"):
        raise StudentError(given, "one number with one unit", "32 degC, or 1 lb 4 oz for a sum of weights")
    total = sum((p.quantity.m_as(first.unit) for p in parts), 0.0)
    return Typed(total, first.unit, Quantity(parts[-1].step, parts[-1].unit).m_as(first.unit))


def _counted(rest, given):
    """Text of a count with its thousands written plainly: nobody counts thousandths of a piece, so "10,000 pieces" is
    clear. With a point it is asked about: it may be a count and a half, written too exactly."""
    found = _THOUSANDS.fullmatch(rest)
    if not found or _UNIT_OF.get(found["word"].casefold()) not in _COUNTS:
        return rest
    digits, word = found["digits"], found["word"]
    if "." in digits:
        whole = digits.replace(".", "")
        raise StudentError(
            f"{given}, which can be read two ways", f"{whole} or {float(digits):g} {word}", f"{whole} {word}"
        )
    return f"{digits.replace(',', '')} {word}"


@functools.lru_cache(maxsize=2048)
def unit_named(spelled, expect=None, given=None):
    """The pint name of a kitchen spelling ("deg F" -> "degF", "kJ/(kg K)" -> "kJ/(kg*K)"). Raises StudentError."""
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
    if word in _UNDECIDED and word != "C":
        choices = _UNDECIDED[word]
        if expect in choices:
            return choices[expect]
        needed, example = _SAY_UNDECIDED[word]
        raise StudentError(f"{given}, where '{word}' can mean two units", needed, example)
    key = re.sub(r"[\s._-]+", "", word).casefold()
    if key in _UNIT_OF:
        return _UNIT_OF[key]
    near = difflib.get_close_matches(key, _UNIT_OF, 1, cutoff=0.75)
    known = (
        f"a unit of the kitchen{f', perhaps {near[0]}' if near else ''} (g, kg, oz, lb, mL, cup, degC, degF, min, %)"
    )
    raise StudentError(f"{given}, and '{word[:20]}' is no unit known here", known, "250 g or 32 degC")


def _tidy(text):
    for odd, plain in (("º", "°"), ("˚", "°"), ("℃", "°C"), ("℉", "°F"), ("−", "-"), ("–", "-"), ("∆", "Δ")):
        text = text.replace(odd, plain)
    text = "".join(c if c in _VULGAR or c in "³²" else unicodedata.normalize("NFKC", c) for c in text)
    return re.sub(r"\s+", " ", text.replace("⁄", "/")).strip()


def _read_number(rest, given):
    if re.match(r"[+-]?(nan|inf)", rest, re.IGNORECASE):
        raise StudentError(given, "a number you can weigh or read", "250 g")
    m = _NUMBER.match(rest)
    if not m:
        raise StudentError(given, "a number first, then its unit", "250 g or 32 degC")
    tail = rest[m.end() :].strip()
    if m["vulgar"]:
        number, step = int(m["before"] or 0) + _VULGAR[m["vulgar"]], 0.01
    elif m["bottom"]:
        if int(m["bottom"]) == 0:
            raise StudentError(given, "a fraction whose lower number is not zero", "1/2 cup")
        number, step = int(m["mixed"] or 0) + int(m["top"]) / int(m["bottom"]), 1 / int(m["bottom"])
    else:
        number, step = _decimal(re.sub(r"[ ']", "", m["groups"] or m["digits"]), bool(m["groups"]), given)
        scale = float("1" + m["power"]) if m["power"] else 1.0
        number, step = number * scale, step * scale
    if re.match(r"(-|to\b|–)\s*[0-9]", tail):
        raise StudentError(given, "one number, not a range", "31.5 degC")
    if number > HUGE:
        raise StudentError(given, "a number that fits a kitchen", "2500 g")
    return (-number if m["sign"] == "-" else number), step, tail


def _decimal(digits, grouped, given):
    digits = digits.rstrip(".,") if digits[-1] in ".," else digits
    marks = [c for c in digits if c in ".,"]
    whole, part = digits, ""
    if marks:
        mark = marks[-1]
        whole, _, part = digits.rpartition(mark)
        repeated = len(marks) > 1 and len(set(marks)) == 1
        if repeated:
            whole, part = digits, ""
        elif (
            mark == ","
            and len(marks) == 1
            and len(part) == 3
            and 1 <= len(whole) <= 3
            and whole[0] != "0"
            and not grouped
        ):
            raise StudentError(
                f"{given}, which can be read two ways",
                f"{whole}{part} or {whole}.{part}",
                f"{whole}.{part} kg",
            )
        groups = re.split(r"[.,]", whole)
        if len(groups) > 1 and not (1 <= len(groups[0]) <= 3 and all(len(g) == 3 for g in groups[1:])):
            raise StudentError(given, "one decimal point or comma", "3.5 g or 3,5 g")
        if mark in whole and not repeated:
            raise StudentError(given, "one decimal point or comma", "3.5 g or 3,5 g")
        whole = "".join(groups)
    return float(f"{whole or 0}.{part or 0}"), 10.0 ** -len(part)


@functools.lru_cache(maxsize=512)
def unit_of(name):
    return REGISTRY.Unit(name or "dimensionless")


@functools.lru_cache(maxsize=512)
def dimension(unit):
    return str(unit_of(unit).dimensionality)
