"""Make-up labs: a draw of one's own, the same skills; answers by plain arithmetic from the rows of the lesson."""

import hashlib
import math
import re

import pytest
from depth import depth

from pastrylab.course.labday import benches
from pastrylab.course.labday.make_up import MISSED, make_up, read_absent
from pastrylab.course.labday.make_up_sheet import key_html, key_rows, sheets_html
from pastrylab.desk import commands
from pastrylab.ground.errors import StudentError
from pastrylab.trade.orders import larkmoor
from pastrylab.trade.planning import Lab

MAKE = {"dark ganache": 30, "raspberry ganache": 35}  # minutes, as lesson 09 has them
CAVITIES = {"dark ganache": 24, "raspberry ganache": 28, "hazelnut praline": 28}
FILLING = {"dark ganache": 770 / 96, "raspberry ganache": 770 / 96, "hazelnut praline": 770 / 96}


def drawn(name, low, high, step, student, word=""):
    """The published rule, by itself."""
    text = f"09.make-up|{name}|{student}" + (f"|{word}" if word else "")
    k = int(hashlib.sha256(text.encode()).hexdigest()[:16], 16)
    return low + k % ((high - low) // step + 1) * step


@pytest.mark.parametrize("student", [str(number) for number in range(1, depth(7, 60))])
def test_numbers_and_answers_by_plain_arithmetic(student):
    lab = make_up(student, "both days", larkmoor())
    long, short = lab.order
    assert long == ("dark ganache", "raspberry ganache")[drawn("which", 0, 1, 1, student)]
    assert short == "hazelnut praline"
    assert lab.order == {long: drawn("long", 36, 96, 12, student), short: drawn("short", 24, 84, 12, student)}
    rejects = drawn("rejects", 5, 25, 5, student)
    assert lab.fetched == 1440 + 750 - drawn("earlier", 0, 45, 15, student)
    answers = dict(key_rows(lab)[1:])
    for name, pieces in lab.order.items():
        fills = math.ceil(pieces * 100 / (100 - rejects) / CAVITIES[name] - 1e-9)
        cast = fills * CAVITIES[name]
        assert answers[f"{name}: fills, and pieces cast"] == f"{fills} fills, {cast} pieces"
        grams = math.ceil(cast * FILLING[name] / 0.95 - 1e-9)
        assert answers[f"{name}: filling to make, 5 % left in the bag"].startswith(f"{grams} g")
        if name == long:
            # Filled when the first day closes: the larger batch is filled, 45 min of rest, the filling made.
            batches = math.ceil(fills / 4)
            begins = 750 - 5 * math.ceil(fills / batches) - 45 - MAKE[name]
            said = answers[f"{name}: latest start, by itself"]
            assert said == f"{begins // 60}:{begins % 60:02d}. Proved best: no plan does better."
    assert answers["in one machine"] == f"{long}, then hazelnut praline"


def test_a_draw_of_ones_own_and_of_the_term():
    orders = {str(make_up(str(n), "day 1", larkmoor()).order) for n in range(1, 9)}
    assert len(orders) > 4
    assert make_up("017", "day 1").order == make_up("17", "day 2").order
    words = [make_up("17", "day 1", word=word) for word in ("", "plum", "pear", "fig")]
    assert len({(str(one.order), one.rejects, one.fetched) for one in words}) > 1


@pytest.mark.parametrize("missed", MISSED)
def test_the_sheet_has_what_was_missed_and_no_answer(missed):
    lab = make_up("17", missed, larkmoor())
    sheet, key = sheets_html([lab]), key_html([lab])
    assert ("shells and filling" in sheet) == (missed in ("day 1", "both days"))
    assert ("at the bench: caps" in sheet) == (missed in ("day 2", "both days"))
    assert ("telephone call" in sheet) == (missed == "the planning")
    assert "Allergens at your bench: milk, soybeans" in sheet and "Make-up lab: 17" in sheet
    for _, right in key_rows(lab)[1:3]:
        assert right not in sheet and right in key
    assert "safe" not in (sheet + key).casefold()


def test_one_mould_by_hand():
    # 24 cavities of 530 / 96 g of shell and cap, of which 1.2 g cap; 770 / 96 g of filling, a twentieth left.
    lab = next(one for n in range(1, 20) if "dark ganache" in (one := make_up(str(n), "both days", larkmoor())).order)
    answers = dict(key_rows(lab)[1:])
    assert answers["shells of one mould of dark ganache"].startswith(f"{math.ceil(24 * (530 / 96 - 1.2))} g")
    assert answers["caps of one mould of dark ganache"].startswith("29 g")  # 28.8
    assert f"{math.ceil(260 / 96 * 24 / 0.95)} g" in sheets_html([lab])


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("17", (("17", "both days"),)),
        ("017: Day 1", (("17", "day 1"),)),
        ("17, 23: 2; Ana: planning", (("17", "day 2"), ("23", "day 2"), ("ana", "the planning"))),
        ("17: first day\n23: all", (("17", "day 1"), ("23", "both days"))),
    ],
)
def test_who_was_absent_as_people_write_it(text, found):
    assert read_absent(text) == found


@pytest.mark.parametrize(
    "text", ["", " ; ", "17: day 3", "17: everything else", "17; 017", ": day 1", "17,,23", "x" * 3000]
)
def test_who_was_absent_and_cannot_be_read(text):
    with pytest.raises(StudentError):
        read_absent(text)


@pytest.mark.parametrize(("student", "missed"), [("", "day 1"), ("17", "day 9"), ("17", "")])
def test_nobody_and_nothing_missed_are_sentences(student, missed):
    with pytest.raises(StudentError):
        make_up(student, missed)


def test_a_lab_without_a_night_says_so():
    there = larkmoor()
    short = there.__class__(there.flavours, Lab(2, ((480, 750),), {"tempering machine": 1}, there.lab.things))
    with pytest.raises(StudentError):
        make_up("17", "day 1", short)


def test_the_page_gives_a_sheet_and_the_command_sheet_and_key(own_workbook, tmp_path, capsys):
    bench = benches.make_up_bench()
    bench.student.value = "<b>17"
    bench.act()
    assert "<b>17" not in bench.said.value
    bench.student.value = "17"
    bench.act()
    assert "For 17: " in bench.said.value and "make-up.html" in bench.shown.value
    assert not re.search("key", bench.shown.value[:200])
    (tmp_path / "order.txt").write_text("24 hazelnut", encoding="utf-8")
    arguments = ["plan", str(tmp_path / "order.txt"), "--out", str(tmp_path / "out"), "--seconds", "5", "--absent"]
    assert commands.main([*arguments, "17: day 1; 23"]) == 0
    sheet = (tmp_path / "out" / "make-up.html").read_text(encoding="utf-8")
    assert "Make-up lab: 17" in sheet and "Make-up lab: 23" in sheet and "http" not in sheet
    assert "the key" in (tmp_path / "out" / "make-up-key.html").read_text(encoding="utf-8")
    assert commands.main([*arguments, "17: day 5"]) == 2
    assert "as what was missed" in capsys.readouterr().err
