"""Why 7 of 12: the page on one student says of each line what became of it, and each point as it is worked out by hand."""

import csv
import html
import re

import pytest
from lines_handed_in import HONEY, line, opened, right

from pastrylab.course.catalogue import EXERCISES
from pastrylab.desk import marked
from pastrylab.ground.units import StudentError
from pastrylab.school import explaining
from pastrylab.school.answers import OPENED_SOLUTION as OPENED
from pastrylab.school.marking import Mark
from pastrylab.school.marking_rules import Rule

RULES = "lesson,due,right_first,right_later,after_solution,off_a_day,last_day\n1,2026-10-05,4,3,2,10,3\n8,,2,1,1,0,\n"
OF_LESSON = {lesson: sum(which.startswith(lesson) for which in EXERCISES) for lesson in ("01", "08")}


@pytest.fixture
def mark(hand_in, tmp_path):
    """mark(list, *explain): {file below the folder of marks: its text}."""
    (tmp_path / "rules.csv").write_text(RULES, encoding="utf-8")

    def run(roll, *explain):
        (tmp_path / "list.csv").write_text(roll, encoding="utf-8")
        out = tmp_path / "marks"
        marked.mark_folder(hand_in.folder, tmp_path / "list.csv", out, rules=tmp_path / "rules.csv", explain=explain)
        return {path.relative_to(out).as_posix(): path.read_text(encoding="utf-8-sig") for path in out.rglob("*.*")}

    return run


def words(page):
    return " ".join(html.unescape(re.sub(r"<style>.*?</style>|<[^>]+>", " ", page, flags=re.S)).split())


WHY = [
    ([("9 g", 5), (None, 5)], "Right at try 2: 3 points."),
    ([(None, 5)], "Right at the first try: 4 points."),
    ([(None, 6)], "Right at the first try: 4 points. 1 day late, less 10 %: 3.6 points."),
    ([("9 g", 6), (None, 8)], "Right at try 2: 3 points. 3 days late, less 30 %: 2.1 points."),
    ([(None, 9)], "Right at the first try: 4 points. 4 days late, and it counts up to 3: 0 points."),
    ([("open", 5), (None, 5)], "Right after the worked solution was opened: 2 points."),
    ([("9 g", 5)], "Not right, after 1 try: 0 points."),
    ([("9 g", 5), ("8 g", 5)], "Not right, after 2 tries: 0 points."),
    ([("honey", 5)], "Not right, after no try: 0 points."),
]


@pytest.mark.parametrize(("typed", "why"), WHY, ids=[why for _typed, why in WHY])
def test_each_point_is_said_as_by_hand(hand_in, mark, typed, why):
    lines = []
    for minute, (text, day) in enumerate(typed):
        when = f"2026-10-{day:02}T10:{minute:02}:00+00:00"
        lines.append(opened("17", when) if text == "open" else line("17", text or right("17"), when))
    hand_in("17/01.jsonl", *lines)
    page = words(mark("number,name\n17,Ana\n", "017")["students/17.html"])
    assert why in page and "Number 17, Ana" in page and "the numbers of '17'" in page


def test_a_number_stands_as_the_class_list_writes_it(hand_in, mark):
    hand_in("1/01.jsonl", line("1", right("1")), line("1", "9 g", exercise="01.no-exercise"))
    files = mark("number,name,section\n001,Ana,A\n12,Bo,A\n", "1")
    page = files["students/001.html"]
    assert "<title>Number 001</title>" in page and "the numbers of '001'" in words(page)
    flagged = [row.split(",")[0] for row in files["flags.csv"].splitlines()[1:]]
    assert "001" in flagged and "1" not in flagged, "as in gradebook.csv: a spreadsheet finds it there"


def test_what_became_of_every_line(hand_in, mark):
    at = "2026-10-05T10:{:02}:00+00:00".format
    lines = [("360 g", 0), (" 360 g", 1), ("900 lb", 2), ("lots", 3), ("900 g", 4), ("1 g", 5)]
    hand_in("17/08.jsonl", *(line("", text, at(n), "08.as-purchased") for text, n in lines), "torn")
    page = words(mark("number\n17\n", "17")["students/17.html"])
    for said in (
        "360 g wrong: the loss forgotten",
        "360 g wrong: the loss forgotten; the same again, no try",
        "900 lb its unit is missing or another: no try",
        "lots could not be read: no try",
        "900 g right",
        "1 g wrong; after the right one, so it changes nothing",
        "Right at try 2: 1 point.",
        "Right: 900 g",
        "the numbers of the class",
        f"08 no date 1 of {OF_LESSON['08']} 1 of {2 * OF_LESSON['08']}",
        "cannot be read: 08.jsonl line 7",
    ):
        assert said in page


def test_a_line_to_other_numbers_than_those_on_the_page_says_what_was_right(hand_in, mark):
    """360 g of juice at 40 %, in the class's values: 900 g. By the published rule 17 is asked for other lemons."""
    at = "2026-10-05T10:{:02}:00+00:00".format
    lines = [line("", "5 g", at(0), "08.as-purchased"), line("", "900 g", at(1), "08.as-purchased")]
    hand_in(
        "17/08.jsonl", *lines, line("17", "6 g", at(2), "08.as-purchased"), line("17", "lots", at(3), "08.as-purchased")
    )
    page = words(mark("number\n17\n", "17")["students/17.html"])
    assert "Right: 900 g" not in page and "5 g wrong (asked with other numbers: right was 900 g (31.7 oz))" in page
    assert "900 g right (asked with other numbers: right was 900 g (31.7 oz))" in page
    assert page.count("asked with other numbers") == 2


class Told:
    """A judge that says what it was told to."""

    def __init__(self, **said):
        self.said = said

    def verdict(self, which, values, student, answer):
        if answer == "faulty":
            raise StudentError("a row at fault", "another")
        return self.said[answer.strip()]


def test_line_by_line():
    judge = Told(r=("right", ""), w=("wrong", "a slip"), v=("wrong", ""), u=("unit", "x"), n=("unreadable", ""))
    typed = [
        ("w", "wrong: a slip"),
        (" w", "wrong: a slip; the same again, no try"),
        ("n", "could not be read: no try"),
        ("w", "wrong: a slip; the same again, no try"),
        ("v", "wrong"),
        ("w", "wrong: a slip"),
        ("faulty", "cannot be judged: You gave a row at fault. Needed: another."),
        ("u", "its unit is missing or another: no try"),
        ("r", "right"),
        ("r", "right; after the right one, so it changes nothing"),
        ("w", "wrong: a slip; after the right one, so it changes nothing"),
    ]
    lines = [(None, "17", text, "", "") for text, _says in typed]
    found = explaining.lines_of(judge, "02.x", [*lines, (None, "17", "", "", "sang"), (None, "17", "", "", OPENED)])
    assert [one.says for one in found[:-2]] == [says for _text, says in typed]
    assert [one.says for one in found[-2:]] == ["something else done: no try", OPENED]
    assert [one.answer for one in found] == [text for text, _says in typed] + ["", ""]


@pytest.mark.parametrize(
    ("mark", "rule", "says"),
    [
        ({"right": True, "tries": 1, "points": 1}, None, "Right, and no row for the lesson in marking.csv: 0 points."),
        ({"right": True, "tries": 1, "late": 1, "points": 0.5}, (1, 5, 9, 50, None), "Right at the first try: 1 point. 1 day late, less 50 %: 0.5 points."),
        ({"right": True, "tries": 3, "late": 3, "points": 0}, (1, 5, 9, 50, None), "Right at try 3: 5 points. 3 days late, less 100 %: 0 points."),
        ({"right": True, "tries": 1, "late": 2, "points": 1.4}, (2, 0, 0, 15, 2), "Right at the first try: 2 points. 2 days late, less 30 %: 1.4 points."),
        ({"right": True, "tries": 1, "late": 3}, (2, 0, 0, 15, 2), "Right at the first try: 2 points. 3 days late, and it counts up to 2: 0 points."),
        ({"right": True, "tries": 1, "solution": True, "points": 9}, (1, 5, 9, 0, 0), "Right after the worked solution was opened: 9 points."),
        ({"tries": 2}, (1, 5, 9, 0, 0), "Not right, after 2 tries: 0 points."),
        ({}, None, "Not right, after no try: 0 points."),
    ],
)  # fmt: skip
def test_the_sentence_of_a_mark(mark, rule, says):
    first, later, solution, off, last = rule or (0,) * 5
    whole = Rule("02", None, first, later, solution, off, last) if rule else None
    assert explaining.why(Mark("02.x", **mark), whole) == says


def test_only_who_was_asked_for_or_everybody(hand_in, mark):
    for owner in ("17", "18", "b-3/x"):
        hand_in(f"{owner.replace('/', '_')}/01.jsonl", line(owner, right(owner)))
    roll = "number\n17\n18\nb-3/x\n19\n"
    assert not any("students" in name for name in mark(roll))
    assert {name for name in mark(roll, "18") if "students" in name} == {"students/18.html"}
    assert {name for name in mark(roll, "all") if "students" in name} == {
        f"students/{n}.html" for n in ("17", "18", "b-3-x")
    }


def test_marked_again_no_page_of_an_earlier_marking_stays_and_nobody_elses_goes(hand_in, mark, tmp_path):
    hand_in("17/01.jsonl", line("17", "9 g"))
    hand_in("18/01.jsonl", line("18", "9 g"))
    assert "students/17.html" in mark("number\n17\n18\n", "17")
    (tmp_path / "marks" / "students" / "mine.html").write_text("<p>notes of one's own</p>", encoding="utf-8")
    files = mark("number\n17\n18\n", "18")
    assert {name for name in files if "students" in name} == {"students/18.html", "students/mine.html"}


@pytest.mark.parametrize("number", ["19", "", "everyone", "../17"])
def test_nobody_to_explain_is_said(hand_in, mark, number):
    hand_in("17/01.jsonl", line("17", right("17")))
    with pytest.raises(StudentError, match="who handed in nothing"):
        mark("number\n17\n19\n", number)


def test_what_was_typed_starts_nothing_on_the_page(hand_in, mark):
    hand_in("17/01.jsonl", line("17", "<script>alert(1)</script>"), line("<b>", "<i>9 g", "2026-10-05T11:00:00+00:00"))
    page = mark('number,name,section\n17,"<img src=x>","<h1>"\n', "17")["students/17.html"]
    assert "<script" not in page and "<i>" not in page and "<img" not in page and "&lt;script&gt;" in page


# --- averages ---------------------------------------------------------------------------------------------------


def rows(text, delimiter=","):
    return list(csv.DictReader(text.splitlines(), delimiter=delimiter))


def test_averages_by_hand(hand_in, mark):
    """Section A: 4 points and 0; B: 3.6. Of 4 points an exercise."""
    hand_in("17/01.jsonl", line("17", right("17")))
    hand_in("18/01.jsonl", line("18", "9 g"))
    hand_in("19/01.jsonl", line("19", right("19"), "2026-10-06T10:00:00+00:00"))
    files = mark("number,name,section\n17,,A\n18,,A\n19,,B\n20,,B\n")
    of = 4 * OF_LESSON["01"]
    got = [(row["section"], row["students who tried"], row["points"]) for row in rows(files["averages.csv"])]
    assert got == [("A", "2", "2"), ("B", "1", "3.6"), ("all", "3", "2.53")]
    assert [row["percent"] for row in rows(files["averages.csv"])][:2] == [f"{200 / of:.1f}", f"{360 / of:g}"]
    book = {row["number"]: row for row in rows(files["gradebook.csv"])}
    assert book["17"]["percent"] == f"{400 / of:.3g}" and book["20"]["percent"] == "0"
    assert "2 tried" in files["class.html"] and "1 tried" in files["class.html"]


def test_an_excused_lesson_is_in_no_average(hand_in, mark):
    hand_in("17/01.jsonl", line("17", right("17")))
    hand_in("18/08.jsonl", line("", "900 g", exercise="08.as-purchased"))
    files = mark("number,excused\n17,08\n18,\n")
    book = {row["number"]: float(row["percent"]) for row in rows(files["gradebook.csv"])}
    both = 4 * OF_LESSON["01"] + 2 * OF_LESSON["08"]
    assert book["17"] == pytest.approx(400 / (4 * OF_LESSON["01"]), abs=0.05)
    assert book["18"] == pytest.approx(200 / both, abs=0.05)


def test_a_spreadsheet_with_decimal_commas_gets_them(hand_in, mark):
    hand_in("17/01.jsonl", line("17", right("17"), "2026-10-06T10:00:00+00:00"))
    files = mark("number;name;section\n17;Doe, Ana;A\n")
    row = rows(files["gradebook.csv"], ";")[0]
    assert (row["points"], row["name"], row["lesson 01 points"]) == ("3,6", "Doe, Ana", "3,6")
    assert rows(mark("number,name\n17,Ana\n")["gradebook.csv"])[0]["points"] == "3.6"


def test_who_is_stuck_where_and_what_everybody_missed(hand_in, mark):
    at = "2026-10-05T10:{:02}:00+00:00".format
    for owner in ("17", "18"):
        hand_in(f"{owner}/01.jsonl", *(line(owner, f"{n} g", at(n + int(owner))) for n in range(3)))
    page = words(mark("number,section\n017,A\n18,B\n")["class.html"])
    title = f"01 {EXERCISES[HONEY].title}"
    assert f"{title} (2 tried)" in page and f"{title} A: 017 · B: 18" in page
