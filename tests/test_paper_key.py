"""Keys to the sheets on paper: each answer by hand, beside what the package works out from the numbers on the sheet."""

import re

import pytest

from pastrylab.course import catalogue
from pastrylab.desk import lesson_text, paper
from pastrylab.school import paper_key

LESSONS = [number for number in lesson_text.lesson_files() if number != "00"]

# By hand, with a pound of 453.592 g (NIST), Food Code 3-501.14(A), ASHRAE's table of saturated air (23.39, 18.19, 12.28 hPa at
# 20, 16 and 10 degC), and common practice for what is in words. "..." is a word the answer holds; None is the reader's own.
BY_HAND = {
    "01": {
        1: ("453.6", "16", "680"),  # 453.59 + 8 x 28.35
        2: ("27", "15", "...113 and 86"),
        3: ("60", "30", "6", "4", "yes"),
        4: ("2.5", "3", "2", "butter", "2000"),
        5: ("500", "...384 g"),  # 480 x 0.8
        6: ("...not on this scale",),
    },
    "02": {
        1: (None,) * 8,
        2: ("too little", "...467 g"),
        3: ("20 %",),  # 25 / 125
        4: ("14.5", "26.1"),
        5: ("1.5", "14.5", "34.6", "11.5", "74.1", "0.467"),  # 34.58; 18.285 + 55.8 = 74.085
        6: ("...too few crystals",),
    },
    "02b": {
        1: ("2", "3.5"),
        2: ("10", "5", "27"),
        3: ("0.8", "9.2", "0.26"),  # 2.4 / 9.2 = 0.2609
        4: ("...Smear", "...seed"),
        5: ("...the smear decides",),
    },
    "03": {
        1: ("2", "...to pipe or to roll"),
        2: ("1.33", "2"),  # 400 / 300
        3: ("125 g",),  # 116 + 9
        4: ("water, 60 g", "...more"),
        5: ("warmer", "...more heat", "..."),
        6: ("57", "21", "2", "5", "6", "135 °F", "70 °F", "41 °F"),
    },
    "04": {
        1: (None,) * 3,
        2: ("105.3", "102.6", "...water"),  # 360.31 / 342.30 = 1.0526
        3: ("10",),
        4: ("66.7", "50"),
        5: ("115 °C (239 °F)",),
        6: ("...foams", "..."),
    },
    "05": {
        1: ("0.87",),
        2: (),
        3: ("72.7", "20", "...water"),
        4: ("0.885", "PA"),  # table B, 0.88 to 0.90, pH above 5.0
        5: ("none", "...", "..."),
        6: ("no number of",),
    },
    "06": {
        1: ("1.5", "7.07", "56.5", "8"),  # 2/3 pi r3
        2: (),
        3: ("3", "2.36"),  # 54 / 18; 3 / 1.27
        4: ("4.71", "67", "73"),  # 3.706 x 18 = 66.7; x 1.1 = 73.4
        5: (),
        6: ("167", "10"),
        7: ("...brim", "..."),
    },
    "07": {
        1: ("23.4", "10.5", "7", "8"),
        2: ("10.5", "12.3", "86", "...over the limit"),
        3: ("58", "...yes"),
        4: ("12", "16"),
        5: ("S", "F", "F", "S", "S"),
        6: ("...cold",),
    },
    "08": {
        1: (None,) * 4,
        2: ("70", "500", "245", "...171.5 g"),
        3: ("12.00", "...25 %", "...75 %"),
        4: ("37.5", "60"),
        5: ("23", "2"),  # 22 boxes leave 88
        6: ("30", "..."),
    },
    "09": {
        1: ("5", "3", "4", "12"),  # 106.7 / 24, 66.7 / 28, 93.3 / 28
        2: ("25", "15", "20"),
        3: ("12:05", "11:35", "11:10", "12:30", "1"),
        4: ("...both ganaches on day 1",),
        5: (),
        6: (None,),
        7: ("...no nuts", "...cleaned"),
        8: ("...no rest",),
    },
}


def sheet_of(number):
    (sheet,) = [one for one in lesson_text.lesson(number).sheets if "before the lab" in one.heading]
    return sheet.text


def answers(number, *changes):
    text = sheet_of(number)
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    return {one.number: one for one in paper_key.answered(text, catalogue.paper_keys(number))}


@pytest.mark.parametrize("number", LESSONS)
def test_each_answer_is_the_one_worked_by_hand(number):
    found = answers(number)
    assert found.keys() == BY_HAND[number].keys()
    for which, one in found.items():
        assert one.known and len(one.answers) == len(BY_HAND[number][which]), which
        for got, expected in zip(one.answers, BY_HAND[number][which], strict=True):
            same = expected[3:] in got if expected and expected.startswith("...") else got == expected
            assert same, (which, got, expected)


@pytest.mark.parametrize(
    ("number", "change", "which", "expected"),
    [
        ("01", ("600 g couverture", "900 g couverture"), 3, ("69.2", "23.1", "4.62", "3.08", "yes")),  # over 1300
        ("01", ("900 g cream", "450 g cream"), 4, ("2.5", "1.5", "2", "cream", "1500")),
        ("01", ("lose 20 %", "lose 50 %"), 5, ("800", "...240 g")),
        ("02", ("150 g of seed", "470 g of seed"), 2, ("about right", "...467 g")),
        ("02", ("150 g of seed", "900 g of seed"), 2, ("too much", "...467 g")),
        ("02", ("holds 1.5 kg", "holds 3 kg"), 5, ("3", "14.5", "69.2", "11.5", "74.1", "0.934")),  # 69.165 / 74.085
        ("02b", ("is 7 kg", "is 9 kg"), 1, ("3", "3")),
        ("03", ("400 g dark", "200 g dark"), 1, ("1", "to pour")),
        ("05", ("shows 0.865", "shows 0.855"), 4, ("0.875", "non-TCS")),  # table B: below 0.88
        ("06", ("30 mm across", "20 mm across"), 1, ("1", "2.09", "16.8", "8")),
        ("07", ("20 °C and 45 %", "20 °C and 60 %"), 2, ("14.0", "12.3", "114", "wet")),
        ("07", ("at 16 °C", "at 12 °C"), 3, ("75", "...yes")),  # 10.53 / 14.0
        ("08", ("cost 3.00", "cost 2.00"), 3, ("8.00", "...25 %", "...50 %")),
        ("08", ("costs 90", "costs 92"), 5, ("23", "4")),
        ("09", ("96 dark", "144 dark"), 3, ("11:55", "11:25", "10:50", "12:30", "1")),  # 160 cast, 7 moulds
    ],
)
def test_a_changed_number_changes_its_key(number, change, which, expected):
    one = answers(number, change)[which]
    assert one.known
    for got, wanted in zip(one.answers, expected, strict=True):
        assert wanted[3:] in got if wanted.startswith("...") else got == wanted, (got, wanted)


@pytest.mark.parametrize(
    ("number", "change", "lost"),
    [
        ("02", ("1.5 kg", "1.5 lb"), {2, 5}),  # 5 uses the bowl of 2
        ("06", ("1.27 g/mL", "1.27"), {3, 4}),
        ("08", ("Boxes to break even: ______.", "Boxes to break even?"), {5}),
        ("09", ("Shells set 20 minutes", "Shells set for a while"), {1, 2, 3}),
        ("01", ("lose 20 %", "lose 100 %"), {5}),
        ("05", ("shows 0.865", "shows 8650"), {4}),
    ],
)
def test_a_question_that_asks_something_else_has_no_key(number, change, lost):
    found = answers(number, change)
    assert {which for which, one in found.items() if not one.known} == lost
    assert all(answer is None for which in lost for answer in found[which].answers)


def test_an_added_question_has_no_key_and_nothing_breaks():
    lesson = lesson_text.lesson("01")
    text = sheet_of("01") + "\n7. And <script>alert(1)</script> of 3 g? ______"
    page = paper._key(lesson, lesson_text.Sheet("01", "On paper before the lab", text), catalogue.paper_keys("01"))
    assert page.count("not the one its key was made for") == 1
    assert catalogue.paper_keys("00") == {} and catalogue.paper_keys("77") == {}


def test_answers_of_a_key_are_written_as_text():
    lesson = lesson_text.lesson("01")
    keys = {1: paper_key.Key("g", lambda s: (("<b>2</b> & more",), "5 < 6"))}
    page = paper._key(lesson, lesson_text.Sheet("01", "x", "1. Half of 4 g is ______ g."), keys)
    assert "&lt;b&gt;2&lt;/b&gt; &amp; more" in page and "5 &lt; 6" in page


def test_the_key_has_no_room_to_write(tmp_path):
    paper.sheets_of("09", tmp_path)
    page = (tmp_path / "09-key-to-the-sheet.html").read_text(encoding="utf-8")
    assert "Name or class number" not in page and not re.search(r"<br>\s*<br>", page)
    assert page.count('class="answer"') == sum(one is not None for all_ in BY_HAND["09"].values() for one in all_)
