"""Sections with one requisition, stations of pairs, and what is left over, in and out: on the page and by the command.

Grams are worked by hand from bonbons.csv: 260 g of cream and 530 g of shells and caps for 96 pieces, 5 % left in the bag.
"""

import csv
from dataclasses import replace

import pytest

from pastrylab.course.labday import benches
from pastrylab.desk import commands, planned
from pastrylab.ground.errors import StudentError
from pastrylab.page.lab_day.left_over import left_over_words
from pastrylab.page.lab_day.sheets import lab_day_html
from pastrylab.page.lab_day.timeline import work_of
from pastrylab.trade.orders import larkmoor, quantities, read_sheet
from pastrylab.trade.orders.day import lab_of, paired, stations_of, steps_of
from pastrylab.trade.planning import Lab, Step, make_plan

pytestmark = pytest.mark.usefixtures("undrawn")

DARK = "dark couverture 64 %"


def rows_of(path):
    with open(path, encoding="utf-8-sig", newline="") as file:
        return {row["ingredient"]: row for row in csv.DictReader(file)}


# --- sections ---------------------------------------------------------------------------------------------------------


def test_sections_are_added_before_packs_are_rounded(tmp_path, capsys):
    # Each 6 moulds of 24: 260 x 144 / 96 / 0.95 = 410.5 g of cream; both 821.05, so 822 g, out of one carton of 923 g.
    (tmp_path / "order.txt").write_text(
        "Friday 27 Nov\nMorning:\n144 dark\nallergy: sesame\nAfternoon:\n144 dark", encoding="utf-8"
    )
    out = tmp_path / "friday"
    assert commands.main(["plan", str(tmp_path / "order.txt"), "--out", str(out), "--seconds", "5"]) == 0
    cream = rows_of(out / "requisition.csv")["heavy cream 36 %"]
    assert (cream["needed g"], cream["packs"]) == ("822", "1")
    said = capsys.readouterr().out
    assert "all sections together" in said and "Morning: " in said and "planned as if lab" in said
    assert sorted(path.name for path in out.iterdir()) == [
        "afternoon",
        "morning",
        "requisition.csv",
        "requisition.html",
    ]
    assert sorted(path.name for path in (out / "morning").iterdir()) == ["day.html", "labels.html", "plan.csv"]
    page = (out / "morning" / "day.html").read_text(encoding="utf-8")
    assert "Friday 27 Nov, Morning: 144 dark ganache" in page and "allergy: sesame" in page
    paper = (out / "requisition.html").read_text(encoding="utf-8")
    assert "Friday 27 Nov, Afternoon: 144 dark ganache." in paper and ">822<" in paper and "Given out by" in paper
    assert len(planned.files(out)) == 8


def test_a_file_a_section_gives_the_same_requisition(tmp_path):
    for name in ("early", "late"):
        (tmp_path / f"{name}.txt").write_text("144 dark", encoding="utf-8")
    files = [str(tmp_path / f"{name}.txt") for name in ("early", "late")]
    assert commands.main(["plan", *files, "--out", str(tmp_path / "out"), "--seconds", "5"]) == 0
    assert rows_of(tmp_path / "out" / "requisition.csv")["heavy cream 36 %"]["needed g"] == "822"
    assert (tmp_path / "out" / "early" / "day.html").exists()


def test_two_files_of_one_name_are_asked_about(tmp_path, capsys):
    (tmp_path / "a.txt").write_text("24 dark", encoding="utf-8")
    assert commands.main(["plan", *[str(tmp_path / "a.txt")] * 2, "--out", str(tmp_path / "out")]) == 2
    assert "a name of its own" in capsys.readouterr().err and not (tmp_path / "out").exists()


# --- stations ---------------------------------------------------------------------------------------------------------


def test_every_pair_has_its_station_on_sheet_and_in_the_table():
    found = larkmoor().takes("24 dark\n24 hazel")
    lab = replace(larkmoor().lab, teams=2, stations=("window", "<island>"))
    plan = make_plan(*steps_of(found), lab, seconds=5)
    page = lab_day_html("Friday", found, plan)
    assert "Bench sheet: pair 1, window" in page and "pair 2, &lt;island&gt;" in page
    rows = work_of(plan)
    assert rows[0][-1] == "station"
    assert {(row[3], row[5]) for row in rows[1:]} == {("pair 1", "window"), ("pair 2", "<island>")}


def test_more_pairs_than_stations_is_a_sentence_that_helps():
    lab = Lab(9, ((480, 720),), stations=stations_of({"window": 8}))
    with pytest.raises(StudentError) as refused:
        make_plan([Step("cast", 30)], (), lab)
    assert "9 pairs and 8 stations" in str(refused.value) and "1 would have none" in str(refused.value)
    assert make_plan([Step("cast", 30)], (), replace(lab, teams=8)).value == 690


@pytest.mark.parametrize(
    ("places", "words"),
    [(1, "2 more at work at once, with 2 more stations"), (2, "with 1 more station."), (3, "2 more at work at once.")],
)
def test_more_hands_than_stations_want_stations_too(places, words):
    # Three castings of two hours in two hours: three pairs, and one is there.
    steps = [Step(f"cast {n}", 120) for n in range(3)]
    found = make_plan(steps, (), Lab(1, ((480, 600),), stations=stations_of({"window": places})), seconds=5)
    assert words in f"{next(change.words for change in found.changes if change.sort == 'teams')}."


@pytest.mark.parametrize("students, pairs", [(16, 8), (17, 8), (1, 1), (24, 12), (25, 12)])
def test_students_work_in_pairs_one_of_them_a_three(students, pairs):
    assert paired(students, lab_of()).teams == pairs


@pytest.mark.parametrize("students, words", [(0, "whole number"), (2.5, "whole number"), (26, "36 in threes")])
def test_students_without_a_place_are_a_sentence(students, words):
    # Twelve stations: 26 students are 13 pairs; in threes twelve stations hold 36.
    with pytest.raises(StudentError) as refused:
        paired(students, lab_of())
    assert words in str(refused.value)


def test_the_command_counts_students(tmp_path, capsys):
    (tmp_path / "order.txt").write_text("24 dark", encoding="utf-8")
    arguments = ["plan", str(tmp_path / "order.txt"), "--out", str(tmp_path / "out"), "--seconds", "5", "--students"]
    assert commands.main([*arguments, "40"]) == 2
    assert "20 pairs, and 12 stations" in capsys.readouterr().err
    assert commands.main([*arguments, "4"]) == 0


def test_stations_on_the_page(own_workbook):
    own = benches.own_bench()
    own.order.value, own.boxes["pairs"].value = "24 hazelnut", "13"
    own.press.click()
    assert "13 pairs and 12 stations" in own.said.value and not own.papers.value
    own.boxes["stations"].value = "13"
    own.press.click()
    assert own.papers.value
    own.boxes["stations"].value = ""  # pairs with no place of their own
    own.press.click()
    assert own.papers.value


# --- left over --------------------------------------------------------------------------------------------------------


def test_a_filling_left_over_is_not_made_again():
    # 24 dark: 770 g of filling for 96 pieces, so 770 x 24 / 96 / 0.95 = 202.6 g; 100 g are there.
    whole = quantities({"dark ganache": 24}, left="5 %").flavours[0]
    part = quantities({"dark ganache": 24}, left="5 %", brought={"dark ganache": 100.0}).flavours[0]
    assert whole.filled == pytest.approx(770 * 24 / 96 / 0.95)
    assert part.filled == pytest.approx(whole.filled - 100) and part.aside == 0
    assert part.filling["heavy cream 36 %"] == pytest.approx(260 / 770 * part.filled)
    assert part.shells == whole.shells


def test_all_of_a_filling_left_over_needs_no_making():
    found = quantities({"dark ganache": 24}, left="5 %", brought={"dark ganache": 300.0})
    steps, _ = steps_of(found)
    assert [step.name.split(":")[0] for step in steps] == ["cast", "fill", "cap", "turn out"]
    assert found.flavours[0].aside == pytest.approx(300 - 770 * 24 / 96 / 0.95)
    assert "heavy cream 36 %" not in found.ingredients
    assert make_plan(*steps_of(found), lab_of(), seconds=5).placed


def test_what_comes_in_and_what_is_over_is_said():
    usual = {"left": "5 %", "lost": "5 g", "rest": "150 g"}
    brought = {"dark ganache": 300.0, DARK: 5000.0}
    used, over = left_over_words(quantities({"dark ganache": 20}, brought=brought, **usual))
    # 202.6 g of filling are wanted. One mould of 24 in all: 24 x 11.5 mL x 1.22 = 336.7 g to fill it, and 150 g of rest.
    assert "203 g (7.16 oz) of dark ganache filling" in used and "487 g" in used and "food code" in used
    assert "4 more pieces of dark ganache" in over and "98 g" in over and "4514 g" in over
    assert not any("safe" in said for said in (used, over))


def test_nothing_left_over_and_nothing_over_says_nothing_of_it():
    assert left_over_words(quantities({"dark ganache": 24}, lost="0 g"))[0].startswith("Over at the end")
    with pytest.raises(StudentError, match="left over"):
        quantities({"dark ganache": 24}, brought={"hazelnut praline": 10.0})


def test_left_over_on_the_page_and_by_the_command(own_workbook, tmp_path):
    own = benches.own_bench()
    own.order.value, own.boxes["left"].value = "60 dark\n48 hazel", "300 g hazelnut praline, 1.2 kg dark couverture"
    own.press.click()
    assert "Used of what was left over: 300 g" in own.said.value and "of hazelnut praline filling" in own.said.value
    own.boxes["left"].value = "some praline"
    own.press.click()
    assert "so many grams" in own.said.value and not own.papers.value
    (tmp_path / "order.txt").write_text("60 dark\nleft over: 1.2 kg dark couverture", encoding="utf-8")
    assert commands.main(["plan", str(tmp_path / "order.txt"), "--out", str(tmp_path / "out"), "--seconds", "5"]) == 0
    assert "Used of what was left over" in (tmp_path / "out" / "day.html").read_text(encoding="utf-8")
    assert "Over at the end" in (tmp_path / "out" / "requisition.html").read_text(encoding="utf-8")


def test_sections_on_the_page_are_one_day_and_it_says_so(own_workbook):
    own = benches.own_bench()
    own.order.value = "A class:\n24 hazel\nB class:\n24 hazel\nnote: ribbon"
    own.press.click()
    assert (
        "2 sections (A class, B class) are added up" in own.said.value
        and "On the order: note: ribbon" in own.said.value
    )
    assert "48 good pieces" in own.said.value


def test_an_order_kept_before_there_were_stations_opens(own_workbook):
    own = benches.own_bench()
    text = 'order,"24 hazelnut"\npairs,8\nmachines,2\nrejects,10 %\nhours,8-12:30\n"square, 24",8\n"dome, 28",12\n'
    own._opened("old", type("Kept", (), {"text": text})())
    assert own.boxes["stations"].value == "12" and own.papers.value


def test_a_sheet_is_read_as_it_is_shown():
    assert read_sheet("Fri:\n24 dark").title == "Fri"
