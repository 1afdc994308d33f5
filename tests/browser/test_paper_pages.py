"""Sheets as a browser prints them: one page is one page, on A4 and on US letter, and nothing sticks out."""

import re

import pytest

from pastrylab.desk import paper

pytestmark = [pytest.mark.browser, pytest.mark.slow]

_OUT = "() => [...document.querySelectorAll('.page *')].filter(e => e.getBoundingClientRect().right > innerWidth + 1).length"


def test_each_sheet_of_every_lesson_is_one_page_on_both_papers(chromium, tmp_path):
    paper.paper_of((), tmp_path, benches="1")
    page = chromium.new_page()
    wrong = []
    for path in sorted(tmp_path.glob("*.html")):
        page.goto(path.as_uri())
        for paper_size, width in (("A4", 688), ("Letter", 710)):  # inside the margins, in CSS pixels
            found = len(re.findall(rb"/Type\s*/Page\b", page.pdf(format=paper_size)))
            page.set_viewport_size({"width": width, "height": 900})
            if found != 1 or page.evaluate(_OUT):
                wrong.append((path.name, paper_size, found))
    page.close()
    assert wrong == []
