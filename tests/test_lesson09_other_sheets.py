"""Lesson 09 in another kitchen: where the three sheets say otherwise, no number on the page is stale or against the bench.

The other kitchen is invented for this test; its numbers are worked by hand below.
"""

import json
import re
from pathlib import Path

import pytest

from pastrylab.course.labday import benches
from pastrylab.trade.orders import kitchen, larkmoor

pytestmark = pytest.mark.usefixtures("undrawn")

LESSON = Path(__file__).parents[1] / "lessons" / "09-plan-a-lab-day.ipynb"
OTHER = {
    "moulded.csv": """bonbon,mould,cavities,cavity_ml,cap_g,make_min,rest_least_min,rest_most_min,crystal_least_min,crystal_most_min,source
hazelnut praline,"bar, 30",30,12,1.2,20,10,90,60,4320,invented
dark ganache,"round, 40",40,11.5,1.2,25,30,180,600,2160,invented
""",
    "stock.csv": "ingredient,on_hand_g,lead_days,source\ndark couverture 64 %,0,9,invented\n",
    "lab.csv": """sort,name,count,opens,closes,source
pairs,pairs,5,,,invented
machine,tempering machine,1,,,invented
thing,"round, 40",6,,,invented
thing,"bar, 30",6,,,invented
day,Monday,1,9:00,12:00,invented
day,Tuesday,2,9:00,12:00,invented
""",
}


def said(html):
    return " ".join(re.sub(r"<[^>]+>", " ", html).split())


@pytest.fixture
def other(own_workbook):
    (own_workbook / "datasets").mkdir()
    for name, text in OTHER.items():
        (own_workbook / "datasets" / name).write_text(text, encoding="utf-8")
    return own_workbook


def cells():
    for cell in json.loads(LESSON.read_text(encoding="utf-8"))["cells"]:
        if cell["cell_type"] == "code":
            yield cell["id"], "".join(cell["source"]), cell


def test_the_sheets_as_they_come_are_the_larkmoor_kitchen(own_workbook):
    assert kitchen() == larkmoor()


def test_every_cell_runs_and_the_worked_examples_print_what_stands_on_the_page(other, capsys):
    compared = 0
    for name, source, cell in cells():
        capsys.readouterr()
        exec(compile(source, name, "exec"), {})
        if "nbval-check-output" in cell["metadata"].get("tags", ()):
            compared += 1
            assert capsys.readouterr().out == "".join(cell["outputs"][0]["text"]), name
    assert compared == 4


def test_guess_and_bench_speak_of_one_kitchen(other):
    asked = said(benches.guess_begin().children[0].value)
    assert "96 hazelnut praline and 60 dark ganache are fetched when the lab closes: day 2, 12:00" in asked
    assert "Pairs: 5. Tempering machines: 1. Open 9:00 to 12:00 on 2 days" in asked
    bench = benches.order_bench()
    assert list(bench.numbers) == ["hazelnut", "dark", "pairs", "machines"]
    assert [bench.numbers[name].value for name in ("pairs", "machines")] == [5, 1]
    legend = said(bench.children[-1].value)
    assert "9:00 to 12:00 on 2 days" in legend and "6 of bar, 30 and 6 of round, 40" in legend
    assert "The sheets of your kitchen say otherwise" in legend and "8:00" not in legend
    bench.press.click()
    # Dark on day 1, filled by noon: two moulds (60 / 0.9 / 40 = 1.7), 10 min of filling, 30 of rest, 25 to make: 10:55.
    assert "from 10:55 to 12:00" in said(bench.shown.said.value)


def test_ones_own_day_opens_with_the_sheets_and_the_story_with_larkmoor(other):
    own = benches.own_bench()
    assert own.order.value == "5 boxes of 12 hazelnut praline\ndark ganache; 4 dozen"
    assert own.boxes["hours"].value == "9:00-12:00; day 2 9:00-12:00"
    assert {name: box.value for name, box in own.moulds.items()} == {"bar, 30": "6", "round, 40": "6"}
    own.press.click()
    assert "60 good pieces are 3 fills of bar, 30" in said(own.said.value) and own.papers.value
    story = benches.no_night_bench()
    assert list(story.moulds) == ["square, 24", "dome, 28"]
    story.press.click()
    assert "12 h of rest" in story.said.value


def test_the_larkmoor_bench_says_that_it_is_the_worked_example(own_workbook):
    assert "All as in the worked example below" in benches.order_bench().children[-1].value
