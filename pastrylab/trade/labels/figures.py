"""The figures of a pack's nutrition label as grams in 100 g, each as low and high as its rounding leaves it.

Rounding in the US: 21 CFR 101.9(c), read in FDA's Food Labeling Guide, appendix H: fat to half a gram below 5 g and to
a gram above, the others to a gram, below half a gram 0; sodium to 5 mg below 140 mg and to 10 mg above. In the EU a
figure is as good as its last digit, and 0 stands for up to half a gram (a tenth for saturates, 0.0125 g for salt): the
Commission's guidance on tolerances, 2012, from memory. Salt is sodium times 2.5: Regulation (EU) 1169/2011, Annex I.
"""

import re
from dataclasses import dataclass

from pastrylab.ground.grammar import read_text
from pastrylab.ground.units import StudentError

EU, US = LABELS = ("EU", "US")
FIGURES = ("fat", "saturates", "carbohydrate", "sugars", "added_sugars", "polyols", "fibre", "protein")
MUST = ("fat", "carbohydrate", "sugars", "protein")
SALT_OF_SODIUM = 2.5
_LESS = re.compile(r"(<|less than|under|below|up to)\s*", re.I)
_TRACE = re.compile(r"(traces?|nil|none|n/a|-|negligible)\.?", re.I)
_ZERO = {"saturates": 0.1, "salt": 0.0125}
_DENSITY = {"cream": (0.98, 1.0, 1.03), "milk": (1.02, 1.03, 1.04), "fruit": (1.02, 1.05, 1.1)}  # ingredients.csv


@dataclass(frozen=True)
class Figure:
    """Grams in 100 g: at least `low`, at most `high`, and what is printed.

    >>> Figure(34.5, 35, 35.5).printed
    35
    """

    low: float
    printed: float
    high: float

    def times(self, low, printed, high):
        return Figure(self.low * low, self.printed * printed, self.high * high)


def figure(name, text, label=EU, serving=(100.0, 100.0, 100.0)):
    """The Figure a typed text means, None where it is empty. name: of FIGURES, "salt" (g) or "sodium" (mg; gives salt).

    label: EU, whose figures stand for 100 g, or US, for a serving. serving: (low, as printed, high) of its grams. Raises
    StudentError naming the figure for what is no amount in grams.

    >>> figure("fat", "35"), figure("fat", "4.5 g", US, (50, 50, 50))
    (Figure(low=34.5, printed=35.0, high=35.5), Figure(low=8.5, printed=9.0, high=9.5))
    """
    if not text.strip():
        return None
    unit = "mg" if name == "sodium" else "g"
    low, printed, high = _in_unit(name, text.strip(), unit, label)
    made = Figure(low, printed, high)
    if name == "sodium":
        made = made.times(*[SALT_OF_SODIUM / 1000] * 3)
    return made.times(*(100 / grams for grams in reversed(serving)))


def _in_unit(name, text, unit, label):
    """(low, printed, high) in the label's own unit."""
    if _TRACE.fullmatch(text):
        return 0.0, 0.0, _zero(name, label)
    less = _LESS.match(text)
    number, step = _number(name, text[less.end() :] if less else text, unit)
    if less:
        return (number / 2 if label == US else 0.0), number / 2, number
    if number == 0:
        return 0.0, 0.0, _zero(name, label)
    half = step / 2 if label == EU else max(step / 2, _us_half(name, number, step))
    return max(number - half, 0.0), number, number + half


def _us_half(name, number, step):
    if name == "sodium":
        return 2.5 if number <= 140 else 5.0
    if name in ("fat", "saturates"):
        return 0.25 if number < 5 else 0.5 * (step >= 1)
    return 0.5 * (step >= 1)


def _zero(name, label):
    return 5.0 if name == "sodium" else 0.5 if label == US else _ZERO.get(name, 0.5)


def _number(name, text, unit):
    wanted = f"milligrams, as the pack has them, for '{title(name)}'" if unit == "mg" else f"grams for '{title(name)}'"
    try:
        typed = read_text(text, "[mass]", bare=unit)
    except StudentError as error:
        raise StudentError(f"{error.given} for '{title(name)}'", wanted, "12 or less than 1") from None
    if typed.unit not in ("", "g", "mg") or typed.number < 0:
        raise StudentError(f"'{text[:40]}' for '{title(name)}'", wanted, "12")
    scale = {("mg", "g"): 0.001, ("g", "mg"): 1000.0}.get((typed.unit, unit), 1.0)
    return typed.number * scale, typed.step * scale


def title(name):
    """A figure's name in words.

    >>> title("added_sugars")
    'added sugars'
    """
    return name.replace("_", " ")


def serving_grams(text, label=EU, kind="", density=None):
    """(low, as printed, high): the grams that the label's figures stand for.

    text: "100 g", "100 ml", "30 g", "3 pieces (28 g)", "1 Tbsp (15 mL)"; "" for the EU's 100 g. Millilitres go by the
    density (g/mL) where it is given, else by that of the kind (cream, milk, fruit). Raises StudentError without grams,
    and for a US label without a serving.

    >>> serving_grams("3 pieces (28 g)", US)
    (28.0, 28.0, 28.0)
    """
    if not text.strip():
        if label == EU:
            return 100.0, 100.0, 100.0
        raise StudentError("a US label without its serving", "the serving in grams, as it is printed", "30 g")
    found = re.findall(r"((?:(?<!\d)[-−])?[\d.,]+)\s*(ml|mls|g|gr|grams?|millilit\w*)\b", text, re.I)
    if not found:
        raise StudentError(f"'{text.strip()[:40]}' as what the figures stand for", "its grams", "30 g")
    digits, unit = next((pair for pair in found if pair[1].lower().startswith("g")), found[0])
    number = read_text(digits).number
    if not 1 <= number <= 1000:
        raise StudentError(f"a serving of {number:g} {unit}", "from 1 to 1000 g", "30 g")
    if unit.lower().startswith("g"):
        return number, number, number
    dense = (density,) * 3 if density else _DENSITY.get(kind)
    if dense is None:
        raise StudentError(f"figures for {number:g} mL", "its density too, in grams a millilitre", "1.03")
    return tuple(number * one for one in dense)
