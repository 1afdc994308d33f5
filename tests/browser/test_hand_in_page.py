"""The last card of a lesson in a browser: a number typed by keyboard, the file made, and a copy saved from the page."""

import shutil
import zipfile

import pytest

pytestmark = [pytest.mark.browser, pytest.mark.slow]


def test_number_typed_file_made_and_a_copy_saved(desk, lab, no_answers):
    page = desk.page
    try:
        desk.show("05-keeping.ipynb")
        desk.run("benches.hand_in(")
        card = page.locator(".jp-OutputArea-output", has=page.get_by_role("button", name="Make my file"))
        line = '{"when": "2026-03-02T10:00:00+00:00", "student": "", "exercise": "05.highest-reading", '
        (no_answers / "05.jsonl").write_text(line + '"answer": "0.8", "values": "gone"}\n', encoding="utf-8")
        card.get_by_label("Your class number").fill("017")
        card.get_by_label("Section, if there are several").fill("B")
        card.get_by_label("Section, if there are several").press("Enter")
        link = card.get_by_role("link", name="Save a copy")
        link.wait_for()
        assert "1 answer to lesson 05" in card.inner_text()
        with page.expect_download() as download:
            link.click()
        (made,) = (lab[1] / "hand-in").glob("lesson-05_number-17_section-b_*.zip")
        assert download.value.suggested_filename == made.name
        assert download.value.path().read_bytes() == made.read_bytes()
        assert zipfile.ZipFile(made).testzip() is None
    finally:
        shutil.rmtree(lab[1] / "hand-in", ignore_errors=True)
