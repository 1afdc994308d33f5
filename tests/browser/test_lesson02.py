"""Lesson 02 as a student meets it: JupyterLab in a real browser, keyboard and all."""

import re

import pytest

from pastrylab.course.catalogue import exercise
from pastrylab.school.engine import case

pytestmark = [pytest.mark.browser, pytest.mark.slow]

STRANGER = """Tuesday, bowl 3, dark
2:05 pm, 118 F
2:12 pm, 116
2:15 pm, 104 seed
2:20 pm, 96.5
2:26 pm, 91.4
2:33 pm, 89.9
2:41 pm, 89.4
2:50 pm, 89.6
"""


def says(page, pattern, timeout=20_000):
    page.locator(".jp-OutputArea-output").get_by_text(re.compile(pattern)).first.wait_for(timeout=timeout)


def test_a_student_goes_through_the_lesson(open_lesson, lab):
    page = open_lesson("02-tempering.ipynb", "Your answer, with its unit")
    says(page, r"Lesson 02 · pastrylab .* exercise values [0-9a-f]{8}")
    outputs = page.locator(".jp-OutputArea-output")
    assert outputs.get_by_text(re.compile(r"^Right")).count() == 0, "an untouched lesson must not say 'right'"
    assert page.locator(".jp-OutputArea-output img:not([alt])").count() == 0

    # a guess, then a control moved by keyboard alone
    page.get_by_label("My guess").fill("800 g")
    page.get_by_label("My guess").press("Enter")
    says(page, "Kept: 800 g")
    says(page, r"Needs 578 g of seed")
    seed_bench = page.locator(".jp-OutputArea-output").filter(has=page.get_by_label("Melted chocolate (kg)"))
    handle = seed_bench.locator("[role=slider]").first
    handle.focus()
    for _ in range(10):
        page.keyboard.press("ArrowRight")
    says(page, r"Needs 867 g of seed")
    says(page, r"For the bowl you were asked about you said 800 g, the sum says 578 g")
    page.locator('.jp-OutputArea-output img[alt*="867 g of seed"]').first.wait_for(timeout=20_000)

    # an exercise answered with a slip, then rightly
    box = page.get_by_label("Your answer, with its unit").nth(2)
    seed = case(exercise("02.seed-for-a-bowl"))
    slip, wrong = seed.wrong[0]
    box.fill(seed.exercise.how.show(wrong).split(" (")[0])
    box.press("Enter")
    says(page, re.escape(slip.says.split(",")[0]))
    box.fill(seed.answer.split(" (")[0])
    box.press("Enter")
    says(page, r"^Right")
    fine(page)

    # and there again when the lesson is opened again
    open_lesson("02-tempering.ipynb", "Your answer, with its unit")
    assert page.get_by_label("Your answer, with its unit").nth(2).input_value() == seed.answer.split(" (")[0]
    assert (lab[1] / "lessons" / "my-answers" / "02.jsonl").is_file()


def fine(page):
    ours = [c for c in page.complaints if not re.search(r"Failed to load resource|favicon|net::ERR", c)]
    assert ours == []


def test_four_smears_are_looked_at_before_they_are_named(desk):
    desk.open("02-tempering.ipynb")
    page = desk.page
    card = page.locator(".jp-OutputArea-output").filter(has=page.get_by_role("button", name="none of them"))
    pictures = card.locator("img")
    assert pictures.count() == 4 and not re.search(r"temper|seeded", " ".join(card.all_inner_texts()))
    for letter, words in (("C", "C is under-seeded"), ("none of them", "cast nothing until"), ("A", "A is in temper")):
        card.get_by_role("button", name=letter, exact=True).click()
        card.get_by_text(re.compile(words)).wait_for(timeout=20_000)


def test_a_stranger_reads_a_log_of_his_own(desk):
    desk.open("02b-hold-and-read.ipynb")
    page = desk.page
    page.get_by_label("My guess").fill("12 min")
    page.get_by_label("My guess").press("Enter")
    says(page, "Kept: 12 min")
    says(page, "From 32 °C, left alone, after 5 minutes")

    # a stranger's log, pasted
    reader = page.locator(".jp-OutputArea-output").filter(has=page.get_by_label("Seeded after"))
    reader.get_by_label("Paste a log").fill(STRANGER)
    reader.get_by_role("button", name="Read the log").click()
    reader.get_by_role("button", name="Show the verdict").click()
    says(page, r"Consistent with temper: 8 readings over 45 minutes")
    says(page, "smear")

    # the same bowl, left on the heat, loaded as a file
    reader.get_by_label("Paste a log").fill("")
    hot = STRANGER.replace("2:41 pm, 89.4", "2:41 pm, 97.5").replace("2:50 pm, 89.6", "2:50 pm, 98.2")
    with page.expect_file_chooser() as chooser:
        reader.get_by_role("button", name=re.compile("Load a log file")).click()
    sheet = {"name": "bowl3.csv", "mimeType": "text/csv", "buffer": hot.encode("cp1252")}
    chooser.value.set_files(sheet)
    reader.get_by_role("button", name="Show the verdict").click()
    says(page, r"Not consistent with temper: 8 readings")
    fine(page)
