"""What a class types in a term, drawn by number, and what it is worth: plain arithmetic that knows the rules alone."""

import csv
import hashlib
import math
import random
from dataclasses import dataclass, field

LEMONS, PRICE, POUNDS, HONEY = "08.as-purchased", "08.price-from-food-cost", "01.pounds-and-ounces", "01.a-cup-of-honey"
TITLES = {
    LEMONS: "What weight of lemons?",
    PRICE: "A price from the food cost",
    POUNDS: "Pounds and ounces",
    HONEY: "A cup of honey",
}
OF_LESSON = {"08": (LEMONS, PRICE), "01": (POUNDS, HONEY)}
# The instructor's change in mid-term, and the third section's own word.
ROW, LATE_ROW = f"{LEMONS},juice,40,%,32,46,1", f"{LEMONS},juice,50,%,48,56,1"
WORD, WORD_OF_C = "autumn-26", "autumn-26 c"
FIRST, LATER, SOLUTION, OFF = 4, 3, 2, 10  # points, and percent off for a day begun
OUNCE = 28.349523125  # g, NIST Handbook 44, appendix C
HONEY_IN_A_CUP = 8 * 29.5735295625 * 1.4329  # g; the same appendix, and USDA SR28, NDB 19296

_ANSWERS = {
    LEMONS: lambda edible, juice: 100 * edible / juice,
    PRICE: lambda cost, share: 100 * cost / share,
    POUNDS: lambda pounds, ounces, held: (16 * pounds + ounces) * OUNCE - held,
    HONEY: lambda cups: cups * HONEY_IN_A_CUP,
}
_SLIPS = {
    LEMONS: lambda edible, juice: edible * juice / 100,
    PRICE: lambda cost, share: cost * (100 + share) / 100,
    POUNDS: lambda pounds, ounces, held: 500 * pounds + ounces * OUNCE - held,
    HONEY: lambda cups: cups * 8 * 29.5735295625,
}
_RIGHT = (
    lambda x: f"{x:.2f} g",
    lambda x: f"{x / 1000:.5f} kg",
    lambda x: f"{x / OUNCE:.4f} oz",
    lambda x: f"{x / OUNCE / 16:.5f} lb",
    lambda x: f"{x:.2f}".replace(".", ",") + " grams",
)
_UNIT = ("350 °C", "900 mL", "17")
_UNREADABLE = ("lots", "a good deal", "about a bagful")


@dataclass
class Student:
    """One place in the class. named: "at first", "in mid-term" or "at the end"; by: those who work at this screen."""

    number: int
    by: tuple
    named: str
    through: str
    section: str
    lessons: tuple  # of each half
    early_copy: bool  # handed in once before the new values too
    dice: random.Random
    typed: list = field(default_factory=list)

    @property
    def called(self):
        return " and ".join(map(str, self.by))

    def name_in(self, half):
        """The number that the numbers are drawn from, "" for the class values."""
        return self.called if (self.named, half) in {("at first", 0), ("at first", 1), ("in mid-term", 1)} else ""

    def word_in(self, half):
        return WORD_OF_C if half and self.section == "C" else WORD


def class_of(count):
    """The places of a class of `count` in three sections: most alone, the last two at one screen, some in JupyterLab."""
    places = []
    for number in range(1, count):
        dice = random.Random(f"a term of {number}")
        together = number == count - 1
        named = "at first" if together else {1: "at the end", 2: "in mid-term"}.get(number % 5, "at first")
        second = named == "at first" and number % 3 == 0
        places.append(
            Student(
                number=number,
                by=(number, count) if together else (number,),
                named=named,
                through="lab" if number in (4, 22, 41) else "pages",
                section="ABC"[number % 3],
                lessons=(("08", "01") if second else ("08",), ("08",)),
                early_copy=named == "at first" and number % 4 == 3,
                dice=dice,
            )
        )
    return places


def values_of(path):
    """{(exercise, given): (value, low, high, step)} of exercise_values.csv."""
    with open(path, encoding="utf-8-sig", newline="") as file:
        return {
            (row["exercise"], row["given"]): tuple(float(row[name]) for name in ("value", "low", "high", "step"))
            for row in csv.DictReader(file)
        }


def drawn(which, values, name, word):
    """{given: number} of one student."""
    found = {}
    for (exercise, given), (value, low, high, step) in values.items():
        if exercise == which:
            text = f"{which}|{given}|{name}|{word}"
            k = int(hashlib.sha256(text.encode()).hexdigest()[:16], 16) % (round((high - low) / step) + 1)
            found[given] = low + k * step if name else value
    return found


def _money(x):
    return f"{math.floor(100 * x + 0.5 + 1e-9) / 100:.2f}"


def acts(student, half, lesson, values):
    """What is done on a lesson's page, in order: (exercise, text, True, False, or None for no try, drawn numbers' key); the
    text None opens the worked solution."""
    dice, name, word = student.dice, student.name_in(half), student.word_in(half)
    found = []
    for which in OF_LESSON[lesson]:
        mine, solved = drawn(which, values[half], name, word), False
        for _ in range(dice.choice((1, 1, 2, 3) if lesson == "08" else (0, 1, 2))):
            kind = dice.choice(("right", "right", "slip", "wrong", "unit", "unreadable", "again", "solution"))
            if kind == "solution" and not solved:
                solved = True
                found.append((which, None, None, half))
            elif kind == "again" and found and found[-1][0] == which and found[-1][1]:
                found.append(found[-1])
            else:
                found.append((which, *_text(kind, which, mine, dice), half))
    return found


def _text(kind, which, mine, dice):
    """(text, whether it is right, None for no try)."""
    right = _ANSWERS[which](**mine)
    if kind == "right":
        if which == PRICE:
            return dice.choice(("{} USD", "${}", "{}")).format(_money(right)), True
        return dice.choice(_RIGHT)(right), True
    if kind == "unit":
        return ("300 g", None) if which == PRICE else (dice.choice(_UNIT), None)
    if kind == "unreadable":
        return dice.choice(_UNREADABLE), None
    off = _SLIPS[which](**mine) if kind == "slip" else right * dice.uniform(1.2, 1.9)
    return (f"{_money(off)} USD" if which == PRICE else f"{off:.2f} g"), False


def row_of(student, lesson, late_after=None):
    """What lessons.csv must say of a student and a lesson. late_after: when it was due, None without a date.

    typed: (exercise, text, right or not or no try, half, when).
    """
    found = dict.fromkeys(("right", "tried", "tries", "first right", "late", "worked solution first"), 0)
    points = 0.0
    for which in OF_LESSON[lesson]:
        tries, solved, before = 0, False, None
        for exercise, text, good, half, when in student.typed:
            if exercise != which:
                continue
            if text is None:
                solved = True
                continue
            if good is None:
                continue
            if (text, half) != before:
                tries, before = tries + 1, (text, half)
            if good:
                late = late_after is not None and when > late_after
                whole = SOLUTION if solved else FIRST if tries == 1 else LATER
                points += whole * (100 - OFF * late) / 100
                found["right"] += 1
                found["first right"] += tries == 1
                found["late"] += late
                found["worked solution first"] += solved
                break
        found["tries"] += tries
        found["tried"] += tries > 0
    return {**found, "points": round(points, 4)}
