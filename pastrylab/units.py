"""Units at the door: quantities, the text grammar, the one student error, and the decorator that checks arguments.

Text typed by people never reaches pint's own parser: it would read "3 fl oz" as femtolitre-ounces, drop the comma of
"3,5 g" and compute powers. The grammar here knows numbers as cooks write them and a short list of kitchen units.
"""

import difflib
import functools
import inspect
import math
import re
import unicodedata
from dataclasses import dataclass

import numpy as np
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

_SPELLINGS = {
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
_UNIT_OF = {spelling: unit for unit, spellings in _SPELLINGS.items() for spelling in spellings.split()}
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
_KIND = {
    "[mass]": "a mass",
    "[length] ** 3": "a volume",
    "[length]": "a length",
    "[time]": "a time",
    "[temperature]": "a temperature",
    "[length] ** 2 * [mass] / [time] ** 2": "an amount of heat",
    "[mass] / [length] / [time] ** 2": "a pressure",
    "dimensionless": "a plain number",
}
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
_LONGEST_TEXT = 60
_HUGE = 1e9


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
        return Quantity(self.number, _unit(self.unit))


def Q(value, unit=None):
    """A quantity in the package's registry: `Q("45 degC")`, `Q(45, "degC")`, `Q("1 1/2 lb")`.

    Text is read by the kitchen grammar (`read_text`). Raises StudentError for text or units it does not know.
    """
    if isinstance(value, str):
        if unit is not None:
            value = f"{value} {unit}"
        return read_text(value).quantity
    if isinstance(value, pint.Quantity):
        return _adopt(value) if unit is None else _adopt(value).to(unit)
    if unit is None:
        raise StudentError(repr(value), "a number and its unit", 'Q("45 degC") or Q(45, "degC")')
    return Quantity(value, _unit(unit if unit in _KNOWN_TO_PINT else unit_named(_tidy(unit))))


def read_text(text, expect=None):
    """Read typed text as a number and a kitchen unit, e.g. "3,5 g", "1 1/2 cups", "1 lb 4 oz", "0.02 1/min".

    expect: pint dimensionality as text ("[mass]", "[temperature]") or None; settles spellings with two meanings.
    Returns Typed (unit "" where none was written). Raises StudentError.
    """
    given = f"'{text.strip()[:_LONGEST_TEXT]}'"
    if len(text) > 4 * _LONGEST_TEXT:
        raise StudentError("a very long text", "one number and its unit", "250 g")
    rest = _tidy(text)
    if not rest:
        raise StudentError("an empty answer", "a number and its unit", "250 g")
    parts = []
    while rest:
        number, step, rest = _read_number(rest, given)
        spelled = _UNIT_TEXT.match(rest).group()
        rest = rest[len(spelled) :].strip()
        unit = unit_named(spelled.strip(" ;,"), expect, given) if spelled.strip(" ;,") else ""
        parts.append(Typed(number, unit, step))
    first = parts[0]
    if len(parts) == 1:
        return first
    same = all(p.unit and _dimension(p.unit) == _dimension(first.unit) for p in parts) and len(parts) == 2
    if not same or _dimension(first.unit) not in ("[mass]", "[time]", "[length] ** 3"):
        raise StudentError(given, "one number with one unit", "32 degC, or 1 lb 4 oz for a sum of weights")
    total = sum((p.quantity.m_as(first.unit) for p in parts), 0.0)
    return Typed(total, first.unit, Quantity(parts[-1].step, parts[-1].unit).m_as(first.unit))


@functools.lru_cache(maxsize=2048)
def unit_named(spelled, expect=None, given=None):
    """The pint name of a kitchen spelling ("deg F" -> "degF", "kJ/(kg K)" -> "kJ/(kg*K)"). Raises StudentError."""
    text = spelled.strip()
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
    if number > _HUGE:
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
def _unit(name):
    return REGISTRY.Unit(name or "dimensionless")


@functools.lru_cache(maxsize=512)
def _dimension(unit):
    return str(_unit(unit).dimensionality)


def kind_of(unit):
    """What a unit measures, in words: kind_of("g") -> "a mass"."""
    return _KIND.get(_dimension(unit), "a quantity in " + symbol(unit))


_KNOWN_TO_PINT = set(_SPELLINGS) | {"", "dimensionless"}


def _magnitude(quantity, unit):
    """The quantity's number in `unit`; a quantity of another registry converts there, by the unit's plain name."""
    if quantity.__class__ is not Quantity:
        return quantity.m_as(unit)
    if quantity.units is _unit(unit) or quantity.units == _unit(unit):
        return quantity.magnitude
    return quantity.m_as(_unit(unit))


def _adopt(quantity):
    """The same quantity in our registry, whichever registry it came from."""
    if quantity.__class__ is Quantity:
        return quantity
    return Quantity(quantity.magnitude, str(quantity.units))


# --- the door -----------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class In:
    """An argument in `unit`, within limits given in that unit. `example` is what a student could type."""

    unit: str
    above: float | None = None
    at_least: float | None = None
    below: float | None = None
    at_most: float | None = None
    example: str = ""

    @property
    def needed(self):
        return kind_of(self.unit)

    def floats(self, name, value):
        if isinstance(value, str):
            typed = _read_named(name, value, _dimension(self.unit))
            if not typed.unit:
                raise self.refuse(name, f"'{value.strip()}', a number without a unit")
            value = self._meaning(typed)
        elif not isinstance(value, pint.Quantity):
            raise self.refuse(name, f"{_brief(value)}, without a unit", both=True)
        self._right_sort(name, value)
        try:
            number = _magnitude(value, self.unit)
        except pint.DimensionalityError:
            raise self.refuse(name, f"{show(_adopt(value))}, which is {kind_of(str(value.units))}") from None
        return self.limited(name, number)

    def _meaning(self, typed):
        return typed.quantity

    def _right_sort(self, name, value):
        pass

    def limited(self, name, number):
        """number if finite and within the limits, else StudentError."""
        if isinstance(number, np.ndarray):
            low, high = (number.min(), number.max()) if number.size else (0.0, 0.0)
            fine = bool(np.isfinite(low) and np.isfinite(high))
        else:
            try:
                low = high = number = float(number)
            except (TypeError, ValueError):
                raise self.refuse(name, _brief(number)) from None
            fine = math.isfinite(number)
        if not fine:
            raise self.refuse(name, "a value that is not a number")
        if max(abs(low), abs(high)) > _HUGE:
            raise self.refuse(name, f"{high:.3g} {symbol(self.unit)}".strip(), f"{self.needed} that fits a kitchen")
        too_low = (self.above is not None and low <= self.above) or (self.at_least is not None and low < self.at_least)
        too_high = (self.below is not None and high >= self.below) or (self.at_most is not None and high > self.at_most)
        if too_low or too_high:
            worst = low if too_low else high
            raise self.refuse(name, f"{_number(worst)} {symbol(self.unit)}".strip(), self.range_in_words)
        return number

    @property
    def range_in_words(self):
        unit = f" {symbol(self.unit)}".rstrip()
        words = [
            f"{word} {_number(limit)}{unit}"
            for word, limit in (
                ("above", self.above),
                ("at least", self.at_least),
                ("below", self.below),
                ("at most", self.at_most),
            )
            if limit is not None
        ]
        return f"{self.needed} {' and '.join(words)}" if words else f"{self.needed} that fits a kitchen"

    def refuse(self, name, given, needed=None, both=False):
        example = self.example or f"{_number(_inside(self))} {self.unit}".strip()
        written = f'{name}="{example}"'
        if both:
            typed = read_text(example)
            written += f' or {name}=Q({_number(typed.number)}, "{typed.unit}")'
        return StudentError(f"{given} for {name}", needed or f"{self.needed}, with its unit", written)


@dataclass(frozen=True)
class Reading(In):
    """A temperature read off a thermometer, in degC in the room."""

    unit: str = "degC"
    at_least: float | None = -60
    at_most: float | None = 300
    example: str = "31.5 degC"

    @property
    def needed(self):
        return "a temperature reading"

    def _right_sort(self, name, value):
        if any(unit.startswith("delta_") for unit, _ in value.unit_items()):
            raise StudentError(
                f"{show(_adopt(value))} for {name}, a difference between two temperatures",
                "a reading on the thermometer",
                f'{name}="{self.example}"',
            )


@dataclass(frozen=True)
class Difference(In):
    """A difference of two temperatures, in degC steps (K) in the room. Typed "10 degF" is read as 10 steps."""

    unit: str = "delta_degC"
    at_least: float | None = -300
    at_most: float | None = 300
    example: str = "5 delta_degC"

    @property
    def needed(self):
        return "a temperature difference"

    def _meaning(self, typed):
        return Quantity(typed.number, "delta_" + typed.unit) if typed.unit in ("degC", "degF") else typed.quantity

    def _right_sort(self, name, value):
        if any(unit in ("degree_Celsius", "degree_Fahrenheit") for unit, _ in value.unit_items()):
            raise StudentError(
                f"{show(_adopt(value))} for {name}, a thermometer reading",
                "a difference: a rise of 10 degF is 5.6 degC, whatever the reading 10 degF is",
                f'{name}=Q(10, "delta_degF")',
            )


@dataclass(frozen=True)
class Number(In):
    """A plain number without a unit (a pH, a ratio, a count)."""

    unit: str = "dimensionless"

    @property
    def needed(self):
        return "a plain number"

    def floats(self, name, value):
        if isinstance(value, str):
            typed = _read_named(name, value, "dimensionless")
            if typed.unit and _dimension(typed.unit) != "dimensionless":
                raise self.refuse(name, f"'{value.strip()}', which has a unit", self.needed)
            value = typed.quantity.m_as("dimensionless") if typed.unit else typed.number
        elif isinstance(value, pint.Quantity):
            try:
                value = value.m_as("dimensionless")
            except pint.DimensionalityError:
                raise self.refuse(name, f"{show(_adopt(value))}, which has a unit", self.needed) from None
        elif isinstance(value, bool) or value is None:
            raise self.refuse(name, _brief(value), self.needed)
        elif isinstance(value, list | tuple):
            value = np.asarray(value, dtype=float)
        return self.limited(name, value)

    def refuse(self, name, given, needed=None, both=False):
        example = self.example or _number(_inside(self))
        return StudentError(f"{given} for {name}", needed or self.range_in_words, f"{name}={example}")


@dataclass(frozen=True)
class Share(Number):
    """A share of a whole, 0 to 1: 0.9 or "90 %"."""

    at_least: float | None = 0.0
    at_most: float | None = 1.0
    example: str = '0.9 or "90 %"'

    @property
    def needed(self):
        return "a share, as a number from 0 to 1 or a percentage,"


def takes(returns=None, **doors):
    """Check and convert arguments at a public function's door; inside, everything is a plain float (or array).

    returns: unit of the result (wrapped as a quantity), or None to hand the result back as it is.
    doors: one In, Reading, Difference, Share or Number for each argument that is checked; others pass through.
    None passes where None is the default. The plain-float function stays reachable as `function.floats`.
    Raises StudentError.
    """

    def decorate(function):
        signature = inspect.signature(function)
        names = list(signature.parameters)
        unknown = set(doors) - set(names)
        if unknown:
            raise TypeError(f"{function.__name__} has no argument {unknown}")
        defaults = {n: p.default for n, p in signature.parameters.items() if p.default is not inspect.Parameter.empty}

        @functools.wraps(function)
        def door(*args, **kwargs):
            if len(args) > len(names) or not kwargs.keys() <= doors.keys() | set(names):
                signature.bind(*args, **kwargs)
            given = dict(zip(names, args, strict=False))
            if given.keys() & kwargs.keys():
                signature.bind(*args, **kwargs)
            given.update(kwargs)
            room = {}
            for name in names:
                if name not in given:
                    if name not in defaults:
                        example = (
                            doors[name].refuse(name, "nothing") if name in doors else StudentError("nothing", name)
                        )
                        raise example
                    given[name] = defaults[name]
                value = given[name]
                checked = name in doors and not (value is None and defaults.get(name, 0) is None)
                room[name] = doors[name].floats(name, value) if checked else value
            result = function(**room)
            return result if returns is None else Quantity(result, _unit(returns))

        door.floats = function
        return door

    return decorate


def _read_named(name, text, expect):
    try:
        return read_text(text, expect)
    except StudentError as error:
        raise StudentError(f"{error.given} for {name}", error.needed, error.example) from None


def _inside(limits):
    low = limits.above if limits.above is not None else limits.at_least
    high = limits.below if limits.below is not None else limits.at_most
    if low is None and high is None:
        return 1
    if low is None or high is None:
        return (low + 1) if high is None else (high - 1)
    return (low + high) / 2


def _brief(value):
    text = repr(value)
    return text if len(text) <= _LONGEST_TEXT else text[:_LONGEST_TEXT] + "..."


# --- writing quantities -------------------------------------------------------------------------------------------

_SYMBOLS = {
    "degC": "°C",
    "degF": "°F",
    "delta_degC": "°C",
    "delta_degF": "°F",
    "fl_oz": "fl oz",
    "percent": "%",
    "inch": "in",
    "dimensionless": "",
    "pint": "pt",
    "quart": "qt",
    "gallon": "gal",
}
_US = {
    "kg": "lb",
    "g": "oz",
    "mL": "fl_oz",
    "L": "quart",
    "degC": "degF",
    "delta_degC": "delta_degF",
    "mm": "inch",
    "cm": "inch",
}


@functools.lru_cache(maxsize=512)
def _short(unit):
    """The short pint name of a unit, e.g. "degree_Celsius" -> "degC", where it is a single unit; else the name."""
    unit = _unit(unit) if isinstance(unit, str) else unit
    for name in _SPELLINGS:
        if _unit(name) == unit:
            return name
    if unit == _unit(""):
        return ""
    powers = [(_short(name), power) for name, power in unit._units.items()]
    above = " ".join(name + ("" if p == 1 else f"**{p:g}") for name, p in powers if p > 0) or "1"
    below = [name + ("" if p == -1 else f"**{-p:g}") for name, p in powers if p < 0]
    return f"{above}/({' '.join(sorted(below, reverse=True))})" if len(below) > 1 else "/".join([above, *below])


@functools.lru_cache(maxsize=512)
def symbol(unit):
    """The symbol of a unit on a page: symbol("degC") -> "°C"."""
    short = _short(unit)
    if short in _SYMBOLS:
        return _SYMBOLS[short]
    for name, mark in (("delta_degC", "°C"), ("delta_degF", "°F"), ("**3", "³"), ("**2", "²")):
        short = short.replace(name, mark)
    return short


def us_unit(unit):
    """The US customary unit beside a metric one: us_unit("kg") -> "lb"; the same unit where there is none."""
    return _US.get(_short(unit), _short(unit))


def _number(value, digits=4):
    """A plain number for a page: at most `digits` significant digits, no exponent, no trailing zeros."""
    value = float(value)
    if not math.isfinite(value):
        return "not a number"
    if value == 0:
        return "0"
    places = max(0, digits - 1 - math.floor(math.log10(abs(value))))
    text = f"{round(value, places):.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def show(quantity, digits=4):
    """A quantity as a page writes it: show(Q(484.6, "g"), 3) -> "485 g"; text and quantities alike."""
    quantity = Q(quantity)
    unit = symbol(quantity.units)
    return f"{_number(quantity.magnitude, digits)} {unit}".strip()


def both(quantity, digits=4):
    """Metric first, US customary beside it: both("2 kg") -> "2 kg (4.41 lb)"."""
    quantity = Q(quantity)
    other = us_unit(quantity.units)
    if other == _short(quantity.units):
        return show(quantity, digits)
    return f"{show(quantity, digits)} ({show(quantity.to(_unit(other)), 3)})"
