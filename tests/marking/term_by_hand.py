"""What a term's typing is worth, in plain arithmetic that knows the rules and nothing of the package."""

import hashlib

LESSON, WHICH, OTHER = "08", "08.as-purchased", "08.price-from-food-cost"
# Low, high and step of each given, first as the file has them, then as the instructor changes them in mid-term.
EARLY = {"edible": (360, 300, 900, 20), "juice": (40, 32, 46, 1), "cost": (4.2, 3, 6, 0.05), "share": (30, 25, 38, 1)}
LATE = {**EARLY, "juice": (50, 48, 56, 1)}
ROW, LATE_ROW = f"{WHICH},juice,40,%,32,46,1", f"{WHICH},juice,50,%,48,56,1"
RULES = "lesson,due,right_first,right_later,after_solution,off_a_day,last_day\n8,,4,3,2,0,\n"
# What is no answer to either question: words, a unit that is missing.
NO_TRY = ("lots", "17", "a good deal")


def drawn(which, name, student, rows, word=""):
    value, low, high, step = rows[name]
    if not student:
        return value
    word = f"|{word}" if word else ""
    k = int(hashlib.sha256(f"{which}|{name}|{student}{word}".encode()).hexdigest()[:16], 16)
    return low + k % (round((high - low) / step) + 1) * step


def right(which, student, rows, word=""):
    a, b = ("edible", "juice") if which == WHICH else ("cost", "share")
    answer = 100 * drawn(which, a, student, rows, word) / drawn(which, b, student, rows, word)
    return f"{answer:.2f} g" if which == WHICH else f"{answer:.2f} USD"


def row_of(typed):
    """What lessons.csv must say of a student who typed [(exercise, text, whether it is right, or None for no try)]."""
    found = {"right": 0, "tried": 0, "tries": 0, "first right": 0, "points": 0}
    for which in (WHICH, OTHER):
        tries = [good for exercise, _text, good in typed if exercise == which and good is not None]
        counted = tries[: tries.index(True) + 1] if True in tries else tries
        found["tried"] += bool(counted)
        found["tries"] += len(counted)
        found["right"] += True in counted
        found["first right"] += counted == [True]
        found["points"] += 4 if counted == [True] else 3 if True in counted else 0
    return {name: str(number) for name, number in found.items()}
