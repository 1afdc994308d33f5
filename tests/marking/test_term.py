"""A term of three sections, of twenty each in the deep run: handed out, answered, handed in, handed out anew, answered
again, marked.

In mid-term the values move, and one section gets a word of its own. What each student typed, and whether it was right, is kept by the
test in plain arithmetic: draws by the published rule, answers by a division. Every figure of the gradebook must be the one that follows from it.
"""

import csv
import random
import zipfile
from datetime import UTC, datetime, timedelta

import pytest
from depth import depth
from term_by_hand import EARLY, LATE, LATE_ROW, LESSON, NO_TRY, OTHER, ROW, RULES, WHICH, right, row_of

from pastrylab.course import benches
from pastrylab.desk import handout, workbook
from pastrylab.desk.marked import mark_folder
from pastrylab.school import answers as answers_on_disk
from pastrylab.school import exercise_values, whose

WORDS = "section,word\neverybody,autumn-26\n"  # in mid-term the third section gets its own


def word_of(number, late):
    return "autumn-26 c" if late and number % 3 == 2 else "autumn-26"


def given_out(made, place):
    """The part of a hand-out that is looked at here, where a student's copy is brought up to date from."""
    with zipfile.ZipFile(made.wheel) as archive:
        for name in ("lessons/08-cost-and-price.ipynb", "datasets/exercise_values.csv", "datasets/term.csv"):
            path = place / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(archive.read(f"pastrylab/_workbook/{name}"))
    return place


def type_in(typed, which, text, good):
    """Through the page's own card: into the box, and Check pressed."""
    card = benches.exercise(which)
    card.box.value = text
    card.grade()
    typed.append((which, text, good))


def answers(dice, typed, named, rows, word):
    """Some of what a student types in half a term: nothing, what cannot be read, slips, right answers."""
    for which in (WHICH, OTHER):
        for _ in range(dice.choice((0, 1, 1, 2))):
            low, unit = (200, "g") if which == WHICH else (1, "USD")  # no right answer, nor one in another unit
            kind = dice.choice(("right", "right", "wrong", "wrong", "none"))
            if kind == "right":
                type_in(typed, which, right(which, named, rows, word), True)
            elif kind == "none":
                type_in(typed, which, dice.choice(NO_TRY) if which == WHICH else "lots", None)
            else:
                type_in(typed, which, f"{low + len(typed) / 4} {unit}", False)


@pytest.fixture
def at_their_own_pace(monkeypatch):
    """People press at times of their own; a test presses for several within one second, and would be taken for a copier."""
    pace, at = random.Random(7), [datetime.now(UTC) - timedelta(days=40)]

    class Clock(datetime):
        @classmethod
        def now(cls, tz=None):
            at[0] += timedelta(seconds=pace.randrange(60, 2000))
            return at[0]

    monkeypatch.setattr(answers_on_disk, "datetime", Clock)


@pytest.mark.slow
def test_a_term_of_three_sections(tmp_path, monkeypatch, at_their_own_pace):
    teaching = tmp_path / "teaching"
    monkeypatch.setattr(handout, "_TRIED", 3)
    workbook.update(workbook.shipped_root(), teaching, "0.1.0")
    monkeypatch.setenv("PASTRYLAB_WORKBOOK", str(teaching))
    (teaching / "datasets" / "term.csv").write_text(WORDS, encoding="utf-8")
    first = handout.hand_out(tmp_path / "out", datetime(2026, 9, 1, 9))
    sources = [given_out(first, tmp_path / "first")]
    values = teaching / "datasets" / "exercise_values.csv"
    assert values.read_text(encoding="utf-8").count(ROW) == 1
    values.write_text(values.read_text(encoding="utf-8").replace(ROW, LATE_ROW), encoding="utf-8")
    (teaching / "datasets" / "term.csv").write_text(f"{WORDS}C,autumn-26 c\n", encoding="utf-8")
    second = handout.hand_out(tmp_path / "out", datetime(2026, 10, 20, 9))
    sources.append(given_out(second, tmp_path / "second"))

    dice, log, class_of = random.Random(14), {}, depth(15, 60)
    for number in range(1, class_of + 1):
        copy, typed = tmp_path / "students" / str(number), []
        monkeypatch.setenv("PASTRYLAB_WORKBOOK", str(copy))
        workbook.update(sources[0], copy, "1")
        named = str(number) if number % 3 else ""  # every third begins without a number
        early, late, section = word_of(number, False), word_of(number, True), "ABC"[number % 3]
        whose.set_student(named, section)
        answers(dice, typed, named, EARLY, early)
        workbook.update(sources[1], copy, "2")
        assert exercise_values.values().word == late
        if not named and number % 2 == 0:
            whose.set_student(named := str(number))  # and adds it in mid-term
        old, new = right(WHICH, named, EARLY, early), right(WHICH, named, LATE, late)
        if number % 4 == 2 and old != new:
            type_in(typed, WHICH, old, False)  # looked at the old sheet: its numbers are no longer asked
        answers(dice, typed, named, LATE, late)
        if not typed:
            type_in(typed, WHICH, new, True)
        card = benches.hand_in(LESSON)
        card.number.value, card.section.value = f"{number:03d}", section
        card.act()
        (made,) = (copy / "hand-in").glob("*.zip")
        (tmp_path / "in").mkdir(exist_ok=True)
        made.rename(tmp_path / "in" / f"download_{number * 7919 % 61}_{made.name}")
        log[str(number)] = row_of(typed)

    monkeypatch.setenv("PASTRYLAB_WORKBOOK", str(teaching))
    roll, rules = tmp_path / "list.csv", tmp_path / "rules.csv"
    roll.write_text(
        "number,name,section\n" + "".join(f"{n},Invented {n},{'ABC'[n % 3]}\n" for n in range(1, class_of + 1))
    )
    rules.write_text(RULES)
    mark_folder(tmp_path / "in", roll, tmp_path / "marks", [tmp_path / "out" / "values"], rules)
    with open(tmp_path / "marks" / "lessons.csv", encoding="utf-8-sig", newline="") as file:
        marked = {row["number"]: row for row in csv.DictReader(file) if row["lesson"] == "lesson 08"}
    assert {number: {name: marked[number][name] for name in row} for number, row in log.items()} == log
    assert len(marked) == class_of and 0.6 * class_of < sum(int(row["right"]) for row in log.values()) < 1.9 * class_of
    flags = (tmp_path / "marks" / "flags.csv").read_text(encoding="utf-8-sig").splitlines()
    assert flags[1:] == [], "nothing lost, nothing crossed"
