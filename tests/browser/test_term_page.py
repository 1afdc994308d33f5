"""A term of five students through JupyterLab: their numbers, their answers, new values in mid-term, handed in, marked.

What each typed and what it is worth is kept in plain arithmetic, as in the term that is simulated without a browser.
"""

import csv
import re
import shutil
import sys
from pathlib import Path

import pytest

from pastrylab.desk.marked import mark_folder
from pastrylab.school import exercise_values

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "marking"))
from term_by_hand import EARLY, LATE, LATE_ROW, LESSON, OTHER, ROW, RULES, WHICH, right, row_of  # noqa: E402

pytestmark = [pytest.mark.browser, pytest.mark.slow, pytest.mark.deep]

TITLES = {WHICH: "What weight of lemons?", OTHER: "A price from the food cost"}
PLAN = {  # by number: before the new values, and after them
    "17": ([(WHICH, "right")], []),
    "18": ([(WHICH, "200 g"), (WHICH, "lots")], [(WHICH, "right"), (OTHER, "right")]),
    "19": ([(OTHER, "1 USD"), (OTHER, "2 USD")], [(OTHER, "right"), (OTHER, "3 USD")]),
    "20": ([], [(WHICH, "17"), (WHICH, "right")]),
    "21": ([(WHICH, "right"), (OTHER, "right")], [(WHICH, "200 g")]),
}


def press(page, which, text):
    card = page.locator(".jp-OutputArea-output", has=page.get_by_text(TITLES[which], exact=True)).last
    box = card.get_by_role("textbox").first
    before = card.inner_text()
    box.fill(text)
    card.get_by_role("button", name="Check", exact=True).click()
    page.wait_for_function("([card, before]) => card.innerText !== before", arg=[card.element_handle(), before])


def opened(page, address):
    page.goto(re.sub(r"/doc/tree/[^?]*", "/doc/tree/lessons/08-cost-and-price.ipynb", address))
    page.locator("#jp-main-statusbar").get_by_text(re.compile(r"Python 3.*\| Idle")).first.wait_for(timeout=90_000)
    page.get_by_role("menuitem", name="Run", exact=True).click()
    page.get_by_role("menuitem", name="Run All Cells", exact=True).click()
    page.get_by_label("Your class number").last.wait_for(timeout=120_000)


def test_five_students_through_the_page(windows, lab, tmp_path):
    address, copy = lab
    mine, values = copy / "lessons" / "my-answers", copy / "datasets" / "exercise_values.csv"
    as_it_was, page, log = values.read_text(encoding="utf-8"), windows(), {}
    (tmp_path / "values").mkdir()
    (tmp_path / "in").mkdir()
    try:
        for number, halves in PLAN.items():
            shutil.rmtree(mine, ignore_errors=True)
            shutil.rmtree(copy / "hand-in", ignore_errors=True)
            mine.mkdir()
            (mine / "student.txt").write_text(f"{number}\n", encoding="utf-8")
            typed = []
            for rows, text_of_values, half in zip(
                (EARLY, LATE), (as_it_was, as_it_was.replace(ROW, LATE_ROW)), halves, strict=True
            ):
                values.write_text(text_of_values, encoding="utf-8")
                given_out = exercise_values.values(values)
                (tmp_path / "values" / f"{given_out.id}.csv").write_text(given_out.to_csv(), encoding="utf-8")
                opened(page, address)
                for which, text in half:
                    good = {"right": True, "lots": None, "17": None}.get(text, False)
                    typed.append((which, right(which, number, rows) if good else text, good))
                    press(page, which, typed[-1][1])
            card = page.locator(".jp-OutputArea-output", has=page.get_by_role("button", name="Make my file"))
            card.get_by_label("Your class number").fill(f"0{number}")
            card.get_by_label("Your class number").press("Enter")
            link = card.get_by_role("link", name="Save a copy")
            link.wait_for()
            with page.expect_download() as download:
                link.click()
            shutil.copy(download.value.path(), tmp_path / "in" / f"download ({number}).zip")
            log[number] = row_of(typed)
            page.evaluate("async () => { await jupyterapp.serviceManager.sessions.shutdownAll() }")
    finally:
        values.write_text(as_it_was, encoding="utf-8")
        shutil.rmtree(mine, ignore_errors=True)
        shutil.rmtree(copy / "hand-in", ignore_errors=True)
        page.close()
    (tmp_path / "list.csv").write_text("number\n" + "".join(f"{number}\n" for number in PLAN), encoding="utf-8")
    (tmp_path / "rules.csv").write_text(RULES, encoding="utf-8")
    mark_folder(
        tmp_path / "in", tmp_path / "list.csv", tmp_path / "marks", [tmp_path / "values"], tmp_path / "rules.csv"
    )
    with open(tmp_path / "marks" / "lessons.csv", encoding="utf-8-sig", newline="") as file:
        marked = {row["number"]: row for row in csv.DictReader(file) if row["lesson"] == f"lesson {LESSON}"}
    assert {number: {name: marked[number][name] for name in row} for number, row in log.items()} == log
    flags = (tmp_path / "marks" / "flags.csv").read_text(encoding="utf-8-sig").splitlines()
    assert len(marked) == len(PLAN) and flags[1:] == [], "nothing lost, nothing crossed"
