"""Keys and exercises of a class as a browser prints them, on A4 and on US letter: each student on pages of their own,
no question in two parts, nothing that sticks out."""

import re

import pytest
from depth import depth

from pastrylab.course.catalogue import FOLDERS
from pastrylab.desk import keys

pytestmark = [pytest.mark.browser, pytest.mark.slow]

PAPERS = (("A4", 688, 1010), ("Letter", 710, 940))  # inside the margins, in CSS pixels
_OUT = "() => [...document.querySelectorAll('.keys *')].filter(e => e.getBoundingClientRect().right > innerWidth + 1).length"
_TALLEST = """() => Math.max(...[...document.querySelectorAll('.student')].map(student => student.tHead.offsetHeight +
    Math.max(...[...student.tBodies[0].rows].map(row => row.offsetHeight))))"""


@pytest.mark.parametrize("lesson", depth(["02", "09"], FOLDERS))
def test_a_class_on_paper(chromium, tmp_path, lesson):
    roll = tmp_path / "list.csv"
    roll.write_text(f'number,name,section,larger print\n17,"{"W" * 200}",A,\n18,Bo Doe,A,yes\n', encoding="utf-8")
    keys.make_keys(tmp_path, roll, [lesson], sheets=True)
    page = chromium.new_page()
    page.emulate_media(media="print")
    wrong = []
    for what in ("key", "exercises", "grid"):
        page.goto((tmp_path / f"lesson-{lesson}-{what}.html").as_uri())
        alone = page.evaluate("() => document.querySelectorAll('.student').length")
        for paper, width, height in PAPERS:
            pages = len(re.findall(rb"/Type\s*/Page\b", page.pdf(format=paper)))
            page.set_viewport_size({"width": width, "height": 900})
            if page.evaluate(_OUT) or pages < max(1, alone):
                wrong.append((what, paper, pages))
            if alone and page.evaluate(_TALLEST) > height:
                wrong.append((what, paper, "a question is taller than a page"))
            if what == "grid" and pages != 1:
                wrong.append((what, paper, pages))
    page.close()
    assert wrong == []
