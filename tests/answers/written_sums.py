"""Reads the sums of by_hand.csv as they are written: "heat given up: 3 kg x 1.59 kJ/kgK x 14.5 K = 69.165 kJ".

Steps are parted by semicolons. A step is a sum ("a x b = c", or "a < b" where sizes are compared), or figures taken from
a source, which begin with "take". Words and units are passed over; "%" is a hundredth; a number is written with a point.
Operators: + - x / ^ ( ), and log2 ln exp sqrt up down (to the whole) min max (their numbers parted by commas).
"""

import math
import re

_FUNCTIONS = {
    "log2": math.log2,
    "ln": math.log,
    "exp": math.exp,
    "sqrt": math.sqrt,
    "up": math.ceil,
    "down": math.floor,
    "min": min,
    "max": max,
}
_TOKEN = re.compile(
    r"(?P<number>\d+(?:\.\d+)?(?:e-?\d+)?)(?P<hundredth> ?%)?"
    r"|(?P<function>" + "|".join(_FUNCTIONS) + r")(?=\()|(?P<word>[^\W\d_][^\s=;(),]*)|(?P<sign>\S)"
)
_SIGNS = {"+": "+", "-": "-", "/": "/", "(": "(", ")": ")", "^": "**", ",": ","}
# Figures that belong to arithmetic and to no source.
_FREE = {0.0, 1.0, 2.0, 3.0, 100.0, 1000.0}


def numbers(text):
    """Every number of a text as (value, half of its last digit)."""
    found = []
    for token in _TOKEN.finditer(text):
        if token["number"]:
            times = 0.01 if token["hundredth"] else 1.0
            mantissa, _, power = token["number"].partition("e")
            places = len(mantissa.partition(".")[2]) - int(power or 0)
            found.append((float(token["number"]) * times, 0.5 * 10.0**-places * times))
    return found


def worth(text):
    """What one side of a sum comes to; what stands before a colon names it."""
    parts = []
    for token in _TOKEN.finditer(text.rpartition(":")[2]):
        if token["number"]:
            parts.append(f"({token['number']}*0.01)" if token["hundredth"] else token["number"])
        elif token["word"] == "x":
            parts.append("*")
        elif not token["word"]:
            parts.append(token["function"] or _SIGNS[token["sign"]])
    return float(eval(" ".join(parts), {"__builtins__": {}}, _FUNCTIONS))


def trouble(given, steps):
    """What is wrong with the written steps, a list of sentences.

    Each sum must hold within half the last digit of its right side, each comparison as it stands, and each number on the
    left must be a given, a figure that was taken from a source, or what an earlier step came to. No given is passed over.
    """
    known, used, found = [value for value, _ in numbers(given)], set(), []
    for step in (step.strip() for step in steps.split(";")):
        if step.startswith("take "):
            known += [value for value, _ in numbers(step)]
            continue
        left, sign, right = (part.strip() for part in re.split(r"\s(<=|>=|<|>|=)\s", step, maxsplit=1))
        used |= {value for value, _ in numbers(left)}
        strange = [v for v, _ in numbers(left) if v not in _FREE and not any(math.isclose(v, k) for k in known)]
        if strange:
            found.append(f"{strange} came from nowhere: {step}")
        if sign == "=":
            ((came, half),) = numbers(right)
            came = -came if right.startswith("-") else came
            known.append(abs(came))
            if abs(worth(left) - came) > half * (1 + 1e-6):
                found.append(f"{worth(left):.8g}, not {came:g}: {step}")
        else:
            used |= {value for value, _ in numbers(right)}
            a, b = worth(left), worth(right)
            if not {"<": a < b, "<=": a <= b, ">": a > b, ">=": a >= b}[sign]:
                found.append(f"{a:g} and {b:g}: {step}")
    idle = [value for value, _ in numbers(given) if not any(math.isclose(value, u) for u in used)]
    return found + ([f"the givens {idle} are used nowhere"] if idle else [])
