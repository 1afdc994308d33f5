"""Lesson 02 as a student meets it: smears that are looked at, and a log of one's own."""

import re

import pytest

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


def test_four_smears_are_looked_at_before_they_are_named(desk):
    page = desk.page
    desk.show("02-tempering.ipynb")
    desk.run("benches.tempering.smears()")
    card = page.locator(".jp-OutputArea-output").filter(has=page.get_by_role("button", name="none of them"))
    pictures = card.locator("img")
    assert pictures.count() == 4 and not re.search(r"temper|seeded", " ".join(card.all_inner_texts()))
    for letter, words in (("C", "C is under-seeded"), ("none of them", "cast nothing until"), ("A", "A is in temper")):
        card.get_by_role("button", name=letter, exact=True).click()
        card.get_by_text(re.compile(words)).wait_for(timeout=20_000)


def test_a_stranger_reads_a_log_of_his_own(desk):
    page = desk.page
    desk.show("02b-hold-and-read.ipynb")
    desk.run("guess_hold()", "hold_bench()", "log_bench(")
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
    assert desk.complaints() == []
