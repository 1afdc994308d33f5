"""A term of three sections of twenty: handed out, answered, handed in, handed out anew, answered again, marked.

In mid-term the values move, and one section gets a word of its own. What each student typed, and whether it was right, is kept by the test in plain arithmetic: draws by the published rule,
answers by a division. The gradebook must say the same of everybody.
"""

import csv
import hashlib
import zipfile
from datetime import datetime

import pytest

from pastrylab.course import benches
from pastrylab.desk import handout, workbook
from pastrylab.desk.marked import mark_folder
from pastrylab.school import exercise_values, whose

LESSON, WHICH, OTHER = "08", "08.as-purchased", "08.price-from-food-cost"
# Low, high and step of each given, first as the file has them, then as the instructor changes them in mid-term.
EARLY = {"edible": (360, 300, 900, 20), "juice": (40, 32, 46, 1), "cost": (4.2, 3, 6, 0.05), "share": (30, 25, 38, 1)}
LATE = {**EARLY, "juice": (50, 48, 56, 1)}


WORDS = "section,word\neverybody,autumn-26\n"  # in mid-term the third section gets its own


def word_of(number, late):
    return "autumn-26 c" if late and number % 3 == 2 else "autumn-26"


def drawn(which, name, student, rows, word):
    value, low, high, step = rows[name]
    if not student:
        return value
    k = int(hashlib.sha256(f"{which}|{name}|{student}|{word}".encode()).hexdigest()[:16], 16)
    return low + k % (round((high - low) / step) + 1) * step


def right(which, student, rows, word):
    a, b = ("edible", "juice") if which == WHICH else ("cost", "share")
    answer = 100 * drawn(which, a, student, rows, word) / drawn(which, b, student, rows, word)
    return f"{answer:.2f} g" if which == WHICH else f"{answer:.2f} USD"


def given_out(made, place):
    """The part of a hand-out that is looked at here, where a student's copy is brought up to date from."""
    with zipfile.ZipFile(made.wheel) as archive:
        for name in ("lessons/08-cost-and-price.ipynb", "datasets/exercise_values.csv", "datasets/term.csv"):
            path = place / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(archive.read(f"pastrylab/_workbook/{name}"))
    return place


def type_in(which, text):
    card = benches.exercise(which)
    card.box.value = text
    card.grade()
    return card


@pytest.mark.slow
def test_a_term_of_three_sections_of_twenty(tmp_path, monkeypatch):
    teaching = tmp_path / "teaching"
    monkeypatch.setattr(handout, "_TRIED", 3)
    workbook.update(workbook.shipped_root(), teaching, "0.1.0")
    monkeypatch.setenv("PASTRYLAB_WORKBOOK", str(teaching))
    (teaching / "datasets" / "term.csv").write_text(WORDS, encoding="utf-8")
    first = handout.hand_out(tmp_path / "out", datetime(2026, 9, 1, 9))
    sources = [given_out(first, tmp_path / "first")]
    values = teaching / "datasets" / "exercise_values.csv"
    row = f"{WHICH},juice,40,%,32,46,1"
    assert values.read_text(encoding="utf-8").count(row) == 1
    values.write_text(values.read_text(encoding="utf-8").replace(row, f"{WHICH},juice,50,%,48,56,1"), encoding="utf-8")
    (teaching / "datasets" / "term.csv").write_text(f"{WORDS}C,autumn-26 c\n", encoding="utf-8")
    second = handout.hand_out(tmp_path / "out", datetime(2026, 10, 20, 9))
    sources.append(given_out(second, tmp_path / "second"))

    log = {}
    for number in range(1, 61):
        copy = tmp_path / "students" / str(number)
        monkeypatch.setenv("PASTRYLAB_WORKBOOK", str(copy))
        workbook.update(sources[0], copy, "1")
        named = str(number) if number % 3 else ""  # every third begins without a number
        early, late, section = word_of(number, False), word_of(number, True), "ABC"[number % 3]
        whose.set_student(named, section)
        got = {WHICH: False, OTHER: False}
        if number % 2:
            type_in(WHICH, right(WHICH, named, EARLY, early))
            got[WHICH] = True
        if number % 5 == 0:
            type_in(OTHER, "1 USD")
        workbook.update(sources[1], copy, "2")
        assert exercise_values.values().word == late
        if not named and number % 2 == 0:
            whose.set_student(named := str(number))  # and adds it in mid-term
        if number % 4 == 0:
            type_in(WHICH, right(WHICH, named, LATE, late))
            got[WHICH] = True
        elif number % 4 == 2:
            type_in(
                WHICH, right(WHICH, named, EARLY, early)
            )  # looked at the old sheet: its numbers are no longer asked
            got[WHICH] = right(WHICH, named, EARLY, early) == right(WHICH, named, LATE, late)
        if number % 7 == 0:
            type_in(OTHER, right(OTHER, named, LATE, late))
            got[OTHER] = True
        card = benches.hand_in(LESSON)
        card.number.value, card.section.value = f"{number:03d}", section
        card.act()
        (made,) = (copy / "hand-in").glob("*.zip")
        (tmp_path / "in").mkdir(exist_ok=True)
        made.rename(tmp_path / "in" / f"download_{number * 7919 % 61}_{made.name}")
        log[str(number)] = sum(got.values())

    monkeypatch.setenv("PASTRYLAB_WORKBOOK", str(teaching))
    roll = tmp_path / "list.csv"
    roll.write_text("number,name,section\n" + "".join(f"{n},Invented {n},{'ABC'[n % 3]}\n" for n in range(1, 61)))
    mark_folder(tmp_path / "in", roll, tmp_path / "marks", [tmp_path / "out" / "values"])
    with open(tmp_path / "marks" / "lessons.csv", encoding="utf-8-sig", newline="") as file:
        marked = {row["number"]: int(row["right"]) for row in csv.DictReader(file) if row["lesson"] == "lesson 08"}
    assert marked == log and 25 < sum(log.values()) < 120
    flags = (tmp_path / "marks" / "flags.csv").read_text(encoding="utf-8-sig")
    assert "not among those given out" not in flags and "says" not in flags, "nothing lost, nothing crossed"
